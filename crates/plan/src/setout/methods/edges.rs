//! Edges off the centre line: each flag square off the line between its flag's two neighbours.

use super::BendJob;
use super::builder::Builder;
use crate::setout::{Note, PathLine};

/// Sets both edges beside centre-line flags that all stand at `spaces` equal spaces.
///
/// The line between two neighbours of a flag lies square to the bend there, so that both edges
/// stand on one square with it. At the end pegs the square is taken off the chord.
pub(super) fn off_the_centre_line(job: &BendJob, builder: &mut Builder, spaces: u32) {
    let station = |line: PathLine, nth: u32| job.station(line, nth, spaces);
    let edges: Vec<PathLine> = job.lines().into_iter().skip(1).collect();
    for nth in 0..=spaces {
        let line = match nth {
            _ if nth == 0 || nth == spaces => Some(job.ends()),
            _ => station(PathLine::Centre, nth - 1)
                .zip(station(PathLine::Centre, nth + 1))
                .map(|((before, _), (after, _))| [before, after]),
        };
        let (Some(line), Some((centre, _))) = (line, station(PathLine::Centre, nth)) else {
            continue;
        };
        for &edge in &edges {
            if let Some((flag, at)) = station(edge, nth) {
                builder.square(line, flag, at).check(&[[centre, flag]]);
            }
        }
    }
    builder.note(Note::LookAlong);
}

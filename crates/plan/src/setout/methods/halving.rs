//! Halving: the rise of the chord, of both half chords, of their halves, until the bow is small.

use geometry::Bend;

use super::BendJob;
use super::edges::off_the_centre_line;
use super::swing::with_apex;
use crate::setout::offsets::BOW;
use crate::setout::{Course, Method, Note, PathLine};

/// At most so many halvings after the apex: sixteen spaces.
const MOST: u32 = 3;

/// The apex, then the middle of each half, with the exact rises; the quarter rule stands beside
/// them as a check by eye.
#[must_use]
pub fn course(job: &BendJob) -> Course {
    let mut builder = with_apex(job);
    let halves = halvings(&job.bend());
    let spaces = 2 << halves;
    let mut before = job.bend();
    for level in 1..=halves {
        let part = before.half();
        let step = spaces >> level;
        for start in (0..spaces).step_by(step as usize) {
            let spots = [start, start + step, start + step / 2]
                .map(|nth| job.station(PathLine::Centre, nth, spaces));
            if let [Some((from, _)), Some((to, _)), Some((flag, at))] = spots {
                let quarter = builder.taped(0.25 * before.rise());
                builder.stretch(from, to);
                builder
                    .square([from, to], flag, at)
                    .check(&[[from, flag], [flag, to]])
                    .note(Note::QuarterRule {
                        quarter,
                        short: part.rise() - 0.25 * before.rise(),
                    });
            }
        }
        before = part;
    }
    off_the_centre_line(job, &mut builder, spaces);
    builder.bend(Method::Halving, job)
}

/// How often the halves are halved until the bow between flags is small; at least once.
fn halvings(bend: &Bend) -> u32 {
    let mut part = bend.half().half();
    let mut halves = 1;
    while part.rise() > BOW && halves < MOST {
        part = part.half();
        halves += 1;
    }
    halves
}

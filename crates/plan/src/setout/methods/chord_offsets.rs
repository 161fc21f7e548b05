//! Offsets from the chord at round running distances, from both half chords from a half circle on.

use std::collections::BTreeMap;

use geometry::{Direction, Point};

use super::BendJob;
use super::swing::with_apex;
use crate::setout::offsets::tables;
use crate::setout::{Course, Method, Note, OffsetRow, PathLine, Spot};

/// Flags on all three lines, square off the chord; the apex is set first and checks the rest.
///
/// Flags of one row bear one number, through both tables where there are two.
#[must_use]
pub fn course(job: &BendJob) -> Course {
    let mut builder = with_apex(job);
    let apex = Spot::Apex(job.number);
    let [first, last] = job.ends();
    let tables = tables(&job.bend(), job.width, job.pegs, &job.ruler, job.spacing);
    let strings = match tables.len() {
        1 => vec![[first, last]],
        _ => vec![[first, apex], [apex, last]],
    };
    let mut before: BTreeMap<PathLine, Spot> = BTreeMap::new();
    let mut nth = 0;
    for (table, &[from, to]) in tables.iter().zip(&strings) {
        if strings.len() > 1 {
            builder.stretch(from, to);
        }
        for row in &table.rows {
            nth += 1;
            for (line, at) in places(
                job,
                table.chord.exact,
                row,
                [from, to].map(|spot| builder.at(spot)),
            ) {
                let previous = before.get(&line).copied();
                let standing = match line {
                    PathLine::Centre => vec![first, apex, last],
                    _ => previous.into_iter().collect(),
                };
                let apart = |spot: Spot| builder.at(spot).distance(at);
                if standing
                    .into_iter()
                    .any(|spot| apart(spot) <= job.ruler.graduation.metres())
                {
                    continue;
                }
                let flag = job.flag(line, nth);
                builder.square([from, to], flag, at);
                builder.check(previous.map(|previous| [previous, flag]).as_slice());
                before.insert(line, flag);
            }
        }
    }
    builder.note(Note::LookAlong);
    builder.bend(Method::ChordOffsets, job)
}

/// Where the flags of a row stand, on each line that reaches it; `chord` is the table's own, which
/// decides which row is the last upon it.
fn places(
    job: &BendJob,
    chord: f64,
    row: &OffsetRow,
    [start, end]: [Point; 2],
) -> Vec<(PathLine, Point)> {
    let middle = start.middle(end);
    let way = Direction::of(end - start).unwrap_or(Direction::EAST);
    let left = way.left().unit();
    let to_the_apex = if job.arc.turns_left() { -left } else { left };
    let from_middle = row.stop(chord) - 0.5 * chord;
    [
        (PathLine::Centre, row.centre),
        (PathLine::Inside, row.inner),
        (PathLine::Outside, row.outer),
    ]
    .into_iter()
    .filter_map(|(line, offset)| {
        // An edge that ends nearly square to the chord may end before the tape's graduation.
        let radius = job.line(line)?.radius();
        let foot = middle + way.unit() * from_middle.clamp(-radius, radius);
        Some((line, foot + to_the_apex * offset?.exact))
    })
    .collect()
}

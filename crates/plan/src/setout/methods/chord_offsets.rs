//! Offsets from the chord at round running distances, from both half chords from a half circle on.

use std::collections::BTreeMap;

use geometry::{Bend, Direction, Point};

use super::BendJob;
use super::swing::with_apex;
use crate::setout::offsets::{reach, step, tables};
use crate::setout::{Course, Method, Note, OffsetRow, PathLine, Spot};

/// A flag of a row: on which line, its number, the string it is squared off, its place.
struct Flag {
    line: PathLine,
    nth: usize,
    string: [Spot; 2],
    at: Point,
}

/// Flags on all three lines, square off the chord; the apex is set first and checks the rest.
///
/// Flags of one row bear one number, through both tables where there are two.
#[must_use]
pub fn course(job: &BendJob) -> Course {
    let mut builder = with_apex(job);
    let apex = Spot::Apex(job.number);
    let [first, last] = job.ends();
    let tables = tables(&job.bend(), job.width, job.pegs, &job.ruler, job.spacing);
    let (strings, part) = match tables.len() {
        1 => (vec![[first, last]], job.bend()),
        _ => (vec![[first, apex], [apex, last]], job.bend().half()),
    };
    let step = job.spacing.unwrap_or_else(|| step(&part, job.ruler.units));
    let rows = tables
        .iter()
        .zip(&strings)
        .flat_map(|(table, string)| table.rows.iter().map(move |row| (table, *string, row)));
    let flags: Vec<Flag> = rows
        .enumerate()
        .flat_map(|(i, (table, string, row))| {
            let ends = string.map(|spot| builder.at(spot));
            let ended = edge_ended(job, &part, row, step);
            let flag = move |(line, at)| Flag {
                line,
                nth: i + 1,
                string,
                at,
            };
            places(job, table.chord.exact, row, ends)
                .into_iter()
                .filter(move |(line, _)| ended.is_none_or(|edge| edge == *line))
                .map(flag)
        })
        .collect();
    let stand = [first, apex, last].map(|spot| builder.at(spot));
    let mut strung = (strings.len() == 1).then(|| strings[0]);
    let mut before: BTreeMap<PathLine, Spot> = BTreeMap::new();
    for flag in thinned(&flags, &stand, 0.25 * step) {
        if strung != Some(flag.string) {
            builder.stretch(flag.string[0], flag.string[1]);
            strung = Some(flag.string);
        }
        let spot = job.flag(flag.line, flag.nth);
        builder.square(flag.string, spot, flag.at);
        let previous = before.insert(flag.line, spot);
        builder.check(previous.map(|previous| [previous, spot]).as_slice());
    }
    builder.note(Note::LookAlong);
    builder.bend(Method::ChordOffsets, job)
}

/// The edge for whose end alone a row is there, between the round distances.
fn edge_ended(job: &BendJob, part: &Bend, row: &OffsetRow, step: f64) -> Option<PathLine> {
    let along = row.along;
    let round = (along.tape / step).round() * step;
    let from_middle = (along.exact - 0.5 * part.chord()).abs();
    let ends = |edge: &PathLine| {
        let reach = reach(part, edge.outside(job.width));
        (from_middle - reach).abs() <= geometry::SAME_PLACE
    };
    [PathLine::Inside, PathLine::Outside]
        .into_iter()
        .filter(|_| (along.tape - round).abs() > job.ruler.graduation.metres())
        .find(ends)
}

/// The flags that are at least so far, in metres, from what stands on the centre line and from one
/// another; the ends of an edge always stay.
fn thinned<'a>(flags: &'a [Flag], stand: &[Point], least: f64) -> Vec<&'a Flag> {
    let of_line = |line: PathLine| flags.iter().filter(move |flag| flag.line == line);
    let ends = |line: PathLine| [of_line(line).next(), of_line(line).next_back()];
    let mut kept: BTreeMap<PathLine, Vec<Point>> = BTreeMap::new();
    for line in PathLine::OF_A_BEND {
        let fixed = match line {
            PathLine::Centre => stand.to_vec(),
            _ => ends(line)
                .into_iter()
                .flatten()
                .map(|flag| flag.at)
                .collect(),
        };
        kept.insert(line, fixed);
    }
    flags
        .iter()
        .filter(|flag| {
            let kept = kept.entry(flag.line).or_default();
            let is_end = flag.line != PathLine::Centre
                && ends(flag.line)
                    .into_iter()
                    .flatten()
                    .any(|end| std::ptr::eq(end, *flag));
            let stays = is_end || kept.iter().all(|at| at.distance(flag.at) >= least);
            if stays {
                kept.push(flag.at);
            }
            stays
        })
        .collect()
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

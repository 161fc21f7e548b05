//! Which offcuts serve again.

use std::collections::BTreeSet;

use geometry::PartCell;

use super::Course;

/// What the saw takes: the width of a diamond blade, 3 mm. Common practice, no source.
const KERF: f64 = 0.003;

/// Rectangles fit to a micrometre: what rounding leaves of two that are as long.
const HAIR: f64 = 1e-6;

/// How many cut pieces can be had from the offcuts of others.
///
/// Greedy: the largest piece takes a new unit, and the largest other one that fits the rectangle
/// left beside it is cut from the same; and so on. An offcut serves once. Pieces count as the
/// rectangles round them, so that what is said to fit does, whichever way it is skewed.
pub(super) fn reused(course: &Course, parts: &[PartCell]) -> usize {
    let size = |part: &PartCell| part.extent[0] * part.extent[1];
    let mut pieces: Vec<&PartCell> = parts.iter().collect();
    pieces.sort_by(|a, b| size(b).total_cmp(&size(a)));
    let mut waiting: BTreeSet<usize> = (0..pieces.len()).collect();
    let mut reused = 0;
    while let Some(first) = waiting.pop_first() {
        let first = pieces[first];
        // Those too large for what is left need not be tried.
        let left = rest(course, first.extent);
        let from = pieces.partition_point(|piece| size(piece) > left);
        let other = waiting
            .range(from..)
            .find(|other| fits(course, first.extent, pieces[**other].extent))
            .copied();
        if let Some(other) = other {
            waiting.remove(&other);
            reused += 1;
        }
    }
    reused
}

/// The area of the larger rectangle left of a unit beside a first.
fn rest(course: &Course, [along, across]: [f64; 2]) -> f64 {
    let (unit, taken) = (course.unit, taken(course));
    let beside = (unit.length - along - taken) * (unit.width + HAIR);
    let behind = (unit.width - across - taken) * (unit.length + HAIR);
    beside.max(behind)
}

/// What the saw takes for good: both pieces may be short by what the joint beside them can open, or
/// no unit would ever give two halves.
fn taken(course: &Course) -> f64 {
    KERF - 2.0 * (course.joints.most - course.joints.usual) - HAIR
}

/// Whether a second rectangle can be cut from a unit after a first.
fn fits(course: &Course, [first_along, first_across]: [f64; 2], [along, across]: [f64; 2]) -> bool {
    let (unit, taken) = (course.unit, taken(course));
    let beside = first_along + taken + along <= unit.length && across <= unit.width + HAIR;
    let behind = first_across + taken + across <= unit.width && along <= unit.length + HAIR;
    beside || behind
}

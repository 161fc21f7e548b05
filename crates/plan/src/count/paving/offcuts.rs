//! Which offcuts serve again.

use geometry::PartCell;

use super::Course;

/// What the saw takes: the width of a diamond blade, 3 mm. Common practice, no source.
const KERF: f64 = 0.003;

/// How many cut pieces can be had from the offcuts of others.
///
/// Greedy: of the pieces that need half a unit or less, the largest takes a new unit, and the
/// largest other one that fits the rectangle left beside it is cut from the same; and so on. An
/// offcut serves once. Pieces may be turned round but not over, and count as the rectangles round
/// them, so that what is said to fit does.
pub(super) fn reused(course: &Course, parts: &[PartCell]) -> usize {
    let size = |part: &PartCell| part.extent[0] * part.extent[1];
    let mut small: Vec<&PartCell> = parts.iter().filter(|part| part.share <= 0.5).collect();
    small.sort_by(|a, b| size(b).total_cmp(&size(a)));
    let mut served = vec![false; small.len()];
    let mut reused = 0;
    for first in 0..small.len() {
        if served[first] {
            continue;
        }
        let others = (first + 1..small.len()).find(|other| {
            !served[*other] && fits(course, small[first].extent, small[*other].extent)
        });
        if let Some(other) = others {
            served[other] = true;
            reused += 1;
        }
    }
    reused
}

/// Whether a second rectangle can be cut from a unit after a first. What the saw takes may make both
/// short by what the joint beside them can open, or no unit would ever give two halves.
fn fits(course: &Course, [first_along, first_across]: [f64; 2], [along, across]: [f64; 2]) -> bool {
    let (unit, joints) = (course.unit, course.joints);
    let taken = KERF - 2.0 * (joints.most - joints.usual);
    let beside = first_along + taken + along <= unit.length && across <= unit.width;
    let behind = first_across + taken + across <= unit.width && along <= unit.length;
    beside || behind
}

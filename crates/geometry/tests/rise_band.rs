//! The rises that fit: against dense looking, against values worked by hand, and what their ends mean.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::f64::consts::TAU;

use geometry::{
    Arc, Chain, Core, Keep, Line, Patch, Piece, Point, RiseRange, Vector, rises_that_fit,
};
use proptest::prelude::*;

fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

fn tree(x: f64, y: f64, radius: f64) -> Patch {
    Patch::new(Core::Point(at(x, y)), radius).unwrap()
}

fn area(points: &[(f64, f64)]) -> Patch {
    let next = points.iter().cycle().skip(1);
    let sides = points
        .iter()
        .zip(next)
        .map(|(from, to)| Piece::Line(Line::new(at(from.0, from.1), at(to.0, to.1)).unwrap()));
    Patch::new(Core::Area(Chain::new(sides.collect(), true).unwrap()), 0.0).unwrap()
}

fn wall(from: (f64, f64), to: (f64, f64)) -> Patch {
    let side = Piece::Line(Line::new(at(from.0, from.1), at(to.0, to.1)).unwrap());
    Patch::new(Core::Line(Chain::new(vec![side], false).unwrap()), 0.0).unwrap()
}

/// A round pond drawn with two half circles.
fn pond(x: f64, y: f64, radius: f64) -> Patch {
    let (west, east) = (at(x - radius, y), at(x + radius, y));
    let half = |from, to| Piece::Arc(Arc::from_rise(from, to, -radius).unwrap());
    let ring = Chain::new(vec![half(west, east), half(east, west)], true).unwrap();
    Patch::new(Core::Area(ring), 0.0).unwrap()
}

const PEGS: [(f64, f64); 2] = [(0., 0.), (8., 0.)];

fn band(half: f64, clearance: f64, patches: &[Patch]) -> Vec<RiseRange> {
    let keeps: Vec<Keep<'_>> = patches
        .iter()
        .map(|patch| Keep { patch, clearance })
        .collect();
    let pegs = PEGS.map(|(x, y)| at(x, y));
    rises_that_fit(pegs, half, &keeps, [-8.0, 8.0])
}

/// The outline of the path at a rise, and its centre line.
fn path(rise: f64, half: f64) -> Option<(Piece, Vec<Piece>)> {
    let [start, end] = PEGS.map(|(x, y)| at(x, y));
    let centre = match Arc::from_rise(start, end, rise) {
        Ok(arc) => Piece::Arc(arc),
        Err(_) => Piece::Line(Line::new(start, end).unwrap()),
    };
    let (left, right) = (centre.offset(half)?, centre.offset(-half)?);
    let end = |from, to| Piece::Line(Line::new(from, to).unwrap());
    let ends = [
        end(left.start(), right.start()),
        end(left.end(), right.end()),
    ];
    Some((centre, [vec![left, right], ends.to_vec()].concat()))
}

/// How far the path stays off every patch, by looking at the whole of it: the independent check.
fn clearance(rise: f64, half: f64, patches: &[Patch]) -> f64 {
    let Some((centre, outline)) = path(rise, half) else {
        return f64::NEG_INFINITY;
    };
    let off = |patch: &Patch| {
        let edges = outline.iter().map(|piece| patch.gap(piece).distance);
        let least = edges.fold(f64::INFINITY, f64::min);
        // A patch within the path touches no edge; its core lies nearer to the centre line.
        let core = match patch.core() {
            Core::Point(point) => *point,
            Core::Line(chain) | Core::Area(chain) | Core::Beyond(chain) => chain.start(),
        };
        let (along, foot) = centre.nearest(core);
        let beside = along > 0.0 && along < centre.length();
        if beside && foot.distance(core) < half {
            -1.0
        } else {
            least
        }
    };
    patches.iter().map(off).fold(f64::INFINITY, f64::min)
}

#[test]
fn a_tree_beside_the_chord_worked_by_hand() {
    // Half width 0.6, clearance 0.4, a stem of radius 0.2 straight above the middle at 3 m: the
    // apex may come to 3 − 0.2 − 0.4 − 0.6 = 1.8, or go round it from 3 + 1.2 = 4.2 on.
    let ranges = band(0.6, 0.4, &[tree(4.0, 3.0, 0.2)]);
    let near = |value: f64, wanted: f64| assert!((value - wanted).abs() < 1e-9, "{value}");
    assert_eq!(ranges.len(), 2, "{ranges:?}");
    near(ranges[0].to, 1.8);
    near(ranges[1].from, 4.2);
    assert_eq!((ranges[0].above, ranges[1].below), (Some(0), Some(0)));
    assert_eq!((ranges[0].below, ranges[1].above), (None, None));
}

#[test]
fn a_wall_along_the_chord_worked_by_hand() {
    let ranges = band(0.6, 0.3, &[wall((-20., 2.5), (20., 2.5))]);
    assert_eq!(ranges.len(), 1, "{ranges:?}");
    assert!((ranges[0].to - 1.6).abs() < 1e-9, "{ranges:?}");
}

#[test]
fn a_straight_that_fits_is_not_parted() {
    // Nothing happens at rise zero, where a bend changes sides.
    let ranges = band(0.6, 0.3, &[tree(4., 3., 0.1), tree(4., -3., 0.1)]);
    let zero = ranges.iter().filter(|r| r.from < 0.0 && 0.0 < r.to).count();
    assert_eq!(zero, 1, "{ranges:?}");
}

#[test]
fn a_gap_of_two_millimetres_between_two_trees_is_found() {
    // The path is 1.2 m wide and wants 0.3 m: between stems whose faces stand 1.802 m apart there
    // are 2 mm to spare, at the apex.
    let patches = [tree(4., 1.0, 0.1), tree(4., 1.0 + 1.802 + 0.2, 0.1)];
    let ranges = band(0.6, 0.3, &patches);
    let narrow: Vec<_> = ranges.iter().filter(|r| r.to - r.from < 0.01).collect();
    assert_eq!(narrow.len(), 1, "{ranges:?}");
    assert!((narrow[0].to - narrow[0].from - 0.002).abs() < 1e-9);
    assert_eq!((narrow[0].below, narrow[0].above), (Some(0), Some(1)));
}

#[test]
fn nothing_fits_where_a_peg_itself_stands_too_near() {
    assert!(band(0.6, 0.3, &[tree(8.0, 0.3, 0.1)]).is_empty());
    // All within a bed, all beyond a boundary.
    assert!(
        band(
            0.6,
            0.0,
            &[area(&[(-99., -99.), (99., -99.), (99., 99.), (-99., 99.)])]
        )
        .is_empty()
    );
}

#[test]
fn a_boundary_keeps_the_apex_in() {
    let ring = area(&[(-5., -3.), (13., -3.), (13., 4.), (-5., 4.)]);
    let Core::Area(outline) = ring.core() else {
        unreachable!("an area was made")
    };
    let beyond = Patch::new(Core::Beyond(outline.clone()), 0.0).unwrap();
    let ranges = band(0.5, 0.2, &[beyond]);
    assert_eq!(ranges.len(), 1, "{ranges:?}");
    assert!((ranges[0].from + 2.3).abs() < 1e-9 && (ranges[0].to - 3.3).abs() < 1e-9);
}

#[test]
fn too_wide_a_path_has_no_rises_without_an_inner_edge() {
    // With pegs 8 m apart and a path 9 m wide, radii from 4 to 4.5 m have no inner edge.
    let ranges = band(4.5, 0.0, &[]);
    let m = 4.5_f64;
    let [from, to] = [m - (m * m - 16.0).sqrt(), m + (m * m - 16.0).sqrt()];
    assert_eq!(ranges.len(), 3, "{ranges:?}");
    assert!((ranges[1].to - from).abs() < 1e-9 && (ranges[2].from - to).abs() < 1e-9);
}

fn patches() -> impl Strategy<Value = Vec<Patch>> {
    let place = || (-3.0..11.0, -7.0..7.0);
    let bed = (place(), 0.2..1.5, 0.2..1.5, 0.0..TAU).prop_map(
        |((x, y), a, b, turn): ((f64, f64), f64, f64, f64)| {
            let corner = |u: f64, v: f64| {
                let (sin, cos) = turn.sin_cos();
                (x + u * cos - v * sin, y + u * sin + v * cos)
            };
            area(&[corner(-a, -b), corner(a, -b), corner(a, b), corner(-a, b)])
        },
    );
    let one = prop_oneof![
        (place(), 0.01..0.5).prop_map(|((x, y), r)| tree(x, y, r)),
        (place(), 0.2..2.0).prop_map(|((x, y), r)| pond(x, y, r)),
        (place(), 0.2..4.0, 0.0..TAU).prop_map(|((x, y), length, turn)| {
            let end = at(x, y) + Vector::new(turn.cos(), turn.sin()) * length;
            wall((x, y), (end.x, end.y))
        }),
        bed,
    ];
    prop::collection::vec(one, 1..5)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Every rise that dense looking finds clear lies in a range, and none of the others does.
    #[test]
    fn the_ranges_are_what_dense_looking_finds(
        patches in patches(), half in 0.3..1.0, wanted in prop_oneof![Just(0.0), 0.05..0.8],
    ) {
        let ranges = band(half, wanted, &patches);
        for step in 0..640_i32 {
            let rise = -8.0 + f64::from(step) * 0.025 + 1e-4;
            let clear = clearance(rise, half, &patches);
            let to_spare = clear - wanted;
            let inside = ranges.iter().any(|r| r.from <= rise && rise <= r.to);
            // Where next to nothing is to spare, either may be said.
            if to_spare > 1e-6 {
                prop_assert!(inside, "{rise} fits by {to_spare}: {ranges:?}");
            } else if to_spare < -1e-6 {
                prop_assert!(!inside, "{rise} misses by {to_spare}: {ranges:?}");
            }
        }
    }

    /// At an end of a range the wanted clearance is kept exactly, from the patch that is named.
    #[test]
    fn an_end_of_a_range_gives_the_wanted_clearance(
        patches in patches(), half in 0.3..1.0, wanted in 0.05..0.8,
    ) {
        for range in band(half, wanted, &patches) {
            for (rise, by) in [(range.from, range.below), (range.to, range.above)] {
                let Some(by) = by else { continue };
                let kept = clearance(rise, half, &patches[by..=by]);
                prop_assert!((kept - wanted).abs() < 1e-6, "{rise}: {kept} for {wanted}");
            }
        }
    }
}

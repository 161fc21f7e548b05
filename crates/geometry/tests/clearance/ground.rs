//! Many patches at once: the index finds what looking at each would.

use std::time::{Duration, Instant};

use geometry::{Chain, Core, Ground, Patch, PatchGap, Piece, Point, Vector};
use proptest::prelude::*;

use super::making::{chain, cornered, moved, piece};
use super::patches::patches;

/// Where depths are found by subdividing, two ways of asking may each fall short by this.
const DEPTH_TOLERANCE: f64 = 1e-4;

/// A patch carried somewhere else.
fn carried(patch: &Patch, by: Vector) -> Patch {
    let carry = |chain: &Chain| moved(chain, 0.0, by, 1.0);
    let core = match patch.core() {
        Core::Point(point) => Core::Point(*point + by),
        Core::Line(line) => Core::Line(carry(line)),
        Core::Area(outline) => Core::Area(carry(outline)),
        Core::Beyond(outline) => Core::Beyond(carry(outline)),
    };
    Patch::new(core, patch.grown()).unwrap()
}

/// Overlapping patches of all kinds over 60 m by 60 m.
fn grounds() -> impl Strategy<Value = Ground> {
    let one = (patches(), -30.0..30.0_f64, -30.0..30.0_f64);
    prop::collection::vec(one, 0..25).prop_map(|all| {
        let carried = all
            .iter()
            .map(|(patch, x, y)| carried(patch, Vector::new(*x, *y)));
        Ground::new(carried.collect())
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn near_is_as_looking_at_each(ground in grounds(), path in cornered(2..4), reach in prop_oneof![Just(0.0), -2.0..8.0_f64]) {
        for piece in path.pieces() {
            let all = ground.patches().iter().map(|patch| patch.gap(piece)).enumerate();
            let meant: Vec<_> = all.filter(|(_, gap)| gap.distance <= reach).collect();
            prop_assert_eq!(ground.near(piece, reach), meant);
        }
    }

    #[test]
    fn nearest_is_the_least_of_all(ground in grounds(), x in -40.0..40.0_f64, y in -40.0..40.0_f64, reach in -1.0..20.0_f64) {
        let point = Point::new(x, y);
        let each = ground.patches().iter().map(|patch| patch.signed_distance(point).distance);
        let least = each.fold(f64::INFINITY, f64::min);
        match ground.nearest(point, reach) {
            Some((i, gap)) => {
                prop_assert!(gap.distance <= reach && (gap.distance - least).abs() < 1e-12);
                prop_assert_eq!(ground.patches()[i].signed_distance(point), gap);
            }
            None => prop_assert!(least > reach),
        }
    }

    #[test]
    fn a_chain_is_as_near_as_its_nearest_piece(ground in grounds(), path in cornered(2..9)) {
        let gaps = ground.gaps(&path);
        prop_assert_eq!(gaps.len(), ground.patches().len());
        for (found, patch) in gaps.iter().zip(ground.patches()) {
            let each = path.pieces().iter().map(|piece| patch.gap(piece).distance);
            let least = each.fold(f64::INFINITY, f64::min);
            let slack = if least < 0.0 { DEPTH_TOLERANCE } else { 1e-9 };
            prop_assert!((found.distance - least).abs() <= slack, "{found:?} {least}");
            prop_assert!(path.point_at(found.station).distance(found.from) < 1e-7);
            prop_assert!(path.pieces()[found.piece].nearest(found.from).1.distance(found.from) < 1e-7);
        }
    }
}

#[test]
fn no_patches_and_no_numbers() {
    let none = Ground::new(Vec::new());
    let path = piece(Point::ORIGIN, Point::new(3.0, 0.0), 0.5).unwrap();
    assert!(none.near(&path, 10.0).is_empty());
    assert_eq!(none.nearest(Point::ORIGIN, f64::INFINITY), None);
    assert_eq!(none.gaps(&chain(vec![path], false)), Vec::<PatchGap>::new());
    let stem = Patch::new(Core::Point(Point::new(1.0, 1.0)), 0.2).unwrap();
    let one = Ground::new(vec![stem]);
    assert_eq!(one.near(&path, f64::INFINITY).len(), 1);
    assert!(one.near(&path, f64::NAN).is_empty());
    for count in [1, 20] {
        let some = Ground::new(vec![one.patches()[0].clone(); count]);
        assert_eq!(some.nearest(Point::new(f64::NAN, 0.0), 9.0), None);
        assert!(some.near_point(Point::new(f64::NAN, 0.0), 9.0).is_empty());
    }
}

/// A round bed of many sides.
fn round(sides: u32, reach: f64) -> Chain {
    let corner = |i: u32| {
        let angle = std::f64::consts::TAU * f64::from(i % sides) / f64::from(sides);
        Point::new(reach * angle.cos(), reach * angle.sin())
    };
    let side = |i: u32| {
        let (from, to) = (corner(i), corner(i + 1));
        piece(
            from,
            to,
            if i.is_multiple_of(2) {
                0.0
            } else {
                0.1 * from.distance(to)
            },
        )
        .unwrap()
    };
    chain((0..sides).map(side).collect(), true)
}

#[test]
fn a_bed_of_a_hundred_thousand_sides() {
    let begun = Instant::now();
    let outline = round(100_000, 50.0);
    let bed = Patch::new(Core::Area(outline.clone()), 0.0).unwrap();
    let ground = Ground::new(vec![bed]);
    let spoke = |i: i32, from: f64, to: f64| -> Piece {
        let angle = f64::from(i) * 0.017;
        let way = Vector::new(angle.cos(), angle.sin());
        piece(Point::ORIGIN + way * from, Point::ORIGIN + way * to, 0.0).unwrap()
    };
    for i in 0..300 {
        let gap = ground.near(&spoke(i, 52.0, 60.0), 3.0)[0].1.distance;
        assert!((gap - 2.0).abs() < 1e-3, "{gap}");
        let gap = ground.near(&spoke(i, 46.0, 60.0), 0.0)[0].1.distance;
        assert!((gap + 4.0).abs() < 1e-3, "{gap}");
        assert!(ground.near(&spoke(i, 56.0, 60.0), 3.0).is_empty());
    }
    let path = chain(vec![spoke(0, 60.0, 70.0), spoke(0, 70.0, 80.0)], false);
    assert!((path.gap(&outline).distance - 10.0).abs() < 1e-3);
    assert!(outline.contains(Point::new(3.0, 4.0)));
    // Looking at each side for each of the 900 pieces would be 90 million looks: many times this,
    // which leaves room for a slow machine and no optimising.
    assert!(
        begun.elapsed() < Duration::from_secs(5),
        "{:?}",
        begun.elapsed()
    );
}

//! What holds for every path and build-up.

use plan::count::build_up::built_in;
use plan::count::{Pack, quantities};
use plan::document::Shape;
use proptest::prelude::*;

use crate::common::{plan_of, route};
use crate::plans::counted;

/// A path of a few legs that turns gently, so that wide trenches keep their edges.
fn path() -> impl Strategy<Value = plan::Plan> {
    prop::collection::vec((3.0..9.0_f64, -0.6..0.6_f64, any::<bool>()), 1..5).prop_map(|steps| {
        let (mut at, mut way) = ((0.0, 0.0), 0.0_f64);
        let mut points = vec![at];
        let mut legs = Vec::new();
        for (chord, turn, bent) in steps {
            way += turn;
            at = (at.0 + chord * way.cos(), at.1 + chord * way.sin());
            points.push(at);
            legs.push(if bent {
                Shape::bend(0.12 * chord)
            } else {
                Shape::Straight
            });
        }
        plan_of(route(&points, legs))
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn a_wider_path_needs_no_less(plan in path(), nth in 0_usize..7, wider in 0.01..0.4_f64) {
        let up = &built_in()[nth];
        let narrow = counted(&plan, up.clone());
        let mut plan = plan;
        plan.schemes[0].routes[0].width += wider;
        let wide = counted(&plan, up.clone());
        let stones = wide.stones.is_some();
        prop_assert!(wide.area > narrow.area || stones);
        prop_assert!(wide.dug.volume > narrow.dug.volume || stones);
        for need in &narrow.needs {
            // Whole rows may fill a wider path where a narrower one cuts the last.
            if narrow.paving.as_ref().is_some_and(|paving| paving.key == need.key) {
                continue;
            }
            // Joints stand farther apart on a wider path, and inner edges grow shorter.
            if need.key == "control-joint" || need.part == plan::count::Part::Edges {
                continue;
            }
            let again = wide.needs.iter().find(|again| again.key == need.key).unwrap();
            let slack = 0.02 * need.amount; // the curved share, and so the waste, is another
            prop_assert!(again.amount >= need.amount - slack, "{need:?} {again:?}");
        }
    }

    #[test]
    fn an_option_needs_what_its_paths_need(first in path(), second in path(), nth in 0_usize..7) {
        let up = &built_in()[nth];
        let mut both = first.clone();
        // Far off, so that neither lies on the other.
        let mut other = second.schemes[0].routes[0].clone();
        for waypoint in &mut other.waypoints {
            waypoint.at.y += 200.0;
        }
        both.schemes[0].routes.push(other);
        let (a, b) = (counted(&first, up.clone()), counted(&second, up.clone()));
        let sum = counted(&both, up.clone());
        let same = |sum: f64, a: f64, b: f64| (sum - a - b).abs() <= 1e-7 * (1.0 + sum.abs());
        prop_assert!(same(sum.area, a.area, b.area));
        prop_assert!(same(sum.length, a.length, b.length));
        prop_assert!(same(sum.dug.volume, a.dug.volume, b.dug.volume));
        prop_assert!(same(sum.spoil.loose.amount, a.spoil.loose.amount, b.spoil.loose.amount));
        prop_assert!(same(sum.left.length, a.left.length, b.left.length));
        for ((all, a), b) in sum.layers.iter().zip(&a.layers).zip(&b.layers) {
            prop_assert!(same(all.volume, a.volume, b.volume));
        }
        // And the shares of the paths are the whole.
        let area: f64 = sum.paths.iter().map(|path| path.area).sum();
        let left: f64 = sum.paths.iter().map(|path| path.left).sum();
        prop_assert!(same(sum.area, area, 0.0) && same(sum.left.length, left, 0.0));
    }

    #[test]
    fn packs_less_what_is_left_are_what_is_needed(
        plan in path(),
        nth in 0_usize..7,
        holds in 0.01..2000.0_f64,
    ) {
        let found = counted(&plan, built_in()[nth].clone());
        for need in &found.needs {
            let pack = Pack { name: "pack".into(), holds };
            let packed = need.packed(&pack);
            let bought = packed.count as f64 * holds;
            prop_assert!((bought - packed.left_over - need.amount).abs() <= 1e-9 * bought);
            prop_assert!(packed.left_over >= 0.0 && packed.left_over < holds);
        }
    }

    #[test]
    fn where_it_lies_and_which_way_it_runs_changes_nothing(
        plan in path(),
        nth in 0_usize..7,
        (x, y) in (-500.0..500.0_f64, -500.0..500.0_f64),
    ) {
        let up = &built_in()[nth];
        let here = counted(&plan, up.clone());
        let mut there = plan.clone();
        for waypoint in &mut there.schemes[0].routes[0].waypoints {
            waypoint.at.x += x;
            waypoint.at.y += y;
        }
        let moved = counted(&there, up.clone());
        let round = plan::Edit::TurnRound { scheme: 0, route: 0 };
        let turned = counted(&plan.with(&round).unwrap().plan, up.clone());
        for other in [&moved, &turned] {
            prop_assert!((other.area - here.area).abs() < 1e-7);
            prop_assert!((other.dug.volume - here.dug.volume).abs() < 1e-7);
        }
        prop_assert!((turned.left.length - here.right.length).abs() < 1e-7);
    }
}

#[test]
fn without_a_build_up_there_is_nothing_to_count() {
    let plan = crate::plans::bent_path();
    let solved = plan.solve();
    assert_eq!(quantities(&plan, &solved, 0), None);
    assert_eq!(quantities(&plan, &solved, 7), None);
}

//! Dragging pegs and apexes.

use geometry::{Figure, Point};
use plan::Plan;
use plan::document::Shape;
use plan::edit::{Edit, Stopped};
use proptest::prelude::*;

use super::common::{bend_of, drag, leg, path, plan, size_of, typed};

/// One bend from (0, 0) to (4, 0) with nothing typed.
fn one_bend(rise: f64) -> Plan {
    plan(&[(0., 0.), (4., 0.)], vec![Shape::bend(rise)])
}

fn at(plan: &Plan, waypoint: usize) -> Point {
    path(plan).waypoints[waypoint].at
}

/// The plan after one edit, and what stopped it.
#[track_caller]
fn after(plan: &Plan, edit: &Edit) -> (Plan, Option<Stopped>) {
    match plan.with(edit) {
        Ok(edited) => (edited.plan, edited.stopped),
        Err(why) => panic!("{edit:?}: {why}"),
    }
}

/// The bend with one figure typed as it already is.
fn holding(rise: f64, figure: Figure) -> Plan {
    let plan = one_bend(rise);
    match size_of(&plan, 0).figure(figure) {
        Some(value) => after(&plan, &typed(0, figure, value)).0,
        None => panic!("no {figure}"),
    }
}

#[track_caller]
fn near(actual: f64, expected: f64) {
    let off = (actual - expected).abs() / expected.abs().max(1e-9);
    assert!(off < 1e-9, "{actual} for {expected}");
}

#[test]
fn an_end_peg_keeps_the_sweep_and_the_other_peg() {
    for (dragged, rise) in [(0, 0.7), (1, 0.7), (1, -0.7), (0, 3.5)] {
        let before = one_bend(rise);
        let (plan, stopped) = after(&before, &drag(dragged, (5.5, 2.0)));
        assert_eq!(stopped, None);
        assert_eq!(at(&plan, dragged), Point::new(5.5, 2.0));
        assert_eq!(at(&plan, 1 - dragged), at(&before, 1 - dragged));
        near(size_of(&plan, 0).sweep(), size_of(&before, 0).sweep());
        assert_eq!(bend_of(&plan, 0).0 > 0.0, rise > 0.0, "the side stays");
    }
}

#[test]
fn one_typed_figure_holds_while_the_end_peg_moves() {
    for figure in Figure::ALL.into_iter().filter(|f| *f != Figure::Chord) {
        let before = holding(0.7, figure);
        for to in [(4.2, 0.3), (3.5, -1.0), (2.0, 1.5)] {
            let (plan, stopped) = after(&before, &drag(1, to));
            assert_eq!(stopped, None, "{figure} to {to:?}");
            assert_eq!(at(&plan, 1), Point::new(to.0, to.1));
            let held = |plan| size_of(plan, 0).figure(figure).unwrap();
            near(held(&plan), held(&before));
            assert_eq!(bend_of(&plan, 0).1, [figure], "it goes on holding");
        }
    }
}

#[test]
fn a_held_radius_does_not_turn_a_gentle_bend_into_the_long_way_round() {
    // Sweep about 120°: pulled in to a tenth of the chord the bend must become gentle, not 350°.
    let before = holding(1.15, Figure::Radius);
    let (plan, _) = after(&before, &drag(1, (0.4, 0.0)));
    near(size_of(&plan, 0).radius(), size_of(&before, 0).radius());
    assert!(size_of(&plan, 0).sweep() < 1.0, "{:?}", size_of(&plan, 0));
    // And the long way round stays the long way round.
    let before = holding(3.0, Figure::Radius);
    let (plan, _) = after(&before, &drag(1, (0.4, 0.0)));
    assert!(size_of(&plan, 0).sweep() > 5.0, "{:?}", size_of(&plan, 0));
}

#[test]
fn a_held_radius_out_of_reach_stops_at_the_half_circle_and_says_why() {
    let before = holding(1.15, Figure::Radius);
    let radius = size_of(&before, 0).radius();
    let (plan, stopped) = after(&before, &drag(1, (60.0, 80.0)));
    let figures = [Figure::Chord, Figure::Radius];
    assert_eq!(stopped, Some(Stopped::Holds { leg: 0, figures }));
    assert_eq!(
        stopped.unwrap().to_string(),
        "leg 1 holds its chord and radius: let one go to move this peg farther"
    );
    near(size_of(&plan, 0).radius(), radius);
    let chord = size_of(&plan, 0).chord();
    assert!(
        chord <= 2.0 * radius && chord > 1.999_999 * radius,
        "{chord}"
    );
    // It stands on the way to where it was dragged.
    let (from, to, stands) = (at(&before, 1), Point::new(60.0, 80.0), at(&plan, 1));
    assert!((to - from).cross(stands - from).abs() < 1e-9);
}

#[test]
fn a_held_chord_keeps_the_peg_on_its_circle() {
    for holds in [
        vec![Figure::Chord],
        vec![Figure::Chord, Figure::Radius],
        vec![Figure::Radius, Figure::Sweep],
    ] {
        let rise = 0.7;
        let shape = Shape::Bend {
            rise,
            holds: holds.clone(),
        };
        let before = plan(&[(0., 0.), (4., 0.)], vec![shape]);
        let (plan, stopped) = after(&before, &drag(1, (3.0, 9.0)));
        assert_eq!(stopped, None);
        near(at(&plan, 1).distance(Point::ORIGIN), 4.0);
        near(at(&plan, 1).y / at(&plan, 1).x, 3.0);
        assert_eq!(bend_of(&plan, 0), (rise, holds));
    }
}

#[test]
fn a_peg_between_two_held_chords_stays() {
    let shape = Shape::Bend {
        rise: 0.7,
        holds: vec![Figure::Chord],
    };
    let before = plan(&[(0., 0.), (4., 0.), (7., 2.)], vec![shape.clone(), shape]);
    let (plan, stopped) = after(&before, &drag(1, (4.0, 1.0)));
    assert_eq!(stopped, Some(Stopped::BothChords));
    assert_eq!(plan, before);
}

#[test]
fn a_held_chord_and_a_held_radius_both_hold_when_out_of_reach() {
    // Leg 1 keeps its chord: the peg goes round (0, 0). Leg 2 keeps its radius, so that at some
    // place on that circle its other peg is out of reach.
    let chord = Shape::Bend {
        rise: 0.7,
        holds: vec![Figure::Chord],
    };
    let radius = Shape::Bend {
        rise: 0.7,
        holds: vec![Figure::Radius],
    };
    let before = plan(&[(0., 0.), (4., 0.), (6., 0.)], vec![chord, radius]);
    let held = size_of(&before, 1).radius();
    let (plan, stopped) = after(&before, &drag(1, (-9.0, 1.0)));
    let figures = [Figure::Chord, Figure::Radius];
    assert_eq!(stopped, Some(Stopped::Holds { leg: 1, figures }));
    near(size_of(&plan, 0).chord(), 4.0);
    near(size_of(&plan, 1).radius(), held);
    assert!(
        at(&plan, 1).distance(at(&before, 1)) > 0.5,
        "it went as far as it could"
    );
}

#[test]
fn an_apex_moves_the_rise_alone_and_lets_go_of_all_but_the_chord() {
    let check = |holds: &[Figure], expected: &[Figure]| {
        let shape = Shape::Bend {
            rise: 0.7,
            holds: holds.to_vec(),
        };
        let before = plan(&[(0., 0.), (4., 0.)], vec![shape]);
        let (plan, _) = after(
            &before,
            &Edit::SetRise {
                id: leg(0),
                rise: -1.25,
            },
        );
        assert_eq!(bend_of(&plan, 0), (-1.25, expected.to_vec()));
        assert_eq!(path(&plan).waypoints, path(&before).waypoints);
    };
    check(&[], &[]);
    check(&[Figure::Radius], &[]);
    check(&[Figure::Chord], &[Figure::Chord]);
    check(&[Figure::Chord, Figure::Radius], &[Figure::Chord]);
    check(&[Figure::Radius, Figure::Sweep], &[]);
}

#[test]
fn a_shared_peg_follows_the_rule_for_both_legs() {
    let held = Shape::Bend {
        rise: -0.4,
        holds: vec![Figure::Rise],
    };
    let points = [(0., 0.), (4., 0.), (7., 1.), (9., 1.)];
    let before = plan(&points, vec![Shape::bend(0.7), held, Shape::Straight]);
    let (plan, stopped) = after(&before, &drag(1, (4.5, 0.6)));
    assert_eq!(stopped, None);
    near(size_of(&plan, 0).sweep(), size_of(&before, 0).sweep());
    near(bend_of(&plan, 1).0, -0.4);
    assert_eq!(at(&plan, 3), at(&before, 3));
}

#[test]
fn on_a_closed_path_the_first_peg_moves_the_last_leg_too() {
    let points = [(0., 0.), (4., 0.), (4., 4.), (0., 4.)];
    let before = plan(&points, vec![Shape::bend(0.5); 4]);
    let (plan, _) = after(&before, &drag(0, (-0.5, -0.3)));
    for (leg, moves) in [(0, true), (1, false), (2, false), (3, true)] {
        near(size_of(&plan, leg).sweep(), size_of(&before, leg).sweep());
        let same = size_of(&plan, leg) == size_of(&before, leg);
        assert_eq!(!same, moves, "leg {leg}");
    }
}

#[test]
fn onward_bends_follow_a_dragged_bend() {
    let points = [(0., 0.), (4., 0.), (7., 1.), (9., 3.)];
    let legs = vec![Shape::bend(0.7), Shape::Onward, Shape::Onward];
    let before = plan(&points, legs);
    let (plan, _) = after(&before, &drag(1, (4.5, 0.6)));
    let solved = plan.solve();
    let chain = solved.schemes[0].routes[0].centre_line.as_ref().unwrap();
    assert_eq!(chain.pieces().len(), 3);
    for joint in [1, 2] {
        assert!(chain.corner(joint).abs() < 1e-12, "smooth at {joint}");
    }
    for (i, waypoint) in path(&plan).waypoints.iter().enumerate().skip(2) {
        assert_eq!(waypoint.at, at(&before, i));
    }
}

#[test]
fn pegs_are_never_pushed_on_each_other_nor_off_the_ground() {
    let before = one_bend(0.7);
    let (plan, stopped) = after(&before, &drag(1, (0.0, 0.0)));
    assert_eq!(stopped, Some(Stopped::Limit));
    assert!(at(&plan, 1).distance(Point::ORIGIN) >= plan::limits::SHORTEST);
    let (plan, stopped) = after(&before, &drag(1, (3e5, 0.0)));
    assert_eq!(stopped, Some(Stopped::Limit));
    assert!((at(&plan, 1).x - plan::limits::COORDINATE).abs() < 1e-3);
}

#[test]
fn a_drag_to_where_the_peg_is_changes_nothing() {
    for figure in Figure::ALL {
        let before = holding(0.7, figure);
        assert_eq!(after(&before, &drag(1, (4.0, 0.0))), (before, None));
    }
}

proptest! {
    /// A drag touches the legs at the peg and nothing else, to the last bit.
    #[test]
    fn all_other_legs_stay_as_they_were(
        rises in prop::collection::vec(-3.0..3.0_f64, 6),
        dragged in 0_usize..6,
        to in (-20.0..20.0_f64, -20.0..20.0_f64),
        closed: bool,
    ) {
        let points = [(0., 0.), (4., 1.), (7., 1.), (9., 4.), (6., 7.), (1., 6.)];
        let count = if closed { 6 } else { 5 };
        let legs: Vec<Shape> = rises.iter().take(count).map(|r| Shape::bend(*r)).collect();
        let before = plan(&points, legs);
        let edited = before.with(&drag(dragged, to)).unwrap();
        prop_assume!(edited.stopped.is_none()); // dropped on a neighbour it stops beside it
        let edited = edited.plan;
        let (was, now) = (path(&before), path(&edited));
        let (one, other) = was.legs_at(dragged);
        for leg in (0..count).filter(|leg| Some(*leg) != one && Some(*leg) != other) {
            prop_assert_eq!(&now.legs[leg], &was.legs[leg]);
            let pieces = |plan: &Plan| plan.solve().schemes[0].routes[0].legs[leg].clone();
            prop_assert_eq!(pieces(&edited), pieces(&before));
        }
        for i in (0..6).filter(|i| *i != dragged) {
            prop_assert_eq!(now.waypoints[i], was.waypoints[i]);
        }
        prop_assert_eq!(now.waypoints[dragged].at, Point::new(to.0, to.1));
    }
}

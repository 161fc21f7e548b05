//! Edits of a path as a whole: the ground it runs over stays, whatever is done to its legs.

use geometry::{Chain, Direction, Point, Vector};
use plan::Plan;
use plan::document::{Pad, PadShape, Shape, Side};
use plan::edit::{Edit, End};
use proptest::prelude::*;

use super::common::{leg, path, peg, plan};

/// A path of straights and free bends, open or closed.
fn any_path() -> impl Strategy<Value = Plan> {
    let step = (
        (-9.0..9.0_f64, -9.0..9.0_f64),
        prop_oneof![Just(0.0), -2.0..2.0_f64],
    );
    (prop::collection::vec(step, 3..7), any::<bool>())
        .prop_map(|(steps, closed)| {
            let points: Vec<(f64, f64)> = steps.iter().map(|(at, _)| *at).collect();
            let count = if closed { steps.len() } else { steps.len() - 1 };
            let shape = |rise: f64| {
                if rise == 0.0 {
                    Shape::Straight
                } else {
                    Shape::bend(rise)
                }
            };
            plan(
                &points,
                steps
                    .iter()
                    .take(count)
                    .map(|(_, rise)| shape(*rise))
                    .collect(),
            )
        })
        .prop_filter("pegs on each other", |plan| {
            let pegs = &path(plan).waypoints;
            let next = pegs.iter().cycle().skip(1);
            pegs.iter()
                .zip(next)
                .all(|(a, b)| a.at.distance(b.at) > 0.1)
        })
}

fn with(plan: &Plan, edit: &Edit) -> Plan {
    match plan.with(edit) {
        Ok(edited) => edited.plan,
        Err(why) => panic!("{edit:?}: {why}"),
    }
}

/// The centre line of one path.
fn line(plan: &Plan, route: usize) -> Chain {
    match &plan.solve().schemes[0].routes[route].centre_line {
        Some(chain) => chain.clone(),
        None => panic!("nothing is drawn"),
    }
}

/// Whether two chains run over the same ground.
fn same_ground(one: &Chain, other: &Chain) -> Result<(), TestCaseError> {
    prop_assert!((one.length() - other.length()).abs() < 1e-9 * one.length());
    for i in 0..50 {
        let station = one.length() * f64::from(i) / 50.0;
        prop_assert!(other.nearest(one.point_at(station)).distance < 1e-9);
    }
    Ok(())
}

const FIRST: (usize, usize) = (0, 0);

fn turn_round() -> Edit {
    let (scheme, route) = FIRST;
    Edit::TurnRound { scheme, route }
}

proptest! {
    #[test]
    fn a_peg_put_on_a_leg_leaves_the_line(
        before in any_path(), number in 0..6_usize, near in (-9.0..9.0_f64, -9.0..9.0_f64),
    ) {
        let number = number % path(&before).legs.len();
        let near = Point::new(near.0, near.1);
        let after = with(&before, &Edit::InsertWaypoint { id: leg(number), near });
        prop_assert_eq!(path(&after).legs.len(), path(&before).legs.len() + 1);
        same_ground(&line(&before, 0), &line(&after, 0))?;
        // Taken out again the leg is as it was.
        let out = with(&after, &Edit::RemoveWaypoint { id: peg(number + 1) });
        prop_assert_eq!(&path(&out).waypoints, &path(&before).waypoints);
        same_ground(&line(&before, 0), &line(&out, 0))?;
    }

    #[test]
    fn turned_round_it_runs_over_the_same_ground(before in any_path()) {
        let round = with(&before, &turn_round());
        let (there, back) = (line(&before, 0), line(&round, 0));
        same_ground(&there, &back)?;
        prop_assert!((there.enclosed_area() + back.enclosed_area()).abs() < 1e-9);
        prop_assert_eq!(with(&round, &turn_round()), before);
    }

    #[test]
    fn parted_and_joined_it_is_the_same_path(before in any_path(), at in 0..6_usize) {
        let pegs = path(&before).waypoints.len();
        let at = at % pegs;
        if path(&before).closed {
            // A closed one opens there.
            let open = with(&before, &Edit::Split { id: peg(at) });
            prop_assert!(!path(&open).closed);
            let moved = line(&open, 0);
            same_ground(&line(&before, 0), &moved)?;
            prop_assert!(moved.start().distance(path(&before).waypoints[at].at) < 1e-12);
            let (scheme, route) = FIRST;
            let closed = with(&open, &Edit::Close { scheme, route });
            same_ground(&line(&before, 0), &line(&closed, 0))?;
            prop_assert_eq!(path(&closed).waypoints.len(), pegs);
        } else if at == 0 || at + 1 == pegs {
            let refused = before.with(&Edit::Split { id: peg(at) }).is_err();
            prop_assert!(refused);
        } else {
            let two = with(&before, &Edit::Split { id: peg(at) });
            let lengths = line(&two, 0).length() + line(&two, 1).length();
            prop_assert!((lengths - line(&before, 0).length()).abs() < 1e-9);
            let one = with(&two, &Edit::Join { scheme: 0, first: 0, second: 1 });
            prop_assert_eq!(one, before);
        }
    }

    #[test]
    fn mirrored_twice_it_is_back(
        before in any_path(), through in (-5.0..5.0_f64, -5.0..5.0_f64), angle in -3.0..3.0_f64,
    ) {
        let (scheme, route) = FIRST;
        let (through, along) = (Point::new(through.0, through.1), Direction::EAST.turned(angle));
        let mirror = Edit::Mirror { scheme, route, through, along };
        let there = with(&before, &mirror);
        let (one, other) = (line(&before, 0), line(&there, 0));
        prop_assert!((one.length() - other.length()).abs() < 1e-9);
        prop_assert!((one.enclosed_area() + other.enclosed_area()).abs() < 1e-9);
        same_ground(&one, &line(&with(&there, &mirror), 0))?;
    }

    #[test]
    fn moved_together_nothing_changes_but_the_place(
        before in any_path(), by in (-50.0..50.0_f64, -50.0..50.0_f64),
    ) {
        let by = Vector::new(by.0, by.1);
        let waypoints = (0..path(&before).waypoints.len()).map(|i| (0, i)).collect();
        let after = with(&before, &Edit::MoveTogether { scheme: 0, waypoints, by });
        prop_assert_eq!(&path(&after).legs, &path(&before).legs);
        for (now, was) in path(&after).waypoints.iter().zip(&path(&before).waypoints) {
            prop_assert_eq!(now.at, was.at + by);
        }
    }

    /// A path that starts on an edge keeps its first peg there, however the host changes.
    #[test]
    fn a_branch_stays_on_the_edge(
        before in any_path(), near in (-9.0..9.0_f64, -9.0..9.0_f64), left: bool,
        width in 0.3..2.0_f64, to in (-30.0..-20.0_f64, 20.0..30.0_f64),
    ) {
        let side = if left { Side::Left } else { Side::Right };
        let edge = |plan: &Plan| {
            let route = &plan.solve().schemes[0].routes[0];
            if left { route.left_edge.clone() } else { route.right_edge.clone() }
        };
        if edge(&before).is_none() {
            return Ok(());
        }
        let (near, to) = (Point::new(near.0, near.1), Point::new(to.0, to.1));
        let branched = with(&before, &Edit::Branch { scheme: 0, host: 0, side, near, to });
        let start = |plan: &Plan| plan.schemes[0].routes[1].waypoints[0].at;
        prop_assert!(edge(&branched).unwrap().nearest(start(&branched)).distance < 1e-9);
        let widened = with(&branched, &Edit::SetWidth { scheme: 0, route: 0, width });
        if let Some(edge) = edge(&widened) {
            prop_assert!(edge.nearest(start(&widened)).distance < 1e-9);
        }
        prop_assert_eq!(widened.schemes[0].routes[1].waypoints[1].at, to);
    }
}

#[test]
fn a_path_is_led_on_from_both_ends() {
    let before = plan(&[(0., 0.), (4., 0.)], vec![Shape::Straight]);
    let (scheme, route) = FIRST;
    let lead = |end, at, shape| Edit::LeadOn {
        scheme,
        route,
        end,
        at,
        shape,
    };
    let on = with(&before, &lead(End::End, Point::new(8., 1.), Shape::Onward));
    let both = with(
        &on,
        &lead(End::Start, Point::new(-3., 1.), Shape::bend(0.4)),
    );
    let pegs: Vec<Point> = path(&both).waypoints.iter().map(|w| w.at).collect();
    let expected = [(-3., 1.), (0., 0.), (4., 0.), (8., 1.)].map(|(x, y)| Point::new(x, y));
    assert_eq!(pegs, expected);
    assert_eq!(
        path(&both).legs,
        [Shape::bend(0.4), Shape::Straight, Shape::Onward]
    );
}

#[test]
fn landings_stay_where_they_lie() {
    let points = [(0., 0.), (4., 0.), (4., 6.)];
    let mut before = plan(&points, vec![Shape::Straight; 2]);
    let landing = |station| Pad {
        name: format!("at {station}"),
        station,
        shape: PadShape::Circle { diameter: 2.0 },
    };
    before.schemes[0].routes[0].pads = vec![landing(1.0), landing(5.5)];
    let stations = |plan: &Plan, route: usize| -> Vec<f64> {
        plan.schemes[0].routes[route]
            .pads
            .iter()
            .map(|pad| pad.station)
            .collect()
    };
    assert_eq!(stations(&with(&before, &turn_round()), 0), [9.0, 4.5]);
    let two = with(&before, &Edit::Split { id: peg(1) });
    assert_eq!(
        (stations(&two, 0), stations(&two, 1)),
        (vec![1.0], vec![1.5])
    );
    let one = with(
        &two,
        &Edit::Join {
            scheme: 0,
            first: 0,
            second: 1,
        },
    );
    assert_eq!(one, before);
}

//! Typing figures: two hold, a third lets go of the one typed longest ago.

use geometry::{Bend, Figure, Point};
use plan::Plan;
use plan::document::Shape;
use plan::edit::{Edit, EditError, Stopped, held, other_answers};

use super::common::{bend_of, leg, path, plan, size_of, typed};

fn one_bend(rise: f64) -> Plan {
    plan(&[(1., 2.), (4., 6.)], vec![Shape::bend(rise)])
}

#[track_caller]
fn with(plan: &Plan, edit: &Edit) -> Plan {
    match plan.with(edit) {
        Ok(edited) => edited.plan,
        Err(why) => panic!("{edit:?}: {why}"),
    }
}

#[track_caller]
fn holds(plan: &Plan, figure: Figure, value: f64) {
    let actual = size_of(plan, 0).figure(figure);
    let off = actual.map_or(f64::INFINITY, |actual| (actual / value - 1.0).abs());
    assert!(off < 1e-9, "{figure} is {actual:?}, typed was {value}");
}

/// The start peg and the line of the chord stay, and so does the side of the apex.
fn stands(plan: &Plan) {
    let pegs = &path(plan).waypoints;
    assert_eq!(pegs[0].at, Point::new(1., 2.));
    let along = pegs[1].at - pegs[0].at;
    assert!((along.y / along.x - 4.0 / 3.0).abs() < 1e-9 && along.x > 0.0);
    assert!(bend_of(plan, 0).0 < 0.0);
}

#[test]
fn any_two_typed_hold_and_a_third_lets_go_of_the_older() {
    let start = one_bend(-0.7);
    let target = Bend::from_chord_and_rise(5.3, 0.8).unwrap();
    let last = Bend::from_chord_and_rise(5.1, 0.77).unwrap();
    let value = |bend: &Bend, figure| bend.figure(figure).unwrap();
    for a in Figure::ALL {
        let first = with(&start, &typed(0, a, value(&target, a)));
        holds(&first, a, value(&target, a));
        assert_eq!(bend_of(&first, 0).1, [a]);
        stands(&first);
        for b in Figure::ALL.into_iter().filter(|b| *b != a) {
            let second = with(&first, &typed(0, b, value(&target, b)));
            holds(&second, a, value(&target, a));
            holds(&second, b, value(&target, b));
            assert_eq!(held(&bend_of(&second, 0).1), [a, b]);
            stands(&second);
            for c in Figure::ALL.into_iter().filter(|c| *c != a && *c != b) {
                let Ok(third) = second.with(&typed(0, c, value(&last, c))) else {
                    // Only pairs that pinch each other on one side may refuse.
                    assert!(
                        matches!(
                            (b, c),
                            (Figure::Rise, Figure::ExternalDistance)
                                | (Figure::ExternalDistance, Figure::Rise)
                        ),
                        "{b} and {c}"
                    );
                    continue;
                };
                holds(&third.plan, b, value(&target, b));
                holds(&third.plan, c, value(&last, c));
                assert_eq!(held(&bend_of(&third.plan, 0).1), [b, c]);
                stands(&third.plan);
            }
        }
    }
}

#[test]
fn what_holds_beside_what_is_typed() {
    use Figure::{Chord, Radius, Rise, Sweep};
    assert_eq!(held(&[]), [Rise, Chord]);
    assert_eq!(held(&[Chord]), [Rise, Chord]);
    assert_eq!(held(&[Radius]), [Chord, Radius]);
    assert_eq!(held(&[Rise]), [Chord, Rise]);
    assert_eq!(held(&[Radius, Sweep]), [Radius, Sweep]);
}

#[test]
fn a_figure_typed_again_counts_as_typed_last() {
    let plan = one_bend(-0.7);
    let plan = with(&plan, &typed(0, Figure::Radius, 5.0));
    let plan = with(&plan, &typed(0, Figure::Sweep, 1.0));
    let plan = with(&plan, &typed(0, Figure::Radius, 6.0));
    assert_eq!(bend_of(&plan, 0).1, [Figure::Sweep, Figure::Radius]);
    holds(&plan, Figure::Sweep, 1.0);
    holds(&plan, Figure::Radius, 6.0);
}

#[test]
fn a_chord_typed_with_the_same_length_moves_no_peg() {
    let plan = one_bend(-0.7);
    let again = with(&plan, &typed(0, Figure::Radius, size_of(&plan, 0).radius()));
    assert_eq!(path(&again).waypoints, path(&plan).waypoints);
}

#[test]
fn of_two_bends_the_nearer_is_taken_and_the_other_offered() {
    // (held, typed, rise drawn on a 5 m chord, expected sweep in degrees, of the other)
    let check = |holding: (Figure, f64), typing: (Figure, f64), rise: f64, expected: [f64; 2]| {
        let (a, b) = (holding.0, typing.0);
        let plan = with(&one_bend(rise), &typed(0, a, holding.1));
        let plan = with(&plan, &typed(0, b, typing.1));
        let bend = size_of(&plan, 0);
        let others = other_answers(&bend, &bend_of(&plan, 0).1);
        let degrees = |bend: &Bend| geometry::angle::to_degrees(bend.sweep());
        let found = [degrees(&bend), others.first().map_or(f64::NAN, degrees)];
        for (found, expected) in found.iter().zip(expected) {
            assert!((found - expected).abs() < 0.01, "{a} and {b}: {found:?}");
        }
        // Taking the other one keeps both figures, and offers the first again.
        let other = Edit::ChooseBend {
            id: leg(0),
            bend: others[0],
        };
        let chosen = with(&plan, &other);
        holds(&chosen, a, holding.1);
        holds(&chosen, b, typing.1);
        assert_eq!(bend_of(&chosen, 0).1, [a, b]);
        let back = other_answers(&size_of(&chosen, 0), &[a, b]);
        assert!((back[0].sweep() - bend.sweep()).abs() < 1e-6);
    };
    use Figure::{Apothem, ArcLength, Chord, Radius, Rise, TangentLength};
    // Chord 5, radius 5: 60° or 300°.
    check((Chord, 5.0), (Radius, 5.0), -0.7, [60.0, 300.0]);
    check((Chord, 5.0), (Radius, 5.0), -9.0, [300.0, 60.0]);
    // From 100° (rise 1.16) a larger radius makes it gentler, never the long way round.
    check(
        (Chord, 5.0),
        (Radius, 14.396_926_207_859_083),
        -1.16,
        [20.0, 340.0],
    );
    // Rise over tangent length, (1 − cos t/2) / tan t/2, is the same for 90° and 116.7588°.
    let ratio = 0.292_893_218_813_452_5;
    check(
        (Rise, 1.0),
        (TangentLength, 1.0 / ratio),
        -0.7,
        [90.0, 116.7588],
    );
    check(
        (Rise, 1.45),
        (TangentLength, 1.45 / ratio),
        -0.7,
        [116.7588, 90.0],
    );
    // Rise over arc length, (1 − cos t/2) / t, for 240° and 294.7692°.
    let ratio = 0.358_098_621_956_764_5;
    check(
        (Rise, 5.0),
        (ArcLength, 5.0 / ratio),
        -0.7,
        [240.0, 294.7692],
    );
    // Apothem over arc length, (cos t/2) / t, for 300° and 342.2738°.
    let ratio = -0.165_398_668_626_537_63;
    check(
        (ArcLength, 32.0),
        (Apothem, 32.0 * ratio),
        -12.0,
        [300.0, 342.2738],
    );
}

#[test]
fn one_answer_offers_no_other() {
    let plan = with(&one_bend(-0.7), &typed(0, Figure::ArcLength, 5.5));
    assert!(other_answers(&size_of(&plan, 0), &bend_of(&plan, 0).1).is_empty());
}

#[test]
fn the_leg_after_follows_by_its_own_rule() {
    let points = [(0., 0.), (4., 0.), (8., 0.), (9., 3.)];
    let before = plan(
        &points,
        vec![Shape::bend(0.5), Shape::bend(-0.4), Shape::Straight],
    );
    let after = with(&before, &typed(0, Figure::Chord, 5.0));
    assert_eq!(path(&after).waypoints[1].at, Point::new(5.0, 0.0));
    let sweep = |plan| size_of(plan, 1).sweep();
    assert!((sweep(&after) - sweep(&before)).abs() < 1e-12);
    assert_eq!(path(&after).waypoints[2..], path(&before).waypoints[2..]);
}

#[test]
fn a_neighbour_that_holds_its_chord_is_not_bent_to_follow() {
    for holds in [vec![Figure::Chord], vec![Figure::Radius, Figure::Sweep]] {
        let held = Shape::Bend { rise: -0.4, holds };
        let before = plan(
            &[(0., 0.), (4., 0.), (8., 0.)],
            vec![Shape::bend(0.5), held],
        );
        let error = before.with(&typed(0, Figure::Chord, 5.0)).unwrap_err();
        assert!(
            matches!(error, EditError::Held(Stopped::Holds { leg: 1, .. })),
            "{error:?}"
        );
        // The chord as it is, or a rise, moves no peg.
        assert!(before.with(&typed(0, Figure::Rise, 0.6)).is_ok());
        assert!(before.with(&typed(0, Figure::Chord, 4.0)).is_ok());
    }
}

#[test]
fn on_a_closed_path_the_last_leg_moves_the_first_peg() {
    let points = [(0., 0.), (4., 0.), (4., 4.)];
    let before = plan(&points, vec![Shape::Straight; 3]);
    let diagonal = 32f64.sqrt();
    let after = with(&before, &typed(2, Figure::Chord, 0.5 * diagonal));
    assert!(path(&after).waypoints[0].at.distance(Point::new(2.0, 2.0)) < 1e-12);
    assert_eq!(path(&after).waypoints[1..], path(&before).waypoints[1..]);
}

#[test]
fn the_length_of_a_straight_can_be_typed() {
    let before = plan(&[(0., 0.), (3., 4.)], vec![Shape::Straight]);
    let after = with(&before, &typed(0, Figure::Chord, 10.0));
    assert!(path(&after).waypoints[1].at.distance(Point::new(6.0, 8.0)) < 1e-12);
    assert_eq!(path(&after).legs, path(&before).legs);
}

#[test]
fn a_bend_pressed_flat_takes_a_chord_as_a_straight_does() {
    let before = plan(&[(0., 0.), (3., 4.)], vec![Shape::bend(0.0)]);
    let after = with(&before, &typed(0, Figure::Chord, 10.0));
    assert!(path(&after).waypoints[1].at.distance(Point::new(6.0, 8.0)) < 1e-12);
    let risen = with(&after, &typed(0, Figure::Rise, 1.0));
    assert!((bend_of(&risen, 0).0 - 1.0).abs() < 1e-12);
}

#[test]
fn letting_go_forgets_what_was_typed_and_moves_nothing() {
    let typed_two = with(&one_bend(-0.7), &typed(0, Figure::Radius, 5.0));
    let typed_two = with(&typed_two, &typed(0, Figure::Sweep, 1.0));
    let free = with(&typed_two, &Edit::LetGo { id: leg(0) });
    assert_eq!(bend_of(&free, 0), (bend_of(&typed_two, 0).0, vec![]));
    assert_eq!(path(&free).waypoints, path(&typed_two).waypoints);
}

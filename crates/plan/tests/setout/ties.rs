//! Ties: published spreads, the spot found again by them, the side told, and why there are none.

use std::f64::consts::{FRAC_PI_6, PI, TAU};

use geometry::{Point, angle};
use plan::document::{Corner, Extent, Obstacle, ObstacleKind, Side, Site};
use plan::setout::{
    Anchor, AnchorKind, CrossingVerdict, Passable, SLIGHTEST_CROSSING, TieError, Ties, Voice,
    spread_of_crossing, taping_allowance, ties,
};
use plan::surroundings::Surroundings;
use plan::units::{Graduation, Ruler, Units};
use proptest::prelude::*;

use super::near;

const METRIC: Ruler = Ruler {
    units: Units::Metric,
    graduation: Graduation::FiveMillimetres,
};
const VOICE: Voice = Voice {
    ruler: METRIC,
    both: false,
};

fn anchor(name: &str, (x, y): (f64, f64), kind: AnchorKind) -> Anchor {
    Anchor {
        name: name.to_owned(),
        at: Point::new(x, y),
        kind,
    }
}

fn marks(places: &[(f64, f64)]) -> Vec<Anchor> {
    let names = ["gate post", "corner", "well", "lamp", "steps", "trough"];
    let named = places.iter().zip(names);
    named
        .map(|(at, name)| anchor(name, *at, AnchorKind::Mark))
        .collect()
}

fn tied(spot: (f64, f64), anchors: &[Anchor]) -> Result<Ties, TieError> {
    let spot = Point::new(spot.0, spot.1);
    ties(spot, anchors, 30.0, &METRIC, |_, _| Passable::Clear)
}

#[test]
fn two_pulls_that_may_be_5_mm_out_leave_the_spot_as_far_out_as_the_trade_has_it() {
    // Common practice, no source; recomputed. Tolerance: half a unit in the last digit.
    let check = |degrees: f64, millimetres: f64| {
        let spread = spread_of_crossing(angle::from_degrees(degrees), [0.005, 0.005]);
        near(spread * 1000.0, millimetres, 0.5);
    };
    check(90.0, 5.0);
    check(60.0, 7.0);
    check(120.0, 7.0);
    check(45.0, 9.0);
    check(30.0, 14.0);
    check(150.0, 14.0);
    check(20.0, 20.0);
    check(15.0, 27.0);
    assert!(spread_of_crossing(0.0, [0.005, 0.005]).is_infinite());
}

#[test]
fn short_pulls_that_cross_well_are_taken_and_the_third_checks() {
    let anchors = marks(&[(0., 0.), (0.5, 0.), (25., 3.), (8., 0.), (4., 29.)]);
    let found = tied((4., 4.), &anchors).unwrap();
    let names = found.pair.each_ref().map(|tie| tie.anchor.name.as_str());
    assert_eq!(names, ["gate post", "lamp"]);
    near(found.crossing, 0.5 * PI, 1e-12);
    assert_eq!(found.verdict, CrossingVerdict::Good);
    assert_eq!(found.side, Side::Left);
    near(found.pair[0].distance.exact, 32_f64.sqrt(), 1e-15);
    near(found.pair[0].distance.tape, 5.655, 1e-15);
    let check = found.check.unwrap();
    assert_eq!(check.anchor.name, "corner", "the shortest of those left");
}

#[test]
fn a_pull_that_needs_care_or_a_peg_gives_way() {
    let at = [(0., 0.), (8., 0.), (8., 8.)];
    let spot = Point::new(4.0, 4.0);
    let pair = |anchors: &[Anchor], of: &dyn Fn(Point) -> Passable| {
        let found = ties(spot, anchors, 30.0, &METRIC, |from, _| of(from)).unwrap();
        found.pair.map(|tie| tie.anchor.name)
    };
    let anchors = marks(&at);
    assert_eq!(
        pair(&anchors, &|_| Passable::Clear),
        ["gate post", "corner"]
    );
    let but = |stop: (f64, f64), passable: Passable| {
        move |from: Point| {
            if from == Point::new(stop.0, stop.1) {
                passable
            } else {
                Passable::Clear
            }
        }
    };
    let found = pair(&anchors, &but(at[0], Passable::Care));
    assert_eq!(found, ["corner", "well"]);
    let found = pair(&anchors, &but(at[0], Passable::Blocked));
    assert_eq!(found, ["corner", "well"]);
    let mut pegs = anchors;
    pegs[0].kind = AnchorKind::Peg;
    assert_eq!(pair(&pegs, &|_| Passable::Clear), ["corner", "well"]);
}

#[test]
fn why_there_are_none() {
    let none = |spot, places: &[(f64, f64)]| tied(spot, &marks(places)).unwrap_err();
    let says = |error: TieError, part: &str| {
        let words = error.words("peg 3", &VOICE);
        assert!(
            words.starts_with("peg 3 ") && words.contains(part),
            "{words}"
        );
    };
    assert_eq!(none((1., 1.), &[]), TieError::TooFew { found: 0 });
    says(none((1., 1.), &[(0., 0.)]), "only one mark");
    // A mark that the spot lies on is none to tape from.
    let on_it = none((1., 1.), &[(1., 1.), (5., 5.)]);
    assert_eq!(on_it, TieError::TooFew { found: 1 });
    let far = none((1., 1.), &[(0., 0.), (41., 1.)]);
    assert_eq!(
        far,
        TieError::OutOfReach {
            second: 40.0,
            tape: 30.0
        }
    );
    says(far, "40.000 m away and the tape 30.000 m long");
    says(none((5., 0.), &[(0., 0.), (9., 0.)]), "cross at 180");
    let anchors = marks(&[(0., 0.), (9., 0.)]);
    let spot = Point::new(4., 4.);
    let blocked = ties(spot, &anchors, 30.0, &METRIC, |_, _| Passable::Blocked);
    assert_eq!(blocked.unwrap_err(), TieError::Blocked);
}

#[test]
fn the_side_is_told_by_the_two_marks_and_by_what_stands_there() {
    let wall = Obstacle::new(
        "north wall",
        ObstacleKind::Wall,
        Extent::Line(vec![Point::new(-2., 5.), Point::new(12., 5.)]),
    );
    let pipe = Obstacle::new(
        "pipe",
        ObstacleKind::Service,
        Extent::Line(vec![Point::new(-2., 4.5), Point::new(12., 4.5)]),
    );
    let site = Site {
        obstacles: vec![wall, pipe],
        ..Site::default()
    };
    let surroundings = Surroundings::of(&std::sync::Arc::new(site));
    let anchors = marks(&[(0., 0.), (8., 0.)]);
    let found = tied((4., 4.), &anchors).unwrap();
    let words = found.side_words(Some(&surroundings));
    assert_eq!(
        words,
        "left as you look from gate post to corner, on the side of “north wall”"
    );
    let below = tied((4., -4.), &anchors).unwrap();
    let words = below.side_words(Some(&surroundings));
    assert!(
        words.starts_with("right as you look") && !words.contains("wall"),
        "{words}"
    );
    // Close to the line the wall is near on both sides, and tells nothing.
    let close = marks(&[(0., 4.), (1., 4.)]);
    let words = tied((0.5, 4.5), &close)
        .unwrap()
        .side_words(Some(&surroundings));
    assert!(!words.contains("wall"), "{words}");
    let step = found.step("peg 3", None, &VOICE);
    assert!(
        step.text
            .starts_with("peg 3: pull 5.655 m from gate post and 5.655 m from corner;"),
        "{step:?}"
    );
    assert_eq!(step.check, None, "two marks leave nothing to check by");
}

fn place() -> impl Strategy<Value = (f64, f64)> {
    (-15.0..15.0, -15.0..15.0)
}

proptest! {
    /// The two distances and the side, and nothing else, give the spot back.
    #[test]
    fn the_spot_is_where_the_pulls_cross(spot in place(), at in prop::collection::vec(place(), 2..6)) {
        if let Ok(found) = tied(spot, &marks(&at)) {
            let exact = found.pair.each_ref().map(|tie| tie.distance.exact);
            let again = found.crossing_of(exact).unwrap();
            prop_assert!(again.distance(found.spot) < 1e-9, "{again:?}");
            prop_assert!((SLIGHTEST_CROSSING..=PI - SLIGHTEST_CROSSING).contains(&found.crossing));
            for tie in found.pair.iter().chain(&found.check) {
                let off = tie.distance.exact - tie.anchor.at.distance(found.spot);
                prop_assert!(off.abs() < 1e-12);
            }
        }
    }

    /// Pulls that are out together as their errors allow move the spot to the end of the long axis
    /// of its ellipse and never past it.
    #[test]
    fn errors_of_the_pulls_move_the_spot_as_far_as_the_spread(
        spot in place(), at in prop::collection::vec(place(), 2..6),
    ) {
        if let Ok(found) = tied(spot, &marks(&at)) {
            const SMALL: f64 = 1e-4; // of the errors, so that circles are straight
            let exact = found.pair.each_ref().map(|tie| tie.distance.exact);
            let moved = (0..720).map(|step| {
                let turn = TAU * f64::from(step) / 720.0;
                let [first, second] = exact.map(|length| SMALL * taping_allowance(length));
                let pulls = [exact[0] + first * turn.cos(), exact[1] + second * turn.sin()];
                found.crossing_of(pulls).unwrap().distance(found.spot)
            });
            let most = moved.fold(0.0, f64::max) / SMALL;
            prop_assert!((most / found.spread - 1.0).abs() < 1e-3, "{most} {}", found.spread);
        }
    }

    /// Of all marks in reach no two that may be taken would leave the spot less out.
    #[test]
    fn no_other_two_marks_fix_it_better(spot in place(), at in prop::collection::vec(place(), 2..6)) {
        let anchors = marks(&at);
        let found = tied(spot, &anchors);
        for pair in anchors.iter().flat_map(|a| anchors.iter().map(move |b| [a, b])) {
            if let Ok(two) = tied(spot, &pair.map(Clone::clone)) {
                let least = found.as_ref().map_or(f64::INFINITY, |found| found.spread);
                prop_assert!(least <= two.spread * (1.0 + 1e-8), "{pair:?}");
            }
        }
    }

    /// A peg set by what the tape reads is off by no more than the rounding can move it.
    #[test]
    fn rounding_moves_the_spot_by_few_divisions(spot in place(), at in prop::collection::vec(place(), 2..6)) {
        if let Ok(found) = tied(spot, &marks(&at)) {
            let moved = found.moved_by_rounding().unwrap().length();
            // Both half a division out, at the slightest crossing, and a little for the curve.
            let most = spread_of_crossing(FRAC_PI_6, [0.0025, 0.0025]) * 2_f64.sqrt();
            prop_assert!(moved <= 1.05 * most, "{moved}");
        }
    }
}

#[test]
fn curved_areas_are_seen_too() {
    let bed = Obstacle::new(
        "rose bed",
        ObstacleKind::Bed,
        Extent::Curved(
            [(3., 5.), (5., 5.), (4., 7.)]
                .map(|(x, y)| Corner {
                    at: Point::new(x, y),
                    rise: 0.2,
                })
                .to_vec(),
        ),
    );
    let site = Site {
        obstacles: vec![bed],
        ..Site::default()
    };
    let surroundings = Surroundings::of(&std::sync::Arc::new(site));
    let found = tied((4., 4.), &marks(&[(0., 0.), (8., 0.)])).unwrap();
    let words = found.side_words(Some(&surroundings));
    assert!(words.ends_with("on the side of “rose bed”"), "{words}");
}

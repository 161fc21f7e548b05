//! Clean numbers: known ones are found, and every offer is what it says it is.

use geometry::{Bend, Figure, Point};
use plan::Plan;
use plan::document::{Extent, Obstacle, ObstacleKind, Shape};
use plan::edit::Edit;
use plan::setout::{CLEAN, CleanError, CleanOffer, EndPegs, Voice, clean_bends};
use plan::units::{Graduation, Ruler};
use proptest::prelude::*;

use super::common::{leg, plan, plan_of, route, waypoint};
use super::{near, out};

const HALVES: [f64; 2] = [0.5, 0.5];

fn ruler(graduation: Graduation) -> Ruler {
    Ruler {
        units: graduation.units(),
        graduation,
    }
}

#[test]
fn clean_bends_near_by_are_found() {
    // R = c²/8h + h/2 is whole. Source: Machinery's Handbook, 31st edition, p. 83, for the formula.
    let check = |chord: f64, rise: f64, radius: f64, unit: f64, graduation| {
        let off = 2.0 * graduation_of(graduation);
        let drawn = Bend::from_chord_and_rise(chord * unit + off, rise * unit - 0.3 * off).unwrap();
        let found = clean_bends(&drawn, 4.0 * unit, &ruler(graduation), HALVES, |_| true);
        let is_it = |bend: &Bend| {
            let [c, h, r] = [bend.chord(), bend.rise(), bend.radius()].map(|f| f / unit);
            (c - chord).abs() < 1e-9 && (h - rise).abs() < 1e-9 && (r - radius).abs() < 1e-9
        };
        assert!(
            found.iter().any(|clean| is_it(&clean.bend)),
            "{chord} {rise}"
        );
        assert_eq!(found[0].on_tape(), 5);
    };
    check(4.8, 0.8, 4.0, 1.0, Graduation::TenMillimetres);
    check(8.0, 2.0, 5.0, 1.0, Graduation::TenMillimetres);
    check(24.0, 4.0, 20.0, 0.0254, Graduation::HalfInch);
    check(96.0, 24.0, 60.0, 0.0254, Graduation::Inch);
}

fn graduation_of(graduation: Graduation) -> f64 {
    graduation.metres()
}

/// What is off the tape, counted from the formula of the radius alone.
fn off_tape(chord: f64, rise: f64, width: f64, division: f64) -> Vec<f64> {
    let radius = chord * chord / (8.0 * rise) + rise / 2.0;
    let mut figures = vec![chord, rise, radius, radius + width / 2.0];
    figures.extend(Some(radius - width / 2.0).filter(|inner| *inner > 0.0));
    let off = |figure: f64| (figure / division - (figure / division).round()).abs() * division;
    figures.into_iter().map(off).collect()
}

fn size() -> impl Strategy<Value = (f64, f64, f64)> {
    (1.0..9.0, 0.03..0.9, 0.8..2.0).prop_map(|(chord, ratio, width)| (chord, chord * ratio, width))
}

proptest! {
    #[test]
    fn what_is_found_is_as_clean_and_as_near_as_it_says(
        (chord, rise, width) in size(),
        graduation in prop::sample::select(&Graduation::ALL),
        shares in prop::sample::select(&[HALVES, [0.0, 1.0], [1.0, 0.0], [0.0, 0.0]]),
    ) {
        let division = graduation.metres();
        let drawn = Bend::from_chord_and_rise(chord, rise).unwrap();
        let band = rise - 0.01..=rise + 0.007;
        let found = clean_bends(&drawn, width, &ruler(graduation), shares, |rise| band.contains(&rise));
        let count = |chord, rise| {
            let off = off_tape(chord, rise, width, division);
            off.into_iter().filter(|off| *off > CLEAN).count()
        };
        for clean in found {
            let (c, h) = (clean.bend.chord(), clean.bend.rise());
            prop_assert!(band.contains(&h));
            let off = off_tape(c, h, width, division);
            prop_assert!(off.iter().all(|off| *off <= clean.worst() + 1e-9));
            // To within what the last digits make of a figure just at the limit.
            let sure = off.iter().filter(|off| **off <= CLEAN - 1e-9).count();
            let may = off.iter().filter(|off| **off <= CLEAN + 1e-9).count();
            prop_assert!((sure..=may).contains(&clean.on_tape()), "{clean:?}");
            prop_assert!(off.len() - may <= count(chord, rise), "cleaner than it was");
            prop_assert!((clean.apex_out - (h - rise)).abs() < 1e-12);
            prop_assert!((clean.ends[0] + clean.ends[1] - (c - chord)).abs() < 1e-12);
            prop_assert!((clean.apex_along - 0.5 * (clean.ends[1] - clean.ends[0])).abs() < 1e-12);
            let most = f64::max(0.025, 3.0 * division) + 0.5 * division;
            prop_assert!(clean.ends.iter().all(|end| end.abs() <= most), "{clean:?}");
        }
    }

    /// Each offer taken, the plan's own solution has the figures offered, where it was told.
    #[test]
    fn an_offer_taken_is_the_bend_that_was_offered((chord, rise, width) in size(), left in any::<bool>()) {
        let rise = if left { rise } else { -rise };
        let plan = one_bend(chord, rise, width);
        for offer in offers(&plan, EndPegs::Moved) {
            let before = out(&plan).bends.remove(0).arc;
            let edited = plan.with(&offer.edit).unwrap().plan;
            let after = out(&edited).bends.remove(0);
            let figures = [
                (after.chord, offer.bend.chord),
                (after.rise, offer.bend.rise),
                (after.radius, offer.bend.radius),
                (after.outer, offer.bend.outer),
            ];
            for (set_out, offered) in figures {
                prop_assert!((set_out.exact - offered.exact).abs() < 1e-9);
                prop_assert!((set_out.tape - offered.tape).abs() < 1e-9);
            }
            let apex = after.arc.apex().distance(before.apex());
            prop_assert!((apex - offer.bend.apex_out.abs()).abs() < 1e-9, "straight in or out");
            let ends = [after.arc.start().distance(before.start()), after.arc.end().distance(before.end())];
            for (end, told) in ends.into_iter().zip(offer.bend.ends) {
                prop_assert!((end - told.abs()).abs() < 1e-9);
            }
            prop_assert_eq!(after.apex_on_left(), left);
        }
    }
}

fn one_bend(chord: f64, rise: f64, width: f64) -> Plan {
    let route = plan::document::Route {
        width,
        ..route(&[(1., 2.), (1. + chord, 2.)], vec![Shape::bend(rise)])
    };
    plan_of(route)
}

#[track_caller]
fn offers(plan: &Plan, pegs: EndPegs) -> Vec<CleanOffer> {
    let solved = plan.solve();
    let room = plan.room(leg(0), &solved.surroundings);
    plan.clean_offers(leg(0), &solved, pegs, room.as_ref())
        .unwrap()
}

fn keeps_pegs(offer: &CleanOffer) -> bool {
    matches!(offer.edit, Edit::SetRise { .. })
}

#[test]
fn three_are_offered_and_one_keeps_the_pegs() {
    let plan = one_bend(4.213, 0.8037, 1.2);
    let found = offers(&plan, EndPegs::Moved);
    assert_eq!(found.len(), 3);
    assert_eq!(found.iter().filter(|offer| keeps_pegs(offer)).count(), 1);
    let kept = offers(&plan, EndPegs::Kept);
    assert!(kept.len() == 3 && kept.iter().all(keeps_pegs));
    let voice = Voice {
        ruler: plan.ruler(),
        both: false,
    };
    let words = found[0].words(&voice);
    assert_eq!(
        words,
        "chord 4.225 m, rise 0.810 m, string 3.160 m, inside string 2.560 m, outside string 3.760 m: all on the tape; the apex moves 6.2 mm, each end peg 6.0 mm"
    );
    assert!(
        kept[0].words(&voice).contains("the chord, 2.0 mm off"),
        "{kept:?}"
    );
    assert!(kept[0].words(&voice).ends_with("the end pegs stay"));
}

#[test]
fn a_clean_bend_has_nothing_cleaner() {
    assert_eq!(offers(&one_bend(4.8, 0.8, 1.2), EndPegs::Moved), []);
}

#[test]
fn what_holds_the_pegs_keeps_them() {
    let mut plan = one_bend(4.213, 0.8037, 1.2);
    plan.schemes[0].routes[0].legs[0] = Shape::Bend {
        rise: 0.8037,
        holds: vec![Figure::Chord],
    };
    let found = offers(&plan, EndPegs::Moved);
    assert!(!found.is_empty() && found.iter().all(keeps_pegs));
}

#[test]
fn none_leaves_the_room_or_gives_more_to_put_right() {
    let mut plan = one_bend(4.213, 0.8037, 1.2);
    let before = offers(&plan, EndPegs::Kept);
    assert!(before.iter().any(|offer| offer.bend.apex_out > 0.002));
    // A post that wants just the clearance it has: the bend may only go inwards.
    let apex = out(&plan).bends[0].arc.apex();
    let mut post = Obstacle::new(
        "post",
        ObstacleKind::Wall,
        Extent::Round {
            centre: Point::new(apex.x, apex.y + 1.0),
            radius: 0.1,
        },
    );
    post.clearance = Some(0.2999);
    plan.site_mut().obstacles.push(post);
    let solved = plan.solve();
    for room in [plan.room(leg(0), &solved.surroundings), None] {
        let found = plan.clean_offers(leg(0), &solved, EndPegs::Kept, room.as_ref());
        let found = found.unwrap();
        assert!(!found.is_empty());
        for offer in found {
            assert!(offer.bend.apex_out < 0.001, "{offer:?}");
        }
    }
}

#[test]
fn what_is_no_whole_free_bend_is_refused() {
    let check = |plan: &Plan, expected: CleanError| {
        let refused = plan.clean_offers(leg(0), &plan.solve(), EndPegs::Kept, None);
        assert_eq!(refused.unwrap_err(), expected);
    };
    let straight = plan(&[(0., 0.), (4., 0.)], vec![Shape::Straight]);
    check(&straight, CleanError::NotABend);
    let mut rounded = plan(
        &[(0., 0.), (4., 0.), (4., 4.)],
        vec![Shape::bend(0.4), Shape::Straight],
    );
    rounded.schemes[0].routes[0].waypoints[1] = waypoint((4., 0.), Some(0.8));
    check(&rounded, CleanError::Rounded);
}

#[test]
fn one_step_changes_both_ends_and_the_rise_and_the_neighbours_follow() {
    let mut plan = plan(
        &[(0., 0.), (4., 0.), (8., 0.)],
        vec![Shape::bend(0.4), Shape::bend(-0.4)],
    );
    let edit = |rise: f64, end: f64| Edit::SetBend {
        id: leg(0),
        ends: [Point::new(-0.1, 0.0), Point::new(end, 0.0)],
        rise,
    };
    let edited = plan.with(&edit(0.5, 4.1)).unwrap().plan;
    let path = &edited.schemes[0].routes[0];
    assert_eq!(path.legs[0], Shape::bend(0.5));
    let Shape::Bend { rise, .. } = path.legs[1] else {
        panic!("{path:?}");
    };
    near(rise / 3.9, -0.1, 1e-12); // its sweep is kept
    assert!(plan.with(&edit(f64::NAN, 4.1)).is_err());
    assert!(plan.with(&edit(0.5, f64::INFINITY)).is_err());
    assert!(plan.with(&edit(0.5, 8.0)).is_err(), "one peg on the next");
    plan.schemes[0].routes[0].legs[0] = Shape::Straight;
    assert!(plan.with(&edit(0.5, 4.1)).is_err());
}

//! The order of work walks forward: no deed uses a spot that does not stand by then.

use std::collections::BTreeSet;

use plan::Plan;
use plan::document::{Mark, Shape};
use plan::setout::{RouteWork, Spot, Stage, work};
use proptest::prelude::*;

use super::{at, common, worked, yard};

/// Every deed from what stands, and every spot made once.
fn in_order(work: &RouteWork) -> Result<(), TestCaseError> {
    let mut stands: BTreeSet<Spot> = work.pegging.given.iter().copied().collect();
    for act in work.acts() {
        for spot in act.deed.uses() {
            prop_assert!(stands.contains(&spot), "{spot:?} in {:?}", act.stage);
        }
        if let Some(spot) = act.deed.makes {
            prop_assert!(stands.insert(spot), "{spot:?} twice");
        }
        for check in &act.deed.checks {
            prop_assert!(stands.contains(&check.from) && stands.contains(&check.to));
        }
    }
    Ok(())
}

fn shape() -> impl Strategy<Value = Shape> {
    prop_oneof![
        Just(Shape::Straight),
        (-3.0..3.0).prop_map(Shape::bend),
        Just(Shape::Onward),
        Just(Shape::TwoBends),
    ]
}

proptest! {
    #[test]
    fn no_deed_of_a_random_path_comes_too_early(
        places in prop::collection::vec((-15.0..15.0, -15.0..15.0), 5),
        legs in prop::collection::vec(shape(), 4..=5),
        marks in prop::collection::vec((-20.0..20.0, -20.0..20.0), 0..5),
    ) {
        let mut plan = common::plan(&places, legs);
        plan.site_mut().marks = marks
            .iter()
            .enumerate()
            .map(|(i, (x, y))| Mark { name: format!("mark {i}"), at: at(*x, *y) })
            .collect();
        if let Some(work) = work(&plan, &plan.solve(), (0, 0)) {
            in_order(&work)?;
            let by_eye = work.pegging.given.iter().filter(|s| matches!(s, Spot::Peg(_))).count();
            prop_assert!(by_eye <= 2);
        }
    }
}

#[test]
fn no_deed_of_the_example_comes_too_early() {
    let plan = plan::example::plan().unwrap();
    let solved = plan.solve();
    for (scheme, option) in solved.schemes.iter().enumerate() {
        for route in 0..option.routes.len() {
            in_order(&work(&plan, &solved, (scheme, route)).unwrap()).unwrap();
        }
    }
}

fn winding(marks: usize) -> Plan {
    let shapes = vec![Shape::Straight, Shape::bend(1.0), Shape::Straight];
    let mut plan = common::plan(&[(0., 0.), (4., 0.), (8., 3.), (12., 3.)], shapes);
    let all = yard(Vec::new()).site.marks.clone();
    plan.site_mut().marks = all.into_iter().take(marks).collect();
    plan
}

#[test]
fn pegs_first_then_as_one_walks_and_offset_pegs_before_the_spade() {
    let order = worked(&winding(3)).order;
    let expected = [
        Stage::Pegs,
        Stage::Straight(0),
        Stage::Bend(0),
        Stage::Straight(1),
        Stage::OffsetPegs,
    ];
    assert_eq!(order, expected);
}

#[test]
fn marks_are_read_before_anything_is_set_from_them() {
    let work = worked(&winding(3));
    let first = &work.pegging.deeds[0];
    assert!(first.makes.is_none() && !first.checks.is_empty());
    let marks = |spot: Spot| matches!(spot, Spot::Mark(_));
    assert!(
        first
            .checks
            .iter()
            .all(|check| marks(check.from) && marks(check.to))
    );
}

#[test]
fn with_one_mark_the_pegs_stand_off_a_base_line_of_two() {
    let work = worked(&winding(1));
    let given = &work.pegging.given;
    assert!(
        given.contains(&Spot::Peg(1)) && given.contains(&Spot::Peg(4)),
        "{given:?}"
    );
    assert_eq!(work.pegs.len(), 4);
}

#[test]
fn strings_are_counted_by_what_hangs_at_once() {
    let work = worked(&winding(3));
    for string in &work.tools.strings {
        let longest = string
            .uses
            .iter()
            .map(|used| used.length)
            .fold(0.0, f64::max);
        assert!((string.length - longest - 0.3).abs() < 1e-9, "{string:?}");
    }
    let stretched = work
        .tools
        .strings
        .iter()
        .map(|string| string.uses.len())
        .sum::<usize>();
    let for_the_base_line = work
        .pegging
        .deeds
        .iter()
        .filter(|deed| matches!(deed.does, plan::setout::Doing::Stretch { .. }));
    // Three strings a straight, one a swung bend.
    assert_eq!(stretched, 7 + for_the_base_line.count());
    // The strings of a straight do not cross: one after the other they may be the same one.
    assert_eq!(work.tools.strings.len(), 1);
}

#[test]
fn tools_are_what_the_deeds_need() {
    let tools = worked(&winding(3)).tools;
    // By hand: four pegs, one bend swung, each with an offset peg.
    assert_eq!(
        (
            tools.pegs,
            tools.swing_pegs,
            tools.apex_pegs,
            tools.offset_pegs
        ),
        (4, 1, 1, 4)
    );
    assert_eq!((tools.tapes, tools.people, tools.battens), (2, 1, None));
    assert!(tools.draws_lines && tools.nails >= 6);
    let mut two = winding(3);
    two.set_out.crew = plan::setout::Crew::Two;
    assert_eq!(worked(&two).tools.people, 2);
}

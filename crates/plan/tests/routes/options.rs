//! Options: added, copied, put in order, locked; what is done to one leaves the others alone.

use geometry::Point;
use plan::Plan;
use plan::document::{Route, Scheme, Shape};
use plan::edit::{Edit, EditError};
use proptest::prelude::*;

use super::anything::{edit, yards};
use super::with;
use crate::common::{drag, path, plan};

fn start() -> Plan {
    let mut plan = plan(&[(0., 0.), (4., 0.)], vec![Shape::bend(0.5)]);
    plan.schemes[0].name = "Round the pond".into();
    plan
}

fn names(plan: &Plan) -> Vec<&str> {
    plan.schemes.iter().map(|s| s.name.as_str()).collect()
}

const COPY: Edit = Edit::AddScheme { copy_of: Some(0) };

#[test]
fn a_copy_says_that_it_is_one() {
    let two = with(&start(), &COPY);
    assert_eq!(names(&two), ["Round the pond", "Round the pond, copy"]);
    let three = with(&two, &COPY);
    assert_eq!(names(&three)[2], "Round the pond, copy 2");
    let of_copy = with(&two, &Edit::AddScheme { copy_of: Some(1) });
    assert_eq!(names(&of_copy)[2], "Round the pond, copy, copy");
    assert_eq!(path(&three), path(&start()));

    let mut unnamed = start();
    unnamed.schemes[0].name.clear();
    assert_eq!(names(&with(&unnamed, &COPY))[1], "Option A, copy");
    let mut long = start();
    long.schemes[0].name = "é".repeat(200);
    let copied = with(&long, &COPY);
    assert!(names(&copied)[1].ends_with("é, copy"));
}

#[test]
fn options_are_put_in_order() {
    let mut plan = start();
    for name in ["two", "three", "four"] {
        plan.schemes.push(Scheme {
            name: name.into(),
            ..Scheme::default()
        });
    }
    let check = |scheme, to, expected: [&str; 4]| {
        assert_eq!(
            names(&with(&plan, &Edit::MoveScheme { scheme, to })),
            expected
        );
    };
    check(0, 1, ["two", "Round the pond", "three", "four"]);
    check(3, 0, ["four", "Round the pond", "two", "three"]);
    check(1, 3, ["Round the pond", "three", "four", "two"]);
    check(2, 2, ["Round the pond", "two", "three", "four"]);
    for (scheme, to) in [(4, 0), (0, 4)] {
        let edit = Edit::MoveScheme { scheme, to };
        assert_eq!(plan.with(&edit).unwrap_err(), EditError::NotThere);
    }
}

#[test]
fn notes_are_lines_of_text() {
    let notes = |notes: &str| Edit::SetSchemeNotes {
        scheme: 0,
        notes: notes.into(),
    };
    let plan = with(&start(), &notes("dry in winter\nkeeps the plum"));
    assert_eq!(plan.schemes[0].notes, "dry in winter\nkeeps the plum");
    let why = plan.with(&notes(&"x".repeat(20_001))).unwrap_err();
    assert_eq!(
        why.to_string(),
        "option A: notes have at most 20000 characters, these have 20001"
    );
}

fn lock(scheme: usize, locked: bool) -> Edit {
    Edit::LockScheme { scheme, locked }
}

#[test]
fn a_locked_option_keeps_its_paths() {
    let open = start();
    let locked = with(&open, &lock(0, true));
    let refused = locked.with(&drag(1, (5., 1.))).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "option A is locked: unlock it under Compare to change its paths, or change a copy of it"
    );
    let taken = Edit::RemoveScheme { scheme: 0 };
    let two = with(&locked, &COPY);
    assert_eq!(two.with(&taken).unwrap_err(), EditError::Locked(0));
    // A copy is not locked, and what is not its paths stays free.
    assert!(!two.schemes[1].locked);
    let name = String::from("The one we build");
    with(&locked, &Edit::RenameScheme { scheme: 0, name });
    with(&two, &Edit::MoveScheme { scheme: 0, to: 1 });
    let unlocked = with(&locked, &lock(0, false));
    assert_eq!(unlocked, open);
    with(&unlocked, &drag(1, (5., 1.)));
}

#[test]
fn a_path_goes_from_a_locked_option_but_not_into_one() {
    let two = with(&with(&start(), &COPY), &lock(0, true));
    let copy = |scheme, to| Edit::CopyRoute {
        scheme,
        route: 0,
        to,
        by: Point::new(0., 1.) - Point::ORIGIN,
    };
    assert_eq!(with(&two, &copy(0, 1)).schemes[1].routes.len(), 2);
    assert_eq!(two.with(&copy(1, 0)).unwrap_err(), EditError::Locked(0));
}

fn paths(plan: &Plan) -> Vec<&Vec<Route>> {
    plan.schemes.iter().map(|scheme| &scheme.routes).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn an_edit_leaves_the_paths_of_other_options_alone(
        plan in prop::sample::select(yards()),
        edits in prop::collection::vec(edit(), 1..12),
    ) {
        // The first option is copied; whatever is then done to one changes no other.
        let mut plan = plan.with(&COPY).unwrap().plan;
        for edit in &edits {
            let Ok(edited) = plan.with(edit) else { continue };
            let after = edited.plan;
            if plan.schemes.len() == after.schemes.len() && !matches!(edit, Edit::MoveScheme { .. }) {
                let both = paths(&plan).into_iter().zip(paths(&after)).enumerate();
                for (nth, (before, after)) in both {
                    prop_assert!(before == after || edit.alters() == Some(nth), "{edit:?}");
                }
            }
            plan = after;
        }
    }

    #[test]
    fn whatever_is_tried_a_locked_option_stays(
        plan in prop::sample::select(yards()),
        edits in prop::collection::vec(edit(), 1..12),
    ) {
        let kept = plan.schemes[0].routes.clone();
        let mut plan = plan.with(&lock(0, true)).unwrap().plan;
        for edit in edits.iter().filter(|edit| !matches!(edit, Edit::LockScheme { .. })) {
            if let Ok(edited) = plan.with(edit) {
                plan = edited.plan;
            }
            let locked = plan.schemes.iter().find(|scheme| scheme.locked);
            prop_assert_eq!(locked.map(|scheme| &scheme.routes), Some(&kept));
        }
    }
}

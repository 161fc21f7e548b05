//! Each bend is set out by a way the ground allows, and says why the others are not taken.

use approx::assert_abs_diff_eq;
use plan::document::{
    Extent, MethodChoice, Obstacle, ObstacleKind, SetOutSettings, Shape, Spacing,
};
use plan::edit::Edit;
use plan::setout::{Method, Way, WayVerdict, work, work_with};
use plan::solve::Origin;

use super::{common, points, round, worked, yard};

fn way(plan: &plan::Plan, method: Method) -> Way {
    let bend = &worked(plan).bends[0];
    let found = bend.ways.iter().find(|way| way.method == method);
    found.unwrap().clone()
}

#[track_caller]
fn not_here(plan: &plan::Plan, method: Method, why: &str) {
    match way(plan, method).verdict {
        WayVerdict::NotHere(reasons) => {
            assert!(reasons.iter().any(|said| said == why), "{reasons:#?}");
        }
        other => panic!("{other:?}"),
    }
}

fn swings(method: Method) -> bool {
    matches!(method, Method::Swing | Method::SwingSquaredOff)
}

#[test]
fn on_free_ground_it_is_swung() {
    let bend = &worked(&yard(Vec::new())).bends[0];
    assert_eq!(bend.way().method, Method::Swing);
    assert_eq!(bend.way().verdict, WayVerdict::Workable);
    assert!(!swings(bend.second_way().unwrap().method));
    let methods: Vec<Method> = bend.ways.iter().map(|way| way.method).collect();
    assert_eq!(methods, Method::OF_A_BEND);
}

#[test]
fn a_swing_point_in_a_pond_cannot_be_pegged() {
    let plan = yard(vec![round(ObstacleKind::Pond, (3.0, -2.25), 0.4)]);
    for method in [Method::Swing, Method::SwingSquaredOff] {
        not_here(&plan, method, "the swing point is in the pond “it”");
    }
    let bend = &worked(&plan).bends[0];
    assert!(!swings(bend.way().method) && bend.way().is_possible());
    let second = bend.second_way().unwrap();
    assert!(!swings(second.method) && second.method != bend.way().method);
}

#[test]
fn a_tree_may_catch_the_string_of_one_edge_alone() {
    // The strings are 3.75 and 4.35 m long; the tree stands from 4.05 m on.
    let plan = yard(vec![round(ObstacleKind::Tree, (3.0, 1.9), 0.1)]);
    let why = "the string to the outside edge catches the tree “it”, 4.150 m from the swing point";
    not_here(&plan, Method::Swing, why);
    let reasons = way(&plan, Method::Swing).verdict.reasons().join("; ");
    assert!(
        !reasons.contains("the string to the centre line"),
        "{reasons}"
    );
}

#[test]
fn where_nothing_can_be_scratched_the_swing_point_is_squared_off() {
    // A fence 5 cm behind the swing point: the strings and the sweep stay on this side of it.
    let fence = Extent::Line(points(&[(1.0, -2.3), (5.0, -2.3)]));
    let mut plan = yard(vec![Obstacle::new("it", ObstacleKind::Wall, fence)]);
    // A swing point squared off is too rough for more.
    plan.set_out.surface = plan::document::Surface::LooseGravel;
    let verdict = way(&plan, Method::Swing).verdict;
    assert!(
        verdict.reasons()[0].starts_with("the scratch about peg 1 meets the wall “it”"),
        "{verdict:?}"
    );
    assert_eq!(worked(&plan).bends[0].way().method, Method::SwingSquaredOff);
}

#[test]
fn a_swing_point_beyond_the_boundary_is_not_ours() {
    let ours = points(&[(-5.0, -1.0), (11.0, -1.0), (11.0, 9.0), (-5.0, 9.0)]);
    let boundary = Obstacle::new("it", ObstacleKind::Boundary, Extent::Area(ours));
    let plan = yard(vec![boundary]);
    let why = "the swing point is 1.250 m beyond the boundary “it”";
    not_here(&plan, Method::Swing, why);
    assert!(!swings(worked(&plan).bends[0].way().method));
}

#[test]
fn a_string_too_long_to_swing_is_not_swung() {
    let mut plan = common::plan(&[(0.0, 0.0), (12.0, 0.0)], vec![Shape::bend(1.0)]);
    // R = 12²/8 + 1/2.
    let why = "the string to the centre line is 18.500 m long: over 15.000 m the tape ends, or sag and wind spoil the line";
    not_here(&plan, Method::SwingSquaredOff, why);
    plan.set_out.longest_swing = 25.0;
    let verdict = way(&plan, Method::SwingSquaredOff).verdict;
    assert!(matches!(verdict, WayVerdict::Awkward(_)), "{verdict:?}");
}

#[test]
fn the_person_has_the_last_word_as_long_as_it_can_be_drawn() {
    let mut plan = yard(vec![round(ObstacleKind::Pond, (3.0, -2.25), 0.4)]);
    let choose = |plan: &mut plan::Plan, method| {
        let edit = Edit::SetMethod {
            scheme: 0,
            route: 0,
            of: Origin::Leg(0),
            method,
        };
        *plan = plan.with(&edit).unwrap().plan;
        let bend = worked(plan).bends[0].clone();
        (bend.way().method, bend.by_choice)
    };
    // Even where the ground is against it: it may be known better than it was drawn.
    assert_eq!(
        choose(&mut plan, Some(Method::Swing)),
        (Method::Swing, true)
    );
    assert_eq!(
        choose(&mut plan, Some(Method::Halving)),
        (Method::Halving, true)
    );
    // A chord of 6 m is too long for battens.
    let (method, by_choice) = choose(&mut plan, Some(Method::Battens));
    assert!(method != Method::Battens && !by_choice);
    let (_, by_choice) = choose(&mut plan, None);
    assert!(!by_choice && plan.schemes[0].routes[0].methods.is_empty());
}

#[test]
fn a_way_too_rough_for_what_is_built_gives_way_to_a_true_one() {
    let plan = yard(Vec::new());
    let rough = |course: &plan::setout::Course| {
        let error = if swings(course.method) { 0.016 } else { 0.014 };
        Some(error)
    };
    let chosen = |plan: &plan::Plan| {
        let work = work_with(plan, &plan.solve(), (0, 0), rough).unwrap();
        work.bends[0].way().method
    };
    assert!(!swings(chosen(&plan)));
    let mut gravel = plan;
    gravel.set_out.surface = plan::document::Surface::LooseGravel;
    assert!(swings(chosen(&gravel)));
}

#[test]
fn a_choice_for_what_is_no_bend_is_refused() {
    let mut plan = yard(Vec::new());
    plan.schemes[0].routes[0].methods = vec![MethodChoice {
        of: Origin::Rounding(0),
        method: Method::Swing,
    }];
    let error = plan::limits::check(&plan).unwrap_err().to_string();
    assert_eq!(
        error,
        "option A, path 1, method 1: it is chosen for what is no bend of this path: take it out"
    );
}

#[test]
fn settings_past_a_limit_are_refused_in_a_sentence() {
    let refused = |change: fn(&mut SetOutSettings)| {
        let mut settings = SetOutSettings::default();
        change(&mut settings);
        let edit = Edit::SetSetOut(settings);
        yard(Vec::new()).with(&edit).unwrap_err().to_string()
    };
    assert_eq!(
        refused(|set| set.comfortable = 20.0),
        "setting out: the longest swing, 15 m, is shorter than the comfortable one, 20 m"
    );
    assert_eq!(
        refused(|set| set.allowances.hook = 2.0),
        "setting out: what a hook takes in metres must lie between -0.2 and 0.2, it is 2"
    );
    assert_eq!(
        refused(|set| set.spacing = Spacing::Every(0.0)),
        "setting out: the way between flags in metres must lie between 0.05 and 100, it is 0"
    );
    assert!(refused(|set| set.longest_swing = f64::NAN).contains("NaN"));
    assert_eq!(
        refused(|set| set.offset_pegs = 0.0),
        "setting out: how far off the edge offset pegs stand in metres must lie between 0.1 and 10, it is 0"
    );
}

#[test]
fn flags_stand_as_far_apart_as_is_asked_for() {
    let flags = |spacing| {
        let mut plan = yard(Vec::new());
        plan.set_out.spacing = spacing;
        let course = way(&plan, Method::Ties).course.unwrap();
        let on_the_centre_line = |deed: &&plan::setout::Deed| {
            matches!(
                deed.makes,
                Some(plan::setout::Spot::Flag {
                    line: plan::setout::PathLine::Centre,
                    ..
                })
            )
        };
        course.deeds.iter().filter(on_the_centre_line).count()
    };
    // The bend is 6.95 m long: 24 spaces of 0.29 m, and its apex is no flag.
    assert_eq!(flags(Spacing::Every(0.3)), 22);
    assert!(flags(Spacing::Bow(0.05)) < flags(Spacing::Bow(0.005)));
}

/// What the example shows: swung in the open, halved where the bends are nearly straight.
#[test]
fn the_example_is_set_out_so() {
    let plan = plan::example::plan().unwrap();
    let solved = plan.solve();
    let mut chosen = Vec::new();
    for (scheme, option) in solved.schemes.iter().enumerate() {
        for route in 0..option.routes.len() {
            let work = work(&plan, &solved, (scheme, route)).unwrap();
            for bend in &work.bends {
                let second = bend.second_way().map(|way| way.method);
                chosen.push((scheme, route, bend.way().method, second));
            }
        }
    }
    use Method::{Battens, ChordOffsets, Deflections, Halving, Swing};
    let expected = [
        (0, 0, Swing, Some(ChordOffsets)),
        (0, 0, Swing, Some(Battens)),
        (0, 0, Swing, Some(Battens)),
        (1, 0, Swing, Some(ChordOffsets)),
        (2, 0, Swing, Some(ChordOffsets)),
        (2, 0, Halving, Some(Deflections)),
        (2, 0, Halving, Some(Deflections)),
    ];
    assert_eq!(chosen, expected);
}

#[test]
fn offset_pegs_stand_as_far_off_as_is_asked() {
    let mut plan = yard(Vec::new());
    let away = |plan: &plan::Plan| {
        let work = worked(plan);
        work.pegs[0].offset.as_ref().unwrap().distance.exact
    };
    let half = 0.5 * plan.schemes[0].routes[0].width;
    assert_abs_diff_eq!(away(&plan), half + 0.6, epsilon = 1e-12);
    plan.set_out.offset_pegs = 1.0;
    assert_abs_diff_eq!(away(&plan), half + 1.0, epsilon = 1e-12);
}

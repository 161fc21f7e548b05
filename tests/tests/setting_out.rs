//! Setting out on the screen: pointer and keys in; steps, ways and clean figures out.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on says where")]

use egui::accesskit::Role;
use egui::{Key, Modifiers, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use geometry::Point;
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::Look;
use pegbow_tests::harness::builder;
use plan::document::{Extent, MethodChoice, Obstacle, ObstacleKind, Shape, Spacing};
use plan::setout::{Crew, Manner, Method, RouteWork, Voice, work};
use plan::solve::Origin;
use plan::{Plan, example};

type Pad<'a> = Harness<'a, Sketchpad>;

fn window_on<'a>(plan: Plan) -> Pad<'a> {
    let mut harness = builder(Look::Day)
        .with_size(Vec2::new(1280.0, 4000.0))
        .build_eframe(|_| Sketchpad::new(plan, None).asking_in_window());
    harness.run();
    click(&mut harness, Role::Tab, "Set out");
    harness
}

fn yard<'a>() -> Pad<'a> {
    window_on(example::plan().unwrap())
}

/// The example with a pond on the swing point of its first bend.
fn pond_on_the_swing_point() -> Plan {
    let mut plan = example::plan().unwrap();
    let at = works(&plan).bends[0].bend.arc.centre();
    let extent = Extent::Round {
        centre: at,
        radius: 0.4,
    };
    let pond = Obstacle::new("lily pond", ObstacleKind::Pond, extent);
    plan.site_mut().obstacles.push(pond);
    plan
}

fn works(plan: &Plan) -> RouteWork {
    work(plan, &plan.solve(), (0, 0)).unwrap()
}

fn press(pad: &mut Pad<'_>, key: Key) {
    pad.key_press(key);
    pad.run();
}

fn undo(pad: &mut Pad<'_>) {
    pad.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    pad.run();
}

#[track_caller]
fn click(pad: &mut Pad<'_>, role: Role, label: &str) {
    pad.get_by_role_and_label(role, label).click();
    pad.run();
}

/// Opens what is shut on the slip.
#[track_caller]
fn open(pad: &mut Pad<'_>, header: &str) {
    pad.get_by_label(header).click();
    pad.run();
}

/// Presses the one button whose name begins so.
#[track_caller]
fn click_on(pad: &mut Pad<'_>, begins: &str) {
    let label = button(pad, begins).unwrap_or_else(|| panic!("no button begins {begins}"));
    click(pad, Role::Button, &label);
}

fn button(pad: &Pad<'_>, begins: &str) -> Option<String> {
    let all = pad.query_all_by_role(Role::Button);
    let mut labels = all.filter_map(|node| node.accesskit_node().label());
    labels.find(|label| label.starts_with(begins))
}

#[track_caller]
fn type_into(pad: &mut Pad<'_>, label: &str, text: &str) {
    pad.get_by_role_and_label(Role::TextInput, label).focus();
    pad.run();
    pad.event(egui::Event::Text(text.into()));
    pad.run();
    press(pad, Key::Enter);
}

/// What a screen reader hears of the step that is gone through.
fn heard(pad: &Pad<'_>) -> Option<String> {
    let all = pad.query_all_by_role(Role::Status);
    let mut labels = all.filter_map(|node| node.accesskit_node().label());
    labels.find(|label| label.starts_with("Step "))
}

/// The number of that step.
fn step(pad: &Pad<'_>) -> Option<usize> {
    heard(pad)?.split(' ').nth(1)?.parse().ok()
}

fn plan<'a>(pad: &'a Pad<'_>) -> &'a Plan {
    pad.state().plan()
}

fn methods<'a>(pad: &'a Pad<'_>) -> &'a [MethodChoice] {
    &plan(pad).schemes[0].routes[0].methods
}

#[test]
fn the_arrow_keys_go_through_the_whole_order_of_work() {
    let mut pad = yard();
    let plan = example::plan().unwrap();
    let work = works(&plan);
    let manner = Manner {
        voice: Voice {
            ruler: plan.ruler(),
            both: false,
        },
        crew: plan.set_out.crew,
        allowances: plan.set_out.allowances,
        tape: plan.tape.length,
    };
    let deeds = work
        .acts()
        .map(|act| act.deed.words(&manner, &act.course.spots).text);
    let offsets = work.pegs.iter().filter_map(|peg| peg.offset.as_ref().ok());
    let all: Vec<String> = deeds
        .chain(offsets.map(|offset| offset.words(&manner.voice)))
        .collect();
    assert_eq!(heard(&pad), None, "not before a key");
    for (nth, words) in all.iter().enumerate() {
        press(&mut pad, Key::ArrowRight);
        let heard = heard(&pad).unwrap();
        let number = format!("Step {} of {}. ", nth + 1, all.len());
        assert!(heard.starts_with(&number), "{heard}");
        assert!(heard.contains(words.as_str()), "{heard}\n{words}");
    }
    press(&mut pad, Key::ArrowRight);
    assert_eq!(
        step(&pad),
        Some(all.len()),
        "there is nothing after the last"
    );
    press(&mut pad, Key::ArrowLeft);
    assert_eq!(step(&pad), Some(all.len() - 1));
    press(&mut pad, Key::Home);
    assert_eq!(step(&pad), Some(1));
    press(&mut pad, Key::ArrowLeft);
    assert_eq!(step(&pad), Some(1));
    press(&mut pad, Key::End);
    assert_eq!(step(&pad), Some(all.len()));
    press(&mut pad, Key::Escape);
    assert_eq!(step(&pad), None);
    assert!(!pad.state().is_unsaved(), "looking changes nothing");
}

#[test]
fn the_buttons_do_what_the_keys_do() {
    let mut pad = yard();
    click(&mut pad, Role::Button, "Go through the steps");
    assert_eq!(step(&pad), Some(1));
    click(&mut pad, Role::Button, "Next step");
    click(&mut pad, Role::Button, "Next step");
    click(&mut pad, Role::Button, "Step back");
    assert_eq!(step(&pad), Some(2));
    // The button that was pressed has the keyboard: the arrows go on through the steps.
    press(&mut pad, Key::ArrowRight);
    press(&mut pad, Key::ArrowRight);
    assert_eq!(step(&pad), Some(4));
    click(&mut pad, Role::Button, "Last step");
    let last = step(&pad);
    press(&mut pad, Key::End);
    assert_eq!(step(&pad), last);
    click(&mut pad, Role::Button, "First step");
    assert_eq!(step(&pad), Some(1));
    click(&mut pad, Role::Button, "Leave the steps");
    assert_eq!(step(&pad), None);
}

#[test]
fn the_steps_of_the_chosen_bend_can_be_gone_to_at_once() {
    let mut pad = yard();
    click(&mut pad, Role::Button, "From this bend on");
    let work = works(plan(&pad));
    let before = work
        .acts()
        .take_while(|act| !matches!(act.stage, plan::setout::Stage::Bend(_)));
    assert_eq!(step(&pad), Some(before.count() + 1));
}

#[test]
fn another_stage_ends_the_steps_and_no_other_stage_has_them() {
    let mut pad = yard();
    press(&mut pad, Key::ArrowRight);
    click(&mut pad, Role::Tab, "Draw");
    assert_eq!(step(&pad), None);
    press(&mut pad, Key::ArrowRight);
    assert_eq!(step(&pad), None);
    click(&mut pad, Role::Tab, "Set out");
    assert_eq!(step(&pad), None);
}

#[test]
fn a_field_keeps_its_arrow_keys() {
    let mut pad = yard();
    open(&mut pad, "How it is set out");
    let field = "The ring adds";
    pad.get_by_role_and_label(Role::TextInput, field).focus();
    pad.run();
    press(&mut pad, Key::ArrowRight);
    assert_eq!(step(&pad), None);
}

#[test]
fn a_deed_out_of_sight_is_brought_into_sight_and_no_other() {
    let mut pad = yard();
    press(&mut pad, Key::ArrowRight);
    let before = *pad.state().canvas().view().unwrap();
    for _ in 0..5 {
        press(&mut pad, Key::ArrowRight);
    }
    let after = *pad.state().canvas().view().unwrap();
    assert_eq!(before, after, "all of the yard is in sight");
    // Far closer, to a corner where nothing is set out.
    let away = before.screen_from_plan(Point::new(20.0, 12.5));
    pad.hover_at(away);
    pad.run();
    pad.event(egui::Event::Zoom(6.0));
    pad.run();
    press(&mut pad, Key::End);
    let work = works(plan(&pad));
    let last = work
        .pegs
        .iter()
        .rev()
        .find_map(|peg| peg.offset.as_ref().ok());
    let view = *pad.state().canvas().view().unwrap();
    let at = view.screen_from_plan(last.unwrap().at);
    assert!(view.area().contains(at), "{at:?} in {:?}", view.area());
}

#[test]
fn a_way_is_chosen_as_one_step_and_left_to_the_program_again() {
    let mut pad = yard();
    let of = works(plan(&pad)).bends[0].of;
    assert!(button(&pad, "Leave the choice").is_none());
    click_on(&mut pad, "Halving: ");
    assert!(methods(&pad).is_empty(), "looking takes nothing");
    click(&mut pad, Role::Button, "Set it out this way");
    let method = Method::Halving;
    assert_eq!(methods(&pad), [MethodChoice { of, method }]);
    assert!(button(&pad, "Halving: ").unwrap().ends_with(", taken"));
    undo(&mut pad);
    assert!(methods(&pad).is_empty(), "one step");
    click(&mut pad, Role::Button, "Set it out this way");
    click(&mut pad, Role::Button, "Leave the choice to Pegbow");
    assert!(methods(&pad).is_empty());
    assert!(!button(&pad, "Halving: ").unwrap().ends_with(", taken"));
    undo(&mut pad);
    assert_eq!(methods(&pad).len(), 1, "one step");
}

#[test]
fn the_steps_are_those_of_the_way_that_is_chosen() {
    let mut pad = yard();
    click_on(&mut pad, "Successive chords: ");
    click(&mut pad, Role::Button, "Set it out this way");
    click(&mut pad, Role::Button, "From this bend on");
    let title = "Bend 1, peg 2 to peg 3: successive chords";
    assert!(pad.query_by_label(title).is_some());
}

#[test]
fn of_a_blocked_swing_it_is_said_what_is_in_the_way() {
    let plan = pond_on_the_swing_point();
    let mut pad = window_on(plan);
    let swing = button(&pad, "Swing, the swing point found with two tapes").unwrap();
    assert!(swing.ends_with(": not here"), "{swing}");
    let why = "The swing point is in the pond “lily pond”";
    // Both ways to swing fail for it.
    assert_eq!(pad.query_all_by_label(why).count(), 2);
    click(&mut pad, Role::Button, &swing);
    assert!(
        button(&pad, "Set it out this way").is_some(),
        "the person knows more of the pond"
    );
}

#[test]
fn the_settings_are_typed_over_and_taken_back() {
    let mut pad = yard();
    open(&mut pad, "How it is set out");
    click(&mut pad, Role::Button, "one alone");
    assert_eq!(plan(&pad).set_out.crew, Crew::Alone);
    type_into(&mut pad, "The ring adds", "12 mm");
    assert!((plan(&pad).set_out.allowances.ring - 0.012).abs() < 1e-12);
    click(&mut pad, Role::Button, "Go through the steps");
    press(&mut pad, Key::End);
    press(&mut pad, Key::Escape);
    undo(&mut pad);
    assert!(plan(&pad).set_out.allowances.ring.abs() < 1e-12);
    undo(&mut pad);
    assert_eq!(*plan(&pad), example::plan().unwrap());
    type_into(&mut pad, "Swung at all up to", "2 m");
    let said = pad.state().said().unwrap();
    assert!(said.wrong, "shorter than what is swung with ease");
    assert_eq!(*plan(&pad), example::plan().unwrap());
}

#[test]
fn flags_stand_as_far_apart_as_is_said() {
    let mut pad = yard();
    open(&mut pad, "How it is set out");
    assert!(
        pad.query_by_role_and_label(Role::TextInput, "Apart at most")
            .is_none()
    );
    click(&mut pad, Role::ComboBox, "Flags stand");
    click(&mut pad, Role::Button, "every so far");
    type_into(&mut pad, "Apart at most", "75 cm");
    assert_eq!(plan(&pad).set_out.spacing, Spacing::Every(0.75));
}

/// How many of the taped figures of the example's first bend a tape shows to a tenth of a millimetre.
fn on_the_tape(plan: &Plan) -> usize {
    let route = &plan.schemes[0].routes[0];
    let Shape::Bend { rise, .. } = route.legs[1] else {
        panic!("the second leg of the example is a bend")
    };
    let chord = route.waypoints[1].at.distance(route.waypoints[2].at);
    let radius = chord * chord / (8.0 * rise.abs()) + 0.5 * rise.abs();
    let half = 0.5 * route.width;
    let figures = [chord, rise, radius, radius - half, radius + half];
    let step = plan.graduation.metres();
    let is_on = |figure: &&f64| (*figure - (*figure / step).round() * step).abs() < 1e-4;
    figures.iter().filter(is_on).count()
}

#[test]
fn an_offer_of_clean_figures_is_taken_as_one_step() {
    for stage in ["Draw", "Set out"] {
        let mut pad = yard();
        click(&mut pad, Role::Tab, stage);
        assert!(button(&pad, "Take offer").is_none(), "not while it is shut");
        open(&mut pad, "Take clean figures");
        assert!(button(&pad, "Take offer 1").is_some(), "{stage}");
        click(&mut pad, Role::Button, "Take offer 1");
        let before = on_the_tape(&example::plan().unwrap());
        assert!(on_the_tape(plan(&pad)) > before, "{stage}");
        assert_ne!(*plan(&pad), example::plan().unwrap());
        undo(&mut pad);
        assert_eq!(*plan(&pad), example::plan().unwrap(), "one step");
    }
}

#[test]
fn a_step_stands_still() {
    let mut pad = yard();
    press(&mut pad, Key::ArrowRight);
    for _ in 0..3 {
        pad.step();
    }
    assert!(!pad.ctx.has_requested_repaint());
}

#[test]
fn undo_among_the_steps_leaves_a_step_that_is_there() {
    let mut pad = yard();
    click_on(&mut pad, "Two tapes crossing: ");
    click(&mut pad, Role::Button, "Set it out this way");
    press(&mut pad, Key::ArrowRight);
    press(&mut pad, Key::End);
    undo(&mut pad);
    let count = heard(&pad).unwrap();
    let all = count.split(' ').nth(3).unwrap().trim_end_matches('.');
    assert!(step(&pad).unwrap() <= all.parse().unwrap(), "{count}");
}

#[test]
fn a_rounded_corner_has_its_ways_too() {
    let mut pad = yard();
    click(&mut pad, Role::Button, "B");
    assert!(button(&pad, "Swing, the swing point found with two tapes").is_some());
    click_on(&mut pad, "Two battens: ");
    let taken = button(&pad, "Set it out this way");
    assert!(taken.is_some() || button(&pad, "Two battens: not here").is_some());
    let solved = plan(&pad).solve();
    let origins = &solved.schemes[1].routes[0].origins;
    assert!(origins.iter().any(|of| matches!(of, Origin::Rounding(_))));
}

//! Drawing whole paths by hand: laid click by click, shaped, parted, joined, copied.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on says where")]
#![allow(clippy::float_cmp, reason = "what is held is held to the last digit")]

use egui::accesskit::Role;
use egui::{Key, Modifiers, Pos2, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use geometry::Point;
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::Look;
use pegbow_tests::harness::{builder, drag_node, hold, let_go, place, value};
use plan::document::{Route, Shape};
use plan::units::Units;
use plan::{Plan, example};

type Pad<'a> = Harness<'a, Sketchpad>;

fn window_on<'a>(plan: Plan) -> Pad<'a> {
    let mut harness = builder(Look::Day)
        .with_size(Vec2::new(1280.0, 2400.0))
        .build_eframe(|_| Sketchpad::new(plan, None).asking_in_window());
    harness.run();
    harness
}

fn window<'a>() -> Pad<'a> {
    window_on(example::plan().unwrap())
}

fn blank<'a>() -> Pad<'a> {
    window_on(Plan::empty(Units::Metric))
}

fn press(pad: &mut Pad<'_>, modifiers: Modifiers, key: Key) {
    pad.key_press_modifiers(modifiers, key);
    pad.run();
}

fn click(pad: &mut Pad<'_>, role: Role, label: &str) {
    if role == Role::Button {
        // Farther down the slip than can be seen, one scrolls first.
        pad.get_by_role_and_label(role, label).scroll_to_me();
        pad.run();
    }
    pad.get_by_role_and_label(role, label).click();
    pad.run();
}

fn open(pad: &mut Pad<'_>, header: &str) {
    pad.get_by_label(header).click();
    pad.run();
}

/// A click of the pointer on a place of the plan.
fn click_at(pad: &mut Pad<'_>, place: (f64, f64)) {
    let at = screen(pad, place);
    pad.hover_at(at);
    pad.run_steps(1);
    pad.drag_at(at);
    pad.run_steps(1);
    pad.drop_at(at);
    // Long enough that two clicks are not a double one.
    for _ in 0..30 {
        pad.step();
    }
    pad.run();
}

fn screen(pad: &Pad<'_>, (x, y): (f64, f64)) -> Pos2 {
    let view = pad.state().canvas().view().expect("a view");
    view.screen_from_plan(Point::new(x, y))
}

fn route<'a>(pad: &'a Pad<'_>, index: usize) -> &'a Route {
    &pad.state().plan().schemes[0].routes[index]
}

fn corners(route: &Route) -> Vec<(f64, f64)> {
    let round = |x: f64| (x * 1000.0).round() / 1000.0 + 0.0;
    route
        .waypoints
        .iter()
        .map(|w| (round(w.at.x), round(w.at.y)))
        .collect()
}

#[test]
fn a_path_is_laid_click_by_click_on_an_empty_plan() {
    let mut pad = blank();
    click(&mut pad, Role::Button, "Lay a new path");
    click_at(&mut pad, (-3.0, -2.0));
    assert!(
        pad.state().plan().schemes[0].routes.is_empty(),
        "one peg is no path yet"
    );
    click_at(&mut pad, (0.0, -2.0));
    click_at(&mut pad, (0.0, 1.0));
    press(&mut pad, Modifiers::NONE, Key::O);
    click_at(&mut pad, (2.0, 3.0));
    press(&mut pad, Modifiers::NONE, Key::Enter);
    let laid = route(&pad, 0).clone();
    assert_eq!(laid.legs, [Shape::Straight, Shape::Straight, Shape::Onward]);
    for (actual, expected) in corners(&laid)
        .iter()
        .zip([(-3., -2.), (0., -2.), (0., 1.), (2., 3.)])
    {
        assert!((actual.0 - expected.0).abs() < 0.03 && (actual.1 - expected.1).abs() < 0.03);
    }
    // Held level and square by what was laid before.
    assert_eq!(laid.waypoints[0].at.y, laid.waypoints[1].at.y);
    assert_eq!(laid.waypoints[1].at.x, laid.waypoints[2].at.x);
    // Every click is one step.
    for legs in [2, 1] {
        press(&mut pad, Modifiers::COMMAND, Key::Z);
        assert_eq!(route(&pad, 0).legs.len(), legs);
    }
    press(&mut pad, Modifiers::COMMAND, Key::Z);
    assert!(pad.state().plan().schemes[0].routes.is_empty());
    assert_eq!(*pad.state().plan(), Plan::empty(Units::Metric));
}

#[test]
fn a_click_on_its_first_peg_closes_the_path() {
    let mut pad = blank();
    click(&mut pad, Role::Button, "Lay a new path");
    for place in [
        (-2.0, -2.0),
        (2.0, -2.0),
        (2.0, 2.0),
        (-2.0, 2.0),
        (-2.0, -2.0),
    ] {
        click_at(&mut pad, place);
    }
    let laid = route(&pad, 0);
    assert!(laid.closed);
    assert_eq!(laid.legs.len(), 4);
}

#[test]
fn a_path_begun_on_an_edge_stays_on_it() {
    let mut pad = window();
    click(&mut pad, Role::Button, "Lay a new path");
    // The right edge of the first straight runs 0.6 m east of it.
    click_at(&mut pad, (0.6, 1.5));
    click_at(&mut pad, (3.0, 1.5));
    press(&mut pad, Modifiers::NONE, Key::Escape);
    let junction = route(&pad, 1).start_on.expect("it starts on the edge");
    assert_eq!((junction.route, junction.side.word()), (1, "right"));
    assert!((route(&pad, 1).waypoints[0].at.x - 0.6).abs() < 1e-9);
    // The first path moves, the second goes with it.
    click_at(&mut pad, (0.0, 1.5));
    drag_node(&mut pad, Role::Slider, "Peg 1", Vec2::new(-60.0, 0.0), 6);
    let x = route(&pad, 1).waypoints[0].at.x;
    assert!(x < 0.55, "it follows the edge: {x}");
}

#[test]
fn a_peg_is_put_on_a_leg_and_taken_out_again() {
    let mut pad = window();
    let before = route(&pad, 0).clone();
    click(&mut pad, Role::Button, "Put a peg on its middle");
    let with = route(&pad, 0).clone();
    assert_eq!(with.waypoints.len(), before.waypoints.len() + 1);
    let lengths = |pad: &Pad<'_>| {
        let solved = pad.state().plan().solve();
        solved.schemes[0].routes[0]
            .centre_line
            .as_ref()
            .map(geometry::Chain::length)
    };
    let length = lengths(&pad).unwrap();
    click(&mut pad, Role::Slider, "Peg 3");
    press(&mut pad, Modifiers::NONE, Key::Delete);
    let again = route(&pad, 0).clone();
    assert_eq!(corners(&again), corners(&before));
    let Shape::Bend { rise, .. } = again.legs[1] else {
        panic!()
    };
    let Shape::Bend { rise: was, .. } = before.legs[1] else {
        panic!()
    };
    assert!((rise - was).abs() < 1e-9, "the bend is the very same");
    assert!(
        (lengths(&pad).unwrap() - length).abs() < 1e-9,
        "the line never changed"
    );
}

#[test]
fn a_leg_takes_every_shape_and_back() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    for (words, expected) in [
        ("an onward bend", Shape::Onward),
        ("two bends", Shape::TwoBends),
        ("straight", Shape::Straight),
    ] {
        click(&mut pad, Role::Button, words);
        assert_eq!(route(&pad, 0).legs[1], expected);
    }
    for _ in 0..3 {
        press(&mut pad, Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(*pad.state().plan(), before);
}

#[test]
fn a_path_is_turned_round_and_runs_over_the_same_ground() {
    let mut pad = window();
    let line = |pad: &Pad<'_>| {
        let solved = pad.state().plan().solve();
        solved.schemes[0].routes[0].centre_line.clone().unwrap()
    };
    let before = line(&pad);
    open(&mut pad, "Change the path");
    click(&mut pad, Role::Button, "Turn it round");
    let after = line(&pad);
    assert!((before.length() - after.length()).abs() < 1e-9);
    for share in [0.0, 0.2, 0.5, 0.9, 1.0] {
        let there = before.point_at(share * before.length());
        let here = after.point_at((1.0 - share) * after.length());
        assert!(there.distance(here) < 1e-9);
    }
    assert!(
        pad.state()
            .plan()
            .solve()
            .findings
            .iter()
            .all(|f| f.place.scheme != 0 || f.severity == plan::finding::Severity::Note)
    );
}

#[test]
fn parting_and_joining_gives_the_path_again() {
    let mut pad = window();
    let before = route(&pad, 0).clone();
    click(&mut pad, Role::Slider, "Peg 4");
    click(&mut pad, Role::Button, "Part the path here");
    assert_eq!(pad.state().plan().schemes[0].routes.len(), 2);
    assert_eq!(
        route(&pad, 0).waypoints.len() + route(&pad, 1).waypoints.len(),
        8
    );
    open(&mut pad, "Change the path");
    click(&mut pad, Role::Button, "Join path 2 to its end");
    assert_eq!(pad.state().plan().schemes[0].routes.len(), 1);
    assert_eq!(route(&pad, 0).waypoints, before.waypoints);
    assert_eq!(route(&pad, 0).legs, before.legs);
    assert_eq!(route(&pad, 0).end_direction, before.end_direction);
}

#[test]
fn a_path_is_copied_mirrored_and_taken_away() {
    let mut pad = window();
    let before = route(&pad, 0).clone();
    open(&mut pad, "Change the path");
    click(&mut pad, Role::Button, "Copy it to option B");
    assert_eq!(pad.state().plan().schemes[1].routes[1].legs, before.legs);
    click(&mut pad, Role::Button, "Mirror it");
    let mirrored = route(&pad, 0).clone();
    assert_eq!(mirrored.waypoints[0], before.waypoints[0]);
    let Shape::Bend { rise, .. } = mirrored.legs[1] else {
        panic!()
    };
    let Shape::Bend { rise: was, .. } = before.legs[1] else {
        panic!()
    };
    assert!((rise + was).abs() < 1e-12);
    click(&mut pad, Role::Button, "Take it away");
    assert!(pad.state().plan().schemes[0].routes.is_empty());
}

/// Chooses pegs besides the one that is chosen.
fn also_choose(pad: &mut Pad<'_>, labels: &[&str]) {
    for label in labels {
        let at = place(pad, Role::Slider, label);
        pad.event(egui::Event::ModifiersChanged(Modifiers::SHIFT));
        pad.hover_at(at);
        pad.run_steps(1);
        for pressed in [true, false] {
            pad.event(egui::Event::PointerButton {
                pos: at,
                button: egui::PointerButton::Primary,
                pressed,
                modifiers: Modifiers::SHIFT,
            });
            pad.run_steps(1);
        }
        for _ in 0..30 {
            pad.step();
        }
    }
    pad.event(egui::Event::ModifiersChanged(Modifiers::NONE));
    pad.run();
}

#[test]
fn chosen_pegs_are_mirrored_and_copied_from_the_slip() {
    let mut pad = window();
    let before = route(&pad, 0).clone();
    click(&mut pad, Role::Slider, "Peg 5");
    also_choose(&mut pad, &["Peg 7"]);
    // Two pegs stand on the line themselves.
    click(&mut pad, Role::Button, "Mirror these pegs");
    let said = pad.state().said().map(|said| said.sentence.clone());
    assert!(said.is_some_and(|said| said.contains("choose one more between them")));
    assert_eq!(*route(&pad, 0), before);

    also_choose(&mut pad, &["Peg 6"]);
    click(&mut pad, Role::Button, "Mirror these pegs");
    let after = route(&pad, 0).clone();
    assert!((after.waypoints[5].at - before.waypoints[5].at).length() > 0.01);
    for peg in (0..before.waypoints.len()).filter(|peg| *peg != 5) {
        assert_eq!(after.waypoints[peg], before.waypoints[peg]);
    }
    // They are still chosen: mirrored again all is as it was, but for the last digits.
    click(&mut pad, Role::Button, "Mirror these pegs");
    let back = route(&pad, 0).waypoints[5].at - before.waypoints[5].at;
    assert!(back.length() < 1e-9);

    let paths = pad.state().plan().schemes[0].routes.len();
    click(&mut pad, Role::Button, "Copy these pegs");
    assert_eq!(pad.state().plan().schemes[0].routes.len(), paths + 1);
    let copy = route(&pad, paths).clone();
    assert_eq!(copy.width, before.width);
    assert_eq!(copy.legs, route(&pad, 0).legs[4..6]);
    for _ in 0..3 {
        press(&mut pad, Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(*route(&pad, 0), before);
    assert_eq!(pad.state().plan().schemes[0].routes.len(), paths);
}

#[test]
fn pegs_are_chosen_together_with_the_keyboard_alone() {
    let mut pad = window();
    for (label, modifiers) in [
        ("Peg 5", Modifiers::NONE),
        ("Peg 6", Modifiers::SHIFT),
        ("Peg 7", Modifiers::SHIFT),
    ] {
        pad.get_by_role_and_label(Role::Slider, label).focus();
        pad.run();
        press(&mut pad, modifiers, Key::Space);
    }
    assert!(pad.query_by_label("3 pegs together").is_some());
}

#[test]
fn several_pegs_move_together_and_their_legs_keep_their_shape() {
    let mut pad = window();
    let before = route(&pad, 0).clone();
    click(&mut pad, Role::Slider, "Peg 5");
    also_choose(&mut pad, &["Peg 6", "Peg 7"]);
    assert!(pad.query_by_label("3 pegs together").is_some());
    drag_node(&mut pad, Role::Slider, "Peg 6", Vec2::new(40.0, 60.0), 6);
    let after = route(&pad, 0).clone();
    let way = after.waypoints[5].at - before.waypoints[5].at;
    assert!(way.length() > 0.5);
    for peg in [4, 5, 6] {
        assert!((after.waypoints[peg].at - before.waypoints[peg].at - way).length() < 1e-9);
    }
    assert_eq!(after.waypoints[..4], before.waypoints[..4]);
    assert_eq!(
        after.legs[4], before.legs[4],
        "both its ends moved: the same bend"
    );
    press(&mut pad, Modifiers::COMMAND, Key::Z);
    assert_eq!(*route(&pad, 0), before);
}

#[test]
fn a_figure_is_typed_on_the_plan_itself() {
    let mut pad = window();
    click(&mut pad, Role::Button, "Type the rise on the plan");
    pad.event(egui::Event::Text("1.5 m".into()));
    pad.run();
    press(&mut pad, Modifiers::NONE, Key::Enter);
    assert_eq!(value(&pad, Role::TextInput, "Rise"), "1.500 m");
    // Escape leaves it as it was.
    click(&mut pad, Role::Button, "Type the radius on the plan");
    pad.event(egui::Event::Text("9".into()));
    pad.run();
    press(&mut pad, Modifiers::NONE, Key::Escape);
    assert_eq!(value(&pad, Role::TextInput, "Rise"), "1.500 m");
    assert!(
        pad.query_by_role_and_label(Role::TextInput, "radius on the plan")
            .is_none()
    );
}

#[test]
fn a_landing_is_laid_and_sized() {
    let mut pad = window();
    open(&mut pad, "Landings and passing places");
    click(&mut pad, Role::Button, "Lay a square landing");
    assert_eq!(route(&pad, 0).pads.len(), 1);
    assert_eq!(
        value(&pad, Role::TextInput, "Width of Landing 1"),
        "1.500 m"
    );
    assert_eq!(
        pad.state().plan().solve().schemes[0].routes[0].pads.len(),
        1
    );
    click(&mut pad, Role::Button, "Take Landing 1 away");
    assert!(route(&pad, 0).pads.is_empty());
}

#[test]
fn options_are_added_copied_and_taken_away() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    open(&mut pad, "Options");
    click(&mut pad, Role::Button, "Copy this one");
    let copy = pad.state().plan().schemes[3].clone();
    assert_eq!(copy.routes, before.schemes[0].routes);
    assert_eq!(copy.name, "Round the cistern, copy");
    press(&mut pad, Modifiers::COMMAND, Key::Z);
    assert_eq!(*pad.state().plan(), before);
}

#[test]
fn a_distance_is_measured_with_its_direction() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    click(&mut pad, Role::Button, "Measure a distance");
    click_at(&mut pad, (0.0, 0.0));
    click_at(&mut pad, (16.0, 9.4));
    press(&mut pad, Modifiers::NONE, Key::Escape);
    assert_eq!(*pad.state().plan(), before, "measuring changes nothing");
    assert!(
        pad.query_by_role_and_label(Role::Button, "Measure a distance")
            .is_some()
    );
}

#[test]
fn a_dragged_peg_is_held_level_unless_alt_is_down() {
    let mut pad = window();
    // Peg 4 stands level with peg 3: a small wobble of the hand is held.
    let from = place(&pad, Role::Slider, "Peg 4");
    let to = from + Vec2::new(30.0, 4.0);
    hold(&mut pad, from, to, 6);
    let_go(&mut pad, to);
    assert_eq!(route(&pad, 0).waypoints[3].at.y, 7.0);
    press(&mut pad, Modifiers::COMMAND, Key::Z);
    pad.event(egui::Event::ModifiersChanged(Modifiers::ALT));
    hold(&mut pad, from, to, 6);
    let_go(&mut pad, to);
    assert_ne!(route(&pad, 0).waypoints[3].at.y, 7.0);
}

#[test]
fn every_control_of_drawing_has_a_name() {
    let mut pad = window();
    for header in [
        "Change the path",
        "How it leaves and arrives",
        "Landings and passing places",
        "Options",
    ] {
        open(&mut pad, header);
    }
    let asks = [
        Role::Button,
        Role::Slider,
        Role::TextInput,
        Role::ComboBox,
        Role::CheckBox,
    ];
    for node in pad.query_all(egui_kittest::kittest::By::new().recursive(true)) {
        let node = node.accesskit_node();
        if asks.contains(&node.role()) {
            let name = node
                .label()
                .or(node.labelled_by().next().and_then(|l| l.value()));
            assert!(
                name.is_some_and(|n| !n.trim().is_empty()),
                "{:?}",
                node.role()
            );
        }
    }
}

#[test]
fn one_key_shows_the_map_of_keys_and_closes_it() {
    let mut pad = window();
    press(&mut pad, Modifiers::NONE, Key::F1);
    assert!(
        pad.query_by_label("Move the handle by one division of the tape")
            .is_some()
    );
    // While it shows, keys do nothing to the plan.
    let before = pad.state().plan().clone();
    press(&mut pad, Modifiers::NONE, Key::L);
    press(&mut pad, Modifiers::NONE, Key::F1);
    assert!(
        pad.query_by_label("Move the handle by one division of the tape")
            .is_none()
    );
    assert_eq!(*pad.state().plan(), before);
    assert!(pad.query_by_label("Laying a path").is_none());
}

#[test]
fn tab_alone_reaches_a_handle_and_its_figures() {
    let mut pad = window();
    let focused = |pad: &Pad<'_>| {
        pad.query_all(egui_kittest::kittest::By::new().recursive(true))
            .find(|node| node.accesskit_node().is_focused())
            .and_then(|node| node.accesskit_node().label())
    };
    let mut reached = Vec::new();
    for _ in 0..90 {
        press(&mut pad, Modifiers::NONE, Key::Tab);
        reached.extend(focused(&pad));
    }
    for name in [
        "Apex of leg 2",
        "Peg 1",
        "Peg 7",
        "Chord",
        "Radius",
        "Draw",
        "Save",
        "Width",
    ] {
        assert!(
            reached.iter().any(|label| label == name),
            "{name} in {reached:?}"
        );
    }
    // From there by keys alone: an apex is chosen, moved, and its rise typed.
    let mut pad = window();
    while focused(&pad).as_deref() != Some("Apex of leg 4") {
        press(&mut pad, Modifiers::NONE, Key::Tab);
    }
    press(&mut pad, Modifiers::NONE, Key::ArrowDown);
    assert_ne!(route(&pad, 0).legs[3], route(&window(), 0).legs[3]);
    press(&mut pad, Modifiers::NONE, Key::Enter);
    pad.event(egui::Event::Text("3 m".into()));
    pad.run();
    press(&mut pad, Modifiers::NONE, Key::Enter);
    assert_eq!(value(&pad, Role::TextInput, "Chord"), "3.000 m");
}

#[test]
fn a_path_is_held_square_to_a_line_of_the_site() {
    let mut pad = window();
    click(&mut pad, Role::Button, "C");
    // The last bend misses the shed door by so many degrees; two bends meet it.
    assert!(pad.query_by_label_contains("too far to the left").is_some());
    click(&mut pad, Role::Button, "Make that leg two bends");
    assert_eq!(
        pad.state().plan().schemes[2].routes[0].legs[3],
        Shape::TwoBends
    );
    assert!(pad.query_by_label_contains("too far to the left").is_none());
    pad.get_by_label("How it leaves and arrives").click();
    pad.run();
    // Let go of the end direction: "as it comes".
    let choices: Vec<Pos2> = pad
        .query_all_by_role(Role::ComboBox)
        .filter(|node| {
            let value = node.accesskit_node().value().unwrap_or_default();
            value.contains("potting shed")
        })
        .map(|node| node.rect().center())
        .collect();
    let at = choices[choices.len() - 1];
    pad.hover_at(at);
    pad.run_steps(1);
    pad.drag_at(at);
    pad.run_steps(1);
    pad.drop_at(at);
    pad.run();
    click(&mut pad, Role::Button, "as it comes");
    assert_eq!(pad.state().plan().schemes[2].routes[0].end_direction, None);
}

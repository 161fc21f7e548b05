//! What stands on the site, drawn and changed by hand: pointer and keys in, the plan out.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on says where")]
#![allow(clippy::float_cmp, reason = "what is held is held to the last digit")]

use std::f64::consts::FRAC_PI_2;

use egui::accesskit::Role;
use egui::{Key, Modifiers, Pos2, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{By, NodeT as _, Queryable as _};
use geometry::Point;
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::{self, Look};
use pegbow_tests::harness::{builder, drag, drag_node, hold, let_go, place, value};
use plan::document::{Extent, Obstacle, ObstacleKind, RootRule, Side};
use plan::units::{Graduation, Units};
use plan::{Edit, Plan, example};

type Pad<'a> = Harness<'a, Sketchpad>;

fn window_on<'a>(plan: Plan) -> Pad<'a> {
    let mut harness = builder(Look::Day)
        .with_size(Vec2::new(1280.0, 1400.0))
        .build_eframe(|_| Sketchpad::new(plan, None).asking_in_window());
    harness.run();
    click(&mut harness, Role::Tab, "Measure");
    harness
}

fn blank<'a>() -> Pad<'a> {
    window_on(Plan::empty(Units::Metric))
}

fn yard<'a>() -> Pad<'a> {
    window_on(example::plan().unwrap())
}

fn press(pad: &mut Pad<'_>, key: Key) {
    press_with(pad, Modifiers::NONE, key);
}

fn press_with(pad: &mut Pad<'_>, modifiers: Modifiers, key: Key) {
    pad.key_press_modifiers(modifiers, key);
    pad.run();
}

fn undo(pad: &mut Pad<'_>) {
    press_with(pad, Modifiers::COMMAND, Key::Z);
}

fn type_text(pad: &mut Pad<'_>, text: &str) {
    pad.event(egui::Event::Text(text.into()));
    pad.run();
}

fn click(pad: &mut Pad<'_>, role: Role, label: &str) {
    pad.get_by_role_and_label(role, label).click();
    pad.run();
}

/// Types over a field of the slip.
#[track_caller]
fn type_into(pad: &mut Pad<'_>, label: &str, text: &str) {
    pad.get_by_role_and_label(Role::TextInput, label).focus();
    pad.run();
    type_text(pad, text);
    press(pad, Key::Enter);
}

fn screen(pad: &Pad<'_>, (x, y): (f64, f64)) -> Pos2 {
    let view = pad.state().canvas().view().expect("a view");
    view.screen_from_plan(Point::new(x, y))
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

fn plan<'a>(pad: &'a Pad<'_>) -> &'a Plan {
    pad.state().plan()
}

#[track_caller]
fn called<'a>(pad: &'a Pad<'_>, name: &str) -> &'a Obstacle {
    let obstacles = &plan(pad).site.obstacles;
    let found = obstacles.iter().find(|obstacle| obstacle.name == name);
    found.unwrap_or_else(|| panic!("nothing is called {name}"))
}

fn corners(obstacle: &Obstacle) -> Vec<(f64, f64)> {
    let round = |x: f64| (x * 1000.0).round() / 1000.0 + 0.0;
    let corners = obstacle.extent.corners();
    corners.iter().map(|p| (round(p.x), round(p.y))).collect()
}

#[track_caller]
fn near(actual: &[(f64, f64)], expected: &[(f64, f64)]) {
    assert_eq!(actual.len(), expected.len(), "{actual:?}");
    for (a, e) in actual.iter().zip(expected) {
        let off = (a.0 - e.0).hypot(a.1 - e.1);
        assert!(off < 0.03, "{actual:?} for {expected:?}");
    }
}

fn said(pad: &Pad<'_>) -> String {
    let said = pad.state().said();
    said.map(|said| said.sentence.clone()).unwrap_or_default()
}

#[test]
fn an_empty_site_says_how_to_begin() {
    let pad = blank();
    let sentence = "Nothing stands here yet: press a word, then click its corners on the plan";
    assert!(pad.query_by_label(sentence).is_some());
}

#[test]
fn each_kind_with_corners_is_drawn_by_clicks_as_one_step() {
    let square = [(-3.0, -2.0), (2.0, -2.0), (2.0, 1.0), (-3.0, 1.0)];
    for (kind, closed) in [
        (ObstacleKind::Wall, false),
        (ObstacleKind::Building, true),
        (ObstacleKind::Bed, true),
        (ObstacleKind::Pond, true),
        (ObstacleKind::Service, false),
        (ObstacleKind::Boundary, false),
    ] {
        let mut pad = blank();
        click(&mut pad, Role::Button, kind.word());
        for place in square {
            click_at(&mut pad, place);
            assert!(plan(&pad).site.obstacles.is_empty(), "not before it ends");
        }
        press(&mut pad, Key::Enter);
        let drawn = called(&pad, &format!("{} 1", kind.word())).clone();
        assert_eq!((drawn.kind, drawn.extent.is_closed()), (kind, closed));
        near(&corners(&drawn), &square);
        // Held level and square by what was drawn before, and to whole lengths.
        let at = drawn.extent.corners();
        assert_eq!((at[0].y, at[1].x), (at[1].y, at[2].x), "{kind:?}");
        let steps = at[0].distance(at[1]) / 0.005;
        assert!((steps - steps.round()).abs() < 1e-6);
        undo(&mut pad);
        assert_eq!(*plan(&pad), Plan::empty(Units::Metric), "one step");
    }
}

#[test]
fn a_click_on_the_first_corner_closes_it() {
    for kind in [
        ObstacleKind::Wall,
        ObstacleKind::Boundary,
        ObstacleKind::Bed,
    ] {
        let mut pad = blank();
        click(&mut pad, Role::Button, kind.word());
        for place in [(-3.0, -2.0), (2.0, -2.0), (0.0, 2.0), (-3.0, -2.0)] {
            click_at(&mut pad, place);
        }
        let drawn = called(&pad, &format!("{} 1", kind.word()));
        assert!(matches!(drawn.extent, Extent::Area(_)), "{kind:?}");
        assert_eq!(drawn.extent.count(), 3);
    }
}

#[test]
fn backspace_takes_a_corner_back_and_escape_leaves() {
    let mut pad = blank();
    press(&mut pad, Key::W);
    for place in [(-3.0, -2.0), (2.0, -2.0), (2.0, 1.0)] {
        click_at(&mut pad, place);
    }
    press(&mut pad, Key::Backspace);
    click_at(&mut pad, (0.0, 2.0));
    press(&mut pad, Key::Enter);
    near(
        &corners(called(&pad, "wall 1")),
        &[(-3.0, -2.0), (2.0, -2.0), (0.0, 2.0)],
    );
    let before = plan(&pad).clone();
    press(&mut pad, Key::B);
    click_at(&mut pad, (-1.0, -1.0));
    press(&mut pad, Key::Escape);
    assert_eq!(*plan(&pad), before);
    assert!(pad.query_by_label("Drawing a building").is_none());
}

#[test]
fn a_tree_is_clicked_and_a_round_pond_dragged() {
    let mut pad = blank();
    click(&mut pad, Role::Button, "tree");
    click_at(&mut pad, (1.0, 1.0));
    click_at(&mut pad, (1.3, 1.0));
    let tree = called(&pad, "tree 1");
    let stem = 2.0 * tree.stem_radius().unwrap();
    assert!((stem - 0.6).abs() < 0.03, "{stem}");
    let steps = stem / 0.005;
    assert!(
        (steps - steps.round()).abs() < 1e-6,
        "a stem is taped across"
    );

    let before = pad.state().canvas().view().copied();
    press(&mut pad, Key::R);
    let (from, to) = (screen(&pad, (-2.0, -1.0)), screen(&pad, (-2.0, 0.5)));
    drag(&mut pad, from, to, 8);
    pad.run();
    let Extent::Round { centre, radius } = called(&pad, "round pond 1").extent else {
        panic!("it is round")
    };
    assert!(centre.distance(Point::new(-2.0, -1.0)) < 0.03);
    assert!((radius - 1.5).abs() < 0.03, "{radius}");
    assert_eq!(
        before,
        pad.state().canvas().view().copied(),
        "the paper lay still"
    );
    undo(&mut pad);
    assert_eq!(plan(&pad).site.obstacles.len(), 1);
}

#[test]
fn a_gate_has_two_posts_and_opens() {
    let mut pad = blank();
    click(&mut pad, Role::Button, "gate");
    click_at(&mut pad, (-1.0, 0.0));
    click_at(&mut pad, (1.0, 0.0));
    let gate = called(&pad, "gate 1").clone();
    assert_eq!(
        gate.swing.map(|s| (s.to, s.angle)),
        Some((Side::Left, FRAC_PI_2))
    );
    click(&mut pad, Role::Button, "to the right");
    type_into(&mut pad, "Opening", "110°");
    let swing = called(&pad, "gate 1").swing.unwrap();
    assert_eq!(swing.to, Side::Right);
    assert!((geometry::angle::to_degrees(swing.angle) - 110.0).abs() < 1e-9);
    // Its latch post is a handle of its own.
    drag_node(
        &mut pad,
        Role::Slider,
        "Latch post of gate 1",
        Vec2::new(40.0, 0.0),
        5,
    );
    let posts = called(&pad, "gate 1").posts().unwrap();
    assert_eq!(posts[0], gate.posts().unwrap()[0]);
    assert!(posts[1].x > 1.05);
    click(&mut pad, Role::Button, "not at all");
    assert_eq!(called(&pad, "gate 1").swing, None);
}

#[test]
fn a_mark_is_one_click_and_is_named_at_once() {
    let mut pad = blank();
    press(&mut pad, Key::K);
    click_at(&mut pad, (2.0, 1.0));
    type_text(&mut pad, "north-east post");
    press(&mut pad, Key::Enter);
    let mark = &plan(&pad).site.marks[0];
    assert_eq!(mark.name, "north-east post");
    assert!(mark.at.distance(Point::new(2.0, 1.0)) < 0.03);
    type_into(&mut pad, "East", "2.5 m");
    assert_eq!(plan(&pad).site.marks[0].at.x, 2.5);
    click(&mut pad, Role::Button, "Take it away");
    assert!(plan(&pad).site.marks.is_empty());
}

#[test]
fn a_bed_is_drawn_with_the_keyboard_alone() {
    let mut pad = blank();
    press(&mut pad, Key::D);
    type_text(&mut pad, "-1; 0.5");
    press(&mut pad, Key::Enter);
    for (length, key) in [
        ("4.2m", Key::ArrowRight),
        ("2", Key::ArrowUp),
        ("420 cm", Key::ArrowLeft),
    ] {
        type_text(&mut pad, length);
        press(&mut pad, key);
    }
    press(&mut pad, Key::Enter);
    let drawn = corners(called(&pad, "bed 1"));
    assert_eq!(drawn, [(-1.0, 0.5), (3.2, 0.5), (3.2, 2.5), (-1.0, 2.5)]);
    // A letter in a length is no key: m measures nothing here.
    assert!(pad.query_by_label("Measuring").is_none());
}

#[test]
fn a_typed_length_that_cannot_be_read_names_the_character() {
    let mut pad = blank();
    press(&mut pad, Key::W);
    type_text(&mut pad, "0; 0");
    press(&mut pad, Key::Enter);
    type_text(&mut pad, "4x2");
    press(&mut pad, Key::ArrowRight);
    assert!(said(&pad).contains('x'), "{}", said(&pad));
    press(&mut pad, Key::Escape);
    type_text(&mut pad, "4");
    press(&mut pad, Key::ArrowUp);
    press(&mut pad, Key::Enter);
    assert_eq!(corners(called(&pad, "wall 1")), [(0.0, 0.0), (0.0, 4.0)]);
}

#[test]
fn a_corner_is_dragged_held_and_taken_back_as_one_step() {
    let mut pad = yard();
    let before = plan(&pad).clone();
    click_at(&mut pad, (16.0, 9.4));
    let from = place(&pad, Role::Slider, "Corner 1 of potting shed");
    let to = from + Vec2::new(-40.0, 3.0);
    hold(&mut pad, from, to, 6);
    assert_eq!(*plan(&pad), before, "not before it is let go");
    assert_ne!(*pad.state().shown(), before);
    let_go(&mut pad, to);
    let shed = called(&pad, "potting shed");
    // Held in line with the side it lies on.
    assert_eq!(shed.extent.corners()[0].y, 10.9);
    assert!(shed.extent.corners()[0].x < 15.5);
    assert_eq!(
        shed.extent.corners()[1..],
        before.site.obstacles[0].extent.corners()[1..]
    );
    undo(&mut pad);
    assert_eq!(*plan(&pad), before);
    // Esc gives a drag up.
    hold(&mut pad, from, to, 6);
    press(&mut pad, Key::Escape);
    let_go(&mut pad, to);
    assert_eq!(*plan(&pad), before);
    assert_eq!(*pad.state().shown(), before);
}

#[test]
fn alt_lets_go_of_all_holds() {
    let mut pad = yard();
    click_at(&mut pad, (16.0, 9.4));
    let from = place(&pad, Role::Slider, "Corner 1 of potting shed");
    pad.event(egui::Event::ModifiersChanged(Modifiers::ALT));
    drag(&mut pad, from, from + Vec2::new(-40.0, 3.0), 6);
    assert_ne!(called(&pad, "potting shed").extent.corners()[0].y, 10.9);
}

#[test]
fn a_side_is_bent_by_its_middle_and_straight_again() {
    let mut pad = yard();
    click_at(&mut pad, (19.6, 9.4));
    let before = called(&pad, "potting shed").clone();
    drag_node(
        &mut pad,
        Role::Slider,
        "Side 1 of potting shed",
        Vec2::new(-50.0, 0.0),
        6,
    );
    let Extent::Curved(bent) = &called(&pad, "potting shed").extent else {
        panic!("a side is bent")
    };
    let rises: Vec<bool> = bent.iter().map(|corner| corner.rise != 0.0).collect();
    assert_eq!(rises, [true, false, false, false]);
    let steps = bent[0].rise / 0.005;
    assert!((steps - steps.round()).abs() < 1e-6);
    assert_eq!(
        called(&pad, "potting shed").extent.corners(),
        before.extent.corners()
    );
    type_into(&mut pad, "Rise of the side", "0.6 m");
    let Extent::Curved(bent) = &called(&pad, "potting shed").extent else {
        panic!("a side is bent")
    };
    assert!((bent[0].rise.abs() - 0.6).abs() < 1e-12);
    click(&mut pad, Role::Button, "Make it straight");
    let area = called(&pad, "potting shed").extent.area().unwrap();
    assert!((area - before.extent.area().unwrap()).abs() < 1e-9);
}

#[test]
fn a_corner_is_put_on_a_side_and_taken_out_by_keys() {
    let mut pad = yard();
    click_at(&mut pad, (19.6, 9.4));
    pad.get_by_role_and_label(Role::Slider, "Side 3 of potting shed")
        .focus();
    pad.run();
    press(&mut pad, Key::Insert);
    assert_eq!(corners(called(&pad, "potting shed"))[3], (19.6, 9.4));
    pad.get_by_role_and_label(Role::Slider, "Corner 4 of potting shed")
        .focus();
    pad.run();
    press(&mut pad, Key::ArrowRight);
    assert_eq!(corners(called(&pad, "potting shed"))[3], (19.605, 9.4));
    press(&mut pad, Key::Delete);
    assert_eq!(called(&pad, "potting shed").extent.count(), 4);
    pad.get_by_role_and_label(Role::Slider, "Middle of potting shed")
        .focus();
    pad.run();
    press(&mut pad, Key::ArrowUp);
    assert_eq!(corners(called(&pad, "potting shed"))[0], (16.0, 10.905));
    press(&mut pad, Key::Delete);
    assert!(
        plan(&pad)
            .site
            .obstacles
            .iter()
            .all(|o| o.name != "potting shed")
    );
    assert!(plan(&pad).schemes[0].routes[0].end_direction.is_some());
}

#[test]
fn a_wall_is_led_round_by_the_middle_of_its_side() {
    let mut pad = yard();
    click_at(&mut pad, (14.0, 0.0));
    drag_node(
        &mut pad,
        Role::Slider,
        "Side 1 of lane fence east",
        Vec2::new(0.0, -60.0),
        6,
    );
    let fence = called(&pad, "lane fence east");
    assert_eq!(fence.extent.count(), 3);
    assert!(fence.extent.corners()[1].y > 0.5);
}

#[test]
fn a_thing_is_moved_by_its_body_and_the_paper_beside_it() {
    let mut pad = yard();
    let view = |pad: &Pad<'_>| pad.state().canvas().view().copied();
    let before = plan(&pad).clone();
    let still = view(&pad);
    click_at(&mut pad, (0.2, 7.4));
    let from = screen(&pad, (0.2, 7.1));
    drag(&mut pad, from, from + Vec2::new(50.0, 0.0), 6);
    assert_eq!(view(&pad), still);
    let moved = called(&pad, "rain cistern");
    assert_ne!(*moved, before.site.obstacles[1]);
    let Extent::Round { centre, radius } = moved.extent else {
        panic!()
    };
    assert_eq!((centre.y, radius), (7.4, 0.7), "level with where it stood");
    // Beside it the paper moves.
    let from = screen(&pad, (12.0, 2.0));
    drag(&mut pad, from, from + Vec2::new(50.0, 0.0), 6);
    assert_ne!(view(&pad), still);
    undo(&mut pad);
    assert_eq!(*plan(&pad), before);
}

#[test]
fn what_holds_still_says_so() {
    let mut pad = yard();
    click_at(&mut pad, (0.2, 7.4));
    click(&mut pad, Role::CheckBox, "Hold still");
    let before = plan(&pad).clone();
    assert!(called(&pad, "rain cistern").still);
    let sentence = "“rain cistern” holds still: let it go on the slip to change its place";
    for handle in ["Radius of rain cistern", "Middle of rain cistern"] {
        drag_node(&mut pad, Role::Slider, handle, Vec2::new(50.0, 0.0), 5);
        assert_eq!(said(&pad), sentence, "{handle}");
        assert_eq!(*plan(&pad), before);
    }
    let from = screen(&pad, (0.2, 7.1));
    drag(&mut pad, from, from + Vec2::new(50.0, 0.0), 6);
    assert_eq!(*plan(&pad), before, "by its body");
    press(&mut pad, Key::ArrowUp);
    type_into(&mut pad, "East", "9");
    pad.get_by_role_and_label(Role::Slider, "Middle of rain cistern")
        .focus();
    pad.run();
    press(&mut pad, Key::Delete);
    assert_eq!(*plan(&pad), before);
    assert_eq!(said(&pad), sentence);
    // Its clearance may be typed all the same.
    type_into(&mut pad, "Clearance", "1.2 m");
    assert_eq!(called(&pad, "rain cistern").clearance, Some(1.2));
}

#[test]
fn a_clearance_is_typed_and_goes_back_to_the_usual_one() {
    let mut pad = yard();
    click_at(&mut pad, (0.2, 7.4));
    assert!(pad.query_by_label("as is usual for a pond").is_some());
    type_into(&mut pad, "Clearance", "450 mm");
    assert_eq!(called(&pad, "rain cistern").clearance, Some(0.45));
    assert_eq!(value(&pad, Role::TextInput, "Clearance"), "0.450 m");
    click(&mut pad, Role::Button, "Back to the usual 0.300 m");
    assert_eq!(called(&pad, "rain cistern").clearance, None);
    type_into(&mut pad, "Clearance", "4 cubits");
    assert!(said(&pad).contains('c'), "{}", said(&pad));
    assert_eq!(called(&pad, "rain cistern").clearance, None);
}

#[test]
fn the_figures_of_each_kind_are_typed() {
    let mut pad = yard();
    click_at(&mut pad, (17.4, 5.5));
    type_into(&mut pad, "It may lie off its line by", "0.5");
    assert_eq!(called(&pad, "water pipe").unsure, Some(0.5));
    click_at(&mut pad, (14.0, 0.0));
    type_into(&mut pad, "Thickness", "215 mm");
    assert_eq!(called(&pad, "lane fence east").thickness, Some(0.215));
    type_into(&mut pad, "Thickness", "none");
    assert_eq!(called(&pad, "lane fence east").thickness, None);
    type_into(&mut pad, "Name", "new fence");
    assert_eq!(called(&pad, "new fence").kind, ObstacleKind::Wall);
    click_at(&mut pad, (9.2, 10.4));
    assert_eq!(value(&pad, Role::TextInput, "Its roots reach"), "4.320 m");
    type_into(&mut pad, "Its stem is across", "0.5");
    assert_eq!(value(&pad, Role::TextInput, "Its roots reach"), "6.000 m");
    type_into(&mut pad, "Its roots reach", "3");
    assert_eq!(called(&pad, "old apple tree, north").root_zone, Some(3.0));
    click(&mut pad, Role::Button, "Back to the rule: 6.000 m");
    assert_eq!(called(&pad, "old apple tree, north").root_zone, None);
    assert_eq!(plan(&pad).site.roots, RootRule::TwelveDiameters);
}

#[test]
fn a_corner_is_typed_east_and_north() {
    let mut pad = yard();
    click_at(&mut pad, (16.0, 9.4));
    click(&mut pad, Role::Slider, "Corner 2 of potting shed");
    assert_eq!(value(&pad, Role::TextInput, "East"), "16.000 m");
    type_into(&mut pad, "North", "7.5");
    assert_eq!(corners(called(&pad, "potting shed"))[1], (16.0, 7.5));
    click(&mut pad, Role::Button, "Take this corner out");
    assert_eq!(called(&pad, "potting shed").extent.count(), 3);
}

#[test]
fn a_path_held_to_the_shed_turns_with_it() {
    let mut pad = yard();
    let way = |pad: &Pad<'_>| {
        let plan = plan(pad);
        let heading = plan.schemes[0].routes[0].end_direction.clone().unwrap();
        heading.direction(&plan.site).unwrap().angle()
    };
    let before = way(&pad);
    click_at(&mut pad, (16.0, 9.4));
    type_into(&mut pad, "Name", "tool shed");
    assert_eq!(way(&pad), before);
    click(&mut pad, Role::Slider, "Corner 1 of tool shed");
    type_into(&mut pad, "East", "15.5");
    assert_ne!(way(&pad), before);
}

#[test]
fn a_finding_of_the_site_leads_to_the_thing() {
    let mut plan = example::plan().unwrap();
    let bow = [(20.0, 2.0), (22.0, 4.0), (22.0, 2.0), (20.0, 4.0)];
    let bow = bow.map(|(x, y)| Point::new(x, y)).to_vec();
    plan.site_mut()
        .obstacles
        .push(Obstacle::new("Bow", ObstacleKind::Bed, Extent::Area(bow)));
    let mut pad = window_on(plan);
    let draw = By::new().role(Role::Tab).label_contains("Draw");
    pad.get(draw).click();
    pad.run();
    let crosses = |label: &str| label.contains("Bow") && label.contains("touches itself");
    let finding = pad
        .query_all_by_role(Role::Button)
        .find(|node| crosses(&node.accesskit_node().label().unwrap_or_default()));
    finding.expect("a finding").scroll_to_me();
    pad.run();
    let finding = pad
        .query_all_by_role(Role::Button)
        .find(|node| crosses(&node.accesskit_node().label().unwrap_or_default()));
    finding.expect("a finding").click();
    pad.run();
    assert_eq!(value(&pad, Role::TextInput, "Name"), "Bow");
}

#[test]
fn path_handles_are_quiet_here_and_the_site_is_in_draw() {
    let mut pad = yard();
    assert!(pad.query_by_role_and_label(Role::Slider, "Peg 1").is_none());
    click_at(&mut pad, (16.0, 9.4));
    assert!(
        pad.query_by_role_and_label(Role::Slider, "Corner 1 of potting shed")
            .is_some()
    );
    click(&mut pad, Role::Tab, "Draw");
    assert!(pad.query_by_role_and_label(Role::Slider, "Peg 1").is_some());
    let site = pad.query_by_role_and_label(Role::Slider, "Corner 1 of potting shed");
    assert!(site.is_none());
}

#[test]
fn tab_alone_reaches_a_corner() {
    let mut pad = yard();
    let mut reached = Vec::new();
    click(&mut pad, Role::Button, "potting shed, building");
    for _ in 0..80 {
        press(&mut pad, Key::Tab);
        let focused = pad
            .query_all(By::new().recursive(true))
            .find(|node| node.accesskit_node().is_focused());
        reached.extend(focused.and_then(|node| node.accesskit_node().label()));
    }
    for name in [
        "wall",
        "mark",
        "Name",
        "Clearance",
        "Hold still",
        "Corner 1 of potting shed",
        "Side 4 of potting shed",
        "Middle of potting shed",
    ] {
        assert!(
            reached.iter().any(|label| label == name),
            "{name} in {reached:?}"
        );
    }
}

#[test]
fn a_finger_can_hit_every_handle_and_every_control_has_a_name() {
    let mut pad = yard();
    for thing in [
        (0.3, 0.0),
        (17.0, 9.0),
        (9.2, 10.4),
        (16.0, 7.9),
        (20.8, 5.0),
    ] {
        click_at(&mut pad, thing);
        let handles: Vec<_> = pad.query_all_by_role(Role::Slider).collect();
        assert!(!handles.is_empty(), "{thing:?}");
        for node in handles {
            let least = node.rect().width().min(node.rect().height());
            assert!(theme::TARGET <= least + 0.01, "{thing:?}");
            assert!(node.value().is_some_and(|v| !v.is_empty()), "{thing:?}");
        }
        for node in pad.query_all(By::new().recursive(true)) {
            let node = node.accesskit_node();
            let asks = [
                Role::Button,
                Role::Slider,
                Role::TextInput,
                Role::ComboBox,
                Role::CheckBox,
            ];
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
}

#[test]
fn in_feet_lengths_are_read_as_people_write_them() {
    let mut pad = yard();
    pad.state_mut().commit(&Edit::SetUnits {
        units: Units::FeetInches,
        graduation: Graduation::EighthInch,
    });
    pad.run();
    click(&mut pad, Role::Button, "rain cistern, pond");
    type_into(&mut pad, "Clearance", "1' 6\"");
    let clearance = called(&pad, "rain cistern").clearance.unwrap();
    assert!((clearance - 18.0 * 0.0254).abs() < 1e-12);
}

/// Ten thousand obstacles with ten corners each.
fn crowded() -> Plan {
    let mut plan = Plan::empty(Units::Metric);
    let kinds = ObstacleKind::ALL
        .into_iter()
        .filter(|k| *k != ObstacleKind::Gate);
    let kinds: Vec<ObstacleKind> = kinds.collect();
    for i in 0..10_000_u32 {
        let (x, y) = (f64::from(i % 100) * 8.0, f64::from(i / 100) * 8.0);
        let corner = |nth: u32| {
            let turn = std::f64::consts::TAU * f64::from(nth) / 10.0;
            Point::new(x + 3.0 * turn.cos(), y + 3.0 * turn.sin())
        };
        let kind = kinds[i as usize % kinds.len()];
        let points = (0..10).map(corner).collect();
        let extent = match kind {
            ObstacleKind::Wall | ObstacleKind::Service => Extent::Line(points),
            _ => Extent::Area(points),
        };
        let mut thing = Obstacle::new(format!("thing {i}"), kind, extent);
        thing.thickness = Some(0.2);
        thing.unsure = Some(0.4);
        plan.site_mut().obstacles.push(thing);
    }
    plan
}

#[test]
fn ten_thousand_things_do_not_freeze_the_window() {
    let mut pad = window_on(crowded());
    for times in [1.0, 8.0, 8.0, 0.02] {
        pad.hover_at(Pos2::new(400.0, 400.0));
        pad.event(egui::Event::Zoom(times));
        pad.run();
        let start = std::time::Instant::now();
        for step in 0..5_u8 {
            pad.hover_at(Pos2::new(400.0 + f32::from(step), 400.0));
            pad.step();
        }
        let frame = start.elapsed() / 5;
        // Many times what it takes, so that a busy machine does not fail it.
        assert!(frame.as_millis() < 1500, "{times}: {frame:?}");
    }
}

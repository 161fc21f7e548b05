//! The strip along the path, how it walks and which rules judge it, by pointer and keys.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on says where")]

use egui::accesskit::Role;
use egui::{Key, Modifiers, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::Look;
use pegbow_tests::harness::{builder, place, value};
use plan::example;
use plan::rules::RuleSet;

type Pad<'a> = Harness<'a, Sketchpad>;

const STRIP: &str = "Clearance along the path";

fn window<'a>() -> Pad<'a> {
    let plan = example::plan().unwrap();
    let mut harness = builder(Look::Day)
        .with_size(Vec2::new(1280.0, 720.0))
        .build_eframe(|_| Sketchpad::new(plan, None).asking_in_window());
    harness.run();
    harness
}

fn press(pad: &mut Pad<'_>, modifiers: Modifiers, key: Key) {
    pad.key_press_modifiers(modifiers, key);
    pad.run();
}

fn click(pad: &mut Pad<'_>, role: Role, label: &str) {
    pad.get_by_role_and_label(role, label).scroll_to_me();
    pad.run();
    pad.get_by_role_and_label(role, label).click();
    pad.run();
}

/// Opens a part of the slip.
fn open(pad: &mut Pad<'_>, label: &str) {
    pad.get_by_label(label).scroll_to_me();
    pad.run();
    pad.get_by_label(label).click();
    pad.run();
}

fn reading(pad: &Pad<'_>) -> String {
    value(pad, Role::Slider, STRIP)
}

#[test]
fn a_key_or_a_button_opens_the_strip_and_puts_it_away() {
    let mut pad = window();
    assert!(pad.query_by_label(STRIP).is_none(), "closed at the start");
    press(&mut pad, Modifiers::NONE, Key::A);
    assert_eq!(reading(&pad), "Point along the path");
    let rect = pad.get_by_role_and_label(Role::Slider, STRIP).rect();
    assert!(rect.height() <= 240.0 && rect.bottom() < 720.0, "{rect:?}");
    click(&mut pad, Role::Button, "Put away");
    assert!(pad.query_by_label(STRIP).is_none());
    click(&mut pad, Role::Button, "Along the path");
    assert!(pad.query_by_label(STRIP).is_some());
    assert!(!pad.state().is_unsaved(), "nothing of the plan is changed");
}

#[test]
fn the_cursor_is_tied_to_the_plan_both_ways() {
    let mut pad = window();
    press(&mut pad, Modifiers::NONE, Key::A);
    // Over peg 3 on the plan: the strip reads its station.
    let peg = place(&pad, Role::Slider, "Peg 3");
    pad.hover_at(peg + Vec2::new(1.0, 0.0));
    pad.run();
    let solved = pad.state().plan().solve();
    let chain = solved.schemes[0].routes[0].centre_line.clone().unwrap();
    let at = pad.state().canvas().view().unwrap();
    let under = at.plan_from_screen(peg + Vec2::new(1.0, 0.0));
    let station = chain.nearest(under).station;
    let expected = format!("At {}:", pad.state().plan().ruler().text(station));
    assert!(
        reading(&pad).starts_with(&expected),
        "{} {expected}",
        reading(&pad)
    );
    // Away from the path it stays where it was.
    let kept = reading(&pad);
    pad.hover_at(egui::pos2(20.0, 20.0));
    pad.run();
    assert_eq!(reading(&pad), kept);
    // Over the strip: it follows the pointer.
    let strip = pad.get_by_role_and_label(Role::Slider, STRIP).rect();
    let before = pad.render().unwrap();
    pad.hover_at(strip.center());
    pad.run();
    assert_ne!(reading(&pad), kept);
    // And the mark on the plan has moved: the picture of the plan is another one.
    let after = pad.render().unwrap();
    let above = |picture: &image::RgbaImage| {
        let above = strip.top() - 40.0;
        let rows = (0..2000_u16).take_while(move |y| f32::from(*y) < above);
        let of_plan = |y: u16| (0..900).map(move |x| (x, u32::from(y)));
        rows.flat_map(of_plan)
            .map(|(x, y)| *picture.get_pixel(x, y))
            .collect::<Vec<_>>()
    };
    assert!(above(&before) != above(&after), "a mark on the plan");
}

#[test]
fn a_click_in_the_strip_goes_there_and_keys_go_along() {
    let mut pad = window();
    press(&mut pad, Modifiers::NONE, Key::A);
    let strip = pad.get_by_role_and_label(Role::Slider, STRIP).rect();
    pad.hover_at(strip.center());
    pad.run();
    pad.drag_at(strip.center());
    pad.run();
    pad.drop_at(strip.center());
    pad.run();
    let solved = pad.state().plan().solve();
    let chain = solved.schemes[0].routes[0].centre_line.clone().unwrap();
    let middle = pad.state().canvas().view().unwrap().centre();
    assert!(
        chain.nearest(middle).distance < 1e-6,
        "the place is in the middle"
    );
    let before = reading(&pad);
    press(&mut pad, Modifiers::NONE, Key::ArrowRight);
    let further = reading(&pad);
    assert_ne!(further, before);
    press(&mut pad, Modifiers::NONE, Key::ArrowLeft);
    assert_eq!(reading(&pad), before);
    for _ in 0..40 {
        press(&mut pad, Modifiers::NONE, Key::ArrowRight);
    }
    let end = pad.state().plan().ruler().text(chain.length());
    assert!(
        reading(&pad).starts_with(&format!("At {end}:")),
        "{}",
        reading(&pad)
    );
}

#[test]
fn each_figure_is_chosen_by_its_word() {
    let mut pad = window();
    press(&mut pad, Modifiers::NONE, Key::A);
    pad.hover_at(place(&pad, Role::Slider, "Apex of leg 2"));
    pad.run();
    click(&mut pad, Role::Button, "Turn per pace");
    // A pace of 0.75 m on a radius of 4 m: 0.1875 rad.
    let turn = value(&pad, Role::Slider, "Turn per pace along the path");
    assert!(turn.contains("10.74°"), "{turn}");
    click(&mut pad, Role::Button, "Inside radius");
    let inside = value(&pad, Role::Slider, "Inside radius along the path");
    let half = 0.5 * pad.state().plan().schemes[0].routes[0].width;
    let radius = pad.state().plan().ruler().text(4.0 - half);
    assert!(inside.contains(&radius), "{inside} {radius}");
}

#[test]
fn a_rule_set_is_ticked_and_its_findings_show() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    assert!(!before.rules.contains(&RuleSet::AbaAccessRoutes));
    open(&mut pad, "Which rules judge the paths");
    let set = RuleSet::InclusiveMobility;
    click(&mut pad, Role::CheckBox, set.title());
    let after = pad.state().plan().clone();
    assert_eq!(after.rules, [RuleSet::Everyday, set]);
    let solved = after.solve();
    let new = solved
        .findings
        .iter()
        .find(|f| f.source.starts_with("Inclusive Mobility") && f.place.scheme == 0)
        .expect("a garden path is narrower than a footway");
    let said = pad.get_all_by_role(Role::Button);
    let wanted = pegbow::window::words::capital(&new.sentence);
    assert!(
        said.into_iter().any(|node| {
            use egui_kittest::kittest::NodeT as _;
            node.accesskit_node().label() == Some(wanted.clone())
        }),
        "{wanted}"
    );
    press(&mut pad, Modifiers::COMMAND, Key::Z);
    assert_eq!(*pad.state().plan(), before, "one step");
}

#[test]
fn a_vehicle_is_shown_taken_away_and_brought_back() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    open(&mut pad, "How it walks");
    let plain = pad.render().unwrap();
    click(
        &mut pad,
        Role::CheckBox,
        "Show the ground swept by wheelbarrow",
    );
    assert!(pad.render().unwrap() != plain);
    assert_eq!(*pad.state().plan(), before, "looking changes nothing");
    open(&mut pad, "Pace, and what goes along");
    click(&mut pad, Role::Button, "Take wheelbarrow away");
    assert_eq!(pad.state().plan().walk.vehicles.len(), 2);
    press(&mut pad, Modifiers::COMMAND, Key::Z);
    assert_eq!(*pad.state().plan(), before, "one step");
    click(&mut pad, Role::Button, "Add another");
    assert_eq!(pad.state().plan().walk.vehicles.len(), 4);
    click(&mut pad, Role::Button, "Back to the usual ones");
    assert_eq!(pad.state().plan().walk, before.walk);
}

#[test]
fn a_pace_is_typed_and_turns_follow() {
    let mut pad = window();
    open(&mut pad, "How it walks");
    open(&mut pad, "Pace, and what goes along");
    click(&mut pad, Role::TextInput, "Pace");
    pad.event(egui::Event::Text("0.6 m".into()));
    pad.run();
    press(&mut pad, Modifiers::NONE, Key::Enter);
    assert!((pad.state().plan().walk.pace - 0.6).abs() < 1e-12);
    // 0.6 m on a radius of 4 m: 0.15 rad.
    let turn = "In the chosen bend one turns 8.59° with each pace: an easy bend";
    assert!(pad.query_by_label(turn).is_some());
}

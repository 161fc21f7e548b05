//! A bend among what stands round it, by hand: dragged too near, told so, and brought back to what fits.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use egui::accesskit::Role;
use egui::vec2;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use pegbow::window::sketchpad::Sketchpad;
use pegbow_tests::harness::{self, drag_node, value};
use plan::document::Shape;
use plan::example;
use plan::finding::Code;

type Pad<'a> = Harness<'a, Sketchpad>;

fn window<'a>() -> Pad<'a> {
    let pad = Sketchpad::new(example::plan().unwrap(), None).asking_in_window();
    let mut pad = harness::window(pad, |ui, pad: &mut Sketchpad| pad.ui(ui));
    pad.run();
    pad
}

fn rise(pad: &Pad<'_>) -> f64 {
    match pad.state().plan().schemes[0].routes[0].legs[1] {
        Shape::Bend { rise, .. } => rise,
        _ => panic!("the second leg of the example is a bend"),
    }
}

/// Whether anything of the first option comes too near to something.
fn too_near(pad: &Pad<'_>) -> bool {
    let findings = pad.state().shown().solve().findings;
    let told = |code| matches!(code, Code::TooNear | Code::RunsInto);
    findings.iter().any(|f| f.place.scheme == 0 && told(f.code))
}

fn click(pad: &mut Pad<'_>, role: Role, label: &str) {
    pad.get_by_role_and_label(role, label).scroll_to_me();
    pad.run();
    pad.get_by_role_and_label(role, label).click();
    pad.run();
}

/// The one button whose words begin so.
fn button(pad: &Pad<'_>, begins: &str) -> String {
    let all = pad.get_all_by_role(Role::Button);
    let mut labels = all.filter_map(|node| node.accesskit_node().label());
    labels.find(|label| label.starts_with(begins)).unwrap()
}

#[test]
fn dragged_into_the_cistern_and_brought_back_to_the_deepest_rise_that_fits() {
    let mut pad = window();
    assert!(!too_near(&pad));
    drag_node(
        &mut pad,
        Role::Slider,
        "Apex of leg 2",
        vec2(-20.0, -20.0),
        6,
    );
    pad.run();
    assert!(too_near(&pad), "{}", rise(&pad));
    assert!(
        pad.query_all_by_label_contains("of “rain cistern”")
            .next()
            .is_some()
    );
    let deepest = button(&pad, "Take the deepest");
    click(&mut pad, Role::Button, &deepest);
    assert!(!too_near(&pad), "{}", rise(&pad));
    // The rise is on the tape's graduation, and one graduation more would be too near.
    let step = pad.state().plan().graduation.metres();
    let whole = rise(&pad) / step;
    assert!((whole - whole.round()).abs() < 1e-6);
    assert!(
        deepest.contains(&value(&pad, Role::TextInput, "Rise")),
        "{deepest}"
    );
    let mut deeper = pad.state().plan().clone();
    deeper.schemes[0].routes[0].legs[1] = Shape::bend(rise(&pad) + step);
    let findings = deeper.solve().findings;
    assert!(
        findings
            .iter()
            .any(|f| f.code == Code::TooNear && f.place.scheme == 0)
    );
    // One step of undo takes it back.
    let taken = rise(&pad);
    pad.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Z);
    pad.run();
    assert!(rise(&pad) > taken && too_near(&pad));
}

#[test]
fn an_apex_kept_where_the_path_keeps_clear_stops_there() {
    let mut pad = window();
    click(
        &mut pad,
        Role::CheckBox,
        "Keep the apex where the path keeps clear",
    );
    drag_node(
        &mut pad,
        Role::Slider,
        "Apex of leg 2",
        vec2(-20.0, -20.0),
        6,
    );
    pad.run();
    assert!(!too_near(&pad));
    assert!(rise(&pad) > 1.2, "as far as it may: {}", rise(&pad));
}

#[test]
fn what_stands_nearest_is_told_for_the_chosen_leg() {
    let pad = window();
    let told = |words: &str| pad.query_all_by_label_contains(words).next().is_some();
    assert!(told(
        "The left edge comes within 0.515 m of “rain cistern”, 0.300 m wanted"
    ));
    assert!(told("It keeps clear with the apex"));
}

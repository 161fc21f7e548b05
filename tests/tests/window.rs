//! The window driven by hand: real handles dragged, the slip read as a screen reader reads it.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on says where")]

use egui::accesskit::Role;
use egui::{Key, Modifiers, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::Look;
use pegbow_tests::harness::{builder, drag_node, hold, let_go, place, value};
use plan::document::Shape;
use plan::{Plan, example};

type Pad<'a> = Harness<'a, Sketchpad>;

fn window_on<'a>(plan: Plan) -> Pad<'a> {
    let mut harness = builder(Look::Day)
        .with_size(Vec2::new(1280.0, 720.0))
        .build_eframe(|_| Sketchpad::new(plan, None).asking_in_window());
    harness.run();
    harness
}

fn window<'a>() -> Pad<'a> {
    window_on(example::plan().unwrap())
}

fn figure(pad: &Pad<'_>, name: &str) -> String {
    value(pad, Role::TextInput, name)
}

fn press(pad: &mut Pad<'_>, modifiers: Modifiers, key: Key) {
    pad.key_press_modifiers(modifiers, key);
    pad.run();
}

/// Types over a field of the slip, reached as a hand would: click, type, Enter.
fn type_over(pad: &mut Pad<'_>, name: &str, text: &str) {
    pad.get_by_role_and_label(Role::TextInput, name)
        .scroll_to_me();
    pad.run();
    pad.get_by_role_and_label(Role::TextInput, name).click();
    pad.run();
    pad.event(egui::Event::Text(text.to_owned()));
    pad.run();
    press(pad, Modifiers::NONE, Key::Enter);
}

fn leg(pad: &Pad<'_>, leg: usize) -> Shape {
    pad.state().plan().schemes[0].routes[0].legs[leg].clone()
}

#[test]
fn dragging_an_apex_changes_that_bend_and_nothing_else() {
    let mut pad = window();
    assert_eq!(figure(&pad, "Chord"), "5.655 m");
    assert_eq!(figure(&pad, "Rise"), "1.170 m");
    assert_eq!(figure(&pad, "Radius"), "4.000 m");
    let before = pad.state().plan().clone();
    drag_node(
        &mut pad,
        Role::Slider,
        "Apex of leg 2",
        Vec2::new(-20.0, -20.0),
        8,
    );
    assert_ne!(figure(&pad, "Rise"), "1.170 m");
    assert_eq!(figure(&pad, "Chord"), "5.655 m", "the pegs stay");
    let after = pad.state().plan().clone();
    let mut undone = after.clone();
    undone.schemes[0].routes[0].legs[1] = before.schemes[0].routes[0].legs[1].clone();
    assert_eq!(undone, before, "all else is as it was, to the bit");
    assert_ne!(after, before);
    press(&mut pad, Modifiers::COMMAND, Key::Z);
    assert_eq!(*pad.state().plan(), before, "one drag is one undo step");
    press(&mut pad, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert_eq!(*pad.state().plan(), after);
}

#[test]
fn the_figures_follow_while_the_hand_is_still_down() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    let from = place(&pad, Role::Slider, "Apex of leg 2");
    let to = from + Vec2::new(-14.0, -14.0);
    hold(&mut pad, from, to, 6);
    pad.run_steps(1);
    let live = figure(&pad, "Rise");
    assert_ne!(live, "1.170 m");
    assert_eq!(
        *pad.state().plan(),
        before,
        "nothing is changed before the drop"
    );
    let_go(&mut pad, to);
    assert_eq!(figure(&pad, "Rise"), live);
    assert_ne!(*pad.state().plan(), before);
}

#[test]
fn escape_gives_up_a_drag_though_the_button_is_let_go_later() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    let from = place(&pad, Role::Slider, "Peg 3");
    let to = from + Vec2::new(60.0, 40.0);
    hold(&mut pad, from, to, 6);
    press(&mut pad, Modifiers::NONE, Key::Escape);
    assert_eq!(*pad.state().shown(), before);
    let_go(&mut pad, to);
    assert_eq!(*pad.state().plan(), before);
    assert!(!pad.state().is_unsaved());
}

#[test]
fn an_end_peg_keeps_the_sweep_of_its_bends() {
    let mut pad = window();
    let sweep = figure(&pad, "Sweep");
    drag_node(&mut pad, Role::Slider, "Peg 3", Vec2::new(50.0, -20.0), 8);
    pad.get_by_role_and_label(Role::Slider, "Apex of leg 2")
        .click();
    pad.run();
    assert_eq!(figure(&pad, "Sweep"), sweep);
    assert_ne!(figure(&pad, "Chord"), "5.655 m");
    assert_eq!(leg(&pad, 4), leg(&window(), 4));
}

#[test]
fn typing_a_figure_makes_it_hold() {
    let mut pad = window();
    type_over(&mut pad, "Radius", "4.5m");
    assert_eq!(figure(&pad, "Radius"), "4.500 m");
    assert_eq!(figure(&pad, "Chord"), "5.655 m", "the pegs stay");
    // The radius now holds while a peg is dragged.
    drag_node(&mut pad, Role::Slider, "Peg 2", Vec2::new(0.0, 10.0), 5);
    pad.get_by_role_and_label(Role::Slider, "Apex of leg 2")
        .click();
    pad.run();
    assert_eq!(figure(&pad, "Radius"), "4.500 m");
    assert_ne!(figure(&pad, "Chord"), "5.655 m");
}

#[test]
fn passing_through_a_field_changes_nothing() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    pad.get_by_role_and_label(Role::TextInput, "Rise").click();
    pad.run();
    press(&mut pad, Modifiers::NONE, Key::Tab);
    press(&mut pad, Modifiers::NONE, Key::Tab);
    assert_eq!(*pad.state().plan(), before);
    // Escape forgets what was typed.
    pad.get_by_role_and_label(Role::TextInput, "Rise").click();
    pad.run();
    pad.event(egui::Event::Text("2 m".into()));
    pad.run();
    press(&mut pad, Modifiers::NONE, Key::Escape);
    assert_eq!(*pad.state().plan(), before);
    assert_eq!(figure(&pad, "Rise"), "1.170 m");
}

#[test]
fn nonsense_is_refused_in_a_sentence() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    for (name, text) in [
        ("Radius", "1 m"),
        ("Rise", "7' 6 1/0\""),
        ("Rise", "--"),
        ("Rise", "1e400"),
        ("Chord", &"9".repeat(4000)),
        ("Width", "70 m"),
    ] {
        type_over(&mut pad, name, text);
        assert_eq!(*pad.state().plan(), before, "{name} {text}");
        let said = pad.state().said().expect("a sentence").clone();
        assert!(said.wrong && said.sentence.len() > 20, "{said:?}");
        assert!(said.sentence.len() < 300, "{said:?}");
    }
}

#[test]
fn arrow_keys_nudge_by_one_graduation() {
    let mut pad = window();
    pad.get_by_role_and_label(Role::Slider, "Peg 3").click();
    pad.run();
    press(&mut pad, Modifiers::NONE, Key::ArrowRight);
    let at = pad.state().plan().schemes[0].routes[0].waypoints[2].at;
    assert!((at.x - 4.005).abs() < 1e-12 && (at.y - 7.0).abs() < 1e-12);
    assert_eq!(
        value(&pad, Role::Slider, "Peg 3"),
        "4.005 m east, 7.000 m north"
    );
    press(&mut pad, Modifiers::NONE, Key::ArrowDown);
    let at = pad.state().plan().schemes[0].routes[0].waypoints[2].at;
    assert!((at.y - 6.995).abs() < 1e-12);
}

#[test]
fn feet_and_inches_are_a_click_away() {
    let mut pad = window();
    pad.get_by_label("Feet and inches").scroll_to_me();
    pad.run();
    pad.get_by_label("Feet and inches").click();
    pad.run();
    assert_eq!(figure(&pad, "Chord"), "18′ 6 3⁄4″");
    type_over(&mut pad, "Rise", "3' 6 1/2\"");
    assert_eq!(figure(&pad, "Rise"), "3′ 6 1⁄2″");
}

#[test]
fn every_option_and_stage_can_be_turned_to() {
    let mut pad = window();
    for (letter, node) in [("B", "Corner 2"), ("C", "Peg 3")] {
        pad.get_by_role_and_label(Role::Button, letter).click();
        pad.run();
        assert!(pad.query_by_role_and_label(Role::Slider, node).is_some());
    }
    pad.get_by_role_and_label(Role::Tab, "Set out").click();
    pad.run();
    assert!(pad.query_by_label("Go through the steps").is_some());
}

/// Types into the field that asks for a path.
fn answer(pad: &mut Pad<'_>, question: &str, path: &std::path::Path) {
    assert!(pad.query_by_label(question).is_some(), "asked: {question}");
    press(pad, Modifiers::COMMAND, Key::A);
    pad.event(egui::Event::Text(path.to_string_lossy().into_owned()));
    pad.run();
    press(pad, Modifiers::NONE, Key::Enter);
    pad.run();
}

#[test]
fn a_plan_is_saved_opened_again_and_the_same() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("yard.ron");
    let mut pad = window();
    drag_node(&mut pad, Role::Slider, "Peg 5", Vec2::new(30.0, 10.0), 6);
    assert!(pad.state().is_unsaved() && pad.state().title().starts_with('•'));
    press(&mut pad, Modifiers::COMMAND, Key::S);
    answer(&mut pad, "Type where the plan is to be saved", &path);
    assert!(!pad.state().is_unsaved(), "{:?}", pad.state().said());
    let saved = std::fs::read(&path).unwrap();
    assert_eq!(plan::file::read(&saved).unwrap(), *pad.state().plan());
    // Undo goes back past the saving; saving again asks nothing.
    press(&mut pad, Modifiers::COMMAND, Key::Z);
    assert!(pad.state().is_unsaved());
    press(&mut pad, Modifiers::COMMAND, Key::S);
    pad.run();
    assert_eq!(
        plan::file::read(&std::fs::read(&path).unwrap()).unwrap(),
        example::plan().unwrap()
    );
    let mut other = window();
    press(&mut other, Modifiers::COMMAND, Key::O);
    std::fs::write(&path, &saved).unwrap();
    answer(&mut other, "Type where the plan is", &path);
    assert_eq!(plan::file::write(other.state().plan()).as_bytes(), saved);
}

#[test]
fn a_file_that_is_there_is_not_replaced_unasked() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("notes.txt");
    std::fs::write(&path, "keep me").unwrap();
    let mut pad = window();
    press(&mut pad, Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    answer(&mut pad, "Type where the plan is to be saved", &path);
    assert!(pad.query_by_label("There is such a file already").is_some());
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "keep me");
    pad.get_by_role_and_label(Role::Button, "Replace it")
        .click();
    pad.run();
    assert!(
        std::fs::read_to_string(&path)
            .unwrap()
            .starts_with("(\n  version: 1")
    );
}

#[test]
fn what_cannot_be_opened_leaves_everything_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let mut pad = window();
    let before = pad.state().plan().clone();
    let bad = |name: &str, bytes: &[u8]| {
        let path = folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        path
    };
    for path in [
        bad("empty.ron", b""),
        bad("binary.ron", &[0, 159, 146, 150]),
        bad("newer.ron", b"(version: 9, wings: true)"),
        bad("cut.ron", &example::TEXT.as_bytes()[..700]),
        bad("deep.ron", &[b'('; 100_000]),
        folder.path().join("not-there.ron"),
        folder.path().to_path_buf(),
    ] {
        press(&mut pad, Modifiers::COMMAND, Key::O);
        answer(&mut pad, "Type where the plan is", &path);
        let said = pad.state().said().expect("a sentence").clone();
        assert!(said.wrong, "{said:?}");
        assert_eq!(*pad.state().plan(), before);
    }
}

#[test]
fn unsaved_changes_are_asked_about() {
    let mut pad = window();
    press(&mut pad, Modifiers::COMMAND, Key::N);
    assert_eq!(
        pad.state().plan().title,
        "",
        "nothing to lose, nothing asked"
    );
    let mut pad = window();
    drag_node(&mut pad, Role::Slider, "Peg 2", Vec2::new(30.0, 10.0), 6);
    let changed = pad.state().plan().clone();
    press(&mut pad, Modifiers::COMMAND, Key::N);
    pad.get_by_role_and_label(Role::Button, "Keep working")
        .click();
    pad.run();
    assert_eq!(*pad.state().plan(), changed);
    press(&mut pad, Modifiers::COMMAND, Key::N);
    press(&mut pad, Modifiers::NONE, Key::Escape);
    assert_eq!(*pad.state().plan(), changed, "Escape keeps working");
    press(&mut pad, Modifiers::COMMAND, Key::N);
    pad.get_by_role_and_label(Role::Button, "Give them up")
        .click();
    pad.run();
    assert_ne!(*pad.state().plan(), changed);
    assert!(!pad.state().is_unsaved());
}

#[test]
fn the_sheet_is_written_from_the_window() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("yard.pdf");
    let mut pad = window();
    press(&mut pad, Modifiers::COMMAND, Key::P);
    answer(&mut pad, "Type where the sheet is to be written", &path);
    let bytes = std::fs::read(&path).unwrap();
    assert!(bytes.starts_with(b"%PDF-"), "{:?}", pad.state().said());
    // Never over the plan itself.
    let plan = folder.path().join("yard.ron");
    press(&mut pad, Modifiers::COMMAND, Key::S);
    answer(&mut pad, "Type where the plan is to be saved", &plan);
    let saved = std::fs::read(&plan).unwrap();
    press(&mut pad, Modifiers::COMMAND, Key::P);
    answer(&mut pad, "Type where the sheet is to be written", &plan);
    assert_eq!(std::fs::read(&plan).unwrap(), saved);
}

#[test]
fn a_folder_that_cannot_be_written_in_is_said() {
    let mut pad = window();
    press(&mut pad, Modifiers::COMMAND, Key::S);
    let nowhere = std::path::Path::new("/no/such/folder/yard.ron");
    answer(&mut pad, "Type where the plan is to be saved", nowhere);
    let said = pad.state().said().expect("a sentence");
    assert!(
        said.wrong && said.sentence.contains("/no/such/folder"),
        "{said:?}"
    );
}

#[test]
fn the_rounding_of_a_corner_is_dragged_and_typed() {
    let mut pad = window();
    pad.get_by_role_and_label(Role::Button, "B").click();
    pad.run();
    assert_eq!(figure(&pad, "Radius"), "7.500 m");
    drag_node(
        &mut pad,
        Role::Slider,
        "Rounding of corner 2",
        Vec2::new(-12.0, -12.0),
        6,
    );
    let radius = pad.state().plan().schemes[1].routes[0].waypoints[1]
        .rounding
        .unwrap();
    assert!(radius < 7.5 && radius > 5.0, "{radius}");
    type_over(&mut pad, "Radius", "8 m");
    assert_eq!(figure(&pad, "Radius"), "8.000 m");
    // Larger than fits: drawn with the largest, and said.
    type_over(&mut pad, "Radius", "12 m");
    assert!(pad.query_by_label_contains("does not fit here").is_some());
}

#[test]
fn a_held_figure_stops_the_peg_and_says_so() {
    let mut pad = window();
    type_over(&mut pad, "Radius", "4 m");
    drag_node(&mut pad, Role::Slider, "Peg 3", Vec2::new(300.0, -100.0), 8);
    let said = pad.state().said().expect("a sentence").clone();
    assert!(
        said.sentence.contains("holds its chord and radius"),
        "{said:?}"
    );
    pad.get_by_role_and_label(Role::Slider, "Apex of leg 2")
        .click();
    pad.run();
    assert_eq!(figure(&pad, "Radius"), "4.000 m");
    assert_eq!(
        figure(&pad, "Chord"),
        "8.000 m",
        "the peg went as far as it could"
    );
}

#[test]
fn the_other_bend_of_two_can_be_taken() {
    let mut pad = window();
    type_over(&mut pad, "Radius", "4.5 m");
    let rise = figure(&pad, "Rise");
    pad.get_by_role_and_label(Role::Button, "Take that bend")
        .scroll_to_me();
    pad.run();
    pad.get_by_role_and_label(Role::Button, "Take that bend")
        .click();
    pad.run();
    assert_eq!(figure(&pad, "Radius"), "4.500 m");
    assert_ne!(figure(&pad, "Rise"), rise);
}

#[test]
fn everything_has_a_name_a_screen_reader_can_say() {
    let mut pad = window();
    for stage in ["Draw", "Set out"] {
        pad.get_by_role_and_label(Role::Tab, stage).click();
        pad.run();
        for node in pad.query_all(egui_kittest::kittest::By::new().recursive(true)) {
            let asks = [
                Role::Button,
                Role::Slider,
                Role::TextInput,
                Role::Tab,
                Role::CheckBox,
                Role::ComboBox,
            ];
            if asks.contains(&node.accesskit_node().role()) {
                let named = node
                    .accesskit_node()
                    .label()
                    .is_some_and(|label| !label.trim().is_empty());
                assert!(
                    named,
                    "{:?} at {:?} has no name",
                    node.accesskit_node().role(),
                    node.rect()
                );
            }
        }
    }
}

#[test]
fn nothing_repaints_while_nothing_changes() {
    let mut pad = window();
    pad.run();
    // After it has settled no further frame is asked for.
    for _ in 0..3 {
        pad.step();
    }
    assert!(!pad.ctx.has_requested_repaint());
}

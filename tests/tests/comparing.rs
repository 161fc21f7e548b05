//! Options compared in the window: the list, the table, the plan side by side, and the client's view.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on says where")]

use egui::accesskit::Role;
use egui::{Key, Modifiers, Pos2, Rect, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::Look;
use pegbow_tests::harness::{builder, drag_node, place, value};
use plan::{Plan, example};

type Pad<'a> = Harness<'a, Sketchpad>;

fn sized<'a>(size: [f32; 2], zoom: f32) -> Pad<'a> {
    let mut harness = builder(Look::Day)
        .with_size(Vec2::new(size[0], size[1]) / zoom)
        .with_pixels_per_point(zoom)
        .build_eframe(|_| Sketchpad::new(example::plan().unwrap(), None).asking_in_window());
    harness.run();
    click(&mut harness, Role::Tab, "Compare");
    harness
}

fn window<'a>() -> Pad<'a> {
    sized([1280.0, 720.0], 1.0)
}

#[track_caller]
fn click(pad: &mut Pad<'_>, role: Role, label: &str) {
    pad.get_by_role_and_label(role, label).scroll_to_me();
    pad.run();
    pad.get_by_role_and_label(role, label).click();
    pad.run();
}

fn press(pad: &mut Pad<'_>, key: Key) {
    pad.key_press(key);
    pad.run();
}

fn names(pad: &Pad<'_>) -> Vec<String> {
    let plan = pad.state().plan();
    plan.schemes
        .iter()
        .map(|scheme| scheme.name.clone())
        .collect()
}

fn shows(pad: &Pad<'_>, words: &str) -> bool {
    pad.query_by_label_contains(words).is_some()
}

#[test]
fn the_table_says_what_differs_and_which_is_best() {
    let pad = window();
    for cell in [
        "Option C, length: 21.34 m, best",
        "Option A, length: 21.90 m",
        "Option B, tightest inside edge: 6.90 m, best",
        "Option B, nearest: 0.22 m to “old apple tree, north”",
        "Option A, width: 1.20 m",
    ] {
        assert!(pad.query_by_label(cell).is_some(), "{cell}");
    }
    assert!(shows(
        &pad,
        "C is 0.56 m shorter, covers 0.67 m² less ground"
    ));
    assert!(shows(&pad, "A is no better than C in length"));
}

/// The options from left to right, by the first letters of a row's cells.
fn order(pad: &Pad<'_>) -> String {
    let mut cells: Vec<(f32, char)> = ["A", "B", "C"]
        .into_iter()
        .map(|letter| {
            let start = format!("Option {letter}, length: ");
            let cell = pad.get_by_label_contains(&start);
            (cell.rect().left(), letter.chars().next().unwrap())
        })
        .collect();
    cells.sort_by(|a, b| a.0.total_cmp(&b.0));
    cells.into_iter().map(|cell| cell.1).collect()
}

#[test]
fn a_heading_sorts() {
    let mut pad = window();
    assert_eq!(order(&pad), "ABC");
    click(&mut pad, Role::Button, "Sort by length");
    assert_eq!(order(&pad), "CAB");
    click(&mut pad, Role::Button, "Sort by length");
    assert_eq!(order(&pad), "BAC");
    click(&mut pad, Role::Button, "Sort by tightest inside edge");
    assert_eq!(order(&pad), "BCA");
    click(&mut pad, Role::Button, "Sort by tightest inside edge");
    click(&mut pad, Role::Button, "Sort by tightest inside edge");
    assert_eq!(order(&pad), "ABC");
}

#[test]
fn options_are_copied_renamed_moved_and_taken_away_each_in_one_step() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    click(&mut pad, Role::Button, "Copy it");
    assert_eq!(names(&pad)[3], "Round the cistern, copy");
    assert_eq!(
        value(&pad, Role::TextInput, "Name of the option"),
        "Round the cistern, copy",
        "the copy is chosen"
    );
    pad.get_by_role_and_label(Role::TextInput, "Name of the option")
        .click();
    pad.run();
    pad.event(egui::Event::Text("Past the quince".to_owned()));
    pad.run();
    press(&mut pad, Key::Enter);
    assert_eq!(names(&pad)[3], "Past the quince");
    click(&mut pad, Role::Button, "Move it up");
    assert_eq!(names(&pad)[2], "Past the quince");
    assert_eq!(
        value(&pad, Role::TextInput, "Name of the option"),
        "Past the quince",
        "what was chosen stays chosen"
    );
    click(&mut pad, Role::Button, "Take it away");
    assert_eq!(*pad.state().plan(), before);
    for _ in 0..4 {
        pad.key_press_modifiers(Modifiers::COMMAND, Key::Z);
        pad.run();
    }
    assert_eq!(*pad.state().plan(), before);
    assert!(!pad.state().is_unsaved());
}

#[test]
fn a_locked_option_is_not_dragged_until_it_is_unlocked() {
    let mut pad = window();
    click(&mut pad, Role::Button, "Lock it");
    assert!(pad.query_by_label("locked").is_some());
    let locked = pad.state().plan().clone();
    click(&mut pad, Role::Tab, "Draw");
    drag_node(
        &mut pad,
        Role::Slider,
        "Apex of leg 2",
        Vec2::new(-20.0, -20.0),
        5,
    );
    assert_eq!(*pad.state().plan(), locked);
    let said = pad.state().said().unwrap();
    assert!(
        said.sentence
            .contains("Option A is locked: unlock it under Compare"),
        "{said:?}"
    );
    click(&mut pad, Role::Tab, "Compare");
    click(&mut pad, Role::Button, "Unlock it");
    click(&mut pad, Role::Tab, "Draw");
    drag_node(
        &mut pad,
        Role::Slider,
        "Apex of leg 2",
        Vec2::new(-20.0, -20.0),
        5,
    );
    assert_ne!(*pad.state().plan(), locked);
}

#[test]
fn notes_are_kept_with_the_option() {
    let mut pad = window();
    let label = "Notes of option A";
    pad.get_by_role_and_label(Role::MultilineTextInput, label)
        .scroll_to_me();
    pad.run();
    let field = pad.get_by_role_and_label(Role::MultilineTextInput, label);
    field.click();
    pad.run();
    pad.event(egui::Event::Text("dry in winter".to_owned()));
    pad.run();
    press(&mut pad, Key::Enter);
    pad.event(egui::Event::Text("no steps".to_owned()));
    pad.run();
    click(&mut pad, Role::Tab, "Draw");
    assert_eq!(
        pad.state().plan().schemes[0].notes,
        "dry in winter\nno steps"
    );
}

#[test]
fn a_click_on_the_plan_chooses_an_option() {
    let mut pad = window();
    let chosen = |pad: &Pad<'_>| value(pad, Role::TextInput, "Name of the option");
    let view = *pad.state().canvas().view().unwrap();
    // The outer corner of option B, where no other comes by.
    let solved = pad.state().plan().solve();
    let line = solved.schemes[1].routes[0].centre_line.clone().unwrap();
    let at = view.screen_from_plan(line.point_at(0.45 * line.length()));
    click_at(&mut pad, at);
    assert_eq!(chosen(&pad), "One wide sweep");
    click(&mut pad, Role::Button, "Side by side");
    let area = view.area();
    click_at(&mut pad, area.left_top() + Vec2::new(40.0, 40.0));
    assert_eq!(chosen(&pad), "Round the cistern");
}

fn click_at(pad: &mut Pad<'_>, at: Pos2) {
    pad.hover_at(at);
    pad.run_steps(1);
    pad.drag_at(at);
    pad.run_steps(1);
    pad.drop_at(at);
    pad.run();
}

fn heading(pad: &Pad<'_>) -> String {
    let picture = pad.get_by_role(Role::Image);
    picture.accesskit_node().label().unwrap()
}

#[test]
fn keys_step_through_the_options_before_a_client() {
    let mut pad = window();
    let before = pad.state().plan().clone();
    press(&mut pad, Key::C);
    assert_eq!(heading(&pad), "A, Round the cistern");
    assert!(pad.query_by_role(Role::Slider).is_none(), "no handles");
    assert!(pad.query_by_role(Role::Tab).is_none(), "and no stages");
    press(&mut pad, Key::ArrowRight);
    assert_eq!(heading(&pad), "B, One wide sweep");
    press(&mut pad, Key::ArrowLeft);
    press(&mut pad, Key::ArrowLeft);
    assert_eq!(heading(&pad), "C, Bend after bend");
    press(&mut pad, Key::Num2);
    assert_eq!(heading(&pad), "B, One wide sweep");
    press(&mut pad, Key::Num9);
    assert_eq!(heading(&pad), "B, One wide sweep");
    // Keys of the work are not heard here.
    press(&mut pad, Key::Delete);
    press(&mut pad, Key::L);
    click(&mut pad, Role::Button, "Next option");
    assert_eq!(heading(&pad), "C, Bend after bend");
    press(&mut pad, Key::Escape);
    assert!(pad.query_by_role(Role::Image).is_none());
    assert_eq!(
        value(&pad, Role::TextInput, "Name of the option"),
        "Bend after bend",
        "the option shown last stays chosen"
    );
    assert_eq!(*pad.state().plan(), before);
}

#[test]
fn a_walk_names_what_stands_left_and_right_and_ends_at_the_end() {
    let mut pad = window();
    press(&mut pad, Key::C);
    pad.key_press(Key::Space);
    pad.run_steps(3);
    assert!(shows(&pad, "On the left: "), "at the gate");
    assert!(shows(&pad, "Stand still"));
    pad.key_press(Key::Space);
    // It stands still, and no frame is asked for: a run would not end otherwise.
    pad.run();
    assert!(shows(&pad, "Walk along it"));
    pad.key_press(Key::Space);
    // 21.9 m at 1.2 m a second, in steps of a quarter at most: 0.1 s each.
    for _ in 0..400 {
        pad.step();
        if shows(&pad, "Walk along it") {
            break;
        }
    }
    pad.run();
    assert!(shows(&pad, "Walk along it"), "the end is reached");
    assert!(shows(&pad, "On the right: "));
}

#[test]
fn a_picture_is_saved_from_the_window() {
    let folder = tempfile::tempdir().unwrap();
    let mut pad = window();
    for (name, start) in [("yard.svg", &b"<svg "[..]), ("yard.png", &b"\x89PNG"[..])] {
        let path = folder.path().join(name);
        pad.key_press_modifiers(Modifiers::COMMAND, Key::E);
        pad.run();
        pad.key_press_modifiers(Modifiers::COMMAND, Key::A);
        pad.event(egui::Event::Text(path.to_str().unwrap().to_owned()));
        pad.run();
        press(&mut pad, Key::Enter);
        pad.run();
        assert!(std::fs::read(&path).unwrap().starts_with(start));
        assert!(
            pad.state()
                .said()
                .unwrap()
                .sentence
                .contains("The picture is saved as")
        );
    }
    let path = folder.path().join("yard.gif");
    pad.key_press_modifiers(Modifiers::COMMAND, Key::E);
    pad.run();
    pad.key_press_modifiers(Modifiers::COMMAND, Key::A);
    pad.event(egui::Event::Text(path.to_str().unwrap().to_owned()));
    pad.run();
    press(&mut pad, Key::Enter);
    pad.run();
    assert!(
        pad.state()
            .said()
            .unwrap()
            .sentence
            .contains("ends in .png or .svg")
    );
    assert!(!path.exists());
}

#[test]
fn all_of_it_fits_on_small_screens() {
    for (size, zoom) in [([1280.0, 720.0], 1.0), ([1280.0, 720.0], 2.0)] {
        let mut pad = sized(size, zoom);
        let screen = Rect::from_min_size(Pos2::ZERO, Vec2::new(size[0], size[1]) / zoom);
        let within = |pad: &Pad<'_>, what: &str| {
            for node in pad.query_all_by_role(Role::Button) {
                let rect = node.rect();
                assert!(
                    screen.x_range().contains(rect.left()) && rect.right() <= screen.right() + 1.0,
                    "{what} at {zoom}: {:?} {rect:?}",
                    node.accesskit_node().label()
                );
            }
        };
        within(&pad, "the slip");
        let at = place(&pad, Role::Tab, "Compare");
        assert!(screen.contains(at));
        press(&mut pad, Key::C);
        within(&pad, "before a client");
    }
}

#[test]
fn a_plan_without_anything_is_compared_too() {
    let empty = Plan::empty(plan::units::Units::FeetInches);
    let mut pad: Pad<'_> = builder(Look::Day)
        .with_size(Vec2::new(1280.0, 720.0))
        .build_eframe(|_| Sketchpad::new(empty, None).asking_in_window());
    pad.run();
    click(&mut pad, Role::Tab, "Compare");
    click(&mut pad, Role::Button, "Side by side");
    press(&mut pad, Key::C);
    assert_eq!(heading(&pad), "Option A");
    assert!(shows(&pad, "Nothing is drawn of it yet"));
    pad.key_press(Key::Space);
    pad.run();
    press(&mut pad, Key::Escape);
    let mut none = Plan::empty(plan::units::Units::Metric);
    none.schemes.clear();
    let mut pad: Pad<'_> =
        builder(Look::Day).build_eframe(|_| Sketchpad::new(none, None).asking_in_window());
    pad.run();
    click(&mut pad, Role::Tab, "Compare");
    click(&mut pad, Role::Button, "Side by side");
    press(&mut pad, Key::C);
    press(&mut pad, Key::ArrowRight);
    pad.key_press(Key::Space);
    pad.run();
}

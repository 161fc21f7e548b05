//! The window at every text scale, in every look, in metres and in feet, with the longest names: no text cut off or
//! over another, everything to be pressed within the window and large enough for a finger.

use egui::accesskit::Role;
use egui::{Key, Modifiers, Pos2, Rect, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{By, NodeT as _, Queryable as _};
use geometry::{Point, Vector};
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::{self, Look};
use pegbow::window::words;
use pegbow_tests::harness::{builder, drag_node, hold, let_go, place};
use pegbow_tests::seen;
use plan::document::{PadShape, Shape};
use plan::units::{Graduation, Units};
use plan::{Edit, Plan, example};

type Pad<'a> = Harness<'a, Sketchpad>;

/// Pixels of the window, and the pixels to a point at which it is looked at.
const PIXELS: Vec2 = Vec2::new(1280.0, 720.0);
const SCALES: [f32; 5] = [0.8, 1.0, 1.5, 2.0, 2.5];
/// A text in a field that is longer than this is a name, in bytes.
const LONGEST_FIGURE: usize = 24;
/// Tall enough to show all of the slip at once, in screen points.
const TALL: f32 = 12000.0;

/// A name as long as a plan may hold: of words, or in one piece.
fn long(what: &str, words: bool) -> String {
    let text = if words {
        format!("{what} behind the old cold frames by the long south wall, ").repeat(6)
    } else {
        format!("{what}-by-the-wall-").repeat(20)
    };
    text.chars()
        .take(plan::limits::NAME)
        .collect::<String>()
        .trim()
        .to_owned()
}

/// The example with the longest names everywhere.
fn long_names() -> Plan {
    let mut plan = example::plan().expect("the example reads");
    plan.title = long("Orchard", true);
    plan.site_mut().marks[0].name = long("gate post", true);
    plan.site_mut().marks[2].name = long("shed-corner", false);
    // What refers to them goes by their names.
    for scheme in &mut plan.schemes {
        for route in &mut scheme.routes {
            route.start_direction = None;
            route.end_direction = None;
            route.name = long("Path", true);
        }
    }
    for (i, obstacle) in plan.site_mut().obstacles.iter_mut().enumerate() {
        obstacle.name = long(&format!("{i} {}", obstacle.name), i % 2 == 0);
    }
    plan.schemes[0].routes[0].pads.push(plan::document::Pad {
        name: long("Landing", true),
        station: 3.0,
        shape: PadShape::Rectangle {
            along: 1.5,
            across: 1.5,
        },
    });
    plan.schemes[0].name = long("Round", true);
    plan.schemes[1].name = long("Sweep", false);
    let mut second = plan.schemes[0].routes[0].clone();
    second.name = long("Byway", false);
    for waypoint in &mut second.waypoints {
        waypoint.at.y += 2.5;
    }
    plan.schemes[0].routes.push(second);
    plan
}

fn window<'a>(plan: Plan, look: Look, scale: f32, height: f32) -> Pad<'a> {
    let mut pad = Sketchpad::new(plan, None).asking_in_window();
    pad.wear(look);
    let mut harness = builder(look)
        .with_size(Vec2::new(PIXELS.x / scale, height))
        .with_pixels_per_point(scale)
        .build_eframe(|_| pad);
    harness.run();
    harness
}

fn press(pad: &mut Pad<'_>, modifiers: Modifiers, key: Key) {
    pad.key_press_modifiers(modifiers, key);
    pad.run();
}

fn click(pad: &mut Pad<'_>, role: Role, label: &str) {
    pad.get_by_role_and_label(role, label).click();
    pad.run();
}

/// Every fault of what is shown now.
fn faults(pad: &Pad<'_>, what: &str) -> Vec<String> {
    let window = pad.ctx.content_rect();
    let (mut fields, mut pressed) = (Vec::new(), Vec::new());
    let mut found = Vec::new();
    for node in pad.query_all(By::new().recursive(true)) {
        match node.accesskit_node().role() {
            Role::TextInput => {
                fields.push(node.rect());
                pressed.push(node.rect());
            }
            Role::Button | Role::Tab | Role::CheckBox | Role::ComboBox => {
                let rect = node.rect();
                let name = node.accesskit_node().label().unwrap_or_default();
                // The figures on the plan are their own buttons, a little larger than their text.
                if !name.ends_with("on the plan") {
                    pressed.push(rect);
                }
                if rect.left() < window.left() - 0.5 || window.right() + 0.5 < rect.right() {
                    found.push(format!("outside: {name:.60} {rect:?}"));
                }
            }
            _ => {}
        }
    }
    let mut rows = seen::rows(pad.output(), window);
    found.extend(seen::overlaps(&rows));
    // Where not all of the slip shows, what is hidden below would lie under the foot.
    let whole = window.height() >= TALL && seen::veil(pad.output(), window).is_none();
    for row in rows.iter().filter(|_| whole) {
        let on_edge = |rect: &Rect| {
            let seen = rect.intersect(row.clip);
            seen.shrink(1.0).intersects(row.seen().shrink(1.0))
                && !rect.expand(1.0).contains_rect(row.seen())
        };
        if let Some(rect) = pressed.iter().find(|rect| on_edge(rect)) {
            found.push(format!(
                "on the edge of a field or button: {:.60} {:?} {rect:?}",
                row.words,
                row.seen()
            ));
        }
    }
    // A name may run out of its field, where the keyboard brings it back; a figure may not.
    rows.retain(|row| {
        let field = fields
            .iter()
            .any(|field| field.expand(1.0).contains_rect(row.clip));
        !field || row.words.len() < LONGEST_FIGURE
    });
    found.extend(seen::cut(&rows));
    found
        .iter()
        .map(|fault| format!("{what}: {fault}"))
        .collect()
}

/// Opens what is shut, and shuts what is open.
fn open(pad: &mut Pad<'_>, headers: &[&str]) {
    for header in headers {
        if let Some(node) = pad.query_by_label(header) {
            node.click();
            pad.run();
        }
    }
}

/// Everything there is to be looked at, one after the other.
fn walk(pad: &mut Pad<'_>, what: &str) -> Vec<String> {
    let mut found = faults(pad, &format!("{what}, bend"));
    let (walking, rules) = ("How it walks", "Which rules judge the paths");
    for (headers, seen) in [
        (&[walking, "Pace, and what goes along"][..], "how it walks"),
        (&[rules, "What the edges are made of"], "rules"),
        (&["Take clean figures"], "clean figures"),
    ] {
        open(pad, headers);
        found.extend(faults(pad, &format!("{what}, {seen}")));
        // Shut again, so that all of the slip shows at once.
        open(pad, headers);
    }
    open(
        pad,
        &[
            "Change the path",
            "How it leaves and arrives",
            "Landings and passing places",
            "Options",
        ],
    );
    found.extend(faults(pad, &format!("{what}, opened")));
    for peg in ["Peg 1", "Peg 3"] {
        if let Some(node) = pad.query_by_role_and_label(Role::Slider, peg) {
            node.click();
            pad.run();
            found.extend(faults(pad, &format!("{what}, {peg}")));
        }
    }
    if let Some(node) = pad.query_by_role_and_label(Role::Slider, "Peg 3") {
        let at = node.rect().center();
        hold(pad, at, at + Vec2::new(13.0, -9.0), 4);
        pad.run_steps(1);
        found.extend(faults(pad, &format!("{what}, dragged")));
        press(pad, Modifiers::NONE, Key::Escape);
        let_go(pad, at);
    }
    for (key, modifiers) in [(Key::F1, Modifiers::NONE), (Key::S, Modifiers::COMMAND)] {
        press(pad, modifiers, key);
        found.extend(faults(pad, &format!("{what}, {key:?}")));
        press(pad, Modifiers::NONE, Key::Escape);
    }
    press(pad, Modifiers::COMMAND, Key::A);
    found.extend(faults(pad, &format!("{what}, all pegs")));
    for key in [Key::L, Key::M] {
        press(pad, Modifiers::NONE, key);
        pad.hover_at(egui::pos2(100.0, 100.0));
        pad.run();
        found.extend(faults(pad, &format!("{what}, {key:?}")));
        press(pad, Modifiers::NONE, Key::Escape);
    }
    press(pad, Modifiers::NONE, Key::A);
    for chart in ["Clearance", "Turn per pace", "Inside radius"] {
        click(pad, Role::Button, chart);
        let strip = format!("{chart} along the path");
        let at = place(pad, Role::Slider, &strip);
        pad.hover_at(at);
        pad.run();
        found.extend(faults(pad, &format!("{what}, {chart}")));
    }
    press(pad, Modifiers::NONE, Key::A);
    found.extend(walk_site(pad, what));
    found.extend(walk_count(pad, what));
    click(pad, Role::Tab, "Set out");
    found.extend(faults(pad, &format!("{what}, set out")));
    click(pad, Role::Button, "B");
    found.extend(faults(pad, &format!("{what}, set out rounding")));
    open(pad, &["How it is set out"]);
    found.extend(faults(pad, &format!("{what}, set out opened")));
    open(pad, &["How it is set out"]);
    for way in ["Two battens: ", "Offsets from the chord: "] {
        let label = button_that_begins(pad, way);
        click(pad, Role::Button, &label);
        found.extend(faults(pad, &format!("{what}, {way}")));
    }
    found.extend(walk_steps(pad, what));
    found
}

fn button_that_begins(pad: &Pad<'_>, begins: &str) -> String {
    let all = pad.query_all_by_role(Role::Button);
    let mut labels = all.filter_map(|node| node.accesskit_node().label());
    labels
        .find(|label| label.starts_with(begins))
        .unwrap_or_else(|| panic!("no button begins {begins}"))
}

/// The steps of setting out: the first ones, some of the chosen bend, the last.
fn walk_steps(pad: &mut Pad<'_>, what: &str) -> Vec<String> {
    let mut found = Vec::new();
    let steps = [
        (Key::ArrowRight, 4),
        (Key::ArrowRight, 5),
        (Key::ArrowRight, 6),
        (Key::End, 1),
    ];
    for (key, times) in steps {
        for _ in 0..times {
            press(pad, Modifiers::NONE, key);
        }
        found.extend(faults(pad, &format!("{what}, steps by {key:?} {times}")));
    }
    press(pad, Modifiers::NONE, Key::Escape);
    found
}

/// The Count stage: nothing chosen yet, then a build-up with prices, and all that opens.
fn walk_count(pad: &mut Pad<'_>, what: &str) -> Vec<String> {
    click(pad, Role::Tab, "Count");
    let mut found = faults(pad, &format!("{what}, count"));
    let build_up = plan::count::built_in()[3].clone();
    pad.state_mut().commit(&Edit::SetBuildUp {
        scheme: 0,
        build_up: Some(std::sync::Arc::new(build_up)),
    });
    pad.run();
    found.extend(faults(pad, &format!("{what}, counted")));
    pad.state_mut()
        .commit(&Edit::SetPrices(std::sync::Arc::new(prices())));
    pad.run();
    found.extend(faults(pad, &format!("{what}, priced")));
    for header in [
        "What is assumed of it",
        "What is dug, and what carries it",
        "Sharp sand: why so much, and who sells it",
        "Which width saves cuts",
    ] {
        // What is out of sight would not be hit.
        pad.get_by_label(header).scroll_to_me();
        pad.run();
        open(pad, &[header]);
        found.extend(faults(pad, &format!("{what}, {header}")));
        open(pad, &[header]);
    }
    // Back to the top, where the next stage begins.
    pad.get_by_label("Built of").scroll_to_me();
    pad.get_by_role_and_label(Role::Button, "A").scroll_to_me();
    pad.run();
    found
}

/// Prices with the longest names, not for everything.
fn prices() -> plan::price::PriceList {
    let text = format!(
        r#"(
            version: 1,
            currency: (sign: "€"),
            lines: [
                (key: "pavers", supplier: "{supplier}", sold: Per(Piece), price: "0.85", delivery: "45"),
                (key: "bedding-sand", supplier: "{supplier}", sold: Per(Tonne), price: "1234567.89", least_order: Some("5")),
            ],
            overhead: "15 %",
            contingency: "5 %",
            taxes: [(name: "{tax}", share: "20 %")],
        )"#,
        supplier = long("Merchant", false),
        tax = long("Tax", true),
    );
    plan::price::read_price_list(text.as_bytes()).expect("a price list")
}

/// The Measure stage: nothing chosen, each kind of thing chosen, a thing being drawn.
fn walk_site(pad: &mut Pad<'_>, what: &str) -> Vec<String> {
    click(pad, Role::Tab, "Measure");
    let mut found = faults(pad, &format!("{what}, measure"));
    for place in [
        (17.0, 9.0),
        (0.2, 7.4),
        (9.2, 10.4),
        (14.0, 0.0),
        (17.4, 5.5),
        (0.3, 0.0),
        (20.8, 5.0),
        (16.0, 7.9),
    ] {
        let view = *pad.state().canvas().view().expect("a view");
        let at = view.screen_from_plan(Point::new(place.0, place.1));
        pad.hover_at(at);
        pad.run_steps(1);
        pad.drag_at(at);
        pad.run_steps(1);
        pad.drop_at(at);
        // Long enough that two clicks are not a double one.
        pad.run_steps(30);
        found.extend(faults(pad, &format!("{what}, at {place:?}")));
    }
    press(pad, Modifiers::NONE, Key::Escape);
    press(pad, Modifiers::NONE, Key::D);
    pad.event(egui::Event::Text("3; 2".into()));
    pad.run();
    pad.hover_at(egui::pos2(100.0, 100.0));
    pad.run();
    found.extend(faults(pad, &format!("{what}, drawing")));
    press(pad, Modifiers::NONE, Key::Escape);
    press(pad, Modifiers::NONE, Key::Escape);
    found
}

#[test]
fn no_text_is_cut_or_over_another_at_any_scale() {
    let mut found = Vec::new();
    for scale in SCALES {
        for look in Look::ALL {
            for units in [Units::Metric, Units::FeetInches] {
                for height in [PIXELS.y / scale, TALL] {
                    let mut pad = window(long_names(), look, scale, height);
                    pad.state_mut().commit(&Edit::SetUnits {
                        units,
                        graduation: Graduation::default_for(units),
                    });
                    pad.run();
                    found.extend(walk(
                        &mut pad,
                        &format!("{look:?} {scale} {units:?} {height}"),
                    ));
                }
            }
        }
    }
    assert!(
        found.is_empty(),
        "{} faults:\n{}",
        found.len(),
        found.join("\n")
    );
}

/// Closer to what lies under the pointer, so many times.
fn zoom(pad: &mut Pad<'_>, at: Pos2, times: f32) {
    pad.hover_at(at);
    pad.run();
    pad.event(egui::Event::Zoom(times));
    pad.run();
}

/// The handles that are shown: what they are called and where they can be hit.
fn handles(pad: &Pad<'_>) -> Vec<(String, Rect)> {
    pad.query_all_by_role(Role::Slider)
        .map(|node| {
            (
                node.accesskit_node().label().unwrap_or_default(),
                node.rect(),
            )
        })
        .collect()
}

#[test]
fn a_finger_can_hit_every_handle_at_every_scale_and_zoom() {
    for scale in SCALES {
        let mut pad = window(example::plan().unwrap(), Look::Day, scale, PIXELS.y / scale);
        for times in [0.02, 4.0, 4.0, 4.0, 4.0, 10.0, 100.0] {
            let view = *pad.state().canvas().view().unwrap();
            let at = view.screen_from_plan(Point::new(4.0, 7.0));
            zoom(&mut pad, at, times);
            let shown = handles(&pad);
            assert!(!shown.is_empty(), "{scale} {times}");
            for (name, rect) in &shown {
                let least = rect.width().min(rect.height());
                assert!(theme::TARGET <= least + 0.01, "{name} at {scale}: {rect:?}");
            }
            // None lies right on another, but what is chosen always shows.
            for (nth, (name, one)) in shown.iter().enumerate() {
                for (other, rect) in &shown[nth + 1..] {
                    let apart = one.center().distance(rect.center());
                    let chosen = ["Apex of leg 2", "Peg 2", "Peg 3"];
                    let both = chosen.contains(&name.as_str()) && chosen.contains(&other.as_str());
                    assert!(
                        apart > 1.0 || both,
                        "{name} and {other} at {scale}, {times}"
                    );
                }
            }
        }
    }
}

#[test]
fn two_pegs_five_millimetres_apart_are_told_apart_when_shown_larger() {
    let mut plan = example::plan().unwrap();
    let route = &mut plan.schemes[0].routes[0];
    // Far from the origin, as on a national grid.
    for waypoint in &mut route.waypoints {
        waypoint.at += Vector::new(40_000.0, 70_000.0);
    }
    route.start_direction = None;
    route.end_direction = None;
    route.waypoints[4].at = route.waypoints[5].at + Vector::new(-0.004, 0.003);
    route.legs[3..=4].fill(Shape::Straight);
    plan.site = std::sync::Arc::default();
    plan.schemes.truncate(1);
    let before = plan.schemes[0].routes[0].clone();
    for scale in [0.8, 2.5] {
        let mut pad = window(plan.clone(), Look::Day, scale, PIXELS.y / scale);
        let named =
            |pad: &Pad<'_>, wanted: &str| handles(pad).iter().any(|(name, _)| name == wanted);
        assert!(
            !(named(&pad, "Peg 5") && named(&pad, "Peg 6")),
            "they look like one"
        );
        let place = before.waypoints[5].at;
        for _ in 0..4 {
            let at = pad.state().canvas().view().unwrap().screen_from_plan(place);
            zoom(&mut pad, at, 5.0);
        }
        assert!(named(&pad, "Peg 5") && named(&pad, "Peg 6"), "now like two");
        drag_node(&mut pad, Role::Slider, "Peg 5", Vec2::new(-40.0, 40.0), 6);
        let after = &pad.state().plan().schemes[0].routes[0];
        assert_ne!(after.waypoints[4].at, before.waypoints[4].at);
        assert_eq!(after.waypoints[5].at, before.waypoints[5].at, "to the bit");
    }
}

#[test]
fn the_hints_of_a_first_run_fit_the_window() {
    for scale in SCALES {
        let pad = Sketchpad::new(long_names(), None).with_hints(None);
        let mut harness = builder(Look::Day)
            .with_size(PIXELS / scale)
            .with_pixels_per_point(scale)
            .build_eframe(|_| pad);
        harness.run();
        let area = harness.ctx.content_rect();
        for words in words::hints::ALL {
            let rect = harness.get_by_label(words).rect();
            assert!(
                area.contains_rect(rect),
                "{words} at {scale}: {rect:?} in {area:?}"
            );
        }
        let close = harness.get_by_role_and_label(Role::Button, words::hints::CLOSE);
        assert!(area.contains_rect(close.rect()), "{scale}");
        close.click();
        harness.run();
        assert!(harness.query_by_label(words::hints::CLOSE).is_none());
    }
}

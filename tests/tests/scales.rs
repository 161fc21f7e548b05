//! The window at every text scale, in every look, in metres and in feet, with the longest names: no text cut off or
//! over another, everything to be pressed within the window and large enough for a finger.

use egui::accesskit::Role;
use egui::{Key, Modifiers, Rect, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{By, NodeT as _, Queryable as _};
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::{self, Look};
use pegbow_tests::harness::{builder, hold, let_go};
use pegbow_tests::seen;
use plan::document::PadShape;
use plan::units::{Graduation, Units};
use plan::{Edit, Plan, example};

type Pad<'a> = Harness<'a, Sketchpad>;

/// Pixels of the window, and the pixels to a point at which it is looked at.
const PIXELS: Vec2 = Vec2::new(1280.0, 720.0);
const SCALES: [f32; 5] = [0.8, 1.0, 1.5, 2.0, 2.5];
/// A text in a field that is longer than this is a name, in bytes.
const LONGEST_FIGURE: usize = 24;
/// Tall enough to show all of the slip at once, in screen points.
const TALL: f32 = 6000.0;

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
    let mut plan = example::plan().unwrap();
    plan.title = long("Orchard", true);
    plan.site.marks[0].name = long("gate post", true);
    plan.site.marks[2].name = long("shed-corner", false);
    // What refers to them goes by their names.
    for scheme in &mut plan.schemes {
        for route in &mut scheme.routes {
            route.start_direction = None;
            route.end_direction = None;
            route.name = long("Path", true);
        }
    }
    for (i, obstacle) in plan.site.obstacles.iter_mut().enumerate() {
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

/// Everything there is to be looked at, one after the other.
fn walk(pad: &mut Pad<'_>, what: &str) -> Vec<String> {
    let mut found = faults(pad, &format!("{what}, bend"));
    shot(pad, &format!("{what} bend")); // LOOK
    for header in [
        "Change the path",
        "How it leaves and arrives",
        "Landings and passing places",
        "Options",
    ] {
        if let Some(node) = pad.query_by_label(header) {
            node.click();
            pad.run();
        }
    }
    found.extend(faults(pad, &format!("{what}, opened")));
    shot(pad, &format!("{what} opened")); // LOOK
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
        shot(pad, &format!("{what} dragged")); // LOOK
        press(pad, Modifiers::NONE, Key::Escape);
        let_go(pad, at);
    }
    for (key, modifiers) in [(Key::F1, Modifiers::NONE), (Key::S, Modifiers::COMMAND)] {
        press(pad, modifiers, key);
        found.extend(faults(pad, &format!("{what}, {key:?}")));
        shot(pad, &format!("{what} {key:?}")); // LOOK
        press(pad, Modifiers::NONE, Key::Escape);
    }
    press(pad, Modifiers::COMMAND, Key::A);
    found.extend(faults(pad, &format!("{what}, all pegs")));
    for key in [Key::L, Key::M] {
        press(pad, Modifiers::NONE, key);
        pad.hover_at(egui::pos2(100.0, 100.0));
        pad.run();
        found.extend(faults(pad, &format!("{what}, {key:?}")));
        shot(pad, &format!("{what} {key:?}")); // LOOK
        press(pad, Modifiers::NONE, Key::Escape);
    }
    click(pad, Role::Tab, "Set out");
    found.extend(faults(pad, &format!("{what}, set out")));
    click(pad, Role::Button, "B");
    found.extend(faults(pad, &format!("{what}, set out rounding")));
    shot(pad, &format!("{what} setout")); // LOOK
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

fn shot(pad: &mut Pad<'_>, what: &str) {
    // LOOK
    if std::env::var("LOOK").is_ok_and(|w| w.split(',').any(|w| what.starts_with(w))) {
        // LOOK
        let all = pad.render().unwrap(); // LOOK
        let name = what.replace(' ', "-"); // LOOK
        if all.height() > 1000 {
            for part in 0..3 {
                image::imageops::crop_imm(
                    &all,
                    all.width() * 55 / 100,
                    part * 1400,
                    all.width() * 45 / 100,
                    1400,
                )
                .to_image()
                .save(format!("/tmp/look/{name}-{part}.png"))
                .unwrap();
            }
        }
        // LOOK
        else {
            all.save(format!("/tmp/look/{name}.png")).unwrap();
        } // LOOK
    } // LOOK
} // LOOK

//! The slip of the Measure stage: what can be drawn, what is there, and the chosen thing.

mod chosen;
mod corners;
mod mark;
mod ways;

use egui::{Button, Key, RichText, ScrollArea, Ui};
use plan::edit::SiteEdit;

use super::field::{SiteField, Subject, Typing};
use super::path;
use crate::window::action::Action;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::mode::Mode;
use crate::window::site::{SiteAsk, SitePick, Sketch, Thing, What, free_number};
use crate::window::theme;
use crate::window::words::{capital, short, site as words};

/// The list of what is there shows no more rows than this at a time.
const MOST: usize = 8;

/// Shows the slip.
pub(super) fn ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    match scene.mode {
        Mode::Sketch(sketch) => sketch_ui(ui, scene, sketch, out),
        Mode::Measure(_) => path::mode_ui(ui, scene, out),
        Mode::Choose | Mode::Lay(_) => {
            begin_ui(ui, out);
            let site = &scene.plan.site;
            let empty = site.obstacles.is_empty() && site.marks.is_empty();
            match scene.site.filter(|pick| pick.is_in(scene.plan)) {
                Some(pick) => match pick.thing {
                    Thing::Obstacle(i) => chosen::ui(ui, typing, scene, i, out),
                    Thing::Mark(i) => mark::ui(ui, typing, scene, i, out),
                },
                None if empty => {
                    ui.label(words::EMPTY);
                }
                None => {
                    ui.label(words::CHOOSE);
                }
            }
            if !empty {
                ui.add_space(theme::WIDE_GAP);
                list_ui(ui, scene, out);
            }
        }
    }
}

/// What can be drawn, by its word or its key.
fn begin_ui(ui: &mut Ui, out: &mut Vec<Intent>) {
    let typing = ui.ctx().text_edit_focused();
    ui.horizontal_wrapped(|ui| {
        ui.label("Draw a");
        for (what, key) in What::ALL {
            let tip = format!("Draw a {} ({})", what.word(), key.name());
            let pressed = !typing && plain(ui, key);
            if ui.button(what.word()).on_hover_text(tip).clicked() || pressed {
                out.push(Intent::Turn(Mode::Sketch(Sketch::new(what))));
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        for action in [Action::Measure, Action::Keys] {
            let entry = action.entry();
            let tip = entry.tip_with_key(ui.ctx());
            if ui.button(entry.name).on_hover_text(tip).clicked() {
                out.push(Intent::Do(action));
            }
        }
    });
    ui.add_space(theme::GAP);
}

fn plain(ui: &Ui, key: Key) -> bool {
    ui.input(|input| input.modifiers.is_none() && input.key_pressed(key))
}

/// What is being drawn, what is typed of it, and how to end it.
fn sketch_ui(ui: &mut Ui, scene: &Scene<'_>, sketch: &Sketch, out: &mut Vec<Intent>) {
    let heading = format!("Drawing a {}", sketch.what.word());
    ui.label(RichText::new(heading).text_style(theme::strong()));
    let count = sketch.corners.len();
    if count > 0 && matches!(sketch.what, What::Corners(_)) {
        ui.label(match count {
            1 => "1 corner so far".to_owned(),
            count => format!("{count} corners so far"),
        });
    }
    if !sketch.typed.is_empty() {
        let ruler = scene.ruler();
        let parts = sketch.typed.split(';');
        let read = parts.map(|part| ruler.parse(part.trim()));
        let (sentence, colour) = match read.collect::<Result<Vec<f64>, _>>() {
            Ok(lengths) => {
                let texts: Vec<String> = lengths.iter().map(|l| ruler.text(*l)).collect();
                let sentence = format!("{}, read as {}", sketch.typed, texts.join("; "));
                (sentence, scene.palette.ink)
            }
            Err(error) => (capital(&error.to_string()), scene.palette.clay),
        };
        let said = ui.label(RichText::new(sentence).color(colour));
        ui.ctx().accesskit_node_builder(said.id, |node| {
            node.set_role(egui::accesskit::Role::Status);
            node.set_live(egui::accesskit::Live::Polite);
        });
    }
    ui.horizontal_wrapped(|ui| {
        let number = free_number(scene.plan, sketch.what.word());
        let mut offer = |ui: &mut Ui, words: &str, closed: bool| {
            if let Some(edit) = sketch.end(closed, number)
                && ui.button(words).clicked()
            {
                out.push(Intent::Site(SiteAsk::Add(edit)));
            }
        };
        if sketch.can_close() {
            offer(ui, "Close it", true);
        }
        let ends_open = matches!(
            sketch.end(false, number),
            Some(SiteEdit::AddObstacle(it)) if !it.extent.is_closed()
        );
        if ends_open {
            offer(ui, "End it here", false);
        }
        if count > 0 && ui.button("Take the last corner back").clicked() {
            let mut back = sketch.clone();
            back.corners.pop();
            out.push(Intent::Turn(Mode::Sketch(back)));
        }
        if ui.button("Leave it").clicked() {
            out.push(Intent::Turn(Mode::Choose));
        }
    });
}

/// All that is there, marks first; only the rows that show cost anything.
fn list_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let site = &scene.plan.site;
    let (marks, obstacles) = (site.marks.len(), site.obstacles.len());
    let heading = format!("What is there: {}", counted(marks, obstacles));
    ui.label(RichText::new(heading).text_style(theme::strong()));
    rows_ui(ui, ("what is there", MOST), marks + obstacles, |ui, row| {
        let (thing, name, kind) = match row.checked_sub(marks) {
            None => (Thing::Mark(row), &site.marks[row].name, "mark"),
            Some(i) => {
                let it = &site.obstacles[i];
                (Thing::Obstacle(i), &it.name, it.kind.word())
            }
        };
        let text = match short(name).as_str() {
            "" => capital(kind),
            name if name.contains(kind) => name.to_owned(),
            name => format!("{name}, {kind}"),
        };
        let chosen = scene.site.is_some_and(|pick| pick.thing == thing);
        if row_button(ui, chosen, text) {
            out.push(Intent::Site(SiteAsk::Choose(Some(SitePick::whole(thing)))));
        }
    });
}

/// A list that scrolls, at most so many rows high; only the rows that show cost anything.
fn rows_ui(
    ui: &mut Ui,
    (name, most): (&str, usize),
    count: usize,
    mut row: impl FnMut(&mut Ui, usize),
) {
    let high = theme::TARGET;
    let apart = ui.spacing().item_spacing.y;
    let rows = (0..most.min(count)).map(|_| high + apart);
    ScrollArea::vertical()
        .id_salt(name)
        .max_height(rows.sum::<f32>() - apart)
        .auto_shrink([false, true])
        .show_rows(ui, high, count, |ui, rows| {
            for nth in rows {
                let size = egui::vec2(ui.available_width(), high);
                let place = egui::Rect::from_min_size(ui.cursor().min, size);
                // One row more than shows is asked for, which would lie under what follows.
                if ui.clip_rect().shrink(0.5 * apart).intersects(place) {
                    row(ui, nth);
                } else {
                    ui.allocate_space(size);
                }
            }
        });
}

/// A row of a list: a word that can be chosen, as wide as the list.
fn row_button(ui: &mut Ui, chosen: bool, text: String) -> bool {
    let button = Button::selectable(chosen, text)
        .truncate()
        .min_size(egui::vec2(ui.available_width(), theme::TARGET));
    ui.add(button).clicked()
}

fn counted(marks: usize, obstacles: usize) -> String {
    let word = |count: usize, one: &str, many: &str| match count {
        1 => format!("1 {one}"),
        count => format!("{count} {many}"),
    };
    format!(
        "{}, {}",
        word(marks, "mark", "marks"),
        word(obstacles, "thing", "things")
    )
}

/// A field of the chosen thing.
fn subject(field: SiteField) -> Subject {
    Subject::Site(field)
}

//! The slip at the stage Compare: the options, their figures beside each other, and what differs in words.

use egui::{Button, Grid, RichText, ScrollArea, Ui};
use plan::Edit;
use plan::compare::{Comparison, Criterion};
use plan::document::letter;

use super::SheetWish;
use super::field::{Subject, Typing};
use crate::window::action::Action;
use crate::window::canvas::Scene;
use crate::window::compare::CompareAsk;
use crate::window::intent::Intent;
use crate::window::theme;
use crate::window::words::{self, compare as said};

/// Shows the options.
pub(super) fn ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    wish: &mut SheetWish,
    out: &mut Vec<Intent>,
) {
    options_ui(ui, typing, scene, out);
    ui.add_space(theme::GAP);
    shown_ui(ui, scene, out);
    ui.checkbox(&mut wish.without_prices, said::WITHOUT_PRICES);
    let Some(comparison) = scene.comparison else {
        return;
    };
    ui.add_space(theme::WIDE_GAP);
    table_ui(ui, scene, comparison, out);
    ui.add_space(theme::GAP);
    words_ui(ui, scene, comparison);
    ui.add_space(theme::GAP);
    notes_ui(ui, typing, scene, out);
    ui.add_space(theme::GAP);
    egui::CollapsingHeader::new(said::AXES)
        .id_salt("options on two axes")
        .show(ui, |ui| super::axes::ui(ui, scene, comparison, out));
}

/// The options in order, the chosen one with its name to be typed over and what can be done to it.
fn options_ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let chosen = scene.pick.scheme;
    for (i, scheme) in scene.plan.schemes.iter().enumerate() {
        ui.horizontal(|ui| {
            let touch = ui.selectable_label(i == chosen, letter(i));
            ui.ctx().accesskit_node_builder(touch.id, |node| {
                node.set_label(said::option(&letter(i), &scheme.name));
            });
            if touch.clicked() {
                out.push(Intent::Scheme(i));
            }
            if i == chosen {
                let (name, style) = (&scheme.name, theme::strong());
                let field = "Name of the option";
                if let Some(typed) = typing.field(ui, Subject::SchemeName, field, name, style) {
                    let name = typed.text.trim().to_owned();
                    out.push(Intent::Commit(Edit::RenameScheme { scheme: i, name }));
                }
            } else {
                let name = words::short(&scheme.name);
                ui.add(egui::Label::new(name).truncate())
                    .on_hover_text(&scheme.name);
            }
            if scheme.locked {
                ui.label(RichText::new(said::LOCKED).color(scene.palette.faint));
            }
        });
    }
    ui.horizontal_wrapped(|ui| deeds_ui(ui, scene, out));
}

fn deeds_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let scheme = scene.pick.scheme;
    let count = scene.plan.schemes.len();
    let mut deed = |ui: &mut Ui, words: &str, can: bool, edit: Edit, then: Option<usize>| {
        if ui.add_enabled(can, Button::new(words)).clicked() {
            out.push(Intent::Commit(edit));
            out.extend(then.map(Intent::Scheme));
        }
    };
    let add = |copy_of| Edit::AddScheme { copy_of };
    deed(ui, said::ADD, true, add(None), Some(count));
    let Some(here) = scene.plan.schemes.get(scheme) else {
        return;
    };
    deed(ui, said::COPY, true, add(Some(scheme)), Some(count));
    let to = |to| Edit::MoveScheme { scheme, to };
    let (up, down) = (scheme.saturating_sub(1), scheme + 1);
    deed(ui, said::UP, scheme > 0, to(up), Some(up));
    deed(ui, said::DOWN, down < count, to(down), Some(down));
    let locked = !here.locked;
    let word = if locked { said::LOCK } else { said::UNLOCK };
    deed(ui, word, true, Edit::LockScheme { scheme, locked }, None);
    let remove = Edit::RemoveScheme { scheme };
    deed(ui, said::REMOVE, count > 1 && locked, remove, None);
}

/// How they are shown on the plan and beyond it.
fn shown_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let comparing = scene.comparing;
    ui.horizontal_wrapped(|ui| {
        for (beside, words) in [(false, said::OVER), (true, said::BESIDE)] {
            let here = comparing.side_by_side == beside;
            if ui.selectable_label(here, words).clicked() && !here {
                out.push(Intent::Compare(CompareAsk::SideBySide(beside)));
            }
        }
    });
    if !comparing.side_by_side {
        let mut others = comparing.others;
        if ui.checkbox(&mut others, said::OTHERS).changed() {
            out.push(Intent::Compare(CompareAsk::Others(others)));
        }
    }
    ui.horizontal_wrapped(|ui| {
        for action in [Action::Show, Action::Picture, Action::ClientPage] {
            let entry = action.entry();
            let tip = entry.tip_with_key(ui.ctx());
            if ui.button(entry.name).on_hover_text(tip).clicked() {
                out.push(Intent::Do(action));
            }
        }
    });
}

/// The figures, one column an option; a click on what a row is called sorts by it.
fn table_ui(ui: &mut Ui, scene: &Scene<'_>, comparison: &Comparison, out: &mut Vec<Intent>) {
    let order = scene.comparing.order(comparison);
    ScrollArea::horizontal()
        .id_salt("comparison")
        .show(ui, |ui| {
            Grid::new("comparison")
                .spacing(egui::vec2(7.0, 2.0))
                .min_row_height(theme::TARGET)
                .show(ui, |ui| {
                    ui.label("");
                    for scheme in &order {
                        let words = RichText::new(letter(*scheme)).text_style(theme::strong());
                        let touch = ui.selectable_label(*scheme == scene.pick.scheme, words);
                        if touch.clicked() {
                            out.push(Intent::Scheme(*scheme));
                        }
                    }
                    ui.end_row();
                    for criterion in comparison.criteria() {
                        heading_ui(ui, scene, comparison, criterion, out);
                        let best = comparison.best(criterion);
                        for scheme in &order {
                            cell_ui(ui, scene, comparison, (criterion, *scheme), &best);
                        }
                        ui.end_row();
                    }
                });
        });
    ui.label(
        RichText::new(said::TABLE_KEY)
            .color(scene.palette.faint)
            .size(theme::SMALL),
    );
}

/// Room for what a row is called, in screen points: three options stand beside it on the slip.
const HEADING: f32 = 88.0;

fn heading_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    comparison: &Comparison,
    criterion: Criterion,
    out: &mut Vec<Intent>,
) {
    let differs = comparison.differs(criterion);
    let sort = scene.comparing.sort.filter(|sort| sort.by == criterion);
    let sorted = match sort {
        Some(sort) if sort.best_last => " ↑",
        Some(_) => " ↓",
        None => "",
    };
    let sign = if differs { "≠ " } else { "" };
    let colour = if differs {
        scene.palette.ink
    } else {
        scene.palette.faint
    };
    let words = RichText::new(format!("{sign}{}{sorted}", criterion.name()))
        .size(theme::SMALL)
        .color(colour);
    let room = egui::vec2(HEADING, theme::TARGET);
    let heading = Button::new(words).wrap().frame(false);
    let touch = ui.allocate_ui(room, |ui| ui.add(heading)).inner;
    ui.ctx().accesskit_node_builder(touch.id, |node| {
        node.set_label(said::sort_by(criterion.name()));
    });
    if touch.on_hover_text(said::sort_tip(criterion)).clicked() {
        out.push(Intent::Compare(CompareAsk::SortBy(criterion)));
    }
}

fn cell_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    comparison: &Comparison,
    (criterion, scheme): (Criterion, usize),
    best: &[usize],
) {
    let Some(standing) = comparison.standings.get(scheme) else {
        return;
    };
    let is_best = best.contains(&scheme);
    let figure = criterion.brief(standing, comparison.ruler);
    let words = if is_best {
        RichText::new(format!("✓ {figure}")).text_style(theme::strong())
    } else if comparison.differs(criterion) {
        RichText::new(figure)
    } else {
        RichText::new(figure).color(scene.palette.faint)
    };
    let whole = criterion.text(standing, comparison.ruler);
    let touch = ui.label(words.size(theme::SMALL));
    ui.ctx().accesskit_node_builder(touch.id, |node| {
        node.set_value(said::cell(
            &standing.letter,
            criterion.name(),
            &whole,
            is_best,
        ));
    });
    touch.on_hover_text(whole);
}

/// What the chosen option is like, how the others differ from it, and which are no better than others.
fn words_ui(ui: &mut Ui, scene: &Scene<'_>, comparison: &Comparison) {
    let chosen = scene.pick.scheme;
    if let Some(standing) = comparison.standings.get(chosen).filter(|s| s.drawn) {
        ui.label(format!("{}: {}", standing.letter, standing.character));
        ui.add_space(theme::GAP);
    }
    for standing in &comparison.standings {
        if let Some(words) = comparison.difference(standing.scheme, chosen) {
            ui.label(words);
            ui.add_space(theme::GAP);
        }
    }
    for standing in &comparison.standings {
        if let Some(words) = comparison.no_better(standing.scheme) {
            ui.label(RichText::new(words).text_style(theme::strong()));
            ui.add_space(theme::GAP);
        }
    }
}

fn notes_ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let scheme = scene.pick.scheme;
    let Some(here) = scene.plan.schemes.get(scheme) else {
        return;
    };
    let name = said::notes_of(&letter(scheme));
    ui.label(&name);
    if let Some(typed) = typing.lines(ui, Subject::SchemeNotes, &name, &here.notes) {
        let notes = typed.text.trim_end().to_owned();
        out.push(Intent::Commit(Edit::SetSchemeNotes { scheme, notes }));
    }
}

//! The slip at the stage Count: what an option is built of, what to order, and what it costs.

mod assumed;
mod chart;
mod goes_by;
mod line;
mod list;
mod money;
mod pavers;

use std::sync::Arc;

use egui::{CollapsingHeader, RichText, Ui};
use plan::Edit;
use plan::count::{BuildUp, built_in};
use plan::price::PriceList;

use super::choice;
use super::field::Typing;
use crate::window::action::Action;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::theme;
use crate::window::words::count as said;

/// Shows what the chosen option comes to.
pub(super) fn ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    build_up_ui(ui, scene, out);
    let build_up = build_up(scene);
    if let Some(build_up) = build_up {
        let kept = CollapsingHeader::new(said::ASSUMED).id_salt("what is assumed");
        kept.show(ui, |ui| assumed::ui(ui, typing, scene, build_up, out));
    }
    CollapsingHeader::new(said::GOES_BY)
        .id_salt("what counting goes by")
        .show(ui, |ui| goes_by::ui(ui, typing, scene, out));
    ui.add_space(theme::GAP);
    let drawn = scene.solved.schemes.get(scene.pick.scheme);
    let drawn = drawn.is_some_and(|it| it.routes.iter().any(|r| r.centre_line.is_some()));
    match scene.derived.order() {
        _ if !drawn => {
            ui.label(said::NO_PATH);
        }
        None => {
            ui.label(said::NO_BUILD_UP);
        }
        Some(order) => {
            total_ui(ui, scene, &order.charge);
            list::ui(ui, typing, scene, order, out);
            pavers::ui(ui, scene, order, out);
            ui.add_space(theme::WIDE_GAP);
            money::ui(ui, typing, scene, order, out);
        }
    }
    ui.add_space(theme::GAP);
    files_ui(ui, out);
}

/// What the chosen option is built of.
fn build_up<'a>(scene: &Scene<'a>) -> Option<&'a Arc<BuildUp>> {
    scene.plan.schemes.get(scene.pick.scheme)?.build_up.as_ref()
}

fn build_up_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let now = build_up(scene);
    let mut all: Vec<Option<&BuildUp>> = vec![None];
    all.extend(built_in().iter().map(Some));
    // One that was changed or read from a file stands beside those that come with the program.
    let now = now.map(|build_up| &**build_up);
    if !all.contains(&now) {
        all.push(now);
    }
    let words = |it: &Option<&BuildUp>| match it {
        None => said::NOT_CHOSEN.to_owned(),
        Some(it) if built_in().contains(it) => crate::window::words::short(&it.name),
        Some(it) => format!("{}, own figures", crate::window::words::short(&it.name)),
    };
    if let Some(chosen) = choice(ui, said::BUILT_OF, &now, &all, words) {
        out.push(Intent::Commit(Edit::SetBuildUp {
            scheme: scene.pick.scheme,
            build_up: chosen.cloned().map(Arc::new),
        }));
    }
    action_ui(ui, Action::BuildUp, out);
    if let Some(notes) = now.map(|it| it.notes.trim()).filter(|it| !it.is_empty()) {
        small(ui, scene, notes);
    }
}

/// The total first: it is what one looks for.
fn total_ui(ui: &mut Ui, scene: &Scene<'_>, charge: &plan::price::Charge) {
    if scene.plan.prices.is_empty() {
        ui.label(said::NO_PRICES);
        return;
    }
    let words = format!("{} {}", said::TOTAL, charge.total_in_words());
    let words = RichText::new(words).text_style(theme::strong());
    ui.label(if charge.is_complete() {
        words
    } else {
        words.color(scene.palette.clay)
    });
}

fn files_ui(ui: &mut Ui, out: &mut Vec<Intent>) {
    ui.horizontal_wrapped(|ui| {
        for action in [
            Action::OrderList,
            Action::OrderPages,
            Action::OpenPrices,
            Action::SavePrices,
        ] {
            action_ui(ui, action, out);
        }
    });
}

fn action_ui(ui: &mut Ui, action: Action, out: &mut Vec<Intent>) {
    let entry = action.entry();
    let tip = entry.tip_with_key(ui.ctx());
    if ui.button(entry.name).on_hover_text(tip).clicked() {
        out.push(Intent::Do(action));
    }
}

/// Text that explains.
fn small(ui: &mut Ui, scene: &Scene<'_>, words: &str) {
    ui.label(
        RichText::new(words)
            .size(theme::SMALL)
            .color(scene.palette.faint),
    );
}

fn heading(ui: &mut Ui, words: &str) {
    ui.label(
        RichText::new(words)
            .text_style(theme::strong())
            .size(theme::HEADING),
    );
}

/// The prices after a change.
fn set_prices(scene: &Scene<'_>, change: impl FnOnce(&mut PriceList)) -> Edit {
    let mut prices = PriceList::clone(&scene.plan.prices);
    change(&mut prices);
    Edit::SetPrices(Arc::new(prices))
}

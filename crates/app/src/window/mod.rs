//! The window: the plan on a sheet of paper, with what a hand can do to it.

pub mod action;
pub mod canvas;
pub mod client;
pub mod compare;
pub mod derived;
pub mod dialog;
pub mod errands;
pub mod fonts;
pub mod foot;
pub mod hints;
pub mod intent;
pub mod keys;
pub mod launch;
pub mod mode;
pub mod pen;
pub mod pick;
pub mod rehearsal;
pub mod site;
pub mod sketchpad;
pub mod slip;
mod still_plot;
pub mod strip;
pub mod theme;
pub mod view;
pub mod words;

use std::path::PathBuf;

use launch::LaunchError;
use plan::Plan;
use sketchpad::Sketchpad;

/// Opens the sketchpad on a plan and returns when it has been closed.
///
/// # Errors
/// [`LaunchError`] with a sentence if no window can open.
pub fn open(plan: Plan, path: Option<PathBuf>) -> Result<(), LaunchError> {
    launch::run(Box::new(move |context| {
        let ctx = &context.egui_ctx;
        theme::set_fonts(ctx);
        theme::wear(ctx, theme::Look::default());
        // The table of actions has the keys for larger and smaller type, within limits.
        ctx.options_mut(|options| options.zoom_with_keyboard = false);
        let pad = Sketchpad::new(plan, path).with_hints(hints::seen_file());
        Ok(Box::new(pad))
    }))
}

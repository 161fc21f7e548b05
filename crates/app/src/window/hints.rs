//! Three short hints on the first run, which never come back once closed.

use std::path::PathBuf;

use egui::{Align2, Area, Frame, Margin, RichText, Ui, vec2};

use super::intent::Intent;
use super::theme::{self, Palette};
use super::words::hints as words;

/// Whether the hints show, and where it is remembered that they were closed.
#[derive(Debug, Default)]
pub struct Hints {
    open: bool,
    seen: Option<PathBuf>,
}

impl Hints {
    /// Open unless the file that remembers is there.
    #[must_use]
    pub fn first_run(seen: Option<PathBuf>) -> Self {
        Self {
            open: !seen.as_ref().is_some_and(|path| path.exists()),
            seen,
        }
    }

    /// Closes them for good, as far as that can be remembered.
    pub fn close(&mut self) {
        self.open = false;
        if let Some(path) = &self.seen {
            // Where nothing can be written the hints come again next time: no harm done.
            let folder = path.parent().map(std::fs::create_dir_all);
            if !matches!(folder, Some(Err(_))) {
                let _ = std::fs::write(path, []);
            }
        }
    }

    /// Shows them over the upper left of the plan.
    pub fn ui(&self, ui: &Ui, palette: &Palette, out: &mut Vec<Intent>) {
        if !self.open {
            return;
        }
        let corner = ui.max_rect().left_top() + vec2(theme::WIDE_GAP, theme::WIDE_GAP);
        Area::new(ui.scope_id().with("hints"))
            .pivot(Align2::LEFT_TOP)
            .fixed_pos(corner)
            // On a small plan they reach over the slip, until they are closed.
            .constrain_to(ui.ctx().content_rect())
            .show(ui.ctx(), |ui| {
                Frame::new()
                    .fill(palette.paper)
                    .stroke((1.0, palette.rule))
                    .inner_margin(Margin::same(12))
                    .show(ui, |ui| {
                        ui.set_max_width(300.0);
                        for hint in words::ALL {
                            ui.label(RichText::new(hint).color(palette.ink));
                        }
                        ui.add_space(theme::GAP);
                        if ui.button(words::CLOSE).clicked() {
                            out.push(Intent::CloseHints);
                        }
                    });
            });
    }
}

/// The file that remembers, in the folder for the state of programs.
#[must_use]
pub fn seen_file() -> Option<PathBuf> {
    let state = std::env::var_os("XDG_STATE_HOME")
        .map(PathBuf::from)
        .filter(|path| path.is_absolute())
        .or_else(|| Some(std::env::home_dir()?.join(".local").join("state")))?;
    Some(state.join("pegbow").join("hints-closed"))
}

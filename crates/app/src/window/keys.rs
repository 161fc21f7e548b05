//! The map of keys: one key shows it, one key closes it.

use egui::{Context, Grid, Id, Key, Modal, RichText, ScrollArea};

use super::action::ACTIONS;
use super::theme;
use super::words::{self, keys};

/// Whether the map shows.
#[derive(Debug, Default)]
pub struct KeyMap {
    open: bool,
}

impl KeyMap {
    /// Shows the map.
    pub fn open(&mut self) {
        self.open = true;
    }

    /// Whether it shows, so that keys belong to it.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.open
    }

    /// Shows it over the window.
    pub fn ui(&mut self, ctx: &Context) {
        if !self.open {
            return;
        }
        let room = ctx.content_rect();
        let modal = Modal::new(Id::unique("keys")).show(ctx, |ui| {
            let width = (room.width() - 60.0).min(560.0);
            ui.set_width(width);
            ui.label(
                RichText::new(words::actions::KEYS)
                    .text_style(theme::strong())
                    .size(theme::HEADING),
            );
            ScrollArea::vertical()
                .max_height(room.height() - 150.0)
                .show(ui, |ui| {
                    let map = Grid::new("map of keys").max_col_width(width - KEYS_WIDTH);
                    map.show(ui, |ui| {
                        for entry in ACTIONS {
                            let keys: Vec<String> = entry
                                .keys
                                .iter()
                                .map(|keys| ui.ctx().format_shortcut(keys))
                                .collect();
                            row(ui, &keys.join(" or "), entry.tip);
                        }
                        for (keys, what) in keys::BY_HAND {
                            row(ui, keys, what);
                        }
                    });
                });
            ui.add_space(theme::GAP);
            let button = ui.button(keys::CLOSE);
            if ui.memory(|memory| memory.focused().is_none()) {
                button.request_focus();
            }
            button.clicked()
        });
        let again = ctx.input(|input| input.key_pressed(Key::F1));
        if modal.inner || modal.should_close() || again {
            self.open = false;
        }
    }
}

/// Room for the longest keys and the scroll bar, in screen points.
const KEYS_WIDTH: f32 = 190.0;

fn row(ui: &mut egui::Ui, keys: &str, what: &str) {
    ui.label(RichText::new(keys).text_style(theme::strong()));
    ui.label(what);
    ui.end_row();
}

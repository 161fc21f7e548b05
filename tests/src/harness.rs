//! The window driven by hand with no screen: press, drag in steps, let go, read what a screen reader would.

use egui::accesskit::Role;
use egui::{Pos2, Ui, Vec2};
use egui_kittest::kittest::Queryable as _;
use egui_kittest::{Harness, HarnessBuilder};
use pegbow::window::theme::{self, Look};

use crate::painter::Painter;

/// Size of the window under test, in screen points.
pub const WINDOW: Vec2 = Vec2::new(1000.0, 700.0);

/// A window under test: our fonts, daylight, our painter; `ui` is what it shows of `state`.
pub fn window<'a, State: 'a>(
    state: State,
    ui: impl FnMut(&mut Ui, &mut State) + 'a,
) -> Harness<'a, State> {
    builder(Look::Day).build_ui_state(ui, state)
}

/// The same, to be changed before it is built.
pub fn builder<State>(look: Look) -> HarnessBuilder<State> {
    Harness::builder()
        .with_size(WINDOW)
        .with_theme(match look {
            Look::Dusk => egui::Theme::Dark,
            Look::Day | Look::Sun => egui::Theme::Light,
        })
        .with_render_cursor(false)
        .with_context_setup(move |ctx| {
            theme::set_fonts(ctx);
            theme::wear(ctx, look);
        })
        .renderer(Painter::default())
}

/// Presses at one point, moves to another in `steps` equal steps of one frame each, and lets go there.
pub fn drag<State>(harness: &mut Harness<'_, State>, from: Pos2, to: Pos2, steps: u16) {
    hold(harness, from, to, steps);
    let_go(harness, to);
}

/// The first part of a drag: pressed and moved, not yet let go.
pub fn hold<State>(harness: &mut Harness<'_, State>, from: Pos2, to: Pos2, steps: u16) {
    harness.hover_at(from);
    harness.run_steps(1);
    harness.drag_at(from);
    harness.run_steps(1);
    for step in 1..=steps {
        let share = f32::from(step) / f32::from(steps);
        harness.hover_at(from + (to - from) * share);
        harness.run_steps(1);
    }
}

/// The last part of a drag.
pub fn let_go<State>(harness: &mut Harness<'_, State>, at: Pos2) {
    harness.drop_at(at);
    harness.run_steps(2);
}

/// Drags what a screen reader finds as `label`, pressed in its middle, by so many screen points.
///
/// # Panics
/// When there is not exactly one such thing.
#[track_caller]
pub fn drag_node<State>(
    harness: &mut Harness<'_, State>,
    role: Role,
    label: &str,
    by: Vec2,
    steps: u16,
) {
    let from = place(harness, role, label);
    drag(harness, from, from + by, steps);
}

/// Where on the screen the middle of that thing is.
///
/// # Panics
/// When there is not exactly one such thing.
#[track_caller]
#[must_use]
pub fn place<State>(harness: &Harness<'_, State>, role: Role, label: &str) -> Pos2 {
    harness.get_by_role_and_label(role, label).rect().center()
}

/// What a screen reader reads as the value of that thing.
///
/// # Panics
/// When there is not exactly one such thing, or it has no value.
#[track_caller]
#[must_use]
pub fn value<State>(harness: &Harness<'_, State>, role: Role, label: &str) -> String {
    harness
        .get_by_role_and_label(role, label)
        .value()
        .unwrap_or_else(|| panic!("{label} has no value"))
}

#[cfg(test)]
mod tests {
    use egui::{Color32, Rect, Sense};

    use super::*;
    use crate::painter::check_picture;

    struct Board {
        peg: Pos2,
        grab: Option<Vec2>,
        drops: usize,
    }

    /// A peg that is only painted, but is found by name, read by value and dragged by hand.
    fn board_ui(ui: &mut Ui, board: &mut Board) {
        let palette = Look::Day.palette();
        ui.painter().rect_filled(ui.clip_rect(), 0.0, palette.paper);
        let id = ui.scope_id().with("peg 2");
        let touch = ui.interact(
            Rect::from_center_size(board.peg, Vec2::splat(theme::TARGET)),
            id,
            Sense::click_and_drag(),
        );
        if touch.drag_started() {
            board.grab = ui
                .input(|i| i.pointer.press_origin())
                .map(|at| board.peg - at);
        }
        if let (Some(grab), Some(at)) = (board.grab, touch.interact_pointer_pos()) {
            board.peg = at + grab;
        }
        if touch.drag_stopped() {
            board.grab = None;
            board.drops += 1;
        }
        let reading = format!("{:.2} m, {:.2} m", board.peg.x / 100.0, board.peg.y / 100.0);
        ui.ctx().accesskit_node_builder(id, |node| {
            node.set_role(Role::Slider);
            node.set_label("Peg 2");
            node.set_value(reading.clone());
        });
        let square = Rect::from_center_size(board.peg, Vec2::splat(12.0));
        ui.painter().rect_filled(square, 0.0, palette.string);
        ui.painter().text(
            board.peg + Vec2::new(14.0, 0.0),
            egui::Align2::LEFT_CENTER,
            reading,
            theme::figure().resolve(ui.style()),
            Color32::BLACK,
        );
    }

    fn board() -> Board {
        Board {
            peg: Pos2::new(100.0, 60.0),
            grab: None,
            drops: 0,
        }
    }

    #[test]
    fn a_painted_peg_is_dragged_and_read() {
        let mut harness = window(board(), board_ui);
        assert_eq!(value(&harness, Role::Slider, "Peg 2"), "1.00 m, 0.60 m");
        // Pressed off its middle, so that a lost grab offset shows.
        let from = place(&harness, Role::Slider, "Peg 2") + Vec2::new(4.0, -3.0);
        drag(&mut harness, from, from + Vec2::new(120.0, 30.0), 6);
        assert_eq!(value(&harness, Role::Slider, "Peg 2"), "2.20 m, 0.90 m");
        assert_eq!(harness.state().drops, 1);
        drag_node(
            &mut harness,
            Role::Slider,
            "Peg 2",
            Vec2::new(-20.0, 10.0),
            3,
        );
        assert_eq!(value(&harness, Role::Slider, "Peg 2"), "2.00 m, 1.00 m");
        assert_eq!(harness.state().drops, 2);
    }

    #[test]
    fn pictures_repeat_to_the_byte() {
        let picture = || {
            let mut harness = builder(Look::Day)
                .with_size(Vec2::new(300.0, 120.0))
                .build_ui_state(board_ui, board());
            harness.run();
            harness.render().expect("a picture")
        };
        let one = picture();
        assert_eq!(one, picture());
        check_picture("harness", &one);
    }
}

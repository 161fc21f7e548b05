//! A chart that stands still: it is looked at, and neither moved, zoomed nor labelled under the hand.

use egui::Vec2b;
use egui_plot::Plot;

/// An empty one; whoever shows it says what it spans.
pub(super) fn still_plot<'a>(name: &str) -> Plot<'a> {
    Plot::new(name)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .allow_axis_zoom_drag(false)
        .auto_bounds(Vec2b::FALSE)
        .show_background(false)
        .show_x(false)
        .show_y(false)
        .label_formatter(|_| None)
}

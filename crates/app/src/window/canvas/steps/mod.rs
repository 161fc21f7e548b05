//! A step of setting out on the plan: what is done so far, and what is due now.

mod due;
mod ink;

use egui::{Rect, Vec2};
use geometry::Piece;
use plan::setout::{PathLine, Spot};

use self::ink::Ink;
use super::labels::Labels;
use super::{Scene, curve, reached};
use crate::window::pen::Pen;
use crate::window::rehearsal::Rehearsal;
use crate::window::theme;

/// More spots than this are not told apart: of what is done long ago the rest is left out.
const MOST_SPOTS: usize = 2000;

/// Draws what stands before a step, and the step itself over it.
pub(super) fn draw(ink: &Ink<'_>, rehearsal: &Rehearsal, step: usize, labels: &mut Labels) {
    let palette = ink.scene.palette;
    for (line, arc) in rehearsal.struck_before(step) {
        let pen = if line == PathLine::Centre {
            Pen::Centre
        } else {
            Pen::Edge
        };
        ink.curve(pen, &curve(&Piece::Arc(arc)), palette.ink);
    }
    for [from, to] in rehearsal.strings_at(step) {
        ink.straight(Pen::String, from, to, palette.ink);
    }
    let seen = ink.view.area().expand(theme::TARGET);
    let set = rehearsal.set_before(step).map(|set| (set.spot, set.at));
    let in_sight = |at: &geometry::Point| seen.contains(ink.view.screen_from_plan(*at));
    let mut set: Vec<_> = set.filter(|(_, at)| in_sight(at)).collect();
    set.drain(..set.len().saturating_sub(MOST_SPOTS));
    for (_, at) in &set {
        let at = ink.view.screen_from_plan(*at);
        labels.keep_free(Rect::from_center_size(at, Vec2::splat(11.0)));
    }
    let hindered = rehearsal.hindered(step);
    let marks = reached::marks(ink.view, hindered.map(|h| &h.hindrance));
    reached::keep_free(&marks, labels);
    due::draw(ink, rehearsal, step, labels);
    let named = due::named(rehearsal, step);
    for &(spot, at) in &set {
        ink.spot(spot, at, false);
        if let Spot::Peg(number) = spot
            && !named.contains(&spot)
        {
            ink.name(&number.to_string(), at, false, labels);
        }
    }
    for offset in rehearsal.offset_pegs_before(step) {
        ink.offset_peg(offset.at, false);
    }
    due::draw_spots(ink, rehearsal, step);
    reached::draw_marks(ink.painter, ink.scene, &marks);
}

/// What steps are drawn with.
pub(super) fn ink<'a>(
    painter: &'a egui::Painter,
    view: &'a crate::window::view::View,
    scene: &'a Scene<'a>,
) -> Ink<'a> {
    Ink {
        painter,
        view,
        scene,
    }
}

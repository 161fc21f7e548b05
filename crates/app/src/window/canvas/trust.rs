//! How far the spots of a set-out may be out: ellipses, magnified, with how much written beside.

use egui::{Painter, Pos2, Shape, Stroke, vec2};
use plan::setout::SpotTrust;

use super::Scene;
use super::labels::Labels;
use crate::window::fonts::Face;
use crate::window::pick::Stage;
use crate::window::theme;
use crate::window::view::View;

/// How much ellipses may be magnified: whole numbers that are easily said.
const TIMES: [u32; 9] = [1, 2, 5, 10, 20, 50, 100, 200, 500];
/// The longest half axis that is drawn, in screen points: as much as tells one from the other and still
/// leaves the plan to be seen.
const LONGEST: f32 = 44.0;
/// Corners of an ellipse as it is drawn.
const CORNERS: u32 = 48;

/// Draws them where they are asked for, and says how much they are magnified.
pub(super) fn draw(painter: &Painter, view: &View, scene: &Scene<'_>, labels: &mut Labels) {
    if scene.stage != Stage::SetOut || !scene.trust {
        return;
    }
    let Some(trust) = scene.derived.trust() else {
        return;
    };
    let longest = trust.spots().map(|spot| spot.error.ellipse().long);
    let times = times(view, longest.fold(0.0, f64::max));
    let stroke = Stroke::new(1.5 * scene.palette.weight, scene.palette.string);
    for spot in trust.spots() {
        let corners = ellipse(view, spot, f64::from(times));
        painter.add(Shape::closed_line(corners, stroke));
    }
    let words = format!("Of 100 pegs 95 stand in these; drawn {times} times life size");
    let style = (Face::Text.sized(theme::SMALL), scene.palette.ink);
    labels.write_at(
        view.area().left_top() + vec2(10.0, 10.0),
        260.0,
        &words,
        style,
    );
}

/// The largest magnification at which the longest half axis, in metres, is not too long.
fn times(view: &View, longest: f64) -> u32 {
    let fits = |times: &&u32| view.screen_length(longest * f64::from(**times)) <= LONGEST;
    TIMES.iter().rev().find(fits).copied().unwrap_or(TIMES[0])
}

/// The ellipse about where the spot will stand for what is known, both so many times life size.
fn ellipse(view: &View, spot: &SpotTrust, times: f64) -> Vec<Pos2> {
    let ellipse = spot.error.ellipse();
    let (long, short) = (ellipse.direction.unit(), ellipse.direction.left().unit());
    let middle = spot.at + spot.error.shift * times;
    (0..CORNERS)
        .map(|nth| {
            let turn = f64::from(nth) / f64::from(CORNERS) * std::f64::consts::TAU;
            let out = long * (ellipse.long * turn.cos()) + short * (ellipse.short * turn.sin());
            view.screen_from_plan(middle + out * times)
        })
        .collect()
}

//! What the ground allows of a way to set out: the sector a string sweeps, and what is in its way.

use egui::{Color32, Painter, Pos2, Rect, Vec2, vec2};
use geometry::{Arc, Piece, Point};
use plan::finding::Severity;
use plan::setout::reach::Hindrance;
use plan::setout::{Doing, Hindered, Way};

use super::labels::Labels;
use super::sparse::thinned;
use super::{SIGN, Scene, curve, finding_sign};
use crate::window::fonts::Face;
use crate::window::pen::{self, Pen};
use crate::window::pick::Stage;
use crate::window::rehearsal::struck;
use crate::window::theme;
use crate::window::view::{Curve, View};
use crate::window::words::capital;

/// How much of the string's colour lies over the ground it sweeps.
const SWEPT: f32 = 0.10;
/// How near to the swing point the filling begins, as a share of the radius.
const NEAR_CENTRE: f64 = 1e-3;
/// So many hindrances have their sentence on the plan; the slip has all.
const MOST_SENTENCES: usize = 2;

/// Where something is in the way, on the screen, and how much.
pub(super) type Mark = (Pos2, Severity);

/// Draws what the way that is looked at sweeps.
pub(super) fn draw(painter: &Painter, view: &View, scene: &Scene<'_>, labels: &mut Labels) {
    if scene.stage != Stage::SetOut {
        return;
    }
    for (_, way) in scene.ways() {
        draw_swept(painter, view, scene, way);
        keep_free(&marks_of(view, way), labels);
    }
}

fn marks_of(view: &View, way: &Way) -> Vec<Mark> {
    marks(
        view,
        worst_of(way).into_iter().map(|found| &found.hindrance),
    )
}

/// What stops a way, or if nothing does what wants care: where one cannot stand before the rest.
fn worst_of(way: &Way) -> Vec<&Hindered> {
    let stopped = !way.is_possible();
    let all = way.hindrances.iter();
    let mut worst: Vec<&Hindered> = all.filter(|h| h.stops() == stopped).collect();
    worst.sort_by_key(|hindered| hindered.hindrance.deed);
    worst
}

/// Marks what hinders it, and writes the worst of that, where there is room.
pub(super) fn write(painter: &Painter, view: &View, scene: &Scene<'_>, labels: &mut Labels) {
    if scene.stage != Stage::SetOut {
        return;
    }
    let ruler = scene.ruler();
    for (_, way) in scene.ways() {
        draw_marks(painter, scene, &marks_of(view, way));
        let mut worst: Vec<&Hindered> = Vec::new();
        for hindered in worst_of(way) {
            let cause = hindered.hindrance.cause;
            if worst.iter().all(|known| known.hindrance.cause != cause) {
                worst.push(hindered);
            }
        }
        for hindered in worst.into_iter().take(MOST_SENTENCES) {
            let at = view.screen_from_plan(hindered.hindrance.at);
            let sentence = capital(&hindered.sentence(&scene.plan.site, &ruler));
            let colour = if hindered.stops() {
                scene.palette.clay
            } else {
                scene.palette.ink
            };
            let style = (Face::Text.sized(theme::SMALL), colour);
            labels.write_sentence(at, 12.0, vec2(0.0, 1.0), &sentence, style);
        }
    }
}

/// What the longest string of a way sweeps.
fn draw_swept(painter: &Painter, view: &View, scene: &Scene<'_>, way: &Way) {
    let Ok(course) = &way.course else { return };
    let strikes = |deed: &&plan::setout::Deed| matches!(deed.does, Doing::Strike { .. });
    let arcs = course.deeds.iter().filter(strikes);
    let arcs = arcs.filter_map(|deed| Some(struck(course, deed)?.1));
    if let Some(arc) = arcs.max_by(|a, b| a.radius().total_cmp(&b.radius())) {
        draw_sector(painter, view, scene, &arc);
    }
}

/// The sector that a string sweeps: faint, its border in dashes and dots.
pub(super) fn draw_sector(painter: &Painter, view: &View, scene: &Scene<'_>, arc: &Arc) {
    let palette = scene.palette;
    let inward = (1.0 - NEAR_CENTRE) * arc.radius();
    let inner = arc.offset(if arc.turns_left() { inward } else { -inward });
    if let Some(inner) = inner {
        let bands = view.band(&curve(&Piece::Arc(inner)), &curve(&Piece::Arc(*arc)));
        let colour: Color32 = palette.string.gamma_multiply(SWEPT);
        pen::fill_bands(painter, &bands, colour);
    }
    let centre = arc.centre();
    let radius = |start: Point, end: Point| Curve {
        start,
        end,
        rise: 0.0,
    };
    let border = [
        radius(centre, arc.start()),
        curve(&Piece::Arc(*arc)),
        radius(arc.end(), centre),
    ];
    Pen::Swept.draw_in(painter, &view.trace(&border), palette, palette.string);
}

/// The places of some hindrances that can be seen and told apart.
pub(super) fn marks<'a>(view: &View, found: impl Iterator<Item = &'a Hindrance>) -> Vec<Mark> {
    let seen = view.area().expand(3.0 * SIGN);
    let places = found.map(|hindrance| {
        let severity = if hindrance.stops() {
            Severity::Stop
        } else {
            Severity::Care
        };
        (hindrance.at, severity)
    });
    let places = places.filter(|(at, _)| seen.contains(view.screen_from_plan(*at)));
    thinned(places.collect(), view, |(at, _)| *at, |_| false)
        .into_iter()
        .map(|(at, severity)| (view.screen_from_plan(at), severity))
        .collect()
}

/// No text over them.
pub(super) fn keep_free(marks: &[Mark], labels: &mut Labels) {
    for (at, _) in marks {
        labels.keep_free(Rect::from_center_size(*at, Vec2::splat(2.0 * SIGN)));
    }
}

/// Their signs.
pub(super) fn draw_marks(painter: &Painter, scene: &Scene<'_>, marks: &[Mark]) {
    for (at, severity) in marks {
        finding_sign(painter, *at, *severity, scene.palette);
    }
}

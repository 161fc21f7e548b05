//! The live figures of the chosen bend, on the plan where they are measured.

use std::collections::HashSet;

use egui::{Color32, Painter, Pos2, Rect, Stroke, Vec2, vec2};
use geometry::{Arc, Figure, Piece, Point};
use plan::solve::{FLAT, Peg};

use super::Scene;
use super::labels::Labels;
use super::placed::Placed;
use super::sparse::thinned;
use crate::window::fonts::Face;
use crate::window::pen::{self, Pen};
use crate::window::pick::{Picked, Stage};
use crate::window::theme;
use crate::window::view::{Curve, View};

pub(super) fn draw(
    painter: &Painter,
    view: &View,
    scene: &Scene<'_>,
    labels: &mut Labels,
) -> Vec<(Figure, Rect)> {
    let mut shown = Vec::new();
    match scene.piece() {
        Some((_, Piece::Arc(arc))) => shown = draw_bend(painter, view, scene, &arc, labels),
        Some((_, Piece::Line(line))) => {
            let middle = view.screen_from_plan(line.point_at(0.5 * line.length()));
            let square = screen_direction(line.direction().left().unit());
            let text = scene.ruler().text(line.length());
            labels.write(middle, 14.0, square, &text, big(scene.palette.ink));
        }
        // The drag of a peg changes the bends on both sides of it: both show their figures.
        None => {
            for (_, _, arc) in scene.bends_at_peg() {
                draw_bend(painter, view, scene, &arc, labels);
            }
        }
    }
    if scene.stage == Stage::SetOut {
        draw_all_swing_points(painter, view, scene, labels);
    }
    shown
}

fn big(ink: Color32) -> (egui::FontId, Color32) {
    (Face::Figures.sized(theme::HEADING), ink)
}

fn draw_bend(
    painter: &Painter,
    view: &View,
    scene: &Scene<'_>,
    arc: &Arc,
    labels: &mut Labels,
) -> Vec<(Figure, Rect)> {
    let (palette, ruler) = (scene.palette, scene.ruler());
    let middle = arc.start().middle(arc.end());
    let line = |from: Point, to: Point| {
        view.trace(&[Curve {
            start: from,
            end: to,
            rise: 0.0,
        }])
    };
    draw_corner(painter, view, scene, arc);
    Pen::Measure.draw(painter, &line(arc.start(), arc.end()), palette);
    if arc.bend().radius() > FLAT * arc.chord() {
        let text = format!("{}, as good as straight", ruler.text(arc.chord()));
        labels.write(
            view.screen_from_plan(middle),
            14.0,
            Vec2::ZERO,
            &text,
            big(palette.ink),
        );
        return Vec::new();
    }
    Pen::Measure.draw(painter, &line(middle, arc.apex()), palette);
    let centre = arc.centre();
    for end in [arc.start(), arc.end(), arc.apex()] {
        Pen::String.draw(painter, &line(centre, end), palette);
    }
    swing_point(
        painter,
        view.screen_from_plan(centre),
        palette.string,
        palette.weight,
    );
    let apex = view.screen_from_plan(arc.apex());
    labels.keep_free(Rect::from_center_size(apex, Vec2::splat(24.0)));
    labels.keep_free(Rect::from_center_size(
        view.screen_from_plan(centre),
        Vec2::splat(20.0),
    ));
    let away = screen_direction((arc.apex() - middle) / arc.rise().abs());
    let along = vec2(-away.y, away.x);
    let bend = arc.bend();
    let share = |from: Point, to: Point| {
        [0.5, 0.35, 0.65, 0.2, 0.8].map(|share| view.screen_from_plan(from.towards(to, share)))
    };
    // A flat bend's rise has no room beside it: its figure goes outside the apex.
    let rise = format!("rise {}", ruler.text(bend.rise()));
    let on_rise = if view.screen_length(bend.rise()) > 24.0 {
        labels.write_at_one(
            &share(middle, arc.apex()),
            10.0,
            along,
            &rise,
            &big(palette.ink),
        )
    } else {
        labels.write_at_one(&[apex], 20.0, away, &rise, &big(palette.ink))
    };
    let chord = format!("chord {}", ruler.text(bend.chord()));
    let on_chord = share(arc.start(), arc.end());
    let on_chord = labels.write_at_one(&on_chord, 14.0, -away, &chord, &big(palette.ink));
    let radius = format!("R {}", ruler.text(bend.radius()));
    let mut on_string = vec![seen_middle(view, centre, arc.end())];
    on_string.extend(share(centre, arc.end()));
    on_string.extend(share(centre, arc.start()));
    let on_string = labels.write_at_one(&on_string, 12.0, along, &radius, &big(palette.string));
    [
        (Figure::Rise, on_rise),
        (Figure::Chord, on_chord),
        (Figure::Radius, on_string),
    ]
    .into_iter()
    .filter_map(|(figure, rect)| Some((figure, rect?)))
    .collect()
}

/// The middle of the part of a line that can be seen, roughly: halfway, or near the end in sight.
fn seen_middle(view: &View, from: Point, to: Point) -> Pos2 {
    let area = view.area().shrink(30.0);
    [0.5, 0.6, 0.7, 0.8, 0.9, 0.4, 0.3, 0.2]
        .into_iter()
        .map(|share| view.screen_from_plan(from.towards(to, share)))
        .find(|at| area.contains(*at))
        .unwrap_or_else(|| view.screen_from_plan(to))
}

/// The shown pegs of the chosen path with their numbers: small squares, as a peg is seen from above.
pub(super) fn draw_pegs(
    painter: &Painter,
    scene: &Scene<'_>,
    pegs: &[(usize, Pos2)],
    labels: &mut Labels,
) {
    let palette = scene.palette;
    let chosen = chosen_pegs(scene);
    for (number, at) in pegs.iter().copied() {
        pen::peg(painter, at, 10.0, palette.paper, palette);
        if !chosen.contains(&Some(number)) {
            labels.write_number(at, number, number_style(scene));
        }
    }
}

/// The numbers of the pegs at the ends of what is chosen, before anything else takes their room.
pub(super) fn write_chosen_numbers(scene: &Scene<'_>, pegs: &[(usize, Pos2)], labels: &mut Labels) {
    let chosen = chosen_pegs(scene);
    for (number, at) in pegs.iter().copied() {
        if chosen.contains(&Some(number)) {
            labels.write_number(at, number, number_style(scene));
        }
    }
}

/// No text over pegs and apexes.
pub(super) fn keep_handles_free(
    view: &View,
    scene: &Scene<'_>,
    pegs: &[(usize, Pos2)],
    labels: &mut Labels,
) {
    for (_, at) in pegs {
        labels.keep_free(Rect::from_center_size(*at, Vec2::splat(11.0)));
    }
    let chain = scene.route().and_then(|route| route.centre_line.as_ref());
    let pieces = chain.map_or(&[][..], |chain| chain.pieces());
    let apexes = pieces.iter().filter_map(Piece::arc).map(Arc::apex);
    let seen = |apex: &Point| view.area().contains(view.screen_from_plan(*apex));
    for apex in thinned(apexes.filter(seen).collect(), view, |apex| *apex, |_| false) {
        let at = view.screen_from_plan(apex);
        labels.keep_free(Rect::from_center_size(at, Vec2::splat(20.0)));
    }
}

/// The shown pegs of the chosen path, by number, and where they are: of the waypoints those that have a handle, and of
/// the ends of roundings, which have none, those that can be told from these.
pub(super) fn seen_pegs(
    view: &View,
    scene: &Scene<'_>,
    handles: &[(Placed, Pos2)],
) -> Vec<(usize, Pos2)> {
    let Some(route) = scene.route() else {
        return Vec::new();
    };
    let seen = view.area().expand(theme::TARGET);
    let waypoints = scene.plan.route(scene.pick.scheme, scene.pick.route);
    let waypoints = waypoints.map_or(0, |route| route.waypoints.len());
    let of_waypoints: HashSet<usize> = route
        .pegs_of_waypoints(waypoints)
        .into_iter()
        .flatten()
        .collect();
    let with_handle: HashSet<usize> = handles
        .iter()
        .filter_map(|(placed, _)| placed.peg)
        .collect();
    let chosen = chosen_pegs(scene);
    let stays = |peg: &Peg| with_handle.contains(&peg.number) || chosen.contains(&Some(peg.number));
    let mut pegs = route.pegs();
    pegs.retain(|peg| {
        seen.contains(view.screen_from_plan(peg.at))
            && (stays(peg) || !of_waypoints.contains(&peg.number))
    });
    thinned(pegs, view, |peg| peg.at, stays)
        .into_iter()
        .map(|peg| (peg.number, view.screen_from_plan(peg.at)))
        .collect()
}

/// The numbers of the pegs at both ends of what is chosen.
fn chosen_pegs(scene: &Scene<'_>) -> [Option<usize>; 2] {
    let route_and_piece = scene.route().zip(scene.piece());
    route_and_piece.map_or([None; 2], |(route, (piece, _))| {
        let (first, last) = route.pegs_of(piece);
        [Some(first), Some(last)]
    })
}

fn number_style(scene: &Scene<'_>) -> (egui::FontId, Color32) {
    (Face::Strong.sized(theme::SMALL), scene.palette.ink)
}

/// Where the legs would meet in a corner that is rounded away.
fn draw_corner(painter: &Painter, view: &View, scene: &Scene<'_>, arc: &Arc) {
    let Some(Picked::Rounding(waypoint)) = scene.pick.part else {
        return;
    };
    let route = scene.plan.route(scene.pick.scheme, scene.pick.route);
    let Some(corner) = route.and_then(|route| route.waypoints.get(waypoint)) else {
        return;
    };
    for end in [arc.start(), arc.end()] {
        let line = Curve {
            start: end,
            end: corner.at,
            rise: 0.0,
        };
        Pen::Ghost.draw(painter, &view.trace(&[line]), scene.palette);
    }
}

/// A ring with a dot: the swing point.
fn swing_point(painter: &Painter, at: Pos2, colour: Color32, weight: f32) {
    painter.circle_stroke(at, 8.0, Stroke::new(2.0 * weight, colour));
    painter.circle_filled(at, 2.5, colour);
}

fn draw_all_swing_points(painter: &Painter, view: &View, scene: &Scene<'_>, labels: &mut Labels) {
    let Some(chain) = scene.route().and_then(|route| route.centre_line.as_ref()) else {
        return;
    };
    let font = Face::Text.sized(theme::SMALL);
    let seen = view.area().expand(theme::TARGET);
    let arcs = chain.pieces().iter().filter_map(Piece::arc);
    let centres = arcs.map(Arc::centre).enumerate();
    let is_seen = |(_, at): &(usize, Point)| seen.contains(view.screen_from_plan(*at));
    for (i, centre) in thinned(centres.filter(is_seen).collect(), view, |c| c.1, |_| false) {
        let at = view.screen_from_plan(centre);
        swing_point(painter, at, scene.palette.string, scene.palette.weight);
        labels.keep_free(Rect::from_center_size(at, Vec2::splat(18.0)));
        let style = (font.clone(), scene.palette.string);
        labels.write(at, 12.0, vec2(1.0, -1.0), &format!("S{}", i + 1), style);
    }
}

/// A direction on the plan as it lies on the screen, length one.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a direction for the screen"
)]
fn screen_direction(way: geometry::Vector) -> Vec2 {
    vec2(way.x as f32, -way.y as f32)
}

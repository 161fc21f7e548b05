//! The signs of setting out: spots, strings, tapes with their zero, right angles.

use egui::{Color32, Painter, Pos2, Rect, Shape, Stroke, Vec2, vec2};
use geometry::Point;
use plan::setout::Spot;

use super::super::Scene;
use super::super::labels::Labels;
use crate::window::fonts::Face;
use crate::window::pen::{self, Pen};
use crate::window::theme;
use crate::window::view::{Curve, View};
use crate::window::words::short;

/// What is drawn with, and where.
pub(in super::super) struct Ink<'a> {
    pub(super) painter: &'a Painter,
    pub(super) view: &'a View,
    pub(super) scene: &'a Scene<'a>,
}

/// Width of a tape on the screen, and of the paper between its borders, in screen points.
const TAPE: f32 = 6.0;
const IN_TAPE: f32 = 3.0;
/// Half the stroke across a tape at its zero, in screen points.
const ZERO: f32 = 8.0;
/// Side of a right angle's mark, in screen points.
const SQUARE: f32 = 12.0;

impl Ink<'_> {
    pub(super) fn at(&self, place: Point) -> Pos2 {
        self.view.screen_from_plan(place)
    }

    pub(super) fn curve(&self, pen: Pen, curve: &Curve, colour: Color32) {
        let runs = self.view.trace(&[*curve]);
        pen.draw_in(self.painter, &runs, self.scene.palette, colour);
    }

    pub(super) fn straight(&self, pen: Pen, from: Point, to: Point, colour: Color32) {
        self.curve(pen, &line(from, to), colour);
    }

    /// A line of its own width along a curve.
    pub(super) fn thick(&self, curve: &Curve, width: f32, colour: Color32) {
        let stroke = Stroke::new(width * self.scene.palette.weight, colour);
        for run in self.view.trace(&[*curve]) {
            self.painter.add(Shape::line(run.points, stroke));
        }
    }

    /// A tape: two borders with paper between, a stroke across its zero and the figure nought.
    pub(super) fn tape(&self, from: Point, to: Point, labels: &mut Labels) {
        let palette = self.scene.palette;
        self.thick(&line(from, to), TAPE, palette.string);
        self.thick(&line(from, to), IN_TAPE, palette.field);
        let way = self.at(to) - self.at(from);
        if way.length() < 1.0 {
            return;
        }
        let (zero, across) = (self.at(from), way.normalized().rot90());
        let stroke = Stroke::new(2.5 * palette.weight, palette.string);
        self.painter
            .line_segment([zero - across * ZERO, zero + across * ZERO], stroke);
        let style = (Face::Figures.sized(theme::SMALL), palette.string);
        labels.write(zero, 12.0, -way.normalized(), "0", style);
    }

    /// The mark of a right angle at its foot, opening along both ways.
    pub(super) fn right_angle(&self, foot: Point, along: Point, off: Point) {
        let corner = self.at(foot);
        let side = |to: Point| {
            let way = self.at(to) - corner;
            (way.length() > 1.0).then(|| way.normalized() * SQUARE)
        };
        if let (Some(one), Some(other)) = (side(along), side(off)) {
            let stroke = Stroke::new(1.5 * self.scene.palette.weight, self.scene.palette.ink);
            let points = vec![corner + one, corner + one + other, corner + other];
            self.painter.add(Shape::line(points, stroke));
        }
    }

    /// A figure beside the middle of a line.
    pub(super) fn figure(
        &self,
        from: Point,
        to: Point,
        words: &str,
        due: bool,
        labels: &mut Labels,
    ) {
        let palette = self.scene.palette;
        let (size, colour) = if due {
            (theme::HEADING, palette.ink)
        } else {
            (theme::BODY, palette.moss)
        };
        let way = self.at(to) - self.at(from);
        let beside = if way.length() > 1.0 {
            way.normalized().rot90()
        } else {
            vec2(0.0, -1.0)
        };
        let seen = self.view.area().shrink(30.0);
        let mut places: Vec<Pos2> = [0.5, 0.35, 0.65, 0.2, 0.8]
            .map(|share| self.at(from.towards(to, share)))
            .into_iter()
            .filter(|at| seen.contains(*at))
            .collect();
        places.push(self.at(to));
        let style = (Face::Figures.sized(size), colour);
        labels.write_at_one(&places, 12.0, beside, words, &style);
    }

    /// The name of a spot.
    pub(super) fn name(&self, name: &str, at: Point, due: bool, labels: &mut Labels) {
        let size = if due { theme::BODY } else { theme::SMALL };
        let style = (Face::Strong.sized(size), self.scene.palette.ink);
        labels.write(self.at(at), 10.0, vec2(1.0, -1.0), &short(name), style);
    }

    /// A spot: pegs square, a swing point ringed, flags and nails small.
    pub(super) fn spot(&self, spot: Spot, place: Point, due: bool) {
        let palette = self.scene.palette;
        let at = self.at(place);
        let fill = if due { palette.string } else { palette.paper };
        let more = if due { 3.0 } else { 0.0 };
        let line = Stroke::new(1.5 * palette.weight, palette.ink);
        match spot {
            Spot::Mark(_) => {}
            Spot::Peg(_) | Spot::Apex(_) => {
                pen::peg(self.painter, at, 9.0 + more, fill, palette);
            }
            Spot::Swing(_) => {
                self.painter.circle(at, 8.0 + more, palette.paper, line);
                self.painter
                    .circle_filled(at, 2.5 + 0.5 * more, palette.string);
            }
            Spot::Flag { .. } => {
                let top = at - vec2(0.0, 11.0 + more);
                self.painter.line_segment([at, top], line);
                let cloth = vec![top, top + vec2(8.0, 3.0), top + vec2(0.0, 6.0)];
                let edge = Stroke::new(palette.weight, palette.ink);
                self.painter.add(Shape::convex_polygon(cloth, fill, edge));
            }
            Spot::Aim { .. } => {
                self.painter.circle(at, 3.0 + 0.5 * more, fill, line);
            }
        }
    }

    /// An offset peg: a peg turned on its corner.
    pub(super) fn offset_peg(&self, place: Point, due: bool) {
        let palette = self.scene.palette;
        let (at, half) = (self.at(place), if due { 9.0 } else { 7.0 });
        let fill = if due { palette.string } else { palette.paper };
        let corners = [(0.0, -half), (half, 0.0), (0.0, half), (-half, 0.0)];
        let corners = corners.map(|(x, y)| at + Vec2::new(x, y)).to_vec();
        let line = Stroke::new(1.5 * palette.weight, palette.ink);
        self.painter.add(Shape::convex_polygon(corners, fill, line));
    }

    /// No text over a spot that is due.
    pub(super) fn keep_spot_free(&self, place: Point, labels: &mut Labels) {
        labels.keep_free(Rect::from_center_size(self.at(place), Vec2::splat(16.0)));
    }
}

/// A straight line as the camera draws it.
pub(super) fn line(start: Point, end: Point) -> Curve {
    Curve {
        start,
        end,
        rise: 0.0,
    }
}

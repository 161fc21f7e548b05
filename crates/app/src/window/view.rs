//! The camera: the one place where metres on the plan and points on the screen meet.

use std::ops::Range;

use egui::{Pos2, Rect, Vec2};
use geometry::{Bounds, Piece, Point};

/// What of the plan is seen, and where on the screen.
///
/// Plan metres are `f64`, x east and y north; screen points are `f32`, x right and y down. Every crossing
/// subtracts and scales in `f64` and casts last, so that two pegs 5 mm apart stay apart at coordinates of
/// a national grid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    centre: Point,
    points_per_metre: f64,
    area: Rect,
}

/// A straight or circular line by its two ends and its rise: what the camera can draw.
///
/// The rise is in metres, positive when the apex lies left of the chord as one walks from `start` to `end`;
/// a rise of nought is a straight. Ends and rise, not centre and radius: so a flat bend of any radius stays exact.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curve {
    /// Where it begins.
    pub start: Point,
    /// Where it ends.
    pub end: Point,
    /// Distance from the middle of the chord to the apex, in metres, positive to the left.
    pub rise: f64,
}

impl From<&Piece> for Curve {
    fn from(piece: &Piece) -> Self {
        Self {
            start: piece.start(),
            end: piece.end(),
            rise: piece.arc().map_or(0.0, geometry::Arc::rise),
        }
    }
}

/// A part of a drawn line that can be seen, as points on the screen.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Corners to be joined by straights.
    pub points: Vec<Pos2>,
    /// Screen points along the whole line from its start to this part, so that dashes stay where they are
    /// while the plan is moved.
    pub from: f64,
}

impl Run {
    /// Its length in screen points.
    #[must_use]
    pub fn length(&self) -> f32 {
        let parts = self.points.windows(2);
        parts.map(|pair| pair[0].distance(pair[1])).sum()
    }
}

/// Fewest screen points a metre: with 0.004 the whole range of coordinates a plan may hold, ±100 km, is 800 points wide.
pub const LEAST_POINTS_PER_METRE: f64 = 0.004;
/// Most screen points a metre: with 20 000 a 40 mm peg is 800 points wide, and a millimetre is a thumb.
pub const MOST_POINTS_PER_METRE: f64 = 20_000.0;
/// What a fitted view shows at least, in metres: a single peg is shown with a step of ground about it.
pub const LEAST_FITTED: f64 = 2.0;
/// How far a drawn chord may leave its arc, in screen points: a quarter, less than anti-aliasing shows.
const CHORD_ERROR: f64 = 0.25;
/// How far beyond the edge of the picture lines are still drawn, in screen points: more than the widest line and its dashes.
const BEYOND: f64 = 64.0;
/// Longest straight drawn in one go, in screen points: beyond it an `f32` end off the screen would tilt what is on it.
const LONGEST_CHORD: f64 = 2048.0;
/// Halvings of one curve: 2⁴⁰ parts of 200 km are finer than any `CHORD_ERROR`; only there to be sure of an end.
const MOST_HALVINGS: u32 = 40;

impl View {
    /// The view of `area` on the screen with `centre` in its middle.
    ///
    /// The scale is held within [`LEAST_POINTS_PER_METRE`] and [`MOST_POINTS_PER_METRE`]; a centre or scale that is not
    /// finite is taken as the plan's origin at 40 points a metre.
    #[must_use]
    pub fn new(area: Rect, centre: Point, points_per_metre: f64) -> Self {
        let finite = centre.is_finite() && points_per_metre.is_finite();
        Self {
            centre: if finite { centre } else { Point::ORIGIN },
            points_per_metre: held(if finite { points_per_metre } else { 40.0 }),
            area,
        }
    }

    /// The view that shows all of `bounds` in the middle of `area`, with at least `margin` screen points on each side.
    #[must_use]
    pub fn fitted(bounds: Bounds, area: Rect, margin: f32) -> Self {
        let room = (area.size() - Vec2::splat(2.0 * margin)).max(Vec2::splat(1.0));
        let across = bounds.width().max(LEAST_FITTED);
        let up = bounds.height().max(LEAST_FITTED);
        let scale = (f64::from(room.x) / across).min(f64::from(room.y) / up);
        Self::new(area, bounds.middle(), scale)
    }

    /// The same view after the picture has been given another place or size: the middle stays the middle.
    #[must_use]
    pub fn with_area(self, area: Rect) -> Self {
        Self { area, ..self }
    }

    /// The view that shows all of `bounds` in this picture.
    #[must_use]
    pub fn fit(self, bounds: Bounds, margin: f32) -> Self {
        Self::fitted(bounds, self.area, margin)
    }

    /// The view `factor` times as close, in which the place under `pointer` stays under it.
    #[must_use]
    pub fn zoomed_about(self, pointer: Pos2, factor: f64) -> Self {
        if !(factor.is_finite() && factor > 0.0) {
            return self;
        }
        let fixed = self.plan_from_screen(pointer);
        let closer = held(self.points_per_metre * factor);
        let share = self.points_per_metre / closer;
        Self {
            centre: fixed + (self.centre - fixed) * share,
            points_per_metre: closer,
            ..self
        }
    }

    /// The view after the paper has been pushed by `by` screen points: what was under the pointer moves with it.
    #[must_use]
    pub fn panned(self, by: Vec2) -> Self {
        let moved = Point::new(
            self.centre.x - f64::from(by.x) / self.points_per_metre,
            self.centre.y + f64::from(by.y) / self.points_per_metre,
        );
        Self::new(self.area, moved, self.points_per_metre)
    }

    /// Where on the screen a place of the plan is.
    #[must_use]
    pub fn screen_from_plan(&self, place: Point) -> Pos2 {
        self.exact_from_plan(place).cast()
    }

    /// The place of the plan under a point of the screen.
    #[must_use]
    pub fn plan_from_screen(&self, at: Pos2) -> Point {
        let middle = self.area.center();
        Point::new(
            self.centre.x + (f64::from(at.x) - f64::from(middle.x)) / self.points_per_metre,
            self.centre.y - (f64::from(at.y) - f64::from(middle.y)) / self.points_per_metre,
        )
    }

    /// A length on the plan, in metres, as screen points.
    #[must_use]
    #[expect(
        clippy::cast_possible_truncation,
        reason = "the camera is where metres become screen points"
    )]
    pub fn screen_length(&self, metres: f64) -> f32 {
        (metres * self.points_per_metre) as f32
    }

    /// A length on the screen, in points, as metres on the plan.
    #[must_use]
    pub fn plan_length(&self, points: f32) -> f64 {
        f64::from(points) / self.points_per_metre
    }

    /// The place in the middle of the picture.
    #[must_use]
    pub fn centre(&self) -> Point {
        self.centre
    }

    /// Screen points a metre.
    #[must_use]
    pub fn points_per_metre(&self) -> f64 {
        self.points_per_metre
    }

    /// Where on the screen the picture is.
    #[must_use]
    pub fn area(&self) -> Rect {
        self.area
    }

    /// The part of the plan that is seen.
    #[must_use]
    pub fn seen(&self) -> Bounds {
        Bounds::of(self.plan_from_screen(self.area.left_bottom()))
            .with(Bounds::of(self.plan_from_screen(self.area.right_top())))
    }

    /// The parts of a line that can be seen, each as corners to be joined by straights no more than a quarter
    /// of a point off the curve.
    ///
    /// The curves follow one another, each beginning where the one before ended. Only what lies in the picture
    /// or just beyond is cut fine, so a 10 km bend seen from a step away costs a few dozen corners.
    #[must_use]
    pub fn trace(&self, line: &[Curve]) -> Vec<Run> {
        let mut runs: Vec<Run> = Vec::new();
        let mut along = 0.0;
        let mut joins = false; // the last run ends where the next curve begins
        for curve in line {
            let bow = self.bow(curve);
            for steps in self.seen_steps(&[bow]) {
                let points = steps.iter().map(|&step| bow.at(step).cast());
                let starts_here = steps.first().is_some_and(|&step| step <= -1.0);
                match runs.last_mut() {
                    Some(run) if joins && starts_here => run.points.extend(points.skip(1)),
                    _ => runs.push(Run {
                        points: points.collect(),
                        from: along + bow.length(-1.0..steps.first().copied().unwrap_or(-1.0)),
                    }),
                }
                joins = steps.last().is_some_and(|&step| 1.0 <= step);
            }
            joins = joins && self.touches(bow.at(1.0), bow.at(1.0), 0.0);
            along += bow.length(-1.0..1.0);
        }
        runs
    }

    /// The parts of a band between two edges that can be seen, as cross lines from the left edge to the right one.
    ///
    /// The edges are a path's two sides of one leg: straights, or arcs about one swing point. Between two neighbouring
    /// cross lines the band is a quadrilateral to be filled.
    #[must_use]
    pub fn band(&self, left: &Curve, right: &Curve) -> Vec<Vec<[Pos2; 2]>> {
        let edges = [self.bow(left), self.bow(right)];
        self.seen_steps(&edges)
            .iter()
            .map(|steps| {
                steps
                    .iter()
                    .map(|&step| edges.map(|edge| edge.at(step).cast()))
                    .collect()
            })
            .collect()
    }

    fn exact_from_plan(&self, place: Point) -> Exact {
        let middle = self.area.center();
        Exact {
            x: f64::from(middle.x) + (place.x - self.centre.x) * self.points_per_metre,
            y: f64::from(middle.y) - (place.y - self.centre.y) * self.points_per_metre,
        }
    }

    fn bow(&self, curve: &Curve) -> Bow {
        let start = self.exact_from_plan(curve.start);
        let end = self.exact_from_plan(curve.end);
        let half = Exact {
            x: 0.5 * (end.x - start.x),
            y: 0.5 * (end.y - start.y),
        };
        let half_chord = half.x.hypot(half.y);
        let rise = curve.rise * self.points_per_metre;
        // Coincident ends have no direction; any will do, since then the rise is nought or the finding says so.
        let along = if half_chord > 0.0 {
            Exact {
                x: half.x / half_chord,
                y: half.y / half_chord,
            }
        } else {
            Exact { x: 1.0, y: 0.0 }
        };
        let to_apex = half_chord.hypot(rise);
        Bow {
            start,
            end,
            middle: Exact {
                x: start.x + half.x,
                y: start.y + half.y,
            },
            along,
            quarter: rise.atan2(half_chord),
            sine: if to_apex > 0.0 { rise / to_apex } else { 0.0 },
            to_apex,
        }
    }

    /// Steps (−1 at the start, 1 at the end) at which curves running side by side are cut, for each part that is seen.
    fn seen_steps<const N: usize>(&self, curves: &[Bow; N]) -> Vec<Vec<f64>> {
        let mut runs: Vec<Vec<f64>> = Vec::new();
        if !curves.iter().all(Bow::is_finite) {
            return runs;
        }
        let mut broken = true;
        let mut to_do = vec![(-1.0, 1.0, 0)];
        while let Some((from, to, halvings)) = to_do.pop() {
            let sag = curves
                .iter()
                .fold(0.0_f64, |most, bow| most.max(bow.sag(to - from)));
            let ends = curves.each_ref().map(|bow| [bow.at(from), bow.at(to)]);
            let (low, high) = corners(ends.iter().flatten().copied());
            if !self.touches(low, high, sag) {
                broken = true;
                continue;
            }
            // Of each curve by itself: a wide band seen from a step away is not long.
            let longest = ends.iter().fold(0.0_f64, |most, [a, b]| {
                most.max((b.x - a.x).abs()).max((b.y - a.y).abs())
            });
            if halvings < MOST_HALVINGS && (CHORD_ERROR < sag || LONGEST_CHORD < longest) {
                let half = 0.5 * (from + to);
                to_do.push((half, to, halvings + 1));
                to_do.push((from, half, halvings + 1));
                continue;
            }
            match runs.last_mut() {
                Some(run) if !broken => run.push(to),
                _ => runs.push(vec![from, to]),
            }
            broken = false;
        }
        runs
    }

    /// Whether the box from `low` to `high`, grown by `by`, comes into the picture or near it.
    fn touches(&self, low: Exact, high: Exact, by: f64) -> bool {
        let reach = by + BEYOND;
        low.x - reach <= f64::from(self.area.right())
            && f64::from(self.area.left()) <= high.x + reach
            && low.y - reach <= f64::from(self.area.bottom())
            && f64::from(self.area.top()) <= high.y + reach
    }
}

fn held(points_per_metre: f64) -> f64 {
    points_per_metre.clamp(LEAST_POINTS_PER_METRE, MOST_POINTS_PER_METRE)
}

/// A point of the screen before it is rounded to `f32`.
#[derive(Clone, Copy, Debug)]
struct Exact {
    x: f64,
    y: f64,
}

impl Exact {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "the camera is where metres become screen points"
    )]
    fn cast(self) -> Pos2 {
        Pos2::new(self.x as f32, self.y as f32)
    }
}

fn corners(points: impl Iterator<Item = Exact>) -> (Exact, Exact) {
    let none = (
        Exact {
            x: f64::INFINITY,
            y: f64::INFINITY,
        },
        Exact {
            x: f64::NEG_INFINITY,
            y: f64::NEG_INFINITY,
        },
    );
    points.fold(none, |(low, high), at| {
        (
            Exact {
                x: low.x.min(at.x),
                y: low.y.min(at.y),
            },
            Exact {
                x: high.x.max(at.x),
                y: high.y.max(at.y),
            },
        )
    })
}

/// A curve in screen points, in the frame of its chord.
///
/// With a the half chord, h the rise and q = atan(h/a) (a quarter of the sweep), the point at step u between −1 and 1 is
/// k·s·cos(uq) along the chord and h·(1 − s²) to its left, where k = √(a² + h²) is the distance from an end to the apex
/// and s = sin(uq)/sin q, which becomes u on a straight. No radius appears, so a bend of any flatness keeps its digits.
/// From the half-angle forms of x = R sin(2uq), y = h − R(1 − cos(2uq)).
#[derive(Clone, Copy, Debug)]
struct Bow {
    start: Exact,
    end: Exact,
    middle: Exact,
    along: Exact,
    quarter: f64,
    /// The sine of `quarter`.
    sine: f64,
    to_apex: f64,
}

impl Bow {
    fn is_finite(&self) -> bool {
        self.to_apex.is_finite() && self.middle.x.is_finite() && self.middle.y.is_finite()
    }

    fn at(&self, step: f64) -> Exact {
        if step <= -1.0 {
            return self.start;
        }
        if 1.0 <= step {
            return self.end;
        }
        let share = if self.quarter == 0.0 {
            step
        } else {
            (step * self.quarter).sin() / self.sine
        };
        let along = self.to_apex * share * (step * self.quarter).cos();
        let left = self.to_apex * self.sine * (1.0 - share * share);
        // Screen y runs down, so left of (x, y) is (y, −x).
        Exact {
            x: self.middle.x + along * self.along.x + left * self.along.y,
            y: self.middle.y + along * self.along.y - left * self.along.x,
        }
    }

    /// How far a part of the curve `steps` long rises above its own chord, in screen points.
    fn sag(&self, steps: f64) -> f64 {
        if self.quarter == 0.0 {
            return 0.0;
        }
        let half = (0.5 * steps * self.quarter).sin();
        self.to_apex / self.sine.abs() * half * half
    }

    /// Length along the curve, in screen points.
    fn length(&self, steps: Range<f64>) -> f64 {
        let fuller = if self.quarter == 0.0 {
            1.0
        } else {
            self.quarter / self.sine
        };
        self.to_apex * fuller * (steps.end - steps.start)
    }
}

#[cfg(test)]
#[expect(
    clippy::float_cmp,
    reason = "limits and starts are to be exactly what they are said to be"
)]
mod tests {
    use std::f64::consts::PI;

    use super::*;

    fn window() -> Rect {
        Rect::from_min_max(Pos2::new(10.0, 20.0), Pos2::new(1010.0, 720.0))
    }

    fn curve(start: (f64, f64), end: (f64, f64), rise: f64) -> Curve {
        Curve {
            start: Point::new(start.0, start.1),
            end: Point::new(end.0, end.1),
            rise,
        }
    }

    #[test]
    fn five_millimetres_apart_at_500_km_stay_apart() {
        let here = Point::new(500_000.0, -500_000.0);
        let there = Point::new(500_000.005, -500_000.0);
        let view = View::new(window(), here, 400.0);
        let apart = view.screen_from_plan(there) - view.screen_from_plan(here);
        // An f64 at 500 km steps by 6e-11 m; an f32 at the middle of the screen by 3e-5 points.
        assert!((apart.x - 2.0).abs() < 1e-4 && apart.y == 0.0, "{apart}");
    }

    #[test]
    fn screen_and_plan_round_trip() {
        for scale in [LEAST_POINTS_PER_METRE, 1.0, 40.0, MOST_POINTS_PER_METRE] {
            for centre in [Point::new(0.0, 0.0), Point::new(99_000.0, -72_345.6)] {
                let view = View::new(window(), centre, scale);
                for at in [(10.0, 20.0), (510.0, 370.0), (999.5, 21.25)] {
                    let at = Pos2::new(at.0, at.1);
                    let back = view.screen_from_plan(view.plan_from_screen(at));
                    // One f32 step at 1 000 is 6e-5.
                    assert!((back - at).length() < 2e-4, "{scale}: {at} {back}");
                }
            }
        }
    }

    #[test]
    fn north_is_up() {
        let view = View::new(window(), Point::ORIGIN, 10.0);
        let north_east = view.screen_from_plan(Point::new(1.0, 2.0));
        assert_eq!(north_east, window().center() + Vec2::new(10.0, -20.0));
    }

    #[test]
    fn zoom_keeps_what_is_under_the_pointer() {
        let mut view = View::new(window(), Point::new(12.0, 7.0), 40.0);
        let pointer = Pos2::new(700.0, 100.0);
        let before = view.plan_from_screen(pointer);
        for factor in [1.1, 3.0, 0.01, 1e9, 1e-12, 7.0] {
            view = view.zoomed_about(pointer, factor);
            let moved = view.plan_from_screen(pointer).distance(before);
            assert!(moved < view.plan_length(1e-3), "{factor}: {moved}");
        }
        for nonsense in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(view.zoomed_about(pointer, nonsense), view);
        }
    }

    #[test]
    fn zoom_stops_at_its_limits() {
        let view = View::new(window(), Point::ORIGIN, 40.0);
        let in_full = view.zoomed_about(Pos2::new(3.0, 3.0), 1e12);
        assert_eq!(in_full.points_per_metre(), MOST_POINTS_PER_METRE);
        let out_full = view.zoomed_about(Pos2::new(3.0, 3.0), 1e-12);
        assert_eq!(out_full.points_per_metre(), LEAST_POINTS_PER_METRE);
    }

    #[test]
    fn pushed_paper_follows_the_hand() {
        let view = View::new(window(), Point::new(3.0, 4.0), 50.0);
        let place = Point::new(3.5, 4.5);
        let push = Vec2::new(-35.0, 80.0);
        let moved = view.panned(push).screen_from_plan(place) - view.screen_from_plan(place);
        assert!((moved - push).length() < 1e-3, "{moved}");
    }

    #[test]
    fn a_fitted_plan_is_wholly_seen_and_as_large_as_the_margin_lets_it() {
        for (low, high) in [
            ((0.0, 0.0), (30.0, 8.0)),
            ((-4.0, 0.0), (4.0, 90.0)),
            ((5.0, 5.0), (5.0, 5.0)),
        ] {
            let bounds =
                Bounds::of(Point::new(low.0, low.1)).with(Bounds::of(Point::new(high.0, high.1)));
            let view = View::fitted(bounds, window(), 48.0);
            let inner = window().shrink(48.0 - 0.01);
            let a = view.screen_from_plan(bounds.low);
            let b = view.screen_from_plan(bounds.high);
            assert!(inner.contains(a) && inner.contains(b), "{a} {b}");
            let filled = Rect::from_two_pos(a, b).size() / window().shrink(48.0).size();
            let least = bounds.width().max(bounds.height()) < LEAST_FITTED;
            assert!(least || 0.999 < filled.max_elem(), "{filled}");
        }
    }

    /// Corners drawn in full view lie on the circle, and the middle of each side no more than the allowed error inside it.
    #[test]
    fn drawn_arcs_stay_within_a_quarter_point() {
        for rise in [0.001, 0.4, -0.4, 2.0, -2.0, 4.0] {
            let bend = curve((-2.0, 0.0), (2.0, 0.0), rise);
            let view = View::fitted(Bounds::of(Point::ORIGIN).grown(8.0), window(), 0.0);
            let runs = view.trace(&[bend]);
            assert_eq!(runs.len(), 1);
            let radius = 2.0 / rise + rise / 2.0;
            let centre = view.screen_from_plan(Point::new(0.0, rise - radius));
            let on_screen = view.screen_length(radius.abs());
            for pair in runs[0].points.windows(2) {
                let middle = pair[0] + (pair[1] - pair[0]) * 0.5;
                // f32 rounding of a centre a 2 000 m radius away is a few thousandths of a point.
                assert!(((pair[0] - centre).length() - on_screen).abs() < 0.02);
                assert!(on_screen - (middle - centre).length() < 0.25 + 0.02);
            }
        }
    }

    #[test]
    fn a_piece_of_a_path_is_drawn_as_it_is() {
        let (start, end) = (Point::new(1.0, 2.0), Point::new(5.0, 2.0));
        let bend = geometry::Arc::from_rise(start, end, -0.5).expect("a bend");
        let expected = Curve {
            start,
            end,
            rise: -0.5,
        };
        assert_eq!(Curve::from(&Piece::Arc(bend)), expected);
    }

    #[test]
    fn the_apex_is_on_the_left_for_a_positive_rise() {
        let view = View::new(window(), Point::ORIGIN, 100.0);
        let bow = view.bow(&curve((-2.0, 0.0), (2.0, 0.0), 0.5));
        let apex = bow.at(0.0).cast();
        assert!((apex - view.screen_from_plan(Point::new(0.0, 0.5))).length() < 1e-3);
    }

    #[test]
    fn flat_bends_and_straights_draw_the_same() {
        let view = View::new(window(), Point::ORIGIN, 100.0);
        for rise in [0.0, 1e-12, -1e-12, 1e-300, 5e-324] {
            let runs = view.trace(&[curve((-2.0, -1.0), (2.0, 1.0), rise)]);
            assert_eq!(runs.len(), 1, "{rise}");
            let ends = [runs[0].points[0], runs[0].points[runs[0].points.len() - 1]];
            let expected =
                [(-2.0, -1.0), (2.0, 1.0)].map(|(x, y)| view.screen_from_plan(Point::new(x, y)));
            assert_eq!(ends, expected, "{rise}");
        }
    }

    #[test]
    fn a_ten_kilometre_bend_seen_close_costs_few_corners_and_lies_true() {
        // Half the bend is swept through 1 rad; we stand at its apex, a step away.
        let bend = curve((-5_000.0, 0.0), (5_000.0, 0.0), 1_500.0);
        let apex = Point::new(0.0, 1_500.0);
        let view = View::new(window(), apex, MOST_POINTS_PER_METRE);
        let runs = view.trace(&[bend]);
        assert_eq!(runs.len(), 1);
        assert!(runs[0].points.len() < 20, "{}", runs[0].points.len());
        // At this scale the screen shows 50 mm; the arc there is flat to a nanometre and runs through the middle.
        for at in &runs[0].points {
            let off = (at.y - view.screen_from_plan(apex).y).abs();
            assert!(off < 0.02, "{at}");
        }
    }

    #[test]
    fn what_cannot_be_seen_costs_nothing() {
        let view = View::new(window(), Point::new(0.0, 500.0), 40.0);
        assert!(
            view.trace(&[curve((-50.0, 0.0), (50.0, 0.0), 10.0)])
                .is_empty()
        );
        for nonsense in [f64::NAN, f64::INFINITY] {
            let nowhere = curve((nonsense, 500.0), (0.0, 500.0), 10.0);
            assert!(view.trace(&[nowhere]).is_empty());
            let bent = curve((-1.0, 500.0), (1.0, 500.0), nonsense);
            assert!(view.trace(&[bent]).is_empty());
        }
    }

    #[test]
    fn one_run_goes_through_the_joints() {
        let view = View::new(window(), Point::ORIGIN, 40.0);
        let line = [
            curve((-6.0, 0.0), (-2.0, 0.0), 0.0),
            curve((-2.0, 0.0), (2.0, 0.0), 1.0),
            curve((2.0, 0.0), (6.0, 0.0), 0.0),
        ];
        let runs = view.trace(&line);
        assert_eq!(runs.len(), 1);
        assert_eq!(runs[0].from, 0.0);
        let doubled = runs[0].points.windows(2).any(|pair| pair[0] == pair[1]);
        assert!(!doubled);
    }

    #[test]
    fn dashes_keep_their_place_when_the_start_is_off_the_screen() {
        // A full half turn, then a straight that leaves the picture and comes back into it.
        let view = View::new(window(), Point::new(1000.0, 0.0), 10.0);
        let line = [
            curve((0.0, -10.0), (0.0, 10.0), -10.0),
            curve((0.0, 10.0), (2000.0, 10.0), 0.0),
        ];
        let runs = view.trace(&line);
        assert_eq!(runs.len(), 1);
        let first = view.plan_from_screen(runs[0].points[0]);
        let expected = (PI * 10.0 + first.x) * 10.0;
        assert!((runs[0].from - expected).abs() < 0.05, "{}", runs[0].from);
    }

    #[test]
    fn a_band_keeps_its_width() {
        let view = View::fitted(Bounds::of(Point::ORIGIN).grown(6.0), window(), 0.0);
        // Chord 6 rise 1 has radius 5: edges at 5.6 and 4.4 about the same swing point.
        let edge = |radius: f64| {
            let half = 3.0 * radius / 5.0;
            let apothem = 4.0 * radius / 5.0;
            curve(
                (-half, apothem - 4.0),
                (half, apothem - 4.0),
                radius - apothem,
            )
        };
        let parts = view.band(&edge(5.6), &edge(4.4));
        assert_eq!(parts.len(), 1);
        for [left, right] in &parts[0] {
            let width = view.plan_length((*left - *right).length());
            assert!((width - 1.2).abs() < 1e-3, "{width}");
        }
    }

    #[test]
    fn a_full_turn_from_one_peg_is_drawn_round() {
        let view = View::new(window(), Point::ORIGIN, 100.0);
        let runs = view.trace(&[curve((0.0, 0.0), (0.0, 0.0), 2.0)]);
        assert_eq!(runs.len(), 1);
        assert!(20 < runs[0].points.len());
    }
}

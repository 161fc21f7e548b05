//! The rises that fit: between two fixed end pegs, every rise of a bend whose edges keep clear.

use crate::{Arc, Core, Line, Patch, Piece, Point, Vector};

/// A patch of ground, and how far the edges of a path should keep from it.
#[derive(Clone, Copy, Debug)]
pub struct Keep<'a> {
    /// The ground.
    pub patch: &'a Patch,
    /// The wanted clearance in metres, not negative.
    pub clearance: f64,
}

/// An unbroken run of rises that keep clear of everything.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RiseRange {
    /// The least signed rise, in metres.
    pub from: f64,
    /// The greatest signed rise, in metres.
    pub to: f64,
    /// Which patch would be come too near below the least; `None` where the range looked at ends.
    pub below: Option<usize>,
    /// Which patch would be come too near above the greatest.
    pub above: Option<usize>,
}

/// A run of rises shorter than this is none: a hundredth of a millimetre, which no hand can hold.
pub const NARROWEST_RANGE: f64 = 1e-5;

/// A wanted clearance missed by less is kept: a nanometre, the rounding of what it is held against.
const KEPT: f64 = 1e-9;

/// Every rise from `least` to `most` metres at which a bend from `start` to `end`, with edges
/// `half_width` metres to both sides and ends square to them, keeps the wanted clearance from every
/// patch, in ascending order. Rises whose inner edge has no radius left do not fit.
///
/// Seen from the chord, with its half a and a bend of rise h, the swing point lies (h² − a²) / 2h
/// from the chord and the radius is (a² + h²) / 2|h|, so that the distance of an edge to a point, a
/// line or a circle takes a wanted value at the roots of a quadratic in h; so does that of an end of
/// the path, whose direction turns by 2 atan(h/a). Between two roots nothing changes from clear to
/// not, and one look there tells which it is. Source: geometry.
#[must_use]
pub fn rises_that_fit(
    [start, end]: [Point; 2],
    half_width: f64,
    keeps: &[Keep<'_>],
    [least, most]: [f64; 2],
) -> Vec<RiseRange> {
    let Some(frame) = Frame::new(start, end, half_width) else {
        return Vec::new();
    };
    let mut taken: Vec<Taken> = Vec::new();
    for (index, keep) in keeps.iter().enumerate() {
        for feature in features(keep.patch) {
            let apart = keep.clearance + keep.patch.grown();
            frame.taken_by(&feature, apart, [least, most], |from, to| {
                taken.push(Taken {
                    from,
                    to,
                    by: Some(index),
                });
            });
        }
    }
    taken.extend(frame.without_inner_edge());
    taken.sort_by(|a, b| a.from.total_cmp(&b.from));
    let mut ranges = Vec::new();
    let mut range = RiseRange {
        from: least,
        to: most,
        below: None,
        above: None,
    };
    for taken in taken {
        if taken.from > range.from {
            range.to = taken.from;
            range.above = taken.by;
            ranges.push(range);
        }
        if taken.to > range.from {
            range.from = taken.to;
            range.below = taken.by;
        }
    }
    range.to = most;
    range.above = None;
    ranges.push(range);
    ranges.retain(|range| {
        let inside = |keep: &Keep<'_>| {
            // Nothing of the outline is near: the whole bend is in the patch, or none of it.
            let middle = frame.apex(0.5 * (range.from + range.to));
            keep.patch.contains(middle)
        };
        range.to - range.from >= NARROWEST_RANGE && !keeps.iter().any(inside)
    });
    ranges
}

/// Rises that do not fit, and what takes them.
struct Taken {
    from: f64,
    to: f64,
    by: Option<usize>,
}

/// What the outline of a patch consists of.
enum Feature {
    Point(Point),
    Side(Piece),
}

fn features(patch: &Patch) -> Vec<Feature> {
    match patch.core() {
        Core::Point(point) => vec![Feature::Point(*point)],
        Core::Line(chain) | Core::Area(chain) | Core::Beyond(chain) => {
            chain.pieces().iter().copied().map(Feature::Side).collect()
        }
    }
}

/// The chord with its middle as origin: x along it, y to its left.
struct Frame {
    start: Point,
    end: Point,
    along: Vector,
    half_chord: f64,
    half_width: f64,
}

impl Frame {
    fn new(start: Point, end: Point, half_width: f64) -> Option<Self> {
        let chord = Line::new(start, end).ok()?;
        Some(Self {
            start,
            end,
            along: chord.direction().unit(),
            half_chord: 0.5 * chord.length(),
            half_width,
        })
    }

    fn seen(&self, point: Point) -> Vector {
        self.turned(point - self.start.middle(self.end))
    }

    fn turned(&self, way: Vector) -> Vector {
        Vector::new(self.along.dot(way), self.along.cross(way))
    }

    fn apex(&self, rise: f64) -> Point {
        self.start.middle(self.end) + self.along.left() * rise
    }

    /// The outline of the path at a rise: both edges and both ends; `None` without an inner edge.
    fn outline(&self, rise: f64) -> Option<[Piece; 4]> {
        let centre = match Arc::from_rise(self.start, self.end, rise) {
            Ok(arc) => Piece::Arc(arc),
            Err(_) => Piece::Line(Line::new(self.start, self.end).ok()?),
        };
        let (left, right) = (
            centre.offset(self.half_width)?,
            centre.offset(-self.half_width)?,
        );
        let end = |from, to| Line::new(from, to).ok().map(Piece::Line);
        Some([
            left,
            right,
            end(left.start(), right.start())?,
            end(left.end(), right.end())?,
        ])
    }

    /// Whether a feature comes nearer than `apart` to the path, or lies in it.
    fn too_near(&self, feature: &Feature, apart: f64, rise: f64) -> bool {
        let Some(outline) = self.outline(rise) else {
            return true;
        };
        let (distance, on) = match feature {
            Feature::Point(point) => {
                let off = |piece: &Piece| piece.nearest(*point).1.distance(*point);
                (
                    outline.iter().map(off).fold(f64::INFINITY, f64::min),
                    *point,
                )
            }
            Feature::Side(side) => {
                let off = |piece: &Piece| side.gap(piece).distance;
                (
                    outline.iter().map(off).fold(f64::INFINITY, f64::min),
                    side.start(),
                )
            }
        };
        distance < apart - KEPT || distance <= KEPT || self.is_in_path(on, rise)
    }

    fn is_in_path(&self, point: Point, rise: f64) -> bool {
        let centre = Arc::from_rise(self.start, self.end, rise);
        let (along, length, off) = match &centre {
            Ok(arc) => (arc.along(point), arc.length(), arc.outside(point)),
            Err(_) => {
                let at = self.seen(point);
                (at.x + self.half_chord, 2.0 * self.half_chord, at.y)
            }
        };
        0.0 < along && along < length && off.abs() < self.half_width - KEPT
    }

    /// The runs of rises at which a feature is too near.
    fn taken_by(
        &self,
        feature: &Feature,
        apart: f64,
        [least, most]: [f64; 2],
        mut take: impl FnMut(f64, f64),
    ) {
        let mut roots = Vec::with_capacity(48);
        roots.extend([least, most]);
        match feature {
            Feature::Point(point) => self.roots_of_circle(*point, apart, &mut roots),
            Feature::Side(side) => {
                self.roots_of_circle(side.start(), apart, &mut roots);
                self.roots_of_circle(side.end(), apart, &mut roots);
                match side {
                    Piece::Line(line) => self.roots_of_line(line, apart, &mut roots),
                    Piece::Arc(arc) => {
                        let (centre, radius) = (arc.centre(), arc.radius());
                        for apart in [radius + apart, radius - apart] {
                            self.roots_of_circle(centre, apart, &mut roots);
                        }
                    }
                }
            }
        }
        roots.retain(|rise| (least..=most).contains(rise));
        roots.sort_by(f64::total_cmp);
        for pair in roots.windows(2) {
            let [from, to] = [pair[0], pair[1]];
            if from < to && self.too_near(feature, apart, 0.5 * (from + to)) {
                take(from, to);
            }
        }
    }

    /// The rises at which something of the path is `apart` from a point, on either side of it.
    fn roots_of_circle(&self, point: Point, apart: f64, roots: &mut Vec<f64>) {
        let (a, m) = (self.half_chord, self.half_width);
        let at = self.seen(point);
        // An edge and the circle touch: |Q − C| = R + e.
        for e in [m + apart, -m - apart, m - apart, apart - m] {
            let s = at.dot(at) - a * a - e * e;
            quadratic(at.y + e, -s, (e - at.y) * a * a, roots);
        }
        for end in [-a, a] {
            let off = Vector::new(end - at.x, -at.y);
            for m in [m, -m] {
                let k = (apart * apart - m * m - off.dot(off)) / (2.0 * m);
                self.roots_of_direction(end, off, k, roots);
            }
            // The line along the end of the path: its normal makes the wanted distance.
            for apart in [apart, -apart] {
                self.roots_of_direction(end, Vector::new(off.y, -off.x), apart, roots);
            }
        }
    }

    /// The rises at which something of the path is `apart` from a line.
    fn roots_of_line(&self, line: &Line, apart: f64, roots: &mut Vec<f64>) {
        let (a, m) = (self.half_chord, self.half_width);
        let normal = self.turned(line.direction().left().unit());
        let d = normal.dot(self.seen(line.start()));
        // The swing point is so far from the line as the edge and the clearance are from it.
        for sign in [1.0, -1.0] {
            for e in [m + apart, -m - apart] {
                let square = normal.y - sign;
                let rest = -(normal.y + sign) * a * a;
                quadratic(square, -2.0 * (d + sign * e), rest, roots);
            }
        }
        for end in [-a, a] {
            for m in [m, -m] {
                for apart in [apart, -apart] {
                    let k = (d + apart - normal.x * end) / m;
                    self.roots_of_direction(end, normal, k, roots);
                }
            }
        }
    }

    /// The rises at which the direction across an end of the path, v, has v · way = k. With
    /// q = h/a it is (∓2q, 1 − q²) / (1 + q²), − at the start and + at the end.
    fn roots_of_direction(&self, end: f64, way: Vector, k: f64, roots: &mut Vec<f64>) {
        let a = self.half_chord;
        let x = way.x * end.signum();
        let before = roots.len();
        quadratic(k + way.y, -2.0 * x, k - way.y, roots);
        for root in &mut roots[before..] {
            *root *= a;
        }
    }

    /// The rises whose radius is at most half the width: (a² + h²) / 2h = m.
    fn without_inner_edge(&self) -> Vec<Taken> {
        let mut roots = Vec::new();
        let (a, m) = (self.half_chord, self.half_width);
        if m >= a {
            quadratic(1.0, -2.0 * m, a * a, &mut roots);
            roots.sort_by(f64::total_cmp);
        }
        match roots[..] {
            [from, to] => vec![
                Taken { from, to, by: None },
                Taken {
                    from: -to,
                    to: -from,
                    by: None,
                },
            ],
            _ => Vec::new(),
        }
    }
}

/// Adds the real roots of `a x² + b x + c`, without cancellation; one that is missed by rounding
/// counts.
fn quadratic(a: f64, b: f64, c: f64, roots: &mut Vec<f64>) {
    let square = b * b - 4.0 * a * c;
    let rounding = 8.0 * f64::EPSILON * (b * b + (4.0 * a * c).abs());
    if square < -rounding {
        return;
    }
    let larger = -0.5 * (b + square.max(0.0).sqrt().copysign(b));
    for root in [larger / a, c / larger] {
        if root.is_finite() {
            roots.push(root);
        }
    }
}

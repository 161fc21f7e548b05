//! Lines that follow from an obstacle: its outline, the faces of a wall, the swing of a gate.

use std::f64::consts::PI;

use geometry::{Arc, Bounds, Chain, Piece, Point, Vector};

use super::{Extent, Obstacle, ObstacleKind, RootRule, Side};

/// A face runs out to a sharp corner no farther than this many half thicknesses: the mitre that
/// drawing practice cuts off (common practice, no source).
const MITRE: f64 = 4.0;

impl Extent {
    /// Its outline as one chain, closed round an area; `None` where it has no length.
    #[must_use]
    pub fn chain(&self) -> Option<Chain> {
        Chain::new(self.sides().collect(), self.is_closed()).ok()
    }

    /// A box that holds it, quickly found: round bent sides it may be larger than it need be.
    #[must_use]
    pub fn room(&self) -> Option<Bounds> {
        match self {
            Self::Round { centre, radius } => Some(Bounds::of(*centre).grown(*radius)),
            Self::Line(points) | Self::Area(points) => Bounds::around(points.iter().copied()),
            Self::Curved(corners) => {
                // No point of an arc lies farther than twice its rise from its chord.
                let bulge = corners.iter().map(|c| 2.0 * c.rise.abs());
                let corners = Bounds::around(corners.iter().map(|corner| corner.at))?;
                Some(corners.grown(bulge.fold(0.0, f64::max)))
            }
        }
    }

    /// The ground it encloses in square metres; `None` of a line, or where an outline has no length.
    ///
    /// ```
    /// use geometry::Point;
    /// use plan::document::Extent;
    /// let at = |x, y| Point::new(x, y);
    /// let shed = Extent::Area(vec![at(0.0, 0.0), at(4.0, 0.0), at(4.0, 3.0), at(0.0, 3.0)]);
    /// assert_eq!(shed.area(), Some(12.0));
    /// assert_eq!(Extent::Line(vec![at(0.0, 0.0), at(4.0, 0.0)]).area(), None);
    /// ```
    #[must_use]
    pub fn area(&self) -> Option<f64> {
        match self {
            Self::Round { radius, .. } => Some(PI * radius * radius),
            Self::Line(_) => None,
            Self::Area(_) | Self::Curved(_) => Some(self.chain()?.enclosed_area().abs()),
        }
    }

    /// Both faces of a line that is `2 half` metres thick, left then right, corner by corner; sharp
    /// corners are cut off. `None` unless it is a line with a length.
    #[must_use]
    pub fn faces(&self, half: f64) -> Option<[Vec<Point>; 2]> {
        let Self::Line(_) = self else { return None };
        let sides: Vec<Piece> = self.sides().collect();
        let (first, last) = (sides.first()?, sides.last()?);
        let square = |piece: &Piece| piece.start_direction().left().unit();
        let mut across = vec![(first.start(), square(first))];
        for pair in sides.windows(2) {
            let both = square(&pair[0]) + square(&pair[1]);
            // Square to the line that halves the corner, and as long as the faces need to meet.
            let miter = both * (2.0 / both.dot(both));
            let reach = miter.length();
            let way = if reach.is_finite() && reach < MITRE {
                miter
            } else {
                square(&pair[1])
            };
            across.push((pair[1].start(), way));
        }
        across.push((last.end(), square(last)));
        let face = |side: f64| across.iter().map(|(at, way)| *at + *way * side).collect();
        Some([face(half), face(-half)])
    }
}

impl Obstacle {
    /// A gate's hinge post and latch post.
    #[must_use]
    pub fn posts(&self) -> Option<[Point; 2]> {
        match (self.kind, &self.extent) {
            (ObstacleKind::Gate, Extent::Line(posts)) => Some([*posts.first()?, *posts.get(1)?]),
            _ => None,
        }
    }

    /// Where the latch end of a gate's leaf comes to when it is opened as far as it goes.
    #[must_use]
    pub fn opened(&self) -> Option<Point> {
        let ([hinge, latch], angle) = (self.posts()?, self.turn()?);
        Some(hinge + turned(latch - hinge, angle))
    }

    /// The arcs that the latch end of a gate's leaf draws as it opens, none longer than a half turn.
    #[must_use]
    pub fn swept(&self) -> Vec<Piece> {
        let (Some([hinge, latch]), Some(angle)) = (self.posts(), self.turn()) else {
            return Vec::new();
        };
        let leaf = latch - hinge;
        let parts = (angle.abs() / PI).ceil().max(1.0);
        let step = angle / parts;
        // To the left about the hinge, the apex lies right of the chord.
        let rise = -leaf.length() * (1.0 - (0.5 * step).cos()) * step.signum();
        let mut arcs = Vec::new();
        let mut done = 0.0;
        while done < parts {
            let end = |nth: f64| hinge + turned(leaf, step * nth);
            arcs.extend(
                Arc::from_rise(end(done), end(done + 1.0), rise)
                    .ok()
                    .map(Piece::Arc),
            );
            done += 1.0;
        }
        arcs
    }

    /// How far a gate turns, in radians, to the left above zero.
    fn turn(&self) -> Option<f64> {
        let swing = self.swing?;
        Some(match swing.to {
            Side::Left => swing.angle,
            Side::Right => -swing.angle,
        })
    }

    /// The circle in which the roots of a tree are taken to lie: its middle and radius.
    #[must_use]
    pub fn root_circle(&self, rule: RootRule) -> Option<(Point, f64)> {
        match &self.extent {
            Extent::Round { centre, .. } => Some((*centre, self.root_radius(rule)?)),
            _ => None,
        }
    }
}

fn turned(way: Vector, angle: f64) -> Vector {
    let (sine, cosine) = angle.sin_cos();
    way * cosine + way.left() * sine
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::{Corner, Swing};

    fn at(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    #[track_caller]
    fn near(actual: Point, x: f64, y: f64) {
        assert!(actual.distance(at(x, y)) < 1e-9, "{actual:?} for {x}, {y}");
    }

    #[test]
    fn the_faces_of_a_wall_meet_in_its_corners() {
        let wall = Extent::Line(vec![at(0., 0.), at(4., 0.), at(4., 3.)]);
        let [left, right] = wall.faces(0.1).unwrap();
        for (actual, (x, y)) in left.iter().zip([(0., 0.1), (3.9, 0.1), (3.9, 3.)]) {
            near(*actual, x, y);
        }
        for (actual, (x, y)) in right.iter().zip([(0., -0.1), (4.1, -0.1), (4.1, 3.)]) {
            near(*actual, x, y);
        }
    }

    #[test]
    fn a_wall_that_turns_back_on_itself_has_faces_within_its_mitre() {
        let wall = Extent::Line(vec![at(0., 0.), at(4., 0.), at(0., 0.001)]);
        for face in wall.faces(0.1).unwrap() {
            assert!(face.iter().all(|p| p.is_finite() && p.x < 4.5));
        }
    }

    #[test]
    fn a_gate_opens_to_its_side() {
        for (to, x, y) in [(Side::Left, 0., 1.), (Side::Right, 0., -1.)] {
            let mut gate = Obstacle::new(
                "gate",
                ObstacleKind::Gate,
                Extent::Line(vec![at(0., 0.), at(1., 0.)]),
            );
            assert!(gate.opened().is_none() && gate.swept().is_empty());
            gate.swing = Some(Swing {
                to,
                angle: 0.5 * PI,
            });
            near(gate.opened().unwrap(), x, y);
            let arcs = gate.swept();
            near(arcs[0].start(), 1., 0.);
            near(arcs[0].end(), x, y);
            near(arcs[0].arc().unwrap().centre(), 0., 0.);
            gate.swing = Some(Swing { to, angle: 6.0 });
            let arcs = gate.swept();
            let turned: f64 = arcs.iter().map(|arc| arc.sweep().abs()).sum();
            assert!((turned - 6.0).abs() < 1e-9, "{turned}");
        }
    }

    #[test]
    fn a_quick_box_holds_every_bent_side() {
        for rise in [0.1, 0.9, -3.0, 40.0] {
            let corner = |x, y, rise| Corner { at: at(x, y), rise };
            let pond = Extent::Curved(vec![
                corner(0., 0., rise),
                corner(2., 0., 0.),
                corner(1., 2., 0.),
            ]);
            let room = pond.room().unwrap();
            for side in pond.sides() {
                let bounds = side.bounds();
                assert!(room.holds(bounds.low) && room.holds(bounds.high), "{rise}");
            }
        }
    }
}

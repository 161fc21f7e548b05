//! How much of a closed chain lies in a circle: the share of a root zone that a path covers.

use std::f64::consts::PI;

use crate::{Arc, Chain, Piece, Point, meetings};

impl Chain {
    /// The area in square metres that a closed chain shares with a circle, exact with arcs; zero
    /// for an open chain or a circle of no size. The chain must not cross itself.
    ///
    /// The border of what both share consists of the parts of the chain in the circle and the parts
    /// of the circle in the chain; its area is the sum of what each of them sweeps about the centre.
    /// Source: geometry (Green's theorem).
    ///
    /// ```
    /// use geometry::{Chain, Line, Piece, Point};
    /// let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)].map(|(x, y)| Point::new(x, y));
    /// let sides = (0..4).map(|i| Line::new(corners[i], corners[(i + 1) % 4]).map(Piece::Line));
    /// let bed = Chain::new(sides.collect::<Result<_, _>>()?, true)?;
    /// // A quarter of the circle about a corner.
    /// let shared = bed.area_in_circle(Point::ORIGIN, 2.0);
    /// assert!((shared - std::f64::consts::PI).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn area_in_circle(&self, centre: Point, radius: f64) -> f64 {
        let reach = crate::Bounds::of(centre).grown(radius);
        if !self.is_closed() || !self.bounds().meets(reach) {
            return 0.0;
        }
        let (west, east) = (
            Point::new(centre.x - radius, centre.y),
            Point::new(centre.x + radius, centre.y),
        );
        // Both halves of the circle, turning left about the centre.
        let halves = [(east, west), (west, east)]
            .map(|(from, to)| Arc::from_rise(from, to, -radius).map(Piece::Arc));
        let [Ok(upper), Ok(lower)] = halves else {
            return 0.0;
        };
        let mut turns: Vec<f64> = vec![0.0, PI, 2.0 * PI];
        let mut swept = 0.0;
        for piece in self.pieces() {
            let length = piece.length();
            let mut cuts = vec![0.0, length];
            if piece.bounds().meets(reach) {
                for half in [&upper, &lower] {
                    for point in meetings(piece, half, 0.0) {
                        let turn = (point - centre).angle();
                        turns.push(if turn < 0.0 { turn + 2.0 * PI } else { turn });
                        cuts.push(piece.along(point).clamp(0.0, length));
                    }
                }
            }
            cuts.sort_by(f64::total_cmp);
            for pair in cuts.windows(2) {
                let middle = piece.point_at(0.5 * (pair[0] + pair[1]));
                if middle.distance(centre) < radius {
                    swept += swept_about(centre, piece, pair[0], pair[1]);
                }
            }
        }
        // Walked to the right round its ground, the chain sweeps it backwards.
        if self.enclosed_area() < 0.0 {
            swept = -swept;
        }
        turns.sort_by(f64::total_cmp);
        for pair in turns.windows(2) {
            let (sin, cos) = (0.5 * (pair[0] + pair[1])).sin_cos();
            let middle = Point::new(centre.x + radius * cos, centre.y + radius * sin);
            if self.contains(middle) {
                swept += 0.5 * radius * radius * (pair[1] - pair[0]);
            }
        }
        swept.max(0.0)
    }
}

/// The area that the line from `centre` to a point on a piece sweeps as the point walks along it.
fn swept_about(centre: Point, piece: &Piece, from: f64, to: f64) -> f64 {
    let Some(part) = piece.between(from, to) else {
        return 0.0;
    };
    let (start, end) = (part.start() - centre, part.end() - centre);
    0.5 * start.cross(end) + part.arc().map_or(0.0, Arc::signed_segment_area)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Line;

    fn ring(corners: &[(f64, f64)]) -> Chain {
        let next = corners.iter().cycle().skip(1);
        let side = |(from, to): (&(f64, f64), &(f64, f64))| {
            let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
            Piece::Line(Line::new(from, to).unwrap())
        };
        Chain::new(corners.iter().zip(next).map(side).collect(), true).unwrap()
    }

    #[track_caller]
    fn check(chain: &Chain, (x, y, radius): (f64, f64, f64), expected: f64) {
        for chain in [chain.clone(), chain.reversed()] {
            let shared = chain.area_in_circle(Point::new(x, y), radius);
            assert!((shared - expected).abs() < 1e-9, "{shared} for {expected}");
        }
    }

    #[test]
    fn a_square_and_circles() {
        let square = ring(&[(0., 0.), (4., 0.), (4., 4.), (0., 4.)]);
        check(&square, (2., 2., 1.), PI);
        check(&square, (2., 2., 9.), 16.0);
        check(&square, (9., 9., 1.), 0.0);
        check(&square, (0., 2., 1.), 0.5 * PI);
        // A strip across the middle of a circle. Source: segment of a circle, area for height 0.25
        // of diameter 1 is .153546 (check of the table in 19th-century mensuration, from memory).
        let strip = ring(&[(-9., -0.25), (9., -0.25), (9., 0.25), (-9., 0.25)]);
        let expected = 0.25 * PI - 2.0 * 0.153_546_21;
        let shared = strip.area_in_circle(Point::ORIGIN, 0.5);
        assert!((shared - expected).abs() < 1e-7, "{shared}");
    }

    #[test]
    fn two_circles_share_a_lens() {
        // Two circles of radius 1 a radius apart share 2π/3 − √3/2. Source: geometry (vesica piscis).
        let half = |from, to| {
            let point = |(x, y)| Point::new(x, y);
            Piece::Arc(Arc::from_rise(point(from), point(to), -1.0).unwrap())
        };
        let round = Chain::new(
            vec![half((1., 0.), (-1., 0.)), half((-1., 0.), (1., 0.))],
            true,
        );
        check(
            &round.unwrap(),
            (1., 0., 1.),
            2.0 * PI / 3.0 - 0.75f64.sqrt(),
        );
    }
}

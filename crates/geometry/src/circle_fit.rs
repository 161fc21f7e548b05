//! The circle nearest to measured points: least squares of the distances square to it.

mod curve;

use std::fmt;

use crate::point::{Point, Vector};
use curve::{Curve, count, solved};

/// The circle with the least sum of squared distances from the points, and how well it is known.
///
/// Starts from the algebraic fit of G. Taubin (1991) and refines it by damped Gauss-Newton steps in
/// curvature, direction and distance at a point among the points, after N. Chernov and C. Lesort,
/// *Least squares fitting of circles* (2005): there a circle passes smoothly into a straight, so
/// flat bends keep their digits and a straight is told from a circle. (Both from memory.)
///
/// # Errors
///
/// If a coordinate is not finite, fewer than three points differ, or no circle is nearer to the
/// points than a straight line.
///
/// ```
/// use geometry::{Point, circle_from_points};
/// let at = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)].map(|(x, y)| Point::new(x, y));
/// let fit = circle_from_points(&at)?;
/// assert!((fit.radius - 1.0).abs() < 1e-14);
/// assert!(fit.standard_errors.is_none()); // three points say nothing of their own errors
/// assert!(circle_from_points(&at[..2]).is_err());
/// # Ok::<(), geometry::CircleFitError>(())
/// ```
pub fn circle_from_points(points: &[Point]) -> Result<CircleFit, CircleFitError> {
    if let Some(index) = points.iter().position(|point| !point.is_finite()) {
        return Err(CircleFitError::NotFinite { index });
    }
    check_distinct(points)?;
    let frame = Frame::of(points);
    let places: Vec<Vector> = points.iter().map(|&point| frame.scaled(point)).collect();

    let straight = Curve::straight_through(&places);
    let straight_squares = straight.sum_of_squares(&places);
    let is_nearer = |squares: f64| squares < straight_squares;
    let (mut curve, mut squares) = Curve::taubin(&places).refined(&places);
    if !is_nearer(squares) {
        (curve, squares) = straight.refined(&places); // the start was no good: bend the straight
    }
    let is_bowed = curve.curvature.abs() * frame.unit > ROUNDINGS * frame.rounding;
    if !(is_bowed && is_nearer(squares)) {
        return Err(CircleFitError::InLine);
    }
    let centre = curve.centre();
    Ok(CircleFit {
        centre: frame.point(centre),
        radius: frame.unit / curve.curvature.abs(),
        sum_of_squares: squares * frame.unit * frame.unit,
        standard_errors: standard_errors(&curve, &places, squares, frame.unit),
    })
}

/// A circle fitted to points, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CircleFit {
    /// The centre.
    pub centre: Point,
    /// The radius, above zero.
    pub radius: f64,
    /// Sum of the squared distances of the points from the circle, square metres.
    pub sum_of_squares: f64,
    /// One standard deviation of each unknown, from how well the points agree; `None` for three.
    pub standard_errors: Option<CircleErrors>,
}

impl CircleFit {
    /// How far a point lies outside the circle, metres; negative inside.
    #[must_use]
    pub fn distance_outside(&self, point: Point) -> f64 {
        (point - self.centre).length() - self.radius
    }
}

/// Standard errors of a fitted circle, metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CircleErrors {
    /// Of the centre, east.
    pub centre_x: f64,
    /// Of the centre, north.
    pub centre_y: f64,
    /// Of the radius.
    pub radius: f64,
    /// Of one point's distance from the circle.
    pub point: f64,
}

/// Why points make no circle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CircleFitError {
    /// A coordinate is not a finite number.
    NotFinite {
        /// Which point, counted from 0.
        index: usize,
    },
    /// Fewer than three points differ.
    TooFew {
        /// How many do, 0 to 2.
        distinct: usize,
    },
    /// A straight line fits as well as any circle.
    InLine,
}

impl fmt::Display for CircleFitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotFinite { index } => {
                write!(
                    f,
                    "point {} has a coordinate that is no number: measure it again",
                    index + 1
                )
            }
            Self::TooFew { distinct } => write!(
                f,
                "{distinct} different points make no circle: give at least three, well apart"
            ),
            Self::InLine => f.write_str(
                "the points lie along a straight line: a circle needs points that bow to one side",
            ),
        }
    }
}

impl std::error::Error for CircleFitError {}

/// Roundings of a coordinate that the points must bow by, to tell a circle from a straight.
const ROUNDINGS: f64 = 16.0;

fn check_distinct(points: &[Point]) -> Result<(), CircleFitError> {
    let differ = |a: Point, b: Point| a.distance(b) > crate::SAME_PLACE;
    let Some(&first) = points.first() else {
        return Err(CircleFitError::TooFew { distinct: 0 });
    };
    let Some(&second) = points.iter().find(|&&point| differ(point, first)) else {
        return Err(CircleFitError::TooFew { distinct: 1 });
    };
    if points
        .iter()
        .any(|&point| differ(point, first) && differ(point, second))
    {
        Ok(())
    } else {
        Err(CircleFitError::TooFew { distinct: 2 })
    }
}

/// Coordinates about the points' own middle, in units of their spread, so that neither their
/// distance from the plan's origin nor their size costs digits.
struct Frame {
    middle: Point,
    /// Root mean square distance from the middle, metres.
    unit: f64,
    /// Rounding of the coordinates as given, metres.
    rounding: f64,
}

impl Frame {
    /// `points` are finite and at least two differ.
    fn of(points: &[Point]) -> Self {
        let share = 1.0 / count(points.len());
        let origin = points.first().copied().unwrap_or_default();
        let middle = points
            .iter()
            .fold(origin, |middle, &point| middle + (point - origin) * share);
        let greatest = points
            .iter()
            .map(|&point| (point - middle).length())
            .fold(0.0, f64::max);
        let squares: f64 = points
            .iter()
            .map(|&point| (point - middle).length() / greatest)
            .map(|ratio| ratio * ratio * share)
            .sum();
        let unit = greatest * squares.sqrt();
        let farthest = middle.x.abs().max(middle.y.abs()) + greatest;
        Self {
            middle,
            unit,
            rounding: farthest * f64::EPSILON,
        }
    }

    fn scaled(&self, point: Point) -> Vector {
        (point - self.middle) / self.unit
    }

    fn point(&self, place: Vector) -> Point {
        self.middle + place * self.unit
    }
}

fn standard_errors(
    curve: &Curve,
    places: &[Vector],
    squares: f64,
    unit: f64,
) -> Option<CircleErrors> {
    let spare = places.len().checked_sub(3).filter(|&spare| spare > 0)?;
    let (matrix, _) = curve.normal_equations(places);
    let inverse = [
        solved(&matrix, [1.0, 0.0, 0.0])?,
        solved(&matrix, [0.0, 1.0, 0.0])?,
        solved(&matrix, [0.0, 0.0, 1.0])?,
    ];
    let point = (squares / count(spare)).sqrt() * unit;
    let error = |by: [f64; 3]| {
        let mut variance = 0.0;
        for (row, a) in inverse.iter().zip(by) {
            for (element, b) in row.iter().zip(by) {
                variance += a * element * b;
            }
        }
        point * variance.max(0.0).sqrt()
    };
    // centre = origin - reach n, reach = e / c, e² = 1 + 2 c offset
    let (c, e) = (curve.curvature, curve.scale_of_normal());
    let (sine, cosine) = curve.normal.sin_cos();
    let reach = e / c;
    let reach_by = [curve.offset / (e * c) - e / (c * c), 1.0 / e]; // by curvature and offset
    Some(CircleErrors {
        centre_x: error([-reach_by[0] * cosine, reach * sine, -reach_by[1] * cosine]),
        centre_y: error([-reach_by[0] * sine, -reach * cosine, -reach_by[1] * sine]),
        radius: error([1.0 / (c * c), 0.0, 0.0]),
        point,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn on_circle(centre: Point, radius: f64, angles: &[f64]) -> Vec<Point> {
        angles
            .iter()
            .map(|a| centre + Vector::new(a.cos(), a.sin()) * radius)
            .collect()
    }

    #[test]
    fn points_on_a_circle_give_it_back() {
        for (centre, radius, angles, tolerance) in [
            (
                Point::new(0.0, 0.0),
                1.0,
                [0.0, 1.0, 2.0, 3.0, 4.0, 5.0],
                1e-14,
            ),
            (
                Point::new(3.0, -2.0),
                5.0,
                [1.4, 1.45, 1.5, 1.55, 1.6, 1.7],
                1e-11,
            ),
            // rounding of coordinates 100 km out is 7e-12 m; the arc bows 1.2 m
            (
                Point::new(9e4, -9e4),
                10.0,
                [0.0, 0.2, 0.4, 0.6, 0.8, 1.0],
                1e-9,
            ),
            (
                Point::new(1.0, 1.0),
                1e-3,
                [0.0, 1.0, 2.0, 3.0, 4.0, 5.0],
                1e-11,
            ),
        ] {
            let fit = circle_from_points(&on_circle(centre, radius, &angles)).unwrap();
            assert_relative_eq!(fit.radius, radius, max_relative = tolerance);
            assert!(fit.centre.distance(centre) < radius * tolerance, "{fit:?}");
        }
    }

    #[test]
    fn scattered_points_are_fitted_to_the_last_digits() {
        // The least sum of squares found to 40 digits. The sum alone shows only half of a number's
        // digits at its least, so a fit that goes by it stops near 1e-8.
        let points = [
            (6.03, 0.0),
            (5.73, 1.77),
            (4.91, 3.36),
            (3.75, 4.73),
            (2.18, 5.61),
            (0.42, 5.97),
        ]
        .map(|(x, y)| Point::new(x, y));
        let fit = circle_from_points(&points).unwrap();
        assert_relative_eq!(fit.radius, 6.045_390_681_654_92, max_relative = 1e-12);
        assert_relative_eq!(
            fit.centre.x,
            -0.031_344_759_538_671_59,
            max_relative = 1e-10
        );
        assert_relative_eq!(
            fit.centre.y,
            -0.037_927_517_115_992_99,
            max_relative = 1e-10
        );
        assert_relative_eq!(
            fit.sum_of_squares,
            0.005_079_643_084_138_62,
            max_relative = 1e-12
        );
    }

    #[test]
    fn a_very_flat_bend_is_still_a_circle() {
        // rise 50 nm over a chord of 1 m: the coordinates hold nine digits of it
        let radius = 2.5e6;
        let points: Vec<Point> = [-0.5_f64, -0.2, 0.1, 0.3, 0.5]
            .map(|x| Point::new(x, x * x / (radius + (radius * radius - x * x).sqrt())))
            .to_vec();
        let fit = circle_from_points(&points).unwrap();
        assert_relative_eq!(fit.radius, radius, max_relative = 1e-8);
    }

    #[test]
    fn what_makes_no_circle_is_refused() {
        let check = |points: &[(f64, f64)], expected| {
            let points: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
            assert_eq!(circle_from_points(&points), Err(expected));
        };
        check(&[], CircleFitError::TooFew { distinct: 0 });
        check(&[(1.0, 1.0); 4], CircleFitError::TooFew { distinct: 1 });
        check(
            &[(1.0, 1.0), (2.0, 1.0), (1.0, 1.0)],
            CircleFitError::TooFew { distinct: 2 },
        );
        check(
            &[(0.0, 0.0), (1.0, f64::NAN), (2.0, 0.0)],
            CircleFitError::NotFinite { index: 1 },
        );
        check(
            &[(0.0, 0.0), (0.1, 0.3), (0.2, 0.6), (0.7, 2.1)],
            CircleFitError::InLine,
        );
        check(
            &[(1e5, 1e5), (1e5 + 0.1, 1e5 + 0.3), (1e5 + 0.3, 1e5 + 0.9)],
            CircleFitError::InLine,
        );
        // to and fro about a line, as much on one side as on the other
        check(
            &[
                (0.0, 0.1),
                (1.0, -0.1),
                (2.0, 0.1),
                (5.0, 0.1),
                (6.0, -0.1),
                (7.0, 0.1),
            ]
            .map(|(x, y)| (x, y * (x - 3.5))),
            CircleFitError::InLine,
        );
    }
}

//! How far a spot may stand from where the plan has it.

use geometry::{Direction, Vector};

use super::moves::Sway;

/// An ellipse of so many standard deviations holds 95 of 100 spots: `√(−2 ln 0.05)`.
pub const ELLIPSE: f64 = 2.447_746_830_680_816;

/// So many standard deviations to each side hold 95 of 100 lengths.
pub const SIDES: f64 = 1.959_963_984_540_054;

/// The error of a spot, in metres and square metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpotError {
    /// Where it will stand for what is known: rounding, slope, sag.
    pub shift: Vector,
    /// The variance eastwards.
    pub east: f64,
    /// The variance northwards.
    pub north: f64,
    /// The covariance of both.
    pub both: f64,
}

/// An ellipse about a spot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ellipse {
    /// Its longer semi-axis, in metres.
    pub long: f64,
    /// Its shorter semi-axis.
    pub short: f64,
    /// Which way the longer lies.
    pub direction: Direction,
}

impl SpotError {
    pub(super) fn new(sway: &Sway) -> Self {
        Self {
            shift: Vector::new(sway.east.shift, sway.north.shift),
            east: sway.east.covariance(&sway.east),
            north: sway.north.covariance(&sway.north),
            both: sway.east.covariance(&sway.north),
        }
    }

    /// The standard deviation along a direction, in metres.
    #[must_use]
    pub fn along(&self, way: Direction) -> f64 {
        let Vector { x, y } = way.unit();
        let variance = x * x * self.east + 2.0 * x * y * self.both + y * y * self.north;
        variance.max(0.0).sqrt()
    }

    /// The standard deviation square to a direction, in metres.
    #[must_use]
    pub fn across(&self, way: Direction) -> f64 {
        self.along(way.left())
    }

    /// The standard deviation of the place as a whole: the root of the sum of both variances.
    #[must_use]
    pub fn place(&self) -> f64 {
        (self.east + self.north).sqrt()
    }

    /// The ellipse about the shifted spot that holds 95 of 100.
    #[must_use]
    pub fn ellipse(&self) -> Ellipse {
        // The axes of a symmetric 2 × 2 matrix, by the double angle of the longer.
        let (half_sum, half_difference) = (
            0.5 * (self.east + self.north),
            0.5 * (self.east - self.north),
        );
        let apart = half_difference.hypot(self.both);
        let semi_axis = |variance: f64| ELLIPSE * variance.max(0.0).sqrt();
        let angle = 0.5 * self.both.atan2(half_difference);
        Ellipse {
            long: semi_axis(half_sum + apart),
            short: semi_axis(half_sum - apart),
            direction: Direction::EAST.turned(angle),
        }
    }
}

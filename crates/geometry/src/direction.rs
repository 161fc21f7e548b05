//! Directions: which way one faces.

use crate::{Vector, angle};

/// A direction in the plan, kept as a vector of length one so that square and opposite are exact.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direction {
    unit: Vector,
}

impl Direction {
    /// Due east, angle 0.
    pub const EAST: Self = Self {
        unit: Vector::new(1.0, 0.0),
    };
    /// Due north, angle π/2.
    pub const NORTH: Self = Self {
        unit: Vector::new(0.0, 1.0),
    };

    /// The direction of a vector; `None` when it has no length or is not finite.
    ///
    /// ```
    /// use geometry::{Direction, Vector};
    /// assert_eq!(Direction::of(Vector::new(0.0, 2.5)), Some(Direction::NORTH));
    /// assert_eq!(Direction::of(Vector::ZERO), None);
    /// ```
    #[must_use]
    pub fn of(vector: Vector) -> Option<Self> {
        let length = vector.length();
        let unit = vector / length;
        (length > 0.0 && length.is_finite() && unit.is_finite()).then_some(Self { unit })
    }

    /// The direction at an angle, counter-clockwise from east; `None` when it is not finite.
    #[must_use]
    pub fn at_angle(angle: f64) -> Option<Self> {
        let (sine, cosine) = angle.sin_cos();
        angle.is_finite().then_some(Self {
            unit: Vector::new(cosine, sine),
        })
    }

    /// The vector of length one.
    #[must_use]
    pub fn unit(self) -> Vector {
        self.unit
    }

    /// The angle counter-clockwise from east, −π to π.
    #[must_use]
    pub fn angle(self) -> f64 {
        self.unit.angle()
    }

    /// Square to it, on the left.
    #[must_use]
    pub fn left(self) -> Self {
        Self {
            unit: self.unit.left(),
        }
    }

    /// The opposite way.
    #[must_use]
    pub fn reversed(self) -> Self {
        Self { unit: -self.unit }
    }

    /// Turned left by `turn` radians (right when negative); `turn` must be finite.
    #[must_use]
    pub fn turned(self, turn: f64) -> Self {
        let (sine, cosine) = turn.sin_cos();
        let unit = self.unit * cosine + self.unit.left() * sine;
        Self { unit }
    }

    /// Turned left by the angle of this cosine and sine.
    #[must_use]
    pub(crate) fn turned_by(self, cosine: f64, sine: f64) -> Self {
        Self {
            unit: self.unit * cosine + self.unit.left() * sine,
        }
    }

    /// How far one turns from this direction to another: positive to the left, −π to π.
    #[must_use]
    pub fn turn_to(self, other: Self) -> f64 {
        angle::signed(self.unit.cross(other.unit).atan2(self.unit.dot(other.unit)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn turning_there_and_back() {
        let there = Direction::EAST.turned(2.0);
        assert!((Direction::EAST.turn_to(there) - 2.0).abs() < 1e-15);
        assert!((there.turn_to(Direction::EAST) + 2.0).abs() < 1e-15);
        assert!((Direction::EAST.turn_to(Direction::EAST.reversed()).abs() - PI).abs() < 1e-15);
    }

    #[test]
    fn nothing_points_nowhere() {
        assert_eq!(Direction::of(Vector::new(f64::NAN, 1.0)), None);
        assert_eq!(Direction::at_angle(f64::INFINITY), None);
    }
}

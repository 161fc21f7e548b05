//! Points and vectors: places, and the ways between them.

use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// A place in the plan: metres east and north of the plan's origin.
///
/// Point − point is a [`Vector`]; point + vector is a point. Adding two points, or scaling one, means
/// nothing and does not exist.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// Metres east.
    pub x: f64,
    /// Metres north.
    pub y: f64,
}

/// A way from one place to another: metres east and north.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vector {
    /// Metres east.
    pub x: f64,
    /// Metres north.
    pub y: f64,
}

impl Point {
    /// The origin of the plan.
    pub const ORIGIN: Self = Self { x: 0.0, y: 0.0 };

    /// The place `x` metres east and `y` metres north.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Whether both coordinates are finite numbers.
    #[must_use]
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }

    /// The distance to another place, in metres, never negative.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The place halfway to another.
    #[must_use]
    pub fn middle(self, other: Self) -> Self {
        self + (other - self) * 0.5
    }

    /// The place `share` of the way to another: 0 here, 1 there.
    #[must_use]
    pub fn towards(self, other: Self, share: f64) -> Self {
        self + (other - self) * share
    }
}

impl Vector {
    /// No way at all.
    pub const ZERO: Self = Self { x: 0.0, y: 0.0 };

    /// The way `x` metres east and `y` metres north.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Whether both components are finite numbers.
    #[must_use]
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }

    /// Its length in metres.
    #[must_use]
    pub fn length(self) -> f64 {
        self.square().sqrt()
    }

    /// Its length squared: enough to compare by, and cheaper.
    pub(crate) fn square(self) -> f64 {
        self.x * self.x + self.y * self.y
    }

    /// The scalar product.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The cross product: positive when `other` lies to the left of `self`.
    #[must_use]
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// The same length, a quarter turn to the left.
    #[must_use]
    pub fn left(self) -> Self {
        Self::new(-self.y, self.x)
    }

    /// The angle counter-clockwise from east, −π to π.
    #[must_use]
    pub fn angle(self) -> f64 {
        self.y.atan2(self.x)
    }
}

impl Sub for Point {
    type Output = Vector;
    fn sub(self, other: Self) -> Vector {
        Vector::new(self.x - other.x, self.y - other.y)
    }
}

impl Add<Vector> for Point {
    type Output = Self;
    fn add(self, way: Vector) -> Self {
        Self::new(self.x + way.x, self.y + way.y)
    }
}

impl Sub<Vector> for Point {
    type Output = Self;
    fn sub(self, way: Vector) -> Self {
        Self::new(self.x - way.x, self.y - way.y)
    }
}

impl AddAssign<Vector> for Point {
    fn add_assign(&mut self, way: Vector) {
        *self = *self + way;
    }
}

impl SubAssign<Vector> for Point {
    fn sub_assign(&mut self, way: Vector) {
        *self = *self - way;
    }
}

impl Add for Vector {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Vector {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl Neg for Vector {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y)
    }
}

impl Mul<f64> for Vector {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.x * factor, self.y * factor)
    }
}

impl Div<f64> for Vector {
    type Output = Self;
    fn div(self, divisor: f64) -> Self {
        Self::new(self.x / divisor, self.y / divisor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn left_is_a_quarter_turn_counter_clockwise() {
        assert_eq!(Vector::new(1.0, 0.0).left(), Vector::new(0.0, 1.0));
        assert!(Vector::new(1.0, 0.0).cross(Vector::new(1.0, 1.0)) > 0.0);
    }

    #[test]
    fn the_middle_of_far_points_is_exact() {
        let middle = Point::new(500_000.0, 0.0).middle(Point::new(500_000.5, 1.0));
        assert_eq!(middle, Point::new(500_000.25, 0.5));
    }
}

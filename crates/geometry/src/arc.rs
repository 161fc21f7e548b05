//! A circular bend in its place: an arc from one end peg to the other.

use std::f64::consts::{PI, TAU};
use std::fmt;

use crate::frame::Frame;
use crate::{Bend, Bounds, Direction, Piece, Point, Vector, angle};

/// A circular arc shorter than a full turn, walked from `start` to `end`.
///
/// It is kept as its two end pegs and its signed rise, not as centre and radius: on a flat bend the
/// centre may be a million kilometres off, where a coordinate has no millimetres left. Everything
/// below is computed from the chord and the rise, so nothing is lost on flat bends.
///
/// The rise is positive when the apex lies left of the chord as one walks: the path turns right,
/// and [`Arc::sweep`] is negative.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    start: Point,
    end: Point,
    rise: f64,
    /// The distance between the ends, which nearly every figure asks for.
    chord: f64,
}

/// Why there is no arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ArcError {
    /// A number is not finite.
    NotFinite,
    /// Both ends are the same point.
    NoChord,
    /// The rise is so small beside the chord that the bend is a straight.
    Straight,
    /// The radius is not above zero.
    Radius(f64),
    /// The end lies straight behind the start, so that the bend would have to double back.
    DoublesBack,
    /// The ends are not equally far from the centre: the two distances.
    NotOneRadius(f64, f64),
}

impl fmt::Display for ArcError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotFinite => f.write_str("a number of the bend is not finite"),
            Self::NoChord => {
                f.write_str("both ends of the bend are the same point: move one of them")
            }
            Self::Straight => f.write_str("the bend has no rise: it is a straight"),
            Self::Radius(radius) => write!(f, "the radius must be above zero, it is {radius}"),
            Self::DoublesBack => f.write_str(
                "the end lies straight behind the start: a bend cannot leave one way and come back on itself",
            ),
            Self::NotOneRadius(first, second) => write!(
                f,
                "the ends lie {first} and {second} from the centre: they must be equally far"
            ),
        }
    }
}

impl std::error::Error for ArcError {}

impl Arc {
    /// Below this share of the chord a rise is no rise: on a 10 km chord it is a hundredth of a
    /// micrometre.
    pub const FLATTEST: f64 = 1e-12;

    /// How far, as a share of the radius, two distances from one centre may differ: a taped
    /// centre read to the nanometre passes, a slip of a tape does not.
    const RADIUS_AGREEMENT: f64 = 1e-9;

    /// The arc over the chord from `start` to `end` with a signed rise (positive: apex on the left).
    ///
    /// # Errors
    /// * [`ArcError::NotFinite`] unless all numbers are finite;
    /// * [`ArcError::NoChord`] if the ends are the same point;
    /// * [`ArcError::Straight`] if the rise is below [`Arc::FLATTEST`] of the chord.
    ///
    /// ```
    /// use geometry::{Arc, ArcError, Point};
    /// let (start, end) = (Point::new(0.0, 0.0), Point::new(6.0, 0.0));
    /// let arc = Arc::from_rise(start, end, -0.8)?;
    /// assert!((arc.apex() - Point::new(3.0, -0.8)).length() < 1e-12);
    /// assert!(arc.sweep() > 0.0); // apex on the right: it turns left
    /// assert_eq!(Arc::from_rise(start, start, 0.8), Err(ArcError::NoChord));
    /// # Ok::<(), ArcError>(())
    /// ```
    pub fn from_rise(start: Point, end: Point, rise: f64) -> Result<Self, ArcError> {
        if !(start.is_finite() && end.is_finite() && rise.is_finite()) {
            return Err(ArcError::NotFinite);
        }
        if start == end {
            return Err(ArcError::NoChord);
        }
        let chord = start.distance(end);
        if rise.abs() < Self::FLATTEST * chord {
            return Err(ArcError::Straight);
        }
        Ok(Self {
            start,
            end,
            rise,
            chord,
        })
    }

    /// The arc from `start` through `on` to `end`.
    ///
    /// # Errors
    /// * [`ArcError::NotFinite`], [`ArcError::NoChord`] as [`Arc::from_rise`];
    /// * [`ArcError::Straight`] if the three points lie in a line.
    pub fn through(start: Point, on: Point, end: Point) -> Result<Self, ArcError> {
        if !(start.is_finite() && on.is_finite() && end.is_finite()) {
            return Err(ArcError::NotFinite);
        }
        let along = Direction::of(end - start).ok_or(ArcError::NoChord)?.unit();
        let half = 0.5 * start.distance(end);
        let from_middle = on - start.middle(end);
        let (x, y) = (along.dot(from_middle), along.left().dot(from_middle));
        if y.abs() < Self::FLATTEST * half {
            return Err(ArcError::Straight);
        }
        // Circle through (±half, 0) and (x, |y|) in the frame of the chord.
        let y_up = y.abs();
        let apothem = ((half - x) * (half + x) - y * y) / (2.0 * y_up);
        let radius = apothem.hypot(half);
        let rise = if apothem > 0.0 {
            half * half / (radius + apothem)
        } else {
            radius - apothem
        };
        Self::from_rise(start, end, rise.copysign(y))
    }

    /// The arc about `centre` from `start` to `end`, turning left or right.
    ///
    /// # Errors
    /// * [`ArcError::NotFinite`], [`ArcError::NoChord`] as [`Arc::from_rise`];
    /// * [`ArcError::Radius`] if a point is the centre;
    /// * [`ArcError::NotOneRadius`] if the ends are not equally far from the centre.
    pub fn about(centre: Point, start: Point, end: Point, left: bool) -> Result<Self, ArcError> {
        let (from, to) = (start - centre, end - centre);
        let (first, second) = (from.length(), to.length());
        if !(first.is_finite() && second.is_finite()) {
            return Err(ArcError::NotFinite);
        }
        if first.min(second) <= 0.0 {
            return Err(ArcError::Radius(0.0));
        }
        if (first - second).abs() > Self::RADIUS_AGREEMENT * first.max(second) {
            return Err(ArcError::NotOneRadius(first, second));
        }
        if start == end {
            return Err(ArcError::NoChord);
        }
        let turn = from.cross(to).atan2(from.dot(to));
        let sweep = angle::positive(if left { turn } else { -turn });
        let rise = 0.5 * start.distance(end) * (0.25 * sweep).tan();
        Self::from_rise(start, end, if left { -rise } else { rise })
    }

    /// The arc that leaves `start` in the direction `heading` and ends at `end`.
    ///
    /// # Errors
    /// * [`ArcError::NotFinite`], [`ArcError::NoChord`] as [`Arc::from_rise`];
    /// * [`ArcError::Straight`] if the end lies straight ahead;
    /// * [`ArcError::DoublesBack`] if the end lies straight behind.
    ///
    /// ```
    /// use geometry::{Arc, Direction, Point};
    /// let arc = Arc::leaving(Point::ORIGIN, Direction::EAST, Point::new(3.0, 3.0))?;
    /// assert!((arc.radius() - 3.0).abs() < 1e-12);
    /// # Ok::<(), geometry::ArcError>(())
    /// ```
    pub fn leaving(start: Point, heading: Direction, end: Point) -> Result<Self, ArcError> {
        if !(start.is_finite() && end.is_finite()) {
            return Err(ArcError::NotFinite);
        }
        let chord = Direction::of(end - start).ok_or(ArcError::NoChord)?;
        // The chord turns half the sweep away from the tangent.
        let half_sweep = heading.turn_to(chord);
        if PI - half_sweep.abs() < crate::SAME_DIRECTION {
            return Err(ArcError::DoublesBack);
        }
        let rise = -0.5 * start.distance(end) * (0.5 * half_sweep).tan();
        Self::from_rise(start, end, rise)
    }

    /// The arc from `start` that arrives at `end` in the direction `heading`.
    ///
    /// # Errors
    /// As [`Arc::leaving`].
    pub fn arriving(start: Point, end: Point, heading: Direction) -> Result<Self, ArcError> {
        Self::leaving(end, heading.reversed(), start).map(|arc| arc.reversed())
    }

    /// The first end peg.
    #[must_use]
    pub fn start(&self) -> Point {
        self.start
    }

    /// The last end peg.
    #[must_use]
    pub fn end(&self) -> Point {
        self.end
    }

    /// The rise, positive when the apex lies left of the chord.
    #[must_use]
    pub fn rise(&self) -> f64 {
        self.rise
    }

    /// Whether one turns left in walking it.
    #[must_use]
    pub fn turns_left(&self) -> bool {
        self.rise < 0.0
    }

    /// The straight distance between the end pegs.
    #[must_use]
    pub fn chord(&self) -> f64 {
        self.chord
    }

    /// The size of the bend without its place, with all eight figures.
    #[must_use]
    pub fn bend(&self) -> Bend {
        Bend::of_arc(self.chord(), self.rise.abs())
    }

    /// The radius in metres.
    #[must_use]
    pub fn radius(&self) -> f64 {
        self.bend().radius()
    }

    /// The signed angle turned through, positive to the left, between −2π and 2π.
    #[must_use]
    pub fn sweep(&self) -> f64 {
        -4.0 * (2.0 * self.rise).atan2(self.chord())
    }

    /// The length along the arc.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.bend().arc_length()
    }

    /// The point farthest from the chord.
    #[must_use]
    pub fn apex(&self) -> Point {
        self.start.middle(self.end) + self.across() * self.rise
    }

    /// The centre: the swing point.
    #[must_use]
    pub fn centre(&self) -> Point {
        let apothem = self.bend().apothem() * self.rise.signum();
        self.start.middle(self.end) - self.across() * apothem
    }

    /// The direction walked at the start.
    #[must_use]
    pub fn start_direction(&self) -> Direction {
        let (cosine, sine) = self.half_turn();
        self.chord_direction().turned_by(cosine, -sine)
    }

    /// The direction walked at the end.
    #[must_use]
    pub fn end_direction(&self) -> Direction {
        let (cosine, sine) = self.half_turn();
        self.chord_direction().turned_by(cosine, sine)
    }

    /// Cosine and sine of half the sweep, from the tangent q of a quarter of it: no angle is taken.
    fn half_turn(&self) -> (f64, f64) {
        let q = -2.0 * self.rise / self.chord();
        let scale = 1.0 / (1.0 + q * q);
        ((1.0 - q) * (1.0 + q) * scale, 2.0 * q * scale)
    }

    /// The direction walked at `distance` metres from the start.
    #[must_use]
    pub fn direction_at(&self, distance: f64) -> Direction {
        let sweep = self.sweep();
        let turned = sweep * (distance / self.length());
        self.chord_direction().turned(turned - 0.5 * sweep)
    }

    /// The point `distance` metres along from the start; beyond the ends it runs on round the circle.
    #[must_use]
    pub fn point_at(&self, distance: f64) -> Point {
        let sweep = self.sweep();
        let share = distance / self.length();
        // From the nearer end, along the chord of the part arc: it stands half the part's turn off.
        let diameter = (2.0 * self.radius()).copysign(sweep);
        if share > 0.5 {
            let rest = sweep * (1.0 - share);
            let way = self.chord_direction().turned(0.5 * (sweep - rest));
            self.end - way.unit() * (diameter * (0.5 * rest).sin())
        } else {
            let part = sweep * share;
            let way = self.chord_direction().turned(0.5 * (part - sweep));
            self.start + way.unit() * (diameter * (0.5 * part).sin())
        }
    }

    /// How far along the arc a point lies, measured towards the centre: below zero before the
    /// start, above the length past the end; the far side of the circle is split halfway.
    #[must_use]
    pub fn along(&self, point: Point) -> f64 {
        let (x, up) = self.in_frame(point);
        let bend = self.bend();
        bend.radius() * x.atan2(up + bend.apothem()) + 0.5 * bend.arc_length()
    }

    /// How far a point lies from the full circle: positive outside, negative inside.
    #[must_use]
    pub fn outside(&self, point: Point) -> f64 {
        let (x, up) = self.in_frame(point);
        let bend = self.bend();
        let (half, apothem, radius) = (0.5 * bend.chord(), bend.apothem(), bend.radius());
        // (|p − centre|² − R²) / (|p − centre| + R), with R² − d² = (c/2)² taken out: no digits lost.
        ((x - half) * (x + half) + up * (up + 2.0 * apothem)) / (x.hypot(up + apothem) + radius)
    }

    /// The arc walked the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self {
            start: self.end,
            end: self.start,
            rise: -self.rise,
            chord: self.chord,
        }
    }

    /// The arc about the same swing point, `distance` to the left (right when negative); `None`
    /// when its radius would not be above zero.
    #[must_use]
    pub fn offset(&self, distance: f64) -> Option<Self> {
        let outward = if self.turns_left() {
            -distance
        } else {
            distance
        };
        let scale = 1.0 + outward / self.radius();
        if scale <= 0.0 {
            return None;
        }
        // Square off the arc at its ends: the square off its chord, turned by half the sweep.
        let across = self.across();
        let (cosine, sine) = self.half_turn();
        let (off, along) = (across * cosine, across.left() * -sine);
        Self::part(
            self.start + (off + along) * distance,
            self.end + (off - along) * distance,
            self.rise * scale,
        )
    }

    /// An arc that follows from another one: however flat, its radius is known.
    fn part(start: Point, end: Point, rise: f64) -> Option<Self> {
        let arc = Self {
            start,
            end,
            rise,
            chord: start.distance(end),
        };
        (start != end && start.is_finite() && end.is_finite() && rise.is_normal()).then_some(arc)
    }

    /// The part from `from` to `to` metres along; either may lie beyond the ends, on the same
    /// circle. `None` unless the part has some length and is shorter than a full turn.
    #[must_use]
    pub fn between(&self, from: f64, to: f64) -> Option<Self> {
        let sweep = (to - from) / self.radius();
        if !(0.0 < sweep && sweep < TAU) {
            return None;
        }
        let (start, end) = (self.point_at(from), self.point_at(to));
        let rise = 0.5 * start.distance(end) * (0.25 * sweep).tan();
        Self::part(start, end, rise.copysign(self.rise))
    }

    /// The smallest upright box round it.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        Frame::of(&Piece::Arc(*self)).bounds()
    }

    /// The signed area between arc and chord: positive where the arc turns left, so that it adds
    /// to an area walked round counter-clockwise.
    #[must_use]
    pub fn signed_segment_area(&self) -> f64 {
        self.bend().segment_area().copysign(-self.rise)
    }

    fn chord_direction(&self) -> Direction {
        Direction::of(self.end - self.start).unwrap_or(Direction::EAST)
    }

    /// Square to the chord, to the left.
    pub(crate) fn across(&self) -> Vector {
        self.chord_direction().left().unit()
    }

    /// A point in the frame of the chord: metres along it from its middle, and metres off it
    /// towards the apex.
    pub(crate) fn in_frame(&self, point: Point) -> (f64, f64) {
        let from_middle = point - self.start.middle(self.end);
        let along = self.chord_direction().unit();
        let up = along.left().dot(from_middle);
        (
            along.dot(from_middle),
            if self.rise > 0.0 { up } else { -up },
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(actual: Point, expected: Point) {
        assert!(actual.distance(expected) < 1e-12, "{actual:?} {expected:?}");
    }

    #[test]
    fn a_quarter_turn_to_the_left() {
        let arc = Arc::leaving(Point::ORIGIN, Direction::EAST, Point::new(3.0, 3.0)).unwrap();
        close(arc.centre(), Point::new(0.0, 3.0));
        assert!((arc.sweep() - 0.5 * PI).abs() < 1e-15);
        close(
            arc.point_at(0.5 * arc.length()),
            Point::new(3.0 / 2f64.sqrt(), 3.0 - 3.0 / 2f64.sqrt()),
        );
        assert!((arc.direction_at(arc.length()).angle() - 0.5 * PI).abs() < 1e-15);
        let outer = arc.offset(-0.6).unwrap();
        assert!((outer.radius() - 3.6).abs() < 1e-12);
        close(outer.centre(), arc.centre());
        assert_eq!(arc.offset(3.0), None);
    }

    #[test]
    fn more_than_half_a_turn() {
        let arc = Arc::from_rise(Point::new(-3.0, 0.0), Point::new(3.0, 0.0), 9.0).unwrap();
        // c 6, h 9: R = 36/72 + 4.5 = 5, the centre 4 above the chord.
        assert!((arc.radius() - 5.0).abs() < 1e-12);
        close(arc.centre(), Point::new(0.0, 4.0));
        let bounds = arc.bounds();
        close(bounds.low, Point::new(-5.0, 0.0));
        close(bounds.high, Point::new(5.0, 9.0));
        close(
            arc.point_at(arc.along(Point::new(-9.0, 4.0))),
            Point::new(-5.0, 4.0),
        );
    }

    #[test]
    fn three_points_and_centre_give_the_same_arc() {
        let arc = Arc::from_rise(Point::new(1.0, 2.0), Point::new(4.0, -1.0), 0.7).unwrap();
        let on = arc.point_at(0.3 * arc.length());
        let again = Arc::through(arc.start(), on, arc.end()).unwrap();
        assert!((again.rise() - arc.rise()).abs() < 1e-13);
        let about = Arc::about(arc.centre(), arc.start(), arc.end(), false).unwrap();
        assert!((about.rise() - arc.rise()).abs() < 1e-12);
    }

    #[test]
    fn a_flat_arc_keeps_its_digits() {
        let (start, end) = (Point::new(0.0, 0.0), Point::new(10_000.0, 0.0));
        let arc = Arc::from_rise(start, end, 1e-5).unwrap();
        assert!((arc.point_at(0.5 * arc.length()).y - 1e-5).abs() < 1e-16);
        // A quarter along, the height is three quarters of the rise.
        let quarter = arc.point_at(0.25 * arc.length());
        assert!((quarter.y - 0.75e-5).abs() < 1e-15, "{}", quarter.y);
        assert!((arc.outside(Point::new(2_500.0, 0.0)) + 0.75e-5).abs() < 1e-15);
        assert!((arc.along(Point::new(2_500.0, 0.3)) - 2_500.0).abs() < 1e-6);
        assert!((arc.offset(0.6).unwrap().rise() - 1e-5).abs() < 1e-15);
    }

    #[test]
    fn running_on_past_the_ends() {
        let arc = Arc::leaving(Point::ORIGIN, Direction::EAST, Point::new(3.0, 3.0)).unwrap();
        close(arc.point_at(3.0 * PI), Point::new(0.0, 6.0));
        close(arc.point_at(-1.5 * PI), Point::new(-3.0, 3.0));
        // Two whole turns more.
        close(arc.point_at(15.0 * PI), Point::new(0.0, 6.0));
        close(arc.point_at(-13.5 * PI), Point::new(-3.0, 3.0));
        let longer = arc.between(-1.5 * PI, 3.0 * PI).unwrap();
        assert!((longer.length() - 4.5 * PI).abs() < 1e-12);
        close(longer.centre(), arc.centre());
    }
}

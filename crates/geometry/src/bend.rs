//! The size of a circular bend, without its place: chord and rise, and every other figure from them.

use std::f64::consts::TAU;
use std::fmt;

/// The size of a circular bend: an arc known by its chord and its rise, without its place or side.
///
/// All lengths are metres, all angles radians, and everything but the [apothem](Self::apothem) is
/// positive. With `q = 2 h / c = tan(t / 4)` every figure is a short rational expression in `c` and
/// `q`, which keeps full relative precision on bends so flat that the eye takes them for straights.
///
/// ```
/// use geometry::Bend;
/// let bend = Bend::from_chord_and_rise(4.0, 1.0)?;
/// assert_eq!(bend.radius(), 2.5);
/// assert_eq!(bend.apothem(), 1.5);
/// assert!(Bend::from_chord_and_rise(4.0, 0.0).is_err());
/// # Ok::<(), geometry::BendError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bend {
    chord: f64,
    rise: f64,
}

impl Bend {
    /// Shortest chord or rise taken, metres: far below any use, so that products cannot underflow.
    pub const LEAST: f64 = 1e-30;
    /// Longest chord or rise taken, metres: far above any use, so that products cannot overflow.
    pub const MOST: f64 = 1e30;

    /// The bend of the given chord and rise, both in metres.
    ///
    /// A rise below half the chord gives less than a half circle, above it more.
    ///
    /// # Errors
    ///
    /// If either is not a finite number, not above zero, or outside [`Self::LEAST`]..=[`Self::MOST`].
    pub fn from_chord_and_rise(chord: f64, rise: f64) -> Result<Self, BendError> {
        for (figure, value) in [(Figure::Chord, chord), (Figure::Rise, rise)] {
            if !value.is_finite() {
                return Err(BendError::NotFinite { figure, value });
            }
            if value <= 0.0 {
                return Err(BendError::NotPositive { figure, value });
            }
            if !(Self::LEAST..=Self::MOST).contains(&value) {
                return Err(BendError::OutOfRange { figure, value });
            }
        }
        Ok(Self { chord, rise })
    }

    /// The bend of an arc, whose constructor has already looked at both figures.
    pub(crate) fn of_arc(chord: f64, rise: f64) -> Self {
        Self { chord, rise }
    }

    /// Distance between the two ends, metres.
    #[must_use]
    pub fn chord(&self) -> f64 {
        self.chord
    }

    /// Greatest distance from the chord to the bend, metres.
    #[must_use]
    pub fn rise(&self) -> f64 {
        self.rise
    }

    /// Radius, metres: `c² / 8h + h / 2`.
    #[must_use]
    pub fn radius(&self) -> f64 {
        let q = self.quarter_tangent();
        self.chord / 4.0 * (1.0 / q + q)
    }

    /// Angle turned through from end to end, radians, between 0 and a whole turn: `4 atan(2h / c)`.
    #[must_use]
    pub fn sweep(&self) -> f64 {
        4.0 * self.quarter_tangent().atan()
    }

    /// Length along the bend, metres.
    #[must_use]
    pub fn arc_length(&self) -> f64 {
        self.radius() * self.sweep()
    }

    /// Distance from the centre to the chord, metres: `R - h`, negative past a half circle.
    #[must_use]
    pub fn apothem(&self) -> f64 {
        let half = self.chord / 2.0;
        (half - self.rise) * ((half + self.rise) / (2.0 * self.rise))
    }

    /// Distance from an end to where the tangents of both ends meet, metres: `R tan(t / 2)`.
    ///
    /// `None` from a half circle on, where they do not meet ahead.
    #[must_use]
    pub fn tangent_length(&self) -> Option<f64> {
        Some(self.chord / 2.0 * self.secant()?)
    }

    /// Distance from the bend's apex to where the tangents meet, metres: `R (sec(t / 2) - 1)`.
    ///
    /// `None` from a half circle on.
    #[must_use]
    pub fn external_distance(&self) -> Option<f64> {
        Some(self.rise * self.secant()?)
    }

    /// Area between chord and bend, square metres: `R² (t - sin t) / 2`.
    #[must_use]
    pub fn segment_area(&self) -> f64 {
        let radius = self.radius();
        radius * radius * (less_its_sine(self.sweep()) / 2.0)
    }

    /// Whether the bend turns through a half circle or more.
    #[must_use]
    pub fn is_half_circle_or_more(&self) -> bool {
        self.rise >= self.chord / 2.0
    }

    /// The named figure; `None` where this bend has none.
    #[must_use]
    pub fn figure(&self, figure: Figure) -> Option<f64> {
        match figure {
            Figure::Chord => Some(self.chord()),
            Figure::Rise => Some(self.rise()),
            Figure::Radius => Some(self.radius()),
            Figure::ArcLength => Some(self.arc_length()),
            Figure::Sweep => Some(self.sweep()),
            Figure::Apothem => Some(self.apothem()),
            Figure::TangentLength => self.tangent_length(),
            Figure::ExternalDistance => self.external_distance(),
        }
    }

    /// Distance from chord to bend, square to the chord, at `x` metres from the chord's middle.
    ///
    /// `None` beyond the ends of the chord. Past a half circle this is the point on the apex side;
    /// the parts of the bend that bulge beyond the ends of the chord have no such offset.
    #[must_use]
    pub fn offset_from_chord(&self, x: f64) -> Option<f64> {
        let half = self.chord / 2.0;
        if !(-half..=half).contains(&x) {
            return None;
        }
        let (radius, apothem) = (self.radius(), self.apothem());
        let height = below_circle(radius, x); // of the bend over the centre
        Some(if apothem > 0.0 {
            // height - apothem without the cancellation: exactly nothing at the ends
            (half - x) * (half + x) / (height + apothem)
        } else {
            height - apothem
        })
    }

    /// Distance from the tangent at one end to the bend, square to it, at `x` metres along it.
    ///
    /// `None` behind the end, and beyond where the bend stops or turns back.
    #[must_use]
    pub fn offset_from_tangent(&self, x: f64) -> Option<f64> {
        let (radius, apothem) = (self.radius(), self.apothem());
        let reach = if self.chord / 2.0 >= apothem {
            radius // a quarter circle or more
        } else {
            self.chord * (apothem / radius)
        };
        (0.0..=reach)
            .contains(&x)
            .then(|| x * (x / (radius + below_circle(radius, x))))
    }

    /// The bend from one end to the apex: half of the sweep, the same radius.
    #[must_use]
    pub fn half(&self) -> Self {
        let q = self.quarter_tangent();
        let chord = (self.chord / 2.0).hypot(self.rise);
        let rise = chord / 2.0 * (q / (1.0 + q.hypot(1.0)));
        Self { chord, rise }
    }

    /// The chord between two points of this bend's circle from which it bows out by `bow` metres:
    /// `sqrt(8 R b - 4 b²)`, the peg spacing for an allowed bow.
    ///
    /// `None` unless the bow is above zero and at most the radius.
    #[must_use]
    pub fn chord_for_bow(&self, bow: f64) -> Option<f64> {
        let radius = self.radius();
        (bow > 0.0 && bow <= radius).then(|| 2.0 * (bow * (2.0 * radius - bow)).sqrt())
    }

    /// `tan(t / 4)`: 1 at the half circle.
    fn quarter_tangent(&self) -> f64 {
        2.0 * self.rise / self.chord
    }

    /// `1 / cos(t / 2)`, which both figures beyond the bend are made of.
    fn secant(&self) -> Option<f64> {
        let half = self.chord / 2.0;
        let q = self.quarter_tangent();
        (!self.is_half_circle_or_more())
            .then(|| (1.0 + q * q) * half / (half - self.rise) / (1.0 + q))
    }
}

/// A figure of a bend; any two that fit together fix its size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Figure {
    /// Straight distance between the ends, metres.
    Chord,
    /// Greatest distance from chord to bend, metres.
    Rise,
    /// Radius, metres.
    Radius,
    /// Length along the bend, metres.
    ArcLength,
    /// Angle turned through, radians.
    Sweep,
    /// Distance from centre to chord, metres; negative past a half circle.
    Apothem,
    /// Distance from an end to where the end tangents meet, metres; only below a half circle.
    TangentLength,
    /// Distance from apex to where the end tangents meet, metres; only below a half circle.
    ExternalDistance,
}

impl Figure {
    /// All eight, in the order they are shown.
    pub const ALL: [Self; 8] = [
        Self::Chord,
        Self::Rise,
        Self::Radius,
        Self::ArcLength,
        Self::Sweep,
        Self::Apothem,
        Self::TangentLength,
        Self::ExternalDistance,
    ];

    /// Whether the figure is an angle in radians; all others are lengths in metres.
    #[must_use]
    pub fn is_angle(self) -> bool {
        self == Self::Sweep
    }
}

/// The name in a sentence: `chord`, `arc length`, ….
impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Chord => "chord",
            Self::Rise => "rise",
            Self::Radius => "radius",
            Self::ArcLength => "arc length",
            Self::Sweep => "sweep",
            Self::Apothem => "apothem",
            Self::TangentLength => "tangent length",
            Self::ExternalDistance => "external distance",
        })
    }
}

/// Why a chord and a rise make no bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BendError {
    /// The figure is not a finite number.
    NotFinite {
        /// Which figure.
        figure: Figure,
        /// What was given.
        value: f64,
    },
    /// The figure is zero or negative.
    NotPositive {
        /// Which figure.
        figure: Figure,
        /// What was given.
        value: f64,
    },
    /// The figure is outside [`Bend::LEAST`]..=[`Bend::MOST`].
    OutOfRange {
        /// Which figure.
        figure: Figure,
        /// What was given.
        value: f64,
    },
}

impl fmt::Display for BendError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotFinite { figure, value } => {
                write!(
                    f,
                    "the {figure} is {value}, not a number one can measure: give a length"
                )
            }
            Self::NotPositive { figure, value } => {
                write!(f, "the {figure} is {value} m: a bend needs one above zero")
            }
            Self::OutOfRange { figure, value } => write!(
                f,
                "the {figure} of {value:e} m is past what can be computed: keep it between {:e} m and {:e} m",
                Bend::LEAST,
                Bend::MOST
            ),
        }
    }
}

impl std::error::Error for BendError {}

/// `sqrt(r² - x²)`, precise also where `x` comes near `r`.
fn below_circle(r: f64, x: f64) -> f64 {
    ((r - x) * (r + x)).max(0.0).sqrt()
}

/// `t - sin t` for `t` between 0 and a whole turn, to full relative precision where `t` is small.
fn less_its_sine(t: f64) -> f64 {
    debug_assert!((0.0..=TAU).contains(&t), "a sweep lies within a whole turn");
    if t >= 1.0 {
        return t - t.sin();
    }
    // t³/3! - t⁵/5! + …; at t = 1 the term after the last is below 1e-19 of the sum
    let mut term = t * t * t / 6.0;
    let mut sum = 0.0;
    for n in [4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0] {
        sum += term;
        term *= -t * t / (n * (n + 1.0));
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use std::f64::consts::PI;

    fn bend(chord: f64, rise: f64) -> Bend {
        Bend::from_chord_and_rise(chord, rise).unwrap()
    }

    #[test]
    #[expect(
        clippy::float_cmp,
        reason = "a half circle is met exactly or not at all"
    )]
    fn a_half_circle_has_no_tangents_that_meet() {
        let half_circle = bend(4.0, 2.0);
        assert_eq!(half_circle.apothem(), 0.0);
        assert_eq!(half_circle.sweep(), PI);
        assert_eq!(half_circle.tangent_length(), None);
        assert_eq!(half_circle.external_distance(), None);
        assert!(half_circle.is_half_circle_or_more());
        assert!(!bend(4.0, 2.0_f64.next_down()).is_half_circle_or_more());
        assert!(
            bend(4.0, 2.0_f64.next_down())
                .tangent_length()
                .is_some_and(f64::is_finite)
        );
    }

    #[test]
    fn past_a_half_circle_the_centre_lies_on_the_rise_side() {
        let major = bend(2.0, 3.0);
        assert_relative_eq!(major.radius(), 5.0 / 3.0, max_relative = 1e-15);
        assert_relative_eq!(major.apothem(), 5.0 / 3.0 - 3.0, max_relative = 1e-15);
        assert!(major.sweep() > PI);
    }

    #[test]
    fn what_is_no_length_is_refused() {
        let check = |chord, rise, figure: Figure| {
            let error = Bend::from_chord_and_rise(chord, rise).unwrap_err();
            assert!(error.to_string().contains(&figure.to_string()), "{error}");
        };
        check(f64::NAN, 1.0, Figure::Chord);
        check(1.0, f64::INFINITY, Figure::Rise);
        check(0.0, 1.0, Figure::Chord);
        check(1.0, -0.5, Figure::Rise);
        check(1e31, 1.0, Figure::Chord);
        check(1.0, 1e-31, Figure::Rise);
    }

    #[test]
    fn the_extremes_taken_give_finite_figures() {
        let (least, most) = (Bend::LEAST, Bend::MOST);
        for (chord, rise) in [(least, least), (least, most), (most, least), (most, most)] {
            let bend = bend(chord, rise);
            for figure in Figure::ALL {
                assert!(
                    bend.figure(figure).is_none_or(f64::is_finite),
                    "{figure} of {bend:?}"
                );
            }
            assert!(bend.segment_area().is_finite() && bend.segment_area() > 0.0);
        }
    }

    #[test]
    fn offsets_end_where_the_bend_does() {
        let minor = bend(4.0, 1.0);
        assert_eq!(minor.offset_from_chord(2.0), Some(0.0));
        assert_eq!(minor.offset_from_chord(-2.0), Some(0.0));
        assert_relative_eq!(
            minor.offset_from_chord(0.0).unwrap(),
            1.0,
            max_relative = 1e-15
        );
        assert_eq!(minor.offset_from_chord(2.0_f64.next_up()), None);
        assert_eq!(minor.offset_from_chord(f64::NAN), None);
        assert_eq!(minor.offset_from_tangent(0.0), Some(0.0));
        assert_eq!(minor.offset_from_tangent(-0.1), None);
        assert_eq!(minor.offset_from_tangent(f64::NAN), None);
        // a little over a quarter circle: the tangent sees it to the radius and no farther
        assert_relative_eq!(
            minor.offset_from_tangent(2.5).unwrap(),
            2.5,
            max_relative = 1e-15
        );
        assert_eq!(minor.offset_from_tangent(2.500_001), None);
        // a flat one ends at R sin t; there the offset is the chord's drop, R (1 - cos t)
        let flat = bend(8.0, 1.0);
        let (radius, sweep) = (flat.radius(), flat.sweep());
        let end = radius * sweep.sin();
        let drop = flat
            .offset_from_tangent(end.next_down().next_down())
            .unwrap();
        assert_relative_eq!(drop, radius * (1.0 - sweep.cos()), max_relative = 1e-14);
        assert_eq!(flat.offset_from_tangent(end * 1.000_001), None);
    }

    #[test]
    fn a_major_bend_answers_on_the_apex_side() {
        let major = bend(2.0, 3.0);
        assert_relative_eq!(
            major.offset_from_chord(0.0).unwrap(),
            3.0,
            max_relative = 1e-15
        );
        let beside_the_end = major.offset_from_chord(1.0).unwrap();
        assert_relative_eq!(beside_the_end, -2.0 * major.apothem(), max_relative = 1e-15);
    }

    #[test]
    fn halving_keeps_the_radius_and_halves_the_sweep() {
        for (chord, rise) in [
            (8.0, 1.0),
            (4.0, 2.0),
            (2.0, 3.0),
            (1e4, 1e-5),
            (1e-3, 500.0),
        ] {
            let whole = bend(chord, rise);
            let half = whole.half();
            assert_relative_eq!(half.radius(), whole.radius(), max_relative = 1e-14);
            assert_relative_eq!(half.sweep(), whole.sweep() / 2.0, max_relative = 1e-14);
        }
    }

    #[test]
    fn the_chord_for_a_bow_bows_by_it() {
        let circle = bend(4.0, 1.0); // radius 2.5
        let chord = circle.chord_for_bow(0.01).unwrap();
        assert_relative_eq!(bend(chord, 0.01).radius(), 2.5, max_relative = 1e-14);
        assert_relative_eq!(
            circle.chord_for_bow(2.5).unwrap(),
            5.0,
            max_relative = 1e-15
        );
        assert_eq!(circle.chord_for_bow(2.6), None);
        assert_eq!(circle.chord_for_bow(0.0), None);
        assert_eq!(circle.chord_for_bow(f64::NAN), None);
    }

    #[test]
    fn area_joins_its_series_without_a_step() {
        let (below, above) = (less_its_sine(1.0_f64.next_down()), less_its_sine(1.0));
        assert_relative_eq!(below, above, max_relative = 1e-15);
        assert_relative_eq!(less_its_sine(1e-4), 1e-12 / 6.0, max_relative = 1e-9);
    }
}

//! Lengths and areas as text, rounded to the tape.

use super::graduation::Step;
use super::{Graduation, LengthError, Units, parse};

/// How lengths are written: a system of units and the division of the tape in use.
///
/// Every method takes metres and rounds what it is given once, half away from zero. Nothing is written
/// as minus zero. What [`Ruler::text`] and [`Ruler::plain`] write, [`Ruler::parse`] reads back as exactly
/// [`Ruler::round`] of the length. A graduation of the other system stands for the usual one of `units`
/// ([`Graduation::default_for`]). Past a million kilometres, where no tape reaches, and for what is not a
/// number, the bare number of metres is written.
///
/// | graduation | text | plain |
/// | --- | --- | --- |
/// | inches | `7′ 6 1⁄2″`, `11 15⁄16″`, `0″`, `−3 1⁄4″` | `7' 6 1/2"`, `11 15/16"`, `0"`, `-3 1/4"` |
/// | decimal feet | `12.34′` | `12.34'` |
/// | 1, 2, 5 mm | `3.165 m` | `3.165 m` |
/// | 10 mm | `3.16 m` | `3.16 m` |
///
/// The marks are the primes U+2032 and U+2033, the minus sign U+2212 and the fraction slash U+2044,
/// from which a type face with the feature `frac` makes a true fraction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Ruler {
    /// The system lengths are written in.
    pub units: Units,
    /// The division lengths are rounded to.
    pub graduation: Graduation,
}

impl Ruler {
    /// The ruler of `units` with its usual graduation.
    #[must_use]
    pub fn new(units: Units) -> Self {
        Self {
            units,
            graduation: Graduation::default_for(units),
        }
    }

    /// The length as it is taped, such as `7′ 6 1⁄2″`, `12.34′` or `3.165 m`.
    ///
    /// ```
    /// # use plan::units::{Graduation, Ruler, Units};
    /// let quarters = Ruler { units: Units::FeetInches, graduation: Graduation::QuarterInch };
    /// assert_eq!(quarters.text(0.0254 * 11.9375), "1′ 0″"); // 11 15/16 in
    /// assert_eq!(quarters.text(-0.0254 * 0.5), "−1⁄2″");
    /// assert_eq!(quarters.text(-0.0001), "0″");
    /// ```
    #[must_use]
    pub fn text(&self, length: f64) -> String {
        self.taped(length, &TYPESET)
    }

    /// [`Ruler::text`] in ASCII for the command line: `7' 6 1/2"`, `12.34'`, `3.165 m`.
    #[must_use]
    pub fn plain(&self, length: f64) -> String {
        self.taped(length, &ASCII)
    }

    /// The length as it is taped without its unit, for a column headed with [`Ruler::bare_unit`]: inches
    /// `90 1⁄2`, decimal feet `7.54`, metres `2.300`.
    #[must_use]
    pub fn bare(&self, length: f64) -> String {
        if !writable(length) {
            return format!("{length:e}");
        }
        let graduation = self.division();
        let count = graduation.steps(length);
        let sign = TYPESET.sign(count);
        match form(graduation) {
            Form::Inches { per_inch } => {
                let count = count.unsigned_abs();
                let (inches, over) = (count / per_inch, count % per_inch);
                format!("{sign}{}", mixed(inches, over, per_inch, &TYPESET))
            }
            Form::DecimalFeet { places } => format!("{sign}{}", decimals(count, places)),
            Form::Metres { places, each } => {
                format!("{sign}{}", decimals(count.saturating_mul(each), places))
            }
        }
    }

    /// The unit of [`Ruler::bare`] and of a bare number typed: `in`, `ft` or `m`.
    #[must_use]
    pub fn bare_unit(&self) -> &'static str {
        match form(self.division()) {
            Form::Inches { .. } => "in",
            Form::DecimalFeet { .. } => "ft",
            Form::Metres { .. } => "m",
        }
    }

    /// The length with more digits than a tape shows, to stand beside the rounded one: `3.1646 m` (0.1 mm),
    /// `3′ 6.883″` (0.001 in), `12.3412′` (0.0001 ft).
    #[must_use]
    pub fn exact(&self, length: f64) -> String {
        if !writable(length) {
            return format!("{length:e} m");
        }
        match form(self.division()) {
            Form::Metres { .. } => {
                let count = TENTH_MILLIMETRE.count(length);
                format!("{}{} m", TYPESET.sign(count), decimals(count, 4))
            }
            Form::DecimalFeet { .. } => {
                let count = TEN_THOUSANDTH_FOOT.count(length);
                format!(
                    "{}{}{}",
                    TYPESET.sign(count),
                    decimals(count, 4),
                    TYPESET.foot
                )
            }
            Form::Inches { .. } => {
                let count = THOUSANDTH_INCH.count(length);
                let inches = i64::try_from(count.unsigned_abs() % 12_000).unwrap_or_default();
                let inches = decimals(inches, 3);
                feet_and(count, count.unsigned_abs() / 12_000, &inches, &TYPESET)
            }
        }
    }

    /// The length in this ruler's units and, in brackets, in the other system to its finest graduation:
    /// `7′ 6 1⁄2″ (2.299 m)`. Each is rounded from the length itself, so either tape may be used.
    #[must_use]
    pub fn both(&self, length: f64) -> String {
        format!("{} ({})", self.text(length), self.companion().text(length))
    }

    /// The ruler of the other system, with its finest graduation.
    #[must_use]
    pub fn companion(&self) -> Self {
        let graduation = match self.units {
            Units::Metric => Graduation::SixteenthInch,
            Units::FeetInches => Graduation::Millimetre,
        };
        Self {
            units: self.units.other(),
            graduation,
        }
    }

    /// An area in square metres as text: `12.34 m²`, or `132.8 ft²` (1 ft² = 0.3048² m², exactly).
    #[must_use]
    pub fn area(&self, square_metres: f64) -> String {
        self.written_area(square_metres, 0)
    }

    /// An area in whole steps of the last decimal that [`Ruler::area`] writes.
    #[must_use]
    pub fn area_steps(&self, square_metres: f64) -> i64 {
        self.area_step(1).0.count(square_metres)
    }

    /// The area with more digits, to stand beside the rounded one: `12.3412 m²`, `132.838 ft²`.
    ///
    /// ```
    /// # use plan::units::{Ruler, Units};
    /// assert_eq!(Ruler::new(Units::Metric).exact_area(12.341_24), "12.3412 m²");
    /// assert_eq!(Ruler::new(Units::FeetInches).exact_area(0.092_903_04), "1.000 ft²");
    /// ```
    #[must_use]
    pub fn exact_area(&self, square_metres: f64) -> String {
        self.written_area(square_metres, 2)
    }

    /// The area with so many decimals more than the usual ones, two at most.
    fn written_area(&self, square_metres: f64, more: u32) -> String {
        if !writable(square_metres) {
            return format!("{square_metres:e} m²");
        }
        let (step, places, unit) = self.area_step(10_u32.pow(more));
        let (count, places) = (step.count(square_metres), places + more);
        format!("{}{} {unit}", TYPESET.sign(count), decimals(count, places))
    }

    /// The step areas are written in, so many times finer than usual; the usual decimals; the unit.
    fn area_step(&self, finer: u32) -> (Step, u32, &'static str) {
        match self.units {
            Units::Metric => (
                Step {
                    over: 1,
                    under: 100 * finer,
                },
                2,
                "m²",
            ),
            // a tenth of 0.09290304 m² in lowest terms
            Units::FeetInches => (
                Step {
                    over: 145_161,
                    under: 15_625_000 * finer,
                },
                1,
                "ft²",
            ),
        }
    }

    /// `length` rounded to this ruler's graduation, in metres. See [`Graduation::round`].
    #[must_use]
    pub fn round(&self, length: f64) -> f64 {
        self.division().round(length)
    }

    /// Reads a typed length, in metres. As [`parse_length`](super::parse_length), but on a tape divided in
    /// decimal feet a bare number is feet: such a tape shows no inches.
    ///
    /// # Errors
    /// As [`parse_length`](super::parse_length).
    ///
    /// ```
    /// # use plan::units::{Graduation, Ruler, Units};
    /// let tenths = Ruler { units: Units::FeetInches, graduation: Graduation::TenthFoot };
    /// assert_eq!(tenths.parse("10.5")?, 3.2004);
    /// assert_eq!(Ruler::new(Units::FeetInches).parse("10.5")?, 0.2667);
    /// # Ok::<(), plan::units::LengthError>(())
    /// ```
    pub fn parse(&self, text: &str) -> Result<f64, LengthError> {
        parse::read(text, self.bare_rule()).map(|reading| reading.metres)
    }

    /// What was understood of a typed length: as [`echo`](super::echo), for what [`Ruler::parse`] read.
    #[must_use]
    pub fn echo(&self, length: f64, typed: &str) -> String {
        parse::echo_as(self, length, typed)
    }

    pub(super) fn bare_rule(&self) -> parse::Bare {
        match form(self.division()) {
            Form::Inches { .. } => parse::Bare::Inches,
            Form::DecimalFeet { .. } => parse::Bare::Feet,
            Form::Metres { .. } => parse::Bare::Metric,
        }
    }

    /// The graduation, or the usual one of the units where they disagree.
    pub(crate) fn division(&self) -> Graduation {
        if self.graduation.units() == self.units {
            self.graduation
        } else {
            Graduation::default_for(self.units)
        }
    }

    fn taped(&self, length: f64, marks: &Marks) -> String {
        if !writable(length) {
            return format!("{length:e} m");
        }
        let graduation = self.division();
        let count = graduation.steps(length);
        match form(graduation) {
            Form::Inches { per_inch } => {
                let size = count.unsigned_abs();
                let per_foot = 12 * per_inch;
                let (inches, over) = (size % per_foot / per_inch, size % per_inch);
                let inches = mixed_after(size / per_foot, inches, over, per_inch, marks);
                feet_and(count, size / per_foot, &inches, marks)
            }
            Form::DecimalFeet { places } => {
                format!(
                    "{}{}{}",
                    marks.sign(count),
                    decimals(count, places),
                    marks.foot
                )
            }
            Form::Metres { places, each } => {
                let count = count.saturating_mul(each);
                format!("{}{} m", marks.sign(count), decimals(count, places))
            }
        }
    }
}

const TENTH_MILLIMETRE: Step = Step {
    over: 1,
    under: 10_000,
};
const THOUSANDTH_INCH: Step = Step {
    over: 127,
    under: 5_000_000,
};
const TEN_THOUSANDTH_FOOT: Step = Step {
    over: 381,
    under: 12_500_000,
};

/// The greatest figure written digit by digit: every count of divisions up to here is exact.
const LONGEST_WRITTEN: f64 = 1e9;

fn writable(figure: f64) -> bool {
    figure.abs() <= LONGEST_WRITTEN
}

/// How the figures of a graduation are written.
enum Form {
    /// Inches with a fraction.
    Inches { per_inch: u64 },
    /// Feet with decimals; one division is one of the last.
    DecimalFeet { places: u32 },
    /// Metres with decimals; one division is `each` of the last.
    Metres { places: u32, each: i64 },
}

fn form(graduation: Graduation) -> Form {
    match graduation {
        Graduation::SixteenthInch => Form::Inches { per_inch: 16 },
        Graduation::EighthInch => Form::Inches { per_inch: 8 },
        Graduation::QuarterInch => Form::Inches { per_inch: 4 },
        Graduation::HalfInch => Form::Inches { per_inch: 2 },
        Graduation::Inch => Form::Inches { per_inch: 1 },
        Graduation::HundredthFoot => Form::DecimalFeet { places: 2 },
        Graduation::TenthFoot => Form::DecimalFeet { places: 1 },
        Graduation::Millimetre => Form::Metres { places: 3, each: 1 },
        Graduation::TwoMillimetres => Form::Metres { places: 3, each: 2 },
        Graduation::FiveMillimetres => Form::Metres { places: 3, each: 5 },
        Graduation::TenMillimetres => Form::Metres { places: 2, each: 1 },
    }
}

struct Marks {
    minus: &'static str,
    foot: &'static str,
    inch: &'static str,
    slash: &'static str,
}

const TYPESET: Marks = Marks {
    minus: "−",
    foot: "′",
    inch: "″",
    slash: "⁄",
};
const ASCII: Marks = Marks {
    minus: "-",
    foot: "'",
    inch: "\"",
    slash: "/",
};

impl Marks {
    fn sign(&self, count: i64) -> &'static str {
        if count < 0 { self.minus } else { "" }
    }
}

/// `count` of the last decimal, without its sign.
fn decimals(count: i64, places: u32) -> String {
    let (count, per_whole) = (count.unsigned_abs(), 10_u64.pow(places));
    let width = places as usize;
    format!("{}.{:0width$}", count / per_whole, count % per_whole)
}

/// The sign of `count`, feet where there are any, and inches already written.
fn feet_and(count: i64, feet: u64, inches: &str, marks: &Marks) -> String {
    let (sign, foot, inch) = (marks.sign(count), marks.foot, marks.inch);
    if feet > 0 {
        format!("{sign}{feet}{foot} {inches}{inch}")
    } else {
        format!("{sign}{inches}{inch}")
    }
}

/// `6 1⁄2`, `6` or `1⁄2`, in lowest terms.
fn mixed(whole: u64, over: u64, under: u64, marks: &Marks) -> String {
    if over == 0 {
        return whole.to_string();
    }
    // `under` is a power of two, so twos are all that can be shared
    let shared = 1_u64 << over.trailing_zeros();
    let fraction = format!("{}{}{}", over / shared, marks.slash, under / shared);
    if whole > 0 {
        format!("{whole} {fraction}")
    } else {
        fraction
    }
}

/// As [`mixed`], but after feet no whole inches are a written nought: `7′ 0 1⁄2″`.
fn mixed_after(feet: u64, whole: u64, over: u64, under: u64, marks: &Marks) -> String {
    let inches = mixed(whole, over, under, marks);
    if feet > 0 && whole == 0 && over > 0 {
        format!("0 {inches}")
    } else {
        inches
    }
}

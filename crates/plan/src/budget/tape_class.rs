//! Tape classes: how far a tape may be out by itself, as standards publish it.

use crate::document::TapeClass;

/// A yard in metres.
const YARD: f64 = 0.9144;
/// A foot in metres.
const FOOT: f64 = 0.3048;
/// An inch in metres.
const INCH: f64 = 0.0254;

impl TapeClass {
    /// The most it may be out over a length from its zero, in metres, when in use.
    ///
    /// Source: Directive 2014/32/EU, Annex X (MI-008), Chapter I, and UK SI 2016/1153, Schedule 1I,
    /// paragraph 2: ±(a + bL), L in metres rounded up to the next whole one. UK SI 1986/1682,
    /// regulation 24: ±(0.025 in + 0.015 in a yard, rounded up). NIST Handbook 44, section 5.52:
    /// a table up to 100 ft, which is carried on by 1⁄16 in for each further 25 ft.
    ///
    /// ```
    /// use plan::budget::TapeClass;
    /// let out = TapeClass::Two.permitted(7.3); // counts as 8 m
    /// assert!((out - 0.0019).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn permitted(self, length: f64) -> f64 {
        let length = length.abs();
        let begun = |unit: f64| (length / unit - 1e-9).ceil().max(0.0);
        let metric = |a: f64, b: f64| 0.001 * (a + b * begun(1.0));
        match self {
            Self::One => metric(0.1, 0.1),
            Self::Two => metric(0.3, 0.2),
            Self::Three => metric(0.6, 0.4),
            Self::Imperial => INCH * (0.025 + 0.015 * begun(YARD)),
            Self::Handbook44 => {
                let thirty_seconds = match length / FOOT - 1e-9 {
                    feet if feet <= 6.0 => 1.0,
                    feet if feet <= 30.0 => 2.0,
                    feet => 4.0 + 2.0 * ((feet - 55.0) / 25.0).ceil().max(0.0),
                };
                INCH * thirty_seconds / 32.0
            }
        }
    }

    /// The standard deviation of one tape's own error over a length, in metres.
    ///
    /// Of a tape that passed, nothing is known but that it is within what is permitted, so an even
    /// spread is taken: `±a` spread evenly deviates by `a/√3` (JCGM 100:2008, 4.3.7). The tape errs
    /// the same way at every pull, which makes it one error however often it is used.
    #[must_use]
    pub fn deviation(self, length: f64) -> f64 {
        self.permitted(length) / 3.0_f64.sqrt()
    }

    /// Truer tapes of the same system, from the next best on.
    #[must_use]
    pub fn better(self) -> &'static [Self] {
        match self {
            Self::Three => &[Self::Two, Self::One],
            Self::Two => &[Self::One],
            Self::One | Self::Imperial | Self::Handbook44 => &[],
        }
    }

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::One => "a tape of class I",
            Self::Two => "a tape of class II",
            Self::Three => "a tape of class III",
            Self::Imperial => "a tape in feet",
            Self::Handbook44 => "a metal tape in feet",
        }
    }
}

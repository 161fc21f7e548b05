//! What is wrong with a typed length or angle: the piece of text, its place and the remedy.

use std::fmt;

/// A typed length that cannot be read.
pub type LengthError = TextError;

/// A typed angle that cannot be read.
pub type AngleError = TextError;

/// A typed length or angle that cannot be read. Its sentence names the piece of text, its place counted
/// from 1, and what to write instead.
///
/// ```
/// # use plan::units::{Units, parse_length};
/// let error = parse_length("7' 6 1/0\"", Units::FeetInches).unwrap_err();
/// assert_eq!((error.at, error.until), (7, 8));
/// assert_eq!(
///     error.to_string(),
///     "`0` at character 8 in `7' 6 1/0\"` divides by nothing: write the lower number of the fraction, such as 1/2"
/// );
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextError {
    /// What is wrong.
    pub kind: Fault,
    /// Where the piece of text that is wrong begins, in characters from 0. Where something is missing at
    /// the end, it is the number of characters.
    pub at: usize,
    /// Where that piece ends; the same as `at` where something is missing.
    pub until: usize,
    /// What was typed, control characters replaced and cut short after 64 characters.
    pub text: String,
}

/// What is wrong with a typed length or angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Nothing but spaces.
    Empty,
    /// More than 64 characters.
    TooLong,
    /// A character that no length or angle has.
    Character,
    /// A word that is no unit of length.
    LengthUnit,
    /// A word that is no unit of an angle.
    AngleUnit,
    /// A sign that does not stand in front.
    Sign,
    /// No number where one must stand.
    NoNumber,
    /// A number without unit before another.
    NoUnit,
    /// A last number without unit, after a unit that does not tell it.
    LastUnit,
    /// A number with two decimal marks.
    Marks,
    /// A comma that may divide thousands or decimals.
    Comma,
    /// A point between a unit and a number, which may belong to either.
    Point,
    /// A slash that does not stand between two whole numbers.
    Fraction,
    /// A fraction with nothing below.
    NoDenominator,
    /// A fraction of one or more.
    WholeFraction,
    /// Metres and feet in one length, or radians and degrees in one angle.
    Mixed,
    /// A part that is not of a smaller unit than the one before.
    Order,
    /// A fraction or decimals before the last part.
    NotWhole,
    /// A part as large as one of the unit before, such as 14 in after feet.
    TooLarge,
    /// One figure after metres, or more than three.
    AfterMetres,
    /// A whole number alone that may be metres, centimetres or millimetres.
    Bare,
}

impl TextError {
    pub(super) fn new(kind: Fault, chars: &[char], at: usize, until: usize) -> Self {
        let shown = |c: &char| {
            if c.is_control() {
                char::REPLACEMENT_CHARACTER
            } else {
                *c
            }
        };
        Self {
            kind,
            at,
            until,
            text: chars.iter().map(shown).collect(),
        }
    }
}

impl fmt::Display for TextError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            kind,
            at,
            until,
            text,
        } = self;
        match kind {
            Fault::Empty => {
                return f.write_str("nothing is written here: write a number and its unit");
            }
            Fault::TooLong => {
                return write!(
                    f,
                    "`{text}` is longer than {at} characters: write a shorter one"
                );
            }
            _ => {}
        }
        if at == until {
            write!(f, "after character {at} of `{text}` ")?;
        } else {
            let piece: String = text.chars().skip(*at).take(until - at).collect();
            write!(f, "`{piece}` at character {} in `{text}` ", at + 1)?;
        }
        f.write_str(match kind {
            Fault::Empty | Fault::TooLong => "", // written above
            Fault::Character => "cannot be read: write numbers and units, such as 2.3 m or 7' 6 1/2\"",
            Fault::LengthUnit => "is not a unit known here: write m, cm, mm, ft, in or yd",
            Fault::AngleUnit => "is not a unit known here: write deg, min, sec or rad",
            Fault::Sign => "is a sign out of place: write one sign, in front of everything",
            Fault::NoNumber if at == until => "a number is missing: write it in figures",
            Fault::NoNumber => "stands where a number should: write the number first, in figures",
            Fault::NoUnit => {
                "has no unit though more follows: write its unit, and leave no space inside a number"
            }
            Fault::LastUnit => "has no unit: write it",
            Fault::Marks => "has more than one mark: write one decimal mark and nothing between thousands",
            Fault::Comma => {
                "may be a thousand and more or a decimal: write a point for decimals and nothing between thousands"
            }
            Fault::Point => "may end the unit or begin a decimal: write a space, or 0 before the point",
            Fault::Fraction => "is not part of a fraction: write it of two whole numbers, such as 7/8",
            Fault::NoDenominator => {
                "divides by nothing: write the lower number of the fraction, such as 1/2"
            }
            Fault::WholeFraction => {
                "is one or more: write the whole number first, then a space and the rest, such as 1 1/2"
            }
            Fault::Mixed => "belongs to other units than what stands before: write all of it in one kind",
            Fault::Order => "does not follow from a larger unit: write the larger unit first, each once",
            Fault::NotWhole => {
                "is not whole though smaller units follow: write the fraction or the decimals in the last part only"
            }
            Fault::TooLarge => {
                "makes one or more of the unit before it: write less, such as 11 in after feet, or all of it in one unit"
            }
            Fault::AfterMetres => {
                "after the metres is unclear: write two figures for centimetres, such as 2m05, or the unit"
            }
            Fault::Bare => {
                "may be metres, centimetres or millimetres: write the unit, or a decimal point for metres"
            }
        })
    }
}

impl std::error::Error for TextError {}

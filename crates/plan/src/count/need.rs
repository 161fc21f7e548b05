//! One thing that is needed, and how much of it.

use serde::Serialize;

use crate::units::Ruler;

/// What an amount is counted in. Amounts themselves are in SI units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Measure {
    /// Metres.
    Length,
    /// Square metres.
    Area,
    /// Cubic metres.
    Volume,
    /// Kilograms.
    Mass,
    /// Whole things.
    Pieces,
    /// Hours of one person.
    Hours,
}

impl Measure {
    /// An amount as text, in the units of a plan: `2.49 m³`, `4.61 short tons`, `72`, `5.4 h`.
    #[must_use]
    pub fn text(self, amount: f64, ruler: Ruler) -> String {
        match self {
            Self::Length => ruler.text(amount),
            Self::Area => ruler.ordered_area(amount),
            Self::Volume => ruler.volume(amount),
            Self::Mass => ruler.mass(amount),
            Self::Pieces => format!("{amount:.0}"),
            Self::Hours => format!("{amount:.1} h"),
        }
    }
}

/// Which part of the work a need belongs to, in the order the work is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    /// Digging, and taking away what is dug.
    Dig,
    /// What lies under the surface.
    Base,
    /// What holds the edges.
    Edges,
    /// What is walked on, with its bed and joints.
    Surface,
    /// Hands and hired tools.
    Work,
}

/// How a thing is sold: a bag, a bulk bag, a roll, a length.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Pack {
    /// What one is called: "25 kg bag".
    pub name: String,
    /// How much one holds, in the measure of its need.
    pub holds: f64,
}

/// One figure a need rests on, said so that it can be doubted.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Because {
    /// The figure in words: "waste 5 % on straights, 10 % on bends".
    pub what: String,
    /// Where it comes from: a source, or "common practice, no source".
    pub source: String,
}

/// One thing that is needed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Need {
    /// What finds it in a price list; never changes: "sub-base", "joint-sand".
    pub key: String,
    /// What it is called on an order list.
    pub name: String,
    /// Which part of the work it belongs to.
    pub part: Part,
    /// What it is counted in.
    pub measure: Measure,
    /// How much is to be ordered or done, waste and laps included, not yet rounded to packs; never
    /// negative, never anything but a number.
    pub amount: f64,
    /// The least and the most where sources disagree.
    pub range: Option<[f64; 2]>,
    /// How it is sold, the usual way first.
    pub packs: Vec<Pack>,
    /// What the amount rests on.
    pub because: Vec<Because>,
}

//! The units things are sold by, and the packs they are sold in.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::{Deserialize, Serialize};

use super::written;
use crate::count::Measure;

/// A unit that things are sold by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Unit {
    /// Metres.
    Metre,
    /// Feet of 0.3048 m.
    Foot,
    /// Yards of 3 ft.
    Yard,
    /// Square metres.
    SquareMetre,
    /// Square feet.
    SquareFoot,
    /// Square yards.
    SquareYard,
    /// Cubic metres.
    CubicMetre,
    /// Litres.
    Litre,
    /// Cubic feet.
    CubicFoot,
    /// Cubic yards.
    CubicYard,
    /// Kilograms.
    Kilogram,
    /// Tonnes of 1000 kg.
    Tonne,
    /// Pounds of 0.453 592 37 kg.
    Pound,
    /// Short tons of 2000 lb.
    ShortTon,
    /// Whole things.
    Piece,
    /// Hours of one person.
    Hour,
}

impl Unit {
    /// All of them, by measure.
    pub const ALL: [Self; 16] = [
        Self::Metre,
        Self::Foot,
        Self::Yard,
        Self::SquareMetre,
        Self::SquareFoot,
        Self::SquareYard,
        Self::CubicMetre,
        Self::Litre,
        Self::CubicFoot,
        Self::CubicYard,
        Self::Kilogram,
        Self::Tonne,
        Self::Pound,
        Self::ShortTon,
        Self::Piece,
        Self::Hour,
    ];

    /// The unit itself that amounts of a measure are kept in.
    #[must_use]
    pub fn of(measure: Measure) -> Self {
        match measure {
            Measure::Length => Self::Metre,
            Measure::Area => Self::SquareMetre,
            Measure::Volume => Self::CubicMetre,
            Measure::Mass => Self::Kilogram,
            Measure::Pieces => Self::Piece,
            Measure::Hours => Self::Hour,
        }
    }

    /// What it measures.
    #[must_use]
    pub fn measure(self) -> Measure {
        match self {
            Self::Metre | Self::Foot | Self::Yard => Measure::Length,
            Self::SquareMetre | Self::SquareFoot | Self::SquareYard => Measure::Area,
            Self::CubicMetre | Self::Litre | Self::CubicFoot | Self::CubicYard => Measure::Volume,
            Self::Kilogram | Self::Tonne | Self::Pound | Self::ShortTon => Measure::Mass,
            Self::Piece => Measure::Pieces,
            Self::Hour => Measure::Hours,
        }
    }

    /// How much one is in the SI unit of its measure: exact, after the international yard and pound of 1959.
    #[must_use]
    pub fn size(self) -> f64 {
        const FOOT: f64 = 0.3048;
        match self {
            Self::Metre | Self::SquareMetre | Self::CubicMetre | Self::Kilogram => 1.0,
            Self::Piece | Self::Hour => 1.0,
            Self::Foot => FOOT,
            Self::Yard => 0.9144,
            Self::SquareFoot => 0.092_903_04,
            Self::SquareYard => 0.836_127_36,
            Self::CubicFoot => 0.028_316_846_592,
            Self::CubicYard => 0.764_554_857_984,
            Self::Litre => 0.001,
            Self::Tonne => 1000.0,
            Self::Pound => 0.453_592_37,
            Self::ShortTon => 907.184_74,
        }
    }

    /// The division an order of it is rounded up to: what is sold by it loose is weighed or measured no finer.
    /// Common practice, no source.
    #[must_use]
    pub fn division(self) -> Decimal {
        match self {
            Self::Metre | Self::Foot | Self::Yard => Decimal::new(1, 1),
            Self::SquareMetre | Self::SquareYard | Self::CubicFoot => Decimal::new(1, 1),
            Self::CubicMetre | Self::CubicYard | Self::Tonne | Self::ShortTon => Decimal::new(1, 2),
            Self::Hour => Decimal::new(25, 2),
            Self::SquareFoot | Self::Litre | Self::Kilogram | Self::Pound | Self::Piece => {
                Decimal::ONE
            }
        }
    }

    /// Its sign, such as `m²`.
    #[must_use]
    pub fn sign(self) -> &'static str {
        match self {
            Self::Metre => "m",
            Self::Foot => "ft",
            Self::Yard => "yd",
            Self::SquareMetre => "m²",
            Self::SquareFoot => "ft²",
            Self::SquareYard => "yd²",
            Self::CubicMetre => "m³",
            Self::Litre => "l",
            Self::CubicFoot => "ft³",
            Self::CubicYard => "yd³",
            Self::Kilogram => "kg",
            Self::Tonne => "t",
            Self::Pound => "lb",
            Self::ShortTon => "short ton",
            Self::Piece => "piece",
            Self::Hour => "h",
        }
    }
}

/// How a thing is sold.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Sold {
    /// Loose, by a unit, in its divisions ([`Unit::division`]).
    Per(Unit),
    /// In whole packs: bags, rolls, lengths, loads.
    Pack {
        /// What one is called.
        name: String,
        /// How many units one holds.
        #[serde(deserialize_with = "written::count")]
        holds: Decimal,
        /// Units of what.
        unit: Unit,
    },
}

impl Sold {
    /// What it is counted in.
    #[must_use]
    pub fn unit(&self) -> Unit {
        match self {
            Self::Per(unit) | Self::Pack { unit, .. } => *unit,
        }
    }

    /// What one of it is called: the pack's name or the unit's sign.
    #[must_use]
    pub fn one(&self) -> &str {
        match self {
            Self::Per(unit) => unit.sign(),
            Self::Pack { name, .. } => name,
        }
    }

    /// How much one of it holds, in the SI unit of its measure.
    pub(super) fn holds(&self) -> f64 {
        match self {
            Self::Per(unit) => unit.size(),
            Self::Pack { holds, unit, .. } => holds.to_f64().unwrap_or(f64::NAN) * unit.size(),
        }
    }

    /// The division it is ordered in.
    pub(super) fn division(&self) -> Decimal {
        match self {
            Self::Per(unit) => unit.division(),
            Self::Pack { .. } => Decimal::ONE,
        }
    }
}

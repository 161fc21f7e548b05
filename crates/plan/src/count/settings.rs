//! What counting goes by that is the same for all options: the soil, the barrow, the skip.

use serde::{Deserialize, Serialize};

use super::{Because, Soil};
use crate::limits::{LimitError, name, range};
use crate::units::Ruler;

/// What counting goes by, the same for all options of a plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct CountSettings {
    /// What is dug.
    pub soil: Soil,
    /// What it is wheeled in.
    pub barrow: Barrow,
    /// How far a barrow is wheeled one way, in metres.
    pub distance: f64,
    /// What the spoil leaves in.
    pub carrier: Carrier,
    /// Whether hours of work are counted.
    pub labour: bool,
}

/// A wheelbarrow.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Barrow {
    /// How much loose soil it is filled with, in cubic metres.
    pub volume: f64,
    /// How much it may weigh, in kilograms.
    pub payload: f64,
}

/// A skip or trailer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Carrier {
    /// What it is called.
    pub name: String,
    /// How much it holds, in cubic metres.
    pub volume: f64,
    /// How much it may weigh, in kilograms.
    pub payload: f64,
}

/// Where the payload of the usual barrow comes from; 60 L of loose soil is common practice (50 to
/// 65 L are wheeled in a tray of 85).
const BARROW_SOURCE: &str =
    "60 L common practice, no source; 150 kg taylorfrancis.com 10.1201/b12981-45 (abstract)";
/// Where the usual skip comes from.
const CARRIER_SOURCE: &str =
    "6 yd³ = 4.6 m³; about 6 t: zaro.info, 6-yard skip; a supplier's rule, not a standard";

const OWN: &str = "own figure";

impl Default for CountSettings {
    fn default() -> Self {
        Self {
            soil: Soil::default(),
            barrow: Barrow::default(),
            distance: 20.0,
            carrier: Carrier::default(),
            labour: false,
        }
    }
}

impl Default for Barrow {
    fn default() -> Self {
        Self {
            volume: 0.060,
            payload: 150.0,
        }
    }
}

impl Default for Carrier {
    fn default() -> Self {
        Self {
            name: "6-yard skip".into(),
            volume: 4.6,
            payload: 6000.0,
        }
    }
}

impl Barrow {
    /// What is assumed of it.
    #[must_use]
    pub fn because(&self, ruler: Ruler) -> Because {
        let usual = *self == Self::default();
        Because {
            what: format!(
                "a barrow of {} carries {}",
                ruler.volume(self.volume),
                ruler.mass(self.payload)
            ),
            source: if usual { BARROW_SOURCE } else { OWN }.into(),
        }
    }
}

impl Carrier {
    /// What is assumed of it.
    #[must_use]
    pub fn because(&self, ruler: Ruler) -> Because {
        let usual = *self == Self::default();
        Because {
            what: format!(
                "one load ({}) is {} or {}, whichever is less",
                self.name,
                ruler.volume(self.volume),
                ruler.mass(self.payload)
            ),
            source: if usual { CARRIER_SOURCE } else { OWN }.into(),
        }
    }
}

impl CountSettings {
    pub(crate) fn is_usual(&self) -> bool {
        *self == Self::default()
    }

    pub(crate) fn check(&self) -> Result<(), LimitError> {
        let check = |what, value, low, high| range("counting", what, value, low, high);
        if let Soil::Other { bulking, density } = self.soil {
            check("the bulking of the soil", bulking, 1.0, 3.0)?;
            check("the density of the soil in kg/m³", density, 100.0, 4_000.0)?;
        }
        check("a barrow in cubic metres", self.barrow.volume, 0.001, 10.0)?;
        check(
            "what a barrow carries in kilograms",
            self.barrow.payload,
            1.0,
            10_000.0,
        )?;
        check(
            "how far a barrow is wheeled in metres",
            self.distance,
            0.0,
            10_000.0,
        )?;
        name("counting", &self.carrier.name)?;
        check("a load in cubic metres", self.carrier.volume, 0.01, 1_000.0)?;
        check(
            "a load in kilograms",
            self.carrier.payload,
            10.0,
            1_000_000.0,
        )
    }
}

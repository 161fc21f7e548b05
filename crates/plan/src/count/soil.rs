//! What is dug: how much room it takes once it is loose, and how much it weighs.

use serde::{Deserialize, Serialize};

use super::build_up::{Assumed, Source};

/// What is dug.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Soil {
    /// Sand.
    Sand,
    /// Sand and gravel.
    SandAndGravel,
    /// Loam: common earth.
    Loam,
    /// Clay.
    Clay,
    /// The top of a lawn.
    TopsoilWithTurf,
    /// Nobody has dug there yet.
    #[default]
    Unknown,
    /// As measured or known on the spot.
    Other {
        /// Loose volume for one in the ground, 1 or more.
        bulking: f64,
        /// Its loose density in kg/m³.
        density: f64,
    },
}

/// What is known of a soil.
#[derive(Clone, Debug, PartialEq)]
pub struct SoilData {
    /// What it is called.
    pub name: &'static str,
    /// Loose volume for one in the ground.
    pub bulking: Assumed,
    /// Its density once it is loose, in kg/m³.
    pub density: Assumed,
    /// Hours of one person to dig a cubic metre in the ground by hand, not deeper than 1 m.
    pub dig_hours: Assumed,
    /// Hours to load a cubic metre in the ground by hand.
    pub load_hours: Assumed,
}

const BULKING_TABLE: &str = "scribd.com 663198882, Bulking, shrinkage and bulk density (excerpt): sand 1.05, sand and gravel 1.15, clay 1.30";
const NAVY: &str = "tpub.com, Soil conversion factors (excerpt): 100 of sand in place are 111 loose; other tables say 1.05 to 1.20";
const SOFT_AND_FIRM: &str = "infi-sev.be 12818 (excerpt): soft clay, silt, sand, gravel 1.05 to 1.20, firm clay, peat, silt 1.20 to 1.40";
const DENSITY_TABLE: &str = "taylorfrancis.com 10.1201/b12981-45, table of densities (abstract)";
const SKIP: &str = "normanwenn-skiphire.co.uk, 8-yard skip: soil about 1.5 t/m³ loose";
const HOURS: &str = "menlo-academy.com, labour factors for excavation: by hand 1.2, 2.2 and 3.3 h/m³ in sand, medium and heavy soil; loading 1.0, 1.3 and 1.9";

impl Soil {
    /// All that are named.
    pub const ALL: [Self; 6] = [
        Self::Sand,
        Self::SandAndGravel,
        Self::Loam,
        Self::Clay,
        Self::TopsoilWithTurf,
        Self::Unknown,
    ];

    /// What is known of it.
    #[must_use]
    pub fn data(self) -> SoilData {
        let read = |value, range, source: &str| Assumed {
            value,
            range: Some(range),
            source: Source::Published(source.into()),
        };
        let practice = |value, range| Assumed {
            value,
            range: Some(range),
            source: Source::CommonPractice,
        };
        let (light, medium, heavy) = ((1.2, 1.0), (2.2, 1.3), (3.3, 1.9));
        let (name, bulking, density, (dig, load)) = match self {
            Self::Sand => (
                "sand",
                read(1.15, (1.05, 1.20), NAVY),
                read(1600.0, (1280.0, 1830.0), DENSITY_TABLE),
                light,
            ),
            Self::SandAndGravel => (
                "sand and gravel",
                read(1.15, (1.05, 1.20), BULKING_TABLE),
                read(1650.0, (1650.0, 2020.0), DENSITY_TABLE),
                medium,
            ),
            Self::Loam => (
                "loam",
                Assumed {
                    value: 1.25,
                    range: Some((1.20, 1.40)),
                    source: Source::FromMemory,
                },
                read(1440.0, (1250.0, 1600.0), DENSITY_TABLE),
                medium,
            ),
            Self::Clay => (
                "clay",
                read(1.40, (1.20, 1.43), SOFT_AND_FIRM),
                read(1600.0, (1070.0, 1600.0), DENSITY_TABLE),
                heavy,
            ),
            Self::TopsoilWithTurf => (
                "topsoil with turf",
                practice(1.40, (1.30, 1.50)),
                read(1440.0, (1250.0, 1600.0), DENSITY_TABLE),
                medium,
            ),
            Self::Unknown => (
                "soil of unknown kind",
                practice(1.30, (1.05, 1.50)),
                read(1500.0, (1070.0, 2020.0), SKIP),
                medium,
            ),
            Self::Other { bulking, density } => (
                "soil as measured",
                Assumed::own(bulking),
                Assumed::own(density),
                medium,
            ),
        };
        let hours = |value| Assumed {
            value,
            range: None,
            source: Source::Published(HOURS.into()),
        };
        SoilData {
            name,
            bulking,
            density,
            dig_hours: hours(dig),
            load_hours: hours(load),
        }
    }
}

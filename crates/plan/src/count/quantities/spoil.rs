//! What becomes of what is dug: loose, in barrows, in skips or trailers.

use serde::Serialize;

use super::super::packs::packed;
use super::super::{CountSettings, Soil};
use super::Amount;

/// What is wheeled away and taken away.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Spoil {
    /// Its volume in the ground.
    pub bank: f64,
    /// Its volume once it is loose.
    pub loose: Amount,
    /// Its mass.
    pub mass: Amount,
    /// The barrow loads it makes.
    pub barrows: Trips,
    /// The loads it leaves in.
    pub loads: Trips,
}

/// How often something is filled: by volume and by mass, whichever is more.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Trips {
    /// How many, were there no limit to its mass; not rounded.
    pub by_volume: f64,
    /// How many, were there no limit to its volume; not rounded.
    pub by_mass: f64,
    /// How many there are.
    pub trips: u64,
    /// The least and the most there may be.
    pub trips_range: [u64; 2],
    /// Which of the two limits them.
    pub limit: Limit,
    /// How far is walked, there and back.
    pub walked: f64,
}

/// What limits a load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Limit {
    /// It is full.
    Volume,
    /// It is as heavy as it may be.
    Mass,
}

impl Limit {
    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Volume => "volume",
            Self::Mass => "mass",
        }
    }
}

/// What becomes of so many cubic metres in the ground.
pub(super) fn spoil(settings: &CountSettings, bank: f64) -> Spoil {
    let (loose, mass) = loosened(settings.soil, bank);
    let carrier = &settings.carrier;
    Spoil {
        bank,
        loose,
        mass,
        barrows: barrows(settings, loose, mass),
        loads: trips(loose, mass, (carrier.volume, carrier.payload), 0.0),
    }
}

/// How much room it takes and how much it weighs once it is loose. What bulks more weighs no more,
/// so the range of the mass is that of the density alone.
fn loosened(soil: Soil, bank: f64) -> (Amount, Amount) {
    let data = soil.data();
    let loose = bank * data.bulking.value;
    let spread = |amount: f64, (low, high)| [amount * low, amount * high];
    (
        Amount {
            amount: loose,
            range: data.bulking.range.map(|range| spread(bank, range)),
        },
        Amount {
            amount: loose * data.density.value,
            range: data.density.range.map(|range| spread(loose, range)),
        },
    )
}

/// The barrow loads of what is loose.
pub(super) fn barrows(settings: &CountSettings, loose: Amount, mass: Amount) -> Trips {
    let barrow = settings.barrow;
    trips(
        loose,
        mass,
        (barrow.volume, barrow.payload),
        2.0 * settings.distance,
    )
}

fn trips(loose: Amount, mass: Amount, (volume, payload): (f64, f64), there_and_back: f64) -> Trips {
    let (by_volume, by_mass) = (loose.amount / volume, mass.amount / payload);
    let whole = |trips: f64| packed(trips, 1.0).count;
    let trips = whole(by_volume.max(by_mass));
    let end = |amount: Amount, end: usize| amount.range.map_or(amount.amount, |range| range[end]);
    Trips {
        by_volume,
        by_mass,
        trips,
        trips_range: [0, 1].map(|i| whole((end(loose, i) / volume).max(end(mass, i) / payload))),
        limit: if by_mass > by_volume {
            Limit::Mass
        } else {
            Limit::Volume
        },
        walked: trips as f64 * there_and_back,
    }
}

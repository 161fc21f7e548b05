//! What is chosen, and which stage of the job is open.

use plan::edit::{LegId, WaypointId};
use plan::solve::Origin;

/// The part of a path that is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Picked {
    /// A leg, counted from 0.
    Leg(usize),
    /// The rounding at a waypoint, counted from 0.
    Rounding(usize),
    /// A waypoint, counted from 0.
    Waypoint(usize),
}

impl From<Origin> for Picked {
    fn from(origin: Origin) -> Self {
        match origin {
            Origin::Leg(leg) | Origin::SecondBend(leg) => Self::Leg(leg),
            Origin::Rounding(waypoint) => Self::Rounding(waypoint),
        }
    }
}

/// What the window is turned to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pick {
    /// The option, counted from 0.
    pub scheme: usize,
    /// The path of it, counted from 0.
    pub route: usize,
    /// The part of it, if any.
    pub part: Option<Picked>,
}

impl Pick {
    /// A leg of the chosen path.
    #[must_use]
    pub fn leg(self, leg: usize) -> LegId {
        LegId {
            scheme: self.scheme,
            route: self.route,
            leg,
        }
    }

    /// A waypoint of the chosen path.
    #[must_use]
    pub fn waypoint(self, waypoint: usize) -> WaypointId {
        WaypointId {
            scheme: self.scheme,
            route: self.route,
            waypoint,
        }
    }
}

/// The stages of the job that this window has, in the order of the work.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stage {
    /// Draw what stands on the site.
    Measure,
    /// Choose where the path runs.
    #[default]
    Draw,
    /// Set the options beside each other.
    Compare,
    /// Count what to dig, buy and do.
    Count,
    /// Carry it outside.
    SetOut,
}

impl Stage {
    /// All stages, in the order of the work.
    pub const ALL: [Self; 5] = [
        Self::Measure,
        Self::Draw,
        Self::Compare,
        Self::Count,
        Self::SetOut,
    ];

    /// Its word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Measure => "Measure",
            Self::Draw => "Draw",
            Self::Compare => "Compare",
            Self::Count => "Count",
            Self::SetOut => "Set out",
        }
    }
}

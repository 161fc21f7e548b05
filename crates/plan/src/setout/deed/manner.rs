//! The manner in which deeds are told: to whom, in which units, and what is hooked on what.

use serde::{Deserialize, Serialize};

use super::{RightAngle, Spot, Taped};
use crate::document::Plan;
use crate::setout::Voice;

/// How deeds are told.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Manner {
    /// How lengths are spoken.
    pub voice: Voice,
    /// Who does them.
    pub crew: Crew,
    /// What hooks, rings and pegs take off a reading.
    pub allowances: Allowances,
    /// How long the tape is, in metres.
    pub tape: f64,
}

/// Who sets out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Crew {
    /// Two people: one holds the zero.
    Two,
    /// A person alone: every tape end is on a nail, a hook or a peg.
    #[default]
    Alone,
}

/// How much more a tape reads because of what its end is fastened with, in metres; nothing unless
/// it is set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Allowances {
    /// The hook at the tape's end, on a mark.
    pub hook: f64,
    /// The ring at the tape's end, on a nail.
    pub ring: f64,
    /// A peg's thickness: a loop round it starts half of that before the middle. Set where there
    /// are no nails in the pegs.
    pub peg: f64,
}

/// What the zero end of a tape is fastened to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fastening {
    /// Held by hand at the middle of the spot.
    Held,
    /// The hook on the mark.
    Hook,
    /// The ring on a nail.
    Ring,
    /// A loop round the peg.
    Loop,
}

impl Allowances {
    /// How much more the tape reads, in metres.
    #[must_use]
    pub fn of(&self, fastening: Fastening) -> f64 {
        match fastening {
            Fastening::Held => 0.0,
            Fastening::Hook => self.hook,
            Fastening::Ring => self.ring,
            Fastening::Loop => -0.5 * self.peg,
        }
    }
}

impl Manner {
    /// The manner a plan asks for, in its own units alone.
    #[must_use]
    pub fn of(plan: &Plan) -> Self {
        Self {
            voice: Voice {
                ruler: plan.ruler(),
                both: false,
            },
            crew: plan.set_out.crew,
            allowances: plan.set_out.allowances,
            tape: plan.tape.length,
        }
    }

    /// What the zero end is fastened to at a spot; a tape that is `swung` is never held.
    #[must_use]
    pub fn fastening(&self, spot: Spot, swung: bool) -> Fastening {
        match spot {
            _ if self.crew == Crew::Two && !swung => Fastening::Held,
            Spot::Mark(_) => Fastening::Hook,
            Spot::Peg(_) | Spot::Swing(_) if self.allowances.peg > 0.0 => Fastening::Loop,
            _ => Fastening::Ring,
        }
    }

    /// A distance as it is to be read off a tape so fastened: `3.160 m`, or
    /// `3.172 m, not 3.160 m`.
    #[must_use]
    pub fn read(&self, taped: &Taped, fastening: Fastening) -> String {
        let more = self.allowances.of(fastening);
        let drawn = self.voice.taped(taped);
        let read = self.voice.length(taped.exact + more);
        if read == drawn {
            drawn
        } else {
            format!("{read}, not {drawn}")
        }
    }

    /// How the right angle off a string is made.
    #[must_use]
    pub fn right_angle(&self, along: f64, length: f64, off: f64) -> RightAngle {
        RightAngle::choose(along, length, off, self.tape, self.voice.ruler.units)
    }
}

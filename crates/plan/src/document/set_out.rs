//! How paths are set out: by whom, with what tape, how far a string is swung, what is built.

use serde::{Deserialize, Serialize};

use crate::setout::{Allowances, CLEAR_OF_SPADE, Crew, Method, SWING_AWKWARD, SWING_COMFORTABLE};
use crate::solve::Origin;

/// What setting out has to go by, the same for all paths of a plan. Lengths in metres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct SetOutSettings {
    /// Who sets out.
    pub crew: Crew,
    /// What hooks, rings and pegs take off a reading.
    pub allowances: Allowances,
    /// The longest string that is comfortable to swing.
    pub comfortable: f64,
    /// The longest that is swung at all.
    pub longest_swing: f64,
    /// How far off the edge an offset peg stands, clear of the digging.
    pub offset_pegs: f64,
    /// What the tape is marked with.
    pub tape_class: TapeClass,
    /// What is built, and so how true its lines must be.
    pub surface: Surface,
    /// How far flags stand apart.
    pub spacing: Spacing,
}

impl Default for SetOutSettings {
    /// One person alone with tapes of glass fibre, who lays gravel between edgings.
    fn default() -> Self {
        Self {
            crew: Crew::default(),
            allowances: Allowances::default(),
            comfortable: SWING_COMFORTABLE,
            longest_swing: SWING_AWKWARD,
            offset_pegs: CLEAR_OF_SPADE,
            tape_class: TapeClass::default(),
            surface: Surface::default(),
            spacing: Spacing::default(),
        }
    }
}

impl SetOutSettings {
    pub(super) fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

/// What a tape is marked with, and so how far it may be out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum TapeClass {
    /// EU class I, the truest.
    One,
    /// EU class II: a good steel tape.
    Two,
    /// EU class III: most glass-fibre tapes, and any tape whose mark is worn off.
    #[default]
    Three,
    /// A British tape in feet of the older kind.
    Imperial,
    /// A metal tape in feet as American inspectors allow it.
    Handbook44,
}

/// What is built along the lines.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Surface {
    /// Bark or gravel without an edge.
    LooseGravel,
    /// Gravel between edgings.
    #[default]
    EdgedGravel,
    /// Brick, pavers or setts.
    Brick,
    /// Concrete poured in place.
    Concrete,
    /// Flags.
    Flags,
}

impl Surface {
    /// All of them, the roughest first.
    pub const ALL: [Self; 5] = [
        Self::LooseGravel,
        Self::EdgedGravel,
        Self::Brick,
        Self::Concrete,
        Self::Flags,
    ];

    /// How far the line may lie from the drawn one, in metres to each side; of loose gravel the near
    /// end of what practice allows, 25 to 50 mm, of the rest the far end.
    ///
    /// Common practice, no source.
    #[must_use]
    pub fn tolerance(self) -> f64 {
        match self {
            Self::LooseGravel => 0.025,
            Self::EdgedGravel => 0.015,
            Self::Brick | Self::Concrete => 0.010,
            Self::Flags => 0.005,
        }
    }

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::LooseGravel => "loose gravel",
            Self::EdgedGravel => "gravel between edgings",
            Self::Brick => "brick or pavers",
            Self::Concrete => "concrete",
            Self::Flags => "flags",
        }
    }
}

/// How far flags stand apart along a path.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Spacing {
    /// As far as is usual.
    #[default]
    Usual,
    /// So far, in metres, and no farther.
    Every(f64),
    /// So far that the bend stands no more than this off the line between two flags, in metres.
    Bow(f64),
}

/// The method a person chose for one bend of a path.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MethodChoice {
    /// The bend.
    pub of: Origin,
    /// How it is set out.
    pub method: Method,
}

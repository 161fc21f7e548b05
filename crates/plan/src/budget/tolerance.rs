//! How true a line must be for what is built along it.

/// What is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Work {
    /// Bark or gravel without an edge.
    LooseGravel,
    /// Gravel between edgings.
    EdgedGravel,
    /// Brick, pavers or setts.
    Brick,
    /// Concrete poured in place.
    Concrete,
    /// Flags.
    Flags,
}

impl Work {
    /// All of them, the roughest first.
    pub const ALL: [Self; 5] = [
        Self::LooseGravel,
        Self::EdgedGravel,
        Self::Brick,
        Self::Concrete,
        Self::Flags,
    ];

    /// How far the line may lie from the drawn one, in metres to each side; where practice gives
    /// a range, its far end for work that hides it and its near end for gravel, which shows it least.
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

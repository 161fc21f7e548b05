//! How true a line must be for what is built along it.

use super::Budget;
use super::blunder::small;
use crate::setout::Voice;

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

/// How true the lines of a course come out, for what is built along them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Verdict {
    /// What is built.
    pub work: Work,
    /// How far the lines may be out at worst, 95 times of 100, in metres.
    pub within: f64,
}

impl Budget {
    /// How the lines of its course suit what is built.
    #[must_use]
    pub fn verdict(&self, work: Work) -> Verdict {
        Verdict {
            work,
            within: self.line_within(),
        }
    }
}

impl Verdict {
    /// Whether the lines are true enough.
    #[must_use]
    pub fn suits(&self) -> bool {
        self.within <= self.work.tolerance()
    }

    /// In a sentence.
    #[must_use]
    pub fn words(&self, voice: &Voice) -> String {
        let length = |metres: f64| small(metres, voice.ruler.units);
        let (within, may) = (length(self.within), length(self.work.tolerance()));
        let work = self.work.name();
        if self.suits() {
            format!("The line may be out {within}: true enough for {work}, where {may} is forgiven")
        } else {
            format!("The line may be out {within}: too much for {work}, where {may} is forgiven")
        }
    }
}

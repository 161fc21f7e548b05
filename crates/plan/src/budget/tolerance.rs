//! How true a line must be for what is built along it.

use super::Budget;
use super::blunder::small;
use crate::document::Surface;
use crate::setout::Voice;

/// How true the lines of a course come out, for what is built along them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Verdict {
    /// What is built.
    pub surface: Surface,
    /// How far the lines may be out at worst, 95 times of 100, in metres.
    pub within: f64,
}

impl Budget {
    /// How the lines of its course suit what is built.
    #[must_use]
    pub fn verdict(&self, surface: Surface) -> Verdict {
        Verdict {
            surface,
            within: self.line_within(),
        }
    }
}

impl Verdict {
    /// Whether the lines are true enough.
    #[must_use]
    pub fn suits(&self) -> bool {
        self.within <= self.surface.tolerance()
    }

    /// In a sentence.
    #[must_use]
    pub fn words(&self, voice: &Voice) -> String {
        let length = |metres: f64| small(metres, voice.ruler.units);
        let (within, may) = (length(self.within), length(self.surface.tolerance()));
        let surface = self.surface.name();
        if self.suits() {
            format!(
                "The line may be out {within}: true enough for {surface}, where {may} is forgiven"
            )
        } else {
            format!("The line may be out {within}: too much for {surface}, where {may} is forgiven")
        }
    }
}

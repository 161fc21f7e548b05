//! A course: the deeds of one method in the order in which they are done.

use geometry::Arc;
use serde::{Deserialize, Serialize};

use super::{CannotDo, Deed, Made, PathLine, Spot, Spots, Taped, carry_out};
use crate::setout::{Step, Voice};

/// An ordered run of deeds that sets out a bend, a straight or a set of pegs.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// How.
    pub method: Method,
    /// The lines of the path it sets out.
    pub lines: Vec<PathLine>,
    /// The spots that stand before it begins.
    pub given: Vec<Spot>,
    /// What is done, in order. No deed uses a spot that was not given or made before it.
    pub deeds: Vec<Deed>,
    /// Every spot given or made, where the plan has it.
    pub spots: Spots,
    /// What can be checked over the whole of it by walking the edges.
    pub foreman: Option<Foreman>,
}

/// A way to set out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Method {
    /// A tape swung about the swing point, which two strings find.
    Swing,
    /// The same, the swing point squared off the chord.
    SwingSquaredOff,
    /// Offsets from the chord.
    ChordOffsets,
    /// Two tapes crossing at every flag.
    Ties,
    /// The rise of the chord, of both half chords, and so on.
    Halving,
    /// Offsets from the tangents at both ends.
    TangentOffsets,
    /// Deflection angles laid off as offsets, and chords.
    Deflections,
    /// Chords, each carried on and pulled in.
    SuccessiveChords,
    /// Two battens fixed at the inscribed angle.
    Battens,
    /// A string from peg to peg.
    Straight,
    /// Pegs tied to the marks, or squared off the base line.
    Pegs,
}

/// What a foreman checks with a tape laid along the edges; exact for every smooth bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foreman {
    /// The outside edge less the inside edge: width times sweep, whatever the radius.
    pub edges_differ: Taped,
    /// Width times length of the centre line, in square metres.
    pub area: f64,
}

impl Method {
    /// All that set out a bend, in the order in which they are offered.
    pub const OF_A_BEND: [Self; 9] = [
        Self::Swing,
        Self::SwingSquaredOff,
        Self::ChordOffsets,
        Self::Ties,
        Self::Halving,
        Self::TangentOffsets,
        Self::Deflections,
        Self::SuccessiveChords,
        Self::Battens,
    ];

    /// Whether it sets out bends.
    #[must_use]
    pub fn is_of_a_bend(self) -> bool {
        Self::OF_A_BEND.contains(&self)
    }

    /// What it is called at the head of a page.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Swing => "swing, the swing point found with two tapes",
            Self::SwingSquaredOff => "swing, the swing point squared off the chord",
            Self::ChordOffsets => "offsets from the chord",
            Self::Ties => "two tapes crossing",
            Self::Halving => "halving",
            Self::TangentOffsets => "offsets from the tangents",
            Self::Deflections => "deflections and chords",
            Self::SuccessiveChords => "successive chords",
            Self::Battens => "two battens",
            Self::Straight => "string from peg to peg",
            Self::Pegs => "pegs from the marks",
        }
    }
}

impl Foreman {
    /// In words: what to measure, and what it must come to.
    #[must_use]
    pub fn words(&self, voice: &Voice) -> Step {
        Step {
            text: format!(
                "Lay the tape along both edges of the bend from end to end and take the shorter from the longer. Between them lie {}.",
                voice.ruler.area(self.area)
            ),
            check: Some(format!(
                "the outside edge must be {} longer than the inside edge",
                voice.taped(&self.edges_differ)
            )),
        }
    }
}

impl Course {
    /// The first deed that uses or reads a spot which does not stand by then, and that spot.
    /// `None` for every course of this crate.
    #[must_use]
    pub fn out_of_order(&self) -> Option<(usize, Spot)> {
        let mut stands = self.given.clone();
        for (i, deed) in self.deeds.iter().enumerate() {
            let missing = |spots: Vec<Spot>| spots.into_iter().find(|spot| !stands.contains(spot));
            if let Some(spot) = missing(deed.uses()) {
                return Some((i, spot));
            }
            stands.extend(deed.makes);
            let read = deed.checks.iter().flat_map(|check| [check.from, check.to]);
            if let Some(spot) = read.into_iter().find(|spot| !stands.contains(spot)) {
                return Some((i, spot));
            }
        }
        None
    }

    /// Does every deed in turn from the given spots, with the distances that `pull` says were
    /// pulled for the figures of each, in metres. Answers with where everything then stands, and
    /// the lines struck.
    ///
    /// # Errors
    /// Of the first deed that cannot be done.
    pub fn carried_out(
        &self,
        mut pull: impl FnMut(&Deed) -> Vec<f64>,
    ) -> Result<(Spots, Vec<(PathLine, Arc)>), CannotDo> {
        let mut stand = self.spots.only(&self.given);
        let mut lines = Vec::new();
        for deed in &self.deeds {
            match (carry_out(deed, &stand, &pull(deed))?, deed.makes) {
                (Made::Spot(at), Some(spot)) => stand.put(spot, at),
                (Made::Line(arc), _) => lines.extend(deed.line().map(|line| (line, arc))),
                _ => {}
            }
        }
        Ok((stand, lines))
    }
}

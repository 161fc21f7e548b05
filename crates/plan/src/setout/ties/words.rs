//! Ties in words: which way to pull, on which side the spot lies, and why there is none.

use geometry::Point;

use super::{Anchor, AnchorKind, CrossingVerdict, Passable, Tie, TieError, Ties};
use crate::document::{Mark, ObstacleKind};
use crate::setout::{Step, Voice, taping_allowance};
use crate::surroundings::Surroundings;
use crate::units::{Units, angle_text};

/// An obstacle this near to a spot tells a person on which side it lies, in metres; common
/// practice, no source.
const NEAR_BY: f64 = 3.0;

impl Ties {
    /// How to set a spot by its ties, for a person who has the marks before their eyes and no plan:
    /// `what` is the spot's name, such as `peg 3`.
    #[must_use]
    pub fn step(&self, what: &str, surroundings: Option<&Surroundings>, voice: &Voice) -> Step {
        let [first, second] = &self.pair;
        let care = match self.verdict {
            CrossingVerdict::Good => "",
            CrossingVerdict::Slight => {
                " The two pulls cross at a small angle: keep the tape level and read each twice."
            }
        };
        let text = format!(
            "{what}: pull {} and {}; it stands where both meet, {}.{care}",
            first.words(voice),
            second.words(voice),
            self.side_words(surroundings)
        );
        let check = self.check.as_ref().map(|tie| {
            format!(
                "from {} it must read {}, give or take {}",
                tie.anchor.name,
                voice.taped(&tie.distance),
                voice.length(self.allowed(tie))
            )
        });
        Step { text, check }
    }

    /// On which side of the two anchors the spot lies, told without the plan: as one looks from the
    /// first to the second, and beside which obstacle, where one near by lies on that side alone.
    #[must_use]
    pub fn side_words(&self, surroundings: Option<&Surroundings>) -> String {
        let [first, second] = [0, 1].map(|i: usize| &self.pair[i].anchor.name);
        let beside = surroundings
            .and_then(|surroundings| self.beside(surroundings))
            .map_or_else(String::new, |name| format!(", on the side of {name}"));
        format!(
            "{} as you look from {first} to {second}{beside}",
            self.side.word()
        )
    }

    /// The obstacle that lies near the spot, on its side of the line, and not as near to where the
    /// same two pulls meet on the other side.
    fn beside(&self, surroundings: &Surroundings) -> Option<String> {
        let site = surroundings.site();
        let seen_near = |point: Point| {
            let near = surroundings.ground().near_point(point, NEAR_BY);
            let all = near
                .into_iter()
                .map(|(patch, gap)| (surroundings.obstacle_of(patch), gap));
            all.filter(|(obstacle, _)| is_seen(site.obstacles[*obstacle].kind))
        };
        let (obstacle, gap) =
            seen_near(self.spot).min_by(|a, b| a.1.distance.total_cmp(&b.1.distance))?;
        let is_near_there = seen_near(self.mirrored(self.spot)).any(|(other, _)| other == obstacle);
        let is_on_this_side = self.is_left(gap.to) == self.is_left(self.spot);
        (is_on_this_side && !is_near_there).then(|| site.obstacles[obstacle].called())
    }

    fn is_left(&self, point: Point) -> bool {
        let [from, to] = [self.pair[0].anchor.at, self.pair[1].anchor.at];
        (to - from).cross(point - from) > 0.0
    }

    fn mirrored(&self, point: Point) -> Point {
        let [from, to] = [self.pair[0].anchor.at, self.pair[1].anchor.at];
        let line = to - from;
        let off = line.cross(point - from) / line.dot(line);
        point - line.left() * (2.0 * off)
    }

    /// How far a check may be out, in metres: its own pull, and the spot where that is out the most.
    #[must_use]
    pub fn allowed(&self, tie: &Tie) -> f64 {
        taping_allowance(tie.distance.exact).hypot(self.spread)
    }
}

/// Whether one can see it on the ground.
fn is_seen(kind: ObstacleKind) -> bool {
    !matches!(kind, ObstacleKind::Service | ObstacleKind::Boundary)
}

impl Tie {
    fn words(&self, voice: &Voice) -> String {
        let how = match self.passable {
            Passable::Care => " (held up clear of what is under it)",
            Passable::Clear | Passable::Blocked => "",
        };
        format!(
            "{} from {}{how}",
            voice.taped(&self.distance),
            self.anchor.name
        )
    }
}

impl TieError {
    /// Why nothing fixes a spot, and what to do, in one sentence without a stop.
    #[must_use]
    pub fn words(&self, what: &str, voice: &Voice) -> String {
        match *self {
            Self::TooFew { found } => format!(
                "{what} has no ties: there {} to tape from; add a second mark, such as the corner of a wall, well to one side of the first",
                match found {
                    0 => "is no mark",
                    _ => "is only one mark",
                }
            ),
            Self::OutOfReach { second, tape } => format!(
                "{what} has no ties: the second nearest mark is {} away and the tape {} long; add a mark nearer by, or bring a longer tape",
                voice.length(second),
                voice.length(tape)
            ),
            Self::Blocked => format!(
                "{what} has no ties: something stands in the way of all marks but one at most; add a mark that can be seen from there"
            ),
            Self::Crossing { best } => format!(
                "{what} has no ties: the pulls from the marks would cross at {}, and between 30° and 150° fixes a spot; add a mark to one side",
                angle_text(best)
            ),
        }
    }
}

/// What to do where a peg cannot be driven.
#[must_use]
pub fn moved_peg_words(voice: &Voice) -> String {
    let round = match voice.ruler.units {
        Units::Metric => "10 cm",
        Units::FeetInches => "4 in",
    };
    format!(
        "Where a peg meets a root or a stone leave both where they are: drive it beside, a round {round} along the string or square off it, and write on it how far and which way the true place lies, such as “{round} on towards peg 4”. Tape from the true place, never from the peg that stands beside it."
    )
}

/// What to do when the edges are dug first and the pegs of the centre line are lost.
#[must_use]
pub fn lost_pegs_words() -> [Step; 3] {
    let step = |text: &str, check: Option<&str>| Step {
        text: text.to_owned(),
        check: check.map(str::to_owned),
    };
    [
        step(
            "Before the first spade: drive the offset pegs, write on each what is told, and read the ties of every peg once more. Write down what they read, not what they should.",
            None,
        ),
        step(
            "A peg that was dug out: pull the tape from its offset peg, square to the path, as far as is written on it.",
            Some("its two ties must read as before"),
        ),
        step(
            "Where its offset peg is lost too: put it back by its two ties, on the side that is told.",
            Some("the third pull of the table must read as before"),
        ),
    ]
}

impl From<&Mark> for Anchor {
    fn from(mark: &Mark) -> Self {
        Self {
            name: mark.name.clone(),
            at: mark.at,
            kind: AnchorKind::Mark,
        }
    }
}

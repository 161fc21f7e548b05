//! Clean bends offered for a leg of a plan: each one edit, kept only where nothing gets worse.

use std::fmt;

use geometry::{Bend, Direction, Figure, SAME_PLACE};

use super::{CleanBend, clean_bends};
use crate::document::{Plan, Route, Shape};
use crate::edit::{Edit, LegId};
use crate::finding::Severity;
use crate::room::Room;
use crate::setout::Voice;
use crate::setout::steps::fine;
use crate::solve::{Origin, Solved};

/// One bend to take instead of the drawn one.
#[derive(Clone, Debug, PartialEq)]
pub struct CleanOffer {
    /// What takes it: one step to undo.
    pub edit: Edit,
    /// The bend, and how far the path moves.
    pub bend: CleanBend,
}

/// Whether the end pegs of the bend may move.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum EndPegs {
    /// They stay: only the rise changes, and the chord stays as it is drawn.
    Kept,
    /// They may move along the chord, each by half its change.
    Moved,
}

/// Why nothing is offered for a leg.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CleanError {
    /// It is no free bend.
    NotABend,
    /// A corner at its end is rounded, so that what is taped is shorter than the bend.
    Rounded,
}

impl fmt::Display for CleanError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotABend => {
                "only a free bend has a chord and a rise to choose: make the leg one first"
            }
            Self::Rounded => {
                "a corner at the end of this bend is rounded and takes some of it away: make the corner sharp first"
            }
        })
    }
}

impl std::error::Error for CleanError {}

/// So many are offered.
const OFFERED: usize = 3;

impl Plan {
    /// Bends near a drawn one with figures that the tape shows, three at most; none where nothing
    /// near is cleaner.
    ///
    /// Where the end pegs may move, those with moved pegs stand first and at least one of the three
    /// keeps them. An end peg that another path or a typed chord holds stays. None leaves the
    /// `room`, and none is offered that gives the plan more to put right than `solved`, its
    /// solution, has.
    ///
    /// # Errors
    /// [`CleanError`] if the leg is no free bend, or not all of it is left.
    pub fn clean_offers(
        &self,
        id: LegId,
        solved: &Solved,
        pegs: EndPegs,
        room: Option<&Room>,
    ) -> Result<Vec<CleanOffer>, CleanError> {
        let leg = Leg::of(self, id, solved)?;
        let shares = match pegs {
            EndPegs::Kept => [0.0, 0.0],
            EndPegs::Moved => leg.shares(),
        };
        let no_worse = |edit: &Edit| {
            let edited = self.with(edit).ok().filter(|e| e.stopped.is_none());
            edited.is_some_and(|edited| {
                let after = edited.plan.solve_after(Some(solved));
                let count = |of: &Solved, severity: Severity| {
                    of.findings
                        .iter()
                        .filter(|f| f.severity == severity)
                        .count()
                };
                [Severity::Stop, Severity::Care]
                    .iter()
                    .all(|severity| count(&after, *severity) <= count(solved, *severity))
            })
        };
        let offers = |shares: [f64; 2]| -> Vec<CleanOffer> {
            let fits = |rise: f64| room.is_none_or(|room| room.fits(rise.copysign(leg.rise)));
            clean_bends(&leg.bend, leg.route.width, &self.ruler(), shares, fits)
                .into_iter()
                .map(|bend| CleanOffer {
                    edit: leg.edit(&bend),
                    bend,
                })
                .filter(|offer| no_worse(&offer.edit))
                .take(OFFERED)
                .collect()
        };
        let mut kept = offers([0.0, 0.0]);
        let mut moved = match shares {
            [first, last] if first + last > 0.0 => offers(shares),
            _ => Vec::new(),
        };
        kept.truncate(OFFERED.saturating_sub(moved.len()).max(1));
        moved.truncate(OFFERED - kept.len());
        moved.append(&mut kept);
        Ok(moved)
    }
}

/// A free bend of a plan, all of it left.
struct Leg<'a> {
    id: LegId,
    route: &'a Route,
    ends: [usize; 2],
    rise: f64,
    holds_chord: bool,
    bend: Bend,
}

impl<'a> Leg<'a> {
    fn of(plan: &'a Plan, id: LegId, solved: &Solved) -> Result<Self, CleanError> {
        let not_a_bend = CleanError::NotABend;
        let route = plan.route(id.scheme, id.route).ok_or(not_a_bend)?;
        let Some(Shape::Bend { rise, holds }) = route.legs.get(id.leg) else {
            return Err(not_a_bend);
        };
        let (from, to) = route.ends_of(id.leg).ok_or(not_a_bend)?;
        let [start, end] = [from, to].map(|i| route.waypoints.get(i).map(|w| w.at));
        let (start, end) = start.zip(end).ok_or(not_a_bend)?;
        let path = solved
            .schemes
            .get(id.scheme)
            .and_then(|s| s.routes.get(id.route));
        let arc = path.and_then(|path| {
            let piece = path.piece_of(Origin::Leg(id.leg))?;
            path.centre_line.as_ref()?.pieces().get(piece)?.arc()
        });
        let arc = arc.ok_or(CleanError::Rounded)?;
        if arc.start().distance(start).max(arc.end().distance(end)) > SAME_PLACE {
            return Err(CleanError::Rounded);
        }
        Ok(Self {
            id,
            route,
            ends: [from, to],
            rise: *rise,
            holds_chord: holds.contains(&Figure::Chord),
            bend: Bend::from_chord_and_rise(start.distance(end), rise.abs())
                .map_err(|_| not_a_bend)?,
        })
    }

    /// Which share of a change of the chord each end peg takes.
    fn shares(&self) -> [f64; 2] {
        let [first, last] = self.ends.map(|end| {
            let stays = end == 0 && self.route.start_on.is_some();
            if stays || self.holds_chord { 0.0 } else { 1.0 }
        });
        let all: f64 = first + last;
        [first, last].map(|share: f64| share / all.max(1.0))
    }

    fn edit(&self, clean: &CleanBend) -> Edit {
        let rise = clean.bend.rise().copysign(self.rise);
        let [start, end] = self.ends.map(|end| self.route.waypoints[end].at);
        let [first, last] = clean.ends;
        let Some(way) = Direction::of(end - start).filter(|_| first.abs() + last.abs() > 0.0)
        else {
            return Edit::SetRise { id: self.id, rise };
        };
        Edit::SetBend {
            id: self.id,
            ends: [start - way.unit() * first, end + way.unit() * last],
            rise,
        }
    }
}

impl CleanOffer {
    /// The offer in one sentence without a stop: its figures, which of them the tape shows, and how
    /// far the path moves.
    #[must_use]
    pub fn words(&self, voice: &Voice) -> String {
        let bend = &self.bend;
        let all: Vec<_> = bend.figures().collect();
        let figures: Vec<String> = all
            .iter()
            .map(|(name, taped)| format!("{name} {}", voice.taped(taped)))
            .collect();
        let off: Vec<String> = all
            .iter()
            .filter(|(_, taped)| !taped.is_clean())
            .map(|(name, taped)| {
                format!("the {name}, {} off", fine(taped.off(), voice.ruler.units))
            })
            .collect();
        let tape = if off.is_empty() {
            "all on the tape".to_owned()
        } else {
            format!("all on the tape but {}", off.join(", "))
        };
        let length = |metres: f64| fine(metres, voice.ruler.units);
        let apex = length(bend.apex_out.hypot(bend.apex_along));
        let [first, last] = bend.ends.map(f64::abs);
        let pegs = if first.max(last) <= 0.0 {
            "the end pegs stay".to_owned()
        } else if first > 0.0 && last > 0.0 {
            format!("each end peg {}", length(first))
        } else {
            format!("one end peg {}", length(first.max(last)))
        };
        format!(
            "{}: {tape}; the apex moves {apex}, {pegs}",
            figures.join(", ")
        )
    }
}

//! What would make the line truer, found by trying it.

use super::blunder::small;
use super::{Budget, Swung, TapeClass, Taping};
use crate::document::Surface;
use crate::setout::methods::BendJob;
use crate::setout::{Course, Deed, Doing, Method, Spot, Spots, Taped, Voice};

/// A change that was tried.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// What is changed.
    pub remedy: Remedy,
    /// How far what it changes may be out as it is, in metres, 95 times of 100: for a tie its
    /// spot's place, otherwise the lines at worst.
    pub before: f64,
    /// The same with the change.
    pub after: f64,
    /// How far the lines may then be out at worst, 95 times of 100.
    pub lines: f64,
}

/// What may be changed, the cheapest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remedy {
    /// A tie pulled from another spot.
    Tie {
        /// The spot that is tied.
        spot: Spot,
        /// Where the tape is to start.
        from: Spot,
        /// Where it started.
        instead_of: Spot,
    },
    /// Arcs struck with the tape itself.
    SwingTheTape,
    /// Another method.
    Method(Method),
    /// A truer tape.
    Tape(TapeClass),
}

/// Another change has to gain so much, in metres, to be worth saying.
const WORTH_IT: f64 = 0.001;

/// Everything that was tried for a course of a bend and makes it truer, the cheapest kind first and
/// of one kind the one that gains the most.
#[must_use]
pub fn changes(job: &BendJob, course: &Course, taping: &Taping) -> Vec<Change> {
    let budget = Budget::of(course, taping);
    let before = budget.line_within();
    let lines = |remedy: Remedy, budget: &Budget| Change {
        remedy,
        before,
        after: budget.line_within(),
        lines: budget.line_within(),
    };
    let mut found: Vec<Change> = ties(course, taping, &budget);
    if taping.swung != Swung::Tape {
        let tape = Taping {
            swung: Swung::Tape,
            ..*taping
        };
        found.push(lines(Remedy::SwingTheTape, &Budget::of(course, &tape)));
    }
    let others = METHODS.into_iter().filter(|other| *other != course.method);
    found.extend(others.filter_map(|method| {
        let other = job.course(method).ok()?;
        Some(lines(Remedy::Method(method), &Budget::of(&other, taping)))
    }));
    found.extend(taping.class.better().iter().map(|&class| {
        let truer = Taping { class, ..*taping };
        lines(Remedy::Tape(class), &Budget::of(course, &truer))
    }));
    found.retain(|change| change.before - change.after >= WORTH_IT);
    found.sort_by(|one, other| {
        let cost = one.remedy.cost().cmp(&other.remedy.cost());
        cost.then(one.after.total_cmp(&other.after))
    });
    found
}

/// The methods tried for a bend.
const METHODS: [Method; 9] = [
    Method::Swing,
    Method::SwingSquaredOff,
    Method::ChordOffsets,
    Method::Ties,
    Method::Halving,
    Method::TangentOffsets,
    Method::Deflections,
    Method::SuccessiveChords,
    Method::Battens,
];

/// Of some changes the cheapest with which the lines suit what is built; where none does, the one after
/// which they are truest.
#[must_use]
pub fn cheapest(changes: &[Change], surface: Surface) -> Option<&Change> {
    let enough = |change: &&Change| change.lines <= surface.tolerance();
    let truest = || {
        let all = changes.iter();
        all.min_by(|one, other| one.lines.total_cmp(&other.lines))
    };
    changes.iter().find(enough).or_else(truest)
}

/// The spot tied the worst, tied from every mark, peg and apex that stands by then in place of
/// either; not from flags, which are tied themselves. Crossings of other methods are part of these.
fn ties(course: &Course, taping: &Taping, budget: &Budget) -> Vec<Change> {
    let reach = |budget: &Budget, spot: Spot| {
        let error = budget.spots.get(&spot);
        error.map_or(0.0, |error| error.shift.length() + error.ellipse().long)
    };
    if course.method != Method::Ties {
        return Vec::new();
    }
    let tied = course.deeds.iter().enumerate().filter_map(|(i, deed)| {
        let held = matches!(
            deed.does,
            Doing::Cross {
                scratches: None,
                ..
            }
        );
        held.then_some((i, deed.makes?))
    });
    let Some((place, spot)) =
        tied.max_by(|(_, one), (_, other)| reach(budget, *one).total_cmp(&reach(budget, *other)))
    else {
        return Vec::new();
    };
    let made = course.deeds[..place].iter().filter_map(|deed| deed.makes);
    let stands: Vec<Spot> = course.given.iter().copied().chain(made).collect();
    let uses = course.deeds[place].uses();
    let mut found: Vec<Change> = stands
        .iter()
        .filter(|from| !matches!(from, Spot::Flag { .. } | Spot::Aim { .. }))
        .filter(|from| !uses.contains(from))
        .flat_map(|&from| [0, 1].map(|end| (from, end)))
        .filter_map(|(from, end)| {
            let mut tried = course.clone();
            tried.deeds[place] = tied_from(&course.deeds[place], end, from, course, taping)?;
            let after = Budget::of(&tried, taping);
            Some(Change {
                remedy: Remedy::Tie {
                    spot,
                    from,
                    instead_of: *uses.get(end)?,
                },
                before: reach(budget, spot),
                after: reach(&after, spot),
                lines: after.line_within(),
            })
        })
        .collect();
    found.sort_by(|one, other| one.after.total_cmp(&other.after));
    found.truncate(1);
    found
}

/// A tie with one of its two tapes from another spot.
fn tied_from(
    deed: &Deed,
    end: usize,
    from: Spot,
    course: &Course,
    taping: &Taping,
) -> Option<Deed> {
    let Doing::Cross { one, other, .. } = deed.does else {
        return None;
    };
    let at = course.spots.at(deed.makes?)?;
    let start = course.spots.at(from)?;
    let pulled = (from, Taped::new(start.distance(at), &taping.ruler));
    let [one, other] = if end == 0 {
        [pulled, other]
    } else {
        [one, pulled]
    };
    let (a, b) = (course.spots.at(one.0)?, course.spots.at(other.0)?);
    let left = (b - a).cross(at - a);
    (left != 0.0).then(|| Deed {
        does: Doing::Cross {
            one,
            other,
            left: left > 0.0,
            scratches: None,
        },
        ..deed.clone()
    })
}

impl Remedy {
    /// Less is cheaper: nothing, walking back for the tape, beginning again, buying a tape.
    fn cost(self) -> u8 {
        match self {
            Self::Tie { .. } => 0,
            Self::SwingTheTape => 1,
            Self::Method(_) => 2,
            Self::Tape(_) => 3,
        }
    }
}

impl Change {
    /// In a sentence: `tie C1.3 from gate post, not peg 2: 14 mm to 6 mm`.
    #[must_use]
    pub fn words(&self, spots: &Spots, voice: &Voice) -> String {
        let what = match self.remedy {
            Remedy::Tie {
                spot,
                from,
                instead_of,
            } => format!(
                "tie {} from {}, not {}",
                spots.name(spot),
                spots.name(from),
                spots.name(instead_of)
            ),
            Remedy::SwingTheTape => "swing the tape, not a string".to_owned(),
            Remedy::Method(method) => method.name().to_owned(),
            Remedy::Tape(class) => format!("use {}", class.name()),
        };
        let units = voice.ruler.units;
        format!(
            "{what}: {} to {}",
            small(self.before, units),
            small(self.after, units)
        )
    }
}

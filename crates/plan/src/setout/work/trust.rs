//! How far the work of a path can be trusted: what may be out how far, what would help most, and which
//! blunders no check shows.

use geometry::Point;

use super::ways::job;
use super::{BendWork, RouteWork};
use crate::budget::{
    Blunder, Budget, Change, Remedy, SpotError, Taping, Verdict, blunder, changes, cheapest,
};
use crate::document::Plan;
use crate::setout::{Course, PathLine, Spot, Voice};

/// How far the work of one path can be trusted.
#[derive(Clone, Debug, PartialEq)]
pub struct Trust {
    /// The pegs as they are driven from the marks.
    pub pegs: CourseTrust,
    /// The bends, each by the way it is set out: their spots from pegs so far out, their lines from
    /// the pegs where they stand, since a bend that is moved with its pegs is no less round.
    pub bends: Vec<BendTrust>,
}

/// What one course leaves out of place.
#[derive(Clone, Debug, PartialEq)]
pub struct CourseTrust {
    /// The spots it makes.
    pub spots: Vec<SpotTrust>,
    /// Blunders of one figure that none of its checks shows, those that do the most harm first, in
    /// sentences.
    pub unseen: Vec<String>,
    /// By how much each of these figures is misread, and how far that puts a line out, metres.
    pub misread: Vec<[f64; 2]>,
}

/// One spot, and how far it may stand from where the plan has it.
#[derive(Clone, Debug, PartialEq)]
pub struct SpotTrust {
    /// The spot.
    pub spot: Spot,
    /// What it is called.
    pub name: String,
    /// Where the plan has it.
    pub at: Point,
    /// How far it may be out.
    pub error: SpotError,
}

/// One bend by the way it is set out.
#[derive(Clone, Debug, PartialEq)]
pub struct BendTrust {
    /// Its number among the bends of the path, from 1.
    pub number: usize,
    /// Whether its lines come out true enough for what is built.
    pub verdict: Verdict,
    /// How far each line may lie off the drawn one at worst, 95 times of 100, in metres.
    pub lines: Vec<(PathLine, f64)>,
    /// Its spots and its blunders.
    pub course: CourseTrust,
    /// The cheapest change with which its lines would suit, or the one that gains the most; `None`
    /// where nothing was found that is worth it. With it, what it is in words: `tie C1.3 from gate
    /// post, not peg 2: 14 mm to 6 mm`.
    pub change: Option<(Change, String)>,
}

impl RouteWork {
    /// How far this work of a path of the plan can be trusted.
    #[must_use]
    pub fn trust(&self, plan: &Plan) -> Trust {
        let taping = Taping::of(plan);
        let voice = Voice {
            ruler: plan.ruler(),
            both: false,
        };
        let pegging = Budget::of(&self.pegging, &taping);
        let from_pegs = Taping {
            pegs: pegging.spread(),
            ..taping
        };
        let bends = self.bends.iter();
        let bends = bends.filter_map(|bend| bend_trust(bend, plan, [&taping, &from_pegs], &voice));
        Trust {
            pegs: course_trust(&self.pegging, &pegging, &voice),
            bends: bends.collect(),
        }
    }
}

impl Trust {
    /// Every spot that is made, pegs first.
    pub fn spots(&self) -> impl Iterator<Item = &SpotTrust> {
        let bends = self.bends.iter().flat_map(|bend| &bend.course.spots);
        self.pegs.spots.iter().chain(bends)
    }
}

/// A change of what is true enough is told from this share of what it was down; own choice.
const WORTH: f64 = 0.75;

fn bend_trust(
    work: &BendWork,
    plan: &Plan,
    [taping, from_pegs]: [&Taping; 2],
    voice: &Voice,
) -> Option<BendTrust> {
    let way = work.way();
    let course = way.course.as_ref().ok()?;
    let budget = Budget::of(course, taping);
    let can_be_done = |change: &Change| match change.remedy {
        Remedy::Method(method) => {
            let other = work.ways.iter().find(|way| way.method == method);
            other.is_some_and(super::Way::is_possible)
        }
        _ => true,
    };
    let mut found = changes(&job(&work.bend, plan), course, taping);
    found.retain(can_be_done);
    let verdict = budget.verdict(plan.set_out.surface);
    // What suits already is worth changing only for a good deal.
    let is_worth_it = |change: &&Change| !verdict.suits() || change.after <= WORTH * change.before;
    let change = cheapest(&found, plan.set_out.surface).filter(is_worth_it);
    Some(BendTrust {
        number: work.bend.number,
        verdict,
        lines: budget
            .lines
            .iter()
            .map(|line| {
                let worst = line.worst();
                (line.line, worst.map_or(0.0, crate::budget::Station::within))
            })
            .collect(),
        change: change.map(|change| (*change, change.words(&course.spots, voice))),
        course: CourseTrust {
            spots: spots(course, &Budget::of(course, from_pegs)),
            ..course_trust(course, &budget, voice)
        },
    })
}

fn course_trust(course: &Course, budget: &Budget, voice: &Voice) -> CourseTrust {
    let unseen = budget.unseen(course, blunder(voice.ruler.units));
    let words = |blunder: &Blunder| blunder.words(course, voice);
    CourseTrust {
        spots: spots(course, budget),
        unseen: unseen.iter().map(words).collect(),
        misread: unseen.iter().map(|found| [found.by, found.moves]).collect(),
    }
}

fn spots(course: &Course, budget: &Budget) -> Vec<SpotTrust> {
    let made = course.deeds.iter().filter_map(|deed| deed.makes);
    let spots = made.filter_map(|spot| {
        Some(SpotTrust {
            spot,
            name: course.spots.name(spot),
            at: course.spots.at(spot)?,
            error: *budget.spots.get(&spot)?,
        })
    });
    spots.collect()
}

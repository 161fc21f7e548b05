//! What to bring for exactly this work, counted from its deeds.

use super::ways::{longest_pull, people};
use super::{Act, BendWork, RouteWork, Stage, WayVerdict};
use crate::document::Plan;
use crate::setout::reach::{self, Cause};
use crate::setout::{Deed, Doing, KNOTS, Spot};

/// What to bring.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ToolList {
    /// How many tapes.
    pub tapes: usize,
    /// The strings to cut, the longest first.
    pub strings: Vec<StringCut>,
    /// Pegs on the centre line.
    pub pegs: usize,
    /// Pegs at apexes and at the middles of chords.
    pub apex_pegs: usize,
    /// Pegs at swing points.
    pub swing_pegs: usize,
    /// Offset pegs.
    pub offset_pegs: usize,
    /// Pegs to spare.
    pub spare_pegs: usize,
    /// Nails: one in the head of each peg a tape is hooked on, and those that aim or guide.
    pub nails: usize,
    /// Flags or sand marks.
    pub flags: usize,
    /// The longest batten, in metres; two of them are wanted.
    pub battens: Option<f64>,
    /// Whether lines are drawn on the ground, with paint or sand.
    pub draws_lines: bool,
    /// The longest single pull of a tape, in metres.
    pub longest_pull: f64,
    /// How many people.
    pub people: usize,
}

/// A string to cut, and what it is used for one after the other.
#[derive(Clone, Debug, PartialEq)]
pub struct StringCut {
    /// How long to cut it, knots included, in metres.
    pub length: f64,
    /// What it runs from and to each time it is stretched, in order.
    pub uses: Vec<StringUse>,
}

/// One use of a string.
#[derive(Clone, Debug, PartialEq)]
pub struct StringUse {
    /// In which stage.
    pub stage: Stage,
    /// The names of the spots it runs between.
    pub between: [String; 2],
    /// How far these are apart, in metres.
    pub length: f64,
}

/// One peg in so many is spare: common practice, no source.
const ONE_SPARE_IN: usize = 5;

pub(super) fn tools(work: &RouteWork, plan: &Plan) -> ToolList {
    let made = |is: fn(&Spot) -> bool| {
        let spots = work.acts().filter_map(|act| act.deed.makes);
        spots.filter(is).count()
    };
    let does = |is: fn(&Doing) -> bool| work.acts().any(|act| is(&act.deed.does));
    let pegs = work.pegs.len();
    let swing_pegs = made(|spot| matches!(spot, Spot::Swing(_)));
    let apex_pegs = made(|spot| matches!(spot, Spot::Apex(_)));
    let offset_pegs = work.pegs.iter().filter(|peg| peg.offset.is_ok()).count();
    let aims = made(|spot| matches!(spot, Spot::Aim { .. }));
    let battens = work.acts().filter_map(|act| match act.deed.does {
        Doing::Slide { from, to, .. } => {
            let [from, to] = [from, to].map(|spot| act.course.spots.at(spot));
            Some(from?.distance(to?))
        }
        _ => None,
    });
    let offset_pulls = work.pegs.iter().filter_map(|peg| peg.offset.as_ref().ok());
    ToolList {
        tapes: 1 + usize::from(does(|does| matches!(does, Doing::Cross { .. }))),
        strings: strings(work),
        pegs,
        apex_pegs,
        swing_pegs,
        offset_pegs,
        spare_pegs: (pegs + apex_pegs + swing_pegs + offset_pegs).div_ceil(ONE_SPARE_IN),
        nails: pegs + apex_pegs + swing_pegs + aims,
        flags: made(|spot| matches!(spot, Spot::Flag { .. })),
        battens: battens.reduce(f64::max),
        draws_lines: does(|does| matches!(does, Doing::Strike { .. } | Doing::Slide { .. })),
        longest_pull: work
            .acts()
            .map(|act| longest_pull(act.deed))
            .chain(offset_pulls.map(|offset| offset.distance.tape))
            .fold(0.0, f64::max),
        people: people(plan.set_out.crew).max(1 + usize::from(swings_far(work))),
    }
}

/// Whether a chosen way swings a string so long that it wants a helper.
fn swings_far(work: &RouteWork) -> bool {
    let chosen = work.bends.iter().map(BendWork::way);
    chosen
        .filter(|way| way.verdict != WayVerdict::Workable)
        .flat_map(|way| &way.hindrances)
        .any(|found| {
            let hindrance = &found.hindrance;
            hindrance.deed == reach::Deed::Swing && matches!(hindrance.cause, Cause::TooLong(_))
        })
}

/// The strings to cut: one for each that must hang at once, used again once it is free. Of the
/// free ones the shortest that is long enough is taken, else the longest is cut longer.
fn strings(work: &RouteWork) -> Vec<StringCut> {
    let acts: Vec<Act<'_>> = work.acts().collect();
    let mut cuts: Vec<(StringCut, usize)> = Vec::new();
    for (i, act) in acts.iter().enumerate() {
        let Doing::Stretch { from, to, length } = act.deed.does else {
            continue;
        };
        let needed_by = acts[i..]
            .iter()
            .zip(i..)
            .take_while(|(later, _)| later.stage == act.stage)
            .filter(|(later, _)| is_along(later.deed, [from, to]))
            .last();
        let free_after = needed_by.map_or(i, |(_, last)| last);
        let used = StringUse {
            stage: act.stage,
            between: [from, to].map(|spot| act.course.spots.name(spot)),
            length: length.tape,
        };
        let length = length.tape + KNOTS;
        let free = cuts.iter_mut().filter(|(_, busy)| *busy < i);
        let best = free.min_by(|(a, _), (b, _)| {
            let lacks = |cut: &StringCut| (length - cut.length).max(0.0);
            lacks(a)
                .total_cmp(&lacks(b))
                .then(a.length.total_cmp(&b.length))
        });
        if let Some((cut, busy)) = best {
            cut.length = cut.length.max(length);
            cut.uses.push(used);
            *busy = free_after;
        } else {
            let uses = vec![used];
            cuts.push((StringCut { length, uses }, free_after));
        }
    }
    let mut cuts: Vec<StringCut> = cuts.into_iter().map(|(cut, _)| cut).collect();
    cuts.sort_by(|a, b| b.length.total_cmp(&a.length));
    cuts
}

/// Whether a deed is done along the string between two spots, or stretches it.
fn is_along(deed: &Deed, between: [Spot; 2]) -> bool {
    match deed.does {
        Doing::Stretch { from, to, .. }
        | Doing::Along { from, to, .. }
        | Doing::Square { from, to, .. } => [from, to] == between || [to, from] == between,
        _ => false,
    }
}

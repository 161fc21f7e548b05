//! Setting out: every figure a person needs on the ground, each exact and as the tape reads it.

mod base_line;
mod bend;
mod checks;
mod clean;
mod deed;
pub mod methods;
mod offset_pegs;
mod offsets;
mod peg_rows;
pub mod reach;
mod rounding;
mod steps;
mod ties;
mod work;

use geometry::{Bounds, Chain, Direction, Point};

use crate::document::Plan;
use crate::solve::{Peg, SolvedRoute};
use crate::units::Ruler;

pub use base_line::{BaseLine, Placing};
pub use bend::{
    BendSetOut, RoundingEffect, SQUARE_OFF_BELOW, SWING_AWKWARD, SWING_COMFORTABLE, SwingVerdict,
};
pub use checks::{Check, Verdict, taping_allowance};
pub use clean::{CLEAN, CleanBend, CleanError, CleanOffer, EndPegs, clean_bends};
pub use deed::{
    Allowances, CannotDo, Course, Crew, Deed, Deviations, Doing, Fastening, Foreman, Made, Manner,
    Method, Note, Part, PathLine, Reading, RightAngle, Scratch, SetSpot, Spot, Spots, carry_out,
};
pub use offset_pegs::{
    CLEAR_OF_MACHINE, CLEAR_OF_SPADE, InTheWay, Lay, NoOffsetPeg, OffsetPeg, offset_pegs,
};
pub use offsets::{OffsetRow, OffsetTable};
pub use peg_rows::{PegRow, peg_rows};
pub use rounding::{FigureEffect, effect_of_rounding};
pub use steps::{Step, Voice};
pub use ties::{
    Anchor, AnchorKind, CrossingVerdict, GOOD_CROSSING, Passable, SHORTEST_PULL,
    SLIGHTEST_CROSSING, Tie, TieError, Ties, lost_pegs_words, moved_peg_words, spread_of_crossing,
    ties,
};
pub use work::{
    Act, BendTrust, BendWork, CourseTrust, Effort, Hindered, Loss, MOST_WORKED, PegWork, RouteWork,
    SpotTrust, Stage, StraightWork, StringCut, StringUse, TiedSpot, ToolList, Trust, Way,
    WayVerdict, work, work_with,
};

/// A distance as it is drawn and as the tape reads it, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taped {
    /// As drawn.
    pub exact: f64,
    /// Rounded to the graduation.
    pub tape: f64,
}

impl Taped {
    /// A distance rounded to the graduation of a ruler.
    #[must_use]
    pub fn new(exact: f64, ruler: &Ruler) -> Self {
        Self {
            exact,
            tape: ruler.round(exact),
        }
    }
}

/// Everything needed to set out one path.
#[derive(Clone, Debug, PartialEq)]
pub struct RouteSetOut {
    /// The line everything is measured from.
    pub base: BaseLine,
    /// How far the path reaches in all.
    pub overall: Overall,
    /// The pegs of the centre line, in walking order.
    pub pegs: Vec<Placing>,
    /// The swing points, in the order of the bends, of those whose string the tape is long enough
    /// for.
    pub swing_points: Vec<Placing>,
    /// The straights, in walking order.
    pub straights: Vec<StraightSetOut>,
    /// The bends, in walking order.
    pub bends: Vec<BendSetOut>,
    /// Half the width: how far each edge lies from the centre line.
    pub half_width: Taped,
    /// What to bring.
    pub tools: Tools,
}

/// How far a path reaches in all, its edges included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Overall {
    /// The upright box round it.
    pub bounds: Bounds,
    /// Its width on the plan, from left to right.
    pub across: Taped,
    /// Its height on the plan, from foot to head.
    pub up: Taped,
    /// Its length along the centre line.
    pub length: Taped,
}

impl Overall {
    fn of(route: &SolvedRoute, centre_line: &Chain, ruler: &Ruler) -> Self {
        let edges = [&route.left_edge, &route.right_edge];
        let bounds = edges
            .into_iter()
            .flatten()
            .fold(centre_line.bounds(), |all, edge| all.with(edge.bounds()));
        Self {
            bounds,
            across: Taped::new(bounds.width(), ruler),
            up: Taped::new(bounds.height(), ruler),
            length: Taped::new(centre_line.length(), ruler),
        }
    }
}

/// One straight.
#[derive(Clone, Debug, PartialEq)]
pub struct StraightSetOut {
    /// The pegs at its ends.
    pub pegs: (usize, usize),
    /// Its length.
    pub length: Taped,
    /// The direction walked.
    pub direction: Direction,
    /// How far the walking direction turns at its end, positive to the left; nearly zero where
    /// the path runs on smoothly.
    pub corner: f64,
}

/// What to bring for exactly this set-out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tools {
    /// Pegs on the centre line.
    pub pegs: usize,
    /// Pegs or nails for swing points.
    pub swing_pegs: usize,
    /// Flags or sand marks along the chords, for the centre line and both edges.
    pub flags: usize,
    /// The longest single pull of the tape, in metres.
    pub longest_pull: f64,
    /// String to cut in all, in metres: the base line, and one for the longest chord or straight,
    /// knots included.
    pub string: f64,
    /// How many people: two make it easy, one can do it.
    pub people: usize,
}

/// Taken for two knots and a hand hold on each string, in metres; common practice, no source.
const KNOTS: f64 = 0.3;

/// Computes the set-out of a path; `None` when nothing of it can be drawn.
#[must_use]
pub fn set_out(plan: &Plan, route: &SolvedRoute) -> Option<RouteSetOut> {
    let chain = route.centre_line.as_ref()?;
    let ruler = plan.ruler();
    let pegs = route.pegs();
    let base = BaseLine::choose(plan, &pegs)?;
    let (mut straights, mut bends) = (Vec::new(), Vec::new());
    for (i, piece) in chain.pieces().iter().enumerate() {
        let ends = route.pegs_of(i);
        match piece.arc() {
            None => straights.push(StraightSetOut {
                pegs: ends,
                length: Taped::new(piece.length(), &ruler),
                direction: piece.start_direction(),
                corner: chain.corner(if i + 1 < chain.pieces().len() {
                    i + 1
                } else {
                    0
                }),
            }),
            Some(arc) => bends.push(BendSetOut::new(
                i,
                bends.len() + 1,
                ends,
                *arc,
                route.width,
                plan,
            )),
        }
    }
    let place = |name: String, at: Point| base.place(name, at, &ruler);
    let placed: Vec<Placing> = pegs
        .iter()
        .map(|peg: &Peg| place(format!("peg {}", peg.number), peg.at))
        .collect();
    // A swing point that no tape reaches is of no use on the ground.
    let swing_points: Vec<Placing> = bends
        .iter()
        .filter(|bend| bend.radius.exact <= plan.tape.length)
        .map(|bend| place(format!("S{}", bend.number), bend.arc.centre()))
        .collect();
    let placings = [placed.as_slice(), swing_points.as_slice()];
    let tools = tools(&base, placings, &straights, &bends);
    Some(RouteSetOut {
        base,
        overall: Overall::of(route, chain, &ruler),
        pegs: placed,
        swing_points,
        straights,
        bends,
        half_width: Taped::new(0.5 * route.width, &ruler),
        tools,
    })
}

fn tools(
    base: &BaseLine,
    [pegs, swing_points]: [&[Placing]; 2],
    straights: &[StraightSetOut],
    bends: &[BendSetOut],
) -> Tools {
    let swung = bends
        .iter()
        .filter(|bend| bend.swing != SwingVerdict::NotWorkable);
    let pulls = pegs
        .iter()
        .chain(swing_points)
        .flat_map(|peg| [peg.along, peg.off, peg.from_start, peg.from_end])
        .map(|taped| taped.tape.abs())
        .chain([base.length.tape])
        .chain(straights.iter().map(|straight| straight.length.tape))
        .chain(bends.iter().map(|bend| bend.chord.tape))
        .chain(swung.clone().map(|bend| bend.outer.tape));
    let strings = bends.iter().map(|bend| bend.chord.tape + KNOTS).chain(
        straights
            .iter()
            .map(|straight| straight.length.tape + KNOTS),
    );
    let flags = bends
        .iter()
        .flat_map(|bend| &bend.offsets)
        .flat_map(|table| &table.rows)
        .map(|row| 1 + usize::from(row.inner.is_some()) + usize::from(row.outer.is_some()))
        .sum();
    Tools {
        pegs: pegs.len(),
        swing_pegs: swung.count(),
        flags,
        longest_pull: pulls.fold(0.0, f64::max),
        string: base.length.tape + KNOTS + strings.fold(0.0, f64::max),
        people: 2,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::{Route, Scheme, Shape, Waypoint};
    use crate::units::Units;

    /// A straight 4 m north, 1 m wide: the edges reach half a metre to each side, not beyond its ends.
    #[test]
    fn a_path_reaches_as_far_as_its_edges() {
        let at = |x, y| Waypoint {
            at: Point::new(x, y),
            rounding: None,
        };
        let mut plan = Plan::empty(Units::Metric);
        plan.schemes = vec![Scheme {
            routes: vec![Route {
                name: String::new(),
                width: 1.0,
                waypoints: vec![at(2.0, 1.0), at(2.0, 5.0)],
                legs: vec![Shape::Straight],
                closed: false,
                start_direction: None,
                end_direction: None,
                ..Route::default()
            }],
            ..Scheme::default()
        }];
        let overall = set_out(&plan, &plan.solve().schemes[0].routes[0])
            .unwrap()
            .overall;
        let check = |figure: Taped, expected: f64| assert!((figure.tape - expected).abs() < 1e-12);
        check(overall.across, 1.0);
        check(overall.up, 4.0);
        check(overall.length, 4.0);
        assert!((overall.bounds.low.x - 1.5).abs() < 1e-12);
    }
}

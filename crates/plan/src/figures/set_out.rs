//! The set-out of a path as plain data: every number a sheet can show, exact and as the tape reads it.

mod bends;
mod courses;
mod tools;
mod trust;

use geometry::Point;
use serde::Serialize;

use crate::document::Plan;
use crate::setout::{
    BaseLine, Manner, OffsetPeg, Overall, PegWork, Placing, RouteWork, StraightWork, Taped, Tie,
    TieError, TiedSpot, Ties, Voice,
};
use crate::surroundings::Surroundings;

pub use bends::{
    BendSetOutFigures, CheckFigures, EffortFigures, OffsetRowFigures, OffsetTableFigures,
    RoundingFigures, WayFigures,
};
pub use courses::{
    CourseFigures, DeedFigures, ForemanFigures, ReadingFigures, RightAngleFigures, ScratchFigures,
};
pub use tools::{StageFigures, StringFigures, StringUseFigures, ToolFigures};
pub use trust::{
    BendTrustFigures, ChangeFigures, CourseTrustFigures, EllipseFigures, LineTrustFigures,
    SpotTrustFigures, TrustFigures,
};

/// How one path is set out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SetOutFigures {
    /// The line that pegs without ties are squared off.
    pub base_line: BaseLineFigures,
    /// How far the path reaches in all.
    pub overall: OverallFigures,
    /// How far each edge lies from the centre line.
    pub half_width: TapedFigures,
    /// The pegs of the centre line, in walking order.
    pub pegs: Vec<PegFigures>,
    /// How they are driven.
    pub pegging: CourseFigures,
    /// The straights, in walking order.
    pub straights: Vec<StraightFigures>,
    /// The bends, in walking order.
    pub bends: Vec<BendSetOutFigures>,
    /// What is done one after the other.
    pub order: Vec<StageFigures>,
    /// What to bring.
    pub tools: ToolFigures,
    /// How far out of its range every check may read before the work stops; null where none was
    /// judged.
    pub look_again: Option<f64>,
    /// How far it can be trusted.
    pub trust: TrustFigures,
}

/// A distance as drawn and as the tape reads it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TapedFigures {
    /// As drawn.
    pub exact: f64,
    /// Rounded to the graduation.
    pub tape: f64,
}

impl From<Taped> for TapedFigures {
    fn from(taped: Taped) -> Self {
        Self {
            exact: taped.exact,
            tape: taped.tape,
        }
    }
}

/// The base line.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BaseLineFigures {
    /// What it starts from.
    pub from: String,
    /// What it runs to.
    pub to: String,
    /// How long it is.
    pub length: TapedFigures,
}

/// How far a path reaches, its edges included.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct OverallFigures {
    /// From left to right on the plan.
    pub across: TapedFigures,
    /// From foot to head.
    pub up: TapedFigures,
    /// Along the centre line.
    pub length: TapedFigures,
}

/// One peg of the centre line.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PegFigures {
    /// The peg and its ties.
    #[serde(flatten)]
    pub spot: TiedFigures,
    /// Its station.
    pub station: f64,
    /// How it is found from the base line.
    pub placing: PlacingFigures,
    /// Its offset peg; null where it has none.
    pub offset_peg: Option<OffsetPegFigures>,
    /// Why it has none.
    pub no_offset_peg: Option<String>,
}

/// A peg or swing point and its ties.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TiedFigures {
    /// What it is called.
    pub name: String,
    /// Metres east.
    pub x: f64,
    /// Metres north.
    pub y: f64,
    /// What fixes it; null where nothing does.
    pub ties: Option<TiesFigures>,
    /// Why nothing does.
    pub no_ties: Option<String>,
}

/// Two pulls that fix a spot, and a third.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TiesFigures {
    /// The two.
    pub pair: [TieFigures; 2],
    /// The third; null where there is none.
    pub check: Option<TieFigures>,
    /// How much that may be out.
    pub check_room: Option<f64>,
    /// The angle between the two.
    pub crossing: f64,
    /// `left` or `right` of the line from the first mark to the second.
    pub side: &'static str,
    /// How far the spot may be out.
    pub spread: f64,
}

/// One pull.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TieFigures {
    /// What the tape is held on.
    pub from: String,
    /// How far.
    pub distance: TapedFigures,
}

/// How a spot is found from the base line.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PlacingFigures {
    /// Along the line.
    pub along: TapedFigures,
    /// Square off it, positive to the left.
    pub off: TapedFigures,
    /// From the start of the line.
    pub from_start: TapedFigures,
    /// From its end.
    pub from_end: TapedFigures,
}

/// The mate of a peg, clear of the digging.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OffsetPegFigures {
    /// The offset peg and its ties.
    #[serde(flatten)]
    pub spot: TiedFigures,
    /// On which side of the path.
    pub side: &'static str,
    /// How far from there to the peg.
    pub distance: TapedFigures,
    /// The point of the compass that way.
    pub compass: &'static str,
    /// Which way the tape goes from the peg.
    pub lay: String,
}

/// One straight.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StraightFigures {
    /// The numbers of the pegs at its ends.
    pub between: [usize; 2],
    /// Its length.
    pub length: TapedFigures,
    /// How far the walking direction turns at its end, positive to the left.
    pub corner: f64,
    /// How it is set out.
    pub course: CourseFigures,
    /// What hinders it.
    pub reasons: Vec<String>,
}

/// The set-out of a path as figures.
pub(super) fn set_out_figures(
    work: &RouteWork,
    plan: &Plan,
    surroundings: &Surroundings,
) -> SetOutFigures {
    let telling = Telling {
        plan,
        surroundings,
        manner: Manner::of(plan),
    };
    SetOutFigures {
        base_line: BaseLineFigures::from(&work.figures.base),
        overall: OverallFigures::from(&work.figures.overall),
        half_width: work.figures.half_width.into(),
        pegs: work.pegs.iter().map(|peg| telling.peg(peg)).collect(),
        pegging: telling.course(&work.pegging),
        straights: work
            .straights
            .iter()
            .map(|straight| telling.straight(straight))
            .collect(),
        bends: work.bends.iter().map(|bend| telling.bend(bend)).collect(),
        order: work.order.iter().map(|stage| (*stage).into()).collect(),
        tools: ToolFigures::of(&work.tools, plan.tape.length),
        look_again: work.beyond_fine(),
        trust: TrustFigures::of(&work.trust(plan), telling.voice()),
    }
}

/// What the figures of a path are told with.
struct Telling<'a> {
    plan: &'a Plan,
    surroundings: &'a Surroundings,
    manner: Manner,
}

impl Telling<'_> {
    fn voice(&self) -> &Voice {
        &self.manner.voice
    }

    fn peg(&self, peg: &PegWork) -> PegFigures {
        PegFigures {
            spot: self.tied(&peg.peg),
            station: peg.station,
            placing: PlacingFigures::from(&peg.placing),
            offset_peg: peg
                .offset
                .as_ref()
                .ok()
                .map(|offset| self.offset(offset, peg)),
            no_offset_peg: peg
                .offset
                .as_ref()
                .err()
                .map(|none| none.words(self.surroundings)),
        }
    }

    fn offset(&self, offset: &OffsetPeg, peg: &PegWork) -> OffsetPegFigures {
        let name = offset.anchor().name;
        let ties = peg.offset_ties.as_ref();
        OffsetPegFigures {
            spot: TiedFigures {
                x: offset.at.x,
                y: offset.at.y,
                ties: ties.and_then(|ties| Some(ties_figures(ties.as_ref().ok()?))),
                no_ties: ties
                    .and_then(|ties| Some(ties.as_ref().err()?.words(&name, self.voice()))),
                name,
            },
            side: offset.side.word(),
            distance: offset.distance.into(),
            compass: offset.compass,
            lay: offset.way_words(),
        }
    }

    fn tied(&self, spot: &TiedSpot) -> TiedFigures {
        let Point { x, y } = spot.at;
        let none = |error: &TieError| error.words(&spot.name, self.voice());
        TiedFigures {
            name: spot.name.clone(),
            x,
            y,
            ties: spot.ties.as_ref().ok().map(ties_figures),
            no_ties: spot.ties.as_ref().err().map(none),
        }
    }

    fn straight(&self, work: &StraightWork) -> StraightFigures {
        let straight = &work.straight;
        StraightFigures {
            between: [straight.pegs.0, straight.pegs.1],
            length: straight.length.into(),
            corner: straight.corner,
            course: self.course(&work.course),
            reasons: work.reasons(self.plan),
        }
    }
}

fn ties_figures(ties: &Ties) -> TiesFigures {
    let tie = |tie: &Tie| TieFigures {
        from: tie.anchor.name.clone(),
        distance: tie.distance.into(),
    };
    let [first, second] = &ties.pair;
    TiesFigures {
        pair: [tie(first), tie(second)],
        check: ties.check.as_ref().map(tie),
        check_room: ties.check.as_ref().map(|check| ties.allowed(check)),
        crossing: ties.crossing,
        side: ties.side.word(),
        spread: ties.spread,
    }
}

impl From<&BaseLine> for BaseLineFigures {
    fn from(base: &BaseLine) -> Self {
        Self {
            from: base.from_name.clone(),
            to: base.to_name.clone(),
            length: base.length.into(),
        }
    }
}

impl From<&Overall> for OverallFigures {
    fn from(overall: &Overall) -> Self {
        Self {
            across: overall.across.into(),
            up: overall.up.into(),
            length: overall.length.into(),
        }
    }
}

impl From<&Placing> for PlacingFigures {
    fn from(placing: &Placing) -> Self {
        Self {
            along: placing.along.into(),
            off: placing.off.into(),
            from_start: placing.from_start.into(),
            from_end: placing.from_end.into(),
        }
    }
}

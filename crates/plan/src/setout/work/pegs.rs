//! The pegs of a path: tied to what stays, mated with offset pegs, found again by both.

use geometry::Point;

use super::Ground;
use crate::setout::methods::{PegFrom, PegJob, pegs};
use crate::setout::reach::Hindrance;
use crate::setout::{
    Anchor, BaseLine, Course, NoOffsetPeg, OffsetPeg, Passable, Placing, RouteSetOut,
    SHORTEST_PULL, Spot, Spots, Step, TieError, Ties, Voice, offset_pegs, taping_allowance,
};
use crate::solve::{Peg, Solved};
use crate::surroundings::Surroundings;

/// One peg of the centre line.
#[derive(Clone, Debug, PartialEq)]
pub struct PegWork {
    /// Its number, from 1.
    pub number: usize,
    /// How far along the centre line, in metres.
    pub station: f64,
    /// The peg and its ties.
    pub peg: TiedSpot,
    /// How it is found from the base line.
    pub placing: Placing,
    /// Whether a tape can go along the base line and square off it to there.
    pub off_base: bool,
    /// Its offset peg, or what keeps it from having one.
    pub offset: Result<OffsetPeg, NoOffsetPeg>,
    /// The ties of its offset peg, from marks, or from pegs where these do not serve.
    pub offset_ties: Option<Result<Ties, TieError>>,
}

/// A spot, and how it is fixed by two tapes from what stands before it.
#[derive(Clone, Debug, PartialEq)]
pub struct TiedSpot {
    /// The spot.
    pub spot: Spot,
    /// What it is called.
    pub name: String,
    /// Where it is.
    pub at: Point,
    /// Its ties, or why nothing fixes it.
    pub ties: Result<Ties, TieError>,
    /// What hinders a peg from being driven there.
    pub standing: Vec<Hindrance>,
}

impl PegWork {
    /// How the peg is made again once it is lost: from its offset peg, then by its ties.
    #[must_use]
    pub fn made_again(&self, surroundings: Option<&Surroundings>, voice: &Voice) -> Vec<Step> {
        let by_offset = self.offset.iter().map(|offset| Step {
            text: format!(
                "{}: from its offset peg pull {} to the {}, square to the path.",
                self.peg.name,
                voice.taped(&offset.distance),
                offset.compass
            ),
            check: None,
        });
        let by_ties = self.peg.ties.iter();
        let by_ties = by_ties.map(|ties| ties.step(&self.peg.name, surroundings, voice));
        by_offset.chain(by_ties).collect()
    }
}

/// The pegs of a path with their ties, and the course that drives them.
pub(super) fn pegs_work(
    ground: &Ground<'_>,
    solved: &Solved,
    (scheme, route): (usize, usize),
    out: &RouteSetOut,
) -> (Vec<PegWork>, Course) {
    let path = &solved.schemes[scheme].routes[route];
    let stations = path.pegs();
    let offsets = offset_pegs(
        ground.plan,
        solved,
        (scheme, route),
        ground.plan.set_out.offset_pegs,
        |from, to| ground.passable(from, to),
    );
    let base = base_spots(ground, &out.base, &stations);
    let mut driving = Driving {
        ground,
        base,
        standing: ground.marks.clone(),
        job: PegJob {
            ruler: ground.plan.ruler(),
            ground: ground.spots.clone(),
            base,
            read_first: Vec::new(),
            pegs: Vec::new(),
        },
    };
    let is_base = |peg: &Peg| base.contains(&Spot::Peg(peg.number));
    let (first, then): (Vec<Peg>, Vec<Peg>) = stations.iter().copied().partition(is_base);
    let mut tied: Vec<TiedSpot> = Vec::with_capacity(stations.len());
    for peg in first.into_iter().chain(then) {
        tied.push(driving.drive(peg));
    }
    tied.sort_by_key(|tied| tied.spot);
    driving.read_marks();
    let mut pegging = pegs::course(&driving.job);
    ground.note_faces(&mut pegging);
    let pegs = stations
        .iter()
        .zip(tied)
        .zip(offsets)
        .zip(&out.pegs)
        .map(|(((peg, tied), offset), placing)| PegWork {
            off_base: driving.is_off_the_base(peg.at),
            number: peg.number,
            station: peg.station,
            offset_ties: offset.as_ref().ok().map(|offset| {
                let near = ground.anchors_near(&ground.marks, offset.at);
                ground.ties(offset.at, &near)
            }),
            peg: tied,
            placing: placing.clone(),
            offset,
        })
        .collect();
    (pegs, pegging)
}

/// The spots at the ends of the base line.
fn base_spots(ground: &Ground<'_>, base: &BaseLine, pegs: &[Peg]) -> [Spot; 2] {
    [(&base.from_name, base.from), (&base.to_name, base.to)].map(|(name, at)| {
        let is_it = |(_, anchor): &&(Spot, Anchor)| anchor.at == at && anchor.name == *name;
        let mark = ground.marks.iter().find(is_it).map(|(spot, _)| *spot);
        let peg = || pegs.iter().find(|peg| peg.at == at);
        mark.or_else(|| peg().map(|peg| Spot::Peg(peg.number)))
            .unwrap_or(Spot::Peg(1))
    })
}

/// The pegs being driven one after the other.
struct Driving<'a> {
    ground: &'a Ground<'a>,
    base: [Spot; 2],
    /// What one can tape from by now.
    standing: Vec<(Spot, Anchor)>,
    job: PegJob,
}

/// So many of the pegs before are taped from at most: every pair is tried.
const MOST_PEGS: usize = 30;

impl Driving<'_> {
    /// Ties a peg from what stays, failing that squares it off the base line, failing that ties it
    /// from the pegs before it: a chain of pegs would add up its errors.
    fn drive(&mut self, peg: Peg) -> TiedSpot {
        let spot = Spot::Peg(peg.number);
        let by_eye = self.base.contains(&spot);
        let stays =
            |(spot, _): &&(Spot, Anchor)| matches!(spot, Spot::Mark(_)) || self.base.contains(spot);
        let lasting: Vec<_> = self.standing.iter().filter(stays).cloned().collect();
        let lasting = self.ground.anchors_near(&lasting, peg.at);
        let mut ties = self.ground.ties(peg.at, &lasting);
        let mut from = self.from(&ties);
        if ties.is_err() && !by_eye {
            let all = self.ground.anchors_near(&self.standing, peg.at);
            let onward = self.ground.ties(peg.at, &all);
            if self.is_off_the_base(peg.at) || onward.is_err() {
                from = Some(PegFrom::BaseLine);
            } else {
                from = self.from(&onward);
            }
            ties = onward.or(ties);
        }
        if let Some(PegFrom::Ties { pair, check }) = &mut from {
            *check = check.or_else(|| self.neighbour(peg.at, *pair));
        }
        match from {
            Some(from) => self.job.pegs.push((spot, peg.at, from)),
            None => self.job.ground.put(spot, peg.at),
        }
        let name = self.ground.spots.name(spot);
        let kind = crate::setout::AnchorKind::Peg;
        let anchor = Anchor {
            name: name.clone(),
            at: peg.at,
            kind,
        };
        self.standing.push((spot, anchor));
        if self.standing.len() > self.ground.marks.len() + self.base.len() + MOST_PEGS {
            self.standing
                .remove(self.ground.marks.len() + self.base.len());
        }
        TiedSpot {
            spot,
            name,
            at: peg.at,
            ties,
            standing: self.ground.reach.stand(peg.at),
        }
    }

    /// The peg nearest to a place that stands by then and can be taped to it, to check it by where
    /// no third mark does, and the room that has.
    fn neighbour(&self, at: Point, pair: [Spot; 2]) -> Option<(Spot, f64)> {
        let pegs = self.standing.iter().filter(|(spot, anchor)| {
            matches!(spot, Spot::Peg(_))
                && !pair.contains(spot)
                && anchor.at.distance(at) >= SHORTEST_PULL
                && self.ground.passable(anchor.at, at) != Passable::Blocked
        });
        let off = |anchor: &Anchor| anchor.at.distance(at);
        let (spot, anchor) = pegs.min_by(|(_, a), (_, b)| off(a).total_cmp(&off(b)))?;
        Some((*spot, taping_allowance(off(anchor))))
    }

    fn spot_of(&self, anchor: &Anchor) -> Option<Spot> {
        let found = self.standing.iter().find(|(_, other)| other == anchor);
        found.map(|(spot, _)| *spot)
    }

    fn from(&self, ties: &Result<Ties, TieError>) -> Option<PegFrom> {
        let ties = ties.as_ref().ok()?;
        let [one, other] = &ties.pair;
        let check = ties.check.as_ref();
        Some(PegFrom::Ties {
            pair: [self.spot_of(&one.anchor)?, self.spot_of(&other.anchor)?],
            check: check.and_then(|tie| Some((self.spot_of(&tie.anchor)?, ties.allowed(tie)))),
        })
    }

    /// Whether nothing stands between a place and the base line, square to it.
    fn is_off_the_base(&self, at: Point) -> bool {
        let place = |spot| {
            let found = self.standing.iter().find(|(other, _)| *other == spot);
            found.map(|(_, anchor)| anchor.at)
        };
        let (Some(from), Some(to)) = (place(self.base[0]), place(self.base[1])) else {
            return false;
        };
        let line = to - from;
        let foot = from + line * (line.dot(at - from) / line.dot(line));
        let reach = &self.ground.reach;
        let free = |a: Point, b: Point| reach.tape(a, b).iter().all(|found| !found.stops());
        free(from, foot) && free(foot, at)
    }

    /// Marks that pegs are tied to are read from one to the other first, where the tape can.
    fn read_marks(&mut self) {
        let mut pairs: Vec<[Spot; 2]> = Vec::new();
        for (_, _, from) in &self.job.pegs {
            let mut pair = match from {
                PegFrom::Ties { pair, .. } => *pair,
                PegFrom::BaseLine => continue,
            };
            pair.sort();
            let marks = pair.iter().all(|spot| matches!(spot, Spot::Mark(_)));
            if marks && !pairs.contains(&pair) {
                pairs.push(pair);
            }
        }
        let spots: &Spots = &self.ground.spots;
        pairs.retain(|[one, other]| match (spots.at(*one), spots.at(*other)) {
            (Some(one), Some(other)) => {
                let pulled = self.ground.reach.tape(one, other);
                pulled.iter().all(|found| !found.stops())
            }
            _ => false,
        });
        self.job.read_first = pairs;
    }
}

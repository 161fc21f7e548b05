//! Offset pegs: for each peg a mate clear of the digging, to put it back from.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

use geometry::{Chain, Core, Direction, Patch, Piece, Point};

use super::{Anchor, AnchorKind, Passable, Taped, Voice};
use crate::document::{Plan, Side};
use crate::solve::{Peg, Solved, SolvedRoute, SolvedScheme};
use crate::surroundings::Surroundings;

/// The mate of one peg.
#[derive(Clone, Debug, PartialEq)]
pub struct OffsetPeg {
    /// The number of its peg.
    pub of: usize,
    /// Where it stands.
    pub at: Point,
    /// On which side of the path, as one walks.
    pub side: Side,
    /// How far from there to the peg, square to the centre line; at a corner, along the line that
    /// halves it.
    pub distance: Taped,
    /// The way from there to the peg.
    pub way: Direction,
    /// The point of the compass nearest to that way, such as `north-west`.
    pub compass: &'static str,
    /// What the tape is laid along from the peg; `None` leaves it to a square.
    pub lay: Option<Lay>,
}

/// What a tape is laid along from a peg to its offset peg, by the name of a spot that stands by then.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Lay {
    /// Over it and on, or straight to it.
    Over(String),
    /// In line with it, away from it.
    AwayFrom(String),
}

impl Lay {
    /// `over L1+1`, `in line with S1, away from it`.
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Self::Over(name) => format!("towards {name} and on"),
            Self::AwayFrom(name) => format!("in line with {name}, away from it"),
        }
    }
}

/// What keeps a peg from having a mate, on its left and on its right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoOffsetPeg {
    /// The number of the peg.
    pub of: usize,
    /// What is in the way on the left, as one walks.
    pub left: InTheWay,
    /// What is in the way on the right.
    pub right: InTheWay,
}

/// What is in the way of an offset peg.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InTheWay {
    /// An obstacle stands there, counted from 0.
    Obstacle(usize),
    /// It would be dug out with a path of the option, counted from 0.
    Digging(usize),
    /// The tape cannot be pulled from there to the peg.
    Pull,
}

/// How far from an edge an offset peg is out of the way of a spade, in metres: 0.3 to 0.6 m, common
/// practice, no source.
pub const CLEAR_OF_SPADE: f64 = 0.6;

/// How far from an edge an offset peg is out of the way of a small machine, in metres; common
/// practice, no source.
pub const CLEAR_OF_MACHINE: f64 = 1.0;

/// A peg needs so much room round it to be driven, in metres; common practice, no source.
const ROOM_TO_DRIVE: f64 = 0.10;

/// A mate just so far from an edge as it should be is clear of it, in metres.
const TOUCHING: f64 = 1e-6;

/// Two spots no farther apart than this give a tape no sure direction, in metres; common practice, no
/// source.
const LONG_ENOUGH_TO_LAY: f64 = 0.25;

/// So far from in line, as a sine, a spot still is: it puts a mate 2 m off out by 2 mm.
const IN_LINE: f64 = 1e-3;

/// At a corner a mate stands farther out, so as to be clear of both edges; past twice as far it
/// would stand nowhere near.
const FARTHEST_OUT: f64 = 2.0;

/// A mate for each peg of a path, `clear` metres from the edge that is on its side: on the outside
/// of a bend, or on the other side where that is taken; or why there is none.
///
/// None for a path or an option that is not there.
#[must_use]
pub fn offset_pegs(
    plan: &Plan,
    solved: &Solved,
    (scheme, route): (usize, usize),
    clear: f64,
    passable: impl Fn(Point, Point) -> Passable,
) -> Vec<Result<OffsetPeg, NoOffsetPeg>> {
    let Some(scheme) = solved.schemes.get(scheme) else {
        return Vec::new();
    };
    let Some((path, chain)) = scheme
        .routes
        .get(route)
        .and_then(|path| Some((path, path.centre_line.as_ref()?)))
    else {
        return Vec::new();
    };
    let digging = digging(scheme);
    let mate = |peg: Peg| {
        let standing = Standing::of(chain, peg.number - 1);
        let half_cosine = (0.5 * standing.corner).cos();
        let out = (0.5 * path.width + clear) / half_cosine.max(FARTHEST_OUT.recip());
        let on = |side: Side| {
            let left = standing.way.left();
            let away = match side {
                Side::Left => left,
                Side::Right => left.reversed(),
            };
            let at = peg.at + away.unit() * out;
            let in_the_way = in_the_way(at, clear, &solved.surroundings, scheme, &digging)
                .or_else(|| (passable(at, peg.at) == Passable::Blocked).then_some(InTheWay::Pull));
            match in_the_way {
                Some(what) => Err(what),
                None => Ok(OffsetPeg {
                    of: peg.number,
                    at,
                    side,
                    distance: Taped::new(out, &plan.ruler()),
                    way: away.reversed(),
                    compass: compass(away.reversed(), plan.north),
                    lay: None,
                }),
            }
        };
        on(standing.outside).or_else(|first| {
            on(standing.outside.other()).map_err(|second| {
                let (left, right) = match standing.outside {
                    Side::Left => (first, second),
                    Side::Right => (second, first),
                };
                NoOffsetPeg {
                    of: peg.number,
                    left,
                    right,
                }
            })
        })
    };
    path.pegs().into_iter().map(mate).collect()
}

/// How the path runs through a peg.
pub(super) struct Standing {
    /// The way walked; at a corner, between the way in and the way out.
    pub(super) way: Direction,
    /// How far the walking direction turns there at once, in radians, positive to the left.
    pub(super) corner: f64,
    /// The side the path turns away from.
    outside: Side,
}

impl Standing {
    pub(super) fn of(chain: &Chain, joint: usize) -> Self {
        let pieces = chain.pieces();
        let after = pieces.get(joint);
        let before = match joint.checked_sub(1) {
            None if chain.is_closed() => pieces.last(),
            None => None,
            Some(i) => pieces.get(i),
        };
        let arrives = before.map(Piece::end_direction);
        let leaves = after.map(Piece::start_direction);
        let way_in = arrives.or(leaves).unwrap_or(Direction::EAST);
        let corner = leaves.map_or(0.0, |leaves| way_in.turn_to(leaves));
        let sweep: f64 = before.into_iter().chain(after).map(Piece::sweep).sum();
        Self {
            way: way_in.turned(0.5 * corner),
            corner,
            outside: if corner + sweep > 0.0 {
                Side::Right
            } else {
                Side::Left
            },
        }
    }
}

/// The ground of the landings of an option, each with its path.
fn digging(scheme: &SolvedScheme) -> Vec<(usize, Patch)> {
    let pads = scheme
        .routes
        .iter()
        .enumerate()
        .flat_map(|(route, path)| path.pads.iter().map(move |pad| (route, pad)));
    pads.filter_map(|(route, pad)| {
        let patch = Patch::new(Core::Area(pad.clone()), 0.0).ok()?;
        Some((route, patch))
    })
    .collect()
}

fn in_the_way(
    at: Point,
    clear: f64,
    surroundings: &Surroundings,
    scheme: &SolvedScheme,
    pads: &[(usize, Patch)],
) -> Option<InTheWay> {
    if let Some((obstacle, _)) = surroundings.nearest(at, ROOM_TO_DRIVE) {
        return Some(InTheWay::Obstacle(obstacle));
    }
    let is_dug = |path: &SolvedRoute| {
        let wanted = 0.5 * path.width + clear - TOUCHING;
        let centre = path.centre_line.as_ref();
        centre.is_some_and(|centre| centre.nearest(at).distance < wanted)
    };
    let in_a_pad = |(_, pad): &&(usize, Patch)| pad.signed_distance(at).distance < clear - TOUCHING;
    let path = scheme.routes.iter().position(is_dug);
    path.or_else(|| pads.iter().find(in_a_pad).map(|(route, _)| *route))
        .map(InTheWay::Digging)
}

/// The nearest of the eight points of the compass, `north` being so far counter-clockwise from the
/// top of the plan.
fn compass(way: Direction, north: f64) -> &'static str {
    const POINTS: [(i8, &str); 9] = [
        (-4, "south"),
        (-3, "south-west"),
        (-2, "west"),
        (-1, "north-west"),
        (0, "north"),
        (1, "north-east"),
        (2, "east"),
        (3, "south-east"),
        (4, "south"),
    ];
    let clockwise = geometry::angle::signed(FRAC_PI_2 + north - way.angle());
    let eighth = (clockwise / FRAC_PI_4).round();
    let point = POINTS.iter().find(|(n, _)| f64::from(*n) >= eighth);
    point.map_or("south", |(_, name)| name)
}

impl OffsetPeg {
    /// What is written on it: `PEG 3, 1.200 m to the north-west of here`.
    #[must_use]
    pub fn written(&self, voice: &Voice) -> String {
        format!(
            "PEG {}, {} to the {} of here",
            self.of,
            voice.taped(&self.distance),
            self.compass
        )
    }

    /// How it is set.
    #[must_use]
    pub fn words(&self, voice: &Voice) -> String {
        format!(
            "From peg {} {}, {}: drive a peg there and write on it “{}”.",
            self.of,
            self.way_words(),
            voice.taped(&self.distance),
            self.written(voice)
        )
    }

    /// Which way the tape goes from the peg: `to the left, towards L1+1 and on`, or
    /// `square off to the left as you walk`.
    #[must_use]
    pub fn way_words(&self) -> String {
        let side = self.side.word();
        match &self.lay {
            Some(lay) => format!("to the {side}, {}", lay.words()),
            None => format!("square off to the {side} as you walk"),
        }
    }

    /// Whether a spot lies in line with the offset peg and its peg, and which way.
    pub(super) fn lay_along(&self, peg: Point, name: &str, spot: Point) -> Option<Lay> {
        let off = spot - peg;
        let out = self.at - peg;
        let across = out.cross(off).abs();
        let far = off.length() >= LONG_ENOUGH_TO_LAY;
        // In line: what a graduation over its length would turn the tape by.
        (far && across <= IN_LINE * off.length() * out.length()).then(|| {
            if out.dot(off) > 0.0 {
                Lay::Over(name.to_owned())
            } else {
                Lay::AwayFrom(name.to_owned())
            }
        })
    }

    /// It, to tape from.
    #[must_use]
    pub fn anchor(&self) -> Anchor {
        Anchor {
            name: format!("offset peg {}", self.of),
            at: self.at,
            kind: AnchorKind::Peg,
        }
    }
}

impl NoOffsetPeg {
    /// Why, and what to do instead, in one sentence without a stop.
    #[must_use]
    pub fn words(&self, surroundings: &Surroundings) -> String {
        let what = |thing: InTheWay| match thing {
            InTheWay::Obstacle(obstacle) => {
                surroundings.site().obstacles.get(obstacle).map_or_else(
                    || "an obstacle".to_owned(),
                    crate::document::Obstacle::called,
                )
            }
            InTheWay::Digging(_) => "the digging of a path".to_owned(),
            InTheWay::Pull => "something that stops the tape".to_owned(),
        };
        format!(
            "peg {} has no offset peg: {} is on its left and {} on its right; put it back by its ties",
            self.of,
            what(self.left),
            what(self.right)
        )
    }
}

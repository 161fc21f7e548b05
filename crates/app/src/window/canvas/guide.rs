//! What a peg is held to while it is moved or laid: near marks and pegs, lines, whole graduations.

mod around;
mod corner;
#[cfg(test)]
mod tests;
mod track;

use egui::{Painter, Vec2, vec2};
use geometry::{Direction, Point};
use plan::Plan;
use plan::solve::Solved;
use plan::units::Graduation;

use self::around::Neighbour;
use self::track::{Track, nearest_meeting, stepped};
use super::labels::Labels;
use crate::window::fonts::Face;
use crate::window::pen::Pen;
use crate::window::theme::{self, Palette};
use crate::window::view::{Curve, View};
use crate::window::words::guides;

pub(crate) use self::corner::{Beside, Corner, guided_corner};

/// A place held to something, and why.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Guided {
    /// The place: where the hand is, or no farther from it than the reach.
    pub(crate) at: Point,
    /// What holds it there, most telling first; empty when nothing does.
    pub(crate) why: Vec<Why>,
    /// The lines it is held to, each from what they come from to the place.
    pub(crate) lines: Vec<[Point; 2]>,
}

/// A reason for which a place is held.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Why {
    /// At a mark, by name.
    AtMark(String),
    /// At a peg that is not next along the path; of another path, by name, if that is given.
    AtPeg(Spot, Option<String>),
    /// At a corner of a thing on the site, by name.
    AtCorner(String),
    /// At an end of a wall or boundary, by name.
    AtEnd(String),
    /// Level on the plan with the peg before or after.
    Level(Spot),
    /// Straight above it on the plan.
    Above(Spot),
    /// Straight below it on the plan.
    Below(Spot),
    /// On the straight between the pegs before and after.
    Between(Spot, Spot),
    /// The leg is square to the next one on this side.
    Square(Side),
    /// The side of a thing being drawn is square to its next side.
    SquareSide,
    /// It runs on straight from its next side.
    InLine,
    /// The leg and the next one on this side run on smoothly.
    Smooth(Side),
    /// The path leaves or arrives in the direction asked for.
    Heading(Side),
    /// On the line of a side of a thing on the site, by name.
    OnLine(String),
    /// On the straight between two marks, by name.
    OnMarks(String, String),
    /// The leg's length, from peg to peg, is a whole number of graduations.
    Graduation(Graduation),
}

/// A place where legs meet, as the screen calls it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Spot {
    /// A peg, by its number.
    Peg(usize),
    /// A corner that is rounded away or has no drawn leg, counted from 1.
    Corner(usize),
    /// The place a new path is led on from, before it has a number.
    Start,
    /// Where the thing that is moved stood before.
    Before,
}

/// Before or after, as one walks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Side {
    /// Walked before.
    Before,
    /// Walked after.
    After,
}

/// What a place is looked at against.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Around<'a> {
    /// The plan as it was at the press.
    pub(crate) plan: &'a Plan,
    /// What follows from it.
    pub(crate) solved: &'a Solved,
    /// The option, counted from 0.
    pub(crate) scheme: usize,
    /// The path, counted from 0; it need not be there yet.
    pub(crate) route: usize,
    /// The waypoint that is moved, counted from 0; `None` for a new one.
    pub(crate) waypoint: Option<usize>,
    /// For a new one, the place it is led on from: an end of the path, or the first place of a new
    /// one.
    pub(crate) from: Option<Point>,
    /// How far a place is drawn to what is near, in metres.
    pub(crate) reach: f64,
}

/// A place held to what is near it: to a point before a line, to two lines where they meet, to one
/// line at a whole length from the next peg if there is one in reach, else to that length alone.
#[must_use]
pub(crate) fn guided(around: &Around<'_>, to: Point) -> Guided {
    let free = Guided {
        at: to,
        why: Vec::new(),
        lines: Vec::new(),
    };
    if !(to.is_finite() && around.reach.is_finite() && around.reach > 0.0) {
        return free;
    }
    let neighbours = around.neighbours();
    if let Some((at, why)) = around.nearest_point(&neighbours, to) {
        let why = vec![why];
        return Guided { at, why, ..free };
    }
    settled(around, &neighbours, to, true)
}

/// A place held to lines, those of the site too if `to_site`, and to whole lengths.
fn settled(around: &Around<'_>, neighbours: &[Neighbour], to: Point, to_site: bool) -> Guided {
    let graduation = around.plan.graduation;
    let tracks = around.tracks(neighbours, to, to_site);
    let in_reach = |at: &Point| at.is_finite() && at.distance(to) <= around.reach;
    let (at, whole) = match (nearest_meeting(&tracks, to, around.reach), tracks.first()) {
        (Some(at), _) => (at, false),
        (None, Some(track)) => {
            let pivot = track.pivot.or(neighbours.first().map(|peg| peg.at));
            let stepped = pivot
                .and_then(|pivot| track.stepped(pivot, graduation, to))
                .filter(in_reach);
            (stepped.unwrap_or_else(|| track.foot(to)), stepped.is_some())
        }
        (None, None) => {
            let stepped = neighbours
                .first()
                .and_then(|peg| stepped(peg.at, graduation, to))
                .filter(in_reach);
            (stepped.unwrap_or(to), stepped.is_some())
        }
    };
    let mut held: Vec<&Track> = tracks
        .iter()
        .filter(|track| track.runs_through(at))
        .collect();
    held.sort_by_key(|track| track.order);
    held.truncate(MOST_WHYS);
    Guided {
        at,
        lines: held.iter().map(|track| track.shown_to(at)).collect(),
        why: held
            .iter()
            .map(|track| track.why.clone())
            .chain(whole.then_some(Why::Graduation(graduation)))
            .collect(),
    }
}

/// Draws the lines a place is held to, and writes beside it why.
pub(super) fn draw(
    painter: &Painter,
    view: &View,
    palette: &Palette,
    guided: &Guided,
    labels: &mut Labels,
) {
    let beyond = view.plan_length(BEYOND);
    for [from, to] in &guided.lines {
        let Some(way) = Direction::of(*to - *from) else {
            continue;
        };
        let line = Curve {
            start: *from - way.unit() * beyond,
            end: *to + way.unit() * beyond,
            rise: 0.0,
        };
        Pen::Ghost.draw(painter, &view.trace(&[line]), palette);
    }
    if guided.why.is_empty() {
        return;
    }
    let at = view.screen_from_plan(guided.at);
    let style = (Face::Text.sized(theme::SMALL), palette.ink);
    let reasons: Vec<String> = guided.why.iter().map(guides::sentence).collect();
    // All together if there is room, else the first alone.
    let (all, first) = (reasons.join("\n"), &reasons[0]);
    let wish: Vec2 = vec2(1.0, 1.0);
    if labels.write(at, GAP, wish, &all, style.clone()).is_none() {
        labels.write(at, GAP, wish, first, style);
    }
}

/// From the peg to the text that says why, in screen points: clear of a finger's breadth.
const GAP: f32 = 22.0;
/// How far a line is drawn beyond what it joins, in screen points, so that it is seen as a line.
const BEYOND: f32 = 48.0;
/// The lines a place is said to be held to: two fix it, a third that agrees is worth knowing.
const MOST_WHYS: usize = 3;

//! Which two figures of a bend hold, and what typing another one does.

use geometry::{Answer, Bend, Direction, Figure, Point, bends_from};

use super::{EditError, LegId, nearest, peg};
use crate::document::{Plan, Shape};
use crate::limits;

/// The two figures that hold, the one that lets go first in front.
///
/// What was typed holds; beside one typed figure the chord holds (the pegs stay), beside a typed
/// chord the rise. With nothing typed, chord and rise hold, as they were drawn.
#[must_use]
pub fn held(typed: &[Figure]) -> [Figure; 2] {
    match typed {
        [] => [Figure::Rise, Figure::Chord],
        [Figure::Chord] => [Figure::Rise, Figure::Chord],
        [one] => [Figure::Chord, *one],
        [older, newer, ..] => [*older, *newer],
    }
}

/// The other bends that the two held figures of a leg give as well, if any.
#[must_use]
pub fn other_answers(bend: &Bend, typed: &[Figure]) -> Vec<Bend> {
    let [a, b] = held(typed);
    let (Some(first), Some(second)) = (bend.figure(a), bend.figure(b)) else {
        return Vec::new();
    };
    let answers: Vec<Answer> = bends_from((a, first), (b, second)).unwrap_or_default();
    let same = nearest(&answers, bend.sweep());
    answers
        .into_iter()
        .map(|answer| answer.bend)
        .filter(|other| Some(*other) != same)
        .collect()
}

pub(super) fn set_figure(
    plan: &mut Plan,
    id: LegId,
    figure: Figure,
    value: f64,
) -> Result<(), EditError> {
    let (start, end) = ends(plan, id)?;
    let (rise, holds) = match plan.leg_mut(id)? {
        Shape::Bend { rise, holds } => (*rise, holds.clone()),
        Shape::Straight if figure == Figure::Chord => return set_chord(plan, id, value),
        Shape::Straight => return Err(EditError::NotABend),
        Shape::Onward | Shape::TwoBends => return Err(EditError::Onward),
    };
    let mut typed: Vec<Figure> = holds.into_iter().filter(|f| *f != figure).collect();
    typed.push(figure);
    if typed.len() > 2 {
        typed.remove(0);
    }
    let [a, b] = held(&typed);
    let other = if a == figure { b } else { a };
    let now = Bend::from_chord_and_rise(start.distance(end), rise.abs()).ok();
    // A bend pressed flat has no other figures yet: its chord is all there is.
    let kept = match (&now, other) {
        (Some(bend), _) => bend.figure(other),
        (None, Figure::Chord) => Some(start.distance(end)),
        (None, _) if figure == Figure::Chord => return set_chord(plan, id, value),
        (None, _) => None,
    }
    .ok_or(EditError::NotABend)?;
    let answers = bends_from((other, kept), (figure, value))
        .map_err(|why| EditError::NoBend([other, figure], why))?;
    let sweep = now.map_or(1.0, |bend| bend.sweep());
    let bend = nearest(&answers, sweep).ok_or(EditError::NotABend)?;
    place(plan, id, bend, typed)
}

pub(super) fn choose(plan: &mut Plan, id: LegId, bend: Bend) -> Result<(), EditError> {
    match plan.leg_mut(id)? {
        Shape::Bend { holds, .. } => {
            let typed = holds.clone();
            place(plan, id, bend, typed)
        }
        Shape::Straight => Err(EditError::NotABend),
        Shape::Onward | Shape::TwoBends => Err(EditError::Onward),
    }
}

/// Puts a bend of a given size in the place of a leg: the start stays, the side stays, the end
/// follows along the chord.
fn place(plan: &mut Plan, id: LegId, bend: Bend, typed: Vec<Figure>) -> Result<(), EditError> {
    set_chord(plan, id, bend.chord())?;
    if let Shape::Bend { rise, holds } = plan.leg_mut(id)? {
        *rise = bend.rise().copysign(*rise);
        *holds = typed;
    }
    Ok(())
}

/// Makes the chord of a leg so long: the start stays, the end moves along it.
fn set_chord(plan: &mut Plan, id: LegId, chord: f64) -> Result<(), EditError> {
    limits::length(&format!("leg {}", id.leg + 1), "its chord", chord)?;
    let (start, end) = ends(plan, id)?;
    // The same chord to the last digits leaves the peg where it is.
    const SAME_CHORD: f64 = 1e-12;
    if (chord - start.distance(end)).abs() <= SAME_CHORD * chord {
        return Ok(());
    }
    let way = Direction::of(end - start).unwrap_or(Direction::EAST);
    peg::move_end(plan, id, start + way.unit() * chord)
}

fn ends(plan: &Plan, id: LegId) -> Result<(Point, Point), EditError> {
    let route = plan.route(id.scheme, id.route).ok_or(EditError::NotThere)?;
    let (from, to) = route.ends_of(id.leg).ok_or(EditError::NotThere)?;
    let at = |i: usize| route.waypoints.get(i).map(|w| w.at);
    at(from).zip(at(to)).ok_or(EditError::NotThere)
}

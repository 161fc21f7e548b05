//! The bends of a set-out as plain data: their figures, and every way to set them out.

use serde::Serialize;

use super::{CourseFigures, TapedFigures, Telling, TiedFigures};
use crate::setout::{BendWork, Check, Effort, OffsetTable, RoundingEffect, Way};

/// How one bend is set out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BendSetOutFigures {
    /// Its number among the bends of the path, from 1.
    pub number: usize,
    /// Which piece of the centre line it is, counted from 0.
    pub piece: usize,
    /// The numbers of the pegs at its ends.
    pub between: [usize; 2],
    /// From peg to peg.
    pub chord: TapedFigures,
    /// Half of that.
    pub half_chord: TapedFigures,
    /// From the middle of the chord to the apex.
    pub rise: TapedFigures,
    /// The string of the centre line.
    pub radius: TapedFigures,
    /// The string of the inside edge; null where that has no radius.
    pub inner: Option<TapedFigures>,
    /// The string of the outside edge.
    pub outer: TapedFigures,
    /// From the middle of the chord to the swing point.
    pub apothem: TapedFigures,
    /// The swing point and its ties; null where no tape reaches it.
    pub swing_point: Option<TiedFigures>,
    /// The angle at which the strings from both pegs cross there.
    pub crossing: f64,
    /// What rounding the string to the tape does.
    pub rounding: RoundingFigures,
    /// Offsets from the chord, or from both half chords.
    pub offsets: Vec<OffsetTableFigures>,
    /// What must read how much.
    pub must_read: Vec<CheckFigures>,
    /// Every way to set it out.
    pub ways: Vec<WayFigures>,
    /// Which of them is taken, counted from 0.
    pub chosen: usize,
    /// Whether the person chose it.
    pub by_choice: bool,
    /// Which is taken where that fails; null without any.
    pub fallback: Option<usize>,
}

/// A way to set out a bend.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WayFigures {
    /// By which method.
    pub method: &'static str,
    /// `workable`, `awkward` or `not here`.
    pub verdict: &'static str,
    /// Why.
    pub reasons: Vec<String>,
    /// How far its worst line may come to lie off the drawn one.
    pub error: Option<f64>,
    /// What it takes.
    pub effort: Option<EffortFigures>,
    /// How it is done; of the chosen one and the fallback alone, null else.
    pub course: Option<CourseFigures>,
}

/// What a way takes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct EffortFigures {
    /// How often something comes to another place.
    pub setups: usize,
    /// How many distances are pulled.
    pub pulls: usize,
    /// The longest.
    pub longest_pull: f64,
    /// How many people.
    pub people: usize,
}

/// What rounding the string does, the pegs staying.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RoundingFigures {
    /// How much longer the string is.
    pub string: f64,
    /// How far the apex moves away from the chord.
    pub apex_moves: f64,
    /// How far the swing point moves away from it.
    pub swing_point_moves: f64,
}

/// Offsets from one chord.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OffsetTableFigures {
    /// What the string starts from.
    pub from: String,
    /// What it runs to.
    pub to: String,
    /// How long the chord is.
    pub chord: TapedFigures,
    /// By running distance.
    pub rows: Vec<OffsetRowFigures>,
}

/// The offsets at one running distance.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct OffsetRowFigures {
    /// The running distance.
    pub along: TapedFigures,
    /// To the centre line.
    pub centre: Option<TapedFigures>,
    /// To the inside edge.
    pub inner: Option<TapedFigures>,
    /// To the outside edge.
    pub outer: Option<TapedFigures>,
}

/// A check of the whole bend.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CheckFigures {
    /// What to measure.
    pub what: String,
    /// As drawn.
    pub exact: f64,
    /// The least it may read.
    pub least: f64,
    /// The most it may read.
    pub most: f64,
}

impl Telling<'_> {
    pub(super) fn bend(&self, work: &BendWork) -> BendSetOutFigures {
        let bend = &work.bend;
        let told = |number: usize| number == work.chosen || Some(number) == work.fallback;
        let ways = work.ways.iter().enumerate();
        BendSetOutFigures {
            number: bend.number,
            piece: bend.piece,
            between: [bend.pegs.0, bend.pegs.1],
            chord: bend.chord.into(),
            half_chord: bend.half_chord.into(),
            rise: bend.rise.into(),
            radius: bend.radius.into(),
            inner: bend.inner.map(TapedFigures::from),
            outer: bend.outer.into(),
            apothem: bend.apothem.into(),
            swing_point: work.swing_point.as_ref().map(|spot| self.tied(spot)),
            crossing: bend.crossing,
            rounding: RoundingFigures::from(&bend.rounding),
            offsets: bend.offsets.iter().map(OffsetTableFigures::from).collect(),
            must_read: bend.checks.iter().map(CheckFigures::from).collect(),
            ways: ways.map(|(i, way)| self.way(way, told(i))).collect(),
            chosen: work.chosen,
            by_choice: work.by_choice,
            fallback: work.fallback,
        }
    }

    fn way(&self, way: &Way, told: bool) -> WayFigures {
        let course = way.course.as_ref().ok().filter(|_| told);
        WayFigures {
            method: way.method.name(),
            verdict: way.verdict.word(),
            reasons: way.verdict.reasons().to_vec(),
            error: way.error,
            effort: way.effort.map(EffortFigures::from),
            course: course.map(|course| self.course(course)),
        }
    }
}

impl From<Effort> for EffortFigures {
    fn from(effort: Effort) -> Self {
        Self {
            setups: effort.setups,
            pulls: effort.pulls,
            longest_pull: effort.longest_pull,
            people: effort.people,
        }
    }
}

impl From<&RoundingEffect> for RoundingFigures {
    fn from(effect: &RoundingEffect) -> Self {
        Self {
            string: effect.string,
            apex_moves: effect.apex,
            swing_point_moves: effect.swing_point,
        }
    }
}

impl From<&OffsetTable> for OffsetTableFigures {
    fn from(table: &OffsetTable) -> Self {
        let rows = table.rows.iter().map(|row| OffsetRowFigures {
            along: row.along.into(),
            centre: row.centre.map(TapedFigures::from),
            inner: row.inner.map(TapedFigures::from),
            outer: row.outer.map(TapedFigures::from),
        });
        Self {
            from: table.from.clone(),
            to: table.to.clone(),
            chord: table.chord.into(),
            rows: rows.collect(),
        }
    }
}

impl From<&Check> for CheckFigures {
    fn from(check: &Check) -> Self {
        Self {
            what: check.what.clone(),
            exact: check.must_read,
            least: check.from,
            most: check.to,
        }
    }
}

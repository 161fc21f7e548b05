//! The options beside each other, for scripts.

use serde::Serialize;

use crate::compare::{Comparison, Standing};

/// What one option comes to beside the others.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StandingFigures {
    /// Its letter.
    pub letter: String,
    /// The length of all its paths.
    pub length: f64,
    /// The area between their edges.
    pub area: f64,
    /// Its least width.
    pub narrowest: f64,
    /// Its greatest width.
    pub widest: f64,
    /// The radius of its tightest inside edge; null without a bend.
    pub tightest_inside: Option<f64>,
    /// The most it turns with a pace.
    pub turn_per_pace: f64,
    /// What it comes nearest to; null where nothing is within a metre.
    pub nearest: Option<NearestFigures>,
    /// How many findings to stop for.
    pub stops: usize,
    /// How many to take care of.
    pub cares: usize,
    /// How many to note.
    pub notes: usize,
    /// The area of root zones covered.
    pub roots_covered: f64,
    /// The greatest share of one root zone.
    pub root_share: f64,
    /// How it feels to walk, in plain words.
    pub character: String,
    /// The letters of the options it is no better than.
    pub no_better_than: Vec<String>,
}

/// What an option comes nearest to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NearestFigures {
    /// Which obstacle, counted from 1.
    pub obstacle: usize,
    /// How far off.
    pub distance: f64,
}

/// The standings of the options, in order.
pub(super) fn standings(comparison: &Comparison) -> Vec<StandingFigures> {
    let letter = |scheme: usize| comparison.standings[scheme].letter.clone();
    let figures = |standing: &Standing| StandingFigures {
        letter: standing.letter.clone(),
        length: standing.length,
        area: standing.area,
        narrowest: standing.widths[0],
        widest: standing.widths[1],
        tightest_inside: standing.tightest_inside,
        turn_per_pace: standing.turn_per_pace,
        nearest: standing.nearest.as_ref().map(|nearest| NearestFigures {
            obstacle: nearest.obstacle + 1,
            distance: nearest.distance,
        }),
        stops: standing.findings[0],
        cares: standing.findings[1],
        notes: standing.findings[2],
        roots_covered: standing.roots,
        root_share: standing.root_share,
        character: standing.character.clone(),
        no_better_than: comparison
            .no_better_than(standing.scheme)
            .into_iter()
            .map(letter)
            .collect(),
    };
    comparison.standings.iter().map(figures).collect()
}

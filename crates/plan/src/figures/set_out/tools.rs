//! The order of work and what to bring, as plain data.

use serde::Serialize;

use crate::setout::{Stage, ToolList};

/// One stretch of the work.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StageFigures {
    /// What kind.
    pub stage: &'static str,
    /// Which straight or bend, counted from 0; null for pegs.
    pub nth: Option<usize>,
}

/// What to bring.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ToolFigures {
    /// Tapes.
    pub tapes: usize,
    /// Strings to cut.
    pub strings: Vec<StringFigures>,
    /// Pegs on the centre line.
    pub path_pegs: usize,
    /// Pegs at apexes.
    pub apex_pegs: usize,
    /// Pegs at swing points.
    pub swing_pegs: usize,
    /// Offset pegs.
    pub offset_pegs: usize,
    /// Pegs to spare.
    pub spare_pegs: usize,
    /// Nails.
    pub nails: usize,
    /// Flags or sand marks.
    pub flags: usize,
    /// The longest batten; null where none is used.
    pub battens: Option<f64>,
    /// Whether lines are drawn on the ground.
    pub draws_lines: bool,
    /// How long the tapes are taken to be.
    pub tape_length: f64,
    /// The longest single pull.
    pub longest_pull: f64,
    /// How many people.
    pub people: usize,
}

/// A string to cut.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StringFigures {
    /// How long, knots included.
    pub cut: f64,
    /// What it is used for.
    pub used: Vec<StringUseFigures>,
}

/// One use of a string.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StringUseFigures {
    /// In which stretch of the work.
    #[serde(flatten)]
    pub stage: StageFigures,
    /// Where it starts.
    pub from: String,
    /// What it runs to.
    pub to: String,
    /// How far that is, as the tape reads it.
    pub tape: f64,
}

impl From<Stage> for StageFigures {
    fn from(stage: Stage) -> Self {
        let (stage, nth) = match stage {
            Stage::Pegs => ("pegs", None),
            Stage::Straight(nth) => ("straight", Some(nth)),
            Stage::Bend(nth) => ("bend", Some(nth)),
            Stage::OffsetPegs => ("offset pegs", None),
        };
        Self { stage, nth }
    }
}

impl ToolFigures {
    pub(super) fn of(tools: &ToolList, tape_length: f64) -> Self {
        let strings = tools.strings.iter().map(|string| StringFigures {
            cut: string.length,
            used: string
                .uses
                .iter()
                .map(|used| StringUseFigures {
                    stage: used.stage.into(),
                    from: used.between[0].clone(),
                    to: used.between[1].clone(),
                    tape: used.length,
                })
                .collect(),
        });
        Self {
            tapes: tools.tapes,
            strings: strings.collect(),
            path_pegs: tools.pegs,
            apex_pegs: tools.apex_pegs,
            swing_pegs: tools.swing_pegs,
            offset_pegs: tools.offset_pegs,
            spare_pegs: tools.spare_pegs,
            nails: tools.nails,
            flags: tools.flags,
            battens: tools.battens,
            draws_lines: tools.draws_lines,
            tape_length,
            longest_pull: tools.longest_pull,
            people: tools.people,
        }
    }
}

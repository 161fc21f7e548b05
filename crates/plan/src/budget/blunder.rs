//! Blunders that no check of the set would show: a foot or 100 mm misread at one pull.

use super::{Budget, Figure};
use crate::setout::{Course, PathLine, Spot, Voice};
use crate::units::Units;

/// A figure that can be misread by a blunder without any check leaving its range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blunder {
    /// The deed, by its place in the course.
    pub deed: usize,
    /// Which of its figures.
    pub figure: usize,
    /// How much it is misread by, in metres.
    pub by: f64,
    /// How far it puts some line out, in metres.
    pub moves: f64,
    /// The line that it moves the most.
    pub line: PathLine,
}

/// What a tape is misread by: a whole foot, or 100 mm; in metres.
#[must_use]
pub fn blunder(units: Units) -> f64 {
    match units {
        Units::Metric => 0.1,
        Units::FeetInches => 0.3048,
    }
}

impl Budget {
    /// Each figure that could be out `by` so much in metres, more or less, all else being done
    /// right, with every check still fine; those that move a line the most first. Figures that move
    /// no line by as much as a tenth of the blunder are left out: they do no harm.
    #[must_use]
    pub fn unseen(&self, by: f64) -> Vec<Blunder> {
        let mut unseen: Vec<Blunder> = self
            .figures
            .iter()
            .filter(|figure| !self.sees(figure, by))
            .filter_map(|figure| self.blunder(figure, by))
            .filter(|blunder| blunder.moves >= HARMLESS * by)
            .collect();
        unseen.sort_by(|one, other| other.moves.total_cmp(&one.moves));
        unseen
    }

    fn sees(&self, figure: &Figure, by: f64) -> bool {
        let room = |deviation: f64| self.thresholds.fine * deviation;
        self.checks.iter().any(|check| {
            let out = check.by(figure.source) * by / figure.deviation;
            out.abs() > room(check.deviation)
        })
    }

    fn blunder(&self, figure: &Figure, by: f64) -> Option<Blunder> {
        let moved = self.lines.iter().map(|line| {
            let out =
                |moves: &super::Moves| (moves.by(figure.source) * by / figure.deviation).abs();
            (line.line, line.across.iter().map(out).fold(0.0, f64::max))
        });
        let (line, moves) = moved.max_by(|(_, one), (_, other)| one.total_cmp(other))?;
        Some(Blunder {
            deed: figure.deed,
            figure: figure.nth,
            by,
            moves,
            line,
        })
    }
}

/// Of a blunder, what a line is moved at least for it to be listed.
const HARMLESS: f64 = 0.1;

impl Blunder {
    /// In a sentence; empty for a blunder of another course.
    #[must_use]
    pub fn words(&self, course: &Course, voice: &Voice) -> String {
        let Some(deed) = course.deeds.get(self.deed) else {
            return String::new();
        };
        let Some(taped) = deed.figures().get(self.figure).copied() else {
            return String::new();
        };
        let name = |spot: Spot| course.spots.name(spot);
        let what = match (deed.makes, deed.line()) {
            (Some(spot), _) => format!("to {}", name(spot)),
            (None, Some(line)) => format!("that strikes the {}", line.name()),
            (None, None) => "pulled".to_owned(),
        };
        format!(
            "No check shows it if the {} {what} is misread by {}, which puts the {} out by {}: read it twice.",
            voice.taped(&taped),
            small(self.by, voice.ruler.units),
            self.line.name(),
            small(self.moves, voice.ruler.units)
        )
    }
}

/// A small length as it is said of errors: whole millimetres, or tenths of an inch.
pub(super) fn small(metres: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{:.0} mm", 1000.0 * metres),
        Units::FeetInches => format!("{:.1} in", metres / 0.0254),
    }
}

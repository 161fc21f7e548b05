//! Blunders that no check of the set would show: a foot or 100 mm misread at one pull.

use std::collections::BTreeMap;

use super::{Budget, Call, Figure, Moves, Thresholds};
use crate::setout::{Course, Deed, Doing, Note, PathLine, Spot, Voice};
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
    /// Each figure of a budget's course that could be out `by` so much in metres, more or less, all
    /// else being done right, with every check still fine; those that move a line the most first.
    /// Figures that move no line by a tenth of the blunder are left out: they do no harm.
    ///
    /// What checks read is carried out with the figure misread, since a blunder is too big for first
    /// order: a flag set 100 mm too far out stands farther from its neighbour only by the second.
    #[must_use]
    pub fn unseen(&self, course: &Course, by: f64) -> Vec<Blunder> {
        let Some(right) = readings(course, None) else {
            return Vec::new();
        };
        let thresholds = self.thresholds();
        let unseen = |figure: &Figure| {
            let misread = [by, -by].map(|by| readings(course, Some((figure, by))));
            let mut possible = misread.iter().flatten();
            possible.any(|read| !self.sees(&thresholds, &right, read))
        };
        let mut found: Vec<Blunder> = self
            .figures
            .iter()
            .filter_map(|figure| Some((figure, self.blunder(figure, by)?)))
            .filter(|(figure, blunder)| {
                let deed = course.deeds.get(figure.deed);
                let on_the_ground = deed.is_some_and(|deed| shows_on_the_ground(course, deed));
                blunder.moves >= HARMLESS * by && !on_the_ground && unseen(figure)
            })
            .map(|(_, blunder)| blunder)
            .collect();
        found.sort_by(|one, other| other.moves.total_cmp(&one.moves));
        found
    }

    fn sees(&self, thresholds: &Thresholds, right: &Readings, read: &Readings) -> bool {
        self.checks.iter().any(|check| {
            let at = (check.deed, check.nth);
            let (Some(right), Some(read)) = (right.get(&at), read.get(&at)) else {
                return false;
            };
            let reading = check.expected + (read - right);
            check.call(reading, thresholds) != Call::Fine
        })
    }

    fn blunder(&self, figure: &Figure, by: f64) -> Option<Blunder> {
        let moved = self.lines.iter().map(|line| {
            let out = |moves: &Moves| (moves.by(figure.source) * by / figure.deviation).abs();
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

/// Whether a struck line is seen to miss the peg or flag that must stand on it.
fn shows_on_the_ground(course: &Course, deed: &Deed) -> bool {
    let Some(line) = deed.line() else {
        return false;
    };
    deed.note == Some(Note::OverTheApex)
        || course.deeds.iter().any(|other| {
            let is_its = matches!(other.makes, Some(Spot::Flag { line: own, .. }) if own == line);
            is_its && other.note == Some(Note::OnTheLine)
        })
}

/// What every check reads, by its deed and its place among that deed's checks.
type Readings = BTreeMap<(usize, usize), f64>;

/// What is read where all figures are as drawn, but for one; `None` where that cannot be done, which
/// nobody overlooks.
fn readings(course: &Course, misread: Option<(&Figure, f64)>) -> Option<Readings> {
    let mut deeds = 0..;
    let pull = |deed: &Deed| {
        let place = deeds.next();
        let mut pulled: Vec<f64> = deed.figures().iter().map(|taped| taped.exact).collect();
        match misread {
            Some((figure, by)) if place == Some(figure.deed) => {
                if let Some(own) = pulled.get_mut(figure.nth) {
                    *own += by;
                }
            }
            _ => {}
        }
        pulled
    };
    let (spots, _) = course.carried_out(pull).ok()?;
    let checks = course.deeds.iter().enumerate().flat_map(|(i, deed)| {
        let own = deed.checks.iter().enumerate();
        own.map(move |(nth, check)| ((i, nth), check))
    });
    checks
        .map(|(place, check)| Some((place, check.read(&spots)?)))
        .collect()
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
        let made = deed.makes.map(name).unwrap_or_default();
        let what = match (&deed.does, self.figure) {
            (Doing::Along { from, .. }, _) | (Doing::Square { from, .. }, 0) => {
                format!("along from {} for {made}", name(*from))
            }
            (Doing::Square { .. }, _) => format!("square off to {made}"),
            (Doing::Cross { one, other, .. }, nth) => {
                let (from, _) = if nth == 0 { one } else { other };
                format!("from {} to {made}", name(*from))
            }
            (Doing::Strike { line, .. }, _) => format!("that strikes the {}", line.name()),
            (Doing::Stretch { .. } | Doing::Slide { .. } | Doing::Read, _) => return String::new(),
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

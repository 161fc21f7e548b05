//! How options are compared in the window: over each other or side by side, and before a client.

use plan::compare::{Comparison, Criterion};

/// How the options are shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparing {
    /// Side by side, rather than the others behind the chosen one.
    pub side_by_side: bool,
    /// Whether the others show behind the chosen one.
    pub others: bool,
    /// What the table is sorted by; nothing for the order of the plan.
    pub sort: Option<Sort>,
    /// What stands along the two axes of their chart, across and upwards.
    pub axes: [Criterion; 2],
    /// Where one walks, while the chosen option is shown to a client over the whole window.
    pub shown: Option<Walk>,
}

impl Default for Comparing {
    fn default() -> Self {
        Self {
            side_by_side: false,
            others: true,
            sort: None,
            axes: [Criterion::Length, Criterion::TightestInside],
            shown: None,
        }
    }
}

/// What a table is sorted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sort {
    /// The criterion.
    pub by: Criterion,
    /// Whether the best stands last.
    pub best_last: bool,
}

/// A walk along the path that is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Walk {
    /// How far along it one has come, in metres; nothing before one sets out.
    pub station: Option<f64>,
    /// Whether one is walking.
    pub walking: bool,
}

/// What is asked about comparing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CompareAsk {
    /// Show them side by side, or over each other.
    SideBySide(bool),
    /// Show the others behind the chosen one, or leave them out.
    Others(bool),
    /// Sort the table: the best first, then last, then as the plan has them.
    SortBy(Criterion),
    /// Put this along an axis of the chart: 0 across, 1 upwards.
    Axis(usize, Criterion),
    /// Turn to the next option, or the one before.
    Next {
        /// The one before.
        back: bool,
    },
    /// Walk along the path, or stand still.
    Walk,
    /// Leave the view of the client.
    Leave,
}

/// Metres a second of someone who walks without haste. Common practice, no source.
pub const WALKING_PACE: f64 = 1.2;
/// How far off the path things are named to someone who walks it, in metres.
pub const NAMED_WITHIN: f64 = 6.0;

impl Comparing {
    /// The options in the order of the table.
    #[must_use]
    pub fn order(&self, comparison: &Comparison) -> Vec<usize> {
        match self.sort {
            None => (0..comparison.standings.len()).collect(),
            Some(sort) => {
                let mut order = comparison.sorted(sort.by);
                if sort.best_last {
                    order.reverse();
                }
                order
            }
        }
    }

    /// Sorts by a criterion: the best first, asked again the best last, and then no longer.
    pub fn sort_by(&mut self, by: Criterion) {
        self.sort = match self.sort {
            Some(sort) if sort.by == by && sort.best_last => None,
            Some(sort) if sort.by == by => Some(Sort {
                by,
                best_last: true,
            }),
            _ => Some(Sort {
                by,
                best_last: false,
            }),
        };
    }
}

impl Walk {
    /// Walks on for so many seconds along a path of so many metres; at its end one stands still.
    pub fn go_on(&mut self, seconds: f64, length: f64) {
        let station = self.station.unwrap_or(0.0) + WALKING_PACE * seconds;
        self.station = Some(station.min(length));
        self.walking = station < length;
    }

    /// Sets out, at the end from the start again, or stands still.
    pub fn turn(&mut self, length: f64) {
        self.walking = !self.walking;
        if self.walking && self.station.is_none_or(|station| length <= station) {
            self.station = Some(0.0);
        }
    }
}

//! Options set against each other in sentences: what is more, what is less, what is no better.

use super::{Comparison, Criterion, Standing};

/// A difference in length that is worth a word, in metres: a tenth of a pace or so. Common practice,
/// no source.
const WORTH_WALKING: f64 = 0.1;

/// A difference in area that is worth a word, in square metres: a barrow of gravel or so, spread
/// thin. Common practice, no source.
const WORTH_COVERING: f64 = 0.5;

impl Comparison {
    /// What is different in an option against another, in one sentence without a final stop:
    /// “B is 2.30 m longer and keeps 0.40 m more off “pond””. Nothing where one of the two is not
    /// drawn, or they are the same.
    ///
    /// Said is what differs by more than the division of the ruler, and by no less than is worth a
    /// word; each difference is rounded once, itself.
    #[must_use]
    pub fn difference(&self, of: usize, from: usize) -> Option<String> {
        let find = |scheme| self.standings.get(scheme).filter(|s: &&Standing| s.drawn);
        let (of_, from_) = (find(of)?, find(from)?);
        if of == from {
            return None;
        }
        let clauses: Vec<String> = [
            self.length(of_, from_),
            self.width(of_, from_),
            self.area(of_, from_),
            self.tightest(of_, from_),
            self.clearance(of_, from_),
            self.roots(of_, from_),
            findings(of_, from_),
            counted(of_, from_),
        ]
        .into_iter()
        .flatten()
        .collect();
        let letter = &of_.letter;
        Some(if clauses.is_empty() {
            format!("{letter} comes to the same as {}", from_.letter)
        } else {
            format!("{letter} {}", listed(&clauses))
        })
    }

    /// That an option is no better than others, in one sentence without a final stop.
    #[must_use]
    pub fn no_better(&self, scheme: usize) -> Option<String> {
        let than = self.no_better_than(scheme);
        let letters: Vec<String> = than
            .iter()
            .filter_map(|other| Some(self.standings.get(*other)?.letter.clone()))
            .collect();
        let letter = &self.standings.get(scheme)?.letter;
        let what = if self.weighed().contains(&Criterion::Cost) {
            "in cost, length, tightest bend, clearance or roots covered"
        } else {
            "in length, tightest bend, clearance or roots covered (cost is not known)"
        };
        let than = either(&letters);
        (!letters.is_empty()).then(|| format!("{letter} is no better than {than} {what}"))
    }

    /// How much more one length is than another, if that is worth a word.
    fn more(&self, of: f64, from: f64, least: f64) -> Option<(String, bool)> {
        let more = of - from;
        let division = self.ruler.graduation.metres();
        (more.abs() > division && more.abs() >= least)
            .then(|| (self.ruler.text(more.abs()), more > 0.0))
    }

    fn length(&self, of: &Standing, from: &Standing) -> Option<String> {
        let (much, longer) = self.more(of.length, from.length, WORTH_WALKING)?;
        Some(format!(
            "is {much} {}",
            if longer { "longer" } else { "shorter" }
        ))
    }

    fn width(&self, of: &Standing, from: &Standing) -> Option<String> {
        let narrowest = |standing: &Standing| standing.widths[0];
        let (much, wider) = self.more(narrowest(of), narrowest(from), 0.0)?;
        let where_ = if of.widths[0] < of.widths[1] || from.widths[0] < from.widths[1] {
            " where it is narrowest"
        } else {
            ""
        };
        let word = if wider { "wider" } else { "narrower" };
        Some(format!("is {much} {word}{where_}"))
    }

    fn area(&self, of: &Standing, from: &Standing) -> Option<String> {
        let more = of.area - from.area;
        let word = if more > 0.0 { "more" } else { "less" };
        (more.abs() >= WORTH_COVERING)
            .then(|| format!("covers {} {word} ground", self.ruler.area(more.abs())))
    }

    fn tightest(&self, of: &Standing, from: &Standing) -> Option<String> {
        match (of.tightest_inside, from.tightest_inside) {
            (None, None) => None,
            (None, Some(_)) => Some("has no bend".into()),
            (Some(_), None) => Some("has bends".into()),
            (Some(of), Some(from)) => {
                let (_, gentler) = self.more(of, from, 0.0)?;
                let word = if gentler { "gently" } else { "tightly" };
                let inside = |radius: f64| {
                    if radius > 0.0 {
                        self.ruler.text(radius)
                    } else {
                        "nothing".into()
                    }
                };
                let (of, from) = (inside(of), inside(from));
                Some(format!(
                    "bends more {word} (inside radius {of} where it is tightest, not {from})"
                ))
            }
        }
    }

    fn clearance(&self, of: &Standing, from: &Standing) -> Option<String> {
        match (&of.nearest, &from.nearest) {
            (None, None) => None,
            (None, Some(from)) => Some(format!("stays well clear of {}", from.called)),
            (Some(of), None) => {
                let near = self.ruler.text(of.distance.max(0.0));
                Some(format!("comes within {near} of {}", of.called))
            }
            (Some(of), Some(from)) => {
                let (much, more) = self.more(of.distance, from.distance, 0.0)?;
                let word = if more { "more" } else { "less" };
                Some(if of.obstacle == from.obstacle {
                    format!("keeps {much} {word} off {}", of.called)
                } else {
                    format!(
                        "keeps {much} {word} off what is nearest ({} instead of {})",
                        of.called, from.called
                    )
                })
            }
        }
    }

    fn roots(&self, of: &Standing, from: &Standing) -> Option<String> {
        let [of_, from_] = [of, from].map(|standing| self.ruler.area_steps(standing.roots));
        let more = of.roots - from.roots;
        let much = self.ruler.area(more.abs());
        match (of_, from_) {
            _ if of_ == from_ => None,
            (0, _) => Some("covers no roots".into()),
            (_, 0) => Some(format!("covers {much} of roots")),
            _ => {
                let word = if more > 0.0 { "more" } else { "less" };
                Some(format!("covers {much} {word} of roots"))
            }
        }
    }
}

fn findings(of: &Standing, from: &Standing) -> Option<String> {
    let said = |count: usize, other: usize, what: [&str; 2]| {
        let (more, word) = (
            count.abs_diff(other),
            if count > other { "more" } else { "fewer" },
        );
        let what = if more == 1 { what[0] } else { what[1] };
        (more > 0).then(|| format!("has {more} {word} {what}"))
    };
    let [stop, care, _] = of.findings;
    let [from_stop, from_care, _] = from.findings;
    let stops = ["thing that cannot be built", "things that cannot be built"];
    let cares = ["thing to take care of", "things to take care of"];
    said(stop, from_stop, stops).or_else(|| said(care, from_care, cares))
}

fn counted(of: &Standing, from: &Standing) -> Option<String> {
    let clauses: Vec<String> = [
        (Criterion::Cost, "costs", ""),
        (Criterion::Days, "takes", ""),
        (Criterion::Spoil, "digs out", ""),
        (Criterion::Cuts, "cuts", " pavers"),
    ]
    .into_iter()
    .filter_map(|(criterion, verb, what)| {
        let [of, from] = [of, from].map(|standing| criterion.amount(standing));
        let (of, from) = (of?, from?);
        (of.text != from.text).then(|| format!("{verb} {}{what}, not {}", of.text, from.text))
    })
    .collect();
    (!clauses.is_empty()).then(|| listed(&clauses))
}

/// `a`, `a and b`, `a, b and c`.
fn listed(clauses: &[String]) -> String {
    joined(clauses, "and")
}

/// `A`, `A or B`, `A, B or C`.
fn either(letters: &[String]) -> String {
    joined(letters, "or")
}

fn joined(items: &[String], word: &str) -> String {
    match items.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} {word} {last}", rest.join(", ")),
        None => String::new(),
    }
}

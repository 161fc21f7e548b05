//! One table: what was measured, what was wanted, and how long general libraries take.

use std::hint::black_box;
use std::time::{Duration, Instant};

use geometry::Figure;

use crate::{ours, peers};

/// A batch of rounds lasts at least so long: a thousand times what reading the clock costs, and more.
const BATCH: Duration = Duration::from_millis(2);
/// Of so many batches the middle one counts, so that what else runs meanwhile does not.
const BATCHES: usize = 41;

/// Measures all, and prints it as a Markdown table.
#[expect(clippy::print_stdout, reason = "a bench tells what it measured")]
pub(crate) fn print() {
    println!("\n| Work | Pegbow | At most | kurbo | geo |\n| --- | ---: | ---: | ---: | ---: |");
    for row in rows() {
        println!("{}", row.text());
    }
    let kilobytes = ours::example_sheet()().len() / 1000;
    println!("\nThe example's sheet has {kilobytes} kB, wanted at most 200.");
}

struct Row {
    work: &'static str,
    ours: f64,
    wanted: Option<f64>,
    kurbo: Option<f64>,
    geo: Option<f64>,
}

impl Row {
    fn new(work: &'static str, ours: f64) -> Self {
        Self {
            work,
            ours,
            wanted: None,
            kurbo: None,
            geo: None,
        }
    }

    fn wanted(self, seconds: f64) -> Self {
        Self {
            wanted: Some(seconds),
            ..self
        }
    }

    fn kurbo(self, seconds: f64) -> Self {
        Self {
            kurbo: Some(seconds),
            ..self
        }
    }

    fn geo(self, seconds: f64) -> Self {
        Self {
            geo: Some(seconds),
            ..self
        }
    }

    fn text(&self) -> String {
        let wanted = self.wanted.map_or_else(String::new, |seconds| {
            let missed = if seconds < self.ours {
                " **missed**"
            } else {
                ""
            };
            format!("{}{missed}", time_text(seconds))
        });
        let peer = |seconds: Option<f64>| {
            seconds.map_or_else(String::new, |seconds| {
                format!("{} (× {:.1})", time_text(seconds), seconds / self.ours)
            })
        };
        format!(
            "| {} | {} | {wanted} | {} | {} |",
            self.work,
            time_text(self.ours),
            peer(self.kurbo),
            peer(self.geo)
        )
    }
}

fn rows() -> Vec<Row> {
    let closed_form = ours::any_two((Figure::Chord, 5.6), (Figure::Radius, 4.0));
    let by_root = ours::any_two((Figure::Chord, 5.6), (Figure::ArcLength, 6.1));
    vec![
        Row::new(
            "A bend and its radius from chord and rise",
            time(ours::bend_from_chord_and_rise),
        )
        .wanted(50e-9),
        Row::new(
            "Both bends from chord and radius, closed form",
            time(closed_form),
        ),
        Row::new("The bend from chord and arc length, by root", time(by_root)),
        Row::new("Length of one arc", time(ours::arc_length)).kurbo(time(peers::kurbo_arc_length)),
        Row::new("Length of a path of 20 legs", time(ours::length(20)))
            .kurbo(time(peers::kurbo_length(20)))
            .geo(time(peers::geo_length(20))),
        Row::new(
            "Nearest points of 20 legs to 16 places",
            time(ours::nearest(20)),
        )
        .kurbo(time(peers::kurbo_nearest(20)))
        .geo(time(peers::geo_nearest(20))),
        Row::new("Both edges of 20 legs", time(ours::edges(20)))
            .kurbo(time(peers::kurbo_edges(20)))
            .geo(time(peers::geo_edges(20))),
        Row::new("Both edges of 2 000 legs", time(ours::edges(2_000)))
            .kurbo(time(peers::kurbo_edges(2_000)))
            .geo(time(peers::geo_edges(2_000))),
        Row::new("A plan of 20 legs solved", time(ours::solve(20))).wanted(20e-6),
        Row::new("A plan of 2 000 legs solved", time(ours::solve(2_000))).wanted(16e-3),
        Row::new("One step of a drag in the example", time(ours::drag_step())).wanted(1e-3),
        Row::new(
            "A plan of 1 000 legs read from its file",
            time(ours::read(1_000)),
        )
        .wanted(20e-3),
        Row::new("The example's sheet", time(ours::example_sheet())).wanted(100e-3),
    ]
}

/// Seconds that a piece of work takes.
fn time<T>(work: impl Fn() -> T) -> f64 {
    let batch = |rounds: u32| {
        let begun = Instant::now();
        for _ in 0..rounds {
            black_box(work());
        }
        begun.elapsed()
    };
    let mut rounds = 1;
    while batch(rounds) < BATCH {
        rounds *= 2;
    }
    let mut batches: Vec<f64> = (0..BATCHES)
        .map(|_| batch(rounds).as_secs_f64() / f64::from(rounds))
        .collect();
    batches.sort_by(f64::total_cmp);
    batches[BATCHES / 2]
}

fn time_text(seconds: f64) -> String {
    let (number, unit) = match seconds {
        s if s < 1e-6 => (s * 1e9, "ns"),
        s if s < 1e-3 => (s * 1e6, "µs"),
        s => (s * 1e3, "ms"),
    };
    let decimals = if number < 10.0 { 1 } else { 0 };
    format!("{number:.decimals$} {unit}")
}

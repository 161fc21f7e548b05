//! One table: what was measured, what was wanted, and how long general libraries take.

use std::hint::black_box;
use std::time::{Duration, Instant};

use bench::among;
use geometry::{Figure, Ground};

use crate::{ground, ours, peers};

/// A batch of rounds lasts at least so long: a thousand times what reading the clock costs, and more.
const BATCH: Duration = Duration::from_millis(2);
/// Of so many batches the middle one counts, so that what else runs meanwhile does not.
const BATCHES: usize = 41;
/// Slow work gets fewer batches, but for [`FEWEST`] not longer than this in all.
const LONG: Duration = Duration::from_secs(2);
/// Of so few batches the middle one still says something.
const FEWEST: usize = 5;

/// Measures all, and prints it as Markdown tables.
#[expect(clippy::print_stdout, reason = "a bench tells what it measured")]
pub(crate) fn print() {
    println!("\n| Work | Pegbow | At most | kurbo | geo |\n| --- | ---: | ---: | ---: | ---: |");
    for row in rows() {
        println!("{}", row.text());
    }
    let kilobytes = ours::example_sheet()().len() / 1000;
    println!("\nThe example's sheet has {kilobytes} kB, wanted at most 200.");
    println!("\n20 legs among ever more obstacles:\n");
    println!("| Obstacles | One edit of a drag | The same edit afresh | Distances of one edge |");
    println!("| ---: | ---: | ---: | ---: |");
    let counts = [10_u32, 100, 1_000, 10_000, 100_000];
    let times = counts.map(among_times);
    for (count, [drag, afresh, gaps]) in counts.iter().zip(times) {
        let [drag, afresh, gaps] = [drag, afresh, gaps].map(time_text);
        println!("| {count} | {drag} | {afresh} | {gaps} |");
    }
    let growth = |of: usize| growth(&counts.map(f64::from), &times.map(|each| each[of]));
    let [drag, afresh, gaps] = [0, 1, 2].map(growth);
    println!("| growth as this power | {drag:.2} | {afresh:.2} | {gaps:.2} |");
}

/// What an edit of a drag, the same edit afresh and the distances of one edge take among so many
/// obstacles.
fn among_times(count: u32) -> [f64; 3] {
    let plan = || among::round_ponds(20, count as usize);
    [
        time(ground::drag(plan(), 20)),
        time(ground::afresh(plan(), 20)),
        time(ground::gaps(20, count as usize)),
    ]
}

/// The power of the counts that the times grow by: the slope of the straight nearest to their
/// logarithms.
fn growth(counts: &[f64], times: &[f64]) -> f64 {
    let mean = |of: &[f64]| of.iter().map(|x| x.ln()).sum::<f64>() / of.len() as f64;
    let (middle, height) = (mean(counts), mean(times));
    let both = counts.iter().zip(times);
    let (rise, run) = both.fold((0.0, 0.0), |(rise, run), (count, time)| {
        let along = count.ln() - middle;
        (rise + along * (time.ln() - height), run + along * along)
    });
    rise / run
}

struct Row {
    work: &'static str,
    ours: f64,
    wanted: Option<f64>,
    kurbo: Option<f64>,
    geo: Option<f64>,
    /// How many times as long geo should take at least.
    ahead: Option<f64>,
}

impl Row {
    fn new(work: &'static str, ours: f64) -> Self {
        Self {
            work,
            ours,
            wanted: None,
            kurbo: None,
            geo: None,
            ahead: None,
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

    /// Wanted are so many times geo's speed.
    fn ahead(self, times: f64) -> Self {
        Self {
            ahead: Some(times),
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
        let ahead = self.geo.zip(self.ahead).map(|(seconds, times)| {
            let missed = seconds < times * self.ours;
            let missed = if missed { " **missed**" } else { "" };
            format!(", wanted × {times}{missed}")
        });
        format!(
            "| {} | {} | {wanted} | {} | {}{} |",
            self.work,
            time_text(self.ours),
            peer(self.kurbo),
            peer(self.geo),
            ahead.unwrap_or_default()
        )
    }
}

fn rows() -> Vec<Row> {
    let drag = |legs, count| ground::drag(among::eight_sided_ponds(legs, count), legs);
    let afresh = |legs, count| ground::afresh(among::eight_sided_ponds(legs, count), legs);
    let room = |legs, count| ground::room(among::eight_sided_ponds(legs, count), legs);
    let patches = ground::patches(200, 10_000);
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
        Row::new("Length of a bend of 60°", time(ours::bend_length()))
            .wanted(20e-9)
            .kurbo(time(peers::kurbo_bend_length())),
        Row::new(
            "Nearest point of a bend of 60°",
            time(ours::bend_nearest_point()),
        )
        .wanted(20e-9)
        .kurbo(time(peers::kurbo_bend_nearest())),
        Row::new(
            "The same, and how far along it is",
            time(ours::bend_nearest()),
        ),
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
            .geo(time(peers::geo_edges(20)))
            .ahead(100.0),
        Row::new("Both edges of 200 legs", time(ours::edges(200)))
            .kurbo(time(peers::kurbo_edges(200)))
            .geo(time(peers::geo_edges(200)))
            .ahead(100.0),
        Row::new("Area of a path of 200 legs", time(ours::area(200)))
            .kurbo(time(peers::kurbo_area(200)))
            .geo(time(peers::geo_area(200))),
        Row::new(
            "Where 2 000 legs cross themselves",
            time(ours::crossings(2_000)),
        )
        .geo(time(peers::geo_crossings(2_000))),
        Row::new(
            "Distances of an edge of 20 legs to 60 obstacles",
            time(ground::gaps(20, 60)),
        )
        .geo(time(peers::geo_gaps(20, 60)))
        .ahead(20.0),
        Row::new(
            "Distances of an edge of 200 legs to 1 000 obstacles",
            time(ground::gaps(200, 1_000)),
        )
        .geo(time(peers::geo_gaps(200, 1_000)))
        .ahead(500.0),
        Row::new("A plan of 20 legs solved", time(ours::solve(20))).wanted(20e-6),
        Row::new("A plan of 2 000 legs solved", time(ours::solve(2_000))).wanted(16e-3),
        Row::new("One step of a drag in the example", time(ours::drag_step())).wanted(1e-3),
        Row::new(
            "One edit of a drag: 20 legs, 60 obstacles",
            time(drag(20, 60)),
        )
        .wanted(16e-3),
        Row::new("The same edit afresh", time(afresh(20, 60))),
        Row::new(
            "One edit of a drag: 2 000 legs, 10 000 obstacles",
            time(drag(2_000, 10_000)),
        )
        .wanted(16e-3),
        Row::new("The same edit afresh", time(afresh(2_000, 10_000))),
        Row::new(
            "The room of a bend: 20 legs, 60 obstacles",
            time(room(20, 60)),
        ),
        Row::new(
            "The room of a bend: 2 000 legs, 10 000 obstacles",
            time(room(2_000, 10_000)),
        ),
        Row::new(
            "The index of 10 000 obstacles built",
            time_of(|| patches.clone(), Ground::new),
        ),
        Row::new(
            "All that is kept of a site of 10 000 obstacles",
            time(ground::surroundings(&among::eight_sided_ponds(200, 10_000))),
        ),
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
    time_of(|| (), |()| work())
}

/// Seconds that a piece of work takes, without making what it uses up.
fn time_of<I, T>(make: impl Fn() -> I, work: impl Fn(I) -> T) -> f64 {
    let batch = |rounds: u32| {
        let inputs: Vec<I> = (0..rounds).map(|_| make()).collect();
        let begun = Instant::now();
        for input in inputs {
            black_box(work(input));
        }
        begun.elapsed()
    };
    let mut rounds = 1;
    let mut took = batch(rounds);
    while took < BATCH {
        rounds *= 2;
        took = batch(rounds);
    }
    let fit = usize::try_from(LONG.as_micros() / took.as_micros().max(1)).unwrap_or(BATCHES);
    let mut batches: Vec<f64> = (0..fit.clamp(FEWEST, BATCHES))
        .map(|_| batch(rounds).as_secs_f64() / f64::from(rounds))
        .collect();
    batches.sort_by(f64::total_cmp);
    batches[batches.len() / 2]
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

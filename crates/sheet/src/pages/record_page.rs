//! The page that is kept: the whole read once more, by whom, and when.

use plan::setout::{Reading, Spot};

use super::Job;
use super::flow::{Flow, Part};
use super::steps::STEP;
use super::table::{Content, Table};

pub(super) fn add(flow: &mut Flow, job: &Job<'_>, path: &str) {
    flow.start("Record: the whole once more");
    let who = ["Date", "Read by", "Tape used"];
    let who = Table {
        heads: who.map(str::to_owned).to_vec(),
        rows: vec![vec![Content::Write; 3]],
        names: usize::MAX - 1,
        style: STEP,
    };
    let parts = vec![
        Part::Paragraph(
            format!(
                "{}: when every line lies, read these afresh, with another tape or another person if there is one, and write down what it reads. They are the ranges of the pages before. Between fine and stop look again: read it once more, then what is nearest to it; move nothing before two checks agree on what is wrong. Dig only when all are fine. Keep this page with the plan.",
                super::short(path)
            ),
            STEP,
        ),
        Part::Table(who),
        Part::Table(readings(job)),
    ];
    flow.set(&parts);
    let foremen = foremen(job);
    if !foremen.rows.is_empty() {
        flow.set(&[
            Part::Heading("Walked with a tape along both edges".to_owned()),
            Part::Table(foremen),
        ]);
    }
    flow.set(&[Part::Paragraph(
        "Pegs, pins and nails counted out: _____   counted in: _____   Left standing, and why: ____________________".to_owned(),
        STEP,
    )]);
}

/// Whether a check can be read once the lines are drawn: swing points and nails are gone by then, and
/// marks alone say nothing of the path.
fn still_stands(check: &Reading) -> bool {
    let ends = [check.from, check.to];
    let gone = |spot: &Spot| matches!(spot, Spot::Swing(_) | Spot::Aim { .. });
    let mark = |spot: &Spot| matches!(spot, Spot::Mark(_));
    !ends.iter().any(gone) && !ends.iter().all(mark)
}

/// What is read once more: every check of the work whose spots still stand when the lines are drawn,
/// in the order of the work, each once.
fn readings(job: &Job<'_>) -> Table {
    let mut read: Vec<(String, Reading)> = Vec::new();
    for act in job.work.acts() {
        for check in act.deed.checks.iter().filter(|check| still_stands(check)) {
            let is_same = |(_, other): &(String, Reading)| {
                let ends = [other.from, other.to];
                ends == [check.from, check.to] || ends == [check.to, check.from]
            };
            if !read.iter().any(is_same) {
                let [from, to] = [check.from, check.to].map(|spot| act.course.spots.name(spot));
                read.push((format!("{from} to {to}"), *check));
            }
        }
    }
    let length = |metres| Content::Words(job.voice.length(metres));
    let rows = read.into_iter().map(|(what, check)| {
        let [under, over] = match check.stops {
            Some(stops) => stops.map(length),
            None => ["–", "–"].map(|none| Content::Words(none.to_owned())),
        };
        vec![
            Content::Words(what),
            length(check.least),
            length(check.most),
            under,
            over,
            Content::Write,
            Content::Tick,
        ]
    });
    let rows = rows.collect();
    let heads = [
        "measure",
        "fine from",
        "fine up to",
        "stop under",
        "stop over",
        "you read",
        "fine",
    ];
    Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows,
        names: 0,
        style: STEP,
    }
}

/// The foreman's check of each bend: both edges walked with a tape.
fn foremen(job: &Job<'_>) -> Table {
    let row = |bend: &plan::setout::BendWork| {
        let foreman = bend.way().course.as_ref().ok()?.foreman?;
        Some(vec![
            Content::Words(format!("bend {}", bend.bend.number)),
            Content::Write,
            Content::Write,
            Content::Words(job.voice.taped(&foreman.edges_differ)),
            Content::Tick,
        ])
    };
    let heads = [
        "bend",
        "outside edge",
        "inside edge",
        "outside less inside must be about",
        "fine",
    ];
    Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: job.work.bends.iter().filter_map(row).collect(),
        names: 0,
        style: STEP,
    }
}

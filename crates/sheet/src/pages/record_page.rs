//! The page that is kept: the whole read once more, by whom, and when.

use plan::setout::Reading;

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
                "{}: when every line lies, read these afresh, with another tape or another person if there is one, and write down what it reads. One that is out: read it again, then what is nearest to it; move nothing before two checks agree on what is wrong. Dig only when all are fine. Keep this page with the plan.",
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

/// The checks between pegs, apexes and the middle of each bend: those that span most.
fn readings(job: &Job<'_>) -> Table {
    let length = |metres| Content::Words(job.voice.length(metres));
    let row = |what: String, least: Content, most: Content| {
        vec![
            Content::Words(what),
            least,
            most,
            Content::Write,
            Content::Tick,
        ]
    };
    let pegging = job.work.pegging.deeds.iter();
    let ties = pegging
        .filter(|deed| deed.makes.is_some())
        .flat_map(|deed| &deed.checks);
    let ties = ties.map(|check: &Reading| {
        let name = |spot| job.work.pegging.spots.name(spot);
        let what = format!("{} to {}", name(check.from), name(check.to));
        row(what, length(check.least), length(check.most))
    });
    let bends = job.set.bends.iter();
    let bends = bends.flat_map(|bend| bend.checks.iter().map(|check| (bend.number, check)));
    let bends = bends.map(|(number, check)| {
        let what = format!("bend {number}: {}", check.what);
        row(what, length(check.from), length(check.to))
    });
    let straights = job.work.straights.iter().filter_map(|straight| {
        let deed = straight.course.deeds.first()?;
        let check = deed.checks.first()?;
        let (first, last) = straight.straight.pegs;
        let what = format!("peg {first} to peg {last}");
        Some(row(what, length(check.least), length(check.most)))
    });
    let heads = ["measure", "from", "to", "you read", "fine"];
    Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: ties.chain(straights).chain(bends).collect(),
        names: 0,
        style: STEP,
    }
}

fn foremen(job: &Job<'_>) -> Table {
    let row = |bend: &plan::setout::BendWork| {
        let foreman = bend.way().course.as_ref().ok()?.foreman?;
        Some(vec![
            Content::Words(format!("bend {}", bend.bend.number)),
            Content::Words(job.voice.taped(&foreman.edges_differ)),
            Content::Words(job.voice.ruler.area(foreman.area)),
            Content::Write,
            Content::Tick,
        ])
    };
    let heads = [
        "bend",
        "outside edge less inside edge",
        "ground it covers",
        "you read",
        "fine",
    ];
    Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: job.work.bends.iter().filter_map(row).collect(),
        names: 0,
        style: STEP,
    }
}

//! The pages of a stake-out: from a solved plan to a sheet of ink.

mod before_you_start;
mod bend_page;
mod diagram;
mod entry;
mod flow;
mod labels;
mod options_page;
mod order_page;
mod outline;
mod peg_page;
mod picture;
mod plan_drawing;
mod plan_page;
mod record_page;
mod recovery_page;
mod scale;
mod signs;
mod site;
mod steps;
mod straight_page;
mod table;
mod title_block;
mod words;

use plan::finding::{self, Finding, Severity};
use plan::fingerprint::fingerprint;
use plan::setout::{Manner, RouteSetOut, RouteWork, Stage, Trust, Voice, work};
use plan::solve::{Origin, SolvedRoute, SolvedScheme};
use plan::{Plan, Solved};

use crate::document::{Date, Sheet};
use crate::paper::Paper;
use crate::pdf::{PdfError, pdf};
use crate::pen::Style;

pub use options_page::{MOST_OPTIONS, OptionsRequest, client_page, compose_client_page};
pub use order_page::{compose_order_list, order_list};
pub use picture::option_picture;

use entry::{Entry, Label};
use flow::{Flow, Part};

/// What is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Request {
    /// Which option, counted from 0.
    pub scheme: usize,
    /// What it is printed on.
    pub paper: Paper,
    /// Whether the other system of units stands beside the plan's own.
    pub both_units: bool,
    /// The day to print on it; without one it says that it is not dated.
    pub date: Option<Date>,
}

/// A document of its kind must hold a day. Without one asked for it is this, which no page shows.
const UNDATED: Date = match Date::new(2000, 1, 1) {
    Some(date) => date,
    None => panic!("this is a day"),
};

/// One path on its way to paper: everything the pages show.
struct Job<'a> {
    plan: &'a Plan,
    scheme: &'a SolvedScheme,
    solved: &'a Solved,
    route: &'a SolvedRoute,
    work: &'a RouteWork,
    set: &'a RouteSetOut,
    trust: Trust,
    /// How wide what is set on a page is, in millimetres.
    width: f64,
    findings: Vec<&'a Finding>,
    fingerprint: &'a str,
    voice: Voice,
    manner: Manner,
    request: &'a Request,
}

/// Composes the stake-out of one option, path after path: the plan, what to know before one
/// starts, the pegs, and each bend. It never fails: where there is nothing to draw a page says so.
#[must_use]
pub fn compose(plan: &Plan, solved: &Solved, request: &Request) -> Sheet {
    let fingerprint = fingerprint(plan);
    let title = named(&plan.title, "Untitled plan");
    let mut flow = Flow::new(request.paper);
    let mut subject = "Stake-out".to_owned();
    if let Some(scheme) = solved.schemes.get(request.scheme) {
        subject = format!("Stake-out of option {}", option_name(scheme));
        for (index, route) in scheme.routes.iter().enumerate() {
            flow.foot = format!(
                "plan {fingerprint} · {} · option {} · {}",
                short(&title),
                short(&option_name(scheme)),
                short(&path_name(route, index))
            );
            let findings = solved.findings.iter().filter(|finding| {
                finding.place.concerns(request.scheme) && finding.place.route == index
            });
            add_route(
                &mut flow,
                (plan, solved, scheme, index),
                findings.collect(),
                (&fingerprint, request),
            );
        }
        if scheme.routes.is_empty() {
            flow.foot = format!("plan {fingerprint} · {}", short(&title));
            nothing(&mut flow, &format!("option {}", option_name(scheme)), &[]);
        }
    } else {
        flow.foot = format!("plan {fingerprint} · {}", short(&title));
        nothing(&mut flow, "this option: the plan has no such option", &[]);
    }
    let day = request.date.unwrap_or(UNDATED);
    let mut sheet = Sheet::new(format!("{title}: {subject}"), day);
    sheet.subject = format!(
        "{subject}: pegs, swing points and offsets for laying out by hand. Plan {fingerprint}."
    );
    sheet.pages = flow.finish();
    sheet
}

/// The stake-out of one option as PDF.
///
/// # Errors
/// As [`pdf`]: in practice only when a name has a character that the type face lacks.
pub fn stakeout(plan: &Plan, solved: &Solved, request: &Request) -> Result<Vec<u8>, PdfError> {
    pdf(&compose(plan, solved, request))
}

fn add_route(
    flow: &mut Flow,
    (plan, solved, scheme, index): (&Plan, &Solved, &SolvedScheme, usize),
    findings: Vec<&Finding>,
    (fingerprint, request): (&str, &Request),
) {
    let Some(route) = scheme.routes.get(index) else {
        return;
    };
    let path = path_name(route, index);
    let Some(work) = work(plan, solved, (request.scheme, index)) else {
        nothing(flow, &path, &findings);
        return;
    };
    let voice = Voice {
        ruler: plan.ruler(),
        both: request.both_units,
    };
    let job = Job {
        plan,
        scheme,
        solved,
        route,
        work: &work,
        set: &work.figures,
        trust: work.trust(plan),
        width: flow.frame().width,
        findings,
        fingerprint,
        voice,
        manner: Manner {
            voice,
            crew: plan.set_out.crew,
            allowances: plan.set_out.allowances,
            tape: plan.tape.length,
        },
        request,
    };
    flow.add(plan_page::composed(&job, &path));
    let before = flow.length();
    let mut begins: Vec<(Chapter, usize)> = Vec::new();
    for &stage in &work.order {
        begins.push((Chapter::Stage(stage), flow.length()));
        match stage {
            Stage::Pegs => peg_page::add(flow, &job),
            Stage::Straight(i) => {
                if let Some(straight) = work.straights.get(i) {
                    straight_page::add(flow, &job, straight);
                }
            }
            Stage::Bend(i) => {
                if let Some(bend) = work.bends.get(i) {
                    bend_page::add(flow, &job, bend);
                }
            }
            Stage::OffsetPegs => recovery_page::add(flow, &job),
        }
    }
    if !work.order.contains(&Stage::OffsetPegs) {
        recovery_page::add(flow, &job);
    }
    begins.push((Chapter::Record, flow.length()));
    record_page::add(flow, &job, &path);
    // What is read first tells the pages of all else, so it is composed last: once to see how many
    // pages it takes itself.
    let mut first = Flow::new(request.paper);
    for _ in 0..2 {
        let own = first.length();
        first = Flow::new(request.paper);
        first.foot = flow.foot.clone();
        let page = |chapter: Chapter| {
            let found = begins.iter().find(|(other, _)| *other == chapter);
            found.map_or(0, |(_, at)| at + own + 1)
        };
        before_you_start::add(&mut first, &job, &path, page);
    }
    flow.insert(before, first);
}

/// A part of the sheet that the order of work sends one to.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Chapter {
    Stage(Stage),
    Record,
}

fn nothing(flow: &mut Flow, what: &str, findings: &[&Finding]) {
    flow.start("Nothing to set out");
    let remedy = "Draw a path of at least two waypoints apart from each other, then print again.";
    let entry = |finding: &&Finding| {
        Entry::new(
            sign(finding.severity),
            words::sentence(&finding.sentence),
            Style::BODY,
        )
    };
    flow.set(&[
        Part::Paragraph(
            format!("There is nothing to set out in {what}."),
            Style::LARGE,
        ),
        Part::Paragraph(remedy.to_owned(), Style::LARGE),
        Part::List(findings.iter().map(entry).collect()),
    ]);
}

/// The sign before a finding.
const fn sign(severity: Severity) -> Label {
    let (word, black) = match severity {
        Severity::Stop => ("STOP", true),
        Severity::Care => ("CARE", false),
        Severity::Note => ("note", false),
    };
    Label::Sign { word, black }
}

impl Job<'_> {
    /// Where a finding stands, as one names it on the ground; empty for the path as a whole.
    fn place(&self, part: finding::Part) -> String {
        let between = |first: usize, last: usize| {
            let ((from, _), (_, to)) = (self.route.pegs_of(first), self.route.pegs_of(last));
            format!("Peg {from} to peg {to}: ")
        };
        match part {
            finding::Part::Whole => String::new(),
            finding::Part::Obstacle(_) => "On the site: ".to_owned(),
            finding::Part::Leg(leg) => {
                let second = self.route.piece_of(Origin::SecondBend(leg));
                let first = self.route.piece_of(Origin::Leg(leg));
                first.map_or_else(
                    || format!("Leg {}: ", leg + 1),
                    |first| between(first, second.unwrap_or(first)),
                )
            }
            finding::Part::Waypoint(at) => self.route.piece_of(Origin::Rounding(at)).map_or_else(
                || format!("Waypoint {}: ", at + 1),
                |piece| between(piece, piece),
            ),
        }
    }

    /// A finding as an entry of a list.
    fn entry(&self, finding: &Finding) -> Entry {
        let words = format!(
            "{}{}",
            self.place(finding.place.part),
            words::sentence(&finding.sentence)
        );
        Entry::new(sign(finding.severity), words, Style::BODY)
    }
}

fn named(name: &str, otherwise: &str) -> String {
    let name = name.trim();
    if name.is_empty() { otherwise } else { name }.to_owned()
}

/// `A, Round the cistern`.
fn option_name(scheme: &SolvedScheme) -> String {
    let name = scheme.name.trim();
    if name.is_empty() {
        scheme.letter.clone()
    } else {
        format!("{}, {name}", scheme.letter)
    }
}

/// A name that leaves room for others on its line.
fn short(name: &str) -> String {
    const LETTERS: usize = 40;
    match name.char_indices().nth(LETTERS) {
        Some((end, _)) => format!("{}…", name.get(..end).unwrap_or_default().trim_end()),
        None => name.to_owned(),
    }
}

fn path_name(route: &SolvedRoute, index: usize) -> String {
    named(&route.name, &format!("path {}", index + 1))
}

//! The plan to a true scale: the path in its place, pegs and swing points, what stands around it.

use geometry::{Bounds, Point};
use plan::setout::BendSetOut;

use crate::document::{Block, Page};
use crate::ink::Ink;
use crate::lettering::{self, leading};
use crate::paper::{Frame, Orientation};
use crate::pen::Style;

use super::Job;
use super::flow::{base_below, frame};
use super::plan_drawing::{BAND, drawing, key, overall, shows};
use super::scale::{Scale, View};
use super::title_block::{self, BARS, bars, title_block};
use super::words;

/// Height of the heading, millimetres.
const HEAD: f64 = 9.0;
/// Free paper between the drawing and its border, millimetres.
const INSET: f64 = 5.0;
/// Height of the line that explains the signs, millimetres.
const KEY: f64 = 5.2;
/// At most so many lines say what lies off the page.
const MOST_NOTES: usize = 3;

/// Where everything goes on the page.
struct Layout {
    orientation: Orientation,
    heading: Frame,
    /// What of the ground shows.
    window: Frame,
    notes: Frame,
    key: Frame,
    bars: Frame,
    title: Frame,
    view: View,
    off_page: Vec<String>,
}

/// The page of the plan, the way round that gives the larger scale; where both give the same, the
/// way the path lies, so that more of what stands around it shows.
pub(super) fn composed(job: &Job<'_>, path: &str) -> Page {
    let paper = job.request.paper;
    let [portrait, landscape] = [Orientation::Portrait, Orientation::Landscape]
        .map(|orientation| layout(job, &frame(paper, orientation), orientation));
    let bounds = &job.set.overall.bounds;
    let wide = bounds.width() > bounds.height();
    let (across, upright) = (landscape.view.scale.ratio, portrait.view.scale.ratio);
    let layout = if across < upright || (wide && across <= upright) {
        landscape
    } else {
        portrait
    };
    let title = format!("Plan: {}", super::short(path));
    let (heading, style) = lettering::fit(&title, Style::HEADING, layout.heading.width);
    let at = layout.heading.corner.shifted(0.0, 2.6);
    let mut blocks = vec![Block::Heading {
        level: 1,
        inks: vec![Ink::text(at, heading, style)],
    }];
    blocks.extend(figures(job, path, &layout));
    let rows = title_rows(job, path, layout.orientation, &layout.view.scale);
    blocks.extend(title_block(&layout.title, &rows));
    Page {
        title,
        paper,
        orientation: layout.orientation,
        blocks,
    }
}

/// The drawing, what lies off it, the key, the bars.
fn figures(job: &Job<'_>, path: &str, layout: &Layout) -> Vec<Block> {
    let (view, window) = (&layout.view, &layout.window);
    let (mut inks, left_out) = drawing(job, view, window);
    inks.extend(overall(job, view, window));
    let mut blocks = vec![Block::Figure {
        alt: format!(
            "Plan of {path} to the scale {}, with {} and {}. Every figure of it stands in the tables of the next pages.",
            view.scale.words,
            words::count(job.set.pegs.len(), "peg", "pegs"),
            words::count(job.set.swing_points.len(), "swing point", "swing points"),
        ),
        inks,
    }];
    if !layout.off_page.is_empty() {
        let lines = layout.off_page.iter().zip(1..).map(|(line, number)| {
            let down = base_below(Style::BODY) + leading(Style::BODY) * (f64::from(number) - 1.0);
            Ink::text(layout.notes.start().shifted(0.0, -down), line, Style::BODY)
        });
        blocks.push(Block::Paragraph(lines.collect()));
    }
    blocks.push(Block::Figure {
        alt: "Key to the signs of the plan.".to_owned(),
        inks: key(&layout.key, left_out),
    });
    blocks.push(bars(
        &layout.bars,
        &view.scale,
        job.plan.units,
        job.plan.north,
    ));
    blocks
}

fn title_rows(
    job: &Job<'_>,
    path: &str,
    orientation: Orientation,
    scale: &Scale,
) -> Vec<Vec<title_block::Entry>> {
    let plan = job.plan;
    let date = job
        .request
        .date
        .map_or_else(|| "not dated".to_owned(), |date| date.to_string());
    let paper = job.request.paper.name();
    let title = ("Plan", super::named(&plan.title, "Untitled plan"), 3.0);
    let option = ("Option", super::option_name(job.scheme), 2.0);
    let path = (
        "Path and width",
        format!("{path}, {} wide", job.voice.length(job.route.width)),
        3.0,
    );
    let place = ("Place", super::named(&plan.place, "–"), 3.0);
    let date = ("Date", date, 1.2);
    let scale = ("Scale", format!("{} on {paper}", scale.words), 1.6);
    let units = (
        "Units, to the nearest",
        format!("{}, {}", plan.units.label(), plan.graduation.label()),
        2.0,
    );
    let print = ("Fingerprint of the plan", job.fingerprint.to_owned(), 2.0);
    let rule = ("Mind", words::DO_NOT_SCALE.to_owned(), 2.2);
    match orientation {
        Orientation::Portrait => vec![
            vec![title, option],
            vec![path, place, date],
            vec![scale, units, print, rule],
        ],
        Orientation::Landscape => vec![
            vec![title, option, path],
            vec![place, date, scale, units, print, rule],
        ],
    }
}

fn layout(job: &Job<'_>, frame: &Frame, orientation: Orientation) -> Layout {
    let rows = match orientation {
        Orientation::Portrait => 3,
        Orientation::Landscape => 2,
    };
    let (heading, rest) = frame.cut_below(HEAD);
    let (rest, title) = rest.cut_below(rest.height - title_block::height(rows));
    let (rest, bars) = rest.cut_below(rest.height - BARS);
    let (rest, key) = rest.cut_below(rest.height - KEY);
    let with_notes = |lines: usize| {
        let (drawn, notes) = rest.cut_below(rest.height - leading(Style::BODY) * lines as f64);
        let window = drawn.cut_right(BAND).1;
        let window = window.cut_below(window.height - BAND).0;
        let view = view(job, &window);
        let off_page = off_page_lines(&off_page(job, &view, &window), rest.width);
        Layout {
            orientation,
            heading,
            window,
            notes,
            key,
            bars,
            title,
            view,
            off_page,
        }
    };
    // What lies off the page is known once the scale is, and takes room from it.
    let free = with_notes(0).off_page.len();
    let layout = with_notes(free);
    if layout.off_page.len() > free {
        with_notes(MOST_NOTES)
    } else {
        layout
    }
}

/// The largest scale at which the path fits, one step smaller at most if that shows the base line
/// and the swing points too. What stands around is shown as far as there is room for it.
fn view(job: &Job<'_>, window: &Frame) -> View {
    let room = window.inset(INSET);
    let units = job.plan.units;
    let fitting = |bounds: &Bounds| {
        Scale::fitting(
            Scale::of_plans(units),
            (bounds.width(), bounds.height()),
            &room,
        )
    };
    let mut shown = job.set.overall.bounds;
    let most = fitting(&shown).ratio;
    let smaller = Scale::of_plans(units)
        .map(|scale| scale.ratio)
        .find(|ratio| *ratio > most);
    let mut take = |points: &[Point], limit: f64| {
        if let Some(bounds) = Bounds::around(points.iter().copied()) {
            let wider = shown.with(bounds);
            if fitting(&wider).ratio <= limit {
                shown = wider;
            }
        }
    };
    let limit = smaller.unwrap_or(most);
    take(&[job.set.base.from], limit);
    take(&[job.set.base.to], limit);
    for bend in swung(job) {
        take(&[bend.arc.centre()], limit);
    }
    let scale = fitting(&shown);
    let mut take = |points: &[Point]| {
        if let Some(bounds) = Bounds::around(points.iter().copied()) {
            let wider = shown.with(bounds);
            if fitting(&wider).ratio <= scale.ratio {
                shown = wider;
            }
        }
    };
    job.set
        .bends
        .iter()
        .for_each(|bend| take(&[bend.arc.centre()]));
    job.plan.site.marks.iter().for_each(|mark| take(&[mark.at]));
    job.plan
        .site
        .obstacles
        .iter()
        .for_each(|obstacle| take(&obstacle.extent.outline()));
    View {
        scale,
        middle: (shown.middle(), window.middle()),
        turn: 0.0,
    }
}

fn swung<'a>(job: &'a Job<'_>) -> impl Iterator<Item = &'a BendSetOut> {
    let bends = job.work.bends.iter();
    bends
        .filter(|work| super::bend_page::swings(work.way()))
        .map(|work| &work.bend)
}

/// What should be on the page and is not, in words.
fn off_page(job: &Job<'_>, view: &View, window: &Frame) -> Vec<String> {
    let hidden = |at: Point| !shows(window, view.paper_from_plan(at));
    let base = &job.set.base;
    let ends = [(&base.from_name, base.from), (&base.to_name, base.to)];
    let ends = ends
        .into_iter()
        .filter(|(_, at)| hidden(*at))
        .map(|(name, _)| format!("{name}, an end of the base line, lies off this page."));
    let bends = swung(job)
        .filter(|bend| hidden(bend.arc.centre()))
        .map(|bend| {
            format!(
                "S{} lies {} to the {} of peg {}, off this page.",
                bend.number,
                job.voice.taped(&bend.radius),
                if bend.arc.turns_left() {
                    "left"
                } else {
                    "right"
                },
                bend.pegs.0
            )
        });
    ends.chain(bends).collect()
}

fn off_page_lines(notes: &[String], width: f64) -> Vec<String> {
    let wrap = |notes: &[String]| lettering::wrap(&notes.join(" "), Style::BODY, width);
    let all = wrap(notes);
    if all.len() <= MOST_NOTES {
        return all;
    }
    for kept in (0..notes.len()).rev() {
        let mut some = notes.get(..kept).unwrap_or_default().to_vec();
        some.push(format!(
            "{} more: see the table of pegs.",
            notes.len() - kept
        ));
        let lines = wrap(&some);
        if lines.len() <= MOST_NOTES {
            return lines;
        }
    }
    Vec::new()
}

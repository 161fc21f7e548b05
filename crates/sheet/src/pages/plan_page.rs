//! The plan to a true scale: the path in its place, pegs and swing points, what stands around it.

use std::f64::consts::FRAC_PI_2;

use geometry::{Bounds, Point};
use plan::setout::{BendSetOut, SwingVerdict};

use crate::document::Block;
use crate::ink::{Anchor, Ink, Pos, Text};
use crate::lettering::{self, leading};
use crate::paper::{Frame, Orientation};
use crate::pen::{Dash, Pen, Style, Tone, Weight};

use super::Job;
use super::flow::{Flow, base_below};
use super::labels::{Label, Labels};
use super::scale::{Scale, View, clipped};
use super::title_block::{self, BARS, bars, title_block};
use super::{signs, site, words};

/// Height of the heading, and width of the bands that hold the overall dimensions, millimetres.
const HEAD: f64 = 9.0;
const BAND: f64 = 6.5;
/// Free paper between the drawing and its border, millimetres.
const INSET: f64 = 5.0;
/// Height of the line that explains the signs, millimetres.
const KEY: f64 = 5.2;
/// At most so many lines say what lies off the page.
const MOST_NOTES: usize = 3;

const NAME: Style = Style::new(2.2, Weight::Regular);

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

pub(super) fn add(flow: &mut Flow, job: &Job<'_>, path: &str) {
    let layouts = [Orientation::Portrait, Orientation::Landscape].map(|orientation| {
        let frame = flow.frame(orientation);
        layout(job, &frame, orientation)
    });
    let [portrait, landscape] = layouts;
    // Upright wins a tie: it suits a clipboard.
    let layout = if landscape.view.scale.ratio < portrait.view.scale.ratio {
        landscape
    } else {
        portrait
    };
    flow.page(&format!("Plan: {}", super::short(path)), layout.orientation);
    let heading = format!("Plan: {}", super::short(path));
    let (heading, style) = lettering::fit(&heading, Style::HEADING, layout.heading.width);
    let at = layout.heading.corner.shifted(0.0, 2.6);
    flow.put(Block::Heading {
        level: 1,
        inks: vec![Ink::text(at, heading, style)],
    });
    let (mut inks, left_out) = drawing(job, &layout);
    inks.extend(overall(job, &layout));
    flow.put(Block::Figure {
        alt: format!(
            "Plan of {path} to the scale {}, with {} and {}. Every figure of it stands in the tables of the next pages.",
            layout.view.scale.words,
            words::count(job.set.pegs.len(), "peg", "pegs"),
            words::count(job.set.swing_points.len(), "swing point", "swing points"),
        ),
        inks,
    });
    if !layout.off_page.is_empty() {
        let lines = layout.off_page.iter().zip(1..).map(|(line, number)| {
            let down = base_below(Style::BODY) + leading(Style::BODY) * (f64::from(number) - 1.0);
            Ink::text(layout.notes.start().shifted(0.0, -down), line, Style::BODY)
        });
        flow.put(Block::Paragraph(lines.collect()));
    }
    flow.put(Block::Figure {
        alt: "Key to the signs of the plan.".to_owned(),
        inks: key(&layout.key, left_out),
    });
    flow.put(bars(&layout.bars, &layout.view.scale, job.plan.units, job.plan.north));
    for block in title_block(&layout.title, &title_rows(job, path, layout.orientation, &layout.view.scale)) {
        flow.put(block);
    }
}

fn title_rows(job: &Job<'_>, path: &str, orientation: Orientation, scale: &Scale) -> Vec<Vec<title_block::Entry>> {
    let plan = job.plan;
    let date = job.request.date.map_or_else(|| "not dated".to_owned(), |date| date.to_string());
    let paper = job.request.paper.name();
    let title = ("Plan", super::named(&plan.title, "Untitled plan"), 3.0);
    let option = ("Option", super::option_name(job.scheme), 2.0);
    let path = ("Path and width", format!("{path}, {} wide", job.voice.length(job.route.width)), 3.0);
    let place = ("Place", super::named(&plan.place, "–"), 3.0);
    let date = ("Date", date, 1.2);
    let scale = ("Scale", format!("{} on {paper}", scale.words), 1.6);
    let units = ("Units, to the nearest", format!("{}, {}", plan.units.label(), plan.graduation.label()), 2.0);
    let print = ("Fingerprint of the plan", job.fingerprint.to_owned(), 2.0);
    let rule = ("Mind", words::DO_NOT_SCALE.to_owned(), 2.2);
    match orientation {
        Orientation::Portrait => vec![vec![title, option], vec![path, place, date], vec![scale, units, print, rule]],
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
    if layout.off_page.len() > free { with_notes(MOST_NOTES) } else { layout }
}

/// The largest scale at which the path fits, one step smaller at most if that shows the base line
/// and the swing points too. What stands around is shown as far as there is room for it.
fn view(job: &Job<'_>, window: &Frame) -> View {
    let room = window.inset(INSET);
    let units = job.plan.units;
    let fitting = |bounds: &Bounds| Scale::fitting(Scale::of_plans(units), (bounds.width(), bounds.height()), &room);
    let mut shown = job.set.overall.bounds;
    let most = fitting(&shown).ratio;
    let smaller = Scale::of_plans(units).map(|scale| scale.ratio).find(|ratio| *ratio > most);
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
    job.set.bends.iter().for_each(|bend| take(&[bend.arc.centre()]));
    job.plan.site.marks.iter().for_each(|mark| take(&[mark.at]));
    job.plan.site.obstacles.iter().for_each(|obstacle| take(&obstacle.extent.outline()));
    View {
        scale,
        middle: (shown.middle(), window.middle()),
        turn: 0.0,
    }
}

fn swung<'a>(job: &'a Job<'_>) -> impl Iterator<Item = &'a BendSetOut> {
    job.set.bends.iter().filter(|bend| bend.swing != SwingVerdict::NotWorkable)
}

fn shows(window: &Frame, at: Pos) -> bool {
    window.inset(2.0).holds(&Frame::new(at, 0.0, 0.0), 0.0)
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
    let bends = job.set.bends.iter().filter(|bend| hidden(bend.arc.centre())).map(|bend| {
        format!(
            "S{} lies {} to the {} of peg {}, off this page.",
            bend.number,
            job.voice.taped(&bend.radius),
            if bend.arc.turns_left() { "left" } else { "right" },
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
        some.push(format!("{} more: see the table of pegs.", notes.len() - kept));
        let lines = wrap(&some);
        if lines.len() <= MOST_NOTES {
            return lines;
        }
    }
    Vec::new()
}

/// The drawing, and how many names found no room on it.
fn drawing(job: &Job<'_>, layout: &Layout) -> (Vec<Ink>, usize) {
    let (view, window) = (&layout.view, &layout.window);
    let mut labels = Labels::new(window.inset(0.8));
    let mut inks = Vec::new();
    let mut names: Vec<(String, Vec<Pos>)> = Vec::new();
    for obstacle in &job.plan.site.obstacles {
        let drawn = site::drawn(obstacle, view, window);
        inks.extend(drawn.inks);
        names.push((site::name(obstacle), drawn.name_at));
    }
    inks.extend(strings(job, view, window));
    let base = clipped(view.paper_from_plan(job.set.base.from), view.paper_from_plan(job.set.base.to), window);
    inks.extend(base.map(|(from, to)| Ink::line(from, to, Pen::STRING)));
    inks.extend(path(job, view));
    inks.iter().for_each(|ink| labels.avoid(ink));

    let mut left_out = 0;
    let signs = signs_of(job, view, window);
    for (at, sign, _) in &signs {
        inks.extend(sign.iter().cloned());
        labels.keep_clear(&Frame::new(*at, 0.0, 0.0).inset(-signs::REACH));
    }
    for (at, _, name) in &signs {
        let style = if name.len() < 4 { Style::LARGE.high(3.0).bold() } else { NAME };
        let label = Label::new(name, style, 38.0);
        let put = labels.put(&label, &label.around(*at, signs::REACH));
        left_out += usize::from(put.is_none());
        inks.extend(put.into_iter().flatten());
    }
    if let Some((from, to)) = base {
        let label = Label::line(&format!("base line {}", job.voice.taped(&job.set.base.length)), NAME);
        inks.extend(labels.put(&label, &label.along(from, to)).into_iter().flatten());
    }
    for (name, places) in names {
        let label = Label::new(&name, NAME, 34.0);
        let around: Vec<_> = places.iter().flat_map(|at| label.around(*at, -0.8)).collect();
        let put = labels.put(&label, &around);
        left_out += usize::from(put.is_none() && !places.is_empty());
        inks.extend(put.into_iter().flatten());
    }
    inks.push(Ink::Rect {
        frame: *window,
        pen: Some(Pen::RULE),
        fill: None,
    });
    (inks, left_out)
}

/// The two strings to each swing point, as far as they show.
fn strings(job: &Job<'_>, view: &View, window: &Frame) -> Vec<Ink> {
    let mut inks = Vec::new();
    for bend in &job.set.bends {
        let centre = view.paper_from_plan(bend.arc.centre());
        for end in [bend.arc.start(), bend.arc.end()] {
            if let Some((from, to)) = clipped(view.paper_from_plan(end), centre, window) {
                inks.push(Ink::line(from, to, Pen::STRING));
            }
        }
    }
    inks
}

/// Edges with the lines across both ends, and the centre line.
fn path(job: &Job<'_>, view: &View) -> Vec<Ink> {
    let route = job.route;
    let mut inks = Vec::new();
    let edges = [&route.left_edge, &route.right_edge];
    inks.extend(edges.into_iter().flatten().map(|edge| view.chain(edge, Pen::EDGE)));
    if let (Some(left), Some(right)) = (&route.left_edge, &route.right_edge)
        && !left.is_closed()
    {
        for (a, b) in [(left.start(), right.start()), (left.end(), right.end())] {
            inks.push(Ink::line(view.paper_from_plan(a), view.paper_from_plan(b), Pen::EDGE));
        }
    }
    inks.extend(route.centre_line.as_ref().map(|chain| view.chain(chain, Pen::CENTRE)));
    inks
}

/// Pegs, swing points and marks that show: the place, the sign, the name.
fn signs_of(job: &Job<'_>, view: &View, window: &Frame) -> Vec<(Pos, Vec<Ink>, String)> {
    let mut signs = Vec::new();
    for (index, peg) in job.set.pegs.iter().enumerate() {
        let at = view.paper_from_plan(peg.at);
        signs.push((at, vec![signs::peg(at)], (index + 1).to_string()));
    }
    for point in &job.set.swing_points {
        let at = view.paper_from_plan(point.at);
        signs.push((at, signs::swing_point(at).to_vec(), point.name.clone()));
    }
    for mark in &job.plan.site.marks {
        let at = view.paper_from_plan(mark.at);
        signs.push((at, signs::mark(at).to_vec(), mark.name.clone()));
    }
    signs.retain(|(at, ..)| shows(window, *at));
    signs
}

/// How far the path reaches in all, in the bands below and beside the drawing.
fn overall(job: &Job<'_>, layout: &Layout) -> Vec<Ink> {
    let (view, window) = (&layout.view, &layout.window);
    let overall = &job.set.overall;
    let low = view.paper_from_plan(overall.bounds.low);
    let high = view.paper_from_plan(overall.bounds.high);
    let below = window.foot() - 0.5 * BAND;
    let beside = window.left() - 0.5 * BAND;
    let across = format!("overall {}", job.voice.taped(&overall.across));
    let up = format!("overall {}", job.voice.taped(&overall.up));
    let mut inks = band((Pos::new(low.x, below), Pos::new(high.x, below)), &across, (window.left(), window.right()));
    inks.extend(band((Pos::new(beside, low.y), Pos::new(beside, high.y)), &up, (window.foot(), window.head())));
    inks
}

/// A dimension in a band: its words upon the line, or beside a short one.
fn band((from, to): (Pos, Pos), words: &str, (low, high): (f64, f64)) -> Vec<Ink> {
    let upright = (to.x - from.x).abs() < (to.y - from.y).abs() || (to.x == from.x && to.y != from.y);
    let along = |at: Pos| if upright { at.y } else { at.x };
    let (words, style) = lettering::fit(words, Style::BODY, high - low);
    let half = 0.5 * lettering::width(&words, style) + 1.0;
    let (a, b) = (along(from), along(to));
    let middle = if b - a > 2.0 * half + 9.0 {
        0.5 * (a + b)
    } else if b + 6.0 + 2.0 * half < high {
        b + 6.0 + half
    } else {
        (a - 6.0 - half).max(low + half)
    };
    let at = if upright { Pos::new(from.x, middle) } else { Pos::new(middle, from.y) };
    let mut inks = signs::dimension(from, to);
    let (w, h) = if upright { (2.0, half) } else { (half, 2.0) };
    inks.push(Ink::Rect {
        frame: Frame::new(at.shifted(-w, -h), 2.0 * w, 2.0 * h),
        pen: None,
        fill: Some(Tone::White),
    });
    let angle = if upright { FRAC_PI_2 } else { 0.0 };
    inks.push(Text::new(at, words, style).anchored(Anchor::CENTRE).turned(angle).into());
    inks
}

/// What the signs and lines mean.
fn key(frame: &Frame, left_out: usize) -> Vec<Ink> {
    let style = Style::SMALL;
    let mut at = frame.corner.shifted(1.5, 2.2);
    let line = |at: Pos, pen: Pen| vec![Ink::line(at.shifted(-1.5, 0.0), at.shifted(7.5, 0.0), pen)];
    let mut inks = Vec::new();
    let entries: [(fn(Pos) -> Vec<Ink>, Option<Pen>, &str); 7] = [
        (|at| vec![signs::peg(at)], None, "peg"),
        (|at| signs::swing_point(at).to_vec(), None, "swing point"),
        (|at| signs::mark(at).to_vec(), None, "mark"),
        (|_| Vec::new(), Some(Pen::EDGE), "edge"),
        (|_| Vec::new(), Some(Pen::CENTRE), "centre line"),
        (|_| Vec::new(), Some(Pen::STRING), "string"),
        (|_| Vec::new(), Some(Pen::new(0.5, Dash::Dashed)), "buried"),
    ];
    for (sign, pen, words) in entries {
        inks.extend(sign(at));
        if let Some(pen) = pen {
            inks.extend(line(at, pen));
            at = at.shifted(6.0, 0.0);
        }
        at = at.shifted(3.0, 0.0);
        inks.push(Ink::text(at.shifted(0.0, -0.9), words, style));
        at = at.shifted(lettering::width(words, style) + 4.5, 0.0);
    }
    if left_out > 0 {
        let words = format!("no room for {left_out} more");
        let (words, style) = lettering::fit(&words, style, frame.right() - at.x);
        inks.push(Ink::text(at.shifted(0.0, -0.9), words, style));
    }
    inks
}

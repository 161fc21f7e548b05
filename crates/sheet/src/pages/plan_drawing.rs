//! The drawing of the plan page: site, base line, path, signs, names, overall dimensions, key.

use std::f64::consts::FRAC_PI_2;

use crate::ink::{Anchor, Ink, Pos, Text};
use crate::lettering;
use crate::paper::Frame;
use crate::pen::{Pen, Style, Tone, Weight};

use super::Job;
use super::labels::{Label, Labels};
use super::scale::{View, clipped};
use super::{signs, site};

/// Width of the bands that hold the overall dimensions, millimetres.
pub(super) const BAND: f64 = 6.5;

/// How names are lettered.
const NAME: Style = Style::new(2.2, Weight::Regular);

/// The drawing, and how many names found no room on it.
pub(super) fn drawing(job: &Job<'_>, view: &View, window: &Frame) -> (Vec<Ink>, usize) {
    let mut labels = Labels::new(window.inset(0.8));
    let mut inks = Vec::new();
    let mut names: Vec<(String, Vec<Pos>)> = Vec::new();
    for obstacle in &job.plan.site.obstacles {
        let drawn = site::drawn(obstacle, job.plan.site.roots, view, window);
        inks.extend(drawn.inks);
        names.push((site::name(obstacle), drawn.name_at));
    }
    inks.extend(strings(job, view, window));
    inks.extend(offset_pegs(job, view, window));
    let base = clipped(
        view.paper_from_plan(job.set.base.from),
        view.paper_from_plan(job.set.base.to),
        window,
    );
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
        let style = if name.len() < 4 {
            Style::LARGE.high(3.0).bold()
        } else {
            NAME
        };
        let label = Label::new(name, style, 38.0);
        let put = labels.put(&label, &label.around(*at, signs::REACH));
        left_out += usize::from(put.is_none());
        inks.extend(put.into_iter().flatten());
    }
    if let Some((from, to)) = base {
        let label = Label::line(
            &format!("base line {}", job.voice.taped(&job.set.base.length)),
            NAME,
        );
        inks.extend(
            labels
                .put(&label, &label.along(from, to))
                .into_iter()
                .flatten(),
        );
    }
    for (name, places) in names {
        let label = Label::new(&name, NAME, 34.0);
        let around: Vec<_> = places
            .iter()
            .flat_map(|at| label.around(*at, -0.8))
            .collect();
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

/// Whether a sign at a place has room in the window.
pub(super) fn shows(window: &Frame, at: Pos) -> bool {
    window.inset(2.0).holds(&Frame::new(at, 0.0, 0.0), 0.0)
}

/// The two strings to each swing point, as far as they show.
fn strings(job: &Job<'_>, view: &View, window: &Frame) -> Vec<Ink> {
    let mut inks = Vec::new();
    for work in &job.work.bends {
        if !super::bend_page::swings(work.way()) {
            continue;
        }
        let bend = &work.bend;
        let centre = view.paper_from_plan(bend.arc.centre());
        for end in [bend.arc.start(), bend.arc.end()] {
            if let Some((from, to)) = clipped(view.paper_from_plan(end), centre, window) {
                inks.push(Ink::line(from, to, Pen::STRING));
            }
        }
    }
    inks
}

/// The offset pegs that show.
fn offset_pegs(job: &Job<'_>, view: &View, window: &Frame) -> Vec<Ink> {
    let offsets = job
        .work
        .pegs
        .iter()
        .filter_map(|peg| peg.offset.as_ref().ok());
    let places = offsets.map(|offset| view.paper_from_plan(offset.at));
    places
        .filter(|at| shows(window, *at))
        .map(signs::offset_peg)
        .collect()
}

/// Edges with the lines across both ends, and the centre line.
fn path(job: &Job<'_>, view: &View) -> Vec<Ink> {
    let route = job.route;
    let mut inks = Vec::new();
    let edges = [&route.left_edge, &route.right_edge];
    inks.extend(
        edges
            .into_iter()
            .flatten()
            .map(|edge| view.chain(edge, Pen::EDGE)),
    );
    if let (Some(left), Some(right)) = (&route.left_edge, &route.right_edge)
        && !left.is_closed()
    {
        for (a, b) in [(left.start(), right.start()), (left.end(), right.end())] {
            inks.push(Ink::line(
                view.paper_from_plan(a),
                view.paper_from_plan(b),
                Pen::EDGE,
            ));
        }
    }
    inks.extend(
        route
            .centre_line
            .as_ref()
            .map(|chain| view.chain(chain, Pen::CENTRE)),
    );
    inks.extend(route.pads.iter().map(|pad| view.chain(pad, Pen::OUTLINE)));
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
pub(super) fn overall(job: &Job<'_>, view: &View, window: &Frame) -> Vec<Ink> {
    let overall = &job.set.overall;
    let low = view.paper_from_plan(overall.bounds.low);
    let high = view.paper_from_plan(overall.bounds.high);
    let across = Band {
        turn: 0.0,
        off: window.foot() - 0.5 * BAND,
        reach: (window.left(), window.right()),
    };
    let up = Band {
        turn: FRAC_PI_2,
        off: window.left() - 0.5 * BAND,
        reach: (window.foot(), window.head()),
    };
    let words = |taped| format!("overall {}", job.voice.taped(taped));
    let mut inks = across.dimension((low.x, high.x), &words(&overall.across));
    inks.extend(up.dimension((low.y, high.y), &words(&overall.up)));
    inks
}

/// A strip beside the drawing that holds one dimension.
struct Band {
    /// Which way it runs: level or upright, radians.
    turn: f64,
    /// Where it lies across that.
    off: f64,
    /// From where to where it runs.
    reach: (f64, f64),
}

impl Band {
    fn at(&self, along: f64) -> Pos {
        if self.turn > 0.0 {
            Pos::new(self.off, along)
        } else {
            Pos::new(along, self.off)
        }
    }

    /// A dimension line with its words upon it, or beside it where it is short.
    fn dimension(&self, (from, to): (f64, f64), words: &str) -> Vec<Ink> {
        const ARROW: f64 = 6.0;
        let (low, high) = self.reach;
        let (words, style) = lettering::fit(words, Style::BODY, high - low);
        let half = 0.5 * lettering::width(&words, style) + 1.0;
        let middle = if to - from > 2.0 * half + 1.5 * ARROW {
            0.5 * (from + to)
        } else if to + ARROW + 2.0 * half < high {
            to + ARROW + half
        } else {
            (from - ARROW - half).max(low + half)
        };
        let mut inks = signs::dimension(self.at(from), self.at(to));
        let blank = [self.at(middle - half), self.at(middle + half)];
        inks.extend(Frame::around(blank).map(|frame| Ink::Rect {
            frame: frame.inset(-1.5),
            pen: None,
            fill: Some(Tone::White),
        }));
        let text = Text::new(self.at(middle), words, style);
        inks.push(text.anchored(Anchor::CENTRE).turned(self.turn).into());
        inks
    }
}

/// A sign or line of the key.
enum Sample {
    Peg,
    OffsetPeg,
    SwingPoint,
    Mark,
    Line(Pen),
}

/// What the signs and lines mean, and how many names found no room.
pub(super) fn key(frame: &Frame, left_out: usize) -> Vec<Ink> {
    let style = Style::SMALL;
    let mut at = frame.corner.shifted(1.5, 2.2);
    let mut inks = Vec::new();
    for (sample, words) in [
        (Sample::Peg, "peg"),
        (Sample::OffsetPeg, "offset peg"),
        (Sample::SwingPoint, "swing point"),
        (Sample::Mark, "mark"),
        (Sample::Line(Pen::EDGE), "edge"),
        (Sample::Line(Pen::CENTRE), "centre line"),
        (Sample::Line(Pen::STRING), "string"),
        (Sample::Line(Pen::BURIED), "buried"),
    ] {
        match sample {
            Sample::Peg => inks.push(signs::peg(at)),
            Sample::OffsetPeg => inks.push(signs::offset_peg(at)),
            Sample::SwingPoint => inks.extend(signs::swing_point(at)),
            Sample::Mark => inks.extend(signs::mark(at)),
            Sample::Line(pen) => {
                let end = at.shifted(7.5, 0.0);
                inks.push(Ink::line(at.shifted(-1.5, 0.0), end, pen));
                at = at.shifted(6.0, 0.0);
            }
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

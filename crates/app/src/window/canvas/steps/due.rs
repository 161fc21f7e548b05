//! What is due in a step: string, tape, scratches, right angle or arc, and what is read afterwards.

use geometry::{Arc, Direction, Piece, Point};
use plan::setout::{Act, Doing, Reading, Scratch, Spot, Taped};

use super::super::labels::Labels;
use super::super::{curve, reached};
use super::ink::{Ink, line};
use crate::window::pen::Pen;
use crate::window::rehearsal::{Due, Rehearsal, struck};

/// So many checks are drawn at most: more would hide what is done.
const MOST_CHECKS: usize = 3;

/// Draws what is done, and writes its figures and names.
pub(super) fn draw(ink: &Ink<'_>, rehearsal: &Rehearsal, step: usize, labels: &mut Labels) {
    match rehearsal.due(step) {
        Some(Due::Deed(act)) => {
            let deed = Deed { ink, act };
            for spot in deed.spots() {
                if let Some(at) = deed.at(spot) {
                    ink.keep_spot_free(at, labels);
                }
            }
            deed.checks();
            deed.done(labels);
            for spot in named(rehearsal, step) {
                if let Some(at) = deed.at(spot) {
                    ink.name(&act.course.spots.name(spot), at, true, labels);
                }
            }
            deed.check_figures(labels);
        }
        Some(Due::OffsetPeg { peg, offset }) => {
            for at in [peg, offset.at] {
                ink.keep_spot_free(at, labels);
            }
            ink.tape(peg, offset.at, labels);
            let words = ink.scene.ruler().text(offset.distance.exact);
            ink.figure(peg, offset.at, &words, true, labels);
            ink.name(&format!("peg {}", offset.of), peg, true, labels);
        }
        None => {}
    }
}

/// The spots whose names are written large: what is made, started from and read. Marks have their names
/// already.
pub(super) fn named(rehearsal: &Rehearsal, step: usize) -> Vec<Spot> {
    let mut named: Vec<Spot> = Vec::new();
    match rehearsal.due(step) {
        Some(Due::Deed(act)) => {
            let read = act.deed.checks.iter().take(MOST_CHECKS);
            let read = read.flat_map(|check| [check.from, check.to]);
            let made = act.deed.makes.into_iter();
            for spot in made.chain(act.deed.uses()).chain(read) {
                if !matches!(spot, Spot::Mark(_)) && !named.contains(&spot) {
                    named.push(spot);
                }
            }
        }
        Some(Due::OffsetPeg { offset, .. }) => named.push(Spot::Peg(offset.of)),
        None => {}
    }
    named
}

/// Draws the spot that is made, over all else.
pub(super) fn draw_spots(ink: &Ink<'_>, rehearsal: &Rehearsal, step: usize) {
    match rehearsal.due(step) {
        Some(Due::Deed(act)) => {
            let made = act.deed.makes;
            if let Some((spot, at)) = made.and_then(|spot| Some((spot, act.course.spots.at(spot)?)))
            {
                ink.spot(spot, at, true);
                Deed { ink, act }.scratches(at);
            }
        }
        Some(Due::OffsetPeg { offset, .. }) => ink.offset_peg(offset.at, true),
        None => {}
    }
}

/// One deed of a course.
struct Deed<'a> {
    ink: &'a Ink<'a>,
    act: Act<'a>,
}

impl Deed<'_> {
    fn at(&self, spot: Spot) -> Option<Point> {
        self.act.course.spots.at(spot)
    }

    fn both(&self, one: Spot, other: Spot) -> Option<[Point; 2]> {
        Some([self.at(one)?, self.at(other)?])
    }

    /// What it makes, and what it starts from.
    fn spots(&self) -> Vec<Spot> {
        let deed = self.act.deed;
        deed.makes.into_iter().chain(deed.uses()).collect()
    }

    fn made(&self) -> Option<Point> {
        self.at(self.act.deed.makes?)
    }

    /// A tape from its zero to where it is read, with what it reads.
    fn tape(&self, from: Point, to: Point, taped: &Taped, labels: &mut Labels) {
        self.ink.tape(from, to, labels);
        self.write(from, to, taped, labels);
    }

    fn write(&self, from: Point, to: Point, taped: &Taped, labels: &mut Labels) {
        let words = self.ink.scene.ruler().text(taped.exact.abs());
        self.ink.figure(from, to, &words, true, labels);
    }

    fn done(&self, labels: &mut Labels) {
        let ink = self.ink;
        let palette = ink.scene.palette;
        match &self.act.deed.does {
            Doing::Stretch { from, to, length } => {
                if let Some([from, to]) = self.both(*from, *to) {
                    let runs = ink.view.trace(&[line(from, to)]);
                    Pen::String.draw_wide(ink.painter, &runs, palette, 2.0);
                    self.write(from, to, length, labels);
                }
            }
            Doing::Along { from, at, .. } => {
                if let (Some(from), Some(made)) = (self.at(*from), self.made()) {
                    self.tape(from, made, at, labels);
                }
            }
            Doing::Square {
                from,
                to,
                along,
                off,
                ..
            } => {
                let ends = self.both(*from, *to);
                if let (Some([from, to]), Some(made)) = (ends, self.made())
                    && let Some(way) = Direction::of(to - from)
                {
                    let foot = from + way.unit() * along.exact;
                    self.tape(from, foot, along, labels);
                    ink.thick(&line(foot, made), 2.0, palette.string);
                    ink.right_angle(foot, if along.exact > 0.0 { from } else { to }, made);
                    self.write(foot, made, off, labels);
                }
            }
            Doing::Cross {
                one,
                other,
                scratches,
                ..
            } => {
                let Some(made) = self.made() else { return };
                for (spot, taped) in [one, other] {
                    if let Some(from) = self.at(*spot) {
                        self.tape(from, made, taped, labels);
                    }
                }
                for arc in scratches
                    .iter()
                    .flatten()
                    .filter_map(|s| self.scratch(s, made))
                {
                    let words = format!("scratch {}", ink.scene.ruler().text(arc.length()));
                    ink.figure(arc.end(), arc.end(), &words, false, labels);
                }
            }
            Doing::Strike {
                about,
                radius,
                from,
                to,
                ..
            } => {
                let Some((_, arc)) = struck(self.act.course, self.act.deed) else {
                    return;
                };
                reached::draw_sector(ink.painter, ink.view, ink.scene, &arc);
                if let Some(about) = self.at(*about) {
                    for limit in [from, to].into_iter().filter_map(|spot| self.at(*spot)) {
                        ink.straight(Pen::Ghost, about, limit, palette.ink);
                    }
                    self.tape(about, arc.apex(), radius, labels);
                }
                ink.thick(&curve(&Piece::Arc(arc)), 3.5, palette.string);
            }
            Doing::Slide {
                from,
                over,
                to,
                arm,
                brace,
                ..
            } => {
                if let Some((_, arc)) = struck(self.act.course, self.act.deed) {
                    ink.thick(&curve(&Piece::Arc(arc)), 3.5, palette.string);
                }
                if let (Some([from, to]), Some(over)) = (self.both(*from, *to), self.at(*over)) {
                    let on = |end: Point| over.towards(end, arm.exact / over.distance(end));
                    for end in [from, to] {
                        ink.thick(&line(over, end), 5.0, palette.ink);
                        self.write(over, on(end), arm, labels);
                    }
                    ink.thick(&line(on(from), on(to)), 3.0, palette.ink);
                    self.write(on(from), on(to), brace, labels);
                }
            }
            Doing::Read => {}
        }
    }

    /// The scratches, over the spot that is found by them.
    fn scratches(&self, made: Point) {
        if let Doing::Cross { scratches, .. } = &self.act.deed.does {
            let arcs = scratches
                .iter()
                .flatten()
                .filter_map(|s| self.scratch(s, made));
            for arc in arcs {
                let ink = self.ink.scene.palette.ink;
                self.ink.thick(&curve(&Piece::Arc(arc)), 3.0, ink);
            }
        }
    }

    /// A scratch about its spot, to both sides of where it is wanted.
    fn scratch(&self, scratch: &Scratch, made: Point) -> Option<Arc> {
        let about = self.at(scratch.about)?;
        let way = Direction::of(made - about)?;
        let radius = about.distance(made);
        let half = 0.5 * scratch.length / radius;
        let end = |turn: f64| about + way.turned(turn).unit() * radius;
        Arc::about(about, end(-half), end(half), true).ok()
    }

    /// The checks that are pulled where nothing else is.
    fn drawn_checks(&self) -> impl Iterator<Item = (&Reading, [Point; 2])> + '_ {
        let deed = self.act.deed;
        let uses = deed.uses();
        // Along a string, or from a tape's zero to the spot that is made, the figure stands already.
        let pulled = move |check: &&Reading| {
            let pair = [check.from, check.to];
            let stretched =
                matches!(deed.does, Doing::Stretch { from, to, .. } if pair == [from, to]);
            let crossed = matches!(deed.does, Doing::Cross { .. })
                && pair.iter().any(|spot| deed.makes == Some(*spot))
                && pair.iter().any(|spot| uses.contains(spot));
            !(stretched || crossed)
        };
        let checks = deed.checks.iter().filter(pulled).take(MOST_CHECKS);
        checks.filter_map(|check| Some((check, self.both(check.from, check.to)?)))
    }

    fn checks(&self) {
        let palette = self.ink.scene.palette;
        for (_, [from, to]) in self.drawn_checks() {
            self.ink.straight(Pen::Zone, from, to, palette.moss);
        }
    }

    fn check_figures(&self, labels: &mut Labels) {
        let ruler = self.ink.scene.ruler();
        for (check, [from, to]) in self.drawn_checks() {
            let words = format!("check {}", ruler.text(check.taped.exact));
            self.ink.figure(from, to, &words, false, labels);
        }
    }
}

//! The drawing of one bend: its chord level, walked from left to right, each number where it is measured.

use std::f64::consts::FRAC_PI_2;

use geometry::{Arc, Direction, Point};
use plan::setout::{BendSetOut, Course, Doing, PathLine, Scratch, Spot, Way};

use crate::document::Block;
use crate::ink::{Ink, Pos};
use crate::paper::Frame;
use crate::pen::{Pen, Style, Weight};

use super::Job;
use super::labels::{Label, Labels, Place};
use super::scale::{Scale, View, clipped};
use super::signs;
use super::title_block::north_arrow;

/// Free paper beside the drawing, and above and below it, for its words, millimetres.
const ASIDE: f64 = 13.0;
const ABOVE: f64 = 6.0;

/// Height of the line below the drawing, millimetres.
const FOOT: f64 = 5.0;

/// Longest line of words on the drawing, millimetres.
const LONGEST: f64 = 38.0;

const FIGURE: Style = Style::new(3.0, Weight::SemiBold);
const NAME: Style = Style::new(2.5, Weight::Regular);

const FLAG: Style = Style::new(2.2, Weight::Regular);

/// More flags than this and their names lie over each other.
const MOST_NAMED: usize = 12;

/// So many of the places nearest to a flag are tried for its name: farther off it says nothing.
const NEAREST: usize = 16;

/// The bend turned so that its chord lies level, and the places of it on paper.
struct Scene<'a> {
    bend: &'a BendSetOut,
    course: Option<&'a Course>,
    /// Whether it is swung about the swing point.
    is_swung: bool,
    view: View,
    window: Frame,
    first: Pos,
    last: Pos,
    middle: Pos,
    apex: Pos,
    swing_point: Pos,
    /// Whether the swing point is on the drawing.
    swing_shown: bool,
}

pub(super) fn drawn(frame: &Frame, job: &Job<'_>, bend: &BendSetOut, way: &Way) -> Block {
    let (window, foot) = frame.cut_below(frame.height - FOOT);
    let scene = Scene::new(&window, job, bend, way);
    let mut labels = Labels::new(window.inset(0.5));
    let mut inks = scene.lines();
    inks.iter().for_each(|ink| labels.avoid(ink));
    for sign in scene.signs() {
        let reach = sign.iter().filter_map(Ink::bounds).reduce(Frame::joined);
        reach.iter().for_each(|frame| labels.keep_clear(frame));
        inks.extend(sign);
    }
    let north = Pos::new(window.right() - 7.0, window.head() - 7.0);
    labels.keep_clear(&Frame::new(north, 0.0, 0.0).inset(-6.8));
    let mut left_over = Vec::new();
    let flags = scene.named_flags();
    for (label, places, words) in scene.words(job) {
        match labels.put(&label, &places) {
            Some(put) => inks.extend(put),
            None => left_over.push(words),
        }
    }
    for (at, name) in flags {
        let label = Label::line(&name, FLAG);
        let near = label.around(at, signs::REACH).into_iter().take(NEAREST);
        let put = labels.put(&label, &near.collect::<Vec<_>>());
        inks.extend(put.into_iter().flatten());
    }
    inks.extend(north_arrow(north, job.plan.north + scene.view.turn));
    let mut notes = vec![format!(
        "scale {}, walked from left to right",
        scene.view.scale.words
    )];
    if scene.is_swung && !scene.swing_shown {
        let figure = job.voice.length(bend.apothem.exact.abs());
        notes.push(format!(
            "S{} off the drawing, {figure} from the chord",
            bend.number
        ));
    }
    notes.extend(left_over);
    let (words, style) = crate::lettering::fit(
        &notes.join("; "),
        Style::new(2.2, Weight::Regular),
        foot.width,
    );
    inks.push(Ink::text(foot.corner.shifted(0.0, 1.5), words, style));
    Block::Figure {
        alt: format!(
            "Bend {}: chord {}, rise {}, radius {}.",
            bend.number,
            job.voice.taped(&bend.chord),
            job.voice.taped(&bend.rise),
            job.voice.taped(&bend.radius)
        ),
        inks,
    }
}

impl<'a> Scene<'a> {
    fn new(window: &Frame, job: &Job<'_>, bend: &'a BendSetOut, way: &'a Way) -> Self {
        let is_swung = super::bend_page::swings(way);
        let arc = &bend.arc;
        let level = Direction::of(arc.end() - arc.start()).map_or(0.0, Direction::angle);
        let room = Frame::new(
            Pos::ORIGIN,
            window.width - 2.0 * ASIDE,
            window.height - 2.0 * ABOVE,
        );
        let units = job.plan.units;
        let bare = reach(bend, level);
        let whole = with(&bare, at_level(arc.centre(), level));
        let fitting = |(low, high): &(Point, Point)| {
            Scale::fitting(
                Scale::of_bends(units),
                (high.x - low.x, high.y - low.y),
                &room,
            )
        };
        // The swing point is worth a drawing of half the size, not less.
        let (scale, (low, high)) =
            if is_swung && fitting(&whole).ratio <= 2.5 * fitting(&bare).ratio {
                (fitting(&whole), whole)
            } else {
                (fitting(&bare), bare)
            };
        let middle = Point::new(0.5 * (low.x + high.x), 0.5 * (low.y + high.y));
        let view = View {
            scale,
            middle: (at_level(middle, -level), window.middle()),
            turn: -level,
        };
        let at = |point: Point| view.paper_from_plan(point);
        let swing_point = at(arc.centre());
        Self {
            bend,
            course: way.course.as_ref().ok(),
            is_swung,
            first: at(arc.start()),
            last: at(arc.end()),
            middle: at(arc.start().middle(arc.end())),
            apex: at(arc.apex()),
            swing_point,
            swing_shown: is_swung
                && window
                    .inset(2.0)
                    .holds(&Frame::new(swing_point, 0.0, 0.0), 0.0),
            window: *window,
            view,
        }
    }

    /// The direction from the chord to the apex.
    fn outward(&self) -> f64 {
        if self.bend.apex_on_left() {
            FRAC_PI_2
        } else {
            -FRAC_PI_2
        }
    }

    fn edges(&self) -> [Option<Arc>; 2] {
        let half = 0.5 * self.bend.width;
        [self.bend.arc.offset(half), self.bend.arc.offset(-half)]
    }

    fn lines(&self) -> Vec<Ink> {
        let mut inks = vec![Ink::line(self.first, self.last, Pen::STRING)];
        for end in [self.first, self.last]
            .into_iter()
            .filter(|_| self.is_swung)
        {
            let string = clipped(end, self.swing_point, &self.window.inset(1.0));
            inks.extend(string.map(|(from, to)| Ink::line(from, to, Pen::STRING)));
        }
        for edge in self.edges().iter().flatten() {
            inks.push(self.view.arc(edge, Pen::EDGE));
        }
        inks.push(self.view.arc(&self.bend.arc, Pen::CENTRE));
        if self.middle.distance(self.apex) > 1.0 {
            inks.extend(signs::dimension(self.middle, self.apex));
        }
        if self.is_swung {
            let apothem = clipped(self.middle, self.swing_point, &self.window.inset(1.0));
            inks.extend(apothem.map(|(from, to)| Ink::line(from, to, Pen::THIN)));
        }
        inks.extend(
            self.course
                .into_iter()
                .flat_map(|course| self.deeds(course)),
        );
        inks.extend(
            self.width_line()
                .map(|(from, to)| signs::dimension(from, to))
                .into_iter()
                .flatten(),
        );
        inks
    }

    /// What is pulled and scratched beside the chord and the strings to the swing point.
    fn deeds(&self, course: &Course) -> Vec<Ink> {
        let at = |spot: Spot| Some(self.view.paper_from_plan(course.spots.at(spot)?));
        let mut inks = Vec::new();
        for deed in &course.deeds {
            let made = deed.makes.and_then(at);
            match deed.does {
                Doing::Square { from, to, .. } if is_flag(deed.makes) => {
                    if let (Some(from), Some(to), Some(made)) = (at(from), at(to), made) {
                        inks.push(Ink::line(foot(from, to, made), made, Pen::THIN));
                    }
                }
                Doing::Stretch { from, to, .. } => {
                    let line = at(from).zip(at(to));
                    inks.extend(line.map(|(from, to)| Ink::line(from, to, Pen::STRING)));
                }
                Doing::Cross {
                    scratches: Some(scratches),
                    ..
                } if self.swing_shown => {
                    let scratched = scratches.iter().filter_map(|scratch| {
                        Some(self.scratch(scratch, at(scratch.about)?, made?))
                    });
                    inks.extend(scratched);
                }
                _ => {}
            }
        }
        let window = self.window.inset(0.5);
        inks.retain(|ink| {
            ink.bounds()
                .is_some_and(|bounds| window.holds(&bounds, 0.0))
        });
        inks
    }

    /// The scratch about a peg, as long as it is on the ground.
    fn scratch(&self, scratch: &Scratch, about: Pos, at: Pos) -> Ink {
        let radius = about.distance(at);
        let sweep = (scratch.length * self.view.scale.millimetres() / radius).min(1.0);
        Ink::Arc {
            centre: about,
            radius,
            start: about.direction(at) - 0.5 * sweep,
            sweep,
            pen: Pen::EDGE,
        }
    }

    /// The flags that are set, and what they are called.
    fn flags(&self) -> Vec<(Pos, String)> {
        let made = self.course.into_iter().flat_map(|course| {
            let spots = course.deeds.iter().filter_map(|deed| deed.makes);
            spots
                .filter(|spot| is_flag(Some(*spot)))
                .filter_map(|spot| Some((course.spots.at(spot)?, course.spots.name(spot))))
        });
        made.map(|(at, name)| (self.view.paper_from_plan(at), name))
            .collect()
    }

    /// The flags whose names are written: of very many those of one line, which count the others.
    fn named_flags(&self) -> Vec<(Pos, String)> {
        let mut flags = self.flags();
        if flags.len() > MOST_NAMED {
            let letter = PathLine::Outside.letter();
            flags.retain(|(_, name)| name.starts_with(letter));
        }
        flags
    }

    /// From edge to edge, a quarter of the way along the bend.
    fn width_line(&self) -> Option<(Pos, Pos)> {
        let [left, right] = self.edges();
        let quarter = |edge: &Arc| {
            self.view
                .paper_from_plan(edge.point_at(0.25 * edge.length()))
        };
        let (left, right) = (quarter(&left?), quarter(&right?));
        (left.distance(right) > 0.5).then_some((left, right))
    }

    fn signs(&self) -> Vec<Vec<Ink>> {
        let mut signs = vec![vec![signs::peg(self.first)], vec![signs::peg(self.last)]];
        signs.push(signs::apex(self.apex, self.outward()).into_iter().collect());
        if self.swing_shown {
            signs.push(signs::swing_point(self.swing_point).to_vec());
        }
        signs.extend(
            self.flags()
                .into_iter()
                .map(|(at, _)| vec![signs::flag(at)]),
        );
        let length = self.bend.arc.length();
        let (at, way) = (
            self.bend.arc.point_at(0.8 * length),
            self.bend.arc.direction_at(0.8 * length),
        );
        let tip = self.view.paper_from_plan(at);
        signs.push(
            signs::arrow_head(tip, way.angle() + self.view.turn, 3.0)
                .into_iter()
                .collect(),
        );
        signs
    }

    /// The words with the places to try, and as they are said when there is no room for them.
    fn words(&self, job: &Job<'_>) -> Vec<(Label, Vec<Place>, String)> {
        let (bend, voice) = (self.bend, &job.voice);
        let mut all: Vec<(Label, Vec<Place>, String)> = Vec::new();
        for (at, number) in [(self.first, bend.pegs.0), (self.last, bend.pegs.1)] {
            let words = format!("peg {number}");
            let label = Label::line(&words, FIGURE);
            all.push((label.clone(), label.around(at, signs::REACH), words));
        }
        if self.swing_shown {
            let words = format!("S{}", bend.number);
            let label = Label::line(&words, FIGURE);
            all.push((
                label.clone(),
                label.around(self.swing_point, signs::REACH),
                words,
            ));
        }
        let window = self.window.inset(1.0);
        let visible = |from: Pos, to: Pos| clipped(from, to, &window).unwrap_or((from, to));
        let along = [
            (
                format!("chord {}", voice.taped(&bend.chord)),
                (self.first, self.last),
            ),
            (
                format!("rise {}", voice.taped(&bend.rise)),
                (self.middle, self.apex),
            ),
        ];
        let radius = self.is_swung.then(|| {
            (
                format!("radius {}", voice.taped(&bend.radius)),
                visible(self.last, self.swing_point),
            )
        });
        for (words, (from, to)) in along.into_iter().chain(radius) {
            let label = Label::new(&words, FIGURE, LONGEST);
            all.push((label.clone(), label.along(from, to), words));
        }
        if self.swing_shown && bend.apothem.tape.abs() > 0.0 {
            let words = format!("to the chord {}", voice.length(bend.apothem.exact.abs()));
            let label = Label::new(&words, NAME, LONGEST);
            all.push((
                label.clone(),
                label.along(self.middle, self.swing_point),
                words,
            ));
        }
        if let Some((from, to)) = self.width_line() {
            let words = format!("width {}", voice.length(bend.width));
            let label = Label::new(&words, NAME, LONGEST);
            all.push((label.clone(), label.along(from, to), words));
        }
        let apex = format!("apex A{}", bend.number);
        let label = Label::line(&apex, NAME);
        all.push((
            label.clone(),
            label.around(self.apex.toward(self.outward(), 1.0), 1.4),
            apex,
        ));
        all
    }
}

fn is_flag(spot: Option<Spot>) -> bool {
    matches!(spot, Some(Spot::Flag { .. } | Spot::Aim { .. }))
}

/// Where a square to a place leaves the line between two others.
fn foot(from: Pos, to: Pos, at: Pos) -> Pos {
    let way = from.direction(to);
    let along = (at.x - from.x) * way.cos() + (at.y - from.y) * way.sin();
    from.toward(way, along)
}

/// A place as seen with the chord level.
fn at_level(at: Point, level: f64) -> Point {
    let (sin, cos) = (-level).sin_cos();
    Point::new(at.x * cos - at.y * sin, at.x * sin + at.y * cos)
}

/// How far the bend and its edges reach with the chord level: lowest and highest corner.
fn reach(bend: &BendSetOut, level: f64) -> (Point, Point) {
    let half = 0.5 * bend.width;
    let arcs = [
        Some(bend.arc),
        bend.arc.offset(half),
        bend.arc.offset(-half),
    ];
    let mut all = {
        let start = at_level(bend.arc.start(), level);
        (start, start)
    };
    for arc in arcs.iter().flatten() {
        for step in 0..=48 {
            let at = arc.point_at(arc.length() * f64::from(step) / 48.0);
            all = with(&all, at_level(at, level));
        }
    }
    all
}

fn with((low, high): &(Point, Point), at: Point) -> (Point, Point) {
    (
        Point::new(low.x.min(at.x), low.y.min(at.y)),
        Point::new(high.x.max(at.x), high.y.max(at.y)),
    )
}

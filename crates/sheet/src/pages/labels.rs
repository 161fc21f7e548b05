//! Words on a drawing, each put where it hides nothing: a few places are tried, the best is taken.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::ink::{Anchor, Ink, Pos, Text};
use crate::lettering;
use crate::paper::Frame;
use crate::pen::{Pen, Style, Tone};

use super::outline::{Outline, apart, corners, pen_width, strokes};

/// Free paper kept between two things that must not touch, millimetres.
const GAP: f64 = 0.7;

/// What it costs to cross a hairline, and for each millimetre of its width, in the cost of places.
const CROSSING_WIDE: f64 = 5.0;
const CROSSING: f64 = 0.2;

/// Longest leader from a thing to its name that is drawn as none, millimetres.
const NEAR: f64 = 3.0;

/// How far from a thing its name is tried, millimetres.
const RINGS: [f64; 6] = [0.8, 3.5, 7.0, 12.0, 18.0, 26.0];

/// Where round a thing the middle of its name is tried: to the right and up, in shares of the room
/// both take. The best corners first, then the sides, then between.
const AROUND: [(f64, f64); 16] = [
    (1.0, 1.0),
    (1.0, -1.0),
    (-1.0, 1.0),
    (-1.0, -1.0),
    (1.0, 0.0),
    (-1.0, 0.0),
    (0.0, 1.0),
    (0.0, -1.0),
    (0.6, 1.0),
    (-0.6, 1.0),
    (0.6, -1.0),
    (-0.6, -1.0),
    (1.0, 0.5),
    (1.0, -0.5),
    (-1.0, 0.5),
    (-1.0, -0.5),
];

/// A leader starts so far from the middle of what it names, millimetres: outside the signs.
const SIGN: f64 = 2.4;

/// Words to be put somewhere on a drawing.
#[derive(Clone, Debug)]
pub(super) struct Label {
    lines: Vec<String>,
    style: Style,
    width: f64,
}

/// A place for a label that is tried; the lower the cost the better.
#[derive(Clone, Debug)]
pub(super) struct Place {
    middle: Pos,
    angle: f64,
    cost: f64,
    /// From the thing named, when the words stand away from it.
    leader: Option<Pos>,
}

impl Label {
    /// Words in at most two lines of a length, millimetres; what is longer is cut with an ellipsis.
    pub(super) fn new(words: &str, style: Style, longest: f64) -> Self {
        let mut lines = lettering::wrap(words, style, longest);
        if lines.len() > 2 {
            let rest = lines.split_off(1).join(" ");
            lines.push(lettering::fit(&rest, style.high(style.height.min(1.8)), longest).0);
        }
        let widest = |most: f64, line: &String| most.max(lettering::width(line, style));
        Self {
            width: lines.iter().fold(0.0, widest),
            lines,
            style,
        }
    }

    /// Words on one line, whatever their length.
    pub(super) fn line(words: &str, style: Style) -> Self {
        Self {
            width: lettering::width(words, style),
            lines: vec![words.to_owned()],
            style,
        }
    }

    fn leading(&self) -> f64 {
        lettering::size(self.style) * 1.2
    }

    /// From the descenders of the last line to the capitals of the first.
    fn height(&self) -> f64 {
        let further = self.lines.len().saturating_sub(1) as f64;
        self.style.height + 0.25 * lettering::size(self.style) + further * self.leading()
    }

    fn outline(&self, place: &Place) -> Outline {
        let (w, h) = (0.5 * self.width, 0.5 * self.height());
        [(-w, -h), (w, -h), (w, h), (-w, h)]
            .map(|(x, y)| place.middle.shifted(x, y).turned(place.middle, place.angle))
            .to_vec()
    }

    fn texts(&self, place: &Place) -> Vec<Text> {
        let top = 0.5 * self.height() - self.style.height;
        let mut base = place.middle.shifted(0.0, top);
        self.lines
            .iter()
            .map(|line| {
                let text = Text::new(base.turned(place.middle, place.angle), line, self.style)
                    .anchored(Anchor::MIDDLE)
                    .turned(place.angle);
                base = base.shifted(0.0, -self.leading());
                text
            })
            .collect()
    }

    /// Places round a thing, nearest first; `clear` is how far its own sign reaches, millimetres.
    pub(super) fn around(&self, at: Pos, clear: f64) -> Vec<Place> {
        let mut places = Vec::new();
        for (ring, off) in RINGS.into_iter().enumerate() {
            for (turn, (right, up)) in AROUND.into_iter().enumerate() {
                // At a corner the way is the diagonal.
                let corner = right * right + up * up > 1.9;
                let off = (clear + off) * if corner { 0.71 } else { 1.0 };
                let middle = at.shifted(
                    right * (0.5 * self.width + off),
                    up * (0.5 * self.height() + off),
                );
                places.push(Place {
                    middle,
                    angle: 0.0,
                    cost: 1.2 * ring as f64 + 0.05 * turn as f64,
                    leader: (off > clear + NEAR).then_some(at),
                });
            }
        }
        places
    }

    /// Places along a line, beside it or upon it, at its middle first.
    pub(super) fn along(&self, from: Pos, to: Pos) -> Vec<Place> {
        let angle = readable(from.direction(to));
        let beside = 0.5 * self.height() + GAP;
        let mut places = Vec::new();
        for (step, share) in [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8].into_iter().enumerate() {
            let on = Pos::new(
                from.x + share * (to.x - from.x),
                from.y + share * (to.y - from.y),
            );
            for (side, (off, cost)) in [(beside, 0.0), (-beside, 0.0), (0.0, 1.0)]
                .into_iter()
                .enumerate()
            {
                places.push(Place {
                    middle: on.toward(angle + FRAC_PI_2, off),
                    angle,
                    cost: cost + 0.2 * step as f64 + 0.05 * side as f64,
                    leader: None,
                });
            }
            // Level words with a leader for lines too short to carry them, off to one side.
            let aside = |place: &Place| (on.direction(place.middle) - angle).sin().abs() > 0.5;
            places.extend(
                self.around(on, 0.0)
                    .into_iter()
                    .filter(aside)
                    .map(|mut place| {
                        place.cost += 2.5 + 0.2 * step as f64;
                        place.leader = Some(on);
                        place
                    }),
            );
        }
        places
    }
}

/// A direction in which words do not stand on their head.
pub(super) fn readable(angle: f64) -> f64 {
    let mut angle = angle;
    while angle > FRAC_PI_2 + 1e-6 {
        angle -= PI;
    }
    while angle <= -FRAC_PI_2 + 1e-6 {
        angle += PI;
    }
    angle
}

/// What is on a drawing already, and what the words put on it so far take up.
pub(super) struct Labels {
    window: Frame,
    taken: Vec<Outline>,
    lines: Vec<([Pos; 2], f64)>,
}

impl Labels {
    /// Nothing on the drawing yet; words stay inside the window.
    pub(super) const fn new(window: Frame) -> Self {
        Self {
            window,
            taken: Vec::new(),
            lines: Vec::new(),
        }
    }

    /// A sign no words may touch.
    pub(super) fn keep_clear(&mut self, frame: &Frame) {
        self.taken.push(corners(frame));
    }

    /// Lines that words should rather not cross; the wider the pen the less.
    pub(super) fn avoid(&mut self, ink: &Ink) {
        let window = corners(&self.window);
        let weight = CROSSING + CROSSING_WIDE * pen_width(ink);
        let seen = strokes(ink)
            .into_iter()
            .filter(|stroke| !apart(stroke, &window, 0.0));
        self.lines.extend(seen.map(|stroke| (stroke, weight)));
    }

    /// The words at the best of the places, on blank paper; `None` when none of them is free.
    pub(super) fn put(&mut self, label: &Label, places: &[Place]) -> Option<Vec<Ink>> {
        let mut best: Option<(f64, &Place)> = None;
        for place in places {
            if best.is_some_and(|(cost, _)| cost <= place.cost) {
                continue;
            }
            let outline = label.outline(place);
            let frame = Frame::around(outline.iter().copied())?;
            let blocked = !self.window.holds(&frame, -GAP)
                || self.taken.iter().any(|taken| !apart(taken, &outline, GAP));
            if blocked {
                continue;
            }
            let leader = place.leader.map(|at| leader(&outline, at));
            if leader
                .is_some_and(|leader| self.taken.iter().any(|taken| !apart(taken, &leader, 0.2)))
            {
                continue;
            }
            let cost = place.cost + self.crossed(&outline, &frame);
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, place));
            }
        }
        let (_, place) = best?;
        let outline = label.outline(place);
        let mut inks = Vec::new();
        if let Some(at) = place.leader {
            let [from, to] = leader(&outline, at);
            self.lines.push(([from, to], CROSSING + CROSSING_WIDE));
            inks.push(Ink::line(from, to, Pen::RULE));
        }
        inks.extend(Ink::polygon(&outline, None, Some(Tone::White)));
        inks.extend(label.texts(place).into_iter().map(Ink::from));
        self.taken.push(outline);
        Some(inks)
    }

    fn crossed(&self, outline: &[Pos], frame: &Frame) -> f64 {
        let near = frame.inset(-GAP);
        let crossing = |[from, to]: &[Pos; 2]| {
            from.x.min(to.x) <= near.right()
                && from.x.max(to.x) >= near.left()
                && from.y.min(to.y) <= near.head()
                && from.y.max(to.y) >= near.foot()
                && !apart(&[*from, *to], outline, 0.5 * GAP)
        };
        let crossed = self.lines.iter().filter(|(line, _)| crossing(line));
        crossed.map(|(_, weight)| weight).sum()
    }
}

/// From the edge of a sign to the words.
fn leader(outline: &[Pos], at: Pos) -> [Pos; 2] {
    let end = nearest_of(outline, at);
    let start = SIGN.min(0.8 * at.distance(end));
    [at.toward(at.direction(end), start), end]
}

/// The corner or middle of a side that is nearest.
fn nearest_of(outline: &[Pos], at: Pos) -> Pos {
    let next = outline.iter().cycle().skip(1);
    let middles = outline
        .iter()
        .zip(next)
        .map(|(a, b)| Pos::new(0.5 * (a.x + b.x), 0.5 * (a.y + b.y)));
    middles
        .chain(outline.iter().copied())
        .min_by(|a, b| a.distance(at).total_cmp(&b.distance(at)))
        .unwrap_or(at)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_do_not_stand_on_their_head() {
        for i in -40..40 {
            let angle = f64::from(i) * 0.3;
            let turned = readable(angle);
            assert!(turned > -FRAC_PI_2 && turned <= FRAC_PI_2 + 1e-6);
            assert!((turned - angle).sin().abs() < 1e-9, "{angle}");
        }
    }

    #[test]
    fn many_names_on_one_spot_stay_apart() {
        let window = Frame::new(Pos::ORIGIN, 100.0, 100.0);
        let mut labels = Labels::new(window);
        let label = Label::line("peg 12", Style::BODY);
        let put = (0..60).filter_map(|_| labels.put(&label, &label.around(window.middle(), 1.0)));
        let texts: Vec<_> = put
            .flatten()
            .filter_map(|ink| match ink {
                Ink::Text(text) => lettering::corners(&text),
                _ => None,
            })
            .collect();
        assert!(texts.len() >= 8, "{}", texts.len());
        for (i, a) in texts.iter().enumerate() {
            assert!(window.holds(&Frame::around(*a).unwrap(), 0.0));
            for b in &texts[..i] {
                assert!(apart(a, b, 0.0));
            }
        }
    }
}

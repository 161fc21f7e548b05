//! Ink: what can be put on a page, each piece in millimetres from the bottom-left corner, y up.

use std::f64::consts::TAU;

use crate::lettering;
use crate::paper::Frame;
use crate::pen::{Pen, Style, Tone};

/// Something inked on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Ink {
    /// A straight line.
    Line {
        /// One end.
        from: Pos,
        /// The other.
        to: Pos,
        /// Drawn with.
        pen: Pen,
    },
    /// A circular arc, a true one.
    Arc {
        /// Middle of the circle.
        centre: Pos,
        /// Radius, millimetres.
        radius: f64,
        /// Direction from the centre to where it starts, radians.
        start: f64,
        /// Angle turned through, radians; positive counter-clockwise, at most a whole turn.
        sweep: f64,
        /// Drawn with.
        pen: Pen,
    },
    /// A line that goes on through straights and arcs, so that dashes and joints run through.
    Path {
        /// Where it starts.
        from: Pos,
        /// How it goes on.
        steps: Vec<Step>,
        /// Whether it returns straight to its start.
        closed: bool,
        /// Drawn with, if at all.
        pen: Option<Pen>,
        /// Filled with, if at all.
        fill: Option<Tone>,
    },
    /// An upright rectangle.
    Rect {
        /// The rectangle.
        frame: Frame,
        /// Drawn with, if at all.
        pen: Option<Pen>,
        /// Filled with, if at all.
        fill: Option<Tone>,
    },
    /// A whole circle.
    Circle {
        /// Its middle.
        centre: Pos,
        /// Radius, millimetres.
        radius: f64,
        /// Drawn with, if at all.
        pen: Option<Pen>,
        /// Filled with, if at all.
        fill: Option<Tone>,
    },
    /// A line of words.
    Text(Text),
    /// Ink of which only what falls in the window shows.
    Through {
        /// The window.
        window: Frame,
        /// What is seen through it.
        inks: Vec<Ink>,
    },
}

/// How a [`Ink::Path`] goes on from where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Straight to a place.
    To(Pos),
    /// Round a centre by an angle, radians, positive counter-clockwise.
    Round {
        /// Middle of the circle; the radius is the distance to where the path is.
        centre: Pos,
        /// Angle turned through.
        sweep: f64,
    },
}

impl Step {
    /// Where it leads from a place.
    #[must_use]
    pub fn end(&self, at: Pos) -> Pos {
        match *self {
            Self::To(to) => to,
            Self::Round { centre, sweep } => at.turned(centre, sweep),
        }
    }
}

impl Ink {
    /// A straight line.
    #[must_use]
    pub const fn line(from: Pos, to: Pos, pen: Pen) -> Self {
        Self::Line { from, to, pen }
    }

    /// An open run of straight lines; nothing when there are no places.
    #[must_use]
    pub fn polyline(places: &[Pos], pen: Pen) -> Option<Self> {
        let (&from, rest) = places.split_first()?;
        Some(Self::Path {
            from,
            steps: rest.iter().copied().map(Step::To).collect(),
            closed: false,
            pen: Some(pen),
            fill: None,
        })
    }

    /// A closed run of straight lines; nothing when there are no places.
    #[must_use]
    pub fn polygon(places: &[Pos], pen: Option<Pen>, fill: Option<Tone>) -> Option<Self> {
        let (&from, rest) = places.split_first()?;
        Some(Self::Path {
            from,
            steps: rest.iter().copied().map(Step::To).collect(),
            closed: true,
            pen,
            fill,
        })
    }

    /// A line of words starting at a place on its base line; turn it with the methods of [`Text`].
    #[must_use]
    pub fn text(at: Pos, words: impl Into<String>, style: Style) -> Self {
        Self::Text(Text::new(at, words, style))
    }

    /// Calls back with every line of words in it, in order.
    pub fn each_text<'a>(&'a self, call: &mut dyn FnMut(&'a Text)) {
        match self {
            Self::Text(text) => call(text),
            Self::Through { inks, .. } => inks.iter().for_each(|ink| ink.each_text(call)),
            Self::Line { .. }
            | Self::Arc { .. }
            | Self::Path { .. }
            | Self::Rect { .. }
            | Self::Circle { .. } => {}
        }
    }

    /// The least upright frame that holds all of its ink, half the width of the pen included;
    /// `None` when nothing shows (no words, or all of it outside its window).
    #[must_use]
    pub fn bounds(&self) -> Option<Frame> {
        let drawn = |places: Vec<Pos>, pen: Option<Pen>| {
            let pen = pen.map_or(0.0, |pen| pen.width / 2.0);
            Frame::around(places).map(|frame| frame.inset(-pen))
        };
        let corners = |frame: &Frame| {
            vec![
                frame.corner,
                frame.corner.shifted(frame.width, frame.height),
            ]
        };
        match self {
            Self::Line { from, to, pen } => drawn(vec![*from, *to], Some(*pen)),
            Self::Arc {
                centre,
                radius,
                start,
                sweep,
                pen,
            } => drawn(arc_reach(*centre, *radius, *start, *sweep), Some(*pen)),
            Self::Path {
                from, steps, pen, ..
            } => {
                let mut reach = vec![*from];
                let mut at = *from;
                for step in steps {
                    if let Step::Round { centre, sweep } = step {
                        let start = centre.direction(at);
                        reach.extend(arc_reach(*centre, centre.distance(at), start, *sweep));
                    }
                    at = step.end(at);
                    reach.push(at);
                }
                drawn(reach, *pen)
            }
            Self::Rect { frame, pen, .. } => drawn(corners(frame), *pen),
            Self::Circle {
                centre,
                radius,
                pen,
                ..
            } => {
                let frame = Frame::new(*centre, 0.0, 0.0).inset(-radius);
                drawn(corners(&frame), *pen)
            }
            Self::Text(text) => lettering::corners(text).and_then(Frame::around),
            Self::Through { window, inks } => {
                let all = inks.iter().filter_map(Self::bounds).reduce(Frame::joined)?;
                all.shared(window)
            }
        }
    }

    /// Whether every figure in it is a number: neither NaN nor infinite.
    #[must_use]
    pub fn is_finite(&self) -> bool {
        let pos = |at: &Pos| at.x.is_finite() && at.y.is_finite();
        let frame = |frame: &Frame| {
            pos(&frame.corner) && frame.width.is_finite() && frame.height.is_finite()
        };
        let pen = |pen: &Option<Pen>| pen.as_ref().is_none_or(|pen| pen.width.is_finite());
        match self {
            Self::Line { from, to, pen: p } => pos(from) && pos(to) && p.width.is_finite(),
            Self::Arc {
                centre,
                radius,
                start,
                sweep,
                pen: p,
            } => {
                pos(centre)
                    && radius.is_finite()
                    && start.is_finite()
                    && sweep.is_finite()
                    && p.width.is_finite()
            }
            Self::Path {
                from,
                steps,
                pen: p,
                ..
            } => {
                pos(from)
                    && pen(p)
                    && steps.iter().all(|step| match step {
                        Step::To(to) => pos(to),
                        Step::Round { centre, sweep } => pos(centre) && sweep.is_finite(),
                    })
            }
            Self::Rect {
                frame: f, pen: p, ..
            } => frame(f) && pen(p),
            Self::Circle {
                centre,
                radius,
                pen: p,
                ..
            } => pos(centre) && radius.is_finite() && pen(p),
            Self::Text(text) => {
                pos(&text.at) && text.angle.is_finite() && text.style.height.is_finite()
            }
            Self::Through { window, inks } => frame(window) && inks.iter().all(Self::is_finite),
        }
    }
}

/// A line of words.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// The place that `anchor` names.
    pub at: Pos,
    /// The words, on one line.
    pub words: String,
    /// Height, weight and tone.
    pub style: Style,
    /// Which point of the line lies at `at`.
    pub anchor: Anchor,
    /// Direction of the base line, radians.
    pub angle: f64,
}

impl Text {
    /// Level words that start at a place on their base line.
    #[must_use]
    pub fn new(at: Pos, words: impl Into<String>, style: Style) -> Self {
        Self {
            at,
            words: words.into(),
            style,
            anchor: Anchor::START,
            angle: 0.0,
        }
    }

    /// The same words, hung by another point.
    #[must_use]
    pub fn anchored(mut self, anchor: Anchor) -> Self {
        self.anchor = anchor;
        self
    }

    /// The same words, their base line turned to a direction, radians.
    #[must_use]
    pub fn turned(mut self, angle: f64) -> Self {
        self.angle = angle;
        self
    }
}

impl From<Text> for Ink {
    fn from(text: Text) -> Self {
        Self::Text(text)
    }
}

/// Which point of a line of words lies at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Anchor {
    /// Along the base line.
    pub along: Along,
    /// Across it.
    pub level: Level,
}

/// A point along a line of words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// Where it begins.
    Start,
    /// Half way.
    Middle,
    /// Where it ends.
    End,
}

/// A level across a line of words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    /// The base line.
    Base,
    /// Half the height of a capital.
    Middle,
    /// The top of a capital.
    Top,
}

impl Anchor {
    /// Start of the base line: running text.
    pub const START: Self = Self::new(Along::Start, Level::Base);
    /// Middle of the base line: figures on a dimension line.
    pub const MIDDLE: Self = Self::new(Along::Middle, Level::Base);
    /// End of the base line: columns of figures.
    pub const END: Self = Self::new(Along::End, Level::Base);
    /// Top left: the first line in a frame.
    pub const TOP: Self = Self::new(Along::Start, Level::Top);
    /// Middle of everything: numbers in symbols.
    pub const CENTRE: Self = Self::new(Along::Middle, Level::Middle);

    /// Of the two.
    #[must_use]
    pub const fn new(along: Along, level: Level) -> Self {
        Self { along, level }
    }
}

/// A place on a page: millimetres from the bottom-left corner, y up.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Pos {
    /// To the right.
    pub x: f64,
    /// Up.
    pub y: f64,
}

impl Pos {
    /// The bottom-left corner.
    pub const ORIGIN: Self = Self::new(0.0, 0.0);

    /// From the left edge and the foot.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Moved to the right and up.
    #[must_use]
    pub const fn shifted(self, right: f64, up: f64) -> Self {
        Self::new(self.x + right, self.y + up)
    }

    /// Moved in a direction (radians) by a distance.
    #[must_use]
    pub fn toward(self, direction: f64, distance: f64) -> Self {
        let (sin, cos) = direction.sin_cos();
        self.shifted(distance * cos, distance * sin)
    }

    /// Distance to another place.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (other.x - self.x).hypot(other.y - self.y)
    }

    /// Direction to another place, radians from -π to π; 0 when they coincide.
    #[must_use]
    pub fn direction(self, other: Self) -> f64 {
        (other.y - self.y).atan2(other.x - self.x)
    }

    /// Turned about a centre by an angle, radians, counter-clockwise.
    #[must_use]
    pub fn turned(self, centre: Self, angle: f64) -> Self {
        let (sin, cos) = angle.sin_cos();
        let (x, y) = (self.x - centre.x, self.y - centre.y);
        centre.shifted(x * cos - y * sin, x * sin + y * cos)
    }
}

/// Where an arc reaches farthest: its ends and every quarter point of the circle that it passes.
pub(crate) fn arc_reach(centre: Pos, radius: f64, start: f64, sweep: f64) -> Vec<Pos> {
    let (low, high) = if sweep < 0.0 {
        (start + sweep, start)
    } else {
        (start, start + sweep)
    };
    let quarter = TAU / 4.0;
    let first = (low / quarter).ceil();
    let mut reach = vec![centre.toward(low, radius), centre.toward(high, radius)];
    // Five quarter points close a whole turn from any start.
    reach.extend(
        (0..5)
            .map(|step| (first + f64::from(step)) * quarter)
            .take_while(|angle| *angle <= high)
            .map(|angle| centre.toward(angle, radius)),
    );
    reach
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    /// The reach of an arc holds every point of it, and something of it touches each side.
    #[test]
    fn reach_holds_the_arc() {
        let centre = Pos::new(40.0, -7.0);
        for start in [-7.0, -PI, -0.3, 0.0, 1.0, 3.0, 12.0] {
            for sweep in [-TAU, -4.0, -0.2, 0.0, 0.5, 2.0, PI, 5.0, TAU] {
                let frame = Frame::around(arc_reach(centre, 12.0, start, sweep)).unwrap();
                let points =
                    (0..=2000).map(|i| centre.toward(start + sweep * f64::from(i) / 2000.0, 12.0));
                let walked = Frame::around(points).unwrap();
                // A walk by 2000 steps misses a quarter point by at most r (1 - cos(step / 2)) < 2e-5.
                assert!(frame.holds(&walked, 1e-9), "{start} {sweep}");
                assert!(walked.holds(&frame, 2e-5), "{start} {sweep}");
            }
        }
    }

    /// Turning by a direction and going toward it are the same motion.
    #[test]
    fn turning_agrees_with_going() {
        let centre = Pos::new(2.0, 3.0);
        for angle in [-2.0, 0.0, 0.7, 3.1] {
            let turned = centre.shifted(5.0, 0.0).turned(centre, angle);
            let gone = centre.toward(angle, 5.0);
            assert!(turned.distance(gone) < 1e-12, "{angle}");
            approx::assert_abs_diff_eq!(centre.direction(gone), angle, epsilon = 1e-12);
        }
    }

    /// A figure that is not a number is seen wherever it hides.
    #[test]
    fn not_a_number_is_seen() {
        let good = Ink::line(Pos::ORIGIN, Pos::new(1.0, 1.0), Pen::THIN);
        let bad = Ink::line(Pos::ORIGIN, Pos::new(f64::NAN, 1.0), Pen::THIN);
        let window = Frame::new(Pos::ORIGIN, 9.0, 9.0);
        let through = |ink: &Ink| Ink::Through {
            window,
            inks: vec![ink.clone()],
        };
        assert!(good.is_finite() && through(&good).is_finite());
        assert!(!bad.is_finite() && !through(&bad).is_finite());
        assert!(!Ink::text(Pos::ORIGIN, "a", Style::BODY.high(f64::INFINITY)).is_finite());
        let far = [Pos::ORIGIN, Pos::new(0.0, f64::NEG_INFINITY)];
        assert!(!Ink::polyline(&far, Pen::THIN).unwrap().is_finite());
    }
}

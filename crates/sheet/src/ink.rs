//! A sheet as plain data: pages of ink, grouped into blocks that read in order.
//!
//! Nothing here draws. The same ink is written as PDF, shown as a preview and measured by the tests.

use std::f64::consts::TAU;
use std::fmt;

use crate::paper::{Frame, Orientation, Paper};

/// A finished set of pages with what a reader's program wants to know about it.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Sheet {
    /// What the document is called, e.g. `Quince Yard: stake-out, option A`.
    pub title: String,
    /// One sentence about it; may be empty.
    pub subject: String,
    /// Who drew it; may be empty.
    pub author: String,
    /// Language tag, e.g. `en` (RFC 3066).
    pub language: String,
    /// Day of issue. The only date in the file, so that the same sheet gives the same bytes.
    pub date: Option<Date>,
    /// Pages in reading order.
    pub pages: Vec<Page>,
}

/// One page.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Page {
    /// Its entry in the document's outline, e.g. `Bend 2`.
    pub title: String,
    /// What it is printed on.
    pub paper: Paper,
    /// Which way round.
    pub orientation: Orientation,
    /// What is on it, in reading order.
    pub blocks: Vec<Block>,
}

impl Page {
    /// The whole paper.
    #[must_use]
    pub const fn whole(&self) -> Frame {
        self.paper.whole(self.orientation)
    }

    /// The part to compose in.
    #[must_use]
    pub const fn content(&self) -> Frame {
        self.paper.content(self.orientation)
    }

    /// Every ink on the page, in reading order.
    pub fn inks(&self) -> impl Iterator<Item = &Ink> {
        self.blocks.iter().flat_map(Block::inks)
    }
}

/// What a group of ink is to someone who listens to the page or copies from it.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A heading; level 1 is the highest, and no level is left out on the way down.
    Heading {
        /// 1 to 6.
        level: u8,
        /// Its lines.
        inks: Vec<Ink>,
    },
    /// Running text, one [`Text`] a line.
    Paragraph(Vec<Ink>),
    /// Things in order: steps, tools, cautions.
    List(Vec<Item>),
    /// Rows of cells, all of the same length.
    Table(Vec<Row>),
    /// A drawing. Its words stay words and can be copied; `alt` is read aloud in its stead.
    Figure {
        /// What the drawing says, in a sentence or two; not empty.
        alt: String,
        /// The drawing.
        inks: Vec<Ink>,
    },
    /// Page furniture that is not read aloud: rules, frames, "page 1 of 4".
    Furniture(Vec<Ink>),
}

/// One entry of a list.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Item {
    /// `1.`, `•`, a box to tick; may be empty.
    pub label: Vec<Ink>,
    /// The entry itself.
    pub body: Vec<Ink>,
}

/// One row of a table.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Row {
    /// From left to right; an empty cell stays in its place.
    pub cells: Vec<Cell>,
}

/// One cell of a table.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Cell {
    /// Whether it names others.
    pub names: Names,
    /// What is in it.
    pub inks: Vec<Ink>,
}

/// What a cell of a table names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Names {
    /// Nothing: it is a value.
    #[default]
    Nothing,
    /// The column below it.
    Column,
    /// The row to the right of it.
    Row,
}

impl Block {
    /// Every ink of the block, in reading order.
    pub fn inks(&self) -> Box<dyn Iterator<Item = &Ink> + '_> {
        match self {
            Self::Heading { inks, .. }
            | Self::Paragraph(inks)
            | Self::Figure { inks, .. }
            | Self::Furniture(inks) => Box::new(inks.iter()),
            Self::List(items) => Box::new(items.iter().flat_map(|item| item.label.iter().chain(&item.body))),
            Self::Table(rows) => Box::new(rows.iter().flat_map(|row| &row.cells).flat_map(|cell| &cell.inks)),
        }
    }

    /// The words of the block, lines joined by a space.
    #[must_use]
    pub fn words(&self) -> String {
        words(self.inks())
    }
}

/// The words of some ink in their order, joined by a space.
pub fn words<'a>(inks: impl IntoIterator<Item = &'a Ink>) -> String {
    let mut lines = Vec::new();
    for ink in inks {
        ink.each_text(&mut |text| lines.push(text.words.trim()));
    }
    lines.join(" ")
}

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
    pub fn each_text<'a>(&'a self, call: &mut impl FnMut(&'a Text)) {
        match self {
            Self::Text(text) => call(text),
            Self::Through { inks, .. } => {
                for ink in inks {
                    // The unsized call keeps the recursion from making a new type at each depth.
                    ink.each_text_dyn(call);
                }
            }
            Self::Line { .. } | Self::Arc { .. } | Self::Path { .. } | Self::Rect { .. } | Self::Circle { .. } => {}
        }
    }

    fn each_text_dyn<'a>(&'a self, mut call: &mut dyn FnMut(&'a Text)) {
        self.each_text(&mut call);
    }

    /// Whether every figure in it is a number: neither NaN nor infinite.
    #[must_use]
    pub fn is_finite(&self) -> bool {
        let pos = |at: &Pos| at.x.is_finite() && at.y.is_finite();
        let frame = |frame: &Frame| pos(&frame.corner) && frame.width.is_finite() && frame.height.is_finite();
        let pen = |pen: &Option<Pen>| pen.as_ref().is_none_or(|pen| pen.width.is_finite());
        match self {
            Self::Line { from, to, pen: p } => pos(from) && pos(to) && p.width.is_finite(),
            Self::Arc { centre, radius, start, sweep, pen: p } => {
                pos(centre) && radius.is_finite() && start.is_finite() && sweep.is_finite() && p.width.is_finite()
            }
            Self::Path { from, steps, pen: p, .. } => {
                pos(from)
                    && pen(p)
                    && steps.iter().all(|step| match step {
                        Step::To(to) => pos(to),
                        Step::Round { centre, sweep } => pos(centre) && sweep.is_finite(),
                    })
            }
            Self::Rect { frame: f, pen: p, .. } => frame(f) && pen(p),
            Self::Circle { centre, radius, pen: p, .. } => pos(centre) && radius.is_finite() && pen(p),
            Self::Text(text) => pos(&text.at) && text.angle.is_finite() && text.style.height.is_finite(),
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

/// How words are lettered.
///
/// Heights are those of a capital letter, as drawing practice has it (ISO 3098-1, steps of √2; from
/// memory), not the type size, which is 1.375 times that.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// Height of a capital, millimetres.
    pub height: f64,
    /// Thickness of the strokes.
    pub weight: Weight,
    /// How dark.
    pub tone: Tone,
}

impl Style {
    /// 1.8 mm: page furniture, the least that is used.
    pub const SMALL: Self = Self::new(1.8, Weight::Regular);
    /// 2.5 mm: running text and tables.
    pub const BODY: Self = Self::new(2.5, Weight::Regular);
    /// 3.5 mm: figures on a drawing.
    pub const LARGE: Self = Self::new(3.5, Weight::Regular);
    /// 5 mm: page headings.
    pub const HEADING: Self = Self::new(5.0, Weight::SemiBold);
    /// 10 mm: the figure to be read at arm's length.
    pub const FIGURE: Self = Self::new(10.0, Weight::SemiBold);

    /// Black, of a capital height in millimetres.
    #[must_use]
    pub const fn new(height: f64, weight: Weight) -> Self {
        Self {
            height,
            weight,
            tone: Tone::Black,
        }
    }

    /// The same, heavier.
    #[must_use]
    pub const fn bold(mut self) -> Self {
        self.weight = Weight::SemiBold;
        self
    }

    /// The same at another capital height, millimetres.
    #[must_use]
    pub const fn high(mut self, height: f64) -> Self {
        self.height = height;
        self
    }

    /// The same in another tone.
    #[must_use]
    pub const fn toned(mut self, tone: Tone) -> Self {
        self.tone = tone;
        self
    }
}

/// Thickness of the strokes of a letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Weight {
    /// Running text.
    Regular,
    /// Headings and the figures that matter.
    SemiBold,
}

/// How dark the ink is. Four tones that stay apart on a copier.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Tone {
    /// Black.
    Black,
    /// For what may be overlooked; still over 7 to 1 against paper.
    Grey,
    /// For surfaces under words.
    Pale,
    /// Paper, to blank out what lies beneath.
    White,
}

impl Tone {
    /// 0 black to 255 white.
    #[must_use]
    pub const fn lightness(self) -> u8 {
        match self {
            Self::Black => 0,
            Self::Grey => 0x50,
            Self::Pale => 0xE4,
            Self::White => 0xFF,
        }
    }
}

/// What a line is drawn with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// Width, millimetres.
    pub width: f64,
    /// Broken how.
    pub dash: Dash,
    /// How dark.
    pub tone: Tone,
}

/// Kind of line, numbered as in ISO 128-2 (from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Dash {
    /// 01, unbroken.
    Continuous,
    /// 02, dashed.
    Dashed,
    /// 04, long-dash-dot.
    LongDashDot,
    /// 07, dotted.
    Dotted,
}

impl Dash {
    /// Lengths of ink and gap in turn, in widths of the line; empty for an unbroken one.
    ///
    /// Elements of ISO 128-2: long dash 24, dash 12, gap 3, dot at most 0.5 (from memory).
    #[must_use]
    pub const fn pattern(self) -> &'static [f64] {
        match self {
            Self::Continuous => &[],
            Self::Dashed => &[12.0, 3.0],
            Self::LongDashDot => &[24.0, 3.0, 0.5, 3.0],
            Self::Dotted => &[0.5, 3.0],
        }
    }
}

/// The kinds of line of every sheet. Widths step by √2 or 2 so that each pair stays apart in black
/// and white (ISO 128-2; from memory).
impl Pen {
    /// Edges of the path: continuous, wide.
    pub const EDGE: Self = Self::new(0.7, Dash::Continuous);
    /// Walls, beds, trees and other things that stand: continuous.
    pub const OUTLINE: Self = Self::new(0.35, Dash::Continuous);
    /// Centre line of the path: long-dash-dot, narrow.
    pub const CENTRE: Self = Self::new(0.25, Dash::LongDashDot);
    /// Hidden or buried things: dashed, wide enough to be told from a string.
    pub const BURIED: Self = Self::new(0.5, Dash::Dashed);
    /// Strings and tapes as they are pulled: dashed, narrow.
    pub const STRING: Self = Self::new(0.25, Dash::Dashed);
    /// Boundaries of a zone, such as roots: dotted.
    pub const ZONE: Self = Self::new(0.35, Dash::Dotted);
    /// Dimension lines, leaders, extensions: continuous, narrow.
    pub const THIN: Self = Self::new(0.25, Dash::Continuous);
    /// Rules of tables and frames.
    pub const RULE: Self = Self::new(0.18, Dash::Continuous);

    /// Black, of a width in millimetres.
    #[must_use]
    pub const fn new(width: f64, dash: Dash) -> Self {
        Self {
            width,
            dash,
            tone: Tone::Black,
        }
    }

    /// The same in another tone.
    #[must_use]
    pub const fn toned(mut self, tone: Tone) -> Self {
        self.tone = tone;
        self
    }

    /// Lengths of ink and gap in turn, millimetres; empty for an unbroken line.
    pub fn pattern(&self) -> impl Iterator<Item = f64> + '_ {
        self.dash.pattern().iter().map(|length| length * self.width)
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
    let (low, high) = if sweep < 0.0 { (start + sweep, start) } else { (start, start + sweep) };
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

/// A day as the one who issues the sheet names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// A day of the calendar; `None` when there is no such day or the year has not four figures.
    ///
    /// ```
    /// use sheet::ink::Date;
    /// assert_eq!(Date::new(2024, 2, 29).map(|day| day.to_string()), Some("2024-02-29".to_owned()));
    /// assert_eq!(Date::new(2023, 2, 29), None);
    /// ```
    #[must_use]
    pub const fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
        let days = match month {
            2 if leap => 29,
            2 => 28,
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => 0,
        };
        if year >= 1000 && year <= 9999 && day >= 1 && day <= days {
            Some(Self { year, month, day })
        } else {
            None
        }
    }

    /// Year, month and day, the latter two from 1.
    #[must_use]
    pub const fn parts(self) -> (u16, u8, u8) {
        (self.year, self.month, self.day)
    }
}

/// Year first, so that it reads the same everywhere (ISO 8601).
impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
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
                let points = (0..=2000).map(|i| centre.toward(start + sweep * f64::from(i) / 2000.0, 12.0));
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

    #[test]
    fn days() {
        let check = |(year, month, day), expected| {
            assert_eq!(Date::new(year, month, day).is_some(), expected, "{year}-{month}-{day}");
        };
        check((2026, 11, 25), true);
        check((2000, 2, 29), true);
        check((1900, 2, 29), false);
        check((2026, 4, 31), false);
        check((2026, 0, 1), false);
        check((2026, 13, 1), false);
        check((2026, 1, 0), false);
        check((999, 1, 1), false);
    }

    /// A figure that is not a number is seen wherever it hides.
    #[test]
    fn not_a_number_is_seen() {
        let good = Ink::line(Pos::ORIGIN, Pos::new(1.0, 1.0), Pen::THIN);
        let bad = Ink::line(Pos::ORIGIN, Pos::new(f64::NAN, 1.0), Pen::THIN);
        let window = Frame::new(Pos::ORIGIN, 9.0, 9.0);
        let through = |ink: &Ink| Ink::Through { window, inks: vec![ink.clone()] };
        assert!(good.is_finite() && through(&good).is_finite());
        assert!(!bad.is_finite() && !through(&bad).is_finite());
        assert!(!Ink::text(Pos::ORIGIN, "a", Style::BODY.high(f64::INFINITY)).is_finite());
        let far = [Pos::ORIGIN, Pos::new(0.0, f64::NEG_INFINITY)];
        assert!(!Ink::polyline(&far, Pen::THIN).unwrap().is_finite());
    }

    #[test]
    fn words_in_order() {
        let line = |words: &str| Ink::text(Pos::ORIGIN, words, Style::BODY);
        let window = Frame::new(Pos::ORIGIN, 9.0, 9.0);
        let block = Block::List(vec![
            Item { label: vec![line("1.")], body: vec![line("drive"), line("peg 2")] },
            Item { label: Vec::new(), body: vec![Ink::Through { window, inks: vec![line("done ")] }] },
        ]);
        assert_eq!(block.words(), "1. drive peg 2 done");
        let cell = |words| Cell { names: Names::Nothing, inks: vec![line(words)] };
        let row = Row { cells: vec![cell("a"), Cell::default(), cell("b")] };
        assert_eq!(Block::Table(vec![row]).words(), "a b");
    }
}

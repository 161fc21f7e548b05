//! How lines are drawn and words are lettered: pens, kinds of line, heights, tones.

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
    /// 05, long-dash double-dot.
    LongDashDoubleDot,
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
            Self::LongDashDoubleDot => &[24.0, 3.0, 0.5, 3.0, 0.5, 3.0],
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
    /// The boundary of the site: long-dash double-dot.
    pub const BOUNDARY: Self = Self::new(0.5, Dash::LongDashDoubleDot);
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

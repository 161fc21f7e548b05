//! A sheet as plain data: pages of ink, grouped into blocks that read in order.
//!
//! Nothing here draws. The same sheet is written as PDF, shown as a preview and measured by the tests.

use std::fmt;

use crate::ink::Ink;
use crate::paper::{Frame, Orientation, Paper};

/// A finished set of pages with what a reader's program wants to know about it.
#[derive(Clone, Debug, PartialEq)]
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
    pub date: Date,
    /// Pages in reading order.
    pub pages: Vec<Page>,
}

impl Sheet {
    /// In English, and empty so far.
    #[must_use]
    pub fn new(title: impl Into<String>, date: Date) -> Self {
        Self {
            title: title.into(),
            subject: String::new(),
            author: String::new(),
            language: "en".to_owned(),
            date,
            pages: Vec::new(),
        }
    }
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
            Self::List(items) => Box::new(
                items
                    .iter()
                    .flat_map(|item| item.label.iter().chain(&item.body)),
            ),
            Self::Table(rows) => Box::new(
                rows.iter()
                    .flat_map(|row| &row.cells)
                    .flat_map(|cell| &cell.inks),
            ),
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
    /// use sheet::Date;
    /// assert_eq!(Date::new(2024, 2, 29).map(|day| day.to_string()), Some("2024-02-29".to_owned()));
    /// assert_eq!(Date::new(2023, 2, 29), None);
    /// ```
    #[must_use]
    pub const fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap =
            year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
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
    use crate::ink::Pos;
    use crate::pen::Style;

    #[test]
    fn days() {
        let check = |(year, month, day), expected| {
            assert_eq!(
                Date::new(year, month, day).is_some(),
                expected,
                "{year}-{month}-{day}"
            );
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

    #[test]
    fn words_in_order() {
        let line = |words: &str| Ink::text(Pos::ORIGIN, words, Style::BODY);
        let window = Frame::new(Pos::ORIGIN, 9.0, 9.0);
        let block = Block::List(vec![
            Item {
                label: vec![line("1.")],
                body: vec![line("drive"), line("peg 2")],
            },
            Item {
                label: Vec::new(),
                body: vec![Ink::Through {
                    window,
                    inks: vec![line("done ")],
                }],
            },
        ]);
        assert_eq!(block.words(), "1. drive peg 2 done");
        let cell = |words| Cell {
            names: Names::Nothing,
            inks: vec![line(words)],
        };
        let row = Row {
            cells: vec![cell("a"), Cell::default(), cell("b")],
        };
        assert_eq!(Block::Table(vec![row]).words(), "a b");
    }
}

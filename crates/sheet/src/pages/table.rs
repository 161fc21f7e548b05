//! Tables: columns as wide as they need, rows that go on under the same heads on the next page.

use crate::document::{Block, Cell, Names, Row};
use crate::ink::{Anchor, Ink, Pos, Text};
use crate::lettering::{self, leading};
use crate::paper::Frame;
use crate::pen::{Pen, Style, Weight};

use super::entry::{BOX, tick_box};
use super::flow::{Flow, SLACK, base_below};

/// Free paper on both sides of a column and above and below a row, millimetres.
const ASIDE: f64 = 2.0;
const ABOVE: f64 = 0.8;

/// What is in a cell.
#[derive(Clone, Debug)]
pub(super) enum Content {
    /// Words.
    Words(String),
    /// A box to tick.
    Tick,
    /// A box to write a figure in.
    Write,
    /// So many boxes, one below the other.
    Boxes(usize),
}

/// Room to write a figure in by hand, millimetres.
const WRITE: f64 = 26.0;
const WRITE_HIGH: f64 = 5.8;
const BETWEEN: f64 = 0.8;

/// A table before it is set.
#[derive(Clone, Debug)]
pub(super) struct Table {
    /// What stands over the columns.
    pub(super) heads: Vec<String>,
    /// The rows, each as long as the heads.
    pub(super) rows: Vec<Vec<Content>>,
    /// Which column names its row.
    pub(super) names: usize,
    /// How figures and words of the rows are lettered.
    pub(super) style: Style,
}

impl Content {
    fn width(&self, style: Style) -> f64 {
        match self {
            Self::Words(words) => words
                .split('\n')
                .map(|line| lettering::width(line, style))
                .fold(0.0, f64::max),
            Self::Tick => BOX,
            Self::Write | Self::Boxes(_) => WRITE,
        }
    }
}

const HEAD: Style = Style::new(2.5, Weight::SemiBold);

impl Table {
    /// The same in a smaller style, if its lines would not fit in so much room otherwise and do then.
    pub(super) fn smaller_if_wide(self, style: Style, room: f64) -> Self {
        let width = |style| self.wanted(style).iter().sum::<f64>();
        if width(self.style) > room && width(style) <= room {
            Self { style, ..self }
        } else {
            self
        }
    }

    /// Widths that the columns need for no line to break.
    fn wanted(&self, style: Style) -> Vec<f64> {
        (0..self.heads.len())
            .map(|column| {
                let cells = self.rows.iter().filter_map(|row| row.get(column));
                let widest = cells.map(|cell| cell.width(style)).fold(0.0, f64::max);
                // The longest word of the head fits, the head itself may take more lines.
                let head = self.heads.get(column).map_or(0.0, |head| {
                    let words = head.split(' ').map(|word| lettering::width(word, HEAD));
                    words.fold(0.0, f64::max)
                });
                widest.max(head) + 2.0 * ASIDE + SLACK
            })
            .collect()
    }

    /// Widths of the columns in so much room: what they need if there is room for it, what is left
    /// over shared out; if there is not, the widest give way and their words run on in lines.
    fn widths(&self, room: f64) -> Vec<f64> {
        let wanted = self.wanted(self.style);
        let total: f64 = wanted.iter().sum();
        if total <= room {
            let share = (room - total) / wanted.len().max(1) as f64;
            return wanted.into_iter().map(|width| width + share).collect();
        }
        // The limit at which the columns, none wider than it, fill the room.
        let (mut low, mut high) = (0.0, room);
        for _ in 0..50 {
            let limit = 0.5 * (low + high);
            let sum: f64 = wanted.iter().map(|width| width.min(limit)).sum();
            if sum > room {
                high = limit;
            } else {
                low = limit;
            }
        }
        wanted.into_iter().map(|width| width.min(low)).collect()
    }
}

/// A table with its measures in a room.
struct Measured {
    heads: Vec<Content>,
    widths: Vec<f64>,
    head_height: f64,
    heights: Vec<f64>,
}

impl Measured {
    fn new(table: &Table, room: f64) -> Self {
        let widths = table.widths(room);
        let heads: Vec<Content> = table.heads.iter().cloned().map(Content::Words).collect();
        let row = |row: &Vec<Content>| row_height(row, &widths, table.style);
        Self {
            head_height: row_height(&heads, &widths, HEAD),
            heights: table.rows.iter().map(row).collect(),
            heads,
            widths,
        }
    }

    fn height(&self) -> f64 {
        self.head_height + self.heights.iter().sum::<f64>()
    }
}

/// So much of a page is not left empty for the sake of a table.
const MUCH: f64 = 0.4;

/// Free paper after a table, millimetres.
const AFTER: f64 = 2.5;

impl Flow {
    /// How high a table stands.
    pub(super) fn table_height(&self, table: &Table) -> f64 {
        Measured::new(table, self.room().width).height() + AFTER
    }

    /// A table.
    pub(super) fn table(&mut self, table: &Table) {
        let measured = Measured::new(table, self.room().width);
        let whole = measured.height();
        let Measured {
            heads,
            widths,
            head_height,
            heights,
        } = measured;
        // A table that fits on one page is not torn, unless a good part of this one would stay empty.
        let page = self.frame().height - 20.0;
        let wasteful = self.room().height > MUCH * page;
        self.need(if whole <= page && !wasteful {
            whole
        } else {
            head_height + 30.0
        });

        let mut rows = vec![self.row(&heads, &widths, head_height, (HEAD, usize::MAX))];
        for (row, height) in table.rows.iter().zip(&heights) {
            if self.room().height < *height - SLACK {
                self.put(Block::Table(std::mem::take(&mut rows)));
                self.need(height + head_height + 1.0);
                rows.push(self.row(&heads, &widths, head_height, (HEAD, usize::MAX)));
            }
            rows.push(self.row(row, &widths, *height, (table.style, table.names)));
        }
        self.put(Block::Table(rows));
        self.gap(AFTER);
    }

    fn row(
        &mut self,
        cells: &[Content],
        widths: &[f64],
        height: f64,
        (style, names): (Style, usize),
    ) -> Row {
        let strip = self.take(height);
        let head = names == usize::MAX;
        let mut left = 0.0;
        let mut row = Row::default();
        for (index, (cell, width)) in cells.iter().zip(widths).enumerate() {
            let frame = Frame::new(strip.corner.shifted(left, 0.0), *width, height);
            let mut inks = set(cell, &frame, style);
            if index == 0 {
                let pen = if head { Pen::OUTLINE } else { Pen::RULE };
                let across = widths.iter().sum::<f64>();
                inks.push(Ink::line(
                    strip.corner,
                    strip.corner.shifted(across, 0.0),
                    pen,
                ));
            }
            row.cells.push(Cell {
                names: if head {
                    Names::Column
                } else if index == names {
                    Names::Row
                } else {
                    Names::Nothing
                },
                inks,
            });
            left += width;
        }
        row
    }
}

fn row_height(cells: &[Content], widths: &[f64], style: Style) -> f64 {
    let height = |(cell, width): (&Content, &f64)| match cell {
        Content::Words(words) => {
            let lines = lettering::wrap(words, style, width - 2.0 * ASIDE)
                .len()
                .max(1);
            lines as f64 * leading(style)
        }
        Content::Tick => BOX,
        Content::Write => WRITE_HIGH,
        Content::Boxes(boxes) => *boxes as f64 * (WRITE_HIGH + BETWEEN),
    };
    cells.iter().zip(widths).map(height).fold(0.0, f64::max) + 2.0 * ABOVE
}

fn set(cell: &Content, frame: &Frame, style: Style) -> Vec<Ink> {
    match cell {
        Content::Words(words) => {
            let lines = lettering::wrap(words, style, frame.width - 2.0 * ASIDE);
            let spare = frame.height - lines.len() as f64 * leading(style);
            let mut base = frame
                .start()
                .shifted(ASIDE, -0.5 * spare - base_below(style));
            lines
                .into_iter()
                .map(|line| {
                    let text = Text::new(base, line, style).anchored(Anchor::START);
                    base = base.shifted(0.0, -leading(style));
                    text.into()
                })
                .collect()
        }
        Content::Tick => vec![tick_box(Pos::new(
            frame.left() + ASIDE,
            frame.middle().y - 0.5 * BOX,
        ))],
        Content::Write => vec![write_box(frame, frame.middle().y)],
        Content::Boxes(boxes) => {
            let each = frame.height / (*boxes).max(1) as f64;
            (0..*boxes)
                .map(|index| write_box(frame, frame.head() - (index as f64 + 0.5) * each))
                .collect()
        }
    }
}

/// A box to write in, its middle at a height.
fn write_box(cell: &Frame, middle: f64) -> Ink {
    let corner = Pos::new(cell.left() + 0.9, middle - 0.5 * WRITE_HIGH);
    Ink::Rect {
        frame: Frame::new(corner, (cell.width - 1.8).min(WRITE + 6.0), WRITE_HIGH),
        pen: Some(Pen::THIN),
        fill: None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::words;
    use crate::paper::Paper;

    fn table(rows: usize, words: &str) -> Table {
        Table {
            heads: vec!["peg".to_owned(), "along".to_owned(), "done".to_owned()],
            rows: (1..=rows)
                .map(|row| {
                    vec![
                        Content::Words(format!("peg {row}")),
                        Content::Words(words.to_owned()),
                        Content::Tick,
                    ]
                })
                .collect(),
            names: 0,
            style: Style::BODY,
        }
    }

    /// Columns fill the room they are given, never more, however long the words.
    #[test]
    fn columns_fill_the_room() {
        for words in ["1.200 m", &"Quince ".repeat(40)] {
            for room in [60.0, 120.0, 186.0] {
                let sum: f64 = table(3, words).widths(room).iter().sum();
                approx::assert_abs_diff_eq!(sum, room, epsilon = 1e-6);
            }
        }
    }

    /// A long table goes on under the same heads, and no row is lost or said twice.
    #[test]
    fn long_tables_go_on() {
        let mut flow = Flow::new(Paper::A4);
        flow.start("Pegs");
        flow.table(&table(100, "1.200 m"));
        let pages = flow.finish();
        assert!(pages.len() > 1);
        let mut said = Vec::new();
        for page in &pages {
            let rows: Vec<&Row> = page
                .blocks
                .iter()
                .filter_map(|block| match block {
                    Block::Table(rows) => Some(rows),
                    _ => None,
                })
                .flatten()
                .collect();
            let name = |row: &&Row| words(row.cells.first().iter().flat_map(|cell| &cell.inks));
            let names: Vec<String> = rows.iter().map(name).collect();
            assert_eq!(names.first().map(String::as_str), Some("peg"));
            said.extend(names.into_iter().skip(1));
        }
        let expected: Vec<String> = (1..=100).map(|row| format!("peg {row}")).collect();
        assert_eq!(said, expected);
    }
}

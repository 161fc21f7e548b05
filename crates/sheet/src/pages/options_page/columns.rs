//! Options in columns: a name over each, a row for every figure, words that are never cut.

use crate::document::{Block, Cell, Names, Row};
use crate::ink::{Anchor, Ink, Text};
use crate::lettering::{self, leading};
use crate::paper::Frame;
use crate::pen::{Pen, Style};

use super::super::flow::base_below;

/// Width of the column that names the rows, millimetres.
const ASIDE: f64 = 29.0;
/// Free paper on both sides of a column, and above and below a row.
const BESIDE: f64 = 1.6;
const ABOVE: f64 = 0.5;
/// Lines of a name.
const NAME_LINES: usize = 2;
/// How names may be lettered: the largest in which all of them fit their lines.
const NAMES: [Style; 3] = [Style::LARGE.bold(), Style::BODY.bold(), Style::SMALL.bold()];

/// A row before it is set: what it is called, what it says of each option, and in how many lines at
/// the most.
#[derive(Clone, Debug)]
pub(super) struct Said {
    pub(super) name: String,
    pub(super) cells: Vec<String>,
    pub(super) most: usize,
    /// Whether it is what most people look for first.
    pub(super) bold: bool,
}

/// Columns with their measures.
pub(super) struct Columns {
    names: Vec<Vec<String>>,
    name_style: Style,
    rows: Vec<(Said, Vec<Vec<String>>, f64)>,
    style: Style,
    each: f64,
}

impl Columns {
    /// Columns in so much room.
    pub(super) fn new(width: f64, names: &[String], rows: Vec<Said>, style: Style) -> Self {
        let each = (width - ASIDE) / names.len().max(1) as f64;
        let room = each - 2.0 * BESIDE;
        let fits = |style: &&Style| {
            (names.iter()).all(|name| lettering::wrap(name, **style, room).len() <= NAME_LINES)
        };
        let least = Style::SMALL.bold();
        let name_style = NAMES.iter().find(fits).copied().unwrap_or(least);
        let rows = rows.into_iter().map(|said| {
            let style = said.style(style);
            let cells: Vec<Vec<String>> = (said.cells.iter())
                .map(|cell| clipped(cell, style, room, said.most))
                .collect();
            let lines = cells.iter().map(Vec::len).max().unwrap_or(0).max(1);
            let height = lines as f64 * leading(style) + 2.0 * ABOVE;
            (said, cells, height)
        });
        Self {
            names: (names.iter())
                .map(|name| clipped(name, name_style, room, NAME_LINES))
                .collect(),
            name_style,
            rows: rows.collect(),
            style,
            each,
        }
    }

    /// How high the names stand.
    pub(super) fn head_height(&self) -> f64 {
        let lines = self.names.iter().map(Vec::len).max().unwrap_or(1);
        lines as f64 * leading(self.name_style) + 2.0 * ABOVE
    }

    /// How high all of it stands, without pictures.
    pub(super) fn height(&self) -> f64 {
        self.head_height() + self.rows.iter().map(|(_, _, height)| height).sum::<f64>()
    }

    /// The part of a strip beside the columns.
    #[expect(clippy::unused_self, reason = "where a strip is parted is known here")]
    pub(super) fn aside(&self, strip: &Frame) -> Frame {
        Frame::new(strip.corner, ASIDE, strip.height)
    }

    /// The picture of a column.
    pub(super) fn window(&self, strip: &Frame, column: usize) -> Frame {
        let corner = strip.corner.shifted(self.left(column) + BESIDE, 0.0);
        Frame::new(corner, self.each - 2.0 * BESIDE, strip.height)
    }

    fn left(&self, column: usize) -> f64 {
        ASIDE + column as f64 * self.each
    }

    /// The table: its names in one strip, its rows in another.
    pub(super) fn blocks(&self, names: &Frame, strip: &Frame) -> Vec<Block> {
        let mut head = Row::default();
        head.cells.push(Cell {
            names: Names::Column,
            inks: Vec::new(),
        });
        for (index, lines) in self.names.iter().enumerate() {
            head.cells.push(Cell {
                names: Names::Column,
                inks: self.lines(lines, names, self.left(index) + BESIDE, self.name_style),
            });
        }
        let mut rows = vec![head];
        let mut rest = *strip;
        for (said, cells, height) in &self.rows {
            let (line, below) = rest.cut_below(*height);
            rest = below;
            let over = line.start();
            let mut inks = vec![Ink::line(over, over.shifted(line.width, 0.0), Pen::RULE)];
            let name = vec![said.name.clone()];
            inks.extend(self.lines(&name, &line, 0.0, self.style.bold()));
            let mut row = Row::default();
            row.cells.push(Cell {
                names: Names::Row,
                inks,
            });
            for (index, lines) in cells.iter().enumerate() {
                row.cells.push(Cell {
                    names: Names::Nothing,
                    inks: self.lines(
                        lines,
                        &line,
                        self.left(index) + BESIDE,
                        said.style(self.style),
                    ),
                });
            }
            rows.push(row);
        }
        vec![Block::Table(rows)]
    }

    /// Lines of a cell from the head of its strip down.
    #[expect(clippy::unused_self, reason = "it reads as a part of the columns")]
    fn lines(&self, lines: &[String], strip: &Frame, left: f64, style: Style) -> Vec<Ink> {
        let first = strip.start().shifted(left, -ABOVE - base_below(style));
        let line = |(index, words): (usize, &String)| {
            let at = first.shifted(0.0, -(index as f64) * leading(style));
            Text::new(at, words, style).anchored(Anchor::START).into()
        };
        lines.iter().enumerate().map(line).collect()
    }
}

impl Said {
    fn style(&self, style: Style) -> Style {
        if self.bold { style.bold() } else { style }
    }
}

/// The words in lines no longer than the width; what goes past the most of them is left out from the
/// end of a word on, with an ellipsis.
pub(super) fn clipped(words: &str, style: Style, width: f64, most: usize) -> Vec<String> {
    let mut lines = lettering::wrap(words, style, width);
    if lines.len() <= most {
        return lines;
    }
    lines.truncate(most);
    if let Some(last) = lines.last_mut() {
        let marked = |words: &str| format!("{}…", words.trim_end_matches([' ', ',', ';', ':']));
        while !last.is_empty() && lettering::width(&marked(last), style) > width {
            // A word that fills the line by itself is shortened by letters.
            let end = last
                .rfind(' ')
                .or_else(|| last.char_indices().last().map(|(end, _)| end));
            last.truncate(end.unwrap_or(0));
        }
        *last = marked(last);
    }
    lines
}

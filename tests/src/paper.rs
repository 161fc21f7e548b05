//! The sheet as someone reads it who has only the paper: chapters of numbered steps and of tables.

use crate::pdf_text::{PageContent, PlacedText};

/// How far letters of one line or one column may stand apart, millimetres.
const SAME: f64 = 0.1;

/// Pages that follow one another under one title.
#[derive(Clone, Debug)]
pub struct Chapter {
    /// What stands over it.
    pub title: String,
    /// The number printed on its first page.
    pub page: usize,
    /// What it tells, in reading order.
    pub parts: Vec<Part>,
}

/// What stands together on a page.
#[derive(Clone, Debug)]
pub enum Part {
    /// A line outside of steps and tables.
    Words(String),
    /// A numbered step, its lines joined.
    Step(usize, String),
    /// A table.
    Table(Table),
}

/// A table.
#[derive(Clone, Debug)]
pub struct Table {
    heads: Vec<(f64, String)>,
    rows: Vec<Row>,
}

/// What stands in one row: lines of words, each with its column and its height on the page.
#[derive(Clone, Debug, Default)]
pub struct Row(Vec<(usize, f64, String)>);

impl Table {
    /// Whether it has a column of this name.
    #[must_use]
    pub fn has(&self, head: &str) -> bool {
        self.column(head).is_some()
    }

    /// Its rows.
    #[must_use]
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// The lines of a cell, each with its height on the page; none where nothing is printed.
    #[must_use]
    pub fn lines<'a>(&self, row: &'a Row, head: &str) -> Vec<(f64, &'a str)> {
        let of = self.column(head);
        let here = row.0.iter().filter(|(column, ..)| Some(*column) == of);
        here.map(|(_, y, words)| (*y, words.as_str())).collect()
    }

    /// The lines of a cell joined.
    #[must_use]
    pub fn cell(&self, row: &Row, head: &str) -> String {
        let lines = self.lines(row, head).into_iter();
        lines.map(|(_, words)| words).collect::<Vec<_>>().join(" ")
    }

    fn column(&self, head: &str) -> Option<usize> {
        self.heads.iter().position(|(_, words)| words == head)
    }

    fn put(&mut self, column: usize, text: &PlacedText) {
        let goes_back = |row: &Row| row.0.last().is_some_and(|(last, ..)| *last > column);
        if self.rows.last().is_none_or(goes_back) {
            self.rows.push(Row::default());
        }
        if let Some(row) = self.rows.last_mut() {
            row.0.push((column, text.y_mm, words(text)));
        }
    }
}

impl Chapter {
    /// Its numbered steps in order.
    pub fn steps(&self) -> impl Iterator<Item = &str> {
        self.parts.iter().filter_map(|part| match part {
            Part::Step(_, words) => Some(words.as_str()),
            _ => None,
        })
    }

    /// Its lines outside of steps and tables.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.parts.iter().filter_map(|part| match part {
            Part::Words(words) => Some(words.as_str()),
            _ => None,
        })
    }

    /// Its tables in order.
    pub fn tables(&self) -> impl Iterator<Item = &Table> {
        self.parts.iter().filter_map(|part| match part {
            Part::Table(table) => Some(table),
            _ => None,
        })
    }
}

/// The chapters of a sheet.
#[must_use]
pub fn chapters(pages: &[PageContent]) -> Vec<Chapter> {
    let mut chapters: Vec<Chapter> = Vec::new();
    for page in pages {
        let number = page.texts.iter().find_map(page_number);
        let mut texts = page.texts.iter().filter(|text| !text.furniture);
        let Some(title) = texts.next().map(words) else {
            continue;
        };
        let goes_on = title.strip_suffix(", continued");
        let last = chapters.last_mut();
        let texts: Vec<&PlacedText> = texts.collect();
        match last.filter(|last| Some(last.title.as_str()) == goes_on) {
            Some(chapter) => chapter.read(&texts),
            None => {
                let mut chapter = Chapter {
                    title,
                    page: number.unwrap_or(0),
                    parts: Vec::new(),
                };
                chapter.read(&texts);
                chapters.push(chapter);
            }
        }
    }
    chapters
}

impl Chapter {
    fn read(&mut self, texts: &[&PlacedText]) {
        // Where the words of a step stand, and where the head of a table ends.
        let mut body = None;
        let mut head_until = 0;
        for (at, text) in texts.iter().enumerate() {
            if at < head_until {
                continue;
            }
            if let Some(number) = step_number(text) {
                body = texts.get(at + 1).map(|next| next.x_mm);
                self.parts.push(Part::Step(number, String::new()));
                continue;
            }
            let (head, taken) = head(&texts[at..]);
            if head.len() > 2 {
                head_until = at + taken;
                let is_same = |table: &Table| {
                    let names = |heads: &[(f64, String)]| -> Vec<String> {
                        heads.iter().map(|(_, name)| name.clone()).collect()
                    };
                    names(&table.heads) == names(&head)
                };
                match self.parts.last_mut() {
                    Some(Part::Table(table)) if is_same(table) => {
                        table.heads = head;
                        table.rows.push(Row::default());
                    }
                    _ => self.parts.push(Part::Table(Table {
                        heads: head,
                        rows: Vec::new(),
                    })),
                }
                continue;
            }
            match self.parts.last_mut() {
                Some(Part::Step(_, step)) if body.is_none_or(|x| (text.x_mm - x).abs() < SAME) => {
                    body = Some(text.x_mm);
                    if !step.is_empty() {
                        step.push(' ');
                    }
                    step.push_str(&words(text));
                }
                Some(Part::Table(table)) if column_of(table, text).is_some() => {
                    let column = column_of(table, text).unwrap_or_default();
                    table.put(column, text);
                }
                _ => self.parts.push(Part::Words(words(text))),
            }
        }
    }
}

fn column_of(table: &Table, text: &PlacedText) -> Option<usize> {
    let heads = table.heads.iter();
    heads
        .map(|(x, _)| *x)
        .position(|x| (text.x_mm - x).abs() < SAME)
}

/// How far the lines of a head of two lines stand apart at most, millimetres.
const HEAD: f64 = 6.0;

/// The heads of a table with their places, and how many texts they are: words beside each other, of
/// two lines where a column is narrow.
fn head(texts: &[&PlacedText]) -> (Vec<(f64, String)>, usize) {
    const FIRST: [&str; 7] = [
        "peg",
        "flag",
        "along",
        "line, its zero",
        "point",
        "measure",
        "from",
    ];
    let first = texts[0];
    let mut heads: Vec<(f64, String)> = Vec::new();
    if !FIRST.contains(&words(first).as_str()) {
        return (heads, 0);
    }
    let mut taken = 0;
    for text in texts {
        let is_near =
            (text.y_mm - first.y_mm).abs() < HEAD && (text.size_mm - first.size_mm).abs() < SAME;
        match heads.last_mut() {
            Some((x, head)) if is_near && (text.x_mm - *x).abs() < SAME => {
                *head = format!("{head} {}", words(text));
            }
            Some((x, _)) if !is_near || text.x_mm < *x => break,
            _ => heads.push((text.x_mm, words(text))),
        }
        taken += 1;
    }
    (heads, taken)
}

fn words(text: &PlacedText) -> String {
    text.text.trim().to_owned()
}

/// `3.` before a step.
fn step_number(text: &PlacedText) -> Option<usize> {
    text.text.trim().strip_suffix('.')?.parse().ok()
}

/// `page 3 of 21` at the foot.
fn page_number(text: &PlacedText) -> Option<usize> {
    let rest = text.text.trim().strip_prefix("page ")?;
    rest.split_once(" of ")?.0.parse().ok()
}

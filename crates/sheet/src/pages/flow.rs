//! Text and tables set one below the other, going on to the next page when one is full.

use crate::document::{Block, Item, Page};
use crate::ink::{Anchor, Ink, Pos, Text};
use crate::lettering::{self, leading};
use crate::paper::{Frame, Orientation, Paper};
use crate::pen::{Pen, Style, Tone, Weight};

use super::table::Table;

/// Height kept at the foot of every page for what page it is, millimetres.
const FOOT: f64 = 7.0;

/// Side of a box to tick, millimetres.
pub(super) const BOX: f64 = 3.6;

/// Room for the label of an entry, millimetres.
const LABEL: f64 = 8.5;

/// Heights that add up differently in their last digits still fit, millimetres.
pub(super) const SLACK: f64 = 1e-6;

/// How headings within a page are lettered.
const HEADING: Style = Style::LARGE.bold();

/// Free paper between parts, millimetres.
const BEFORE_HEADING: f64 = 2.0;
const AFTER_HEADING: f64 = 0.8;
const AFTER_PARAGRAPH: f64 = 1.2;
const AFTER_ENTRY: f64 = 0.9;

/// Something set below what went before.
#[derive(Clone, Debug)]
pub(super) enum Part {
    /// A heading within the page.
    Heading(String),
    /// Running text.
    Paragraph(String, Style),
    /// Entries one below the other.
    List(Vec<Entry>),
    /// A table.
    Table(Table),
}

/// Pages being filled from the head down.
pub(super) struct Flow {
    paper: Paper,
    pages: Vec<Draft>,
    /// Height of the lower edge of what is set, on the page in hand.
    cursor: f64,
    /// What stands over the pages that go on.
    heading: String,
    /// What is said at the foot of the pages to come.
    pub(super) foot: String,
}

struct Draft {
    page: Page,
    foot: String,
}

/// What stands before an entry of a list.
#[derive(Clone, Debug)]
pub(super) enum Label {
    /// `1.`
    Number(usize),
    /// A box to tick.
    Tick,
    /// A word in a frame, black when it must not be missed.
    Sign { word: &'static str, black: bool },
}

/// One entry of a list.
#[derive(Clone, Debug)]
pub(super) struct Entry {
    /// What stands before it.
    pub(super) label: Label,
    /// What it says, each part beginning on a line of its own.
    pub(super) parts: Vec<(String, Style)>,
}

impl Entry {
    /// An entry said in one style.
    pub(super) fn new(label: Label, words: impl Into<String>, style: Style) -> Self {
        Self {
            label,
            parts: vec![(words.into(), style)],
        }
    }
}

/// Where the base line of a line of running text lies below the upper edge of its strip.
pub(super) fn base_below(style: Style) -> f64 {
    0.5 * (leading(style) + style.height)
}

impl Flow {
    /// No page yet.
    pub(super) fn new(paper: Paper) -> Self {
        Self {
            paper,
            pages: Vec::new(),
            cursor: 0.0,
            heading: String::new(),
            foot: String::new(),
        }
    }

    /// The frame of a page without its foot.
    pub(super) fn frame(&self, orientation: Orientation) -> Frame {
        let content = self.paper.content(orientation);
        content.cut_below(content.height - FOOT).0
    }

    /// A new upright page under a heading of its own.
    pub(super) fn start(&mut self, heading: &str) {
        self.heading = heading.to_owned();
        self.page(heading, Orientation::Portrait);
        self.heading(1, heading);
    }

    /// A new page without a heading; `title` is its entry in the outline.
    pub(super) fn page(&mut self, title: &str, orientation: Orientation) {
        self.cursor = self.frame(orientation).head();
        self.pages.push(Draft {
            page: Page {
                title: title.to_owned(),
                paper: self.paper,
                orientation,
                blocks: Vec::new(),
            },
            foot: self.foot.clone(),
        });
    }

    fn go_on(&mut self) {
        let title = format!("{}, continued", self.heading);
        self.page(&title, Orientation::Portrait);
        self.heading(1, &title);
    }

    /// The free room on the page in hand.
    pub(super) fn room(&self) -> Frame {
        let frame = self.frame(self.pages.last().map_or(Orientation::Portrait, |draft| draft.page.orientation));
        frame.cut_below(frame.head() - self.cursor).1
    }

    /// Goes on to the next page unless so much height is free, or the page is as good as empty.
    pub(super) fn need(&mut self, height: f64) {
        let frame = self.frame(Orientation::Portrait);
        if self.room().height < height - SLACK && self.room().height < 0.75 * frame.height {
            self.go_on();
        }
    }

    /// The next strip of the page, of a height that the caller has made sure of.
    pub(super) fn take(&mut self, height: f64) -> Frame {
        let strip = self.room().cut_below(height).0;
        self.cursor = strip.foot();
        strip
    }

    /// Free paper, unless the page has just begun.
    pub(super) fn gap(&mut self, height: f64) {
        self.cursor = (self.cursor - height).max(self.frame(Orientation::Portrait).foot());
    }

    /// Puts something on the page in hand.
    pub(super) fn put(&mut self, block: Block) {
        if let Some(draft) = self.pages.last_mut() {
            draft.page.blocks.push(block);
        }
    }

    /// A heading: 1 over a page, 2 within it, kept with what follows.
    fn heading(&mut self, level: u8, words: &str) {
        let style = if level == 1 { self.page_heading(words) } else { HEADING };
        if level > 1 {
            self.gap(BEFORE_HEADING);
        }
        let inks = self.lines(words, style, 0.0);
        self.put(Block::Heading { level, inks });
        self.gap(if level == 1 { 2.5 } else { AFTER_HEADING });
    }

    /// The largest style in which the words fit on one line, if any does.
    fn page_heading(&self, words: &str) -> Style {
        let width = self.room().width;
        let heights = [7.0, 5.0, 3.5].map(|height| Style::HEADING.high(height));
        let fits = |style: &&Style| lettering::width(words, **style) <= width;
        heights.iter().find(fits).copied().unwrap_or(Style::LARGE.bold())
    }

    /// What a part takes of the height of a page.
    pub(super) fn height(&self, part: &Part) -> f64 {
        match part {
            Part::Heading(words) => BEFORE_HEADING + self.lines_height(words, HEADING, 0.0) + AFTER_HEADING,
            Part::Paragraph(words, style) => self.lines_height(words, *style, 0.0) + AFTER_PARAGRAPH,
            Part::List(entries) => {
                let each = |entry: &Entry| self.entry_height(entry) + AFTER_ENTRY;
                entries.iter().map(each).sum::<f64>() + AFTER_ENTRY
            }
            Part::Table(table) => self.table_height(table),
        }
    }

    /// Sets parts one below the other. A heading stays with the part that follows it, a table on one
    /// page if a page holds it.
    pub(super) fn set(&mut self, parts: &[Part]) {
        let page = self.frame(Orientation::Portrait).height - 20.0;
        for (index, part) in parts.iter().enumerate() {
            match part {
                Part::Heading(words) => {
                    let next = parts.get(index + 1).map_or(0.0, |next| match next {
                        Part::Table(_) => self.height(next),
                        Part::List(entries) => entries.first().map_or(0.0, |entry| self.entry_height(entry)),
                        _ => 16.0,
                    });
                    let next = if next > page { 40.0 } else { next };
                    self.need(self.height(part) + next);
                    self.heading(2, words);
                }
                Part::Paragraph(words, style) => self.paragraph(words, *style),
                Part::List(entries) => self.list(entries),
                Part::Table(table) => self.table(table),
            }
        }
    }

    /// Lines of words from the cursor down, however many, without looking whether they fit.
    fn lines(&mut self, words: &str, style: Style, indent: f64) -> Vec<Ink> {
        let room = self.room();
        let lines = lettering::wrap(words, style, room.width - indent);
        lines
            .into_iter()
            .map(|line| {
                let strip = self.take(leading(style));
                Ink::text(strip.start().shifted(indent, -base_below(style)), line, style)
            })
            .collect()
    }

    fn paragraph(&mut self, words: &str, style: Style) {
        let height = self.lines_height(words, style, 0.0);
        self.need(height.min(0.5 * self.frame(Orientation::Portrait).height));
        let mut inks = Vec::new();
        for line in lettering::wrap(words, style, self.room().width) {
            if self.room().height < leading(style) - SLACK {
                self.put(Block::Paragraph(std::mem::take(&mut inks)));
                self.go_on();
            }
            inks.extend(self.lines(&line, style, 0.0));
        }
        if !inks.is_empty() {
            self.put(Block::Paragraph(inks));
        }
        self.gap(AFTER_PARAGRAPH);
    }

    /// How high some words stand.
    fn lines_height(&self, words: &str, style: Style, indent: f64) -> f64 {
        let lines = lettering::wrap(words, style, self.room().width - indent);
        lines.len() as f64 * leading(style)
    }

    /// Entries one below the other, each kept whole as long as a page holds it.
    fn list(&mut self, entries: &[Entry]) {
        let mut items = Vec::new();
        for entry in entries {
            let indent = entry.indent();
            let height = self.entry_height(entry);
            if self.room().height < height - SLACK {
                if !items.is_empty() {
                    self.put(Block::List(std::mem::take(&mut items)));
                }
                self.need(height);
            }
            let mut item = Item {
                label: self.label(entry),
                body: Vec::new(),
            };
            for (words, style) in &entry.parts {
                for line in lettering::wrap(words, *style, self.room().width - indent) {
                    if self.room().height < leading(*style) - SLACK {
                        items.push(std::mem::take(&mut item));
                        self.put(Block::List(std::mem::take(&mut items)));
                        self.go_on();
                    }
                    item.body.extend(self.lines(&line, *style, indent));
                }
            }
            items.push(item);
            self.gap(AFTER_ENTRY);
        }
        if !items.is_empty() {
            self.put(Block::List(items));
        }
        self.gap(AFTER_ENTRY);
    }

    fn entry_height(&self, entry: &Entry) -> f64 {
        let indent = entry.indent();
        let height = |(words, style): &(String, Style)| self.lines_height(words, *style, indent);
        entry.parts.iter().map(height).sum()
    }

    fn label(&self, entry: &Entry) -> Vec<Ink> {
        let style = entry.parts.first().map_or(Style::BODY, |(_, style)| *style);
        let start = self.room().start().shifted(0.0, -base_below(style));
        match &entry.label {
            Label::Number(number) => {
                let at = start.shifted(LABEL - 2.0, 0.0);
                vec![Text::new(at, format!("{number}."), style.bold()).anchored(Anchor::END).into()]
            }
            Label::Tick => vec![tick_box(start.shifted(1.0, 0.5 * (style.height - BOX)))],
            Label::Sign { word, black } => {
                let style = style.bold().high(2.5);
                let frame = Frame::new(start.shifted(0.2, -1.0), entry.indent() - 2.2, style.height + 2.0);
                let tone = if *black { Tone::White } else { Tone::Black };
                vec![
                    Ink::Rect {
                        frame,
                        pen: Some(Pen::OUTLINE),
                        fill: black.then_some(Tone::Black),
                    },
                    Text::new(frame.middle(), *word, style.toned(tone)).anchored(Anchor::CENTRE).into(),
                ]
            }
        }
    }

    /// The pages, each with its number.
    pub(super) fn finish(self) -> Vec<Page> {
        let of = self.pages.len();
        let finish = |(index, draft): (usize, Draft)| {
            let mut page = draft.page;
            let content = page.content();
            let number = format!("page {} of {of}", index + 1);
            page.blocks.push(Block::Furniture(foot(&content, &draft.foot, &number)));
            page
        };
        self.pages.into_iter().enumerate().map(finish).collect()
    }
}

impl Entry {
    fn indent(&self) -> f64 {
        match &self.label {
            Label::Sign { word, .. } => lettering::width(word, Style::BODY.bold()) + 6.0,
            _ => LABEL,
        }
    }
}

/// An empty box from its lower left corner.
pub(super) const fn tick_box(corner: Pos) -> Ink {
    Ink::Rect {
        frame: Frame::new(corner, BOX, BOX),
        pen: Some(Pen::THIN),
        fill: None,
    }
}

fn foot(content: &Frame, words: &str, number: &str) -> Vec<Ink> {
    let style = Style::new(2.5, Weight::SemiBold);
    let width = content.width - lettering::width(number, style) - 6.0;
    let (words, small) = lettering::fit(words, Style::SMALL, width);
    let rule = content.corner.shifted(0.0, FOOT - 2.2);
    let base = content.corner.shifted(0.0, 0.9);
    vec![
        Ink::line(rule, rule.shifted(content.width, 0.0), Pen::RULE),
        Ink::text(base, words, small),
        Text::new(base.shifted(content.width, 0.0), number, style).anchored(Anchor::END).into(),
    ]
}

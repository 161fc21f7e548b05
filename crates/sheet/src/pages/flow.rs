//! Text and tables set one below the other, going on to the next page when one is full.

use crate::document::{Block, Item, Page};
use crate::ink::{Anchor, Ink, Text};
use crate::lettering::{self, leading};
use crate::paper::{Frame, Orientation, Paper};
use crate::pen::{Pen, Style, Weight};

use super::entry::{BOXES, CHECK, Entry, boxes};
use super::table::Table;

/// Height kept at the foot of every page for what page it is, millimetres.
const FOOT: f64 = 7.0;

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

/// The paper of a size that suits a clipboard, of the same kind.
pub(super) const fn paper_of_text(paper: Paper) -> Paper {
    match paper {
        Paper::A4 | Paper::A3 => Paper::A4,
        Paper::Letter | Paper::Tabloid => Paper::Letter,
    }
}

/// The part of a page to compose in: without its foot.
pub(super) fn frame(paper: Paper, orientation: Orientation) -> Frame {
    let content = paper.content(orientation);
    content.cut_below(content.height - FOOT).0
}

/// Where the base line of a line of running text lies below the upper edge of its strip.
pub(super) fn base_below(style: Style) -> f64 {
    0.5 * (leading(style) + style.height)
}

impl Flow {
    /// No page yet. Only the plan is worth a large paper: text goes on one that suits a clipboard.
    pub(super) fn new(paper: Paper) -> Self {
        Self {
            paper: paper_of_text(paper),
            pages: Vec::new(),
            cursor: 0.0,
            heading: String::new(),
            foot: String::new(),
        }
    }

    /// How many pages there are.
    pub(super) fn length(&self) -> usize {
        self.pages.len()
    }

    /// Puts the pages of another before the page in this place.
    pub(super) fn insert(&mut self, place: usize, other: Self) {
        self.pages.splice(place..place, other.pages);
    }

    /// What a page of text is set in.
    pub(super) fn frame(&self) -> Frame {
        frame(self.paper, Orientation::Portrait)
    }

    /// A new page of text under a heading of its own.
    pub(super) fn start(&mut self, heading: &str) {
        self.heading = heading.to_owned();
        self.page(heading);
    }

    fn go_on(&mut self) {
        self.page(&format!("{}, continued", self.heading));
    }

    fn page(&mut self, heading: &str) {
        self.cursor = self.frame().head();
        self.add(Page {
            title: heading.to_owned(),
            paper: self.paper,
            orientation: Orientation::Portrait,
            blocks: Vec::new(),
        });
        self.heading(1, heading);
    }

    /// A page composed elsewhere; only its foot is still free.
    pub(super) fn add(&mut self, page: Page) {
        self.pages.push(Draft {
            page,
            foot: self.foot.clone(),
        });
    }

    /// The free room on the page in hand.
    pub(super) fn room(&self) -> Frame {
        let frame = self.frame();
        frame.cut_below(frame.head() - self.cursor).1
    }

    /// Goes on to the next page unless so much height is free, or the page is as good as empty.
    pub(super) fn need(&mut self, height: f64) {
        let frame = self.frame();
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
        self.cursor = (self.cursor - height).max(self.frame().foot());
    }

    /// Puts something on the page in hand.
    pub(super) fn put(&mut self, block: Block) {
        if let Some(draft) = self.pages.last_mut() {
            draft.page.blocks.push(block);
        }
    }

    /// A heading: 1 over a page, 2 within it, kept with what follows.
    fn heading(&mut self, level: u8, words: &str) {
        let style = if level == 1 {
            self.page_heading(words)
        } else {
            HEADING
        };
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
        heights
            .iter()
            .find(fits)
            .copied()
            .unwrap_or(Style::LARGE.bold())
    }

    /// What a part takes of the height of a page.
    pub(super) fn height(&self, part: &Part) -> f64 {
        match part {
            Part::Heading(words) => {
                BEFORE_HEADING + self.lines_height(words, HEADING, 0.0) + AFTER_HEADING
            }
            Part::Paragraph(words, style) => {
                self.lines_height(words, *style, 0.0) + AFTER_PARAGRAPH
            }
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
        let page = self.frame().height - 20.0;
        for (index, part) in parts.iter().enumerate() {
            match part {
                Part::Heading(words) => {
                    let next = parts.get(index + 1).map_or(0.0, |next| match next {
                        Part::Table(_) => self.height(next),
                        Part::List(entries) => entries
                            .first()
                            .map_or(0.0, |entry| self.entry_height(entry)),
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
                Ink::text(
                    strip.start().shifted(indent, -base_below(style)),
                    line,
                    style,
                )
            })
            .collect()
    }

    fn paragraph(&mut self, words: &str, style: Style) {
        let height = self.lines_height(words, style, 0.0);
        self.need(height.min(0.5 * self.frame().height));
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
                label: entry
                    .label_inks(self.room().start().shifted(0.0, -base_below(entry.style()))),
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
            for check in &entry.checks {
                let height = self.check_height(check, entry);
                if self.room().height < height - SLACK {
                    items.push(std::mem::take(&mut item));
                    self.put(Block::List(std::mem::take(&mut items)));
                    self.go_on();
                }
                item.body.extend(self.check(check, entry));
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
        let said: f64 = entry.parts.iter().map(height).sum();
        let check = |check: &String| self.check_height(check, entry);
        said + entry.checks.iter().map(check).sum::<f64>()
    }

    fn check_height(&self, check: &str, entry: &Entry) -> f64 {
        self.lines_height(check, entry.style().bold(), entry.indent() + BOXES)
            .max(CHECK)
    }

    /// What must be read, and the boxes beside it.
    fn check(&mut self, check: &str, entry: &Entry) -> Vec<Ink> {
        let (indent, style) = (entry.indent(), entry.style().bold());
        let strip = self.take(self.check_height(check, entry));
        let lines = lettering::wrap(check, style, strip.width - indent - BOXES);
        let spare = 0.5 * (strip.height - lines.len() as f64 * leading(style));
        let mut base = strip.start().shifted(indent, -spare - base_below(style));
        let mut inks = Vec::new();
        for line in lines {
            inks.push(Ink::text(base, line, style));
            base = base.shifted(0.0, -leading(style));
        }
        inks.extend(boxes(&strip));
        inks
    }

    /// The pages, each with its number.
    pub(super) fn finish(self) -> Vec<Page> {
        let of = self.pages.len();
        let finish = |(index, draft): (usize, Draft)| {
            let mut page = draft.page;
            let content = page.content();
            let number = format!("page {} of {of}", index + 1);
            page.blocks
                .push(Block::Furniture(foot(&content, &draft.foot, &number)));
            page
        };
        self.pages.into_iter().enumerate().map(finish).collect()
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
        Text::new(base.shifted(content.width, 0.0), number, style)
            .anchored(Anchor::END)
            .into(),
    ]
}

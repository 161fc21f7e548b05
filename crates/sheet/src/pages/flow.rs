//! Text and tables set one below the other, going on to the next page when one is full.

use crate::document::{Block, Item, Page};
use crate::ink::{Anchor, Ink, Pos, Text};
use crate::lettering::{self, leading};
use crate::paper::{Frame, Orientation, Paper};
use crate::pen::{Pen, Style, Tone, Weight};

/// Height kept at the foot of every page for what page it is, millimetres.
const FOOT: f64 = 7.0;

/// Side of a box to tick, millimetres.
pub(super) const BOX: f64 = 3.6;

/// Room for the label of an entry, millimetres.
const LABEL: f64 = 8.5;

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
        if self.room().height < height && self.room().height < 0.75 * frame.height {
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
    pub(super) fn heading(&mut self, level: u8, words: &str) {
        let width = self.room().width;
        let style = if level == 1 {
            lettering::fit(words, Style::HEADING.high(7.0), width).1.high(3.5).bold()
        } else {
            Style::LARGE.bold()
        };
        let style = if level == 1 {
            [7.0, 5.0, 3.5]
                .into_iter()
                .map(|height| style.high(height))
                .find(|style| lettering::width(words, *style) <= width)
                .unwrap_or(style)
        } else {
            self.need(22.0);
            self.gap(2.0);
            style
        };
        let inks = self.lines(words, style, 0.0);
        self.put(Block::Heading { level, inks });
        self.gap(if level == 1 { 2.5 } else { 0.8 });
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

    /// Running text.
    pub(super) fn paragraph(&mut self, words: &str, style: Style) {
        let height = self.height(words, style, 0.0);
        self.need(height.min(0.5 * self.frame(Orientation::Portrait).height));
        let mut inks = Vec::new();
        for line in lettering::wrap(words, style, self.room().width) {
            if self.room().height < leading(style) {
                self.put(Block::Paragraph(std::mem::take(&mut inks)));
                self.go_on();
            }
            inks.extend(self.lines(&line, style, 0.0));
        }
        if !inks.is_empty() {
            self.put(Block::Paragraph(inks));
        }
        self.gap(1.2);
    }

    /// How high some words stand.
    fn height(&self, words: &str, style: Style, indent: f64) -> f64 {
        let lines = lettering::wrap(words, style, self.room().width - indent);
        lines.len() as f64 * leading(style)
    }

    /// Entries one below the other, each kept whole as long as a page holds it.
    pub(super) fn list(&mut self, entries: &[Entry]) {
        let mut items = Vec::new();
        for entry in entries {
            let indent = entry.indent();
            let height: f64 = entry
                .parts
                .iter()
                .map(|(words, style)| self.height(words, *style, indent))
                .sum();
            if self.room().height < height {
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
                    if self.room().height < leading(*style) {
                        items.push(std::mem::take(&mut item));
                        self.put(Block::List(std::mem::take(&mut items)));
                        self.go_on();
                    }
                    item.body.extend(self.lines(&line, *style, indent));
                }
            }
            items.push(item);
            self.gap(1.0);
        }
        if !items.is_empty() {
            self.put(Block::List(items));
        }
        self.gap(1.0);
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

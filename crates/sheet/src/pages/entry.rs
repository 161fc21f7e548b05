//! An entry of a list: its number, box or sign, and what it says.

use crate::ink::{Anchor, Ink, Pos, Text};
use crate::lettering;
use crate::paper::Frame;
use crate::pen::{Pen, Style, Tone};

/// Side of a box to tick, millimetres.
pub(super) const BOX: f64 = 3.6;

/// Room for a number or a box, millimetres.
const LABEL: f64 = 8.5;

/// What stands before an entry of a list.
#[derive(Clone, Debug)]
pub(super) enum Label {
    /// `1.`
    Number(usize),
    /// A box to tick.
    Tick,
    /// A dot.
    Bullet,
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
    /// What must be read after it, each with a box to write in and one to tick.
    pub(super) checks: Vec<String>,
}

impl Entry {
    /// An entry said in one style.
    pub(super) fn new(label: Label, words: impl Into<String>, style: Style) -> Self {
        Self {
            label,
            parts: vec![(words.into(), style)],
            checks: Vec::new(),
        }
    }

    /// The same, with what must be read after it.
    pub(super) fn checked(mut self, checks: impl IntoIterator<Item = String>) -> Self {
        self.checks.extend(checks);
        self
    }

    /// How far its words stand in from the left, millimetres.
    pub(super) fn indent(&self) -> f64 {
        match &self.label {
            Label::Sign { word, .. } => lettering::width(word, Style::BODY.bold()) + 6.0,
            _ => LABEL,
        }
    }

    /// How its first line is lettered.
    pub(super) fn style(&self) -> Style {
        self.parts.first().map_or(Style::BODY, |(_, style)| *style)
    }

    /// What stands before its first line, whose base line begins at a place.
    pub(super) fn label_inks(&self, base: Pos) -> Vec<Ink> {
        let style = self.style();
        match &self.label {
            Label::Number(number) => {
                let at = base.shifted(LABEL - 2.0, 0.0);
                let text = Text::new(at, format!("{number}."), style.bold());
                vec![text.anchored(Anchor::END).into()]
            }
            Label::Bullet => {
                let text = Text::new(base.shifted(LABEL - 2.0, 0.0), "•", style.bold());
                vec![text.anchored(Anchor::END).into()]
            }
            Label::Tick => vec![tick_box(base.shifted(1.0, 0.5 * (style.height - BOX)))],
            Label::Sign { word, black } => {
                let style = style.bold().high(2.5);
                let corner = base.shifted(0.2, -1.0);
                let frame = Frame::new(corner, self.indent() - 2.2, style.height + 2.0);
                let tone = if *black { Tone::White } else { Tone::Black };
                let text = Text::new(frame.middle(), *word, style.toned(tone));
                vec![
                    Ink::Rect {
                        frame,
                        pen: Some(Pen::OUTLINE),
                        fill: black.then_some(Tone::Black),
                    },
                    text.anchored(Anchor::CENTRE).into(),
                ]
            }
        }
    }
}

/// Room for the boxes beside a check: one to write in, one to tick, millimetres.
pub(super) const BOXES: f64 = WRITE + BOX + 7.0;
const WRITE: f64 = 26.0;

/// Least height of a check, millimetres: so that a figure can be written in its box.
pub(super) const CHECK: f64 = 6.4;

/// The boxes at the right end of a strip.
pub(super) fn boxes(strip: &Frame) -> [Ink; 2] {
    let middle = strip.middle().y;
    let corner = Pos::new(strip.right() - BOX - 3.0 - WRITE, middle - 2.8);
    [
        Ink::Rect {
            frame: Frame::new(corner, WRITE, 5.6),
            pen: Some(Pen::THIN),
            fill: None,
        },
        tick_box(Pos::new(strip.right() - BOX - 0.4, middle - 0.5 * BOX)),
    ]
}

/// An empty box from its lower left corner.
pub(super) const fn tick_box(corner: Pos) -> Ink {
    Ink::Rect {
        frame: Frame::new(corner, BOX, BOX),
        pen: Some(Pen::THIN),
        fill: None,
    }
}

//! What identifies a plan page and proves its scale: title block, scale bars, north arrow.

use std::f64::consts::FRAC_PI_2;

use plan::units::Units;

use crate::document::Block;
use crate::ink::{Anchor, Ink, Pos, Text};
use crate::lettering;
use crate::paper::Frame;
use crate::pen::{Pen, Style, Tone};

use super::scale::Scale;

/// Height of the strip of bars, millimetres.
pub(super) const BARS: f64 = 15.0;

/// Height of one row of the title block, millimetres.
const ROW: f64 = 8.6;

/// A cell of the title block: what it is, what it says, its share of the row.
pub(super) type Entry = (&'static str, String, f64);

/// Height of a title block of so many rows, millimetres.
pub(super) const fn height(rows: usize) -> f64 {
    ROW * rows as f64
}

/// The title block, its rows from the head of the frame down.
pub(super) fn title_block(frame: &Frame, rows: &[Vec<Entry>]) -> [Block; 2] {
    let mut lines = vec![Ink::Rect {
        frame: *frame,
        pen: Some(Pen::OUTLINE),
        fill: None,
    }];
    let mut words = Vec::new();
    let mut rest = *frame;
    for (index, row) in rows.iter().enumerate() {
        let (strip, below) = rest.cut_below(ROW);
        rest = below;
        if index > 0 {
            lines.push(Ink::line(
                strip.start(),
                strip.start().shifted(strip.width, 0.0),
                Pen::RULE,
            ));
        }
        let total: f64 = row.iter().map(|(_, _, share)| share).sum();
        let mut left = 0.0;
        for (cell, (name, says, share)) in row.iter().enumerate() {
            let width = strip.width * share / total;
            let corner = strip.corner.shifted(left, 0.0);
            if cell > 0 {
                lines.push(Ink::line(corner, corner.shifted(0.0, ROW), Pen::RULE));
            }
            words.push(Ink::text(
                corner.shifted(1.5, ROW - 2.6),
                *name,
                Style::SMALL.toned(Tone::Grey),
            ));
            let largest = if index == 0 {
                Style::LARGE.bold()
            } else {
                Style::BODY
            };
            let (says, style) = lettering::fit(says, largest, width - 3.0);
            words.push(Ink::text(corner.shifted(1.5, 1.6), says, style));
            left += width;
        }
    }
    [Block::Furniture(lines), Block::Paragraph(words)]
}

/// The bar that shows whether the printer kept the scale, the bar of the plan's own units, and north.
///
/// `north` is where north lies on the paper, radians counter-clockwise from up.
pub(super) fn bars(frame: &Frame, scale: &Scale, units: Units, north: f64) -> Block {
    let foot = frame.corner.shifted(1.0, 4.6);
    let (words, length) = match units {
        Units::Metric => ("This bar must measure 100 mm", 100.0),
        Units::FeetInches => ("This bar must measure 4 in", 101.6),
    };
    let mut inks = bar(foot, length, 10);
    inks.push(Ink::text(foot.shifted(0.0, 5.0), words, Style::BODY.bold()));
    let advice = "If not, print again at full size (100 %); figures in words hold.";
    inks.push(Ink::text(foot.shifted(0.0, -3.6), advice, Style::SMALL));

    let own = foot.shifted(length + 7.0, 0.0);
    let bar_of = RoundBar::fitting(scale, units, frame.right() - own.x - 20.0);
    inks.extend(bar(own, bar_of.millimetres, bar_of.divisions));
    inks.push(Ink::text(
        own.shifted(0.0, 5.0),
        format!("Scale {}", scale.words),
        Style::BODY.bold(),
    ));
    inks.push(Ink::text(own.shifted(0.0, -3.6), "0", Style::SMALL));
    let end = own.shifted(bar_of.millimetres, -3.6);
    inks.push(
        Text::new(end, &bar_of.words, Style::SMALL)
            .anchored(Anchor::MIDDLE)
            .into(),
    );

    inks.extend(north_arrow(
        Pos::new(frame.right() - 7.0, frame.middle().y),
        north,
    ));
    Block::Figure {
        alt: format!(
            "{words}. Scale {}, with a bar of {}. An arrow points north.",
            scale.words, bar_of.words
        ),
        inks,
    }
}

/// Black and white by turns between ticks, from its left end; the ticks' outer middles lie the
/// length apart.
pub(super) fn bar(at: Pos, length: f64, divisions: u32) -> Vec<Ink> {
    const HIGH: f64 = 1.6;
    let step = length / f64::from(divisions.max(1));
    let mut inks: Vec<Ink> = (0..divisions)
        .map(|i| Ink::Rect {
            frame: Frame::new(at.shifted(f64::from(i) * step, 0.0), step, HIGH),
            pen: None,
            fill: Some(if i % 2 == 0 { Tone::Black } else { Tone::White }),
        })
        .collect();
    inks.push(Ink::Rect {
        frame: Frame::new(at, length, HIGH),
        pen: Some(Pen::RULE),
        fill: None,
    });
    for x in [0.0, length] {
        inks.push(Ink::line(
            at.shifted(x, -0.8),
            at.shifted(x, HIGH + 0.8),
            Pen::THIN,
        ));
    }
    inks
}

/// A bar of a round length on the ground.
pub(super) struct RoundBar {
    pub(super) words: String,
    pub(super) millimetres: f64,
    pub(super) divisions: u32,
}

impl RoundBar {
    /// The longest of 1, 2, 4, 5 times a power of ten that fits in the room, millimetres.
    pub(super) fn fitting(scale: &Scale, units: Units, room: f64) -> Self {
        let (unit, each) = match units {
            Units::Metric => ("m", scale.millimetres()),
            Units::FeetInches => ("ft", 0.3048 * scale.millimetres()),
        };
        let step = 10_f64.powf((room / each).log10().floor().clamp(-3.0, 9.0));
        let fits = |count: &u32| f64::from(*count) * step * each <= room;
        let count = [5, 4, 2].into_iter().find(fits).unwrap_or(1);
        let length = f64::from(count) * step;
        Self {
            words: format!("{length} {unit}"),
            millimetres: length * each,
            divisions: if count == 1 { 5 } else { count.max(4) },
        }
    }
}

/// An arrow to the north with its letter, about 12 mm high.
pub(super) fn north_arrow(middle: Pos, north: f64) -> Vec<Ink> {
    let up = north + FRAC_PI_2;
    let (tip, tail) = (middle.toward(up, 4.4), middle.toward(up, -5.0));
    let wing = |side: f64| middle.toward(up + side * 2.6, 2.2);
    let letter = middle.toward(up, 4.4).toward(up - FRAC_PI_2, 2.9);
    let mut inks = vec![Ink::line(tail, middle, Pen::OUTLINE)];
    inks.extend(Ink::polygon(
        &[tip, wing(1.0), middle, wing(-1.0)],
        None,
        Some(Tone::Black),
    ));
    inks.push(
        Text::new(letter, "N", Style::BODY.bold())
            .anchored(Anchor::CENTRE)
            .into(),
    );
    inks
}

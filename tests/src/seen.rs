//! What of the text in a window can be seen, from the shapes the window library is about to paint.

use egui::epaint::{ClippedShape, TextShape};
use egui::{FullOutput, Rect, Shape};

/// A text on the screen, in screen points.
#[derive(Clone, Debug)]
pub struct Text {
    /// What it says: what was laid out, which ends in … when the rest was dropped.
    pub words: String,
    /// Where all of it is.
    pub rect: Rect,
    /// The part of the window it may be painted in.
    pub clip: Rect,
}

impl Text {
    /// The part of it that can be seen.
    #[must_use]
    pub fn seen(&self) -> Rect {
        self.rect.intersect(self.clip)
    }
}

/// A stray pixel of anti-aliasing is not yet an overlap or a cut, in screen points.
const SLACK: f32 = 1.0;

/// All texts of which something can be seen, in the order they are painted.
#[must_use]
pub fn texts(output: &FullOutput) -> Vec<Text> {
    let mut all = Vec::new();
    for ClippedShape { clip_rect, shape } in &output.shapes {
        collect(shape, *clip_rect, &mut all);
    }
    all.retain(|text| text.seen().shrink(SLACK).is_positive());
    all
}

fn collect(shape: &Shape, clip: Rect, all: &mut Vec<Text>) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| collect(shape, clip, all)),
        Shape::Text(text) => all.push(Text {
            words: words(text),
            rect: text.visual_bounding_rect(),
            clip,
        }),
        _ => {}
    }
}

fn words(text: &TextShape) -> String {
    let rows = text.galley.rows.iter();
    rows.map(|row| row.text()).collect::<Vec<_>>().join(" ")
}

/// Texts that are cut off at the left or right, each as a sentence.
#[must_use]
pub fn cut(texts: &[Text]) -> Vec<String> {
    let is_cut = |text: &&Text| {
        text.rect.left() < text.clip.left() - SLACK || text.clip.right() + SLACK < text.rect.right()
    };
    texts
        .iter()
        .filter(is_cut)
        .map(|text| format!("cut: {:.60} {:?} in {:?}", text.words, text.rect, text.clip))
        .collect()
}

/// Texts that lie on one another, each pair as a sentence.
#[must_use]
pub fn overlaps(texts: &[Text]) -> Vec<String> {
    let mut found = Vec::new();
    for (nth, one) in texts.iter().enumerate() {
        for other in &texts[nth + 1..] {
            if one.seen().shrink(SLACK).intersects(other.seen().shrink(SLACK)) {
                found.push(format!(
                    "overlap: {:.60} {:?} and {:.60} {:?}",
                    one.words,
                    one.seen(),
                    other.words,
                    other.seen()
                ));
            }
        }
    }
    found
}

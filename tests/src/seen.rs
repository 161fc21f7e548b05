//! What of the text in a window can be seen, from the shapes the window library is about to paint.

use egui::epaint::ClippedShape;
use egui::{FullOutput, Rect, Shape};

/// One row of a text on the screen, in screen points.
#[derive(Clone, Debug)]
pub struct Row {
    /// What it says, as it is painted.
    pub words: String,
    /// Where its letters are.
    pub rect: Rect,
    /// The part of the window it may be painted in.
    pub clip: Rect,
    /// Which text it belongs to: those of one text follow one another.
    pub text: usize,
}

impl Row {
    /// The part of it that can be seen.
    #[must_use]
    pub fn seen(&self) -> Rect {
        self.rect.intersect(self.clip)
    }
}

/// A stray pixel of anti-aliasing is not yet an overlap or a cut, in screen points.
const SLACK: f32 = 1.0;

/// All rows of text of which something can be seen, in the order they are painted. What lies under a
/// question, behind its veil over all of the window, is left out.
#[must_use]
pub fn rows(output: &FullOutput, window: Rect) -> Vec<Row> {
    let mut all = Vec::new();
    let mut texts = 0;
    let begin = veil(output, window).map_or(0, |nth| nth + 1);
    for ClippedShape {
        clip_rect, shape, ..
    } in output.shapes.iter().skip(begin)
    {
        collect(shape, *clip_rect, &mut texts, &mut all);
    }
    all.retain(|row| row.seen().shrink(SLACK).is_positive());
    all
}

/// Which shape is the veil that lies over the window while a question is asked in it.
#[must_use]
pub fn veil(output: &FullOutput, window: Rect) -> Option<usize> {
    output.shapes.iter().rposition(|clipped| {
        matches!(&clipped.shape, Shape::Rect(rect)
            if rect.fill.a() > 0 && rect.rect.contains_rect(window))
    })
}

fn collect(shape: &Shape, clip: Rect, texts: &mut usize, all: &mut Vec<Row>) {
    match shape {
        Shape::Vec(shapes) => {
            for shape in shapes {
                collect(shape, clip, texts, all);
            }
        }
        Shape::Text(text) => {
            *texts += 1;
            all.extend(text.galley.rows.iter().map(|row| {
                Row {
                    words: row.text().trim().to_owned(),
                    rect: row
                        .visuals
                        .mesh_bounds
                        .translate(text.pos.to_vec2() + row.pos.to_vec2()),
                    clip,
                    text: *texts,
                }
            }));
        }
        _ => {}
    }
}

/// Rows that are cut off at the left or right, each as a sentence.
#[must_use]
pub fn cut(rows: &[Row]) -> Vec<String> {
    let is_cut = |row: &&Row| {
        row.rect.left() < row.clip.left() - SLACK || row.clip.right() + SLACK < row.rect.right()
    };
    rows.iter()
        .filter(is_cut)
        .map(|row| format!("cut: {:.60} {:?} in {:?}", row.words, row.rect, row.clip))
        .collect()
}

/// Rows of different texts that lie on one another, each pair as a sentence.
#[must_use]
pub fn overlaps(rows: &[Row]) -> Vec<String> {
    let mut found = Vec::new();
    for (nth, one) in rows.iter().enumerate() {
        for other in &rows[nth + 1..] {
            if one.text != other.text
                && one
                    .seen()
                    .shrink(SLACK)
                    .intersects(other.seen().shrink(SLACK))
            {
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

//! Writing on the plan without one text over another.

use std::sync::Arc;

use egui::text::{LayoutJob, TextWrapping};
use egui::{Color32, FontId, Galley, Painter, Pos2, Rect, Vec2, vec2};

/// The texts placed so far in this frame. They are painted all together, over every line.
pub(super) struct Labels {
    painter: Painter,
    paper: Color32,
    area: Rect,
    taken: Taken,
    texts: Vec<(Rect, Arc<Galley>, Color32)>,
}

/// Where a text may stand beside its place: tried in this order.
const SIDES: [Vec2; 8] = [
    Vec2::new(0.0, -1.0),
    Vec2::new(1.0, 0.0),
    Vec2::new(0.0, 1.0),
    Vec2::new(-1.0, 0.0),
    Vec2::new(1.0, -1.0),
    Vec2::new(1.0, 1.0),
    Vec2::new(-1.0, 1.0),
    Vec2::new(-1.0, -1.0),
];
/// The corners of a peg at which its number may stand: tried in this order.
const CORNERS: [Vec2; 4] = [
    Vec2::new(1.0, -1.0),
    Vec2::new(-1.0, -1.0),
    Vec2::new(1.0, 1.0),
    Vec2::new(-1.0, 1.0),
];
/// From the middle of a peg to its number, in screen points.
const BESIDE_PEG: f32 = 9.0;
/// The widest row of a name, in screen points, and its rows: about forty letters in all.
const NAME_WIDTH: f32 = 150.0;
const NAME_ROWS: usize = 2;
/// The widest row of a sentence, in screen points.
const SENTENCE_WIDTH: f32 = 200.0;

impl Labels {
    pub(super) fn new(painter: Painter, paper: Color32, area: Rect) -> Self {
        Self {
            painter,
            paper,
            area: area.shrink(4.0),
            taken: Taken::new(area),
            texts: Vec::new(),
        }
    }

    /// Keeps a part of the picture free of text.
    pub(super) fn keep_free(&mut self, rect: Rect) {
        self.taken.add(rect);
    }

    /// Writes a text beside the first of several places that has room.
    pub(super) fn write_at_one(
        &mut self,
        places: &[Pos2],
        gap: f32,
        wish: Vec2,
        text: &str,
        style: &(FontId, Color32),
    ) -> Option<Rect> {
        places
            .iter()
            .find_map(|at| self.write(*at, gap, wish, text, style.clone()))
    }

    /// Writes a text beside a place, `gap` points off it, wherever there is room; on the side of
    /// `wish` if there is. Where there is no room at all it is left out: nothing is written over.
    pub(super) fn write(
        &mut self,
        at: Pos2,
        gap: f32,
        wish: Vec2,
        text: &str,
        (font, ink): (FontId, Color32),
    ) -> Option<Rect> {
        let galley = self.painter.layout_no_wrap(text.to_owned(), font, ink);
        self.place_beside(at, gap, wish, galley, ink)
    }

    /// Writes a name as [`Self::write`] does, a long one in two rows, and of a longer one its
    /// beginning.
    pub(super) fn write_name(
        &mut self,
        at: Pos2,
        gap: f32,
        wish: Vec2,
        name: &str,
        (font, ink): (FontId, Color32),
    ) -> Option<Rect> {
        let mut job = LayoutJob::simple(name.to_owned(), font, ink, NAME_WIDTH);
        job.wrap = TextWrapping {
            max_width: NAME_WIDTH,
            max_rows: NAME_ROWS,
            ..TextWrapping::default()
        };
        let galley = self.painter.layout_job(job);
        self.place_beside(at, gap, wish, galley, ink)
    }

    /// Writes a sentence as [`Self::write`] does, in as many rows as it takes.
    pub(super) fn write_sentence(
        &mut self,
        at: Pos2,
        gap: f32,
        wish: Vec2,
        sentence: &str,
        (font, ink): (FontId, Color32),
    ) -> Option<Rect> {
        let text = sentence.to_owned();
        let galley = self.painter.layout(text, font, ink, SENTENCE_WIDTH);
        self.place_beside(at, gap, wish, galley, ink)
    }

    /// Writes the number of a peg at one of its corners.
    pub(super) fn write_number(&mut self, at: Pos2, number: usize, (font, ink): (FontId, Color32)) {
        let galley = self.painter.layout_no_wrap(number.to_string(), font, ink);
        let off = 0.5 * galley.size() + Vec2::splat(BESIDE_PEG);
        let places = CORNERS.map(|corner| Rect::from_center_size(at + corner * off, galley.size()));
        self.place(places.into_iter(), galley, ink);
    }

    /// Writes a text in one place whatever is there, its rows no wider than `width`.
    pub(super) fn write_at(
        &mut self,
        corner: Pos2,
        width: f32,
        text: &str,
        style: (FontId, Color32),
    ) {
        let (font, ink) = style;
        let galley = self.painter.layout(text.to_owned(), font, ink, width);
        let rect = Rect::from_min_size(corner, galley.size());
        self.taken.add(rect);
        self.texts.push((rect, galley, ink));
    }

    /// Paints what was written.
    pub(super) fn paint(self) {
        for (rect, galley, ink) in self.texts {
            super::backed_text(&self.painter, rect, galley, self.paper, ink);
        }
    }

    fn place_beside(
        &mut self,
        at: Pos2,
        gap: f32,
        wish: Vec2,
        galley: Arc<Galley>,
        ink: Color32,
    ) -> Option<Rect> {
        let size = galley.size();
        let places = std::iter::once(wish)
            .filter(|wish| wish.length_sq() > 0.0)
            .chain(SIDES)
            .flat_map(|side| [(side, 1.0), (side, 2.2)])
            .map(|(side, times)| {
                let way = side.normalized();
                let off = vec2(
                    way.x * (0.5 * size.x + gap * times),
                    way.y * (0.5 * size.y + gap * times),
                );
                Rect::from_center_size(at + off, size)
            });
        self.place(places, galley, ink)
    }

    fn place(
        &mut self,
        mut places: impl Iterator<Item = Rect>,
        galley: Arc<Galley>,
        ink: Color32,
    ) -> Option<Rect> {
        let rect = places
            .find(|rect| self.area.contains_rect(*rect) && !self.taken.touches(rect.expand(3.0)))?;
        self.taken.add(rect);
        self.texts.push((rect, galley, ink));
        Some(rect)
    }
}

/// The parts of the picture where no text may stand, sorted into square fields, so that a look for
/// room costs the same on a crowded plan.
struct Taken {
    area: Rect,
    columns: usize,
    fields: Vec<Vec<Rect>>,
}

/// Side of a field in screen points: about the height of two rows of text.
const FIELD: f32 = 40.0;

impl Taken {
    fn new(area: Rect) -> Self {
        let columns = nth(area.width()) + 1;
        let rows = nth(area.height()) + 1;
        Self {
            area,
            columns,
            fields: vec![Vec::new(); columns * rows],
        }
    }

    fn add(&mut self, rect: Rect) {
        for field in self.under(rect) {
            if let Some(taken) = self.fields.get_mut(field) {
                taken.push(rect);
            }
        }
    }

    fn touches(&self, rect: Rect) -> bool {
        self.under(rect)
            .filter_map(|field| self.fields.get(field))
            .flatten()
            .any(|taken| taken.intersects(rect))
    }

    /// The fields under the seen part of a rectangle.
    fn under(&self, rect: Rect) -> impl Iterator<Item = usize> + use<> {
        let seen = rect.intersect(self.area);
        let low = seen.min - self.area.min;
        let high = seen.max - self.area.min;
        let columns = self.columns;
        let across = if seen.is_negative() {
            0..0
        } else {
            nth(low.x)..nth(high.x) + 1
        };
        let down = nth(low.y)..nth(high.y) + 1;
        down.flat_map(move |row| across.clone().map(move |column| row * columns + column))
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the number of a field: a place in the picture in parts of forty points"
)]
fn nth(along: f32) -> usize {
    (along / FIELD).max(0.0) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_taken_is_found_wherever_it_lies() {
        let area = Rect::from_min_size(Pos2::new(30.0, 10.0), vec2(500.0, 300.0));
        let mut taken = Taken::new(area);
        let rect =
            |x: f32, y: f32, w: f32, h: f32| Rect::from_min_size(Pos2::new(x, y), vec2(w, h));
        assert!(!taken.touches(area));
        for (one, other, expected) in [
            (
                rect(35.0, 15.0, 5.0, 5.0),
                rect(38.0, 18.0, 300.0, 200.0),
                true,
            ),
            (
                rect(100.0, 100.0, 200.0, 3.0),
                rect(290.0, 50.0, 4.0, 90.0),
                true,
            ),
            (
                rect(500.0, 290.0, 90.0, 90.0),
                rect(520.0, 300.0, 4.0, 4.0),
                true,
            ),
            (
                rect(100.0, 100.0, 10.0, 10.0),
                rect(111.0, 100.0, 10.0, 10.0),
                false,
            ),
            // Outside the picture nothing is written.
            (
                rect(-90.0, 0.0, 50.0, 50.0),
                rect(-80.0, 10.0, 4.0, 4.0),
                false,
            ),
        ] {
            taken.fields.iter_mut().for_each(Vec::clear);
            taken.add(one);
            assert_eq!(taken.touches(other), expected, "{one:?} {other:?}");
        }
    }
}

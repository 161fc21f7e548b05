//! Writing on the plan without one text over another.

use egui::{Color32, FontId, Painter, Pos2, Rect, Vec2};

/// The texts placed so far in this frame.
pub(super) struct Labels<'a> {
    painter: &'a Painter,
    paper: Color32,
    area: Rect,
    taken: Vec<Rect>,
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

impl<'a> Labels<'a> {
    pub(super) fn new(painter: &'a Painter, paper: Color32, area: Rect) -> Self {
        Self {
            painter,
            paper,
            area: area.shrink(4.0),
            taken: Vec::new(),
        }
    }

    /// Keeps a part of the picture free of text.
    pub(super) fn keep_free(&mut self, rect: Rect) {
        self.taken.push(rect);
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
        let size = galley.size();
        let wished = std::iter::once(wish).filter(|w| w.length_sq() > 0.0);
        let rect = wished
            .chain(SIDES)
            .flat_map(|side| [(side, 1.0), (side, 2.2)])
            .map(|(side, times)| {
                let way = side.normalized();
                let off = Vec2::new(
                    way.x * (0.5 * size.x + gap * times),
                    way.y * (0.5 * size.y + gap * times),
                );
                Rect::from_center_size(at + off, size)
            })
            .find(|rect| {
                self.area.contains_rect(*rect)
                    && !self
                        .taken
                        .iter()
                        .any(|other| other.intersects(rect.expand(3.0)))
            })?;
        super::backed_text(self.painter, rect, galley, self.paper, ink);
        self.taken.push(rect);
        Some(rect)
    }
}

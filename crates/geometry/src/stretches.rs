//! The stretches of a straight or an arc that lie in a patch of ground.

use std::ops::Range;

use crate::{Arc, Bounds, Core, Patch, Piece, Point, SAME_PLACE, Vector, meetings};

impl Patch {
    /// The stretches of a piece that lie in the patch, as metres along the piece, in order. One that
    /// runs along the border or touches it lies outside. Where a piece meets a line that takes up no
    /// ground, the stretch has no length.
    ///
    /// ```
    /// use geometry::{Core, Line, Patch, Piece, Point};
    /// let tape = Piece::Line(Line::new(Point::ORIGIN, Point::new(9.0, 0.0))?);
    /// let pond = Patch::new(Core::Point(Point::new(4.0, 3.0)), 5.0)?;
    /// let stretches = pond.stretches(&tape);
    /// assert_eq!(stretches.len(), 1);
    /// assert!(stretches[0].start.abs() < 1e-12 && (stretches[0].end - 8.0).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn stretches(&self, piece: &Piece) -> Vec<Range<f64>> {
        let mut parts = self.parts(piece);
        parts.sort_by(f64::total_cmp);
        if self.grown() <= 0.0 && matches!(self.core(), Core::Line(_)) {
            parts.dedup_by(|next, kept| *next - *kept <= SAME_PLACE);
            return parts.into_iter().map(|at| at..at).collect();
        }
        parts.extend([0.0, piece.length()]);
        parts.sort_by(f64::total_cmp);
        let mut stretches: Vec<Range<f64>> = Vec::new();
        for ends in parts.windows(2) {
            let part = ends[0]..ends[1];
            // Between two meetings with the border a piece stays on one side of it.
            let middle = piece.point_at(0.5 * (part.start + part.end));
            if part.end - part.start <= SAME_PLACE
                || self.signed_distance(middle).distance >= -SAME_PLACE
            {
                continue;
            }
            match stretches.last_mut() {
                Some(last) if part.start - last.end <= SAME_PLACE => last.end = part.end,
                _ => stretches.push(part),
            }
        }
        stretches
    }

    /// How far along a piece it may meet the border, in no order.
    fn parts(&self, piece: &Piece) -> Vec<f64> {
        let length = piece.length();
        let (mut parts, about) = (Vec::new(), piece.bounds().grown(self.grown() + SAME_PLACE));
        let mut meet = |border: &Piece| {
            let found = meetings(piece, border, SAME_PLACE);
            parts.extend(found.iter().map(|at| piece.along(*at).clamp(0.0, length)));
        };
        match (self.core(), self.border()) {
            (Core::Line(chain) | Core::Area(chain) | Core::Beyond(chain), Some(border)) => {
                let near = |bounds: &Bounds| bounds.meets(about);
                border.tree().visit(&near, &mut |side| {
                    for line in round(&chain.pieces()[side], self.grown()) {
                        meet(&line);
                    }
                });
            }
            (_, _) => circle(self.centre(), self.grown()).for_each(|line| meet(&line)),
        }
        parts
    }
}

/// The lines that border all within `grown` of a piece, and some that lie inside.
fn round(piece: &Piece, grown: f64) -> Vec<Piece> {
    if grown <= 0.0 {
        return vec![*piece];
    }
    let sides = [piece.offset(grown), piece.offset(-grown)];
    let ends = [piece.start(), piece.end()].map(|end| circle(end, grown));
    sides
        .into_iter()
        .flatten()
        .chain(ends.into_iter().flatten())
        .collect()
}

/// A circle as two half circles; nothing where it has no radius.
fn circle(centre: Point, radius: f64) -> impl Iterator<Item = Piece> {
    let reach = Vector::new(radius, 0.0);
    [reach, -reach].into_iter().filter_map(move |way| {
        let half = Arc::from_rise(centre + way, centre - way, -radius);
        half.ok().map(Piece::Arc)
    })
}

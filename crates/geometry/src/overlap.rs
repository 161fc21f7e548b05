//! How deep two patches of ground lie in each other.

use crate::{Patch, Point};

/// That two patches take up the same ground, and where most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Overlap {
    /// In metres, above zero: how far one would have to be drawn back there for the two to part.
    pub depth: f64,
    /// A place that lies in both.
    pub at: Point,
}

impl Patch {
    /// How deep two patches lie in each other: the greatest depth at which the border of either
    /// lies in the other. `None` where they lie apart or only touch. A line that takes up no ground
    /// overlaps what it runs through.
    ///
    /// Exact but for the depth of [`Patch::gap`], which may fall short by a tenth of a millimetre;
    /// a border moved by [`Patch::grown`] counts as that much deeper than its core.
    ///
    /// ```
    /// use geometry::{Arc, Core, Patch, Point};
    /// let arc = Arc::about(Point::ORIGIN, Point::new(5.0, 0.0), Point::new(0.0, 5.0), true)?;
    /// let sector = arc.sector().ok_or("no sector")?;
    /// let stem = |x, y| Patch::new(Core::Point(Point::new(x, y)), 0.3);
    /// // 4 m off along the diagonal, well inside: the stem's far side is 1.3 m from the arc.
    /// let diagonal = 4.0 * 0.5_f64.sqrt();
    /// let overlap = sector.overlap(&stem(diagonal, diagonal)?).ok_or("they lie apart")?;
    /// assert!((overlap.depth - 1.3).abs() < 1e-9);
    /// assert!(sector.overlap(&stem(5.4, 0.0)?).is_none());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn overlap(&self, other: &Self) -> Option<Overlap> {
        let (one, two) = (self.border_in(other), other.border_in(self));
        let deepest = one.into_iter().chain(two);
        deepest.max_by(|a, b| a.depth.total_cmp(&b.depth))
    }

    /// The greatest depth at which the border of this patch lies in another.
    fn border_in(&self, other: &Self) -> Option<Overlap> {
        let grown = self.grown();
        let gap = match self.border() {
            Some(border) => other.within(border, grown)?.1,
            None => other.signed_distance(self.centre()),
        };
        let depth = grown - gap.distance;
        let at = if gap.distance > 0.0 { gap.to } else { gap.from };
        (depth > 0.0).then_some(Overlap { depth, at })
    }
}

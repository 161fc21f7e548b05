//! The sector a string sweeps as it is swung about a centre.

use std::f64::consts::TAU;

use crate::{Arc, Chain, Core, Line, Patch, Piece};

/// A sector narrower than this (radians) is a line: at 100 m it is a tenth of a millimetre wide.
/// One as near to a full turn is the whole circle.
pub const NARROWEST_SECTOR: f64 = 1e-6;

impl Arc {
    /// The sector between the arc and its centre, bounded by the radius to its start, the arc, and
    /// the radius from its end; past half a circle it is a circle with a wedge cut out.
    /// `None` when it is narrower than [`NARROWEST_SECTOR`], or the radius too long for a number.
    ///
    /// ```
    /// use geometry::{Arc, Point};
    /// // Three quarters of a circle of 2 m about the origin, from east round to south.
    /// let arc = Arc::about(Point::ORIGIN, Point::new(2.0, 0.0), Point::new(0.0, -2.0), true)?;
    /// let sector = arc.sector().ok_or("no sector")?;
    /// assert!(sector.contains(Point::new(-1.0, -1.0)));
    /// assert!(!sector.contains(Point::new(0.1, -0.1)));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn sector(&self) -> Option<Patch> {
        let sweep = self.sweep().abs();
        if sweep < NARROWEST_SECTOR {
            return None;
        }
        let centre = self.centre();
        if TAU - sweep < NARROWEST_SECTOR {
            return Patch::new(Core::Point(centre), self.radius()).ok();
        }
        let outline = vec![
            Piece::Line(Line::new(centre, self.start()).ok()?),
            Piece::Arc(*self),
            Piece::Line(Line::new(self.end(), centre).ok()?),
        ];
        Patch::new(Core::Area(Chain::new(outline, true).ok()?), 0.0).ok()
    }
}

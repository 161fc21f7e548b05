//! Whether a closed chain holds a point: by how often it winds round it.

use crate::frame::Frame;
use crate::{Chain, Point, SAME_PLACE};

impl Chain {
    /// Whether a closed chain holds a point: it winds round it at least once in all, or passes
    /// within [`SAME_PLACE`] of it. An open chain holds nothing. Exact with arcs: each counts as its
    /// chord and the segment between chord and arc.
    ///
    /// ```
    /// use geometry::{Arc, Chain, Piece, Point};
    /// let (west, east) = (Point::new(-2.0, 0.0), Point::new(2.0, 0.0));
    /// let pond = Chain::new(vec![
    ///     Piece::Arc(Arc::from_rise(west, east, 2.0)?),
    ///     Piece::Arc(Arc::from_rise(east, west, 1.0)?),
    /// ], true)?;
    /// assert!(pond.contains(Point::new(0.0, 1.999)));
    /// assert!(pond.contains(Point::new(0.0, -1.0)));
    /// assert!(!pond.contains(Point::new(0.0, -1.001)));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        if !self.is_closed() {
            return false;
        }
        let pieces = self.pieces();
        let mut round = 0;
        for (i, piece) in pieces.iter().enumerate() {
            let frame = Frame::of(piece);
            if frame.nearest(point).0 <= SAME_PLACE * SAME_PLACE {
                return true;
            }
            let next = pieces[(i + 1) % pieces.len()].start();
            round += of_piece(&frame, frame.start, next, point);
        }
        round != 0
    }
}

/// How often a piece crosses the ray from a point to the east, counted upward, for a point that is
/// not on it. The piece goes from one joint to the next, which may lie [`SAME_PLACE`] from its end:
/// shared joints leave no hole for the ray to slip through.
///
/// The arc crosses as often as its chord and the loop of arc and chord together. Both ask on which
/// side of the chord the point lies; with one answer to both, rounding cannot set them at odds.
pub(crate) fn of_piece(frame: &Frame, from: Point, to: Point, point: Point) -> i32 {
    let chord = to - from;
    let side = chord.cross(point - from);
    // A point in line with a level chord counts as above it, as `past` has it.
    let left = side > 0.0 || (side >= 0.0 && chord.y.abs() <= 0.0 && chord.x > 0.0);
    let crossed = match past(point.y, from.y, to.y) {
        1 if left => 1,
        -1 if !left => -1,
        _ => 0,
    };
    // An arc whose apex lies left turns right, and goes round its segment clockwise.
    let round = if frame.up_is_left { -1 } else { 1 };
    if left == frame.up_is_left && frame.circle_holds(point) {
        crossed + round
    } else {
        crossed
    }
}

/// How a line from one height to another passes a level: 1 upward, −1 downward, 0 not at all. A
/// height on the level counts as above it.
pub(crate) fn past(level: f64, from: f64, to: f64) -> i32 {
    i32::from(from <= level && level < to) - i32::from(to <= level && level < from)
}

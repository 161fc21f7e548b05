//! The exact least distance between two chains.

use crate::runs::{Closest, Runs};
use crate::{Chain, Point};

/// How far two chains are apart, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChainGap {
    /// In metres, never negative; zero where they meet.
    pub distance: f64,
    /// The point on the first chain.
    pub from: Point,
    /// The point on the second chain.
    pub to: Point,
    /// The station of `from` on the first chain.
    pub from_station: f64,
    /// The station of `to` on the second chain.
    pub to_station: f64,
    /// Which piece of the first chain `from` lies on, counted from 0.
    pub from_piece: usize,
    /// Which piece of the second chain `to` lies on, counted from 0.
    pub to_piece: usize,
}

impl Chain {
    /// The least distance to another chain: zero where they meet. Of several nearest places, one.
    /// Runs of pieces too far off are passed over: it costs little more than the two lengths.
    ///
    /// ```
    /// use geometry::{Chain, Line, Piece, Point};
    /// let straight = |x0, y0, x1, y1| -> Result<Chain, Box<dyn std::error::Error>> {
    ///     let line = Line::new(Point::new(x0, y0), Point::new(x1, y1))?;
    ///     Ok(Chain::new(vec![Piece::Line(line)], false)?)
    /// };
    /// let (path, pipe) = (straight(0.0, 0.0, 9.0, 0.0)?, straight(4.0, 1.5, 4.0, 7.0)?);
    /// let gap = path.gap(&pipe);
    /// assert_eq!((gap.distance, gap.from_station, gap.to_station), (1.5, 4.0, 0.0));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn gap(&self, other: &Self) -> ChainGap {
        let (one, two) = (Runs::of(self.pieces()), Runs::of(other.pieces()));
        self.told(other, [&one, &two], one.least(&two))
    }

    /// The least distance less than `limit` metres between those pieces of two chains, given by their numbers, that
    /// count: of a chain and itself, say, those that are far apart along it.
    ///
    /// ```
    /// use geometry::{Chain, Line, Piece, Point};
    /// let at = [(0.0, 0.0), (9.0, 0.0), (9.0, 2.0), (0.0, 3.0)].map(|(x, y)| Point::new(x, y));
    /// let legs = at.windows(2).map(|ends| Line::new(ends[0], ends[1]).map(Piece::Line));
    /// let path = Chain::new(legs.collect::<Result<_, _>>()?, false)?;
    /// let far = |one: usize, other: usize| one + 1 < other;
    /// assert_eq!(path.gap_where(&path, 5.0, far).map(|gap| gap.distance), Some(2.0));
    /// assert_eq!(path.gap_where(&path, 1.0, far), None);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn gap_where(
        &self,
        other: &Self,
        limit: f64,
        counts: impl Fn(usize, usize) -> bool,
    ) -> Option<ChainGap> {
        let (one, two) = (Runs::of(self.pieces()), Runs::of(other.pieces()));
        let closest = one.closest_where(&two, limit * limit, &counts)?;
        Some(self.told(other, [&one, &two], closest))
    }

    fn told(&self, other: &Self, [one, two]: [&Runs; 2], closest: Closest) -> ChainGap {
        let Closest {
            span,
            from_piece,
            to_piece,
        } = closest;
        let gap = span.gap();
        ChainGap {
            distance: gap.distance,
            from: gap.from,
            to: gap.to,
            from_station: self.station_of(from_piece) + one.frames()[from_piece].walked(gap.from),
            to_station: other.station_of(to_piece) + two.frames()[to_piece].walked(gap.to),
            from_piece,
            to_piece,
        }
    }
}

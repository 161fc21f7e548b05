//! A chain of straights and arcs: the centre line of a path, or one of its edges.

use std::fmt;

use crate::{
    Bounds, Crossing, Direction, Offset, Piece, Point, SAME_DIRECTION, SAME_PLACE, Vector,
    crossing, offset,
};

/// Pieces walked one after the other, each starting where the one before ends.
///
/// A *station* is the distance walked from the start of the chain, in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    pieces: Vec<Piece>,
    /// The station at the start of each piece, and last the whole length.
    stations: Vec<f64>,
    closed: bool,
}

/// Why there is no chain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ChainError {
    /// There are no pieces.
    Empty,
    /// The piece of this number does not start where the one before ends (for piece 0 of a closed
    /// chain: where the last one ends), but so many metres away.
    Gap {
        /// Which piece, counted from 0.
        piece: usize,
        /// How far apart the two ends are, in metres.
        distance: f64,
    },
}

impl fmt::Display for ChainError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("a chain needs at least one piece"),
            Self::Gap { piece, distance } => write!(
                f,
                "piece {piece} starts {distance} m away from where the piece before it ends"
            ),
        }
    }
}

impl std::error::Error for ChainError {}

/// The point of a chain nearest to some point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// Which piece it lies on, counted from 0.
    pub piece: usize,
    /// Its station, in metres.
    pub station: f64,
    /// Where it is.
    pub point: Point,
    /// How far off, in metres, never negative.
    pub distance: f64,
    /// Whether the given point lies left of the chain (or on it).
    pub left: bool,
}

impl Chain {
    /// The chain of these pieces; a closed one ends where it starts.
    ///
    /// # Errors
    /// * [`ChainError::Empty`] without pieces;
    /// * [`ChainError::Gap`] if two ends that should meet are more than [`SAME_PLACE`] apart.
    pub fn new(pieces: Vec<Piece>, closed: bool) -> Result<Self, ChainError> {
        let (Some(first), Some(last)) = (pieces.first(), pieces.last()) else {
            return Err(ChainError::Empty);
        };
        let gap = |piece: usize, from: Point, to: Point| {
            let distance = from.distance(to);
            if distance > SAME_PLACE {
                Err(ChainError::Gap { piece, distance })
            } else {
                Ok(())
            }
        };
        if closed {
            gap(0, last.end(), first.start())?;
        }
        for (i, pair) in pieces.windows(2).enumerate() {
            gap(i + 1, pair[0].end(), pair[1].start())?;
        }
        let mut stations = Vec::with_capacity(pieces.len() + 1);
        let mut walked = 0.0;
        stations.push(walked);
        for piece in &pieces {
            walked += piece.length();
            stations.push(walked);
        }
        Ok(Self {
            pieces,
            stations,
            closed,
        })
    }

    /// The pieces in walking order; never none.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Whether it ends where it starts.
    #[must_use]
    pub fn is_closed(&self) -> bool {
        self.closed
    }

    /// Its length in metres.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.stations.last().copied().unwrap_or(0.0)
    }

    /// Where it starts.
    #[must_use]
    pub fn start(&self) -> Point {
        self.pieces[0].start()
    }

    /// Where it ends.
    #[must_use]
    pub fn end(&self) -> Point {
        self.pieces[self.pieces.len() - 1].end()
    }

    /// The station at which a piece starts; the length for one past the last.
    #[must_use]
    pub fn station_of(&self, piece: usize) -> f64 {
        self.stations
            .get(piece)
            .copied()
            .unwrap_or_else(|| self.length())
    }

    /// Which piece a station lies on, and how far along it: a station past an end is on the end
    /// piece, run on.
    #[must_use]
    pub fn piece_at(&self, station: f64) -> (usize, f64) {
        let after = self.stations[1..self.pieces.len()].partition_point(|end| *end <= station);
        (after, station - self.stations[after])
    }

    /// The point at a station.
    ///
    /// ```
    /// use geometry::{Arc, Chain, Direction, Line, Piece, Point};
    /// let corner = Point::new(4.0, 0.0);
    /// let chain = Chain::new(vec![
    ///     Piece::Line(Line::new(Point::ORIGIN, corner)?),
    ///     Piece::Arc(Arc::leaving(corner, Direction::EAST, Point::new(7.0, 3.0))?),
    /// ], false)?;
    /// assert!((chain.length() - (4.0 + 1.5 * std::f64::consts::PI)).abs() < 1e-12);
    /// assert!(chain.point_at(chain.length()).distance(Point::new(7.0, 3.0)) < 1e-12);
    /// assert!((chain.direction_at(2.0).angle()).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn point_at(&self, station: f64) -> Point {
        let (piece, along) = self.piece_at(station);
        self.pieces[piece].point_at(along)
    }

    /// The walking direction at a station; at a corner, that of the leg that starts there.
    #[must_use]
    pub fn direction_at(&self, station: f64) -> Direction {
        let (piece, along) = self.piece_at(station);
        self.pieces[piece].direction_at(along)
    }

    /// The point of the chain nearest to `point`; of several, the first one walked.
    #[must_use]
    pub fn nearest(&self, point: Point) -> Nearest {
        let mut best = Nearest {
            piece: 0,
            station: 0.0,
            point: self.start(),
            distance: point.distance(self.start()),
            left: true,
        };
        let mut best_along = 0.0;
        for (i, piece) in self.pieces.iter().enumerate() {
            // A piece whose round is farther off than the best so far need not be looked at.
            let (middle, reach) = piece.round();
            if i > 0 && point.distance(middle) > reach + best.distance {
                continue;
            }
            let (along, on) = piece.nearest(point);
            let distance = on.distance(point);
            if distance < best.distance || i == 0 {
                best_along = along;
                best = Nearest {
                    piece: i,
                    station: self.stations[i] + along,
                    point: on,
                    distance,
                    left: true,
                };
            }
        }
        best.left = self.is_left(best.piece, best_along, point - best.point);
        best
    }

    /// Whether what lies `off` from the nearest point of the chain lies left of it: where that
    /// point is a corner, on the outside of it.
    fn is_left(&self, piece: usize, along: f64, off: Vector) -> bool {
        let joint = if along > 0.0 { piece + 1 } else { piece };
        let inside_piece = 0.0 < along && along < self.pieces[piece].length();
        let corner = self.corner(joint % self.pieces.len());
        if inside_piece || corner.abs() < SAME_DIRECTION {
            let way = self.pieces[piece].direction_at(along).unit();
            return way.cross(off) >= 0.0;
        }
        corner < 0.0 || off == Vector::ZERO
    }

    /// The smallest upright box round it.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        self.pieces
            .iter()
            .map(Piece::bounds)
            .reduce(Bounds::with)
            .unwrap_or(Bounds::of(self.start()))
    }

    /// The exact area enclosed, in square metres: positive when walked counter-clockwise. An open
    /// chain is closed by the straight between its ends.
    #[must_use]
    pub fn enclosed_area(&self) -> f64 {
        let base = self.start();
        self.pieces
            .iter()
            .map(|piece| {
                let triangle = 0.5 * (piece.start() - base).cross(piece.end() - base);
                triangle + piece.arc().map_or(0.0, crate::Arc::signed_segment_area)
            })
            .sum()
    }

    /// The signed angle turned through from start to end, corners included, positive to the left.
    #[must_use]
    pub fn turned(&self) -> f64 {
        let bends: f64 = self.pieces.iter().map(Piece::sweep).sum();
        let corners: f64 = (0..self.pieces.len()).map(|joint| self.corner(joint)).sum();
        bends + corners
    }

    /// How far the walking direction jumps where the piece of this number starts: positive to the
    /// left, zero at the start of an open chain.
    #[must_use]
    pub fn corner(&self, piece: usize) -> f64 {
        let before = match piece.checked_sub(1) {
            Some(before) => before,
            None if self.closed => self.pieces.len() - 1,
            None => return 0.0,
        };
        match (self.pieces.get(before), self.pieces.get(piece)) {
            (Some(from), Some(to)) => from.end_direction().turn_to(to.start_direction()),
            _ => 0.0,
        }
    }

    /// The chain walked the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let length = self.length();
        Self {
            pieces: self.pieces.iter().rev().map(Piece::reversed).collect(),
            stations: self.stations.iter().rev().map(|s| length - s).collect(),
            closed: self.closed,
        }
    }

    /// The exact offset `distance` to the left (right when negative): lines stay lines, arcs stay
    /// arcs about the same swing point, corners are mitred outside and trimmed inside.
    #[must_use]
    pub fn offset(&self, distance: f64) -> Offset {
        offset::offset(self, distance)
    }

    /// Where the chain crosses or touches itself, first crossing first.
    #[must_use]
    pub fn self_crossings(&self) -> Vec<Crossing> {
        crossing::self_crossings(self)
    }
}

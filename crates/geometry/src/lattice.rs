//! A lattice of equal rectangles in straight rows, and exactly how much of each lies in a region.

use std::collections::BTreeMap;

use crate::region::{middle, part};
use crate::{Arc, Bounds, Direction, Line, Piece, Point, Region, Vector, meetings};

/// Equal rectangles, its cells, in straight rows, with or without gaps: pavers and their joints.
///
/// Cells and rows are numbered from 0 at the origin, along `along` and to the left of it; before
/// the origin numbers are negative.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lattice {
    origin: Point,
    along: Direction,
    /// Along and across the rows.
    cell: [f64; 2],
    pitch: [f64; 2],
    stagger: f64,
}

/// What of a lattice lies in a region.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cover {
    /// How many cells lie wholly in it.
    pub whole: usize,
    /// The cells that lie in it in part, row by row.
    pub parts: Vec<PartCell>,
}

/// A cell that lies in a region in part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartCell {
    /// Its row.
    pub row: i64,
    /// Its number in the row.
    pub column: i64,
    /// How much of it lies in the region, above 0 and below 1.
    pub share: f64,
    /// The size of the smallest rectangle along the rows round what lies in the region, metres
    /// along and across the rows.
    pub extent: [f64; 2],
}

/// A share this near to none or all of a cell is none or all of it: of a 200 mm paver two
/// thousandths of a millimetre, more than the gaps a [`Region`]'s border may have and less than
/// any saw takes.
pub const FLUSH: f64 = 1e-5;

impl Lattice {
    /// A lattice with a corner of cell 0 of row 0 at `origin`, cells so many metres along and
    /// across the rows, `gaps` between them, and each row moved along by `stagger` of a pitch
    /// against the row before: 0 stacked, ½ running. `None` unless every number is finite, the
    /// cell's sizes are above zero and the gaps not below.
    #[must_use]
    pub fn new(
        origin: Point,
        along: Direction,
        cell: [f64; 2],
        gaps: [f64; 2],
        stagger: f64,
    ) -> Option<Self> {
        let finite = [cell, gaps].as_flattened().iter().all(|n| n.is_finite());
        let sized = cell.iter().all(|size| *size > 0.0) && gaps.iter().all(|gap| *gap >= 0.0);
        (finite && sized && origin.is_finite() && stagger.is_finite()).then_some(Self {
            origin,
            along,
            cell,
            pitch: [cell[0] + gaps[0], cell[1] + gaps[1]],
            stagger,
        })
    }

    /// The corners of a cell, counter-clockwise.
    #[must_use]
    pub fn corners(&self, row: i64, column: i64) -> [Point; 4] {
        let ([west, east], [south, north]) =
            (self.columns(row).cell(column), self.rows().cell(row));
        [(west, south), (east, south), (east, north), (west, north)]
            .map(|(x, y)| self.origin + self.along.unit() * x + self.along.left().unit() * y)
    }

    /// How many cells lie in a region wholly, and how much of each that its border crosses.
    ///
    /// Each piece of the border is cut at the sides of the cells; by Green's theorem a part adds
    /// the area to the right of it to its own cell, and its height to all cells further along the
    /// row. The work grows with the border, not with the number of cells.
    ///
    /// ```
    /// use geometry::{Arc, Chain, Direction, Lattice, Piece, Point, Region};
    /// let (west, east) = (Point::new(-2.0, 0.0), Point::new(2.0, 0.0));
    /// let half = |from, to| Arc::from_rise(from, to, -2.0).map(Piece::Arc);
    /// let pond = Chain::new(vec![half(west, east)?, half(east, west)?], true)?;
    /// let pond = Region::of(&[pond], |held| held[0]);
    /// let metres = Lattice::new(Point::ORIGIN, Direction::EAST, [1.0; 2], [0.0; 2], 0.0)
    ///     .ok_or("no lattice")?;
    /// let cover = metres.cover(&pond);
    /// assert_eq!((cover.whole, cover.parts.len()), (4, 12));
    /// let shares: f64 = cover.parts.iter().map(|part| part.share).sum();
    /// assert!((4.0 + shares - 4.0 * std::f64::consts::PI).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn cover(&self, region: &Region) -> Cover {
        let mut rows: BTreeMap<i64, Row> = BTreeMap::new();
        for piece in region.border().iter().filter_map(|piece| self.seen(piece)) {
            for strip in self.rows().cut(&piece, Axis::Across) {
                let at = middle(&strip).y;
                let number = self.rows().number(at);
                let sides = self.rows().cell(number);
                if sides[0] <= at && at <= sides[1] {
                    let row = rows.entry(number).or_default();
                    row.cross(&strip, sides);
                    let columns = self.columns(number);
                    for part in columns.cut(&strip, Axis::Along) {
                        row.add(&part, &columns);
                    }
                }
            }
        }
        let mut cover = Cover::default();
        for (number, row) in rows {
            row.close(number, self, &mut cover);
        }
        cover
    }

    fn rows(&self) -> Ruling {
        Ruling {
            start: 0.0,
            pitch: self.pitch[1],
            size: self.cell[1],
        }
    }

    fn columns(&self, row: i64) -> Ruling {
        Ruling {
            start: self.pitch[0] * (self.stagger * row as f64).rem_euclid(1.0),
            pitch: self.pitch[0],
            size: self.cell[0],
        }
    }

    /// A piece seen from the origin, along and across the rows.
    fn seen(&self, piece: &Piece) -> Option<Piece> {
        let ahead = self.along.unit();
        let seen = |point: Point| {
            let off = point - self.origin;
            Point::ORIGIN + Vector::new(ahead.dot(off), ahead.cross(off))
        };
        let (start, end) = (seen(piece.start()), seen(piece.end()));
        match piece {
            Piece::Line(_) => Line::new(start, end).ok().map(Piece::Line),
            Piece::Arc(arc) => Arc::from_rise(start, end, arc.rise()).ok().map(Piece::Arc),
        }
    }
}

/// Stretches of one size, one every pitch.
struct Ruling {
    start: f64,
    pitch: f64,
    size: f64,
}

#[derive(Clone, Copy)]
enum Axis {
    Along,
    Across,
}

impl Ruling {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a whole number; past i64 it saturates, which no plan reaches"
    )]
    fn number(&self, at: f64) -> i64 {
        ((at - self.start) / self.pitch).floor() as i64
    }

    fn cell(&self, number: i64) -> [f64; 2] {
        let low = self.start + self.pitch * number as f64;
        [low, low + self.size]
    }

    /// The parts of a piece between the ends of the stretches.
    fn cut(&self, piece: &Piece, axis: Axis) -> Vec<Piece> {
        let bounds = piece.bounds();
        let (low, high) = match axis {
            Axis::Along => (bounds.low.x, bounds.high.x),
            Axis::Across => (bounds.low.y, bounds.high.y),
        };
        let ends = (self.number(low)..=self.number(high)).flat_map(|number| self.cell(number));
        let mut cuts = vec![0.0, piece.length()];
        for level in ends.filter(|end| low < *end && *end < high) {
            pass(piece, bounds, axis, level, &mut cuts);
        }
        cuts.sort_by(f64::total_cmp);
        if cuts.len() == 2 {
            return vec![*piece];
        }
        let parts = cuts.windows(2);
        parts
            .filter_map(|ends| part(piece, ends[0], ends[1]))
            .collect()
    }
}

/// How far along a piece it passes a level.
fn pass(piece: &Piece, bounds: Bounds, axis: Axis, level: f64, cuts: &mut Vec<f64>) {
    let length = piece.length();
    match piece {
        Piece::Line(line) => {
            let (from, to) = match axis {
                Axis::Along => (line.start().x, line.end().x),
                Axis::Across => (line.start().y, line.end().y),
            };
            cuts.push((length * (level - from) / (to - from)).clamp(0.0, length));
        }
        Piece::Arc(arc) => {
            let ends = match axis {
                Axis::Along => [bounds.low.y, bounds.high.y].map(|y| Point::new(level, y)),
                Axis::Across => [bounds.low.x, bounds.high.x].map(|x| Point::new(x, level)),
            };
            // A little past the box, lest an end on its border be missed.
            let slack = length;
            let across = Line::new(ends[0], ends[1]).map(Piece::Line);
            let met = across.map(|across| meetings(piece, &across, slack));
            let on = met.into_iter().flatten().map(|at| arc.along(at));
            cuts.extend(on.map(|along| along.clamp(0.0, length)));
        }
    }
}

/// What the border does in one row.
#[derive(Default)]
struct Row {
    parts: Vec<(i64, Passing)>,
    /// Where the border passes the row's lower and upper side, and whether upward (1) or downward (−1).
    passes: [Vec<(f64, f64)>; 2],
}

/// What a part of the border does in its cell.
struct Passing {
    /// The area to the right of it in the cell, negative where the border runs up.
    area: f64,
    /// Its height, negative where it runs up.
    height: f64,
    bounds: Option<Bounds>,
}

impl Row {
    fn cross(&mut self, strip: &Piece, sides: [f64; 2]) {
        // A border cut at a side ends on it, but for rounding.
        let on = |point: Point, side: f64| (point.y - side).abs() <= crate::SAME_PLACE;
        for (passes, (side, up)) in self
            .passes
            .iter_mut()
            .zip([(sides[0], 1.0), (sides[1], -1.0)])
        {
            for (end, way) in [(strip.start(), up), (strip.end(), -up)] {
                if on(end, side) {
                    passes.push((end.x, way));
                }
            }
        }
    }

    fn add(&mut self, part: &Piece, columns: &Ruling) {
        let at = middle(part).x;
        let number = columns.number(at);
        let [_, east] = columns.cell(number);
        let (from, to) = (part.start(), part.end());
        let height = from.y - to.y;
        let passing = if at <= east {
            let segment = part.arc().map_or(0.0, Arc::signed_segment_area);
            Passing {
                area: height * (east - 0.5 * (from.x + to.x)) + segment,
                height,
                bounds: Some(part.bounds()),
            }
        } else {
            // In the gap: all of the next cell lies to the right.
            Passing {
                area: height * columns.size,
                height,
                bounds: None,
            }
        };
        let own = if at <= east {
            number
        } else {
            number.saturating_add(1)
        };
        self.parts.push((own, passing));
    }

    fn close(mut self, row: i64, lattice: &Lattice, cover: &mut Cover) {
        let (columns, sides) = (lattice.columns(row), lattice.rows().cell(row));
        let [length, width] = lattice.cell;
        let is_whole = |share: f64| share >= 1.0 - FLUSH;
        self.parts.sort_by_key(|(column, _)| *column);
        let (mut height, mut next) = (0.0, i64::MIN);
        for group in self.parts.chunk_by(|one, other| one.0 == other.0) {
            let column = group[0].0;
            if is_whole(height / width) {
                cover.whole += usize::try_from(column.saturating_sub(next)).unwrap_or(0);
            }
            next = column.saturating_add(1);
            let own: f64 = group.iter().map(|(_, passing)| passing.area).sum();
            let share = (height * length + own) / (length * width);
            height += group.iter().map(|(_, passing)| passing.height).sum::<f64>();
            if is_whole(share) {
                cover.whole += 1;
            } else if share > FLUSH {
                let within = group.iter().filter_map(|(_, passing)| passing.bounds);
                let corners = self.held_corners(columns.cell(column), sides);
                let corners = corners.map(Bounds::of);
                let extent = within.chain(corners).reduce(Bounds::with);
                cover.parts.push(PartCell {
                    row,
                    column,
                    share,
                    extent: extent.map_or(lattice.cell, |box_| [box_.width(), box_.height()]),
                });
            }
        }
    }

    /// The corners of a cell that the region holds: round which the border passes downward to the
    /// west of them once more than upward.
    fn held_corners(&self, ends: [f64; 2], sides: [f64; 2]) -> impl Iterator<Item = Point> {
        let all = sides.into_iter().zip(&self.passes);
        all.flat_map(move |(y, passes)| {
            ends.into_iter().filter_map(move |x| {
                let west = passes.iter().filter(|(at, _)| *at < x);
                let up: f64 = west.map(|(_, way)| way).sum();
                (up < -0.5).then_some(Point::new(x, y))
            })
        })
    }
}

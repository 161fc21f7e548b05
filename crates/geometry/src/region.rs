//! A region of the plane made of closed chains: their union, or what some hold and others do not.

use std::ops::Range;

use crate::frame::Frame;
use crate::tree::Tree;
use crate::winding::of_piece;
use crate::{Arc, Bounds, Chain, Line, Piece, Point, SAME_DIRECTION, SAME_PLACE, Vector, meetings};

/// A bounded region, kept as its border: pieces in no order, each with the region on its left.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Region {
    border: Vec<Piece>,
}

/// How far to either side of a border it is asked what lies there: past what [`SAME_PLACE`] leaves
/// undecided between two borders that run along each other.
const ASIDE: f64 = 10.0 * SAME_PLACE;

impl Region {
    /// All points that `holds`, which is told for each ring whether it winds round the point. Rings
    /// may be walked either way round, cross or touch each other and share sides; open chains hold
    /// nothing. `holds` must say no where no ring does.
    ///
    /// Exact with arcs: every ring is cut where another meets it, and a part stays if the region
    /// lies on one side of it only. Between parts a gap of up to [`SAME_PLACE`] may be left.
    ///
    /// ```
    /// use geometry::{Arc, Chain, Piece, Point, Region};
    /// use std::f64::consts::PI;
    /// let circle = |x: f64| {
    ///     let ends = [Point::new(x - 1.0, 0.0), Point::new(x + 1.0, 0.0)];
    ///     let half = |from, to| Arc::from_rise(from, to, -1.0).map(Piece::Arc);
    ///     let halves = vec![half(ends[0], ends[1])?, half(ends[1], ends[0])?];
    ///     Ok::<_, Box<dyn std::error::Error>>(Chain::new(halves, true)?)
    /// };
    /// let rings = [circle(0.0)?, circle(1.0)?];
    /// // Two circles about points of each other share 2π/3 − √3/2.
    /// let lens = 2.0 * PI / 3.0 - 0.75_f64.sqrt();
    /// let both = Region::of(&rings, |held| held[0] || held[1]);
    /// assert!((both.area() - (2.0 * PI - lens)).abs() < 1e-12);
    /// let moon = Region::of(&rings, |held| held[0] && !held[1]);
    /// assert!((moon.area() - (PI - lens)).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn of(rings: &[Chain], holds: impl Fn(&[bool]) -> bool) -> Self {
        let rings: Vec<Ring> = rings.iter().map(Ring::of).collect();
        let sides: Vec<&Piece> = rings.iter().flat_map(|ring| &ring.pieces).collect();
        let boxes: Vec<Bounds> = sides.iter().map(|side| box_of(side)).collect();
        let tree = Tree::over(&boxes);
        let mut held = vec![false; rings.len()];
        let mut ask = |at: Point| {
            for (held, ring) in held.iter_mut().zip(&rings) {
                *held = ring.holds(at);
            }
            holds(&held)
        };
        let mut border: Vec<Piece> = Vec::with_capacity(sides.len());
        // Where in the border the parts of each side stand.
        let mut stands: Vec<Range<usize>> = Vec::with_capacity(sides.len());
        let mut near = Vec::new();
        for (i, side) in sides.iter().enumerate() {
            near.clear();
            tree.visit(&|bounds| bounds.meets(boxes[i]), &mut |j| near.push(j));
            near.retain(|j| *j != i);
            let first = border.len();
            for part in cut(side, near.iter().map(|j| sides[*j])) {
                let (middle, left) = (middle(&part), left_of_middle(&part));
                let aside = left * ASIDE.min(0.1 * part.length());
                let kept = match (ask(middle + aside), ask(middle - aside)) {
                    (true, false) => part,
                    (false, true) => part.reversed(),
                    _ => continue,
                };
                // Of sides that run along each other the first one stands for all.
                let earlier = near.iter().filter_map(|j| stands.get(*j).cloned());
                if !earlier.flatten().any(|k| same(&border[k], &kept)) {
                    border.push(kept);
                }
            }
            stands.push(first..border.len());
        }
        Self { border }
    }

    /// Its border, each piece with the region on its left, in no order.
    #[must_use]
    pub fn border(&self) -> &[Piece] {
        &self.border
    }

    /// Its exact area in square metres.
    #[must_use]
    pub fn area(&self) -> f64 {
        let Some(base) = self.border.first().map(Piece::start) else {
            return 0.0;
        };
        let swept = |piece: &Piece| {
            let triangle = 0.5 * (piece.start() - base).cross(piece.end() - base);
            triangle + piece.arc().map_or(0.0, Arc::signed_segment_area)
        };
        self.border.iter().map(swept).sum()
    }

    /// The length of its border in metres.
    #[must_use]
    pub fn perimeter(&self) -> f64 {
        self.border.iter().map(Piece::length).sum()
    }
}

/// A closed chain, walked counter-clockwise; an open one has no pieces.
struct Ring {
    pieces: Vec<Piece>,
    frames: Vec<Frame>,
    tree: Tree,
}

impl Ring {
    fn of(chain: &Chain) -> Self {
        let pieces = match (chain.is_closed(), chain.enclosed_area() < 0.0) {
            (false, _) => Vec::new(),
            (true, false) => chain.pieces().to_vec(),
            (true, true) => chain.reversed().pieces().to_vec(),
        };
        let boxes: Vec<Bounds> = pieces.iter().map(box_of).collect();
        Self {
            frames: pieces.iter().map(Frame::of).collect(),
            tree: Tree::over(&boxes),
            pieces,
        }
    }

    fn holds(&self, point: Point) -> bool {
        // What does not pass the ray to the east does not wind round the point.
        let passes = |bounds: &Bounds| {
            bounds.low.y <= point.y && point.y <= bounds.high.y && point.x <= bounds.high.x
        };
        let mut round = 0;
        self.tree.visit(&passes, &mut |i| {
            let next = self.pieces[(i + 1) % self.pieces.len()].start();
            round += of_piece(&self.frames[i], self.pieces[i].start(), next, point);
        });
        round > 0
    }
}

fn box_of(piece: &Piece) -> Bounds {
    piece.bounds().grown(SAME_PLACE)
}

/// The parts of a piece between its meetings with others.
fn cut<'a>(piece: &Piece, others: impl Iterator<Item = &'a Piece>) -> Vec<Piece> {
    let length = piece.length();
    let mut cuts = vec![0.0, length];
    for other in others {
        for met in meetings(piece, other, SAME_PLACE) {
            let along = piece.along(met).clamp(0.0, length);
            if !run_along(piece, along, other, other.along(met)) {
                cuts.push(along);
            }
        }
        // Where two run along each other they part at an end of one of them.
        for end in [other.start(), other.end()] {
            let (along, foot) = piece.nearest(end);
            if foot.distance(end) <= SAME_PLACE {
                cuts.push(along);
            }
        }
    }
    cuts.sort_by(f64::total_cmp);
    // The ends themselves stay, so that nothing is lost at a joint.
    cuts.dedup_by(|next, kept| *next - *kept <= SAME_PLACE);
    if let [.., last] = cuts.as_mut_slice() {
        *last = length;
    }
    if cuts.len() == 2 {
        return vec![*piece];
    }
    let parts = cuts.windows(2);
    parts
        .filter_map(|ends| part(piece, ends[0], ends[1]))
        .collect()
}

/// Whether two pieces that meet run along each other there, so that rounding alone says where they
/// meet: they leave in one line and do not part by [`SAME_PLACE`] within the shorter of them.
fn run_along(one: &Piece, at: f64, other: &Piece, there: f64) -> bool {
    let ways = [
        one.direction_at(at).unit(),
        other.direction_at(there).unit(),
    ];
    if ways[0].cross(ways[1]).abs() > SAME_DIRECTION {
        return false;
    }
    let bent = one.curvature() - other.curvature() * ways[0].dot(ways[1]).signum();
    let reach = one.length().min(other.length());
    0.125 * bent.abs() * reach * reach <= SAME_PLACE
}

/// The part of a piece from one distance along it to another; of an arc so flat that a part of it
/// has no rise, a straight.
pub(crate) fn part(piece: &Piece, from: f64, to: f64) -> Option<Piece> {
    let straight = || Line::new(piece.point_at(from), piece.point_at(to)).ok();
    piece
        .between(from, to)
        .or_else(|| (from < to).then(straight)?.map(Piece::Line))
}

pub(crate) fn middle(piece: &Piece) -> Point {
    match piece {
        Piece::Line(line) => line.start().middle(line.end()),
        Piece::Arc(arc) => arc.apex(),
    }
}

fn left_of_middle(piece: &Piece) -> Vector {
    // At its middle a piece runs along its chord.
    let chord = piece.end() - piece.start();
    chord.left() / chord.length()
}

fn same(one: &Piece, other: &Piece) -> bool {
    // What is cut from two borders that run along each other has ends that far apart at most.
    let near = |a: Point, b: Point| a.distance(b) <= 4.0 * SAME_PLACE;
    near(one.start(), other.start())
        && near(one.end(), other.end())
        && near(middle(one), middle(other))
}

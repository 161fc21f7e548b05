//! A chain made ready for measuring: its pieces in their frames, under a tree of boxes.

use crate::capsule::Capsule;
use crate::frame::Frame;
use crate::gap::{Span, between};
use crate::tree::{Run, Tree};
use crate::{Bounds, Piece, Point, SAME_PLACE, winding};

/// Pieces in walking order with boxes round ever longer runs of them. Neighbours on a chain are
/// neighbours on the ground, so no other order is needed.
#[derive(Clone, Debug)]
pub(crate) struct Runs {
    frames: Vec<Frame>,
    tree: Tree,
    /// One for each box of the tree.
    capsules: Vec<Capsule>,
}

/// The nearest point of a chain to a point.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Foot {
    pub(crate) piece: usize,
    pub(crate) square: f64,
    pub(crate) point: Point,
}

/// The least span between two chains.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Closest {
    pub(crate) span: Span,
    pub(crate) from_piece: usize,
    pub(crate) to_piece: usize,
}

impl Runs {
    /// Of one piece or more.
    pub(crate) fn of(pieces: &[Piece]) -> Self {
        let frames: Vec<Frame> = pieces.iter().map(Frame::of).collect();
        let leaves: Vec<Bounds> = frames
            .iter()
            .enumerate()
            .map(|(i, frame)| {
                // Ends that should meet may lie SAME_PLACE apart; a joint belongs to both its pieces.
                let next = frames[(i + 1) % frames.len()].start;
                let joins = (next - frame.end).square() <= 4.0 * SAME_PLACE * SAME_PLACE;
                let joint = if joins { next } else { frame.end };
                frame.bounds().with(Bounds::of(joint))
            })
            .collect();
        let tree = Tree::over(&leaves);
        Self {
            capsules: Capsule::of_runs(&frames, &tree),
            tree,
            frames,
        }
    }

    pub(crate) fn frames(&self) -> &[Frame] {
        &self.frames
    }

    pub(crate) fn tree(&self) -> &Tree {
        &self.tree
    }

    /// The box round all pieces.
    pub(crate) fn bounds(&self) -> Bounds {
        let start = Bounds::of(self.frames[0].start);
        self.tree
            .root()
            .map_or(start, |root| *self.tree.bounds(&root))
    }

    /// The nearest point less than the root of `limit` away.
    pub(crate) fn nearest(&self, point: Point, limit: f64) -> Option<Foot> {
        let mut best = Foot {
            piece: usize::MAX,
            square: limit,
            point,
        };
        self.nearest_in(&self.tree.root()?, point, &mut best);
        (best.piece != usize::MAX).then_some(best)
    }

    fn nearest_in(&self, run: &Run, point: Point, best: &mut Foot) {
        if run.is_leaf() {
            let piece = run.things.start;
            let (square, foot) = self.frames[piece].nearest(point);
            if square < best.square {
                *best = Foot {
                    piece,
                    square,
                    point: foot,
                };
            }
            return;
        }
        let (first, second) = run.halves();
        let near = self.tree.bounds(&first).square_to(point);
        let far = self.tree.bounds(&second).square_to(point);
        for (square, half) in nearer_first((near, first), (far, second)) {
            if square < best.square && !self.capsule(&half).keeps_off(point, best.square.sqrt()) {
                self.nearest_in(&half, point, best);
            }
        }
    }

    /// The least span to another chain, if it is less than the root of `limit` long.
    pub(crate) fn closest(&self, other: &Self, limit: f64) -> Option<Closest> {
        self.closest_where(other, limit, &|_, _| true)
    }

    /// The same, of pairs of pieces that count.
    pub(crate) fn closest_where(
        &self,
        other: &Self,
        limit: f64,
        counts: &impl Fn(usize, usize) -> bool,
    ) -> Option<Closest> {
        let mut best = Closest {
            span: Span {
                square: limit,
                from: self.frames[0].start,
                to: other.frames[0].start,
            },
            from_piece: usize::MAX,
            to_piece: usize::MAX,
        };
        let (one, two) = (self.tree.root()?, other.tree.root()?);
        if self
            .tree
            .bounds(&one)
            .square_between(other.tree.bounds(&two))
            < limit
        {
            self.closest_in(other, (&one, &two), counts, &mut best);
        }
        (best.from_piece != usize::MAX).then_some(best)
    }

    /// The least span to another chain.
    pub(crate) fn least(&self, other: &Self) -> Closest {
        self.closest(other, f64::INFINITY).unwrap_or(Closest {
            span: between(&self.frames[0], &other.frames[0]),
            from_piece: 0,
            to_piece: 0,
        })
    }

    fn closest_in(
        &self,
        other: &Self,
        (one, two): (&Run, &Run),
        counts: &impl Fn(usize, usize) -> bool,
        best: &mut Closest,
    ) {
        if one.is_leaf() && two.is_leaf() {
            let (from_piece, to_piece) = (one.things.start, two.things.start);
            if !counts(from_piece, to_piece) {
                return;
            }
            let span = between(&self.frames[from_piece], &other.frames[to_piece]);
            if span.square < best.span.square {
                *best = Closest {
                    span,
                    from_piece,
                    to_piece,
                };
            }
        } else if one.things.len() >= two.things.len() {
            let bounds = other.tree.bounds(two);
            let (first, second) = one.halves();
            let near = self.tree.bounds(&first).square_between(bounds);
            let far = self.tree.bounds(&second).square_between(bounds);
            for (square, half) in nearer_first((near, first), (far, second)) {
                if square < best.span.square && !self.keeps_off(&half, other, two, best) {
                    self.closest_in(other, (&half, two), counts, best);
                }
            }
        } else {
            let bounds = self.tree.bounds(one);
            let (first, second) = two.halves();
            let near = bounds.square_between(other.tree.bounds(&first));
            let far = bounds.square_between(other.tree.bounds(&second));
            for (square, half) in nearer_first((near, first), (far, second)) {
                if square < best.span.square && !self.keeps_off(one, other, &half, best) {
                    self.closest_in(other, (one, &half), counts, best);
                }
            }
        }
    }

    fn capsule(&self, run: &Run) -> &Capsule {
        &self.capsules[run.at]
    }

    /// Whether two runs, one of a single piece, are seen to be no nearer than the best so far.
    fn keeps_off(&self, one: &Run, other: &Self, two: &Run, best: &Closest) -> bool {
        (one.is_leaf() || two.is_leaf())
            && self
                .capsule(one)
                .keeps_off_other(other.capsule(two), best.span.square.sqrt())
    }

    /// Whether a closed chain holds a point, its outline included.
    pub(crate) fn holds(&self, point: Point) -> bool {
        let slack = (SAME_PLACE * SAME_PLACE).next_up();
        self.tree.root().is_some_and(|root| {
            self.tree.bounds(&root).grown(SAME_PLACE).holds(point)
                && (self.winding(&root, point) != 0 || self.nearest(point, slack).is_some())
        })
    }

    /// How often a run of a closed chain crosses the ray from a point to the east, counted upward.
    /// A run beside or behind the point is not gone through, only its ends are looked at.
    fn winding(&self, run: &Run, point: Point) -> i32 {
        let bounds = self.tree.bounds(run);
        if bounds.high.x < point.x || bounds.high.y < point.y || point.y < bounds.low.y {
            return 0;
        }
        let joint = |piece: usize| self.frames[piece % self.frames.len()].start;
        let (from, to) = (joint(run.things.start), joint(run.things.end));
        if point.x < bounds.low.x {
            winding::past(point.y, from.y, to.y)
        } else if run.is_leaf() {
            winding::of_piece(&self.frames[run.things.start], from, to, point)
        } else {
            let (first, second) = run.halves();
            self.winding(&first, point) + self.winding(&second, point)
        }
    }
}

fn nearer_first(one: (f64, Run), two: (f64, Run)) -> [(f64, Run); 2] {
    if two.0 < one.0 {
        [two, one]
    } else {
        [one, two]
    }
}

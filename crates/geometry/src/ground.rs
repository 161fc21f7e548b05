//! All the patches of a site, found by where they are.

use crate::runs::Runs;
use crate::tree::{Run, Tree};
use crate::{Bounds, Chain, Gap, Patch, Piece, Point};

/// Many patches, with an index by place: asking costs little more than what is found.
///
/// Over the patches stands one tree of boxes, over the sides of each patch another: one bed of a
/// hundred thousand corners is found as quickly as ten thousand beds.
#[derive(Clone, Debug)]
pub struct Ground {
    patches: Vec<Patch>,
    /// The numbers of the patches that have an end, in the order of the tree.
    order: Vec<usize>,
    tree: Tree,
    /// The numbers of those that have none, and are looked at each time.
    endless: Vec<usize>,
}

/// The least signed distance of a whole chain to one patch, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PatchGap {
    /// In metres; below zero where the chain lies in the patch: how deep its deepest point is.
    pub distance: f64,
    /// The point on the chain.
    pub from: Point,
    /// The nearest place on the border of the patch.
    pub to: Point,
    /// The station of `from`.
    pub station: f64,
    /// Which piece of the chain `from` lies on, counted from 0.
    pub piece: usize,
}

impl Ground {
    /// The ground of these patches, known by their place in the list.
    #[must_use]
    pub fn new(patches: Vec<Patch>) -> Self {
        let mut boxes: Vec<(usize, Bounds)> = Vec::with_capacity(patches.len());
        let mut endless = Vec::new();
        for (i, patch) in patches.iter().enumerate() {
            match patch.bounds() {
                Some(bounds) => boxes.push((i, bounds)),
                None => endless.push(i),
            }
        }
        Tree::sort(&mut boxes, |(_, bounds)| bounds.middle());
        let (order, boxes): (Vec<usize>, Vec<Bounds>) = boxes.into_iter().unzip();
        Self {
            patches,
            order,
            tree: Tree::over(&boxes),
            endless,
        }
    }

    /// The patches, in the order given.
    #[must_use]
    pub fn patches(&self) -> &[Patch] {
        &self.patches
    }

    /// Each patch whose signed distance to a piece ([`Patch::gap`]) is at most `reach` metres, with
    /// its number, by number.
    #[must_use]
    pub fn near(&self, piece: &Piece, reach: f64) -> Vec<(usize, Gap)> {
        let path = Runs::of(std::slice::from_ref(piece));
        let about = path.bounds().grown(reach.max(0.0));
        let mut found = Vec::new();
        let mut look = |i: usize| {
            let gap = self.patches[i].within(&path, reach);
            found.extend(gap.map(|(_, gap)| (i, gap)));
        };
        self.tree.visit(&|bounds| bounds.meets(about), &mut |at| {
            look(self.order[at]);
        });
        self.endless.iter().copied().for_each(&mut look);
        found.sort_unstable_by_key(|(i, _)| *i);
        found
    }

    /// Each patch whose signed distance to a point is at most `reach` metres, with its number, in
    /// order. The point must be finite.
    #[must_use]
    pub fn near_point(&self, point: Point, reach: f64) -> Vec<(usize, Gap)> {
        let about = Bounds::of(point).grown(reach.max(0.0));
        let mut found = Vec::new();
        let mut look = |i: usize| {
            let gap = self.patches[i].signed_distance(point);
            found.extend((gap.distance <= reach).then_some((i, gap)));
        };
        self.tree.visit(&|bounds| bounds.meets(about), &mut |at| {
            look(self.order[at]);
        });
        self.endless.iter().copied().for_each(&mut look);
        found.sort_unstable_by_key(|(i, _)| *i);
        found
    }

    /// The patch with the least signed distance to a point, if that is at most `reach` metres, with
    /// its number. The point must be finite.
    #[must_use]
    pub fn nearest(&self, point: Point, reach: f64) -> Option<(usize, Gap)> {
        let mut best = None;
        for i in &self.endless {
            self.look(*i, point, reach, &mut best);
        }
        if let Some(root) = self.tree.root() {
            self.nearest_in(&root, point, reach, &mut best);
        }
        best
    }

    fn nearest_in(&self, run: &Run, point: Point, reach: f64, best: &mut Option<(usize, Gap)>) {
        if run.is_leaf() {
            self.look(self.order[run.things.start], point, reach, best);
            return;
        }
        let (first, second) = run.halves();
        let mut halves = [first, second].map(|half| {
            let square = self.tree.bounds(&half).square_to(point);
            // In its box a point may lie any depth in a patch.
            (
                if square > 0.0 {
                    square.sqrt()
                } else {
                    f64::NEG_INFINITY
                },
                half,
            )
        });
        halves.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (least, half) in halves {
            if least <= best.map_or(reach, |(_, gap)| gap.distance) {
                self.nearest_in(&half, point, reach, best);
            }
        }
    }

    fn look(&self, i: usize, point: Point, reach: f64, best: &mut Option<(usize, Gap)>) {
        let gap = self.patches[i].signed_distance(point);
        if gap.distance <= reach && best.is_none_or(|(_, least)| gap.distance < least.distance) {
            *best = Some((i, gap));
        }
    }

    /// The least signed distance of a whole chain to every patch, in the order of the patches.
    #[must_use]
    pub fn gaps(&self, chain: &Chain) -> Vec<PatchGap> {
        let path = Runs::of(chain.pieces());
        self.patches
            .iter()
            .map(|patch| {
                let (piece, gap) = patch.least(&path);
                PatchGap {
                    distance: gap.distance,
                    from: gap.from,
                    to: gap.to,
                    station: chain.station_of(piece) + path.frames()[piece].walked(gap.from),
                    piece,
                }
            })
            .collect()
    }
}

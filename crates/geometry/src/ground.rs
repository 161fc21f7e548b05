//! All the patches of a site, found by where they are.

use std::ops::ControlFlow;

use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

use crate::runs::Runs;
use crate::{Bounds, Chain, Gap, Overlap, Patch, Piece, Point};

/// Many patches, with an index by place: asking costs little more than what is found.
///
/// Over the patches stands an R-tree of boxes, over the sides of each patch another: one bed of a
/// hundred thousand corners is found as quickly as ten thousand beds.
#[derive(Clone, Debug)]
pub struct Ground {
    patches: Vec<Patch>,
    /// The boxes of the patches that have an end, and their numbers.
    index: RTree<Boxed>,
    /// The numbers of those that have none, and are looked at each time.
    endless: Vec<usize>,
}

type Boxed = GeomWithData<Rectangle<[f64; 2]>, usize>;

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
        let (mut boxes, mut endless) = (Vec::with_capacity(patches.len()), Vec::new());
        for (i, patch) in patches.iter().enumerate() {
            match patch.bounds() {
                Some(bounds) => boxes.push(Boxed::new(Rectangle::from_aabb(envelope(bounds)), i)),
                None => endless.push(i),
            }
        }
        Self {
            patches,
            index: RTree::bulk_load(boxes),
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
        self.found(path.bounds(), reach, |patch| {
            patch.within(&path, reach).map(|(_, gap)| gap)
        })
    }

    /// Each patch whose signed distance to a point is at most `reach` metres, with its number, in
    /// order. The point must be finite.
    #[must_use]
    pub fn near_point(&self, point: Point, reach: f64) -> Vec<(usize, Gap)> {
        self.found(Bounds::of(point), reach, |patch| {
            let gap = patch.signed_distance(point);
            (gap.distance <= reach).then_some(gap)
        })
    }

    /// Each patch that a given one [overlaps](Patch::overlap) by more than `least` metres, with its
    /// number, in order.
    #[must_use]
    pub fn overlaps(&self, patch: &Patch, least: f64) -> Vec<(usize, Overlap)> {
        let look = |other: &Patch| patch.overlap(other).filter(|found| found.depth > least);
        match patch.bounds() {
            Some(bounds) => self.found(bounds, 0.0, look),
            None => {
                let all = self.patches.iter().enumerate();
                all.filter_map(|(i, other)| Some((i, look(other)?)))
                    .collect()
            }
        }
    }

    /// What is found of the patches that may be within `reach` of a box, by number.
    fn found<T>(
        &self,
        about: Bounds,
        reach: f64,
        look: impl Fn(&Patch) -> Option<T>,
    ) -> Vec<(usize, T)> {
        let about = envelope(about.grown(reach.max(0.0)));
        let mut found = Vec::new();
        let mut look = |i: usize| found.extend(look(&self.patches[i]).map(|it| (i, it)));
        let _ = self
            .index
            .locate_in_envelope_intersecting_int(&about, |boxed| {
                look(boxed.data);
                ControlFlow::<()>::Continue(())
            });
        self.endless.iter().copied().for_each(look);
        found.sort_unstable_by_key(|(i, _)| *i);
        found
    }

    /// The patch with the least signed distance to a point, if that is at most `reach` metres, with
    /// its number; none to a point that is not finite.
    #[must_use]
    pub fn nearest(&self, point: Point, reach: f64) -> Option<(usize, Gap)> {
        if !point.is_finite() {
            return None;
        }
        let mut best: Option<(usize, Gap)> = None;
        let look = |i: usize, best: &mut Option<(usize, Gap)>| {
            let gap = self.patches[i].signed_distance(point);
            if gap.distance <= reach && best.is_none_or(|(_, least)| gap.distance < least.distance)
            {
                *best = Some((i, gap));
            }
        };
        for i in &self.endless {
            look(*i, &mut best);
        }
        let place = [point.x, point.y];
        for (boxed, square) in self.index.nearest_neighbor_iter_with_distance_2(&place) {
            // In its box a point may lie any depth in a patch.
            if square > 0.0 && square.sqrt() > best.map_or(reach, |(_, gap)| gap.distance) {
                break;
            }
            look(boxed.data, &mut best);
        }
        best
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

fn envelope(bounds: Bounds) -> AABB<[f64; 2]> {
    let Bounds { low, high } = bounds;
    AABB::from_corners([low.x, low.y], [high.x, high.y])
}

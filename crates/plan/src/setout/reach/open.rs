//! Where nothing at all is in the way: asked once of a stretch of ground, it spares asking of each pull.

use geometry::{Bounds, Point};

use super::Reach;

/// A stretch of ground, and the boxes of what stands in it.
#[derive(Clone, Debug)]
pub struct OpenGround {
    within: Bounds,
    /// What has no end, the ground beyond a boundary, keeps so far off the middle, in metres.
    endless: f64,
    taken: Vec<Bounds>,
    rooted: Vec<Bounds>,
}

impl OpenGround {
    /// The longest pull within it, in metres, where nothing at all stands in it.
    #[must_use]
    pub fn free_pull(&self) -> Option<f64> {
        let (width, height) = (self.within.width(), self.within.height());
        let nothing = self.taken.is_empty() && self.rooted.is_empty();
        (nothing && self.endless > 0.5 * width.hypot(height)).then(|| width.hypot(height))
    }

    /// Whether it is sure that nothing is in the way of a pull.
    #[must_use]
    pub fn is_open(&self, from: Point, to: Point) -> bool {
        let pull = Bounds::of(from).with(Bounds::of(to));
        self.is_inside(from)
            && self.is_inside(to)
            && !self.taken.iter().any(|taken| taken.meets(pull))
    }

    /// Whether it is sure that nothing is in the way of a peg.
    #[must_use]
    pub fn is_free(&self, at: Point) -> bool {
        let mut taken = self.taken.iter().chain(&self.rooted);
        self.is_inside(at) && taken.all(|taken| !taken.holds(at))
    }

    fn is_inside(&self, at: Point) -> bool {
        self.within.holds(at) && self.within.middle().distance(at) < self.endless
    }
}

impl Reach<'_> {
    /// What stands in a box.
    #[must_use]
    pub fn open_ground(&self, within: Bounds) -> OpenGround {
        let room = self.limits.beside_service;
        let all = within.grown(room);
        let (middle, reach) = (all.middle(), 0.5 * all.width().hypot(all.height()));
        let mut taken = Vec::new();
        let mut endless = f64::INFINITY;
        for (patch, gap) in self.surroundings.ground().near_point(middle, reach) {
            match self.patch(patch).bounds() {
                Some(bounds) => taken.push(bounds.grown(room)),
                None => endless = endless.min(gap.distance - room),
            }
        }
        OpenGround {
            within,
            endless,
            taken,
            rooted: self.surroundings.root_boxes(middle, reach),
        }
    }
}

//! Of things that lie too near one another to be told apart, one is shown.

use std::collections::HashSet;

use geometry::Point;

use crate::window::theme;
use crate::window::view::View;

/// Half of what a finger needs: nearer than this two things cannot be hit apart, in screen points.
const APART: f32 = 0.5 * theme::TARGET;

/// The places taken so far, on a net of squares that lies still while the plan is moved.
pub(super) struct Sparse {
    mesh: f64,
    taken: HashSet<[i64; 2]>,
}

impl Sparse {
    pub(super) fn new(view: &View) -> Self {
        Self {
            mesh: view.plan_length(APART),
            taken: HashSet::new(),
        }
    }

    /// Takes the square of the net that a place lies in; whether it was free.
    pub(super) fn claim(&mut self, at: Point) -> bool {
        self.taken
            .insert([at.x, at.y].map(|along| whole(along / self.mesh)))
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "the number of a square: a coordinate of at most 100 km in parts of a millimetre or more"
)]
fn whole(share: f64) -> i64 {
    share.floor() as i64
}

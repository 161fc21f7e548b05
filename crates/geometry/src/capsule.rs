//! A run of pieces held between two ends: a chord, and how far the run strays from it.

use crate::Point;
use crate::frame::Frame;
use crate::tree::{Run, Tree};

/// All points within `bow` of the straight from `start` to `end`: round a smooth run of many short
/// pieces it is far closer than a box.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Capsule {
    start: Point,
    end: Point,
    bow: f64,
}

impl Capsule {
    /// The capsules of all runs of a chain, where the tree has their boxes.
    pub(crate) fn of_runs(frames: &[Frame], tree: &Tree) -> Vec<Self> {
        let mut capsules = Vec::with_capacity(2 * frames.len());
        if let Some(root) = tree.root() {
            Self::gather(frames, &root, &mut capsules);
        }
        capsules
    }

    fn gather(frames: &[Frame], run: &Run, capsules: &mut Vec<Self>) {
        capsules.push(Self::round(&frames[run.things.clone()]));
        if !run.is_leaf() {
            let (first, second) = run.halves();
            Self::gather(frames, &first, capsules);
            Self::gather(frames, &second, capsules);
        }
    }

    fn round(pieces: &[Frame]) -> Self {
        let mut capsule = Self {
            start: pieces[0].start,
            end: pieces[pieces.len() - 1].end,
            bow: 0.0,
        };
        // The distance from a chord is convex along a straight: greatest at its ends.
        for piece in pieces {
            let end = capsule
                .square_to_chord(piece.start)
                .max(capsule.square_to_chord(piece.end));
            capsule.bow = capsule.bow.max(end.sqrt() + piece.rise);
        }
        capsule
    }

    fn square_to_chord(&self, point: Point) -> f64 {
        let (chord, off) = (self.end - self.start, point - self.start);
        let share = off.dot(chord) / chord.square();
        // A closed run has no chord: its share is no number, and does for 0.
        let share = if share > 0.0 { share.min(1.0) } else { 0.0 };
        (off - chord * share).square()
    }

    /// Whether no point of it is nearer than `distance` to a point.
    pub(crate) fn keeps_off(&self, point: Point, distance: f64) -> bool {
        let least = distance + self.bow;
        self.square_to_chord(point) > least * least
    }

    /// Whether no point of it is nearer than `distance` to a point of another.
    pub(crate) fn keeps_off_other(&self, other: &Self, distance: f64) -> bool {
        let least = distance + self.bow + other.bow;
        let least = least * least;
        let side = |of: &Self, point: Point| (of.end - of.start).cross(point - of.start);
        self.square_to_chord(other.start) > least
            && self.square_to_chord(other.end) > least
            && other.square_to_chord(self.start) > least
            && other.square_to_chord(self.end) > least
            && (side(self, other.start) * side(self, other.end) > 0.0
                || side(other, self.start) * side(other, self.end) > 0.0)
    }
}

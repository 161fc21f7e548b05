//! How deep a path lies in ground: the point of it farthest from the border, inside.

use std::f64::consts::FRAC_PI_2;

use crate::runs::Runs;
use crate::{Bounds, Point};

/// A depth found by subdividing is short of the deepest by this at most: a tenth of a millimetre,
/// finer than any tape.
pub(crate) const DEPTH_TOLERANCE: f64 = 1e-4;

/// On paths so long that their coordinates hold no tenth of a millimetre any more, this share of
/// their extent takes its place.
const RELATIVE_TOLERANCE: f64 = 1e-9;

/// How deep one point lies in the ground, below zero outside, and the nearest point of the border.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sounding {
    pub(crate) depth: f64,
    pub(crate) at: Point,
    pub(crate) foot: Point,
    /// Which side of the border `foot` is on.
    pub(crate) side: usize,
}

/// The deepest sounding along a path, to [`DEPTH_TOLERANCE`], and the piece it was taken on.
///
/// Stretches of the path are halved as long as one could be deeper than the deepest found. Soundings
/// differ by no more than their points are apart, which holds for any ground; and a stretch is
/// nowhere deeper than it is far from one side of the border, which closes in much sooner where a
/// path runs along one.
pub(crate) fn deepest(
    path: &Runs,
    border: &Runs,
    worth: impl Fn(&Bounds) -> bool,
    sound: impl Fn(Point) -> Option<Sounding>,
) -> Option<(usize, Sounding)> {
    let extent = path.bounds();
    let tolerance = DEPTH_TOLERANCE.max(RELATIVE_TOLERANCE * extent.width().max(extent.height()));
    let mut best: Option<(usize, Sounding)> = None;
    let mut stretches = Vec::new();
    path.tree().visit(&worth, &mut |piece| {
        let frame = &path.frames()[piece];
        let (Some(start), Some(end)) = (sound(frame.start), sound(frame.end)) else {
            return;
        };
        let q = frame.rise / frame.half;
        stretches.push(Stretch {
            piece,
            start,
            end,
            q: if frame.up_is_left { q } else { -q },
        });
        for sounding in [start, end] {
            deepen(&mut best, piece, sounding);
        }
    });
    while let Some(stretch) = stretches.pop() {
        let enough = best.map_or(0.0, |(_, best)| best.depth) + tolerance;
        // Written so that what is no number ends the search.
        let may_be_deeper = stretch.deepest_possible(border, enough) > enough;
        if let Some(halves) = may_be_deeper.then(|| stretch.halves(&sound)).flatten() {
            deepen(&mut best, stretch.piece, halves[0].end);
            stretches.extend(halves);
        }
    }
    best
}

fn deepen(best: &mut Option<(usize, Sounding)>, piece: usize, sounding: Sounding) {
    if best.is_none_or(|(_, best)| sounding.depth > best.depth) {
        *best = Some((piece, sounding));
    }
}

/// A stretch of one piece, sounded at both ends.
struct Stretch {
    piece: usize,
    start: Sounding,
    end: Sounding,
    /// The tangent of a quarter of its sweep: rise over half the chord, positive with the apex left.
    q: f64,
}

impl Stretch {
    /// A depth that no point of the stretch exceeds; once it is seen not to exceed `enough`, no
    /// better one is looked for.
    fn deepest_possible(&self, border: &Runs, enough: f64) -> f64 {
        let chord = (self.end.at - self.start.at).length();
        let q = self.q.abs();
        // An arc is c (1 + q²) atan(q) / q long.
        let length = chord * (1.0 + q * q) * f64::min(1.0, FRAC_PI_2 / q);
        let mut least = 0.5 * (self.start.depth + self.end.depth + length);
        let rise = 0.5 * q * chord;
        for side in [self.start.side, self.end.side] {
            if least <= enough {
                break;
            }
            // From chord to chord the distance is greatest at an end, since it is convex; each of
            // the two arcs bows off its chord by no more than its rise.
            let side = &border.frames()[side];
            let (first, one) = side.nearest(self.start.at);
            let (second, other) = side.nearest(self.end.at);
            least = least.min(first.max(second).sqrt() + rise + side.bow(one, other));
        }
        least
    }

    /// The two halves; `None` when there is nothing left to halve.
    fn halves(&self, sound: impl Fn(Point) -> Option<Sounding>) -> Option<[Self; 2]> {
        let (from, to) = (self.start.at, self.end.at);
        let apex = from.middle(to) + (to - from).left() * (0.5 * self.q);
        if apex == from || apex == to {
            return None;
        }
        let middle = sound(apex)?;
        // tan(x / 2) from tan(x)
        let q = self.q / (1.0 + self.q.hypot(1.0));
        let half = |start, end| Self {
            piece: self.piece,
            start,
            end,
            q,
        };
        Some([half(self.start, middle), half(middle, self.end)])
    }
}

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
        let joined = stretches.last().map(|before: &Stretch| before.end);
        let joined = joined.filter(|before| before.at == frame.start);
        let (Some(start), Some(end)) = (joined.or_else(|| sound(frame.start)), sound(frame.end))
        else {
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
        let (possible, share) = stretch.deepest_possible(border, enough);
        // Written so that what is no number ends the search.
        if possible > enough
            && let Some(parts) = stretch.parts(share, &sound)
        {
            deepen(&mut best, stretch.piece, parts[0].end);
            // The part that promises more is looked at first.
            let [first, second] = parts;
            if first.start.depth > second.end.depth {
                stretches.extend([second, first]);
            } else {
                stretches.extend([first, second]);
            }
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
    /// A depth that no point of the stretch exceeds, and at what share of the chord it might be
    /// reached; once it is seen not to exceed `enough`, no better one is looked for.
    fn deepest_possible(&self, border: &Runs, enough: f64) -> (f64, f64) {
        let chord = (self.end.at - self.start.at).square().sqrt();
        let q = self.q.abs();
        // An arc is c (1 + q²) atan(q) / q long.
        let length = chord * (1.0 + q * q) * f64::min(1.0, FRAC_PI_2 / q);
        let (start, end) = (self.start.depth, self.end.depth);
        let mut least = (0.5 * (start + end + length), 0.5);
        if least.0 <= enough {
            return least;
        }
        let (start, end) = (start.abs(), end.abs());
        // From chord to chord the distance to one side is convex, so at most what lies in line
        // between its two ends; each of the two arcs bows off its chord by no more than its rise.
        let [first, last] = [self.start.side, self.end.side].map(|side| &border.frames()[side]);
        let (ahead, on_first) = first.nearest(self.end.at);
        let (behind, on_last) = last.nearest(self.start.at);
        let bow = first
            .bow(self.start.foot, on_first)
            .max(last.bow(on_last, self.end.foot));
        let along_sides = peak([start, ahead.sqrt()], [behind.sqrt(), end]);
        least = lesser(
            least,
            (along_sides.0 + 0.5 * q * chord + bow, along_sides.1),
        );
        if least.0 <= enough {
            return least;
        }
        // The squares of the distances to the two feet, less the square of the way gone, are in line.
        let square = |a: Point, b: Point| (b - a).square();
        let (from, to) = (self.start.at, self.end.at);
        let gone = chord * chord;
        let (height, share) = peak(
            [start * start, square(to, self.start.foot) - gone],
            [square(from, self.end.foot), end * end - gone],
        );
        let to_feet = |share: f64, height: f64| (height + gone * share * share).max(0.0).sqrt();
        let highest = [(0.0, start), (share, to_feet(share, height)), (1.0, end)]
            .into_iter()
            .fold(0.0, |most, (_, depth)| f64::max(most, depth));
        lesser(least, (highest + 0.5 * q * chord, share))
    }

    /// The two parts, a straight parted at this share of it, an arc in the middle; `None` when there
    /// is nothing left to part.
    fn parts(&self, share: f64, sound: impl Fn(Point) -> Option<Sounding>) -> Option<[Self; 2]> {
        let (from, to) = (self.start.at, self.end.at);
        let between = if self.q.abs() > 0.0 {
            from.middle(to) + (to - from).left() * (0.5 * self.q)
        } else {
            from.towards(to, share.clamp(LEAST_SHARE, 1.0 - LEAST_SHARE))
        };
        if between == from || between == to {
            return None;
        }
        let middle = sound(between)?;
        // tan(x / 2) from tan(x)
        let q = self.q / (1.0 + (1.0 + self.q * self.q).sqrt());
        let part = |start, end| Self {
            piece: self.piece,
            start,
            end,
            q,
        };
        Some([part(self.start, middle), part(middle, self.end)])
    }
}

/// No part of a straight is made smaller than this, so that each is soon small.
const LEAST_SHARE: f64 = 0.05;

/// The highest that the lower of two lines comes between the shares 0 and 1, and at which share,
/// the first being the lower one at 0 and the second at 1.
fn peak(first: [f64; 2], second: [f64; 2]) -> (f64, f64) {
    let (before, after) = (second[0] - first[0], first[1] - second[1]);
    let share = if before + after > 0.0 {
        before / (before + after)
    } else {
        0.5
    };
    let crossing = first[0] + share * (first[1] - first[0]);
    (crossing.max(first[0]).max(second[1]), share)
}

fn lesser(one: (f64, f64), other: (f64, f64)) -> (f64, f64) {
    if other.0 < one.0 { other } else { one }
}

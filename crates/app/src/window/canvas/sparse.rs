//! Of things that lie too near one another to be told apart, or are too many to be looked at, some are shown.

use std::collections::HashSet;

use geometry::Point;

use crate::window::theme;
use crate::window::view::View;

/// Half of what a finger needs: nearer than this two things cannot be hit apart, in screen points.
const APART: f32 = 0.5 * theme::TARGET;
/// More than so many at a time hide what they stand on.
const MOST: usize = 150;
/// Farther apart than this nothing need be, in screen points.
const FARTHEST: f32 = 1000.0;

/// Those of some things that are shown, in the same order: all that stay in any case, and of the others
/// one, the first, in each square of a net that lies still while the plan is moved. Where they would
/// be too many the net is wider.
pub(super) fn thinned<T>(
    all: Vec<T>,
    view: &View,
    place: impl Fn(&T) -> Point,
    stays: impl Fn(&T) -> bool,
) -> Vec<T> {
    let mut apart = APART;
    loop {
        let mesh = view.plan_length(apart);
        let square = |thing: &T| {
            let at = place(thing);
            [at.x, at.y].map(|along| whole(along / mesh))
        };
        let mut taken: HashSet<_> = all
            .iter()
            .filter(|thing| stays(thing))
            .map(square)
            .collect();
        let mut shown = Vec::with_capacity(all.len());
        for thing in &all {
            shown.push(stays(thing) || taken.insert(square(thing)));
            if MOST < taken.len() && apart <= FARTHEST {
                break; // no need to count how many too many
            }
        }
        if shown.len() == all.len() {
            let shown = all.into_iter().zip(shown);
            return shown
                .filter_map(|(thing, shown)| shown.then_some(thing))
                .collect();
        }
        apart *= 1.5;
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "the number of a square: a coordinate of at most 100 km in parts of a millimetre or more"
)]
fn whole(share: f64) -> i64 {
    share.floor() as i64
}

#[cfg(test)]
mod tests {
    use egui::Rect;

    use super::*;

    /// Which of some places on a line are shown at so many screen points a metre.
    fn shown(places: &[f64], scale: f64, stays: &[usize]) -> Vec<usize> {
        let area = Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(800.0, 600.0));
        let view = View::new(area, Point::ORIGIN, scale);
        let all: Vec<_> = places.iter().copied().enumerate().collect();
        let at = |place: &(usize, f64)| Point::new(place.1, 0.0);
        let left = thinned(all, &view, at, |(i, _)| stays.contains(i));
        left.into_iter().map(|(i, _)| i).collect()
    }

    #[test]
    fn what_cannot_be_told_apart_is_shown_once_until_it_is_larger() {
        // Two pegs 5 mm apart, and one a metre off.
        let places = [0.0, 0.005, 1.0];
        assert_eq!(shown(&places, 40.0, &[]), [0, 2]);
        assert_eq!(shown(&places, 40.0, &[1]), [1, 2]);
        assert_eq!(shown(&places, 40.0, &[0, 1]), [0, 1, 2]);
        assert_eq!(shown(&places, 4000.0, &[]), [0, 1, 2]);
    }

    #[test]
    fn they_are_never_too_many() {
        // 20 km, a peg a metre, in a picture of up to 800 points.
        let places: Vec<f64> = (0..20_000).map(f64::from).collect();
        for scale in [0.004, 0.01, 0.02, 0.04] {
            let count = shown(&places, scale, &[]).len();
            assert!((1..=MOST).contains(&count), "{count}");
        }
    }
}

//! Corners rounded: tangent arcs put between the legs, in the order of the route.

use geometry::{Arc, Fillet, Piece, SAME_PLACE, fillet};

use super::{Origin, Report};
use crate::document::Route;
use crate::finding::{Code, Part, Severity};

/// The pieces of the centre line in walking order, and what each was made from.
///
/// The rounding at the first waypoint of a closed route comes last, so that the chain starts on
/// the first leg.
pub(super) fn rounded(
    route: &Route,
    legs: &[Vec<Piece>],
    report: &mut Report<'_>,
) -> (Vec<Piece>, Vec<Origin>) {
    let mut corners = Corners {
        legs,
        taken: vec![[0.0; 2]; legs.len()],
        arcs: vec![None; route.waypoints.len()],
    };
    for (i, waypoint) in route.waypoints.iter().enumerate() {
        if let Some(radius) = waypoint.rounding {
            corners.round(route, i, radius, report);
        }
    }
    let (mut pieces, mut origins) = (Vec::new(), Vec::new());
    for (leg, parts) in legs.iter().enumerate() {
        let [start, end] = corners.taken[leg];
        for (i, piece) in parts.iter().enumerate() {
            // Roundings take from the outer ends of a leg of two bends.
            let start = if i == 0 { start } else { 0.0 };
            let end = if i + 1 == parts.len() { end } else { 0.0 };
            let rest = piece.length() - start - end;
            let whole = start + end <= 0.0;
            let part = if whole {
                Some(*piece)
            } else if rest > SAME_PLACE {
                piece.between(start, piece.length() - end)
            } else {
                None
            };
            if let Some(part) = part {
                pieces.push(part);
                origins.push(if i == 0 {
                    Origin::Leg(leg)
                } else {
                    Origin::SecondBend(leg)
                });
            }
        }
        let next = route.ends_of(leg).map(|(_, end)| end);
        if let Some((waypoint, arc)) = next.and_then(|end| {
            corners
                .arcs
                .get(end)
                .copied()
                .flatten()
                .map(|arc| (end, arc))
        }) {
            pieces.push(Piece::Arc(arc));
            origins.push(Origin::Rounding(waypoint));
        }
    }
    (pieces, origins)
}

struct Corners<'a> {
    legs: &'a [Vec<Piece>],
    /// How much roundings take from the start and the end of each leg.
    taken: Vec<[f64; 2]>,
    arcs: Vec<Option<Arc>>,
}

impl Corners<'_> {
    fn round(&mut self, route: &Route, waypoint: usize, radius: f64, report: &mut Report<'_>) {
        let at = route.waypoints[waypoint].at;
        let place = (Part::Waypoint(waypoint), at);
        let (before, after) = route.legs_at(waypoint);
        let last = before.and_then(|i| Some((i, *self.legs[i].last()?)));
        let next = after.and_then(|i| Some((i, *self.legs[i].first()?)));
        let (Some((b, first)), Some((a, second))) = (last, next) else {
            report.add(
                (Severity::Note, Code::NothingToRound),
                place,
                "there is no corner to round at an end of the path".into(),
                (Some(radius), None),
            );
            return;
        };
        // What is left of each leg by the roundings before this one, in the order of the route.
        // A leg of two bends gives of the one at the corner only.
        let alone = |leg: usize| self.legs[leg].len() == 1;
        let used = |leg: usize, end: usize| {
            if alone(leg) {
                self.taken[leg][end]
            } else {
                0.0
            }
        };
        let room = [first.length() - used(b, 0), second.length() - used(a, 1)];
        let (rounded, tight) = match fillet(&first, &second, radius, room) {
            Fillet::Round(rounded) => (rounded, false),
            Fillet::Tight(rounded) => (rounded, true),
            Fillet::Smooth => {
                report.add(
                    (Severity::Note, Code::NothingToRound),
                    place,
                    "the path already runs on smoothly here: there is no corner to round".into(),
                    (Some(radius), None),
                );
                return;
            }
            Fillet::None => {
                report.add(
                    (Severity::Care, Code::RoundingTooLarge),
                    place,
                    format!(
                        "no rounding fits here, {} is asked for: the legs turn back on each other or have no room left",
                        report.ruler.text(radius)
                    ),
                    (Some(radius), Some(0.0)),
                );
                return;
            }
        };
        self.taken[b][1] = rounded.before.clamp(0.0, room[0]);
        self.taken[a][0] = rounded.after.clamp(0.0, room[1]);
        self.arcs[waypoint] = Some(rounded.arc);
        if tight {
            let largest = rounded.arc.radius();
            report.add(
                (Severity::Care, Code::RoundingTooLarge),
                place,
                format!(
                    "a rounding of {} does not fit here: drawn with {}, the largest that does",
                    report.ruler.text(radius),
                    report.ruler.exact(largest)
                ),
                (Some(radius), Some(largest)),
            );
        }
    }
}

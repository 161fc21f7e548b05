//! Landings and passing places: outlines laid on the path at their stations.

use geometry::{Arc, Chain, Line, Piece, Point};

use super::Report;
use crate::document::{Pad, PadShape, Route};
use crate::finding::{Code, Part, Severity};

/// The outline of each pad, walked counter-clockwise.
pub(super) fn outlines(route: &Route, chain: &Chain, report: &mut Report<'_>) -> Vec<Chain> {
    route
        .pads
        .iter()
        .filter_map(|pad| {
            if pad.station > chain.length() {
                report.add(
                    (Severity::Care, Code::PadBeyondEnd),
                    (Part::Whole, chain.end()),
                    format!(
                        "“{}” is laid {} from the start, beyond the end of the path at {}: drawn at the end",
                        pad.name,
                        report.ruler.text(pad.station),
                        report.ruler.text(chain.length())
                    ),
                    (Some(pad.station), Some(chain.length())),
                );
            }
            outline(pad, chain)
        })
        .collect()
}

fn outline(pad: &Pad, chain: &Chain) -> Option<Chain> {
    let station = pad.station.clamp(0.0, chain.length());
    let (middle, direction) = (chain.point_at(station), chain.direction_at(station));
    let (ahead, left) = (direction.unit(), direction.left().unit());
    let pieces = match pad.shape {
        PadShape::Circle { diameter } => {
            let radius = 0.5 * diameter;
            let (from, to) = (middle - left * radius, middle + left * radius);
            // Two half circles, each turning left.
            [(from, to), (to, from)]
                .into_iter()
                .filter_map(|(a, b)| Arc::from_rise(a, b, -radius).ok().map(Piece::Arc))
                .collect()
        }
        PadShape::Rectangle { along, across } => {
            let corner =
                |x: f64, y: f64| middle + ahead * (0.5 * along * x) + left * (0.5 * across * y);
            let corners: [Point; 4] = [
                corner(-1.0, -1.0),
                corner(1.0, -1.0),
                corner(1.0, 1.0),
                corner(-1.0, 1.0),
            ];
            (0..4)
                .filter_map(|i| {
                    Line::new(corners[i], corners[(i + 1) % 4])
                        .ok()
                        .map(Piece::Line)
                })
                .collect()
        }
    };
    Chain::new(pieces, true).ok()
}

//! Every peg of an option as one row of exact figures, for lists and other instruments.

use geometry::{Chain, Point};

use super::offset_pegs::Standing;
use super::{BaseLine, Placing, RouteWork, TiedSpot, Ties, set_out, work};
use crate::document::Plan;
use crate::solve::{Peg, Solved, SolvedRoute};

/// One peg or swing point.
#[derive(Clone, Debug, PartialEq)]
pub struct PegRow {
    /// What it is called within its path: `1`, `2` …, swing points `S1` and so on.
    pub peg: String,
    /// The name of its path, or `path 2` where that has none.
    pub path: String,
    /// Where it is.
    pub at: Point,
    /// How far along the centre line, in metres; `None` of a swing point.
    pub station: Option<f64>,
    /// The point of the left edge square off it; where a corner is cut, or nothing of the edge is
    /// left, there is none.
    pub left: Option<Point>,
    /// The point of the right edge.
    pub right: Option<Point>,
    /// The line it is placed from.
    pub base: BaseLine,
    /// How it is found from that line.
    pub placing: Placing,
    /// How it is tied to marks, or to pegs before it; `None` where nothing fixes it.
    pub ties: Option<Ties>,
}

/// The pegs and swing points of the paths of an option, path by path, pegs in walking order and then
/// the swing points a tape reaches.
///
/// Ties are those of the [`work`] of each path.
#[must_use]
pub fn peg_rows(plan: &Plan, solved: &Solved, scheme: usize) -> Vec<PegRow> {
    let routes = solved.schemes.get(scheme).map_or(&[][..], |s| &s.routes);
    let mut rows = Vec::new();
    for (index, path) in routes.iter().enumerate() {
        let (Some(out), Some(chain)) = (set_out(plan, path), &path.centre_line) else {
            continue;
        };
        let work = work(plan, solved, (scheme, index));
        let tied: Vec<&TiedSpot> = work.iter().flat_map(RouteWork::tied_spots).collect();
        let ties = |at: Point| {
            let spot = tied.iter().find(|spot| spot.at == at)?;
            spot.ties.clone().ok()
        };
        let name = match path.name.trim() {
            "" => format!("path {}", index + 1),
            name => name.to_owned(),
        };
        let pegs = path.pegs();
        let spots = pegs.iter().map(|peg| (Some(peg), peg.number.to_string()));
        let swing_points = out.swing_points.iter().map(|s| (None, s.name.clone()));
        let placings = out.pegs.iter().chain(&out.swing_points);
        for ((peg, called), placing) in spots.chain(swing_points).zip(placings) {
            let [left, right] = [1.0, -1.0].map(|side| edge_point(path, chain, peg?, side));
            rows.push(PegRow {
                peg: called,
                path: name.clone(),
                at: placing.at,
                station: peg.map(|peg| peg.station),
                left,
                right,
                base: out.base.clone(),
                placing: placing.clone(),
                ties: ties(placing.at),
            });
        }
    }
    rows
}

/// The point of an edge square off a peg, at a corner the tip of its mitre; `side` is 1 on the left
/// and −1 on the right.
fn edge_point(path: &SolvedRoute, chain: &Chain, peg: &Peg, side: f64) -> Option<Point> {
    /// An edge passes through its point to within this, in metres.
    const ON_EDGE: f64 = 1e-6;
    let edge = if side > 0.0 {
        &path.left_edge
    } else {
        &path.right_edge
    };
    let standing = Standing::of(chain, peg.number - 1);
    let out = side * 0.5 * path.width / (0.5 * standing.corner).cos();
    let point = peg.at + standing.way.left().unit() * out;
    let nearest = edge.as_ref()?.nearest(point);
    (point.is_finite() && nearest.distance <= ON_EDGE).then_some(point)
}

//! How a path feels to walk, and whether what is wheeled along it stays on it.

mod vehicle;

use geometry::{Arc, Chain, Piece, Point, Reach, Swept};
use serde::{Deserialize, Serialize};

use crate::clearance::IN_SIGHT;
use crate::solve::SolvedRoute;

pub use vehicle::{Trailer, Vehicle, usual_vehicles};

/// Who walks, and what is wheeled along.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Walk {
    /// The length of a pace in metres.
    pub pace: f64,
    /// What is wheeled along the paths.
    #[serde(default)]
    pub vehicles: Vec<Vehicle>,
}

/// A pace in metres: 30 in, rounded to 0.75 m; from memory.
pub const USUAL_PACE: f64 = 0.75;

impl Default for Walk {
    /// The usual pace and [`usual_vehicles`].
    fn default() -> Self {
        Self {
            pace: USUAL_PACE,
            vehicles: usual_vehicles(),
        }
    }
}

impl Walk {
    pub(crate) fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

/// How a path feels to walk.
#[derive(Clone, Debug, PartialEq)]
pub struct Feel {
    /// Its bends in walking order.
    pub bends: Vec<BendFeel>,
    /// Which of them is the tightest, counted from 0.
    pub tightest: Option<usize>,
    /// The vehicles of the plan, in order.
    pub vehicles: Vec<VehicleFit>,
    /// Where it comes near itself.
    pub comes_by: Option<ComesBy>,
}

/// Where a path comes by one of its own legs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ComesBy {
    /// The least distance between its edges there, in metres; zero where they cross.
    pub distance: f64,
    /// The nearest points, on the earlier leg and on the later one.
    pub at: [Point; 2],
    /// Their stations along the centre line in metres.
    pub stations: [f64; 2],
}

/// Legs at least so many widths apart along a path come by each other; nearer ones turn into each other.
/// Common practice, no source.
const BY_ITSELF: f64 = 2.0;

/// How a bend feels to walk.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BendFeel {
    /// Which piece of the centre line it is, counted from 0.
    pub piece: usize,
    /// The angle one turns through with each pace in radians, positive to the left: pace / R.
    pub turn_per_pace: f64,
    /// The radius of its inside edge in metres; not above zero where there is no inside edge left.
    pub inside_radius: f64,
    /// What can be seen along it; `None` without an inside edge.
    pub view: Option<View>,
}

/// The longest view along a bend between edges one cannot see over.
///
/// It touches the inside edge and ends at the outside one, twice. Once the bend turns through more
/// than the view spans, nothing beyond the bend is seen from anywhere before it. Source: H. Repton,
/// *The Art of Landscape Gardening*, for the rule that a second bend ought not to be seen; the figures
/// are a closed form, derived, with w the width:
///
/// * longest view: 2 √(Ro² − Ri²) = 2 √(2 R w);
/// * the turn it spans: 2 acos(Ri / Ro), computed as 2 atan(√(2 R w) / Ri).
///
/// It is never a safe sight distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// The longest view in metres.
    pub longest: f64,
    /// The turn in radians that hides what is beyond.
    pub turn_that_hides: f64,
    /// Whether the bend turns so far.
    pub hides_what_is_beyond: bool,
}

/// Whether a vehicle stays on a path, the middle of its front axle kept on the centre line, slowly.
#[derive(Clone, Debug, PartialEq)]
pub struct VehicleFit {
    /// What it is called.
    pub name: String,
    /// The least width of this path on which all of it stays, in metres: twice the farthest it reaches
    /// to either side, to a millimetre.
    pub needs_width: f64,
    /// The farthest it reaches left of the centre line, in metres.
    pub left: f64,
    /// The farthest it reaches right.
    pub right: f64,
    /// Where its front axle is when it reaches farthest.
    pub worst_station: f64,
    /// Whether it stays on the path, and nothing of it jackknifes.
    pub stays_on: bool,
    /// The width of the path less the width needed, in metres; below zero where it does not stay on.
    pub spare: f64,
    /// The station where it jackknifes, if it does: a bend is tighter than the wheelbase or the
    /// drawbar can follow.
    pub folds_at: Option<f64>,
}

/// How a path feels; `None` while nothing of it is drawn.
#[must_use]
pub fn feel(walk: &Walk, route: &SolvedRoute) -> Option<Feel> {
    let chain = route.centre_line.as_ref()?;
    let bends = bends(walk, route);
    let tightest = (0..bends.len()).max_by(|a, b| {
        let turn = |i: usize| bends[i].turn_per_pace.abs();
        turn(*a).total_cmp(&turn(*b)).then(b.cmp(a))
    });
    let fits = |vehicle: &Vehicle| fit(vehicle, route.width, chain);
    Some(Feel {
        bends,
        tightest,
        vehicles: walk.vehicles.iter().filter_map(fits).collect(),
        comes_by: comes_by(route, chain),
    })
}

/// How the bends of a path feel, in walking order: none while nothing of it is drawn.
#[must_use]
pub fn bends(walk: &Walk, route: &SolvedRoute) -> Vec<BendFeel> {
    let pieces = route.centre_line.as_ref().map_or(&[][..], Chain::pieces);
    let feel = |(i, piece): (usize, &Piece)| Some(bend_feel(walk, route.width, i, piece.arc()?));
    pieces.iter().enumerate().filter_map(feel).collect()
}

/// The nearest that an edge of a path comes to an edge of another part of it, if they come within sight.
fn comes_by(route: &SolvedRoute, centre: &Chain) -> Option<ComesBy> {
    let edges = [&route.left_edge, &route.right_edge];
    let pairs = [[0, 0], [1, 1], [0, 1]].into_iter().filter_map(|sides| {
        let [one, other] = sides.map(|side| edges[side].as_ref());
        let beside = sides.map(|side| &route.beside[side]);
        let counts = |first: usize, second: usize| {
            let [a, b] =
                [beside[0].get(first), beside[1].get(second)].map(|n| n.copied().unwrap_or(0));
            BY_ITSELF * route.width < way_between(centre, a.min(b), a.max(b))
        };
        let gap = one?.gap_where(other?, IN_SIGHT, counts)?;
        Some((gap, beside.map(Vec::as_slice)))
    });
    let (gap, beside) = pairs.min_by(|a, b| a.0.distance.total_cmp(&b.0.distance))?;
    let place = |side: usize, piece: usize, at: Point| {
        let piece = beside[side].get(piece).copied().unwrap_or(0);
        let along = centre.pieces()[piece].nearest(at).0;
        (centre.station_of(piece) + along, at)
    };
    let mut ends = [
        place(0, gap.from_piece, gap.from),
        place(1, gap.to_piece, gap.to),
    ];
    ends.sort_by(|a, b| a.0.total_cmp(&b.0));
    Some(ComesBy {
        distance: gap.distance,
        at: ends.map(|end| end.1),
        stations: ends.map(|end| end.0),
    })
}

/// How far one walks from the end of one piece to the start of a later one, on a closed line the shorter way.
fn way_between(chain: &Chain, before: usize, after: usize) -> f64 {
    let end = |piece: usize| chain.station_of(piece) + chain.pieces()[piece].length();
    let on = chain.station_of(after) - end(before);
    if chain.is_closed() {
        on.min(chain.length() - end(after) + chain.station_of(before))
    } else {
        on
    }
}

fn bend_feel(walk: &Walk, width: f64, piece: usize, arc: &Arc) -> BendFeel {
    let radius = arc.radius();
    let inside_radius = radius - 0.5 * width;
    let view = (inside_radius > 0.0).then(|| {
        let half = (2.0 * radius * width).sqrt();
        let turn_that_hides = 2.0 * half.atan2(inside_radius);
        View {
            longest: 2.0 * half,
            turn_that_hides,
            hides_what_is_beyond: arc.sweep().abs() > turn_that_hides,
        }
    });
    BendFeel {
        piece,
        turn_per_pace: (walk.pace / radius).copysign(arc.sweep()),
        inside_radius,
        view,
    }
}

fn fit(vehicle: &Vehicle, width: f64, chain: &Chain) -> Option<VehicleFit> {
    // What the limits let through goes along; a vehicle set up past them is left out.
    let swept = Swept::new(chain, vehicle.rig()).ok()?;
    let [left, right] = swept.widest();
    let worst = if right.reach > left.reach {
        right
    } else {
        left
    };
    let needs_width = 2.0 * worst.reach;
    let folds_at = swept.folds_at();
    Some(VehicleFit {
        name: vehicle.name.clone(),
        needs_width,
        left: left.reach,
        right: right.reach,
        worst_station: worst.station,
        stays_on: needs_width <= width && folds_at.is_none(),
        spare: width - needs_width,
        folds_at,
    })
}

/// The angle one turns through with a pace at a station, in radians, positive to the left: zero on a
/// straight, one figure all along a bend. What a sharp corner turns besides is [`Chain::corner`].
#[must_use]
pub fn turn_per_pace(chain: &Chain, pace: f64, station: f64) -> f64 {
    let (piece, _) = chain.piece_at(station);
    pace * chain.pieces()[piece].curvature()
}

/// The strip of ground a vehicle sweeps, for drawing, at stations `spacing` apart; empty for a vehicle
/// past the limits.
#[must_use]
pub fn swept_strip(vehicle: &Vehicle, chain: &Chain, spacing: f64) -> Vec<Reach> {
    Swept::new(chain, vehicle.rig()).map_or_else(|_| Vec::new(), |swept| swept.strip(spacing))
}

//! What a path is like all along it: how near things stand, how it turns, how tight its inside is.
//!
//! The figures at a station are exact there. A [`Profile`] holds them at many stations, for drawing
//! only: what is said of a path is computed in closed form by [`crate::clearance`] and [`crate::feel`].

use geometry::{Chain, Gap, Piece};

use crate::clearance::{Doorstep, doorsteps};
use crate::solve::SolvedRoute;
use crate::surroundings::Surroundings;

/// The figures of a path at one station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Along {
    /// The station in metres from the start of the centre line.
    pub station: f64,
    /// What stands nearest to the left edge and to the right edge there, not counting what lies beyond
    /// the other edge; `None` where nothing is in reach, or the bend leaves no edge on its inside.
    pub near: [Option<Near>; 2],
    /// The angle one turns through with a pace in radians, positive to the left: pace / R.
    pub turn_per_pace: f64,
    /// The radius of the inside edge in metres; not above zero where there is none left, `None` on a
    /// straight.
    pub inside_radius: Option<f64>,
}

/// What stands nearest to a point of an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Near {
    /// Which obstacle, counted from 0.
    pub obstacle: usize,
    /// How far off it is in metres; below zero inside it.
    pub distance: f64,
    /// The distance that it wants kept, in metres; nothing where the path leads up to it.
    pub wanted: f64,
}

/// A sharp corner of a centre line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// Its station in metres.
    pub station: f64,
    /// What it turns in radians, positive to the left.
    pub turn: f64,
}

/// The figures of a path at many stations.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// The length of the centre line in metres.
    pub length: f64,
    /// How far from an edge things were looked for, in metres.
    pub reach: f64,
    /// For each piece of the centre line in walking order its figures, from its start to its end.
    pub runs: Vec<Vec<Along>>,
    /// Its sharp corners.
    pub corners: Vec<Corner>,
}

/// Things are looked for this far from an edge in metres, or farther where one wants more room: what
/// two people with a barrow between them would notice.
pub const REACH: f64 = 2.0;

/// Steps a path is drawn in: about one for each three points of a wide screen.
const STEPS: f64 = 400.0;

/// The figures all along a path, for paces of `pace` metres; `None` while nothing of it is drawn.
#[must_use]
pub fn profile(pace: f64, route: &SolvedRoute, surroundings: &Surroundings) -> Option<Profile> {
    let chain = route.centre_line.as_ref()?;
    let length = chain.length();
    let looker = Looker::new(pace, route.width, chain, surroundings);
    let runs = (0..chain.pieces().len()).map(|piece| looker.run(piece, length));
    Some(Profile {
        length,
        reach: looker.reach(),
        runs: runs.collect(),
        corners: corners(chain),
    })
}

/// The figures at one station, held to the ends of the path; `None` while nothing of it is drawn.
#[must_use]
pub fn along(
    pace: f64,
    route: &SolvedRoute,
    surroundings: &Surroundings,
    station: f64,
) -> Option<Along> {
    let chain = route.centre_line.as_ref()?;
    let station = station.clamp(0.0, chain.length());
    let (piece, on_piece) = chain.piece_at(station);
    let looker = Looker::new(pace, route.width, chain, surroundings);
    Some(looker.at(piece, on_piece))
}

fn corners(chain: &Chain) -> Vec<Corner> {
    // The start of an open chain is no corner.
    let first = usize::from(!chain.is_closed());
    (first..chain.pieces().len())
        .map(|piece| Corner {
            station: chain.station_of(piece),
            turn: chain.corner(piece),
        })
        .filter(|corner| geometry::SAME_DIRECTION < corner.turn.abs())
        .collect()
}

struct Looker<'a> {
    pace: f64,
    half: f64,
    chain: &'a Chain,
    surroundings: &'a Surroundings,
    doorsteps: Vec<Doorstep>,
}

impl<'a> Looker<'a> {
    fn new(pace: f64, width: f64, chain: &'a Chain, surroundings: &'a Surroundings) -> Self {
        Self {
            pace,
            half: 0.5 * width,
            chain,
            surroundings,
            doorsteps: doorsteps(chain, width, surroundings),
        }
    }

    fn reach(&self) -> f64 {
        self.surroundings.reach().max(REACH)
    }

    #[expect(
        clippy::cast_possible_truncation,
        reason = "a share of STEPS, from 1 up"
    )]
    fn run(&self, piece: usize, length: f64) -> Vec<Along> {
        let own = self.chain.pieces()[piece].length();
        let steps = (STEPS * own / length).ceil().clamp(1.0, STEPS) as u32;
        (0..=steps)
            .map(|step| self.at(piece, own * f64::from(step) / f64::from(steps)))
            .collect()
    }

    fn at(&self, index: usize, on_piece: f64) -> Along {
        let piece = &self.chain.pieces()[index];
        let radius = piece.arc().map(geometry::Arc::radius);
        let curvature = piece.curvature();
        let inside_radius = radius.map(|radius| radius - self.half);
        let station = self.chain.station_of(index) + on_piece;
        let near = [self.half, -self.half].map(|aside| {
            let inside = 0.0 < aside * curvature;
            let gone = inside && inside_radius.is_some_and(|radius| radius <= 0.0);
            (!gone)
                .then(|| self.near(piece, (station, on_piece), aside))
                .flatten()
        });
        Along {
            station,
            near,
            turn_per_pace: self.pace * curvature,
            inside_radius,
        }
    }

    fn near(&self, piece: &Piece, (station, on_piece): (f64, f64), aside: f64) -> Option<Near> {
        let across = piece.direction_at(on_piece).left().unit();
        let edge = piece.point_at(on_piece) + across * aside;
        // What lies beyond the other edge is near to that one.
        let outward = across * aside.signum();
        let on_this_side =
            |gap: &Gap| gap.distance < 0.0 || -2.0 * self.half <= (gap.to - edge).dot(outward);
        let found = self.surroundings.ground().near_point(edge, self.reach());
        let (patch, gap) = found
            .into_iter()
            .filter(|(_, gap)| on_this_side(gap))
            .min_by(|a, b| a.1.distance.total_cmp(&b.1.distance))?;
        let leads_up =
            |step: &Doorstep| step.patch == patch && step.holds(station, self.chain.length());
        let wanted = match self.doorsteps.iter().any(leads_up) {
            true => 0.0,
            false => self.surroundings.wanted_by(patch),
        };
        Some(Near {
            obstacle: self.surroundings.obstacle_of(patch),
            distance: gap.distance,
            wanted,
        })
    }
}

//! From what the person meant to exact lines and arcs: a route becomes a chain, edges and findings.

mod gaps;
mod pads;
mod rounding;
mod shape;

use std::sync::Arc;

use geometry::{Chain, Line, OffsetTrouble, Piece, Point};
use serde::{Deserialize, Serialize};

use crate::clearance::{self, Clearance, Nearby, RootShare};
use crate::document::{Heading, Junction, Plan, Route, Shape, Side, letter};
use crate::finding::{Code, Finding, Part, Place, Severity};
use crate::rules;
use crate::surroundings::Surroundings;
use crate::units::{Ruler, angle_text};

pub use gaps::PathGap;

/// Everything that follows from a plan, computed once.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// The options, in order.
    pub schemes: Vec<SolvedScheme>,
    /// What to put right or know, what matters most first.
    pub findings: Vec<Finding>,
    /// What stands round the paths.
    pub surroundings: Arc<Surroundings>,
}

/// What follows from one option.
#[derive(Clone, Debug, PartialEq)]
pub struct SolvedScheme {
    /// Its letter.
    pub letter: String,
    /// Its name.
    pub name: String,
    /// Its paths, in order.
    pub routes: Vec<SolvedRoute>,
    /// Its paths near each other, two by two.
    pub gaps: Vec<PathGap>,
}

/// What follows from one path.
#[derive(Clone, Debug, PartialEq)]
pub struct SolvedRoute {
    /// Its name.
    pub name: String,
    /// Its width in metres.
    pub width: f64,
    /// The centre line; `None` when no leg can be drawn.
    pub centre_line: Option<Chain>,
    /// What each piece of the centre line was made from.
    pub origins: Vec<Origin>,
    /// The edge half the width to the left; `None` when nothing of it is left.
    pub left_edge: Option<Chain>,
    /// The edge half the width to the right.
    pub right_edge: Option<Chain>,
    /// For each piece of the left and of the right edge the piece of the centre line beside it.
    pub(crate) beside: [Vec<usize>; 2],
    /// The area between the edges in square metres.
    pub area: f64,
    /// Each leg whole, as it is before its corners are rounded: one piece, two for two bends, none
    /// where it cannot be drawn.
    pub legs: Vec<Vec<Piece>>,
    /// The outlines of its landings and passing places, in order.
    pub pads: Vec<Chain>,
    /// How near it comes to what stands round it, by obstacle.
    pub clearances: Vec<Clearance>,
    /// The root zones it covers some of, by tree.
    pub roots: Vec<RootShare>,
    /// What was found near it, kept for the next time it is solved.
    pub(crate) nearby: Nearby,
}

/// What a piece of a centre line was made from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Origin {
    /// A leg, counted from 0; of two bends the first.
    Leg(usize),
    /// The second bend of a leg of two, counted from 0.
    SecondBend(usize),
    /// The rounding at a waypoint, counted from 0.
    Rounding(usize),
}

/// A peg: a joint of the centre line, or one of its ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peg {
    /// Its number, from 1 in walking order.
    pub number: usize,
    /// Where it stands.
    pub at: Point,
    /// Its station, in metres from the start.
    pub station: f64,
}

impl SolvedRoute {
    /// The pegs on the centre line, in walking order.
    #[must_use]
    pub fn pegs(&self) -> Vec<Peg> {
        let Some(chain) = &self.centre_line else {
            return Vec::new();
        };
        let last = if chain.is_closed() {
            chain.pieces().len() - 1
        } else {
            chain.pieces().len()
        };
        (0..=last)
            .map(|i| Peg {
                number: i + 1,
                at: chain
                    .pieces()
                    .get(i)
                    .map_or_else(|| chain.end(), Piece::start),
                station: chain.station_of(i),
            })
            .collect()
    }

    /// The numbers of the pegs at both ends of a piece of the centre line.
    #[must_use]
    pub fn pegs_of(&self, piece: usize) -> (usize, usize) {
        let round = self
            .centre_line
            .as_ref()
            .is_some_and(|chain| chain.is_closed() && piece + 1 == chain.pieces().len());
        (piece + 1, if round { 1 } else { piece + 2 })
    }

    /// The number of the peg that stands on each waypoint; `None` where the corner is rounded away
    /// or a leg is not drawn.
    #[must_use]
    pub fn pegs_of_waypoints(&self, waypoints: usize) -> Vec<Option<usize>> {
        let mut numbers = vec![None; waypoints];
        for (piece, origin) in self.origins.iter().enumerate() {
            let (first, last) = self.pegs_of(piece);
            let (Origin::Leg(leg) | Origin::SecondBend(leg)) = *origin else {
                continue;
            };
            let before = piece.checked_sub(1).and_then(|i| self.origins.get(i));
            let starts = *origin == Origin::Leg(leg);
            if starts && before != Some(&Origin::Rounding(leg)) && leg < waypoints {
                numbers[leg] = Some(first);
            }
            if piece + 1 == self.origins.len() && leg + 1 < waypoints {
                numbers[leg + 1] = Some(last);
            }
        }
        // A closed path whose first corner is rounded has no peg on it.
        if self.origins.last() == Some(&Origin::Rounding(0)) && waypoints > 0 {
            numbers[0] = None;
        }
        numbers
    }

    /// One of its edges; `None` when nothing of it is left.
    #[must_use]
    pub fn edge(&self, side: Side) -> Option<&Chain> {
        match side {
            Side::Left => self.left_edge.as_ref(),
            Side::Right => self.right_edge.as_ref(),
        }
    }

    /// The place on its edge where another path starts: at the end of an edge that has become
    /// shorter; `None` when nothing of the edge is left.
    #[must_use]
    pub fn place_of(&self, junction: &Junction) -> Option<Point> {
        let edge = self.edge(junction.side)?;
        Some(edge.point_at(junction.station.min(edge.length())))
    }

    /// The part of the path that a station of the centre line lies on.
    #[must_use]
    pub fn part_at(&self, station: f64) -> Part {
        let piece = self.centre_line.as_ref().map(|c| c.piece_at(station).0);
        part_of(piece.and_then(|piece| self.origins.get(piece)))
    }

    /// The border of the ground it takes up: of an open path one closed chain that goes up one edge
    /// and down the other, of a closed one its outer and its inner edge, in this order. Nothing
    /// when an edge is missing.
    #[must_use]
    pub fn outline(&self) -> Vec<Chain> {
        let (Some(left), Some(right)) = (&self.left_edge, &self.right_edge) else {
            return Vec::new();
        };
        ring_between(left, right)
    }

    /// Which piece of the centre line a leg became, if any of it is left.
    #[must_use]
    pub fn piece_of(&self, origin: Origin) -> Option<usize> {
        self.origins.iter().position(|o| *o == origin)
    }
}

/// The border of what lies between a left and a right edge; see [`SolvedRoute::outline`].
pub(crate) fn ring_between(left: &Chain, right: &Chain) -> Vec<Chain> {
    if left.is_closed() && right.is_closed() {
        let mut rings = vec![left.clone(), right.clone()];
        rings.sort_by(|a, b| {
            let size = |ring: &Chain| ring.enclosed_area().abs();
            size(b).total_cmp(&size(a))
        });
        return rings;
    }
    let mut ring: Vec<Piece> = right.pieces().to_vec();
    ring.extend(Line::new(right.end(), left.end()).map(Piece::Line));
    ring.extend(left.reversed().pieces());
    ring.extend(Line::new(left.start(), right.start()).map(Piece::Line));
    Chain::new(ring, true).into_iter().collect()
}

impl Plan {
    /// Solves the whole plan. It never fails: what cannot be made is drawn as the nearest thing
    /// that can, and carries a finding.
    #[must_use]
    pub fn solve(&self) -> Solved {
        self.solve_after(None)
    }

    /// Solves the whole plan, taking over from what was `solved` of the plan before one edit
    /// whatever still holds of the ground. The answer is that of [`Plan::solve`].
    #[must_use]
    pub fn solve_after(&self, before: Option<&Solved>) -> Solved {
        let before = before.filter(|before| before.surroundings.are_of(&self.site));
        let surroundings = before.map_or_else(
            || Arc::new(Surroundings::of(&self.site)),
            |before| Arc::clone(&before.surroundings),
        );
        let mut findings = surroundings.findings().to_vec();
        let schemes = self
            .schemes
            .iter()
            .enumerate()
            .map(|(s, scheme)| {
                let mut routes = Vec::with_capacity(scheme.routes.len());
                for (r, route) in scheme.routes.iter().enumerate() {
                    look_at_junction(self, [s, r], route, &routes, &mut findings);
                    let mut solved = solve_route(self, [s, r], route, &mut findings);
                    let before = before
                        .and_then(|before| before.schemes.get(s)?.routes.get(r))
                        .map(|route| &route.nearby);
                    solved.nearby = Nearby::of(&solved, &surroundings, before);
                    solved.clearances = clearance::clearances(&solved, &surroundings);
                    solved.roots = clearance::root_shares(&solved, &surroundings);
                    let mut report = Report {
                        ruler: self.ruler(),
                        scheme: s,
                        route: r,
                        findings: &mut findings,
                    };
                    clearance::report(&solved, &surroundings, &mut report);
                    routes.push(solved);
                    rules::judge_route(self, [s, r], &routes, &mut findings);
                }
                let gaps = gaps::gaps(&routes);
                gaps::report((self.ruler(), s), scheme, &routes, &gaps, &mut findings);
                SolvedScheme {
                    letter: letter(s),
                    name: scheme.name.clone(),
                    routes,
                    gaps,
                }
            })
            .collect();
        findings.sort_by_key(|finding: &Finding| finding.severity);
        Solved {
            schemes,
            findings,
            surroundings,
        }
    }

    /// Solves a path that need not be part of the plan, without its findings.
    pub(crate) fn solve_alone(&self, route: &Route) -> SolvedRoute {
        solve_route(self, [0, 0], route, &mut Vec::new())
    }

    /// Solves one path alone, without its findings; `None` if it is not there.
    pub(crate) fn solve_path(&self, scheme: usize, route: usize) -> Option<SolvedRoute> {
        let meant = self.route(scheme, route)?;
        Some(solve_route(self, [scheme, route], meant, &mut Vec::new()))
    }
}

/// Collects the findings of one route.
pub(crate) struct Report<'a> {
    pub(crate) ruler: Ruler,
    scheme: usize,
    route: usize,
    findings: &'a mut Vec<Finding>,
}

/// Where the limits of this file come from.
const GEOMETRY: &str = "geometry";

impl Report<'_> {
    fn add(
        &mut self,
        kind: (Severity, Code),
        place: (Part, Point),
        sentence: String,
        figures: (Option<f64>, Option<f64>),
    ) {
        self.add_from(kind, place, sentence, figures, GEOMETRY);
    }

    pub(crate) fn add_from(
        &mut self,
        (severity, code): (Severity, Code),
        (part, at): (Part, Point),
        sentence: String,
        (value, limit): (Option<f64>, Option<f64>),
        source: &'static str,
    ) {
        self.findings.push(Finding {
            severity,
            code,
            place: Place {
                scheme: self.scheme,
                route: self.route,
                part,
                at,
            },
            sentence,
            value,
            limit,
            source,
        });
    }
}

fn solve_route(
    plan: &Plan,
    [s, r]: [usize; 2],
    route: &Route,
    findings: &mut Vec<Finding>,
) -> SolvedRoute {
    let mut report = Report {
        ruler: plan.ruler(),
        scheme: s,
        route: r,
        findings,
    };
    let start = route
        .start_direction
        .as_ref()
        .and_then(|heading| heading.direction(&plan.site));
    let end = route
        .end_direction
        .as_ref()
        .and_then(|heading| heading.direction(&plan.site));
    let legs = shape::legs(route, [start, end], &mut report);
    let (pieces, origins) = rounding::rounded(route, &legs, &mut report);
    let mut solved = SolvedRoute {
        name: route.name.clone(),
        width: route.width,
        centre_line: None,
        origins,
        left_edge: None,
        right_edge: None,
        beside: Default::default(),
        area: 0.0,
        legs,
        pads: Vec::new(),
        clearances: Vec::new(),
        roots: Vec::new(),
        nearby: Nearby::default(),
    };
    let Some(chain) = chain_of(pieces, route.closed) else {
        if !route.waypoints.is_empty() {
            let at = route.waypoints[0].at;
            report.add(
                (Severity::Note, Code::NothingToDraw),
                (Part::Whole, at),
                "no leg of this path can be drawn yet: give it waypoints apart from each other"
                    .into(),
                (None, None),
            );
        }
        solved.origins.clear();
        return solved;
    };
    look_at_bends(route, &solved, &chain, &mut report);
    look_at_directions(plan, route, &chain, &mut report);
    look_at_crossings(&chain, (Code::PathCrosses, "the path"), &mut report);
    let half = 0.5 * route.width;
    (solved.left_edge, solved.beside[0]) = edge(&chain, half, &solved.origins, &mut report);
    (solved.right_edge, solved.beside[1]) = edge(&chain, -half, &solved.origins, &mut report);
    let rings = solved.outline();
    let areas = rings.iter().map(|ring| ring.enclosed_area().abs());
    solved.area = areas.reduce(|outer, inner| outer - inner).unwrap_or(0.0);
    solved.pads = pads::outlines(route, &chain, &mut report);
    solved.centre_line = Some(chain);
    solved
}

/// The chain of the pieces; legs left out because their ends coincide may leave gaps of a hair,
/// which are closed by straights.
fn chain_of(pieces: Vec<Piece>, closed: bool) -> Option<Chain> {
    match Chain::new(pieces.clone(), closed) {
        Ok(chain) => Some(chain),
        Err(geometry::ChainError::Empty) => None,
        Err(geometry::ChainError::Gap { .. }) => Chain::new(pieces, false).ok(),
    }
}

/// A first peg nearer to its edge than this stands on it: a millimetre, which no peg can tell
/// apart.
const ON_THE_EDGE: f64 = 1e-3;

/// Whether a path starts on the edge of the one before it where it is to start.
fn look_at_junction(
    plan: &Plan,
    [scheme, index]: [usize; 2],
    route: &Route,
    before: &[SolvedRoute],
    findings: &mut Vec<Finding>,
) {
    let (Some(junction), Some(first)) = (&route.start_on, route.waypoints.first()) else {
        return;
    };
    let host = junction.route.checked_sub(1).and_then(|i| before.get(i));
    let off = host
        .and_then(|host| host.place_of(junction))
        .map(|place| place.distance(first.at));
    let (side, number) = (junction.side.word(), junction.route);
    let ruler = plan.ruler();
    let sentence = match off {
        Some(off) if off <= ON_THE_EDGE => return,
        Some(off) => format!(
            "the path starts {} off its place on the {side} edge of path {number}: let go of what its first leg holds, or drag its first peg",
            ruler.exact(off)
        ),
        None => format!(
            "the {side} edge of path {number}, which this path starts from, is not there: put path {number} right first"
        ),
    };
    let mut report = Report {
        ruler,
        scheme,
        route: index,
        findings,
    };
    report.add(
        (Severity::Care, Code::OffItsEdge),
        (Part::Waypoint(0), first.at),
        sentence,
        (off, Some(ON_THE_EDGE)),
    );
}

/// A bend with a radius over so many chords reads as a straight on screen.
pub const FLAT: f64 = 1e6;

fn look_at_bends(route: &Route, solved: &SolvedRoute, chain: &Chain, report: &mut Report<'_>) {
    for (piece, origin) in chain.pieces().iter().zip(&solved.origins) {
        let (Origin::Leg(leg) | Origin::SecondBend(leg)) = *origin else {
            continue;
        };
        let bend = piece.arc().map(geometry::Arc::bend);
        let chord = piece.start().distance(piece.end());
        // A bend pressed quite flat is drawn as a straight and has no radius.
        let radius = bend.map(|bend| bend.radius());
        let flat = radius.map_or(
            matches!(route.legs.get(leg), Some(Shape::Bend { .. })),
            |radius| radius > FLAT * chord,
        );
        let place = (Part::Leg(leg), piece.point_at(0.5 * piece.length()));
        if let Some(bend) = bend.filter(geometry::Bend::is_half_circle_or_more) {
            report.add(
                (Severity::Note, Code::HalfCircle),
                place,
                format!(
                    "this bend turns through {}: half a circle or more has no tangent lengths, and its string needs that much free sweep",
                    angle_text(bend.sweep())
                ),
                (Some(bend.sweep()), Some(std::f64::consts::PI)),
            );
        } else if flat {
            report.add(
                (Severity::Note, Code::ReadsAsStraight),
                place,
                "this bend is so flat that it reads as a straight".into(),
                (radius, Some(FLAT * chord)),
            );
        }
    }
}

/// A direction missed by less than this is met: over the one metre in which a path should run
/// square to a door it is less than a millimetre.
const DIRECTION_MET: f64 = 1e-3;

fn look_at_directions(plan: &Plan, route: &Route, chain: &Chain, report: &mut Report<'_>) {
    let last = route.waypoints.len().saturating_sub(1);
    let ends: [(&Option<Heading>, _, usize, &str); 2] = [
        (&route.start_direction, chain.direction_at(0.0), 0, "leaves"),
        (
            &route.end_direction,
            chain.pieces()[chain.pieces().len() - 1].end_direction(),
            if route.closed { 0 } else { last },
            "arrives",
        ),
    ];
    for (heading, actual, waypoint, verb) in ends {
        let Some(wanted) = heading.as_ref().and_then(|h| h.direction(&plan.site)) else {
            continue;
        };
        let miss = wanted.turn_to(actual);
        if miss.abs() > DIRECTION_MET {
            let side = if miss > 0.0 { "left" } else { "right" };
            report.add(
                (Severity::Care, Code::DirectionMissed),
                (Part::Waypoint(waypoint), route.waypoints[waypoint].at),
                format!(
                    "the path {verb} {} too far to the {side} of the direction asked for",
                    angle_text(miss.abs())
                ),
                (Some(miss.abs()), Some(0.0)),
            );
        }
    }
}

fn look_at_crossings(chain: &Chain, (code, what): (Code, &str), report: &mut Report<'_>) {
    for crossing in chain.self_crossings() {
        report.add(
            (Severity::Care, code),
            (Part::Whole, crossing.point),
            format!(
                "{what} crosses itself, {} and again {} from the start",
                report.ruler.text(crossing.first),
                report.ruler.text(crossing.second)
            ),
            (Some(crossing.first), None),
        );
    }
}

fn part_of(origin: Option<&Origin>) -> Part {
    match origin {
        Some(Origin::Leg(leg) | Origin::SecondBend(leg)) => Part::Leg(*leg),
        Some(Origin::Rounding(waypoint)) => Part::Waypoint(*waypoint),
        None => Part::Whole,
    }
}

fn edge(
    chain: &Chain,
    offset: f64,
    origins: &[Origin],
    report: &mut Report<'_>,
) -> (Option<Chain>, Vec<usize>) {
    let edge = chain.offset(offset);
    let name = if offset > 0.0 { "left" } else { "right" };
    let part = |piece: usize| part_of(origins.get(piece));
    for trouble in edge.troubles {
        match trouble {
            OffsetTrouble::Collapsed { piece, radius } => {
                let half = report.ruler.text(offset.abs());
                let bend = chain.pieces()[piece].arc();
                let drawn = bend.map_or(0.0, geometry::Arc::radius);
                report.add(
                    (Severity::Stop, Code::InnerEdge),
                    (part(piece), chain.pieces()[piece].point_at(0.5 * chain.pieces()[piece].length())),
                    format!(
                        "the {name} edge has no radius left: the bend's radius {} must be more than half the width, {half}",
                        report.ruler.text(drawn)
                    ),
                    (Some(radius), Some(0.0)),
                );
            }
            OffsetTrouble::Untrimmed { piece } => report.add(
                (Severity::Care, Code::EdgeUntrimmed),
                (part(piece), chain.pieces()[piece].start()),
                format!("the {name} edge does not come together here: the legs are too short or too sharply turned for the width"),
                (None, None),
            ),
        }
    }
    if let Some(chain) = &edge.chain {
        let what = format!("the {name} edge");
        look_at_crossings(chain, (Code::EdgeCrosses, &what), report);
    }
    (edge.chain, edge.sources)
}

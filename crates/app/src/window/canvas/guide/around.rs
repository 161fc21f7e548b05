//! What is near a place: the pegs next along the path, points, and lines of path and site.

use geometry::{Direction, Point};
use plan::document::{Extent, Mark, Obstacle, ObstacleKind, Route, Shape, Waypoint};
use plan::limits::SHORTEST;
use plan::solve::SolvedRoute;

use super::track::Track;
use super::{Around, Side, Spot, Why};

/// A peg next along the path to the place that is looked at.
pub(super) struct Neighbour {
    waypoint: Option<usize>,
    pub(super) at: Point,
    spot: Spot,
    /// From this peg to the place, the way in which the path would run on.
    ahead: Option<(Direction, Ahead)>,
}

/// What the way ahead comes from.
enum Ahead {
    /// The leg beyond the peg, on this side.
    Leg(Side),
    /// The direction asked for at this end.
    Heading(Side),
    /// The side of a thing on the site that ends at this corner.
    Side,
}

impl Neighbour {
    /// A corner beside the one that is looked at, and the way its own straight side runs to it.
    pub(super) fn corner(at: Point, spot: Spot, side: Option<Direction>) -> Self {
        Self {
            waypoint: None,
            at,
            spot,
            ahead: side.map(|way| (way, Ahead::Side)),
        }
    }
}

/// The lines looked at for where two meet: the nearest ones.
const MOST_LINES: usize = 8;
/// The marks between which lines are looked for: the nearest ones. Lines between more would leave
/// no free ground.
const MOST_MARKS: usize = 40;
/// How far the line of a wall is followed beyond its ends, in its own lengths: farther, some line
/// or other would run everywhere.
const FOLLOWED: f64 = 1.0;
/// Both ways along a line without end.
const ALL: [f64; 2] = [f64::NEG_INFINITY, f64::INFINITY];
/// Ahead of a peg only, where the path does not double back.
const AHEAD: [f64; 2] = [SHORTEST, f64::INFINITY];

impl<'a> Around<'a> {
    fn route(&self) -> Option<&'a Route> {
        self.plan.route(self.scheme, self.route)
    }

    fn solved_route(&self, route: usize) -> Option<&'a SolvedRoute> {
        self.solved.schemes.get(self.scheme)?.routes.get(route)
    }

    fn spot(&self, route: usize, waypoint: usize) -> Spot {
        let number = self
            .solved_route(route)
            .and_then(|solved| *solved.pegs_of_waypoints(waypoint + 1).get(waypoint)?);
        number.map_or(Spot::Corner(waypoint + 1), Spot::Peg)
    }

    /// The pegs next to the place: the one before first.
    pub(super) fn neighbours(&self) -> Vec<Neighbour> {
        match (self.waypoint, self.from) {
            (Some(waypoint), _) => self.beside(waypoint).unwrap_or_default(),
            (None, Some(from)) if from.is_finite() => vec![self.led_from(from)],
            (None, _) => Vec::new(),
        }
    }

    fn beside(&self, waypoint: usize) -> Option<Vec<Neighbour>> {
        let route = self.route()?;
        let (before, after) = route.legs_at(waypoint);
        let mut all: Vec<Neighbour> = Vec::new();
        for (leg, side) in [(before, Side::Before), (after, Side::After)] {
            let Some((leg, ends)) = leg.and_then(|leg| Some((leg, route.ends_of(leg)?))) else {
                continue;
            };
            let next = if side == Side::Before { ends.0 } else { ends.1 };
            let known = all.iter().any(|other| other.waypoint == Some(next));
            if let (Some(w), false) = (route.waypoints.get(next), known || next == waypoint) {
                all.push(Neighbour {
                    waypoint: Some(next),
                    at: w.at,
                    spot: self.spot(self.route, next),
                    ahead: self.ahead(route, [waypoint, next], leg, side),
                });
            }
        }
        Some(all)
    }

    /// The way from the next waypoint to the moved one in which their leg runs on smoothly from the
    /// leg beyond. A bend keeps its sweep while its peg is moved, so its chord keeps its angle to
    /// the way it leaves; where a typed figure holds instead, or the leg bends itself to run
    /// smoothly, there is no such line.
    fn ahead(
        &self,
        route: &Route,
        [moved, next]: [usize; 2],
        leg: usize,
        side: Side,
    ) -> Option<(Direction, Ahead)> {
        let solved = self.solved_route(self.route)?;
        let to_chord = match route.legs.get(leg)? {
            Shape::Straight => None,
            Shape::Bend { holds, .. } if holds.is_empty() => {
                let [bend] = solved.legs.get(leg)?.as_slice() else {
                    return None;
                };
                let away = match side {
                    Side::Before => *bend,
                    Side::After => bend.reversed(),
                };
                let chord = Direction::of(away.end() - away.start())?;
                Some(away.start_direction().turn_to(chord))
            }
            Shape::Bend { .. } | Shape::Onward | Shape::TwoBends => return None,
        };
        let beyond = match (route.legs_at(next), side) {
            ((beyond, _), Side::Before) | ((_, beyond), Side::After) => beyond,
        };
        let (way, ahead) = match beyond {
            Some(beyond) => {
                let (start, end) = route.ends_of(beyond)?;
                let stays = match route.legs.get(beyond)? {
                    Shape::Straight | Shape::Bend { .. } => start != moved && end != moved,
                    // It takes its way from the legs before it: round a loop, from the moved one.
                    Shape::Onward => side == Side::Before && !route.closed,
                    Shape::TwoBends => false,
                };
                if !stays {
                    return None;
                }
                (self.out_of(beyond, side)?, Ahead::Leg(side))
            }
            None => (self.asked(route, side)?, Ahead::Heading(side)),
        };
        Some((to_chord.map_or(way, |turn| way.turned(turn)), ahead))
    }

    /// The way a leg points out of its end, or backwards out of its start.
    fn out_of(&self, leg: usize, side: Side) -> Option<Direction> {
        let pieces = self.solved_route(self.route)?.legs.get(leg)?;
        Some(match side {
            Side::Before => pieces.last()?.end_direction(),
            Side::After => pieces.first()?.start_direction().reversed(),
        })
    }

    /// The direction asked for at an end, into the path.
    fn asked(&self, route: &Route, side: Side) -> Option<Direction> {
        let site = &self.plan.site;
        match side {
            Side::Before => route.start_direction.as_ref()?.direction(site),
            Side::After => {
                let arrives = route.end_direction.as_ref()?.direction(site);
                arrives.map(Direction::reversed)
            }
        }
    }

    fn led_from(&self, from: Point) -> Neighbour {
        let unknown = Neighbour {
            waypoint: None,
            at: from,
            spot: Spot::Start,
            ahead: None,
        };
        let Some(route) = self.route() else {
            return unknown;
        };
        let here = |w: &Waypoint| w.at == from;
        let last = route.waypoints.len().wrapping_sub(1);
        let (waypoint, side) = if route.waypoints.last().is_some_and(here) {
            (last, Side::Before)
        } else if route.waypoints.first().is_some_and(here) {
            (0, Side::After)
        } else {
            return unknown;
        };
        let leg = match side {
            Side::Before => route.legs_at(waypoint).0,
            Side::After => route.legs_at(waypoint).1,
        };
        let ahead = match leg {
            Some(leg) => self.out_of(leg, side).map(|way| (way, Ahead::Leg(side))),
            None => self
                .asked(route, side)
                .map(|way| (way, Ahead::Heading(side))),
        };
        Neighbour {
            waypoint: Some(waypoint),
            at: from,
            spot: self.spot(self.route, waypoint),
            ahead,
        }
    }

    /// The nearest mark, peg or corner in reach; of those equally near, the first in this order.
    pub(super) fn nearest_point(
        &self,
        neighbours: &[Neighbour],
        to: Point,
    ) -> Option<(Point, Why)> {
        enum What<'b> {
            Mark(&'b Mark),
            Peg(usize, usize),
            Corner(&'b Obstacle, usize),
        }
        let marks = self
            .plan
            .site
            .marks
            .iter()
            .map(|mark| (mark.at, What::Mark(mark)));
        let routes = self.plan.schemes.get(self.scheme).into_iter();
        let routes = routes.flat_map(|scheme| scheme.routes.iter().enumerate());
        let pegs = routes.flat_map(|(r, route)| {
            let waypoints = route.waypoints.iter().enumerate();
            waypoints.map(move |(w, waypoint)| (waypoint.at, What::Peg(r, w)))
        });
        let corners = self.fixed().flat_map(|obstacle| {
            let points = obstacle.extent.corners().into_iter().enumerate();
            points.map(move |(i, at)| (at, What::Corner(obstacle, i)))
        });
        let beside = |waypoint: usize| {
            let waypoint = Some(waypoint);
            waypoint == self.waypoint || neighbours.iter().any(|peg| peg.waypoint == waypoint)
        };
        let mut best: Option<(f64, Point, What<'_>)> = None;
        for (at, what) in marks.chain(pegs).chain(corners) {
            let off = at.distance(to);
            if off > self.reach || best.as_ref().is_some_and(|(least, ..)| *least <= off) {
                continue;
            }
            let own = matches!(what, What::Peg(r, w) if r == self.route && beside(w));
            // A leg from a peg to the same place would be none.
            if !own && neighbours.iter().all(|peg| peg.at.distance(at) >= SHORTEST) {
                best = Some((off, at, what));
            }
        }
        let (_, at, what) = best?;
        let why = match what {
            What::Mark(mark) => Why::AtMark(mark.name.clone()),
            What::Peg(r, w) => {
                let other = (r != self.route).then(|| self.solved_route(r)).flatten();
                Why::AtPeg(self.spot(r, w), other.map(|route| route.name.clone()))
            }
            What::Corner(obstacle, i) => {
                let name = obstacle.name.clone();
                match &obstacle.extent {
                    Extent::Line(points) if i == 0 || i + 1 == points.len() => Why::AtEnd(name),
                    _ => Why::AtCorner(name),
                }
            }
        };
        Some((at, why))
    }

    /// What stands on the site with sides that can be seen and sighted along.
    fn fixed(&self) -> impl Iterator<Item = &'a Obstacle> {
        self.plan.site.obstacles.iter().filter(|obstacle| {
            matches!(
                obstacle.kind,
                ObstacleKind::Wall
                    | ObstacleKind::Building
                    | ObstacleKind::Bed
                    | ObstacleKind::Boundary
            )
        })
    }

    /// The lines in reach, nearest first: those of the path before those of the site.
    pub(super) fn tracks(&self, neighbours: &[Neighbour], to: Point, to_site: bool) -> Vec<Track> {
        let mut found = Found {
            to,
            reach: self.reach,
            tracks: Vec::new(),
        };
        self.look_along_path(neighbours, &mut found);
        if to_site {
            self.look_along_site(&mut found);
        }
        let mut tracks = found.tracks;
        tracks.sort_by(|a, b| a.off.total_cmp(&b.off));
        tracks.truncate(MOST_LINES);
        tracks
    }

    fn look_along_path(&self, neighbours: &[Neighbour], found: &mut Found) {
        for peg in neighbours {
            match peg.ahead {
                Some((way, Ahead::Leg(side))) => {
                    found.look_from(peg, way, AHEAD, Why::Smooth(side));
                    found.look_from(peg, way.left(), ALL, Why::Square(side));
                }
                Some((way, Ahead::Heading(side))) => {
                    found.look_from(peg, way, AHEAD, Why::Heading(side));
                }
                Some((way, Ahead::Side)) => {
                    found.look_from(peg, way, AHEAD, Why::InLine);
                    found.look_from(peg, way.left(), ALL, Why::SquareSide);
                }
                None => {}
            }
        }
        if let [before, after] = neighbours
            && self.straight_on_both_sides()
            && let Some(way) = Direction::of(after.at - before.at)
        {
            let part = [0.0, before.at.distance(after.at)];
            let why = || Why::Between(before.spot, after.spot);
            found.look((before.at, way), (part, part), Some(before.at), why);
        }
        for peg in neighbours {
            found.look_from(peg, Direction::EAST, ALL, Why::Level(peg.spot));
            let above = found.to.y >= peg.at.y;
            let why = if above { Why::Above } else { Why::Below };
            found.look_from(peg, Direction::NORTH, ALL, why(peg.spot));
        }
    }

    fn straight_on_both_sides(&self) -> bool {
        let legs = self
            .route()
            .zip(self.waypoint)
            .map(|(route, waypoint)| (route, route.legs_at(waypoint)));
        let Some((route, (Some(before), Some(after)))) = legs else {
            return false;
        };
        [before, after].map(|leg| route.legs.get(leg)) == [Some(&Shape::Straight); 2]
    }

    fn look_along_site(&self, found: &mut Found) {
        for obstacle in self.fixed() {
            for side in sides(&obstacle.extent) {
                found.look_between(side, FOLLOWED, || Why::OnLine(obstacle.name.clone()));
            }
        }
        let mut marks: Vec<&Mark> = self.plan.site.marks.iter().collect();
        if marks.len() > MOST_MARKS {
            let off = |mark: &&Mark| (mark.at - found.to).dot(mark.at - found.to);
            marks.sort_by(|a, b| off(a).total_cmp(&off(b)));
            marks.truncate(MOST_MARKS);
        }
        for (i, first) in marks.iter().enumerate() {
            for second in &marks[i + 1..] {
                found.look_between([first.at, second.at], 0.0, || {
                    Why::OnMarks(first.name.clone(), second.name.clone())
                });
            }
        }
    }
}

/// Collects the lines in reach.
struct Found {
    to: Point,
    reach: f64,
    tracks: Vec<Track>,
}

impl Found {
    fn look(
        &mut self,
        (at, way): (Point, Direction),
        (part, shown): ([f64; 2], [f64; 2]),
        pivot: Option<Point>,
        why: impl FnOnce() -> Why,
    ) {
        let unit = way.unit();
        let (along, off) = (unit.dot(self.to - at), unit.cross(self.to - at).abs());
        if off <= self.reach && (part[0]..=part[1]).contains(&along) {
            self.tracks.push(Track {
                order: self.tracks.len(),
                at,
                unit,
                part,
                shown,
                pivot,
                off,
                why: why(),
            });
        }
    }

    /// A line from one point to another, followed beyond both by so many of its lengths.
    fn look_between(&mut self, [start, end]: [Point; 2], followed: f64, why: impl FnOnce() -> Why) {
        let (side, to) = (end - start, self.to - start);
        // Most are far off, and known to be without a root or a division.
        if side.cross(to).powi(2) > 1.01 * self.reach.powi(2) * side.dot(side) {
            return;
        }
        if let Some(way) = Direction::of(side) {
            let length = side.length();
            let part = [-followed * length, (1.0 + followed) * length];
            self.look((start, way), (part, [0.0, length]), None, why);
        }
    }

    /// A line through a neighbouring peg.
    fn look_from(&mut self, peg: &Neighbour, way: Direction, part: [f64; 2], why: Why) {
        self.look((peg.at, way), (part, [0.0; 2]), Some(peg.at), || why);
    }
}

fn sides(extent: &Extent) -> impl Iterator<Item = [Point; 2]> + '_ {
    (0..extent.count())
        .filter_map(|side| extent.side(side))
        .map(|(from, to)| [from, to])
}

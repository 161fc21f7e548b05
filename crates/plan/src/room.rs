//! The room a bend has: every rise at which the path still keeps clear, and which to take of them.

use std::collections::BTreeMap;
use std::ops::Range;

use geometry::{
    Chain, Keep, Line, MITRE_REACH, NARROWEST_RANGE, Piece, Point, RiseRange, rises_that_fit,
};

use crate::clearance::is_in_path;
use crate::document::{Plan, Route, Shape};
use crate::edit::LegId;
use crate::solve::{Origin, SolvedRoute};
use crate::surroundings::{IN_SIGHT, Surroundings};

/// The rises at which a bend keeps clear of everything, between one chord to either side.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// The rises that fit, in ascending order; `below` and `above` are obstacles, counted from 0.
    pub ranges: Vec<RiseRange>,
    /// If none fits: what stands against what.
    pub contradiction: Option<Contradiction>,
}

/// What keeps every rise from fitting, told at the rise that comes nearest to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Contradiction {
    /// The obstacles that would be come too near: two that ask for opposite things, or one that no
    /// rise keeps clear of.
    pub obstacles: Vec<usize>,
    /// The rise at which the least is missing.
    pub rise: f64,
    /// How much is missing there, in metres.
    pub missing: f64,
}

impl Room {
    /// Whether a rise keeps clear of everything.
    #[must_use]
    pub fn fits(&self, rise: f64) -> bool {
        let inside = |range: &&RiseRange| range.from <= rise && rise <= range.to;
        self.ranges.iter().find(inside).is_some()
    }

    /// The rise that fits and is nearest to `rise`.
    #[must_use]
    pub fn nearest(&self, rise: f64) -> Option<f64> {
        let held = self.ranges.iter().map(|r| rise.clamp(r.from, r.to));
        held.min_by(|a, b| (a - rise).abs().total_cmp(&(b - rise).abs()))
    }

    /// The range that holds a rise, or the one nearest to it.
    #[must_use]
    pub fn range_about(&self, rise: f64) -> Option<&RiseRange> {
        let off = |range: &RiseRange| (rise.clamp(range.from, range.to) - rise).abs();
        self.ranges.iter().min_by(|a, b| off(a).total_cmp(&off(b)))
    }

    /// The least rise of the range about `rise`, on the side to which that points.
    #[must_use]
    pub fn shallowest(&self, rise: f64) -> Option<f64> {
        let [least, _] = self.sizes_about(rise)?;
        Some(least.copysign(rise))
    }

    /// The greatest rise of the range about `rise`, on the side to which that points; `None` where
    /// nothing stands in the way there.
    #[must_use]
    pub fn deepest(&self, rise: f64) -> Option<f64> {
        let range = self.range_about(rise)?;
        let by = if rise < 0.0 { range.below } else { range.above };
        let [_, most] = self.sizes_about(rise)?;
        by.map(|_| most.copysign(rise))
    }

    /// The rise of the range about `rise` that has the greatest radius over this chord, on the side
    /// to which it points. Past a half circle the radius grows again with the rise.
    #[must_use]
    pub fn gentlest(&self, rise: f64, chord: f64) -> Option<f64> {
        let radius = |size: &f64| chord * chord / (8.0 * size) + 0.5 * size;
        let ends = self.sizes_about(rise)?.into_iter();
        ends.max_by(|a, b| radius(a).total_cmp(&radius(b)))
            .map(|size| size.copysign(rise))
    }

    /// The least and the greatest size of the rises of the range about `rise` that point to its
    /// side.
    fn sizes_about(&self, rise: f64) -> Option<[f64; 2]> {
        let range = self.range_about(rise)?;
        let sign = 1.0_f64.copysign(rise);
        let mut sizes = [range.from * sign, range.to * sign];
        sizes.sort_by(f64::total_cmp);
        (sizes[1] > 0.0).then(|| sizes.map(|size| size.max(0.0)))
    }

    /// The rise nearest to one that fits which is a whole number of `step`s and fits as well; the
    /// rise itself where there is none.
    #[must_use]
    pub fn on_step(&self, rise: f64, step: f64) -> f64 {
        let whole = [(rise / step).floor() * step, (rise / step).ceil() * step];
        let fitting = whole.into_iter().filter(|rise| self.fits(*rise));
        let off = |other: &f64| (other - rise).abs();
        let nearest = fitting.min_by(|a, b| off(a).total_cmp(&off(b)));
        nearest.unwrap_or(rise)
    }
}

/// No rise farther out than so many chords is looked at: past one the bend is nearly a whole circle.
const FARTHEST: f64 = 1.0;

/// The longest step from one rise to the next that is looked at, in chords.
const LONGEST_STEP: f64 = 1.0 / 32.0;

/// The shortest, in metres: half of the narrowest room that must not be stepped over.
const SHORTEST_STEP: f64 = 1e-3;

/// Ends of a range are found to a hundredth of a millimetre.
const FOUND: f64 = 0.5 * NARROWEST_RANGE;

/// By so much a rise is made to grow to see how fast the path moves, in metres.
const HAIR: f64 = 1e-6;

/// How much faster the path is taken to move than it does where that is looked at.
const MARGIN: f64 = 1.5;

/// Up to where the edges come together in another way it is looked in so many steps.
const CLOSELY: u32 = 16;

/// The step from rise to rise where a corner is so sharp that its mitre comes and goes, in metres.
const JUMPING_STEP: f64 = 4e-3;

/// A mitre is about to be cut square from this share of its greatest reach on.
const ABOUT_TO_BE_CUT: f64 = 0.75;

impl Plan {
    /// The room that a free bend has between its pegs, all else staying as it is; `None` for what
    /// is no free bend.
    ///
    /// Where the path is this bend alone the ends of the ranges are roots of quadratics. Where other
    /// legs turn or are trimmed with it, the path is solved at one rise after the other, in steps
    /// as long as what is to spare or missing allows, and the ends are closed in upon.
    #[must_use]
    pub fn room(&self, id: LegId, surroundings: &Surroundings) -> Option<Room> {
        let route = self.route(id.scheme, id.route)?;
        if !matches!(route.legs.get(id.leg)?, Shape::Bend { .. }) {
            return None;
        }
        let (from, to) = route.ends_of(id.leg)?;
        let pegs = [route.waypoints.get(from)?.at, route.waypoints.get(to)?.at];
        let chord = pegs[0].distance(pegs[1]);
        Line::new(pegs[0], pegs[1]).ok()?;
        let trial = Trial::new(self, route, id, surroundings);
        let most = FARTHEST * chord;
        let mut looked = Vec::new();
        let mut ranges = Vec::new();
        if route.legs.len() == 1 {
            ranges = trial.closed_form(pegs, most);
        }
        if ranges.is_empty() {
            looked = trial.look_along(most, chord);
            ranges = trial.ranges(&looked);
        }
        let contradiction = ranges
            .is_empty()
            .then(|| trial.contradiction(&looked))
            .flatten();
        Some(Room {
            ranges,
            contradiction,
        })
    }
}

/// One rise that was looked at, what is to spare there, and which obstacle has the least of it.
#[derive(Clone, Copy, Debug)]
struct Looked {
    rise: f64,
    to_spare: f64,
    obstacle: Option<usize>,
    pace: Pace,
    /// How many pieces both edges have.
    joints: [usize; 2],
}

/// How fast a path may come nearer to something as a rise grows.
#[derive(Clone, Copy, Debug)]
enum Pace {
    /// At most so many metres a metre.
    AtMost(f64),
    /// The tip of a mitre may come and go at once.
    Jumps,
}

/// A part of a path round a bend, to be solved again and again with other rises.
struct Trial<'a> {
    plan: &'a Plan,
    surroundings: &'a Surroundings,
    part: Route,
    /// Which leg of the part is the bend.
    leg: usize,
    /// Which legs of the part change with it.
    changing: Range<usize>,
    /// Whether its first and last peg are those of the path.
    ends: [bool; 2],
    /// What the ends of the path lead up to, and may touch.
    doorsteps: Vec<usize>,
}

impl<'a> Trial<'a> {
    fn new(plan: &'a Plan, route: &Route, id: LegId, surroundings: &'a Surroundings) -> Self {
        let count = route.legs.len();
        let own = |leg: usize| matches!(route.legs[leg], Shape::Straight | Shape::Bend { .. });
        // Two bends before it arrive as it leaves; what leads on from it turns with it.
        let mut first = id.leg;
        if first > 0 && matches!(route.legs[first - 1], Shape::TwoBends) {
            first -= 1;
        }
        let mut end = id.leg + 1;
        while end < count && !own(end) {
            end += 1;
        }
        // One leg more at each side meets it in a corner or rounding, and another may take room
        // from that one; where a leg takes its direction from the one before, that one too.
        let mut low = first.saturating_sub(2);
        while low > 0 && !own(low) {
            low -= 1;
        }
        let mut high = (end + 2).min(count);
        while high < count && !own(high - 1) {
            high += 1;
        }
        if route.closed {
            (low, high) = (0, count);
        }
        let whole = [low == 0 && !route.closed, high == count && !route.closed];
        let part = if low == 0 && high == count {
            route.clone()
        } else {
            Route {
                width: route.width,
                waypoints: route.waypoints[low..=high].to_vec(),
                legs: route.legs[low..high].to_vec(),
                start_direction: route.start_direction.clone().filter(|_| whole[0]),
                end_direction: route.end_direction.clone().filter(|_| whole[1]),
                ..Route::default()
            }
        };
        let mut doorsteps = Vec::new();
        for (is_end, at) in whole.iter().zip([
            route.waypoints.first().map(|w| w.at),
            route.waypoints.last().map(|w| w.at),
        ]) {
            if let (true, Some(at)) = (*is_end, at) {
                doorsteps.extend(surroundings.patches_at(at));
            }
        }
        Self {
            plan,
            surroundings,
            part,
            leg: id.leg - low,
            changing: first - low..end - low,
            ends: whole,
            doorsteps,
        }
    }

    fn with(&self, rise: f64) -> Route {
        let mut part = self.part.clone();
        part.legs[self.leg] = Shape::bend(rise);
        part
    }

    fn solved(&self, rise: f64) -> SolvedRoute {
        self.plan.solve_alone(&self.with(rise))
    }

    /// What is to spare, by obstacle.
    fn spares(&self, solved: &SolvedRoute) -> BTreeMap<usize, f64> {
        let mut spares = BTreeMap::new();
        let mut note = |patch: usize, distance: f64| {
            let least = spares
                .entry(self.surroundings.obstacle_of(patch))
                .or_insert(f64::INFINITY);
            *least = f64::min(*least, distance - self.wanted_by(patch));
        };
        let ground = self.surroundings.ground();
        let reach = self.surroundings.reach();
        for piece in self.borders(solved) {
            for (patch, gap) in ground.near(&piece, reach) {
                note(patch, gap.distance);
            }
        }
        let half = 0.5 * solved.width;
        let centre = solved.centre_line.as_ref().map_or(&[][..], Chain::pieces);
        for (index, piece) in centre.iter().enumerate() {
            if !self.is_changing(solved, index) {
                continue;
            }
            for (patch, gap) in ground.near(piece, half) {
                let stands = crate::clearance::stands(&ground.patches()[patch]);
                if stands.is_some_and(|at| is_in_path(at, index, solved)) {
                    note(patch, gap.distance - half);
                }
            }
        }
        spares
    }

    /// The clearance a patch wants of this path: what its ends lead up to may be touched.
    fn wanted_by(&self, patch: usize) -> f64 {
        if self.doorsteps.contains(&patch) {
            -crate::clearance::OUT_OF_SQUARE
        } else {
            self.surroundings.wanted_by(patch)
        }
    }

    fn is_changing(&self, solved: &SolvedRoute, piece: usize) -> bool {
        match solved.origins.get(piece) {
            Some(Origin::Leg(leg) | Origin::SecondBend(leg)) => self.changing.contains(leg),
            Some(Origin::Rounding(waypoint)) => {
                self.changing.contains(waypoint) || self.changing.end == *waypoint
            }
            None => false,
        }
    }

    /// The parts of the outline that change: the edges beside the changing pieces, one width more
    /// of those beside their neighbours, where corners are trimmed, and the ends of the path.
    fn borders(&self, solved: &SolvedRoute) -> Vec<Piece> {
        let count = solved.origins.len();
        let changes = |piece: &usize| self.is_changing(solved, *piece);
        let (Some(first), Some(last)) = ((0..count).find(changes), (0..count).rfind(changes))
        else {
            return Vec::new();
        };
        let mut borders = Vec::new();
        let edges = [&solved.left_edge, &solved.right_edge];
        for (edge, beside) in edges.into_iter().zip(&solved.beside) {
            let pieces = edge.as_ref().map_or(&[][..], Chain::pieces);
            for (index, (piece, source)) in pieces.iter().zip(beside).enumerate() {
                let length = piece.length();
                // What leads to the neighbour after has its number too.
                let leads_there = *source == last + 1 && beside.get(index + 1) == Some(source);
                if (first..=last).contains(source) || leads_there {
                    borders.push(*piece);
                } else if source + 1 == first {
                    borders.extend(piece.between((length - solved.width).max(0.0), length));
                } else if *source == last + 1 {
                    borders.extend(piece.between(0.0, solved.width.min(length)));
                }
            }
        }
        if let (Some(left), Some(right)) = (&solved.left_edge, &solved.right_edge) {
            let caps = [
                (self.ends[0] && first == 0, left.start(), right.start()),
                (self.ends[1] && last + 1 == count, left.end(), right.end()),
            ];
            for (is_end, from, to) in caps {
                borders.extend(
                    is_end
                        .then(|| Line::new(from, to).ok())
                        .flatten()
                        .map(Piece::Line),
                );
            }
        }
        borders
    }

    fn look(&self, rise: f64) -> Looked {
        let solved = self.solved(rise);
        let spares = self.spares(&solved);
        let least = spares.iter().min_by(|a, b| a.1.total_cmp(b.1));
        // What is not in reach has at least so much to spare.
        let mut looked = Looked {
            rise,
            to_spare: IN_SIGHT,
            obstacle: None,
            pace: self.pace(rise, &solved),
            joints: [&solved.left_edge, &solved.right_edge]
                .map(|edge| edge.as_ref().map_or(0, |edge| edge.pieces().len())),
        };
        if let Some((obstacle, to_spare)) = least
            && *to_spare < looked.to_spare
        {
            (looked.to_spare, looked.obstacle) = (*to_spare, Some(*obstacle));
        }
        // Without an inner edge nothing fits.
        if let Some(radius) = self.radius(&solved) {
            let inner = radius - 0.5 * solved.width;
            if inner < looked.to_spare.min(0.0) {
                (looked.to_spare, looked.obstacle) = (inner, None);
            }
        }
        looked
    }

    /// The radius of the bend itself, in metres; a straight has none.
    fn radius(&self, solved: &SolvedRoute) -> Option<f64> {
        Some(solved.legs.get(self.leg)?.first()?.arc()?.radius())
    }

    /// How fast the path moves as the rise grows: how far its edges' joints and middles go when it
    /// grows by a hair.
    fn pace(&self, rise: f64, solved: &SolvedRoute) -> Pace {
        if self.is_about_to_jump(solved) {
            return Pace::Jumps;
        }
        let moved = self.solved(rise + HAIR);
        let mut fastest = 1.0_f64;
        for (now, then) in [
            (&solved.left_edge, &moved.left_edge),
            (&solved.right_edge, &moved.right_edge),
        ] {
            let [now, then] = [now, then].map(|edge| edge.as_ref().map_or(&[][..], Chain::pieces));
            if now.len() != then.len() {
                return Pace::Jumps;
            }
            for (now, then) in now.iter().zip(then) {
                let middle = |piece: &Piece| piece.point_at(0.5 * piece.length());
                let ways = [
                    now.start().distance(then.start()),
                    now.end().distance(then.end()),
                    middle(now).distance(middle(then)),
                ];
                fastest = ways
                    .into_iter()
                    .fold(fastest, |most, way| most.max(way / HAIR));
            }
        }
        Pace::AtMost(MARGIN * fastest)
    }

    /// Whether a corner is so sharp that its mitre is about to be cut square, or no longer to be.
    fn is_about_to_jump(&self, solved: &SolvedRoute) -> bool {
        let Some(centre) = &solved.centre_line else {
            return false;
        };
        let pieces = centre.pieces();
        let count = pieces.len();
        let joints = if centre.is_closed() { count } else { count - 1 };
        (0..joints).any(|index| {
            let next = (index + 1) % count;
            let changing = self.is_changing(solved, index) || self.is_changing(solved, next);
            let (arrives, leaves) = (
                pieces[index].end_direction(),
                pieces[next].start_direction(),
            );
            let reach = 1.0 / (0.5 * arrives.turn_to(leaves)).cos().max(f64::EPSILON);
            changing && reach > ABOUT_TO_BE_CUT * MITRE_REACH
        })
    }

    /// Looks at rises from one side to the other, close together where little is to spare and where
    /// the edges come together in another way.
    fn look_along(&self, most: f64, chord: f64) -> Vec<Looked> {
        let longest = (LONGEST_STEP * chord).max(SHORTEST_STEP);
        let mut looked = vec![self.look(-most)];
        while let Some(now) = looked.last().copied().filter(|now| now.rise < most) {
            let step = match now.pace {
                Pace::AtMost(pace) => (now.to_spare.abs() / pace).clamp(SHORTEST_STEP, longest),
                Pace::Jumps => JUMPING_STEP.min(longest),
            };
            let next = self.look((now.rise + step).min(most));
            if next.joints == now.joints || step <= SHORTEST_STEP {
                looked.push(next);
            } else {
                self.look_closely(now, next, &mut looked);
            }
        }
        looked
    }

    /// Between two rises at which the edges have different joints: up to the change in small steps,
    /// and right after it.
    fn look_closely(&self, from: Looked, to: Looked, looked: &mut Vec<Looked>) {
        let (mut before, mut after) = (from, to);
        while after.rise - before.rise > FOUND {
            let middle = self.look(0.5 * (before.rise + after.rise));
            if middle.joints == from.joints {
                before = middle;
            } else {
                after = middle;
            }
        }
        for step in 1..CLOSELY {
            let share = f64::from(step) / f64::from(CLOSELY);
            looked.push(self.look(from.rise + share * (before.rise - from.rise)));
        }
        looked.extend([before, after]);
    }

    /// The ranges between the rises looked at.
    fn ranges(&self, looked: &[Looked]) -> Vec<RiseRange> {
        let mut ranges: Vec<RiseRange> = Vec::new();
        let mut open: Option<RiseRange> = None;
        let fits = |looked: &Looked| looked.to_spare >= 0.0;
        for (index, now) in looked.iter().enumerate() {
            let before = index.checked_sub(1).map(|i| looked[i]);
            match (&mut open, fits(now)) {
                (None, true) => {
                    let (from, below) = match before {
                        Some(before) => self.close_in(*now, before),
                        None => (now.rise, None),
                    };
                    open = Some(RiseRange {
                        from,
                        to: now.rise,
                        below,
                        above: None,
                    });
                }
                (Some(range), true) => range.to = now.rise,
                (Some(range), false) => {
                    if let Some(before) = before {
                        (range.to, range.above) = self.close_in(before, *now);
                    }
                    ranges.extend(open.take());
                }
                (None, false) => {}
            }
        }
        ranges.extend(open);
        ranges.retain(|range| range.to - range.from >= NARROWEST_RANGE);
        ranges
    }

    /// The last rise that fits on the way to one that does not, and what is in the way there.
    fn close_in(&self, fits: Looked, fails: Looked) -> (f64, Option<usize>) {
        let (mut fits, mut fails) = (fits, fails);
        while (fits.rise - fails.rise).abs() > FOUND {
            let middle = self.look(0.5 * (fits.rise + fails.rise));
            if middle.to_spare >= 0.0 {
                fits = middle;
            } else {
                fails = middle;
            }
        }
        (fits.rise, fails.obstacle)
    }

    fn closed_form(&self, pegs: [Point; 2], most: f64) -> Vec<RiseRange> {
        let ground = self.surroundings.ground();
        let half = 0.5 * self.part.width;
        // Bends of up to one chord of rise stay within so many chords of their own.
        let chord = pegs[0].distance(pegs[1]);
        let Ok(line) = Line::new(pegs[0], pegs[1]) else {
            return Vec::new();
        };
        let reach = 1.5 * most.max(chord) + half + self.surroundings.reach();
        let near = ground.near(&Piece::Line(line), reach);
        let keeps: Vec<(usize, Keep<'_>)> = near
            .into_iter()
            .filter(|(patch, _)| !self.doorsteps.contains(patch))
            .map(|(patch, _)| {
                let keep = Keep {
                    patch: &ground.patches()[patch],
                    clearance: self.surroundings.wanted_by(patch),
                };
                (patch, keep)
            })
            .collect();
        let only: Vec<Keep<'_>> = keeps.iter().map(|(_, keep)| *keep).collect();
        let obstacle = |keep: usize| self.surroundings.obstacle_of(keeps[keep].0);
        rises_that_fit(pegs, half, &only, [-most, most])
            .into_iter()
            .map(|range| RiseRange {
                below: range.below.map(obstacle),
                above: range.above.map(obstacle),
                ..range
            })
            .collect()
    }

    /// The rise at which the least is missing, and what it is missing from.
    fn contradiction(&self, looked: &[Looked]) -> Option<Contradiction> {
        let best =
            (0..looked.len()).max_by(|a, b| looked[*a].to_spare.total_cmp(&looked[*b].to_spare))?;
        let mut low = looked[best.saturating_sub(1)].rise;
        let mut high = looked[(best + 1).min(looked.len() - 1)].rise;
        // What is to spare rises and falls once between the neighbours of the best.
        while high - low > FOUND {
            let thirds = [low + (high - low) / 3.0, high - (high - low) / 3.0];
            let [first, second] = thirds.map(|rise| self.look(rise).to_spare);
            if first < second {
                low = thirds[0];
            } else {
                high = thirds[1];
            }
        }
        let rise = 0.5 * (low + high);
        let beside = [rise - SHORTEST_STEP, rise + SHORTEST_STEP];
        let mut obstacles: Vec<usize> = beside
            .into_iter()
            .filter_map(|rise| self.look(rise).obstacle)
            .collect();
        obstacles.dedup();
        Some(Contradiction {
            obstacles,
            rise,
            missing: -self.look(rise).to_spare,
        })
    }
}

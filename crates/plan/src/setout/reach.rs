//! What the ground allows in setting out: where a peg stands, a tape runs, a string swings.
//!
//! Everything is asked of the true outlines: a bent wall or bed stays bent, the sector a string
//! sweeps is two radii and an arc. Heights are not looked at: what stands or lies on the plan is in
//! the way, however low.

mod open;
mod words;

use std::ops::Range;

use geometry::{Arc, Core, Direction, Line, Patch, Piece, Point};

use super::bend::{SWING_AWKWARD, SWING_COMFORTABLE};
use crate::document::{ObstacleKind, Plan};
use crate::surroundings::Surroundings;

pub use open::OpenGround;

/// The ground of one site, asked what it allows. All points asked about must be finite.
#[derive(Clone, Copy, Debug)]
pub struct Reach<'a> {
    surroundings: &'a Surroundings,
    limits: ReachLimits,
}

/// How far one reaches with string and tape, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReachLimits {
    /// The longest string that is comfortable to swing.
    pub comfortable: f64,
    /// The longest that is swung at all: beyond it sag and wind spoil the line.
    pub longest_swing: f64,
    /// The length of the tape.
    pub tape: f64,
    /// How far off a buried service no peg is driven, beside how unsure its place is.
    pub beside_service: f64,
}

/// No peg is driven nearer than this to a buried service that has not been located, in metres: the
/// room usually left to digging by hand. Common practice, no source.
const BESIDE_SERVICE: f64 = 0.5;

impl Default for ReachLimits {
    fn default() -> Self {
        Self {
            comfortable: SWING_COMFORTABLE,
            longest_swing: SWING_AWKWARD,
            tape: crate::document::Tape::default().length,
            beside_service: BESIDE_SERVICE,
        }
    }
}

impl ReachLimits {
    /// The limits a plan sets.
    #[must_use]
    pub fn of(plan: &Plan) -> Self {
        Self {
            comfortable: plan.set_out.comfortable,
            longest_swing: plan.set_out.longest_swing,
            tape: plan.tape.length,
            ..Self::default()
        }
    }
}

/// Something that hinders a deed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hindrance {
    /// What it hinders.
    pub deed: Deed,
    /// How much.
    pub severity: Severity,
    /// What is in the way.
    pub cause: Cause,
    /// Where: of a tape or a scratch the first place in the way, of a swing the deepest.
    pub at: Point,
    /// How far off that is, in metres: along the tape or the scratch, or from the swing point.
    pub along: f64,
    /// How far it would have to move there to be clear, in metres; zero at a line that takes up no
    /// ground. Where something is too long, by how much.
    pub deep: f64,
}

/// What is done on the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Deed {
    /// A peg or nail is driven, and one kneels there.
    Stand,
    /// A tape or string is pulled taut.
    Pull,
    /// A string is swung about a point.
    Swing,
    /// A small arc is scratched on the ground.
    Scratch,
}

/// How much a deed is hindered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// It cannot be done.
    Stops,
    /// It can be done with care.
    Care,
}

/// What hinders a deed; obstacles are counted from 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cause {
    /// An obstacle: what is beyond a boundary counts as the boundary's.
    Obstacle(usize),
    /// The roots of a tree.
    Roots(usize),
    /// It is longer than is comfortable, or than can be, in metres.
    TooLong(f64),
}

impl Hindrance {
    /// Whether the deed cannot be done.
    #[must_use]
    pub fn stops(&self) -> bool {
        self.severity == Severity::Stops
    }
}

/// What comes nearer than this to a thing touches it and is not held up by it, in metres: the
/// thickness of a string.
pub const TOUCHING: f64 = 1e-3;

/// A tape's end may lie so deep in a thing, and the tape along it, for it to be held on its face, in
/// metres: sites are drawn to the centimetre. Common practice, no source.
pub const HELD_ON: f64 = 0.01;

/// A peg stands so far from a wall or building at least, in metres: half its own thickness and room
/// for the hammer's blow. Common practice, no source.
pub const ON_A_FACE: f64 = 0.03;

/// What a thing of this kind is to a deed.
///
/// Walls, buildings, stems and gate posts stop whatever meets them. Over water and over the boundary
/// a tape can hang, but nobody stands there. A bed is worked in with care: plants catch a string, and
/// one treads on them. A buried service is met by what is driven; along a pulled string it is worth
/// knowing of, since long strings are held up by pins, while a swung string and a scratch leave it
/// alone.
fn severity(deed: Deed, kind: ObstacleKind) -> Option<Severity> {
    use ObstacleKind as Kind;
    match (kind, deed) {
        (Kind::Wall | Kind::Building | Kind::Tree | Kind::Gate, _)
        | (Kind::Pond | Kind::Boundary, Deed::Stand | Deed::Scratch) => Some(Severity::Stops),
        (Kind::Service, Deed::Swing | Deed::Scratch) => None,
        (Kind::Pond | Kind::Boundary | Kind::Bed | Kind::Service, _) => Some(Severity::Care),
    }
}

impl<'a> Reach<'a> {
    /// The ground of a site.
    #[must_use]
    pub fn new(surroundings: &'a Surroundings, limits: ReachLimits) -> Self {
        Self {
            surroundings,
            limits,
        }
    }

    /// What hinders a peg or nail from being driven at a place, and a person from kneeling there.
    ///
    /// At a wall or boundary that takes up no ground a place is in it when it touches its line.
    #[must_use]
    pub fn stand(&self, at: Point) -> Vec<Hindrance> {
        let room = self.limits.beside_service;
        let mut found = Vec::new();
        for (patch, gap) in self.surroundings.ground().near_point(at, room) {
            let (deep, least) = match (self.kind(patch), takes_up_ground(self.patch(patch))) {
                (ObstacleKind::Service, _) => (room - gap.distance, 0.0),
                (_, true) => (-gap.distance, TOUCHING),
                (_, false) => (-gap.distance, -TOUCHING),
            };
            if deep > least {
                let deep = deep.max(0.0);
                let spot = Spot {
                    at,
                    along: 0.0,
                    deep,
                };
                found.extend(self.met(Deed::Stand, patch, spot));
            }
        }
        for (tree, deep) in self.surroundings.roots_at(at) {
            found.push(Hindrance {
                deed: Deed::Stand,
                severity: Severity::Care,
                cause: Cause::Roots(tree),
                at,
                along: 0.0,
                deep,
            });
        }
        in_order(found)
    }

    /// Whether a place lies on the face of a wall or building, within [`ON_A_FACE`]: one marks it
    /// there, since nothing can be driven.
    #[must_use]
    pub fn is_on_a_face(&self, at: Point) -> bool {
        let near = self.surroundings.ground().near_point(at, ON_A_FACE);
        near.into_iter().any(|(patch, _)| {
            let kind = self.kind(patch);
            matches!(kind, ObstacleKind::Wall | ObstacleKind::Building)
        })
    }

    /// What hinders a tape or string from being pulled taut along a straight.
    ///
    /// An end may be held on the face of a thing, and the tape lie along it, to within [`HELD_ON`].
    /// One held on a wall or its end post, as many a mark is, leaves it within its thickness.
    /// One that would run through the end of a wall that takes up no ground goes past it.
    #[must_use]
    pub fn pull(&self, from: Point, to: Point) -> Vec<Hindrance> {
        let Ok(line) = Line::new(from, to) else {
            return Vec::new();
        };
        self.along(Deed::Pull, &Piece::Line(line))
    }

    /// As [`Self::pull`], of a tape that must be long enough.
    #[must_use]
    pub fn tape(&self, from: Point, to: Point) -> Vec<Hindrance> {
        let mut found = self.pull(from, to);
        let (length, tape) = (from.distance(to), self.limits.tape);
        found.extend(too_long(
            Deed::Pull,
            Severity::Stops,
            (from, to),
            length,
            tape,
        ));
        in_order(found)
    }

    /// What hinders a string of this radius from being swung about the centre of `arc`, along all
    /// its sweep: for an edge the radius is that of the edge. What is inside the sector is in the way
    /// of every string that reaches it; what only touches it is not. Whether the swing point itself
    /// can be pegged, [`Self::stand`] says. Nothing when the radius is not above zero; of a string
    /// longer than the tape, or one that hardly turns
    /// ([`geometry::NARROWEST_SECTOR`]), its length alone.
    #[must_use]
    pub fn swing(&self, arc: &Arc, radius: f64) -> Vec<Hindrance> {
        let outward = radius - arc.radius();
        let left = if arc.turns_left() { -outward } else { outward };
        let Some(arc) = arc.offset(left) else {
            return Vec::new();
        };
        let centre = arc.centre();
        let limits = &self.limits;
        let longest = limits.longest_swing.min(limits.tape);
        let ends = (centre, arc.apex());
        let swing = |severity, limit| too_long(Deed::Swing, severity, ends, radius, limit);
        let mut found = Vec::new();
        found.extend(
            swing(Severity::Stops, longest).or_else(|| swing(Severity::Care, limits.comfortable)),
        );
        let Some(sector) = arc.sector().filter(|_| radius <= limits.tape) else {
            return found;
        };
        let ground = self.surroundings.ground();
        for (index, overlap) in ground.overlaps(&sector, TOUCHING) {
            let beyond = reaches_beyond(&sector, self.patch(index));
            let (at, deep) = beyond.unwrap_or((overlap.at, overlap.depth));
            let along = centre.distance(at);
            found.extend(self.met(Deed::Swing, index, Spot { at, along, deep }));
        }
        in_order(found)
    }

    /// What hinders a small arc from being scratched on the ground: about `centre`, with this
    /// radius, `half_length` metres of it to each side of `direction`, never more than the whole
    /// circle. Nothing when it has no length.
    #[must_use]
    pub fn scratch(
        &self,
        centre: Point,
        radius: f64,
        direction: Direction,
        half_length: f64,
    ) -> Vec<Hindrance> {
        let half = (half_length / radius).min(NEARLY_ROUND);
        let end = |turn: f64| centre + direction.turned(turn).unit() * radius;
        // To the left about the centre, the apex lies right of the chord: −R (1 − cos), with no
        // digits lost on a short one.
        let rise = -2.0 * radius * (0.5 * half).sin().powi(2);
        match Arc::from_rise(end(-half), end(half), rise) {
            Ok(arc) => self.along(Deed::Scratch, &Piece::Arc(arc)),
            Err(_) => Vec::new(),
        }
    }

    /// What a taut line or a scratch runs through, each obstacle where it is met first.
    fn along(&self, deed: Deed, piece: &Piece) -> Vec<Hindrance> {
        let mut found: Vec<Hindrance> = Vec::new();
        for (index, _) in self.surroundings.ground().near(piece, 0.0) {
            let patch = self.patch(index);
            let stretches = patch.stretches(piece).into_iter();
            let first = stretches.filter_map(|part| in_the_way(patch, piece, &part));
            if let Some(spot) = first.min_by(|a, b| a.along.total_cmp(&b.along)) {
                found.extend(self.met(deed, index, spot));
            }
        }
        in_order(found)
    }

    fn met(&self, deed: Deed, patch: usize, spot: Spot) -> Option<Hindrance> {
        let Spot { at, along, deep } = spot;
        Some(Hindrance {
            deed,
            severity: severity(deed, self.kind(patch))?,
            cause: Cause::Obstacle(self.surroundings.obstacle_of(patch)),
            at,
            along,
            deep,
        })
    }

    fn patch(&self, patch: usize) -> &'a Patch {
        &self.surroundings.ground().patches()[patch]
    }

    fn kind(&self, patch: usize) -> ObstacleKind {
        self.surroundings.site().obstacles[self.surroundings.obstacle_of(patch)].kind
    }
}

/// Half a turn less a hair: an arc cannot end where it starts.
const NEARLY_ROUND: f64 = std::f64::consts::PI - geometry::NARROWEST_SECTOR;

/// Half the thickness of a wall, nothing for an area.
fn thick(patch: &Patch) -> f64 {
    match patch.core() {
        Core::Line(_) => patch.grown(),
        _ => 0.0,
    }
}

/// Whether a patch takes up ground: a line with no thickness has no inside.
fn takes_up_ground(patch: &Patch) -> bool {
    patch.grown() > 0.0 || matches!(patch.core(), Core::Area(_) | Core::Beyond(_))
}

/// A place where something is in the way: how far along, and how deep it is met.
#[derive(Clone, Copy)]
struct Spot {
    at: Point,
    along: f64,
    deep: f64,
}

/// Where a stretch of a piece is met; `None` if it only touches, or is an end held on a face.
fn in_the_way(patch: &Patch, piece: &Piece, part: &Range<f64>) -> Option<Spot> {
    let (at, along) = (piece.point_at(part.start), part.start);
    let at_end = part.start <= TOUCHING || part.end >= piece.length() - TOUCHING;
    let (deep, met) = match patch.core() {
        Core::Line(line) if !takes_up_ground(patch) => {
            let ends = [line.start(), line.end()];
            let past = !line.is_closed() && ends.iter().any(|end| end.distance(at) <= TOUCHING);
            (0.0, !at_end && !past)
        }
        _ => {
            let deep = -patch.gap(&piece.between(part.start, part.end)?).distance;
            let held_on = at_end && part.end - part.start <= 2.0 * thick(patch) + HELD_ON;
            (
                deep,
                !held_on && deep > if at_end { HELD_ON } else { TOUCHING },
            )
        }
    };
    met.then_some(Spot { at, along, deep })
}

/// The place of an area that lies deepest beyond a boundary, and how deep. It is on the outline of
/// the area: what is beyond has no end, and reaches into the area from there.
fn reaches_beyond(area: &Patch, boundary: &Patch) -> Option<(Point, f64)> {
    let (Core::Area(outline), Core::Beyond(_)) = (area.core(), boundary.core()) else {
        return None;
    };
    let gaps = outline.pieces().iter().map(|piece| boundary.gap(piece));
    let deepest = gaps.min_by(|a, b| a.distance.total_cmp(&b.distance))?;
    (deepest.distance < -TOUCHING).then_some((deepest.from, -deepest.distance))
}

fn too_long(
    deed: Deed,
    severity: Severity,
    (from, to): (Point, Point),
    length: f64,
    limit: f64,
) -> Option<Hindrance> {
    (length > limit).then(|| Hindrance {
        deed,
        severity,
        cause: Cause::TooLong(limit),
        at: from.towards(to, limit / length),
        along: limit,
        deep: length - limit,
    })
}

/// What stops first, then what is nearest; each obstacle once.
fn in_order(mut found: Vec<Hindrance>) -> Vec<Hindrance> {
    found.sort_by(|a, b| {
        let severity = a.severity.cmp(&b.severity);
        severity.then(a.along.total_cmp(&b.along))
    });
    let mut seen: Vec<Cause> = Vec::new();
    found.retain(|hindrance| {
        let new = !seen.contains(&hindrance.cause);
        seen.push(hindrance.cause);
        new
    });
    found
}

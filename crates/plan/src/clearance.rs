//! How near a path comes to what stands round it: exactly, at every edge, corner and end.

mod report;
mod roots;

use std::collections::BTreeMap;

use geometry::{Chain, Core, Gap, Line, Patch, Piece, Point};

use crate::document::Side;
use crate::solve::SolvedRoute;
use crate::surroundings::Surroundings;

pub use crate::surroundings::IN_SIGHT;
pub(crate) use report::report;
pub use roots::RootShare;
pub(crate) use roots::root_shares;

/// The part of a path's outline that comes nearest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Border {
    /// The left edge.
    Left,
    /// The right edge.
    Right,
    /// The end one sets out from.
    Start,
    /// The end one arrives at.
    End,
}

impl Border {
    /// What it is called in a sentence.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Left => "left edge",
            Self::Right => "right edge",
            Self::Start => "start",
            Self::End => "end",
        }
    }
}

impl From<Side> for Border {
    fn from(side: Side) -> Self {
        match side {
            Side::Left => Self::Left,
            Side::Right => Self::Right,
        }
    }
}

/// How near one part of a path's outline comes to one obstacle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearance {
    /// Which obstacle, counted from 0.
    pub obstacle: usize,
    /// Which part of the outline.
    pub border: Border,
    /// The least distance in metres; where the two overlap, minus how deep.
    pub distance: f64,
    /// Whether the two take up the same ground, or a line is crossed that takes up none.
    pub overlaps: bool,
    /// The distance that the obstacle wants kept there, in metres.
    pub wanted: f64,
    /// Whether the path leads up to it here: then it may be touched, and is cut off along it.
    pub leads_up: bool,
    /// The nearest point of the path.
    pub on_path: Point,
    /// The nearest point of the obstacle.
    pub on_obstacle: Point,
    /// The station of the nearest point on the centre line, in metres from the start.
    pub station: f64,
}

impl Clearance {
    /// How much there is to spare, in metres: less than nothing where it is too near.
    #[must_use]
    pub fn to_spare(&self) -> f64 {
        self.distance - self.wanted
    }

    /// Whether it runs over a thin line, which has no depth that could be told.
    #[must_use]
    pub fn crosses(&self) -> bool {
        self.overlaps && -KEPT <= self.distance
    }

    /// Whether it is nearer than is wanted.
    #[must_use]
    pub fn is_too_near(&self) -> bool {
        self.overlaps || self.to_spare() < -KEPT
    }
}

/// A clearance missed by less is kept: a micrometre, far below any tape.
const KEPT: f64 = 1e-6;

/// What an end of a path is at most this far off, it leads up to, in metres: a joint's width.
pub(crate) const DOORSTEP: f64 = 0.05;

/// How deep the corner of a path may cut into what it leads up to before it is said, in metres: an
/// end that is out of square by half a degree.
pub(crate) const OUT_OF_SQUARE: f64 = 0.01;

/// What was found near the pieces of a chain, kept so that a piece that stays is not looked at again.
#[derive(Clone, Debug, Default, PartialEq)]
struct Along {
    pieces: Vec<Piece>,
    found: Vec<Vec<(usize, Gap)>>,
}

impl Along {
    /// What is near every piece of a chain, taken over from `before` where the pieces are the same
    /// from the start or from the end.
    fn of(
        chain: Option<&Chain>,
        before: Option<&Self>,
        near: impl Fn(usize, &Piece) -> Vec<(usize, Gap)>,
    ) -> Self {
        let pieces = chain.map_or(&[][..], Chain::pieces);
        let known = before.map_or(&[][..], |before| &before.pieces[..]);
        let same = |pair: &(&Piece, &Piece)| pair.0 == pair.1;
        // The last of those that are the same may meet its neighbour otherwise than before.
        let head = pieces.iter().zip(known).take_while(same).count();
        let head = if head == pieces.len() && head == known.len() {
            head
        } else {
            head.saturating_sub(1)
        };
        let ends = pieces[head..].iter().rev().zip(known[head..].iter().rev());
        let tail = ends.take_while(same).count().saturating_sub(1);
        let mut found = Vec::with_capacity(pieces.len());
        let known = before.map_or(&[][..], |before| &before.found[..]);
        found.extend_from_slice(&known[..head]);
        let rest = head..pieces.len() - tail;
        found.extend(rest.map(|index| near(index, &pieces[index])));
        found.extend_from_slice(&known[known.len() - tail..]);
        Self {
            pieces: pieces.to_vec(),
            found,
        }
    }

    fn iter(&self) -> impl Iterator<Item = (usize, &Piece, usize, Gap)> {
        let pieces = self.pieces.iter().zip(&self.found).enumerate();
        pieces.flat_map(|(i, (piece, found))| {
            found
                .iter()
                .map(move |(patch, gap)| (i, piece, *patch, *gap))
        })
    }
}

/// What was found near a path.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Nearby {
    left: Along,
    right: Along,
    centre: Along,
}

impl Nearby {
    /// What is near a path, with as much as still holds taken over from `before`.
    pub(crate) fn of(
        solved: &SolvedRoute,
        surroundings: &Surroundings,
        before: Option<&Self>,
    ) -> Self {
        let ground = surroundings.ground();
        let reach = surroundings.reach();
        let near = |_: usize, piece: &Piece| ground.near(piece, reach);
        // What stands in the path, off both its edges, is nearer to the centre line than the edge
        // is: at a corner as far as a mitre reaches.
        let half = 0.5 * solved.width;
        let inside = |index: usize, piece: &Piece| {
            let centre = solved.centre_line.as_ref();
            let corner = centre.is_some_and(|chain| is_at_a_corner(chain, index));
            let reach = if corner {
                half * geometry::MITRE_REACH
            } else {
                half
            };
            ground.near(piece, reach)
        };
        Self {
            left: Along::of(solved.left_edge.as_ref(), before.map(|b| &b.left), near),
            right: Along::of(solved.right_edge.as_ref(), before.map(|b| &b.right), near),
            centre: Along::of(
                solved.centre_line.as_ref(),
                before.map(|b| &b.centre),
                inside,
            ),
        }
    }
}

/// The clearances of a path from everything near it, at most one for each part of its outline and
/// obstacle: what it comes too near to, and what it could be touched from.
pub(crate) fn clearances(solved: &SolvedRoute, surroundings: &Surroundings) -> Vec<Clearance> {
    let nearby = &solved.nearby;
    let Some(centre) = &solved.centre_line else {
        return Vec::new();
    };
    let mut look = Look {
        surroundings,
        doorsteps: doorsteps(centre, solved.width, surroundings),
        centre,
        beside: 0,
        least: BTreeMap::new(),
    };
    for (border, edge, along, beside) in [
        (
            Border::Left,
            &solved.left_edge,
            &nearby.left,
            &solved.beside[0],
        ),
        (
            Border::Right,
            &solved.right_edge,
            &nearby.right,
            &solved.beside[1],
        ),
    ] {
        if let Some(edge) = edge {
            for (index, piece, patch, gap) in along.iter() {
                look.beside = beside.get(index).copied().unwrap_or(0);
                look.at_edge(border, edge, (index, piece), patch, gap);
            }
        }
    }
    let (left, right) = (solved.left_edge.as_ref(), solved.right_edge.as_ref());
    if let (Some(left), Some(right), false) = (left, right, centre.is_closed()) {
        for (border, from, to) in [
            (Border::Start, left.start(), right.start()),
            (Border::End, left.end(), right.end()),
        ] {
            if let Ok(line) = Line::new(from, to) {
                look.beside = match border {
                    Border::End => centre.pieces().len() - 1,
                    _ => 0,
                };
                look.at_end(border, &Piece::Line(line));
            }
        }
    }
    look.within(solved, &nearby.centre);
    look.least.into_values().collect()
}

impl SolvedRoute {
    /// What stands nearest to the left and to the right edge beside one piece of the centre line,
    /// if anything is near enough to matter.
    #[must_use]
    pub fn nearest_beside(
        &self,
        piece: usize,
        surroundings: &Surroundings,
    ) -> [Option<Clearance>; 2] {
        let sides = [
            (Border::Left, &self.nearby.left, &self.beside[0]),
            (Border::Right, &self.nearby.right, &self.beside[1]),
        ];
        sides.map(|(border, along, beside)| {
            let here = along
                .iter()
                .filter(|found| beside.get(found.0) == Some(&piece));
            let (_, _, patch, gap) = here.min_by(|a, b| a.3.distance.total_cmp(&b.3.distance))?;
            let centre = self.centre_line.as_ref()?;
            Some(Clearance {
                obstacle: surroundings.obstacle_of(patch),
                border,
                distance: gap.distance,
                overlaps: overlaps(&surroundings.ground().patches()[patch], gap.distance),
                leads_up: false,
                wanted: surroundings.wanted_by(patch),
                on_path: gap.from,
                on_obstacle: gap.to,
                station: station_beside(centre, piece, gap.from),
            })
        })
    }
}

/// The station of the place on one piece of the centre line that is nearest to a point.
fn station_beside(centre: &Chain, piece: usize, point: Point) -> f64 {
    let on = &centre.pieces()[piece];
    centre.station_of(piece) + on.nearest(point).0
}

/// The ground that an end of a path leads up to: there nothing need be kept off it.
pub(crate) struct Doorstep {
    pub(crate) patch: usize,
    border: Border,
    /// How far along an edge from that end it reaches, in metres.
    reach: f64,
}

impl Doorstep {
    /// Whether a place so far along something so long is on it.
    pub(crate) fn holds(&self, along: f64, length: f64) -> bool {
        match self.border {
            Border::Start => along < self.reach,
            _ => length - along < self.reach,
        }
    }
}

pub(crate) fn doorsteps(centre: &Chain, width: f64, surroundings: &Surroundings) -> Vec<Doorstep> {
    if centre.is_closed() {
        return Vec::new();
    }
    let mut found = Vec::new();
    for (border, at) in [(Border::Start, centre.start()), (Border::End, centre.end())] {
        found.extend(surroundings.patches_at(at).map(|patch| Doorstep {
            patch,
            border,
            reach: width + surroundings.wanted_by(patch) + DOORSTEP,
        }));
    }
    found
}

/// A look round: the least clearance so far from each obstacle.
struct Look<'a> {
    surroundings: &'a Surroundings,
    doorsteps: Vec<Doorstep>,
    centre: &'a Chain,
    /// The piece of the centre line beside which it is looked.
    beside: usize,
    least: BTreeMap<(usize, Border), Clearance>,
}

impl Look<'_> {
    fn patch(&self, patch: usize) -> &Patch {
        &self.surroundings.ground().patches()[patch]
    }

    fn at_edge(
        &mut self,
        border: Border,
        edge: &Chain,
        (index, piece): (usize, &Piece),
        patch: usize,
        gap: Gap,
    ) {
        let (from, length) = (edge.station_of(index), piece.length());
        // The part of the piece beyond every doorstep, and the parts on one.
        let (mut start, mut end) = (0.0, length);
        for step in self.doorsteps.iter().filter(|step| step.patch == patch) {
            match step.border {
                Border::Start => start = f64::max(start, step.reach - from),
                _ => end = f64::min(end, edge.length() - step.reach - from),
            }
        }
        if start <= 0.0 && end >= length {
            self.note(border, patch, gap, self.surroundings.wanted_by(patch));
            return;
        }
        let part = |from: f64, to: f64| piece.between(from.max(0.0), to.min(length));
        let (before, after) = (part(0.0, start.min(length)), part(end.max(0.0), length));
        for on_step in [before, after].into_iter().flatten() {
            self.on_doorstep(border, patch, &on_step);
        }
        if let Some(beyond) = part(start, end) {
            let gap = self.patch(patch).gap(&beyond);
            if gap.distance <= self.surroundings.reach() {
                self.note(border, patch, gap, self.surroundings.wanted_by(patch));
            }
        }
    }

    fn at_end(&mut self, border: Border, end: &Piece) {
        let reach = self.surroundings.reach();
        for (patch, gap) in self.surroundings.ground().near(end, reach) {
            let leads_up = |step: &Doorstep| step.patch == patch && step.border == border;
            if self.doorsteps.iter().any(leads_up) {
                self.on_doorstep(border, patch, end);
            } else {
                self.note(border, patch, gap, self.surroundings.wanted_by(patch));
            }
        }
    }

    /// On a doorstep it is enough not to run into what one leads up to.
    fn on_doorstep(&mut self, border: Border, patch: usize, piece: &Piece) {
        let gap = self.patch(patch).gap(piece);
        if gap.distance < -OUT_OF_SQUARE {
            self.note_as(border, patch, gap, (0.0, true));
        }
    }

    /// What stands wholly in the path touches none of its edges: a stem, a post. It is as deep in
    /// the path as its far side is from the nearer edge.
    fn within(&mut self, solved: &SolvedRoute, along: &Along) {
        let Some((left, right)) = solved.left_edge.as_ref().zip(solved.right_edge.as_ref()) else {
            return;
        };
        for (index, _, patch, _) in along.iter() {
            let obstacle = self.surroundings.obstacle_of(patch);
            let touched = [Border::Left, Border::Right, Border::Start, Border::End]
                .iter()
                .filter_map(|border| self.least.get(&(obstacle, *border)))
                .any(|clearance| clearance.distance <= 0.0);
            let Some(stands) = stands(self.patch(patch)) else {
                continue;
            };
            if touched || !is_in_path(stands, index, solved) {
                continue;
            }
            let patch_ = self.patch(patch);
            let (border, edge) = [(Border::Left, left), (Border::Right, right)]
                .into_iter()
                .min_by(|a, b| {
                    let off = |edge: &Chain| edge.nearest(stands).distance;
                    off(a.1).total_cmp(&off(b.1))
                })
                .unwrap_or((Border::Left, left));
            let foot = edge.nearest(stands);
            let gap = Gap {
                distance: -foot.distance - patch_.grown(),
                from: foot.point,
                to: stands,
            };
            self.note(border, patch, gap, self.surroundings.wanted_by(patch));
        }
    }

    fn note(&mut self, border: Border, patch: usize, gap: Gap, wanted: f64) {
        self.note_as(border, patch, gap, (wanted, false));
    }

    fn note_as(&mut self, border: Border, patch: usize, gap: Gap, (wanted, leads_up): (f64, bool)) {
        let obstacle = self.surroundings.obstacle_of(patch);
        let new = Clearance {
            obstacle,
            border,
            distance: gap.distance,
            overlaps: overlaps(self.patch(patch), gap.distance),
            leads_up,
            wanted,
            on_path: gap.from,
            on_obstacle: gap.to,
            station: station_beside(self.centre, self.beside, gap.from),
        };
        let least = self.least.entry((obstacle, border)).or_insert(new);
        if new.to_spare() < least.to_spare() {
            *least = new;
        }
    }
}

/// Whether what is so near a patch runs into it: an area may be touched, a thin line is then crossed.
fn overlaps(patch: &Patch, distance: f64) -> bool {
    let least = if matches!(patch.core(), Core::Line(_)) {
        KEPT
    } else {
        -KEPT
    };
    distance < least
}

/// A point of a patch; none of what lies beyond a boundary.
pub(crate) fn stands(patch: &Patch) -> Option<Point> {
    match patch.core() {
        Core::Point(point) => Some(*point),
        Core::Line(chain) | Core::Area(chain) => Some(chain.start()),
        Core::Beyond(_) => None,
    }
}

/// Whether a point lies between the edges of a path and between its ends, as far as one piece of
/// its centre line can tell.
pub(crate) fn is_in_path(point: Point, index: usize, solved: &SolvedRoute) -> bool {
    let Some(centre) = &solved.centre_line else {
        return false;
    };
    let (piece, last) = (&centre.pieces()[index], centre.pieces().len() - 1);
    let (along, foot) = piece.nearest(point);
    let past = |end: Point, out: geometry::Vector| (point - end).dot(out) > 0.0;
    let open = !centre.is_closed();
    let before_start =
        open && index == 0 && along <= 0.0 && past(piece.start(), -piece.start_direction().unit());
    let after_end = open
        && index == last
        && along >= piece.length()
        && past(piece.end(), piece.end_direction().unit());
    if before_start || after_end {
        return false;
    }
    let half = 0.5 * solved.width;
    if foot.distance(point) < half {
        return true;
    }
    // Farther off than the edge only in the tip of a mitre: beyond the end of the piece, and beside
    // its line or circle led on no farther than the edge.
    let way = if along <= 0.0 {
        piece.start_direction()
    } else if along >= piece.length() {
        piece.end_direction()
    } else {
        return false;
    };
    let beside_line = way.unit().cross(point - foot).abs();
    let beside_circle = piece.arc().map(|arc| arc.outside(point).abs());
    let beside = beside_circle.map_or(beside_line, |off| off.min(beside_line));
    beside < half + geometry::SAME_PLACE
        && is_at_a_corner(centre, index)
        && is_in(&solved.outline(), point)
}

/// Whether a point lies in an outline: within the first ring, and in none of the others.
pub(crate) fn is_in(outline: &[Chain], point: Point) -> bool {
    let mut rings = outline.iter().map(|ring| ring.contains(point));
    rings.next().unwrap_or(false) && !rings.any(|holds| holds)
}

/// Whether a piece of a chain begins or ends with a corner.
fn is_at_a_corner(chain: &Chain, index: usize) -> bool {
    let pieces = chain.pieces();
    let count = pieces.len();
    let turns = |before: usize, after: usize| {
        let (arrives, leaves) = (
            pieces[before].end_direction(),
            pieces[after].start_direction(),
        );
        arrives.turn_to(leaves).abs() > geometry::SAME_DIRECTION
    };
    let (closed, first, last) = (chain.is_closed(), index == 0, index + 1 == count);
    (!first || closed) && turns((index + count - 1) % count, index)
        || (!last || closed) && turns(index, (index + 1) % count)
}

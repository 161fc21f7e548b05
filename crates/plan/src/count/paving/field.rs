//! The part of a path that is laid in straight rows.

use std::ops::Range;

use geometry::{Bounds, Chain, Direction, Lattice, PartCell, Piece, Point, Region};

use super::{Bond, Course, MOST_UNITS, PavingError, whole_courses};
use crate::document::Side;
use crate::solve::{SolvedRoute, ring_between};

/// Where straight rows start and which way they run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Grid {
    /// Along the longest straight of the path, or with bends alone from its start towards its end;
    /// the first row against this edge, or against the course along it.
    From(Side),
    /// As typed.
    At {
        /// The corner of a unit from which rows run and follow each other to the left.
        origin: Point,
        /// The direction of the rows.
        along: Direction,
    },
}

impl Default for Grid {
    /// From the right edge.
    fn default() -> Self {
        Self::From(Side::Right)
    }
}

/// What is laid in straight rows.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// Where each unit lies.
    pub lattice: Lattice,
    /// The ground it covers.
    pub region: Region,
    /// How many units lie in it whole.
    pub whole: usize,
    /// The units that are cut, row by row: where each lies, its share laid and the rectangle round
    /// what is laid of it, along and across the rows.
    pub parts: Vec<PartCell>,
}

pub(super) fn lay(
    route: &SolvedRoute,
    laid: &[&SolvedRoute],
    centre: &Chain,
    course: &Course,
) -> Result<Option<Field>, PavingError> {
    let joint = joint_across(route.width, centre, course);
    // What is left to straight rows between the courses along the edges.
    let (inset, region) = match (course.bond, course.edges) {
        (Bond::Radial(_), _) if route.pads.is_empty() => return Ok(None),
        (Bond::Radial(_), _) => (0.0, beyond_courses(route, Vec::new(), laid)),
        (_, None) => (0.0, whole(route, laid)),
        (_, Some(lay)) => {
            let inset = course.unit.laid(lay)[1] + joint;
            (inset, beyond_courses(route, inside(route, inset)?, laid))
        }
    };
    let gaps = [course.joints.usual, joint];
    let lattice = lattice(route.width, centre, course, inset, gaps)?;
    // A border may cross far more units than its ground holds.
    let crossed = region.perimeter() / course.unit.width.min(course.unit.length);
    if crossed > MOST_UNITS {
        return Err(PavingError::TooMany(crossed));
    }
    let cover = lattice.cover(&region);
    Ok(Some(Field {
        lattice,
        region,
        whole: cover.whole,
        parts: cover.parts,
    }))
}

/// The path and its landings as one, without what is laid already.
fn whole(route: &SolvedRoute, laid: &[&SolvedRoute]) -> Region {
    let mut rings = Rings::default();
    let (path, pads) = (rings.add(route.outline()), rings.add(route.pads.clone()));
    let laid = rings.add_laid(route, laid);
    Region::of(&rings.all, |held| {
        (in_path(&held[path.clone()]) || held[pads.clone()].contains(&true))
            && !is_laid(held, &laid)
    })
}

/// What the courses leave inside, and what landings add to the path, without what is laid already.
fn beyond_courses(route: &SolvedRoute, inside: Vec<Chain>, laid: &[&SolvedRoute]) -> Region {
    let mut rings = Rings::default();
    let inside = rings.add(inside);
    let (path, pads) = (rings.add(route.outline()), rings.add(route.pads.clone()));
    let laid = rings.add_laid(route, laid);
    Region::of(&rings.all, |held| {
        let landing = !in_path(&held[path.clone()]) && held[pads.clone()].contains(&true);
        (in_path(&held[inside.clone()]) || landing) && !is_laid(held, &laid)
    })
}

/// Rings of several outlines in one list.
#[derive(Default)]
struct Rings {
    all: Vec<Chain>,
}

impl Rings {
    /// Where they stand in the list.
    fn add(&mut self, rings: Vec<Chain>) -> Range<usize> {
        let first = self.all.len();
        self.all.extend(rings);
        first..self.all.len()
    }

    /// The paths of these that come near, and their landings.
    fn add_laid(&mut self, route: &SolvedRoute, laid: &[&SolvedRoute]) -> Vec<[Range<usize>; 2]> {
        let boxes = |route: &SolvedRoute| -> Vec<Bounds> {
            let rings = route.outline();
            rings.iter().chain(&route.pads).map(Chain::bounds).collect()
        };
        let own = boxes(route);
        let is_near = |other: &&&SolvedRoute| {
            let other = boxes(other);
            own.iter().any(|own| other.iter().any(|b| own.meets(*b)))
        };
        let near = laid.iter().filter(is_near);
        near.map(|other| [self.add(other.outline()), self.add(other.pads.clone())])
            .collect()
    }
}

fn is_laid(held: &[bool], laid: &[[Range<usize>; 2]]) -> bool {
    laid.iter()
        .any(|[path, pads]| in_path(&held[path.clone()]) || held[pads.clone()].contains(&true))
}

/// A path is one ring, or an outer and an inner one.
fn in_path(held: &[bool]) -> bool {
    (held.split_first()).is_some_and(|(outer, inner)| *outer && !inner.contains(&true))
}

/// The path without a strip along each edge.
fn inside(route: &SolvedRoute, inset: f64) -> Result<Vec<Chain>, PavingError> {
    let moved = |edge: &Option<Chain>, by: f64| edge.as_ref()?.offset(by).chain;
    match (
        moved(&route.left_edge, -inset),
        moved(&route.right_edge, inset),
    ) {
        (Some(left), Some(right)) => Ok(ring_between(&left, &right)),
        _ => Err(PavingError::TightBend(inset)),
    }
}

/// The joint between rows: what lets whole rows fill a straight if the limits do, else the usual.
fn joint_across(width: f64, centre: &Chain, course: &Course) -> f64 {
    let from_edge = matches!(course.grid, Grid::From(_)) && longest_straight(centre).is_some();
    let filled = from_edge.then(|| whole_courses(width, course)).flatten();
    filled.map_or(course.joints.usual, |filled| filled.joint)
}

fn lattice(
    path_width: f64,
    centre: &Chain,
    course: &Course,
    inset: f64,
    gaps: [f64; 2],
) -> Result<Lattice, PavingError> {
    let (length, width) = (course.unit.length, course.unit.width);
    let (origin, along) = match course.grid {
        Grid::At { origin, along } => (origin, along),
        Grid::From(side) => {
            let (start, along) = longest_straight(centre).unwrap_or_else(|| start_to_end(centre));
            let edge = 0.5 * path_width - inset;
            let off = match side {
                Side::Right => -edge,
                Side::Left => edge - width,
            };
            (start + along.left().unit() * off, along)
        }
    };
    let stagger = match course.bond {
        Bond::Stack => 0.0,
        Bond::Running | Bond::Radial(_) => 0.5,
    };
    Lattice::new(origin, along, [length, width], gaps, stagger).ok_or(PavingError::Grid)
}

fn longest_straight(centre: &Chain) -> Option<(Point, Direction)> {
    let straights = centre.pieces().iter().filter_map(|piece| match piece {
        Piece::Line(line) => Some(line),
        Piece::Arc(_) => None,
    });
    let longest = straights.max_by(|a, b| a.length().total_cmp(&b.length()))?;
    Some((longest.start(), longest.direction()))
}

fn start_to_end(centre: &Chain) -> (Point, Direction) {
    let way = Direction::of(centre.end() - centre.start());
    let onward = || centre.direction_at(0.0);
    (centre.start(), way.unwrap_or_else(onward))
}

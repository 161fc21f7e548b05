//! How far the struck, slid or flagged line may lie from the drawn one, square to it.

use std::collections::BTreeMap;

use geometry::{Arc, Direction, Point, SAME_PLACE, Vector};

use super::moves::{Moves, Sway};
use super::spot_error::SIDES;
use crate::setout::{Course, PathLine, Spot};

/// The error of one line of a course.
#[derive(Clone, Debug, PartialEq)]
pub struct LineError {
    /// Which line.
    pub line: PathLine,
    /// How it comes to be on the ground.
    pub how: How,
    /// Places along it: in walking order on a struck line, in the order of work on a flagged one.
    pub stations: Vec<Station>,
    /// What moves each station, square to the line.
    pub(super) across: Vec<Moves>,
}

/// How a line comes to be on the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum How {
    /// Swung: the nail's error and the radius's.
    Swung,
    /// Slid along between two battens: the errors of three nails.
    Slid,
    /// Flagged: each flag's own error.
    Flagged,
}

/// One place of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Where, in the plan.
    pub at: Point,
    /// The spot that stands there; `None` on a struck line.
    pub spot: Option<Spot>,
    /// How far off it will lie for what is known, in metres, positive away from the centre of a
    /// bend or to the left of a straight.
    pub shift: f64,
    /// The standard deviation of the rest.
    pub deviation: f64,
}

impl Station {
    /// Within how much of the drawn line 95 of 100 lie, in metres: the shift and 1.96 deviations.
    #[must_use]
    pub fn within(&self) -> f64 {
        self.shift.abs() + SIDES * self.deviation
    }
}

/// A struck line is looked at in so many places, both ends and the middle among them.
const STATIONS: u32 = 9;

impl LineError {
    fn new(line: PathLine, how: How, stations: Vec<(Point, Option<Spot>, Moves)>) -> Self {
        let station = |(at, spot, moves): &(Point, Option<Spot>, Moves)| Station {
            at: *at,
            spot: *spot,
            shift: moves.shift,
            deviation: moves.deviation(),
        };
        Self {
            line,
            how,
            stations: stations.iter().map(station).collect(),
            across: stations.into_iter().map(|(.., moves)| moves).collect(),
        }
    }

    /// Swung about a nail: outwards by what the nail moves outwards and the radius is long.
    pub(super) fn swung(line: PathLine, arc: &Arc, nail: &Sway, radius: &Moves) -> Self {
        let off = |at: Point| {
            let outwards = outwards(arc.centre(), at);
            Moves::sum(&[(1.0, &nail.along(outwards)), (1.0, radius)])
        };
        let stations = stations(arc).map(|at| (at, None, off(at)));
        Self::new(line, How::Swung, stations.collect())
    }

    /// Slid against nails: the circle through three moved spots. Moved circles near a drawn one lie
    /// `a + b cos θ + c sin θ` outside it, and that is fixed by three of them: its interpolation is
    /// Gauss's for trigonometric sums.
    pub(super) fn slid(line: PathLine, arc: &Arc, spots: [(Point, &Sway); 3]) -> Self {
        let centre = arc.centre();
        let of = |at: Point| outwards(centre, at);
        let angles = spots.map(|(at, _)| of(at).angle());
        let outwards = spots.map(|(at, sway)| sway.along(of(at)));
        let half_sine = |from: f64, to: f64| (0.5 * (to - from)).sin();
        let off = |at: Point| {
            let angle = of(at).angle();
            let share = |i: usize| {
                let (j, k) = ((i + 1) % 3, (i + 2) % 3);
                half_sine(angles[j], angle) * half_sine(angles[k], angle)
                    / (half_sine(angles[j], angles[i]) * half_sine(angles[k], angles[i]))
            };
            let shares: Vec<_> = (0..3).map(|i| (share(i), &outwards[i])).collect();
            Moves::sum(&shares)
        };
        let stations = stations(arc).map(|at| (at, None, off(at)));
        Self::new(line, How::Slid, stations.collect())
    }

    /// The station that may be out the most.
    #[must_use]
    pub fn worst(&self) -> Option<&Station> {
        let all = self.stations.iter();
        all.max_by(|one, other| one.within().total_cmp(&other.within()))
    }

    /// How far the line is typically out: the root mean square over its stations, shift and
    /// deviation together, in metres.
    #[must_use]
    pub fn typical(&self) -> f64 {
        let square = |station: &Station| station.shift.powi(2) + station.deviation.powi(2);
        let sum: f64 = self.stations.iter().map(square).sum();
        (sum / self.stations.len().max(1) as f64).sqrt()
    }
}

/// The lines of a course: those struck, and the others by their flags.
pub(super) fn all(
    course: &Course,
    sways: &BTreeMap<Spot, Sway>,
    struck: Vec<LineError>,
) -> Vec<LineError> {
    let mut lines = struck;
    for &line in &course.lines {
        if lines.iter().all(|other| other.line != line) {
            lines.extend(flagged(course, sways, line));
        }
    }
    let place = |line: &LineError| course.lines.iter().position(|own| *own == line.line);
    lines.sort_by_key(place);
    lines
}

fn flagged(course: &Course, sways: &BTreeMap<Spot, Sway>, line: PathLine) -> Option<LineError> {
    let made = course.deeds.iter().filter_map(|deed| deed.makes);
    let own = |spot: &Spot| match spot {
        Spot::Apex(_) => line == PathLine::Centre,
        Spot::Flag { line: other, .. } => *other == line,
        _ => false,
    };
    let ends = course.given.iter().copied();
    let ends = ends.filter(|spot| matches!(spot, Spot::Peg(_)) && line == PathLine::Centre);
    let place = |spot: Spot| Some((spot, course.spots.at(spot)?));
    let flags: Vec<_> = made.filter(own).filter_map(place).collect();
    let pegs: Vec<_> = ends.filter_map(place).collect();
    let places: Vec<Point> = flags.iter().chain(&pegs).map(|(_, at)| *at).collect();
    let form = Form::through(&places)?;
    let pegs = pegs.into_iter().filter(|(_, at)| form.holds(*at));
    let station = |(spot, at): (Spot, Point)| {
        let across = sways.get(&spot)?.along(form.square(at));
        Some((at, Some(spot), across))
    };
    let stations = flags.iter().copied().chain(pegs).filter_map(station);
    Some(LineError::new(line, How::Flagged, stations.collect()))
}

/// What a flagged line is: its flags all stand on one circle or one straight.
enum Form {
    Round { centre: Point, radius: f64 },
    Straight { from: Point, way: Direction },
}

impl Form {
    /// Through the three places that say most about it: two far apart, and the farthest off them.
    fn through(places: &[Point]) -> Option<Self> {
        let from = *places.first()?;
        let farthest = |how_far: &dyn Fn(Point) -> f64| {
            let all = places.iter().copied();
            all.max_by(|one, other| how_far(*one).total_cmp(&how_far(*other)))
        };
        let to = farthest(&|at| from.distance(at))?;
        let way = Direction::of(to - from)?;
        let off = |at: Point| way.unit().cross(at - from).abs();
        let over = farthest(&off)?;
        Some(match Arc::through(from, over, to) {
            Ok(arc) if off(over) > SAME_PLACE => Self::Round {
                centre: arc.centre(),
                radius: arc.radius(),
            },
            _ => Self::Straight { from, way },
        })
    }

    fn holds(&self, at: Point) -> bool {
        let off = match self {
            Self::Round { centre, radius } => centre.distance(at) - radius,
            Self::Straight { from, way } => way.unit().cross(at - *from),
        };
        // Ten times what makes two places one: three places fix a flat circle's centre no better.
        off.abs() <= 10.0 * SAME_PLACE
    }

    fn square(&self, at: Point) -> Vector {
        match self {
            Self::Round { centre, .. } => outwards(*centre, at),
            Self::Straight { way, .. } => way.left().unit(),
        }
    }
}

fn outwards(centre: Point, at: Point) -> Vector {
    Direction::of(at - centre).map_or(Vector::ZERO, Direction::unit)
}

fn stations(arc: &Arc) -> impl Iterator<Item = Point> {
    let step = arc.length() / f64::from(STATIONS - 1);
    (0..STATIONS).map(move |nth| arc.point_at(step * f64::from(nth)))
}

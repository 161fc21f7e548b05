//! A line that a place can be held to: feet, meetings, whole lengths along it.

use geometry::{Direction, Point, Vector};
use plan::units::Graduation;

use super::Why;

/// A line that a place can be held to.
pub(super) struct Track {
    /// Which came first: of lines equally near, that one holds.
    pub(super) order: usize,
    pub(super) at: Point,
    pub(super) unit: Vector,
    /// The part of it that holds, in metres along from `at`.
    pub(super) part: [f64; 2],
    /// The part of it that is shown, whatever is held to it.
    pub(super) shown: [f64; 2],
    /// The peg it runs through, from which lengths along it are counted.
    pub(super) pivot: Option<Point>,
    /// How far from it the hand is, in metres.
    pub(super) off: f64,
    pub(super) why: Why,
}

impl Track {
    fn along(&self, place: Point) -> f64 {
        self.unit.dot(place - self.at)
    }

    fn point_at(&self, along: f64) -> Point {
        self.at + self.unit * along
    }

    pub(super) fn foot(&self, place: Point) -> Point {
        self.point_at(self.along(place))
    }

    fn holds_at(&self, along: f64) -> bool {
        (self.part[0]..=self.part[1]).contains(&along)
    }

    pub(super) fn runs_through(&self, place: Point) -> bool {
        self.unit.cross(place - self.at).abs() <= SAME_LINE && self.holds_at(self.along(place))
    }

    /// Where two lines cross; exact in a coordinate that a line due east or north fixes.
    fn meeting(&self, other: &Self) -> Option<Point> {
        let sine = self.unit.cross(other.unit);
        if sine.abs() < FLATTEST {
            return None;
        }
        let mut at = self.point_at((other.at - self.at).cross(other.unit) / sine);
        for line in [self, other] {
            if line.unit.x == 0.0 {
                at.x = line.at.x;
            }
            if line.unit.y == 0.0 {
                at.y = line.at.y;
            }
        }
        let holds = |line: &Self| line.holds_at(line.along(at));
        (holds(self) && holds(other)).then_some(at)
    }

    /// The place on the line nearest to `to` whose distance from the pivot is a whole number of
    /// graduations.
    pub(super) fn stepped(&self, pivot: Point, graduation: Graduation, to: Point) -> Option<Point> {
        let foot = self.foot(to);
        let (abeam, off) = (self.along(pivot), self.unit.cross(pivot - self.at).abs());
        let mut length = graduation.round(pivot.distance(foot));
        if length < off {
            length = graduation.round(length + graduation.metres());
        }
        // (length − off) (length + off) keeps the digits that length² − off² loses.
        let half = ((length - off) * (length + off)).sqrt();
        let along = abeam + half.copysign(self.along(to) - abeam);
        (length > 0.0 && self.holds_at(along)).then(|| self.point_at(along))
    }

    /// The shown part, drawn out to a place on the line.
    pub(super) fn shown_to(&self, place: Point) -> [Point; 2] {
        let (along, [low, high]) = (self.along(place), self.shown);
        let end = |shown: f64, out: bool| if out { place } else { self.point_at(shown) };
        [end(low, along < low), end(high, high < along)]
    }
}

/// The place in the direction of `to` at a whole number of graduations from the pivot.
pub(super) fn stepped(pivot: Point, graduation: Graduation, to: Point) -> Option<Point> {
    let way = Direction::of(to - pivot)?;
    let length = graduation.round(pivot.distance(to));
    (length > 0.0).then(|| pivot + way.unit() * length)
}

pub(super) fn nearest_meeting(tracks: &[Track], to: Point, reach: f64) -> Option<Point> {
    let mut best: Option<(f64, Point)> = None;
    for (i, first) in tracks.iter().enumerate() {
        for second in &tracks[i + 1..] {
            let Some(at) = first.meeting(second) else {
                continue;
            };
            let off = at.distance(to);
            if off <= reach && best.is_none_or(|(nearest, _)| off < nearest) {
                best = Some((off, at));
            }
        }
    }
    best.map(|(_, at)| at)
}

/// Lines that cross more flatly than this do not fix a place: the sine of 3°.
const FLATTEST: f64 = 0.052_335_956_242_943_835;
/// A line this near to a held place runs through it, in metres: far below any tape, far above the
/// last digits of a place 100 km from the origin.
const SAME_LINE: f64 = 1e-6;

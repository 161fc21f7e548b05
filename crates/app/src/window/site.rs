//! What of the site is chosen, and what of it is being drawn.

use geometry::Point;
use plan::Plan;
use plan::document::{Extent, Mark, Obstacle, ObstacleKind, Side, Swing};
use plan::edit::SiteEdit;
use plan::limits::SHORTEST;

/// A thing on the site, counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Thing {
    /// An obstacle.
    Obstacle(usize),
    /// A mark.
    Mark(usize),
}

/// The part of a thing that is chosen, counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// All of it.
    Whole,
    /// A corner.
    Corner(usize),
    /// The side that leads on from a corner.
    Side(usize),
}

/// What of the site is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SitePick {
    /// The thing.
    pub thing: Thing,
    /// The part of it.
    pub part: Part,
}

impl SitePick {
    /// A thing as a whole.
    #[must_use]
    pub fn whole(thing: Thing) -> Self {
        Self {
            thing,
            part: Part::Whole,
        }
    }

    /// The chosen obstacle, and its number from 0.
    #[must_use]
    pub fn obstacle(self, plan: &Plan) -> Option<(usize, &Obstacle)> {
        match self.thing {
            Thing::Obstacle(index) => Some((index, plan.site.obstacles.get(index)?)),
            Thing::Mark(_) => None,
        }
    }

    /// Whether it is there in a plan.
    #[must_use]
    pub fn is_in(self, plan: &Plan) -> bool {
        match (self.thing, self.part) {
            (Thing::Mark(mark), _) => mark < plan.site.marks.len(),
            (Thing::Obstacle(_), Part::Whole) => self.obstacle(plan).is_some(),
            (Thing::Obstacle(_), Part::Corner(i) | Part::Side(i)) => self
                .obstacle(plan)
                .is_some_and(|(_, obstacle)| i < obstacle.extent.count()),
        }
    }
}

/// What can be drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum What {
    /// A thing with corners.
    Corners(ObstacleKind),
    /// A round thing.
    Round(ObstacleKind),
    /// A mark.
    Mark,
}

impl What {
    /// All that is offered, in order, and the key that begins it.
    pub const ALL: [(Self, egui::Key); 10] = [
        (Self::Corners(ObstacleKind::Wall), egui::Key::W),
        (Self::Corners(ObstacleKind::Building), egui::Key::B),
        (Self::Corners(ObstacleKind::Bed), egui::Key::D),
        (Self::Corners(ObstacleKind::Pond), egui::Key::P),
        (Self::Round(ObstacleKind::Pond), egui::Key::R),
        (Self::Round(ObstacleKind::Tree), egui::Key::T),
        (Self::Corners(ObstacleKind::Service), egui::Key::S),
        (Self::Corners(ObstacleKind::Boundary), egui::Key::Y),
        (Self::Corners(ObstacleKind::Gate), egui::Key::G),
        (Self::Mark, egui::Key::K),
    ];

    /// Its word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Round(ObstacleKind::Pond) => "round pond",
            Self::Corners(kind) | Self::Round(kind) => kind.word(),
            Self::Mark => "mark",
        }
    }

    /// Whether its corners enclose ground however they are ended.
    fn is_ground(self) -> bool {
        matches!(
            self,
            Self::Corners(ObstacleKind::Building | ObstacleKind::Bed | ObstacleKind::Pond)
        )
    }

    /// Whether its last corner may lead back to its first.
    #[must_use]
    pub fn may_close(self) -> bool {
        matches!(
            self,
            Self::Corners(ObstacleKind::Wall | ObstacleKind::Boundary)
        ) || self.is_ground()
    }
}

/// A thing being drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Sketch {
    /// What it becomes.
    pub what: What,
    /// Its corners so far; of a round thing its middle.
    pub corners: Vec<Point>,
    /// A length or a place being typed.
    pub typed: String,
}

/// Fewest corners of an area.
const AREA: usize = 3;
/// How far a new gate opens, in radians: square to where it hangs.
const OPENS: f64 = std::f64::consts::FRAC_PI_2;

impl Sketch {
    /// Nothing drawn of it yet.
    #[must_use]
    pub fn new(what: What) -> Self {
        Self {
            what,
            corners: Vec::new(),
            typed: String::new(),
        }
    }

    /// With one more corner, and nothing typed; the same where it would make a side of no length.
    #[must_use]
    pub fn with(&self, corner: Point) -> Self {
        let mut next = Self {
            typed: String::new(),
            ..self.clone()
        };
        let last = next.corners.last();
        if last.is_none_or(|last| last.distance(corner) >= SHORTEST) {
            next.corners.push(corner);
        }
        next
    }

    /// Whether a click on its first corner closes it.
    #[must_use]
    pub fn can_close(&self) -> bool {
        self.what.may_close() && self.corners.len() >= AREA
    }

    /// Whether it can be ended as it is.
    #[must_use]
    pub fn can_end(&self) -> bool {
        self.end(false, 0).is_some()
    }

    /// Whether its next place ends it: both posts of a gate, middle and radius, a mark.
    #[must_use]
    pub fn ends_itself(&self) -> bool {
        match self.what {
            What::Mark => !self.corners.is_empty(),
            What::Round(_) | What::Corners(ObstacleKind::Gate) => self.corners.len() > 1,
            What::Corners(_) => false,
        }
    }

    /// What is added to a plan when it is ended; `number` tells it from others of its kind. `None`
    /// while it has not enough corners.
    #[must_use]
    pub fn end(&self, closed: bool, number: usize) -> Option<SiteEdit> {
        let name = format!("{} {number}", self.what.word());
        let add = |kind, extent| {
            let mut obstacle = Obstacle::new(name.clone(), kind, extent);
            if kind == ObstacleKind::Gate {
                let to = Side::Left;
                obstacle.swing = Some(Swing { to, angle: OPENS });
            }
            SiteEdit::AddObstacle(Box::new(obstacle))
        };
        let corners = &self.corners;
        match (self.what, corners.as_slice()) {
            (What::Mark, [at, ..]) => Some(SiteEdit::AddMark(Mark {
                name: name.clone(),
                at: *at,
            })),
            (What::Round(kind), [centre, edge]) => Some(add(
                kind,
                Extent::Round {
                    centre: *centre,
                    radius: centre.distance(*edge),
                },
            )),
            (What::Corners(ObstacleKind::Gate), [_, _]) => {
                Some(add(ObstacleKind::Gate, Extent::Line(corners.clone())))
            }
            (What::Corners(kind), _) => {
                let area = self.what.is_ground() || (closed && self.what.may_close());
                if area {
                    (corners.len() >= AREA).then(|| add(kind, Extent::Area(corners.clone())))
                } else {
                    (corners.len() >= 2 && kind != ObstacleKind::Gate)
                        .then(|| add(kind, Extent::Line(corners.clone())))
                }
            }
            _ => None,
        }
    }
}

/// A number that no other thing of the same word has in its name.
#[must_use]
pub fn free_number(plan: &Plan, word: &str) -> usize {
    let names = plan.site.obstacles.iter().map(|obstacle| &obstacle.name);
    let names = names.chain(plan.site.marks.iter().map(|mark| &mark.name));
    let number = |name: &String| name.strip_prefix(word)?.trim().parse::<usize>().ok();
    names
        .filter_map(number)
        .max()
        .unwrap_or(0)
        .saturating_add(1)
}

/// What a view asks for about the site.
#[derive(Clone, Debug, PartialEq)]
pub enum SiteAsk {
    /// Choose a part of it, or nothing.
    Choose(Option<SitePick>),
    /// Add what has been drawn, and choose it.
    Add(SiteEdit),
    /// Take the chosen corner out, or the chosen thing away.
    TakeOut,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sketch(what: What, places: &[(f64, f64)]) -> Sketch {
        let start = Sketch::new(what);
        places
            .iter()
            .fold(start, |sketch, (x, y)| sketch.with(Point::new(*x, *y)))
    }

    fn extent(edit: Option<SiteEdit>) -> Option<Extent> {
        match edit {
            Some(SiteEdit::AddObstacle(obstacle)) => Some(obstacle.extent),
            _ => None,
        }
    }

    #[test]
    fn it_ends_with_enough_corners_only() {
        let places = [(0., 0.), (4., 0.), (4., 3.)];
        let wall = What::Corners(ObstacleKind::Wall);
        let bed = What::Corners(ObstacleKind::Bed);
        let gate = What::Corners(ObstacleKind::Gate);
        for (what, least) in [(wall, 2), (bed, 3), (gate, 2), (What::Mark, 1)] {
            for count in 0..=3 {
                let can = sketch(what, &places[..count]).can_end();
                let most = if what == gate { 2 } else { usize::MAX };
                assert_eq!(can, (least..=most).contains(&count), "{what:?} {count}");
            }
        }
    }

    #[test]
    fn a_wall_is_a_line_unless_it_is_closed_and_a_bed_never_is() {
        let places = [(0., 0.), (4., 0.), (4., 3.)];
        let wall = sketch(What::Corners(ObstacleKind::Wall), &places);
        assert!(matches!(extent(wall.end(false, 1)), Some(Extent::Line(_))));
        assert!(matches!(extent(wall.end(true, 1)), Some(Extent::Area(_))));
        let bed = sketch(What::Corners(ObstacleKind::Bed), &places);
        assert!(matches!(extent(bed.end(false, 1)), Some(Extent::Area(_))));
        let pipe = sketch(What::Corners(ObstacleKind::Service), &places);
        assert!(matches!(extent(pipe.end(true, 1)), Some(Extent::Line(_))));
    }

    #[test]
    fn a_side_of_no_length_is_not_drawn() {
        let wall = sketch(What::Corners(ObstacleKind::Wall), &[(1., 1.), (1., 1.)]);
        assert_eq!(wall.corners.len(), 1);
    }
}

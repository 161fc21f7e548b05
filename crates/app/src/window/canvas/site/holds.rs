//! What of a chosen thing the hand can take hold of, and what moving it means.

use egui::Pos2;
use geometry::{Direction, Point};
use plan::document::{Extent, Obstacle, ObstacleKind, Side, Site, Swing};
use plan::edit::SiteEdit;
use plan::limits;
use plan::units::Ruler;

use super::super::Scene;
use super::super::sparse::thinned;
use super::reach::side_of;
use crate::window::site::{Part, Thing};
use crate::window::theme;
use crate::window::view::View;

/// A part of the chosen thing that the hand can move.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Hold {
    /// The thing as it is.
    Whole,
    /// A corner, counted from 0.
    Corner(usize),
    /// The middle of the side that leads on from a corner.
    Side(usize),
    /// The edge of a round thing.
    Radius,
    /// The end of a gate's opened leaf.
    Opening,
}

impl Hold {
    /// What is chosen when it is clicked.
    pub(super) fn part(self) -> Part {
        match self {
            Self::Corner(i) => Part::Corner(i),
            Self::Side(i) => Part::Side(i),
            Self::Whole | Self::Radius | Self::Opening => Part::Whole,
        }
    }
}

/// A hold in its place this frame.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    pub(super) hold: Hold,
    pub(super) at: Point,
    /// What a screen reader calls it.
    pub(super) name: String,
    /// What a screen reader reads as its value.
    pub(super) value: String,
}

/// The holds of the chosen thing; corners last, so that they lie above the others.
pub(super) fn placed(scene: &Scene<'_>, thing: Thing) -> Vec<Placed> {
    let ruler = scene.ruler();
    match thing {
        Thing::Mark(mark) => {
            let Some(mark) = scene.plan.site.marks.get(mark) else {
                return Vec::new();
            };
            vec![Placed {
                hold: Hold::Whole,
                at: mark.at,
                name: format!("Mark {}", mark.name),
                value: place_text(&ruler, mark.at),
            }]
        }
        Thing::Obstacle(obstacle) => {
            let obstacle = scene.plan.site.obstacles.get(obstacle);
            obstacle.map_or(Vec::new(), |it| of_obstacle(&ruler, it))
        }
    }
}

fn place_text(ruler: &Ruler, at: Point) -> String {
    format!("{} east, {} north", ruler.text(at.x), ruler.text(at.y))
}

fn of_obstacle(ruler: &Ruler, it: &Obstacle) -> Vec<Placed> {
    let of = |what: &str| match it.name.trim() {
        "" => format!("{what} of the {}", it.kind.word()),
        name => format!("{what} of {name}"),
    };
    let mut all = Vec::new();
    let middle = middle(&it.extent);
    all.extend(middle.map(|at| Placed {
        hold: Hold::Whole,
        at,
        name: of("Middle"),
        value: place_text(ruler, at),
    }));
    match &it.extent {
        Extent::Round { centre, radius } => all.push(Placed {
            hold: Hold::Radius,
            at: Point::new(centre.x + radius, centre.y),
            name: of("Radius"),
            value: ruler.text(*radius),
        }),
        Extent::Line(posts) if it.kind == ObstacleKind::Gate => {
            if let (Some(swing), Some(at)) = (it.swing, it.opened()) {
                all.push(Placed {
                    hold: Hold::Opening,
                    at,
                    name: of("Opening"),
                    value: opening_text(swing),
                });
            }
            for (i, (at, what)) in posts.iter().zip(["Hinge post", "Latch post"]).enumerate() {
                all.push(Placed {
                    hold: Hold::Corner(i),
                    at: *at,
                    name: of(what),
                    value: place_text(ruler, *at),
                });
            }
        }
        extent => {
            for side in 0..extent.count() {
                let Some(piece) = side_of(extent, side) else {
                    continue;
                };
                let length = ruler.text(piece.length());
                all.push(Placed {
                    hold: Hold::Side(side),
                    at: piece.point_at(0.5 * piece.length()),
                    name: of(&format!("Side {}", side + 1)),
                    value: match piece.arc() {
                        Some(arc) => format!("{length}, rise {}", ruler.text(arc.rise().abs())),
                        None => format!("{length}, straight"),
                    },
                });
            }
            for (i, at) in extent.corners().into_iter().enumerate() {
                all.push(Placed {
                    hold: Hold::Corner(i),
                    at,
                    name: of(&format!("Corner {}", i + 1)),
                    value: place_text(ruler, at),
                });
            }
        }
    }
    all
}

pub(super) fn opening_text(swing: Swing) -> String {
    let angle = plan::units::angle_text(swing.angle);
    format!("{angle} to the {}", swing.to.word())
}

/// Where a thing is taken hold of as a whole: its middle; of a line a quarter along its first side,
/// clear of the middle of that side.
fn middle(extent: &Extent) -> Option<Point> {
    match extent {
        Extent::Line(points) => Some(points.first()?.towards(*points.get(1)?, 0.25)),
        extent => extent.room().map(geometry::Bounds::middle),
    }
}

/// The holds that are shown, and where on the screen: of those too near one another to be told apart
/// one stands for all, a corner before a side. What is chosen or `held` always shows.
pub(super) fn shown(
    all: Vec<Placed>,
    view: &View,
    chosen: Part,
    held: Option<Hold>,
) -> Vec<(Placed, Pos2)> {
    let area = view.area().expand(theme::TARGET);
    let stays = |placed: &Placed| {
        held == Some(placed.hold) || (chosen != Part::Whole && placed.hold.part() == chosen)
    };
    let seen = all
        .into_iter()
        .rev()
        .filter(|placed| area.contains(view.screen_from_plan(placed.at)) || stays(placed))
        .collect();
    thinned(seen, view, |placed: &Placed| placed.at, stays)
        .into_iter()
        .rev()
        .map(|placed| {
            let at = view.screen_from_plan(placed.at);
            (placed, at)
        })
        .collect()
}

/// What moving a hold from one place to another means, on the site as it was at the press.
pub(super) fn edit(
    site: &Site,
    thing: Thing,
    hold: Hold,
    (from, to): (Point, Point),
) -> Option<SiteEdit> {
    let obstacle = match thing {
        Thing::Mark(mark) => {
            let mut moved = site.marks.get(mark)?.clone();
            moved.at = to;
            return Some(SiteEdit::SetMark { mark, to: moved });
        }
        Thing::Obstacle(obstacle) => obstacle,
    };
    let it = site.obstacles.get(obstacle)?;
    Some(match hold {
        Hold::Whole => SiteEdit::MoveObstacle {
            obstacle,
            by: to - from,
        },
        Hold::Corner(corner) => SiteEdit::MoveCorner {
            obstacle,
            corner,
            to,
        },
        Hold::Side(side) if it.extent.is_closed() => SiteEdit::BendSide {
            obstacle,
            corner: side,
            rise: rise_through(&it.extent, side, to)?,
        },
        // A line bends by a corner put in there.
        Hold::Side(after) => SiteEdit::InsertCorner {
            obstacle,
            after,
            at: to,
        },
        Hold::Radius => {
            let Extent::Round { centre, .. } = it.extent else {
                return None;
            };
            let radius = centre.distance(to);
            let radius = radius.clamp(limits::SHORTEST, limits::LONGEST);
            let mut it = it.clone();
            it.extent = Extent::Round { centre, radius };
            let to = Box::new(it);
            SiteEdit::SetObstacle { obstacle, to }
        }
        Hold::Opening => {
            let [hinge, latch] = it.posts()?;
            let (leaf, open) = (Direction::of(latch - hinge)?, Direction::of(to - hinge)?);
            let turn = leaf.turn_to(open);
            let mut it = it.clone();
            it.swing = Some(Swing {
                to: if turn < 0.0 { Side::Right } else { Side::Left },
                angle: turn.abs(),
            });
            let to = Box::new(it);
            SiteEdit::SetObstacle { obstacle, to }
        }
    })
}

/// The signed rise of a side whose apex is as far from its chord as a place.
fn rise_through(extent: &Extent, side: usize, to: Point) -> Option<f64> {
    let corners = extent.corners();
    let (from, end) = (corners.get(side)?, corners.get((side + 1) % corners.len())?);
    let left = Direction::of(*end - *from)?.left().unit();
    Some(left.dot(to - from.middle(*end)))
}

/// The way in which the middle of a side moves when its rise grows.
pub(super) fn across(extent: &Extent, side: usize) -> Option<geometry::Vector> {
    let corners = extent.corners();
    let (from, end) = (corners.get(side)?, corners.get((side + 1) % corners.len())?);
    Some(Direction::of(*end - *from)?.left().unit())
}

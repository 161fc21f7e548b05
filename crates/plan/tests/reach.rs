//! What the ground allows in setting out: each way of being hindered, by construction and at random.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot make its pieces fails there"
)]

#[path = "reach/laws.rs"]
mod laws;
#[path = "reach/lines.rs"]
mod lines;
#[path = "reach/swinging.rs"]
mod swinging;
#[path = "reach/words.rs"]
mod words;

use std::sync::Arc as Shared;

use geometry::{Arc, Direction, Point};
use plan::document::{Corner, Extent, Obstacle, ObstacleKind, Site};
use plan::setout::reach::{Cause, Hindrance, Reach, ReachLimits, Severity};
use plan::surroundings::Surroundings;

fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

fn surroundings(obstacles: Vec<Obstacle>) -> Surroundings {
    Surroundings::of(&Shared::new(Site {
        obstacles,
        ..Site::default()
    }))
}

fn thing(kind: ObstacleKind, extent: Extent) -> Obstacle {
    Obstacle::new("", kind, extent)
}

fn round(kind: ObstacleKind, x: f64, y: f64, radius: f64) -> Obstacle {
    let centre = at(x, y);
    thing(kind, Extent::Round { centre, radius })
}

fn line(kind: ObstacleKind, points: &[(f64, f64)]) -> Obstacle {
    let points = points.iter().map(|(x, y)| at(*x, *y)).collect();
    thing(kind, Extent::Line(points))
}

/// A wall 0.2 m thick.
fn wall(points: &[(f64, f64)]) -> Obstacle {
    let mut wall = line(ObstacleKind::Wall, points);
    wall.thickness = Some(0.2);
    wall
}

fn square(kind: ObstacleKind, (x, y): (f64, f64), side: f64) -> Obstacle {
    let corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)];
    let corners = corners.iter().map(|(x, y)| at(*x, *y)).collect();
    thing(kind, Extent::Area(corners))
}

/// The arc about a centre that begins at a bearing and turns left (right below zero), in degrees
/// from east.
fn arc(centre: Point, radius: f64, from: f64, sweep: f64) -> Arc {
    let [from, sweep] = [from, sweep].map(geometry::angle::from_degrees);
    let on = |angle| centre + Direction::at_angle(angle).unwrap().unit() * radius;
    let rise = radius * (1.0 - (0.5 * sweep).cos());
    Arc::from_rise(on(from), on(from + sweep), -rise.copysign(sweep)).unwrap()
}

/// What was found, as kinds of thing and how much each hinders.
fn met(found: &[Hindrance]) -> Vec<(usize, Severity)> {
    let obstacle = |hindrance: &Hindrance| match hindrance.cause {
        Cause::Obstacle(index) => Some((index, hindrance.severity)),
        Cause::Roots(_) | Cause::TooLong(_) => None,
    };
    found.iter().filter_map(obstacle).collect()
}

fn limits() -> ReachLimits {
    ReachLimits::default()
}

const STOPS: Severity = Severity::Stops;
const CARE: Severity = Severity::Care;

#[track_caller]
fn near(actual: f64, expected: f64) {
    // Depths fall short by a tenth of a millimetre at most.
    assert!(
        (actual - expected).abs() <= 1.1e-4,
        "{actual} for {expected}"
    );
}

//! How much of the root zones of trees a path covers.

use std::f64::consts::PI;

use geometry::Point;

use crate::document::Extent;
use crate::solve::SolvedRoute;
use crate::surroundings::Surroundings;

/// How much of one root zone a path covers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RootShare {
    /// Which obstacle the tree is, counted from 0.
    pub tree: usize,
    /// The radius of its root zone in metres.
    pub radius: f64,
    /// The area covered, in square metres.
    pub covered: f64,
    /// The area of the zone, in square metres.
    pub whole: f64,
    /// The point of the centre line nearest to the stem.
    pub at: Point,
    /// Its station in metres.
    pub station: f64,
}

/// The root zones that a path covers some of, by tree.
pub(crate) fn root_shares(solved: &SolvedRoute, surroundings: &Surroundings) -> Vec<RootShare> {
    let Some(centre) = &solved.centre_line else {
        return Vec::new();
    };
    let half = 0.5 * solved.width;
    let mut trees: Vec<usize> = centre
        .pieces()
        .iter()
        .flat_map(|piece| surroundings.root_zones_near(piece, half))
        .collect();
    trees.sort_unstable();
    trees.dedup();
    let rings = if trees.is_empty() {
        Vec::new()
    } else {
        solved.outline()
    };
    let site = surroundings.site();
    let share = |tree: usize| {
        let obstacle = &site.obstacles[tree];
        let radius = obstacle.root_radius(site.roots)?;
        let Extent::Round { centre: stem, .. } = obstacle.extent else {
            return None;
        };
        let shared = rings.iter().map(|ring| ring.area_in_circle(stem, radius));
        let covered = shared.reduce(|outer, inner| outer - inner)?;
        let nearest = centre.nearest(stem);
        (covered > 0.0).then_some(RootShare {
            tree,
            radius,
            covered,
            whole: PI * radius * radius,
            at: nearest.point,
            station: nearest.station,
        })
    };
    trees.into_iter().filter_map(share).collect()
}

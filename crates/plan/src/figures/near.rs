//! What stands on the site and how near the paths come to it, and to each other, for scripts.

use serde::Serialize;

use super::pair;
use crate::clearance::{Clearance, RootShare};
use crate::document::Plan;
use crate::solve::PathGap;

/// One thing that stands on the site.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ObstacleFigures {
    /// Its name.
    pub name: String,
    /// What kind of thing it is, in a word.
    pub kind: &'static str,
    /// The clearance it wants.
    pub wanted: f64,
    /// How far the roots of a tree are taken to reach; null for all else.
    pub root_zone: Option<f64>,
}

/// How near one part of a path comes to one obstacle.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClearanceFigures {
    /// Which obstacle, counted from 1.
    pub obstacle: usize,
    /// `left edge`, `right edge`, `start` or `end`.
    pub border: &'static str,
    /// The least distance; negative where they overlap.
    pub distance: f64,
    /// The distance that is wanted there.
    pub wanted: f64,
    /// Whether they take up the same ground.
    pub overlaps: bool,
    /// Whether the path leads up to it there.
    pub leads_up: bool,
    /// The station of the place on the centre line.
    pub station: f64,
    /// The nearest point of the path.
    pub on_path: [f64; 2],
    /// The nearest point of the obstacle.
    pub on_obstacle: [f64; 2],
}

/// How much of one root zone a path covers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RootFigures {
    /// Which obstacle the tree is, counted from 1.
    pub tree: usize,
    /// The area covered.
    pub covered: f64,
    /// The area of the whole zone.
    pub whole: f64,
}

/// Two paths near each other.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PathGapFigures {
    /// The first path, counted from 1.
    pub first: usize,
    /// The second path, counted from 1.
    pub second: usize,
    /// The least distance between their edges; 0 where they meet or overlap.
    pub distance: f64,
    /// Whether they take up the same ground.
    pub overlaps: bool,
}

/// Everything that stands on the site, in the order of the plan.
pub(super) fn obstacles(plan: &Plan) -> Vec<ObstacleFigures> {
    let site = &plan.site;
    site.obstacles
        .iter()
        .map(|obstacle| ObstacleFigures {
            name: obstacle.name.clone(),
            kind: obstacle.kind.word(),
            wanted: obstacle.wanted_clearance(),
            root_zone: obstacle.root_radius(site.roots),
        })
        .collect()
}

impl From<&Clearance> for ClearanceFigures {
    fn from(clearance: &Clearance) -> Self {
        Self {
            obstacle: clearance.obstacle + 1,
            border: clearance.border.word(),
            distance: clearance.distance,
            wanted: clearance.wanted,
            overlaps: clearance.overlaps,
            leads_up: clearance.leads_up,
            station: clearance.station,
            on_path: pair(clearance.on_path),
            on_obstacle: pair(clearance.on_obstacle),
        }
    }
}

impl From<&RootShare> for RootFigures {
    fn from(share: &RootShare) -> Self {
        Self {
            tree: share.tree + 1,
            covered: share.covered,
            whole: share.whole,
        }
    }
}

impl From<&PathGap> for PathGapFigures {
    fn from(gap: &PathGap) -> Self {
        Self {
            first: gap.paths[0] + 1,
            second: gap.paths[1] + 1,
            distance: gap.distance,
            overlaps: gap.overlaps,
        }
    }
}

//! The site made ready for measuring: its obstacles as patches of ground, found by place.
//!
//! Made once for a site and kept for as long as that very site is shared between plans, so that
//! dragging a path looks at no obstacle it does not come near.

use std::sync::Arc;

use geometry::{Bounds, Chain, Core, Gap, Ground, Line, Patch, PatchError, Piece, Point};

use crate::clearance::DOORSTEP;
use crate::document::{Extent, Obstacle, ObstacleKind, Site};
use crate::finding::{Code, Finding, Part, Place, Severity};

/// What stands round the paths of a plan.
#[derive(Clone, Debug)]
pub struct Surroundings {
    site: Arc<Site>,
    ground: Ground,
    /// Which obstacle each patch belongs to, and the clearance that one wants.
    owners: Vec<(usize, f64)>,
    reach: f64,
    /// The root zones of trees, and which obstacle each tree is.
    roots: Ground,
    trees: Vec<usize>,
    findings: Vec<Finding>,
}

/// Surroundings of equal sites are equal: all else follows from the site.
impl PartialEq for Surroundings {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.site, &other.site) || self.site == other.site
    }
}

/// Obstacles are measured so much farther from a path than they want to be kept, in metres: what
/// one can nearly touch from there is worth knowing.
pub const IN_SIGHT: f64 = 1.0;

/// A stem thicker than this is most likely mistyped, metres: the thickest trees of Europe.
const THICKEST_STEM: f64 = 4.0;

impl Surroundings {
    /// The surroundings on a site.
    #[must_use]
    pub fn of(site: &Arc<Site>) -> Self {
        let mut findings = Vec::new();
        let (mut patches, mut owners) = (Vec::new(), Vec::new());
        for (index, obstacle) in site.obstacles.iter().enumerate() {
            let made = patches_of(obstacle);
            if let Some(finding) = trouble(index, obstacle, &made) {
                findings.push(finding);
            }
            for patch in made.patches {
                patches.push(patch);
                owners.push((index, obstacle.wanted_clearance()));
            }
        }
        let (mut zones, mut trees) = (Vec::new(), Vec::new());
        for (index, tree) in site.obstacles.iter().enumerate() {
            if let (Some(radius), Extent::Round { centre, .. }) =
                (tree.root_radius(site.roots), &tree.extent)
                && let Ok(zone) = Patch::new(Core::Point(*centre), radius)
            {
                zones.push(zone);
                trees.push(index);
            }
        }
        let wanted = owners.iter().map(|(_, wanted)| *wanted);
        Self {
            site: Arc::clone(site),
            ground: Ground::new(patches),
            reach: wanted.fold(0.0, f64::max) + IN_SIGHT,
            owners,
            roots: Ground::new(zones),
            trees,
            findings,
        }
    }

    /// Whether they are those of this very site.
    #[must_use]
    pub fn are_of(&self, site: &Arc<Site>) -> bool {
        Arc::ptr_eq(&self.site, site)
    }

    /// The site.
    #[must_use]
    pub fn site(&self) -> &Site {
        &self.site
    }

    /// What is wrong with the obstacles themselves.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// The patches of ground the obstacles take up; a gate has two.
    #[must_use]
    pub fn ground(&self) -> &Ground {
        &self.ground
    }

    /// Which obstacle a patch belongs to, counted from 0.
    #[must_use]
    pub fn obstacle_of(&self, patch: usize) -> usize {
        self.owners[patch].0
    }

    /// The clearance a patch wants, in metres.
    #[must_use]
    pub fn wanted_by(&self, patch: usize) -> f64 {
        self.owners[patch].1
    }

    /// The trees whose roots reach to within `reach` metres of a piece: which obstacles they are.
    pub(crate) fn root_zones_near(&self, piece: &Piece, reach: f64) -> Vec<usize> {
        let near = self.roots.near(piece, reach);
        near.into_iter().map(|(zone, _)| self.trees[zone]).collect()
    }

    /// The trees among whose roots a point lies: which obstacles they are, and how deep in the root
    /// zone it is, in metres.
    pub(crate) fn roots_at(&self, point: Point) -> impl Iterator<Item = (usize, f64)> {
        let zones = self.roots.near_point(point, 0.0);
        zones
            .into_iter()
            .map(|(zone, gap)| (self.trees[zone], -gap.distance))
    }

    /// The boxes round the root zones that come to within `reach` metres of a point.
    pub(crate) fn root_boxes(&self, point: Point, reach: f64) -> Vec<Bounds> {
        let zones = self.roots.near_point(point, reach).into_iter();
        zones
            .filter_map(|(zone, _)| self.roots.patches()[zone].bounds())
            .collect()
    }

    /// How far from a path anything is worth measuring, in metres.
    #[must_use]
    pub fn reach(&self) -> f64 {
        self.reach
    }

    /// The patches whose border is at a point, to within a doorstep: what a path that ends there
    /// leads up to.
    pub(crate) fn patches_at(&self, point: Point) -> impl Iterator<Item = usize> {
        let near = self.ground.near_point(point, DOORSTEP);
        near.into_iter()
            .filter(|(_, gap)| gap.distance >= -DOORSTEP)
            .map(|(patch, _)| patch)
    }

    /// The obstacle nearest to a point and not farther off than `reach` metres.
    #[must_use]
    pub fn nearest(&self, point: Point, reach: f64) -> Option<(usize, Gap)> {
        let (patch, gap) = self.ground.nearest(point, reach)?;
        Some((self.obstacle_of(patch), gap))
    }
}

/// The ground of one obstacle, and what its outline suffers from.
struct Made {
    patches: Vec<Patch>,
    error: Option<PatchError>,
}

fn patches_of(obstacle: &Obstacle) -> Made {
    let mut made = Made {
        patches: Vec::new(),
        error: None,
    };
    let half = 0.5 * obstacle.thickness.unwrap_or(0.0);
    if obstacle.kind == ObstacleKind::Gate {
        // One walks between its posts.
        for post in obstacle.extent.corners() {
            made.add(Core::Point(post), half);
        }
        return made;
    }
    match (&obstacle.extent, obstacle.kind) {
        (Extent::Round { centre, radius }, kind) if kind != ObstacleKind::Boundary => {
            made.add(Core::Point(*centre), *radius);
        }
        (Extent::Line(_), kind) => {
            let Some(line) = chain(obstacle, false) else {
                return made;
            };
            match (kind, ring_of(&line, half)) {
                (ObstacleKind::Wall, Some(ring)) => made.add(Core::Area(ring), 0.0),
                (ObstacleKind::Wall, None) => made.add(Core::Line(line), half),
                (_, _) => made.add(Core::Line(line), obstacle.unsure.unwrap_or(0.0)),
            }
        }
        (_, kind) => {
            let Some(outline) = chain(obstacle, true) else {
                return made;
            };
            let unsure = obstacle.unsure.unwrap_or(0.0);
            if kind == ObstacleKind::Boundary {
                made.add(Core::Beyond(outline), 0.0);
            } else {
                made.add(Core::Area(outline), unsure);
            }
        }
    }
    made
}

impl Made {
    /// An outline that crosses itself has no sure inside: its lines alone are kept off.
    fn add(&mut self, core: Core, grown: f64) {
        match Patch::new(core.clone(), grown) {
            Ok(patch) => self.patches.push(patch),
            Err(error) => {
                self.error = Some(error);
                if let Core::Area(outline) | Core::Beyond(outline) = core {
                    self.patches.extend(Patch::new(Core::Line(outline), grown));
                }
            }
        }
    }
}

fn chain(obstacle: &Obstacle, closed: bool) -> Option<Chain> {
    let sides: Vec<Piece> = obstacle.extent.sides().collect();
    Chain::new(sides, closed).ok()
}

/// The outline of a wall of some thickness: mitred at its corners, square at its ends.
fn ring_of(line: &Chain, half: f64) -> Option<Chain> {
    if half <= 0.0 {
        return None;
    }
    let (left, right) = (line.offset(half), line.offset(-half));
    let (left, right) = (left.chain?, right.chain?);
    let mut ring: Vec<Piece> = right.pieces().to_vec();
    ring.extend(Line::new(right.end(), left.end()).map(Piece::Line));
    ring.extend(left.reversed().pieces());
    ring.extend(Line::new(left.start(), right.start()).map(Piece::Line));
    let ring = Chain::new(ring, true).ok()?;
    ring.self_crossings().is_empty().then_some(ring)
}

/// What is wrong with an obstacle as it is drawn.
fn trouble(index: usize, obstacle: &Obstacle, made: &Made) -> Option<Finding> {
    let name = obstacle.called();
    let at = obstacle.extent.outline().first().copied()?;
    let (severity, code, at, sentence, figures) = if let Some(error) = &made.error {
        let at = match error {
            PatchError::CrossesItself(at) => *at,
            _ => at,
        };
        (
            Severity::Care,
            Code::OutlineCrosses,
            at,
            format!(
                "the outline of {name} crosses or touches itself, so that its inside is not sure: only its sides are kept clear; move a corner, or draw it as two"
            ),
            (None, None),
        )
    } else if made.patches.is_empty() {
        (
            Severity::Care,
            Code::NoGround,
            at,
            format!("{name} takes up no ground: its corners lie on each other; draw it again"),
            (None, None),
        )
    } else if let Some(stem) = obstacle.stem_radius().filter(|r| 2.0 * r > THICKEST_STEM) {
        (
            Severity::Care,
            Code::StemTooThick,
            at,
            format!(
                "the stem of {name} is thicker than any tree's: its size is that of the stem, not of the crown"
            ),
            (Some(2.0 * stem), Some(THICKEST_STEM)),
        )
    } else {
        return None;
    };
    Some(Finding {
        severity,
        code,
        place: Place {
            scheme: 0,
            route: 0,
            part: Part::Obstacle(index),
            at,
        },
        sentence,
        value: figures.0,
        limit: figures.1,
        source: "geometry",
    })
}

//! Changes of what is on the ground. A path that refers to a wall or a mark keeps its direction,
//! whatever becomes of the wall's name or its other corners.

use geometry::{Point, Vector};

use super::EditError;
use crate::document::{
    Corner, Extent, Heading, Mark, Obstacle, Plan, Reference, RootRule, Route, Site,
};
use crate::limits::SHORTEST;

/// One change of what is on the ground; obstacles, marks and corners are counted from 0.
#[derive(Clone, Debug, PartialEq)]
pub enum SiteEdit {
    /// Adds an obstacle.
    AddObstacle(Box<Obstacle>),
    /// Gives an obstacle another name, kind, size, clearance …: everything it is.
    SetObstacle {
        /// Which obstacle.
        obstacle: usize,
        /// What it becomes.
        to: Box<Obstacle>,
    },
    /// Takes an obstacle away.
    RemoveObstacle {
        /// Which obstacle.
        obstacle: usize,
    },
    /// Moves an obstacle as it is.
    MoveObstacle {
        /// Which obstacle.
        obstacle: usize,
        /// The way in metres, east and north.
        by: Vector,
    },
    /// Moves one corner; its sides keep their rises.
    MoveCorner {
        /// Which obstacle.
        obstacle: usize,
        /// Which corner.
        corner: usize,
        /// Where to.
        to: Point,
    },
    /// Bends the side that leads on from a corner, or makes it straight again.
    BendSide {
        /// Which obstacle.
        obstacle: usize,
        /// The corner that the side leads on from.
        corner: usize,
        /// Its signed rise in metres, zero for a straight.
        rise: f64,
    },
    /// Puts a corner on the side that leads on from one.
    InsertCorner {
        /// Which obstacle.
        obstacle: usize,
        /// The corner before the new one.
        after: usize,
        /// Where.
        at: Point,
    },
    /// Takes a corner out.
    RemoveCorner {
        /// Which obstacle.
        obstacle: usize,
        /// Which corner.
        corner: usize,
    },
    /// Adds a mark.
    AddMark(Mark),
    /// Gives a mark another name or place.
    SetMark {
        /// Which mark.
        mark: usize,
        /// What it becomes.
        to: Mark,
    },
    /// Takes a mark away.
    RemoveMark {
        /// Which mark.
        mark: usize,
    },
    /// Chooses how far roots are taken to reach.
    SetRoots(RootRule),
}

impl SiteEdit {
    /// What undo calls it.
    pub(super) fn name(&self) -> String {
        match self {
            Self::AddObstacle(obstacle) => format!("draw a {}", obstacle.kind.word()),
            Self::SetObstacle { to, .. } => format!("change {}", to.called()),
            Self::RemoveObstacle { .. } => "take an obstacle away".into(),
            Self::MoveObstacle { .. } => "move an obstacle".into(),
            Self::MoveCorner { .. } => "move a corner".into(),
            Self::BendSide { .. } => "bend a side".into(),
            Self::InsertCorner { .. } => "put in a corner".into(),
            Self::RemoveCorner { .. } => "take a corner out".into(),
            Self::AddMark(mark) => format!("put in mark “{}”", mark.name),
            Self::SetMark { to, .. } => format!("change mark “{}”", to.name),
            Self::RemoveMark { .. } => "take a mark away".into(),
            Self::SetRoots(_) => "choose a rule for roots".into(),
        }
    }
}

pub(super) fn change(plan: &mut Plan, edit: &SiteEdit) -> Result<(), EditError> {
    match edit {
        SiteEdit::AddObstacle(obstacle) => {
            plan.site_mut().obstacles.push((**obstacle).clone());
        }
        SiteEdit::SetObstacle { obstacle, to } => set_obstacle(plan, *obstacle, to)?,
        SiteEdit::RemoveObstacle { obstacle } => {
            let name = there(&plan.site.obstacles, *obstacle)?.name.clone();
            let refers = |reference: &Reference| matches!(reference, Reference::Wall { name: wall, .. } if *wall == name);
            keep_directions(plan, refers);
            plan.site_mut().obstacles.remove(*obstacle);
        }
        SiteEdit::MoveObstacle { obstacle, by } => {
            obstacle_mut(plan, *obstacle)?.extent.shift(*by);
        }
        SiteEdit::MoveCorner {
            obstacle,
            corner,
            to,
        } => *corner_mut(plan, *obstacle, *corner)? = *to,
        SiteEdit::BendSide {
            obstacle,
            corner,
            rise,
        } => bend_side(plan, *obstacle, *corner, *rise)?,
        SiteEdit::InsertCorner {
            obstacle,
            after,
            at,
        } => insert_corner(plan, *obstacle, *after, *at)?,
        SiteEdit::RemoveCorner { obstacle, corner } => remove_corner(plan, *obstacle, *corner)?,
        SiteEdit::AddMark(mark) => plan.site_mut().marks.push(mark.clone()),
        SiteEdit::SetMark { mark, to } => set_mark(plan, *mark, to)?,
        SiteEdit::RemoveMark { mark } => {
            let name = there(&plan.site.marks, *mark)?.name.clone();
            let refers = |reference: &Reference| matches!(reference, Reference::Marks(from, to) if *from == name || *to == name);
            keep_directions(plan, refers);
            plan.site_mut().marks.remove(*mark);
        }
        SiteEdit::SetRoots(rule) => plan.site_mut().roots = *rule,
    }
    Ok(())
}

fn there<T>(list: &[T], index: usize) -> Result<&T, EditError> {
    list.get(index).ok_or(EditError::NotThere)
}

fn obstacle_mut(plan: &mut Plan, obstacle: usize) -> Result<&mut Obstacle, EditError> {
    let obstacles = &mut plan.site_mut().obstacles;
    obstacles.get_mut(obstacle).ok_or(EditError::NotThere)
}

fn corner_mut(plan: &mut Plan, obstacle: usize, corner: usize) -> Result<&mut Point, EditError> {
    let at = match &mut obstacle_mut(plan, obstacle)?.extent {
        Extent::Round { .. } => None,
        Extent::Line(points) | Extent::Area(points) => points.get_mut(corner),
        Extent::Curved(corners) => corners.get_mut(corner).map(|corner| &mut corner.at),
    };
    at.ok_or(EditError::NotThere)
}

impl Extent {
    /// Moves it as it is.
    fn shift(&mut self, by: Vector) {
        match self {
            Self::Round { centre, .. } => *centre += by,
            Self::Line(points) | Self::Area(points) => {
                for point in points {
                    *point += by;
                }
            }
            Self::Curved(corners) => {
                for corner in corners {
                    corner.at += by;
                }
            }
        }
    }
}

/// Bends a side: an area with straight sides becomes a curved one; one whose last bend is made
/// straight stays what it has become. A bent side has no one direction: a path that was held to it
/// keeps the one it had.
fn bend_side(plan: &mut Plan, obstacle: usize, corner: usize, rise: f64) -> Result<(), EditError> {
    if rise.abs() >= SHORTEST {
        let name = there(&plan.site.obstacles, obstacle)?.name.clone();
        let refers = |reference: &Reference| matches!(reference, Reference::Wall { name: wall, side } if *wall == name && *side == corner + 1);
        keep_directions(plan, refers);
    }
    let extent = &mut obstacle_mut(plan, obstacle)?.extent;
    if let Extent::Area(points) = extent {
        let straight = |at: &Point| Corner { at: *at, rise: 0.0 };
        *extent = Extent::Curved(points.iter().map(straight).collect());
    }
    let Extent::Curved(corners) = extent else {
        return Err(EditError::NotAnArea);
    };
    corners.get_mut(corner).ok_or(EditError::NotThere)?.rise = rise;
    Ok(())
}

fn insert_corner(
    plan: &mut Plan,
    obstacle: usize,
    after: usize,
    at: Point,
) -> Result<(), EditError> {
    let changed = obstacle_mut(plan, obstacle)?;
    if after >= changed.extent.count() {
        return Err(EditError::NotThere);
    }
    match &mut changed.extent {
        Extent::Round { .. } => return Err(EditError::NotAnArea),
        Extent::Line(points) | Extent::Area(points) => points.insert(after + 1, at),
        Extent::Curved(corners) => {
            // A straight side stays straight; of a bent one both parts lie on the same circle.
            let (from, next) = (corners[after], corners[(after + 1) % corners.len()]);
            let rise = |start: Point, end: Point| {
                let whole = geometry::Arc::from_rise(from.at, next.at, from.rise).ok()?;
                let part = whole.between(whole.along(start), whole.along(end))?;
                Some(part.rise())
            };
            let rises = [rise(from.at, at), rise(at, next.at)].map(Option::unwrap_or_default);
            corners[after].rise = rises[0];
            let rise = rises[1];
            corners.insert(after + 1, Corner { at, rise });
        }
    }
    let name = changed.name.clone();
    renumber(plan, &name, |side| side + usize::from(side > after + 1));
    Ok(())
}

fn remove_corner(plan: &mut Plan, obstacle: usize, corner: usize) -> Result<(), EditError> {
    let extent = &there(&plan.site.obstacles, obstacle)?.extent;
    let (count, closed) = (extent.count(), extent.is_closed());
    if corner >= count || matches!(extent, Extent::Round { .. }) {
        return Err(EditError::NotThere);
    }
    if count <= if closed { 3 } else { 2 } {
        return Err(EditError::LastCorners);
    }
    // The sides on both sides of the corner are no longer what a direction referred to.
    let name = plan.site.obstacles[obstacle].name.clone();
    let before = if corner == 0 { count } else { corner };
    let refers = |reference: &Reference| matches!(reference, Reference::Wall { name: wall, side } if *wall == name && (*side == corner + 1 || *side == before));
    keep_directions(plan, refers);
    match &mut obstacle_mut(plan, obstacle)?.extent {
        Extent::Round { .. } => {}
        Extent::Line(points) | Extent::Area(points) => drop(points.remove(corner)),
        Extent::Curved(corners) => {
            corners.remove(corner);
            // The side that is left joins its two ends straight.
            let last = corners.len() - 1;
            corners[corner.checked_sub(1).unwrap_or(last)].rise = 0.0;
        }
    }
    renumber(plan, &name, |side| side - usize::from(side > corner + 1));
    Ok(())
}

fn set_obstacle(plan: &mut Plan, obstacle: usize, to: &Obstacle) -> Result<(), EditError> {
    let old = there(&plan.site.obstacles, obstacle)?.name.clone();
    plan.site_mut().obstacles[obstacle] = to.clone();
    for_references(plan, |reference, site| {
        let lost = reference.direction(site).is_none();
        if let Reference::Wall { name, .. } = reference
            && lost
            && *name == old
        {
            name.clone_from(&to.name);
        }
    });
    Ok(())
}

fn set_mark(plan: &mut Plan, mark: usize, to: &Mark) -> Result<(), EditError> {
    let old = there(&plan.site.marks, mark)?.name.clone();
    plan.site_mut().marks[mark] = to.clone();
    for_references(plan, |reference, _| {
        if let Reference::Marks(first, second) = reference {
            for name in [first, second] {
                if *name == old {
                    name.clone_from(&to.name);
                }
            }
        }
    });
    Ok(())
}

/// Counts the sides of an obstacle anew wherever a direction refers to one, from 1.
fn renumber(plan: &mut Plan, wall: &str, number: impl Fn(usize) -> usize) {
    for_references(plan, |reference, _| {
        if let Reference::Wall { name, side } = reference
            && name == wall
        {
            *side = number(*side);
        }
    });
}

fn headings(route: &mut Route) -> impl Iterator<Item = &mut Heading> {
    [&mut route.start_direction, &mut route.end_direction]
        .into_iter()
        .flatten()
}

fn for_references(plan: &mut Plan, mut change: impl FnMut(&mut Reference, &Site)) {
    let site = std::sync::Arc::clone(&plan.site);
    let routes = plan.schemes.iter_mut().flat_map(|s| &mut s.routes);
    for heading in routes.flat_map(headings) {
        if let Heading::Along(reference)
        | Heading::Against(reference)
        | Heading::Square(reference)
        | Heading::SquareRight(reference) = heading
        {
            change(reference, &site);
        }
    }
}

/// Where a direction refers to what goes away, the direction itself stays.
fn keep_directions(plan: &mut Plan, refers: impl Fn(&Reference) -> bool) {
    let site = std::sync::Arc::clone(&plan.site);
    let routes = plan.schemes.iter_mut().flat_map(|s| &mut s.routes);
    for heading in routes.flat_map(headings) {
        let direction = match heading {
            Heading::Along(reference)
            | Heading::Against(reference)
            | Heading::Square(reference)
            | Heading::SquareRight(reference)
                if refers(reference) =>
            {
                heading.direction(&site)
            }
            _ => None,
        };
        if let Some(direction) = direction {
            *heading = Heading::Angle(direction.angle());
        }
    }
}

//! The work of a path: how each peg and each bend is set out here, in which order, and with what.

mod allowed;
mod hindered;
mod order;
mod pegs;
mod tools;
mod trust;
mod ways;

use geometry::Point;

use super::methods::{StraightJob, straight};
use super::reach::{Cause, Hindrance, Reach, ReachLimits};
use super::ties::ties;
use super::{
    Anchor, AnchorKind, BendSetOut, Course, Note, Passable, RouteSetOut, Spot, Spots,
    StraightSetOut, TieError, Ties, set_out,
};
use crate::budget::{Budget, Taping};
use crate::document::{MethodChoice, ObstacleKind, Plan, Spacing};
use crate::solve::{Origin, Solved};
use hindered::hindrances;

pub use hindered::{Hindered, Loss};
pub use order::{Act, Stage};
pub use pegs::{PegWork, TiedSpot};
pub use tools::{StringCut, StringUse, ToolList};
pub use trust::{BendTrust, CourseTrust, SpotTrust, Trust};
pub use ways::{BendWork, Effort, Way, WayVerdict};

/// All the work of setting out one path.
#[derive(Clone, Debug, PartialEq)]
pub struct RouteWork {
    /// The plain figures.
    pub figures: RouteSetOut,
    /// Each peg of the centre line: how it is tied, and how it is made again.
    pub pegs: Vec<PegWork>,
    /// The course of the pegs, from the marks, or where these do not serve from the base line.
    pub pegging: Course,
    /// What hinders it.
    pub pegging_hindrances: Vec<Hindered>,
    /// The straights, in walking order.
    pub straights: Vec<StraightWork>,
    /// The bends, in walking order, each with all ways to set it out.
    pub bends: Vec<BendWork>,
    /// What is done one after the other: the pegs, then straights and bends as one walks.
    pub order: Vec<Stage>,
    /// What to bring.
    pub tools: ToolList,
}

/// One straight, and its course.
#[derive(Clone, Debug, PartialEq)]
pub struct StraightWork {
    /// Its figures.
    pub straight: StraightSetOut,
    /// How it is set out.
    pub course: Course,
    /// What hinders it.
    pub hindrances: Vec<Hindered>,
}

/// A longer path is set out in parts, in straights and bends: all ways of all bends are kept.
pub const MOST_WORKED: usize = 1_000;

/// The work of one path of an option, both counted from 0; `None` when nothing of it can be drawn,
/// or it has more than [`MOST_WORKED`] straights and bends.
#[must_use]
pub fn work(plan: &Plan, solved: &Solved, path: (usize, usize)) -> Option<RouteWork> {
    let taping = Taping::of(plan);
    let error = |course: &Course| Some(Budget::of(course, &taping).line_within());
    let mut work = work_with(plan, solved, path, error)?;
    work.allow(&taping);
    Some(work)
}

/// The same, where `error` knows how far the worst line of a course may come to lie off the drawn
/// one, in metres: ways within the tolerance of what is built are taken first.
#[must_use]
pub fn work_with(
    plan: &Plan,
    solved: &Solved,
    (scheme, route): (usize, usize),
    error: impl Fn(&Course) -> Option<f64>,
) -> Option<RouteWork> {
    let path = solved.schemes.get(scheme)?.routes.get(route)?;
    if path.origins.len() > MOST_WORKED {
        return None;
    }
    let choices: &[MethodChoice] = plan.route(scheme, route).map_or(&[], |path| &path.methods);
    let figures = set_out(plan, path)?;
    let ground = Ground::new(plan, solved);
    let (pegs, pegging) = pegs::pegs_work(&ground, solved, (scheme, route), &figures);
    let bends = figures.bends.iter().map(|bend| {
        let of = path.origins.get(bend.piece).copied();
        let of = of.unwrap_or(Origin::Leg(bend.piece));
        let picked = choices.iter().find(|choice| choice.of == of);
        let picked = picked.map(|choice| choice.method);
        ways::bend_work(&ground, bend.clone(), of, picked, &error)
    });
    let bends: Vec<BendWork> = bends.collect();
    let straights = figures.straights.iter();
    let straights: Vec<StraightWork> = straights
        .filter_map(|straight| StraightWork::new(&ground, straight, &figures))
        .collect();
    let order = order::order(&figures, &pegs);
    let mut work = RouteWork {
        figures,
        pegs,
        pegging_hindrances: hindrances(&ground, &pegging, None),
        pegging,
        straights,
        bends,
        order,
        tools: ToolList::default(),
    };
    work.tools = tools::tools(&work, plan);
    work.lay_offset_pegs();
    Some(work)
}

impl RouteWork {
    /// Finds for each offset peg a flag or swing point in line with it and its peg, the nearest such.
    fn lay_offset_pegs(&mut self) {
        let mut standing: Vec<(usize, String, Point)> = Vec::new();
        let mut stands = |course: &Course, pegs: (usize, usize), is: fn(&Spot) -> bool| {
            for set in course.spots.iter().filter(|set| is(&set.spot)) {
                let name = course.spots.name(set.spot);
                standing.push((pegs.0, name.clone(), set.at));
                standing.push((pegs.1, name, set.at));
            }
        };
        for work in &self.straights {
            let is_flag = |spot: &Spot| matches!(spot, Spot::Flag { .. });
            stands(&work.course, work.straight.pegs, is_flag);
        }
        for work in &self.bends {
            if let Ok(course) = &work.way().course {
                stands(course, work.bend.pegs, |spot| {
                    matches!(spot, Spot::Swing(_))
                });
            }
        }
        for peg in &mut self.pegs {
            let Ok(offset) = &mut peg.offset else {
                continue;
            };
            let at = peg.peg.at;
            let near = standing.iter().filter(|(number, ..)| *number == peg.number);
            let mut near: Vec<_> = near.collect();
            near.sort_by(|(.., a), (.., b)| a.distance(at).total_cmp(&b.distance(at)));
            let lay = |(_, name, spot): &&(usize, String, Point)| offset.lay_along(at, name, *spot);
            offset.lay = near.iter().find_map(lay);
        }
    }

    /// How far out of its range every check of this work may read before the work stops, in metres:
    /// the least there is. `None` where none was judged.
    #[must_use]
    pub fn beyond_fine(&self) -> Option<f64> {
        let checks = self.acts().flat_map(|act| &act.deed.checks);
        let beyond = checks.filter_map(|check| {
            let [least, most] = check.stops?;
            Some((check.least - least).min(most - check.most))
        });
        // A range that begins at nothing has nothing below it.
        beyond.filter(|beyond| *beyond > 0.0).reduce(f64::min)
    }

    /// The pegs, in walking order, and the swing points a tape reaches.
    pub fn tied_spots(&self) -> impl Iterator<Item = &TiedSpot> {
        let swing_points = self
            .bends
            .iter()
            .filter_map(|bend| bend.swing_point.as_ref());
        self.pegs.iter().map(|peg| &peg.peg).chain(swing_points)
    }
}

impl StraightWork {
    /// What hinders it, in sentences without a stop.
    #[must_use]
    pub fn reasons(&self, plan: &Plan) -> Vec<String> {
        let (site, ruler) = (&plan.site, plan.ruler());
        let said = |stops| hindered::reasons(&self.hindrances, stops, site, &ruler);
        [said(true), said(false)].concat()
    }

    fn new(ground: &Ground<'_>, straight: &StraightSetOut, figures: &RouteSetOut) -> Option<Self> {
        let job = StraightJob::new(straight, figures, ground.plan)?;
        let spacing = match ground.plan.set_out.spacing {
            Spacing::Every(spacing) => Some(spacing),
            Spacing::Usual | Spacing::Bow(_) => None,
        };
        let mut course = straight::course(&StraightJob { spacing, ..job });
        ground.note_faces(&mut course);
        Some(Self {
            straight: straight.clone(),
            hindrances: hindrances(ground, &course, None),
            course,
        })
    }
}

/// What the work of a path is asked of: the plan, its marks, and what the ground allows.
struct Ground<'a> {
    plan: &'a Plan,
    reach: Reach<'a>,
    marks: Vec<(Spot, Anchor)>,
    /// The marks where they stand.
    spots: Spots,
}

/// So many marks are taped from at most, the nearest ones: every pair is tried.
const MOST_MARKS: usize = 30;

/// From so many marks the flags of a bend are tied at most.
const MARKS_FOR_FLAGS: usize = 4;

impl<'a> Ground<'a> {
    fn new(plan: &'a Plan, solved: &'a Solved) -> Self {
        let marks = &plan.site.marks;
        let mut spots = Spots::new(marks.iter().map(|mark| mark.name.clone()).collect());
        for (i, mark) in marks.iter().enumerate() {
            spots.put(Spot::Mark(i), mark.at);
        }
        Self {
            plan,
            reach: Reach::new(&solved.surroundings, ReachLimits::of(plan)),
            marks: marks
                .iter()
                .enumerate()
                .map(|(i, mark)| (Spot::Mark(i), Anchor::from(mark)))
                .collect(),
            spots,
        }
    }

    /// How a tape gets from one place to another.
    fn passable(&self, from: Point, to: Point) -> Passable {
        let mut hindrances = self.reach.pull(from, to).into_iter();
        match hindrances.find(|found| !self.is_buried(found)) {
            None => Passable::Clear,
            Some(first) if first.stops() => Passable::Blocked,
            Some(_) => Passable::Care,
        }
    }

    /// Whether it is something buried, which no tape meets.
    fn is_buried(&self, found: &Hindrance) -> bool {
        let Cause::Obstacle(index) = found.cause else {
            return false;
        };
        let obstacle = self.plan.site.obstacles.get(index);
        obstacle.is_some_and(|obstacle| obstacle.kind == ObstacleKind::Service)
    }

    fn ties(&self, at: Point, anchors: &[Anchor]) -> Result<Ties, TieError> {
        let (tape, ruler) = (self.plan.tape.length, self.plan.ruler());
        ties(at, anchors, tape, &ruler, |from, to| {
            self.passable(from, to)
        })
    }

    /// What one can tape from, in its order; of very many the nearest.
    fn anchors_near(&self, standing: &[(Spot, Anchor)], at: Point) -> Vec<Anchor> {
        let mut near: Vec<(usize, &Anchor)> = standing
            .iter()
            .map(|(_, anchor)| anchor)
            .enumerate()
            .collect();
        if near.len() > MOST_MARKS {
            let off = |anchor: &Anchor| anchor.at.distance(at);
            near.sort_by(|(_, a), (_, b)| off(a).total_cmp(&off(b)));
            near.truncate(MOST_MARKS);
            near.sort_by_key(|(i, _)| *i);
        }
        near.into_iter().map(|(_, anchor)| anchor.clone()).collect()
    }

    /// The mark that a tied spot is checked from, or else one that it is tied to.
    fn mark_of(&self, tied: &TiedSpot) -> Option<Spot> {
        let ties = tied.ties.as_ref().ok()?;
        let mut pulls = ties.check.iter().chain(&ties.pair);
        pulls.find_map(|tie| {
            let mark = self.marks.iter().find(|(_, anchor)| *anchor == tie.anchor);
            mark.map(|(spot, _)| *spot)
        })
    }

    /// Says of each spot on a face that nothing is driven there.
    fn note_faces(&self, course: &mut Course) {
        for deed in &mut course.deeds {
            let at = deed.makes.and_then(|spot| course.spots.at(spot));
            if deed.note.is_none() && at.is_some_and(|at| self.reach.is_on_a_face(at)) {
                deed.note = Some(Note::OnTheFace);
            }
        }
    }

    /// The marks nearest to a place that a tape reaches from.
    fn marks_near(&self, at: Point) -> Vec<Spot> {
        let off = |anchor: &Anchor| anchor.at.distance(at);
        let within = |(_, anchor): &&(Spot, Anchor)| off(anchor) <= self.plan.tape.length;
        let mut near: Vec<&(Spot, Anchor)> = self.marks.iter().filter(within).collect();
        near.sort_by(|(_, a), (_, b)| off(a).total_cmp(&off(b)));
        near.iter()
            .take(MARKS_FOR_FLAGS)
            .map(|(spot, _)| *spot)
            .collect()
    }

    /// The swing point of a bend, tied to the marks, and to the pegs at its ends.
    fn swing_point(&self, bend: &BendSetOut) -> TiedSpot {
        let spot = Spot::Swing(bend.number);
        let at = bend.arc.centre();
        let mut anchors = self.anchors_near(&self.marks, at);
        let ends = [
            (bend.pegs.0, bend.arc.start()),
            (bend.pegs.1, bend.arc.end()),
        ];
        anchors.extend(ends.map(|(number, at)| Anchor {
            name: self.spots.name(Spot::Peg(number)),
            at,
            kind: AnchorKind::Peg,
        }));
        TiedSpot {
            spot,
            name: self.spots.name(spot),
            at,
            ties: self.ties(at, &anchors),
            standing: self.reach.stand(at),
        }
    }
}

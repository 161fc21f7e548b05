//! The order of work over a path, step by step: what is due in each, what stands by then, and where it is.

use geometry::{Arc, Bounds, Point};
use plan::setout::{
    Act, Course, Deed, Doing, Hindered, Made, Manner, OffsetPeg, PathLine, RouteWork, SetSpot,
    Stage, Step, carry_out, work,
};
use plan::solve::Origin;
use plan::{Plan, Solved};

/// The work of a path, and its steps one after the other.
#[derive(Debug)]
pub struct Rehearsal {
    /// The work.
    pub work: RouteWork,
    steps: Vec<Numbered>,
}

/// A step: of which stage, and which deed of it or which peg's mate.
#[derive(Clone, Copy, Debug)]
struct Numbered {
    stage: Stage,
    nth: usize,
}

/// What is done in one step.
#[derive(Clone, Copy, Debug)]
pub enum Due<'a> {
    /// A deed of a course.
    Deed(Act<'a>),
    /// An offset peg, driven square off a peg.
    OffsetPeg {
        /// Where its peg stands.
        peg: Point,
        /// The offset peg.
        offset: &'a OffsetPeg,
    },
}

impl Rehearsal {
    /// The steps of one path of an option, both counted from 0; `None` when nothing of it can be drawn.
    #[must_use]
    pub fn of(plan: &Plan, solved: &Solved, path: (usize, usize)) -> Option<Self> {
        let work = work(plan, solved, path)?;
        let mut steps = Vec::new();
        for &stage in &work.order {
            let with_offset = || {
                let pegs = work.pegs.iter().enumerate();
                pegs.filter(|(_, peg)| peg.offset.is_ok()).map(|(i, _)| i)
            };
            match work.course(stage) {
                Some(course) => {
                    let deeds = 0..course.deeds.len();
                    steps.extend(deeds.map(|nth| Numbered { stage, nth }));
                }
                None if stage == Stage::OffsetPegs => {
                    steps.extend(with_offset().map(|nth| Numbered { stage, nth }));
                }
                None => {}
            }
        }
        Some(Self { work, steps })
    }

    /// How many steps there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.steps.len()
    }

    /// The last step, counted from 0.
    #[must_use]
    pub fn last(&self) -> usize {
        self.count().saturating_sub(1)
    }

    /// What is due in a step, counted from 0.
    #[must_use]
    pub fn due(&self, step: usize) -> Option<Due<'_>> {
        let Numbered { stage, nth } = *self.steps.get(step)?;
        match self.work.course(stage) {
            Some(course) => Some(Due::Deed(Act {
                stage,
                course,
                deed: course.deeds.get(nth)?,
            })),
            None => {
                let work = self.work.pegs.get(nth)?;
                Some(Due::OffsetPeg {
                    peg: work.peg.at,
                    offset: work.offset.as_ref().ok()?,
                })
            }
        }
    }

    /// The stage a step belongs to.
    #[must_use]
    pub fn stage(&self, step: usize) -> Option<Stage> {
        self.steps.get(step).map(|step| step.stage)
    }

    /// The first step of a stage.
    #[must_use]
    pub fn first_of(&self, stage: Stage) -> Option<usize> {
        self.steps.iter().position(|step| step.stage == stage)
    }

    /// What is done in a step and read after it, in words.
    #[must_use]
    pub fn words(&self, step: usize, manner: &Manner) -> Option<Step> {
        Some(match self.due(step)? {
            Due::Deed(act) => act.deed.words(manner, &act.course.spots),
            Due::OffsetPeg { offset, .. } => Step {
                text: offset.words(&manner.voice),
                check: None,
            },
        })
    }

    /// What hinders a step.
    pub fn hindered(&self, step: usize) -> impl Iterator<Item = &Hindered> {
        let (stage, nth) = self
            .steps
            .get(step)
            .map_or((None, 0), |s| (Some(s.stage), s.nth));
        let all: &[Hindered] = match stage {
            Some(Stage::Pegs) => &self.work.pegging_hindrances,
            Some(Stage::Straight(i)) => self.work.straights.get(i).map_or(&[], |s| &s.hindrances),
            Some(Stage::Bend(i)) => self.work.bends.get(i).map_or(&[], |b| &b.way().hindrances),
            _ => &[],
        };
        all.iter().filter(move |hindered| hindered.deed == nth)
    }

    /// What was made a bend of, if the step sets out one.
    #[must_use]
    pub fn bend(&self, step: usize) -> Option<Origin> {
        match self.stage(step)? {
            Stage::Bend(i) => self.work.bends.get(i).map(|bend| bend.of),
            _ => None,
        }
    }

    /// What a stage is called.
    #[must_use]
    pub fn title(&self, stage: Stage) -> String {
        let (what, (first, last)) = match stage {
            Stage::Pegs => return "The pegs".to_owned(),
            Stage::OffsetPegs => return "The offset pegs, before anyone digs".to_owned(),
            Stage::Straight(i) => match self.work.straights.get(i) {
                Some(work) => ("Straight".to_owned(), work.straight.pegs),
                None => return String::new(),
            },
            Stage::Bend(i) => match self.work.bends.get(i) {
                Some(work) => (format!("Bend {}", work.bend.number), work.bend.pegs),
                None => return String::new(),
            },
        };
        format!("{what}, peg {first} to peg {last}")
    }

    /// The spots that stand before a step, where the plan has them.
    pub fn set_before(&self, step: usize) -> impl Iterator<Item = SetSpot> {
        self.acts_before(step).filter_map(|act| {
            let spot = act.deed.makes?;
            let at = act.course.spots.at(spot)?;
            Some(SetSpot { spot, at })
        })
    }

    /// The lines struck before a step.
    pub fn struck_before(&self, step: usize) -> impl Iterator<Item = (PathLine, Arc)> {
        self.acts_before(step)
            .filter_map(|act| struck(act.course, act.deed))
    }

    /// The strings that hang at a step: those its stage has stretched before it.
    pub fn strings_at(&self, step: usize) -> impl Iterator<Item = [Point; 2]> {
        let stage = self.stage(step);
        self.acts_before(step)
            .filter(move |act| Some(act.stage) == stage)
            .filter_map(|act| match act.deed.does {
                Doing::Stretch { from, to, .. } => {
                    let [from, to] = [from, to].map(|spot| act.course.spots.at(spot));
                    Some([from?, to?])
                }
                _ => None,
            })
    }

    /// The offset pegs that stand before a step.
    pub fn offset_pegs_before(&self, step: usize) -> impl Iterator<Item = &OffsetPeg> {
        (0..step.min(self.count())).filter_map(|before| match self.due(before)? {
            Due::OffsetPeg { offset, .. } => Some(offset),
            Due::Deed(_) => None,
        })
    }

    fn acts_before(&self, step: usize) -> impl Iterator<Item = Act<'_>> {
        (0..step.min(self.count())).filter_map(|before| match self.due(before)? {
            Due::Deed(act) => Some(act),
            Due::OffsetPeg { .. } => None,
        })
    }

    /// All that a step needs to be seen: what it starts from, makes, draws and reads.
    #[must_use]
    pub fn room(&self, step: usize) -> Option<Bounds> {
        match self.due(step)? {
            Due::Deed(act) => {
                let read = act.deed.checks.iter();
                let spots = act.deed.uses().into_iter().chain(act.deed.makes);
                let spots = spots.chain(read.flat_map(|check| [check.from, check.to]));
                let around = Bounds::around(spots.filter_map(|spot| act.course.spots.at(spot)));
                let arc = struck(act.course, act.deed).map(|(_, arc)| arc.bounds());
                around.into_iter().chain(arc).reduce(Bounds::with)
            }
            Due::OffsetPeg { peg, offset } => Bounds::around([peg, offset.at]),
        }
    }
}

/// The line a deed draws, as it is in the plan.
#[must_use]
pub fn struck(course: &Course, deed: &Deed) -> Option<(PathLine, Arc)> {
    let line = deed.line()?;
    let exact: Vec<f64> = deed.figures().iter().map(|taped| taped.exact).collect();
    match carry_out(deed, &course.spots, &exact) {
        Ok(Made::Line(arc)) => Some((line, arc)),
        _ => None,
    }
}

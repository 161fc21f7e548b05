//! The order of work over a whole path: it walks forward, and no deed uses a spot not set before it.

use super::{PegWork, RouteWork};
use crate::setout::{Course, Deed, RouteSetOut};

/// A stretch of the work, done in one go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stage {
    /// The marks are checked and the pegs driven.
    Pegs,
    /// A straight, counted from 0.
    Straight(usize),
    /// A bend, counted from 0.
    Bend(usize),
    /// The offset pegs are driven, before anyone digs.
    OffsetPegs,
}

/// One deed in the order of the whole path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Act<'a> {
    /// What it belongs to.
    pub stage: Stage,
    /// The course it is from, which knows where its spots are.
    pub course: &'a Course,
    /// What is done.
    pub deed: &'a Deed,
}

/// The pegs, what runs from peg to peg as one walks, and the offset pegs before anyone digs.
pub(super) fn order(figures: &RouteSetOut, pegs: &[PegWork]) -> Vec<Stage> {
    let straights = figures.straights.iter().enumerate();
    let bends = figures.bends.iter().enumerate();
    let mut parts: Vec<(usize, Stage)> = straights
        .map(|(i, straight)| (straight.pegs.0, Stage::Straight(i)))
        .chain(bends.map(|(i, bend)| (bend.pegs.0, Stage::Bend(i))))
        .collect();
    parts.sort_by_key(|(from, _)| *from);
    let offset = pegs.iter().any(|peg| peg.offset.is_ok());
    let mut stages = vec![Stage::Pegs];
    stages.extend(parts.into_iter().map(|(_, stage)| stage));
    stages.extend(offset.then_some(Stage::OffsetPegs));
    stages
}

impl RouteWork {
    /// The course of a stage; of a bend the chosen one. Offset pegs have none: each says itself how
    /// it is set.
    #[must_use]
    pub fn course(&self, stage: Stage) -> Option<&Course> {
        match stage {
            Stage::Pegs => Some(&self.pegging),
            Stage::Straight(i) => Some(&self.straights.get(i)?.course),
            Stage::Bend(i) => self.bends.get(i)?.way().course.as_ref().ok(),
            Stage::OffsetPegs => None,
        }
    }

    /// Every deed of the whole path in its order.
    pub fn acts(&self) -> impl Iterator<Item = Act<'_>> {
        self.order.iter().flat_map(|&stage| {
            let course = self.course(stage).into_iter();
            course.flat_map(move |course| {
                let deeds = course.deeds.iter();
                deeds.map(move |deed| Act {
                    stage,
                    course,
                    deed,
                })
            })
        })
    }
}

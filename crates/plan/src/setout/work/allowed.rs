//! What the checks of a path's work may read: all of them judged together.

use super::RouteWork;
use crate::budget::{Budget, CheckError, Taping, Thresholds};
use crate::setout::Course;

impl RouteWork {
    /// Sets what the checks may read such that a whole good job passes 95 times in 100: the pegs
    /// taped from the marks, and all that is done after them from pegs so far out.
    pub(super) fn allow(&mut self, taping: &Taping) {
        let pegging = Budget::of(&self.pegging, taping);
        let taping = Taping {
            pegs: pegging.spread(),
            ..*taping
        };
        let after: Vec<(bool, Budget)> = self
            .after_pegs()
            .map(|(done, course)| (done, Budget::of(course, &taping)))
            .collect();
        let judged = after
            .iter()
            .filter(|(done, _)| *done)
            .map(|(_, budget)| budget);
        let checks: Vec<&CheckError> = std::iter::once(&pegging)
            .chain(judged)
            .flat_map(|budget| &budget.checks)
            .collect();
        let thresholds = Thresholds::over(&checks);
        self.pegging = pegging.told(&self.pegging, &thresholds, &taping.ruler);
        for (course, (_, budget)) in self.after_pegs_mut().zip(&after) {
            *course = budget.told(course, &thresholds, &taping.ruler);
        }
    }

    /// The courses of the straights and of all ways of the bends, and which of them are done.
    fn after_pegs(&self) -> impl Iterator<Item = (bool, &Course)> {
        let ways = self.bends.iter().flat_map(|bend| {
            let ways = bend.ways.iter().enumerate();
            ways.filter_map(|(i, way)| Some((i == bend.chosen, way.course.as_ref().ok()?)))
        });
        let straights = self.straights.iter().map(|straight| &straight.course);
        straights.map(|course| (true, course)).chain(ways)
    }

    /// The same courses in the same order.
    fn after_pegs_mut(&mut self) -> impl Iterator<Item = &mut Course> {
        let ways = self.bends.iter_mut().flat_map(|bend| &mut bend.ways);
        let straights = self.straights.iter_mut();
        straights
            .map(|straight| &mut straight.course)
            .chain(ways.filter_map(|way| way.course.as_mut().ok()))
    }
}

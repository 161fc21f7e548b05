//! What the checks of a path's work may read: all of them judged together.

use std::collections::BTreeMap;

use super::RouteWork;
use crate::budget::{Budget, CheckError, Taping, Thresholds};
use crate::setout::{Course, Reading, Spot};

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
        self.agree();
    }

    /// What is read between two pegs or marks in several places may read the same in all of them: the
    /// widest there is, so that nothing fine in one is out in another.
    fn agree(&mut self) {
        let mut widest: BTreeMap<[Spot; 2], Reading> = BTreeMap::new();
        let all = std::iter::once(&self.pegging).chain(self.after_pegs().map(|(_, course)| course));
        for check in all
            .flat_map(|course| &course.deeds)
            .flat_map(|deed| &deed.checks)
        {
            if let Some(pair) = lasting(check) {
                let known = widest.entry(pair).or_insert(*check);
                widen(known, check);
            }
        }
        let agree = |course: &mut Course| {
            for check in course.deeds.iter_mut().flat_map(|deed| &mut deed.checks) {
                if let Some(known) = lasting(check).and_then(|pair| widest.get(&pair)) {
                    widen(check, known);
                }
            }
        };
        agree(&mut self.pegging);
        self.after_pegs_mut().for_each(agree);
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

/// The two ends of a check between pegs and marks, which are the same in every course.
fn lasting(check: &Reading) -> Option<[Spot; 2]> {
    let mut ends = [check.from, check.to];
    ends.sort();
    let last = |spot: &Spot| matches!(spot, Spot::Peg(_) | Spot::Mark(_));
    ends.iter().all(last).then_some(ends)
}

/// Widens what a check may read by what another of the same length may.
fn widen(check: &mut Reading, other: &Reading) {
    check.least = check.least.min(other.least);
    check.most = check.most.max(other.most);
    if let (Some([under, over]), Some([lower, higher])) = (&mut check.stops, other.stops) {
        *under = under.min(lower);
        *over = over.max(higher);
    }
}

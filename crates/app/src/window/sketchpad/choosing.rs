//! What is chosen: all pegs, what is taken out, and what is left after an edit.

use plan::Edit;

use super::{Sketchpad, first_bend};
use crate::window::pick::{Pick, Picked};

impl Sketchpad {
    pub(super) fn choose_all(&mut self) {
        let route = self
            .history
            .settled()
            .route(self.pick.scheme, self.pick.route);
        self.together = (0..route.map_or(0, |route| route.waypoints.len())).collect();
    }

    /// Takes out the chosen peg, or the path when all its pegs are chosen.
    pub(super) fn take_out(&mut self) {
        let (scheme, route) = (self.pick.scheme, self.pick.route);
        let count = self
            .history
            .settled()
            .route(scheme, route)
            .map_or(0, |route| route.waypoints.len());
        let edit = match self.pick.part {
            _ if count > 0 && self.together.len() == count => Edit::RemoveRoute { scheme, route },
            Some(Picked::Waypoint(waypoint)) => Edit::RemoveWaypoint {
                id: self.pick.waypoint(waypoint),
            },
            _ => return,
        };
        self.carry_out_edit(&edit);
    }

    /// After an edit what was chosen may be gone.
    pub(super) fn keep_pick_valid(&mut self) {
        let plan = self.history.settled();
        let pick = self.pick;
        let Some(route) = plan.route(pick.scheme, pick.route) else {
            let scheme = pick.scheme.min(plan.schemes.len().saturating_sub(1));
            let routes = plan.schemes.get(scheme).map_or(0, |s| s.routes.len());
            let route = pick.route.min(routes.saturating_sub(1));
            self.pick = Pick {
                scheme,
                route,
                part: first_bend(plan, scheme, route),
            };
            self.together.clear();
            return;
        };
        let there = match pick.part {
            None => true,
            Some(Picked::Leg(leg)) => leg < route.legs.len(),
            Some(Picked::Rounding(w)) => {
                route.waypoints.get(w).is_some_and(|w| w.rounding.is_some())
            }
            Some(Picked::Waypoint(w)) => w < route.waypoints.len(),
        };
        if !there {
            self.pick.part = None;
        }
        let count = route.waypoints.len();
        self.together.retain(|waypoint| *waypoint < count);
    }
}

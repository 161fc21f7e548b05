//! Laying a path peg by peg.

use std::sync::Arc;

use geometry::Point;
use plan::Edit;
use plan::document::{Route, Waypoint, usual_width};
use plan::edit::End;

use super::Sketchpad;
use crate::window::mode::{Lay, Mode, Next, Start};
use crate::window::pick::Picked;

impl Sketchpad {
    /// Lays the next peg of the path being laid.
    pub(super) fn lay_peg(&mut self, start: Start, closes: bool) {
        let Mode::Lay(lay) = self.mode.clone() else {
            return;
        };
        let scheme = self.pick.scheme;
        let (edit, next) = match (lay.leads_on, lay.first) {
            (None, None) => {
                self.mode = Mode::Lay(Lay {
                    first: Some(start),
                    ..lay
                });
                return;
            }
            (None, Some(first)) => {
                let edit = self.first_leg(first, start.at, lay.next);
                (
                    edit,
                    Mode::Lay(Lay {
                        leads_on: Some(End::End),
                        ..lay
                    }),
                )
            }
            (Some(_), _) if closes => {
                let route = self.pick.route;
                (Edit::Close { scheme, route }, Mode::Choose)
            }
            (Some(end), _) => {
                let edit = self.lead_on(end, start.at, lay.next);
                (edit, Mode::Lay(lay))
            }
        };
        let before = Arc::clone(self.history.settled());
        self.carry_out_edit(&edit);
        let now = self.history.settled();
        if Arc::ptr_eq(&before, now) {
            return; // refused: the sentence says why, and the hand may try again
        }
        let laid = matches!(edit, Edit::AddRoute { .. } | Edit::Branch { .. });
        if laid && let Some(scheme) = now.schemes.get(scheme) {
            self.pick.route = scheme.routes.len().saturating_sub(1);
        }
        let legs = now
            .route(self.pick.scheme, self.pick.route)
            .map_or(0, |route| route.legs.len());
        let at_start = matches!(
            edit,
            Edit::LeadOn {
                end: End::Start,
                ..
            }
        );
        let leg = if at_start { 0 } else { legs.saturating_sub(1) };
        self.pick.part = Some(Picked::Leg(leg));
        self.mode = next;
    }

    /// The first leg of a new path.
    fn first_leg(&self, first: Start, to: Point, next: Next) -> Edit {
        let scheme = self.pick.scheme;
        if let Some((host, side)) = first.edge {
            return Edit::Branch {
                scheme,
                host,
                side,
                near: first.at,
                to,
            };
        }
        let plan = self.history.settled();
        let routes = plan.schemes.get(scheme).map_or(&[][..], |s| &s.routes);
        let waypoint = |at| Waypoint { at, rounding: None };
        Edit::AddRoute {
            scheme,
            route: Box::new(Route {
                name: format!("Path {}", routes.len() + 1),
                width: routes
                    .last()
                    .map_or(usual_width(plan.units), |route| route.width),
                waypoints: vec![waypoint(first.at), waypoint(to)],
                legs: vec![match next {
                    // There is nothing before it to leave smoothly.
                    Next::Onward => Next::Bend.shape(first.at.distance(to)),
                    next => next.shape(first.at.distance(to)),
                }],
                ..Route::default()
            }),
        }
    }

    fn lead_on(&self, end: End, at: Point, next: Next) -> Edit {
        let (scheme, route) = (self.pick.scheme, self.pick.route);
        let waypoints = self
            .history
            .settled()
            .route(scheme, route)
            .map_or(&[][..], |route| &route.waypoints);
        let from = match end {
            End::Start => waypoints.first(),
            End::End => waypoints.last(),
        };
        let chord = from.map_or(0.0, |w| w.at.distance(at));
        let next = match (end, next) {
            // A leg put before the start has no leg before it.
            (End::Start, Next::Onward) => Next::Bend,
            (_, next) => next,
        };
        Edit::LeadOn {
            scheme,
            route,
            end,
            at,
            shape: next.shape(chord),
        }
    }
}

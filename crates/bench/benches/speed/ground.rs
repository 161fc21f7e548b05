//! What we do among obstacles: each piece of work ready to be done again and again.

use std::hint::black_box;
use std::sync::Arc;

use bench::among;
use geometry::{Chain, Ground, Patch, PatchGap};
use plan::edit::LegId;
use plan::room::Room;
use plan::surroundings::Surroundings;
use plan::{Edit, Plan, Solved};

use crate::ours::{HALF_WIDTH, centre_line};

/// The left edge of the winding path.
pub(crate) fn left_edge(legs: usize) -> Chain {
    let edge = centre_line(legs).offset(HALF_WIDTH);
    edge.chain.expect("an edge")
}

/// The patches along the path.
pub(crate) fn patches(legs: usize, count: usize) -> Vec<Patch> {
    among::patches(&among::eight_sided(&centre_line(legs), count))
}

/// The least distance of one edge to every obstacle.
pub(crate) fn gaps(legs: usize, count: usize) -> impl Fn() -> Vec<PatchGap> {
    let (edge, ground) = (left_edge(legs), Ground::new(patches(legs, count)));
    move || black_box(&ground).gaps(black_box(&edge))
}

/// One edit of a drag: a bend in the middle gets another rise, and what follows is solved.
fn edited(plan: &Plan, leg: usize) -> Plan {
    let id = leg_id(leg);
    let rise = black_box(0.55_f64.copysign(if leg % 4 == 1 { -1.0 } else { 1.0 }));
    let edit = Edit::SetRise { id, rise };
    black_box(plan).with(&edit).expect("an edit").plan
}

fn leg_id(leg: usize) -> LegId {
    LegId {
        scheme: 0,
        route: 0,
        leg,
    }
}

/// A bend in the middle of a path.
fn middle(legs: usize) -> usize {
    (legs / 2) | 1
}

/// One edit of a drag, with what still holds taken over.
pub(crate) fn drag(plan: Plan, legs: usize) -> impl Fn() -> Solved {
    let solved = plan.solve();
    move || edited(&plan, middle(legs)).solve_after(Some(black_box(&solved)))
}

/// The same edit, with everything looked at anew.
pub(crate) fn afresh(plan: Plan, legs: usize) -> impl Fn() -> Solved {
    move || edited(&plan, middle(legs)).solve()
}

/// The room of one bend.
pub(crate) fn room(plan: Plan, legs: usize) -> impl Fn() -> Room {
    let surroundings = Surroundings::of(&plan.site);
    let id = leg_id(middle(legs));
    move || {
        let room = black_box(&plan).room(id, black_box(&surroundings));
        room.expect("a bend")
    }
}

/// All that is computed once of a site.
pub(crate) fn surroundings(plan: &Plan) -> impl Fn() -> Surroundings + use<> {
    let site = Arc::clone(&plan.site);
    move || Surroundings::of(black_box(&site))
}

//! What views ask of the chosen path besides its lines: worked out when first asked for, and kept for
//! as long as the solved plan is that very one.

use std::cell::{Cell, OnceCell, RefCell};
use std::rc::Rc;
use std::sync::Arc;

use geometry::Reach;
use plan::compare::Comparison;
use plan::count::paving::{self, Savings};
use plan::edit::LegId;
use plan::feel::{self, Feel};
use plan::order::{Order, compared, order};
use plan::profile::{self, Along, Profile};
use plan::room::Room;
use plan::setout::{CleanError, CleanOffer, EndPegs, Trust};
use plan::solve::SolvedRoute;
use plan::{Plan, Solved};

use super::rehearsal::Rehearsal;

/// Bends with clean figures near a drawn one, or why there are none.
pub type CleanOffers = Result<Vec<CleanOffer>, CleanError>;

/// The options beside each other, as long as what was solved is that very one.
#[derive(Default)]
pub struct Compared {
    of: Option<(Arc<Solved>, Rc<Comparison>)>,
}

impl Compared {
    /// The options of a plan, with all that is counted of them.
    pub fn get(&mut self, plan: &Plan, solved: &Arc<Solved>) -> Rc<Comparison> {
        match &self.of {
            Some((of, comparison)) if Arc::ptr_eq(of, solved) => Rc::clone(comparison),
            _ => {
                let comparison = Rc::new(compared(plan, solved));
                self.of = Some((Arc::clone(solved), Rc::clone(&comparison)));
                comparison
            }
        }
    }
}

/// What follows from one path of one solved plan.
#[derive(Default)]
pub struct Derived {
    of: Option<Of>,
    feel: OnceCell<Option<Feel>>,
    profile: OnceCell<Option<Profile>>,
    /// The strip of ground of the vehicle of this number.
    swept: RefCell<Option<(usize, Rc<[Reach]>)>>,
    rehearsal: OnceCell<Option<Rehearsal>>,
    trust: OnceCell<Trust>,
    /// What the option comes to.
    order: OnceCell<Option<Order>>,
    /// Which width near by saves pavers on the path.
    paving_savings: OnceCell<Option<Savings>>,
    /// Whether the set-out of a long path was asked for.
    asked: Cell<bool>,
    /// What is offered for the leg.
    clean: RefCell<Option<(LegId, Rc<CleanOffers>)>>,
}

struct Of {
    plan: Arc<Plan>,
    solved: Arc<Solved>,
    scheme: usize,
    route: usize,
}

/// Stations at which a swept strip is drawn, about: one for each few points of a wide plan.
const SWEPT_STEPS: f64 = 300.0;
/// Of a path with more pieces than this the set-out is worked out when it is asked for: it takes most of
/// a millisecond for each.
const PIECES_UNASKED: usize = 200;
/// The nearest those stations come to each other, in metres: finer than anything shows.
const SWEPT_LEAST: f64 = 0.02;

impl Derived {
    /// Turns to a path; what was known of another is forgotten.
    pub fn turn_to(now: &mut Rc<Self>, plan: &Arc<Plan>, solved: &Arc<Solved>, path: [usize; 2]) {
        let same = now
            .of
            .as_ref()
            .is_some_and(|of| Arc::ptr_eq(&of.solved, solved) && [of.scheme, of.route] == path);
        if !same {
            let [scheme, route] = path;
            let of = Some(Of {
                plan: Arc::clone(plan),
                solved: Arc::clone(solved),
                scheme,
                route,
            });
            *now = Rc::new(Self {
                of,
                ..Self::default()
            });
        }
    }

    fn route(&self) -> Option<(&Of, &SolvedRoute)> {
        let of = self.of.as_ref()?;
        let scheme = of.solved.schemes.get(of.scheme)?;
        Some((of, scheme.routes.get(of.route)?))
    }

    /// How the path feels to walk.
    pub fn feel(&self) -> Option<&Feel> {
        let feel = self.feel.get_or_init(|| {
            let (of, route) = self.route()?;
            feel::feel(&of.plan.walk, route)
        });
        feel.as_ref()
    }

    /// The path all along, for drawing.
    pub fn profile(&self) -> Option<&Profile> {
        let profile = self.profile.get_or_init(|| {
            let (of, route) = self.route()?;
            profile::profile(of.plan.walk.pace, route, &of.solved.surroundings)
        });
        profile.as_ref()
    }

    /// The exact figures at one station.
    pub fn along(&self, station: f64) -> Option<Along> {
        let (of, route) = self.route()?;
        profile::along(of.plan.walk.pace, route, &of.solved.surroundings, station)
    }

    /// The strip of ground that a vehicle of the plan sweeps.
    pub fn swept(&self, vehicle: usize) -> Option<Rc<[Reach]>> {
        if let Some((known, strip)) = &*self.swept.borrow()
            && *known == vehicle
        {
            return Some(Rc::clone(strip));
        }
        let (of, route) = self.route()?;
        let chain = route.centre_line.as_ref()?;
        let spacing = (chain.length() / SWEPT_STEPS).max(SWEPT_LEAST);
        let strip = feel::swept_strip(of.plan.walk.vehicles.get(vehicle)?, chain, spacing);
        let strip: Rc<[Reach]> = strip.into();
        *self.swept.borrow_mut() = Some((vehicle, Rc::clone(&strip)));
        Some(strip)
    }

    /// How the path is set out, step by step.
    pub fn rehearsal(&self) -> Option<&Rehearsal> {
        if self.waits() {
            return None;
        }
        let rehearsal = self.rehearsal.get_or_init(|| {
            let (of, _) = self.route()?;
            Rehearsal::of(&of.plan, &of.solved, (of.scheme, of.route))
        });
        rehearsal.as_ref()
    }

    /// How far the set-out can be trusted.
    pub fn trust(&self) -> Option<&Trust> {
        let (of, rehearsal) = (self.of.as_ref()?, self.rehearsal()?);
        Some(self.trust.get_or_init(|| rehearsal.work.trust(&of.plan)))
    }

    /// What the option comes to; nothing without a build-up.
    pub fn order(&self) -> Option<&Order> {
        let order = self.order.get_or_init(|| {
            let of = self.of.as_ref()?;
            order(&of.plan, &of.solved, of.scheme)
        });
        order.as_ref()
    }

    /// What another width near by would save of the path's pavers; nothing where its surface is not laid
    /// of such.
    pub fn paving_savings(&self) -> Option<&Savings> {
        let savings = self.paving_savings.get_or_init(|| {
            let (of, _) = self.route()?;
            let build_up = of.plan.schemes.get(of.scheme)?.build_up.as_ref()?;
            let course = build_up.layers.first()?.bought.course()?;
            let route = of.plan.route(of.scheme, of.route)?;
            paving::savings(&of.plan, route, &course, of.plan.graduation).ok()
        });
        savings.as_ref()
    }

    /// Whether the path is so long that its set-out waits to be asked for.
    pub fn waits(&self) -> bool {
        let pieces = self.route().map_or(0, |(_, route)| route.origins.len());
        PIECES_UNASKED < pieces && !self.asked.get()
    }

    /// Asks for the set-out of a long path.
    pub fn ask(&self) {
        self.asked.set(true);
    }

    /// What is offered for a bend so that its figures fall on the tape; `room` is that of the leg.
    pub fn clean(&self, leg: LegId, room: Option<&Room>) -> Option<Rc<CleanOffers>> {
        if let Some((known, offers)) = &*self.clean.borrow()
            && *known == leg
        {
            return Some(Rc::clone(offers));
        }
        let (of, _) = self.route()?;
        let offers = of.plan.clean_offers(leg, &of.solved, EndPegs::Moved, room);
        let offers = Rc::new(offers);
        *self.clean.borrow_mut() = Some((leg, Rc::clone(&offers)));
        Some(offers)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kept_for_as_long_as_the_solved_plan_is_that_very_one() {
        let plan = Arc::new(plan::example::plan().unwrap());
        let solved = Arc::new(plan.solve());
        let mut now = Rc::<Derived>::default();
        assert!(now.profile().is_none(), "there is no path yet");
        Derived::turn_to(&mut now, &plan, &solved, [0, 0]);
        let first = Rc::clone(&now);
        assert!(first.profile().is_some() && first.feel().is_some());
        let strip = first.swept(2).unwrap();
        Derived::turn_to(&mut now, &plan, &solved, [0, 0]);
        assert!(Rc::ptr_eq(&now, &first));
        assert!(Rc::ptr_eq(&now.swept(2).unwrap(), &strip));
        assert!(
            !Rc::ptr_eq(&now.swept(1).unwrap(), &strip),
            "another vehicle"
        );
        for (solved, path) in [(&solved, [1, 0]), (&Arc::new(plan.solve()), [0, 0])] {
            Derived::turn_to(&mut now, &plan, solved, path);
            assert!(!Rc::ptr_eq(&now, &first));
        }
        Derived::turn_to(&mut now, &plan, &solved, [9, 9]);
        assert!(now.feel().is_none() && now.along(0.0).is_none());
    }
}

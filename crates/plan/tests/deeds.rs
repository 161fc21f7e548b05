//! Deeds: every method sets out the very lines of the plan, from spots that stand, with published figures.

#![expect(clippy::unwrap_used, reason = "the helpers of these tests fail by it")]

mod common;

#[path = "deeds/laws.rs"]
mod laws;
#[path = "deeds/plans.rs"]
mod plans;
#[path = "deeds/published.rs"]
mod published;
#[path = "deeds/reader.rs"]
mod reader;
#[path = "deeds/scratches.rs"]
mod scratches;
#[path = "deeds/telling.rs"]
mod telling;

use geometry::{Arc, Point};
use plan::Plan;
use plan::setout::methods::{BendJob, StraightJob};
use plan::setout::{Deviations, Spot, Spots};
use plan::units::{Graduation, Ruler, Units};

/// The job of a bend 1.2 m wide from peg 2 to peg 3, on a tape read to the millimetre.
fn job(arc: Arc) -> BendJob {
    let mut ground = Spots::new(vec!["gate post".into()]);
    ground.put(Spot::Mark(0), arc.start() + (arc.apex() - arc.end()) * 2.0);
    ground.put(Spot::Peg(2), arc.start());
    ground.put(Spot::Peg(3), arc.end());
    BendJob {
        number: 1,
        pegs: (2, 3),
        arc,
        width: 1.2,
        spacing: None,
        ruler: Ruler {
            graduation: Graduation::Millimetre,
            ..Plan::empty(Units::Metric).ruler()
        },
        deviations: Deviations::default(),
        ground,
        swing_mark: None,
    }
}

/// A bend eastwards, the apex on the left, so that it turns right.
fn bend(chord: f64, rise: f64) -> Arc {
    Arc::from_rise(Point::ORIGIN, Point::new(chord, 0.0), rise).unwrap()
}

/// The job of a straight 1 m wide from peg 1 at the origin to peg 2.
fn straight_job(end: Point) -> StraightJob {
    let mut ground = Spots::default();
    ground.put(Spot::Peg(1), Point::ORIGIN);
    ground.put(Spot::Peg(2), end);
    StraightJob {
        pegs: (1, 2),
        width: 1.0,
        spacing: None,
        ruler: job(bend(6.0, 0.8)).ruler,
        ends: [Point::ORIGIN, end],
        ground,
    }
}

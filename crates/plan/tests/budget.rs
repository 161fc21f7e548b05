//! The error budget: published tapes, jobs carried out by their printed words with drawn errors, laws, blunders and remedies.

#![allow(
    clippy::unwrap_used,
    reason = "what these helpers read is what they wrote"
)]

#[path = "budget/advice.rs"]
mod advice;
#[path = "budget/by_the_words.rs"]
mod by_the_words;
#[path = "budget/hands.rs"]
mod hands;
#[path = "budget/laws.rs"]
mod laws;
#[path = "budget/published.rs"]
mod published;
#[path = "budget/told.rs"]
mod told;

use geometry::{Arc, Point};
use plan::budget::Taping;
use plan::setout::methods::BendJob;
use plan::setout::{Deviations, Method, Spot, Spots};
use plan::units::{Graduation, Ruler, Units};

/// The methods that set out a bend by spots and swings.
const METHODS: [Method; 8] = [
    Method::Swing,
    Method::SwingSquaredOff,
    Method::ChordOffsets,
    Method::Ties,
    Method::Halving,
    Method::TangentOffsets,
    Method::Deflections,
    Method::SuccessiveChords,
];

fn ruler(graduation: Graduation) -> Ruler {
    Ruler {
        graduation,
        ..Ruler::new(Units::Metric)
    }
}

/// The job of a bend 1.2 m wide from peg 2 to peg 3, the apex on the left, so that it turns right.
fn job(chord: f64, rise: f64, graduation: Graduation) -> BendJob {
    let arc = Arc::from_rise(Point::new(1.0, 2.0), Point::new(1.0 + chord, 2.0), rise).unwrap();
    let mut ground = Spots::new(vec!["gate post".into()]);
    ground.put(Spot::Mark(0), Point::new(-1.5, 4.0));
    ground.put(Spot::Peg(2), arc.start());
    ground.put(Spot::Peg(3), arc.end());
    BendJob {
        number: 1,
        pegs: (2, 3),
        arc,
        width: 1.2,
        spacing: None,
        ruler: ruler(graduation),
        deviations: Deviations::default(),
        ground,
        swing_mark: None,
    }
}

/// Garden taping from pegs that stand within 4 mm.
fn taping(graduation: Graduation) -> Taping {
    Taping {
        marks: 0.003,
        pegs: 0.004,
        ..Taping::smooth(ruler(graduation), 30.0)
    }
}

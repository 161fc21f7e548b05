//! How far the work of a path can be trusted: what is said fits what is printed and what the ground allows.

use std::collections::BTreeMap;

use geometry::Point;
use plan::budget::Remedy;
use plan::document::Surface;
use plan::setout::{Spot, work};
use plan::{Plan, example};

use super::{at, yard};
use plan::document::{Extent, Obstacle, ObstacleKind};

fn example() -> Plan {
    example::plan().unwrap()
}

#[test]
fn every_spot_that_is_made_is_told_of_once() {
    let plan = example();
    let work = work(&plan, &plan.solve(), (0, 0)).unwrap();
    let trust = work.trust(&plan);
    let mut made: Vec<Spot> = Vec::new();
    made.extend(work.pegging.deeds.iter().filter_map(|deed| deed.makes));
    for bend in &work.bends {
        let course = bend.way().course.as_ref().unwrap();
        made.extend(course.deeds.iter().filter_map(|deed| deed.makes));
    }
    let told: Vec<Spot> = trust.spots().map(|spot| spot.spot).collect();
    assert_eq!(told, made);
    let places: BTreeMap<Spot, Point> = trust.spots().map(|spot| (spot.spot, spot.at)).collect();
    assert_eq!(places[&Spot::Peg(2)], work.pegs[1].peg.at);
    for spot in trust.spots() {
        let ellipse = spot.error.ellipse();
        assert!(ellipse.long >= ellipse.short && ellipse.short >= 0.0);
        assert!(ellipse.long > 0.0, "{}", spot.name);
    }
}

/// The verdict is the error by which the way was taken, and a finer surface turns it.
#[test]
fn the_verdict_is_of_the_way_that_is_taken() {
    let mut plan = example();
    let suits = |plan: &Plan| {
        let work = work(plan, &plan.solve(), (0, 0)).unwrap();
        let trust = work.trust(plan);
        for (bend, told) in work.bends.iter().zip(&trust.bends) {
            assert_eq!(Some(told.verdict.within), bend.way().error);
            let worst = told.lines.iter().map(|(_, within)| *within);
            assert_eq!(worst.fold(0.0, f64::max), told.verdict.within);
        }
        trust.bends.iter().all(|bend| bend.verdict.suits())
    };
    assert!(suits(&plan));
    plan.set_out.surface = Surface::Flags;
    assert!(!suits(&plan));
}

/// What would help is something that can be done here, and helps.
#[test]
fn a_change_can_be_done_and_helps() {
    let extent = Extent::Round {
        centre: at(3.0, -2.25),
        radius: 0.5,
    };
    let pond = Obstacle::new("dipping pond", ObstacleKind::Pond, extent);
    let mut found = 0;
    for mut plan in [example(), yard(vec![pond])] {
        plan.set_out.surface = Surface::Flags;
        let work = work(&plan, &plan.solve(), (0, 0)).unwrap();
        let trust = work.trust(&plan);
        for (bend, told) in work.bends.iter().zip(&trust.bends) {
            let Some((change, words)) = &told.change else {
                continue;
            };
            found += 1;
            assert!(change.after < change.before, "{words}");
            if let Remedy::Method(method) = change.remedy {
                let way = bend.ways.iter().find(|way| way.method == method);
                assert!(way.unwrap().is_possible(), "{words}");
            }
        }
    }
    assert!(found > 0);
}

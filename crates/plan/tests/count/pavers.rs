//! Pavers counted on the outline, and what is ordered of them.

use plan::Plan;
use plan::compare::Criterion;
use plan::count::build_up::{Assumed, Bought, BuildUp, Filling, LayerWidth, Source, built_in};
use plan::count::paving::{Bond, Lay};
use plan::count::{
    Measure, PaverCount, Pavers, Quantities, paving_hints, quantities, read_build_up,
    write_build_up,
};
use plan::document::Shape;
use plan::{example, order};

use crate::common::route;
use crate::plans::{assumed, build_up, counted, layer, near, need, straight_path, waste};

/// 200 by 100 mm from one to the next, with a joint of so much or more.
fn pavers(bond: Bond, edges: Option<Lay>, joint: (f64, f64)) -> BuildUp {
    let mut pavers = layer(
        "pavers",
        0.06,
        LayerWidth::Path,
        Bought::Units {
            length: assumed(0.2),
            width: assumed(0.1),
            density: assumed(2000.0),
            filling: Some(Box::new(Filling {
                key: "joint-sand".into(),
                name: "joint sand".into(),
                joint: Assumed {
                    value: joint.0,
                    range: Some(joint),
                    source: Source::Own,
                },
                density: assumed(1500.0),
                waste: waste(0.0, 0.0),
                packs: Vec::new(),
            })),
            bond,
            edges,
        },
    );
    pavers.waste = waste(0.1, 0.1);
    build_up(vec![pavers])
}

fn count(found: &Quantities) -> &PaverCount {
    found.paving.as_ref().unwrap().count().unwrap()
}

fn reasons(found: &Quantities) -> Vec<&str> {
    let need = need(found, "pavers", Measure::Pieces);
    need.because.iter().map(|why| why.what.as_str()).collect()
}

/// By hand: in every other row of five two halves, of which the joints let one unit make both.
#[test]
fn a_square_metre_of_running_bond() {
    let found = counted(
        &straight_path(1.0, 1.0),
        pavers(Bond::Running, None, (0.002, 0.005)),
    );
    let count = count(&found);
    assert_eq!((count.whole, count.cut, count.slivers), (45, 10, 0));
    let need = need(&found, "pavers", Measure::Pieces);
    assert_eq!((need.amount, need.range), (55.0, Some([50.0, 55.0])));
    // 55 faces of 198 by 98 mm, 60 mm thick.
    let mass = 55.0 * 0.198 * 0.098 * 0.06 * 2000.0;
    near(found.layers[0].mass.unwrap(), mass, 1e-9);
    let reasons = reasons(&found);
    for said in [
        "running bond",
        "counted on the outline: 45 whole, 10 cut, 0 slivers; breakage not included",
        "50 if what is cut off serves again",
    ] {
        assert!(reasons.contains(&said), "{reasons:?}");
    }
    // What the count holds already is not added again as waste.
    assert!(!reasons.iter().any(|said| said.starts_with("waste")));
}

/// By hand: 150 on 3 m of 1 m, and of the path across it 50 on each side.
#[test]
fn where_paths_cross_each_spot_is_paved_once() {
    let mut plan = straight_path(3.0, 1.0);
    let mut across = route(&[(1.5, -1.5), (1.5, 1.5)], vec![Shape::Straight]);
    across.width = 1.0;
    let up = pavers(Bond::Stack, None, (0.0, 0.0));
    assert_eq!(count(&counted(&plan, up.clone())).whole, 150);
    plan.schemes[0].routes.push(across);
    let both = counted(&plan, up.clone());
    assert_eq!((count(&both).whole, count(&both).cut), (250, 0));
    near(count(&both).laid, both.area, 1e-9);
    // A path on itself adds nothing.
    let again = plan.schemes[0].routes[0].clone();
    plan.schemes[0].routes.push(again);
    assert_eq!(count(&counted(&plan, up)), count(&both));
}

#[test]
fn courses_say_how_they_follow_each_bend() {
    let found = counted(
        &crate::plans::bent_path(),
        pavers(Bond::Stack, Some(Lay::Soldier), (0.002, 0.005)),
    );
    let courses = &count(&found).courses;
    assert_eq!(courses.len(), 2);
    for course in courses {
        assert_eq!((course.path, course.course.bends.len()), (1, 1));
    }
    // The left edge of 5.4 m radius is the inner one; whole soldiers follow from 6.6 m:
    // 0.198 (0.098 + 0.002) / 0.003.
    let bend = courses[1].course.bends[0];
    near(bend.inner_radius, 5.4, 1e-9);
    near(bend.least_radius, 6.6, 1e-9);
    assert!(reasons(&found).contains(&"stack bond between courses of soldiers along the edges"));
}

#[test]
fn what_cannot_be_counted_goes_by_area_and_says_why() {
    let check = |plan: &Plan, up: BuildUp, pieces: f64, why: &str| {
        let found = counted(plan, up);
        let paving = found.paving.as_ref().unwrap();
        assert!(
            matches!(&paving.pavers, Pavers::Uncounted(said) if said.starts_with(why)),
            "{paving:?}"
        );
        let need = need(&found, "pavers", Measure::Pieces);
        assert_eq!(need.amount, pieces);
        let said = format!("not counted on the outline: {why}");
        assert!(reasons(&found).iter().any(|what| what.starts_with(&said)));
        assert!(reasons(&found).iter().any(|what| what.starts_with("waste")));
    };
    // 3 m² of 50 and a tenth more.
    check(
        &straight_path(10.0, 0.3),
        pavers(Bond::Running, Some(Lay::Soldier), (0.002, 0.005)),
        165.0,
        "the courses along the edges take 0.4 m of a path 0.3 m wide",
    );
    let mut wider = pavers(Bond::Running, None, (0.002, 0.005));
    wider.layers[0].width = LayerWidth::Dig;
    let why = "they do not end at the edges of the path";
    check(&straight_path(10.0, 1.0), wider, 550.0, why);
}

#[test]
fn the_pavers_of_the_example() {
    let plan = example::plan().unwrap();
    let solved = plan.solve();
    let found = quantities(&plan, &solved, 0).unwrap();
    let tally = count(&found);
    assert!(tally.cut > 0 && tally.slivers <= tally.cut, "{tally:?}");
    assert_eq!(tally.ordered, tally.whole + tally.cut);
    let need = need(&found, "pavers", Measure::Pieces);
    assert_eq!(need.amount, tally.ordered as f64);
    let ends = [tally.ordered_reusing, tally.ordered].map(|pavers| pavers as f64);
    assert_eq!(need.range, Some(ends));
    // Faces of 197 by 97 mm with joints of 2 to 5 mm between: 93 to 97 % of the ground.
    let share = tally.laid / found.area;
    assert!((0.93..=0.97).contains(&share), "{share}");
    // Beside it the others have nothing to cut.
    let compared = order::compared(&plan, &solved);
    assert!(compared.criteria().contains(&Criterion::Cuts));
    let cuts = |scheme: usize| compared.standings[scheme].counted.cuts.clone().unwrap();
    assert_eq!(cuts(0).text, tally.cut.to_string());
    assert_eq!((cuts(1).value, cuts(2).value), (0.0, 0.0));
    assert!(!compared.best(Criterion::Cuts).contains(&0));
}

#[test]
fn hints_start_from_what_is_counted() {
    let plan = example::plan().unwrap();
    let found = quantities(&plan, &plan.solve(), 0).unwrap();
    let hints = paving_hints(&plan, 0).unwrap();
    // 0.197 (0.097 + 0.002) / 0.003, and 0.097 (0.197 + 0.002) / 0.003.
    near(hints.soldiers, 6.501, 1e-9);
    near(hints.stretchers, 6.434_333_333, 1e-9);
    let cut: usize = hints
        .paths
        .iter()
        .map(|path| path.as_ref().unwrap().now.cut)
        .sum();
    assert_eq!(cut, count(&found).cut);
    assert_eq!(paving_hints(&plan, 1), None, "gravel has no pavers");
    assert_eq!(paving_hints(&plan, 9), None);
}

#[test]
fn how_they_are_laid_is_kept_and_checked() {
    let running = write_build_up(&pavers(Bond::Running, None, (0.002, 0.005)));
    assert!(!running.contains("bond") && !running.contains("edges"));
    for (bond, edges) in [
        (Bond::Running, Some(Lay::Stretcher)),
        (Bond::Stack, None),
        (Bond::Radial(Lay::Soldier), None),
    ] {
        let up = pavers(bond, edges, (0.002, 0.005));
        assert_eq!(read_build_up(&write_build_up(&up)), Ok(up));
    }
    let both = pavers(
        Bond::Radial(Lay::Soldier),
        Some(Lay::Soldier),
        (0.002, 0.005),
    );
    let error = read_build_up(&write_build_up(&both))
        .unwrap_err()
        .to_string();
    assert_eq!(
        error,
        "the build-up, layer 1 “pavers”: courses follow both edges in a radial bond already: leave `edges` out, or write `Running` or `Stack`"
    );
    // The joints are those of the filling, or else those between blocks.
    let mut bare = built_in()[3].layers[0].bought.clone();
    if let Bought::Units { filling, .. } = &mut bare {
        *filling = None;
    }
    assert_eq!(bare.course(), built_in()[3].layers[0].bought.course());
}

//! Whole plans, drawn at random and the built-in one: no course of any part is out of order.

use plan::Plan;
use plan::budget::{Budget, Taping};
use plan::document::Shape;
use plan::setout::methods::{BendJob, StraightJob, straight};
use plan::setout::{Course, Spot, set_out};
use proptest::prelude::*;

use super::common;
use super::laws::{METHODS, exact};

/// Every course that can be written for every path of a plan.
fn courses(plan: &Plan) -> Vec<Course> {
    let solved = plan.solve();
    let routes = solved.schemes.iter().flat_map(|scheme| &scheme.routes);
    let mut courses = Vec::new();
    for out in routes.filter_map(|route| set_out(plan, route)) {
        for bend in &out.bends {
            let job = BendJob::new(bend, plan);
            courses.extend(METHODS.iter().filter_map(|method| job.course(*method).ok()));
        }
        let straights = out.straights.iter();
        let jobs = straights.filter_map(|straight| StraightJob::new(straight, &out, plan));
        courses.extend(jobs.map(|job| straight::course(&job)));
    }
    courses
}

/// A nanometre, and a nanometre more for each hundred metres across: a bend may be drawn kilometres
/// wide, where coordinates themselves are no finer. Spots that the course itself fixes so badly that
/// hands which err by millimetres put them kilometres out are out by what figures are rounded to in
/// the same proportion, a hundred thousand millionth.
fn tolerance(course: &Course, spot: Spot, budget: &Budget) -> f64 {
    let spots: Vec<_> = course.spots.iter().map(|set| set.at).collect();
    let across = spots
        .iter()
        .map(|at| at.distance(spots[0]))
        .fold(0.0, f64::max);
    1e-9 * (1.0 + across / 100.0) + 1e-11 * budget.spots[&spot].place()
}

/// Every deed from spots that stand, and all of them where the plan has them.
fn well_ordered(plan: &Plan) -> Result<usize, TestCaseError> {
    let courses = courses(plan);
    for course in &courses {
        prop_assert_eq!(course.out_of_order(), None, "{:?}", course.method);
        let (stand, _) = course
            .carried_out(exact)
            .map_err(|cannot| TestCaseError::fail(format!("{:?}: {cannot}", course.method)))?;
        let budget = Budget::of(course, &Taping::of(plan));
        for set in course.spots.iter() {
            let off = stand.at(set.spot).unwrap().distance(set.at);
            prop_assert!(
                off < tolerance(course, set.spot, &budget),
                "{:?} {:?} {off:e}",
                course.method,
                set.spot
            );
        }
    }
    Ok(courses.len())
}

fn shape() -> impl Strategy<Value = Shape> {
    prop_oneof![
        Just(Shape::Straight),
        (-3.0..3.0).prop_map(|rise| Shape::Bend {
            rise,
            holds: Vec::new()
        }),
        Just(Shape::Onward),
        Just(Shape::TwoBends),
    ]
}

proptest! {
    #[test]
    fn every_course_of_a_random_plan_can_be_done_in_its_order(
        points in prop::collection::vec((-15.0..15.0, -15.0..15.0), 5),
        legs in prop::collection::vec(shape(), 4..=5),
    ) {
        well_ordered(&common::plan(&points, legs))?;
    }
}

#[test]
fn every_course_of_the_example_can_be_done_in_its_order() {
    let plan = plan::example::plan().unwrap();
    match well_ordered(&plan) {
        Ok(courses) => assert!(courses > METHODS.len()),
        Err(wrong) => panic!("{wrong}"),
    }
}

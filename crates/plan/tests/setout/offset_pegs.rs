//! Offset pegs: clear of the digging on every side, told so that the peg is found again.

use geometry::Point;
use plan::Plan;
use plan::document::{Extent, Obstacle, ObstacleKind, Shape, Side};
use plan::setout::{
    CLEAR_OF_MACHINE, CLEAR_OF_SPADE, InTheWay, NoOffsetPeg, OffsetPeg, Passable, Voice,
    offset_pegs,
};

use super::common::plan;
use super::near;

fn mates(plan: &Plan, clear: f64) -> Vec<Result<OffsetPeg, NoOffsetPeg>> {
    offset_pegs(plan, &plan.solve(), (0, 0), clear, |_, _| Passable::Clear)
}

fn voice(plan: &Plan) -> Voice {
    Voice {
        ruler: plan.ruler(),
        both: false,
    }
}

#[test]
fn they_stand_clear_of_both_edges_even_at_a_corner() {
    let bends = [
        vec![Shape::Straight, Shape::bend(0.8), Shape::Straight],
        vec![Shape::Straight, Shape::Straight, Shape::bend(-1.2)],
    ];
    for legs in bends {
        let plan = plan(&[(0., 0.), (6., 0.), (9., 5.), (15., 5.)], legs);
        let solved = plan.solve();
        let path = &solved.schemes[0].routes[0];
        let edges = [path.left_edge.as_ref(), path.right_edge.as_ref()];
        for clear in [CLEAR_OF_SPADE, CLEAR_OF_MACHINE] {
            let found = mates(&plan, clear);
            assert_eq!(found.len(), 4);
            for mate in found.into_iter().map(Result::unwrap) {
                let nearest = edges
                    .iter()
                    .flatten()
                    .map(|edge| edge.nearest(mate.at).distance);
                let nearest = nearest.fold(f64::INFINITY, f64::min);
                assert!(nearest >= clear - 1e-9, "{mate:?}");
                // Led along what is written on it, one comes to its peg.
                let peg = path.pegs()[mate.of - 1].at;
                let led = mate.at + mate.way.unit() * mate.distance.exact;
                near(led.distance(peg), 0.0, 1e-12);
            }
        }
    }
}

#[test]
fn they_stand_outside_the_bend_and_say_where_the_peg_is() {
    // Round to the left: the outside is on the right as one walks, south of a path to the east.
    let mut plan = plan(&[(0., 0.), (4., 0.)], vec![Shape::bend(-0.001)]);
    let mate = mates(&plan, CLEAR_OF_SPADE).remove(0).unwrap();
    assert_eq!(mate.side, Side::Right);
    assert_eq!(
        mate.written(&voice(&plan)),
        "PEG 1, 1.200 m to the north of here"
    );
    // North a quarter turn counter-clockwise from the top of the plan: the top is east.
    plan.north = std::f64::consts::FRAC_PI_2;
    let mate = mates(&plan, CLEAR_OF_SPADE).remove(0).unwrap();
    assert_eq!(mate.compass, "east");
    // North at the lower right: the top lies between south, upper left, and west, upper right.
    plan.north = -0.75 * std::f64::consts::PI;
    let mate = mates(&plan, CLEAR_OF_SPADE).remove(0).unwrap();
    assert_eq!(mate.compass, "south-west");
}

#[test]
fn where_one_side_is_taken_the_other_serves_and_where_both_are_it_says_so() {
    let mut plan = plan(&[(0., 0.), (4., 0.)], vec![Shape::Straight]);
    let wall = |name: &str, y: f64| {
        let ends = vec![Point::new(-3., y), Point::new(2., y)];
        Obstacle::new(name, ObstacleKind::Wall, Extent::Line(ends))
    };
    let free = mates(&plan, CLEAR_OF_SPADE).remove(0).unwrap();
    let y = free.at.y;
    plan.site_mut().obstacles.push(wall("one wall", y));
    let other = mates(&plan, CLEAR_OF_SPADE).remove(0).unwrap();
    assert_eq!(other.side, free.side.other());
    plan.site_mut().obstacles.push(wall("other wall", -y));
    let none = mates(&plan, CLEAR_OF_SPADE).remove(0).unwrap_err();
    let ways = [none.left, none.right];
    assert!(ways.contains(&InTheWay::Obstacle(0)) && ways.contains(&InTheWay::Obstacle(1)));
    let words = none.words(&plan.solve().surroundings);
    assert!(
        words.contains("“one wall”") && words.contains("by its ties"),
        "{words}"
    );
    assert!(
        mates(&plan, CLEAR_OF_SPADE)[1].is_ok(),
        "the walls end before peg 2"
    );
    let solved = plan.solve();
    let blocked = offset_pegs(&plan, &solved, (0, 0), 1.0, |_, _| Passable::Blocked);
    assert_eq!(blocked[1].clone().unwrap_err().left, InTheWay::Pull);
}

#[test]
fn none_is_dug_out_with_another_stretch_of_the_path() {
    // Out and back 2.3 m apart: between the legs there is no ground that stays.
    let legs = vec![Shape::Straight, Shape::Straight, Shape::Straight];
    let plan = plan(&[(0., 0.), (9., 0.), (9., 2.3), (0., 2.3)], legs);
    for mate in mates(&plan, CLEAR_OF_SPADE).into_iter().map(Result::unwrap) {
        assert!(mate.at.y < 0.0 || mate.at.y > 2.3, "{mate:?}");
    }
}

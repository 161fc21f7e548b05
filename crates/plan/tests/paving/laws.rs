//! Laws that every count keeps.

use geometry::{Direction, Point};
use plan::count::paving::{Bond, Course, Grid, Lay, Paving};
use plan::document::{PadShape, Route, Shape};
use proptest::prelude::*;

use crate::common::route;
use crate::{blocks, near, pad, paved, solved, tight, wide};

/// A path of a bend, a straight and a bend, now and then with a landing.
pub(crate) fn paths() -> impl Strategy<Value = Route> {
    let rise = || prop_oneof![-0.9..-0.1, 0.1..0.9_f64];
    let bend = (2.5..5.0_f64, rise());
    (bend, -0.6..0.6_f64, rise(), 0.6..1.5_f64, 0..3_usize).prop_map(
        |((length, rise), turn, second, width, landing)| {
            let points = [
                (0.0, 0.0),
                (length, 0.3),
                (length + 2.0, 0.3 + turn),
                (length + 5.0, 0.1),
            ];
            let legs = vec![Shape::bend(rise), Shape::Straight, Shape::bend(second)];
            let shapes = [
                PadShape::Circle { diameter: 2.1 },
                PadShape::Rectangle {
                    along: 1.7,
                    across: 1.9,
                },
            ];
            Route {
                pads: shapes
                    .get(landing)
                    .map(|shape| pad(4.0, *shape))
                    .into_iter()
                    .collect(),
                ..wide(width, route(&points, legs))
            }
        },
    )
}

fn laid(paving: &Paving) -> f64 {
    let field = paving.field.as_ref().unwrap();
    field.whole as f64 + field.parts.iter().map(|part| part.share).sum::<f64>()
}

/// What is laid of the units that are held to be whole or none, of each one [`geometry::FLUSH`].
fn flush(paving: &Paving, unit: f64) -> f64 {
    unit * geometry::FLUSH * (paving.cut as f64 + 1.0)
}

fn turned(route: &Route, turn: f64, by: (f64, f64)) -> Route {
    let (sin, cos) = turn.sin_cos();
    let mut moved = route.clone();
    for waypoint in &mut moved.waypoints {
        let at = waypoint.at;
        waypoint.at = Point::new(
            at.x * cos - at.y * sin + by.0,
            at.x * sin + at.y * cos + by.1,
        );
    }
    moved
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn without_joints_units_cover_the_ground(route in paths(), running in any::<bool>()) {
        let bond = if running { Bond::Running } else { Bond::Stack };
        let paving = paved(&route, &tight(bond));
        let area = paving.field.as_ref().unwrap().region.area();
        near(0.02 * laid(&paving), area, flush(&paving, 0.02));
        near(paving.laid + paving.waste, 0.02 * paving.ordered as f64, 1e-9);
        if route.pads.is_empty() {
            near(area, solved(&route).area, 1e-6);
        }
    }

    #[test]
    fn a_landing_as_wide_as_the_path_adds_nothing(route in paths(), station in 1.5..6.0_f64) {
        // It touches both edges.
        let round = pad(station, PadShape::Circle { diameter: route.width });
        let with = Route { pads: vec![round], ..route.clone() };
        let paving = paved(&with, &blocks(Bond::Running));
        let field = paving.field.as_ref().unwrap();
        near(field.region.area(), solved(&route).area, 1e-6);
        let without = paved(&Route { pads: Vec::new(), ..route }, &blocks(Bond::Running));
        prop_assert_eq!((paving.whole, paving.cut), (without.whole, without.cut));
    }

    #[test]
    fn more_joint_leaves_less_face(route in paths()) {
        let paving = paved(&route, &blocks(Bond::Running));
        let area = paving.field.as_ref().unwrap().region.area();
        // 198 × 98 of every 200 × 100 or more, but for what the outline happens to cut.
        let share = paving.laid / area;
        prop_assert!((0.92..1.0).contains(&share), "{}", share);
        prop_assert!(paving.slivers <= paving.cut);
        prop_assert!(paving.ordered_reusing <= paving.ordered);
        prop_assert!(paving.ordered_reusing >= paving.whole + paving.cut.div_ceil(2));
    }

    #[test]
    fn a_plan_turned_and_shifted_with_its_rows_counts_the_same(
        route in paths(),
        turn in -3.0..3.0_f64,
        by in (-90.0..90.0_f64, -90.0..90.0_f64),
        origin in (0.0..0.2_f64, 0.0..0.1_f64, -1.5..1.5_f64),
    ) {
        let course = |at: (f64, f64), angle: f64| Course {
            grid: Grid::At {
                origin: Point::new(at.0, at.1),
                along: Direction::at_angle(angle).unwrap(),
            },
            ..blocks(Bond::Running)
        };
        let (sin, cos) = turn.sin_cos();
        let (x, y, angle) = origin;
        let there = (x * cos - y * sin + by.0, x * sin + y * cos + by.1);
        let here = paved(&route, &course((x, y), angle));
        let moved = paved(&turned(&route, turn, by), &course(there, angle + turn));
        prop_assert_eq!((here.whole, here.cut), (moved.whole, moved.cut));
        prop_assert_eq!((here.slivers, here.ordered_reusing), (moved.slivers, moved.ordered_reusing));
        near(here.laid, moved.laid, 1e-8);
    }

    #[test]
    fn the_border_crosses_about_one_unit_each_pitch(route in paths()) {
        let paving = paved(&route, &tight(Bond::Stack));
        let border = paving.field.as_ref().unwrap().region.perimeter();
        // A line passes at most 1/l + 1/w units a metre (both ways at once on the diagonal: their
        // sum over √2 and more), at least one each diagonal.
        let (most, least) = (border * 15.0 + 8.0, border / 0.2_f64.hypot(0.1));
        let cut = paving.cut as f64;
        prop_assert!(cut <= most, "{} {}", cut, most);
        // Rows flush with an edge cut nothing there.
        prop_assert!(cut + border / 0.2 >= 0.5 * least, "{} {}", cut, least);
    }

    #[test]
    fn courses_and_field_take_up_the_path(route in paths(), soldier in any::<bool>()) {
        let lay = if soldier { Lay::Soldier } else { Lay::Stretcher };
        let course = Course { edges: Some(lay), ..tight(Bond::Running) };
        let paving = paved(&route, &course);
        let field = paving.field.as_ref().unwrap();
        let solved = solved(&route);
        let outline = Course { edges: None, ..course };
        let all = paved(&route, &outline).field.unwrap().region.area();
        // What is not field is a strip along either edge (Pappus: its width by its middle line; where
        // the path has corners, the mitres).
        let centre = solved.centre_line.as_ref().unwrap();
        // A sharp corner takes from the strip what is no longer of second order.
        let corners = centre.pieces().windows(2).map(|pieces| {
            pieces[0].end_direction().turn_to(pieces[1].start_direction()).abs()
        });
        if corners.fold(0.0, f64::max) > 0.8 {
            return Ok(());
        }
        let depth = course.unit.laid(lay)[1];
        let strips: f64 = [-1.0, 1.0]
            .map(|side| {
                let off = side * (0.5 * route.width - 0.5 * depth);
                centre.offset(off).chain.unwrap().length()
            })
            .iter()
            .sum();
        near(all - field.region.area(), depth * strips, 1e-2 * depth * strips);
    }
}

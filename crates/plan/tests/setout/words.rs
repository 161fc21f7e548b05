//! The steps in words: the right figures, and left and right from first principles.

use geometry::Point;
use plan::Plan;
use plan::document::Shape;
use plan::setout::{BendSetOut, Step, Voice};
use plan::units::{Graduation, Units};

use super::common::plan;
use super::out;

/// One bend walked from peg 1 at (2, 1) to peg 2, four metres on in some direction.
fn bend(rise: f64, angle: f64) -> (Plan, BendSetOut) {
    let end = (2.0 + 4.0 * angle.cos(), 1.0 + 4.0 * angle.sin());
    let plan = plan(&[(2., 1.), end], vec![Shape::bend(rise)]);
    let bend = out(&plan).bends.remove(0);
    (plan, bend)
}

fn voice(plan: &Plan) -> Voice {
    Voice {
        ruler: plan.ruler(),
        both: false,
    }
}

/// `left` or `right`: where a point lies as one looks from peg 1 to peg 2.
fn side_of(bend: &BendSetOut, point: Point) -> &'static str {
    let (from, to) = (bend.arc.start(), bend.arc.end());
    let (way, there) = (to - from, point - from);
    if way.x * there.y - way.y * there.x > 0.0 {
        "left"
    } else {
        "right"
    }
}

fn text(steps: &[Step]) -> String {
    let lines: Vec<String> = steps
        .iter()
        .map(|step| format!("{} [{}]", step.text, step.check.as_deref().unwrap_or("")))
        .collect();
    lines.join("\n")
}

#[track_caller]
fn contains(text: &str, part: &str) {
    assert!(text.contains(part), "“{part}” is not in\n{text}");
}

/// Every place a person is sent to lies on the side the words say.
#[test]
fn left_and_right_are_as_one_walks() {
    for angle in [0.0, 1.0, 2.5, -1.5, 3.2] {
        for rise in [0.4, -0.4, 1.2, -1.2, 1.9, -1.9, 2.6, -2.6, 3.5, -3.5] {
            let (plan, bend) = bend(rise, angle);
            let words = text(&bend.swing_steps(&voice(&plan)));
            // The swing point: as far from both pegs, on the side where the centre is.
            let swing_side = side_of(&bend, bend.arc.centre());
            let found = if bend.squares_off() {
                format!("Square off it to the {swing_side} and go")
            } else {
                format!("on the {swing_side} of the string, ")
            };
            contains(&words, &found);
            // The inside edge lies towards the swing point from the apex.
            let apex = bend.arc.apex();
            let inward = apex.towards(bend.arc.centre(), 0.01);
            let walks = bend.arc.direction_at(0.5 * bend.arc.length()).unit();
            let inside = if walks.cross(inward - apex) > 0.0 {
                "left"
            } else {
                "right"
            };
            contains(&words, &format!("the inside edge, on the {inside}, at"));
            let outside = if inside == "left" { "right" } else { "left" };
            contains(&words, &format!("the outside edge, on the {outside}, at"));
            // Offsets are set towards the apex, a minus the other way.
            let words = text(&bend.offset_steps(&voice(&plan)));
            let apex_side = side_of(&bend, apex);
            let other = if apex_side == "left" { "right" } else { "left" };
            contains(
                &words,
                &format!("At each distance square off to the {apex_side} and"),
            );
            contains(
                &words,
                &format!("A minus goes to the {other} of the string"),
            );
            // A path that turns right has its swing point on the right, as long as it turns
            // through less than half a circle.
            assert_eq!(rise > 0.0, inside == "right");
            if rise.abs() < 2.0 {
                assert_eq!(swing_side, inside);
            } else {
                assert_eq!(
                    swing_side, apex_side,
                    "past the half circle it lies under the arch"
                );
                contains(&words, &format!("square off to the {apex_side} and go"));
            }
        }
    }
}

#[test]
fn the_steps_of_a_bend_in_metres() {
    // Chord 4, rise 1.2, apex left: radius 2.266667, apothem 1.066667, turning right 123.9°.
    let (plan, bend) = bend(1.2, 0.0);
    let words = text(&bend.swing_steps(&voice(&plan)));
    contains(
        &words,
        "Stretch a string from peg 1 to peg 2: this is the chord, 4.000 m. [it must read 3.990 m to 4.010 m; if not, measure both pegs again]",
    );
    contains(
        &words,
        "Hook the tape on peg 1, hold it at 2.265 m and scratch an arc on the ground on the right of the string, about 1.065 m square off its middle.",
    );
    contains(&words, "[peg 1 and peg 2 must both read 2.265 m]");
    contains(
        &words,
        "[mark the middle of the chord, 2.000 m from peg 1, and square off it to the left: the line must lie 1.200 m away, there is the apex]",
    );
    contains(
        &words,
        "the inside edge, on the right, at 1.665 m, the outside edge, on the left, at 2.865 m. [edge to edge must read 1.200 m]",
    );
}

#[test]
fn the_steps_of_a_bend_in_feet_and_inches() {
    // Common practice, no source: chord 7 ft, rise 2 ft 6 in, radius 44.4 in, 2 ft wide.
    let (chord, rise, width) = (84.0 * 0.0254, 30.0 * 0.0254, 24.0 * 0.0254);
    let mut plan = plan(&[(0., 0.), (chord, 0.)], vec![Shape::bend(-rise)]);
    plan.schemes[0].routes[0].width = width;
    plan.units = Units::FeetInches;
    plan.graduation = Graduation::EighthInch;
    let bend = out(&plan).bends.remove(0);
    let words = text(&bend.swing_steps(&voice(&plan)));
    contains(
        &words,
        "this is the chord, 7′ 0″. [it must read 6′ 11 3⁄4″ to 7′ 0 1⁄4″",
    );
    contains(&words, "peg 1 and peg 2 must both read 3′ 8 3⁄8″");
    contains(
        &words,
        "the inside edge, on the left, at 2′ 8 3⁄8″, the outside edge, on the right, at 4′ 8 3⁄8″",
    );
    let both = Voice {
        both: true,
        ..voice(&plan)
    };
    contains(&text(&bend.swing_steps(&both)), &both.ruler.both(chord));
}

#[test]
fn a_half_circle_has_its_swing_point_in_the_middle_of_the_string() {
    let (plan, bend) = bend(2.0, 0.0);
    let words = text(&bend.swing_steps(&voice(&plan)));
    contains(
        &words,
        "Drive the swing point peg S1 at the middle of the string, 2.000 m from peg 1.",
    );
    let words = text(&bend.offset_steps(&voice(&plan)));
    contains(
        &words,
        "From the middle of the string, 2.000 m along, square off to the left and go 2.000 m.",
    );
    contains(&words, "both pegs to the apex must read 2.830 m");
}

#[test]
fn an_inside_edge_without_radius_is_told() {
    let narrow = plan(&[(0., 0.), (1., 0.)], vec![Shape::bend(0.5)]);
    let bend = out(&narrow).bends.remove(0);
    let words = text(&bend.swing_steps(&voice(&narrow)));
    contains(
        &words,
        "The inside edge has no radius: this bend is too tight for the width.",
    );
}

#[test]
fn a_flat_bend_is_set_by_its_offsets() {
    let (plan, bend) = bend(0.02, 0.0);
    contains(
        &bend.swing_words(&voice(&plan)),
        "too long to swing well: use the offsets from the chord",
    );
    let words = text(&bend.offset_steps(&voice(&plan)));
    contains(&words, "All distances along run from that one zero.");
}

#[test]
fn the_order_of_work() {
    let path = plan(
        &[(0., 0.), (4., 0.), (8., 3.)],
        vec![Shape::Straight, Shape::bend(0.8)],
    );
    let out = out(&path);
    let words = text(&out.order_of_work(&voice(&path)));
    contains(
        &words,
        "stretch a string from peg 1 to peg 3 and lay a tape along it, its zero at peg 1.",
    );
    contains(&words, "[peg 3 must read 8.530 m to 8.560 m.");
    contains(&words, "Drive pegs 1 to 3 and write the number on each");
}

//! Strings swung about a point, and the point itself.

use super::*;
use ObstacleKind as Kind;

/// A bend about the origin, radius 4 m, a quarter circle from east to north; path 1 m wide.
fn quarter() -> Arc {
    arc(Point::ORIGIN, 4.0, 0.0, 90.0)
}

/// Which of the strings to inside edge, centre line and outside edge are stopped.
fn stopped(bend: &Arc, obstacle: Obstacle) -> [bool; 3] {
    let surroundings = surroundings(vec![obstacle]);
    let reach = Reach::new(&surroundings, limits());
    let radius = bend.radius();
    [radius - 0.5, radius, radius + 0.5].map(|string| {
        let found = reach.swing(bend, string);
        found.iter().any(Hindrance::stops)
    })
}

#[test]
fn which_strings_a_stem_stops() {
    let check = |off: f64, bearing: f64, stops: [bool; 3]| {
        let centre = Point::ORIGIN
            + Direction::at_angle(geometry::angle::from_degrees(bearing))
                .unwrap()
                .unit()
                * off;
        let stem = round(Kind::Tree, centre.x, centre.y, 0.15);
        assert_eq!(
            stopped(&quarter(), stem),
            stops,
            "{off} m off at {bearing}°"
        );
    };
    check(2.0, 45.0, [true, true, true]);
    check(3.8, 45.0, [false, true, true]);
    check(4.3, 45.0, [false, false, true]);
    check(4.648, 45.0, [false, false, true]);
    check(4.65, 45.0, [false, false, false]); // touching
    check(2.0, -45.0, [false, false, false]); // outside the sector
    check(2.0, -4.0, [true, true, true]); // 0.14 m off the first string
    check(2.0, -4.5, [false, false, false]); // 0.157 m off it
    check(0.0, 0.0, [true, true, true]);
}

#[test]
fn a_bend_to_the_right_sweeps_the_same_ground() {
    for (x, y) in [(2.0, 2.0), (3.0, 3.0), (-2.0, 2.0)] {
        let stem = || round(Kind::Tree, x, y, 0.15);
        let right = quarter().reversed();
        assert_eq!(stopped(&right, stem()), stopped(&quarter(), stem()));
    }
}

#[test]
fn a_bend_of_more_than_half_a_circle_leaves_out_its_wedge() {
    let bend = arc(Point::ORIGIN, 4.0, 0.0, 300.0);
    let check = |x, y, stops: bool| {
        let stem = round(Kind::Tree, x, y, 0.2);
        assert_eq!(stopped(&bend, stem), [stops; 3], "{x}, {y}");
    };
    check(-3.0, 0.0, true);
    check(0.0, -3.0, true);
    check(2.6, -1.5, false); // in the middle of the wedge
    check(3.0, 0.15, true);
    check(3.0, -0.15, true); // reaches over the first string
}

#[test]
fn walls_across_beside_and_all_round() {
    let check = |points: &[(f64, f64)], stops: [bool; 3]| {
        for obstacle in [wall(points), line(Kind::Wall, points)] {
            assert_eq!(stopped(&quarter(), obstacle), stops, "{points:?}");
        }
    };
    check(&[(1.0, 5.0), (5.0, 1.0)], [false, false, true]); // 4.24 m off, 4.14 m with half its thickness
    check(&[(-9.0, -0.1), (9.0, -0.1)], [false; 3]); // its face along the first string
    check(&[(-9.0, 0.02), (9.0, 0.02)], [true; 3]);
    let court = [(-2., -2.), (2., -2.), (2., 2.), (-2., 2.), (-2., -1.5)];
    check(&court, [true; 3]);
}

#[test]
fn the_posts_of_a_gate_stop_a_string_and_what_is_between_them_does_not() {
    let gate = |points| line(Kind::Gate, points);
    assert_eq!(
        stopped(&quarter(), gate(&[(1., -1.), (1., 6.)])),
        [false; 3]
    );
    assert_eq!(stopped(&quarter(), gate(&[(1., 1.), (1., 6.)])), [true; 3]);
}

#[test]
fn a_bent_outline_is_met_where_it_bends() {
    // A building 4.6 m off, whose side bows out towards the swing point.
    let apse = |rise| {
        let corners = [
            (3.0, 4.6, rise),
            (-3.0, 4.6, 0.0),
            (-3.0, 9.0, 0.0),
            (3.0, 9.0, 0.0),
        ];
        let corner = |(x, y, rise)| Corner { at: at(x, y), rise };
        thing(Kind::Building, Extent::Curved(corners.map(corner).to_vec()))
    };
    assert_eq!(stopped(&quarter(), apse(0.0)), [false, false, false]);
    assert_eq!(stopped(&quarter(), apse(0.5)), [false, false, true]);
    assert_eq!(stopped(&quarter(), apse(0.7)), [false, true, true]);
}

#[test]
fn in_a_closed_bed_with_care() {
    let surroundings = surroundings(vec![square(Kind::Bed, (-6.0, -6.0), 12.0)]);
    let reach = Reach::new(&surroundings, limits());
    assert_eq!(met(&reach.stand(Point::ORIGIN)), [(0, CARE)]);
    assert_eq!(met(&reach.swing(&quarter(), 4.5)), [(0, CARE)]);
}

#[test]
fn over_water_a_string_may_hang_but_nothing_is_driven() {
    let surroundings = surroundings(vec![round(Kind::Pond, 1.0, 1.0, 2.0)]);
    let reach = Reach::new(&surroundings, limits());
    let stand = reach.stand(Point::ORIGIN);
    assert_eq!(met(&stand), [(0, STOPS)]);
    near(stand[0].deep, 2.0 - 2.0_f64.sqrt());
    assert_eq!(met(&reach.swing(&quarter(), 4.0)), [(0, CARE)]);
}

#[test]
fn over_a_boundary() {
    // An area whose north side runs 3 m north of the swing point, and a line there.
    let fenced = |boundary: Obstacle| {
        let surroundings = surroundings(vec![boundary]);
        let reach = Reach::new(&surroundings, limits());
        let swing = reach.swing(&quarter(), 4.2);
        assert_eq!(met(&swing), [(0, CARE)]);
        assert!(
            reach
                .swing(&arc(Point::ORIGIN, 4.0, -90.0, 90.0), 4.2)
                .is_empty()
        );
        assert!(reach.swing(&quarter(), 3.0).is_empty(), "it touches");
        (swing[0], met(&reach.stand(at(0.0, 3.7))))
    };
    let (swing, stand) = fenced(square(Kind::Boundary, (-9.0, -15.0), 18.0));
    near(swing.deep, 1.2);
    near(swing.along, 4.2);
    assert_eq!(stand, [(0, STOPS)]);
    // Which side of a line is beyond is not known.
    let (_, stand) = fenced(line(Kind::Boundary, &[(-9.0, 3.0), (9.0, 3.0)]));
    assert_eq!(stand, []);
}

#[test]
fn a_buried_service_is_met_by_what_is_driven() {
    let mut drain = line(Kind::Service, &[(-9.0, 1.0), (9.0, 1.0)]);
    drain.unsure = Some(0.3);
    let surroundings = surroundings(vec![drain]);
    let reach = Reach::new(&surroundings, limits());
    assert!(reach.swing(&quarter(), 4.0).is_empty());
    let stand = |y| reach.stand(at(0.0, y));
    assert_eq!(met(&stand(0.3)), [(0, CARE)]); // 0.3 unsure and 0.5 beside it
    near(stand(0.3)[0].deep, 0.1);
    assert_eq!(met(&stand(1.0)), [(0, CARE)]);
    assert!(stand(0.19).is_empty() && stand(1.81).is_empty());
}

#[test]
fn roots_are_felt_for() {
    let surroundings = surroundings(vec![round(Kind::Tree, 0.0, 0.0, 0.2)]);
    let reach = Reach::new(&surroundings, limits());
    // Twelve times the diameter: 4.8 m.
    let found = reach.stand(at(4.7, 0.0));
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].cause, found[0].severity), (Cause::Roots(0), CARE));
    assert!(reach.stand(at(4.9, 0.0)).is_empty());
    assert!(reach.stand(at(0.1, 0.0))[0].stops());
}

#[test]
fn long_strings() {
    let surroundings = surroundings(Vec::new());
    let reach = Reach::new(&surroundings, limits());
    let check = |radius: f64, expected: Option<(Severity, f64)>| {
        let found = reach.swing(&arc(Point::ORIGIN, radius, 0.0, 40.0), radius);
        let found = found.first().map(|it| (it.severity, it.cause));
        let expected = expected.map(|(severity, limit)| (severity, Cause::TooLong(limit)));
        assert_eq!(found, expected, "{radius}");
    };
    check(9.99, None);
    check(10.01, Some((CARE, 10.0)));
    check(15.01, Some((STOPS, 15.0)));
    let short = ReachLimits {
        tape: 8.0,
        ..limits()
    };
    let reach = Reach::new(&surroundings, short);
    let found = reach.swing(&quarter(), 8.5);
    assert_eq!(
        (found[0].severity, found[0].cause),
        (STOPS, Cause::TooLong(8.0))
    );
    assert!(reach.swing(&quarter(), 0.0).is_empty());
}

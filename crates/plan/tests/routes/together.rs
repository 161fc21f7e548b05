//! Several pegs moved together, paths mirrored and copied, options added and taken away.

use geometry::{Direction, Figure, Point, Vector};
use plan::document::{Heading, Route, Scheme, Shape};
use plan::edit::Edit;

use super::common::{path, plan, plan_of, route};
use super::kinds::every_kind;
use super::{at, codes, line, near, same_ground, solved, with};

fn together(waypoints: &[usize], by: (f64, f64)) -> Edit {
    Edit::MoveTogether {
        scheme: 0,
        waypoints: waypoints.iter().map(|w| (0, *w)).collect(),
        by: Vector::new(by.0, by.1),
    }
}

#[test]
fn inside_shapes_stay_and_at_the_border_the_rule_holds() {
    let holding = |figure| Shape::Bend {
        rise: 0.5,
        holds: vec![figure],
    };
    let points = [
        (0., 0.),
        (4., 0.),
        (8., 1.),
        (12., 0.),
        (16., 1.),
        (20., 0.),
    ];
    let before = plan(
        &points,
        vec![
            Shape::bend(0.6),
            Shape::Bend {
                rise: -0.7,
                holds: vec![Figure::Chord, Figure::Sweep],
            },
            Shape::bend(1.0),
            holding(Figure::Radius),
            Shape::Straight,
        ],
    );
    let after = with(&before, &together(&[1, 2, 3], (0.5, -1.0)));
    let (was, now) = (path(&before), path(&after));
    for i in [0, 4, 5] {
        assert_eq!(now.waypoints[i], was.waypoints[i]);
    }
    for i in [1, 2, 3] {
        let by = Vector::new(0.5, -1.0);
        assert_eq!(now.waypoints[i].at, was.waypoints[i].at + by);
    }
    // Inside, the very same shapes, whatever holds.
    for leg in [1, 2, 4] {
        assert_eq!(now.legs[leg], was.legs[leg]);
    }
    // At the border: nothing typed keeps the sweep, a typed radius holds.
    let bend = |plan: &plan::Plan, leg: usize| solved(plan, 0).legs[leg][0].arc().unwrap().bend();
    near(bend(&after, 0).sweep(), bend(&before, 0).sweep(), 1e-12);
    near(bend(&after, 3).radius(), bend(&before, 3).radius(), 1e-9);
}

#[test]
fn what_holds_at_the_border_refuses_the_move() {
    let legs = vec![
        Shape::Straight,
        Shape::Bend {
            rise: 0.5,
            holds: vec![Figure::Chord],
        },
    ];
    let before = plan(&[(0., 0.), (4., 0.), (8., 0.)], legs);
    let why = before.with(&together(&[0, 1], (-1., 0.))).unwrap_err();
    assert_eq!(
        why.to_string(),
        "leg 2 holds its rise and chord: let one go to move this peg farther"
    );
    // The other end with it, and it goes.
    let _ = with(&before, &together(&[0, 1, 2], (-1., 0.)));
}

#[test]
fn all_of_any_path_moved_is_the_same_path_elsewhere() {
    for (name, before) in every_kind() {
        let all: Vec<usize> = (0..path(&before).waypoints.len()).collect();
        let after = with(&before, &together(&all, (64.0, -32.0)));
        assert_eq!(path(&after).legs, path(&before).legs, "{name}");
        near(line(&after, 0).length(), line(&before, 0).length(), 1e-9);
        assert_eq!(codes(&after), codes(&before), "{name}");
    }
}

#[test]
fn pegs_of_several_paths_move_together() {
    let mut before = plan(&[(0., 0.), (4., 0.)], vec![Shape::Straight]);
    let other = route(&[(0., 5.), (4., 5.), (8., 5.)], vec![Shape::Straight; 2]);
    before.schemes[0].routes.push(other);
    let edit = Edit::MoveTogether {
        scheme: 0,
        waypoints: vec![(0, 1), (1, 0), (1, 0)],
        by: Vector::new(0.0, 1.0),
    };
    let after = with(&before, &edit);
    let pegs = |route: usize| -> Vec<Point> {
        let waypoints = &after.schemes[0].routes[route].waypoints;
        waypoints.iter().map(|w| w.at).collect()
    };
    assert_eq!(pegs(0), [at(0., 0.), at(4., 1.)]);
    // Named twice it moves once.
    assert_eq!(pegs(1), [at(0., 6.), at(4., 5.), at(8., 5.)]);
}

fn mirror(through: (f64, f64), along: Direction) -> Edit {
    Edit::Mirror {
        scheme: 0,
        route: 0,
        through: at(through.0, through.1),
        along,
    }
}

#[test]
fn mirrored_any_path_is_its_mirror_image_and_twice_it_is_back() {
    let along = Direction::EAST.turned(0.7);
    for (name, before) in every_kind() {
        let edit = mirror((1., 2.), along);
        let there = with(&before, &edit);
        let (one, other) = (line(&before, 0), line(&there, 0));
        near(one.length(), other.length(), 1e-9);
        let reflect = |p: Point| {
            let across = along.left().unit();
            p - across * (2.0 * across.dot(p - at(1., 2.)))
        };
        for i in 0..=40 {
            let station = one.length() * f64::from(i) / 40.0;
            let image = reflect(one.point_at(station));
            let off = image.distance(other.point_at(station));
            assert!(off < 1e-9, "{name} at {station}: {off} m");
        }
        assert_eq!(codes(&there), codes(&before), "{name}");
        same_ground(&one, &line(&with(&there, &edit), 0), name);
    }
}

#[test]
fn a_direction_of_the_site_is_mirrored_as_an_angle() {
    let mut before = plan_of(Route {
        start_direction: Some(Heading::Square(plan::document::Reference::Marks(
            "a".into(),
            "b".into(),
        ))),
        ..route(&[(0., 0.), (5., 3.)], vec![Shape::Onward])
    });
    let mark = |name: &str, x: f64| plan::document::Mark {
        name: name.into(),
        at: at(x, 0.),
    };
    before.site_mut().marks = vec![mark("a", -1.), mark("b", 1.)];
    assert_eq!(codes(&before), []);
    let edit = mirror((0., 0.), Direction::EAST);
    let there = with(&before, &edit);
    assert_eq!(codes(&there), []);
    near(
        line(&there, 0).direction_at(0.0).angle(),
        -std::f64::consts::FRAC_PI_2,
        1e-12,
    );
    same_ground(&line(&before, 0), &line(&with(&there, &edit), 0), "twice");
}

#[test]
fn a_path_is_copied_to_the_same_or_another_option() {
    let before = with(
        &plan(&[(0., 0.), (4., 0.)], vec![Shape::bend(0.5)]),
        &Edit::AddScheme { copy_of: None },
    );
    for to in [0, 1] {
        let copy = Edit::CopyRoute {
            scheme: 0,
            route: 0,
            to,
            by: Vector::new(3.0, 2.0),
        };
        let after = with(&before, &copy);
        let made = after.schemes[to].routes.last().unwrap();
        assert_eq!(made.legs, path(&before).legs);
        assert_eq!(made.waypoints[1].at, at(7., 2.));
        assert_eq!(path(&after), path(&before));
    }
}

#[test]
fn options_are_added_copied_and_taken_away() {
    let before = plan(&[(0., 0.), (4., 0.)], vec![Shape::bend(0.5)]);
    let empty = with(&before, &Edit::AddScheme { copy_of: None });
    assert_eq!(empty.schemes[1], Scheme::default());
    let copied = with(&before, &Edit::AddScheme { copy_of: Some(0) });
    assert_eq!(copied.schemes[1].routes, before.schemes[0].routes);
    let back = with(&copied, &Edit::RemoveScheme { scheme: 1 });
    assert_eq!(back, before);
    let renamed = with(
        &copied,
        &Edit::RenameScheme {
            scheme: 1,
            name: "wide".into(),
        },
    );
    assert_eq!(renamed.schemes[1].name, "wide");
    assert_eq!(renamed.schemes[0], before.schemes[0]);
}

//! Plans to print: the built-in example and everything that could upset a page.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use geometry::Point;
use plan::Plan;
use plan::document::{Extent, Mark, Obstacle, ObstacleKind, Route, Scheme, Shape, Waypoint};
use plan::units::{Graduation, Units};

/// A plan to print, and which option of it.
pub(crate) struct Case {
    pub(crate) name: String,
    pub(crate) plan: Plan,
    pub(crate) scheme: usize,
    pub(crate) both: bool,
}

fn case(name: &str, plan: Plan) -> Case {
    Case {
        name: name.to_owned(),
        plan,
        scheme: 0,
        both: false,
    }
}

pub(crate) fn example() -> Plan {
    plan::example::plan().unwrap()
}

/// Every case.
pub(crate) fn all() -> Vec<Case> {
    let mut cases = Vec::new();
    for scheme in 0..3 {
        let mut option = case(
            &format!("example-{}", plan::document::letter(scheme).to_lowercase()),
            example(),
        );
        option.scheme = scheme;
        cases.push(option);
    }
    let mut both = case("example-both", example());
    both.both = true;
    cases.push(both);
    cases.push(case("feet", in_feet(example())));
    let mut both = case("feet-both", in_feet(example()));
    both.both = true;
    cases.push(both);
    cases.push(case("forty-legs", forty_legs()));
    cases.push(case(
        "major-arcs",
        path(
            &[(0.0, 0.0), (4.0, 0.0), (8.0, 0.0), (9.0, 3.0)],
            &[3.4, -2.9, 1.2],
            0.6,
        ),
    ));
    cases.push(case(
        "half-circle",
        path(&[(0.0, 0.0), (4.0, 0.0), (4.0, 5.0)], &[2.0, 0.0], 1.2),
    ));
    cases.push(case(
        "too-tight",
        path(&[(0.0, 0.0), (1.0, 0.0), (5.0, 2.0)], &[0.45, 0.3], 1.4),
    ));
    cases.push(case(
        "flat",
        path(
            &[(0.0, 0.0), (12.0, 1.0), (26.0, 0.0), (30.0, 0.0)],
            &[0.02, -1e-6, 0.4],
            1.2,
        ),
    ));
    cases.push(case(
        "tiny",
        path(
            &[(0.0, 0.0), (0.04, 0.03), (0.1, 0.03)],
            &[0.012, 0.0],
            0.05,
        ),
    ));
    cases.push(case(
        "huge",
        path(
            &[(0.0, 0.0), (600.0, 200.0), (1200.0, -200.0), (2000.0, 0.0)],
            &[120.0, -30.0, 0.0],
            3.0,
        ),
    ));
    cases.push(case("long-names", long_names()));
    cases.push(case("empty", Plan::empty(Units::Metric)));
    cases.push(case("no-legs", path(&[(1.0, 1.0)], &[], 1.0)));
    cases.push(case("closed", closed()));
    cases.push(case("far-marks", far_marks()));
    cases
}

/// The same garden for a tape in feet and inches.
pub(crate) fn in_feet(mut plan: Plan) -> Plan {
    plan.units = Units::FeetInches;
    plan.graduation = Graduation::EighthInch;
    plan
}

/// An open path through waypoints; a rise of nothing is a straight.
pub(crate) fn path(places: &[(f64, f64)], rises: &[f64], width: f64) -> Plan {
    let mut plan = Plan::empty(Units::Metric);
    plan.title = "Quince Yard".to_owned();
    let shape = |rise: &f64| {
        if *rise == 0.0 {
            Shape::Straight
        } else {
            Shape::bend(*rise)
        }
    };
    plan.schemes = vec![Scheme {
        name: "Trial".to_owned(),
        routes: vec![Route {
            name: "Trial walk".to_owned(),
            width,
            waypoints: places
                .iter()
                .map(|(x, y)| Waypoint {
                    at: Point::new(*x, *y),
                    rounding: None,
                })
                .collect(),
            legs: rises.iter().map(shape).collect(),
            closed: false,
            start_direction: None,
            end_direction: None,
            ..Route::default()
        }],
        ..Scheme::default()
    }];
    plan
}

/// A walk that winds up and down over forty legs.
fn forty_legs() -> Plan {
    let places: Vec<(f64, f64)> = (0..=40)
        .map(|i| {
            let along = f64::from(i);
            (3.0 * along, 4.0 * (along * 0.7).sin())
        })
        .collect();
    let rises: Vec<f64> = (0..40)
        .map(|i| match i % 4 {
            0 => 0.4,
            1 => -0.7,
            2 => 0.0,
            _ => 0.9,
        })
        .collect();
    path(&places, &rises, 0.9)
}

fn closed() -> Plan {
    let mut plan = path(
        &[(0.0, 0.0), (5.0, 0.0), (5.0, 4.0), (0.0, 4.0)],
        &[-0.8, -1.5, -0.8],
        1.0,
    );
    let route = &mut plan.schemes[0].routes[0];
    route.closed = true;
    route.legs.push(Shape::Straight);
    plan
}

/// Names and titles as long as a plan may hold them.
fn long_names() -> Plan {
    let long = |word: &str| {
        format!("{word} ")
            .repeat(60)
            .chars()
            .take(200)
            .collect::<String>()
    };
    let mut plan = example();
    plan.title = long("Quince");
    plan.place = long("Yard");
    plan.client = "Llanfairpwllgwyngyll".repeat(10);
    for (index, mark) in plan.site_mut().marks.iter_mut().enumerate() {
        mark.name = format!(
            "{index}{}",
            long("post").chars().take(199).collect::<String>()
        );
    }
    for obstacle in &mut plan.site_mut().obstacles {
        obstacle.name = long(&obstacle.name);
    }
    for scheme in &mut plan.schemes {
        scheme.name = "W".repeat(200);
        for route in &mut scheme.routes {
            route.name = long("gate");
            route.start_direction = None;
            route.end_direction = None;
        }
    }
    plan
}

/// Two marks far off, and things that reach far beyond the page.
fn far_marks() -> Plan {
    let mut plan = path(&[(0.0, 0.0), (4.0, 1.0), (9.0, 1.0)], &[0.6, 0.0], 1.2);
    let mark = |name: &str, x, y| Mark {
        name: name.to_owned(),
        at: Point::new(x, y),
    };
    plan.site_mut().marks = vec![
        mark("church tower", -900.0, 40.0),
        mark("mast", 2500.0, -300.0),
        mark("stile", 3.0, -1.0),
    ];
    let obstacle = |name: &str, kind, extent| Obstacle::new(name, kind, extent);
    let round = |x, y, radius| Extent::Round {
        centre: Point::new(x, y),
        radius,
    };
    let ring = (0..12).map(|i| {
        let angle = f64::from(i) * TAU / 12.0;
        Point::new(4.0 + 60.0 * angle.cos(), 60.0 * angle.sin())
    });
    plan.site_mut().obstacles = vec![
        obstacle("lake", ObstacleKind::Pond, round(0.0, 40_000.0, 39_997.0)),
        obstacle(
            "boundary",
            ObstacleKind::Boundary,
            Extent::Area(ring.collect()),
        ),
        obstacle(
            "cable",
            ObstacleKind::Service,
            Extent::Line(vec![Point::new(-90_000.0, -1.5), Point::new(90_000.0, 1.5)]),
        ),
        obstacle("", ObstacleKind::Tree, round(7.0, 2.4, 0.4)),
        obstacle(
            "",
            ObstacleKind::Wall,
            Extent::Line(vec![Point::new(1.0, -1.4), Point::new(6.0, -1.4)]),
        ),
    ];
    plan.north = FRAC_PI_2 * 0.5 - PI;
    plan
}

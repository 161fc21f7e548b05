//! What hinders a deed, as it is said.

use super::*;
use ObstacleKind as Kind;
use plan::units::{Ruler, Units};

fn named(mut obstacle: Obstacle, name: &str) -> Obstacle {
    obstacle.name = name.into();
    obstacle
}

fn said(obstacle: Obstacle, subject: &str, ask: impl Fn(&Reach<'_>) -> Vec<Hindrance>) -> String {
    let surroundings = surroundings(vec![obstacle]);
    let found = ask(&Reach::new(&surroundings, limits()));
    found[0].sentence(subject, surroundings.site(), &Ruler::new(Units::Metric))
}

#[test]
fn sentences() {
    let bend = arc(Point::ORIGIN, 4.0, 0.0, 90.0);
    let check = |obstacle: Obstacle, subject, ask: &dyn Fn(&Reach<'_>) -> Vec<Hindrance>, text| {
        assert_eq!(said(obstacle, subject, ask), text);
    };
    let stand = |reach: &Reach<'_>| reach.stand(Point::ORIGIN);
    let swing = |reach: &Reach<'_>| reach.swing(&bend, 4.2);
    let pull = |reach: &Reach<'_>| reach.pull(Point::ORIGIN, at(9.0, 0.0));
    check(
        named(round(Kind::Pond, 0., 0., 1.), "Cistern"),
        "the swing point",
        &stand,
        "the swing point is in the pond “Cistern”",
    );
    check(
        square(Kind::Boundary, (1.2, -9.), 20.),
        "the swing point",
        &stand,
        "the swing point is 1.200 m beyond the boundary",
    );
    check(
        named(round(Kind::Tree, 3., 0., 0.3), "Old apple"),
        "the string to the outside edge",
        &swing,
        "the string to the outside edge catches the tree “Old apple”, 3.000 m from the swing point",
    );
    check(
        square(Kind::Boundary, (-9., -15.), 18.),
        "the string",
        &swing,
        "the string would reach 1.200 m over the boundary",
    );
    check(
        line(Kind::Wall, &[(3., -1.), (3., 1.)]),
        "the tape to peg 2",
        &pull,
        "the tape to peg 2 cannot go through the wall, at 3.000 m",
    );
    check(
        named(line(Kind::Service, &[(3., -1.), (3., 1.)]), "Drain"),
        "the string",
        &pull,
        "the string crosses the service “Drain” at 3.000 m: drive no pin there",
    );
}

#[test]
fn a_string_too_long_says_how_long() {
    let check = |radius: f64, text: &str| {
        let long = arc(Point::ORIGIN, radius, 0.0, 30.0);
        let pond = round(Kind::Pond, 500., 0., 1.);
        assert_eq!(
            said(pond, "the string", |reach| reach.swing(&long, radius)),
            text
        );
    };
    check(
        12.0,
        "the string is 12.000 m long: over 10.000 m it wants a still day and a helper",
    );
    check(
        17.0,
        "the string is 17.000 m long: over 15.000 m the tape ends, or sag and wind spoil the line",
    );
}

//! What we do: each piece of work ready to be done again and again.

use std::f64::consts::PI;
use std::hint::black_box;

use geometry::{Arc, Bend, Chain, Crossing, Figure, Nearest, Offset, Piece, Point, bends_from};
use plan::edit::LegId;
use plan::{Edit, Plan, Solved};
use sheet::{Paper, Request};

/// Half the width of the path, in metres.
pub(crate) const HALF_WIDTH: f64 = 0.6;

/// A bend from chord and rise, and its radius.
pub(crate) fn bend_from_chord_and_rise() -> f64 {
    let bend = Bend::from_chord_and_rise(black_box(5.6), black_box(1.1));
    bend.expect("a bend").radius()
}

/// All bends with two figures; the number of them and the first one's rise.
pub(crate) fn any_two(first: (Figure, f64), second: (Figure, f64)) -> impl Fn() -> (usize, f64) {
    move || {
        let answers = bends_from(black_box(first), black_box(second)).expect("bends");
        (answers.len(), answers[0].bend.rise())
    }
}

/// The centre line of the winding path.
pub(crate) fn centre_line(legs: usize) -> Chain {
    let solved = bench::plan(legs).solve();
    let route = solved
        .schemes
        .into_iter()
        .flat_map(|scheme| scheme.routes)
        .next();
    route
        .and_then(|route| route.centre_line)
        .expect("a centre line")
}

/// A bend of 4 m radius that turns through 60°, in its place.
pub(crate) fn bend() -> Piece {
    let rise = 4.0 * (1.0 - (PI / 6.0).cos());
    let bend = Arc::from_rise(Point::new(0.0, 3.0), Point::new(4.0, 3.0), rise);
    Piece::Arc(bend.expect("an arc"))
}

/// A place beside that bend.
pub(crate) const BESIDE: Point = Point::new(1.3, 4.9);

/// The length of a bend.
pub(crate) fn bend_length() -> impl Fn() -> f64 {
    let bend = bend();
    move || black_box(&bend).length()
}

/// The nearest point of a bend.
pub(crate) fn bend_nearest_point() -> impl Fn() -> Point {
    let bend = bend();
    move || black_box(&bend).nearest_point(black_box(BESIDE))
}

/// The same, and how far along it is.
pub(crate) fn bend_nearest() -> impl Fn() -> (f64, Point) {
    let bend = bend();
    move || black_box(&bend).nearest(black_box(BESIDE))
}

/// Where the centre line crosses itself: nowhere.
pub(crate) fn crossings(legs: usize) -> impl Fn() -> Vec<Crossing> {
    let line = centre_line(legs);
    move || black_box(&line).self_crossings()
}

/// The outline of the ground the path takes up.
pub(crate) fn outline(legs: usize) -> Chain {
    let solved = bench::plan(legs).solve();
    let outline = solved.schemes[0].routes[0].outline();
    outline.into_iter().next().expect("an outline")
}

/// The area of the ground the path takes up.
pub(crate) fn area(legs: usize) -> impl Fn() -> f64 {
    let outline = outline(legs);
    move || black_box(&outline).enclosed_area()
}

/// The length of a whole path from its pieces.
pub(crate) fn length(legs: usize) -> impl Fn() -> f64 {
    let line = centre_line(legs);
    move || black_box(line.pieces()).iter().map(Piece::length).sum()
}

/// The places that the nearest point is asked for: beside the path, some near, some far.
pub(crate) fn places(legs: usize) -> Vec<Point> {
    let line = centre_line(legs);
    (0..16_u8)
        .map(|i| {
            let share = f64::from(i) / 15.0;
            let aside = line.direction_at(share * line.length()).left().unit();
            line.point_at(share * line.length()) + aside * (3.0 * (10.0 * share).sin())
        })
        .collect()
}

/// The points of a path nearest to sixteen places.
pub(crate) fn nearest(legs: usize) -> impl Fn() -> Vec<Nearest> {
    let (line, places) = (centre_line(legs), places(legs));
    move || {
        places
            .iter()
            .map(|place| line.nearest(*black_box(place)))
            .collect()
    }
}

/// Both edges of a path.
pub(crate) fn edges(legs: usize) -> impl Fn() -> [Offset; 2] {
    let line = centre_line(legs);
    move || [HALF_WIDTH, -HALF_WIDTH].map(|distance| black_box(&line).offset(distance))
}

/// A plan solved: centre line, both edges, area, findings.
pub(crate) fn solve(legs: usize) -> impl Fn() -> Solved {
    let plan = bench::plan(legs);
    move || black_box(&plan).solve()
}

/// A plan file read.
pub(crate) fn read(legs: usize) -> impl Fn() -> Plan {
    let text = plan::file::write(&bench::plan(legs));
    move || plan::file::read(black_box(&text).as_bytes()).expect("a plan")
}

/// One step of a drag in the example: the rise of its first bend set, and everything solved again.
pub(crate) fn drag_step() -> impl Fn() -> Solved {
    let plan = plan::example::plan().expect("the example");
    let id = LegId {
        scheme: 0,
        route: 0,
        leg: 1,
    };
    move || {
        let edit = Edit::SetRise {
            id,
            rise: black_box(1.3),
        };
        black_box(&plan).with(&edit).expect("an edit").plan.solve()
    }
}

/// The sheet of the example's first option, from the solved plan to the bytes of the PDF.
pub(crate) fn example_sheet() -> impl Fn() -> Vec<u8> {
    let plan = plan::example::plan().expect("the example");
    let solved = plan.solve();
    let request = Request {
        scheme: 0,
        paper: Paper::A4,
        both_units: false,
        date: None,
    };
    move || sheet::stakeout(black_box(&plan), &solved, &request).expect("a sheet")
}

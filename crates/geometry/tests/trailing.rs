//! Bars and trailers drawn along chains: published values, closed forms, laws, and steps of an independent kind.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::f64::consts::{FRAC_PI_2, PI};

use geometry::{
    Arc, Chain, Direction, Line, Piece, Point, Rig, Steady, Swept, Towed, Towing, Trail,
    TrailError, Vector, WIDEST_WITHIN, steady,
};
use proptest::prelude::*;

/// A chain from the origin eastward: straights by length, arcs by signed radius and turn, and corners
/// by a bare turn.
#[derive(Clone, Copy, Debug)]
enum Go {
    Straight(f64),
    Arc(f64, f64),
    Corner(f64),
}

fn chain(goes: &[Go]) -> Chain {
    let (mut at, mut way) = (Point::ORIGIN, Direction::EAST);
    let mut pieces = Vec::new();
    for go in goes {
        match *go {
            Go::Straight(length) => {
                let to = at + way.unit() * length;
                pieces.push(Piece::Line(Line::new(at, to).unwrap()));
                at = to;
            }
            Go::Arc(radius, turn) => {
                let centre = at + way.left().unit() * radius.copysign(turn);
                let to = centre + way.turned(turn).left().unit() * -radius.copysign(turn);
                let arc = Arc::about(centre, at, to, turn > 0.0).unwrap();
                at = arc.end();
                way = way.turned(turn);
                pieces.push(Piece::Arc(arc));
            }
            Go::Corner(turn) => way = way.turned(turn),
        }
    }
    Chain::new(pieces, false).unwrap()
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!(
        (found - expected).abs() <= within,
        "{found} instead of {expected}"
    );
}

#[test]
fn a_truck_on_its_turning_circle() {
    // Source: a truck maker's dimension handbook, "Straight truck or tractor turning radius: solutions",
    // p. 16 (miweblink2.metro-inet.us, RVPublic doc 17311, page 39): wheelbase 198 in, sine .42646,
    // turning radius 464.3 in.
    let Steady::Follows { angle, .. } = steady(198.0, 464.3) else {
        panic!()
    };
    near(angle.sin(), 0.42646, 0.00005);
}

#[test]
fn a_bicycle_turning_its_front_wheel_by_thirty_degrees() {
    // Source: J. Silverman, "Turning radius" (joshmaxsilverman.github.io, 2020): the front tyre goes
    // round l / sin θ, twice the length for 30°, and the back tyre round l / tan θ.
    let Steady::Follows {
        angle,
        radius,
        off_tracking,
    } = steady(1.0, 2.0)
    else {
        panic!()
    };
    near(angle, PI / 6.0, 1e-15);
    near(radius, 3.0_f64.sqrt(), 1e-15);
    near(off_tracking, 2.0 - 3.0_f64.sqrt(), 1e-15);
}

#[test]
fn the_tractrix() {
    // Source: the tractrix x = a (t − tanh t), y = a sech t of a bar of length a that starts square to
    // a straight; E. W. Weisstein, "Tractrix", MathWorld; from memory. The bar comes along 1 km of
    // straight, turns square at a corner and is drawn off.
    let a = 2.5;
    let chain = chain(&[
        Go::Straight(1000.0),
        Go::Corner(-FRAC_PI_2),
        Go::Straight(20.0),
    ]);
    let trail = Trail::new(&chain, a).unwrap();
    for t in [0.0, 0.1, 0.5, 1.0, 2.0, 4.0] {
        let rear = trail.rear_at(1000.0 + a * t);
        near(-rear.y, a * (t - t.tanh()), 1e-12);
        near(1000.0 - rear.x, a / t.cosh(), 1e-12);
    }
    assert_eq!(trail.folds_at(), Some(1000.0));
}

#[test]
fn a_straight_lets_half_the_tangent_decay() {
    let chain = chain(&[Go::Straight(5.0), Go::Corner(0.7), Go::Straight(30.0)]);
    let trail = Trail::new(&chain, 1.5).unwrap();
    near(trail.angle_at(4.0), 0.0, 0.0);
    for s in [0.0, 0.3, 2.0, 9.0, 29.0] {
        let tangent = (0.35_f64).tan() * f64::exp(-s / 1.5);
        near(trail.angle_at(5.0 + s), 2.0 * tangent.atan(), 1e-15);
    }
}

/// Front axle angle and drawbar angle after a chain, by the classical Runge-Kutta method on the
/// angles themselves.
fn by_steps(goes: &[Go], [wheelbase, hitch, drawbar]: [f64; 3]) -> [f64; 2] {
    let slope = |curvature: f64, [theta, gamma]: [f64; 2]| {
        let turn = theta.sin() / wheelbase;
        [
            curvature - turn,
            turn - (theta.cos() * gamma.sin() - hitch * turn * gamma.cos()) / drawbar,
        ]
    };
    let ahead = |x: [f64; 2], k: [f64; 2], h: f64| [x[0] + h * k[0], x[1] + h * k[1]];
    let mut x = [0.0, 0.0];
    for go in goes {
        let (length, curvature) = match *go {
            Go::Straight(length) => (length, 0.0),
            Go::Arc(radius, turn) => (radius * turn.abs(), turn.signum() / radius),
            Go::Corner(turn) => {
                x[0] += turn;
                continue;
            }
        };
        let steps = 20_000;
        let h = length / f64::from(steps);
        for _ in 0..steps {
            let a = slope(curvature, x);
            let b = slope(curvature, ahead(x, a, 0.5 * h));
            let c = slope(curvature, ahead(x, b, 0.5 * h));
            let d = slope(curvature, ahead(x, c, h));
            for i in 0..2 {
                x[i] += h / 6.0 * (a[i] + 2.0 * b[i] + 2.0 * c[i] + d[i]);
            }
        }
    }
    x
}

const WALKS: [&[Go]; 5] = [
    &[
        Go::Straight(2.0),
        Go::Arc(4.0, 1.3),
        Go::Straight(1.0),
        Go::Arc(3.0, -2.0),
        Go::Straight(0.7),
    ],
    &[Go::Arc(1.0, 3.0)],
    &[Go::Arc(1.7, 1.0), Go::Arc(1.7, -1.0), Go::Arc(1.7, 1.0)],
    &[
        Go::Straight(1.0),
        Go::Corner(0.9),
        Go::Straight(1.0),
        Go::Corner(-1.1),
        Go::Arc(20.0, 0.2),
    ],
    // Tighter than the wheelbase: it turns on and on, and never has no answer.
    &[Go::Arc(0.9, 5.0)],
];

#[test]
fn as_an_independent_stepping_has_it() {
    for goes in WALKS {
        let chain = chain(goes);
        let [theta, gamma] = by_steps(goes, [1.2, 0.4, 1.5]);
        let trail = Trail::new(&chain, 1.2).unwrap();
        let off = |a: f64, b: f64| (0.5 * (a - b)).sin().abs();
        assert!(
            off(trail.angle_at(chain.length()), theta) < 1e-11,
            "{goes:?}"
        );
        let towed = Towed::new(trail, 0.4, 1.5).unwrap();
        let gap = off(towed.angle_at(chain.length()), gamma);
        assert!(gap < 1e-6, "{goes:?} {gap}");
    }
}

#[test]
fn a_trailer_round_and_round_settles_at_the_sum_of_squares() {
    // Source: the off-tracking of the Society of Automotive Engineers, R − √(R² − ΣL²), a hitch behind
    // the axle counting against the rest; from memory.
    let goes = [Go::Arc(4.0, 6.0), Go::Arc(4.0, 6.0), Go::Arc(4.0, 6.0)];
    let chain = chain(&goes);
    let towed = Towed::new(Trail::new(&chain, 1.2).unwrap(), 0.5, 1.4).unwrap();
    let centre = Point::new(0.0, 4.0);
    let radius = towed.axle_at(chain.length()).distance(centre);
    near(radius, (16.0_f64 - 1.44 + 0.25 - 1.96).sqrt(), 1e-6);
    let hitch = towed.hitch_at(chain.length()).distance(centre);
    let Steady::Follows { radius: closed, .. } = steady(1.4, hitch) else {
        panic!()
    };
    near(closed, radius, 1e-6);
}

#[test]
fn a_trailer_on_a_straight_ends_aligned() {
    let chain = chain(&[Go::Arc(3.0, 1.5), Go::Straight(60.0)]);
    let towed = Towed::new(Trail::new(&chain, 1.2).unwrap(), 0.5, 1.4).unwrap();
    assert!(towed.angle_at(4.5).abs() > 0.1);
    near(towed.angle_at(chain.length()), 0.0, 1e-10);
    assert_eq!(towed.folds_at(), None);
}

#[test]
fn it_jackknifes_where_the_bend_is_tighter_than_the_bar() {
    assert_eq!(steady(1.2, 1.2), Steady::Folds);
    assert_eq!(steady(1.2, 0.3), Steady::Folds);
    assert_eq!(steady(f64::NAN, 1.0), Steady::Folds);
    for turn in [5.5, -5.5] {
        let round = chain(&[Go::Straight(3.0), Go::Arc(0.8, turn)]);
        let trail = Trail::new(&round, 1.2).unwrap();
        let folds = trail.folds_at().unwrap();
        near(trail.angle_at(folds).abs(), FRAC_PI_2, 1e-12);
        assert!(3.0 < folds && trail.angle_at(folds - 0.01).abs() < FRAC_PI_2);
        assert!(trail.rear_at(round.length()).is_finite());
    }
    // A short one is walked round before it folds.
    let short = chain(&[Go::Arc(0.8, 1.0), Go::Straight(5.0)]);
    assert_eq!(Trail::new(&short, 1.2).unwrap().folds_at(), None);
}

#[test]
fn what_has_no_length_stays_on_the_line_and_what_is_no_length_is_refused() {
    let chain = chain(WALKS[0]);
    let trail = Trail::new(&chain, 0.0).unwrap();
    near(trail.angle_at(3.0), 0.0, 0.0);
    assert!(trail.rear_at(3.0).distance(chain.point_at(3.0)) < 1e-15);
    assert_eq!(
        Trail::new(&chain, -1.0).unwrap_err(),
        TrailError::Length(-1.0)
    );
    assert!(Trail::new(&chain, f64::NAN).is_err());
    assert_eq!(
        Towed::new(trail, 0.0, 0.0).unwrap_err(),
        TrailError::Drawbar(0.0)
    );
}

#[test]
fn a_closed_chain_has_no_start() {
    // A round of four quarter circles and two straights: the second time round is as the first.
    let round = [
        Go::Arc(3.0, FRAC_PI_2),
        Go::Straight(2.0),
        Go::Arc(3.0, PI),
        Go::Straight(2.0),
        Go::Arc(3.0, FRAC_PI_2),
    ];
    let open = chain(&round);
    let closed = Chain::new(open.pieces().to_vec(), true).unwrap();
    let trail = Trail::new(&closed, 1.2).unwrap();
    near(trail.angle_at(0.0), trail.angle_at(closed.length()), 1e-6);
    near(trail.angle_at(0.0), 0.4_f64.asin(), 0.02);
}

#[test]
fn a_vehicle_sweeps_a_steady_bend_as_its_corners_say() {
    let chain = chain(&[Go::Arc(6.0, 6.0), Go::Arc(6.0, 6.0)]);
    let rig = Rig {
        width: 1.0,
        wheelbase: 1.2,
        front: 0.4,
        back: 0.3,
        trailer: None,
    };
    let [left, right] = Swept::new(&chain, rig).unwrap().widest();
    // Inside by the rear axle's side, outside by the front corner; on a left turn.
    let rear = (36.0_f64 - 1.44).sqrt();
    near(left.reach, 6.0 - (rear - 0.5), 1e-6);
    near(right.reach, (rear + 0.5).hypot(1.6) - 6.0, 1e-6);
}

#[test]
fn a_barrow_swings_its_handles_out() {
    // One wheel, kept on the line; the handles 1.3 m behind run outside.
    let chain = chain(&[Go::Arc(3.0, 4.0)]);
    let rig = Rig {
        width: 0.6,
        wheelbase: 0.0,
        front: 0.3,
        back: 1.3,
        trailer: None,
    };
    let [left, right] = Swept::new(&chain, rig).unwrap().widest();
    near(left.reach, 0.3, WIDEST_WITHIN);
    near(right.reach, 3.3_f64.hypot(1.3) - 3.0, WIDEST_WITHIN);
}

const MOWER: Rig = Rig {
    width: 1.0,
    wheelbase: 1.2,
    front: 0.4,
    back: 0.3,
    trailer: Some(Towing {
        hitch: 0.3,
        drawbar: 1.2,
        width: 0.9,
        front: 0.6,
        back: 0.6,
    }),
};

#[test]
fn the_widest_is_as_a_fine_comb_has_it() {
    for goes in &WALKS[..4] {
        let chain = chain(goes);
        let swept = Swept::new(&chain, MOWER).unwrap();
        let widest = swept.widest();
        let mut comb = [0.0_f64; 2];
        for i in 0..=20_000 {
            let reach = swept.reach_at(chain.length() * f64::from(i) / 20_000.0);
            comb = [comb[0].max(reach.left), comb[1].max(reach.right)];
        }
        for side in 0..2 {
            assert!(
                widest[side].reach >= comb[side] - WIDEST_WITHIN,
                "{goes:?}: {widest:?}, {comb:?}"
            );
        }
        let strip = swept.strip(0.1);
        for side in 0..2 {
            let drawn = strip
                .iter()
                .map(|r| [r.left, r.right][side])
                .fold(0.0, f64::max);
            assert!(
                (drawn - widest[side].reach).abs() < 0.02,
                "{goes:?}: {drawn} {widest:?}"
            );
        }
    }
}

#[test]
fn a_vehicle_on_a_straight_needs_its_own_width() {
    let chain = chain(&[Go::Straight(12.0)]);
    for widest in Swept::new(&chain, MOWER).unwrap().widest() {
        near(widest.reach, 0.5, 1e-12);
    }
}

fn any_go() -> impl Strategy<Value = Go> {
    prop_oneof![
        (0.05..8.0).prop_map(Go::Straight),
        (0.3..20.0, -3.0..3.0_f64)
            .prop_map(|(r, t): (f64, f64)| Go::Arc(r, t.abs().max(0.02).copysign(t))),
        (-2.0..2.0).prop_map(Go::Corner),
    ]
}

/// Such a walk, with something to walk on.
fn walk() -> impl Strategy<Value = Vec<Go>> {
    proptest::collection::vec(any_go(), 1..7).prop_map(|mut goes| {
        goes.push(Go::Straight(1.0));
        goes
    })
}

fn mirrored(goes: &[Go]) -> Vec<Go> {
    let mirror = |go: &Go| match *go {
        Go::Straight(length) => Go::Straight(length),
        Go::Arc(radius, turn) => Go::Arc(radius, -turn),
        Go::Corner(turn) => Go::Corner(-turn),
    };
    goes.iter().map(mirror).collect()
}

fn turned_angle(a: f64, b: f64) -> f64 {
    (0.5 * (a - b)).sin().abs()
}

proptest! {
    #[test]
    fn left_and_right_are_mirror_images(goes in walk(), share in 0.0..1.0_f64) {
        let (here, there) = (chain(&goes), chain(&mirrored(&goes)));
        let station = share * here.length();
        let towed = |chain| Towed::new(Trail::new(chain, 1.1).unwrap(), 0.3, 1.4).unwrap();
        let (a, b) = (towed(&here), towed(&there));
        prop_assert!(turned_angle(a.front().angle_at(station), -b.front().angle_at(station)) < 1e-9);
        prop_assert!(turned_angle(a.angle_at(station), -b.angle_at(station)) < 1e-9);
    }

    /// Cutting a chain into more pieces changes nothing: it is solved, not stepped.
    #[test]
    fn more_joints_change_nothing(goes in walk(), share in 0.01..0.99_f64) {
        let whole = chain(&goes);
        let cut: Vec<Piece> = whole.pieces().iter().flat_map(|piece| {
            let at = share * piece.length();
            [piece.between(0.0, at).unwrap(), piece.between(at, piece.length()).unwrap()]
        }).collect();
        let cut = Chain::new(cut, false).unwrap();
        let end = |chain: &Chain| Trail::new(chain, 1.3).unwrap().angle_at(chain.length());
        prop_assert!(turned_angle(end(&whole), end(&cut)) < 1e-9);
    }

    /// The rear end moves along the bar, never sideways, and stays a bar's length behind.
    #[test]
    fn the_rear_end_moves_along_the_bar(goes in walk(), share in 0.01..0.99_f64) {
        let chain = chain(&goes);
        let trail = Trail::new(&chain, 0.9).unwrap();
        let (station, h) = (share * chain.length(), 1e-5);
        prop_assume!((0..chain.pieces().len()).all(|i| (chain.station_of(i) - station).abs() > 2.0 * h));
        let (before, after) = (trail.rear_at(station - h), trail.rear_at(station + h));
        let sideways: Vector = trail.direction_at(station).left().unit();
        prop_assert!((after - before).dot(sideways).abs() < 1e-9);
        prop_assert!((trail.rear_at(station).distance(chain.point_at(station)) - 0.9).abs() < 1e-9);
    }

    #[test]
    fn nothing_is_ever_not_a_number(goes in walk(), lengths in proptest::array::uniform3(0.0..12.0_f64)) {
        let chain = chain(&goes);
        let towing = Towing { hitch: lengths[1], drawbar: 0.1 + lengths[2], ..MOWER.trailer.unwrap() };
        let rig = Rig { wheelbase: lengths[0], trailer: Some(towing), ..MOWER };
        let swept = Swept::new(&chain, rig).unwrap();
        for widest in swept.widest() {
            prop_assert!(widest.reach.is_finite() && widest.reach >= 0.0);
            prop_assert!(0.0 <= widest.station && widest.station <= chain.length());
        }
    }
}

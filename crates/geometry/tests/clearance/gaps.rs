//! What holds for the least distance between any two pieces and any two chains.

use geometry::{Piece, Point, Vector, meetings};
use proptest::prelude::*;

use super::making::{chain, cornered, moved, piece, place, samples};

/// Straights and bends, from very flat to nearly round.
fn pieces() -> impl Strategy<Value = Piece> {
    let bow = prop_oneof![
        Just(0.0),
        -2.0..2.0_f64,
        (-11.0..0.0_f64, any::<bool>())
            .prop_map(|(power, left)| 10.0_f64.powf(power) * if left { 1.0 } else { -1.0 }),
    ];
    let coordinate = || -10.0..10.0_f64;
    (coordinate(), coordinate(), coordinate(), coordinate(), bow).prop_filter_map(
        "no piece",
        |(x, y, z, w, bow)| {
            let (from, to) = (Point::new(x, y), Point::new(z, w));
            let chord = from.distance(to);
            (chord > 0.1)
                .then(|| piece(from, to, bow * chord))
                .flatten()
        },
    )
}

fn ends(piece: &Piece) -> [Point; 2] {
    [piece.start(), piece.end()]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn either_way_and_to_points_on_the_pieces(a in pieces(), b in pieces()) {
        let (gap, back) = (a.gap(&b), b.gap(&a));
        prop_assert!((gap.distance - back.distance).abs() < 1e-9, "{gap:?} {back:?}");
        prop_assert!((gap.distance - gap.from.distance(gap.to)).abs() < 1e-9);
        prop_assert!(a.nearest(gap.from).1.distance(gap.from) < 1e-9);
        prop_assert!(b.nearest(gap.to).1.distance(gap.to) < 1e-9);
        for (one, other) in ends(&a).into_iter().flat_map(|p| ends(&b).map(|q| (p, q))) {
            prop_assert!(gap.distance <= one.distance(other) + 1e-12);
        }
    }

    #[test]
    fn no_sample_is_nearer_and_some_are_nearly_as_near(a in pieces(), b in pieces()) {
        const COUNT: u32 = 64;
        let gap = a.gap(&b).distance;
        let least = samples(&a, COUNT).into_iter().map(|p| b.nearest(p).1.distance(p)).fold(f64::INFINITY, f64::min);
        prop_assert!(gap <= least + 1e-9, "{gap} {least}");
        // A distance changes by a metre a metre at most, and some sample is within half a step.
        let step = a.length() / f64::from(COUNT);
        prop_assert!(least <= gap + 0.5 * step + 1e-9, "{gap} {least}");
        // About the nearest place, in steps a thousand times as fine.
        let along = a.along(a.gap(&b).from).clamp(0.0, a.length());
        for i in -50..50_i32 {
            let p = a.point_at((along + f64::from(i) * step / 1000.0).clamp(0.0, a.length()));
            prop_assert!(gap <= b.nearest(p).1.distance(p) + 1e-9);
        }
    }

    #[test]
    fn nothing_between_them_where_they_meet_and_only_there(a in pieces(), b in pieces()) {
        let gap = a.gap(&b).distance;
        if !meetings(&a, &b, 0.0).is_empty() {
            prop_assert!(gap < 1e-9, "{gap}");
        }
        if gap <= 0.0 {
            prop_assert!(!meetings(&a, &b, 1e-7).is_empty());
        }
    }

    #[test]
    fn turned_moved_and_enlarged(a in pieces(), b in pieces(), turn in -3.2..3.2_f64, x in -1e3..1e3_f64, y in -1e3..1e3_f64, scale in 0.1..20.0_f64) {
        let by = Vector::new(x, y);
        let there = |piece: &Piece| moved(&chain(vec![*piece], false), turn, by, scale).pieces()[0];
        let (gap, then) = (a.gap(&b), there(&a).gap(&there(&b)));
        prop_assert!((then.distance - scale * gap.distance).abs() < 1e-8, "{gap:?} {then:?}");
        // Where there is one nearest place it goes along; where there are several, any will do.
        let off = place(gap.from, turn, by, scale);
        let to = there(&b).nearest(off).1;
        prop_assert!((off.distance(to) - then.distance).abs() < 1e-8);
    }

    #[test]
    fn no_jump_where_a_bend_becomes_straight(from in pieces(), b in pieces(), bow in 1.0..3.0_f64) {
        let (start, end) = (from.start(), from.end());
        let straight = piece(start, end, 0.0).unwrap();
        let (chord, meant) = (start.distance(end), straight.gap(&b).distance);
        for power in 3..13 {
            for side in [bow, -bow] {
                let rise = side * chord * 10.0_f64.powi(-power);
                let bent = piece(start, end, rise).unwrap();
                let gap = bent.gap(&b).distance;
                prop_assert!((gap - meant).abs() <= rise.abs() + 1e-9, "rise {rise}: {gap} {meant}");
            }
        }
    }

    #[test]
    fn chains_are_as_far_apart_as_their_nearest_pieces(a in cornered(2..12), b in cornered(2..12), x in -30.0..30.0_f64) {
        let b = moved(&b, 0.0, Vector::new(x, 3.0), 1.0);
        let gap = a.gap(&b);
        let least = a.pieces().iter().flat_map(|p| b.pieces().iter().map(|q| p.gap(q).distance)).fold(f64::INFINITY, f64::min);
        prop_assert!((gap.distance - least).abs() < 1e-12, "{gap:?} {least}");
        prop_assert!(a.point_at(gap.from_station).distance(gap.from) < 1e-9);
        prop_assert!(b.point_at(gap.to_station).distance(gap.to) < 1e-9);
        prop_assert!(a.pieces()[gap.from_piece].nearest(gap.from).1.distance(gap.from) < 1e-9);
        prop_assert!(b.pieces()[gap.to_piece].nearest(gap.to).1.distance(gap.to) < 1e-9);
    }
}

#[test]
fn flat_bends_side_by_side() {
    // Two bends of radius 1.25e9 m over a chord of 1 km, the second moved off by 1 mm and by 2 m:
    // closed form, since at the apex they are as far apart as they were moved.
    for off in [1e-3, 2.0] {
        let at = |y: f64| piece(Point::new(0.0, y), Point::new(1000.0, y), 1e-4).unwrap();
        let gap = at(0.0).gap(&at(off));
        assert!((gap.distance - off).abs() < 1e-12, "{gap:?}");
        // Bent towards each other they are nearer by both rises.
        let towards = piece(Point::new(0.0, off), Point::new(1000.0, off), -1e-4).unwrap();
        let gap = at(0.0).gap(&towards);
        assert!((gap.distance - (off - 2e-4)).abs() < 1e-12, "{gap:?}");
        assert!((gap.from.x - 500.0).abs() < 1e-3);
    }
}

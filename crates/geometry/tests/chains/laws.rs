//! What holds for every chain.

use geometry::{Arc, Chain, Piece, Point, Vector};
use proptest::prelude::*;

use super::making::{cornered, moved, piece, place, samples, smooth};

/// The largest distance between a piece and its chords, cut into so many.
fn sagitta(piece: &Piece, count: u32) -> f64 {
    piece.arc().map_or(0.0, |arc| {
        arc.radius() * (1.0 - (0.5 * arc.sweep() / f64::from(count)).cos())
    })
}

fn all_samples(chain: &Chain, count: u32) -> Vec<Point> {
    chain
        .pieces()
        .iter()
        .flat_map(|piece| samples(piece, count))
        .collect()
}

proptest! {
    #[test]
    fn offset_out_and_back_is_the_chain_again(chain in smooth(), distance in -2.9..2.9_f64) {
        prop_assume!(distance.abs() > 1e-3);
        let out = chain.offset(distance);
        prop_assert!(out.troubles.is_empty(), "{:?}", out.troubles);
        let out = out.chain.unwrap();
        // The foreman's check: the lengths differ by the offset times the angle turned.
        prop_assert!((chain.length() - out.length() - distance * chain.turned()).abs() < 1e-9);
        let back = out.offset(-distance).chain.unwrap();
        prop_assert_eq!(back.pieces().len(), chain.pieces().len());
        for (found, meant) in back.pieces().iter().zip(chain.pieces()) {
            prop_assert!(found.start().distance(meant.start()) < 1e-9);
            prop_assert!(found.end().distance(meant.end()) < 1e-9);
            prop_assert!((found.length() - meant.length()).abs() < 1e-9);
        }
        // Every point of the edge is as far from the path as was asked, unless another part of
        // the path comes nearer.
        for point in all_samples(&out, 7) {
            prop_assert!(chain.nearest(point).distance <= distance.abs() + 1e-9);
        }
    }

    #[test]
    fn the_offset_of_a_corner_is_off_by_the_distance_too(chain in cornered(3..4), distance in 0.01..0.2_f64) {
        for side in [distance, -distance] {
            let edge = chain.offset(side);
            if !edge.troubles.is_empty() || !chain.self_crossings().is_empty() {
                continue;
            }
            for piece in edge.chain.iter().flat_map(Chain::pieces) {
                let middle = piece.point_at(0.5 * piece.length());
                let off = chain.nearest(middle).distance;
                // At most so far as a mitre reaches, and never nearer.
                prop_assert!(off <= 4.2 * distance, "{off} for {distance}");
                if let Piece::Arc(arc) = piece {
                    // Where legs all but run on smoothly an edge is led to its neighbour's end, a micrometre away
                    // at most, and that turns it about its other end.
                    let own = |p: &Piece| p.arc().is_some_and(|a| a.centre().distance(arc.centre()) < 1e-5);
                    prop_assert!(chain.pieces().iter().any(own), "arcs keep their swing point");
                }
            }
        }
    }

    #[test]
    fn walked_the_other_way(chain in cornered(3..8), share in 0.0..1.0_f64) {
        let back = chain.reversed();
        let again = back.reversed();
        prop_assert_eq!(again.pieces(), chain.pieces());
        for i in 0..=chain.pieces().len() {
            prop_assert!((again.station_of(i) - chain.station_of(i)).abs() < 1e-12 * chain.length());
        }
        let at = share * chain.length();
        prop_assert!(back.point_at(chain.length() - at).distance(chain.point_at(at)) < 1e-9);
        prop_assert!((back.enclosed_area() + chain.enclosed_area()).abs() < 1e-9);
        let turned = (back.turned() + chain.turned()).rem_euclid(std::f64::consts::TAU);
        prop_assert!(turned.min(std::f64::consts::TAU - turned) < 1e-6);
    }

    #[test]
    fn a_station_is_found_again_from_its_point(chain in cornered(2..8), share in 0.0..1.0_f64) {
        let station = share * chain.length();
        let point = chain.point_at(station);
        let found = chain.nearest(point);
        prop_assert!(found.distance < 1e-9);
        prop_assert!(chain.point_at(found.station).distance(point) < 1e-9);
        // It is the same station unless the chain comes by here twice.
        let again = (found.station - station).abs() > 1e-6;
        prop_assert!(!again || found.station < station);
        let (piece, along) = chain.piece_at(station);
        prop_assert!(chain.pieces()[piece].point_at(along).distance(point) < 1e-12);
    }

    #[test]
    fn the_nearest_point_is_nearer_than_any_other(
        chain in cornered(2..7), from in (-15.0..15.0_f64, -15.0..15.0_f64),
    ) {
        let from = Point::new(from.0, from.1);
        let found = chain.nearest(from);
        prop_assert!((found.point.distance(from) - found.distance).abs() < 1e-12);
        let sampled = all_samples(&chain, 400);
        let nearest = sampled.iter().map(|p| p.distance(from)).fold(f64::INFINITY, f64::min);
        prop_assert!(found.distance <= nearest + 1e-9);
        let step = chain.pieces().iter().map(|p| p.length() / 400.0).fold(0.0, f64::max);
        prop_assert!(nearest <= found.distance + step);
    }

    #[test]
    fn left_of_a_closed_chain_is_inside(
        radii in prop::collection::vec(2.0..9.0_f64, 5..9),
        from in (-10.0..10.0_f64, -10.0..10.0_f64),
        bows in prop::collection::vec(-0.2..0.2_f64, 9),
    ) {
        // A star of straights and gentle bends, walked to the left about the origin.
        let count = u32::try_from(radii.len()).unwrap();
        let corner = |i: usize| {
            let angle = std::f64::consts::TAU * f64::from(u32::try_from(i).unwrap()) / f64::from(count);
            Point::new(radii[i] * angle.cos(), radii[i] * angle.sin())
        };
        let pieces: Option<Vec<Piece>> = (0..radii.len())
            .map(|i| {
                let (a, b) = (corner(i), corner((i + 1) % radii.len()));
                piece(a, b, bows[i] * a.distance(b))
            })
            .collect();
        let star = Chain::new(pieces.unwrap(), true).unwrap();
        let from = Point::new(from.0, from.1);
        let found = star.nearest(from);
        if found.distance < 0.01 || !star.self_crossings().is_empty() {
            return Ok(());
        }
        // Turned about by the walker: once if he stands inside.
        let ring = all_samples(&star, 200);
        let turned: f64 = ring
            .windows(2)
            .map(|p| (p[0] - from).cross(p[1] - from).atan2((p[0] - from).dot(p[1] - from)))
            .sum();
        prop_assert_eq!(found.left, turned > 3.0, "{} {:?}", turned, found);
    }

    #[test]
    fn lengths_add_up(chain in cornered(2..8), share in 0.0..1.0_f64) {
        let total: f64 = chain.pieces().iter().map(Piece::length).sum();
        prop_assert!((chain.length() - total).abs() < 1e-9);
        for piece in chain.pieces() {
            let cut = share * piece.length();
            let (one, other) = (piece.between(0.0, cut), piece.between(cut, piece.length()));
            let length = |part: Option<Piece>| part.map_or(0.0, |part| part.length());
            prop_assert!((length(one) + length(other) - piece.length()).abs() < 1e-9);
            // Never shorter than its sampled chords, and longer by no more than the sagitta says.
            let sampled: f64 = samples(piece, 300).windows(2).map(|p| p[0].distance(p[1])).sum();
            prop_assert!(piece.length() >= sampled - 1e-9);
            prop_assert!(piece.length() - sampled <= 1e-4 * piece.length());
        }
    }

    #[test]
    fn the_box_holds_it_and_no_more(chain in cornered(2..7)) {
        let bounds = chain.bounds();
        let sampled = all_samples(&chain, 500);
        let slack = chain.pieces().iter().map(|p| sagitta(p, 500)).fold(1e-9, f64::max);
        let far = |of: fn(&Point) -> f64| sampled.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        for (edge, reached) in [
            (bounds.high.x, far(|p| p.x)),
            (bounds.high.y, far(|p| p.y)),
            (-bounds.low.x, far(|p| -p.x)),
            (-bounds.low.y, far(|p| -p.y)),
        ] {
            prop_assert!(reached <= edge + 1e-9, "{reached} outside {edge}");
            prop_assert!(edge <= reached + slack, "{edge} beyond {reached}");
        }
    }

    #[test]
    fn the_area_is_that_of_a_fine_polygon(chain in cornered(3..8)) {
        let ring = all_samples(&chain, 500);
        let closing = ring.last().zip(ring.first());
        let polygon: f64 = ring
            .windows(2)
            .map(|p| (p[0], p[1]))
            .chain(closing.map(|(a, b)| (*a, *b)))
            .map(|(a, b)| 0.5 * (a - Point::ORIGIN).cross(b - Point::ORIGIN))
            .sum();
        // What lies between an arc and its chords: less than sagitta times length.
        let slack: f64 = chain.pieces().iter().map(|p| sagitta(p, 500) * p.length()).sum();
        prop_assert!((chain.enclosed_area() - polygon).abs() <= slack + 1e-9);
    }

    #[test]
    fn turned_moved_and_enlarged(
        chain in cornered(3..7), turn in -3.0..3.0_f64,
        by in (-900.0..900.0_f64, -900.0..900.0_f64), scale in 0.01..100.0_f64,
        from in (-15.0..15.0_f64, -15.0..15.0_f64), off in -0.4..0.4_f64,
    ) {
        let by = Vector::new(by.0, by.1);
        let other = moved(&chain, turn, by, scale);
        let close = |a: f64, b: f64, what: &str| {
            prop_assert!((a - b).abs() <= 1e-9 * b.abs().max(1.0), "{what}: {a} for {b}");
            Ok(())
        };
        close(other.length() / scale, chain.length(), "length")?;
        close(other.enclosed_area() / scale / scale, chain.enclosed_area(), "area")?;
        let from = Point::new(from.0, from.1);
        let there = place(from, turn, by, scale);
        close(other.nearest(there).distance / scale, chain.nearest(from).distance, "distance")?;
        let shared = |crossings: usize, of: &Chain| (crossings, of.pieces().len());
        prop_assert_eq!(
            shared(other.self_crossings().len(), &other),
            shared(chain.self_crossings().len(), &chain)
        );
        let (edge, moved_edge) = (chain.offset(off), other.offset(off * scale));
        prop_assert_eq!(edge.troubles.len(), moved_edge.troubles.len());
        if edge.troubles.is_empty() {
            let length = |chain: &Option<Chain>| chain.as_ref().map_or(0.0, Chain::length);
            let (a, b) = (length(&moved_edge.chain) / scale, length(&edge.chain));
            prop_assert!((a - b).abs() < 1e-6, "{a} for {b}");
        }
    }

    /// From arcs no eye can tell from straights to nearly whole circles.
    #[test]
    fn arcs_from_flat_to_full(
        exponent in -9.0..1.5_f64, left: bool, chord_exponent in -2.0..4.0_f64,
        shares in (0.0..1.0_f64, 0.0..1.0_f64), angle in -3.0..3.0_f64,
    ) {
        let chord = 10f64.powf(chord_exponent);
        let rise = chord * 10f64.powf(exponent);
        let end = Point::new(chord * angle.cos(), chord * angle.sin());
        let arc = Arc::from_rise(Point::ORIGIN, end, if left { -rise } else { rise }).unwrap();
        let size = arc.length();
        let (low, high) = (shares.0.min(shares.1) * size, shares.0.max(shares.1) * size);
        prop_assert!(arc.point_at(0.0).distance(Point::ORIGIN) < 1e-14 * size);
        prop_assert!(arc.point_at(size).distance(end) < 1e-13 * size);
        prop_assert!(arc.point_at(0.5 * size).distance(arc.apex()) < 1e-13 * size);
        for along in [low, high] {
            let point = arc.point_at(along);
            prop_assert!((arc.along(point) - along).abs() < 1e-12 * size, "{} {along}", arc.along(point));
            prop_assert!(arc.outside(point).abs() < 1e-13 * size);
            // One step along is one step in the direction walked.
            let step = 1e-6 * size;
            let ahead = arc.point_at(along + 0.5 * step) - arc.point_at(along - 0.5 * step);
            prop_assert!((ahead - arc.direction_at(along).unit() * step).length() < 1e-9 * size);
        }
        prop_assume!(high - low > 1e-6 * size);
        let part = arc.between(low, high).unwrap();
        prop_assert!((part.length() - (high - low)).abs() < 1e-12 * size);
        prop_assert!((part.radius() / arc.radius() - 1.0).abs() < 1e-6 / (high - low) * size * 1e-3);
        prop_assert_eq!(part.turns_left(), left);
        // The offset lies square off every point.
        let off = 0.3 * arc.radius().min(size);
        for side in [off, -off] {
            if let Some(edge) = arc.offset(side) {
                let share = low / size;
                let square = arc.point_at(low) + arc.direction_at(low).left().unit() * side;
                prop_assert!(edge.point_at(share * edge.length()).distance(square) < 1e-12 * size);
            }
        }
    }
}

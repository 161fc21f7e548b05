//! Every figure and every pair of figures against values computed to 60 digits (data/make_bends.py).

use geometry::{Bend, Figure, bends_from};

/// Relative error allowed of a figure, and of an answer whose givens are not magnified more.
const TOLERANCE: f64 = 1e-12;
/// Rounding allowed for each unit of magnification: the givens' own (up to 1.1e-16 each, as the
/// table holds them rounded) and about one rounding of ours.
const ROUNDING: f64 = 4e-16;

struct Row {
    bend: Bend,
    figures: Vec<Option<f64>>,
    area: f64,
    magnified: Vec<f64>, // pair by pair; NaN where the bend lacks one of the two
}

fn rows() -> Vec<Row> {
    include_str!("data/bends.txt")
        .lines()
        .filter(|line| !line.starts_with('#'))
        .map(|line| {
            let numbers: Vec<Option<f64>> = line.split(' ').map(|word| word.parse().ok()).collect();
            let figures = numbers[..8].to_vec();
            Row {
                bend: Bend::from_chord_and_rise(
                    figures[0].expect("a chord"),
                    figures[1].expect("a rise"),
                )
                .expect("a bend"),
                figures,
                area: numbers[8].expect("an area"),
                magnified: numbers[9..]
                    .iter()
                    .map(|number| number.unwrap_or(f64::NAN))
                    .collect(),
            }
        })
        .collect()
}

/// Relative, but for a figure that is zero.
fn error(found: f64, expected: f64) -> f64 {
    let off = (found - expected).abs();
    if off > 0.0 { off / expected.abs() } else { off }
}

#[test]
fn figures_hold_twelve_digits() {
    assert_eq!(rows().len(), 141);
    for row in rows() {
        for (figure, &expected) in Figure::ALL.into_iter().zip(&row.figures) {
            let found = row.bend.figure(figure);
            assert_eq!(
                found.is_some(),
                expected.is_some(),
                "{figure} of {:?}",
                row.bend
            );
            if let (Some(found), Some(expected)) = (found, expected) {
                assert!(
                    error(found, expected) <= TOLERANCE,
                    "{figure} of {:?}: {found:e}",
                    row.bend
                );
            }
        }
        assert!(
            error(row.bend.segment_area(), row.area) <= TOLERANCE,
            "area of {:?}",
            row.bend
        );
    }
}

#[test]
fn every_pair_gives_the_bend_back() {
    let mut tried = 0;
    for row in rows() {
        let pairs = Figure::ALL
            .into_iter()
            .enumerate()
            .flat_map(|(i, a)| Figure::ALL.into_iter().skip(i + 1).map(move |b| (a, b)));
        for ((a, b), &magnified) in pairs.zip(&row.magnified) {
            let of = |figure| {
                let at = Figure::ALL
                    .iter()
                    .position(|&each| each == figure)
                    .expect("one of all");
                row.figures[at]
            };
            let (Some(first), Some(second)) = (of(a), of(b)) else {
                continue;
            };
            let allowed = TOLERANCE.max(magnified * ROUNDING);
            if allowed.is_nan() || allowed >= 0.01 {
                continue; // the rounded givens do not hold the bend any more
            }
            let answers = bends_from((a, first), (b, second))
                .unwrap_or_else(|error| panic!("{a}, {b} of {:?}: {error}", row.bend));
            let off = answers
                .iter()
                .map(|answer| {
                    error(answer.bend.chord(), row.bend.chord())
                        .max(error(answer.bend.rise(), row.bend.rise()))
                        .max(error(answer.bend.radius(), row.bend.radius()))
                })
                .fold(f64::INFINITY, f64::min);
            assert!(
                off <= allowed,
                "{a}, {b} of {:?}: {off:e}, allowed {allowed:e}",
                row.bend
            );
            tried += 1;
        }
    }
    assert!(tried > 2800, "{tried} pairs tried");
}

#[test]
fn digits_lost_are_those_of_the_table() {
    // The table's magnification is that of chord, rise or radius, whichever is worst; the answer
    // speaks of the radius alone, so it may claim more digits but never fewer.
    for row in rows() {
        let find = |a: Figure, b: Figure| {
            let (first, second) = (row.bend.figure(a)?, row.bend.figure(b)?);
            let answers = bends_from((a, first), (b, second)).ok()?;
            answers.into_iter().min_by(|x, y| {
                let off = |bend: Bend| error(bend.rise(), row.bend.rise());
                off(x.bend).total_cmp(&off(y.bend))
            })
        };
        // column 2 is chord and arc length, column 12 rise and external distance
        for (a, b, column) in [
            (Figure::Chord, Figure::ArcLength, 2),
            (Figure::Rise, Figure::ExternalDistance, 12),
        ] {
            let magnified = row.magnified[column];
            // sensible only where the bend itself still comes back well enough
            if magnified.is_nan() || magnified >= 1e10 {
                continue;
            }
            let answer = find(a, b).expect("an answer");
            let lost = 15.9 - answer.digits;
            assert!(
                lost <= magnified.log10() + 0.01,
                "{a}, {b} of {:?}: {lost}",
                row.bend
            );
            if magnified > 100.0 && row.bend.rise() < 0.3 * row.bend.chord() {
                assert!(
                    lost > magnified.log10() - 1.0,
                    "{a}, {b} of {:?}: {lost}",
                    row.bend
                );
                assert!(answer.is_ill_conditioned());
            }
        }
    }
}

//! What holds for every length and every text, over the whole range.

use super::{FEET, METRIC, ruler};
use plan::units::{Graduation, Ruler, angle_text, degrees_minutes, parse_angle, parse_length};
use proptest::prelude::*;

/// Lengths of a plan, many of them small and many on or near a division or its half.
fn length() -> impl Strategy<Value = f64> {
    let halves = (
        0..Graduation::ALL.len(),
        -1_000_000_i32..1_000_000,
        -2e-9..2e-9_f64,
    )
        .prop_map(|(which, halves, off)| {
            Graduation::ALL
                .get(which)
                .map_or(0.0, |it| it.metres() * f64::from(halves) / 2.0 + off)
        });
    prop_oneof![-100_000.0..100_000.0, -20.0..20.0, -0.01..0.01, halves]
}

fn graduation() -> impl Strategy<Value = Graduation> {
    prop::sample::select(Graduation::ALL.to_vec())
}

/// Text made of what lengths are made of, so that deep places are reached, or of anything at all.
fn typed() -> impl Strategy<Value = String> {
    let pieces = prop::sample::select(vec![
        "0",
        "7",
        "12",
        "2300",
        "½",
        "1/2",
        "6 1/2",
        "/",
        "⁄",
        "'",
        "\"",
        "′",
        "″",
        "''",
        "m",
        "cm",
        "mm",
        "ft",
        "in",
        "yd",
        "and",
        "-",
        "−",
        "+",
        ",",
        ".",
        " ",
        "\u{a0}",
        "°",
        "deg",
        "rad",
        "e",
        "9999999999",
    ]);
    prop_oneof![
        any::<String>(),
        prop::collection::vec(any::<char>(), 0..200).prop_map(String::from_iter),
        prop::collection::vec(pieces, 0..12).prop_map(|pieces| pieces.concat()),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn a_rounded_length_is_a_near_multiple(graduation in graduation(), length in length()) {
        let rounded = graduation.round(length);
        let step = graduation.metres();
        prop_assert!((rounded - length).abs() <= step / 2.0 + 2e-9);
        prop_assert_eq!(graduation.round(rounded).to_bits(), rounded.to_bits());
        let multiple = graduation.steps(length) as f64 * step;
        prop_assert!((multiple - rounded).abs() <= 1e-10);
        let mirrored = graduation.round(-length);
        prop_assert!(mirrored.to_bits() == (0.0 - rounded).to_bits());
    }

    #[test]
    fn printed_lengths_read_back_rounded(graduation in graduation(), length in length()) {
        let ruler = ruler(graduation);
        let rounded = ruler.round(length);
        for text in [ruler.text(length), ruler.plain(length), ruler.bare(length)] {
            prop_assert_eq!(ruler.parse(&text).map(f64::to_bits), Ok(rounded.to_bits()), "{}", text);
        }
        // the text with its unit reads the same in the other system too
        let other = Ruler::new(ruler.units.other());
        let text = ruler.text(length);
        prop_assert_eq!(other.parse(&text).map(f64::to_bits), Ok(rounded.to_bits()), "{}", text);
        let exact = ruler.parse(&ruler.exact(length));
        prop_assert!(exact.is_ok_and(|exact| (exact - length).abs() <= 0.000_051));
    }

    #[test]
    fn plain_text_is_ascii(graduation in graduation(), length in any::<f64>()) {
        prop_assert!(ruler(graduation).plain(length).is_ascii());
    }

    #[test]
    fn writing_takes_any_number(graduation in graduation(), length in any::<f64>(), text in typed()) {
        let ruler = ruler(graduation);
        let texts = [
            ruler.text(length), ruler.plain(length), ruler.bare(length), ruler.exact(length),
            ruler.both(length), ruler.area(length), ruler.echo(length, &text), angle_text(length),
            degrees_minutes(length),
        ];
        for text in texts {
            prop_assert!(!text.is_empty());
        }
    }

    #[test]
    fn any_text_is_read_or_refused(text in typed()) {
        for read in [parse_length(&text, METRIC), parse_length(&text, FEET), parse_angle(&text)] {
            match read {
                Ok(figure) => {
                    prop_assert!(figure.is_finite());
                    prop_assert!(figure != 0.0 || figure.is_sign_positive());
                }
                Err(error) => {
                    let characters = error.text.chars().count();
                    prop_assert!(error.at <= error.until && error.until <= characters);
                    prop_assert!(characters <= 65);
                    prop_assert!(!error.to_string().is_empty());
                }
            }
        }
    }

    #[test]
    fn printed_angles_read_back(angle in -20.0..20.0_f64) {
        let hundredth = 0.01 * std::f64::consts::PI / 180.0;
        let read = parse_angle(&angle_text(angle));
        prop_assert!(read.is_ok_and(|read| (read - angle).abs() <= hundredth / 2.0 + 1e-9));
        let minute = std::f64::consts::PI / 180.0 / 60.0;
        let read = parse_angle(&degrees_minutes(angle));
        prop_assert!(read.is_ok_and(|read| (read - angle).abs() <= minute / 2.0 + 1e-9));
    }
}

//! Typed and printed lengths and angles: tables of what people write, and laws over the whole range.

#![expect(clippy::unwrap_used, reason = "the helpers of these tests fail by it")]

mod angles;
mod definitions;
mod laws;
mod reading_feet_and_inches;
mod reading_metric;
mod refusing;
mod rounding;
mod writing;

use plan::units::{Graduation, Ruler, Units};

const METRIC: Units = Units::Metric;
const FEET: Units = Units::FeetInches;

fn ruler(graduation: Graduation) -> Ruler {
    Ruler {
        units: graduation.units(),
        graduation,
    }
}

/// Lengths are compared bit by bit: reading gives the number nearest to what is written.
#[track_caller]
fn same(actual: f64, expected: f64, of: &str) {
    assert_eq!(
        actual.to_bits(),
        expected.to_bits(),
        "{of}: {actual} for {expected}"
    );
}

#[test]
fn names_in_files() {
    let units: Vec<String> = Units::ALL
        .iter()
        .map(|it| serde_json::to_string(it).unwrap())
        .collect();
    assert_eq!(units, ["\"Metric\"", "\"FeetInches\""]);
    let names = [
        "SixteenthInch",
        "EighthInch",
        "QuarterInch",
        "HalfInch",
        "Inch",
        "HundredthFoot",
        "TenthFoot",
        "Millimetre",
        "TwoMillimetres",
        "FiveMillimetres",
        "TenMillimetres",
    ];
    for (graduation, name) in Graduation::ALL.into_iter().zip(names) {
        let stored = serde_json::to_string(&graduation).unwrap();
        assert_eq!(stored, format!("\"{name}\""));
        assert_eq!(
            serde_json::from_str::<Graduation>(&stored).unwrap(),
            graduation
        );
    }
    let both: Vec<Graduation> = [FEET, METRIC]
        .into_iter()
        .flat_map(|units| Graduation::for_units(units).to_vec())
        .collect();
    assert_eq!(both, Graduation::ALL);
    for units in Units::ALL {
        assert_eq!(Graduation::default_for(units).units(), units);
    }
}

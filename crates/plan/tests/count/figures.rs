//! The figures a build-up assumes: all of them there, each changed alone, and read as they are written.

use plan::count::build_up::Source;
use plan::count::{BuildUp, built_in, write_build_up};
use plan::units::{FigureError, Kind, Ruler, Units};

/// How many figures are written in the file of a build-up: each has one value.
fn written(build_up: &BuildUp) -> usize {
    write_build_up(build_up).matches("value:").count()
}

#[test]
fn every_figure_of_a_file_is_shown() {
    for build_up in built_in() {
        let shown = build_up.clone().figures().len();
        assert_eq!(shown, written(build_up), "{}", build_up.name);
    }
}

#[test]
fn one_figure_changes_alone_and_is_then_ones_own() {
    for build_up in built_in() {
        let mut before = build_up.clone();
        for place in 0..before.figures().len() {
            let mut after = build_up.with_figure(place, 0.125).unwrap();
            assert_eq!(after.figures()[place].assumed.value, 0.125);
            assert_eq!(after.figures()[place].assumed.source, Source::Own);
            let kept = before.figures()[place].assumed.clone();
            *after.figures()[place].assumed = kept;
            assert_eq!(after, before);
        }
        assert_eq!(build_up.with_figure(written(build_up), 1.0), None);
    }
}

/// Five digits are written, so that what is read back is within half of the last.
const READ_BACK: f64 = 1e-4;

#[test]
fn figures_are_read_as_they_are_written() {
    for units in Units::ALL {
        let ruler = Ruler::new(units);
        for build_up in built_in() {
            for figure in build_up.clone().figures() {
                if figure.kind == Kind::Length {
                    continue; // written to the tape
                }
                let value = figure.assumed.value;
                let text = ruler.figure(figure.kind, value);
                let read = ruler.read_figure(figure.kind, &text).unwrap();
                assert!((read - value).abs() <= READ_BACK * value.abs(), "{text}");
            }
        }
    }
}

#[test]
fn what_is_no_figure_is_refused() {
    let metric = Ruler::new(Units::Metric);
    for text in ["", "1,830", "nan", "inf", "1e9", "4.5.6", "--3", "kg/m³"] {
        let read = metric.read_figure(Kind::Density, text);
        assert!(
            matches!(
                read,
                Err(FigureError::Written(_) | FigureError::Unit { .. })
            ),
            "{text}: {read:?}"
        );
    }
    for (kind, text) in [
        (Kind::Share, "5 kg"),
        (Kind::Factor, "2 m"),
        (Kind::Mass, "60 L"),
    ] {
        let read = metric.read_figure(kind, text);
        assert!(
            matches!(read, Err(FigureError::Unit { .. })),
            "{text}: {read:?}"
        );
    }
}

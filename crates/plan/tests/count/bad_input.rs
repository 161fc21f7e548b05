//! What a build-up that cannot be is told.

use plan::count::{BuildUpError, read_build_up, write_build_up};

use plan::count::build_up::{Bought, LayerWidth};

use crate::plans::{assumed, build_up, by_mass, by_volume, course, layer};

fn text() -> String {
    let mut up = build_up(vec![
        layer("gravel", 0.04, LayerWidth::Path, by_volume(1.2)),
        layer("sub-base", 0.1, LayerWidth::BeyondEdging, by_mass(2100.0)),
    ]);
    up.left = Some(course(0.05));
    write_build_up(&up)
}

#[track_caller]
fn refused(from: &str, to: &str, expected: &str) {
    let text = text();
    assert!(text.contains(from), "{from} is not in\n{text}");
    let error = read_build_up(&text.replacen(from, to, 1)).unwrap_err();
    assert_eq!(error.to_string(), expected);
}

#[test]
fn figures_past_a_limit() {
    let thin = |value: &str| format!("value: {value},");
    for value in ["-0.1", "0.0", "NaN", "inf", "2.5"] {
        let said = value.replace("0.0", "0");
        refused(
            "value: 0.04,",
            &thin(value),
            &format!(
                "the build-up, layer 1 “gravel”: its thickness in metres must lie between 0.001 and 2, it is {said}: write how thick it lies when it is compacted"
            ),
        );
    }
    for value in ["0.0", "-2100.0", "NaN"] {
        let said = value.replace(".0", "");
        refused(
            "value: 2100.0,",
            &thin(value),
            &format!(
                "the build-up, layer 2 “sub-base”: its compacted density in kg/m³ must lie between 10 and 10000, it is {said}: a tonne for a cubic metre is 1000"
            ),
        );
    }
    refused(
        "value: 1.2,",
        "value: 0.9,",
        "the build-up, layer 1 “gravel”: its compaction factor must lie between 1 and 3, it is 0.9: write how much of it loose makes one compacted, such as 1.2",
    );
    refused(
        "value: 0.0,",
        "value: 1.5,",
        "the build-up, layer 1 “gravel”: a waste of 150 % on straights is more than 100 %: write a share from 0 to 1, such as 0.1 for 10 %",
    );
    refused(
        "value: 0.0,",
        "value: -0.1,",
        "the build-up, layer 1 “gravel”: the waste on straights must lie between 0 and 1, it is -0.1: write a share such as 0.1 for 10 %",
    );
    refused(
        "value: 0.05,",
        "value: 5.0,",
        "the build-up, left edge: how far beyond the path is dug in metres must lie between 0 and 2, it is 5",
    );
    refused(
        "value: 0.04,",
        "value: 0.04, range: Some((0.05, 0.07)),",
        "the build-up, layer 1 “gravel”: its thickness in metres is 0.04 and so outside its own range of 0.05 to 0.07",
    );
}

#[test]
fn parts_that_do_not_fit() {
    refused(
        "key: \"sub-base\"",
        "key: \"gravel\"",
        "the build-up: two layers have the key `gravel`: give each its own",
    );
    refused(
        "key: \"sub-base\"",
        "key: \"Sub base\"",
        "the build-up, layer 2 “sub-base”: `Sub base` is no key: write small letters, digits and hyphens, such as `sub-base`",
    );
    let mut none = build_up(Vec::new());
    none.name = "empty".into();
    assert_eq!(
        read_build_up(&write_build_up(&none))
            .unwrap_err()
            .to_string(),
        "the build-up: it has no layer: give it one at least"
    );
    let mut stones = build_up(vec![layer(
        "stone",
        0.05,
        LayerWidth::Path,
        by_mass(2500.0),
    )]);
    stones.layers[0].bought = Bought::Each {
        density: assumed(2500.0),
    };
    assert_eq!(
        read_build_up(&write_build_up(&stones))
            .unwrap_err()
            .to_string(),
        "the build-up, layer 1 “stone”: one for each stone needs stones: write `Units`, `Area`, `Mass` or `Volume`, or give the build-up stepping stones"
    );
}

#[test]
fn slips_of_the_pen() {
    assert_eq!(read_build_up(" \n"), Err(BuildUpError::Empty));
    assert!(matches!(
        read_build_up(&" ".repeat(2_000_000)),
        Err(BuildUpError::TooLarge { bytes: 2_000_000 })
    ));
    let slip = |text: &str| read_build_up(text).unwrap_err().to_string();
    assert_eq!(
        slip("(\n  name: \"path\",\n  layers: [\n    (key: \"sand\", thick: 0.1),\n  ],\n)"),
        "line 4, column 19, at `thick: 0.1),`: there is no field `thick` here: it may be `key`, `name`, `part`, `thickness`, `width`, `bought`, `waste`, `packs` or `labour`"
    );
}

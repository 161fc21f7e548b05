//! Plan files: the golden ones read and written to the byte, the bad ones each with their sentence.

use plan::document::{Extent, Heading, ObstacleKind, Reference, RootRule, Shape, Side};
use plan::file::{FileError, read, write};
use plan::{Plan, example};

const EVERYTHING: &str = include_str!("files/everything.ron");
/// A site with every field that an obstacle can have, and every kind of it.
const SITE: &str = include_str!("files/site.ron");
const LEAST: &str = include_str!("files/least.ron");

#[test]
fn golden_files_are_written_as_they_were_read() {
    for text in [EVERYTHING, SITE, LEAST] {
        let plan = read(text.as_bytes()).unwrap();
        assert_eq!(write(&plan), text);
    }
}

#[test]
fn the_golden_file_means_what_it_says() {
    let plan = read(EVERYTHING.as_bytes()).unwrap();
    assert_eq!(plan.notes, "first line\nsecond line\ttab");
    assert_eq!(plan.place, "back \\ garden");
    let [open, closed, nothing] = &plan.schemes[..] else {
        panic!("three options")
    };
    assert!(nothing.routes.is_empty() && nothing.locked && !open.locked);
    let house = Reference::Wall {
        name: "house".into(),
        side: 3,
    };
    assert_eq!(open.routes[0].end_direction, Some(Heading::Along(house)));
    assert_eq!(open.routes[0].legs[1], Shape::bend(-0.3048));
    assert_eq!(
        open.routes[0].waypoints[1].at.y.to_bits(),
        (0.1_f64 + 0.2).to_bits()
    );
    assert_eq!(plan.site.marks[1].at.y.to_bits(), (-0.0_f64).to_bits());
    assert!(closed.routes[0].closed);
}

#[test]
fn the_golden_site_means_what_it_says() {
    let plan = read(SITE.as_bytes()).unwrap();
    let site = &plan.site;
    assert_eq!(site.roots, RootRule::FootAnInch);
    let kinds: Vec<ObstacleKind> = site.obstacles.iter().map(|o| o.kind).collect();
    for kind in ObstacleKind::ALL {
        assert!(kinds.contains(&kind), "{kind:?}");
    }
    let called = |name: &str| site.obstacles.iter().find(|o| o.name == name).unwrap();
    let wall = called("garden wall");
    assert_eq!((wall.clearance, wall.thickness), (Some(0.45), Some(0.215)));
    assert!(wall.still);
    let tree = called("medlar");
    assert_eq!(tree.root_radius(site.roots), Some(3.5));
    let other = called("damson").root_radius(site.roots).unwrap();
    assert!((other - 12.0 * 0.3).abs() < 1e-12, "{other}");
    assert_eq!(called("cable").unsure, Some(0.5));
    let swing = called("side gate").swing.unwrap();
    assert_eq!((swing.to, swing.angle), (Side::Right, 2.0));
    let Extent::Curved(corners) = &called("lily pond").extent else {
        panic!("it has bent sides")
    };
    let rises: Vec<f64> = corners.iter().map(|corner| corner.rise).collect();
    assert_eq!(rises, [0.4, 0.0, -0.25]);
}

#[test]
fn what_may_be_left_out_may_be_left_out() {
    let plan = read(b"(version:1,units:Metric,graduation:Millimetre)").unwrap();
    assert_eq!(write(&plan), LEAST);
}

#[test]
fn the_same_plan_written_in_other_ways() {
    let plan = read(EVERYTHING.as_bytes()).unwrap();
    for text in [
        format!("\u{feff}{EVERYTHING}"),
        format!("\n\n  {EVERYTHING}\n// the end"),
        EVERYTHING.replace('\n', "\r\n"),
        EVERYTHING.replace(
            "  units:",
            "  // feet /* and */ inches\n  /* here */ units:",
        ),
        EVERYTHING.replace('“', "\\u{201c}"),
    ] {
        assert_eq!(read(text.as_bytes()).as_ref(), Ok(&plan));
    }
}

#[test]
fn cut_short_at_every_byte_it_is_refused() {
    let text = TYPED.trim_end();
    for end in 0..text.len() {
        let error = read(&text.as_bytes()[..end]).expect_err("only the whole is a plan");
        assert!(!error.to_string().is_empty());
    }
    assert!(read(text.as_bytes()).is_ok());
}

#[test]
fn one_wrong_byte_anywhere_breaks_nothing() {
    let text = TYPED.as_bytes();
    for at in 0..text.len() {
        for wrong in *b"\0(]\"x-9,\xff" {
            let mut bytes = text.to_vec();
            bytes[at] = wrong;
            if let Ok(plan) = read(&bytes) {
                assert_eq!(read(write(&plan).as_bytes()), Ok(plan), "byte {at}");
            }
        }
    }
}

#[track_caller]
fn check(bytes: &[u8], expected: &str) {
    match read(bytes) {
        Ok(_) => panic!("it was read; expected: {expected}"),
        Err(error) => assert_eq!(error.to_string(), expected),
    }
}

/// A plan as a person might type it: in fewer lines than are written.
const TYPED: &str = include_str!("files/as-typed.ron");

/// The example with one thing changed.
#[track_caller]
fn changed(from: &str, to: &str) -> String {
    assert!(TYPED.contains(from), "{from} is not in the example");
    TYPED.replacen(from, to, 1)
}

#[test]
fn what_cannot_be_a_plan() {
    let empty = "the file is empty: there is no plan in it";
    check(b"", empty);
    check(b" \r\n\t ", empty);
    check("\u{feff}".as_bytes(), empty);
    let not_text = "is not text: this is not a plan, which is a text file ending in .ron";
    check(b"\x89PNG\r\n\x1a\n", &format!("byte 0 {not_text}"));
    check(b"(version: 1\0)", &format!("byte 11 {not_text}"));
    check(b"(title: \"\xc3\x28\")", &format!("byte 9 {not_text}"));
    let start = "line 1, column 1: this does not start as a plan does, with `(` and its fields";
    check(b"hello", start);
    check(b"{\"version\": 1}", start);
    check(b"[1, 2]", start);
    check(b"%PDF-1.7", start);
    let large = vec![b' '; 16 * 1024 * 1024 + 1];
    check(
        &large,
        "the file has 16777217 bytes: a plan has at most 16777216 (16 MiB), so this is not one",
    );
    check(&large[1..], empty);
}

#[test]
fn brackets_a_million_deep() {
    for bracket in ["(", "[", "{", "Some(", "/*"] {
        let deep = bracket.repeat(1_000_000);
        for text in [
            deep.clone(),
            format!("(version: 1, notes: {deep}"),
            format!("(version: 1, x: {deep}"),
            format!("(version: 1, schemes: {deep}"),
        ] {
            assert!(matches!(
                read(text.as_bytes()),
                Err(FileError::Written { .. })
            ));
        }
        let newer = format!("(version: 2, x: {deep}");
        assert_eq!(read(newer.as_bytes()), Err(FileError::Newer { version: 2 }));
    }
}

#[test]
fn versions() {
    let newer = |version: &str| {
        format!(
            "this plan is of version {version}, this program reads up to version 1: open it with a newer one"
        )
    };
    let said = |version: &str, expected: &str| {
        check(
            changed("version: 1", &format!("version: {version}")).as_bytes(),
            expected,
        );
    };
    said("2", &newer("2"));
    said("18446744073709551615", &newer("18446744073709551615"));
    said(
        "0",
        "this plan says it is of version 0: there is no such version, the first is 1",
    );
    said(
        "-1",
        "line 2, column 13: this whole number cannot stand here: it is below 0 or too large",
    );
    said(
        "\"1\"",
        "line 2, column 11: a whole number is expected here, such as 1",
    );
    said(
        "99999999999999999999",
        "line 2, column 12: this whole number cannot stand here: it is below 0 or too large",
    );
    said(
        "1.5",
        "line 2, column 13: a comma is missing before this, or what stands before it is not as it should be",
    );
    check(
        changed("  version: 1,\n", "").as_bytes(),
        "line 107, column 1: the field `version` is missing from what ends here",
    );
}

#[test]
fn a_newer_plan_says_so_whatever_else_is_in_it() {
    for (from, to) in [
        ("Straight,", "Spiral(a: 1, b: [Clothoid(2)]),"),
        ("units: Metric", "units: Cubits"),
        (
            "units: Metric",
            "levels: {\"a\": Some((1, 'c', r#\"raw\"#, 0xff))}, units: Metric",
        ),
        ("units: Metric", "units: <new syntax>"),
        ("width: 1.2", "width: [1.2, 1.4]"),
    ] {
        let text = changed(from, to).replace("version: 1", "version: 7");
        assert_eq!(
            read(text.as_bytes()),
            Err(FileError::Newer { version: 7 }),
            "{to}"
        );
    }
}

#[test]
fn slips_of_the_pen() {
    let check =
        |from: &str, to: &str, expected: &str| check(changed(from, to).as_bytes(), expected);
    check(
        "client:",
        "customer:",
        "line 4, column 3: there is no field `customer` here: it may be `version`, `title`, `client`, `place`, `notes`, `units`, `graduation`, `tape`, `north`, `site`, `schemes`, `rules`, `walk`, `set_out`, `prices` or `count`",
    );
    check(
        "Bend(rise: 1.17157287525381)",
        "Bend(rise: 1.0, hold: [])",
        "line 47, column 29: there is no field `hold` here: it may be `rise` or `holds`",
    );
    check(
        "Straight,",
        "Curve,",
        "line 46, column 13: `Curve` is not one of the words for this: write `Straight`, `Bend`, `Onward` or `TwoBends`",
    );
    check(
        "kind: Pond",
        "kind: Lake",
        "line 19, column 36: `Lake` is not one of the words for this: write `Wall`, `Building`, `Bed`, `Pond`, `Tree`, `Service`, `Boundary` or `Gate`",
    );
    check(
        "          width: 1.2,\n",
        "",
        "line 55, column 9: the field `width` is missing from what ends here",
    );
    check(
        "(at: (0.0, 3.0))",
        "()",
        "line 38, column 14: the field `at` is missing from what ends here",
    );
    check(
        "width: 1.2",
        "width: \"1.2\"",
        "line 35, column 17: a number is expected here, such as 1.2",
    );
    check(
        "width: 1.2",
        "width: wide",
        "line 35, column 17: a number is expected here, such as 1.2",
    );
    check(
        "width: 1.2",
        "width: 1,2",
        "line 35, column 20: a field's name is expected here; decimals are written with a point, not a comma",
    );
    check(
        "closed: false",
        "closed: 0",
        "line 53, column 18: true or false is expected here",
    );
    check(
        "title: \"Quince Yard\"",
        "title: Quince",
        "line 3, column 9: text between double quotes is expected here, such as \"Gate\"",
    );
    check(
        "title: \"Quince Yard\",",
        "title: \"Quince Yard\"",
        "line 4, column 3: a comma is missing before this, or what stands before it is not as it should be",
    );
    check(
        "title: \"Quince Yard\",",
        "title: \"a\", title: \"b\",",
        "line 3, column 15: the field `title` is given twice: leave one of them",
    );
    check(
        "Some(7.5)",
        "7.5",
        "line 68, column 39: Some(…) around the value, or None, is expected here",
    );
    check(
        "(at: (0.0, 3.0))",
        "(at: (0.0))",
        "line 38, column 22: 2 values belong together here, not 1",
    );
    check(
        "(at: (0.0, 3.0))",
        "(at: (0.0, 3.0, 1.0))",
        "line 38, column 29: `)` is expected here",
    );
    check(
        "graduation: FiveMillimetres",
        "graduation: FiveMillimetres, costs: ()",
        "line 8, column 32: there is no field `costs` here: it may be `version`, `title`, `client`, `place`, `notes`, `units`, `graduation`, `tape`, `north`, `site`, `schemes`, `rules`, `walk`, `set_out`, `prices` or `count`",
    );
}

#[test]
fn the_end_of_the_file() {
    let text = TYPED.trim_end();
    check(
        text[..text.len() - 1].trim_end().as_bytes(),
        "line 107, column 4: the file stops here, in the middle of the plan: the end of it is lost",
    );
    check(
        format!("{text}\n()").as_bytes(),
        "line 108, column 2: the plan has ended before this: take out what follows",
    );
}

#[test]
fn numbers_that_are_none_in_every_place() {
    let places = [
        ("tape: (length: 30.0)", "30.0", "the tape: its length must"),
        ("north: 0.0", "0.0", "north: its angle in radians must"),
        (
            "at: (-0.9, 0.0)",
            "-0.9",
            "mark 1: its first coordinate in metres must",
        ),
        (
            "at: (-0.9, 0.0)",
            "0.0",
            "mark 1: its second coordinate in metres must",
        ),
        (
            "Round(centre: (0.2, 7.4)",
            "0.2",
            "obstacle 2 “rain cistern”: its first coordinate in metres must",
        ),
        (
            "radius: 0.7",
            "0.7",
            "obstacle 2 “rain cistern”: its radius in metres must",
        ),
        (
            "Line([(-3.0, 0.0)",
            "-3.0",
            "obstacle 6 “lane fence west”: its first coordinate in metres must",
        ),
        (
            "Area([(16.0, 10.9)",
            "10.9",
            "obstacle 1 “potting shed”: its second coordinate in metres must",
        ),
        (
            "width: 1.2",
            "1.2",
            "option A, path 1: its width in metres must",
        ),
        (
            "(at: (0.0, 3.0))",
            "3.0",
            "option A, path 1, waypoint 2: its second coordinate in metres must",
        ),
        (
            "rounding: Some(7.5)",
            "7.5",
            "option B, path 1, waypoint 2: its rounding in metres must",
        ),
        (
            "rise: 1.17157287525381",
            "1.17157287525381",
            "option A, path 1, leg 2: its rise in metres must",
        ),
    ];
    for (place, number, expected) in places {
        for wrong in [
            "NaN",
            "inf",
            "-inf",
            "1e999",
            "-1e999",
            "100000.1",
            "-100000.1",
        ] {
            let error = read(changed(place, &place.replace(number, wrong)).as_bytes()).unwrap_err();
            let sentence = error.to_string();
            assert!(
                sentence.starts_with(expected),
                "{place} {wrong}: {sentence}"
            );
            assert!(matches!(error, FileError::Limit(_)));
        }
    }
    let heading = "start_direction: Some(Square(Marks(\"west gate post\", \"east gate post\")))";
    check(
        changed(heading, "start_direction: Some(Angle(NaN))").as_bytes(),
        "option A, path 1, start direction: its angle in radians must lie between -7 and 7, it is NaN",
    );
}

#[test]
fn what_is_past_a_limit() {
    let check =
        |from: &str, to: &str, expected: &str| check(changed(from, to).as_bytes(), expected);
    for width in ["0.049", "50.1", "-1.0", "0.0"] {
        let shown = width.trim_end_matches(".0");
        check(
            "width: 1.2",
            &format!("width: {width}"),
            &format!(
                "option A, path 1: its width in metres must lie between 0.05 and 50, it is {shown}"
            ),
        );
    }
    let long = "é".repeat(201);
    let at_most = "a name has at most 200 characters, this one has 201";
    check(
        "Gate to shed",
        &long,
        &format!("option A, path 1: {at_most}"),
    );
    check("Round the cistern", &long, &format!("option A: {at_most}"));
    check(
        "name: \"rain cistern\"",
        &format!("name: \"{long}\""),
        &format!("obstacle 2 “{long}”: {at_most}"),
    );
    check("shed corner", &long, &format!("mark 3: {at_most}"));
    check(
        "The orchard group",
        &long,
        &format!("the plan's client: {at_most}"),
    );
    assert!(read(changed("Quince Yard", &long[2..]).as_bytes()).is_ok());
    check(
        "\"Quince Yard\"",
        "\"Quince\\nYard\"",
        "the plan's title: a name is one line of text without control characters",
    );
    check(
        "notes: \"From",
        &format!("notes: \"{}", "n".repeat(20_000)),
        "the plan's notes: notes have at most 20000 characters, these have 20141",
    );
    check(
        "            (at: (0.0, 3.0)),\n",
        "",
        "option A, path 1: an open path of 6 waypoints has 5 legs, here are 6",
    );
    check(
        "closed: false",
        "closed: true",
        "option A, path 1: a closed path of 7 waypoints has 7 legs, here are 6",
    );
    check(
        "east gate post",
        "west gate post",
        "mark 2: two marks are called “west gate post”: give each its own name",
    );
    check(
        "Marks(\"west gate post\"",
        "Marks(\"gate\"",
        "option A, path 1, start direction: there are no two marks “gate” and “east gate post” apart from each other",
    );
    check(
        "side: 1",
        "side: 5",
        "option A, path 1, end direction: no obstacle “potting shed” with straight sides has a side 5",
    );
    check(
        "side: 1",
        "side: 0",
        "option A, path 1, end direction: no obstacle “potting shed” with straight sides has a side 0",
    );
    check(
        "Line([(-3.0, 0.0), (-0.9, 0.0)])",
        "Line([(-3.0, 0.0)])",
        "obstacle 6 “lane fence west”: it needs at least two corners",
    );
    check(
        "Bend(rise: 1.17157287525381)",
        "Bend(rise: 1.0, holds: [Chord, Rise, Radius])",
        "option A, path 1, leg 2: a bend holds at most two figures",
    );
    check(
        "Bend(rise: 1.17157287525381)",
        "Bend(rise: 1.0, holds: [Chord, Chord])",
        "option A, path 1, leg 2: a bend holds two different figures",
    );
}

/// A plan with one straight path of so many legs.
fn long_path(legs: usize) -> Plan {
    let mut plan = example::plan().unwrap_or_else(|error| panic!("{error}"));
    let route = &mut plan.schemes[0].routes[0];
    let mut last = route.waypoints[0];
    route.legs = vec![Shape::Straight; legs];
    route.waypoints = (0..=legs)
        .map(|_| {
            last.at.y += 1.0;
            last
        })
        .collect();
    plan
}

#[test]
fn counts_past_a_limit() {
    assert!(read(write(&long_path(10_000)).as_bytes()).is_ok());
    check(
        write(&long_path(10_001)).as_bytes(),
        "option A, path 1: it has 10001 legs, more than 10000",
    );
    let corners = "(0.0, 0.0), ".repeat(100_000);
    check(
        changed("Line([(-3.0, 0.0)", &format!("Line([{corners}(-3.0, 0.0)")).as_bytes(),
        "the site: its obstacles have 100019 corners, more than 100000",
    );
    let marks: String = (0..1000)
        .map(|i| format!("(name: \"m{i}\", at: (0.0, 0.0)),"))
        .collect();
    check(
        changed("marks: [", &format!("marks: [{marks}")).as_bytes(),
        "the site: it has 1003 marks, more than 1000",
    );
}

//! `pegbow example`, `check` and `figures`, and every kind of file that is no plan.

use super::*;

#[test]
fn the_example_can_be_kept_checked_and_computed() {
    let folder = Folder::new();
    let path = folder.with("yard.ron", done(&["example"]));
    let path = path.to_str().unwrap();
    let findings = run(&["check", path]);
    assert_eq!(findings.asked, Asked::Done(cli::DONE), "{findings:?}");
    let figures: Value = serde_json::from_str(&done(&["figures", path])).unwrap();
    assert_eq!(figures["version"], 1);
    assert_eq!(figures["schemes"][0]["letter"], "A");
    let bend = &figures["schemes"][0]["routes"][0]["centre_line"]["pieces"][1];
    assert_eq!(bend["kind"], "bend");
    assert_eq!(bend["turns"], "right");
    near(&bend["radius"], 4.0, 1e-12); // a quarter circle from (0, 3) to (4, 7)
}

#[test]
fn what_stops_is_told_by_the_exit_status() {
    let folder = Folder::new();
    let wide = plan::example::TEXT.replace("width: 1.2", "width: 30.0");
    let path = folder.with("wide.ron", wide);
    let ran = run(&["check", path.to_str().unwrap()]);
    assert_eq!(ran.asked, Asked::Done(cli::STOPS), "{ran:?}");
    let first = ran.out.lines().next().unwrap();
    assert!(first.starts_with("stop: option A, path 1, leg "), "{first}");
    assert!(first.ends_with(" [inner-edge]"), "{first}");
    let ranks: Vec<usize> = ran
        .out
        .lines()
        .map(|line| {
            ["stop", "care", "note"]
                .iter()
                .position(|w| line.starts_with(w))
                .unwrap()
        })
        .collect();
    assert!(ranks.is_sorted(), "{}", ran.out);
}

/// Every command that reads a plan refuses this file with a sentence that says `expected`.
#[track_caller]
fn unreadable(folder: &Folder, path: &Path, expected: &[&str]) {
    let name = path.file_name().unwrap().to_str().unwrap();
    let expected = [&[name], expected].concat();
    let path = path.to_str().unwrap();
    refused(&["check", path], &expected);
    refused(&["figures", path], &expected);
    let sheet = folder.path("never.pdf");
    refused(&["sheet", path, "--to", sheet.to_str().unwrap()], &expected);
    assert!(!sheet.exists());
}

#[test]
fn files_that_are_no_plan() {
    let folder = Folder::new();
    let text = plan::example::TEXT;
    let check = |name: &str, content: &[u8], expected: &[&str]| {
        let path = folder.with(name, content);
        unreadable(&folder, &path, expected);
        assert_eq!(fs::read(&path).unwrap(), content, "nothing is changed");
    };
    check("empty.ron", b"", &["the file is empty"]);
    check("blank.ron", b" \n\t", &["the file is empty"]);
    check(
        "bom-only.ron",
        "\u{feff}".as_bytes(),
        &["the file is empty"],
    );
    for cut in [1, 40, 700, text.len() / 2, text.trim_end().len() - 1] {
        check("cut.ron", &text.as_bytes()[..cut], &["line ", "column "]);
    }
    check(
        "large.ron",
        &vec![b' '; 16 * 1024 * 1024 + 1],
        &["16777217 bytes", "16 MiB"],
    );
    check(
        "binary.ron",
        b"\x89PNG\r\n\x1a\n\0\0\0",
        &["byte 0 is not text"],
    );
    check("nul.ron", b"(version: 1,\0", &["byte 12 is not text"]);
    for nest in ["(", "[", "{", "Some("] {
        check(
            "deep.ron",
            nest.repeat(100_000).as_bytes(),
            &["line 1, column "],
        );
        let inside = format!(
            "(version: 1, units: Metric, graduation: Millimetre, site: {}",
            nest.repeat(100_000)
        );
        check("deep-inside.ron", inside.as_bytes(), &["line 1, column "]);
    }
    let newer = text.replace("version: 1", "version: 2");
    check("newer.ron", newer.as_bytes(), &["version 2", "newer"]);
    let newest = "(version: 18446744073709551615, unknown: Things([1]))";
    check("newest.ron", newest.as_bytes(), &["18446744073709551615"]);
    check(
        "none.ron",
        text.replace("version: 1", "version: 0").as_bytes(),
        &["no such version"],
    );
    let unknown = text.replacen("title:", "colour: 3,\n  title:", 1);
    check(
        "unknown.ron",
        unknown.as_bytes(),
        &["line 3, column ", "colour"],
    );
}

#[test]
fn numbers_that_are_no_plan() {
    let folder = Folder::new();
    let text = plan::example::TEXT;
    let check = |from: &str, to: &str, expected: &[&str]| {
        assert!(text.contains(from));
        let path = folder.with("bad.ron", text.replacen(from, to, 1));
        unreadable(&folder, &path, expected);
    };
    check(
        "width: 1.2",
        "width: 0.0",
        &["option A, path 1", "between 0.05 and 50"],
    );
    check(
        "width: 1.2",
        "width: 51.0",
        &["option A, path 1", "it is 51"],
    );
    check(
        "width: 1.2",
        "width: -1.2",
        &["option A, path 1", "it is -1.2"],
    );
    check("width: 1.2", "width: NaN", &["option A, path 1", "NaN"]);
    check("width: 1.2", "width: inf", &["option A, path 1", "inf"]);
    check("width: 1.2", "width: 1e400", &["option A, path 1"]);
    check("(4.0, 7.0)", "(4.0, 1e6)", &["waypoint 3", "100000"]);
    check("rise: 1.17157287525381", "rise: 1e99", &["leg 2", "rise"]);
    check("length: 30.0", "length: 0.0", &["tape"]);
    let name = format!("name: \"{}\"", "é".repeat(201));
    check("name: \"Gate to shed\"", &name, &["at most 200 characters"]);
    check("            Straight,\n", "", &["6 legs, here are 5"]);
}

#[test]
fn pegs_on_each_other_are_found_not_refused() {
    let folder = Folder::new();
    let text = plan::example::TEXT.replacen("(at: (4.0, 7.0))", "(at: (0.0, 3.0))", 1);
    let path = folder.with("coincide.ron", text);
    let ran = run(&["check", path.to_str().unwrap()]);
    assert_eq!(ran.asked, Asked::Done(cli::STOPS), "{ran:?}");
    assert!(ran.out.contains("[waypoints-coincide]"), "{}", ran.out);
}

#[test]
fn a_byte_order_mark_does_no_harm() {
    let folder = Folder::new();
    let path = folder.with("bom.ron", format!("\u{feff}{}", plan::example::TEXT));
    let marked = done(&["figures", path.to_str().unwrap()]);
    let plain = done(&["figures", folder.example().to_str().unwrap()]);
    assert_eq!(marked, plain);
}

#[test]
fn files_that_are_not_there_or_may_not_be_read() {
    let folder = Folder::new();
    let missing = folder.path("missing.ron");
    unreadable(&folder, &missing, &["no such file"]);
    let inner = folder.path("folder");
    fs::create_dir(&inner).unwrap();
    unreadable(&folder, &inner, &["this is a folder"]);
    let under = folder.example().join("under.ron");
    unreadable(&folder, &under, &["no such file"]);
    let wordless: &[&str] = &["check"];
    refused(
        wordless,
        &["name a plan after check", "pegbow check --help"],
    );
    refused(
        &["figures", "a.ron", "b.ron"],
        &["b.ron is one word too many"],
    );
}

#[test]
#[cfg(unix)]
fn a_protected_file_is_not_read() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::new();
    let path = folder.example();
    fs::set_permissions(&path, PermissionsExt::from_mode(0o000)).unwrap();
    match fs::File::open(&path) {
        Err(_) => unreadable(&folder, &path, &["may not be read"]),
        // A superuser reads everything; the sentence itself is tested beside its wording.
        Ok(_) => drop(done(&["figures", path.to_str().unwrap()])),
    }
}

#[test]
#[cfg(unix)]
fn names_that_are_not_text() {
    use std::os::unix::ffi::OsStringExt;
    let name = OsString::from_vec(b"a\xff.ron".to_vec());
    refused(&["check".into(), name.clone()], &["no such file"]);
    refused(
        &["bend".into(), "--chord".into(), name.clone()],
        &["not readable text"],
    );
    refused(&[name], &["no command and no file"]);
}

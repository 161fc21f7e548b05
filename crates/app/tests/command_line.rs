//! The command line, driven without a process: answers, refusals, and every kind of bad input.

use std::ffi::OsString;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use pegbow::cli::{self, Asked};
use serde_json::Value;

const INCH: f64 = 0.0254;

/// What a command did.
#[derive(Debug)]
struct Ran {
    asked: Asked,
    out: String,
    err: String,
}

fn run<T: Into<OsString> + Clone>(args: &[T]) -> Ran {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let asked = cli::run(args.iter().cloned().map(Into::into), &mut out, &mut err);
    Ran {
        asked,
        out: String::from_utf8(out).unwrap(),
        err: String::from_utf8(err).unwrap(),
    }
}

#[track_caller]
fn done<T: Into<OsString> + Clone>(args: &[T]) -> String {
    let ran = run(args);
    assert_eq!(ran.asked, Asked::Done(cli::DONE), "{ran:?}");
    assert_eq!(ran.err, "");
    ran.out
}

/// Refused: nothing on out, one sentence on err that says all of `expected`.
#[track_caller]
fn refused<T: Into<OsString> + Clone>(args: &[T], expected: &[&str]) {
    let ran = run(args);
    assert_eq!(ran.asked, Asked::Done(cli::FAILED), "{ran:?}");
    assert_eq!(ran.out, "", "nothing is half answered");
    let sentence = ran.err.strip_prefix("pegbow: ").expect(&ran.err);
    assert_eq!(sentence.matches('\n').count(), 1, "one line: {sentence:?}");
    for part in expected {
        assert!(sentence.contains(part), "`{part}` is not in: {sentence}");
    }
}

/// A bend in JSON, as (name of the option, text) twice.
#[track_caller]
fn solutions(given: [(&str, &str); 2]) -> Vec<Value> {
    let [(a, x), (b, y)] = given;
    let (a, b) = (format!("--{a}"), format!("--{b}"));
    let text = done(&["bend", &a, x, &b, y, "--json"]);
    let answer: Value = serde_json::from_str(&text).unwrap();
    answer["solutions"].as_array().unwrap().clone()
}

#[track_caller]
fn near(value: &Value, expected: f64, tolerance: f64) {
    let value = value.as_f64().unwrap();
    assert!((value - expected).abs() <= tolerance, "{value} is not {expected}");
}

/// A folder that goes away with its files.
struct Folder(tempfile::TempDir);

impl Folder {
    fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn with(&self, name: &str, content: impl AsRef<[u8]>) -> PathBuf {
        let path = self.path(name);
        fs::write(&path, content).unwrap();
        path
    }

    fn example(&self) -> PathBuf {
        self.with("yard.ron", plan::example::TEXT)
    }
}

mod bend {
    use super::*;

    #[test]
    fn published_bends() {
        // Tolerances: half a unit in the last published digit.
        let check = |given, figure: &str, expected: f64, tolerance: f64| {
            near(&solutions(given)[0][figure], expected, tolerance);
        };
        // Common practice, no source: chord 84 in, rise 30 in, radius 44.4 in.
        let pegs = [("chord", "84in"), ("rise", "30in")];
        check(pegs, "radius", 44.4 * INCH, 1e-12);
        // Source: Hatfield, The American House-Carpenter, article 518.
        let carpenter = [("radius", "75ft"), ("chord", "120ft")];
        check(carpenter, "rise", 30.0 * 12.0 * INCH, 1e-12);
        // Source: Besavilla, Surveying for Civil and Geodetic Licensure Exam, problem 1.
        let curve = [("sweep", "36"), ("radius", "190.99m")];
        check(curve, "external_distance", 9.83, 0.005);
        check(curve, "rise", 9.35, 0.005);
        // Source: Schofield and Breach, Engineering Surveying, 6th edition, chapter 10; from memory.
        let curve = [("radius", "200m"), ("sweep", "30deg")];
        check(curve, "tangent_length", 53.59, 0.005);
        check(curve, "arc_length", 104.72, 0.005);
    }

    #[test]
    fn a_published_bend_in_words_is_on_the_tape_and_exact() {
        // Common practice, no source: chord 84 in, rise 30 in, radius 44.4 in.
        let text = done(&["bend", "--chord", "84in", "--rise", "30in"]);
        let line = |name: &str| text.lines().find(|line| line.starts_with(name)).unwrap();
        assert!(line("radius").contains("3' 8 3/8\""), "{text}");
        assert!(line("radius").contains("3' 8.400\""), "{text}");
        assert!(line("sweep").contains("142.15 deg"), "{text}");
        for name in ["arc length", "apothem", "tangent length", "external distance", "segment area"] {
            assert!(line(name).len() > 40, "{text}");
        }
        assert!(text.is_ascii(), "{text}");
    }

    #[test]
    fn both_bends_of_a_chord_and_a_radius() {
        let both = solutions([("chord", "4m"), ("radius", "2.5m")]);
        assert_eq!(both.len(), 2);
        near(&both[0]["rise"], 1.0, 1e-15);
        near(&both[1]["rise"], 4.0, 1e-15);
        assert!(both[0]["sweep"].as_f64() < both[1]["sweep"].as_f64());
        assert_eq!(both[0]["tangent_length"].is_null(), false);
        assert!(both[1]["tangent_length"].is_null());
        assert!(both[1]["external_distance"].is_null());
        let words = done(&["bend", "--chord", "4m", "--radius", "2.5m"]);
        assert!(words.contains("Two bends have this chord and this radius"), "{words}");
        assert!(words.contains("Bend 2 of 2"), "{words}");
    }

    #[test]
    fn counts_of_other_pairs_with_two_answers() {
        let check = |given, count: usize| assert_eq!(solutions(given).len(), count, "{given:?}");
        check([("rise", "1m"), ("arc", "3m")], 2);
        check([("rise", "1m"), ("arc", "4m")], 1);
        check([("rise", "1m"), ("tangent", "4m")], 2);
        check([("arc", "6m"), ("apothem", "-1m")], 2);
        check([("chord", "4m"), ("radius", "2m")], 1);
    }

    #[test]
    fn the_same_numbers_in_every_form() {
        let same = |chord: &str, sweep: &str, units: &str| {
            let text = done(&["bend", "--chord", chord, "--sweep", sweep, "--units", units, "--json"]);
            let answer: Value = serde_json::from_str(&text).unwrap();
            near(&answer["solutions"][0]["chord"], 2.2987, 1e-15);
            near(&answer["solutions"][0]["sweep"], 1.8, 1e-3);
        };
        same("7' 6 1/2\"", "1.8rad", "metric");
        same("7ft 6.5in", "103.13", "feet");
        same("90 1/2", "103.13deg", "feet");
        same("229.87cm", "103° 8'", "feet");
        same("2.2987", "1.8 rad", "metric");
    }

    #[test]
    fn the_units_of_the_first_length_that_names_its_own() {
        let words = |args: &[&str]| done(&[&["bend"], args].concat());
        assert!(words(&["--chord", "4", "--rise", "1"]).contains("2.500 m"));
        // A bare number beside inches is inches.
        assert!(words(&["--rise", "30", "--chord", "84in"]).contains("3' 8 3/8\""));
        assert!(words(&["--rise", "30in", "--chord", "84in", "--units", "metric"]).contains("1.130 m"));
        let decimal = words(&["--chord", "8ft", "--rise", "2ft", "--graduation", "0.01ft"]);
        assert!(decimal.contains("5.00'"), "{decimal}");
    }

    #[test]
    fn a_bend_that_hangs_on_small_slips_says_so() {
        let care = done(&["bend", "--chord", "4m", "--arc", "4.001m"]);
        assert!(care.contains("Care: ") && care.contains("5 mm in the chord"), "{care}");
        let fine = done(&["bend", "--chord", "4m", "--rise", "5cm"]);
        assert!(!fine.contains("Care: "), "{fine}");
    }

    #[test]
    fn lengths_that_cannot_be_read() {
        let check = |text: &str, expected: &str| {
            refused(&["bend", "--chord", text, "--rise", "1m"], &["--chord: ", expected]);
        };
        check("7' 6 1/0\"", "`0` at character 8");
        check("--", "sign out of place");
        check("1e400", "is not a unit known here");
        check(&"1".repeat(4_000), "is longer than 64 characters");
        check("", "nothing is written here");
        check("4m\0", "cannot be read");
        check("230", "may be metres, centimetres or millimetres");
        check("NaN", "a number should");
        refused(&["bend", "--radius", "1m", "--sweep", "45° 75'"], &["--sweep: "]);
        refused(&["bend", "--radius", "1m", "--sweep", "12furlongs"], &["not a unit"]);
    }

    #[test]
    fn figures_that_give_no_bend() {
        let check = |args: &[&str], expected: &[&str]| refused(&[&["bend"], args].concat(), expected);
        check(&["--chord", "4m", "--radius", "1.5m"], &["too short", "at least 2.000 m"]);
        check(&["--chord", "84in", "--radius", "40in"], &["3' 4\"", "at least 3' 6\""]);
        check(&["--chord", "0", "--rise", "1m"], &["chord is 0.000 m", "more than 0"]);
        check(&["--chord", "-4m", "--rise", "1m"], &["chord is -4.000 m"]);
        check(&["--rise", "1m", "--arc", "2m"], &["at least"]);
        check(&["--sweep", "360", "--radius", "1m"], &["less than 360 deg"]);
        check(&["--sweep", "200", "--tangent", "1m"], &["no tangent length"]);
        check(&["--sweep", "180", "--apothem", "0"], &["size stays open"]);
        check(&["--chord", &"9".repeat(60), "--rise", "1m"], &["past what can be computed"]);
    }

    #[test]
    fn wrong_usage() {
        let check = |args: &[&str], expected: &[&str]| refused(&[&["bend"], args].concat(), expected);
        check(&[], &["two of its figures", "--chord 4m", "pegbow bend --help"]);
        check(&["--chord", "4m"], &["here is only --chord 4m"]);
        check(&["--chord", "4m", "--rise", "1m", "--arc", "5m"], &["here are --chord 4m, --rise 1m, --arc 5m"]);
        check(&["--chord", "4m", "--chord", "5m"], &["chord is given twice"]);
        check(&["--cord", "4m"], &["there is no option --cord"]);
        check(&["--chord"], &["--chord needs a value"]);
        check(&["4m"], &["4m is one word too many"]);
        check(&["--json=yes", "--chord", "4m"], &["--json stands alone"]);
        check(&["--units", "cubits"], &["--units cubits", "metric or feet"]);
        check(&["--graduation", "3mm"], &["--graduation 3mm", "5 mm"]);
        let both = ["--chord", "4m", "--rise", "1m", "--units", "metric", "--graduation", "1/8in"];
        check(&both, &["no division of a tape in metric"]);
    }
}

mod plans {
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
            .map(|line| ["stop", "care", "note"].iter().position(|w| line.starts_with(w)).unwrap())
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
        check("bom-only.ron", "\u{feff}".as_bytes(), &["the file is empty"]);
        for cut in [1, 40, 700, text.len() / 2, text.trim_end().len() - 1] {
            check("cut.ron", &text.as_bytes()[..cut], &["line ", "column "]);
        }
        check("large.ron", &vec![b' '; 16 * 1024 * 1024 + 1], &["16777217 bytes", "16 MiB"]);
        check("binary.ron", b"\x89PNG\r\n\x1a\n\0\0\0", &["byte 0 is not text"]);
        check("nul.ron", b"(version: 1,\0", &["byte 12 is not text"]);
        for nest in ["(", "[", "{", "Some("] {
            check("deep.ron", nest.repeat(100_000).as_bytes(), &["line 1, column "]);
            let inside = format!("(version: 1, units: Metric, graduation: Millimetre, site: {}", nest.repeat(100_000));
            check("deep-inside.ron", inside.as_bytes(), &["line 1, column "]);
        }
        let newer = text.replace("version: 1", "version: 2");
        check("newer.ron", newer.as_bytes(), &["version 2", "newer"]);
        let newest = "(version: 18446744073709551615, unknown: Things([1]))";
        check("newest.ron", newest.as_bytes(), &["18446744073709551615"]);
        check("none.ron", text.replace("version: 1", "version: 0").as_bytes(), &["no such version"]);
        let unknown = text.replacen("title:", "colour: 3,\n  title:", 1);
        check("unknown.ron", unknown.as_bytes(), &["line 3, column ", "colour"]);
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
        check("width: 1.2", "width: 0.0", &["option A, path 1", "between 0.05 and 50"]);
        check("width: 1.2", "width: 51.0", &["option A, path 1", "it is 51"]);
        check("width: 1.2", "width: -1.2", &["option A, path 1", "it is -1.2"]);
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
        refused(wordless, &["name a plan after check", "pegbow check --help"]);
        refused(&["figures", "a.ron", "b.ron"], &["b.ron is one word too many"]);
    }

    #[test]
    #[cfg(unix)]
    fn a_protected_file_is_not_read() {
        use std::os::unix::fs::PermissionsExt;
        let folder = Folder::new();
        let path = folder.example();
        fs::set_permissions(&path, PermissionsExt::from_mode(0)).unwrap();
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
        refused(&["bend".into(), "--chord".into(), name.clone()], &["not readable text"]);
        refused(&[name], &["no command and no file"]);
    }
}

mod sheets {
    use super::*;

    #[test]
    fn a_pdf_is_written_and_replaced() {
        let folder = Folder::new();
        let (plan, to) = (folder.example(), folder.path("sheet.pdf"));
        let (plan, pdf) = (plan.to_str().unwrap(), to.to_str().unwrap());
        let said = done(&["sheet", plan, "--to", pdf]);
        assert!(said.contains(pdf) && said.contains("option A on A4"), "{said}");
        let first = fs::read(&to).unwrap();
        assert!(first.starts_with(b"%PDF-"));
        let said = done(&[
            "sheet", plan, "--to", pdf, "--paper", "letter", "--option", "b", "--both-units", "--date", "2026-04-30",
        ]);
        assert!(said.contains("option B on Letter"), "{said}");
        assert_ne!(fs::read(&to).unwrap(), first);
        let beside = fs::read_dir(folder.0.path()).unwrap().count();
        assert_eq!(beside, 2, "no part of a file is left over");
    }

    #[test]
    fn a_plan_is_never_written_over() {
        let folder = Folder::new();
        let path = folder.example();
        let plan = path.to_str().unwrap();
        let linked = folder.path("./yard.ron");
        for to in [plan, linked.to_str().unwrap(), folder.path("other.RON").to_str().unwrap()] {
            refused(&["sheet", plan, "--to", to], &["not written over a plan", ".pdf"]);
        }
        assert_eq!(fs::read_to_string(&path).unwrap(), plan::example::TEXT);
        // Nor through another name for it.
        #[cfg(unix)]
        {
            let link = folder.path("link.pdf");
            std::os::unix::fs::symlink(&path, &link).unwrap();
            let to = link.to_str().unwrap();
            refused(&["sheet", plan, "--to", to], &["not written over a plan"]);
            assert_eq!(fs::read_to_string(&path).unwrap(), plan::example::TEXT);
        }
    }

    #[test]
    fn places_that_cannot_be_written() {
        let folder = Folder::new();
        let path = folder.example();
        let plan = path.to_str().unwrap();
        let check = |to: &Path, expected: &[&str]| {
            refused(&["sheet", plan, "--to", to.to_str().unwrap()], expected);
        };
        check(folder.0.path(), &["this is a folder"]);
        check(&folder.path("none/sheet.pdf"), &["there is no folder", "make it first"]);
        check(&path.join("sheet.pdf"), &["there is no folder"]);
        let protected = folder.with("kept.pdf", "kept");
        let mut permissions = fs::metadata(&protected).unwrap().permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&protected, permissions).unwrap();
        check(&protected, &["protected", "nothing was changed"]);
        assert_eq!(fs::read(&protected).unwrap(), b"kept");
        if cfg!(target_os = "linux") {
            check(Path::new("/proc/sheet.pdf"), &["/proc/sheet.pdf", "nothing was changed"]);
        }
    }

    #[test]
    fn wrong_usage() {
        let folder = Folder::new();
        let path = folder.example();
        let plan = path.to_str().unwrap();
        let to = folder.path("sheet.pdf");
        let to = to.to_str().unwrap();
        let check = |more: &[&str], expected: &[&str]| {
            refused(&[&["sheet", plan, "--to", to], more].concat(), expected);
        };
        check(&["--paper", "a3"], &["--paper a3", "a4 or letter"]);
        check(&["--option", "D"], &["--option D", "options A to C"]);
        check(&["--option", ""], &["options A to C"]);
        check(&["--date", "2026-02-29"], &["no such day", "2026-04-30"]);
        check(&["--date", "2026-4-30"], &["no such day"]);
        check(&["--date", "2026-04-30-1"], &["no such day"]);
        check(&["--date", "+026-04-30"], &["no such day"]);
        check(&["more.ron"], &["more.ron is one word too many"]);
        check(&["--colour"], &["there is no option --colour"]);
        refused(&["sheet", plan], &["--to sheet.pdf", "pegbow sheet --help"]);
        refused(&["sheet", "--to", to], &["name a plan after sheet"]);
        assert!(!Path::new(to).exists());
        let bare = folder.with("bare.ron", "(version: 1, units: Metric, graduation: Millimetre)");
        refused(&["sheet", bare.to_str().unwrap(), "--to", to], &["no option to print"]);
    }
}

mod program {
    use super::*;

    const COMMANDS: [&str; 5] = ["bend", "check", "figures", "sheet", "example"];

    #[test]
    fn the_window_is_asked_for() {
        let folder = Folder::new();
        let none: &[&str] = &[];
        assert_eq!(run(none).asked, Asked::Window(None));
        let plan = folder.example();
        assert_eq!(run(&[plan.as_os_str()]).asked, Asked::Window(Some(plan)));
        refused(&["bedn"], &["no command and no file bedn", "pegbow --help"]);
        refused(&["--chord", "4m"], &["there is no option --chord"]);
        refused(&["-x"], &["there is no option -x"]);
    }

    #[test]
    fn help_has_two_examples_that_work() {
        let folder = Folder::new();
        folder.with("quince-yard.ron", plan::example::TEXT);
        let texts = COMMANDS.map(|command| done(&[command, "--help"]));
        for text in texts.iter().chain([&done(&["--help"])]) {
            assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
            let (_, examples) = text.split_once("Two examples\n").expect(text);
            let examples: Vec<_> = examples.lines().filter(|l| l.starts_with("    pegbow ")).collect();
            assert!(examples.len() >= 2, "{text}");
            for example in examples {
                // The words up to a pipe or a redirection; plans and sheets lie in the folder.
                let (example, _) = example.split_once(['|', '>']).unwrap_or((example, ""));
                let args: Vec<String> = example
                    .split_whitespace()
                    .skip(1)
                    .map(|word| match word.rsplit_once('.') {
                        Some((_, "ron" | "pdf")) => folder.path(word).to_str().unwrap().to_owned(),
                        _ => word.to_owned(),
                    })
                    .collect();
                assert_eq!(run(&args).asked, Asked::Done(cli::DONE), "{args:?}");
            }
        }
        assert_eq!(done(&["-h"]), done(&["--help"]));
        assert!(done(&["--version"]).starts_with("pegbow "));
    }

    /// A reader that has gone, or a disk that is full.
    struct Broken(io::ErrorKind);

    impl Write for Broken {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(self.0.into())
        }

        fn flush(&mut self) -> io::Result<()> {
            Err(self.0.into())
        }
    }

    #[test]
    fn a_closed_pipe_is_no_error_and_a_full_disk_is_one() {
        let args = || ["example"].map(OsString::from);
        let mut err = Vec::new();
        let gone = cli::run(args(), &mut Broken(io::ErrorKind::BrokenPipe), &mut err);
        assert_eq!((gone, err.len()), (Asked::Done(cli::DONE), 0));
        let full = cli::run(args(), &mut Broken(io::ErrorKind::StorageFull), &mut err);
        assert_eq!(full, Asked::Done(cli::FAILED));
        assert!(String::from_utf8(err).unwrap().contains("cannot be written"));
        let deaf = cli::run(
            ["bedn"].map(OsString::from),
            &mut Vec::new(),
            &mut Broken(io::ErrorKind::BrokenPipe),
        );
        assert_eq!(deaf, Asked::Done(cli::FAILED));
    }
}

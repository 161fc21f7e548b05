//! The command line, driven without a process: answers, refusals, and every kind of bad input.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod bend;
mod orders;
mod pegs;
mod pictures;
mod plans;
mod program;
mod sheets;

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
    assert!(
        (value - expected).abs() <= tolerance,
        "{value} is not {expected}"
    );
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

//! Pegbow: the sketchpad for curved garden paths. Everything it does is in the library.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use pegbow::cli::{self, Asked};
use pegbow::{files, window};

fn main() -> ExitCode {
    let args = std::env::args_os().skip(1);
    let (mut out, mut err) = (std::io::stdout(), std::io::stderr());
    match cli::run(args, &mut out, &mut err) {
        Asked::Done(status) => ExitCode::from(status),
        Asked::Window(plan) => match open_window(plan) {
            Ok(()) => ExitCode::from(cli::DONE),
            Err(sentence) => {
                // Where nobody listens there is nobody to tell.
                let _ = writeln!(err, "pegbow: {sentence}");
                ExitCode::from(cli::FAILED)
            }
        },
    }
}

/// The one place where the window is opened.
fn open_window(path: Option<PathBuf>) -> Result<(), String> {
    let plan = match &path {
        Some(path) => files::read_plan(path).map_err(|error| error.to_string())?,
        None => plan::example::plan().map_err(|error| error.to_string())?,
    };
    window::open(plan, path).map_err(|error| error.to_string())
}

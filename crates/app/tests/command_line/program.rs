//! The program itself: help, the window, a closed pipe.

use super::*;

const COMMANDS: [&str; 6] = ["bend", "check", "figures", "sheet", "pegs", "example"];

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
fn help_has_examples_that_work() {
    let folder = Folder::new();
    folder.with("quince-yard.ron", plan::example::TEXT);
    let texts = COMMANDS.map(|command| done(&[command, "--help"]));
    for text in texts.iter().chain([&done(&["--help"])]) {
        assert!(
            text.lines().all(|line| line.chars().count() <= 100),
            "{text}"
        );
        let (_, examples) = text.split_once(" examples\n").expect(text);
        let examples: Vec<_> = examples
            .lines()
            .filter(|l| l.starts_with("    pegbow "))
            .collect();
        assert!(examples.len() >= 2, "{text}");
        for example in examples {
            // The words up to a pipe or a redirection; plans and sheets lie in the folder.
            let (example, _) = example.split_once(['|', '>']).unwrap_or((example, ""));
            let args: Vec<String> = example
                .split_whitespace()
                .skip(1)
                .map(|word| match word.rsplit_once('.') {
                    Some((_, "ron" | "pdf" | "csv")) => {
                        folder.path(word).to_str().unwrap().to_owned()
                    }
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
    assert!(
        String::from_utf8(err)
            .unwrap()
            .contains("cannot be written")
    );
    let deaf = cli::run(
        ["bedn"].map(OsString::from),
        &mut Vec::new(),
        &mut Broken(io::ErrorKind::BrokenPipe),
    );
    assert_eq!(deaf, Asked::Done(cli::FAILED));
}

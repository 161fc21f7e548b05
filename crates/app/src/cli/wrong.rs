//! Why a command was not done: one sentence with the place and the remedy.

use std::fmt;
use std::io;
use std::path::Path;

use crate::files::{FilesError, shown};

/// Why a command was not done.
#[derive(Debug)]
pub(super) struct Wrong(String);

impl Wrong {
    pub(super) fn new(sentence: impl Into<String>) -> Self {
        Self(sentence.into())
    }

    /// The command line is not as it should be. `command` is empty for the program itself.
    pub(super) fn usage(command: &str, error: &lexopt::Error) -> Self {
        use lexopt::Error;
        let what = match error {
            Error::UnexpectedOption(option) => format!("there is no option {option}"),
            Error::UnexpectedArgument(word) => {
                format!("{} is one word too many", shown(Path::new(word)))
            }
            Error::UnexpectedValue { option, .. } => {
                format!("{option} stands alone, without a value")
            }
            Error::MissingValue { option } => {
                let option = option.as_deref().unwrap_or("the last option");
                format!("{option} needs a value after it")
            }
            Error::NonUnicodeValue(word) => {
                format!("{} is not readable text", shown(Path::new(word)))
            }
            other => other.to_string(),
        };
        Self::see(command, &what)
    }

    /// A sentence that ends in where the help is.
    pub(super) fn see(command: &str, what: &str) -> Self {
        let space = if command.is_empty() { "" } else { " " };
        Self(format!("{what}: see pegbow{space}{command} --help"))
    }

    pub(super) fn no_plan(command: &str) -> Self {
        Self::see(
            command,
            &format!("name a plan after {command}, such as yard.ron"),
        )
    }

    pub(super) fn neither_command_nor_file(word: &Path) -> Self {
        Self::see(
            "",
            &format!("there is no command and no file {}", shown(word)),
        )
    }

    pub(super) fn answer(error: &io::Error) -> Self {
        Self(format!(
            "the answer cannot be written: {error}. Write it somewhere else"
        ))
    }
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl From<FilesError> for Wrong {
    fn from(error: FilesError) -> Self {
        Self(error.to_string())
    }
}

//! Plan files, and how files of other kinds are read: the one place that knows RON.

use std::cell::Cell;
use std::fmt;

use serde::de::{DeserializeOwned, DeserializeSeed, Deserializer, IgnoredAny, MapAccess, Visitor};
use serde::{Deserialize, Serialize};

use crate::document::{Plan, VERSION};
use crate::limits::{self, FILE_BYTES, LimitError};

/// Why a text is not a plan.
#[derive(Clone, Debug, PartialEq)]
pub enum FileError {
    /// The file is larger than is read.
    TooLarge {
        /// Its size in bytes.
        bytes: usize,
    },
    /// There is nothing in it.
    Empty,
    /// It is not text: the first byte that is not.
    NotText {
        /// The byte's place, from 0.
        at: usize,
    },
    /// It was written by a newer version of the program.
    Newer {
        /// The version it says.
        version: u64,
    },
    /// Its version is not one that ever was.
    NoSuchVersion {
        /// The version it says.
        version: u64,
    },
    /// It is not written as a plan is.
    Written {
        /// The line, from 1.
        line: usize,
        /// The column, from 1.
        column: usize,
        /// What is wrong there.
        what: String,
    },
    /// It is past a limit.
    Limit(LimitError),
}

/// What a file holds.
pub(crate) struct Kind {
    /// What it is called in a sentence.
    pub(crate) noun: &'static str,
    /// Its newest version.
    pub(crate) version: u32,
}

const PLAN: Kind = Kind {
    noun: "plan",
    version: VERSION,
};

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.say(f, &PLAN)
    }
}

impl FileError {
    /// Its sentence about a file of this kind.
    pub(crate) fn say(&self, f: &mut fmt::Formatter<'_>, kind: &Kind) -> fmt::Result {
        let Kind {
            noun,
            version: newest,
            ..
        } = kind;
        match self {
            Self::TooLarge { bytes } => write!(
                f,
                "the file has {bytes} bytes: a {noun} has at most {FILE_BYTES} (16 MiB), so this is not one"
            ),
            Self::Empty => write!(f, "the file is empty: there is no {noun} in it"),
            Self::NotText { at } => write!(
                f,
                "byte {at} is not text: this is not a {noun}, which is a text file ending in .ron"
            ),
            Self::Newer { version } => write!(
                f,
                "this {noun} is of version {version}, this program reads up to version {newest}: open it with a newer one"
            ),
            Self::NoSuchVersion { version } => write!(
                f,
                "this {noun} says it is of version {version}: there is no such version, the first is 1"
            ),
            Self::Written { line, column, what } => {
                write!(f, "line {line}, column {column}: {what}")
            }
            Self::Limit(limit) => fmt::Display::fmt(limit, f),
        }
    }
}

impl std::error::Error for FileError {}

impl From<LimitError> for FileError {
    fn from(error: LimitError) -> Self {
        Self::Limit(error)
    }
}

/// Reads a plan.
///
/// # Errors
/// * [`FileError::TooLarge`], [`FileError::Empty`], [`FileError::NotText`] for what cannot be one;
/// * [`FileError::Newer`] and [`FileError::NoSuchVersion`] by its `version`;
/// * [`FileError::Written`] with line and column for what is not written as a plan is, unknown
///   fields among it;
/// * [`FileError::Limit`] for numbers that are not finite or past a limit, and lists that do not
///   fit together.
pub fn read(bytes: &[u8]) -> Result<Plan, FileError> {
    let plan = read_as(bytes, &PLAN)?;
    limits::check(&plan)?;
    Ok(plan)
}

/// Reads a file of one kind, not yet held against limits.
pub(crate) fn read_as<T: DeserializeOwned>(bytes: &[u8], kind: &Kind) -> Result<T, FileError> {
    if bytes.len() > FILE_BYTES {
        return Err(FileError::TooLarge { bytes: bytes.len() });
    }
    let text = std::str::from_utf8(bytes).map_err(|error| FileError::NotText {
        at: error.valid_up_to(),
    })?;
    if let Some(at) = bytes.iter().position(|byte| *byte == 0) {
        return Err(FileError::NotText { at });
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(FileError::Empty);
    }
    // The version first: a newer plan may hold what this program cannot know.
    if let Some(version) = version_of(text) {
        if version > u64::from(kind.version) {
            return Err(FileError::Newer { version });
        }
        if version < 1 {
            return Err(FileError::NoSuchVersion { version });
        }
    }
    read_data(text, kind.noun).map_err(|slip| FileError::Written {
        line: slip.line,
        column: slip.column,
        what: slip.what,
    })
}

/// Where a text is not written as it should be, and what is wrong there.
pub(crate) struct Slip {
    /// The line, from 1.
    pub(crate) line: usize,
    /// The column, from 1.
    pub(crate) column: usize,
    /// What is wrong there, without a final stop.
    pub(crate) what: String,
}

/// Reads plain data; `thing` is what a person calls it.
pub(crate) fn read_data<T: DeserializeOwned>(text: &str, thing: &str) -> Result<T, Slip> {
    ron::from_str(text).map_err(|error| Slip {
        line: error.span.start.line,
        column: error.span.start.col,
        what: sentence(&error.code, thing),
    })
}

/// Writes a plan: reading it again gives the very same plan, and writing that the very same text.
#[must_use]
pub fn write(plan: &Plan) -> String {
    write_data(plan)
}

/// Writes plain data, in which nothing can fail to be written.
pub(crate) fn write_data(data: &impl Serialize) -> String {
    let style = ron::ser::PrettyConfig::new()
        .indentor("  ")
        .new_line("\n")
        .depth_limit(6)
        .compact_arrays(false)
        .escape_strings(true);
    let mut text = ron::ser::to_string_pretty(data, style).unwrap_or_default();
    text.push('\n');
    text
}

/// The version a text says it is of, even where what follows it cannot be read.
fn version_of(text: &str) -> Option<u64> {
    let found = Cell::new(None);
    // What else is wrong is told when the plan itself is read.
    let _ = ron::Options::default().from_str_seed(text, Look(&found));
    found.get()
}

/// Looks through the fields of a file for its version alone.
struct Look<'a>(&'a Cell<Option<u64>>);

#[derive(Deserialize)]
#[serde(field_identifier, rename_all = "lowercase")]
enum Field {
    Version,
    #[serde(other)]
    Other,
}

impl<'de> DeserializeSeed<'de> for Look<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, input: D) -> Result<(), D::Error> {
        input.deserialize_struct("Plan", &["version"], self)
    }
}

impl<'de> Visitor<'de> for Look<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a plan")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut fields: A) -> Result<(), A::Error> {
        while let Some(field) = fields.next_key()? {
            match field {
                Field::Version => self.0.set(Some(fields.next_value()?)),
                Field::Other => drop(fields.next_value::<IgnoredAny>()?),
            }
        }
        Ok(())
    }
}

/// Whether a type is what a person calls a thing: `BuildUp` a build-up.
fn is_called(name: &str, thing: &str) -> bool {
    let letters = thing.chars().filter(|letter| letter.is_alphabetic());
    letters.eq(name.chars().flat_map(char::to_lowercase))
}

/// What is wrong in a file, in words for whoever wrote it by hand, without a final stop.
fn sentence(error: &ron::Error, thing: &str) -> String {
    match error {
        ron::Error::NoSuchStructField {
            expected, found, ..
        } => {
            format!(
                "there is no field `{found}` here: it may be {}",
                any_of(expected)
            )
        }
        ron::Error::NoSuchEnumVariant {
            expected, found, ..
        } => {
            format!(
                "`{found}` is not one of the words for this: write {}",
                any_of(expected)
            )
        }
        ron::Error::MissingStructField { field, .. } => {
            format!("the field `{field}` is missing from what ends here")
        }
        ron::Error::DuplicateStructField { field, .. } => {
            format!("the field `{field}` is given twice: leave one of them")
        }
        ron::Error::ExpectedFloat
        | ron::Error::UnderscoreAtBeginning
        | ron::Error::FloatUnderscore => "a number is expected here, such as 1.2".into(),
        ron::Error::ExpectedInteger => "a whole number is expected here, such as 1".into(),
        ron::Error::IntegerOutOfBounds => {
            "this whole number cannot stand here: it is below 0 or too large".into()
        }
        ron::Error::ExpectedBoolean => "true or false is expected here".into(),
        ron::Error::ExpectedString => {
            "text between double quotes is expected here, such as \"Gate\"".into()
        }
        ron::Error::ExpectedOption => "Some(…) around the value, or None, is expected here".into(),
        ron::Error::ExpectedArray => "a list in square brackets is expected here: [ … ]".into(),
        ron::Error::ExpectedComma => {
            "a comma is missing before this, or what stands before it is not as it should be".into()
        }
        ron::Error::ExpectedMapColon => "a colon is missing between a field and its value".into(),
        ron::Error::ExpectedDifferentLength { expected, found } => {
            // ron says `a tuple of size 2`
            let count = expected.rsplit(' ').next().unwrap_or(expected);
            format!("{count} values belong together here, not {found}")
        }
        ron::Error::ExpectedNamedStructLike(name) if is_called(name, thing) => {
            format!("this does not start as a {thing} does, with `(` and its fields")
        }
        ron::Error::ExpectedStructName(_) | ron::Error::ExpectedDifferentStructName { .. } => {
            format!("this does not start as a {thing} does, with `(` and its fields")
        }
        ron::Error::ExpectedStructLike | ron::Error::ExpectedNamedStructLike(_) => {
            "`(` is expected here".into()
        }
        ron::Error::ExpectedStructLikeEnd => "`)` is expected here".into(),
        ron::Error::ExpectedIdentifier
        | ron::Error::InvalidIdentifier(_)
        | ron::Error::SuggestRawIdentifier(_) => {
            "a field's name is expected here; decimals are written with a point, not a comma".into()
        }
        ron::Error::Eof => {
            format!("the file stops here, in the middle of the {thing}: the end of it is lost")
        }
        ron::Error::ExpectedStringEnd => "the text that starts here has no closing quote".into(),
        ron::Error::TrailingCharacters => {
            format!("the {thing} has ended before this: take out what follows")
        }
        ron::Error::UnclosedBlockComment => "a comment opened with /* is not closed with */".into(),
        ron::Error::ExceededRecursionLimit => {
            format!("brackets lie in brackets deeper than in any {thing}")
        }
        other => other.to_string(),
    }
}

fn any_of(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
        None => "nothing".into(),
    }
}

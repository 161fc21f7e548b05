//! A drawing on its own, to be sent or shown: ink on a blank rectangle, without a page round it.

use std::fmt;

use crate::document::Page;
use crate::ink::Ink;
use crate::lettering;
use crate::paper::Frame;

/// A drawing on its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// What it is called.
    pub title: String,
    /// What it shows, for whoever hears it read.
    pub description: String,
    /// The blank rectangle, its corner at the origin.
    pub whole: Frame,
    /// What is on it, in reading order.
    pub inks: Vec<Ink>,
}

impl From<&Page> for Picture {
    fn from(page: &Page) -> Self {
        Self {
            title: page.title.clone(),
            description: String::new(),
            whole: page.whole(),
            inks: page.inks().cloned().collect(),
        }
    }
}

impl Picture {
    /// Looks for what could not be drawn, or would be drawn as something else.
    pub(crate) fn check(&self) -> Result<(), PictureError> {
        for ink in &self.inks {
            if !ink.is_finite() {
                return Err(PictureError::NotANumber);
            }
            let mut wrong = None;
            ink.each_text(&mut |text| {
                let missing = lettering::missing_glyphs(&text.words);
                if !missing.is_empty() && wrong.is_none() {
                    wrong = Some(PictureError::Missing {
                        words: text.words.clone(),
                        missing,
                    });
                }
            });
            if let Some(wrong) = wrong {
                return Err(wrong);
            }
        }
        Ok(())
    }
}

/// Why a picture was not written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PictureError {
    /// Words with characters that the type face lacks.
    Missing {
        /// The words.
        words: String,
        /// The characters.
        missing: Vec<char>,
    },
    /// Ink with a figure that is not a number.
    NotANumber,
    /// So many pixels wide are not drawn.
    Width(u32),
    /// It cannot be drawn.
    Refused(String),
}

impl fmt::Display for PictureError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing { words, missing } => {
                let shown: Vec<String> = missing
                    .iter()
                    .map(|letter| format!("U+{:04X}", u32::from(*letter)))
                    .collect();
                write!(
                    f,
                    "the picture says “{words}”, but the type face has no sign for {}: write it another way",
                    shown.join(", ")
                )
            }
            Self::NotANumber => f.write_str(
                "the picture has a line whose place is not a number: this is a fault of the program",
            ),
            Self::Width(width) => write!(
                f,
                "a picture is {} to {} pixels wide, not {width}",
                crate::png::LEAST_WIDE,
                crate::png::MOST_WIDE
            ),
            Self::Refused(reason) => write!(f, "the picture cannot be drawn: {reason}"),
        }
    }
}

impl std::error::Error for PictureError {}

//! Pictures as files: of which kind one is, by its name, and how wide it is if nothing is said.

use std::path::Path;

use sheet::{Picture, PictureError};

/// How wide a picture is in pixels if nothing is said: sharp on any screen it is sent to.
pub(crate) const USUAL_WIDE: u32 = 1_600;

/// What a picture is written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// In lines.
    Svg,
    /// In pixels.
    Png,
}

impl Kind {
    /// The kind that the end of a name asks for.
    pub(crate) fn named(path: &Path) -> Option<Self> {
        let is = |ending| {
            let extension = path.extension()?;
            extension.eq_ignore_ascii_case(ending).then_some(())
        };
        match (is("svg"), is("png")) {
            (Some(()), _) => Some(Self::Svg),
            (_, Some(())) => Some(Self::Png),
            _ => None,
        }
    }

    /// The file; pixels are so many wide.
    pub(crate) fn bytes(self, picture: &Picture, width: u32) -> Result<Vec<u8>, PictureError> {
        match self {
            Self::Svg => sheet::svg(picture).map(String::into_bytes),
            Self::Png => sheet::png(picture, width),
        }
    }
}

//! Draws a picture in pixels: the one file that knows the library that draws, which reads our SVG.
//!
//! It is given the two cuts of the sheet's type face and looks for no others, so that the same picture
//! gives the same pixels on every machine.

use std::sync::{Arc, LazyLock};

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};

use crate::lettering;
use crate::picture::{Picture, PictureError};
use crate::svg::svg;

/// The narrowest picture, in pixels: words are no longer read on a smaller one.
pub const LEAST_WIDE: u32 = 200;
/// The widest, in pixels: A2 at 300 to an inch, and no more than a modest machine holds.
pub const MOST_WIDE: u32 = 8_000;

/// The PNG of a picture so many pixels wide, as high as its shape asks.
///
/// # Errors
/// [`PictureError::Width`] outside [`LEAST_WIDE`] to [`MOST_WIDE`]; else as [`svg`].
pub fn png(picture: &Picture, width: u32) -> Result<Vec<u8>, PictureError> {
    if !(LEAST_WIDE..=MOST_WIDE).contains(&width) {
        return Err(PictureError::Width(width));
    }
    let refused = |reason: String| PictureError::Refused(reason);
    let options = Options {
        font_family: "Inter".to_owned(),
        fontdb: Arc::clone(&FONTS),
        ..Options::default()
    };
    let tree =
        Tree::from_str(&svg(picture)?, &options).map_err(|error| refused(error.to_string()))?;
    let size = tree.size().to_int_size();
    let scaled = size.scale_to_width(width);
    let room = scaled.and_then(|size| Pixmap::new(size.width(), size.height()));
    let mut pixels = room.ok_or_else(|| refused("it has no size".to_owned()))?;
    let by = single(f64::from(width)) / tree.size().width();
    resvg::render(&tree, Transform::from_scale(by, by), &mut pixels.as_mut());
    pixels
        .encode_png()
        .map_err(|error| refused(error.to_string()))
}

static FONTS: LazyLock<Arc<Database>> = LazyLock::new(|| {
    let mut fonts = Database::new();
    for cut in [lettering::REGULAR, lettering::SEMI_BOLD] {
        fonts.load_font_data(cut.to_vec());
    }
    Arc::new(fonts)
});

#[expect(
    clippy::cast_possible_truncation,
    reason = "a whole number below ten thousand"
)]
fn single(figure: f64) -> f32 {
    figure as f32
}

//! Opening the window, or saying in a sentence why it cannot open.

use std::fmt;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use super::words::{self, launch as packages};

/// Opens the window and returns when it has been closed.
///
/// `create` makes the window's content, as the window library wants it. Nothing is printed here.
///
/// # Errors
/// * [`LaunchError::NoDisplay`] when there is no display to open a window on;
/// * [`LaunchError::NoWindowLibrary`] when a library for windows is missing, or the display named does not answer;
/// * [`LaunchError::NoGraphics`] when a window could open but not be drawn in;
/// * [`LaunchError::Content`] when `create` failed.
///
/// # Panics
/// Only what panics in the window's content, once it is open, panics on.
pub fn run(create: eframe::AppCreator<'_>) -> Result<(), LaunchError> {
    let open = Arc::new(AtomicBool::new(false));
    let opened = Arc::clone(&open);
    // A missing keyboard library shows as a panic inside the window library. Until the window is there, panics are
    // caught and turned into a sentence, so nothing of them shall be printed; from then on they are ours again.
    let printing = Arc::new(std::panic::take_hook());
    let later = Arc::clone(&printing);
    std::panic::set_hook(Box::new(move |panic| {
        if opened.load(Ordering::Relaxed) {
            later(panic);
        }
    }));
    keep_freed_memory();
    let now_open = Arc::clone(&open);
    let create: eframe::AppCreator<'_> = Box::new(move |context| {
        now_open.store(true, Ordering::Relaxed);
        create(context)
    });
    let ended = catch_unwind(AssertUnwindSafe(|| {
        eframe::run_native(words::PROGRAM, options(), create)
    }));
    std::panic::set_hook(Box::new(move |panic| printing(panic)));
    match ended {
        Ok(Ok(())) => Ok(()),
        Ok(Err(error)) => Err(LaunchError::from_library(error, display_named())),
        Err(panic) if open.load(Ordering::Relaxed) => resume_unwind(panic),
        Err(panic) => Err(LaunchError::NoWindowLibrary(said(panic.as_ref()))),
    }
}

/// Why the window cannot open. Shown, it is a sentence with what to do about it.
#[derive(Debug)]
pub enum LaunchError {
    /// There is no display.
    NoDisplay,
    /// A library for windows is missing or the display does not answer; with what the window library said.
    NoWindowLibrary(String),
    /// There is a display, but no way to draw on it; with what the window library said.
    NoGraphics(String),
    /// The window's content could not be made.
    Content(String),
}

impl LaunchError {
    fn from_library(error: eframe::Error, display_named: bool) -> Self {
        match error {
            eframe::Error::AppCreation(error) => Self::Content(error.to_string()),
            eframe::Error::WinitEventLoop(_) if !display_named => Self::NoDisplay,
            eframe::Error::WinitEventLoop(error) => Self::NoWindowLibrary(plain(&error)),
            eframe::Error::Winit(error) => Self::NoWindowLibrary(plain(&error)),
            eframe::Error::NoGlutinConfigs(..) => {
                Self::NoGraphics("no driver was found".to_owned())
            }
            error => Self::NoGraphics(plain(&error)),
        }
    }
}

impl fmt::Display for LaunchError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (x11, wayland, without) = (
            packages::X11_PACKAGES,
            packages::WAYLAND_PACKAGES,
            packages::WITHOUT_WINDOW,
        );
        match self {
            Self::NoDisplay => write!(
                f,
                "the window cannot open because there is no display (neither DISPLAY nor WAYLAND_DISPLAY is set). {without}"
            ),
            Self::NoWindowLibrary(said) => write!(
                f,
                "the window cannot open because the display does not answer or a library is missing ({said}); on Debian install {x11} for X11, or {wayland} for Wayland. {without}"
            ),
            Self::NoGraphics(said) => write!(
                f,
                "the window cannot open because nothing here can draw with OpenGL ({said}); on Debian install libgl1 libgl1-mesa-dri libegl1. {without}"
            ),
            Self::Content(said) => write!(f, "the window cannot open: {said}"),
        }
    }
}

impl std::error::Error for LaunchError {}

fn options() -> eframe::NativeOptions {
    eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default()
            .with_title(words::PROGRAM)
            .with_app_id("pegbow")
            .with_inner_size([1280.0, 800.0])
            .with_min_inner_size([760.0, 480.0]),
        // Noise against banding: there are no gradients here, and without a graphics card every pixel costs.
        dithering: false,
        ..eframe::NativeOptions::default()
    }
}

/// Where the screen is drawn by the processor, each frame takes several megabytes and frees them again. The C library
/// of Linux hands such blocks back to the system at once, and getting them anew, page by page, takes longer than drawing.
/// From the largest block that was ever freed it learns to keep blocks up to that size (mallopt(3), under
/// `M_MMAP_THRESHOLD`): here is one, of which no page is ever touched.
fn keep_freed_memory() {
    drop(std::hint::black_box(Vec::<u8>::with_capacity(
        LARGEST_KEPT_BLOCK,
    )));
}

/// In bytes. The C library learns nothing from blocks over 32 MiB.
const LARGEST_KEPT_BLOCK: usize = 31 << 20;

/// Whether the environment names a display. Elsewhere than on X11 and Wayland there always is one.
fn display_named() -> bool {
    let set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    !cfg!(all(unix, not(target_os = "macos")))
        || set("DISPLAY")
        || set("WAYLAND_DISPLAY")
        || set("WAYLAND_SOCKET")
}

/// What a panic said, on one line.
fn said(panic: &(dyn std::any::Any + Send)) -> String {
    let words = panic
        .downcast_ref::<String>()
        .map(String::as_str)
        .or_else(|| panic.downcast_ref::<&str>().copied())
        .unwrap_or("no reason was given");
    plain(&words)
}

/// A message on one line, not longer than a sentence, and without the place in the library's source that raised it.
fn plain(message: &impl fmt::Display) -> String {
    let text = message.to_string();
    let text = match text.strip_prefix("os error at ") {
        Some(placed) => placed.split_once(": ").map_or(placed, |(_, said)| said),
        None => &text,
    };
    let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    match line.char_indices().nth(160) {
        Some((end, _)) => format!("{}…", &line[..end]),
        None => line,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_failure_is_one_line_with_a_remedy() {
        for error in [
            LaunchError::NoDisplay,
            LaunchError::NoWindowLibrary(plain(&"two\nlines")),
            LaunchError::NoGraphics(plain(&"x".repeat(4000))),
        ] {
            let text = error.to_string();
            assert!(!text.contains('\n') && text.chars().count() < 520, "{text}");
            assert!(text.contains("pegbow --help"), "{text}");
        }
        let missing = LaunchError::NoWindowLibrary(String::new()).to_string();
        assert!(missing.contains("libxkbcommon-x11-0") && missing.contains("libwayland-client0"));
    }

    #[test]
    fn the_words_of_a_panic_are_kept() {
        assert_eq!(said(&"short"), "short");
        assert_eq!(said(&String::from("a\n  b")), "a b");
        assert_eq!(said(&7_u8), "no reason was given");
        let placed =
            "os error at /home/a/src/linux/mod.rs:788: Failed to open connection to X server";
        assert_eq!(plain(&placed), "Failed to open connection to X server");
    }
}

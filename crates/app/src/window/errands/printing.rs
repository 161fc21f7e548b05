//! What is written as pages: the stake-out, the order list, the client's page.

use std::path::Path;

use plan::{History, Plan, Solved};

use super::{Done, words};
use crate::files;
use crate::window::pick::Pick;
use crate::window::slip::SheetWish;

/// What prints one option: [`sheet::stakeout`] or [`sheet::order_list`].
pub(super) type Printing = fn(&Plan, &Solved, &sheet::Request) -> Result<Vec<u8>, sheet::PdfError>;

/// Writes pages of the chosen option.
pub(super) fn write_pages(
    path: &Path,
    own: Option<&Path>,
    history: &History,
    wished: (Pick, SheetWish),
    printing: Printing,
) -> Done {
    let plan = history.settled();
    let written = || printing(plan, &plan.solve(), &request(plan, wished));
    write_pdf(path, own, written)
}

/// The options that are drawn, the first four, on one page; with prices if there are any.
pub(super) fn write_client_page(
    path: &Path,
    own: Option<&Path>,
    history: &History,
    wish: SheetWish,
) -> Done {
    let plan = history.settled();
    let solved = plan.solve();
    let drawn = solved.schemes.iter().enumerate();
    let drawn = drawn.filter(|(_, scheme)| scheme.routes.iter().any(|r| r.centre_line.is_some()));
    let schemes: Vec<usize> = drawn.map(|(i, _)| i).take(sheet::MOST_OPTIONS).collect();
    if schemes.is_empty() {
        return Done::Failed(words::NOTHING_TO_SHOW.to_owned());
    }
    let request = sheet::OptionsRequest {
        schemes,
        prices: !wish.without_prices && !plan.prices.is_empty(),
        paper: paper(plan, wish),
        both_units: wish.both_units,
        date: crate::clock::today(),
    };
    write_pdf(path, own, || sheet::client_page(plan, &solved, &request))
}

/// Writes pages, never over the plan.
fn write_pdf(
    path: &Path,
    own: Option<&Path>,
    written: impl FnOnce() -> Result<Vec<u8>, sheet::PdfError>,
) -> Done {
    if own.is_some_and(|own| files::is_same_file(own, path)) {
        return Done::Failed(words::SHEET_OVER_PLAN.to_owned());
    }
    let written = written().map_err(|error| error.to_string());
    match written.and_then(|bytes| files::write_atomically(path, &bytes).map_err(|e| e.to_string()))
    {
        Ok(()) => Done::Wrote(words::wrote(path)),
        Err(error) => Done::Failed(error),
    }
}

/// What is printed of the chosen option, on which paper.
fn request(plan: &Plan, (pick, wish): (Pick, SheetWish)) -> sheet::Request {
    sheet::Request {
        scheme: pick.scheme,
        paper: paper(plan, wish),
        both_units: wish.both_units,
        date: crate::clock::today(),
    }
}

fn paper(plan: &Plan, wish: SheetWish) -> sheet::Paper {
    if wish.on_letter(plan.units) {
        sheet::Paper::Letter
    } else {
        sheet::Paper::A4
    }
}

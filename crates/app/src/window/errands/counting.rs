//! What counting takes from files and writes to them: build-ups, the price list, the order list.

use std::path::Path;
use std::sync::Arc;

use plan::order::order;
use plan::price::{order_csv, write_price_list};
use plan::{Edit, History};

use super::{Done, words};
use crate::files::{self, FilesError};
use crate::window::pick::Pick;

/// Builds the chosen option up as a file says; what is in use stays if it says nothing of the kind.
pub(super) fn read_build_up(path: &Path, pick: Pick) -> Done {
    let edit = files::build_up(path).map(|build_up| Edit::SetBuildUp {
        scheme: pick.scheme,
        build_up: Some(Arc::new(build_up)),
    });
    read(path, edit)
}

/// Takes the prices of a list.
pub(super) fn open_prices(path: &Path) -> Done {
    read(
        path,
        files::price_list(path).map(|list| Edit::SetPrices(Arc::new(list))),
    )
}

fn read(path: &Path, edit: Result<Edit, FilesError>) -> Done {
    match edit {
        Ok(edit) => Done::Read(Box::new(edit), words::taken_from(path)),
        Err(error) => Done::Failed(error.to_string()),
    }
}

/// Keeps the prices of the plan in a file.
pub(super) fn save_prices(path: &Path, own: Option<&Path>, history: &History) -> Done {
    let list = write_price_list(&history.settled().prices);
    write(path, own, &list, words::prices_saved)
}

/// Writes the order list of the chosen option.
pub(super) fn write_order(path: &Path, own: Option<&Path>, history: &History, pick: Pick) -> Done {
    let plan = history.settled();
    match order(plan, &plan.solve(), pick.scheme) {
        Some(order) => write(path, own, &order_csv(&order.charge), words::ordered),
        None => Done::Failed(words::NOTHING_TO_ORDER.to_owned()),
    }
}

fn write(path: &Path, own: Option<&Path>, text: &str, said: fn(&Path) -> String) -> Done {
    if own.is_some_and(|own| files::is_same_file(own, path)) {
        return Done::Failed(words::OVER_PLAN.to_owned());
    }
    match files::write_atomically(path, text.as_bytes()) {
        Ok(()) => Done::Wrote(said(path)),
        Err(error) => Done::Failed(error.to_string()),
    }
}

//! Edits: the hand moves one thing; what the person fixed stays; otherwise the shape stays.

mod common;

#[path = "edits/dragging.rs"]
mod dragging;
#[path = "edits/refusing.rs"]
mod refusing;
#[path = "edits/site.rs"]
mod site;
#[path = "edits/typing.rs"]
mod typing;
#[path = "edits/whole_paths.rs"]
mod whole_paths;

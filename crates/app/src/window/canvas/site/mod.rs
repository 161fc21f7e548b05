//! What is on the ground: obstacles and marks as they are drawn, named, chosen, moved and sketched.

mod chosen;
mod grip;
mod hatch;
mod holds;
mod keys;
mod look;
mod names;
mod reach;
mod scale;
mod sketch;

pub(super) use self::grip::SiteGrip;
pub(super) use self::look::draw_grounds;
pub(super) use self::names::{keep_paths_free, write_names};
pub(super) use self::reach::choose;
pub(crate) use self::reach::{insert as insert_corner, side_of};
pub(super) use self::scale::{draw_scale, keep_scale_free};
pub(super) use self::sketch::{takes_drags, tip, ui as sketch_ui};

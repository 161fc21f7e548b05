//! The build-ups that come with the program, read from their files.

use std::sync::LazyLock;

use super::{BuildUp, read_build_up};

/// The texts of the build-ups that come with the program.
const TEXTS: [&str; 7] = [
    include_str!("../../../../../assets/build-ups/compacted-gravel.ron"),
    include_str!("../../../../../assets/build-ups/self-binding-gravel.ron"),
    include_str!("../../../../../assets/build-ups/bark.ron"),
    include_str!("../../../../../assets/build-ups/pavers-on-sand.ron"),
    include_str!("../../../../../assets/build-ups/flags-on-mortar.ron"),
    include_str!("../../../../../assets/build-ups/poured-concrete.ron"),
    include_str!("../../../../../assets/build-ups/stepping-stones.ron"),
];

static BUILT_IN: LazyLock<Vec<BuildUp>> = LazyLock::new(|| {
    // A test reads each of them: none is left out here.
    TEXTS
        .iter()
        .filter_map(|text| read_build_up(text).ok())
        .collect()
});

/// The build-ups that come with the program: compacted gravel, self-binding gravel, bark, pavers on
/// sand, flags on mortar, poured concrete, stepping stones.
#[must_use]
pub fn built_in() -> &'static [BuildUp] {
    &BUILT_IN
}

//! The house rules that a program can check: layers, first lines, figures documented, top level.

use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the workspace is above its tests")
        .to_owned()
}

fn read(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// The names of the crates of this workspace that a manifest depends on, without its tests.
fn depends_on(krate: &str) -> Vec<String> {
    let manifest = read(&format!("crates/{krate}/Cargo.toml"));
    let mut section = "";
    let mut found = Vec::new();
    for line in manifest.lines() {
        if let Some(name) = line.strip_prefix('[') {
            section = name.trim_end_matches(']');
        } else if section == "dependencies" {
            let name = line.split(['.', ' ', '=']).next().unwrap_or_default();
            if ["geometry", "plan", "sheet", "pegbow"].contains(&name) {
                found.push(name.to_owned());
            }
        }
    }
    found.sort();
    found
}

#[test]
fn layers_point_one_way() {
    assert_eq!(depends_on("geometry"), [""; 0]);
    assert_eq!(depends_on("plan"), ["geometry"]);
    assert_eq!(depends_on("sheet"), ["geometry", "plan"]);
    assert_eq!(depends_on("app"), ["geometry", "plan", "sheet"]);
}

/// Numbers only: the one thing `geometry` leaves to a library is the index by place of many patches.
#[test]
fn geometry_needs_nothing_to_run_but_an_index() {
    let manifest = read("crates/geometry/Cargo.toml");
    let needed = manifest
        .split("\n[")
        .find_map(|section| section.strip_prefix("dependencies]"));
    let needed = needed.unwrap_or_default().trim();
    assert_eq!(needed, "rstar.workspace = true");
    for table in ["build-dependencies", ".dependencies"] {
        assert!(!manifest.contains(table), "{table} in geometry");
    }
}

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder of sources") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

fn all_sources() -> Vec<PathBuf> {
    let mut found = Vec::new();
    for folder in ["crates", "tests"] {
        sources(&root().join(folder), &mut found);
    }
    assert!(found.len() > 50, "only {} sources found", found.len());
    found
}

#[test]
fn every_file_says_in_its_first_line_what_it_is() {
    for path in all_sources() {
        let text = fs::read_to_string(&path).expect("a source");
        let first = text.lines().next().unwrap_or_default();
        assert!(
            first.starts_with("//! ") && first.len() > 12,
            "{}: {first}",
            path.display()
        );
    }
}

#[test]
fn one_file_knows_ron_one_the_pdf_crate_and_only_the_app_opens_files() {
    for path in all_sources() {
        let place = path.strip_prefix(root()).expect("below the root");
        let place = place.to_string_lossy().replace('\\', "/");
        let text = fs::read_to_string(&path).expect("a source");
        let shipped = place.starts_with("crates/") && place.contains("/src/");
        if !shipped {
            continue;
        }
        let knows = |word: &str| text.contains(word);
        assert!(
            !knows("ron::") || place == "crates/plan/src/file.rs",
            "{place} knows RON"
        );
        let writes_pdf =
            place == "crates/sheet/src/pdf.rs" || place.starts_with("crates/sheet/src/pdf/");
        assert!(
            !knows("krilla::") || writes_pdf,
            "{place} knows the PDF crate"
        );
        assert!(
            !knows("resvg::") || place == "crates/sheet/src/png.rs",
            "{place} knows the library that draws pixels"
        );
        assert!(
            !knows("std::fs") || place.starts_with("crates/app/"),
            "{place} opens files"
        );
        assert!(
            !knows("SystemTime::now") && !knows("Instant::now") || place.starts_with("crates/app/"),
            "{place} looks at a clock"
        );
        assert!(
            !knows("egui") || place.starts_with("crates/app/"),
            "{place} knows the window"
        );
        for stub in ["todo!(", "unimplemented!(", "#[ignore"] {
            assert!(!knows(stub), "{place} has {stub}");
        }
    }
}

#[test]
fn the_top_level_is_as_agreed() {
    let allowed = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE-MIT",
        "LICENSE-APACHE",
        "crates",
        "assets",
        "tests",
        "docs",
        "target",
    ];
    for entry in fs::read_dir(root()).expect("the root") {
        let name = entry.expect("an entry").file_name();
        let name = name.to_string_lossy();
        assert!(
            name.starts_with('.') || allowed.contains(&name.as_ref()),
            "{name} does not belong at the top level"
        );
    }
}

#[test]
fn the_readme_opens_with_the_job_and_names_the_two_commands() {
    let readme = read("README.md");
    let first = readme
        .lines()
        .find(|line| !line.starts_with('#') && !line.trim().is_empty());
    assert!(
        first.is_some_and(|line| line.contains("garden path")),
        "{first:?}"
    );
    for command in ["cargo run --release", "cargo test --workspace"] {
        assert!(readme.contains(command), "{command}");
    }
    for picture in readme
        .split("](")
        .skip(1)
        .filter_map(|rest| rest.split(')').next())
    {
        if !picture.starts_with("http") && !picture.starts_with('#') {
            assert!(root().join(picture).exists(), "README points to {picture}");
        }
    }
}

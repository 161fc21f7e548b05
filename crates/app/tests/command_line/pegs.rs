//! `pegbow pegs`: the table, read back, and what names may hold.

use std::collections::HashMap;

use super::*;

/// The rows of a table that is written for a plan, each by the names of its columns.
fn rows(folder: &Folder, plan: &Path, more: &[&str]) -> Vec<HashMap<String, String>> {
    let to = folder.path("pegs.csv");
    let given = ["pegs", plan.to_str().unwrap(), "--to", to.to_str().unwrap()];
    let said = done(&[&given[..], more].concat());
    let text = fs::read_to_string(&to).unwrap();
    let rows = read(&text);
    assert!(said.contains(&format!("{} pegs", rows.len())), "{said}");
    rows
}

/// Reads a table as RFC 4180 says, by hand: quotes, doubled quotes, lines that end in CR LF.
fn read(text: &str) -> Vec<HashMap<String, String>> {
    let (mut records, mut record, mut field) = (Vec::new(), Vec::new(), String::new());
    let (mut quoted, mut chars) = (false, text.chars().peekable());
    while let Some(c) = chars.next() {
        match (c, quoted) {
            ('"', true) if chars.peek() == Some(&'"') => field.extend(chars.next()),
            ('"', _) => quoted = !quoted,
            (',', false) => record.push(std::mem::take(&mut field)),
            ('\r', false) => {
                assert_eq!(chars.next(), Some('\n'), "a line ends in CR LF");
                record.push(std::mem::take(&mut field));
                records.push(std::mem::take(&mut record));
            }
            (other, _) => field.push(other),
        }
    }
    assert!(record.is_empty() && field.is_empty() && !quoted, "{text}");
    let heads: Vec<String> = records.remove(0);
    records
        .into_iter()
        .map(|record| {
            assert_eq!(record.len(), heads.len(), "{record:?}");
            heads.iter().cloned().zip(record).collect()
        })
        .collect()
}

fn number(row: &HashMap<String, String>, column: &str) -> f64 {
    row[column].parse().expect(column)
}

#[test]
fn the_pegs_of_the_example() {
    let folder = Folder::new();
    let plan = folder.example();
    let rows = rows(&folder, &plan, &[]);
    let called: Vec<&str> = rows.iter().map(|row| row["peg"].as_str()).collect();
    assert_eq!(
        called,
        ["1", "2", "3", "4", "5", "6", "7", "S1", "S2", "S3"]
    );
    let read = plan::example::plan().unwrap();
    let marks: HashMap<_, _> = read
        .site
        .marks
        .iter()
        .map(|m| (m.name.as_str(), m.at))
        .collect();
    let pegs: HashMap<_, _> = rows
        .iter()
        .map(|row| (format!("peg {}", row["peg"]), row))
        .collect();
    // Whoever reads only the table finds each peg where it is, and each edge half the width off.
    for row in &rows {
        let at = geometry::Point::new(number(row, "x"), number(row, "y"));
        for [from, tie] in [
            ["tie_1_from", "tie_1"],
            ["tie_2_from", "tie_2"],
            ["check_from", "check"],
        ] {
            if row[from].is_empty() {
                continue;
            }
            let there = marks.get(row[from].as_str()).copied().unwrap_or_else(|| {
                let peg = pegs[&row[from]];
                geometry::Point::new(number(peg, "x"), number(peg, "y"))
            });
            let off = at.distance(there) - number(row, tie);
            assert!(off.abs() < 3e-4, "{row:?}"); // the decimals of three figures
        }
        let [from, to] = ["base_from", "base_to"].map(|end| marks[row[end].as_str()]);
        let along = (to - from).dot(at - from) / (to - from).length();
        assert!((along - number(row, "along")).abs() < 2e-4, "{row:?}");
        if row["station"].is_empty() {
            assert!(row["left_x"].is_empty(), "a swing point has no edges");
        } else {
            for side in ["left", "right"] {
                let edge = [format!("{side}_x"), format!("{side}_y")].map(|c| number(row, &c));
                let off = at.distance(geometry::Point::new(edge[0], edge[1]));
                assert!((off - 0.6).abs() < 2e-4, "{row:?}"); // all its joints are smooth
            }
        }
    }
    assert_eq!(rows[0]["station"], "0.0000");
    assert!(rows[1]["tie_side"] == "left" && number(&rows[1], "crossing_degrees") > 30.0);
}

#[test]
fn names_are_quoted_and_never_read_as_formulas() {
    let folder = Folder::new();
    let odd = plan::example::TEXT
        .replace("west gate post", r#"=post, \"the old\" one"#)
        .replace("east gate post", "@corner")
        .replace("Gate to shed", r#"+gate, \"shed\""#);
    let path = folder.with("odd.ron", odd);
    let rows = rows(&folder, &path, &[]);
    assert!(rows.iter().all(|row| row["path"] == "'+gate, \"shed\""));
    let cells: Vec<&String> = rows.iter().flat_map(HashMap::values).collect();
    assert!(
        cells.iter().any(|cell| *cell == "'=post, \"the old\" one"),
        "{cells:?}"
    );
    for cell in cells {
        let is_number = cell.parse::<f64>().is_ok();
        assert!(
            is_number || !cell.starts_with(['=', '+', '-', '@']),
            "{cell}"
        );
        assert_ne!(cell, "-0.0000");
    }
}

#[test]
fn another_option_and_what_is_refused() {
    let folder = Folder::new();
    let path = folder.example();
    let plan = path.to_str().unwrap();
    let to = folder.path("pegs.csv");
    let to = to.to_str().unwrap();
    assert_ne!(
        rows(&folder, &path, &[]),
        rows(&folder, &path, &["--option", "b"])
    );
    let beside = fs::read_dir(folder.0.path()).unwrap().count();
    assert_eq!(beside, 2, "no part of a file is left over");
    refused(&["pegs", plan], &["--to pegs.csv", "pegbow pegs --help"]);
    refused(&["pegs", "--to", to], &["name a plan after pegs"]);
    refused(
        &["pegs", plan, "--to", plan],
        &["a table is not written over a plan", ".csv"],
    );
    refused(
        &["pegs", plan, "--to", to, "--option", "D"],
        &["options A to C"],
    );
    refused(
        &["pegs", plan, "--to", to, "--paper", "a4"],
        &["there is no option --paper"],
    );
    refused(
        &["pegs", plan, "--to", folder.0.path().to_str().unwrap()],
        &["this is a folder"],
    );
    let bare = folder.with(
        "bare.ron",
        "(version: 1, units: Metric, graduation: Millimetre)",
    );
    refused(
        &["pegs", bare.to_str().unwrap(), "--to", to],
        &["no option to list"],
    );
    let empty = "(version: 1, units: Metric, graduation: Millimetre, schemes: [(name: \"\")])";
    let empty = folder.with("empty.ron", empty);
    refused(
        &["pegs", empty.to_str().unwrap(), "--to", to],
        &["has no pegs", "pegbow check"],
    );
}

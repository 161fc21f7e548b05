//! The rows of pegs as a table of comma-separated values.

use geometry::Point;

use super::{PegRow, Tie};

/// The columns, in order.
const COLUMNS: [&str; 20] = [
    "path",
    "peg",
    "x",
    "y",
    "station",
    "left_x",
    "left_y",
    "right_x",
    "right_y",
    "base_from",
    "base_to",
    "along",
    "off",
    "tie_1_from",
    "tie_1",
    "tie_2_from",
    "tie_2",
    "side",
    "check_from",
    "check",
];

/// The rows as text, a line each under one of the names of the columns; metres with every digit,
/// what does not exist left empty. Written as RFC 4180 has it, lines ending in CR LF.
///
/// ```
/// let plan = plan::example::plan()?;
/// let text = plan::setout::pegs_csv(&plan::setout::peg_rows(&plan, &plan.solve(), 0));
/// assert!(text.starts_with("path,peg,x,y,station,"));
/// assert!(text.contains("west gate post"));
/// # Ok::<(), plan::file::FileError>(())
/// ```
#[must_use]
pub fn pegs_csv(rows: &[PegRow]) -> String {
    let mut text = line(COLUMNS.map(str::to_owned));
    text.extend(rows.iter().map(|row| line(cells(row))));
    text
}

fn cells(row: &PegRow) -> [String; 20] {
    let number = |value: Option<f64>| value.map_or_else(String::new, |value| value.to_string());
    let [x, y] = coordinates(Some(row.at));
    let [left_x, left_y] = coordinates(row.left);
    let [right_x, right_y] = coordinates(row.right);
    let ties = row.ties.as_ref();
    let [one_from, one] = tie(ties.map(|ties| &ties.pair[0]));
    let [other_from, other] = tie(ties.map(|ties| &ties.pair[1]));
    let [check_from, check] = tie(ties.and_then(|ties| ties.check.as_ref()));
    [
        row.path.clone(),
        row.peg.clone(),
        x,
        y,
        number(row.station),
        left_x,
        left_y,
        right_x,
        right_y,
        row.base.from_name.clone(),
        row.base.to_name.clone(),
        number(Some(row.placing.along.exact)),
        number(Some(row.placing.off.exact)),
        one_from,
        one,
        other_from,
        other,
        ties.map_or_else(String::new, |ties| ties.side.word().to_owned()),
        check_from,
        check,
    ]
}

fn coordinates(at: Option<Point>) -> [String; 2] {
    at.map_or_else(Default::default, |at| [at.x.to_string(), at.y.to_string()])
}

fn tie(tie: Option<&Tie>) -> [String; 2] {
    tie.map_or_else(Default::default, |tie| {
        [tie.anchor.name.clone(), tie.distance.exact.to_string()]
    })
}

fn line(cells: [String; 20]) -> String {
    let quoted = cells.map(|cell| {
        if cell.contains([',', '"', '\r', '\n']) {
            format!("\"{}\"", cell.replace('"', "\"\""))
        } else {
            cell
        }
    });
    quoted.join(",") + "\r\n"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_with_commas_and_quotes_stay_one_cell() {
        let mut cells = [(); 20].map(|()| String::new());
        cells[0] = "round, \"the\" pond".into();
        assert!(line(cells).starts_with("\"round, \"\"the\"\" pond\",,"));
    }
}

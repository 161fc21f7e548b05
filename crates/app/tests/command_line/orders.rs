//! `pegbow order`: the list printed and written, prices from a list, and what is refused.

use super::*;

const PRICES: &str = r#"(
    version: 1,
    currency: (sign: "€"),
    lines: [(key: "dig", supplier: "Quarry Lane", sold: Per(CubicMetre), price: "40")],
)"#;

#[test]
fn an_option_is_listed_with_what_has_no_price() {
    let folder = Folder::new();
    let plan = folder.example();
    let plan = plan.to_str().unwrap();
    let list = done(&["order", plan]);
    assert!(list.starts_with("Option A: "), "{list}");
    assert!(list.contains("To dig\n"), "{list}");
    assert!(list.contains(": no price\n"), "{list}");
    assert!(list.contains("incomplete: "), "{list}");
    let other = done(&["order", plan, "--option", "B"]);
    assert!(other.starts_with("Option B: "), "{other}");
}

#[test]
fn prices_come_from_a_list_and_the_table_holds_every_line() {
    let folder = Folder::new();
    let plan = folder.example();
    let prices = folder.with("prices.ron", PRICES);
    let to = folder.path("order.csv");
    let [plan, prices, to] = [&plan, &prices, &to].map(|path| path.to_str().unwrap());
    let said = done(&["order", plan, "--prices", prices, "--to", to]);
    assert!(said.contains("are written to"), "{said}");
    let table = fs::read_to_string(to).unwrap();
    let digging = table.lines().find(|row| row.starts_with("dig,dig,"));
    assert!(digging.unwrap().contains(",Quarry Lane,"), "{table}");
    let lines = format!("{} lines for option A", table.lines().count() - 1);
    assert!(said.starts_with(&lines), "{said}");
}

#[test]
fn what_cannot_be_listed_is_refused_with_the_remedy() {
    let folder = Folder::new();
    let plan = folder.example();
    let mut bare = plan::example::plan().unwrap();
    for scheme in &mut bare.schemes {
        scheme.build_up = None;
    }
    let bare = folder.with("bare.ron", plan::file::write(&bare));
    let wrong = folder.with("wrong.ron", "(version: 1,\n lines: [(key: 7)])");
    let [plan, bare, wrong] = [&plan, &bare, &wrong].map(|path| path.to_str().unwrap());
    refused(&["order"], &["name a plan after order"]);
    refused(&["order", bare], &["no build-up", "choose at Count"]);
    refused(&["order", plan, "--option", "Z"], &["options A to C"]);
    refused(
        &["order", plan, "--prices", wrong],
        &["wrong.ron", "line 2"],
    );
    refused(&["order", plan, "--to", plan], &["not written over a plan"]);
}

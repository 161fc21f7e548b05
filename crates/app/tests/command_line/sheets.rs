//! `pegbow sheet`: what is written, and what never is.

use super::*;

#[test]
fn a_pdf_is_written_and_replaced() {
    let folder = Folder::new();
    let (plan, to) = (folder.example(), folder.path("sheet.pdf"));
    let (plan, pdf) = (plan.to_str().unwrap(), to.to_str().unwrap());
    let said = done(&["sheet", plan, "--to", pdf]);
    assert!(
        said.contains(pdf) && said.contains("option A on A4"),
        "{said}"
    );
    let first = fs::read(&to).unwrap();
    assert!(first.starts_with(b"%PDF-"));
    let said = done(&[
        "sheet",
        plan,
        "--to",
        pdf,
        "--paper",
        "letter",
        "--option",
        "b",
        "--both-units",
        "--date",
        "2026-04-30",
    ]);
    assert!(said.contains("option B on Letter"), "{said}");
    assert_ne!(fs::read(&to).unwrap(), first);
    let beside = fs::read_dir(folder.0.path()).unwrap().count();
    assert_eq!(beside, 2, "no part of a file is left over");
}

#[test]
fn a_sheet_of_what_cannot_be_built_is_written_with_a_word_of_care() {
    let folder = Folder::new();
    let wide = plan::example::TEXT.replace("width: 1.2", "width: 30.0");
    let (plan, to) = (folder.with("wide.ron", wide), folder.path("wide.pdf"));
    let ran = run(&[
        "sheet",
        plan.to_str().unwrap(),
        "--to",
        to.to_str().unwrap(),
    ]);
    assert_eq!(ran.asked, Asked::Done(cli::DONE), "{ran:?}");
    assert!(
        ran.err.contains("places of option A cannot be built"),
        "{ran:?}"
    );
    assert!(to.exists());
}

#[test]
fn a_plan_is_never_written_over() {
    let folder = Folder::new();
    let path = folder.example();
    let plan = path.to_str().unwrap();
    let linked = folder.path("./yard.ron");
    for to in [
        plan,
        linked.to_str().unwrap(),
        folder.path("other.RON").to_str().unwrap(),
    ] {
        refused(
            &["sheet", plan, "--to", to],
            &["not written over a plan", ".pdf"],
        );
    }
    assert_eq!(fs::read_to_string(&path).unwrap(), plan::example::TEXT);
    // Nor through another name for it.
    #[cfg(unix)]
    {
        let link = folder.path("link.pdf");
        std::os::unix::fs::symlink(&path, &link).unwrap();
        let to = link.to_str().unwrap();
        refused(&["sheet", plan, "--to", to], &["not written over a plan"]);
        assert_eq!(fs::read_to_string(&path).unwrap(), plan::example::TEXT);
    }
}

#[test]
fn places_that_cannot_be_written() {
    let folder = Folder::new();
    let path = folder.example();
    let plan = path.to_str().unwrap();
    let check = |to: &Path, expected: &[&str]| {
        refused(&["sheet", plan, "--to", to.to_str().unwrap()], expected);
    };
    check(folder.0.path(), &["this is a folder"]);
    check(
        &folder.path("none/sheet.pdf"),
        &["there is no folder", "make it first"],
    );
    check(&path.join("sheet.pdf"), &["there is no folder"]);
    let protected = folder.with("kept.pdf", "kept");
    let mut permissions = fs::metadata(&protected).unwrap().permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&protected, permissions).unwrap();
    check(&protected, &["protected", "nothing was changed"]);
    assert_eq!(fs::read(&protected).unwrap(), b"kept");
    if cfg!(target_os = "linux") {
        check(
            Path::new("/proc/sheet.pdf"),
            &["/proc/sheet.pdf", "nothing was changed"],
        );
    }
}

#[test]
fn wrong_usage() {
    let folder = Folder::new();
    let path = folder.example();
    let plan = path.to_str().unwrap();
    let to = folder.path("sheet.pdf");
    let to = to.to_str().unwrap();
    let check = |more: &[&str], expected: &[&str]| {
        refused(&[&["sheet", plan, "--to", to], more].concat(), expected);
    };
    check(&["--paper", "a5"], &["--paper a5", "a4 or letter"]);
    check(&["--option", "D"], &["--option D", "options A to C"]);
    check(&["--option", ""], &["options A to C"]);
    check(&["--date", "2026-02-29"], &["no such day", "2026-04-30"]);
    check(&["--date", "2026-4-30"], &["no such day"]);
    check(&["--date", "2026-04-30-1"], &["no such day"]);
    check(&["--date", "+026-04-30"], &["no such day"]);
    check(&["more.ron"], &["more.ron is one word too many"]);
    check(&["--colour"], &["there is no option --colour"]);
    refused(&["sheet", plan], &["--to sheet.pdf", "pegbow sheet --help"]);
    refused(&["sheet", "--to", to], &["name a plan after sheet"]);
    assert!(!Path::new(to).exists());
    let bare = folder.with(
        "bare.ron",
        "(version: 1, units: Metric, graduation: Millimetre)",
    );
    refused(
        &["sheet", bare.to_str().unwrap(), "--to", to],
        &["no option to print"],
    );
}

#[test]
fn the_order_list_and_the_page_for_a_client_are_sheets_of_their_own() {
    let folder = Folder::new();
    let (plan, to) = (folder.example(), folder.path("order.pdf"));
    let (plan, pdf) = (plan.to_str().unwrap(), to.to_str().unwrap());
    let said = done(&["sheet", plan, "--order", "--option", "b", "--to", pdf]);
    assert!(said.contains("the order list of option B on A4"), "{said}");
    let order = fs::read(&to).unwrap();
    let said = done(&["sheet", plan, "--client", "--options", "b,a", "--to", pdf]);
    assert!(said.contains("with options B, A on A4"), "{said}");
    let priced = fs::read(&to).unwrap();
    assert!(priced.starts_with(b"%PDF-") && priced != order);
    done(&["sheet", plan, "--client", "--without-prices", "--to", pdf]);
    assert_ne!(fs::read(&to).unwrap(), priced);
}

#[test]
fn what_does_not_go_together_is_refused_with_a_remedy() {
    let folder = Folder::new();
    let (plan, to) = (folder.example(), folder.path("out.pdf"));
    let (plan, pdf) = (plan.to_str().unwrap(), to.to_str().unwrap());
    let table: [(&[&str], &str); 5] = [
        (&["--order", "--client"], "write one after the other"),
        (&["--options", "A,B"], "say --client too"),
        (&["--order", "--without-prices"], "say --client too"),
        (&["--client", "--option", "B"], "--options A,B"),
        (&["--client", "--options", "A,Q"], "--option Q"),
    ];
    for (asked, remedy) in table {
        let ran = run(&[&["sheet", plan, "--to", pdf], asked].concat());
        assert_eq!(ran.asked, Asked::Done(cli::FAILED), "{asked:?}");
        assert!(ran.err.contains(remedy), "{asked:?}: {}", ran.err);
        assert!(!to.exists());
    }
}

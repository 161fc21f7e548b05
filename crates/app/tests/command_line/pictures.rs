//! `pegbow picture`: what is written, and what is refused.

use super::*;

#[test]
fn a_picture_is_written_in_lines_and_in_pixels() {
    let folder = Folder::new();
    let plan = folder.example();
    let plan = plan.to_str().unwrap();
    let svg = folder.path("yard.svg");
    let said = done(&["picture", plan, "--to", svg.to_str().unwrap()]);
    assert!(said.contains("option A is written to"), "{said}");
    let text = fs::read_to_string(&svg).unwrap();
    assert!(text.starts_with("<svg ") && text.contains("A, Round the cistern"));

    let png = folder.path("yard.PNG");
    let to = png.to_str().unwrap();
    let wide = |width: &str| {
        done(&[
            "picture", plan, "--option", "b", "--width", width, "--to", to,
        ]);
        let bytes = fs::read(&png).unwrap();
        assert!(bytes.starts_with(b"\x89PNG"));
        // The width stands in the header, most significant byte first.
        u32::from_be_bytes(bytes[16..20].try_into().unwrap())
    };
    assert_eq!(wide("640"), 640);
    assert_eq!(wide("200"), 200);
    done(&["picture", plan, "--to", to]);
    let usual = fs::read(&png).unwrap();
    assert_eq!(usual[16..20], 1600_u32.to_be_bytes());
    let beside = fs::read_dir(folder.0.path()).unwrap().count();
    assert_eq!(beside, 3, "no part of a file is left over");
}

#[test]
fn wrong_usage() {
    let folder = Folder::new();
    let path = folder.example();
    let plan = path.to_str().unwrap();
    let to = folder.path("yard.png");
    let to = to.to_str().unwrap();
    let check = |more: &[&str], expected: &[&str]| {
        refused(&[&["picture", plan, "--to", to], more].concat(), expected);
    };
    for width in ["199", "8001", "-5", "wide", "1e3", ""] {
        check(
            &["--width", width],
            &["--width", "200 to 8000 pixels wide", "--width 1600"],
        );
    }
    check(&["--option", "D"], &["--option D", "options A to C"]);
    check(&["more.ron"], &["more.ron is one word too many"]);
    check(
        &["--colour"],
        &["there is no option --colour", "pegbow picture --help"],
    );
    check(&["--width"], &["needs a value after it"]);
    refused(&["picture", plan], &["--to yard.svg or --to yard.png"]);
    refused(&["picture", "--to", to], &["name a plan after picture"]);
    for other in ["yard.gif", "yard", ".png"] {
        let to = folder.path(other);
        refused(
            &["picture", plan, "--to", to.to_str().unwrap()],
            &["ends in .svg or .png"],
        );
    }
    refused(
        &["picture", plan, "--to", plan],
        &["a picture is not written over a plan"],
    );
    assert_eq!(fs::read_to_string(&path).unwrap(), plan::example::TEXT);
    assert!(!Path::new(to).exists());
}

#[test]
fn names_that_the_type_face_lacks_are_refused() {
    let folder = Folder::new();
    let text = plan::example::TEXT.replace("Round the cistern", "\u{6c34}");
    let plan = folder.with("water.ron", text);
    let to = folder.path("water.svg");
    refused(
        &[
            "picture",
            plan.to_str().unwrap(),
            "--to",
            to.to_str().unwrap(),
        ],
        &["has no sign for U+6C34", "write it another way"],
    );
    assert!(!to.exists());
}

#[test]
fn help_says_how() {
    let help = done(&["picture", "--help"]);
    assert!(help.contains("--width PIXELS") && help.contains("Two examples"));
    assert!(done(&["--help"]).contains("pegbow picture"));
}

#[test]
fn the_plan_page_is_drawn_in_lines_to_its_scale() {
    let folder = Folder::new();
    let plan = folder.with("yard.ron", plan::example::TEXT);
    let plan = plan.to_str().unwrap();
    let to = folder.path("plan.svg");
    let to = to.to_str().unwrap();
    let said = done(&["sheet", plan, "--to", to]);
    assert!(
        said.contains("the plan page of option A on a4") || said.contains("on A4"),
        "{said}"
    );
    let text = fs::read_to_string(to).unwrap();
    assert!(text.starts_with("<svg ") && text.contains("1:100") && text.contains("S1"));
    refused(
        &["sheet", plan, "--client", "--to", to],
        &["only the plan page", ".pdf"],
    );
    refused(
        &["sheet", plan, "--order", "--to", to],
        &["only the plan page"],
    );
}

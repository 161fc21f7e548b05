//! Pictures: SVG that any reader takes, one element for each ink, and pixels where the ink is.

#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot be set up fails by panicking"
)]

use std::f64::consts::PI;

use plan::Plan;
use roxmltree::Document;
use sheet::{
    Anchor, Dash, Frame, Ink, Paper, Pen, Picture, PictureError, Pos, Request, Step, Style, Text,
    Tone, compose, option_picture, png, svg,
};

fn example() -> Plan {
    plan::example::plan().unwrap()
}

fn of(inks: Vec<Ink>) -> Picture {
    Picture {
        title: "A <small> & plain picture".into(),
        description: String::new(),
        whole: Frame::new(Pos::ORIGIN, 100.0, 50.0),
        inks,
    }
}

/// How many elements there are to draw, and how many pieces of ink.
fn counts(picture: &Picture) -> (usize, usize) {
    let text = svg(picture).unwrap();
    let document = Document::parse(&text).unwrap();
    let drawn = ["line", "path", "rect", "circle", "text"];
    let elements = document.descendants().filter(|node| {
        let in_window = node.ancestors().any(|up| up.has_tag_name("clipPath"));
        drawn.contains(&node.tag_name().name()) && !in_window
    });
    fn pieces(inks: &[Ink]) -> usize {
        let each = |ink: &Ink| match ink {
            Ink::Through { inks, .. } => pieces(inks),
            Ink::Text(text) => usize::from(!text.words.trim().is_empty()),
            _ => 1,
        };
        inks.iter().map(each).sum()
    }
    // The paper is one more.
    (elements.count() - 1, pieces(&picture.inks))
}

#[test]
fn one_element_for_each_ink() {
    let plan = example();
    let solved = plan.solve();
    for scheme in 0..3 {
        let (elements, pieces) = counts(&option_picture(&plan, &solved, scheme).unwrap());
        assert_eq!(elements, pieces);
        assert!(pieces > 60, "{pieces}");
    }
    assert_eq!(option_picture(&plan, &solved, 3), None);
    // And of every page of the sheet, the plan page among them.
    let request = Request {
        scheme: 0,
        paper: Paper::A4,
        both_units: true,
        date: None,
    };
    for page in &compose(&plan, &solved, &request).pages {
        let (elements, pieces) = counts(&Picture::from(page));
        assert_eq!(elements, pieces, "{}", page.title);
    }
}

#[test]
fn a_small_picture_to_the_letter() {
    let dashed = Pen::new(0.5, Dash::LongDashDot);
    let words = Text::new(Pos::new(50.0, 10.0), "3 < 4", Style::BODY.bold());
    let picture = of(vec![
        Ink::line(Pos::new(10.0, 10.0), Pos::new(20.0, 40.0), dashed),
        Ink::Path {
            from: Pos::new(10.0, 10.0),
            steps: vec![
                Step::To(Pos::new(30.0, 10.0)),
                Step::Round {
                    centre: Pos::new(30.0, 20.0),
                    sweep: PI,
                },
            ],
            closed: true,
            pen: None,
            fill: Some(Tone::Pale),
        },
        Ink::Through {
            window: Frame::new(Pos::new(40.0, 20.0), 20.0, 20.0),
            inks: vec![Ink::Circle {
                centre: Pos::new(50.0, 40.0),
                radius: 8.0,
                pen: Some(Pen::EDGE),
                fill: None,
            }],
        },
        words.anchored(Anchor::START).turned(PI / 2.0).into(),
    ]);
    let long = format!(
        "{:.2}",
        sheet::lettering::width("3 < 4", Style::BODY.bold())
    );
    let expected = format!(
        r##"<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50" role="img">
<title>A &lt;small&gt; &amp; plain picture</title>
<rect width="100" height="50" fill="#FFFFFF"/>
<g stroke-linecap="butt" stroke-linejoin="round" fill-rule="evenodd" font-family="Inter, sans-serif">
<line x1="10" y1="40" x2="20" y2="10" fill="none" stroke="#000000" stroke-width="0.5" stroke-dasharray="12 1.5 0.25 1.5"/>
<path d="M10 40L30 40A10 10 0 0 0 40 30A10 10 0 0 0 30 20Z" fill="#E4E4E4"/>
<clipPath id="window-1"><rect x="40" y="10" width="20" height="20"/></clipPath>
<g clip-path="url(#window-1)">
<circle cx="50" cy="10" r="8" fill="none" stroke="#000000" stroke-width="0.7"/>
</g>
<text x="50" y="40" font-size="3.436" font-weight="600" textLength="{long}" fill="#000000" transform="rotate(-90 50 40)">3 &lt; 4</text>
</g>
</svg>
"##
    );
    assert_eq!(svg(&picture).unwrap(), expected);
}

/// Grey levels of a PNG, and its width.
fn pixels(bytes: &[u8]) -> (Vec<u8>, u32) {
    let map = resvg::tiny_skia::Pixmap::decode_png(bytes).unwrap();
    (map.pixels().iter().map(|p| p.red()).collect(), map.width())
}

#[test]
fn arcs_go_round_the_way_they_should() {
    // A quarter turn to the left about (50, 25), then what is three quarters of a turn.
    // Places as columns and rows of pixels, ten to a millimetre, from the top: upper right, lower left.
    let (right, left) = ([641, 109], [359, 391]);
    for (sweep, inked, blank) in [(PI / 2.0, right, left), (-1.5 * PI, left, right)] {
        let picture = of(vec![Ink::Arc {
            centre: Pos::new(50.0, 25.0),
            radius: 20.0,
            start: 0.0,
            sweep,
            pen: Pen::new(1.0, Dash::Continuous),
        }]);
        let (levels, width) = pixels(&png(&picture, 1000).unwrap());
        let level = |[column, row]: [usize; 2]| levels[row * width as usize + column];
        assert!(level(inked) < 40, "{sweep}: {}", level(inked));
        assert_eq!(level(blank), 255, "{sweep}");
    }
}

#[test]
fn words_are_drawn_in_the_type_face_of_the_sheet() {
    let words = Text::new(Pos::new(10.0, 20.0), "QUINCE 1111", Style::HEADING);
    let bounds = sheet::lettering::corners(&words).unwrap();
    let picture = of(vec![words.into()]);
    let (levels, width) = pixels(&png(&picture, 2000).unwrap());
    let dark = |column: &usize| {
        let mut rows = levels.iter().skip(*column).step_by(width as usize);
        rows.any(|level| *level < 100)
    };
    let first = (0..2000).find(dark).unwrap() as f64 / 20.0;
    let last = (0..2000).rev().find(dark).unwrap() as f64 / 20.0;
    // Within half a millimetre of where the sheet measures them.
    assert!((first - bounds[0].x).abs() < 0.5, "{first} {bounds:?}");
    assert!((last - bounds[1].x).abs() < 0.5, "{last} {bounds:?}");
}

#[test]
fn what_cannot_be_drawn_is_refused() {
    let check = |picture: &Picture, width, expected: &str| {
        assert_eq!(png(picture, width).unwrap_err().to_string(), expected);
    };
    let blank = of(Vec::new());
    check(&blank, 199, "a picture is 200 to 8000 pixels wide, not 199");
    check(
        &blank,
        8001,
        "a picture is 200 to 8000 pixels wide, not 8001",
    );
    assert!(png(&blank, 200).is_ok());
    let nowhere = Ink::line(Pos::ORIGIN, Pos::new(f64::NAN, 0.0), Pen::EDGE);
    assert_eq!(svg(&of(vec![nowhere])), Err(PictureError::NotANumber));
    let odd = Ink::text(Pos::ORIGIN, "\u{1f331} plot", Style::BODY);
    let refused = svg(&of(vec![odd])).unwrap_err().to_string();
    assert_eq!(
        refused,
        "the picture says “\u{1f331} plot”, but the type face has no sign for U+1F331: write it another way"
    );
}

#[test]
fn the_same_plan_gives_the_same_bytes_and_all_options_one_scale() {
    let plan = example();
    let solved = plan.solve();
    let pictures: Vec<Picture> = (0..3)
        .map(|scheme| option_picture(&plan, &solved, scheme).unwrap())
        .collect();
    assert!(pictures.iter().all(|p| p.whole == pictures[0].whole));
    let bytes = png(&pictures[1], 800).unwrap();
    assert_eq!(bytes, png(&pictures[1], 800).unwrap());
    let text = svg(&pictures[1]).unwrap();
    for words in ["B, One wide sweep", "rain cistern", "Quince Yard", "5 m"] {
        assert!(text.contains(words), "{words}");
    }
    // A client reads no pegs and no radii.
    assert!(!text.contains("S1") && !text.contains("swing"));
}

#[test]
fn a_plan_with_nothing_in_it_is_blank_ground() {
    let mut plan = Plan::empty(plan::units::Units::FeetInches);
    let picture = option_picture(&plan, &plan.solve(), 0).unwrap();
    assert!(picture.inks.iter().all(Ink::is_finite));
    assert!(png(&picture, 400).is_ok());
    plan.schemes.clear();
    assert_eq!(option_picture(&plan, &plan.solve(), 0), None);
}

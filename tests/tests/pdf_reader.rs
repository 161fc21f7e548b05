//! A sheet written and read back: words, places, lengths and structure survive the way through PDF.

#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests fail the test by panicking"
)]

use std::f64::consts::{FRAC_PI_2, PI};

use approx::assert_abs_diff_eq;
use pegbow_tests::pdf_text::{About, PageContent, about, read};
use sheet::{
    Anchor, Block, Cell, Date, Frame, Ink, Item, Names, Orientation, Page, Paper, Pen, Pos, Row,
    Sheet, Step, Style, Text, Tone, lettering, pdf,
};

/// What paper, a printer and an eye cannot tell apart, millimetres.
const SEEN: f64 = 0.01;

/// A sheet with something of everything on two pages.
fn sample() -> Sheet {
    let mut sheet = Sheet::new(
        "Quince Yard: stake-out, option A",
        Date::new(2026, 11, 25).unwrap(),
    );
    sheet.subject = "One bend, to prove the paper.".to_owned();
    sheet.pages = vec![words_page(), drawing_page()];
    sheet
}

fn words_page() -> Page {
    let mut page = Page {
        title: "Before you start".to_owned(),
        ..Page::default()
    };
    let content = page.content();
    let mut y = content.head() - Style::HEADING.height;
    let x = content.left();
    page.blocks.push(Block::Heading {
        level: 1,
        inks: vec![Ink::text(
            Pos::new(x, y),
            "Before you start",
            Style::HEADING,
        )],
    });

    let mut next = |style: Style| {
        y -= lettering::leading(style);
        y
    };
    let told = "The string from the swing point to the centre line is 3′ 6 7⁄8″ long; the rise must read 44 1⁄2″ ± 1⁄4″, \
                a half (½) more or less than 10 ft ≤ 3.2 m. Pull at 105° — not more — and mark it.";
    let lines = lettering::wrap(told, Style::BODY, content.width);
    page.blocks.push(Block::Paragraph(
        lines
            .iter()
            .map(|line| Ink::text(Pos::new(x, next(Style::BODY)), line, Style::BODY))
            .collect(),
    ));

    let steps = [
        "Drive peg 2 and peg 3, 14′ 0″ apart.",
        "Hook the tape on the nail at the swing point.",
        "Scratch from peg to peg.",
    ];
    let items = (1..).zip(steps).map(|(number, step)| {
        let at = Pos::new(x, next(Style::BODY));
        let number = Text::new(
            at.shifted(6.0, 0.0),
            format!("{number}."),
            Style::BODY.bold(),
        )
        .anchored(Anchor::END);
        Item {
            label: vec![number.into()],
            body: vec![Ink::text(at.shifted(8.0, 0.0), step, Style::BODY)],
        }
    });
    page.blocks.push(Block::List(items.collect()));

    let names = |names, words: &str, at| Cell {
        names,
        inks: vec![
            Text::new(at, words, Style::BODY)
                .anchored(Anchor::END)
                .into(),
        ],
    };
    let rows = [
        ("along", "offset"),
        ("0′ 6″", "2′ 5 1⁄8″"),
        ("1′ 0″", "11 1⁄16″"),
    ]
    .into_iter()
    .enumerate();
    let rows = rows.map(|(index, (along, offset))| {
        let y = next(Style::BODY);
        let kind = if index == 0 {
            Names::Column
        } else {
            Names::Nothing
        };
        let mut last = names(kind, offset, Pos::new(x + 55.0, y));
        last.inks.push(Ink::line(
            Pos::new(x, y - 1.2),
            Pos::new(x + 55.0, y - 1.2),
            Pen::RULE,
        ));
        Row {
            cells: vec![names(kind, along, Pos::new(x + 25.0, y)), last],
        }
    });
    page.blocks.push(Block::Table(rows.collect()));
    let y = next(Style::FIGURE);
    page.blocks.push(Block::Paragraph(vec![Ink::text(
        Pos::new(x, y),
        "44 1⁄2″",
        Style::FIGURE,
    )]));
    page.blocks.push(furniture(&page, 1));
    page
}

fn drawing_page() -> Page {
    let mut page = Page {
        title: "Bend 2".to_owned(),
        paper: Paper::Letter,
        orientation: Orientation::Landscape,
        ..Page::default()
    };
    let content = page.content();
    let head = Pos::new(content.left(), content.head() - 5.0);
    page.blocks.push(Block::Heading {
        level: 1,
        inks: vec![Ink::text(head, "Bend 2", Style::HEADING)],
    });

    // A bend of radius 60 mm with its edges, from 150° down to 30°: the path turns right.
    let centre = Pos::new(139.7, 60.0);
    let (start, sweep) = (PI * 5.0 / 6.0, -PI * 2.0 / 3.0);
    let arc = |radius, pen| Ink::Arc {
        centre,
        radius,
        start,
        sweep,
        pen,
    };
    let surface = Ink::Path {
        from: centre.toward(start, 72.0),
        steps: vec![
            Step::Round { centre, sweep },
            Step::To(centre.toward(start + sweep, 48.0)),
            Step::Round {
                centre,
                sweep: -sweep,
            },
        ],
        closed: true,
        pen: None,
        fill: Some(Tone::Pale),
    };
    let ends = [start, start + sweep].map(|direction| centre.toward(direction, 60.0));
    let mut inks = vec![
        surface,
        arc(72.0, Pen::EDGE),
        arc(48.0, Pen::EDGE),
        arc(60.0, Pen::CENTRE),
    ];
    for end in ends {
        inks.push(Ink::line(centre, end, Pen::STRING));
        let peg = Frame::new(end, 0.0, 0.0).inset(-1.5);
        inks.push(Ink::Rect {
            frame: peg,
            pen: Some(Pen::OUTLINE),
            fill: Some(Tone::White),
        });
    }
    inks.push(Ink::Circle {
        centre,
        radius: 2.0,
        pen: Some(Pen::OUTLINE),
        fill: Some(Tone::White),
    });
    inks.push(Ink::Circle {
        centre,
        radius: 0.4,
        pen: None,
        fill: Some(Tone::Black),
    });
    inks.push(
        Ink::polygon(
            &[
                centre.toward(FRAC_PI_2, 62.0),
                centre.toward(FRAC_PI_2, 59.0).shifted(-1.7, 0.0),
                centre.toward(FRAC_PI_2, 59.0).shifted(1.7, 0.0),
            ],
            Some(Pen::OUTLINE),
            Some(Tone::White),
        )
        .unwrap(),
    );
    inks.push(
        Ink::polyline(
            &[
                Pos::new(30.0, 50.0),
                Pos::new(80.0, 45.0),
                Pos::new(100.0, 30.0),
            ],
            Pen::BURIED,
        )
        .unwrap(),
    );
    inks.push(Ink::Circle {
        centre: Pos::new(220.0, 70.0),
        radius: 18.0,
        pen: Some(Pen::ZONE),
        fill: None,
    });
    inks.push(
        Text::new(
            centre.toward(FRAC_PI_2, 36.0),
            "3′ 6 7⁄8″",
            Style::LARGE.bold(),
        )
        .anchored(Anchor::MIDDLE)
        .into(),
    );
    let string = Text::new(
        centre.toward(start, 30.0).shifted(-0.6, 1.2),
        "3.16 m",
        Style::LARGE,
    )
    .anchored(Anchor::MIDDLE)
    .turned(start - PI);
    inks.push(string.into());
    inks.push(
        Text::new(ends[0].shifted(-3.0, 0.0), "2", Style::LARGE)
            .anchored(Anchor::END)
            .into(),
    );
    inks.push(Ink::Through {
        window: Frame::new(Pos::new(20.0, 100.0), 30.0, 30.0),
        inks: vec![Ink::Circle {
            centre: Pos::new(20.0, 100.0),
            radius: 25.0,
            pen: Some(Pen::OUTLINE),
            fill: None,
        }],
    });
    page.blocks.push(Block::Figure {
        alt: "Bend 2 from peg 2 to peg 3 with its swing point.".to_owned(),
        inks,
    });

    let bar = Pos::new(content.left(), 22.0);
    page.blocks.push(Block::Figure {
        alt: "This bar must measure 100 mm.".to_owned(),
        inks: vec![
            Ink::line(bar, bar.shifted(100.0, 0.0), Pen::EDGE),
            Ink::line(bar.shifted(0.0, -1.5), bar.shifted(0.0, 1.5), Pen::THIN),
            Ink::line(bar.shifted(100.0, -1.5), bar.shifted(100.0, 1.5), Pen::THIN),
            Ink::text(
                bar.shifted(0.0, 2.5),
                "This bar must measure 100 mm.",
                Style::SMALL,
            ),
        ],
    });
    page.blocks.push(furniture(&page, 2));
    page
}

fn furniture(page: &Page, number: usize) -> Block {
    let corner = Pos::new(page.content().right(), page.content().foot());
    Block::Furniture(vec![
        Ink::line(
            Pos::new(page.content().left(), corner.y + 3.0),
            corner.shifted(0.0, 3.0),
            Pen::RULE,
        ),
        Text::new(corner, format!("page {number} of 2"), Style::SMALL)
            .anchored(Anchor::END)
            .into(),
    ])
}

/// The sample read back; with `PEGBOW_SAMPLE=FILE` it is also left there to be looked at.
fn sample_pages() -> (Vec<PageContent>, About) {
    let bytes = pdf(&sample()).unwrap();
    if let Some(file) = std::env::var_os("PEGBOW_SAMPLE") {
        std::fs::write(file, &bytes).unwrap();
    }
    (read(&bytes).unwrap(), about(&bytes).unwrap())
}

#[test]
fn paper_sizes() {
    let (pages, _) = sample_pages();
    let check = |page: &PageContent, expected: (f64, f64)| {
        assert_abs_diff_eq!(page.width_mm, expected.0, epsilon = SEEN);
        assert_abs_diff_eq!(page.height_mm, expected.1, epsilon = SEEN);
    };
    check(&pages[0], (210.0, 297.0));
    check(&pages[1], (279.4, 215.9));
}

/// Every line of words comes back letter for letter, at its place, as long as it was measured.
#[test]
fn words_survive() {
    let (pages, _) = sample_pages();
    for (page, content) in sample().pages.iter().zip(&pages) {
        let mut texts = Vec::new();
        page.inks()
            .for_each(|ink| ink.each_text(&mut |text| texts.push(text)));
        assert_eq!(texts.len(), content.texts.len());
        for (text, placed) in texts.iter().zip(&content.texts) {
            assert_eq!(placed.text.trim_end(), text.words);
            assert_abs_diff_eq!(
                placed.width_mm,
                lettering::width(&text.words, text.style),
                epsilon = SEEN
            );
            assert_abs_diff_eq!(placed.size_mm, lettering::size(text.style), epsilon = SEEN);
            assert_abs_diff_eq!(placed.angle, text.angle, epsilon = 1e-4);
            let start = Pos::new(placed.x_mm, placed.y_mm);
            let back = match text.anchor.along {
                sheet::ink::Along::Start => 0.0,
                sheet::ink::Along::Middle => placed.width_mm / 2.0,
                sheet::ink::Along::End => placed.width_mm,
            };
            assert!(
                start.distance(text.at.toward(text.angle, -back)) < SEEN,
                "{placed:?}"
            );
        }
    }
    assert!(pages[0].words().contains("3′ 6 7⁄8″"));
    assert!(pages[0].words().contains("44 1⁄2″ ± 1⁄4″"));
    // Lines of one paragraph do not run together when they are copied.
    assert!(pages[0].texts[1].text.ends_with(' '));
}

/// Lengths on paper are true: the bar is 100 mm, the arcs have their radii.
#[test]
fn lengths_survive() {
    let (pages, _) = sample_pages();
    let lines = &pages[1].lines;
    let bar = lines
        .iter()
        .find(|line| (line.length_mm() - 100.0).abs() < SEEN)
        .unwrap();
    assert_abs_diff_eq!(bar.pen_mm.unwrap(), Pen::EDGE.width, epsilon = SEEN);

    let centre = [139.7, 60.0];
    let check = |radius: f64, pen: Pen| {
        let on =
            |at: &[f64; 2]| ((at[0] - centre[0]).hypot(at[1] - centre[1]) - radius).abs() < 0.001;
        let arc = lines
            .iter()
            .find(|line| line.pen_mm.is_some() && line.places().iter().all(on))
            .unwrap();
        // Measured along short chords, an arc of 30° a piece in 16 steps is short by 1e-4 of its length at most.
        assert_abs_diff_eq!(
            arc.length_mm(),
            radius * PI * 2.0 / 3.0,
            epsilon = 1e-4 * radius * 2.1
        );
        assert_abs_diff_eq!(arc.pen_mm.unwrap(), pen.width, epsilon = 0.001);
        let dash: Vec<f64> = pen.pattern().collect();
        assert_eq!(arc.dash_mm.len(), dash.len());
        for (read, expected) in arc.dash_mm.iter().zip(dash) {
            assert_abs_diff_eq!(*read, expected, epsilon = 0.001);
        }
    };
    check(72.0, Pen::EDGE);
    check(60.0, Pen::CENTRE);
    check(48.0, Pen::EDGE);
    // What is seen through a window says so, and nothing else does.
    assert_eq!(lines.iter().filter(|line| line.clipped).count(), 1);
}

/// Ink that was measured is where the file has it, and all of it is on the paper.
#[test]
fn bounds_hold_the_lines() {
    let (pages, _) = sample_pages();
    for (page, content) in sample().pages.iter().zip(&pages) {
        let inked = page
            .inks()
            .filter_map(Ink::bounds)
            .reduce(Frame::joined)
            .unwrap();
        assert!(page.whole().inset(10.0).holds(&inked, 0.0));
        for line in content.lines.iter().filter(|line| !line.clipped) {
            let drawn =
                Frame::around(line.places().into_iter().map(|[x, y]| Pos::new(x, y))).unwrap();
            assert!(
                inked.holds(&drawn.inset(-line.pen_mm.unwrap_or(0.0) / 2.0), SEEN),
                "{line:?}"
            );
        }
    }
}

#[test]
fn the_document_speaks_for_itself() {
    let (pages, about) = sample_pages();
    assert_eq!(about.title, "Quince Yard: stake-out, option A");
    assert_eq!(about.language, "en");
    assert_eq!(about.outline, ["Before you start", "Bend 2"]);
    assert_eq!(
        about.alts,
        [
            "Bend 2 from peg 2 to peg 3 with its swing point.",
            "This bar must measure 100 mm."
        ]
    );
    let expected = "Document/Sect/H1/P/L/LI/Lbl/LBody/LI/Lbl/LBody/LI/Lbl/LBody\
                    /Table/TR/TH/TH/TR/TD/TD/TR/TD/TD/P/Sect/H1/Figure/Figure";
    let roles: Vec<&str> = about.roles.iter().map(|role| role.trim()).collect();
    assert_eq!(roles.join("/"), expected);
    // Page numbers are furniture, and nothing else is.
    for page in &pages {
        let furniture: Vec<&str> = page
            .texts
            .iter()
            .filter(|text| text.furniture)
            .map(|text| text.text.as_str())
            .collect();
        assert!(
            matches!(furniture[..], [number] if number.starts_with("page ")),
            "{furniture:?}"
        );
    }
}

/// A sheet is small: two pages with both weights of the type face embedded in part.
#[test]
fn the_file_is_small() {
    let bytes = pdf(&sample()).unwrap();
    assert!(bytes.len() < 60_000, "{} bytes", bytes.len());
}

#[test]
fn what_is_no_sheet_is_refused() {
    for bytes in [&b""[..], b"%PDF-1.7", b"stake-out"] {
        assert!(read(bytes).is_err());
    }
}

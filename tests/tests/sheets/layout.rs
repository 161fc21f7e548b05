//! Nothing leaves the page and nothing lies over words, whatever the plan.

use sheet::{Block, Frame, Ink, Page, Paper, Pos, Text, lettering};

use crate::composed;
use crate::plans;

/// What an eye lets pass, millimetres.
const SLACK: f64 = 0.02;

/// Half the widest pen: a frame may stand on the border of what is composed in, millimetres.
const HALF_PEN: f64 = 0.35;

#[test]
fn nothing_leaves_the_page_and_no_words_overlap() {
    let mut faults = Vec::new();
    for case in plans::all() {
        for paper in Paper::ALL {
            let sheet = composed(&case, paper);
            assert!(!sheet.pages.is_empty());
            for (page, number) in sheet.pages.iter().zip(1..) {
                let place = format!(
                    "{} on {}, page {number} “{}”",
                    case.name,
                    paper.name(),
                    page.title
                );
                let mut look = |found: Vec<String>| {
                    faults.extend(found.into_iter().map(|fault| format!("{place}: {fault}")));
                };
                look(outside(page));
                look(overlapping(page));
                look(ruled_through(page));
                look(figures_over_words(page));
            }
        }
    }
    let shown = faults
        .iter()
        .take(20)
        .cloned()
        .collect::<Vec<_>>()
        .join("\n");
    assert!(faults.is_empty(), "{} faults\n{shown}", faults.len());
}

fn outside(page: &Page) -> Vec<String> {
    let content = page.content();
    page.inks()
        .filter(|ink| {
            ink.bounds()
                .is_some_and(|bounds| !content.holds(&bounds, HALF_PEN + SLACK))
        })
        .map(|ink| format!("outside: {ink:?}"))
        .collect()
}

fn texts<'a>(inks: impl Iterator<Item = &'a Ink>) -> Vec<(&'a Text, [Pos; 4])> {
    let mut texts = Vec::new();
    for ink in inks {
        ink.each_text(&mut |text| {
            texts.extend(lettering::corners(text).map(|corners| (text, corners)));
        });
    }
    texts
}

fn overlapping(page: &Page) -> Vec<String> {
    let texts = texts(page.inks());
    let mut faults = Vec::new();
    for (index, (a, corners)) in texts.iter().enumerate() {
        for (b, others) in texts.iter().take(index) {
            if !apart(corners, others) {
                faults.push(format!("“{}” over “{}”", a.words, b.words));
            }
        }
    }
    faults
}

/// Words outside drawings that a rule runs through.
fn ruled_through(page: &Page) -> Vec<String> {
    let plain = |block: &&Block| !matches!(block, Block::Figure { .. });
    let lines: Vec<[Pos; 2]> = page
        .blocks
        .iter()
        .filter(plain)
        .flat_map(Block::inks)
        .flat_map(rules)
        .collect();
    texts(page.blocks.iter().filter(plain).flat_map(Block::inks))
        .into_iter()
        .filter(|(_, corners)| lines.iter().any(|line| !apart(corners, line)))
        // White words stand on their own black sign.
        .filter(|(text, _)| text.style.tone != sheet::Tone::White)
        .map(|(text, _)| format!("“{}” has a rule through it", text.words))
        .collect()
}

fn rules(ink: &Ink) -> Vec<[Pos; 2]> {
    match ink {
        Ink::Line { from, to, .. } => vec![[*from, *to]],
        Ink::Rect { frame, .. } => {
            let (left, right) = (frame.left(), frame.right());
            let corner = |x, y| Pos::new(x, y);
            let ring = [
                corner(left, frame.foot()),
                corner(right, frame.foot()),
                corner(right, frame.head()),
                corner(left, frame.head()),
            ];
            (0..4).map(|i| [ring[i], ring[(i + 1) % 4]]).collect()
        }
        _ => Vec::new(),
    }
}

/// Drawings that run into the words of the page.
fn figures_over_words(page: &Page) -> Vec<String> {
    let mut faults = Vec::new();
    for figure in &page.blocks {
        let Block::Figure { inks, .. } = figure else {
            continue;
        };
        let Some(frame) = inks.iter().filter_map(Ink::bounds).reduce(Frame::joined) else {
            continue;
        };
        let corners = [
            frame.corner,
            frame.corner.shifted(frame.width, 0.0),
            frame.corner.shifted(frame.width, frame.height),
            frame.corner.shifted(0.0, frame.height),
        ];
        let others = page
            .blocks
            .iter()
            .filter(|block| !std::ptr::eq(*block, figure));
        for (text, words) in texts(others.flat_map(Block::inks)) {
            if !apart(&corners, &words) {
                faults.push(format!("a drawing runs over “{}”", text.words));
            }
        }
    }
    faults
}

/// Whether two convex outlines are parted by a line square to one of their sides.
fn apart(a: &[Pos], b: &[Pos]) -> bool {
    // Most are far from each other: their upright frames say so at once.
    let frame = |outline: &[Pos]| Frame::around(outline.iter().copied());
    if let (Some(a), Some(b)) = (frame(a), frame(b))
        && a.shared(&b).is_none()
    {
        return true;
    }
    let sides = |outline: &[Pos]| -> Vec<f64> {
        (0..outline.len())
            .map(|i| outline[i].direction(outline[(i + 1) % outline.len()]))
            .collect()
    };
    let spread = |outline: &[Pos], axis: f64| {
        let along = |at: &Pos| at.x * axis.cos() + at.y * axis.sin();
        let low = outline.iter().map(along).fold(f64::INFINITY, f64::min);
        let high = outline.iter().map(along).fold(f64::NEG_INFINITY, f64::max);
        (low, high)
    };
    sides(a).into_iter().chain(sides(b)).any(|side| {
        let axis = side + std::f64::consts::FRAC_PI_2;
        let ((a_low, a_high), (b_low, b_high)) = (spread(a, axis), spread(b, axis));
        a_low >= b_high - SLACK || b_low >= a_high - SLACK
    })
}

/// The checks above see what they should.
#[test]
fn the_checks_themselves_see_faults() {
    let words = |x, y, words: &str| Ink::text(Pos::new(x, y), words, sheet::Style::LARGE);
    let page = |blocks| Page {
        blocks,
        ..Page::default()
    };
    let over = page(vec![Block::Paragraph(vec![
        words(50.0, 50.0, "peg 1"),
        words(52.0, 51.0, "peg 2"),
    ])]);
    assert_eq!(overlapping(&over).len(), 1);
    assert_eq!(
        outside(&page(vec![Block::Paragraph(vec![words(
            190.0,
            50.0,
            "a long way"
        )])]))
        .len(),
        1
    );
    let rule = Ink::line(Pos::new(20.0, 51.0), Pos::new(90.0, 51.0), sheet::Pen::RULE);
    assert_eq!(
        ruled_through(&page(vec![Block::Paragraph(vec![
            words(50.0, 50.0, "peg 1"),
            rule.clone()
        ])]))
        .len(),
        1
    );
    let figure = Block::Figure {
        alt: "a line".to_owned(),
        inks: vec![rule],
    };
    assert_eq!(
        figures_over_words(&page(vec![
            Block::Paragraph(vec![words(50.0, 50.0, "peg 1")]),
            figure
        ]))
        .len(),
        1
    );
}

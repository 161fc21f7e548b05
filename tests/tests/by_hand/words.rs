//! What the pages say to whom, and that a blocked swing leaves nothing out.

use pegbow_tests::hand::length_here;
use pegbow_tests::paper::{Chapter, Part};
use pegbow_tests::pdf_text::PageContent;

use crate::printed::{Case, Printed};

fn flowing(pages: &[PageContent]) -> String {
    let words: Vec<String> = pages.iter().map(PageContent::words).collect();
    words.join("\n").replace('\n', " ").replace("  ", " ")
}

#[test]
fn nobody_alone_is_told_to_hold_a_zero() {
    for case in Case::ALL {
        let words = flowing(&case.printed().pages);
        let for_two = case == Case::ForTwo;
        for held in ["Hold the tape's zero", "hold the tape's zero", "2 people"] {
            let at = words
                .find(held)
                .map(|at| &words[at..(at + 80).min(words.len())]);
            assert!(for_two || at.is_none(), "{case:?}: {at:?}");
        }
        assert_eq!(
            words.contains("Hold the tape's zero at peg"),
            for_two,
            "{case:?}"
        );
        assert_eq!(words.contains("You work alone"), !for_two, "{case:?}");
        assert_eq!(
            words.contains("Take one in each hand"),
            !for_two,
            "{case:?}"
        );
    }
}

/// What a page of a bend has: big figures, places named on the drawing, steps, ranges, and how far the
/// line may be out.
#[derive(Debug, PartialEq)]
struct Has {
    big: usize,
    drawn: bool,
    steps: bool,
    checks: bool,
    error: bool,
    care: bool,
}

/// How high figures to pull are lettered at least, millimetres.
const BIG: f64 = 5.0;

fn has(printed: &Printed, chapter: &Chapter) -> Has {
    let page = &printed.pages[chapter.page - 1];
    let title = page.texts.iter().find(|text| !text.furniture).unwrap();
    let big = |text: &&pegbow_tests::pdf_text::PlacedText| {
        text.size_mm >= BIG && text.y_mm < title.y_mm && length_here(&text.text).is_some()
    };
    let says = |words: &str| {
        chapter.parts.iter().any(|part| match part {
            Part::Words(line) => line.contains(words),
            Part::Step(_, step) => step.contains(words),
            Part::Table(_) => false,
        })
    };
    Has {
        big: page.texts.iter().filter(big).count(),
        drawn: page.lines.len() > 10 && says("walked from left to right"),
        steps: chapter.steps().count() > 2,
        checks: says(" must read "),
        error: says("The line may be out "),
        care: says("NOT POSSIBLE HERE"),
    }
}

#[test]
fn the_page_of_a_blocked_bend_has_all_that_a_free_one_has() {
    for (free, blocked) in [(Case::A, Case::Blocked), (Case::Feet, Case::BlockedFeet)] {
        let [free, blocked] = [free, blocked].map(Case::printed);
        let all = has(free, free.chapter("Bend 1: "));
        assert_eq!(has(blocked, blocked.chapter("Bend 1: ")), all);
        let complete = Has {
            big: 3,
            drawn: true,
            steps: true,
            checks: true,
            error: true,
            care: false,
        };
        assert_eq!(all, complete);
    }
}

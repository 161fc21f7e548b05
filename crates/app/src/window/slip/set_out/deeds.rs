//! The deeds of a course in words, one after the other.

use egui::{RichText, Ui};
use plan::setout::{Course, Manner};

use crate::window::theme;

/// Deeds of a course listed at a time: more would not be read here, and the sheet has all.
const MOST: usize = 100;

/// Shows them, each with what must read how much after it.
pub(super) fn ui(ui: &mut Ui, course: &Course, manner: &Manner) {
    for (i, deed) in course.deeds.iter().take(MOST).enumerate() {
        let step = deed.words(manner, &course.spots);
        ui.label(unbroken(&format!("{}.  {}", i + 1, step.text)));
        if let Some(check) = &step.check {
            let check = unbroken(&format!("Check: {check}"));
            ui.label(RichText::new(check).text_style(theme::strong()));
        }
        ui.add_space(4.0);
    }
    let more = course.deeds.len().saturating_sub(MOST);
    if more > 0 {
        ui.label(format!("And {more} more, all of them on the sheet"));
    }
}

/// The same sentence, with the parts of each length kept on one line: `13′ 1 1⁄2″` broken after
/// the feet reads as another length.
pub(super) fn unbroken(sentence: &str) -> String {
    let letters: Vec<char> = sentence.chars().collect();
    let figure = |at: Option<&char>| at.is_some_and(char::is_ascii_digit);
    let kept = |i: usize| {
        let before = i.checked_sub(1).and_then(|i| letters.get(i));
        let (after, last) = (letters.get(i + 1), letters.get(i + 2));
        let ends = !last.is_some_and(|c| c.is_alphanumeric());
        (before == Some(&'′') && figure(after))
            || (figure(before) && (figure(after) || (after == Some(&'m') && ends)))
    };
    letters
        .iter()
        .enumerate()
        .map(|(i, c)| if *c == ' ' && kept(i) { '\u{a0}' } else { *c })
        .collect()
}

//! The page a client chooses from: two to four options beside each other, drawn alike and told in plain words.

mod columns;
mod told;

use plan::fingerprint::fingerprint;
use plan::order::{Order, order};
use plan::solve::SolvedScheme;
use plan::{Plan, Solved};

use crate::document::{Block, Date, Item, Page, Sheet};
use crate::ink::{Ink, Pos};
use crate::lettering::{self, leading};
use crate::paper::{Frame, Orientation, Paper};
use crate::pdf::{PdfError, pdf};
use crate::pen::{Pen, Style};

use super::entry::{BOX, tick_box};
use super::flow::{Flow, base_below, frame, paper_of_text};
use super::{UNDATED, named, option_name, picture, short};
use columns::{Columns, clipped};
use told::Told;

/// So many options are set beside each other; more leave no room for words.
pub const MOST_OPTIONS: usize = 4;

/// What is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct OptionsRequest {
    /// Which options, counted from 0, in the order they stand on the page; of more than
    /// [`MOST_OPTIONS`] the first ones are taken, what the plan has not is left out.
    pub schemes: Vec<usize>,
    /// Whether prices are spoken of.
    pub prices: bool,
    /// What it is printed on.
    pub paper: Paper,
    /// Whether the other system of units stands beside the plan's own.
    pub both_units: bool,
    /// The day to print on it, from which prices hold; without one it is left to be written in.
    pub date: Option<Date>,
}

/// Composes the page of options for a client. It never fails: where there is nothing to choose from
/// it says so.
#[must_use]
pub fn compose_client_page(plan: &Plan, solved: &Solved, request: &OptionsRequest) -> Sheet {
    let fingerprint = fingerprint(plan);
    let title = named(&plan.title, "Untitled plan");
    let mut schemes: Vec<usize> = Vec::new();
    for &scheme in &request.schemes {
        if scheme < solved.schemes.len() && !schemes.contains(&scheme) {
            schemes.push(scheme);
        }
    }
    schemes.truncate(MOST_OPTIONS);
    let mut flow = Flow::new(request.paper);
    flow.foot = format!("plan {fingerprint} · {} · options", short(&title));
    if schemes.is_empty() {
        flow.start("Nothing to choose from");
        flow.set(&[super::Part::Paragraph(
            "The plan has no such option. Draw one, then print again.".to_owned(),
            Style::LARGE,
        )]);
    } else {
        let shown = schemes.iter().filter_map(|&scheme| {
            let solved_scheme = solved.schemes.get(scheme)?;
            let order = order(plan, solved, scheme);
            Some((scheme, solved_scheme, order))
        });
        flow.add(composed(plan, solved, request, &shown.collect::<Vec<_>>()));
    }
    let mut sheet = Sheet::new(format!("{title}: options"), request.date.unwrap_or(UNDATED));
    sheet.subject =
        format!("The options beside each other, for whoever chooses. Plan {fingerprint}.");
    sheet.pages = flow.finish();
    sheet
}

/// The page of options for a client as PDF.
///
/// # Errors
/// As [`pdf`]: in practice only when a name has a character that the type face lacks.
pub fn client_page(
    plan: &Plan,
    solved: &Solved,
    request: &OptionsRequest,
) -> Result<Vec<u8>, PdfError> {
    pdf(&compose_client_page(plan, solved, request))
}

/// An option with what it comes to.
type Shown<'a> = (usize, &'a SolvedScheme, Option<Order>);

/// Heights of the strips that do not depend on what is said, millimetres.
const HEAD: f64 = 11.0;
const SUBJECT: f64 = 7.0;
const CHOICE: f64 = 8.5;
/// Free paper between strips.
const GAP: f64 = 2.0;
/// So high a picture is high enough for words to be as large as they may.
const GOOD_PICTURE: f64 = 45.0;
/// How the words may be lettered, the largest that leaves room for the pictures.
const STYLES: [Style; 4] = [
    Style::BODY,
    Style::BODY.high(2.2),
    Style::BODY.high(2.0),
    Style::SMALL,
];

fn composed(plan: &Plan, solved: &Solved, request: &OptionsRequest, shown: &[Shown<'_>]) -> Page {
    let paper = paper_of_text(request.paper);
    let content = frame(paper, Orientation::Landscape);
    let told = Told::new(plan, solved, request, shown);
    let names: Vec<String> = shown
        .iter()
        .map(|(_, scheme, _)| option_name(scheme))
        .collect();
    let fixed = HEAD + SUBJECT + CHOICE + 2.0 * GAP;
    let try_out = |style: Style| {
        let columns = Columns::new(content.width, &names, told.rows(), style);
        let terms = terms_height(&told.terms, style, content.width);
        let pictures = content.height - fixed - columns.height() - terms;
        (columns, style, pictures)
    };
    // A picture so high shows its ground as large as its column is wide.
    let ideal = |columns: &Columns| {
        let column = columns.window(&content, 0);
        column.width * picture::slenderness(solved)
    };
    let mut fitting = try_out(Style::SMALL);
    for style in STYLES {
        let tried = try_out(style);
        if tried.2 >= GOOD_PICTURE.min(ideal(&tried.0)) {
            fitting = tried;
            break;
        }
    }
    let (columns, style, pictures) = fitting;
    let high = pictures.clamp(0.0, ideal(&columns));

    let title = named(&plan.title, "Untitled plan");
    let (head, rest) = content.cut_below(HEAD);
    let (subject, rest) = rest.cut_below(SUBJECT);
    let mut blocks = heading(&head, &title, shown.len());
    blocks.extend(about(&subject, plan, request));
    let (name_strip, rest) = rest.cut_below(columns.head_height());
    let (window, rest) = rest.cut_below(high);
    for (index, (_, scheme, _)) in shown.iter().enumerate() {
        let cell = columns.window(&window, index);
        blocks.push(Block::Figure {
            alt: format!(
                "Option {} from above, with what stands round it.",
                option_name(scheme)
            ),
            inks: picture::within(plan, solved, scheme, &cell),
        });
    }
    blocks.push(scale_key(plan, solved, &columns, &window));
    let rest = rest.cut_below(GAP).1;
    let (table, rest) = rest.cut_below(columns.height() - columns.head_height());
    blocks.extend(columns.blocks(&name_strip, &table));
    let (terms, rest) = rest.cut_below(terms_height(&told.terms, style, content.width));
    blocks.extend(terms_block(&told.terms, style, &terms));
    // What is to be signed stands at the foot, wherever the words end.
    let strip = Frame::new(content.corner, rest.width, CHOICE);
    blocks.extend(choice(&strip, shown));
    Page {
        title: "Options".to_owned(),
        paper,
        orientation: Orientation::Landscape,
        blocks,
    }
}

fn heading(strip: &Frame, title: &str, options: usize) -> Vec<Block> {
    let what = if options == 1 {
        "the path".to_owned()
    } else {
        format!("{options} ways to lay the path")
    };
    let (words, style) = lettering::fit(&format!("{title}: {what}"), Style::HEADING, strip.width);
    let base = strip.corner.shifted(0.0, 3.6);
    vec![Block::Heading {
        level: 1,
        inks: vec![Ink::text(base, words, style)],
    }]
}

/// For whom, where and when, and room for whoever offers it.
fn about(strip: &Frame, plan: &Plan, request: &OptionsRequest) -> Vec<Block> {
    const FROM: &str = "From";
    const ROOM: f64 = 110.0;
    let mut said: Vec<String> = Vec::new();
    if !plan.client.trim().is_empty() {
        said.push(format!("For {}", plan.client.trim()));
    }
    if !plan.place.trim().is_empty() {
        said.push(plan.place.trim().to_owned());
    }
    if let Some(date) = request.date {
        said.push(date.to_string());
    }
    let base = strip.corner.shifted(0.0, 2.2);
    let (words, style) = lettering::fit(&said.join(" · "), Style::BODY, strip.width - ROOM - 4.0);
    let from = base.shifted(strip.width - ROOM, 0.0);
    let mut inks = vec![Ink::text(from, FROM, Style::BODY)];
    if !words.is_empty() {
        inks.insert(0, Ink::text(base, words, style));
    }
    let rule = from.shifted(lettering::width(FROM, Style::BODY) + 2.0, -0.6);
    let end = Pos::new(strip.right(), rule.y);
    vec![
        Block::Paragraph(inks),
        Block::Furniture(vec![Ink::line(rule, end, Pen::THIN)]),
    ]
}

/// A bar to judge lengths by, and north, beside the pictures.
fn scale_key(plan: &Plan, solved: &Solved, columns: &Columns, window: &Frame) -> Block {
    use super::title_block::{RoundBar, bar, north_arrow};
    let aside = columns.aside(window);
    let scale = picture::scale_within(solved, &columns.window(window, 0));
    let bar_of = RoundBar::fitting(&scale, plan.units, aside.width - 4.0);
    let at = aside.corner.shifted(1.0, 1.0);
    let mut inks = bar(at, bar_of.millimetres, bar_of.divisions);
    inks.push(Ink::text(at.shifted(0.0, 4.6), &bar_of.words, Style::SMALL));
    let north = Pos::new(aside.left() + 7.0, aside.foot() + 17.0);
    if aside.height > 26.0 {
        inks.extend(north_arrow(north, plan.north));
    }
    Block::Figure {
        alt: format!("A bar of {}, the same for all pictures.", bar_of.words),
        inks,
    }
}

fn terms_height(terms: &[(&str, String)], style: Style, width: f64) -> f64 {
    let lines: usize = terms
        .iter()
        .map(|(what, says)| term_lines(what, says, style, width).len())
        .sum();
    lines as f64 * leading(style) + if terms.is_empty() { 0.0 } else { GAP }
}

fn term_lines(what: &str, says: &str, style: Style, width: f64) -> Vec<String> {
    clipped(says, style, width - term_indent(what, style), 6)
}

/// What stands before a term is set apart in bold.
fn term_indent(what: &str, style: Style) -> f64 {
    lettering::width(what, style.bold()).max(lettering::width("Included  ", style.bold())) + 3.0
}

fn terms_block(terms: &[(&str, String)], style: Style, strip: &Frame) -> Option<Block> {
    let mut base = strip.start().shifted(0.0, -GAP - base_below(style));
    let mut items = Vec::new();
    for (what, says) in terms {
        let mut item = Item {
            label: vec![Ink::text(base, *what, style.bold())],
            body: Vec::new(),
        };
        for line in term_lines(what, says, style, strip.width) {
            let at = base.shifted(term_indent(what, style), 0.0);
            item.body.push(Ink::text(at, line, style));
            base = base.shifted(0.0, -leading(style));
        }
        items.push(item);
    }
    (!items.is_empty()).then_some(Block::List(items))
}

/// Which option is chosen, by whom and when.
fn choice(strip: &Frame, shown: &[Shown<'_>]) -> Vec<Block> {
    let style = Style::BODY;
    let base = strip.corner.shifted(0.0, 1.4);
    let mut at = base;
    let (mut words, mut boxes) = (Vec::new(), Vec::new());
    let mut say = |at: &mut Pos, says: &str, gap: f64| {
        words.push(Ink::text(*at, says, style));
        *at = at.shifted(lettering::width(says, style) + gap, 0.0);
    };
    say(&mut at, "We choose option", 4.0);
    for (_, scheme, _) in shown {
        boxes.push(tick_box(at.shifted(0.0, 0.5 * (style.height - BOX))));
        at = at.shifted(BOX + 1.5, 0.0);
        say(&mut at, &scheme.letter, 5.0);
    }
    at = at.shifted(3.0, 0.0);
    let rest = strip.right() - at.x;
    for (says, share) in [("Name", 0.62), ("Date", 0.38)] {
        let end = at.shifted(share * rest - 4.0, -0.6);
        say(&mut at, says, 2.0);
        boxes.push(Ink::line(at.shifted(0.0, -0.6), end, Pen::THIN));
        at = Pos::new(end.x + 4.0, base.y);
    }
    vec![Block::Paragraph(words), Block::Furniture(boxes)]
}

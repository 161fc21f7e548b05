//! The order list of one option: what to dig, buy and do, what that costs, and what it all rests on.

mod notes;
mod sums;

use plan::count::{Measure, Part as Work, Quantities};
use plan::fingerprint::fingerprint;
use plan::order::{Order, order};
use plan::price::{Charge, Line};
use plan::setout::Voice;
use plan::solve::SolvedScheme;
use plan::{Plan, Solved};

use crate::document::{Block, Sheet};
use crate::ink::Ink;
use crate::pdf::{PdfError, pdf};
use crate::pen::{Pen, Style};

use super::entry::{Entry, Label};
use super::flow::{Flow, Part, base_below};
use super::table::{Content, Table};
use super::{Request, UNDATED, named, option_name, short};

/// Composes the order list of one option. It never fails: where nothing can be counted it says why.
#[must_use]
pub fn compose_order_list(plan: &Plan, solved: &Solved, request: &Request) -> Sheet {
    let fingerprint = fingerprint(plan);
    let title = named(&plan.title, "Untitled plan");
    let mut flow = Flow::new(request.paper);
    let scheme = solved.schemes.get(request.scheme);
    let option = scheme.map_or_else(|| "none".to_owned(), option_name);
    flow.foot = format!(
        "plan {fingerprint} · {} · option {} · order list",
        short(&title),
        short(&option)
    );
    flow.start("Order list");
    match (scheme, order(plan, solved, request.scheme)) {
        (Some(scheme), Some(order)) => {
            List {
                plan,
                scheme,
                order: &order,
                voice: Voice {
                    ruler: plan.ruler(),
                    both: request.both_units,
                },
                request,
            }
            .add(&mut flow, &fingerprint);
        }
        (Some(_), None) => flow.set(&[
            Part::Paragraph(
                format!("Nothing can be ordered for option {option} yet."),
                Style::LARGE,
            ),
            Part::Paragraph(
                "Draw a path and say what it is built of, then print again.".to_owned(),
                Style::LARGE,
            ),
        ]),
        (None, _) => flow.set(&[Part::Paragraph(
            "The plan has no such option. Choose another, then print again.".to_owned(),
            Style::LARGE,
        )]),
    }
    let mut sheet = Sheet::new(
        format!("{title}: order list of option {option}"),
        request.date.unwrap_or(UNDATED),
    );
    sheet.subject = format!(
        "What to dig, buy and do for option {option}, and what the amounts rest on. Plan {fingerprint}."
    );
    sheet.pages = flow.finish();
    sheet
}

/// The order list of one option as PDF.
///
/// # Errors
/// As [`pdf`]: in practice only when a name has a character that the type face lacks.
pub fn order_list(plan: &Plan, solved: &Solved, request: &Request) -> Result<Vec<u8>, PdfError> {
    pdf(&compose_order_list(plan, solved, request))
}

/// One order list on its way to paper.
struct List<'a> {
    plan: &'a Plan,
    scheme: &'a SolvedScheme,
    order: &'a Order,
    voice: Voice,
    request: &'a Request,
}

impl List<'_> {
    fn add(&self, flow: &mut Flow, fingerprint: &str) {
        let mut parts = vec![Part::Paragraph(self.about(fingerprint), Style::BODY)];
        parts.extend(self.not_counted());
        flow.set(&parts);
        blanks(
            flow,
            ["Ordered by", "Deliver to", "Telephone", "Wanted on site on"],
        );
        for work in WORK {
            flow.set(&self.table(work));
        }
        if self.is_priced() {
            flow.set(&[
                Part::Heading("What it comes to".to_owned()),
                Part::Table(self.sums()),
                Part::Paragraph(
                    format!("Total: {}", self.charge().total_in_words()),
                    Style::LARGE.bold(),
                ),
            ]);
            flow.set(self.band().as_slice());
        } else {
            flow.set(&[Part::Paragraph(
                "The plan has no price list: this is a list of amounts alone.".to_owned(),
                Style::BODY,
            )]);
        }
        flow.set(&[
            Part::Heading("What is dug out and taken away".to_owned()),
            bullets(self.spoil()),
            Part::Heading("Mind".to_owned()),
            Part::List(
                (self.cautions().into_iter())
                    .map(|caution| Entry::new(Label::Tick, caution, Style::BODY))
                    .collect(),
            ),
            Part::Heading("What the amounts rest on".to_owned()),
            Part::Table(self.assumptions()),
        ]);
    }

    /// Whether money is spoken of at all.
    fn is_priced(&self) -> bool {
        !self.plan.prices.is_empty()
    }

    fn quantities(&self) -> &Quantities {
        &self.order.quantities
    }

    fn charge(&self) -> &Charge {
        &self.order.charge
    }

    fn about(&self, fingerprint: &str) -> String {
        let title = named(&self.plan.title, "Untitled plan");
        let mut sentences = vec![format!("{title}, option {}.", option_name(self.scheme))];
        for (what, says) in [("Place", &self.plan.place), ("For", &self.plan.client)] {
            let says = says.trim();
            if !says.is_empty() {
                sentences.push(format!("{what}: {says}."));
            }
        }
        let quantities = self.quantities();
        sentences.push(format!(
            "Built as: {}. {} long, {} of ground, opened {} deep.",
            quantities.build_up,
            self.voice.length(quantities.length),
            self.amount(Measure::Area, quantities.area),
            self.voice.length(quantities.dug.depth),
        ));
        sentences.push(match self.request.date {
            Some(date) => format!("Dated {date}, from plan {fingerprint}."),
            None => format!("Not dated, from plan {fingerprint}."),
        });
        sentences.join(" ")
    }

    /// The paths that the list leaves out, said before anything else.
    fn not_counted(&self) -> Option<Part> {
        let left_out = &self.quantities().not_counted;
        let paths: Vec<String> = left_out.iter().map(usize::to_string).collect();
        let which = if paths.len() == 1 { "Path" } else { "Paths" };
        let sign = Label::Sign {
            word: "CARE",
            black: false,
        };
        (!paths.is_empty()).then(|| {
            let words = format!(
                "Not in this list: {which} {}, of which an edge is lost in too tight a bend. Open the plan to put it right.",
                paths.join(", ")
            );
            Part::List(vec![Entry::new(sign, words, Style::BODY)])
        })
    }

    /// What is needed for one part of the work; nothing where nothing is.
    fn table(&self, work: Work) -> Vec<Part> {
        let needs = &self.quantities().needs;
        let lines = self.charge().lines.iter().zip(needs);
        let rows: Vec<Vec<Content>> = lines
            .filter(|(line, _)| line.part == work)
            .map(|(line, need)| self.row(line, need.range))
            .collect();
        if rows.is_empty() {
            return Vec::new();
        }
        let heads: &[&str] = if self.is_priced() {
            &["what", "needed", "order", "left over", "from", "price"]
        } else {
            &["what", "needed", "order", "left over", "ordered"]
        };
        vec![
            Part::Heading(work_name(work).to_owned()),
            Part::Table(Table {
                heads: heads.iter().map(|&head| head.to_owned()).collect(),
                rows,
                names: 0,
                style: if self.voice.both {
                    Style::BODY.high(2.1)
                } else {
                    Style::BODY
                },
            }),
        ]
    }

    fn row(&self, line: &Line, range: Option<[f64; 2]>) -> Vec<Content> {
        let mut needed = self.amount(line.measure, line.amount);
        if let Some([least, most]) = range {
            let [least, most] = [least, most].map(|end| self.amount(line.measure, end));
            if least != most {
                let to = if self.voice.both { "\nto" } else { " to" };
                needed += &format!("\n{least}{to} {most}");
            }
        }
        let left_over = line.ordered.as_ref().filter(|ordered| ordered.packs);
        let left_over = left_over.map_or_else(
            || "–".to_owned(),
            |ordered| self.amount(line.measure, ordered.left_over),
        );
        let mut cells = vec![
            Content::Words(line.name.clone()),
            Content::Words(needed),
            Content::Words(self.ordered(line)),
            Content::Words(left_over),
        ];
        if !self.is_priced() {
            cells.push(Content::Tick);
            return cells;
        }
        let money = |sum| self.charge().currency.write(sum);
        let (from, price) = match &line.price {
            Ok(priced) => {
                let each = match &line.ordered {
                    Some(ordered) => format!("{} a {}", money(priced.each), ordered.one),
                    None => money(priced.each),
                };
                let said = [priced.supplier.as_str(), priced.article.as_str(), &each];
                let said: Vec<&str> = said.into_iter().filter(|s| !s.trim().is_empty()).collect();
                (said.join("\n"), money(priced.total))
            }
            Err(missing) => {
                let why = missing.to_string();
                let why = why.strip_prefix("no price: ").unwrap_or_default();
                (named(why, "–"), "no price".to_owned())
            }
        };
        cells.extend([from, price].map(Content::Words));
        cells
    }

    /// What is ordered of a line: as it is sold, or as much as is needed where nobody has said how.
    fn ordered(&self, line: &Line) -> String {
        let Some(ordered) = &line.ordered else {
            return "more than can be ordered".to_owned();
        };
        if !ordered.packs && line.price.is_err() {
            return self.amount(line.measure, line.amount);
        }
        let count = ordered.count.normalize();
        let mut order = match (ordered.packs, line.measure) {
            (true, _) => format!("{count} × {}", ordered.one),
            (false, Measure::Pieces) => count.to_string(),
            (false, _) => format!("{count} {}", ordered.one),
        };
        if let Some(would_do) = ordered.would_do {
            order += &format!("\nleast order; {} would do", would_do.normalize());
        }
        order
    }

    /// An amount in the units of the plan, the others beside it if they are asked for.
    fn amount(&self, measure: Measure, amount: f64) -> String {
        let ruler = self.voice.ruler;
        let own = measure.text(amount, ruler);
        let other = measure.text(amount, ruler.companion());
        if self.voice.both && own != other {
            format!("{own} ({other})")
        } else {
            own
        }
    }
}

/// The parts of the work in the order it is done.
const WORK: [Work; 5] = [
    Work::Dig,
    Work::Base,
    Work::Edges,
    Work::Surface,
    Work::Work,
];

fn work_name(work: Work) -> &'static str {
    match work {
        Work::Dig => "Digging and taking away",
        Work::Base => "Under the surface",
        Work::Edges => "Edges",
        Work::Surface => "Surface",
        Work::Work => "Hands and hired tools",
    }
}

fn bullets(said: Vec<String>) -> Part {
    let entry = |words| Entry::new(Label::Bullet, words, Style::BODY);
    Part::List(said.into_iter().map(entry).collect())
}

/// Lines to write on by hand, two beside each other.
fn blanks(flow: &mut Flow, asked: [&str; 4]) {
    const HIGH: f64 = 8.0;
    const BETWEEN: f64 = 6.0;
    let (mut words, mut rules) = (Vec::new(), Vec::new());
    for pair in asked.chunks(2) {
        let strip = flow.take(HIGH);
        let each = 0.5 * (strip.width - BETWEEN);
        for (index, name) in pair.iter().enumerate() {
            let base = strip.corner.shifted(index as f64 * (each + BETWEEN), 1.2);
            let room = crate::lettering::width(name, Style::BODY) + 2.0;
            words.push(Ink::text(base, *name, Style::BODY));
            let rule = base.shifted(room, -0.4);
            rules.push(Ink::line(rule, base.shifted(each, -0.4), Pen::THIN));
        }
    }
    flow.put(Block::Paragraph(words));
    flow.put(Block::Furniture(rules));
    flow.gap(base_below(Style::SMALL));
}

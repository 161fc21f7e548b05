//! The order list of one option: what to dig, buy and do, what that costs, and what it all rests on.

use plan::count::{Measure, Part as Work, Quantities, Trips};
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
use super::{Request, UNDATED, named, option_name, short, words};

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

    /// Sum under sum, all that the total is made of; what has lines without a price says so.
    fn sums(&self) -> Table {
        let charge = self.charge();
        let money = |sum| charge.currency.write(sum);
        let whole = |sum, missing: usize| match missing {
            0 => money(sum),
            _ => format!("{}, incomplete", money(sum)),
        };
        let mut rows: Vec<(String, String)> = Vec::new();
        for part in &charge.parts {
            rows.push((
                work_name(part.part).to_owned(),
                whole(part.sum, part.missing),
            ));
        }
        for delivery in &charge.deliveries {
            let by = named(&delivery.supplier, "a supplier without a name");
            rows.push((format!("Delivery by {by}"), money(delivery.price)));
        }
        rows.push(("Cost".to_owned(), whole(charge.cost, charge.missing)));
        if !charge.overhead.share.in_percent().is_zero() {
            rows.push((
                format!("Overhead and profit: {}", charge.overhead_in_words()),
                whole(charge.overhead.sum, charge.missing),
            ));
        }
        if !charge.contingency.share.in_percent().is_zero() {
            rows.push((
                format!(
                    "For what turns up in the ground: {} on the cost",
                    charge.contingency.share
                ),
                whole(charge.contingency.sum, charge.missing),
            ));
        }
        rows.push((
            "Price before tax".to_owned(),
            whole(charge.net, charge.missing),
        ));
        for tax in &charge.taxes {
            let name = named(&tax.name, "Tax of their own on some lines");
            rows.push((
                format!("{name}: {} on {}", tax.share, money(tax.on)),
                whole(tax.sum, charge.missing),
            ));
        }
        Table {
            heads: ["sum", "comes to"].map(str::to_owned).to_vec(),
            rows: rows
                .into_iter()
                .map(|(what, sum)| vec![Content::Words(what), Content::Words(sum)])
                .collect(),
            names: 0,
            style: Style::BODY,
        }
    }

    /// Between which totals it lies where sources disagree, and which line drives that.
    fn band(&self) -> Option<Part> {
        let band = self.order.band.as_ref()?;
        let charge = self.charge();
        let [least, most] = [band.least, band.most].map(|sum| charge.currency.write(sum));
        if least == most {
            return None;
        }
        let driver = band.driver.and_then(|line| charge.lines.get(line));
        let driver = driver.map_or_else(String::new, |line| {
            format!(" Most of that comes from {}.", line.name)
        });
        let known = if charge.is_complete() {
            ""
        } else {
            " by the prices that are known"
        };
        Some(Part::Paragraph(
            format!(
                "Where sources disagree about amounts the total lies between {least} and {most}{known}.{driver}"
            ),
            Style::BODY,
        ))
    }

    fn spoil(&self) -> Vec<String> {
        let (quantities, settings) = (self.quantities(), &self.plan.count);
        let spoil = &quantities.spoil;
        let spread = |measure, amount: plan::count::Amount| {
            let said = self.amount(measure, amount.amount);
            match amount
                .range
                .map(|ends| ends.map(|end| self.amount(measure, end)))
            {
                Some([least, most]) if least != most => format!("{said} ({least} to {most})"),
                _ => said,
            }
        };
        let dug = format!(
            "Dug out: {} in the ground, of {}. Loose it is {} and weighs {}.",
            self.amount(Measure::Volume, spoil.bank),
            settings.soil.data().name,
            spread(Measure::Volume, spoil.loose),
            spread(Measure::Mass, spoil.mass),
        );
        let away = format!(
            "Taken away in: {} ({}); their {} limits them.",
            trips(&spoil.loads, ["load", "loads"]),
            settings.carrier.name,
            spoil.loads.limit.word(),
        );
        let mut said = vec![
            dug,
            away,
            format!("Wheeled out: {}.", self.runs(&spoil.barrows)),
        ];
        for layer in &quantities.layers {
            if let Some(barrows) = layer.trips.filter(|trips| trips.trips > 0) {
                said.push(format!(
                    "Wheeled in, {}: {}.",
                    layer.name,
                    self.runs(&barrows)
                ));
            }
        }
        said
    }

    /// How many barrows, and how far one walks with them.
    fn runs(&self, barrows: &Trips) -> String {
        format!(
            "{}, {} walked there and back in all",
            trips(barrows, ["barrow", "barrows"]),
            words::about(barrows.walked, self.plan.units)
        )
    }

    fn cautions(&self) -> Vec<String> {
        let quantities = self.quantities();
        let needs = &quantities.needs;
        let mass: f64 = quantities
            .layers
            .iter()
            .filter_map(|layer| layer.mass)
            .sum();
        let mut list = Vec::new();
        list.push(if mass > 0.0 {
            format!(
                "Lifting: about {} is carried in. Have it tipped where it is used, know the spot before it comes, lift heavy pieces by two or with a tool.",
                self.amount(Measure::Mass, mass)
            )
        } else {
            "Lifting: know where things are put down before they come; lift heavy pieces by two or with a tool.".to_owned()
        });
        let is_cut = |need: &plan::count::Need| {
            matches!(need.measure, Measure::Pieces | Measure::Area)
                && matches!(need.part, Work::Surface | Work::Edges)
        };
        if needs.iter().any(is_cut) {
            list.push(
                "Dust: cut stone, brick and concrete wet, with a mask and goggles made for it and nobody beside you. The dust of a dry cut harms lungs for good."
                    .to_owned(),
            );
        }
        let binds = |need: &plan::count::Need| {
            ["cement", "mortar", "concrete"]
                .iter()
                .any(|word| need.key.contains(word))
        };
        if needs.iter().any(binds) {
            list.push(
                "Cement burns: keep it off skin and out of eyes, wear gloves, wash it off at once."
                    .to_owned(),
            );
        }
        if quantities.spoil.loads.trips > 0 {
            list.push(
                "Skip or trailer: one that stands on a public road or footway may need a permit, lights and a board. What is dug may have to go with a licensed carrier. Local rules decide: ask before you order it."
                    .to_owned(),
            );
        }
        list.push(
            "Amounts follow from the plan, not from the ground: measure what is pegged out before you order what cannot be given back."
                .to_owned(),
        );
        list
    }

    /// Every figure the amounts rest on, once, with its source and what it is for.
    fn assumptions(&self) -> Table {
        let mut said: Vec<(&str, &str, Vec<&str>)> = Vec::new();
        for need in &self.quantities().needs {
            for because in &need.because {
                let (what, source) = (because.what.as_str(), because.source.as_str());
                let known = said
                    .iter_mut()
                    .find(|known| (known.0, known.1) == (what, source));
                match known {
                    Some((_, _, needs)) if needs.contains(&need.name.as_str()) => {}
                    Some((_, _, needs)) => needs.push(&need.name),
                    None => said.push((what, source, vec![&need.name])),
                }
            }
        }
        let cells = |(what, source, needs): (&str, &str, Vec<&str>)| {
            let words = [what.to_owned(), source.to_owned(), needs.join(", ")];
            words.map(Content::Words).to_vec()
        };
        Table {
            heads: ["figure", "where it comes from", "for"]
                .map(str::to_owned)
                .to_vec(),
            rows: said.into_iter().map(cells).collect(),
            names: 0,
            style: Style::SMALL,
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

/// `82 barrows (66 to 95)`.
fn trips(trips: &Trips, [one, many]: [&str; 2]) -> String {
    let called = if trips.trips == 1 { one } else { many };
    let [least, most] = trips.trips_range;
    let range = if least < most {
        format!(" ({least} to {most})")
    } else {
        String::new()
    };
    format!("{} {called}{range}", trips.trips)
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

//! What an order comes to: sum under sum, and between which figures the total lies.

use crate::pen::Style;

use super::super::flow::Part;
use super::super::named;
use super::super::table::{Content, Table};
use super::{List, work_name};

impl List<'_> {
    /// Sum under sum, all that the total is made of; what has lines without a price says so.
    pub(super) fn sums(&self) -> Table {
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
    pub(super) fn band(&self) -> Option<Part> {
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
}

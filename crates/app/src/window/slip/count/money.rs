//! What it costs in all: rates, shares and taxes, the sums, how sure they are, and what would save.

use egui::{RichText, Ui};
use plan::Edit;
use plan::order::Order;
use plan::price::{Charge, Labour, Share, SignPlace, Tax, read_price, saves};

use super::{chart, heading, set_prices, small};
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::slip::ask;
use crate::window::slip::bend::row_ui;
use crate::window::slip::field::{CountField, Subject, Typing, figure_style};
use crate::window::theme;
use crate::window::words::{capital, count as said, short};

/// How much of a pack less is worth hearing of: a quarter. Own choice.
const HEARD_OF: f64 = 0.25;

/// Shows it.
pub(super) fn ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    order: &Order,
    out: &mut Vec<Intent>,
) {
    heading(ui, "What it costs");
    rates_ui(ui, typing, scene, out);
    taxes_ui(ui, typing, scene, out);
    if scene.plan.prices.is_empty() {
        return;
    }
    ui.add_space(theme::GAP);
    sums_ui(ui, scene, &order.charge);
    let currency = &order.charge.currency;
    // Of an incomplete total nobody knows the end.
    if let Some(band) = order.band.as_ref().filter(|_| order.charge.is_complete()) {
        let [low, high] = [band.least, band.most].map(|it| currency.write(it));
        let driver = band.driver.and_then(|it| order.quantities.needs.get(it));
        small(
            ui,
            scene,
            &said::band(&low, &high, driver.map(|it| it.name.as_str())),
        );
    }
    chart::ui(ui, scene, &order.charge);
    for saving in saves(&order.charge, HEARD_OF) {
        ui.label(format!("✓ {}", capital(&saving.words)));
    }
}

/// A field, and the edit of what is typed into it.
fn field_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    (field, name, shown): (CountField, &str, &str),
    out: &mut Vec<Intent>,
    edit: impl FnOnce(&str) -> Result<Edit, String>,
) {
    row_ui(ui, name, |ui| {
        let subject = Subject::Count(field);
        if let Some(typed) = typing.field(ui, subject, name, shown, figure_style()) {
            ask(out, edit(typed.text.trim()));
        }
    });
}

fn rates_ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let prices = &scene.plan.prices;
    let sign = match prices.currency.sign.as_str() {
        "" => said::NO_SIGN,
        sign => sign,
    };
    field_ui(
        ui,
        typing,
        (CountField::Sign, said::SIGN, sign),
        out,
        |text| {
            Ok(set_prices(scene, |it| {
                text.clone_into(&mut it.currency.sign);
            }))
        },
    );
    let mut after = prices.currency.place == SignPlace::After;
    if ui.checkbox(&mut after, said::AFTER).changed() {
        let place = if after {
            SignPlace::After
        } else {
            SignPlace::Before
        };
        out.push(Intent::Commit(set_prices(scene, |it| {
            it.currency.place = place;
        })));
    }
    if scene.plan.count.labour {
        let rate = prices.labour.iter().find(|it| it.key.is_none());
        let shown = rate.map_or(said::NO_PRICE.to_owned(), |it| it.rate.to_string());
        field_ui(
            ui,
            typing,
            (CountField::Rate, said::RATE, &shown),
            out,
            |text| {
                let rate = match text {
                    "" => None,
                    text => Some(read_price(text).map_err(|error| capital(&error.to_string()))?),
                };
                Ok(set_prices(scene, |it| {
                    it.labour.retain(|it| it.key.is_some());
                    it.labour.extend(rate.map(|rate| Labour {
                        key: None,
                        name: String::new(),
                        rate,
                    }));
                }))
            },
        );
    }
    let shown = prices.overhead.to_string();
    field_ui(
        ui,
        typing,
        (CountField::Overhead, said::OVERHEAD, &shown),
        out,
        |text| {
            let share = share(text)?;
            Ok(set_prices(scene, |it| it.overhead = share))
        },
    );
    let shown = prices.contingency.to_string();
    field_ui(
        ui,
        typing,
        (CountField::Contingency, said::CONTINGENCY, &shown),
        out,
        |text| {
            let share = share(text)?;
            Ok(set_prices(scene, |it| it.contingency = share))
        },
    );
}

fn taxes_ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    for (at, tax) in scene.plan.prices.taxes.iter().enumerate() {
        let name = (CountField::TaxName(at), "A tax", tax.name.as_str());
        field_ui(ui, typing, name, out, |text| {
            Ok(set_prices(scene, |it| {
                text.clone_into(&mut it.taxes[at].name);
            }))
        });
        let called = format!("Share of {}", short(&tax.name));
        let shown = tax.share.to_string();
        field_ui(
            ui,
            typing,
            (CountField::TaxShare(at), &called, &shown),
            out,
            |text| {
                let share = share(text)?;
                Ok(set_prices(scene, |it| it.taxes[at].share = share))
            },
        );
        if ui.button(said::DROP_TAX).clicked() {
            out.push(Intent::Commit(set_prices(scene, |it| {
                it.taxes.remove(at);
            })));
        }
    }
    if ui.button(said::ADD_TAX).clicked() {
        let count = scene.plan.prices.taxes.len();
        let name = match count {
            0 => said::TAX.to_owned(),
            _ => format!("{} {}", said::TAX, count + 1),
        };
        let share = Share::default();
        out.push(Intent::Commit(set_prices(scene, |it| {
            it.taxes.push(Tax { name, share });
        })));
    }
}

/// Reads a share, with or without its sign; nothing is nothing of it.
fn share(text: &str) -> Result<Share, String> {
    let text = match text {
        "" => "0 %".to_owned(),
        text if text.ends_with('%') => text.to_owned(),
        text => format!("{text} %"),
    };
    text.parse()
        .map_err(|error: plan::price::ShareError| capital(&error.to_string()))
}

fn sums_ui(ui: &mut Ui, scene: &Scene<'_>, charge: &Charge) {
    let mut rows: Vec<(String, rust_decimal::Decimal)> = Vec::new();
    rows.extend(
        charge
            .deliveries
            .iter()
            .map(|it| (said::delivery(it), it.price)),
    );
    rows.push((said::COST.to_owned(), charge.cost));
    for (name, added) in [
        (said::OVERHEAD, &charge.overhead),
        (said::CONTINGENCY, &charge.contingency),
    ] {
        if added.share != Share::default() {
            rows.push((format!("{name}, {}", added.share), added.sum));
        }
    }
    rows.push((said::NET.to_owned(), charge.net));
    for tax in &charge.taxes {
        let name = match tax.name.as_str() {
            "" => "Own tax of some lines".to_owned(),
            name => capital(&short(name)),
        };
        rows.push((format!("{name}, {}", tax.share), tax.sum));
    }
    for (name, sum) in rows {
        row_ui(ui, &name, |ui| {
            let sum = RichText::new(charge.currency.write(sum));
            ui.label(sum.text_style(figure_style()));
        });
    }
    if charge.overhead.share != Share::default() {
        small(ui, scene, &capital(&charge.overhead_in_words()));
    }
    super::total_ui(ui, scene, charge);
}

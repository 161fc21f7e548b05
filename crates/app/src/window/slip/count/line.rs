//! The price of one thing on the order list, and who sells it how.

use egui::Ui;
use plan::Edit;
use plan::count::{Measure, Need};
use plan::price::{
    Charge, Labour, Line, Missing, PriceLine, PriceList, Sold, Unit, read_count, read_price,
};
use plan::units::{Ruler, Units};
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

use super::{set_prices, small};
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::slip::bend::row_ui;
use crate::window::slip::field::{CountField, LineField, Subject, Typing, figure_style};
use crate::window::slip::{ask, choice};
use crate::window::theme;
use crate::window::words::{capital, count as said};

/// The price of what is taken, typed over in place; nothing typed takes it out.
pub(super) fn price_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    (place, need, line): (usize, &Need, &Line),
    charge: &Charge,
    out: &mut Vec<Intent>,
) {
    let prices = &scene.plan.prices;
    let taken = taken(prices, line);
    let one = match taken.and_then(|taken| prices.lines.get(taken)) {
        Some(line) => line.sold.one().to_owned(),
        None => new_sold(need, &scene.ruler()).one().to_owned(),
    };
    let name = said::price_of(&crate::window::words::short(&one));
    let shown = match (&line.price, taken.and_then(|it| prices.lines.get(it))) {
        (Ok(priced), _) => priced.each.to_string(),
        (Err(_), Some(line)) => line.price.to_string(),
        (Err(_), None) => said::NO_PRICE.to_owned(),
    };
    row_ui(ui, &name, |ui| {
        let subject = Subject::Count(CountField::Price(place));
        let field = format!(
            "{}: price",
            capital(&crate::window::words::short(&need.name))
        );
        if let Some(typed) = typing.field(ui, subject, &field, &shown, figure_style()) {
            ask(out, priced(scene, need, taken, &typed.text));
        }
    });
    match &line.price {
        Ok(priced) => {
            let by = match priced.supplier.trim() {
                "" => "It".to_owned(),
                supplier => format!("From {}: it", crate::window::words::short(supplier)),
            };
            small(ui, scene, &said::costs(charge, priced.total, &by));
        }
        // The field says so.
        Err(Missing::NoPrice) => {}
        Err(missing) => small(ui, scene, &capital(&missing.to_string())),
    }
}

/// The line of the list that is taken for a need, or that would be, were it sold by the right unit.
fn taken(prices: &PriceList, line: &Line) -> Option<usize> {
    let mut of_key = (0..prices.lines.len()).filter(|it| prices.lines[*it].key == line.key);
    match &line.price {
        Err(_) => of_key.next(),
        Ok(priced) => of_key.find(|it| {
            let line = &prices.lines[*it];
            line.price == priced.each && line.supplier == priced.supplier
        }),
    }
}

fn priced(
    scene: &Scene<'_>,
    need: &Need,
    taken: Option<usize>,
    text: &str,
) -> Result<Edit, String> {
    let nothing = text.trim().is_empty();
    let price = match nothing {
        true => Decimal::ZERO,
        false => read_price(text).map_err(|error| capital(&error.to_string()))?,
    };
    Ok(set_prices(scene, |prices| match taken {
        Some(taken) if nothing => {
            prices.lines.remove(taken);
        }
        Some(taken) => prices.lines[taken].price = price,
        None if need.measure == Measure::Hours => {
            let of_key = |rate: &Labour| rate.key.as_ref() == Some(&need.key);
            // What has no rate of its own goes by the rate for all.
            let had = prices.labour.len();
            prices.labour.retain(|rate| !of_key(rate));
            if nothing && had == prices.labour.len() {
                prices.labour.retain(|rate| rate.key.is_some());
            }
            if !nothing {
                prices.labour.push(Labour {
                    key: Some(need.key.clone()),
                    name: String::new(),
                    rate: price,
                });
            }
        }
        None if nothing => {}
        None => prices.lines.push(PriceLine {
            price,
            ..new_line(need, &scene.ruler())
        }),
    }))
}

fn new_line(need: &Need, ruler: &Ruler) -> PriceLine {
    PriceLine {
        key: need.key.clone(),
        name: String::new(),
        supplier: String::new(),
        sold: new_sold(need, ruler),
        price: Decimal::ZERO,
        least_order: None,
        delivery: Decimal::ZERO,
        tax: None,
    }
}

/// As it is usually sold: in its first pack, or by the unit of the plan.
fn new_sold(need: &Need, ruler: &Ruler) -> Sold {
    let packs = packs(need);
    let feet = ruler.units == Units::FeetInches;
    packs
        .into_iter()
        .next()
        .unwrap_or(Sold::Per(match (need.measure, feet) {
            (Measure::Length, true) => Unit::Foot,
            (Measure::Area, true) => Unit::SquareYard,
            (Measure::Volume, true) => Unit::CubicYard,
            (Measure::Mass, true) => Unit::ShortTon,
            (Measure::Mass, false) => Unit::Tonne,
            (measure, _) => Unit::of(measure),
        }))
}

/// The packs a need comes in.
fn packs(need: &Need) -> Vec<Sold> {
    let pack = |pack: &plan::count::Pack| {
        let holds = Decimal::from_f64(pack.holds)?.round_dp(4);
        (holds > Decimal::ZERO).then(|| Sold::Pack {
            name: pack.name.clone(),
            holds: holds.normalize(),
            unit: Unit::of(need.measure),
        })
    };
    need.packs.iter().filter_map(pack).collect()
}

/// All who sell a thing, each with how, from how many on, and for what delivery.
pub(super) fn sellers_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    need: &Need,
    out: &mut Vec<Intent>,
) {
    if need.measure == Measure::Hours {
        return;
    }
    let lines = scene.plan.prices.lines.iter().enumerate();
    let lines: Vec<usize> = lines
        .filter(|(_, it)| it.key == need.key)
        .map(|it| it.0)
        .collect();
    for at in &lines {
        ui.push_id(at, |ui| seller_ui(ui, typing, scene, need, *at, out));
        ui.add_space(theme::GAP);
    }
    if !lines.is_empty() && ui.button(said::ANOTHER).clicked() {
        let like = scene.plan.prices.lines[lines[0]].clone();
        out.push(Intent::Commit(set_prices(scene, |prices| {
            prices.lines.push(PriceLine {
                supplier: String::new(),
                ..like
            });
        })));
    }
}

fn seller_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    need: &Need,
    at: usize,
    out: &mut Vec<Intent>,
) {
    let line = &scene.plan.prices.lines[at];
    let units = Unit::ALL.into_iter();
    let mut all = packs(need);
    all.extend(
        units
            .filter(|it| it.measure() == need.measure)
            .map(Sold::Per),
    );
    all.push(Sold::Pack {
        name: "pack".to_owned(),
        holds: Decimal::ONE,
        unit: Unit::of(need.measure),
    });
    let words = |it: &Sold| match it {
        Sold::Per(unit) => format!("by the {}", unit.sign()),
        Sold::Pack { name, holds, unit } => {
            let name = crate::window::words::short(name);
            format!("{name}, {holds} {}", unit.sign())
        }
    };
    if let Some(sold) = choice(ui, said::SOLD, &line.sold, &all, words) {
        out.push(Intent::Commit(set_prices(scene, |it| {
            it.lines[at].sold = sold;
        })));
    }
    let count = |count: Option<Decimal>| count.map_or(said::NONE.to_owned(), |it| it.to_string());
    let mut fields = vec![
        (
            LineField::Price,
            said::PRICE.to_owned(),
            line.price.to_string(),
        ),
        (
            LineField::Supplier,
            said::SUPPLIER.to_owned(),
            line.supplier.clone(),
        ),
        (
            LineField::LeastOrder,
            said::LEAST_ORDER.to_owned(),
            count(line.least_order),
        ),
        (
            LineField::Delivery,
            said::DELIVERY.to_owned(),
            line.delivery.to_string(),
        ),
    ];
    if let Sold::Pack { name, holds, unit } = &line.sold {
        let holds_in = format!("{} {}", said::HOLDS, unit.sign());
        fields.push((
            LineField::PackName,
            said::PACK_NAME.to_owned(),
            name.clone(),
        ));
        fields.push((LineField::Holds, holds_in, holds.to_string()));
    }
    for (field, name, shown) in fields {
        row_ui(ui, &name, |ui| {
            let subject = Subject::Count(CountField::Line(at, field));
            let called = format!("{name}, {}", crate::window::words::short(&need.name));
            if let Some(typed) = typing.field(ui, subject, &called, &shown, figure_style()) {
                ask(out, changed(scene, at, field, typed.text.trim()));
            }
        });
    }
    if ui.button(said::TAKE_OUT).clicked() {
        out.push(Intent::Commit(set_prices(scene, |it| {
            it.lines.remove(at);
        })));
    }
}

/// A line of the list after something about it was typed.
fn changed(scene: &Scene<'_>, at: usize, field: LineField, text: &str) -> Result<Edit, String> {
    let mut line = scene.plan.prices.lines[at].clone();
    let price = || read_price(text).map_err(|error| capital(&error.to_string()));
    let count = || read_count(text).map_err(|error| capital(&error.to_string()));
    match (field, &mut line.sold) {
        (LineField::Price, _) => line.price = price()?,
        (LineField::Supplier, _) => text.clone_into(&mut line.supplier),
        (LineField::LeastOrder, _) if matches!(text, "" | said::NONE) => line.least_order = None,
        (LineField::LeastOrder, _) => line.least_order = Some(count()?),
        (LineField::Delivery, _) if text.is_empty() => line.delivery = Decimal::ZERO,
        (LineField::Delivery, _) => line.delivery = price()?,
        (LineField::PackName, Sold::Pack { name, .. }) => text.clone_into(name),
        (LineField::Holds, Sold::Pack { holds, .. }) => *holds = count()?,
        (LineField::PackName | LineField::Holds, Sold::Per(_)) => {}
    }
    Ok(set_prices(scene, |prices| prices.lines[at] = line))
}

//! The limits of a build-up: past them a sentence that names the layer and says what to write.

use std::collections::HashSet;

use super::{
    Assumed, Bought, BuildUp, Cover, EdgeCourse, Filling, Forms, Haunch, Labour, Layer, LayerPart,
    Membrane, Packing, Pins, Source, Waste,
};
use crate::count::paving::Bond;
use crate::edging::Edging;
use crate::limits::{LimitError, fail, length, name, note};

/// The most layers.
const LAYERS: usize = 20;
/// The most ways one thing is sold.
const PACKS: usize = 20;
/// The thinnest and the thickest layer, in metres: 1 mm and 2 m.
const THICKNESS: (f64, f64) = (0.001, 2.0);
/// The lightest and the heaviest that anything is, in kg/m³: loose bark is over 100, iron under 8 000.
const DENSITY: (f64, f64) = (10.0, 10_000.0);
/// Nothing that is compacted comes three times as bulky.
const FACTOR: (f64, f64) = (1.0, 3.0);
/// A length of anything that is bought or kept apart, in metres.
const SPAN: (f64, f64) = (0.001, 1_000.0);
/// How much a pack holds, in whatever it is counted in.
const HOLDS: (f64, f64) = (1e-6, 1e6);
/// Hours for a cubic or a square metre.
const HOURS: (f64, f64) = (0.0, 100.0);

const BEYOND: &str = "how far beyond the path is dug in metres";

type Checked = Result<(), LimitError>;

/// Checks a build-up; `place` says whose it is.
pub(crate) fn check(place: &str, build_up: &BuildUp) -> Checked {
    name(place, &build_up.name)?;
    note(place, &build_up.notes)?;
    if build_up.layers.is_empty() {
        return fail(place, "it has no layer: give it one at least".into());
    }
    if build_up.layers.len() > LAYERS {
        let count = build_up.layers.len();
        return fail(place, format!("it has {count} layers, more than {LAYERS}"));
    }
    if let Some(raised) = &build_up.raised {
        let what = "how far it stands above the ground in metres";
        number(place, what, raised, (-THICKNESS.1, THICKNESS.1), "")?;
    }
    let stones = matches!(build_up.cover, Cover::Stones { .. });
    if let Cover::Stones {
        spacing,
        along,
        across,
    } = &build_up.cover
    {
        number(
            place,
            "the spacing of its stones in metres",
            spacing,
            SPAN,
            "",
        )?;
        number(place, "the length of a stone in metres", along, SPAN, "")?;
        number(place, "the width of a stone in metres", across, SPAN, "")?;
    }
    for (i, layer) in build_up.layers.iter().enumerate() {
        let place = format!("{place}, layer {} “{}”", i + 1, layer.name);
        check_layer(&place, layer, stones)?;
    }
    for (side, course) in [("left", &build_up.left), ("right", &build_up.right)] {
        if let Some(course) = course {
            check_course(&format!("{place}, {side} edge"), course)?;
        }
    }
    if let Some(membrane) = &build_up.membrane {
        check_membrane(&format!("{place}, membrane"), membrane)?;
    }
    if let Some(forms) = &build_up.forms {
        let Forms {
            key,
            name,
            beyond,
            waste,
            stakes,
        } = forms;
        let place = format!("{place}, forms");
        named(&place, key, name)?;
        number(&place, BEYOND, beyond, (0.0, THICKNESS.1), "")?;
        check_waste(&place, waste)?;
        stakes
            .as_ref()
            .map_or(Ok(()), |pins| check_pins(&place, pins))?;
    }
    if let Some(joints) = &build_up.joints {
        let place = format!("{place}, joints");
        let times = (0.1, 1_000.0);
        number(
            &place,
            "how many times the thickness",
            &joints.of_thickness,
            times,
            "",
        )?;
        number(
            &place,
            "how many times the width",
            &joints.of_width,
            times,
            "",
        )?;
    }
    check_keys(place, build_up)
}

fn check_layer(place: &str, layer: &Layer, stones: bool) -> Checked {
    named(place, &layer.key, &layer.name)?;
    let what = "its thickness in metres";
    let remedy = "write how thick it lies when it is compacted";
    number(place, what, &layer.thickness, THICKNESS, remedy)?;
    match &layer.bought {
        Bought::Mass { compacted, loose } => {
            density(place, "its compacted density", compacted)?;
            maybe_density(place, loose.as_ref())?;
        }
        Bought::Volume { factor, loose } => {
            let what = "its compaction factor";
            let remedy = "write how much of it loose makes one compacted, such as 1.2";
            number(place, what, factor, FACTOR, remedy)?;
            maybe_density(place, loose.as_ref())?;
        }
        Bought::Units {
            length,
            width,
            density: dense,
            filling,
            bond,
            edges,
        } => {
            if matches!(bond, Bond::Radial(_)) && edges.is_some() {
                let sentence = "courses follow both edges in a radial bond already: leave `edges` out, or write `Running` or `Stack`";
                return fail(place, sentence.into());
            }
            number(place, "the length of a unit in metres", length, SPAN, "")?;
            number(place, "the width of a unit in metres", width, SPAN, "")?;
            density(place, "its density", dense)?;
            if let Some(filling) = filling {
                check_filling(place, filling, length.value.min(width.value))?;
            }
        }
        Bought::Area { density: dense } => density(place, "its density", dense)?,
        Bought::Each { density: dense } => {
            density(place, "its density", dense)?;
            if !stones {
                let sentence = "one for each stone needs stones: write `Units`, `Area`, `Mass` or `Volume`, or give the build-up stepping stones";
                return fail(place, sentence.into());
            }
            if layer.part != LayerPart::Surface {
                return fail(place, "only the surface is bought by the stone".into());
            }
        }
    }
    check_waste(place, &layer.waste)?;
    check_packs(place, &layer.packs)?;
    match &layer.labour {
        Some(Labour::PerVolume(hours) | Labour::PerArea(hours)) => {
            number(place, "the hours it takes", hours, HOURS, "")
        }
        None => Ok(()),
    }
}

fn check_filling(place: &str, filling: &Filling, unit: f64) -> Checked {
    let place = format!("{place}, joints");
    named(&place, &filling.key, &filling.name)?;
    let what = "the width of a joint in metres";
    let remedy = "a joint is narrower than a unit";
    number(&place, what, &filling.joint, (0.0, unit), remedy)?;
    density(&place, "its density", &filling.density)?;
    check_waste(&place, &filling.waste)?;
    check_packs(&place, &filling.packs)
}

fn check_course(place: &str, course: &EdgeCourse) -> Checked {
    named(place, &course.key, &course.name)?;
    if let Edging::Other { least_radius } = course.edging {
        length(place, "the least radius of its edging", least_radius)?;
    }
    number(place, BEYOND, &course.beyond, (0.0, THICKNESS.1), "")?;
    check_waste(place, &course.waste)?;
    check_packs(place, &course.packs)?;
    if let Some(pins) = &course.pins {
        check_pins(place, pins)?;
    }
    if let Some(haunch) = &course.haunch {
        let Haunch { key, name, section } = haunch;
        named(place, key, name)?;
        let what = "the concrete along it in cubic metres a metre";
        number(place, what, section, (0.0, 1.0), "")?;
    }
    Ok(())
}

fn check_membrane(place: &str, membrane: &Membrane) -> Checked {
    named(place, &membrane.key, &membrane.name)?;
    number(
        place,
        "the width of a roll in metres",
        &membrane.roll_width,
        (0.1, 50.0),
        "",
    )?;
    number(
        place,
        "the length of a roll in metres",
        &membrane.roll_length,
        (0.5, SPAN.1),
        "",
    )?;
    let narrowest = 0.5 * membrane.roll_width.value.min(membrane.roll_length.value);
    let remedy = "a lap is at most half the roll";
    number(
        place,
        "the lap in metres",
        &membrane.lap,
        (0.0, narrowest),
        remedy,
    )?;
    check_waste(place, &membrane.waste)
}

fn check_pins(place: &str, pins: &Pins) -> Checked {
    named(place, &pins.key, &pins.name)?;
    for (what, spacing) in [
        (
            "the way between pins on straights in metres",
            &pins.straight,
        ),
        ("the way between pins on bends in metres", &pins.curve),
    ] {
        number(place, what, spacing, (0.01, 100.0), "")?;
    }
    Ok(())
}

fn check_waste(place: &str, waste: &Waste) -> Checked {
    for (what, share) in [("straights", &waste.straight), ("bends", &waste.curve)] {
        let worst = share.spread()[1].max(share.value);
        if worst > 1.0 {
            return fail(
                place,
                format!(
                    "a waste of {} % on {what} is more than 100 %: write a share from 0 to 1, such as 0.1 for 10 %",
                    (worst * 1e4).round() / 100.0
                ),
            );
        }
        let what = format!("the waste on {what}");
        let remedy = "write a share such as 0.1 for 10 %";
        number(place, &what, share, (0.0, 1.0), remedy)?;
    }
    Ok(())
}

fn check_packs(place: &str, packs: &[Packing]) -> Checked {
    if packs.len() > PACKS {
        let count = packs.len();
        return fail(
            place,
            format!("it is sold in {count} ways, more than {PACKS}"),
        );
    }
    for pack in packs {
        name(place, &pack.name)?;
        let what = format!("how much a “{}” holds", pack.name);
        number(place, &what, &pack.holds, HOLDS, "")?;
    }
    Ok(())
}

/// A key finds one price: two things with one key have one price and one name.
fn check_keys(place: &str, build_up: &BuildUp) -> Checked {
    let mut seen = HashSet::new();
    for layer in &build_up.layers {
        let filling = match &layer.bought {
            Bought::Units { filling, .. } => filling.as_ref().map(|filling| &filling.key),
            _ => None,
        };
        for key in [Some(&layer.key), filling].into_iter().flatten() {
            if !seen.insert(key) {
                return fail(
                    place,
                    format!("two layers have the key `{key}`: give each its own"),
                );
            }
        }
    }
    if let (Some(left), Some(right)) = (&build_up.left, &build_up.right) {
        let alike = left.name == right.name && left.packs == right.packs;
        if left.key == right.key && !alike {
            let sentence = format!(
                "both edges have the key `{}`, but another name or other packs: give each its own",
                left.key
            );
            return fail(place, sentence);
        }
    }
    Ok(())
}

fn named(place: &str, key: &str, called: &str) -> Checked {
    name(place, called)?;
    name(place, key)?;
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    if key.is_empty() || !key.chars().all(plain) {
        return fail(
            place,
            format!(
                "`{key}` is no key: write small letters, digits and hyphens, such as `sub-base`"
            ),
        );
    }
    Ok(())
}

fn density(place: &str, what: &str, value: &Assumed) -> Checked {
    let what = format!("{what} in kg/m³");
    number(
        place,
        &what,
        value,
        DENSITY,
        "a tonne for a cubic metre is 1000",
    )
}

fn maybe_density(place: &str, value: Option<&Assumed>) -> Checked {
    value.map_or(Ok(()), |value| density(place, "its loose density", value))
}

fn number(
    place: &str,
    what: &str,
    assumed: &Assumed,
    (low, high): (f64, f64),
    remedy: &str,
) -> Checked {
    let (least, most) = assumed.range.unwrap_or((assumed.value, assumed.value));
    let remedy = if remedy.is_empty() {
        String::new()
    } else {
        format!(": {remedy}")
    };
    for value in [assumed.value, least, most] {
        if !(low <= value && value <= high) {
            return fail(
                place,
                format!("{what} must lie between {low} and {high}, it is {value}{remedy}"),
            );
        }
    }
    if !(least <= assumed.value && assumed.value <= most) {
        return fail(
            place,
            format!(
                "{what} is {} and so outside its own range of {least} to {most}",
                assumed.value
            ),
        );
    }
    match &assumed.source {
        Source::Published(source) | Source::Worked(source) => note(place, source),
        _ => Ok(()),
    }
}

//! How an option feels to walk, in a few plain words; every word has a limit.

use geometry::angle::to_degrees;

use super::Standing;
use crate::feel::BendFeel;

/// A bend that turns no more with a pace, in degrees, hardly slows anyone: a radius of 8.6 m at the
/// usual pace. Our own word for it, no source.
const SWEEPING: f64 = 5.0;

/// A bend that turns more with a pace, in degrees, is walked step by step: a radius below 3.6 m at
/// the usual pace. Our own word for it, no source.
const TIGHT: f64 = 12.0;

/// Two walk side by side from this width on, in metres. Source: This Old House, G. Hayward (48 in
/// for a primary walk).
const ABREAST: f64 = 1.2;

/// Below this width one walks behind the other, in metres. Common practice, no source.
const SINGLE_FILE: f64 = 0.9;

/// What stands nearer is felt at one's elbow, in metres: the usual clearance of a wall.
const AT_THE_ELBOW: f64 = 0.3;

/// The words for an option whose bends feel so; nothing for one that is not drawn.
pub(super) fn of(standing: &Standing, bends: &[BendFeel]) -> String {
    if !standing.drawn {
        return String::new();
    }
    let (turn, narrowest) = (to_degrees(standing.turn_per_pace), standing.widths[0]);
    let pace = if turn > TIGHT || narrowest < SINGLE_FILE {
        "Slow"
    } else if turn > SWEEPING || narrowest < ABREAST {
        "Unhurried"
    } else {
        "Brisk"
    };
    let line = match standing.tightest_inside {
        None => "straight",
        Some(_) if turn > TIGHT => "with tight turns",
        Some(_) if turn > SWEEPING => "winding",
        Some(_) => "sweeping gently",
    };
    let abreast = if narrowest < SINGLE_FILE {
        "one behind the other"
    } else if narrowest < ABREAST {
        "wide enough to pass each other"
    } else {
        "two side by side"
    };
    let mut words = format!("{pace}, {line}, {abreast}");
    let mut views = bends.iter().filter_map(|bend| bend.view);
    if views.any(|view| view.hides_what_is_beyond) {
        words += "; with tall planting a bend hides what comes next";
    }
    if let Some(nearest) = &standing.nearest
        && nearest.distance < AT_THE_ELBOW
    {
        words += &format!("; close by {}", nearest.called);
    }
    words
}

//! Whole packs: an amount rounded up once, and what is left over.

use serde::Serialize;

use super::{Need, Pack};

/// So many packs, and what is left of them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Packed {
    /// How many whole packs.
    pub count: u64,
    /// How much of them is not needed, in the measure of the need; never negative.
    pub left_over: f64,
}

/// A pack more is not opened for less than this share of it: what is lost in the last digits of the
/// arithmetic.
const CRUMB: f64 = 1e-9;

impl Need {
    /// How many whole packs hold the amount. A pack that holds nothing makes none.
    ///
    /// ```
    /// use plan::count::{Measure, Need, Pack, Packed, Part};
    /// let need = Need {
    ///     key: "joint-sand".into(),
    ///     name: "joint sand".into(),
    ///     part: Part::Surface,
    ///     measure: Measure::Mass,
    ///     amount: 64.0,
    ///     range: None,
    ///     packs: Vec::new(),
    ///     because: Vec::new(),
    /// };
    /// let bag = Pack { name: "25 kg bag".into(), holds: 25.0 };
    /// assert_eq!(need.packed(&bag), Packed { count: 3, left_over: 11.0 });
    /// ```
    #[must_use]
    pub fn packed(&self, pack: &Pack) -> Packed {
        packed(self.amount, pack.holds)
    }
}

/// How many packs that hold so much an amount takes.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "whole and not negative; the cast stops at the ends of the range"
)]
pub(super) fn packed(amount: f64, holds: f64) -> Packed {
    let packs = amount / holds;
    if !(holds > 0.0 && packs.is_finite() && packs > 0.0) {
        return Packed {
            count: 0,
            left_over: 0.0,
        };
    }
    let whole = (packs - CRUMB).ceil().max(0.0);
    Packed {
        count: whole as u64,
        left_over: (whole * holds - amount).max(0.0),
    }
}

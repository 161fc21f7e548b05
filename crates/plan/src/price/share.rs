//! A share of a sum, such as 20 %.

use std::fmt;
use std::str::FromStr;

use rust_decimal::Decimal;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::written;

/// A share of a sum, from nothing to the whole of it; written `20 %`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Share {
    percent: Decimal,
}

/// Why a figure is no share.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ShareError {
    /// It is not written as a figure of per cent.
    Written(String),
    /// It is below nothing.
    Negative(Decimal),
    /// It is more than the whole.
    OverTheWhole(Decimal),
    /// It has more than four digits behind the point.
    TooFine(Decimal),
}

impl fmt::Display for ShareError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Written(text) => write!(
                f,
                "`{text}` is no share: write figures and the sign, such as \"20 %\" or \"7.5 %\""
            ),
            Self::Negative(percent) => {
                write!(f, "a share is 0 % or more, this one is {percent} %")
            }
            Self::OverTheWhole(percent) => {
                write!(f, "a share is at most 100 %, this one is {percent} %")
            }
            Self::TooFine(percent) => write!(
                f,
                "a share has at most {} digits behind the point, this one is {percent} %",
                written::MOST_DIGITS
            ),
        }
    }
}

impl std::error::Error for ShareError {}

impl Share {
    /// A share of so many per cent.
    ///
    /// # Errors
    /// [`ShareError`] below 0, above 100 and with more than four digits behind the point.
    ///
    /// ```
    /// # use plan::price::Share;
    /// # use rust_decimal::dec;
    /// assert_eq!(Share::percent(dec!(7.5))?.to_string(), "7.5 %");
    /// assert!(Share::percent(dec!(120)).is_err());
    /// # Ok::<(), plan::price::ShareError>(())
    /// ```
    pub fn percent(percent: Decimal) -> Result<Self, ShareError> {
        if percent < Decimal::ZERO {
            Err(ShareError::Negative(percent))
        } else if percent > Decimal::ONE_HUNDRED {
            Err(ShareError::OverTheWhole(percent))
        } else if percent.scale() > written::MOST_DIGITS {
            Err(ShareError::TooFine(percent))
        } else {
            Ok(Self { percent })
        }
    }

    /// Its figure in per cent.
    #[must_use]
    pub fn in_percent(self) -> Decimal {
        self.percent
    }

    /// This share of a sum, not rounded.
    #[must_use]
    pub fn of(self, sum: Decimal) -> Decimal {
        let share = self.percent * Decimal::new(1, 2);
        sum.checked_mul(share).unwrap_or(Decimal::MAX)
    }

    /// What a markup of this share on the cost is as a margin, a share of the price: m / (1 + m), in per cent to one
    /// digit behind the point.
    ///
    /// ```
    /// # use plan::price::Share;
    /// # use rust_decimal::dec;
    /// assert_eq!(Share::percent(dec!(25))?.as_margin(), dec!(20.0));
    /// # Ok::<(), plan::price::ShareError>(())
    /// ```
    #[must_use]
    pub fn as_margin(self) -> Decimal {
        let margin = Decimal::ONE_HUNDRED * self.percent / (Decimal::ONE_HUNDRED + self.percent);
        let away = rust_decimal::RoundingStrategy::MidpointAwayFromZero;
        margin.round_dp_with_strategy(1, away)
    }

    /// The markup on the cost that leaves this share of the price, m / (1 − m), in per cent to one digit behind the
    /// point; no markup leaves the whole price.
    #[must_use]
    pub fn markup_for_margin(self) -> Option<Decimal> {
        let rest = Decimal::ONE_HUNDRED - self.percent;
        let markup = (Decimal::ONE_HUNDRED * self.percent).checked_div(rest)?;
        let away = rust_decimal::RoundingStrategy::MidpointAwayFromZero;
        Some(markup.round_dp_with_strategy(1, away))
    }
}

impl fmt::Display for Share {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} %", self.percent)
    }
}

impl FromStr for Share {
    type Err = ShareError;

    fn from_str(text: &str) -> Result<Self, ShareError> {
        let figures = text.trim().strip_suffix('%').map(str::trim);
        let percent = figures.and_then(|figures| written::parse(figures).ok());
        Self::percent(percent.ok_or_else(|| ShareError::Written(written::shown(text)))?)
    }
}

impl Serialize for Share {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Share {
    fn deserialize<D: Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        written::text(input, "20 %")?
            .parse()
            .map_err(serde::de::Error::custom)
    }
}

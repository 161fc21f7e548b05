//! Figures read from typed text one after another: what lengths and angles have in common.

use super::error::{Fault, TextError};
use super::token::{Kind, Token, tokens};

/// The most characters of a typed length or angle.
pub(super) const LONGEST_TEXT: usize = 64;

/// A number kept as a division of two whole numbers, so that it is rounded only when it is divided.
///
/// Both stay exact up to 2^53, which every length of a tape up to 100 km does; past that they are
/// rounded as `f64` are.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ratio {
    pub(super) over: f64,
    pub(super) under: f64,
}

impl Ratio {
    pub(super) const ZERO: Self = Self {
        over: 0.0,
        under: 1.0,
    };

    pub(super) fn plus(self, other: Self) -> Self {
        Self {
            over: self.over * other.under + other.over * self.under,
            under: self.under * other.under,
        }
    }

    pub(super) fn times(self, other: Self) -> Self {
        Self {
            over: self.over * other.over,
            under: self.under * other.under,
        }
    }

    pub(super) fn value(self) -> f64 {
        self.over / self.under
    }
}

/// A number, a fraction or both, as one figure before a unit.
#[derive(Clone, Copy, Debug)]
pub(super) struct Figure {
    pub(super) ratio: Ratio,
    pub(super) at: usize,
    pub(super) until: usize,
    /// Digits only: neither decimal mark nor fraction.
    pub(super) is_whole: bool,
}

/// The tokens of a text and how far they are read.
pub(super) struct Scan {
    chars: Vec<char>,
    tokens: Vec<Token>,
    next: usize,
    pub(super) is_negative: bool,
}

impl Scan {
    /// Cuts `text` up and reads the sign in front of it.
    pub(super) fn new(text: &str) -> Result<Self, TextError> {
        let mut chars: Vec<char> = text.chars().take(LONGEST_TEXT + 1).collect();
        if chars.len() > LONGEST_TEXT {
            chars.truncate(LONGEST_TEXT);
            let mut error = TextError::new(Fault::TooLong, &chars, LONGEST_TEXT, LONGEST_TEXT);
            error.text.push('…');
            return Err(error);
        }
        let tokens = tokens(&chars)?;
        let mut scan = Self {
            chars,
            tokens,
            next: 0,
            is_negative: false,
        };
        if scan.tokens.is_empty() {
            return Err(scan.fault(Fault::Empty, 0, 0));
        }
        if let Some(Token {
            kind: Kind::Dash | Kind::Sign,
            at,
            ..
        }) = scan.peek()
        {
            scan.is_negative = scan.chars.get(*at) != Some(&'+');
            scan.next += 1;
        }
        Ok(scan)
    }

    pub(super) fn peek(&self) -> Option<&Token> {
        self.tokens.get(self.next)
    }

    pub(super) fn skip(&mut self) {
        self.next += 1;
    }

    /// Reads one figure: `6`, `6.5`, `1/2`, `½`, `6 1/2`, `6-1/2`, `6½`.
    pub(super) fn figure(&mut self) -> Result<Figure, TextError> {
        let Some(first) = self.peek().cloned() else {
            return Err(self.fault(Fault::NoNumber, self.chars.len(), self.chars.len()));
        };
        if let Some(fraction) = self.fraction()? {
            return Ok(fraction);
        }
        let Kind::Number {
            over,
            under,
            has_mark,
        } = first.kind
        else {
            return Err(self.unexpected(&first));
        };
        self.skip();
        let number = Figure {
            ratio: Ratio { over, under },
            at: first.at,
            until: first.until,
            is_whole: !has_mark,
        };
        // a fraction may follow at once, after a space, or joined by a hyphen without spaces
        let before_joint = self.next;
        if let Some(Token {
            kind: Kind::Dash,
            at,
            until,
        }) = self.peek()
            && *at == first.until
            && self
                .tokens
                .get(self.next + 1)
                .is_some_and(|token| token.at == *until)
        {
            self.skip();
        }
        match self.fraction()? {
            Some(fraction) if has_mark => {
                Err(self.fault(Fault::Fraction, fraction.at, fraction.until))
            }
            Some(fraction) => Ok(Figure {
                ratio: number.ratio.plus(fraction.ratio),
                until: fraction.until,
                is_whole: false,
                ..number
            }),
            None => {
                self.next = before_joint;
                Ok(number)
            }
        }
    }

    /// Reads a fraction if one stands next.
    fn fraction(&mut self) -> Result<Option<Figure>, TextError> {
        let rest = self.tokens.get(self.next..).unwrap_or_default();
        let (ratio, at, until, count) = match rest {
            [
                Token {
                    kind: Kind::Vulgar { over, under },
                    at,
                    until,
                },
                ..,
            ] => (
                Ratio {
                    over: *over,
                    under: *under,
                },
                *at,
                *until,
                1,
            ),
            [
                over,
                Token {
                    kind: Kind::Slash,
                    at,
                    until,
                },
                under,
                ..,
            ] => {
                let (
                    Kind::Number {
                        over: upper,
                        has_mark: false,
                        ..
                    },
                    Kind::Number {
                        over: lower,
                        has_mark: false,
                        ..
                    },
                ) = (&over.kind, &under.kind)
                else {
                    return Err(self.fault(Fault::Fraction, *at, *until));
                };
                if *lower <= 0.0 {
                    return Err(self.fault(Fault::NoDenominator, under.at, under.until));
                }
                if upper >= lower {
                    return Err(self.fault(Fault::WholeFraction, over.at, under.until));
                }
                (
                    Ratio {
                        over: *upper,
                        under: *lower,
                    },
                    over.at,
                    under.until,
                    3,
                )
            }
            [
                _,
                Token {
                    kind: Kind::Slash,
                    at,
                    until,
                },
            ] => {
                return Err(self.fault(Fault::Fraction, *at, *until));
            }
            _ => return Ok(None),
        };
        self.next += count;
        Ok(Some(Figure {
            ratio,
            at,
            until,
            is_whole: false,
        }))
    }

    /// What is wrong with `token` where a number should stand.
    pub(super) fn unexpected(&self, token: &Token) -> TextError {
        let kind = match token.kind {
            Kind::Dash | Kind::Sign => Fault::Sign,
            Kind::Slash => Fault::Fraction,
            Kind::Comma => Fault::Character,
            _ => Fault::NoNumber,
        };
        self.fault(kind, token.at, token.until)
    }

    pub(super) fn fault(&self, kind: Fault, at: usize, until: usize) -> TextError {
        TextError::new(kind, &self.chars, at, until)
    }
}

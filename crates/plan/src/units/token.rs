//! Typed text cut into numbers, fractions, marks and words.

use super::error::{Fault, TextError};

#[derive(Clone, Debug, PartialEq)]
pub(super) struct Token {
    pub(super) kind: Kind,
    pub(super) at: usize,
    pub(super) until: usize,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) enum Kind {
    Number {
        over: f64,
        under: f64,
        has_mark: bool,
    },
    /// One character such as ½.
    Vulgar {
        over: f64,
        under: f64,
    },
    Slash,
    /// A hyphen or a dash: a sign in front, a joint within.
    Dash,
    /// A minus or plus sign, never a joint.
    Sign,
    Comma,
    /// One stroke: feet or minutes.
    Prime,
    /// Two strokes: inches or seconds.
    DoublePrime,
    Degree,
    /// A word in small letters.
    Word(String),
}

/// Cuts the text up, leaving out the spaces.
pub(super) fn tokens(chars: &[char]) -> Result<Vec<Token>, TextError> {
    let mut tokens: Vec<Token> = Vec::new();
    let mut at = 0;
    while let Some(&c) = chars.get(at) {
        let next = chars.get(at + 1).copied();
        let next_is_digit = next.is_some_and(|c| c.is_ascii_digit());
        let (kind, length) = match c {
            _ if c.is_whitespace() => {
                at += 1;
                continue;
            }
            '0'..='9' => number(chars, at)?,
            '.' => match tokens.last_mut() {
                Some(Token {
                    kind: Kind::Word(_),
                    until,
                    ..
                }) if *until == at => {
                    if next_is_digit {
                        return Err(TextError::new(Fault::Point, chars, at, at + 1));
                    }
                    *until += 1; // the stop of an abbreviation
                    at += 1;
                    continue;
                }
                _ if next_is_digit => number(chars, at)?,
                _ => return Err(TextError::new(Fault::Character, chars, at, at + 1)),
            },
            ',' => (Kind::Comma, 1),
            '/' | '⁄' | '∕' => (Kind::Slash, 1),
            '-' | '‐' | '‑' | '‒' | '–' | '—' => (Kind::Dash, 1),
            '−' | '+' => (Kind::Sign, 1),
            '°' | 'º' | '˚' => (Kind::Degree, 1),
            '"' | '″' | '”' | '“' | '‟' | 'ʺ' | '〃' => (Kind::DoublePrime, 1),
            _ if is_prime(c) && next.is_some_and(is_prime) => (Kind::DoublePrime, 2),
            _ if is_prime(c) => (Kind::Prime, 1),
            _ if is_letter(c) => {
                let word: String = chars
                    .iter()
                    .skip(at)
                    .take_while(|c| is_letter(**c))
                    .collect();
                let length = word.chars().count();
                (Kind::Word(word.to_lowercase()), length)
            }
            _ => match vulgar(c) {
                Some((over, under)) => (Kind::Vulgar { over, under }, 1),
                None => return Err(TextError::new(Fault::Character, chars, at, at + 1)),
            },
        };
        tokens.push(Token {
            kind,
            at,
            until: at + length,
        });
        at += length;
    }
    Ok(tokens)
}

fn is_prime(c: char) -> bool {
    matches!(c, '\'' | '′' | '’' | '‘' | '‛' | '`' | '´' | 'ʹ' | 'ʼ')
}

fn is_letter(c: char) -> bool {
    c.is_alphabetic() && !is_prime(c) && !matches!(c, 'º' | 'ʺ')
}

/// Reads digits with at most one decimal mark, from the first of them or from a point before them.
fn number(chars: &[char], at: usize) -> Result<(Kind, usize), TextError> {
    let digits_from = |from: usize| {
        chars
            .iter()
            .skip(from)
            .take_while(|c| c.is_ascii_digit())
            .count()
    };
    let whole = digits_from(at);
    let mark = chars
        .get(at + whole)
        .copied()
        .filter(|c| matches!(c, '.' | ','));
    let decimals = if mark.is_some() {
        digits_from(at + whole + 1)
    } else {
        0
    };
    // `7, 6`: a comma that no digit follows joins parts; `6.` is a number
    let has_mark = mark == Some('.') || (mark.is_some() && decimals > 0);
    let length = if has_mark {
        whole + 1 + decimals
    } else {
        whole
    };
    let until = at + length;

    let another = chars.get(until).is_some_and(|c| matches!(c, '.' | ','))
        && chars.get(until + 1).is_some_and(char::is_ascii_digit);
    if has_mark && another {
        let run = chars.iter().skip(at);
        let run = run
            .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
            .count();
        return Err(TextError::new(Fault::Marks, chars, at, at + run));
    }
    let may_be_thousands = (1..=3).contains(&whole) && chars.get(at) != Some(&'0');
    if has_mark && mark == Some(',') && decimals == 3 && may_be_thousands {
        return Err(TextError::new(Fault::Comma, chars, at, until));
    }

    let typed = chars.iter().skip(at).take(length);
    let digits: String = typed.clone().filter(|c| c.is_ascii_digit()).collect();
    let (over, under) = if digits.len() <= EXACT_DIGITS {
        (read(&digits), read(&format!("1{}", "0".repeat(decimals))))
    } else {
        // nearest to what is written, though no longer a division of whole numbers
        let text: String = typed.map(|c| if *c == ',' { '.' } else { *c }).collect();
        (read(&text), 1.0)
    };
    Ok((
        Kind::Number {
            over,
            under,
            has_mark,
        },
        length,
    ))
}

/// As many digits as every `f64` of whole numbers can tell apart.
const EXACT_DIGITS: usize = 15;

fn read(digits: &str) -> f64 {
    digits.parse().unwrap_or_default() // digits and at most one point always parse
}

/// The fractions that are one character.
fn vulgar(c: char) -> Option<(f64, f64)> {
    Some(match c {
        '½' => (1.0, 2.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        '⅒' => (1.0, 10.0),
        _ => return None,
    })
}

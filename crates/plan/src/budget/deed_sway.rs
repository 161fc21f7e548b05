//! How a deed hands on the displacements of the spots and figures it is done with: its derivatives.

use geometry::{Direction, Point, Vector};

use super::moves::{Moves, Sway};
use crate::setout::{Doing, Spot};

/// The displacement of the spot that a deed makes, from those of the spots it is done from and of
/// its figures; `turn` is how far its right angle is out, in radians.
///
/// The derivatives of [`carry_out`](crate::setout::carry_out) in closed form: they are short, lose
/// no digits, and need no step chosen. With `u` along the string, `n` square to it on the left and
/// `t = n·(dB − dA)/L` by which the string turns:
/// a spot at `s` along goes `dA + u ds + n s t`; a spot `o` off goes a further
/// `n do − u o (t + turn)`; two tapes along `a` and `b` give `a·dP = a·dA + da`, `b·dP = b·dB + db`.
///
/// `None` where the deed makes no spot, or its spots do not stand or stand in one place.
pub(super) fn made<'a>(
    does: &Doing,
    spots: impl Fn(Spot) -> Option<(Point, &'a Sway)>,
    made_at: Option<Point>,
    figures: &[Moves],
    turn: &Moves,
) -> Option<Sway> {
    let string = |from: Spot, to: Spot| {
        let ((start, start_sway), (end, end_sway)) = (spots(from)?, spots(to)?);
        let way = Direction::of(end - start)?;
        let (along, square) = (way.unit(), way.left().unit());
        let length = start.distance(end);
        let [far, near] = [end_sway, start_sway].map(|sway| sway.along(square));
        let turns = Moves::sum(&[(1.0 / length, &far), (-1.0 / length, &near)]);
        Some((start_sway, along, square, turns))
    };
    match (does, figures) {
        (&Doing::Along { from, to, at }, [pulled]) => {
            let (start, along, square, turns) = string(from, to)?;
            Some(with(start, &[(along, pulled), (square * at.exact, &turns)]))
        }
        (
            &Doing::Square {
                from,
                to,
                along: at,
                off,
                left,
            },
            [pulled, pulled_off],
        ) => {
            let (start, along, square, turns) = string(from, to)?;
            let side = if left { 1.0 } else { -1.0 };
            let swung = along * (-side * off.exact);
            Some(with(
                start,
                &[
                    (along, pulled),
                    (square * side, pulled_off),
                    (square * at.exact + swung, &turns),
                    (swung, turn),
                ],
            ))
        }
        (&Doing::Cross { one, other, .. }, [first, second]) => {
            let at = made_at?;
            let reach = |spot: Spot, pulled: &Moves| {
                let (from, sway) = spots(spot)?;
                let tape = Direction::of(at - from)?.unit();
                Some((tape, Moves::sum(&[(1.0, &sway.along(tape)), (1.0, pulled)])))
            };
            let ((a, first), (b, second)) = (reach(one.0, first)?, reach(other.0, second)?);
            let sine = a.cross(b);
            (sine != 0.0)
                .then(|| Sway::made_of(&[(a.left() / sine, &second), (b.left() / -sine, &first)]))
        }
        _ => None,
    }
}

/// A displacement, and more along some vectors.
fn with(start: &Sway, more: &[(Vector, &Moves)]) -> Sway {
    let mut parts = vec![
        (Direction::EAST.unit(), &start.east),
        (Direction::NORTH.unit(), &start.north),
    ];
    parts.extend(more);
    Sway::made_of(&parts)
}

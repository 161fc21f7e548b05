//! Convex outlines on a page, whether they keep apart, and the strokes that ink leaves.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::ink::{Ink, Pos, Step};
use crate::paper::Frame;

/// A convex outline.
pub(super) type Outline = Vec<Pos>;

pub(super) fn corners(frame: &Frame) -> Outline {
    vec![
        frame.corner,
        frame.corner.shifted(frame.width, 0.0),
        frame.corner.shifted(frame.width, frame.height),
        frame.corner.shifted(0.0, frame.height),
    ]
}

/// Whether two convex outlines keep a gap, millimetres: some line square to a side parts them.
pub(super) fn apart(a: &[Pos], b: &[Pos], gap: f64) -> bool {
    let sides = |outline: &[Pos]| -> Vec<f64> {
        let next = outline.iter().cycle().skip(1);
        outline
            .iter()
            .zip(next)
            .map(|(a, b)| a.direction(*b))
            .collect()
    };
    let spread = |outline: &[Pos], axis: f64| {
        let (sin, cos) = axis.sin_cos();
        outline
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
                let along = at.x * cos + at.y * sin;
                (low.min(along), high.max(along))
            })
    };
    sides(a).into_iter().chain(sides(b)).any(|side| {
        let axis = side + FRAC_PI_2;
        let ((a_low, a_high), (b_low, b_high)) = (spread(a, axis), spread(b, axis));
        a_low - b_high >= gap || b_low - a_high >= gap
    })
}

pub(super) fn pen_width(ink: &Ink) -> f64 {
    match ink {
        Ink::Line { pen, .. } | Ink::Arc { pen, .. } => pen.width,
        Ink::Path { pen, .. } | Ink::Rect { pen, .. } | Ink::Circle { pen, .. } => {
            pen.map_or(0.0, |pen| pen.width)
        }
        Ink::Text(_) | Ink::Through { .. } => 0.0,
    }
}

/// The lines of some ink, arcs in pieces of at most 10°.
pub(super) fn strokes(ink: &Ink) -> Vec<[Pos; 2]> {
    let mut strokes = Vec::new();
    match ink {
        Ink::Line { from, to, .. } => strokes.push([*from, *to]),
        Ink::Arc {
            centre,
            radius,
            start,
            sweep,
            ..
        } => {
            round(
                &mut strokes,
                centre.toward(*start, *radius),
                *centre,
                *sweep,
            );
        }
        Ink::Path {
            from,
            steps,
            closed,
            ..
        } => {
            let mut at = *from;
            for step in steps {
                match step {
                    Step::To(to) => strokes.push([at, *to]),
                    Step::Round { centre, sweep } => round(&mut strokes, at, *centre, *sweep),
                }
                at = step.end(at);
            }
            if *closed {
                strokes.push([at, *from]);
            }
        }
        Ink::Rect { frame, .. } => {
            let corners = corners(frame);
            let next = corners.iter().cycle().skip(1);
            strokes.extend(corners.iter().zip(next).map(|(a, b)| [*a, *b]));
        }
        Ink::Circle { centre, radius, .. } => {
            round(
                &mut strokes,
                centre.shifted(*radius, 0.0),
                *centre,
                2.0 * PI,
            );
        }
        Ink::Text(_) => {}
        Ink::Through { inks, .. } => strokes.extend(inks.iter().flat_map(self::strokes)),
    }
    strokes
}

fn round(strokes: &mut Vec<[Pos; 2]>, start: Pos, centre: Pos, sweep: f64) {
    let pieces = (sweep.abs() / (PI / 18.0)).ceil().clamp(1.0, 36.0);
    let mut at = start;
    let mut turned = 1.0;
    while turned <= pieces {
        let next = start.turned(centre, sweep * turned / pieces);
        strokes.push([at, next]);
        at = next;
        turned += 1.0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn outlines_apart() {
        let at = |x, y| corners(&Frame::new(Pos::new(x, y), 10.0, 4.0));
        assert!(apart(&at(0.0, 0.0), &at(11.0, 0.0), 1.0));
        assert!(!apart(&at(0.0, 0.0), &at(11.0, 0.0), 1.1));
        assert!(!apart(&at(0.0, 0.0), &at(5.0, 2.0), 0.0));
        // A line over the corner that a box round it would touch.
        assert!(apart(
            &[Pos::new(9.0, 8.0), Pos::new(16.0, 1.0)],
            &at(0.0, 0.0),
            0.5
        ));
    }
}

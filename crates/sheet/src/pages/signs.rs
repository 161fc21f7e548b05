//! The signs of the drawings: pegs, swing points, marks, the apex, dimension lines.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::ink::{Ink, Pos};
use crate::paper::Frame;
use crate::pen::{Pen, Tone};

/// How far the largest sign reaches from its place, millimetres.
pub(super) const REACH: f64 = 1.5;

/// A peg seen from above: its middle is the place.
pub(super) const fn peg(at: Pos) -> Ink {
    const SIDE: f64 = 2.2;
    Ink::Rect {
        frame: Frame::new(at.shifted(-0.5 * SIDE, -0.5 * SIDE), SIDE, SIDE),
        pen: Some(Pen::OUTLINE),
        fill: Some(Tone::White),
    }
}

/// A flag: a dot.
pub(super) const fn flag(at: Pos) -> Ink {
    Ink::Circle {
        centre: at,
        radius: 0.6,
        pen: None,
        fill: Some(Tone::Black),
    }
}

/// An offset peg: a black square, smaller than a peg.
pub(super) const fn offset_peg(at: Pos) -> Ink {
    const SIDE: f64 = 1.5;
    Ink::Rect {
        frame: Frame::new(at.shifted(-0.5 * SIDE, -0.5 * SIDE), SIDE, SIDE),
        pen: None,
        fill: Some(Tone::Black),
    }
}

/// A swing point: a ring with a dot.
pub(super) fn swing_point(at: Pos) -> [Ink; 2] {
    [
        Ink::Circle {
            centre: at,
            radius: 1.3,
            pen: Some(Pen::OUTLINE),
            fill: Some(Tone::White),
        },
        Ink::Circle {
            centre: at,
            radius: 0.4,
            pen: None,
            fill: Some(Tone::Black),
        },
    ]
}

/// A mark: a cross.
pub(super) fn mark(at: Pos) -> [Ink; 2] {
    let arm = |x: f64, y: f64| {
        Ink::line(
            at.shifted(-x, -y),
            at.shifted(x, y),
            Pen::new(0.5, crate::pen::Dash::Continuous),
        )
    };
    [arm(1.2, 1.2), arm(1.2, -1.2)]
}

/// The apex: a triangle that stands on it and points outward.
pub(super) fn apex(at: Pos, outward: f64) -> Option<Ink> {
    let foot = |side: f64| at.toward(outward + side * FRAC_PI_2, 1.1);
    Ink::polygon(
        &[at.toward(outward, 2.2), foot(1.0), foot(-1.0)],
        None,
        Some(Tone::Black),
    )
}

/// A filled arrow head with its tip at a place.
pub(super) fn arrow_head(tip: Pos, direction: f64, length: f64) -> Option<Ink> {
    let back = |side: f64| tip.toward(direction + PI + side * 0.22, length);
    Ink::polygon(&[tip, back(1.0), back(-1.0)], None, Some(Tone::Black))
}

/// A dimension line between two places, its arrows outside where it is short.
pub(super) fn dimension(from: Pos, to: Pos) -> Vec<Ink> {
    const HEAD: f64 = 2.2;
    let way = from.direction(to);
    let mut inks = vec![Ink::line(from, to, Pen::THIN)];
    if from.distance(to) > 3.0 * HEAD {
        inks.extend(arrow_head(to, way, HEAD));
        inks.extend(arrow_head(from, way + PI, HEAD));
    } else {
        for (at, out) in [(from, way + PI), (to, way)] {
            inks.push(Ink::line(at, at.toward(out, 2.0 * HEAD), Pen::THIN));
            inks.extend(arrow_head(at, out + PI, HEAD));
        }
    }
    inks
}

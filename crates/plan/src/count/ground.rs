//! The ground that outlines take up together, counted once, and the border that is left round it.
//!
//! Borders are cut where they meet. Of the parts those stay that have taken ground on their left and
//! none on their right; they go round it, and Green's theorem gives its area. Arcs stay arcs.

use geometry::{Bounds, Chain, Line, Piece, Point, SAME_PLACE, meetings};

use crate::document::Side;
use crate::solve::SolvedRoute;

/// What a part of a border is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Along {
    /// The edge of a path or landing on this side as one walks.
    Edge(Side),
    /// The border of a landing where it goes from one side to the other.
    Across,
    /// The start or end of a path.
    End,
}

/// Ground with its border: walked counter-clockwise outside, clockwise inside.
#[derive(Clone, Debug)]
pub(super) struct Region {
    rings: Vec<Chain>,
    /// What each piece of each ring is.
    along: Vec<Vec<Along>>,
    /// The centre line that a landing lies on.
    centre: Option<Chain>,
}

/// A part of the border that is left.
#[derive(Clone, Debug)]
pub(super) struct Part {
    pub(super) piece: Piece,
    pub(super) along: Along,
    /// Which region it is of.
    pub(super) region: usize,
}

/// Past so many pieces that may meet, borders are not cut: 10 000 legs would take minutes.
const MOST: usize = 1_000;

/// How far to each side of a border one looks, in metres: ten micrometres, far above
/// [`SAME_PLACE`] and far below anything built.
const LOOK: f64 = 1e-5;

impl Region {
    /// The strip of a path so far beyond its left and its right edge; `None` where an edge is lost.
    pub(super) fn strip(path: &SolvedRoute, beyond: [f64; 2]) -> Option<Self> {
        let edge = |side: Side, beyond: f64| {
            if beyond > 0.0 {
                let half = 0.5 * path.width + beyond;
                let offset = match side {
                    Side::Left => half,
                    Side::Right => -half,
                };
                path.centre_line.as_ref()?.offset(offset).chain
            } else {
                path.edge(side).cloned()
            }
        };
        let (left, right) = (edge(Side::Left, beyond[0])?, edge(Side::Right, beyond[1])?);
        let on = |side, chain: &Chain| vec![Along::Edge(side); chain.pieces().len()];
        if left.is_closed() && right.is_closed() {
            let (mut outer, mut inner) = ((left, Side::Left), (right, Side::Right));
            if outer.0.enclosed_area().abs() < inner.0.enclosed_area().abs() {
                std::mem::swap(&mut outer, &mut inner);
            }
            let turn = |chain: Chain, left: bool| {
                if (chain.enclosed_area() > 0.0) == left {
                    chain
                } else {
                    chain.reversed()
                }
            };
            return Some(Self {
                along: vec![on(outer.1, &outer.0), on(inner.1, &inner.0)],
                rings: vec![turn(outer.0, true), turn(inner.0, false)],
                centre: None,
            });
        }
        let mut pieces = right.pieces().to_vec();
        let mut along = on(Side::Right, &right);
        let end = |from: Point, to: Point, pieces: &mut Vec<Piece>, along: &mut Vec<Along>| {
            if let Ok(line) = Line::new(from, to) {
                pieces.push(Piece::Line(line));
                along.push(Along::End);
            }
        };
        end(right.end(), left.end(), &mut pieces, &mut along);
        pieces.extend(left.reversed().pieces());
        along.extend(on(Side::Left, &left));
        end(left.start(), right.start(), &mut pieces, &mut along);
        Some(Self {
            rings: vec![Chain::new(pieces, true).ok()?],
            along: vec![along],
            centre: None,
        })
    }

    /// A landing of a path, so far beyond its border.
    pub(super) fn landing(path: &SolvedRoute, outline: &Chain, beyond: [f64; 2]) -> Option<Self> {
        let beyond = beyond[0].max(beyond[1]);
        let ring = if beyond > 0.0 {
            outline.offset(-beyond).chain?
        } else {
            outline.clone()
        };
        Some(Self {
            along: vec![vec![Along::Across; ring.pieces().len()]],
            rings: vec![ring],
            centre: path.centre_line.clone(),
        })
    }

    /// What a part of its border is: of a landing the side of the centre line that its middle is on.
    fn along(&self, piece: &Piece, along: Along) -> Along {
        let Some(centre) = &self.centre else {
            return along;
        };
        let at = piece.point_at(0.5 * piece.length());
        let near = centre.nearest(at);
        let ahead = centre.direction_at(near.station).unit();
        match ahead.cross(at - near.point) {
            left if left > LOOK => Along::Edge(Side::Left),
            left if left < -LOOK => Along::Edge(Side::Right),
            _ => Along::Across,
        }
    }

    fn holds(&self, point: Point) -> bool {
        let mut rings = self.rings.iter();
        rings.next().is_some_and(|outer| outer.contains(point))
            && !rings.any(|inner| inner.contains(point))
    }

    /// Whether their boxes meet.
    pub(super) fn is_near(&self, other: &Self) -> bool {
        matches!((self.bounds(), other.bounds()), (Some(a), Some(b)) if a.meets(b))
    }

    fn bounds(&self) -> Option<Bounds> {
        self.rings.first().map(|ring| ring.bounds().grown(LOOK))
    }

    fn pieces(&self) -> impl Iterator<Item = (&Piece, Along)> {
        let rings = self.rings.iter().zip(&self.along);
        rings.flat_map(|(ring, along)| ring.pieces().iter().zip(along.iter().copied()))
    }

    /// Whether nothing of it lies on anything else of it.
    fn is_plain(&self) -> bool {
        self.rings
            .iter()
            .all(|ring| ring.self_crossings().is_empty())
    }
}

/// The border of the ground that regions take up together.
pub(super) fn border(regions: &[Region]) -> Vec<Part> {
    let boxes: Vec<Option<Bounds>> = regions.iter().map(Region::bounds).collect();
    let near =
        |a: usize, b: usize| matches!((boxes[a], boxes[b]), (Some(a), Some(b)) if a.meets(b));
    let alone = |i: usize| (0..regions.len()).all(|other| other == i || !near(i, other));
    let (plain, met): (Vec<usize>, Vec<usize>) =
        (0..regions.len()).partition(|i| alone(*i) && regions[*i].is_plain());
    let whole = |region: &usize| {
        let region = *region;
        let pieces = regions[region].pieces();
        pieces.map(move |(piece, along)| Part {
            piece: *piece,
            along,
            region,
        })
    };
    let mut parts: Vec<Part> = plain.iter().flat_map(whole).collect();
    let all: Vec<Part> = met.iter().flat_map(whole).collect();
    if all.len() > MOST {
        parts.extend(all);
    } else {
        parts.extend(merged(regions, &met, &all));
    }
    for part in &mut parts {
        part.along = regions[part.region].along(&part.piece, part.along);
    }
    parts
}

/// The area that a border goes round, in square metres.
pub(super) fn area(border: &[Part]) -> f64 {
    let Some(base) = border.first().map(|part| part.piece.start()) else {
        return 0.0;
    };
    let under = |part: &Part| {
        let (from, to) = (part.piece.start() - base, part.piece.end() - base);
        let segment = part
            .piece
            .arc()
            .map_or(0.0, geometry::Arc::signed_segment_area);
        0.5 * from.cross(to) + segment
    };
    border.iter().map(under).sum::<f64>().max(0.0)
}

fn merged(regions: &[Region], met: &[usize], all: &[Part]) -> Vec<Part> {
    let boxes: Vec<Bounds> = all
        .iter()
        .map(|part| part.piece.bounds().grown(SAME_PLACE))
        .collect();
    let taken = |point: Point| met.iter().any(|region| regions[*region].holds(point));
    let mut kept: Vec<Part> = Vec::new();
    for (i, part) in all.iter().enumerate() {
        let others = (0..all.len()).filter(|other| *other != i && boxes[i].meets(boxes[*other]));
        let cuts = cuts(&part.piece, others.map(|other| &all[other].piece));
        for ends in cuts.windows(2) {
            let Some(piece) = part.piece.between(ends[0], ends[1]) else {
                continue;
            };
            let half = 0.5 * piece.length();
            let (at, left) = (piece.point_at(half), piece.direction_at(half).left().unit());
            if !taken(at + left * LOOK) || taken(at - left * LOOK) {
                continue;
            }
            // Where two borders run along each other the first stands for both.
            let twin = |other: &Part| {
                let middle = other.piece.point_at(0.5 * other.piece.length());
                middle.distance(at) <= LOOK && (other.piece.length() - piece.length()).abs() <= LOOK
            };
            if !kept.iter().any(twin) {
                kept.push(Part { piece, ..*part });
            }
        }
    }
    kept
}

/// Where a piece is cut by others, as distances along it, both its ends among them.
fn cuts<'a>(piece: &Piece, others: impl Iterator<Item = &'a Piece>) -> Vec<f64> {
    let length = piece.length();
    let mut cuts = vec![0.0, length];
    for other in others {
        let ends = [other.start(), other.end()];
        let on = ends
            .into_iter()
            .filter(|end| piece.nearest_point(*end).distance(*end) <= SAME_PLACE);
        for at in meetings(piece, other, SAME_PLACE).into_iter().chain(on) {
            cuts.push(piece.along(at));
        }
    }
    cuts.retain(|cut| {
        *cut <= 0.0 || *cut >= length || (SAME_PLACE..=length - SAME_PLACE).contains(cut)
    });
    cuts.iter_mut()
        .for_each(|cut| *cut = cut.clamp(0.0, length));
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|next, kept| *next - *kept <= SAME_PLACE);
    cuts
}

//! The exact offset of a chain: an edge of a path.

use crate::{Arc, Chain, Direction, Line, Piece, Point, SAME_PLACE, meetings};

/// The offset of a chain, as far as there is one, and what went wrong on the way.
#[derive(Clone, Debug, PartialEq)]
pub struct Offset {
    /// The offset; `None` when nothing of the chain is left.
    pub chain: Option<Chain>,
    /// For each piece of the offset the piece of the chain that it lies beside; what leads from one
    /// to the next belongs to the next.
    pub sources: Vec<usize>,
    /// What a person should know, in walking order.
    pub troubles: Vec<OffsetTrouble>,
}

/// Something that keeps an offset from being clean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OffsetTrouble {
    /// The arc of this number (in the chain offset) has no offset: its radius would be this, zero
    /// or less.
    Collapsed {
        /// Which piece, counted from 0.
        piece: usize,
        /// What its radius would be, in metres.
        radius: f64,
    },
    /// The offsets before and after this piece's start should cross on the inside of a corner,
    /// and do not: they are joined by a straight.
    Untrimmed {
        /// Which piece, counted from 0.
        piece: usize,
    },
}

/// A mitre reaches at most this many offsets beyond the corner (a turn of about 151°); sharper
/// corners are cut square, as a mason would.
pub const MITRE_REACH: f64 = 4.0;

/// Ends of an edge nearer than this are brought together: a micrometre.
const HAIR: f64 = 1e-6;

/// On the inside of a corner, short legs may vanish altogether: so many offsets' length of them.
const SWALLOW_REACH: f64 = 8.0;

pub(crate) fn offset(chain: &Chain, distance: f64) -> Offset {
    let mut edge = Edge {
        distance,
        pieces: Vec::with_capacity(chain.pieces().len() + 4),
        troubles: Vec::new(),
    };
    for (i, piece) in chain.pieces().iter().enumerate() {
        match piece.offset(distance) {
            Some(moved) => edge.push(Run {
                piece: moved,
                source: i,
            }),
            None => edge.troubles.push(OffsetTrouble::Collapsed {
                piece: i,
                radius: piece.arc().map_or(0.0, Arc::radius) - distance.abs(),
            }),
        }
    }
    if chain.is_closed() {
        edge.close();
    }
    let sources = edge.pieces.iter().map(|run| run.source).collect();
    let pieces = edge.pieces.into_iter().map(|run| run.piece).collect();
    Offset {
        sources,
        chain: Chain::new(pieces, chain.is_closed()).ok(),
        troubles: edge.troubles,
    }
}

/// A piece of the growing edge, and which piece of the chain it is the offset of.
#[derive(Clone, Copy)]
struct Run {
    piece: Piece,
    source: usize,
}

struct Edge {
    distance: f64,
    pieces: Vec<Run>,
    troubles: Vec<OffsetTrouble>,
}

/// How two neighbours of an edge come together.
enum Joint {
    /// They meet already.
    Meet,
    /// The first ends and the second starts at a crossing.
    Trim(Piece, Piece),
    /// They are led on to meet outside the corner, with straights between if arcs do not meet.
    Mitre(Piece, Vec<Piece>, Piece),
    /// They should cross and do not.
    Apart,
}

impl Edge {
    fn push(&mut self, next: Run) {
        let Some(last) = self.pieces.last().copied() else {
            self.pieces.push(next);
            return;
        };
        match join(&last.piece, &next.piece, self.distance) {
            Joint::Meet => self.pieces.push(next),
            Joint::Trim(first, second) => {
                self.set_last(first);
                self.push_run(second, next.source);
            }
            Joint::Mitre(first, between, second) => {
                self.set_last(first);
                for piece in between {
                    self.push_run(piece, next.source);
                }
                self.push_run(second, next.source);
            }
            Joint::Apart => self.push_past_short_legs(next),
        }
    }

    fn push_run(&mut self, piece: Piece, source: usize) {
        self.pieces.push(Run { piece, source });
    }

    fn set_last(&mut self, piece: Piece) {
        if let Some(last) = self.pieces.last_mut() {
            last.piece = piece;
        }
    }

    /// On the inside of a corner the legs before may be too short to reach the crossing: they
    /// vanish, back to the first leg that does cross.
    fn push_past_short_legs(&mut self, next: Run) {
        let reach = SWALLOW_REACH * self.distance.abs();
        let mut swallowed = 0.0;
        for keep in (0..self.pieces.len()).rev() {
            let candidate = self.pieces[keep].piece;
            if let Some((first, second)) = trimmed(&candidate, &next.piece) {
                self.pieces.truncate(keep + 1);
                self.set_last(first);
                self.push_run(second, next.source);
                return;
            }
            swallowed += candidate.length();
            if swallowed > reach {
                break;
            }
        }
        self.connect(next);
    }

    fn connect(&mut self, next: Run) {
        self.troubles
            .push(OffsetTrouble::Untrimmed { piece: next.source });
        if let Some(last) = self.pieces.last()
            && let Ok(line) = Line::new(last.piece.end(), next.piece.start())
        {
            self.push_run(Piece::Line(line), next.source);
        }
        self.pieces.push(next);
    }

    /// Brings the last piece of a closed edge to its first.
    fn close(&mut self) {
        let (Some(first), Some(last)) = (self.pieces.first().copied(), self.pieces.last().copied())
        else {
            return;
        };
        match join(&last.piece, &first.piece, self.distance) {
            Joint::Meet => {}
            Joint::Trim(end, start) if self.pieces.len() > 1 => {
                self.set_last(end);
                self.pieces[0].piece = start;
            }
            Joint::Mitre(end, between, start) if self.pieces.len() > 1 => {
                self.set_last(end);
                self.pieces[0].piece = start;
                for piece in between {
                    self.push_run(piece, first.source);
                }
            }
            Joint::Trim(..) | Joint::Mitre(..) | Joint::Apart => {
                self.troubles.push(OffsetTrouble::Untrimmed {
                    piece: first.source,
                });
                if let Ok(line) = Line::new(last.piece.end(), first.piece.start()) {
                    self.push_run(Piece::Line(line), first.source);
                }
            }
        }
    }
}

fn join(first: &Piece, second: &Piece, distance: f64) -> Joint {
    let gap = first.end().distance(second.start());
    if gap <= SAME_PLACE {
        return Joint::Meet;
    }
    // Where the two directions all but agree, the crossing of the two edges is not to be had: the
    // second is led to the end of the first.
    if gap <= HAIR
        && let Some(second) = started_at(second, first.end())
    {
        return Joint::Mitre(*first, Vec::new(), second);
    }
    let (from, to) = (first.end_direction(), second.start_direction());
    let turns_left = from.unit().cross(to.unit()) > 0.0;
    if turns_left == (distance > 0.0) {
        return match trimmed(first, second) {
            Some((first, second)) => Joint::Trim(first, second),
            None => Joint::Apart,
        };
    }
    mitred(first, second, distance)
}

/// The same piece from another start, a hair away.
fn started_at(piece: &Piece, start: Point) -> Option<Piece> {
    match piece {
        Piece::Line(line) => Line::new(start, line.end()).ok().map(Piece::Line),
        Piece::Arc(arc) => Arc::from_rise(start, arc.end(), arc.rise())
            .ok()
            .map(Piece::Arc),
    }
}

/// Both pieces cut at their crossing; of several, the one that takes least away.
fn trimmed(first: &Piece, second: &Piece) -> Option<(Piece, Piece)> {
    meetings(first, second, SAME_PLACE)
        .into_iter()
        .filter_map(|point| {
            let (end, start) = (first.along(point), second.along(point));
            let taken = first.length() - end + start;
            Some((
                taken,
                first.between(0.0, end)?,
                second.between(start, second.length())?,
            ))
        })
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, first, second)| (first, second))
}

/// Both pieces led on along their own line or circle until they meet; where circles do not meet
/// soon enough, led on straight; where even that would reach too far, cut square.
fn mitred(first: &Piece, second: &Piece, distance: f64) -> Joint {
    let reach = MITRE_REACH * distance.abs();
    let led_on = |first: &Piece, second: &Piece| {
        let (long, early) = (
            first.between(0.0, first.length() + reach)?,
            second.between(-reach, second.length())?,
        );
        meetings(&long, &early, 0.0)
            .into_iter()
            .filter_map(|point| {
                let (end, start) = (long.along(point), early.along(point) - reach);
                let beyond = end - first.length();
                (beyond >= -SAME_PLACE && start <= SAME_PLACE).then(|| {
                    Some((
                        beyond - start,
                        first.between(0.0, end)?,
                        second.between(start, second.length())?,
                    ))
                })?
            })
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, first, second)| (first, second))
    };
    if let Some((first, second)) = led_on(first, second) {
        return Joint::Mitre(first, Vec::new(), second);
    }
    let (end, start) = (first.end(), second.start());
    let tail = ahead(end, first.end_direction(), reach);
    let head = ahead(start, second.start_direction().reversed(), reach);
    let corner = match (tail, head) {
        (Some(tail), Some(head)) => meetings(&tail, &head, 0.0).first().copied(),
        _ => None,
    };
    let stops = corner.map_or_else(|| vec![end, start], |corner| vec![end, corner, start]);
    let between = stops
        .windows(2)
        .filter_map(|pair| Line::new(pair[0], pair[1]).ok().map(Piece::Line))
        .collect();
    Joint::Mitre(*first, between, *second)
}

fn ahead(from: Point, direction: Direction, distance: f64) -> Option<Piece> {
    Line::new(from, from + direction.unit() * distance)
        .ok()
        .map(Piece::Line)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn polyline(points: &[(f64, f64)], closed: bool) -> Chain {
        let pieces = points
            .windows(2)
            .map(|p| {
                let [(a, b), (c, d)] = [p[0], p[1]];
                Piece::Line(Line::new(Point::new(a, b), Point::new(c, d)).unwrap())
            })
            .collect();
        Chain::new(pieces, closed).unwrap()
    }

    fn corners(offset: &Offset) -> Vec<(f64, f64)> {
        let round = |x: f64| (x * 1e6).round() / 1e6 + 0.0;
        let chain = offset.chain.as_ref().unwrap();
        let ends = chain.pieces().iter().map(Piece::end);
        std::iter::once(chain.start())
            .chain(ends)
            .map(|p| (round(p.x), round(p.y)))
            .collect()
    }

    #[test]
    fn a_corner_is_trimmed_inside_and_mitred_outside() {
        let chain = polyline(&[(0., 0.), (4., 0.), (4., 3.)], false);
        assert_eq!(
            corners(&chain.offset(0.5)),
            [(0., 0.5), (3.5, 0.5), (3.5, 3.)]
        );
        assert_eq!(
            corners(&chain.offset(-0.5)),
            [(0., -0.5), (4.5, -0.5), (4.5, 3.)]
        );
    }

    #[test]
    fn a_closed_square() {
        let chain = polyline(&[(0., 0.), (4., 0.), (4., 4.), (0., 4.), (0., 0.)], true);
        let inner = chain.offset(0.5).chain.unwrap();
        assert!((inner.enclosed_area() - 9.0).abs() < 1e-12);
        let outer = chain.offset(-0.5).chain.unwrap();
        assert!((outer.enclosed_area() - 25.0).abs() < 1e-12);
        assert!((outer.length() - inner.length() - 8.0).abs() < 1e-12);
    }

    #[test]
    fn a_short_leg_vanishes_inside() {
        let chain = polyline(&[(0., 0.), (4., 0.), (4.2, 0.2), (4.2, 4.)], false);
        let inner = chain.offset(0.6);
        assert!(inner.troubles.is_empty(), "{:?}", inner.troubles);
        assert_eq!(corners(&inner), [(0., 0.6), (3.6, 0.6), (3.6, 4.)]);
    }

    #[test]
    fn a_very_sharp_corner_is_cut_square() {
        let chain = polyline(&[(0., 0.), (10., 0.), (0., 1.)], false);
        let outer = chain.offset(-0.5).chain.unwrap();
        assert!(outer.bounds().high.x < 11.0);
    }

    #[test]
    fn arcs_keep_their_swing_point() {
        let arc = Arc::from_rise(Point::new(0., 0.), Point::new(4., 0.), 0.5).unwrap();
        let chain = Chain::new(vec![Piece::Arc(arc)], false).unwrap();
        let left = chain.offset(0.6).chain.unwrap();
        let edge = left.pieces()[0].arc().copied().unwrap();
        assert!(edge.centre().distance(arc.centre()) < 1e-12);
        assert!((edge.radius() - 4.85).abs() < 1e-12);
        assert_eq!(
            chain.offset(-4.3).troubles.len(),
            1,
            "a 4.25 m bend has no edge 4.3 m inside"
        );
    }

    #[test]
    fn two_arcs_are_led_on_round_their_circles() {
        // Two bends that meet in a corner to the right: the left edge is led on outside.
        let corner = Point::new(0.0, 3.0);
        let first = Arc::about(Point::new(-4., 0.), Point::new(-9., 0.), corner, false).unwrap();
        let second = Arc::about(Point::new(4., 0.), corner, Point::new(9., 0.), false).unwrap();
        let chain = Chain::new(vec![Piece::Arc(first), Piece::Arc(second)], false).unwrap();
        let right = chain.offset(-0.5);
        let left = chain.offset(0.5);
        assert!(left.troubles.is_empty() && right.troubles.is_empty());
        let meets = left.chain.unwrap().pieces()[0].end();
        assert!(meets.distance(Point::new(0.0, (5.5f64 * 5.5 - 16.0).sqrt())) < 1e-9);
    }
}

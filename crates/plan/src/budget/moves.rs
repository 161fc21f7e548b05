//! Moves: how far something ends from where it is drawn, by what is known and by each independent error.

use geometry::Vector;

/// A small displacement in one direction, in metres: a known shift, and its share of every source of
/// error, each a standard deviation of that source long.
///
/// Sources are independent, so covariances are scalar products, and what one error does to two
/// places is never lost.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Moves {
    pub(super) shift: f64,
    by: Vec<f64>,
}

impl Moves {
    /// A shift that is known.
    pub(super) fn shifted(shift: f64) -> Self {
        Self {
            shift,
            by: Vec::new(),
        }
    }

    /// With so much from a source.
    pub(super) fn with(mut self, source: usize, deviation: f64) -> Self {
        if self.by.len() <= source {
            self.by.resize(source + 1, 0.0);
        }
        self.by[source] += deviation;
        self
    }

    /// Some displacements, each times its factor, in one.
    pub(super) fn sum(parts: &[(f64, &Self)]) -> Self {
        let sources = parts.iter().map(|(_, part)| part.by.len()).max();
        let mut all = Self {
            shift: 0.0,
            by: vec![0.0; sources.unwrap_or_default()],
        };
        for (factor, part) in parts {
            all.shift += factor * part.shift;
            for (sum, own) in all.by.iter_mut().zip(&part.by) {
                *sum += factor * own;
            }
        }
        all
    }

    /// How much comes from a source.
    pub(super) fn by(&self, source: usize) -> f64 {
        self.by.get(source).copied().unwrap_or_default()
    }

    /// The covariance with another, in square metres.
    pub(super) fn covariance(&self, other: &Self) -> f64 {
        let both = self.by.iter().zip(&other.by);
        both.map(|(one, other)| one * other).sum()
    }

    pub(super) fn deviation(&self) -> f64 {
        self.covariance(self).sqrt()
    }
}

/// How a spot is displaced.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Sway {
    pub(super) east: Moves,
    pub(super) north: Moves,
}

impl Sway {
    /// How far along a direction, given by a vector of length one.
    pub(super) fn along(&self, way: Vector) -> Moves {
        Moves::sum(&[(way.x, &self.east), (way.y, &self.north)])
    }

    /// A displacement along each of some vectors.
    pub(super) fn made_of(parts: &[(Vector, &Moves)]) -> Self {
        let component = |of: fn(&Vector) -> f64| {
            let parts: Vec<_> = parts.iter().map(|(way, part)| (of(way), *part)).collect();
            Moves::sum(&parts)
        };
        Self {
            east: component(|way| way.x),
            north: component(|way| way.y),
        }
    }
}

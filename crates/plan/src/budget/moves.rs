//! Moves: how far something ends from where it is drawn, by what is known and by each independent error.

use geometry::Vector;

/// A small displacement in one direction, in metres: a known shift, and its share of the sources of
/// error that it hangs on, in their order, each a standard deviation of that source long.
///
/// Sources are independent, so covariances are scalar products, and what one error does to two
/// places is never lost.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Moves {
    pub(super) shift: f64,
    by: Vec<(usize, f64)>,
}

impl Moves {
    /// A shift that is known.
    pub(super) fn shifted(shift: f64) -> Self {
        Self {
            shift,
            by: Vec::new(),
        }
    }

    /// With so much from a source that comes after those it has.
    pub(super) fn with(mut self, source: usize, deviation: f64) -> Self {
        if deviation != 0.0 {
            self.by.push((source, deviation));
        }
        self
    }

    /// Some displacements, each times its factor, in one.
    pub(super) fn sum(parts: &[(f64, &Self)]) -> Self {
        let mut left: Vec<(f64, &[(usize, f64)])> = parts
            .iter()
            .map(|(factor, part)| (*factor, &part.by[..]))
            .collect();
        let most = parts.iter().map(|(_, part)| part.by.len()).max();
        let mut by = Vec::with_capacity(most.unwrap_or_default() + parts.len());
        while let Some(source) = next(&left) {
            let mut sum = 0.0;
            for (factor, own) in &mut left {
                if let [(first, share), rest @ ..] = own
                    && *first == source
                {
                    sum += *factor * share;
                    *own = rest;
                }
            }
            by.push((source, sum));
        }
        Self {
            shift: parts.iter().map(|(factor, part)| factor * part.shift).sum(),
            by,
        }
    }

    /// How much comes from a source.
    pub(super) fn by(&self, source: usize) -> f64 {
        let place = self.by.binary_search_by_key(&source, |(own, _)| *own);
        place.map_or(0.0, |place| self.by[place].1)
    }

    /// The covariance with another, in square metres.
    pub(super) fn covariance(&self, other: &Self) -> f64 {
        let mut others = other.by.iter().peekable();
        let shared = |(source, share): &(usize, f64)| {
            while others.next_if(|(own, _)| own < source).is_some() {}
            let same = others.next_if(|(own, _)| own == source);
            same.map_or(0.0, |(_, other)| share * other)
        };
        self.by.iter().map(shared).sum()
    }

    /// Adds so many times its shares to a list of all sources.
    pub(super) fn add_to(&self, all: &mut [f64], factor: f64) {
        for (source, share) in &self.by {
            all[*source] += factor * share;
        }
    }

    /// The scalar product with a list of all sources.
    pub(super) fn dot(&self, all: &[f64]) -> f64 {
        self.by
            .iter()
            .map(|(source, share)| share * all[*source])
            .sum()
    }

    /// One more than its last source.
    pub(super) fn reach(&self) -> usize {
        self.by.last().map_or(0, |(source, _)| source + 1)
    }

    pub(super) fn deviation(&self) -> f64 {
        let square = |(_, share): &(usize, f64)| share * share;
        self.by.iter().map(square).sum::<f64>().sqrt()
    }
}

/// The first source among what is left of some displacements.
fn next(left: &[(f64, &[(usize, f64)])]) -> Option<usize> {
    let firsts = left.iter().filter_map(|(_, own)| own.first());
    firsts.map(|(source, _)| *source).min()
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

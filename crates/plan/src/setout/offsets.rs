//! Offsets from a chord at round running distances.

use geometry::Bend;

use super::Taped;
use crate::units::{Ruler, Units};

/// Offsets from one chord.
#[derive(Clone, Debug, PartialEq)]
pub struct OffsetTable {
    /// What the string starts from; running distances count from here.
    pub from: String,
    /// What the string runs to.
    pub to: String,
    /// How long the chord is.
    pub chord: Taped,
    /// The rows, by running distance.
    pub rows: Vec<OffsetRow>,
}

/// The offsets at one distance along a chord: positive towards the apex, negative on the swing
/// point's side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffsetRow {
    /// The running distance from the start of the chord.
    pub along: Taped,
    /// To the centre line; `None` beyond the ends of the chord.
    pub centre: Option<Taped>,
    /// To the inside edge; `None` where the edge of this bend does not reach.
    pub inner: Option<Taped>,
    /// To the outside edge; it starts before the chord does and ends after it.
    pub outer: Option<Taped>,
}

/// Between marks a batten laid straight leaves this bow at most, in metres. Common practice for
/// gravel with an edge, ±10 mm; no source.
pub(super) const BOW: f64 = 0.010;

/// At least so many spaces along a chord, and at most so many.
const FEWEST_SPACES: f64 = 4.0;
const MOST_SPACES: f64 = 24.0;

/// No more even where a person types how far apart they are: a number slipped must not give a
/// million flags.
pub(super) const MOST_TYPED: u32 = 100;

/// The tables of a bend: from its chord, or from both half chords when it turns through half a
/// circle or more, where offsets from the whole chord would run past its ends. Rows stand `spacing`
/// apart, in metres, or so close that little bow is left between them.
pub(super) fn tables(
    bend: &Bend,
    width: f64,
    (first, last): (usize, usize),
    ruler: &Ruler,
    spacing: Option<f64>,
) -> Vec<OffsetTable> {
    let names = (format!("peg {first}"), format!("peg {last}"));
    if !bend.is_half_circle_or_more() {
        return vec![table(bend, width, names, ruler, spacing)];
    }
    let half = bend.half();
    let apex = "the apex".to_owned();
    vec![
        table(&half, width, (names.0, apex.clone()), ruler, spacing),
        table(&half, width, (apex, names.1), ruler, spacing),
    ]
}

fn table(
    bend: &Bend,
    width: f64,
    (from, to): (String, String),
    ruler: &Ruler,
    spacing: Option<f64>,
) -> OffsetTable {
    let chord = bend.chord();
    let step = spacing.map_or_else(
        || step(bend, ruler.units),
        |typed| typed.max(chord / f64::from(MOST_TYPED)),
    );
    let half_way = 0.5 * chord;
    let mut stops: Vec<f64> = (1_u32..)
        .map(|i| f64::from(i) * step)
        .take_while(|along| *along < chord - 0.25 * step)
        .filter(|along| (along - half_way).abs() > 0.25 * step)
        .collect();
    stops.extend([0.0, half_way, chord]);
    // Each edge ends square off the end pegs: a row of its own there.
    for edge in [-0.5 * width, 0.5 * width] {
        let reach = reach(bend, edge);
        if reach > 0.0 {
            stops.extend([half_way - reach, half_way + reach]);
        }
    }
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|a, b| ruler.round(*a - *b).abs() <= 0.0);
    OffsetTable {
        from,
        to,
        chord: Taped::new(chord, ruler),
        rows: stops
            .into_iter()
            .map(|along| row(bend, width, along, ruler))
            .collect(),
    }
}

/// How far to each side of the middle of the chord an edge reaches, `out` outside the centre line:
/// its ends lie on the strings to the end pegs. Zero or less where the edge has no radius.
pub(super) fn reach(bend: &Bend, out: f64) -> f64 {
    (bend.radius() + out) * (0.5 * bend.sweep()).sin()
}

/// Where along a chord a row is set.
fn stop(along: Taped, chord: f64) -> f64 {
    if along.exact <= chord {
        along.tape.min(chord)
    } else {
        along.tape
    }
}

impl OffsetRow {
    /// Where along a chord of this length it is set: where the tape reads it, and at the end peg
    /// itself whatever the tape reads there.
    #[must_use]
    pub fn stop(&self, chord: f64) -> f64 {
        stop(self.along, chord)
    }
}

fn row(bend: &Bend, width: f64, along: f64, ruler: &Ruler) -> OffsetRow {
    // Marks are set at the distance the tape reads, so offsets are computed there; the end of the
    // chord is its peg, whatever the tape reads.
    let chord = bend.chord();
    let along = Taped::new(along, ruler);
    let x = (stop(along, chord) - 0.5 * chord).abs();
    // The ends of an edge are rounded to the tape as well: up to half a graduation beyond.
    let slack = 0.5 * ruler.graduation.metres() + 1e-9;
    let offset = |out: f64| {
        let radius = bend.radius() + out;
        if radius <= 0.0 || x > reach(bend, out) + slack {
            return None;
        }
        let x = x.min(radius);
        // √(Re² − x²) − d, as the offset at the middle less what the edge drops to x.
        let drop = x * x / (radius + (radius * radius - x * x).sqrt());
        Some(Taped::new(bend.rise() + out - drop, ruler))
    };
    OffsetRow {
        along,
        centre: offset(0.0),
        inner: offset(-0.5 * width),
        outer: offset(0.5 * width),
    }
}

/// A round step along the chord that keeps the bow between marks small.
pub(super) fn step(bend: &Bend, units: Units) -> f64 {
    let chord = bend.chord();
    let by_bow = bend.chord_for_bow(BOW).unwrap_or(chord);
    let wanted = by_bow.clamp(chord / MOST_SPACES, chord / FEWEST_SPACES);
    let round: &[f64] = match units {
        Units::Metric => &[0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0],
        Units::FeetInches => &FEET_STEPS,
    };
    let least = chord / MOST_SPACES;
    round
        .iter()
        .rev()
        .find(|step| **step <= wanted && least <= **step * (1.0 + 1e-9))
        .copied()
        .unwrap_or(wanted)
}

const FOOT: f64 = 0.3048;

/// 3, 6 in, 1, 2, 4, 5, 10, 20, 50, 100, 200 ft.
const FEET_STEPS: [f64; 11] = [
    0.25 * FOOT,
    0.5 * FOOT,
    FOOT,
    2.0 * FOOT,
    4.0 * FOOT,
    5.0 * FOOT,
    10.0 * FOOT,
    20.0 * FOOT,
    50.0 * FOOT,
    100.0 * FOOT,
    200.0 * FOOT,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Graduation;

    fn millimetres() -> Ruler {
        Ruler {
            units: Units::Metric,
            graduation: Graduation::Millimetre,
        }
    }

    #[test]
    fn offsets_read_as_published() {
        // Common practice, no source: chord 6.000 m, rise 0.800 m, offsets in millimetres at
        // half metres from the middle.
        let bend = Bend::from_chord_and_rise(6.0, 0.8).unwrap();
        for (from_middle, expected) in [
            (0.0, 800.0),
            (0.5, 779.0),
            (1.0, 716.0),
            (1.5, 610.0),
            (2.0, 458.0),
            (2.5, 257.0),
            (3.0, 0.0),
        ] {
            let row = row(&bend, 1.2, 3.0 + from_middle, &millimetres());
            let centre = row.centre.unwrap();
            assert!((centre.tape * 1000.0 - expected).abs() < 0.51, "{row:?}");
            assert!((centre.exact - centre.tape).abs() <= 0.0005 + 1e-12);
        }
    }

    #[test]
    fn edges_stand_half_the_width_off_at_the_apex() {
        let bend = Bend::from_chord_and_rise(6.0, 0.8).unwrap();
        let row = row(&bend, 1.2, 3.0, &millimetres());
        assert!((row.inner.unwrap().exact - 0.2).abs() < 1e-12);
        assert!((row.outer.unwrap().exact - 1.4).abs() < 1e-12);
    }

    #[test]
    fn more_than_half_a_circle_is_split_at_the_apex() {
        let bend = Bend::from_chord_and_rise(4.0, 3.0).unwrap();
        let tables = tables(&bend, 1.2, (3, 4), &millimetres(), None);
        assert_eq!(tables.len(), 2);
        assert_eq!(tables[0].to, "the apex");
        let half = bend.half();
        assert!((tables[1].chord.exact - half.chord()).abs() < 1e-12);
    }
}

//! Clean numbers: bends near the drawn one whose taped figures fall on the divisions of the tape.

mod offers;

use geometry::Bend;

use super::Taped;
use crate::units::Ruler;

pub use offers::{CleanError, CleanOffer, EndPegs};

/// A bend near the drawn one, and how far the path moves to become it. All lengths are metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CleanBend {
    /// Its size.
    pub bend: Bend,
    /// The straight distance between the end pegs.
    pub chord: Taped,
    /// From the chord's middle to the apex.
    pub rise: Taped,
    /// The string of the centre line.
    pub radius: Taped,
    /// The string of the inside edge; `None` when that has no radius.
    pub inner: Option<Taped>,
    /// The string of the outside edge.
    pub outer: Taped,
    /// How far the apex moves away from the chord, square; negative towards it.
    pub apex_out: f64,
    /// How far the apex moves along the chord, towards the last peg.
    pub apex_along: f64,
    /// How far the first and the last peg move along the chord, away from each other.
    pub ends: [f64; 2],
}

/// A figure this near to a division of the tape is read there without a thought, in metres: a
/// tenth of the finest division. Common practice, no source.
pub const CLEAN: f64 = 1e-4;

/// As far as this the apex and each end peg may move, in metres: what a soft edge forgives. Common
/// practice, no source.
const REACH: f64 = 0.025;

/// At least and at most so many divisions of the tape each way: coarse tapes need a choice, fine
/// ones have one nearer by.
const FEWEST_STEPS: f64 = 3.0;
const MOST_STEPS: f64 = 8.0;

/// So many are kept of all that were looked at.
const RANKED: usize = 12;

/// Bends near the drawn one that are cleaner than it, the cleanest first, twelve at most.
///
/// Looked at is every chord on the tape in reach (the drawn one alone if no peg moves) with every
/// rise on the tape, and with every rise that puts a string on it. `shares` says which share of a
/// change of the chord the first and the last peg take: halves, all and nothing, or twice nothing
/// where both stay. `fits` says whether a rise in metres, a size without sign, is wanted.
///
/// They are ranked by how many of the five taped figures lie on the tape to within [`CLEAN`], then by
/// the one farthest off in steps of that, then by how far the path moves. In front stand those
/// that no other is as clean as for less of a move.
///
/// ```
/// use geometry::Bend;
/// use plan::setout::clean_bends;
/// use plan::units::{Ruler, Units};
///
/// let drawn = Bend::from_chord_and_rise(4.799, 0.8004)?;
/// let found = clean_bends(&drawn, 1.2, &Ruler::new(Units::Metric), [0.5, 0.5], |_| true);
/// let clean = &found[0]; // 4.8² / (8 · 0.8) + 0.8 / 2 = 4
/// assert_eq!([clean.chord.tape, clean.rise.tape, clean.radius.tape], [4.8, 0.8, 4.0]);
/// assert_eq!(clean.on_tape(), 5);
/// # Ok::<(), geometry::BendError>(())
/// ```
#[must_use]
pub fn clean_bends(
    drawn: &Bend,
    width: f64,
    ruler: &Ruler,
    shares: [f64; 2],
    fits: impl Fn(f64) -> bool,
) -> Vec<CleanBend> {
    let search = Search {
        drawn: *drawn,
        half_width: 0.5 * width,
        division: ruler.division().metres(),
        shares,
    };
    let now = search.candidate(drawn.chord(), drawn.rise());
    let mut found = Vec::new();
    for chord in search.chords(ruler) {
        for rise in search.rises(ruler) {
            let strings = search.rises_of_strings(chord, rise);
            for rise in std::iter::once(rise).chain(strings.into_iter().flatten()) {
                let candidate = search.candidate(chord, rise);
                if candidate.cleanness() < now.cleanness() && search.is_near(rise) && fits(rise) {
                    found.push(candidate);
                }
            }
        }
    }
    found.sort_unstable_by(Candidate::compare);
    let mut least = f64::INFINITY;
    let (front, rest): (Vec<_>, Vec<_>) = found.into_iter().partition(|candidate| {
        let is_nearer = candidate.moved < least;
        least = least.min(candidate.moved);
        is_nearer
    });
    let mut ranked: Vec<CleanBend> = Vec::with_capacity(RANKED);
    for candidate in front.into_iter().chain(rest) {
        let clean = search.bend(&candidate, ruler);
        let is_new = |clean: &CleanBend| ranked.iter().all(|other| !other.reads_as(clean));
        ranked.extend(clean.filter(is_new));
        if ranked.len() == RANKED {
            break;
        }
    }
    ranked
}

struct Search {
    drawn: Bend,
    half_width: f64,
    division: f64,
    shares: [f64; 2],
}

/// A chord and a rise that were looked at.
#[derive(Clone, Copy, Debug)]
struct Candidate {
    chord: f64,
    rise: f64,
    /// How many of its figures are off the tape.
    missing: u32,
    /// The farthest of them from a division, in steps of [`CLEAN`].
    worst: f64,
    /// How far the path moves at most, in metres.
    moved: f64,
}

impl Candidate {
    fn cleanness(&self) -> (u32, f64) {
        (self.missing, self.worst)
    }

    fn compare(&self, other: &Self) -> std::cmp::Ordering {
        self.missing
            .cmp(&other.missing)
            .then(self.worst.total_cmp(&other.worst))
            .then(self.moved.total_cmp(&other.moved))
            .then(self.chord.total_cmp(&other.chord))
            .then(self.rise.total_cmp(&other.rise))
    }
}

impl Search {
    /// Whether the chord may change.
    fn moves_pegs(&self) -> bool {
        self.shares.iter().any(|share| *share > 0.0)
    }

    fn chords(&self, ruler: &Ruler) -> Vec<f64> {
        if !self.moves_pegs() {
            return vec![self.drawn.chord()];
        }
        let most = self.shares[0].max(self.shares[1]);
        self.on_tape(self.drawn.chord(), most.recip(), ruler)
    }

    fn rises(&self, ruler: &Ruler) -> Vec<f64> {
        self.on_tape(self.drawn.rise(), 1.0, ruler)
    }

    /// The lengths on the tape about a drawn one, so many times the reach each way.
    fn on_tape(&self, drawn: f64, times: f64, ruler: &Ruler) -> Vec<f64> {
        let steps = self.steps() * times;
        let offs = (0_u32..).map(|step| f64::from(step) - steps.floor());
        offs.take_while(|off| *off <= steps)
            .map(|off| ruler.round(drawn + off * self.division))
            .filter(|length| *length > 0.0)
            .collect()
    }

    fn steps(&self) -> f64 {
        (REACH / self.division).clamp(FEWEST_STEPS, MOST_STEPS)
    }

    fn is_near(&self, rise: f64) -> bool {
        (rise - self.drawn.rise()).abs() <= self.steps() * self.division
    }

    /// The rises over a chord, near one, that put the string of the centre line or of the edges on
    /// the tape: h = (c/2)² / (R + d), past a half circle R + d.
    fn rises_of_strings(&self, chord: f64, rise: f64) -> [Option<f64>; 2] {
        let half = 0.5 * chord;
        let radius = 0.5 * (half * half / rise + rise);
        let whole = |length: f64| (length / self.division).round() * self.division;
        let rise_of = |radius: f64| {
            let square = (radius - half) * (radius + half);
            let apothem = (square >= 0.0).then(|| square.sqrt())?;
            Some(if rise > half {
                radius + apothem
            } else {
                half * half / (radius + apothem)
            })
        };
        let edges = whole(radius - self.half_width) + self.half_width;
        [rise_of(whole(radius)), rise_of(edges)]
    }

    fn candidate(&self, chord: f64, rise: f64) -> Candidate {
        let radius = 0.5 * (0.25 * chord * chord / rise + rise);
        let (mut missing, mut worst) = (0, 0.0_f64);
        let inner = (radius > self.half_width).then_some(radius - self.half_width);
        // A chord that stays is as it is, and counts for none.
        let chosen = self.moves_pegs().then_some(chord);
        let figures = [rise, radius, radius + self.half_width];
        for figure in figures.into_iter().chain(inner).chain(chosen) {
            let divisions = figure / self.division;
            let off = (divisions - divisions.round()).abs() * self.division;
            missing += u32::from(off > CLEAN);
            worst = worst.max(off);
        }
        let [first, last] = self.ends(chord);
        let apex = self.apex_along(chord).hypot(rise - self.drawn.rise());
        Candidate {
            chord,
            rise,
            missing,
            worst: (worst / CLEAN).ceil().max(1.0),
            moved: apex.max(first.abs()).max(last.abs()),
        }
    }

    fn ends(&self, chord: f64) -> [f64; 2] {
        self.shares
            .map(|share| share * (chord - self.drawn.chord()))
    }

    fn apex_along(&self, chord: f64) -> f64 {
        let [first, last] = self.ends(chord);
        0.5 * (last - first)
    }

    fn bend(&self, candidate: &Candidate, ruler: &Ruler) -> Option<CleanBend> {
        let bend = Bend::from_chord_and_rise(candidate.chord, candidate.rise).ok()?;
        let taped = |length: f64| Taped::new(length, ruler);
        let inner = bend.radius() - self.half_width;
        Some(CleanBend {
            bend,
            chord: taped(bend.chord()),
            rise: taped(bend.rise()),
            radius: taped(bend.radius()),
            inner: (inner > 0.0).then(|| taped(inner)),
            outer: taped(bend.radius() + self.half_width),
            apex_out: bend.rise() - self.drawn.rise(),
            apex_along: self.apex_along(bend.chord()),
            ends: self.ends(bend.chord()),
        })
    }
}

impl CleanBend {
    /// The figures that are taped, each with its name.
    pub fn figures(&self) -> impl Iterator<Item = (&'static str, Taped)> {
        [
            ("chord", Some(self.chord)),
            ("rise", Some(self.rise)),
            ("string", Some(self.radius)),
            ("inside string", self.inner),
            ("outside string", Some(self.outer)),
        ]
        .into_iter()
        .filter_map(|(name, taped)| Some((name, taped?)))
    }

    /// Whether a tape reads the same of it as of another.
    fn reads_as(&self, other: &Self) -> bool {
        // Equal multiples of the division are equal to the last bit.
        let read = |clean: &Self| {
            [clean.chord, clean.rise, clean.radius].map(|taped| taped.tape.to_bits())
        };
        read(self) == read(other)
    }

    /// How many of them lie on the tape, to within [`CLEAN`].
    #[must_use]
    pub fn on_tape(&self) -> usize {
        self.figures().filter(|(_, taped)| taped.is_clean()).count()
    }

    /// How far the one farthest from a division is off it, in metres.
    #[must_use]
    pub fn worst(&self) -> f64 {
        let offs = self.figures().map(|(_, taped)| taped.off());
        offs.fold(0.0, f64::max)
    }
}

impl Taped {
    /// How far the drawn length lies from the division it is read at, in metres.
    fn off(&self) -> f64 {
        (self.exact - self.tape).abs()
    }

    fn is_clean(&self) -> bool {
        self.off() <= CLEAN
    }
}

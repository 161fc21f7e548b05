//! What must read how much before anyone digs.

use geometry::Bend;

use crate::units::Ruler;

/// One check measurement, with the room a good job has.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// What to measure, such as `peg 2 to peg 3`.
    pub what: String,
    /// What it must read, in metres, as drawn.
    pub must_read: f64,
    /// The least it may read, on the graduation.
    pub from: f64,
    /// The most it may read, on the graduation.
    pub to: f64,
}

/// How a reading stands to a check.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Within the range.
    Fine,
    /// Outside it.
    LookAgain,
}

impl Check {
    /// How a reading in metres stands.
    #[must_use]
    pub fn verdict(&self, reading: f64) -> Verdict {
        if self.from <= reading && reading <= self.to {
            Verdict::Fine
        } else {
            Verdict::LookAgain
        }
    }
}

/// What garden taping on smooth ground may be out: 5 mm and 1 mm a metre. Common practice, no
/// source.
#[must_use]
pub fn taping_allowance(length: f64) -> f64 {
    0.005 + 0.001 * length.abs()
}

/// The least and the most a good job may read for a length, on the graduation.
pub(super) fn allowed(must_read: f64, ruler: &Ruler) -> [f64; 2] {
    allowed_within(must_read, taping_allowance(must_read), ruler)
}

/// The same with so much room to either side, in metres; a graduation at least.
pub(super) fn allowed_within(must_read: f64, room: f64, ruler: &Ruler) -> [f64; 2] {
    let room = room.max(ruler.graduation.metres());
    [
        ruler.round(must_read - room).max(0.0),
        ruler.round(must_read + room),
    ]
}

pub(super) fn checks(
    bend: &Bend,
    width: f64,
    (first, last): (usize, usize),
    ruler: &Ruler,
) -> Vec<Check> {
    let check = |what: String, must_read: f64| {
        let [from, to] = allowed(must_read, ruler);
        Check {
            what,
            must_read,
            from,
            to,
        }
    };
    let half = bend.half();
    vec![
        check(format!("peg {first} to peg {last}, straight"), bend.chord()),
        check(
            "middle of the chord to the apex, square".to_owned(),
            bend.rise(),
        ),
        check(format!("peg {first} to the apex, straight"), half.chord()),
        check(format!("the apex to peg {last}, straight"), half.chord()),
        check("edge to edge at the apex, square".to_owned(), width),
    ]
}

//! Deflection angles and chords: each flag on a line aimed by a nail, from the peg where the tangent touches.

use super::builder::Builder;
use super::edges::off_the_centre_line;
use super::tangent_offsets::tangents_meet;
use super::{BendJob, NotHere};
use crate::setout::{Course, Method, Note, PathLine};
use crate::units::Units;

/// The angle in radians by which the line from a point of a bend to another, `arc` metres along it,
/// leaves the tangent: half the angle turned (Euclid, *Elements*, III.32).
///
/// ```
/// use geometry::angle::from_degrees;
/// use plan::setout::methods::deflections::deflection;
/// // 15.708 m along a bend of 30 m radius it has turned 30°.
/// assert!((deflection(30.0, 15.708) - from_degrees(15.0)).abs() < 1e-6);
/// ```
#[must_use]
pub fn deflection(radius: f64, arc: f64) -> f64 {
    0.5 * arc / radius
}

/// The chord in metres under `arc` metres of a bend: `2R sin(s/2R)`.
#[must_use]
pub fn chord_under(radius: f64, arc: f64) -> f64 {
    2.0 * radius * deflection(radius, arc).sin()
}

/// From both pegs to the apex: nails square off the tangent aim the lines, the flags stand on them
/// at their whole chords, and each chord between neighbours is a check. No angle is read.
///
/// # Errors
/// [`NotHere::TurnsTooFar`] from 150° on.
pub fn course(job: &BendJob) -> Result<Course, NotHere> {
    let mut builder = Builder::on_the_chord(job);
    let meet = tangents_meet(job, &mut builder)?;
    let spaces = job.spaces();
    let arc = job.arc;
    let tangents = [
        (
            job.ends()[0],
            arc.start(),
            arc.start_direction(),
            !arc.turns_left(),
        ),
        (
            job.ends()[1],
            arc.end(),
            arc.end_direction().reversed(),
            arc.turns_left(),
        ),
    ];
    let base = base(builder.at(meet).distance(arc.start()), job.ruler.units);
    let mut nail = 1;
    for (end, (peg, at, tangent, turns_right)) in tangents.into_iter().enumerate() {
        let mut before = peg;
        for nth in 1..=spaces / 2 {
            let from_start = if end == 0 { nth } else { spaces - nth };
            let Some((flag, flag_at)) = job.station(PathLine::Centre, from_start, spaces) else {
                continue;
            };
            if !builder.stands(flag) {
                nail += 1;
                let angle = deflection(
                    arc.radius(),
                    arc.length() * f64::from(nth) / f64::from(spaces),
                );
                let inwards = if turns_right {
                    -tangent.left().unit()
                } else {
                    tangent.left().unit()
                };
                let aim = job.aim(nail);
                let nail_at = at + tangent.unit() * base + inwards * (base * angle.tan());
                builder.square([peg, meet], aim, nail_at).note(Note::Aims);
                builder.along([peg, aim], flag, flag_at);
            }
            builder.check(&[[before, flag]]);
            before = flag;
        }
    }
    off_the_centre_line(job, &mut builder, spaces);
    Ok(builder.bend(Method::Deflections, job))
}

/// How far along the tangent the nails stand: the most whole half metres or feet within it.
fn base(tangent: f64, units: Units) -> f64 {
    let unit = match units {
        Units::Metric => 0.5,
        Units::FeetInches => 0.3048,
    };
    let whole = (tangent / unit + 1e-9).floor() * unit;
    if whole > 0.0 { whole } else { tangent }
}

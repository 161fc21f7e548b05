//! What a method has to say beside a deed's spots and figures.

use crate::setout::{Taped, Voice};

/// A remark beside a deed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Note {
    /// The string is the chord of the bend.
    Chord,
    /// What a radius must not be struck with.
    NotStretching,
    /// How flags are looked over once all stand.
    LookAlong,
    /// The quarter rule for a rise, and by how much it falls short here, in metres.
    QuarterRule {
        /// A quarter of the rise before.
        quarter: Taped,
        /// How much more the rise is.
        short: f64,
    },
    /// The spot is where the tangents at both ends meet.
    TangentsMeet,
    /// The nail aims the next flag.
    Aims,
    /// The last chord is not pulled but read.
    Closes,
    /// How long battens may be for this, in metres.
    Battens {
        /// The longest chord.
        most: f64,
    },
    /// The bend is too tight for an inside edge.
    NoInsideEdge,
    /// The marks are read before anything is set from them.
    MarksFirst,
    /// The struck line runs over the apex peg.
    OverTheApex,
    /// The flag stands on the line that was struck.
    OnTheLine,
    /// The string lies along the edge.
    AlongTheEdge,
    /// A string lies across ways in use.
    TakeDown,
    /// The spot is on the face of a wall or building, where nothing is driven.
    OnTheFace,
}

impl Note {
    /// In a sentence.
    #[must_use]
    pub fn words(&self, voice: &Voice) -> String {
        match self {
            Self::Chord => "This is the chord; leave the string.".into(),
            Self::NotStretching => {
                "Use a tape or a wire, not a string that stretches.".into()
            }
            Self::LookAlong => "Bend a batten or a hose round the flags and look along it: a flag that stands out is measured again.".into(),
            Self::QuarterRule { quarter, short } => format!(
                "By eye a quarter of the rise before: {}, here {} short.",
                voice.taped(quarter),
                voice.fine(*short)
            ),
            Self::TangentsMeet => {
                "There the straight lines that touch the bend at both pegs meet.".into()
            }
            Self::Aims => "It only aims the next flag: pull it afterwards.".into(),
            Self::Closes => {
                "The last chord is not pulled: it shows how well the others were.".into()
            }
            Self::Battens { most } => format!(
                "Battens serve for chords up to {}: longer ones bend.",
                voice.length(*most)
            ),
            Self::NoInsideEdge => {
                "The inside edge has no radius: this bend is too tight for the width.".into()
            }
            Self::MarksFirst => "These are the marks that all is set from: where one reads otherwise it has moved, or it is another: find out before going on.".into(),
            Self::OverTheApex => "It must run over the apex peg.".into(),
            Self::OnTheLine => "It must stand on the line that is struck.".into(),
            Self::AlongTheEdge => "Draw the edge along it, then take it down.".into(),
            Self::TakeDown => "Take it down once the pegs squared off it stand.".into(),
            Self::OnTheFace => "It is on the face of a wall or building: mark it there, drive nothing.".into(),
        }
    }
}

//! Every computed figure as plain data for scripts: metres and radians at full precision.
//!
//! The names are frozen: later versions add, and never change these.

mod compare;
mod near;
mod set_out;

use geometry::{Bend, Chain, Piece, Point};
use serde::Serialize;

use crate::count::{self, Quantities};
use crate::document::{Plan, Route, VERSION};
use crate::feel::{self, BendFeel, Feel, VehicleFit, Walk};
use crate::setout;
use crate::solve::{Solved, SolvedRoute};
use set_out::set_out_figures;

pub use compare::{NearestFigures, StandingFigures};
pub use near::{ClearanceFigures, ObstacleFigures, PathGapFigures, RootFigures};
pub use set_out::*;

/// All figures of a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figures {
    /// Version of the plan file these belong to.
    pub version: u32,
    /// What stands on the site.
    pub obstacles: Vec<ObstacleFigures>,
    /// The options in order.
    pub schemes: Vec<SchemeFigures>,
    /// The options beside each other, in order.
    pub compare: Vec<StandingFigures>,
    /// What to put right or know.
    pub findings: Vec<FindingFigures>,
}

/// All figures of one option.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SchemeFigures {
    /// Its letter.
    pub letter: String,
    /// Its name.
    pub name: String,
    /// Its paths in order.
    pub routes: Vec<RouteFigures>,
    /// Its paths near each other, two by two.
    pub path_gaps: Vec<PathGapFigures>,
    /// What it needs; null without a build-up.
    pub quantities: Option<Quantities>,
}

/// All figures of one path.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RouteFigures {
    /// Its name.
    pub name: String,
    /// Its width.
    pub width: f64,
    /// Whether it is closed.
    pub closed: bool,
    /// The centre line; null when no leg can be drawn.
    pub centre_line: Option<LineFigures>,
    /// The left edge; null when nothing of it is left.
    pub left_edge: Option<LineFigures>,
    /// The right edge.
    pub right_edge: Option<LineFigures>,
    /// The area between the edges.
    pub area: f64,
    /// Landings and passing places.
    pub pads: Vec<PadFigures>,
    /// How near it comes to what stands round it.
    pub clearances: Vec<ClearanceFigures>,
    /// The root zones it covers some of.
    pub roots: Vec<RootFigures>,
    /// How it feels to walk; null when no leg can be drawn.
    pub feel: Option<FeelFigures>,
    /// How it is set out; null when no leg can be drawn, or there are too many.
    pub set_out: Option<SetOutFigures>,
}

/// How a path feels to walk.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FeelFigures {
    /// Its bends in walking order.
    pub bends: Vec<BendFeelFigures>,
    /// Which of these bends is the tightest, counted from 0; null without any.
    pub tightest: Option<usize>,
    /// The vehicles of the plan.
    pub vehicles: Vec<VehicleFigures>,
    /// Where it comes within a metre of another part of itself; null where it does not.
    pub comes_by: Option<ComesByFigures>,
}

/// Where a path comes by one of its own legs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ComesByFigures {
    /// The least distance between its edges there; 0 where they cross.
    pub distance: f64,
    /// The stations of the nearest places, the earlier one first.
    pub stations: [f64; 2],
    /// The nearest points of the edges there.
    pub at: [[f64; 2]; 2],
}

/// How a bend feels to walk.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BendFeelFigures {
    /// Which piece of the centre line it is, counted from 0.
    pub piece: usize,
    /// The angle turned through with each pace, positive to the left.
    pub turn_per_pace: f64,
    /// The radius of the inside edge; 0 or less where none is left.
    pub inside_radius: f64,
    /// The longest view between edges one cannot see over; null without an inside edge.
    pub longest_view: Option<f64>,
    /// The turn that hides what is beyond.
    pub turn_that_hides: Option<f64>,
    /// Whether the bend turns so far.
    pub hides_what_is_beyond: Option<bool>,
}

/// Whether a vehicle stays on a path.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct VehicleFigures {
    /// Its name.
    pub name: String,
    /// The least width of the path on which all of it stays.
    pub needs_width: f64,
    /// The farthest it reaches left of the centre line.
    pub left: f64,
    /// The farthest it reaches right.
    pub right: f64,
    /// Where its front axle is when it reaches farthest.
    pub worst_station: f64,
    /// Whether it stays on and does not jackknife.
    pub stays_on: bool,
    /// The width of the path less the width needed.
    pub spare: f64,
    /// Where it jackknifes; null if it does not.
    pub folds_at: Option<f64>,
}

/// A landing or passing place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PadFigures {
    /// Its name.
    pub name: String,
    /// The station of its middle.
    pub station: f64,
    /// Its outline, walked counter-clockwise.
    pub outline: LineFigures,
    /// The area of its outline.
    pub area: f64,
}

/// A centre line or an edge.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LineFigures {
    /// Its length.
    pub length: f64,
    /// Its pieces in walking order.
    pub pieces: Vec<PieceFigures>,
}

/// One straight or bend.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PieceFigures {
    /// `straight` or `bend`.
    pub kind: &'static str,
    /// Where it starts: `[x, y]`.
    pub start: [f64; 2],
    /// Where it ends.
    pub end: [f64; 2],
    /// Its length.
    pub length: f64,
    /// For a bend, its figures.
    #[serde(flatten)]
    pub bend: Option<PlacedBend>,
}

/// The figures of a bend in its place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlacedBend {
    /// Its size.
    #[serde(flatten)]
    pub size: BendFigures,
    /// Its centre.
    pub swing_point: [f64; 2],
    /// `left` or `right`, as one turns in walking it.
    pub turns: &'static str,
}

/// The eight figures of a bend and the area between arc and chord.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BendFigures {
    /// The straight distance between the end pegs.
    pub chord: f64,
    /// The greatest distance from chord to arc.
    pub rise: f64,
    /// The radius.
    pub radius: f64,
    /// The length along the arc.
    pub arc_length: f64,
    /// The angle turned through, in radians.
    pub sweep: f64,
    /// The distance from swing point to chord, negative past a half circle.
    pub apothem: f64,
    /// From an end peg to where the tangents meet; null from a half circle on.
    pub tangent_length: Option<f64>,
    /// From there to the apex; null from a half circle on.
    pub external_distance: Option<f64>,
    /// The area between arc and chord.
    pub segment_area: f64,
}

/// A finding.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FindingFigures {
    /// `stop`, `care` or `note`.
    pub severity: &'static str,
    /// What kind of thing it is.
    pub code: &'static str,
    /// Where it is, in words.
    pub place: String,
    /// What to put right or know.
    pub sentence: String,
    /// The figure.
    pub value: Option<f64>,
    /// The limit it is held against.
    pub limit: Option<f64>,
    /// Where the limit comes from.
    pub source: &'static str,
}

impl From<&Bend> for BendFigures {
    fn from(bend: &Bend) -> Self {
        Self {
            chord: bend.chord(),
            rise: bend.rise(),
            radius: bend.radius(),
            arc_length: bend.arc_length(),
            sweep: bend.sweep(),
            apothem: bend.apothem(),
            tangent_length: bend.tangent_length(),
            external_distance: bend.external_distance(),
            segment_area: bend.segment_area(),
        }
    }
}

/// The figures of a plan and what was solved from it.
#[must_use]
pub fn figures(plan: &Plan, solved: &Solved) -> Figures {
    let schemes = plan.schemes.iter().zip(&solved.schemes).enumerate();
    Figures {
        version: VERSION,
        obstacles: near::obstacles(plan),
        schemes: schemes
            .map(|(nth, (scheme, option))| SchemeFigures {
                letter: option.letter.clone(),
                name: option.name.clone(),
                routes: scheme
                    .routes
                    .iter()
                    .zip(&option.routes)
                    .enumerate()
                    .map(|(path, (route, drawn))| {
                        let work = setout::work(plan, solved, (nth, path));
                        let around = &solved.surroundings;
                        let out = work.map(|work| set_out_figures(&work, plan, around));
                        route_figures(&plan.walk, route, drawn, out)
                    })
                    .collect(),
                path_gaps: option.gaps.iter().map(PathGapFigures::from).collect(),
                quantities: count::quantities(plan, solved, nth),
            })
            .collect(),
        compare: compare::standings(&crate::compare::compare(plan, solved)),
        findings: solved
            .findings
            .iter()
            .map(|finding| FindingFigures {
                severity: finding.severity.word(),
                code: finding.code.name(),
                place: finding.place.to_string(),
                sentence: finding.sentence.clone(),
                value: finding.value,
                limit: finding.limit,
                source: finding.source,
            })
            .collect(),
    }
}

fn route_figures(
    walk: &Walk,
    route: &Route,
    solved: &SolvedRoute,
    set_out: Option<SetOutFigures>,
) -> RouteFigures {
    RouteFigures {
        name: solved.name.clone(),
        width: solved.width,
        closed: route.closed,
        centre_line: solved.centre_line.as_ref().map(line_figures),
        left_edge: solved.left_edge.as_ref().map(line_figures),
        right_edge: solved.right_edge.as_ref().map(line_figures),
        area: solved.area,
        pads: route
            .pads
            .iter()
            .zip(&solved.pads)
            .map(|(pad, outline)| PadFigures {
                name: pad.name.clone(),
                station: pad.station,
                outline: line_figures(outline),
                area: outline.enclosed_area(),
            })
            .collect(),
        clearances: solved
            .clearances
            .iter()
            .map(ClearanceFigures::from)
            .collect(),
        roots: solved.roots.iter().map(RootFigures::from).collect(),
        feel: feel::feel(walk, solved).map(feel_figures),
        set_out,
    }
}

fn feel_figures(feel: Feel) -> FeelFigures {
    let bend = |bend: &BendFeel| BendFeelFigures {
        piece: bend.piece,
        turn_per_pace: bend.turn_per_pace,
        inside_radius: bend.inside_radius,
        longest_view: bend.view.map(|view| view.longest),
        turn_that_hides: bend.view.map(|view| view.turn_that_hides),
        hides_what_is_beyond: bend.view.map(|view| view.hides_what_is_beyond),
    };
    let vehicle = |fit: VehicleFit| VehicleFigures {
        name: fit.name,
        needs_width: fit.needs_width,
        left: fit.left,
        right: fit.right,
        worst_station: fit.worst_station,
        stays_on: fit.stays_on,
        spare: fit.spare,
        folds_at: fit.folds_at,
    };
    FeelFigures {
        bends: feel.bends.iter().map(bend).collect(),
        tightest: feel.tightest,
        vehicles: feel.vehicles.into_iter().map(vehicle).collect(),
        comes_by: feel.comes_by.map(|by| ComesByFigures {
            distance: by.distance,
            stations: by.stations,
            at: by.at.map(pair),
        }),
    }
}

fn line_figures(chain: &Chain) -> LineFigures {
    LineFigures {
        length: chain.length(),
        pieces: chain.pieces().iter().map(piece_figures).collect(),
    }
}

fn piece_figures(piece: &Piece) -> PieceFigures {
    PieceFigures {
        kind: if piece.arc().is_some() {
            "bend"
        } else {
            "straight"
        },
        start: pair(piece.start()),
        end: pair(piece.end()),
        length: piece.length(),
        bend: piece.arc().map(|arc| PlacedBend {
            size: BendFigures::from(&arc.bend()),
            swing_point: pair(arc.centre()),
            turns: if arc.turns_left() { "left" } else { "right" },
        }),
    }
}

fn pair(point: Point) -> [f64; 2] {
    [point.x, point.y]
}

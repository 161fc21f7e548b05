//! The pavers of an option, each counted where it would lie.

use serde::Serialize;

use super::super::build_up::{BuildUp, Cover, Layer, LayerPart, LayerWidth};
use super::super::paving::{
    Course, LaidCourse, Lay, MOST_UNITS, PavingError, Savings, about, count_beside,
    least_inner_radius, savings,
};
use crate::document::{Plan, Scheme};
use crate::solve::SolvedRoute;

/// The pavers of an option.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Paved {
    /// Which layer they are, by what finds it in a price list.
    pub key: String,
    /// How many there are.
    #[serde(flatten)]
    pub pavers: Pavers,
}

/// How many pavers there are, or why that is not known.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Pavers {
    /// Counted on the outlines.
    Counted(PaverCount),
    /// Not counted: why.
    Uncounted(String),
}

/// Pavers counted on the outlines of all paths. Areas are square metres of faces, without joints.
///
/// Straight rows take each spot once: of paths that lie on each other the first has it. Courses go
/// through where paths join, so that those are counted on both.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct PaverCount {
    /// Laid as they come.
    pub whole: usize,
    /// Cut, slivers among them.
    pub cut: usize,
    /// Of which a sliver is laid.
    pub slivers: usize,
    /// To order if every cut takes a new one, without any for breakage.
    pub ordered: usize,
    /// To order if what is cut off serves again.
    pub ordered_reusing: usize,
    /// The area laid.
    pub laid: f64,
    /// The area cut off if every cut takes a new one.
    pub waste: f64,
    /// The area cut off and not used again, if what is cut off serves again.
    pub waste_reusing: f64,
    /// The courses along the paths.
    pub courses: Vec<PathCourse>,
}

/// A course along one path.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PathCourse {
    /// Which path, counted from 1.
    pub path: usize,
    /// What it takes.
    #[serde(flatten)]
    pub course: LaidCourse,
}

/// What would save cuts.
#[derive(Clone, Debug, PartialEq)]
pub struct PavingHints {
    /// The least radius in metres of the inner face of a course that whole soldiers follow;
    /// infinite where joints have no play.
    pub soldiers: f64,
    /// The same of stretchers.
    pub stretchers: f64,
    /// What each path would save, or why it is not counted, in the order of the plan.
    pub paths: Vec<Result<Savings, PavingError>>,
}

/// What would save cuts in an option, counted from 0; nothing where it has no pavers. It takes about
/// twenty times as long as counting them.
#[must_use]
pub fn paving_hints(plan: &Plan, scheme: usize) -> Option<PavingHints> {
    let scheme: &Scheme = plan.schemes.get(scheme)?;
    let (_, course) = pavers(scheme.build_up.as_ref()?)?;
    let least = |lay| least_inner_radius(course.unit.laid(lay), course.joints);
    let routes = scheme.routes.iter();
    Some(PavingHints {
        soldiers: least(Lay::Soldier),
        stretchers: least(Lay::Stretcher),
        paths: routes
            .map(|route| savings(plan, route, &course, plan.graduation))
            .collect(),
    })
}

impl Paved {
    /// How many there are, where that is known.
    #[must_use]
    pub fn count(&self) -> Option<&PaverCount> {
        match &self.pavers {
            Pavers::Counted(count) => Some(count),
            Pavers::Uncounted(_) => None,
        }
    }

    /// The pavers of paths with a build-up, except of those that are not counted, from 1.
    pub(super) fn of(build_up: &BuildUp, routes: &[SolvedRoute], except: &[usize]) -> Option<Self> {
        let (layer, course) = pavers(build_up)?;
        let routes = routes.iter().enumerate();
        let routes = routes.map(|(nth, route)| (nth + 1, route));
        let routes: Vec<_> = routes.filter(|(path, _)| !except.contains(path)).collect();
        let pavers = match layer.width {
            LayerWidth::Path => count(&routes, &course),
            LayerWidth::Dig | LayerWidth::BeyondEdging => {
                Err("they do not end at the edges of the path".into())
            }
        };
        Some(Self {
            key: layer.key.clone(),
            pavers: pavers.map_or_else(Pavers::Uncounted, Pavers::Counted),
        })
    }
}

/// The surface of units, and how they are laid.
fn pavers(build_up: &BuildUp) -> Option<(&Layer, Course)> {
    if !matches!(build_up.cover, Cover::Whole) {
        return None;
    }
    let mut surfaces = build_up.layers.iter();
    surfaces.find_map(|layer| {
        let course = layer.bought.course()?;
        (layer.part == LayerPart::Surface).then_some((layer, course))
    })
}

fn count(routes: &[(usize, &SolvedRoute)], course: &Course) -> Result<PaverCount, String> {
    let units: f64 = routes
        .iter()
        .map(|(_, route)| about(route, course.unit))
        .sum();
    if units > MOST_UNITS {
        return Err(PavingError::TooMany(units).to_string());
    }
    let mut sum = PaverCount::default();
    let mut laid: Vec<&SolvedRoute> = Vec::new();
    for (path, route) in routes {
        let paving = count_beside(route, &laid, course).map_err(|error| {
            if routes.len() > 1 {
                format!("{}: {error}", route.name)
            } else {
                error.to_string()
            }
        })?;
        sum.whole += paving.whole;
        sum.cut += paving.cut;
        sum.slivers += paving.slivers;
        sum.ordered += paving.ordered;
        sum.ordered_reusing += paving.ordered_reusing;
        sum.laid += paving.laid;
        sum.waste += paving.waste;
        sum.waste_reusing += paving.waste_reusing;
        let courses = paving.courses.into_iter();
        sum.courses.extend(courses.map(|course| PathCourse {
            path: *path,
            course,
        }));
        laid.push(*route);
    }
    Ok(sum)
}

//! The options of a plan beside each other: their figures, what differs, and which is no better.
//!
//! Two figures differ here when they differ as they are written, so that a table never marks what
//! it does not show.

mod character;
mod criterion;
mod words;

use crate::clearance::IN_SIGHT;
use crate::document::{ObstacleKind, Plan};
use crate::feel::{self, BendFeel};
use crate::finding::Severity;
use crate::solve::{Solved, SolvedScheme};
use crate::units::{Graduation, Ruler, Units};

pub use criterion::{Better, Criterion};

/// What the options come to, in their order.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// One standing an option.
    pub standings: Vec<Standing>,
    /// How its lengths are said: see [`spoken`].
    pub ruler: Ruler,
}

/// What one option comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// Which option, counted from 0.
    pub scheme: usize,
    /// Its letter.
    pub letter: String,
    /// Its name.
    pub name: String,
    /// Whether anything of it is drawn; what follows is nothing otherwise.
    pub drawn: bool,
    /// The length of its centre lines in metres.
    pub length: f64,
    /// The area between its edges in square metres.
    pub area: f64,
    /// The least and the greatest width of its paths in metres.
    pub widths: [f64; 2],
    /// The radius of its tightest inside edge in metres, not above zero where there is none left;
    /// `None` without a bend.
    pub tightest_inside: Option<f64>,
    /// The most it turns with a pace, in radians; 0 without a bend.
    pub turn_per_pace: f64,
    /// What it comes nearest to of all that wants to be kept off; `None` beyond [`IN_SIGHT`].
    pub nearest: Option<Nearest>,
    /// How many things there are to stop for, to take care of and to note.
    pub findings: [usize; 3],
    /// The area of root zones it covers, in square metres.
    pub roots: f64,
    /// The greatest share it covers of one root zone, 0 to 1.
    pub root_share: f64,
    /// How it feels to walk, in plain words.
    pub character: String,
    /// What is worked out elsewhere.
    pub counted: Counted,
}

/// What an option comes nearest to.
#[derive(Clone, Debug, PartialEq)]
pub struct Nearest {
    /// Which obstacle, counted from 0.
    pub obstacle: usize,
    /// What it is called in a sentence.
    pub called: String,
    /// How far off it is in metres; below zero where they overlap.
    pub distance: f64,
}

/// What is counted of an option, as far as it is known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Counted {
    /// What is dug out, in cubic metres as it lay.
    pub spoil: Option<Amount>,
    /// The pavers to cut: fewer are less dust.
    pub cuts: Option<Amount>,
    /// What it costs, in the money of the plan.
    pub cost: Option<Amount>,
    /// The days of work.
    pub days: Option<Amount>,
}

/// How much of something there is: a number to compare by, and how it is written.
#[derive(Clone, Debug, PartialEq)]
pub struct Amount {
    /// The number; two are alike where they agree to a hundredth.
    pub value: f64,
    /// How it is written, with its unit.
    pub text: String,
}

/// The ruler that differences between options are said with: to 10 mm or an inch, or as the tape is
/// divided where that is coarser. A client does not ask for less.
#[must_use]
pub fn spoken(ruler: Ruler) -> Ruler {
    let coarse = match ruler.units {
        Units::Metric => Graduation::TenMillimetres,
        Units::FeetInches => Graduation::Inch,
    };
    let tape = ruler.graduation;
    let coarser = tape.units() == ruler.units && coarse.metres() < tape.metres();
    Ruler {
        graduation: if coarser { tape } else { coarse },
        ..ruler
    }
}

/// Compares the options of a plan by what follows from their lines.
#[must_use]
pub fn compare(plan: &Plan, solved: &Solved) -> Comparison {
    compare_counted(plan, solved, &[])
}

/// Compares the options with what is counted of them, in their order; what is missing is not known.
#[must_use]
pub fn compare_counted(plan: &Plan, solved: &Solved, counted: &[Counted]) -> Comparison {
    let standing = |(scheme, drawn)| {
        let counted = counted.get(scheme).cloned().unwrap_or_default();
        standing(plan, solved, (scheme, drawn), counted)
    };
    Comparison {
        standings: solved.schemes.iter().enumerate().map(standing).collect(),
        ruler: spoken(plan.ruler()),
    }
}

impl Comparison {
    /// The criteria that are known of at least one option, in the order of a table.
    #[must_use]
    pub fn criteria(&self) -> Vec<Criterion> {
        let known = |c: &Criterion| (self.standings.iter()).any(|standing| c.is_known_of(standing));
        Criterion::ALL.into_iter().filter(known).collect()
    }

    /// Whether the options that are drawn differ in a criterion, as it is written.
    #[must_use]
    pub fn differs(&self, criterion: Criterion) -> bool {
        let mut keys = self.known(criterion).map(|s| criterion.key(s, self.ruler));
        let first = keys.next();
        keys.any(|key| Some(key) != first)
    }

    /// The options that are best by a criterion, counted from 0: none where all are alike, or none
    /// is better for having more or less of it.
    #[must_use]
    pub fn best(&self, criterion: Criterion) -> Vec<usize> {
        if criterion.better() == Better::Neither || !self.differs(criterion) {
            return Vec::new();
        }
        let key = |standing: &&Standing| criterion.key(standing, self.ruler);
        let least = self.known(criterion).map(|s| key(&s)).min();
        let best = self
            .known(criterion)
            .filter(|standing| Some(key(standing)) == least);
        best.map(|standing| standing.scheme).collect()
    }

    /// The options in the order of a criterion, the best first, or the least where neither more nor
    /// less is better; those alike as they stand in the plan, those not known last.
    #[must_use]
    pub fn sorted(&self, criterion: Criterion) -> Vec<usize> {
        let mut order: Vec<&Standing> = self.standings.iter().collect();
        order.sort_by_key(|standing| {
            let unknown = !criterion.is_known_of(standing);
            (unknown, criterion.key(standing, self.ruler))
        });
        order.iter().map(|standing| standing.scheme).collect()
    }

    /// The options another one is no better than, and worse in something: all that is compared is
    /// what it costs, where that is known of every option, its length, its tightest bend, the roots
    /// it covers and how near it comes to things.
    ///
    /// It is a strict order: nothing is worse than itself, of two options at most one is worse than
    /// the other, and what is worse than a worse one is worse.
    #[must_use]
    pub fn no_better_than(&self, scheme: usize) -> Vec<usize> {
        let Some(this) = self.standings.get(scheme).filter(|s| s.drawn) else {
            return Vec::new();
        };
        let others = self.standings.iter().filter(|other| other.drawn);
        let better = others.filter(|other| self.is_dominated(this, other));
        better.map(|other| other.scheme).collect()
    }

    fn is_dominated(&self, this: &Standing, by: &Standing) -> bool {
        let weighed = self.weighed();
        let keys = |standing: &Standing| -> Vec<i64> {
            let key = |criterion: &Criterion| criterion.key(standing, self.ruler);
            weighed.iter().map(key).collect()
        };
        let (this, by) = (keys(this), keys(by));
        this != by && by.iter().zip(&this).all(|(by, this)| by <= this)
    }

    /// The criteria by which one option may be no better than another.
    fn weighed(&self) -> Vec<Criterion> {
        let mut drawn = self.standings.iter().filter(|standing| standing.drawn);
        let cost = drawn.all(|standing| Criterion::Cost.is_known_of(standing));
        let cost = cost.then_some(Criterion::Cost);
        let shape = [
            Criterion::Length,
            Criterion::TightestInside,
            Criterion::Clearance,
            Criterion::Roots,
        ];
        cost.into_iter().chain(shape).collect()
    }

    fn known(&self, criterion: Criterion) -> impl Iterator<Item = &Standing> {
        let known = move |s: &&Standing| criterion.is_known_of(s);
        self.standings.iter().filter(known)
    }
}

fn standing(
    plan: &Plan,
    solved: &Solved,
    (scheme, drawn): (usize, &SolvedScheme),
    counted: Counted,
) -> Standing {
    let routes = || drawn.routes.iter().filter(|r| r.centre_line.is_some());
    let bends: Vec<BendFeel> = routes()
        .flat_map(|route| feel::bends(&plan.walk, route))
        .collect();
    let least = |figures: &mut dyn Iterator<Item = f64>| figures.min_by(f64::total_cmp);
    let most = |figures: &mut dyn Iterator<Item = f64>| figures.max_by(f64::total_cmp);
    let width = [
        least(&mut routes().map(|route| route.width)),
        most(&mut routes().map(|route| route.width)),
    ];
    let roots = || routes().flat_map(|route| &route.roots);
    let count = |severity: Severity| {
        let here = |finding: &&crate::Finding| {
            finding.severity == severity && finding.place.concerns(scheme)
        };
        solved.findings.iter().filter(here).count()
    };
    let lines = routes().filter_map(|route| route.centre_line.as_ref());
    let mut standing = Standing {
        scheme,
        letter: drawn.letter.clone(),
        name: drawn.name.clone(),
        drawn: routes().next().is_some(),
        length: total(lines.map(geometry::Chain::length)),
        area: total(routes().map(|route| route.area)),
        widths: width.map(|width| width.unwrap_or(0.0)),
        tightest_inside: least(&mut bends.iter().map(|bend| bend.inside_radius)),
        turn_per_pace: most(&mut bends.iter().map(|bend| bend.turn_per_pace.abs())).unwrap_or(0.0),
        nearest: nearest(plan, drawn),
        findings: [Severity::Stop, Severity::Care, Severity::Note].map(count),
        roots: total(roots().map(|share| share.covered)),
        root_share: most(&mut roots().map(|share| share.covered / share.whole)).unwrap_or(0.0),
        character: String::new(),
        counted,
    };
    standing.character = character::of(&standing, &bends);
    standing
}

/// The sum, nought for none: the sum of no floats at all is minus nought.
fn total(figures: impl Iterator<Item = f64>) -> f64 {
    figures.fold(0.0, |sum, figure| sum + figure)
}

/// What an option comes nearest to: not to what its paths lead up to, lie over or run along, such as
/// a buried pipe or the edge of a bed that wants nothing kept.
fn nearest(plan: &Plan, drawn: &SolvedScheme) -> Option<Nearest> {
    let clearances = drawn.routes.iter().flat_map(|route| &route.clearances);
    let obstacle = |index: usize| plan.site.obstacles.get(index);
    let counts = |clearance: &&crate::clearance::Clearance| {
        let kind = obstacle(clearance.obstacle).map(|obstacle| obstacle.kind);
        let passed_by = !matches!(
            kind,
            None | Some(ObstacleKind::Service | ObstacleKind::Gate)
        );
        passed_by && !clearance.leads_up && clearance.wanted > 0.0 && clearance.distance < IN_SIGHT
    };
    let nearest = clearances
        .filter(counts)
        .min_by(|a, b| a.distance.total_cmp(&b.distance))?;
    Some(Nearest {
        obstacle: nearest.obstacle,
        called: obstacle(nearest.obstacle)?.called(),
        distance: nearest.distance,
    })
}

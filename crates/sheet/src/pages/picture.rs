//! One option as a picture for whoever is to live with it: the ground, the path, a few names, no figures.
//!
//! All options of a plan show the same ground at the same scale, so that they can be laid side by side.

use geometry::{Bounds, Chain, Point};
use plan::document::{Obstacle, ObstacleKind};
use plan::solve::{SolvedRoute, SolvedScheme};
use plan::{Plan, Solved};

use crate::ink::{Anchor, Ink, Pos, Text};
use crate::lettering;
use crate::paper::Frame;
use crate::pen::{Pen, Style, Tone, Weight};
use crate::picture::Picture;

use super::labels::{Label, Labels};
use super::scale::{Scale, View};
use super::site;
use super::title_block::{RoundBar, bar, north_arrow};

/// Longer side of the ground shown, millimetres: a picture on half a landscape A4.
const LONG: f64 = 240.0;
/// The ground is at most so much longer one way than the other.
const SLIM: f64 = 2.2;
/// Blank paper round everything, millimetres.
const RIM: f64 = 8.0;
/// Height of the heading above the ground, and of the foot below it, millimetres.
const HEAD: f64 = 14.0;
const FOOT: f64 = 14.0;
/// How much of the ground beyond the paths shows, in shares of their longer reach.
const AROUND: f64 = 0.14;
/// The least reach of ground that is drawn, metres.
const LEAST: f64 = 2.0;

const NAME: Style = Style::new(2.5, Weight::Regular).toned(Tone::Grey);

/// The picture of an option, counted from 0; nothing if there is no such option.
#[must_use]
pub fn option_picture(plan: &Plan, solved: &Solved, scheme: usize) -> Option<Picture> {
    let shown = solved.schemes.get(scheme)?;
    let ground = ground(solved);
    let each = LONG / ground.width().max(ground.height());
    let (width, height) = (ground.width() * each, ground.height() * each);
    let window = Frame::new(Pos::new(RIM, RIM + FOOT), width, height);
    let whole = Frame::new(
        Pos::ORIGIN,
        width + 2.0 * RIM,
        height + 2.0 * RIM + HEAD + FOOT,
    );
    let view = View {
        scale: Scale {
            ratio: 1000.0 / each,
            words: String::new(),
        },
        middle: (ground.middle(), window.middle()),
        turn: 0.0,
    };
    let name = super::option_name(shown);
    let mut inks = vec![heading(&name, &window)];
    inks.push(Ink::Through {
        window,
        inks: drawing(plan, shown, &view, &window, NAME),
    });
    inks.push(Ink::Rect {
        frame: window,
        pen: Some(Pen::RULE),
        fill: None,
    });
    inks.extend(foot(plan, &view.scale, &window));
    let title = super::named(&plan.title, "Untitled plan");
    Some(Picture {
        title: format!("{title}: option {name}"),
        description: format!(
            "Option {name} from above, with what stands round it. {}",
            words_of(shown)
        ),
        whole,
        inks,
    })
}

/// How much higher than wide the ground of all options is.
pub(super) fn slenderness(solved: &Solved) -> f64 {
    let ground = ground(solved);
    ground.height() / ground.width()
}

/// The scale at which the ground of all options fits a window of a page.
pub(super) fn scale_within(solved: &Solved, window: &Frame) -> Scale {
    let ground = ground(solved);
    let each = (window.width / ground.width()).min(window.height / ground.height());
    Scale {
        ratio: 1000.0 / each,
        words: String::new(),
    }
}

/// An option in a window of a page: windows of one size show the same ground at the same scale.
pub(super) fn within(
    plan: &Plan,
    solved: &Solved,
    shown: &SolvedScheme,
    window: &Frame,
) -> Vec<Ink> {
    let view = View {
        scale: scale_within(solved, window),
        middle: (ground(solved).middle(), window.middle()),
        turn: 0.0,
    };
    let lettered = NAME.high(Style::SMALL.height);
    vec![
        Ink::Through {
            window: *window,
            inks: drawing(plan, shown, &view, window, lettered),
        },
        Ink::Rect {
            frame: *window,
            pen: Some(Pen::RULE),
            fill: None,
        },
    ]
}

/// The ground every picture of a plan shows: all paths of all options with some of what lies round.
fn ground(solved: &Solved) -> Bounds {
    let routes = solved.schemes.iter().flat_map(|scheme| &scheme.routes);
    let edges = routes.flat_map(|route| [&route.left_edge, &route.right_edge, &route.centre_line]);
    let all = edges
        .flatten()
        .map(Chain::bounds)
        .reduce(Bounds::with)
        .unwrap_or_else(|| Bounds::of(Point::ORIGIN));
    let longer = all.width().max(all.height()).max(LEAST);
    let reach = (0.5 + AROUND) * longer;
    let half = |own: f64| (0.5 * own + AROUND * longer).max(reach / SLIM);
    let (centre, across, up) = (all.middle(), half(all.width()), half(all.height()));
    Bounds {
        low: Point::new(centre.x - across, centre.y - up),
        high: Point::new(centre.x + across, centre.y + up),
    }
}

fn heading(name: &str, window: &Frame) -> Ink {
    let (words, style) = lettering::fit(name, Style::HEADING.high(6.0), window.width);
    let at = Pos::new(window.left(), window.head() + 4.5);
    Ink::text(at, words, style)
}

fn drawing(
    plan: &Plan,
    scheme: &SolvedScheme,
    view: &View,
    window: &Frame,
    lettered: Style,
) -> Vec<Ink> {
    let mut labels = Labels::new(window.inset(0.8));
    let mut inks: Vec<Ink> = scheme
        .routes
        .iter()
        .filter_map(|route| surface(route, view))
        .collect();
    let mut names = Vec::new();
    // What is buried is for those who dig.
    let seen = |obstacle: &&Obstacle| obstacle.kind != ObstacleKind::Service;
    for obstacle in plan.site.obstacles.iter().filter(seen) {
        let drawn = site::drawn(obstacle, plan.site.roots, view, window);
        inks.extend(drawn.inks);
        names.push((site::name(obstacle), drawn.name_at));
    }
    for route in &scheme.routes {
        inks.extend(outline(route, view));
    }
    inks.iter().for_each(|ink| labels.avoid(ink));
    for route in &scheme.routes {
        keep_surface_clear(route, view, &mut labels);
    }
    for (name, places) in names {
        let label = Label::new(&name, lettered, 40.0);
        let around: Vec<_> = places
            .iter()
            .flat_map(|at| label.around(*at, -0.8))
            .collect();
        inks.extend(labels.put(&label, &around).into_iter().flatten());
    }
    inks
}

/// Names keep off a path: squares along it follow it closely enough.
fn keep_surface_clear(route: &SolvedRoute, view: &View, labels: &mut Labels) {
    /// A path so long that it takes more squares is kept clear here and there.
    const MOST: f64 = 400.0;
    let Some(line) = &route.centre_line else {
        return;
    };
    let half = 0.4 * route.width * view.scale.millimetres();
    let step = (0.5 * route.width).max(line.length() / MOST);
    let mut station = 0.0;
    while station <= line.length() {
        let at = view.paper_from_plan(line.point_at(station));
        labels.keep_clear(&Frame::new(at, 0.0, 0.0).inset(-half));
        station += step;
    }
}

/// The ground a path takes up.
fn surface(route: &SolvedRoute, view: &View) -> Option<Ink> {
    let rings = route.outline();
    // A ring has its hole: the outer edge, straight over to the inner one, round and back.
    let mut steps = Vec::new();
    let mut from = None;
    for ring in &rings {
        let Ink::Path {
            from: start,
            steps: more,
            ..
        } = view.chain(ring, Pen::EDGE)
        else {
            continue;
        };
        let first = *from.get_or_insert(start);
        if first != start {
            steps.push(crate::ink::Step::To(start));
        }
        steps.extend(more);
        steps.push(crate::ink::Step::To(start));
        steps.push(crate::ink::Step::To(first));
    }
    Some(Ink::Path {
        from: from?,
        steps,
        closed: true,
        pen: None,
        fill: Some(Tone::Pale),
    })
}

/// Its edges with the lines across both ends, and its landings.
fn outline(route: &SolvedRoute, view: &View) -> Vec<Ink> {
    let rings = route.outline();
    let edges = [&route.left_edge, &route.right_edge];
    let mut inks: Vec<Ink> = if rings.is_empty() {
        let left = edges.into_iter().chain([&route.centre_line]).flatten();
        left.map(|edge| view.chain(edge, Pen::EDGE)).collect()
    } else {
        rings
            .iter()
            .map(|ring| view.chain(ring, Pen::EDGE))
            .collect()
    };
    inks.extend(route.pads.iter().map(|pad| view.chain(pad, Pen::OUTLINE)));
    inks
}

/// A bar to judge lengths by, the title of the plan, and north.
fn foot(plan: &Plan, scale: &Scale, window: &Frame) -> Vec<Ink> {
    let at = Pos::new(window.left(), window.foot() - 8.0);
    let bar_of = RoundBar::fitting(scale, plan.units, 0.3 * window.width);
    let mut inks = bar(at, bar_of.millimetres, bar_of.divisions);
    let end = at.shifted(bar_of.millimetres + 2.5, 0.0);
    inks.push(Ink::text(end, &bar_of.words, Style::BODY));
    let right = Pos::new(window.right() - 3.0, window.foot() - 7.5);
    inks.extend(north_arrow(right, plan.north));
    let room = right.x - 8.0 - (end.x + 22.0);
    let title = super::named(&plan.title, "");
    if !title.is_empty() && room > 10.0 {
        let (words, style) = lettering::fit(&title, Style::BODY, room);
        let place = Pos::new(right.x - 8.0, at.y);
        inks.push(Text::new(place, words, style).anchored(Anchor::END).into());
    }
    inks
}

/// How many paths there are, in words.
fn words_of(scheme: &SolvedScheme) -> String {
    match scheme.routes.len() {
        0 => "It has no path yet.".to_owned(),
        1 => "It has one path.".to_owned(),
        count => format!("It has {count} paths."),
    }
}

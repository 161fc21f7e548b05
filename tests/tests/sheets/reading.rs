//! The PDF read back: what it says, how long its lines are, and what can be rebuilt from it.

use geometry::{Direction, Point};
use pegbow_tests::pdf_text::{Drawn, PageContent, about, read};
use plan::setout::{BendWork, Method, RouteSetOut, RouteWork, set_out, work};
use plan::units::{Ruler, Units};
use sheet::{Paper, Request, stakeout};

use crate::plans::{self, Case};
use crate::{composed, written};

/// What the printed scale may be off over the whole page, millimetres.
const TRUE: f64 = 0.2;

/// What the bar may be off: nothing a rule shows, millimetres.
const BAR: f64 = 0.005;

const PAPERS: [Paper; 2] = [Paper::A4, Paper::Letter];

fn pages(case: &Case, paper: Paper) -> Vec<PageContent> {
    read(&written(case, paper)).unwrap_or_else(|error| panic!("{}: {error}", case.name))
}

/// The set-outs of the paths of a case that can be drawn.
fn set_outs(case: &Case) -> Vec<RouteSetOut> {
    let solved = case.plan.solve();
    let routes = solved
        .schemes
        .get(case.scheme)
        .map(|scheme| scheme.routes.clone())
        .unwrap_or_default();
    routes
        .iter()
        .filter_map(|route| set_out(&case.plan, route))
        .collect()
}

#[test]
fn every_sheet_is_written_and_its_pages_are_numbered() {
    for case in plans::all() {
        for paper in PAPERS {
            let pages = pages(&case, paper);
            let of = pages.len();
            let fingerprint = plan::fingerprint::fingerprint(&case.plan);
            for (page, number) in pages.iter().zip(1..) {
                let words = page.words();
                assert!(
                    words.contains(&format!("page {number} of {of}")),
                    "{} {number}",
                    case.name
                );
                assert!(words.contains(&fingerprint), "{} {number}", case.name);
            }
        }
    }
}

#[test]
fn one_page_opens_each_bend() {
    for case in plans::all() {
        let sheet = composed(&case, Paper::A4);
        let opened = |number: usize| {
            let title = format!("Bend {number}: ");
            let fresh = |page: &&sheet::Page| {
                page.title.starts_with(&title) && !page.title.ends_with("continued")
            };
            sheet.pages.iter().filter(fresh).count()
        };
        for route in set_outs(&case) {
            for bend in &route.bends {
                assert_eq!(opened(bend.number), 1, "{} bend {}", case.name, bend.number);
            }
        }
        let plans = sheet
            .pages
            .iter()
            .filter(|page| page.title.starts_with("Plan: "))
            .count();
        assert_eq!(plans, set_outs(&case).len(), "{}", case.name);
    }
}

#[test]
fn it_says_every_figure_of_every_bend() {
    for case in plans::all() {
        let ruler = case.plan.ruler();
        let words: String = pages(&case, Paper::A4)
            .iter()
            .map(|page| page.words() + "\n")
            .collect();
        for work in works(&case).iter().flat_map(|work| &work.bends) {
            let bend = &work.bend;
            for figure in [
                Some(bend.chord),
                Some(bend.rise),
                Some(bend.radius),
                bend.inner,
                Some(bend.outer),
            ]
            .into_iter()
            .flatten()
            {
                // Both edges' strings are only given for a bend that is swung, or is if its way fails.
                let of_edge = Some(figure) == bend.inner || figure == bend.outer;
                if of_edge && !is_swung(work) {
                    continue;
                }
                let says = ruler.text(figure.exact);
                assert!(
                    words.contains(&says),
                    "{} bend {}: {says}",
                    case.name,
                    bend.number
                );
                if case.both {
                    let says = ruler.companion().text(figure.exact);
                    assert!(
                        words.contains(&says),
                        "{} bend {}: {says}",
                        case.name,
                        bend.number
                    );
                }
            }
        }
    }
}

/// The squares of the pegs on the plan page, in the order they were drawn: their middles.
fn squares(page: &PageContent) -> Vec<[f64; 2]> {
    let square = |drawn: &&Drawn| {
        let (low, high) = extent(drawn);
        drawn.filled
            && (high[0] - low[0] - 2.2).abs() < 0.01
            && (high[1] - low[1] - 2.2).abs() < 0.01
    };
    let middle = |drawn: &Drawn| {
        let (low, high) = extent(drawn);
        [0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1])]
    };
    page.lines.iter().filter(square).map(middle).collect()
}

fn extent(drawn: &Drawn) -> ([f64; 2], [f64; 2]) {
    let mut low = [f64::INFINITY; 2];
    let mut high = [f64::NEG_INFINITY; 2];
    for place in drawn.places() {
        for axis in 0..2 {
            low[axis] = low[axis].min(place[axis]);
            high[axis] = high[axis].max(place[axis]);
        }
    }
    (low, high)
}

/// Metres on the ground to a millimetre on paper, from the words of the page.
fn scale(words: &str, units: Units) -> f64 {
    let figure = |after: &str, before: &str| -> f64 {
        let rest = words.split_once(after).unwrap().1;
        rest.split_once(before).unwrap().0.trim().parse().unwrap()
    };
    match units {
        Units::Metric => figure("Scale 1:", "\n") / 1000.0,
        Units::FeetInches => figure("Scale 1 in = ", " ft") * 0.3048 / 25.4,
    }
}

#[test]
fn the_plan_page_is_true_to_its_scale() {
    let mut measured = 0;
    for case in plans::all() {
        for paper in PAPERS {
            let Some(route) = set_outs(&case).into_iter().next() else {
                continue;
            };
            let page = pages(&case, paper).swap_remove(0);
            let metres = scale(&page.words(), case.plan.units);
            let squares = squares(&page);
            assert!(squares.len() >= route.pegs.len(), "{}", case.name);
            for (i, a) in route.pegs.iter().enumerate() {
                for (j, b) in route.pegs.iter().enumerate().skip(i + 1) {
                    let on_paper =
                        (squares[i][0] - squares[j][0]).hypot(squares[i][1] - squares[j][1]);
                    let expected = a.at.distance(b.at) / metres;
                    assert!(
                        (on_paper - expected).abs() < TRUE,
                        "{} peg {i} to {j}: {on_paper} for {expected}",
                        case.name
                    );
                    measured += 1;
                }
            }
            let long = match case.plan.units {
                Units::Metric => 100.0,
                Units::FeetInches => 101.6,
            };
            let bar = |drawn: &&Drawn| {
                let (low, high) = extent(drawn);
                (high[0] - low[0] - long).abs() < BAR && (high[1] - low[1] - 1.6).abs() < BAR
            };
            assert!(
                page.lines.iter().any(|drawn| bar(&drawn)),
                "{}: the bar",
                case.name
            );
        }
    }
    assert!(measured > 1000, "{measured}");
}

/// A row of the table of pegs, metres: along, off (left positive), tie from the start, from the end.
struct Row {
    name: String,
    /// Along the base line and square off it; none where something stands between.
    square: Option<[f64; 2]>,
    /// From its start and from its end.
    ties: [f64; 2],
}

/// What the words of the pages give: the length of the base line, and the rows.
fn table(pages: &[PageContent], ruler: &Ruler) -> (f64, Vec<Row>) {
    let mut length = None;
    let mut rows = Vec::new();
    let here = pages
        .iter()
        .filter(|page| page.words().starts_with("Pegs from the base line"));
    for page in here {
        // In a column too narrow for it the side stands on a line of its own.
        let words = page
            .words()
            .replace("\nleft", " left")
            .replace("\nright", " right");
        let flowing = words.replace('\n', " ");
        if let Some((_, after)) = flowing.split_once("(the end). It is ") {
            let says = after.split(" long and").next().unwrap();
            length = Some(ruler.parse(says.split(" (").next().unwrap()).unwrap());
        }
        // The second system, in brackets on a line of its own, is for another tape.
        let lines: Vec<&str> = words
            .lines()
            .filter(|line| !line.starts_with('('))
            .collect();
        for cells in lines.windows(5) {
            let name = cells[0];
            let named = name
                .strip_prefix("peg ")
                .or(name.strip_prefix('S'))
                .is_some_and(|rest| rest.parse::<u32>().is_ok());
            let square = [figure(cells[1], ruler), figure(cells[2], ruler)];
            let ties = [figure(cells[3], ruler), figure(cells[4], ruler)];
            let square = match square {
                [Some(along), Some(off)] => Some([along, off]),
                _ if cells[1] == "–" && cells[2] == "–" => None,
                _ => continue,
            };
            if let (true, [Some(from_start), Some(from_end)]) = (named, ties) {
                rows.push(Row {
                    name: name.to_owned(),
                    square,
                    ties: [from_start, from_end],
                });
            }
        }
    }
    (length.unwrap(), rows)
}

fn figure(cell: &str, ruler: &Ruler) -> Option<f64> {
    let (says, sign) = match cell.strip_suffix(" right") {
        Some(says) => (says, -1.0),
        None => (cell.strip_suffix(" left").unwrap_or(cell), 1.0),
    };
    // The swing point of a bend that is all but straight lies past what may be typed.
    let far = || {
        says.strip_suffix(" m")
            .and_then(|says| says.replace('−', "-").parse().ok())
    };
    ruler
        .parse(says)
        .ok()
        .or_else(far)
        .map(|metres| sign * metres)
}

/// A helper lays the base line anywhere and has only the words: along and off are each rounded to the
/// graduation, so a point lands within half of it in both, and the printed ties are the drawn ones
/// within half of it.
#[test]
fn pegs_can_be_rebuilt_from_the_base_line_by_the_words_alone() {
    let mut rebuilt = 0;
    for case in plans::all() {
        for paper in PAPERS {
            let Some(route) = set_outs(&case).into_iter().next() else {
                continue;
            };
            let ruler = case.plan.ruler();
            let half = 0.5 * ruler.graduation.metres() + 1e-9;
            let (length, rows) = table(&pages(&case, paper), &ruler);
            assert!(
                (length - route.base.from.distance(route.base.to)).abs() <= half,
                "{}",
                case.name
            );

            // The helper's ground: the base line along an axis of its own.
            let start = Point::new(7.0, -3.0);
            let way = Direction::at_angle(0.4).unwrap();
            let real = Direction::of(route.base.to - route.base.from).unwrap();
            assert_eq!(rows.len(), route.pegs.len(), "{}", case.name);
            for (row, point) in rows.iter().zip(&route.pegs) {
                assert_eq!(row.name, point.name);
                let [from_start, from_end] = row.ties;
                if let Some([along, off]) = row.square {
                    let placed = start + way.unit() * along + way.left().unit() * off;
                    let drawn = point.at - route.base.from;
                    let there = start
                        + way.unit() * real.unit().dot(drawn)
                        + way.left().unit() * real.unit().cross(drawn);
                    let missed = placed.distance(there);
                    assert!(
                        missed <= half * 2.0_f64.sqrt(),
                        "{} {}: {missed}",
                        case.name,
                        row.name
                    );
                }
                assert!(
                    (from_start - point.at.distance(route.base.from)).abs() <= half,
                    "{} {}",
                    case.name,
                    row.name
                );
                assert!(
                    (from_end - point.at.distance(route.base.to)).abs() <= half,
                    "{} {}",
                    case.name,
                    row.name
                );
                rebuilt += 1;
            }
        }
    }
    assert!(rebuilt > 200, "{rebuilt}");
}

#[test]
fn the_same_plan_gives_the_same_bytes_and_they_are_few() {
    // The budget of a page: 200 kB for eight of them.
    const MOST: usize = 25_000;
    for scheme in 0..3 {
        let plan = plans::example();
        let solved = plan.solve();
        for paper in Paper::ALL {
            let request = Request {
                scheme,
                paper,
                both_units: false,
                date: None,
            };
            let bytes = stakeout(&plan, &solved, &request).unwrap();
            let pages = read(&bytes).unwrap().len();
            assert!(bytes.len() < MOST * pages, "{} bytes", bytes.len());
            assert!(
                bytes == stakeout(&plan, &plan.solve(), &request).unwrap(),
                "not the same twice"
            );
            let words: String = read(&bytes)
                .unwrap()
                .iter()
                .map(PageContent::words)
                .collect();
            assert!(words.contains("not dated") && !words.contains("2000-01-01"));
            assert!(about(&bytes).unwrap().title.contains("Quince Yard"));
        }
    }
}

/// The work of the paths of a case that can be drawn.
fn works(case: &Case) -> Vec<RouteWork> {
    let solved = case.plan.solve();
    let paths = solved
        .schemes
        .get(case.scheme)
        .map_or(0, |scheme| scheme.routes.len());
    (0..paths)
        .filter_map(|path| work(&case.plan, &solved, (case.scheme, path)))
        .collect()
}

/// Whether a bend is swung, or is if the way taken fails.
fn is_swung(bend: &BendWork) -> bool {
    let ways = [Some(bend.way()), bend.second_way()];
    let mut ways = ways.into_iter().flatten();
    ways.any(|way| matches!(way.method, Method::Swing | Method::SwingSquaredOff))
}

/// Bends 2 and 3 have their swing points hundreds of metres off.
#[test]
fn a_swing_point_that_is_not_used_does_not_shrink_the_plan() {
    let case = plans::all()
        .into_iter()
        .find(|case| case.name == "example-c")
        .unwrap();
    let page = pages(&case, Paper::A4).swap_remove(0);
    let words = page.words().replace('\n', " ");
    assert!(words.contains("Scale 1:100"), "{words}");
    assert!(words.contains("S1 ") && !words.contains("S3"), "{words}");
}

#[test]
fn what_must_not_be_built_is_said_with_a_clear_sign() {
    let case = plans::all()
        .into_iter()
        .find(|case| case.name == "too-tight")
        .unwrap();
    let pages = pages(&case, Paper::A4);
    let stops = pages
        .iter()
        .filter(|page| page.words().contains("STOP\n"))
        .count();
    assert_eq!(stops, 2, "once before the start, once on its bend's page");
    let beyond = Request {
        scheme: 99,
        paper: Paper::A4,
        both_units: false,
        date: None,
    };
    let plan = plans::example();
    let words = read(&stakeout(&plan, &plan.solve(), &beyond).unwrap()).unwrap()[0].words();
    assert!(words.contains("no such option"), "{words}");
}

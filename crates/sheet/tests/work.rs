//! The sheet of a path's work: pegs rebuilt from its words, nothing cut, a page as good with the swing blocked.

#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot be set up fails by panicking"
)]

use geometry::{Direction, Point};
use plan::Plan;
use plan::document::{Extent, Obstacle, ObstacleKind};
use plan::setout::{Crew, Method, work};
use plan::units::{Graduation, Units};
use sheet::{Block, Frame, Ink, Page, Paper, Request, Sheet, compose};

/// Half the widest pen and what an eye lets pass, millimetres.
const SLACK: f64 = 0.4;

fn composed(plan: &Plan, paper: Paper) -> Sheet {
    let request = Request {
        scheme: 0,
        paper,
        both_units: false,
        date: None,
    };
    compose(plan, &plan.solve(), &request)
}

fn example() -> Plan {
    plan::example::plan().unwrap()
}

/// The example with a pond on the swing point of its first bend.
fn blocked() -> Plan {
    let mut plan = example();
    let solved = plan.solve();
    let centre = work(&plan, &solved, (0, 0)).unwrap().bends[0]
        .bend
        .arc
        .centre();
    let pond = Extent::Round {
        centre,
        radius: 0.4,
    };
    let pond = Obstacle::new("dipping pond", ObstacleKind::Pond, pond);
    plan.site_mut().obstacles.push(pond);
    plan
}

fn plans() -> Vec<Plan> {
    let mut feet = example();
    feet.units = Units::FeetInches;
    feet.graduation = Graduation::EighthInch;
    let mut alone = example();
    alone.set_out.crew = Crew::Alone;
    vec![example(), feet, alone, blocked()]
}

fn words<'a>(inks: impl IntoIterator<Item = &'a Ink>) -> String {
    let mut lines: Vec<&str> = Vec::new();
    for ink in inks {
        ink.each_text(&mut |text| lines.push(text.words.as_str()));
    }
    lines.join(" ")
}

fn said(sheet: &Sheet) -> String {
    let pages = sheet.pages.iter().map(|page| words(page.inks()));
    pages.collect::<Vec<_>>().join(" ")
}

#[test]
fn nothing_is_cut_and_no_words_lie_over_others() {
    for plan in plans() {
        for paper in Paper::ALL {
            for page in composed(&plan, paper).pages {
                let content = page.content();
                for ink in page.inks() {
                    let bounds = ink.bounds();
                    let holds = bounds.is_none_or(|bounds| content.holds(&bounds, SLACK));
                    assert!(holds, "{}: {ink:?}", page.title);
                }
                assert_words_apart(&page);
            }
        }
    }
}

fn assert_words_apart(page: &Page) {
    let is_plain = |block: &&Block| !matches!(block, Block::Figure { .. });
    let texts: Vec<(Frame, &Ink)> = page
        .blocks
        .iter()
        .filter(is_plain)
        .flat_map(Block::inks)
        .filter(|ink| matches!(ink, Ink::Text(_)))
        .filter_map(|ink| Some((ink.bounds()?, ink)))
        .collect();
    for (i, (frame, ink)) in texts.iter().enumerate() {
        for (other, over) in &texts[..i] {
            let shared = frame.shared(other);
            let apart = shared.is_none_or(|shared| shared.width.min(shared.height) < 0.02);
            assert!(apart, "{}: {ink:?} over {over:?}", page.title);
        }
    }
}

/// `3.130 m from west gate post 8.545 m from shed corner`, in metres.
fn two_tapes(cell: &str, names: &[(String, Point)], plan: &Plan) -> Option<[(Point, f64); 2]> {
    let (first, rest) = cell.split_once(" from ")?;
    names.iter().find_map(|(name, at)| {
        let onward = rest.strip_prefix(name.as_str())?.strip_prefix(' ')?;
        let (second, other) = onward.split_once(" from ")?;
        let (_, other_at) = names.iter().find(|(name, _)| name == other)?;
        let length = |says: &str| plan.ruler().parse(says.trim()).ok();
        Some([(*at, length(first)?), (*other_at, length(second)?)])
    })
}

/// Where two distances meet, on the told side of the line from the first to the second.
fn crossing([(one, first), (other, second)]: [(Point, f64); 2], left: bool) -> Point {
    let apart = one.distance(other);
    let way = Direction::of(other - one).unwrap();
    let along = (first * first - second * second + apart * apart) / (2.0 * apart);
    let off = (first * first - along * along).max(0.0).sqrt();
    let off = if left { off } else { -off };
    one + way.unit() * along + way.left().unit() * off
}

/// Each tie is within half a graduation; what that does to the peg follows from the crossing angle
/// alone: two bands of half width h that cross at g leave a diamond whose far corner lies
/// h·√(2 + 2·|cos g|) / sin g from its middle.
#[test]
fn pegs_are_rebuilt_from_their_ties_alone() {
    let mut rebuilt = 0;
    for plan in plans() {
        let solved = plan.solve();
        let work = work(&plan, &solved, (0, 0)).unwrap();
        let marks = plan.site.marks.iter();
        let marks = marks.map(|mark| (mark.name.clone(), mark.at));
        let pegs = work.pegs.iter();
        let pegs = pegs.map(|peg| (peg.peg.name.clone(), peg.peg.at));
        let names: Vec<(String, Point)> = marks.chain(pegs).collect();
        let half = 0.5 * plan.ruler().graduation.metres();
        let sheet = composed(&plan, Paper::A4);
        let blocks = sheet.pages.iter().flat_map(|page| &page.blocks);
        let rows = blocks.flat_map(|block| match block {
            Block::Table(rows) => &rows[..],
            _ => &[],
        });
        for row in rows {
            let cells = row.cells.iter().map(|cell| words(&cell.inks));
            let cells: Vec<String> = cells.collect();
            let peg = work.pegs.iter().find(|peg| peg.peg.name == cells[0]);
            let ties = cells.get(1);
            let ties = ties.and_then(|cell| two_tapes(cell, &names, &plan));
            let (Some(peg), Some(ties)) = (peg, ties) else {
                continue;
            };
            let at = crossing(ties, cells[2].starts_with("left"));
            let [one, other] = ties.map(|(from, _)| Direction::of(peg.peg.at - from).unwrap());
            let (sine, cosine) = one.turn_to(other).sin_cos();
            let most = half * (2.0 + 2.0 * cosine.abs()).sqrt() / sine.abs();
            let out = at.distance(peg.peg.at);
            // The diamond's sides are arcs: a per cent more.
            assert!(
                out <= 1.01 * most + 1e-6,
                "{}: {out} of {most}",
                peg.peg.name
            );
            rebuilt += 1;
        }
    }
    assert!(rebuilt >= 20, "{rebuilt}");
}

#[test]
fn every_figure_of_the_ways_taken_is_said() {
    for plan in plans() {
        let solved = plan.solve();
        let work = work(&plan, &solved, (0, 0)).unwrap();
        let said = said(&composed(&plan, Paper::A4));
        let chosen = work.bends.iter().map(plan::setout::BendWork::way);
        let second = work.bends.iter().filter_map(|bend| bend.second_way());
        let bends = chosen
            .chain(second)
            .filter_map(|way| way.course.as_ref().ok());
        let straights = work.straights.iter().map(|straight| &straight.course);
        for course in bends.chain(straights).chain([&work.pegging]) {
            for deed in &course.deeds {
                let name = deed.makes.map(|spot| course.spots.name(spot));
                assert!(name.is_none_or(|name| said.contains(&name)));
                for figure in deed.figures() {
                    let says = plan.ruler().text(figure.exact.abs());
                    assert!(said.contains(&says), "{says} of {deed:?}");
                }
                for check in &deed.checks {
                    for read in [check.least, check.most] {
                        let says = plan.ruler().text(read);
                        assert!(said.contains(&says), "{says} of {check:?}");
                    }
                }
            }
        }
    }
}

#[test]
fn with_the_swing_blocked_another_way_takes_its_page() {
    let plan = blocked();
    let work = work(&plan, &plan.solve(), (0, 0)).unwrap();
    let way = work.bends[0].way();
    let is_swung = matches!(way.method, Method::Swing | Method::SwingSquaredOff);
    assert!(way.is_possible() && !is_swung);
    let sheet = composed(&plan, Paper::A4);
    let here = sheet
        .pages
        .iter()
        .filter(|page| page.title.starts_with("Bend 1"));
    let said: Vec<String> = here.map(|page| words(page.inks())).collect();
    let said = said.join(" ");
    assert!(said.contains("dipping pond"), "why it is not swung");
    assert!(!said.contains("Radius, outside edge"), "no string to swing");
}

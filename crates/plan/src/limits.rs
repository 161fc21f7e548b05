//! The limits of a plan, in one place; past them a sentence, and nothing is lost.

use std::collections::HashSet;
use std::fmt;
use std::sync::Arc;

use geometry::Point;

use crate::count;
use crate::document::{
    Extent, Heading, Obstacle, ObstacleKind, PadShape, Plan, Reference, Route, Scheme,
    SetOutSettings, Shape, Site, Spacing,
};
use crate::edging::Edging;
use crate::feel::Walk;
use crate::price;
use crate::rules::RuleSet;

/// The largest plan file that is read, in bytes: 16 MiB.
pub const FILE_BYTES: usize = 16 * 1024 * 1024;
/// The most legs of one path.
pub const LEGS: usize = 10_000;
/// The most marks: the longest line between any two of them is looked for.
pub const MARKS: usize = 1_000;
/// The most corners of all obstacles together.
pub const OBSTACLE_VERTICES: usize = 100_000;
/// Coordinates lie within this of the origin, in metres: 100 km.
pub const COORDINATE: f64 = 100_000.0;
/// The shortest length, in metres: 0.1 mm.
pub const SHORTEST: f64 = 0.0001;
/// The longest length, in metres: 100 km.
pub const LONGEST: f64 = 100_000.0;
/// The narrowest path, in metres: 50 mm.
pub const NARROWEST: f64 = 0.05;
/// The widest path, in metres: 50 m.
pub const WIDEST: f64 = 50.0;
/// The largest clearance, thickness and root zone of an obstacle, in metres.
pub const WIDE: f64 = 100.0;
/// The most landings and passing places of one path.
pub const PADS: usize = 1_000;
/// The most vehicles.
pub const VEHICLES: usize = 20;
/// The longest wheelbase, drawbar, hitch or overhang of a vehicle, in metres.
pub const LONGEST_VEHICLE: f64 = 20.0;
/// The shortest wheelbase or drawbar, in metres: 50 mm.
pub const SHORTEST_BAR: f64 = 0.05;
/// The most a hook, a ring or a peg takes off a reading, in metres.
pub const THICK: f64 = 0.2;
/// The longest string that may be set to be swung, in metres.
pub const SWUNG: f64 = 100.0;
/// The longest name or title, in characters.
pub const NAME: usize = 200;
/// The longest note, in characters.
pub const NOTE: usize = 20_000;

/// A plan past a limit: where, and what to do.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitError {
    /// Where in the plan, such as `option A, path 1, waypoint 3`.
    pub place: String,
    /// What is wrong there and what is allowed.
    pub sentence: String,
}

impl fmt::Display for LimitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.sentence)
    }
}

impl std::error::Error for LimitError {}

/// Checks a whole plan.
///
/// # Errors
/// The first place that is past a limit, or where numbers and lists do not fit together.
pub fn check(plan: &Plan) -> Result<(), LimitError> {
    check_site(&plan.site)?;
    price::check(&plan.prices)?;
    check_but_shared(plan)
}

/// Checks a plan that came from one within the limits: a site and prices they share need no second look.
///
/// # Errors
/// As [`check`].
pub(crate) fn check_changed(plan: &Plan, before: &Plan) -> Result<(), LimitError> {
    if !Arc::ptr_eq(&plan.site, &before.site) {
        check_site(&plan.site)?;
    }
    if !Arc::ptr_eq(&plan.prices, &before.prices) {
        price::check(&plan.prices)?;
    }
    check_but_shared(plan)
}

fn check_but_shared(plan: &Plan) -> Result<(), LimitError> {
    name("the plan's title", &plan.title)?;
    name("the plan's client", &plan.client)?;
    name("the plan's place", &plan.place)?;
    note("the plan's notes", &plan.notes)?;
    range("the tape", "its length", plan.tape.length, 0.5, 1_000.0)?;
    range("north", "its angle in radians", plan.north, -7.0, 7.0)?;
    check_rules(&plan.rules)?;
    check_walk(&plan.walk)?;
    check_set_out(&plan.set_out)?;
    plan.count.check()?;
    for (i, scheme) in plan.schemes.iter().enumerate() {
        let place = format!("option {}", crate::document::letter(i));
        check_scheme(&place, scheme, plan)?;
    }
    Ok(())
}

fn check_site(site: &Site) -> Result<(), LimitError> {
    if site.marks.len() > MARKS {
        return fail(
            "the site",
            format!("it has {} marks, more than {MARKS}", site.marks.len()),
        );
    }
    let mut names = HashSet::new();
    for (i, mark) in site.marks.iter().enumerate() {
        let place = format!("mark {}", i + 1);
        name(&place, &mark.name)?;
        point(&place, mark.at)?;
        if !names.insert(&mark.name) {
            return fail(
                &place,
                format!(
                    "two marks are called “{}”: give each its own name",
                    mark.name
                ),
            );
        }
    }
    let mut vertices = 0;
    for (i, obstacle) in site.obstacles.iter().enumerate() {
        let place = format!("obstacle {} “{}”", i + 1, obstacle.name);
        name(&place, &obstacle.name)?;
        check_obstacle(&place, obstacle)?;
        vertices += obstacle.extent.count();
    }
    if vertices > OBSTACLE_VERTICES {
        return fail(
            "the site",
            format!("its obstacles have {vertices} corners, more than {OBSTACLE_VERTICES}"),
        );
    }
    Ok(())
}

fn check_obstacle(place: &str, obstacle: &Obstacle) -> Result<(), LimitError> {
    match &obstacle.extent {
        Extent::Round { centre, radius } => {
            point(place, *centre)?;
            length(place, "its radius", *radius)?;
        }
        Extent::Line(_) | Extent::Area(_) | Extent::Curved(_) => {
            if obstacle.extent.count() < 2 {
                return fail(place, "it needs at least two corners".into());
            }
            for corner in obstacle.extent.corners() {
                point(place, corner)?;
            }
        }
    }
    if let Extent::Curved(corners) = &obstacle.extent {
        for corner in corners {
            let what = "the rise of a side in metres";
            range(place, what, corner.rise, -LONGEST, LONGEST)?;
        }
    }
    let gate_posts = matches!(&obstacle.extent, Extent::Line(posts) if posts.len() == 2);
    if obstacle.kind == ObstacleKind::Gate && !gate_posts {
        let sentence = "a gate is a line of two corners: its hinge post and its latch post";
        return fail(place, sentence.into());
    }
    for (what, value, least) in [
        ("the clearance it wants", obstacle.clearance, 0.0),
        ("its thickness", obstacle.thickness, SHORTEST),
        ("how unsure its place is", obstacle.unsure, 0.0),
        ("its root zone", obstacle.root_zone, 0.0),
    ] {
        if let Some(value) = value {
            range(place, &format!("{what} in metres"), value, least, WIDE)?;
        }
    }
    if let Some(swing) = obstacle.swing {
        range(place, "how far it opens in radians", swing.angle, 0.0, 6.3)?;
    }
    Ok(())
}

fn check_scheme(place: &str, scheme: &Scheme, plan: &Plan) -> Result<(), LimitError> {
    name(place, &scheme.name)?;
    note(place, &scheme.notes)?;
    if let Some(Edging::Other { least_radius }) = scheme.edging {
        length(place, "the least radius of its edging", least_radius)?;
    }
    if let Some(build_up) = &scheme.build_up {
        count::check(&format!("{place}, build-up"), build_up)?;
    }
    for (i, route) in scheme.routes.iter().enumerate() {
        let place = format!("{place}, path {}", i + 1);
        check_route(&place, route, plan)?;
        if let Some(junction) = &route.start_on {
            if !(1..=i).contains(&junction.route) {
                return fail(
                    &place,
                    format!(
                        "it cannot start from the edge of path {}: only from one before it",
                        junction.route
                    ),
                );
            }
            range(
                &place,
                "the station it starts from in metres",
                junction.station,
                0.0,
                LONGEST,
            )?;
        }
    }
    Ok(())
}

fn check_rules(rules: &[RuleSet]) -> Result<(), LimitError> {
    let mut seen = HashSet::new();
    match rules.iter().find(|set| !seen.insert(**set)) {
        Some(twice) => fail(
            "the plan's rules",
            format!("{} stands there twice: leave one of them", twice.title()),
        ),
        None => Ok(()),
    }
}

fn check_walk(walk: &Walk) -> Result<(), LimitError> {
    range("walking", "a pace in metres", walk.pace, 0.1, 3.0)?;
    if walk.vehicles.len() > VEHICLES {
        return fail(
            "walking",
            format!(
                "there are {} vehicles, more than {VEHICLES}",
                walk.vehicles.len()
            ),
        );
    }
    for (i, vehicle) in walk.vehicles.iter().enumerate() {
        let place = format!("vehicle {} “{}”", i + 1, vehicle.name);
        name(&place, &vehicle.name)?;
        let wide = |what, width| range(&place, what, width, NARROWEST, WIDEST);
        let reach = |what, length| range(&place, what, length, 0.0, LONGEST_VEHICLE);
        let bar = |what, length| range(&place, what, length, SHORTEST_BAR, LONGEST_VEHICLE);
        wide("its width in metres", vehicle.width)?;
        if vehicle.wheelbase != 0.0 {
            bar(
                "its wheelbase in metres, unless it is 0,",
                vehicle.wheelbase,
            )?;
        }
        reach("its reach ahead in metres", vehicle.front)?;
        reach("its reach behind in metres", vehicle.back)?;
        if let Some(trailer) = &vehicle.trailer {
            wide("the width of its trailer in metres", trailer.width)?;
            reach("its hitch behind the axle in metres", trailer.hitch)?;
            bar("its drawbar in metres", trailer.drawbar)?;
            reach("the reach ahead of its trailer in metres", trailer.front)?;
            reach("the reach behind of its trailer in metres", trailer.back)?;
        }
    }
    Ok(())
}

fn check_set_out(settings: &SetOutSettings) -> Result<(), LimitError> {
    let check = |what, value, low, high| range("setting out", what, value, low, high);
    let allowances = &settings.allowances;
    check(
        "what a hook takes in metres",
        allowances.hook,
        -THICK,
        THICK,
    )?;
    check(
        "what a ring takes in metres",
        allowances.ring,
        -THICK,
        THICK,
    )?;
    check("how thick pegs are in metres", allowances.peg, 0.0, THICK)?;
    let (comfortable, longest) = (settings.comfortable, settings.longest_swing);
    check("the comfortable swing in metres", comfortable, 0.5, SWUNG)?;
    check("the longest swing in metres", longest, 0.5, SWUNG)?;
    if longest < comfortable {
        return fail(
            "setting out",
            format!(
                "the longest swing, {longest} m, is shorter than the comfortable one, {comfortable} m"
            ),
        );
    }
    check(
        "how far off the edge offset pegs stand in metres",
        settings.offset_pegs,
        0.1,
        10.0,
    )?;
    match settings.spacing {
        Spacing::Usual => Ok(()),
        Spacing::Every(apart) => check("the way between flags in metres", apart, NARROWEST, WIDE),
        Spacing::Bow(bow) => check("the bow between flags in metres", bow, SHORTEST, 1.0),
    }
}

fn check_methods(place: &str, route: &Route) -> Result<(), LimitError> {
    let mut seen = HashSet::new();
    for (i, choice) in route.methods.iter().enumerate() {
        let place = format!("{place}, method {}", i + 1);
        if !route.is_bend(choice.of) {
            let sentence = "it is chosen for what is no bend of this path: take it out";
            return fail(&place, sentence.into());
        }
        if !choice.method.is_of_a_bend() {
            let sentence = "it sets out no bends: choose another, or take it out";
            return fail(&place, sentence.into());
        }
        if !seen.insert(choice.of) {
            return fail(
                &place,
                "this bend has one already: leave one of them".into(),
            );
        }
    }
    Ok(())
}

fn check_route(place: &str, route: &Route, plan: &Plan) -> Result<(), LimitError> {
    name(place, &route.name)?;
    range(place, "its width in metres", route.width, NARROWEST, WIDEST)?;
    if route.legs.len() > LEGS {
        return fail(
            place,
            format!("it has {} legs, more than {LEGS}", route.legs.len()),
        );
    }
    let (waypoints, legs) = (route.waypoints.len(), route.legs.len());
    let expected = if route.closed {
        waypoints
    } else {
        waypoints.saturating_sub(1)
    };
    if legs != expected {
        let kind = if route.closed { "a closed" } else { "an open" };
        return fail(
            place,
            format!("{kind} path of {waypoints} waypoints has {expected} legs, here are {legs}"),
        );
    }
    for (i, waypoint) in route.waypoints.iter().enumerate() {
        let place = format!("{place}, waypoint {}", i + 1);
        point(&place, waypoint.at)?;
        if let Some(radius) = waypoint.rounding {
            length(&place, "its rounding", radius)?;
        }
    }
    for (i, leg) in route.legs.iter().enumerate() {
        if let Shape::Bend { rise, holds } = leg {
            let place = format!("{place}, leg {}", i + 1);
            range(&place, "its rise in metres", *rise, -LONGEST, LONGEST)?;
            if holds.len() > 2 {
                return fail(&place, "a bend holds at most two figures".into());
            }
            if holds.len() == 2 && holds[0] == holds[1] {
                return fail(&place, "a bend holds two different figures".into());
            }
        }
    }
    check_methods(place, route)?;
    if route.pads.len() > PADS {
        return fail(
            place,
            format!("it has {} landings, more than {PADS}", route.pads.len()),
        );
    }
    for (i, pad) in route.pads.iter().enumerate() {
        let place = format!("{place}, landing {}", i + 1);
        name(&place, &pad.name)?;
        range(&place, "its station in metres", pad.station, 0.0, LONGEST)?;
        match pad.shape {
            PadShape::Rectangle { along, across } => {
                range(&place, "its length in metres", along, NARROWEST, WIDEST)?;
                range(&place, "its width in metres", across, NARROWEST, WIDEST)?;
            }
            PadShape::Circle { diameter } => {
                range(
                    &place,
                    "its diameter in metres",
                    diameter,
                    NARROWEST,
                    WIDEST,
                )?;
            }
        }
    }
    for (which, heading) in [
        ("start", &route.start_direction),
        ("end", &route.end_direction),
    ] {
        if let Some(heading) = heading {
            check_heading(&format!("{place}, {which} direction"), heading, &plan.site)?;
        }
    }
    Ok(())
}

fn check_heading(place: &str, heading: &Heading, site: &Site) -> Result<(), LimitError> {
    let reference = match heading {
        Heading::Angle(angle) => return range(place, "its angle in radians", *angle, -7.0, 7.0),
        Heading::Along(reference)
        | Heading::Against(reference)
        | Heading::Square(reference)
        | Heading::SquareRight(reference) => reference,
    };
    if reference.direction(site).is_some() {
        return Ok(());
    }
    fail(
        place,
        match reference {
            Reference::Marks(from, to) => {
                format!("there are no two marks “{from}” and “{to}” apart from each other")
            }
            Reference::Wall { name, side } => {
                format!("no obstacle “{name}” with straight sides has a side {side}")
            }
        },
    )
}

/// Refuses what is past a limit.
pub(crate) fn fail(place: &str, sentence: String) -> Result<(), LimitError> {
    Err(LimitError {
        place: place.to_owned(),
        sentence,
    })
}

/// Checks a name: one line, not too long.
pub(crate) fn name(place: &str, text: &str) -> Result<(), LimitError> {
    let count = text.chars().count();
    if count > NAME {
        return fail(
            place,
            format!("a name has at most {NAME} characters, this one has {count}"),
        );
    }
    if text.chars().any(char::is_control) {
        return fail(
            place,
            "a name is one line of text without control characters".into(),
        );
    }
    Ok(())
}

pub(crate) fn note(place: &str, text: &str) -> Result<(), LimitError> {
    let count = text.chars().count();
    if count > NOTE {
        return fail(
            place,
            format!("notes have at most {NOTE} characters, these have {count}"),
        );
    }
    Ok(())
}

fn point(place: &str, at: Point) -> Result<(), LimitError> {
    range(
        place,
        "its first coordinate in metres",
        at.x,
        -COORDINATE,
        COORDINATE,
    )?;
    range(
        place,
        "its second coordinate in metres",
        at.y,
        -COORDINATE,
        COORDINATE,
    )
}

/// Checks a length in metres; `what` says which, such as `its radius`.
pub(crate) fn length(place: &str, what: &str, value: f64) -> Result<(), LimitError> {
    range(
        place,
        &format!("{what} in metres"),
        value,
        SHORTEST,
        LONGEST,
    )
}

pub(crate) fn range(
    place: &str,
    what: &str,
    value: f64,
    low: f64,
    high: f64,
) -> Result<(), LimitError> {
    if low <= value && value <= high {
        return Ok(());
    }
    fail(
        place,
        format!("{what} must lie between {low} and {high}, it is {value}"),
    )
}

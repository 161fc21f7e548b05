//! Rules: each value with a path just inside it and one just outside, and what is stored of them.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(
    clippy::float_cmp,
    reason = "limits are the very numbers of the tables"
)]

mod common;

use std::f64::consts::PI;

use common::{plan_of, route};
use plan::Plan;
use plan::document::{Junction, Pad, PadShape, Route, Shape, Side};
use plan::edging::Edging;
use plan::edit::Edit;
use plan::finding::{Code, Finding, Part, Severity};
use plan::rules::{JUDGED_BY_OTHERS, RuleSet, Seen, judge};
use plan::units::{Graduation, Units};

const DEGREE: f64 = PI / 180.0;

fn judged(set: RuleSet, path: Route) -> Vec<Finding> {
    let mut plan = plan_of(path);
    plan.rules = vec![set];
    found(&plan)
}

/// What the rules find, whatever else is found.
fn found(plan: &Plan) -> Vec<Finding> {
    let solved = plan.solve();
    let findings = judge(plan, 0, &solved.schemes[0].routes);
    for finding in &findings {
        assert!(solved.findings.contains(finding), "{finding:?}");
        assert_ne!(finding.severity, Severity::Stop);
        assert!(
            !finding.sentence.contains("complian"),
            "{}",
            finding.sentence
        );
    }
    findings
}

#[track_caller]
fn is_outside(set: RuleSet, path: Route, code: Code, [value, limit]: [f64; 2]) -> Finding {
    let findings = judged(set, path);
    let of: Vec<&Finding> = findings.iter().filter(|f| f.code == code).collect();
    let [finding] = of[..] else {
        panic!("{findings:?}")
    };
    assert!((finding.value.unwrap() - value).abs() < 1e-9, "{finding:?}");
    assert!(
        (finding.limit.unwrap() - limit).abs() < 1e-12,
        "{finding:?}"
    );
    finding.clone()
}

#[track_caller]
fn is_within(set: RuleSet, path: Route, code: Code) {
    let findings = judged(set, path);
    assert!(findings.iter().all(|f| f.code != code), "{findings:?}");
}

fn wide(width: f64, length: f64) -> Route {
    Route {
        width,
        ..route(&[(0., 0.), (length, 0.)], vec![Shape::Straight])
    }
}

const INCH: f64 = 0.0254;

/// Widths, each just inside and just outside its clause. Sources: as in the tables, that is
/// ADA 36 in (bluedag.com, ADA 101 walking surfaces); A117.1 48 in (zbook.org, draft of chapter 4); ABA
/// 1017.3 36 in (bjspark.com, summary for outdoor developed areas); Approved Document M 900 mm
/// (housebuild.co.uk, category 1, paragraph 1.6); Inclusive Mobility 1.5 and 2.0 m (zenbike.co.uk);
/// Technical Guidance Document M 1.5 m (tgd.ie 1.1.3.2); DIN 18040 1.2 m (din18040.de) and 0.9 m
/// (nullbarriere.de, DIN 18040-3); AS 1428.1 1.0 m (construction.multiplexhandbooks.global); Fieldfare
/// 1.0 m (trellisscotland.org.uk); Sensory Trust 0.9 and 1.8 m (sensorytrust.org.uk); 2 ft for the
/// narrowest garden path (web.extension.illinois.edu, S. Mason), rounded to 0.6 m; 0.9 m for a barrow
/// between hard edges and the 36 in of ABA 1016: common practice, no source, and from memory.
#[test]
fn widths() {
    use RuleSet as S;
    use Severity::{Care, Note};
    let table = [
        (S::Everyday, 0.6, Care),
        (S::Everyday, 0.9, Note),
        (S::Ada2010, 36.0 * INCH, Care),
        (S::IccA117, 48.0 * INCH, Care),
        (S::AbaTrails, 36.0 * INCH, Care),
        (S::AbaAccessRoutes, 36.0 * INCH, Care),
        (S::ApprovedDocumentM, 0.9, Care),
        (S::InclusiveMobility, 1.5, Care),
        (S::InclusiveMobility, 2.0, Note),
        (S::TechnicalGuidanceM, 1.5, Care),
        (S::Din18040Walks, 1.2, Care),
        (S::Din18040Public, 0.9, Care),
        (S::As1428, 1.0, Care),
        (S::Fieldfare, 1.0, Care),
        (S::SensoryTrust, 0.9, Care),
        (S::SensoryTrust, 1.8, Note),
    ];
    for (set, least, severity) in table {
        let finding = is_outside(
            set,
            wide(least - 1e-6, 3.0),
            Code::ClearWidth,
            [least - 1e-6, least],
        );
        assert_eq!(finding.severity, severity, "{set:?}");
        assert_eq!(finding.place.part, Part::Whole);
        let inside = judged(set, wide(least, 3.0));
        let harder = inside.iter().filter(|f| f.limit == Some(least));
        assert_eq!(harder.count(), 0, "{set:?}: {inside:?}");
    }
}

#[test]
fn a_walk_that_changes_direction_is_wider() {
    // Source: din18040.de, gehwege: 150 cm with change of direction, 120 cm without.
    let bent = |width: f64| Route {
        width,
        ..route(
            &[(0., 0.), (4., 0.), (8., 3.)],
            vec![Shape::Straight, Shape::Onward],
        )
    };
    let set = RuleSet::Din18040Walks;
    let finding = is_outside(set, bent(1.499), Code::ClearWidth, [1.499, 1.5]);
    assert_eq!(finding.place.part, Part::Leg(1));
    is_within(set, bent(1.5), Code::ClearWidth);
    is_within(set, wide(1.3, 3.0), Code::ClearWidth);
}

/// A quarter bend of this radius between straights of 10 m, on a path this wide.
fn quarter(radius: f64, width: f64) -> Route {
    let points = [
        (0., 0.),
        (10., 0.),
        (10. + radius, radius),
        (10. + radius, radius + 10.),
    ];
    let legs = vec![Shape::Straight, Shape::Onward, Shape::Straight];
    Route {
        width,
        ..route(&points, legs)
    }
}

#[test]
fn curved_walkways_are_wider() {
    // Source: AS 1428.1:2021, 7.4(f), quoted by inclusifyaccess.com.au: curved when the inside radius is 5 m
    // or less, and then 1.5 m wide.
    let set = RuleSet::As1428;
    let finding = is_outside(set, quarter(5.6, 1.2), Code::WidthOnBend, [1.2, 1.5]);
    assert_eq!(finding.place.part, Part::Leg(1));
    assert_eq!(
        finding.sentence,
        "the path is 1.200 m wide on a bend with an inside radius of 5.000 m or less, outside the value of AS 1428.1 (Australia), 2021, 7.4(f) (at least 1.500 m): make the path wider or the bend flatter; local rules and a qualified person decide"
    );
    is_within(set, quarter(5.601, 1.2), Code::WidthOnBend);
    is_within(set, quarter(5.0, 1.5), Code::WidthOnBend);
}

#[test]
fn inside_radii() {
    // Common practice, no source: a corner is eased by 0.5 m, a barrow wants 1.0 m.
    let set = RuleSet::Everyday;
    let finding = is_outside(set, quarter(1.09, 1.2), Code::InsideRadius, [0.49, 0.5]);
    assert_eq!(finding.severity, Severity::Care);
    let finding = is_outside(set, quarter(1.1, 1.2), Code::InsideRadius, [0.5, 1.0]);
    assert_eq!(finding.severity, Severity::Note);
    assert_eq!(
        finding.sentence,
        "the inside edge has a radius of 0.500 m: usual is at least 1.000 m for a wheelbarrow at walking pace; make the bend flatter or the path narrower"
    );
    is_within(set, quarter(1.6, 1.2), Code::InsideRadius);
    // Without an inside edge it is a stop of its own, and no more is said.
    is_within(set, quarter(0.5, 1.2), Code::InsideRadius);
}

fn pad(station: f64, shape: PadShape) -> Pad {
    Pad {
        name: "pad".into(),
        station,
        shape,
    }
}

const fn square(side: f64) -> PadShape {
    PadShape::Rectangle {
        along: side,
        across: side,
    }
}

/// Sources: ADA 403.5.3, 60 in every 200 ft below 60 in (enriched.ie, accessibility.com); ABA 1017.4,
/// every 1000 ft (bjspark.com); Technical Guidance Document M, 2.0 by 1.8 m at most 25 m apart below 1.8 m
/// (tgd.ie 3.1.2.4); DIN 18040, 1.8 m square after 15 m (din18040.de); Fieldfare, 1.5 by 2.0 m every
/// 150 m (trellisscotland.org.uk); ABA 1016, every 200 ft, from memory.
#[test]
fn passing_places() {
    let foot = 0.3048;
    let side = 60.0 * INCH;
    let oblong = PadShape::Rectangle {
        along: 1.8,
        across: 2.0,
    };
    for (set, spacing, shape, wide_enough) in [
        (RuleSet::Ada2010, 200.0 * foot, square(side), side),
        (RuleSet::AbaTrails, 1000.0 * foot, square(side), side),
        (RuleSet::AbaAccessRoutes, 200.0 * foot, square(side), side),
        (RuleSet::TechnicalGuidanceM, 25.0, oblong, 1.8),
        (RuleSet::Din18040Walks, 15.0, square(1.8), 1.8),
        (
            RuleSet::Fieldfare,
            150.0,
            PadShape::Rectangle {
                along: 2.0,
                across: 1.5,
            },
            2.0,
        ),
    ] {
        let path = |width, length, pads: Vec<Pad>| Route {
            pads,
            ..wide(width, length)
        };
        is_within(set, path(1.5, spacing, vec![]), Code::PassingPlace);
        let long = spacing + 0.01;
        is_outside(
            set,
            path(1.5, long, vec![]),
            Code::PassingPlace,
            [long, spacing],
        );
        is_within(set, path(wide_enough, long, vec![]), Code::PassingPlace);
        is_within(
            set,
            path(1.5, long, vec![pad(5.0, shape)]),
            Code::PassingPlace,
        );
        // Too small a landing is no place to pass, and one not half way leaves a gap.
        is_outside(
            set,
            path(1.5, long, vec![pad(5.0, square(1.499))]),
            Code::PassingPlace,
            [long, spacing],
        );
        let finding = is_outside(
            set,
            path(1.5, spacing + 3.0, vec![pad(2.0, shape)]),
            Code::PassingPlace,
            [spacing + 1.0, spacing],
        );
        assert!((finding.place.at.x - (2.0 + 0.5 * (spacing + 1.0))).abs() < 1e-9);
    }
    // A round landing holds the square whose corners it touches.
    let round = |diameter: f64| Route {
        pads: vec![pad(5.0, PadShape::Circle { diameter })],
        ..wide(1.5, 16.0)
    };
    is_within(
        RuleSet::Din18040Walks,
        round(1.8 * 2.0_f64.sqrt()),
        Code::PassingPlace,
    );
    is_outside(
        RuleSet::Din18040Walks,
        round(2.5),
        Code::PassingPlace,
        [16.0, 15.0],
    );
}

#[test]
fn a_round_has_no_end_to_pass_at() {
    let points = [(0., 0.), (10., 0.), (10., 10.), (0., 10.)];
    let mut ring = route(&points, vec![Shape::Straight; 4]);
    is_outside(
        RuleSet::Din18040Walks,
        ring.clone(),
        Code::PassingPlace,
        [40.0, 15.0],
    );
    ring.pads = vec![
        pad(38.0, square(1.8)),
        pad(8.0, square(1.8)),
        pad(22.0, square(1.8)),
    ];
    is_outside(
        RuleSet::Din18040Walks,
        ring,
        Code::PassingPlace,
        [16.0, 15.0],
    );
}

#[test]
fn turning_spaces() {
    // Sources: ADA 304.3, 60 in (ada.gov, fig. 3); DIN 18040-3, 1.5 m (nullbarriere.de).
    for (set, least) in [
        (RuleSet::Ada2010, 60.0 * INCH),
        (RuleSet::Din18040Public, 1.5),
    ] {
        let with = |shape| Route {
            pads: vec![pad(1.0, shape)],
            ..wide(1.2, 4.0)
        };
        is_outside(set, wide(1.2, 4.0), Code::TurningSpace, [1.2, least]);
        is_outside(
            set,
            with(square(least - 0.01)),
            Code::TurningSpace,
            [least - 0.01, least],
        );
        is_within(set, with(square(least)), Code::TurningSpace);
        is_within(
            set,
            with(PadShape::Circle { diameter: least }),
            Code::TurningSpace,
        );
        is_within(set, wide(least, 4.0), Code::TurningSpace);
    }
}

/// Two bends, each 60° on a radius, with a straight of this length between them.
fn two(length: f64, radii: [f64; 2], alike: bool) -> Route {
    let (mut x, mut y, mut way) = (0.0_f64, 0.0_f64, 0.0_f64);
    let mut points = vec![(0., 0.)];
    let mut legs = Vec::new();
    let turn = 60.0 * DEGREE;
    for (i, radius) in radii.into_iter().enumerate() {
        if i == 1 && length > 0.0 {
            x += length * way.cos();
            y += length * way.sin();
            points.push((x, y));
            legs.push(Shape::Straight);
        }
        let turn = if i == 1 && !alike { -turn } else { turn };
        let chord = 2.0 * radius * (0.5 * turn.abs()).sin();
        x += chord * (way + 0.5 * turn).cos();
        y += chord * (way + 0.5 * turn).sin();
        way += turn;
        points.push((x, y));
        legs.push(Shape::bend(
            (radius * (1.0 - (0.5 * turn).cos())).copysign(-turn),
        ));
    }
    route(&points, legs)
}

#[test]
fn straights_between_bends() {
    // Common practice, no source: none or a path's width between opposite bends. Broken-back curves are
    // avoided by TxDOT, Roadway Design Manual, 4.7.1; three widths are common practice, no source.
    let set = RuleSet::Everyday;
    let finding = is_outside(
        set,
        two(1.19, [5., 5.], false),
        Code::ShortStraight,
        [1.19, 1.2],
    );
    assert_eq!(finding.place.part, Part::Leg(1));
    is_within(set, two(1.2, [5., 5.], false), Code::ShortStraight);
    is_within(set, two(0.0, [5., 5.], false), Code::ShortStraight);
    is_outside(
        set,
        two(3.59, [5., 5.], true),
        Code::BrokenBack,
        [3.59, 3.6],
    );
    is_within(set, two(3.6, [5., 5.], true), Code::BrokenBack);
    is_within(set, two(0.0, [5., 5.], true), Code::BrokenBack);
    is_within(set, two(1.19, [5., 5.], false), Code::BrokenBack);
}

#[test]
fn unequal_bends() {
    // Source: TxDOT, Roadway Design Manual, 4.7.1: compound curves no more than 1.5 to 1.
    let set = RuleSet::Everyday;
    for radii in [[7.6, 5.0], [5.0, 7.6]] {
        is_outside(set, two(0.0, radii, true), Code::UnequalBends, [1.52, 1.5]);
    }
    is_within(set, two(0.0, [7.5, 5.0], true), Code::UnequalBends);
    is_within(set, two(0.0, [20.0, 5.0], false), Code::UnequalBends);
    is_within(set, two(4.0, [20.0, 5.0], true), Code::UnequalBends);
}

#[test]
fn kinks() {
    // Common practice, no source: 2° is seen, 15° is a corner.
    let bent = |degrees: f64| {
        let (sine, cosine) = (degrees * DEGREE).sin_cos();
        route(
            &[(0., 0.), (5., 0.), (5. + 5. * cosine, 5. * sine)],
            vec![Shape::Straight; 2],
        )
    };
    let set = RuleSet::Everyday;
    let finding = is_outside(set, bent(2.01), Code::Kink, [2.01 * DEGREE, 2.0 * DEGREE]);
    assert_eq!(finding.place.part, Part::Waypoint(1));
    assert_eq!(
        finding.sentence,
        "the path kinks by 2.01°: usual is at most 2.00°; round it, or let the next bend lead on smoothly"
    );
    is_outside(set, bent(-14.9), Code::Kink, [14.9 * DEGREE, 2.0 * DEGREE]);
    for degrees in [0.0, 1.99, -1.99, 15.1, -90.0] {
        is_within(set, bent(degrees), Code::Kink);
    }
    let mut rounded = bent(10.0);
    rounded.waypoints[1].rounding = Some(6.0);
    is_within(set, rounded, Code::Kink);
}

#[test]
fn paths_that_meet_in_a_sharp_point() {
    // Source: H. Repton, Observations, 1803, chapter VI, for meeting square; 30° is common practice, no source.
    let meeting = |degrees: f64, onto: Side| {
        let (sine, cosine) = (degrees * DEGREE).sin_cos();
        let mut plan = plan_of(wide(1.2, 10.0));
        plan.rules = vec![RuleSet::Everyday];
        let y = if onto == Side::Left { 0.6 } else { -0.6 };
        plan.schemes[0].routes.push(Route {
            start_on: Some(Junction {
                route: 1,
                side: onto,
                station: 5.0,
            }),
            ..route(
                &[(5., y), (5. + 4. * cosine, y + 4. * sine)],
                vec![Shape::Straight],
            )
        });
        found(&plan)
    };
    for (degrees, side) in [
        (29.9, Side::Left),
        (150.1, Side::Left),
        (-29.9, Side::Right),
    ] {
        let findings = meeting(degrees, side);
        let [finding] = &findings[..] else {
            panic!("{findings:?}")
        };
        assert_eq!((finding.code, finding.place.route), (Code::SharpMeeting, 1));
        assert!((finding.value.unwrap() - 29.9 * DEGREE).abs() < 1e-9);
    }
    for (degrees, side) in [
        (30.1, Side::Left),
        (90.0, Side::Left),
        (149.9, Side::Left),
        (-90., Side::Right),
    ] {
        assert_eq!(meeting(degrees, side), []);
    }
}

#[test]
fn edgings_that_cannot_follow() {
    // Sources: bender board 6 ft (thefreelibrary.com, Installing edging boards); radial blocks 5.1 m and
    // straight kerb units 12 m (pavingexpert.com, block paving details); the others common practice, no source.
    for edging in Edging::ALL
        .into_iter()
        .chain([Edging::Other { least_radius: 2.5 }])
    {
        let least = edging.data().least_radius;
        let with = |inside: f64| {
            let mut plan = plan_of(quarter(inside + 0.6, 1.2));
            plan.schemes[0].edging = Some(edging);
            found(&plan)
        };
        assert_eq!(with(least), [], "{edging:?}");
        let findings = with(least - 0.001);
        let [finding] = &findings[..] else {
            panic!("{findings:?}")
        };
        assert_eq!(
            (finding.code, finding.severity),
            (Code::EdgingRadius, Severity::Care)
        );
        assert_eq!(finding.limit, Some(least));
    }
    assert_eq!(Edging::BenderBoard.data().least_radius, 1.8);
    assert_eq!(Edging::RadialBlocks.data().least_radius, 5.1);
    assert_eq!(Edging::StraightUnits.data().least_radius, 12.0);
    // Source: own arithmetic with l²/8R: 900 mm units stand 34 mm off at 3 m, 8 mm at 12 m.
    let mut units = Edging::StraightUnits.data();
    units.unit = Some(0.9);
    assert!((units.bulge(3.0).unwrap() - 0.034).abs() < 0.0005);
    assert!((units.bulge(12.0).unwrap() - 0.008).abs() < 0.0005);
    let mut plan = plan_of(quarter(3.6, 1.2));
    plan.schemes[0].edging = Some(Edging::StraightUnits);
    assert_eq!(
        found(&plan)[0].sentence,
        "the inside edge has a radius of 3.000 m, and a row of straight units wants 12.000 m or more: each unit stands 0.035 m off the curve, so that they show as a polygon; make the bend flatter or take another edging"
    );
}

#[test]
fn one_finding_a_rule_and_path_however_many_places() {
    let points: Vec<(f64, f64)> = (0..40)
        .map(|i| (4.0 * f64::from(i), 0.6 * f64::from(i % 2)))
        .collect();
    let zigzag = route(&points, vec![Shape::bend(0.2); 39]);
    for set in RuleSet::ALL {
        let findings = judged(set, zigzag.clone());
        for finding in &findings {
            let same = findings.iter().filter(|f| f.code == finding.code);
            assert_eq!(same.count(), 1, "{findings:?}");
        }
    }
}

#[test]
fn values_say_how_far_they_are_checked() {
    for set in RuleSet::ALL {
        for rule in set.rules() {
            for part in [rule.clause, rule.edition] {
                assert!(rule.source.contains(part), "{}", rule.source);
            }
            if set != RuleSet::Everyday {
                assert!(rule.source.starts_with(set.title()), "{}", rule.source);
            }
            assert_ne!(rule.severity, Severity::Stop);
        }
        let narrow = judged(set, wide(0.3, 400.0));
        assert!(!narrow.is_empty(), "{set:?}");
        for finding in narrow {
            let rule = set
                .rules()
                .iter()
                .find(|r| r.source == finding.source)
                .unwrap();
            let says = |words: &str| finding.sentence.contains(words);
            let published = set != RuleSet::Everyday;
            assert_eq!(says(JUDGED_BY_OTHERS), published, "{}", finding.sentence);
            assert_eq!(says("outside the value of"), published);
            assert_eq!(says("not verified"), rule.seen == Seen::Recalled);
            assert_eq!(
                says("seen in one copy"),
                published && rule.seen == Seen::Once
            );
        }
    }
}

#[test]
fn the_sentence_is_in_the_plans_units() {
    let mut plan = plan_of(wide(0.8, 3.0));
    plan.rules = vec![RuleSet::Ada2010];
    (plan.units, plan.graduation) = (Units::FeetInches, Graduation::EighthInch);
    let sentence = &found(&plan)[0].sentence;
    assert!(sentence.starts_with("the path is 2′ 7 1⁄2″ wide, outside the value of ADA Standards (USA), 2010, 403.5.1 (at least 3′ 0″"), "{sentence}");
}

#[test]
fn a_path_that_cannot_be_drawn_is_not_judged() {
    let nothing = Route {
        width: 0.2,
        ..route(&[(0., 0.), (0., 0.)], vec![Shape::Straight])
    };
    for set in RuleSet::ALL {
        assert_eq!(judged(set, nothing.clone()), []);
    }
}

#[test]
fn the_example_is_not_flooded() {
    let plan = plan::file::read(plan::example::TEXT.as_bytes()).unwrap();
    assert_eq!(plan.rules, [RuleSet::Everyday]);
    for scheme in 0..plan.schemes.len() {
        assert_eq!(
            judge(&plan, scheme, &plan.solve().schemes[scheme].routes),
            []
        );
    }
}

#[test]
fn rules_and_edging_are_edited_and_stored() {
    let plan = plan::file::read(plan::example::TEXT.as_bytes()).unwrap();
    // What nobody touched is not written, and old files open as they were.
    assert_eq!(plan::file::write(&plan), plan::example::TEXT);
    let edits = [
        (
            Edit::SetRules(vec![RuleSet::As1428, RuleSet::Everyday]),
            "choose the rules",
        ),
        (Edit::SetRules(Vec::new()), "choose the rules"),
        (
            Edit::SetEdging {
                scheme: 1,
                edging: Some(Edging::Other { least_radius: 2.0 }),
            },
            "choose the edging of option B",
        ),
        (
            Edit::SetEdging {
                scheme: 0,
                edging: Some(Edging::SteelStrip),
            },
            "choose the edging of option A",
        ),
    ];
    for (edit, name) in edits {
        assert_eq!(edit.name(), name);
        let after = plan.with(&edit).unwrap().plan;
        assert_ne!(after, plan);
        let text = plan::file::write(&after);
        assert_eq!(plan::file::read(text.as_bytes()).unwrap(), after);
    }
    let refused = |edit: Edit, why: &str| {
        let error = plan.with(&edit).unwrap_err().to_string();
        assert!(error.contains(why), "{error}");
    };
    refused(
        Edit::SetRules(vec![RuleSet::As1428, RuleSet::As1428]),
        "AS 1428.1 (Australia) stands there twice",
    );
    refused(
        Edit::SetEdging {
            scheme: 0,
            edging: Some(Edging::Other {
                least_radius: f64::NAN,
            }),
        },
        "option A: the least radius of its edging in metres must lie between",
    );
    refused(
        Edit::SetEdging {
            scheme: 9,
            edging: None,
        },
        "no longer there",
    );
}

#[test]
fn every_word_that_is_stored_stays() {
    // A plan written once with every set and every edging: its words never change.
    let text = include_str!("files/rules-and-walk.ron");
    let plan = plan::file::read(text.as_bytes()).unwrap();
    assert_eq!(plan::file::write(&plan), text);
    assert_eq!(plan.rules, RuleSet::ALL);
    let edgings: Vec<Edging> = plan.schemes.iter().filter_map(|s| s.edging).collect();
    assert_eq!(edgings[..10], Edging::ALL);
    assert_eq!(edgings[10..], [Edging::Other { least_radius: 2.5 }]);
    assert_eq!(plan.walk.vehicles, plan::feel::usual_vehicles());
}

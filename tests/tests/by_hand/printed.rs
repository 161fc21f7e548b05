//! Plans as a person prints them: the PDF read back, and the figures of the same plan.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::sync::OnceLock;

use geometry::Point;
use pegbow::cli::{self, Asked};
use pegbow_tests::paper::{Chapter, chapters};
use pegbow_tests::pdf_text::{PageContent, read};
use plan::Plan;
use plan::document::{Extent, Obstacle, ObstacleKind, letter};
use plan::setout::Crew;
use plan::units::{Graduation, Units};
use serde_json::Value;

/// What a person has who printed one option of a plan.
pub(crate) struct Printed {
    pub(crate) pages: Vec<PageContent>,
    pub(crate) chapters: Vec<Chapter>,
    /// All the figures of the plan.
    pub(crate) figures: Value,
    /// Those of the printed path.
    pub(crate) path: Value,
    /// The marks, which stand before anything is done.
    pub(crate) marks: BTreeMap<String, Point>,
    /// Half of what the tape shows, metres.
    pub(crate) half: f64,
    pub(crate) plan: Plan,
}

impl Printed {
    pub(crate) fn set_out(&self) -> &Value {
        &self.path["set_out"]
    }

    /// The chapter whose title begins so.
    #[track_caller]
    pub(crate) fn chapter(&self, begins: &str) -> &Chapter {
        let mut all = self.chapters.iter();
        all.find(|chapter| chapter.title.starts_with(begins))
            .unwrap_or_else(|| panic!("no page {begins}"))
    }
}

/// What is printed by several tests.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Case {
    /// The options of the example.
    A,
    B,
    C,
    /// The first for a tape in feet and inches.
    Feet,
    /// The first with a pond on the swing point of its first bend.
    Blocked,
    /// The same in feet and inches.
    BlockedFeet,
    /// The first, told to two people.
    ForTwo,
}

impl Case {
    pub(crate) const ALL: [Self; 7] = [
        Self::A,
        Self::B,
        Self::C,
        Self::Feet,
        Self::Blocked,
        Self::BlockedFeet,
        Self::ForTwo,
    ];

    /// Those where all bends are set out as the program chooses on free ground.
    pub(crate) const FREE: [Self; 5] = [Self::A, Self::B, Self::C, Self::Feet, Self::ForTwo];

    /// Printed once, however many tests read it.
    pub(crate) fn printed(self) -> &'static Printed {
        static PRINTED: [OnceLock<Printed>; Case::ALL.len()] =
            [const { OnceLock::new() }; Case::ALL.len()];
        PRINTED[self as usize].get_or_init(|| print(&self.plan(), self.option()))
    }

    /// Which option, counted from 0.
    pub(crate) fn option(self) -> usize {
        match self {
            Self::B => 1,
            Self::C => 2,
            _ => 0,
        }
    }

    fn plan(self) -> Plan {
        let mut plan = plan::example::plan().unwrap();
        if let Self::Feet | Self::BlockedFeet = self {
            plan.units = Units::FeetInches;
            plan.graduation = Graduation::EighthInch;
        }
        if let Self::Blocked | Self::BlockedFeet = self {
            let pond = Obstacle::new("lily pond", ObstacleKind::Pond, on_the_swing_point());
            plan.site_mut().obstacles.push(pond);
        }
        plan.set_out.crew = match self {
            Self::ForTwo => Crew::Two,
            _ => Crew::Alone,
        };
        plan
    }
}

fn on_the_swing_point() -> Extent {
    let bend = &Case::A.printed().set_out()["bends"][0];
    let coordinate = |key: &str| bend["swing_point"][key].as_f64().unwrap();
    Extent::Round {
        centre: Point::new(coordinate("x"), coordinate("y")),
        radius: 0.4,
    }
}

/// Prints one option, counted from 0, and the figures, as the commands do.
fn print(plan: &Plan, option: usize) -> Printed {
    let folder = tempfile::tempdir().unwrap();
    let (file, pdf) = (
        folder.path().join("yard.ron"),
        folder.path().join("yard.pdf"),
    );
    std::fs::write(&file, plan::file::write(plan)).unwrap();
    let (file, letter) = (file.to_str().unwrap(), letter(option));
    run(&[
        "sheet",
        file,
        "--option",
        &letter,
        "--to",
        pdf.to_str().unwrap(),
    ]);
    let pages = read(&std::fs::read(&pdf).unwrap()).unwrap();
    let figures: Value = serde_json::from_slice(&run(&["figures", file])).unwrap();
    let marks = plan.site.marks.iter();
    Printed {
        chapters: chapters(&pages),
        pages,
        path: figures["schemes"][option]["routes"][0].clone(),
        figures,
        marks: marks.map(|mark| (mark.name.clone(), mark.at)).collect(),
        half: 0.5 * plan.ruler().graduation.metres(),
        plan: plan.clone(),
    }
}

fn run(args: &[&str]) -> Vec<u8> {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let asked = cli::run(args.iter().map(OsString::from), &mut out, &mut err);
    let said = String::from_utf8_lossy(&err);
    assert_eq!(asked, Asked::Done(cli::DONE), "{said}");
    out
}

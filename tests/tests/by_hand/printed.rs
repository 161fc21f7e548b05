//! Plans as a person prints them: the PDF read back, and the figures of the same plan.

use std::collections::BTreeMap;
use std::ffi::OsString;

use geometry::Point;
use pegbow::cli::{self, Asked};
use pegbow_tests::paper::{Chapter, chapters};
use pegbow_tests::pdf_text::{PageContent, read};
use plan::Plan;
use plan::document::{Extent, Obstacle, ObstacleKind, letter};
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

pub(crate) fn example() -> Plan {
    plan::example::plan().unwrap()
}

/// The same garden for a tape in feet and inches.
pub(crate) fn in_feet() -> Plan {
    let mut plan = example();
    plan.units = Units::FeetInches;
    plan.graduation = Graduation::EighthInch;
    plan
}

/// The example with a pond on the swing point of its first bend.
pub(crate) fn blocked(mut plan: Plan) -> Plan {
    let figures = printed(&plan, 0).figures;
    let bend = &figures["schemes"][0]["routes"][0]["set_out"]["bends"][0];
    let coordinate = |key: &str| bend["swing_point"][key].as_f64().unwrap();
    let extent = Extent::Round {
        centre: Point::new(coordinate("x"), coordinate("y")),
        radius: 0.4,
    };
    let pond = Obstacle::new("lily pond", ObstacleKind::Pond, extent);
    plan.site_mut().obstacles.push(pond);
    plan
}

/// Prints one option, counted from 0, and the figures, as the commands do.
pub(crate) fn printed(plan: &Plan, option: usize) -> Printed {
    let folder = tempfile::tempdir().unwrap();
    let (file, pdf) = (folder.path().join("yard.ron"), folder.path().join("yard.pdf"));
    std::fs::write(&file, plan::file::write(plan)).unwrap();
    let (file, letter) = (file.to_str().unwrap(), letter(option));
    run(&["sheet", file, "--option", &letter, "--to", pdf.to_str().unwrap()]);
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

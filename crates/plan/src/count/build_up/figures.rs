//! Every figure a build-up assumes, in the order one would doubt them.

use super::{Assumed, Bought, BuildUp, Cover, EdgeCourse, Labour, Layer, Packing, Pins, Waste};
use crate::units::Kind;

/// One figure of a build-up.
#[derive(Debug)]
pub struct Figure<'a> {
    /// Which layer, edge or other part of it, as it is called there.
    pub of: String,
    /// What the figure is.
    pub what: String,
    /// What it measures.
    pub kind: Kind,
    /// The figure.
    pub assumed: &'a mut Assumed,
}

impl BuildUp {
    /// Every figure it assumes; each stays at its place while only figures change.
    pub fn figures(&mut self) -> Vec<Figure<'_>> {
        let mut all = Figures::default();
        if let Cover::Stones {
            spacing,
            along,
            across,
        } = &mut self.cover
        {
            all.part("stepping stones");
            all.add("from one to the next", Kind::Length, spacing);
            all.add("length along the path", Kind::Length, along);
            all.add("width across the path", Kind::Length, across);
        }
        if let Some(raised) = &mut self.raised {
            all.part("surface");
            all.add("height above the ground", Kind::Length, raised);
        }
        for layer in &mut self.layers {
            all.layer(layer);
        }
        for (side, course) in [("left", &mut self.left), ("right", &mut self.right)] {
            if let Some(course) = course {
                all.course(side, course);
            }
        }
        if let Some(membrane) = &mut self.membrane {
            all.part(&membrane.name);
            all.add("width of a roll", Kind::Length, &mut membrane.roll_width);
            all.add("length of a roll", Kind::Length, &mut membrane.roll_length);
            all.add("lap", Kind::Length, &mut membrane.lap);
            all.waste(&mut membrane.waste);
        }
        if let Some(forms) = &mut self.forms {
            all.part(&forms.name);
            all.add("dug beyond the path", Kind::Length, &mut forms.beyond);
            all.waste(&mut forms.waste);
            all.pins(&mut forms.stakes);
        }
        if let Some(joints) = &mut self.joints {
            all.part("joints across the path");
            all.add(
                "times the thickness",
                Kind::Factor,
                &mut joints.of_thickness,
            );
            all.add("times the width", Kind::Factor, &mut joints.of_width);
        }
        all.found
    }

    /// The same build-up with another value for the figure at this place of [`Self::figures`]; it is then a
    /// figure of one's own. Nothing where there is no such figure.
    #[must_use]
    pub fn with_figure(&self, place: usize, value: f64) -> Option<Self> {
        let mut changed = self.clone();
        *changed.figures().get_mut(place)?.assumed = Assumed::own(value);
        Some(changed)
    }
}

#[derive(Default)]
struct Figures<'a> {
    of: String,
    found: Vec<Figure<'a>>,
}

impl<'a> Figures<'a> {
    /// What follows belongs to this part.
    fn part(&mut self, of: &str) {
        of.clone_into(&mut self.of);
    }

    fn add(&mut self, what: &str, kind: Kind, assumed: &'a mut Assumed) {
        self.found.push(Figure {
            of: self.of.clone(),
            what: what.to_owned(),
            kind,
            assumed,
        });
    }

    fn layer(&mut self, layer: &'a mut Layer) {
        self.part(&layer.name);
        self.add("thickness, compacted", Kind::Length, &mut layer.thickness);
        let bulk = match &layer.bought {
            Bought::Mass { .. } => Kind::Mass,
            Bought::Volume { .. } => Kind::Volume,
            Bought::Area { .. } => Kind::Section,
            _ => Kind::Factor,
        };
        let mut filling = None;
        match &mut layer.bought {
            Bought::Mass { compacted, loose } => {
                self.add("density, compacted", Kind::Density, compacted);
                self.loose(loose);
            }
            Bought::Volume { factor, loose } => {
                self.add("loose for one compacted", Kind::Factor, factor);
                self.loose(loose);
            }
            Bought::Units {
                length,
                width,
                density,
                filling: joints,
                bond: _,
                edges: _,
            } => {
                self.add("length of one, with joint", Kind::Length, length);
                self.add("width of one, with joint", Kind::Length, width);
                self.add("density", Kind::Density, density);
                filling = joints.as_deref_mut();
            }
            Bought::Area { density } | Bought::Each { density } => {
                self.add("density", Kind::Density, density);
            }
        }
        self.waste(&mut layer.waste);
        self.packs(&mut layer.packs, bulk);
        match &mut layer.labour {
            Some(Labour::PerVolume(hours)) => self.add("laying", Kind::HoursPerVolume, hours),
            Some(Labour::PerArea(hours)) => self.add("laying", Kind::HoursPerArea, hours),
            None => {}
        }
        if let Some(filling) = filling {
            self.part(&filling.name);
            self.add("width of a joint", Kind::Length, &mut filling.joint);
            self.add("density in the joint", Kind::Density, &mut filling.density);
            self.waste(&mut filling.waste);
            self.packs(&mut filling.packs, Kind::Mass);
        }
    }

    fn loose(&mut self, loose: &'a mut Option<Assumed>) {
        if let Some(loose) = loose {
            self.add("density as it comes", Kind::Density, loose);
        }
    }

    fn course(&mut self, side: &str, course: &'a mut EdgeCourse) {
        self.part(&format!("{}, {side}", course.name));
        self.add("dug beyond the path", Kind::Length, &mut course.beyond);
        self.waste(&mut course.waste);
        self.packs(&mut course.packs, Kind::Length);
        self.pins(&mut course.pins);
        if let Some(haunch) = &mut course.haunch {
            self.add("concrete along it", Kind::Section, &mut haunch.section);
        }
    }

    fn waste(&mut self, waste: &'a mut Waste) {
        self.add("waste on straights", Kind::Share, &mut waste.straight);
        self.add("waste on bends", Kind::Share, &mut waste.curve);
    }

    fn packs(&mut self, packs: &'a mut [Packing], kind: Kind) {
        for pack in packs {
            let what = format!("a {} holds", pack.name);
            self.add(&what, kind, &mut pack.holds);
        }
    }

    fn pins(&mut self, pins: &'a mut Option<Pins>) {
        if let Some(pins) = pins {
            let what = format!("{} apart on straights", pins.name);
            self.add(&what, Kind::Length, &mut pins.straight);
            let what = format!("{} apart on bends", pins.name);
            self.add(&what, Kind::Length, &mut pins.curve);
        }
    }
}

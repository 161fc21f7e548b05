//! Writes a finished sheet as PDF: the one file that knows the PDF crate and its points.
//!
//! The document is tagged, has an outline of one entry a page, embeds the part of the type face that
//! it uses and obeys PDF/A-2a and PDF/UA-1, so that it opens the same everywhere and can be read
//! aloud. It holds no date but the sheet's and nothing about the machine: the same sheet gives the
//! same bytes.

use std::f64::consts::PI;
use std::fmt;
use std::num::NonZeroU16;

use krilla::Document;
use krilla::SerializeSettings;
use krilla::color::luma;
use krilla::configure::{Accessibility, Archival, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::error::KrillaError;
use krilla::geom::{Path, PathBuilder, Point, Transform};
use krilla::metadata::{DateTime, Metadata};
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, ListNumbering, Node, SpanTag, TableHeaderScope, Tag,
    TagGroup, TagTree,
};
use krilla::text::{Font, GlyphId, KrillaGlyph};

use crate::document::{Block, Names, Sheet, words};
use crate::ink::{Ink, Pos, Step, Text};
use crate::lettering;
use crate::pen::{Pen, Tone, Weight};

/// Points to a millimetre: 72 points are an inch of 25.4 mm.
const POINTS: f64 = 72.0 / 25.4;

/// Greatest piece of an arc that is drawn by one cubic, radians. At 30° the cubic leaves the circle by
/// less than 4e-7 of the radius: on the widest paper less than a thousandth of a millimetre.
const ARC_PIECE: f64 = PI / 6.0;

/// The PDF of a sheet.
///
/// # Errors
/// When the sheet has no page, a figure that is not a number or a character the type face lacks, or
/// when it cannot be written as a well-formed, accessible document (no title, a drawing without words).
pub fn pdf(sheet: &Sheet) -> Result<Vec<u8>, PdfError> {
    check(sheet)?;
    let refused = |reason: &str| PdfError::Refused(reason.to_owned());
    let configuration = ConfigurationBuilder::new()
        .with_archival_validator(Archival::A2_A)
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|_| refused("the two standards of the document exclude each other"))?;
    let mut document = Document::new_with(SerializeSettings {
        configuration,
        ..SerializeSettings::default()
    });
    let fonts = Fonts::read().ok_or_else(|| refused("the type face cannot be read"))?;

    let mut tags = TagTree::new().with_lang(Some(sheet.language.clone()));
    let mut outline = Outline::new();
    for (number, page) in sheet.pages.iter().enumerate() {
        let whole = page.whole();
        let settings = PageSettings::from_wh(points(whole.width), points(whole.height))
            .ok_or_else(|| refused("a page has no size"))?;
        let mut leaf = document.start_page_with(settings);
        let mut writer = Writer {
            surface: leaf.surface(),
            head: whole.height,
            fonts: &fonts,
        };
        let blocks = page.blocks.iter().filter_map(|block| writer.block(block));
        tags.push(TagGroup::with_children(
            Tag::Section,
            blocks.map(Node::from).collect(),
        ));
        outline.push_child(OutlineNode::new(
            page.title.clone(),
            XyzDestination::new(number, Point::from_xy(0.0, 0.0)),
        ));
    }
    document.set_tag_tree(tags);
    document.set_outline(outline);
    document.set_metadata(metadata(sheet));
    document.finish().map_err(|error| refused(&reasons(&error)))
}

/// Why a sheet was not written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PdfError {
    /// There is no page.
    Empty,
    /// Words with characters that the type face lacks.
    Missing {
        /// Page, from 1; 0 for the words about the document.
        page: usize,
        /// The words.
        words: String,
        /// The characters.
        missing: Vec<char>,
    },
    /// Ink with a figure that is not a number.
    NotANumber {
        /// Page, from 1.
        page: usize,
    },
    /// The document would not be well formed.
    Refused(String),
}

impl fmt::Display for PdfError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "The sheet has no page: put something on it first."),
            Self::Missing {
                page,
                words,
                missing,
            } => {
                let shown: Vec<String> = missing
                    .iter()
                    .map(|letter| format!("U+{:04X}", u32::from(*letter)))
                    .collect();
                write!(
                    f,
                    "Page {page} says “{words}”, but the type face of the sheet has no sign for {}: write it another way.",
                    shown.join(", ")
                )
            }
            Self::NotANumber { page } => {
                write!(
                    f,
                    "Page {page} has a line whose place is not a number: this is a fault of the program."
                )
            }
            Self::Refused(reason) => write!(f, "The sheet cannot be written: {reason}."),
        }
    }
}

impl std::error::Error for PdfError {}

/// What the PDF crate would draw wrongly without a word.
fn check(sheet: &Sheet) -> Result<(), PdfError> {
    if sheet.pages.is_empty() {
        return Err(PdfError::Empty);
    }
    for (page, number) in sheet.pages.iter().zip(1..) {
        for ink in page.inks() {
            if !ink.is_finite() {
                return Err(PdfError::NotANumber { page: number });
            }
            let mut wrong = None;
            ink.each_text(&mut |text| {
                let missing = lettering::missing_glyphs(&text.words);
                if !missing.is_empty() && wrong.is_none() {
                    wrong = Some(PdfError::Missing {
                        page: number,
                        words: text.words.clone(),
                        missing,
                    });
                }
            });
            if let Some(wrong) = wrong {
                return Err(wrong);
            }
        }
    }
    Ok(())
}

fn metadata(sheet: &Sheet) -> Metadata {
    let (year, month, day) = sheet.date.parts();
    let mut metadata = Metadata::new()
        .title(sheet.title.clone())
        .description(sheet.subject.clone())
        .language(sheet.language.clone())
        .creation_date(DateTime::new(year).month(month).day(day))
        .creator("Pegbow".to_owned())
        .producer("Pegbow".to_owned());
    if !sheet.author.is_empty() {
        metadata = metadata.authors(vec![sheet.author.clone()]);
    }
    metadata
}

/// The reasons of the PDF crate in one sentence.
fn reasons(error: &KrillaError) -> String {
    match error {
        KrillaError::Validation(list) => {
            let mut reasons: Vec<String> = list
                .iter()
                .map(|(reason, _)| format!("{reason:?}"))
                .collect();
            reasons.dedup();
            reasons.join(", ")
        }
        other => other.to_string(),
    }
}

struct Fonts {
    regular: Font,
    semi_bold: Font,
}

impl Fonts {
    fn read() -> Option<Self> {
        let font = |weight| Font::new(lettering::font(weight).into(), 0);
        Some(Self {
            regular: font(Weight::Regular)?,
            semi_bold: font(Weight::SemiBold)?,
        })
    }

    fn of(&self, weight: Weight) -> &Font {
        match weight {
            Weight::Regular => &self.regular,
            Weight::SemiBold => &self.semi_bold,
        }
    }
}

/// Draws on one page and keeps what it drew for the reading order.
struct Writer<'a> {
    surface: Surface<'a>,
    /// Height of the page, millimetres: the PDF crate counts down from it.
    head: f64,
    fonts: &'a Fonts,
}

impl Writer<'_> {
    /// Draws a block; its place in the reading order, unless it is furniture.
    fn block(&mut self, block: &Block) -> Option<TagGroup> {
        match block {
            Block::Heading { level, inks } => {
                let level = NonZeroU16::new(u16::from(*level)).unwrap_or(NonZeroU16::MIN);
                let tag = Tag::Hn(level, Some(words(inks)));
                Some(TagGroup::with_children(tag, self.lines(inks)))
            }
            Block::Paragraph(inks) => Some(TagGroup::with_children(Tag::P, self.lines(inks))),
            Block::List(items) => {
                let labels = items
                    .first()
                    .map(|item| words(&item.label))
                    .unwrap_or_default();
                let mut list = TagGroup::new(Tag::L(numbering(&labels)));
                for item in items {
                    let mut entry = TagGroup::new(Tag::LI);
                    if !item.label.is_empty() {
                        entry.push(TagGroup::with_children(Tag::Lbl, self.content(&item.label)));
                    }
                    entry.push(TagGroup::with_children(Tag::LBody, self.lines(&item.body)));
                    list.push(entry);
                }
                Some(list)
            }
            Block::Table(rows) => {
                let mut table = TagGroup::new(Tag::Table);
                for row in rows {
                    let mut line = TagGroup::new(Tag::TR);
                    for cell in &row.cells {
                        let children = self.lines(&cell.inks);
                        line.push(match cell.names {
                            Names::Nothing => TagGroup::with_children(Tag::TD, children),
                            Names::Column => {
                                TagGroup::with_children(Tag::TH(TableHeaderScope::Column), children)
                            }
                            Names::Row => {
                                TagGroup::with_children(Tag::TH(TableHeaderScope::Row), children)
                            }
                        });
                    }
                    table.push(line);
                }
                Some(table)
            }
            Block::Figure { alt, inks } => {
                let tag = Tag::Figure(Some(alt.clone()));
                Some(TagGroup::with_children(tag, self.content(inks)))
            }
            Block::Furniture(inks) => {
                if !inks.is_empty() {
                    self.surface
                        .start_tagged(furniture(ArtifactType::PaginationOther));
                    self.inks(inks);
                    self.surface.end_tagged();
                }
                None
            }
        }
    }

    /// Lines of words, each a piece of content; rules between them are furniture.
    fn lines(&mut self, inks: &[Ink]) -> Vec<Node> {
        let mut nodes = Vec::new();
        let last = inks.iter().rposition(|ink| matches!(ink, Ink::Text(_)));
        for (index, ink) in inks.iter().enumerate() {
            if let Ink::Text(text) = ink {
                nodes.push(
                    self.surface
                        .start_tagged(ContentTag::Span(SpanTag::empty()))
                        .into(),
                );
                self.text(text, last != Some(index));
            } else {
                self.surface.start_tagged(furniture(ArtifactType::Layout));
                self.ink(ink);
            }
            self.surface.end_tagged();
        }
        nodes
    }

    /// Ink that is content as a whole.
    fn content(&mut self, inks: &[Ink]) -> Vec<Node> {
        if inks.is_empty() {
            return Vec::new();
        }
        let piece = self.surface.start_tagged(ContentTag::Other);
        self.inks(inks);
        self.surface.end_tagged();
        vec![piece.into()]
    }

    fn inks(&mut self, inks: &[Ink]) {
        for ink in inks {
            self.ink(ink);
        }
    }

    fn ink(&mut self, ink: &Ink) {
        match ink {
            Ink::Line { from, to, pen } => {
                let mut path = self.path(*from);
                path.step(&Step::To(*to));
                self.draw(path.finish(), Some(*pen), None);
            }
            Ink::Arc {
                centre,
                radius,
                start,
                sweep,
                pen,
            } => {
                let mut path = self.path(centre.toward(*start, *radius));
                path.step(&Step::Round {
                    centre: *centre,
                    sweep: *sweep,
                });
                self.draw(path.finish(), Some(*pen), None);
            }
            Ink::Path {
                from,
                steps,
                closed,
                pen,
                fill,
            } => {
                let mut path = self.path(*from);
                steps.iter().for_each(|step| path.step(step));
                if *closed {
                    path.builder.close();
                }
                self.draw(path.finish(), *pen, *fill);
            }
            Ink::Rect { frame, pen, fill } => {
                let path = self.rect(frame);
                self.draw(path, *pen, *fill);
            }
            Ink::Circle {
                centre,
                radius,
                pen,
                fill,
            } => {
                let mut path = self.path(centre.shifted(*radius, 0.0));
                path.step(&Step::Round {
                    centre: *centre,
                    sweep: 2.0 * PI,
                });
                path.builder.close();
                self.draw(path.finish(), *pen, *fill);
            }
            Ink::Text(text) => self.text(text, true),
            Ink::Through { window, inks } => {
                // A window of no size shows nothing.
                if let Some(path) = self.rect(window) {
                    self.surface.push_clip_path(&path, &FillRule::NonZero);
                    self.inks(inks);
                    self.surface.pop();
                }
            }
        }
    }

    /// Draws with exactly what is given: with neither pen nor fill the PDF crate would fill black.
    fn draw(&mut self, path: Option<Path>, pen: Option<Pen>, fill: Option<Tone>) {
        if let Some(path) = path
            && (pen.is_some() || fill.is_some())
        {
            self.surface.set_stroke(pen.map(stroke));
            self.surface.set_fill(fill.map(self::fill));
            self.surface.draw_path(&path);
        }
    }

    /// Draws a line of words; a space after it keeps it apart from the next when it is copied.
    fn text(&mut self, text: &Text, spaced: bool) {
        let mut words = text.words.trim_end().to_owned();
        if words.is_empty() {
            return;
        }
        let at = self.point(lettering::base(text));
        if spaced {
            words.push(' ');
        }
        let glyphs: Vec<KrillaGlyph> = lettering::shape(&words, text.style.weight)
            .into_iter()
            .map(|glyph| {
                KrillaGlyph::new(
                    GlyphId::new(u32::from(glyph.id.0)),
                    single(glyph.advance),
                    single(glyph.right),
                    single(glyph.up),
                    0.0,
                    glyph.range,
                    None,
                )
            })
            .collect();
        let font = self.fonts.of(text.style.weight).clone();
        let size = points(lettering::size(text.style));
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(fill(text.style.tone)));
        // Words that are not turned keep a plain matrix, which simple readers follow best.
        let (sin, cos) = text.angle.sin_cos();
        let turned = text.angle.abs() > f64::EPSILON;
        if turned {
            let (sin, cos) = (single(sin), single(cos));
            self.surface
                .push_transform(&Transform::from_row(cos, -sin, sin, cos, at.x, at.y));
        }
        let at = if turned { Point::from_xy(0.0, 0.0) } else { at };
        self.surface
            .draw_glyphs(at, &glyphs, font, &words, size, false);
        if turned {
            self.surface.pop();
        }
    }

    fn path(&self, from: Pos) -> Pencil {
        let mut builder = PathBuilder::new();
        let start = self.point(from);
        builder.move_to(start.x, start.y);
        Pencil {
            builder,
            at: from,
            head: self.head,
        }
    }

    fn rect(&self, frame: &crate::paper::Frame) -> Option<Path> {
        let mut path = self.path(frame.corner);
        for corner in [
            Pos::new(frame.right(), frame.foot()),
            Pos::new(frame.right(), frame.head()),
            Pos::new(frame.left(), frame.head()),
        ] {
            path.step(&Step::To(corner));
        }
        path.builder.close();
        path.finish()
    }

    fn point(&self, at: Pos) -> Point {
        point(at, self.head)
    }
}

/// A path under way.
struct Pencil {
    builder: PathBuilder,
    at: Pos,
    head: f64,
}

impl Pencil {
    fn step(&mut self, step: &Step) {
        match *step {
            Step::To(to) => {
                let to = point(to, self.head);
                self.builder.line_to(to.x, to.y);
            }
            Step::Round { centre, sweep } => {
                for piece in cubics(self.at, centre, sweep) {
                    let [a, b, to] = piece.map(|at| point(at, self.head));
                    self.builder.cubic_to(a.x, a.y, b.x, b.y, to.x, to.y);
                }
            }
        }
        self.at = step.end(self.at);
    }

    fn finish(self) -> Option<Path> {
        self.builder.finish()
    }
}

/// An arc from a place round a centre, as cubics: two control points and the end of each.
///
/// The control points lie on the tangents, 4/3 tan(θ/4) radii from the ends of a piece of angle θ,
/// which puts the middle of the cubic on the circle (the usual constant; from memory).
fn cubics(from: Pos, centre: Pos, sweep: f64) -> impl Iterator<Item = [Pos; 3]> {
    let pieces = (sweep.abs() / ARC_PIECE).ceil().max(1.0);
    let piece = sweep / pieces;
    let radius = centre.distance(from);
    let reach = 4.0 / 3.0 * (piece / 4.0).tan() * radius;
    let start = centre.direction(from);
    let ends = std::iter::successors(Some(1.0), |end| Some(end + 1.0));
    ends.take_while(move |end| *end <= pieces).map(move |end| {
        let (here, there) = (start + piece * (end - 1.0), start + piece * end);
        let to = centre.toward(there, radius);
        [
            centre.toward(here, radius).toward(here + PI / 2.0, reach),
            to.toward(there - PI / 2.0, reach),
            to,
        ]
    })
}

fn stroke(pen: Pen) -> Stroke {
    let pattern: Vec<f32> = pen.pattern().map(points).collect();
    Stroke {
        paint: luma::Color::new(pen.tone.lightness()).into(),
        width: points(pen.width),
        // Butt ends keep lengths true; round joints keep ink within half a width of its line.
        line_cap: LineCap::Butt,
        line_join: LineJoin::Round,
        miter_limit: 10.0,
        opacity: NormalizedF32::ONE,
        dash: (!pattern.is_empty()).then_some(StrokeDash {
            array: pattern,
            offset: 0.0,
        }),
    }
}

fn fill(tone: Tone) -> Fill {
    Fill {
        paint: luma::Color::new(tone.lightness()).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::EvenOdd,
    }
}

fn furniture(kind: ArtifactType) -> ContentTag<'static> {
    ContentTag::Artifact(Artifact::with_kind(kind))
}

/// How a list is numbered, from its first label.
fn numbering(label: &str) -> ListNumbering {
    match label.chars().next() {
        Some(first) if first.is_ascii_digit() => ListNumbering::Decimal,
        Some(first) if first.is_ascii_uppercase() => ListNumbering::UpperAlpha,
        Some('□') => ListNumbering::Square,
        Some(_) => ListNumbering::Disc,
        None => ListNumbering::None,
    }
}

/// A place on a page of a height in millimetres, in the PDF crate's points from the top left.
fn point(at: Pos, head: f64) -> Point {
    Point::from_xy(points(at.x), points(head - at.y))
}

/// Points of a length in millimetres.
fn points(millimetres: f64) -> f32 {
    single(millimetres * POINTS)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "the PDF crate counts in f32: on paper of half a metre the rounding is under 0.0001 mm"
)]
fn single(value: f64) -> f32 {
    value as f32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::{Cell, Date, Item, Page, Row};
    use crate::paper::{Frame, Orientation, Paper};
    use crate::pen::Style;

    fn sheet(inks: Vec<Ink>) -> Sheet {
        let mut sheet = Sheet::new("Quince Yard", Date::new(2026, 11, 25).unwrap());
        sheet.pages.push(Page {
            title: "Plan".to_owned(),
            blocks: vec![Block::Figure {
                alt: "A drawing.".to_owned(),
                inks,
            }],
            ..Page::default()
        });
        sheet
    }

    /// The cubics of an arc stay on the circle within 4e-7 of the radius and end where it ends.
    #[test]
    fn cubics_stay_on_the_circle() {
        let centre = Pos::new(3.0, -2.0);
        for sweep in [PI / 6.0, -PI / 6.0, 0.1, 2.0, -4.0, 2.0 * PI] {
            let first = centre.toward(1.0, 50.0);
            let mut from = first;
            for [a, b, to] in cubics(first, centre, sweep) {
                for share in (0..=100).map(|step| f64::from(step) / 100.0) {
                    let mix = |a: Pos, b: Pos| a.shifted((b.x - a.x) * share, (b.y - a.y) * share);
                    let (ab, bc, cd) = (mix(from, a), mix(a, b), mix(b, to));
                    let on = mix(mix(ab, bc), mix(bc, cd));
                    assert!(
                        (on.distance(centre) / 50.0 - 1.0).abs() < 4e-7,
                        "{sweep} {share}"
                    );
                }
                from = to;
            }
            assert!(from.distance(first.turned(centre, sweep)) < 1e-9, "{sweep}");
        }
    }

    /// The same sheet gives the same bytes.
    #[test]
    fn bytes_repeat() {
        let line = Ink::text(Pos::new(20.0, 20.0), "3′ 6 7⁄8″", Style::BODY);
        let made = sheet(vec![line]);
        assert_eq!(pdf(&made).unwrap(), pdf(&made).unwrap());
    }

    #[test]
    fn refusals() {
        let check = |sheet: &Sheet, expected: &str| {
            let error = pdf(sheet).unwrap_err().to_string();
            assert!(error.contains(expected), "{error}");
        };
        check(
            &Sheet::new("Quince Yard", Date::new(2026, 11, 25).unwrap()),
            "no page",
        );
        check(
            &sheet(vec![Ink::text(Pos::ORIGIN, "⌀ 40", Style::BODY)]),
            "U+2300",
        );
        check(
            &sheet(vec![Ink::line(
                Pos::ORIGIN,
                Pos::new(f64::NAN, 0.0),
                Pen::EDGE,
            )]),
            "not a number",
        );
        let untitled = Sheet {
            title: String::new(),
            ..sheet(Vec::new())
        };
        check(&untitled, "NoDocumentTitle");
        let mut mute = sheet(vec![Ink::line(Pos::ORIGIN, Pos::new(9.0, 9.0), Pen::EDGE)]);
        mute.pages[0].blocks = vec![Block::Figure {
            alt: String::new(),
            inks: Vec::new(),
        }];
        check(&mute, "MissingAltText");
    }

    /// Nothing that can be composed makes the writer panic or refuse, not even the odd and the empty.
    #[test]
    fn odd_ink_is_written() {
        let at = Pos::new(30.0, 30.0);
        let nothing = Frame::new(at, 0.0, 0.0);
        let odd = vec![
            Ink::line(at, at, Pen::EDGE),
            Ink::Arc {
                centre: at,
                radius: 0.0,
                start: 0.0,
                sweep: 1.0,
                pen: Pen::CENTRE,
            },
            Ink::Arc {
                centre: at,
                radius: 5.0,
                start: 0.0,
                sweep: 0.0,
                pen: Pen::CENTRE,
            },
            Ink::Circle {
                centre: at,
                radius: 0.0,
                pen: None,
                fill: None,
            },
            Ink::Circle {
                centre: at,
                radius: 1e6,
                pen: Some(Pen::STRING),
                fill: None,
            },
            Ink::Rect {
                frame: nothing,
                pen: Some(Pen::RULE),
                fill: Some(Tone::Pale),
            },
            Ink::Path {
                from: at,
                steps: Vec::new(),
                closed: true,
                pen: Some(Pen::EDGE),
                fill: None,
            },
            Ink::Through {
                window: nothing,
                inks: vec![Ink::line(at, Pos::ORIGIN, Pen::EDGE)],
            },
            Ink::text(at, "", Style::BODY),
            Ink::text(at, "   ", Style::BODY),
            Ink::text(at, "e\u{301} soft\u{ad}ly \u{a0}", Style::BODY),
            Ink::text(at, "width none", Style::BODY.high(0.0)),
            Ink::Text(Text::new(at, "upside down", Style::BODY).turned(PI)),
        ];
        let mut made = sheet(odd);
        made.pages.push(Page::default());
        made.pages[1].paper = Paper::Tabloid;
        made.pages[1].orientation = Orientation::Landscape;
        made.pages[1].blocks = vec![
            Block::Paragraph(Vec::new()),
            Block::List(Vec::new()),
            Block::List(vec![Item::default()]),
            Block::Table(vec![
                Row {
                    cells: vec![Cell::default()],
                },
                Row::default(),
            ]),
            Block::Furniture(Vec::new()),
        ];
        assert!(pdf(&made).is_ok_and(|bytes| bytes.starts_with(b"%PDF-1.7")));
    }
}

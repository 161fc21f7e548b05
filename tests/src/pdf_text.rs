//! Reads the sheets' PDF back: words with their places, lines with their lengths, all in millimetres.
//!
//! Only for tests, and only as much of PDF as our own sheets use; an operator it does not know is an
//! error, so that nothing on a page is passed over in silence.

use std::collections::BTreeMap;

use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object, ObjectId, decode_text_string};

/// Millimetres to a point.
const MM: f64 = 25.4 / 72.0;

/// What is on one page.
#[derive(Clone, Debug, PartialEq)]
pub struct PageContent {
    /// Width of the paper.
    pub width_mm: f64,
    /// Height of the paper.
    pub height_mm: f64,
    /// Lines of words in the order of the file, which is the reading order.
    pub texts: Vec<PlacedText>,
    /// Drawn lines and filled shapes in the order of the file.
    pub lines: Vec<Drawn>,
}

/// A line of words.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedText {
    /// Where its base line begins, from the left edge.
    pub x_mm: f64,
    /// Where its base line begins, from the foot.
    pub y_mm: f64,
    /// Type size.
    pub size_mm: f64,
    /// Advance from its first letter to behind its last that is not a space.
    pub width_mm: f64,
    /// Direction of its base line, radians.
    pub angle: f64,
    /// The words as they would be copied, with the space that keeps them apart from the next line.
    pub text: String,
    /// Whether it is page furniture, which is not read aloud.
    pub furniture: bool,
}

/// A line drawn or a shape filled.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// Its pieces.
    pub segments: Vec<Segment>,
    /// Width of the pen; `None` when it is only filled.
    pub pen_mm: Option<f64>,
    /// Ink and gap in turn; empty for an unbroken line.
    pub dash_mm: Vec<f64>,
    /// Whether it is filled.
    pub filled: bool,
    /// Whether only what falls in a window shows.
    pub clipped: bool,
}

/// A piece of a line, places in millimetres from the bottom-left corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// A straight piece.
    Straight([[f64; 2]; 2]),
    /// A cubic with its ends and control points.
    Cubic([[f64; 2]; 4]),
}

impl Segment {
    /// The place at a share of the piece, from 0 to 1.
    #[must_use]
    pub fn at(&self, share: f64) -> [f64; 2] {
        let back = 1.0 - share;
        let weights = match self {
            Self::Straight(_) => vec![back, share],
            Self::Cubic(_) => vec![
                back * back * back,
                3.0 * back * back * share,
                3.0 * back * share * share,
                share * share * share,
            ],
        };
        let places: &[[f64; 2]] = match self {
            Self::Straight(places) => places,
            Self::Cubic(places) => places,
        };
        let sum = |axis: usize| {
            weights
                .iter()
                .zip(places)
                .map(|(weight, at)| weight * at[axis])
                .sum()
        };
        [sum(0), sum(1)]
    }
}

impl Drawn {
    /// Places along the line, some on every piece, both ends included.
    #[must_use]
    pub fn places(&self) -> Vec<[f64; 2]> {
        self.segments
            .iter()
            .flat_map(|segment| (0..=16).map(|step| segment.at(f64::from(step) / 16.0)))
            .collect()
    }

    /// Length from end to end, measured along [`Self::places`].
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        let gap = |pair: &[[f64; 2]]| (pair[1][0] - pair[0][0]).hypot(pair[1][1] - pair[0][1]);
        self.places().windows(2).map(gap).sum()
    }
}

impl PageContent {
    /// All the words in reading order, one line each, furniture included.
    #[must_use]
    pub fn words(&self) -> String {
        let lines: Vec<&str> = self.texts.iter().map(|text| text.text.trim_end()).collect();
        lines.join("\n")
    }
}

/// What the document says of itself.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct About {
    /// Its title.
    pub title: String,
    /// Its language.
    pub language: String,
    /// Titles of its outline.
    pub outline: Vec<String>,
    /// Its structure, each element's role behind two spaces a level, e.g. `  H1`.
    pub roles: Vec<String>,
    /// What is read aloud for its drawings.
    pub alts: Vec<String>,
}

/// The pages of a PDF of ours.
///
/// # Errors
/// A sentence when the bytes are not such a PDF or use what this reader does not know.
pub fn read(bytes: &[u8]) -> Result<Vec<PageContent>, String> {
    let document = Document::load_mem(bytes).map_err(say)?;
    document
        .page_iter()
        .map(|page| read_page(&document, page))
        .collect()
}

/// What a PDF of ours says of itself.
///
/// # Errors
/// A sentence when the bytes are not such a PDF.
pub fn about(bytes: &[u8]) -> Result<About, String> {
    let document = Document::load_mem(bytes).map_err(say)?;
    let catalog = document.catalog().map_err(say)?;
    let text = |dictionary: &Dictionary, key: &[u8]| {
        let value = dictionary.get_deref(key, &document).ok()?;
        decode_text_string(value).ok()
    };
    let info = document
        .trailer
        .get_deref(b"Info", &document)
        .and_then(Object::as_dict);
    let mut about = About {
        title: info
            .ok()
            .and_then(|info| text(info, b"Title"))
            .unwrap_or_default(),
        language: text(catalog, b"Lang").unwrap_or_default(),
        ..About::default()
    };
    let mut next = catalog
        .get_deref(b"Outlines", &document)
        .and_then(Object::as_dict)
        .ok();
    next = next.and_then(|outline| {
        outline
            .get_deref(b"First", &document)
            .and_then(Object::as_dict)
            .ok()
    });
    while let Some(entry) = next {
        about
            .outline
            .push(text(entry, b"Title").unwrap_or_default());
        next = entry
            .get_deref(b"Next", &document)
            .and_then(Object::as_dict)
            .ok();
    }
    if let Ok(root) = catalog
        .get_deref(b"StructTreeRoot", &document)
        .and_then(Object::as_dict)
    {
        structure(&document, root, 0, &mut about);
    }
    Ok(about)
}

fn structure(document: &Document, element: &Dictionary, depth: usize, about: &mut About) {
    let inner = if let Ok(role) = element.get(b"S").and_then(Object::as_name) {
        about
            .roles
            .push("  ".repeat(depth) + &String::from_utf8_lossy(role));
        depth + 1
    } else {
        depth
    };
    if let Ok(alt) = element.get(b"Alt").and_then(decode_text_string) {
        about.alts.push(alt);
    }
    let children = match element.get_deref(b"K", document) {
        Ok(Object::Array(children)) => children.clone(),
        Ok(child) => vec![child.clone()],
        Err(_) => Vec::new(),
    };
    for child in &children {
        if let Ok((_, Object::Dictionary(child))) = document.dereference(child) {
            structure(document, child, inner, about);
        }
    }
}

fn say(error: impl std::fmt::Display) -> String {
    error.to_string()
}

type Matrix = [f64; 6];

const STAY: Matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];

/// First `a`, then `b` (row vectors, as in PDF).
fn then(a: Matrix, b: Matrix) -> Matrix {
    [
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    ]
}

fn place(matrix: Matrix, x: f64, y: f64) -> [f64; 2] {
    [
        (matrix[0] * x + matrix[2] * y + matrix[4]) * MM,
        (matrix[1] * x + matrix[3] * y + matrix[5]) * MM,
    ]
}

/// How much a matrix stretches.
fn stretch(matrix: Matrix) -> f64 {
    (matrix[0] * matrix[3] - matrix[1] * matrix[2]).abs().sqrt()
}

/// A type face with what it maps its two-byte codes to.
#[derive(Default)]
struct Face {
    letters: BTreeMap<u16, String>,
    widths: BTreeMap<u16, f64>,
    usual: f64,
}

#[derive(Clone)]
struct State {
    to_page: Matrix,
    pen: f64,
    dash: Vec<f64>,
    clipped: bool,
    face: Vec<u8>,
    size: f64,
    spacing: f64,
    word_spacing: f64,
    scale: f64,
    rise: f64,
}

/// A piece of marked content that is open.
struct Mark {
    furniture: bool,
    replaced: bool,
}

struct Reader<'a> {
    document: &'a Document,
    resources: &'a Dictionary,
    faces: BTreeMap<Vec<u8>, Face>,
    page: PageContent,
    state: State,
    saved: Vec<State>,
    marks: Vec<Mark>,
    segments: Vec<Segment>,
    at: [f64; 2],
    start: [f64; 2],
    clips: bool,
    text: Matrix,
    line: Matrix,
    words: Option<PlacedText>,
}

fn read_page(document: &Document, id: ObjectId) -> Result<PageContent, String> {
    let page = document.get_dictionary(id).map_err(say)?;
    let numbers = |object: &Object| -> Result<Vec<f64>, String> {
        object.as_array().map_err(say)?.iter().map(number).collect()
    };
    let paper = numbers(page.get_deref(b"MediaBox", document).map_err(say)?)?;
    let &[left, foot, right, head] = paper.as_slice() else {
        return Err("a page has no paper".to_owned());
    };
    let resources = page
        .get_deref(b"Resources", document)
        .and_then(Object::as_dict)
        .map_err(say)?;
    let mut faces = BTreeMap::new();
    for (name, font) in document.get_page_fonts(id).map_err(say)? {
        faces.insert(name, read_face(document, font)?);
    }
    let mut reader = Reader {
        document,
        resources,
        faces,
        page: PageContent {
            width_mm: (right - left) * MM,
            height_mm: (head - foot) * MM,
            texts: Vec::new(),
            lines: Vec::new(),
        },
        state: State {
            to_page: [1.0, 0.0, 0.0, 1.0, -left, -foot],
            pen: 1.0,
            dash: Vec::new(),
            clipped: false,
            face: Vec::new(),
            size: 0.0,
            spacing: 0.0,
            word_spacing: 0.0,
            scale: 1.0,
            rise: 0.0,
        },
        saved: Vec::new(),
        marks: Vec::new(),
        segments: Vec::new(),
        at: [0.0; 2],
        start: [0.0; 2],
        clips: false,
        text: STAY,
        line: STAY,
        words: None,
    };
    let content = document.get_page_content(id).map_err(say)?;
    for operation in Content::decode(&content).map_err(say)?.operations {
        reader.run(&operation)?;
    }
    Ok(reader.page)
}

impl Reader<'_> {
    fn run(&mut self, operation: &Operation) -> Result<(), String> {
        let operands = &operation.operands;
        let name = operation.operator.as_str();
        let figures: Vec<f64> = operands
            .iter()
            .filter_map(|operand| number(operand).ok())
            .collect();
        match (name, figures.as_slice()) {
            ("q", _) => self.saved.push(self.state.clone()),
            ("Q", _) => self.state = self.saved.pop().ok_or("a Q without its q")?,
            ("cm", &[a, b, c, d, e, f]) => {
                self.state.to_page = then([a, b, c, d, e, f], self.state.to_page);
            }
            ("w", &[width]) => self.state.pen = width,
            ("d", _) => {
                let array = operands
                    .first()
                    .and_then(|array| array.as_array().ok())
                    .ok_or("a dash without its array")?;
                self.state.dash = array.iter().map(number).collect::<Result<_, _>>()?;
            }

            ("m", &[x, y]) => {
                self.at = [x, y];
                self.start = self.at;
            }
            ("l", &[x, y]) => self.straight([x, y]),
            ("c", &[a, b, c, d, x, y]) => self.cubic([[a, b], [c, d], [x, y]]),
            ("v", &[c, d, x, y]) => self.cubic([self.at, [c, d], [x, y]]),
            ("y", &[a, b, x, y]) => self.cubic([[a, b], [x, y], [x, y]]),
            ("h", _) => self.straight(self.start),
            ("re", &[x, y, width, height]) => {
                self.at = [x, y];
                self.start = self.at;
                for to in [
                    [x + width, y],
                    [x + width, y + height],
                    [x, y + height],
                    [x, y],
                ] {
                    self.straight(to);
                }
            }
            ("S", _) => self.paint(true, false),
            ("s", _) => {
                self.straight(self.start);
                self.paint(true, false);
            }
            ("f" | "F" | "f*", _) => self.paint(false, true),
            ("B" | "B*", _) => self.paint(true, true),
            ("b" | "b*", _) => {
                self.straight(self.start);
                self.paint(true, true);
            }
            ("W" | "W*", _) => self.clips = true,
            ("n", _) => {
                self.state.clipped |= std::mem::take(&mut self.clips);
                self.segments.clear();
            }

            ("BT", _) => {
                self.text = STAY;
                self.line = STAY;
                self.words = None;
            }
            ("ET", _) => self.page.texts.extend(self.words.take()),
            ("Tf", &[size]) => {
                self.state.face = operands
                    .first()
                    .and_then(|face| face.as_name().ok())
                    .unwrap_or_default()
                    .to_vec();
                self.state.size = size;
            }
            ("Tm", &[a, b, c, d, e, f]) => {
                self.line = [a, b, c, d, e, f];
                self.text = self.line;
            }
            ("Td" | "TD", &[x, y]) => {
                self.line = then([1.0, 0.0, 0.0, 1.0, x, y], self.line);
                self.text = self.line;
            }
            ("Tc", &[spacing]) => self.state.spacing = spacing,
            ("Tw", &[spacing]) => self.state.word_spacing = spacing,
            ("Tz", &[percent]) => self.state.scale = percent / 100.0,
            ("Ts", &[rise]) => self.state.rise = rise,
            ("Tj", _) => self.show(operands)?,
            ("TJ", _) => self.show(
                operands
                    .first()
                    .and_then(|array| array.as_array().ok())
                    .ok_or("a TJ without its array")?,
            )?,

            ("BMC" | "BDC", _) => self.mark(operands)?,
            ("EMC", _) => {
                self.marks.pop().ok_or("an EMC without its beginning")?;
            }
            // Colours, ends and joints of lines, rendering intents: nothing that is measured.
            (
                "cs" | "CS" | "sc" | "SC" | "scn" | "SCN" | "g" | "G" | "rg" | "RG" | "k" | "K"
                | "gs" | "j" | "J" | "M" | "i" | "ri" | "Tr",
                _,
            ) => {}
            _ => {
                return Err(format!(
                    "the operator {name} with {} operands is not known here",
                    operands.len()
                ));
            }
        }
        Ok(())
    }

    fn straight(&mut self, to: [f64; 2]) {
        let matrix = self.state.to_page;
        let [from, end] = [self.at, to].map(|[x, y]| place(matrix, x, y));
        self.segments.push(Segment::Straight([from, end]));
        self.at = to;
    }

    fn cubic(&mut self, [a, b, to]: [[f64; 2]; 3]) {
        let matrix = self.state.to_page;
        self.segments.push(Segment::Cubic(
            [self.at, a, b, to].map(|[x, y]| place(matrix, x, y)),
        ));
        self.at = to;
    }

    fn paint(&mut self, drawn: bool, filled: bool) {
        let scale = stretch(self.state.to_page) * MM;
        self.page.lines.push(Drawn {
            segments: std::mem::take(&mut self.segments),
            pen_mm: drawn.then_some(self.state.pen * scale),
            dash_mm: self
                .state
                .dash
                .iter()
                .map(|length| length * scale)
                .collect(),
            filled,
            clipped: self.state.clipped,
        });
    }

    fn mark(&mut self, operands: &[Object]) -> Result<(), String> {
        let role = operands
            .first()
            .and_then(|role| role.as_name().ok())
            .unwrap_or_default();
        let properties = match operands.get(1) {
            Some(Object::Dictionary(properties)) => Some(properties),
            Some(Object::Name(name)) => {
                let all = self
                    .resources
                    .get_deref(b"Properties", self.document)
                    .and_then(Object::as_dict)
                    .map_err(say)?;
                Some(
                    all.get_deref(name, self.document)
                        .and_then(Object::as_dict)
                        .map_err(say)?,
                )
            }
            _ => None,
        };
        let actual = properties.and_then(|properties| properties.get(b"ActualText").ok());
        if let Some(actual) = actual {
            let actual = decode_text_string(actual).map_err(say)?;
            self.words().text.push_str(&actual);
        }
        self.marks.push(Mark {
            furniture: role == b"Artifact",
            replaced: actual.is_some(),
        });
        Ok(())
    }

    /// The line of words under way.
    fn words(&mut self) -> &mut PlacedText {
        let furniture = self.marks.iter().any(|mark| mark.furniture);
        self.words.get_or_insert(PlacedText {
            x_mm: f64::NAN,
            y_mm: f64::NAN,
            size_mm: 0.0,
            width_mm: 0.0,
            angle: 0.0,
            text: String::new(),
            furniture,
        })
    }

    /// Shows strings of codes and moves between them.
    fn show(&mut self, items: &[Object]) -> Result<(), String> {
        let state = self.state.clone();
        let replaced = self.marks.iter().any(|mark| mark.replaced);
        for item in items {
            let Object::String(codes, _) = item else {
                let back = number(item)? / 1000.0 * state.size * state.scale;
                self.text = then([1.0, 0.0, 0.0, 1.0, -back, 0.0], self.text);
                continue;
            };
            for code in codes.chunks(2) {
                let code = code
                    .iter()
                    .fold(0, |code, byte| (code << 8) | u16::from(*byte));
                let face = self
                    .faces
                    .get(&state.face)
                    .ok_or("words without a type face")?;
                let letters = face
                    .letters
                    .get(&code)
                    .cloned()
                    .ok_or_else(|| format!("code {code} stands for no letter"))?;
                let advance = face.widths.get(&code).copied().unwrap_or(face.usual) / 1000.0;
                let matrix = then(
                    then([1.0, 0.0, 0.0, 1.0, 0.0, state.rise], self.text),
                    state.to_page,
                );
                let from = place(matrix, 0.0, 0.0);
                let move_on = (advance * state.size + state.spacing) * state.scale;
                let words = self.words();
                if words.x_mm.is_nan() {
                    [words.x_mm, words.y_mm] = from;
                    words.size_mm = state.size * stretch(matrix) * MM;
                    words.angle = matrix[1].atan2(matrix[0]);
                }
                if !replaced {
                    words.text.push_str(&letters);
                }
                if !letters.trim().is_empty() {
                    let end = place(matrix, move_on, 0.0);
                    words.width_mm = (end[0] - words.x_mm).hypot(end[1] - words.y_mm);
                }
                self.text = then([1.0, 0.0, 0.0, 1.0, move_on, 0.0], self.text);
            }
        }
        Ok(())
    }
}

fn number(object: &Object) -> Result<f64, String> {
    object.as_float().map(f64::from).map_err(say)
}

fn read_face(document: &Document, font: &Dictionary) -> Result<Face, String> {
    let mut face = Face {
        usual: 1000.0,
        ..Face::default()
    };
    let inner = font
        .get_deref(b"DescendantFonts", document)
        .and_then(Object::as_array)
        .map_err(say)?;
    let inner = inner.first().ok_or("a type face without its inner one")?;
    let (_, inner) = document.dereference(inner).map_err(say)?;
    let inner = inner.as_dict().map_err(say)?;
    if let Ok(usual) = inner.get_deref(b"DW", document) {
        face.usual = number(usual)?;
    }
    let code = |object: &Object| {
        object
            .as_i64()
            .map_err(say)
            .and_then(|code| u16::try_from(code).map_err(say))
    };
    let mut items = inner
        .get_deref(b"W", document)
        .and_then(Object::as_array)
        .map_err(say)?
        .iter();
    while let (Some(first), Some(second)) = (items.next(), items.next()) {
        let first = code(first)?;
        if let Ok(widths) = second.as_array() {
            for (code, width) in (first..).zip(widths) {
                face.widths.insert(code, number(width)?);
            }
        } else {
            let width = number(items.next().ok_or("a run of widths without its width")?)?;
            face.widths
                .extend((first..=code(second)?).map(|code| (code, width)));
        }
    }
    let map = font
        .get_deref(b"ToUnicode", document)
        .and_then(Object::as_stream)
        .map_err(say)?;
    let map = map.decompressed_content().map_err(say)?;
    read_letters(&String::from_utf8_lossy(&map), &mut face.letters)?;
    Ok(face)
}

/// Reads which letters the codes stand for (`beginbfchar`, `beginbfrange`).
fn read_letters(map: &str, letters: &mut BTreeMap<u16, String>) -> Result<(), String> {
    let units = |hex: &str| -> Result<Vec<u16>, String> {
        hex.as_bytes()
            .chunks(4)
            .map(|unit| u16::from_str_radix(&String::from_utf8_lossy(unit), 16).map_err(say))
            .collect()
    };
    for (section, after) in [("beginbfchar", "endbfchar"), ("beginbfrange", "endbfrange")] {
        for part in map.split(section).skip(1) {
            let (part, _) = part
                .split_once(after)
                .ok_or("a map of letters without its end")?;
            if part.contains('[') {
                return Err("a map of letters with lists is not known here".to_owned());
            }
            let strings: Vec<Vec<u16>> = part
                .split('<')
                .skip(1)
                .map(|string| units(string.split('>').next().unwrap_or_default()))
                .collect::<Result<_, _>>()?;
            let entry = if section == "beginbfchar" { 2 } else { 3 };
            for entry in strings.chunks(entry) {
                let (Some(first), Some(last), Some(target)) = (
                    entry.first().and_then(|code| code.first()),
                    entry
                        .get(entry.len().saturating_sub(2))
                        .and_then(|code| code.first()),
                    entry.last(),
                ) else {
                    return Err("a map of letters with an empty entry".to_owned());
                };
                for (step, code) in (*first..=*last).enumerate() {
                    let mut target = target.clone();
                    if let (Some(unit), Ok(step)) = (target.last_mut(), u16::try_from(step)) {
                        *unit = unit.wrapping_add(step);
                    }
                    letters.insert(code, String::from_utf16(&target).map_err(say)?);
                }
            }
        }
    }
    Ok(())
}

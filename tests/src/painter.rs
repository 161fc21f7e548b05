//! Pictures of the window with no graphics card: the window library's triangles, filled one by one.
#![expect(
    clippy::cast_possible_truncation,
    reason = "here points become pixels and shares become bytes"
)]

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use egui::epaint::{ClippedPrimitive, ImageData, Mesh, Primitive, Vertex};
use egui::{Color32, Context, FullOutput, Pos2, Rect, TextureId, TexturesDelta};
use egui_kittest::TestRenderer;
use image::{Rgba, RgbaImage};

/// Set to 1 to write the pictures that others are compared with.
pub const UPDATE: &str = "PEGBOW_UPDATE_PICTURES";

/// How far a channel of a pixel may be off (of 255) before two pictures differ: what the rounding of another
/// processor's mathematics may do to an edge, and less than anyone sees.
const CHANNEL_TOLERANCE: u8 = 4;

/// Draws what the window library wants drawn; the same input gives the same bytes.
#[derive(Default)]
pub struct Painter {
    textures: HashMap<TextureId, Texture>,
}

#[derive(Default)]
struct Texture {
    size: [usize; 2],
    pixels: Vec<Color32>,
}

impl TestRenderer for Painter {
    fn handle_delta(&mut self, delta: &mut TexturesDelta) {
        for (id, change) in delta
            .set
            .drain()
            .flat_map(|(id, changes)| changes.into_iter().map(move |change| (id, change)))
        {
            let ImageData::Color(part) = &change.image;
            let texture = self.textures.entry(id).or_default();
            match change.pos {
                None => {
                    texture.size = part.size;
                    texture.pixels.clone_from(&part.pixels);
                }
                Some([left, top]) => {
                    let rows = part.pixels.chunks(part.size[0].max(1));
                    for (row, pixels) in rows.enumerate() {
                        let begin = (top + row) * texture.size[0] + left;
                        texture.pixels[begin..begin + pixels.len()].copy_from_slice(pixels);
                    }
                }
            }
        }
        for id in delta.free.drain() {
            self.textures.remove(&id);
        }
    }

    fn render(&mut self, ctx: &Context, output: &FullOutput) -> Result<RgbaImage, String> {
        let scale = output.pixels_per_point;
        let size = ctx.content_rect().size() * scale;
        let mut picture = RgbaImage::from_pixel(
            whole(size.x.round()),
            whole(size.y.round()),
            Rgba(ctx.global_style().visuals.panel_fill.to_array()),
        );
        for ClippedPrimitive {
            clip_rect,
            primitive,
        } in ctx.tessellate(output.shapes.clone(), scale)
        {
            let Primitive::Mesh(mesh) = primitive else {
                return Err("a paint callback cannot be drawn without a graphics card".to_owned());
            };
            let texture = self
                .textures
                .get(&mesh.texture_id)
                .ok_or_else(|| format!("no texture {:?}", mesh.texture_id))?;
            fill(&mut picture, &mesh, clip_rect, texture, scale);
        }
        Ok(picture)
    }
}

fn fill(picture: &mut RgbaImage, mesh: &Mesh, clip: Rect, texture: &Texture, scale: f32) {
    let edge = |at: f32, most: u32| whole((at * scale).round()).min(most);
    let (left, right) = (
        edge(clip.left(), picture.width()),
        edge(clip.right(), picture.width()),
    );
    let (top, bottom) = (
        edge(clip.top(), picture.height()),
        edge(clip.bottom(), picture.height()),
    );
    for corners in mesh.indices.chunks_exact(3) {
        let mut corners =
            [corners[0], corners[1], corners[2]].map(|nth| mesh.vertices[nth as usize]);
        let at = |corner: &Vertex| corner.pos * scale;
        let mut area = cross(at(&corners[0]), at(&corners[1]), at(&corners[2]));
        if area == 0.0 {
            continue;
        }
        if area < 0.0 {
            corners.swap(1, 2);
            area = -area;
        }
        let [a, b, c] = [at(&corners[0]), at(&corners[1]), at(&corners[2])];
        let low = a.min(b).min(c);
        let high = a.max(b).max(c);
        for y in whole(low.y.floor()).max(top)..whole(high.y.ceil()).min(bottom) {
            for x in whole(low.x.floor()).max(left)..whole(high.x.ceil()).min(right) {
                let middle = Pos2::new(x as f32 + 0.5, y as f32 + 0.5);
                let shares = [
                    cross(b, c, middle),
                    cross(c, a, middle),
                    cross(a, b, middle),
                ];
                let sides = [(b, c), (c, a), (a, b)];
                let inside = shares.iter().zip(sides).all(|(&share, (from, to))| {
                    // A pixel on a shared side belongs to one triangle only: the one below or right of it.
                    let owns = to.y < from.y || (to.y <= from.y && from.x < to.x);
                    0.0 < share || (share == 0.0 && owns)
                });
                if inside {
                    let over = colour(&corners, shares.map(|share| share / area), texture);
                    lay(picture.get_pixel_mut(x, y), over);
                }
            }
        }
    }
}

/// Twice the area of a triangle, positive when it turns right on the screen.
fn cross(a: Pos2, b: Pos2, c: Pos2) -> f32 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

/// Colour of a pixel, premultiplied: the corners' colours mixed, times the texture's nearest pixel.
fn colour(corners: &[Vertex; 3], shares: [f32; 3], texture: &Texture) -> [f32; 4] {
    let mix = |value: &dyn Fn(&Vertex) -> f32| -> f32 {
        corners
            .iter()
            .zip(shares)
            .map(|(corner, share)| value(corner) * share)
            .sum()
    };
    let nearest =
        |share: f32, count: usize| ((share * count as f32).max(0.0) as usize).min(count - 1);
    let column = nearest(mix(&|corner| corner.uv.x), texture.size[0]);
    let row = nearest(mix(&|corner| corner.uv.y), texture.size[1]);
    let painted = texture.pixels[row * texture.size[0] + column].to_array();
    let mut mixed = [0.0; 4];
    for (channel, out) in mixed.iter_mut().enumerate() {
        let own = mix(&|corner| f32::from(corner.color.to_array()[channel]));
        *out = own * f32::from(painted[channel]) / 255.0;
    }
    mixed
}

fn lay(pixel: &mut Rgba<u8>, over: [f32; 4]) {
    let under = 1.0 - over[3] / 255.0;
    for (channel, out) in pixel.0.iter_mut().enumerate() {
        *out = (over[channel] + f32::from(*out) * under)
            .round()
            .clamp(0.0, 255.0) as u8;
    }
}

fn whole(number: f32) -> u32 {
    number.max(0.0) as u32
}

/// Compares a picture with the one kept under `tests/pictures/`.
///
/// With the environment variable [`UPDATE`] set to 1 it is kept instead.
///
/// # Panics
/// When the pictures differ, or none is kept; the new one is then written beside it as `NAME.new.png`.
#[track_caller]
pub fn check_picture(name: &str, picture: &RgbaImage) {
    let kept = folder().join(format!("{name}.png"));
    let new = folder().join(format!("{name}.new.png"));
    if std::env::var_os(UPDATE).is_some_and(|value| value == "1") {
        write(&kept, picture);
        return;
    }
    let why = match image::open(&kept) {
        Err(error) => format!("{} cannot be read: {error}", kept.display()),
        Ok(old) => match differing(&old.to_rgba8(), picture) {
            0 => return,
            count => format!("{count} pixels differ from {}", kept.display()),
        },
    };
    write(&new, picture);
    panic!(
        "{why}; see {}, and run with {UPDATE}=1 to keep it",
        new.display()
    );
}

/// How many pixels differ, or all of them when the sizes do.
#[must_use]
pub fn differing(one: &RgbaImage, other: &RgbaImage) -> usize {
    if one.dimensions() != other.dimensions() {
        return one.pixels().len().max(other.pixels().len());
    }
    let off = |(a, b): (&Rgba<u8>, &Rgba<u8>)| {
        a.0.iter()
            .zip(b.0)
            .any(|(a, b)| CHANNEL_TOLERANCE < a.abs_diff(b))
    };
    one.pixels()
        .zip(other.pixels())
        .filter(|&pair| off(pair))
        .count()
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("pictures")
}

fn write(path: &Path, picture: &RgbaImage) {
    std::fs::create_dir_all(folder()).expect("the folder of pictures can be made");
    picture.save(path).expect("the picture can be written");
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(painter: &mut Painter, shapes: &[egui::Shape]) -> RgbaImage {
        let ctx = Context::default();
        ctx.tessellation_options_mut(|options| options.feathering = false);
        ctx.all_styles_mut(|style| style.visuals.panel_fill = Color32::BLACK);
        let input = egui::RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, egui::vec2(8.0, 8.0))),
            ..egui::RawInput::default()
        };
        let mut output = ctx.run_ui(input, |ui| {
            ui.painter().extend(shapes.to_vec());
        });
        painter.handle_delta(&mut output.textures_delta);
        painter.render(&ctx, &output).expect("only meshes")
    }

    #[test]
    fn shared_sides_are_filled_once() {
        // A rectangle is two triangles: half-clear white over black must come out even, the diagonal too.
        let half = Color32::from_white_alpha(128);
        let rect = Rect::from_min_max(Pos2::new(1.0, 2.0), Pos2::new(7.0, 6.0));
        let shape = egui::Shape::rect_filled(rect, 0.0, half);
        let picture = square(&mut Painter::default(), &[shape]);
        for (x, y, pixel) in picture.enumerate_pixels() {
            let inside = (1..7).contains(&x) && (2..6).contains(&y);
            let expected = if inside { 128 } else { 0 };
            assert_eq!(pixel.0, [expected, expected, expected, 255], "{x} {y}");
        }
    }

    #[test]
    fn later_things_lie_on_top() {
        let all = Rect::from_min_size(Pos2::ZERO, egui::vec2(8.0, 8.0));
        let shapes = [
            egui::Shape::rect_filled(all, 0.0, Color32::RED),
            egui::Shape::rect_filled(all.shrink(2.0), 0.0, Color32::BLUE),
        ];
        let picture = square(&mut Painter::default(), &shapes);
        assert_eq!(picture.get_pixel(0, 0).0, [255, 0, 0, 255]);
        assert_eq!(picture.get_pixel(4, 4).0, [0, 0, 255, 255]);
    }

    #[test]
    fn pictures_are_told_apart() {
        let grey = RgbaImage::from_pixel(4, 4, Rgba([100, 100, 100, 255]));
        let mut near = grey.clone();
        near.put_pixel(1, 1, Rgba([100 + CHANNEL_TOLERANCE, 100, 100, 255]));
        let mut off = grey.clone();
        off.put_pixel(1, 1, Rgba([101 + CHANNEL_TOLERANCE, 100, 100, 255]));
        assert_eq!(differing(&grey, &near), 0);
        assert_eq!(differing(&grey, &off), 1);
        assert_eq!(differing(&grey, &RgbaImage::new(2, 2)), 16);
    }
}

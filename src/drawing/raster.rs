//! A page as pixels.

use super::canvas::Canvas;
use super::lettering::{FAMILY, fonts};
use super::{DrawError, Drawn, WIDTH};
use resvg::{tiny_skia, usvg};

/// Draws a page this many pixels wide.
pub(super) fn png(page: Canvas, width: u32) -> Result<Drawn, DrawError> {
    let failed = |error: String| DrawError::Page(error);
    let (svg, page_height) = page.finish();
    let options = usvg::Options { font_family: FAMILY.to_owned(), fontdb: fonts(), ..usvg::Options::default() };
    let tree = usvg::Tree::from_str(&svg, &options).map_err(|error| failed(error.to_string()))?;
    let scale = width as f32 / WIDTH as f32;
    let height = (page_height as f32 * scale).ceil() as u32;
    let mut pixels =
        tiny_skia::Pixmap::new(width, height).ok_or_else(|| failed(format!("{width} by {height} pixels")))?;
    resvg::render(&tree, tiny_skia::Transform::from_scale(scale, scale), &mut pixels.as_mut());
    let png = encode(&pixels).map_err(|error| failed(error.to_string()))?;
    Ok(Drawn { png, width, height })
}

/// Without an alpha channel, since a page has no holes: a third of the size, which counts on a phone.
fn encode(pixels: &tiny_skia::Pixmap) -> Result<Vec<u8>, png::EncodingError> {
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, pixels.width(), pixels.height());
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_compression(png::Compression::Best);
    encoder.set_adaptive_filter(png::AdaptiveFilterType::Adaptive);
    let opaque: Vec<u8> = pixels.pixels().iter().flat_map(|pixel| [pixel.red(), pixel.green(), pixel.blue()]).collect();
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&opaque)?;
    writer.finish()?;
    Ok(file)
}

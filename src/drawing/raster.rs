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
    let png = pixels.encode_png().map_err(|error| failed(error.to_string()))?;
    Ok(Drawn { png, width, height })
}

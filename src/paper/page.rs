//! Pages as PDF, true to size: each is drawn in millimetres by the library for vector graphics, its font embedded as
//! text.

use super::PaperError;
use crate::drawing::{FAMILY, fonts};
use crate::sheet::SheetSize;
use pdf_writer::{Content, Finish, Name, Pdf, Rect, Ref, TextStr};
use std::collections::HashMap;
use svg2pdf::usvg;

/// Points in a millimetre.
pub(super) const POINTS: f64 = 72.0 / 25.4;

/// Thousandths of a millimetre are finer than any printer.
pub(super) fn thousandth(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

/// A drawing as the library understands it, with the program's font and no other.
pub(super) fn read(svg: &str) -> Result<usvg::Tree, PaperError> {
    let options = usvg::Options { font_family: FAMILY.to_owned(), fontdb: fonts(), ..usvg::Options::default() };
    usvg::Tree::from_str(svg, &options).map_err(|error| PaperError::Page(error.to_string()))
}

/// A PDF being written, page by page.
pub(super) struct Paper {
    pdf: Pdf,
    next: Ref,
    catalog: Ref,
    tree: Ref,
    pages: Vec<Ref>,
    /// In points.
    size: (f32, f32),
}

impl Paper {
    /// Without a page yet.
    pub(super) fn new(sheet: SheetSize) -> Self {
        let (wide, high) = sheet.size();
        let mut next = Ref::new(1);
        let (catalog, tree) = (next.bump(), next.bump());
        let size = ((wide * POINTS) as f32, (high * POINTS) as f32);
        Self { pdf: Pdf::new(), next, catalog, tree, pages: Vec::new(), size }
    }

    /// Adds a page that is drawn in millimetres.
    pub(super) fn page(&mut self, svg: &str) -> Result<(), PaperError> {
        let failed = |error: String| PaperError::Page(error);
        let tree = read(svg)?;
        let (chunk, drawn) = svg2pdf::to_chunk(&tree, svg2pdf::ConversionOptions::default())
            .map_err(|error| failed(error.to_string()))?;
        let mut numbers = HashMap::new();
        let chunk = chunk.renumber(|old| *numbers.entry(old).or_insert_with(|| self.next.bump()));
        let drawn = numbers.get(&drawn).copied().ok_or_else(|| failed("it came out empty".to_owned()))?;
        let (page, content) = (self.next.bump(), self.next.bump());
        let name = Name(b"S");
        let (wide, high) = self.size;
        let mut writer = self.pdf.page(page);
        writer.media_box(Rect::new(0.0, 0.0, wide, high)).parent(self.tree).contents(content);
        writer.resources().x_objects().pair(name, drawn);
        writer.finish();
        let mut stream = Content::new();
        stream.save_state().transform([wide, 0.0, 0.0, high, 0.0, 0.0]).x_object(name).restore_state();
        self.pdf.stream(content, &stream.finish());
        self.pdf.extend(&chunk);
        self.pages.push(page);
        Ok(())
    }

    /// The file.
    pub(super) fn finish(mut self, title: &str) -> Vec<u8> {
        self.pdf.catalog(self.catalog).pages(self.tree);
        let count = i32::try_from(self.pages.len()).unwrap_or(i32::MAX);
        self.pdf.pages(self.tree).kids(self.pages).count(count);
        let info = self.next.bump();
        self.pdf.document_info(info).title(TextStr(title)).producer(TextStr("rackful"));
        self.pdf.finish()
    }
}

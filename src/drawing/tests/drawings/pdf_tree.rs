//! How a PDF is read aloud, walked through by a reader that shares no code with its writer (the `lopdf` library): every mark that is
//! painted stands in the tree once, headings in their order, figures described, tables whole. After ISO 32000-1, 14.7 and 14.8, and
//! ISO 14289-1 (all from memory).

use std::collections::BTreeMap;

use baywright_drawing::sheet::{Paper, Sheet, Size};
use baywright_drawing::{Page, Theme, to_pdf};
use baywright_planner::words::{Language, Locale, Units};
use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object, ObjectId};

use super::{bay, owner_report, sheets};

/// An element of the tree, with what it holds.
struct Element {
    kind: String,
    dictionary: Dictionary,
    inner: Vec<Element>,
    /// Page and number of what is painted.
    marks: Vec<(ObjectId, i64)>,
}

struct Reader<'d> {
    document: &'d Document,
}

fn name(of: &Dictionary, key: &[u8]) -> String {
    of.get(key)
        .and_then(Object::as_name)
        .map(|own| String::from_utf8_lossy(own).into_owned())
        .unwrap_or_default()
}

impl Reader<'_> {
    fn dictionary<'o>(&'o self, of: &'o Object) -> &'o Dictionary {
        let (_, own) = self.document.dereference(of).unwrap();
        own.as_dict().unwrap()
    }

    fn all<'o>(&'o self, of: Option<&'o Object>) -> Vec<&'o Object> {
        let Some(of) = of else { return Vec::new() };
        match self.document.dereference(of).unwrap().1 {
            Object::Array(all) => all.iter().collect(),
            _ => vec![of],
        }
    }

    fn element(&self, of: &Object, page: Option<ObjectId>) -> Element {
        let own = self.dictionary(of);
        let page = own.get(b"Pg").and_then(Object::as_reference).ok().or(page);
        let mut element =
            Element { kind: name(own, b"S"), dictionary: own.clone(), inner: Vec::new(), marks: Vec::new() };
        for kid in self.all(own.get(b"K").ok()) {
            if let Ok(number) = kid.as_i64() {
                element.marks.push((page.unwrap(), number));
                continue;
            }
            let inner = self.dictionary(kid);
            if name(inner, b"Type") == "MCR" {
                let page = inner.get(b"Pg").and_then(Object::as_reference).ok().or(page);
                let number = inner.get(b"MCID").and_then(Object::as_i64).unwrap();
                element.marks.push((page.unwrap(), number));
            } else {
                element.inner.push(self.element(kid, page));
            }
        }
        element
    }

    /// What is painted on a page, by its number; all that is painted is either numbered or an ornament.
    fn painted(&self, page: ObjectId) -> Vec<i64> {
        let content = Content::decode(&self.document.get_page_content(page).unwrap()).unwrap();
        let (mut open, mut numbers) = (Vec::new(), Vec::new());
        for step in &content.operations {
            match step.operator.as_str() {
                "BMC" | "BDC" => {
                    let artifact = step.operands[0].as_name().is_ok_and(|own| own == b"Artifact");
                    let number = step.operands.get(1).and_then(|own| own.as_dict().ok());
                    let number = number.and_then(|own| own.get(b"MCID").and_then(Object::as_i64).ok());
                    assert!(artifact != number.is_some(), "neither numbered nor an ornament: {step:?}");
                    assert!(open.is_empty(), "one in another");
                    numbers.extend(number);
                    open.push(artifact);
                }
                "EMC" => drop(open.pop().unwrap()),
                "Tj" | "TJ" | "f" | "f*" | "B" | "B*" | "S" | "s" | "b" | "b*" | "Do" | "sh" => {
                    assert!(!open.is_empty(), "painted outside of all marks: {step:?}");
                }
                _ => {}
            }
        }
        assert!(open.is_empty());
        numbers
    }
}

impl Element {
    fn walk<'e>(&'e self, see: &mut dyn FnMut(&'e Self)) {
        see(self);
        self.inner.iter().for_each(|own| own.walk(see));
    }
}

fn pages_of(kinds: &[Sheet], locale: Locale) -> Vec<Page> {
    let own = bay::crowded();
    let paper = Paper::portrait(Size::A4);
    kinds.iter().flat_map(|kind| sheets::made_in(*kind, &own, paper, locale)).collect()
}

fn checked(pages: &[Page], language: Language) -> Element {
    let document = Document::load_mem(&to_pdf(pages, Theme::Print, language.tag()).unwrap()).unwrap();
    let reader = Reader { document: &document };
    let catalog = document.catalog().unwrap();
    assert_eq!(catalog.get(b"Lang").unwrap().as_str().unwrap(), language.tag().as_bytes());
    assert!(reader.dictionary(catalog.get(b"MarkInfo").unwrap()).get(b"Marked").unwrap().as_bool().unwrap());
    let shown = reader.dictionary(catalog.get(b"ViewerPreferences").unwrap());
    assert!(shown.get(b"DisplayDocTitle").unwrap().as_bool().unwrap());
    let information = reader.dictionary(document.trailer.get(b"Info").unwrap());
    assert!(!information.get(b"Title").unwrap().as_str().unwrap().is_empty());

    let root = catalog.get(b"StructTreeRoot").unwrap();
    let tree = reader.element(root, None);
    let mut told: BTreeMap<ObjectId, Vec<i64>> = BTreeMap::new();
    tree.walk(&mut |own| {
        own.marks.iter().for_each(|(page, number)| told.entry(*page).or_default().push(*number));
    });
    let all = document.get_pages();
    assert_eq!(all.len(), pages.len());
    for page in all.values() {
        let mut painted = reader.painted(*page);
        let mut told = told.remove(page).unwrap_or_default();
        told.sort_unstable();
        painted.sort_unstable();
        assert!(!painted.is_empty() && painted.windows(2).all(|pair| pair[0] != pair[1]));
        assert_eq!(told, painted, "each is read once");
    }
    assert!(told.is_empty(), "marks of pages that are not there");

    // Where a mark is found from its page, its element is the one that holds it.
    let mut level = 0;
    tree.walk(&mut |own| {
        if let Some(now) = own.kind.strip_prefix('H').and_then(|own| own.parse::<u32>().ok()) {
            assert!(now <= level + 1 && now >= 1, "H{now} after H{level}");
            level = now;
        }
        match own.kind.as_str() {
            "Figure" => assert!(own.dictionary.get(b"Alt").unwrap().as_str().unwrap().len() > 20),
            "Table" => {
                assert!(own.marks.is_empty() && own.inner.iter().all(|row| row.kind == "TR"));
                let heads = own.inner.iter().flat_map(|row| &row.inner).filter(|cell| cell.kind == "TH");
                assert!(heads.count() > 0, "a table that says of nothing what it is");
                let cells = own.inner.first().unwrap().inner.len();
                for (at, row) in own.inner.iter().enumerate() {
                    assert_eq!(row.inner.len(), cells, "as many cells in each row");
                    for cell in &row.inner {
                        assert!(!cell.marks.is_empty(), "a cell that cannot be found");
                        assert!(cell.kind == "TD" || cell.kind == "TH", "{}", cell.kind);
                        if cell.kind == "TH" {
                            let of = reader.all(cell.dictionary.get(b"A").ok());
                            let scopes = of.iter().map(|own| name(reader.dictionary(own), b"Scope"));
                            let is_so = |own: String| own == "Row" || own == "Column" && at == 0;
                            assert!(scopes.into_iter().any(is_so), "what it is the head of");
                        }
                    }
                }
            }
            _ => {}
        }
    });
    fonts(&reader);
    tree
}

/// Every font is embedded and says which letters its shapes stand for.
fn fonts(reader: &Reader<'_>) {
    let is = |own: &&Dictionary, kind: &[u8], wanted: &str| name(own, kind) == wanted;
    let all = || reader.document.objects.values().filter_map(|own| own.as_dict().ok());
    let composed: Vec<_> = all().filter(|own| is(own, b"Subtype", "Type0")).collect();
    assert!(composed.len() >= 2, "regular and bold");
    for own in composed {
        let letters = own.get(b"ToUnicode").and_then(Object::as_reference).unwrap();
        let stream = reader.document.get_object(letters).unwrap().as_stream().unwrap();
        let text = stream.decompressed_content().unwrap_or_else(|_| stream.content.clone());
        assert!(String::from_utf8_lossy(&text).contains("beginbf"), "which letters they are");
        for inner in reader.all(own.get(b"DescendantFonts").ok()) {
            let inner = reader.dictionary(inner);
            let described = reader.dictionary(inner.get(b"FontDescriptor").unwrap());
            assert!([&b"FontFile2"[..], b"FontFile3"].iter().any(|key| described.get(key).is_ok()));
        }
    }
    let simple = all().filter(|own| is(own, b"Type", "Font") && !is(own, b"Subtype", "Type0"));
    assert!(simple.into_iter().all(|own| name(own, b"Subtype").starts_with("CIDFont")), "no other fonts");
}

/// All that is painted is in the tree once, in both languages, with whole tables and headings in their order.
#[test]
fn all_of_it_is_read_once_and_in_order() {
    for (language, units) in [(Language::English, Units::Millimetres), (Language::German, Units::FeetInches)]
    {
        let tree = checked(&pages_of(&Sheet::ALL, Locale::of(language, units)), language);
        let mut count: BTreeMap<String, usize> = BTreeMap::new();
        tree.walk(&mut |own| *count.entry(own.kind.clone()).or_default() += 1);
        for (kind, least) in
            [("H1", 7), ("H2", 10), ("Table", 10), ("TH", 30), ("TD", 100), ("Figure", 5), ("P", 50)]
        {
            assert!(count.get(kind).is_some_and(|own| *own >= least), "{kind}: {count:?}");
        }
    }
}

/// The distances of a mark sheet are a table: four columns' heads over as many groups as stand beside one another, each distance in a
/// cell, and a cell for what is read.
#[test]
fn distances_are_cells() {
    let pages = pages_of(&[Sheet::Marks], Locale::default());
    let tree = checked(&pages, Language::English);
    let mut tables = Vec::new();
    tree.walk(&mut |own| {
        if own.kind == "Table" {
            tables.push(own);
        }
    });
    let distances = tables.iter().find(|own| own.inner.first().is_some_and(|row| row.inner[0].kind == "TH"));
    let distances = distances.unwrap();
    assert_eq!(distances.inner[0].inner.len() % 3, 0, "marks, must be, read");
    assert!(distances.inner.len() > 3);
}

/// The owner's report is read like the sheets: tables with and without heads, figures described.
#[test]
fn the_owners_report_is_read_once_and_in_order() {
    for (language, units) in [(Language::English, Units::Millimetres), (Language::German, Units::FeetInches)]
    {
        let found = owner_report::found(6, 9, false);
        let pages = owner_report::pages(&found, Paper::portrait(Size::A4), Locale::of(language, units));
        let tree = checked(&pages, language);
        let mut count: BTreeMap<String, usize> = BTreeMap::new();
        tree.walk(&mut |own| *count.entry(own.kind.clone()).or_default() += 1);
        for (kind, least) in [("H1", 1), ("H2", 6), ("Table", 8), ("TH", 20), ("TD", 60), ("Figure", 2)] {
            assert!(count.get(kind).is_some_and(|own| *own >= least), "{kind}: {count:?}");
        }
    }
}

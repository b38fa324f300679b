//! A record of any kind: read whole, or refused with mistakes that have their place in the file; never a panic.

use std::fs;

use kerfleaf::shop;

/// Words of a record.
pub const WORDS: &[&str] = &[
    "title = \"A\"\n",
    "status = \"published\"\n",
    "[board]\n",
    "wood = \"birch-plywood\"\n",
    "thickness = \"1/4 in\"\n",
    "kerf = 0\n",
    "[drawing]\n",
    "join = \"0.1 mm\"\n",
    "[drawing.layers]\n",
    "cut = \"cuts\"\n",
    "cut = { stroke = \"#345\" }\n",
    "[[paint]]\n",
    "number = 1\n",
    "colour = \"#abc\"\n",
    "[[offer]]\n",
    "form = \"blank\"\n",
    "price = \"84.00\"\n",
    "price = 84\n",
    "[limits]\n",
    "neck = \"2 mm\"\n",
    "[in.de]\n",
    "[photos]\n",
    "\"",
    "'''",
    "=",
    "[",
    "]",
    "{",
    "}",
    "\n",
    "0x",
    "1979-05-27",
    "nan",
    "-0",
    "\u{feff}",
];

const SHOP: &str =
    "name = \"Fuzz\"\ncurrency = \"EUR\"\norder = \"mailto:a@example.org\"\nlanguages = [\"en\", \"de\"]\n";
const DRAWING: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"10mm\" height=\"10mm\" viewBox=\"0 0 10 10\"><path id=\"cuts\" d=\"M0 0h9v9h-9z\"/></svg>";

/// As the record of the one design of a shop.
pub fn holds(data: &[u8]) {
    let folder = tempfile::tempdir().expect("a folder");
    let design = folder.path().join("designs/one");
    fs::create_dir_all(&design).expect("a folder");
    fs::write(folder.path().join("shop.toml"), SHOP).expect("written");
    fs::write(design.join("drawing.svg"), DRAWING).expect("written");
    fs::write(design.join("record.toml"), data).expect("written");
    let shop = shop::read(folder.path()).expect("a shop");
    let [entry] = shop.entries.as_slice() else { panic!("{} entries of one design", shop.entries.len()) };
    assert!(entry.design.is_some() || !entry.mistakes.is_empty(), "a design, or why there is none");
    // Told with the lines they are about.
    let told = shop::render_all(&entry.mistakes);
    assert_eq!(told.is_empty(), entry.mistakes.is_empty());
    if let Some(design) = &entry.design {
        assert!(design.board.thickness_mm > 0.0 && design.board.kerf_mm >= 0.0);
    }
}

//! What cannot stand in a folder of cases: links, sockets, and values rather than reports.

use std::fs;
use std::os::unix::fs::symlink;
use std::os::unix::net::UnixListener;
use std::path::Path;

use super::*;
use crate::drawing::{Layer, Selector};
use crate::shape::Rgb;
use crate::shop::{self, BlankBoard, Form, Paper, WoodDensity};
use crate::units::Money;

const SHOP: &str = "name = \"The Reed Bed\"\ncurrency = \"EUR\"\norder = \"mailto:bench@example.org\"\n";
const RECORD: &str = "title = \"Heron\"\nstatus = \"draft\"\n[board]\nwood = \"mdf\"\nthickness = \"3 mm\"\n\
                      [drawing.layers]\ncut = \"cuts\"\n";

fn write(root: &Path, path: &str, text: &str) {
    let path = root.join(path);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

/// A shop with one sound design, and a folder beside it that it has no business in.
fn shop_and_outside() -> (tempfile::TempDir, PathBuf, PathBuf) {
    let both = tempfile::tempdir().unwrap();
    let (root, outside) = (both.path().join("shop"), both.path().join("outside"));
    write(&root, "shop.toml", SHOP);
    write(&root, "designs/heron/record.toml", RECORD);
    write(&root, "designs/heron/drawing.svg", "<svg/>");
    write(&outside, "record.toml", RECORD);
    write(&outside, "drawing.svg", "<svg>secret</svg>");
    (both, root, outside)
}

fn messages(shop: &Shop) -> Vec<String> {
    let mistakes = shop.mistakes.iter().chain(shop.entries.iter().flat_map(|entry| &entry.mistakes));
    mistakes.map(|mistake| format!("{}: {}", mistake.at, mistake.message)).collect()
}

#[test]
fn what_is_no_shop_is_an_error_of_the_call() {
    let (_both, root, outside) = shop_and_outside();
    assert!(matches!(read(&root.join("nowhere")), Err(ShopError::NotAFolder { .. })));
    assert!(matches!(read(&root.join("shop.toml")), Err(ShopError::NotAFolder { .. })));
    assert!(matches!(read(&outside), Err(ShopError::NoShopToml { .. })));
    fs::remove_file(root.join("shop.toml")).unwrap();
    write(&outside, "shop.toml", SHOP);
    symlink(outside.join("shop.toml"), root.join("shop.toml")).unwrap();
    assert!(matches!(read(&root), Err(ShopError::Unreadable { .. })));
}

#[test]
fn links_within_the_shop_are_followed() {
    let (_both, root, _outside) = shop_and_outside();
    write(&root, "drawings/heron.svg", "<svg>heron</svg>");
    fs::remove_file(root.join("designs/heron/drawing.svg")).unwrap();
    symlink("../../drawings/heron.svg", root.join("designs/heron/drawing.svg")).unwrap();
    symlink("heron", root.join("designs/egret")).unwrap();
    let shop = read(&root).unwrap();
    assert_eq!(messages(&shop), Vec::<String>::new());
    let svgs: Vec<_> =
        shop.entries.iter().map(|e| (e.slug.as_str(), e.design.as_ref().unwrap().drawing.svg.as_str())).collect();
    assert_eq!(svgs, [("egret", "<svg>heron</svg>"), ("heron", "<svg>heron</svg>")]);
}

#[test]
fn links_out_of_the_shop_are_refused() {
    let (_both, root, outside) = shop_and_outside();
    symlink(&outside, root.join("designs/away")).unwrap();
    symlink(root.join("nowhere"), root.join("designs/broken")).unwrap();
    fs::remove_file(root.join("designs/heron/drawing.svg")).unwrap();
    symlink(outside.join("drawing.svg"), root.join("designs/heron/drawing.svg")).unwrap();
    symlink(&outside, root.join("designs/heron/photos")).unwrap();
    symlink(outside.join("record.toml"), root.join("designs/heron/story.md")).unwrap();
    symlink(&outside, root.join("pages")).unwrap();
    write(&root, "theme/a.css", "");
    symlink(outside.join("record.toml"), root.join("theme/b.css")).unwrap();
    symlink("..", root.join("theme/round")).unwrap();
    let shop = read(&root).unwrap();
    assert!(shop.entries.iter().all(|entry| entry.design.is_none() && !entry.mistakes.is_empty()));
    let all = messages(&shop);
    for path in [
        "designs/away",
        "designs/heron/drawing.svg",
        "designs/heron/photos",
        "designs/heron/story.md",
        "pages",
        "theme/b.css",
    ] {
        assert!(all.contains(&format!("{path}: {path} leads out of the shop folder.")), "{path} in {all:#?}");
    }
    assert!(all.contains(&"designs/broken: There is no designs/broken.".to_owned()), "{all:#?}");
    assert!(shop.theme.contains_key("a.css"));
    assert!(!shop.theme.contains_key("b.css"));
    // The link to the shop itself is walked once, and the theme within it is not walked again.
    assert!(all.iter().any(|m| m.starts_with("theme/round/theme:")), "{all:#?}");
    assert!(shop.theme.values().all(|bytes| !bytes.windows(6).any(|w| w == b"secret")));
}

#[test]
fn what_is_no_plain_file_is_not_opened() {
    let (_both, root, _outside) = shop_and_outside();
    fs::remove_file(root.join("designs/heron/drawing.svg")).unwrap();
    let _socket = UnixListener::bind(root.join("designs/heron/drawing.svg")).unwrap();
    let shop = read(&root).unwrap();
    let path = "designs/heron/drawing.svg";
    assert_eq!(messages(&shop), [format!("{path}: {path} is not a plain file.")]);
}

#[test]
fn a_shop_toml_that_is_no_text_has_one_mistake() {
    let (_both, root, _outside) = shop_and_outside();
    fs::write(root.join("shop.toml"), b"name = \"\xff\"").unwrap();
    assert_eq!(messages(&read(&root).unwrap()), ["shop.toml: shop.toml is not UTF-8 text: line 1 holds other bytes."]);
}

#[test]
fn a_sound_record_holds_what_was_written() {
    let case = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/records/sound");
    let shop = read(&case).unwrap();
    let settings = &shop.settings;
    assert_eq!(settings.languages, ["en", "de", "pt-BR"]);
    assert_eq!(settings.web_address.as_deref(), Some("https://example.org/puzzles"));
    assert_eq!(settings.paper, [Paper::Letter, Paper::A4]);
    assert_eq!(settings.packs[0].outer_mm, [250.0, 220.0, 35.0]);
    assert_eq!(settings.postage[0].max_mm, Some([353.0, 250.0, 80.0]));
    assert_eq!(settings.postage[0].price, Money { minor: 590, decimals: 2 });
    assert_eq!(settings.workshop.travel_speed_mm_s, Some(200.0));
    assert_eq!(settings.limits.largest_mm2, 4000.0);
    assert_eq!(shop.pages[1].language.as_deref(), Some("pt-BR"));
    assert!(shop.theme.contains_key("sheets/label.typ"));

    let design = shop.entries[0].design.as_ref().unwrap();
    assert_eq!(design.added.as_deref(), Some("2026-03-14"));
    assert_eq!(design.board.wood.density, WoodDensity::GravityAt12(0.41));
    assert_eq!((design.board.thickness_mm, design.board.kerf_mm, design.board.moisture_percent), (6.35, 0.0, 9.5));
    assert_eq!((design.limits.neck_mm, design.limits.smallest_mm2, design.limits.edge_holds), (2.0, 60.0, false));
    assert_eq!(
        design.paints.iter().map(|p| (p.number, p.colour)).collect::<Vec<_>>(),
        [(1, Rgb::new(0x9a, 0x8b, 0x44)), (2, Rgb::new(0x6b, 0x5a, 0x44)),]
    );
    assert_eq!(design.words["de"].paints[&2].mix.as_deref(), Some("Umbra, viel Wasser"));
    assert_eq!(design.words["de"].story.as_deref(), Some("Er stand da.\n"));
    assert_eq!(design.drawing.width_mm, Some(300.0));
    assert_eq!(design.drawing.file, "designs/heron/art/heron.svg");
    assert_eq!(design.drawing.layers_at.text, "[drawing.layers]");
    let layers: Vec<Layer> = design.drawing.layers.0.iter().map(|(layer, _)| *layer).collect();
    let written =
        [Layer::Score, Layer::Cut, Layer::Novelty, Layer::Void, Layer::Marks, Layer::Personal, Layer::PersonalScore];
    assert_eq!(layers, written);
    assert_eq!(
        design.drawing.layers.0[1].1,
        [
            Selector::Name("cuts".into()),
            Selector::All {
                id: None,
                label: None,
                class: Some("cut".into()),
                stroke: Some(Rgb::new(0x33, 0x44, 0x55)),
                fill: None
            },
        ]
    );
    let [painted, plain, blank] = design.offers.as_slice() else { panic!("three offers") };
    assert_eq!((painted.price.to_string(), painted.stock, painted.pack), ("84.00".into(), Some(0), Some(0)));
    assert_eq!(painted.finish_g, 14.1747615625);
    assert_eq!((plain.form, plain.code.as_str(), plain.stock), (Form::Plain, "heron-plain", None));
    assert_eq!((blank.board, blank.primed, blank.contains.len()), (BlankBoard::Scored, true, 2));
    assert_eq!(design.photos[0].alt.as_deref(), Some("The finished puzzle on a slate table."));
}

/// Reads the sound case with another record; whatever it says, a design is missing exactly if there is a mistake.
fn read_with(root: &Path, record: &str) -> Shop {
    fs::write(root.join("designs/heron/record.toml"), record).unwrap();
    let shop = read(root).unwrap();
    for entry in &shop.entries {
        assert_eq!(entry.design.is_none(), !entry.mistakes.is_empty(), "{record}");
    }
    shop::render_all(shop.entries.iter().flat_map(|entry| &entry.mistakes));
    shop
}

/// The sound case in a folder of its own, and its record.
fn sound_copy() -> (tempfile::TempDir, String) {
    let case = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/records/sound");
    let root = tempfile::tempdir().unwrap();
    let files = ["shop.toml", "reed.svg", "designs/heron/art/heron.svg", "designs/heron/photos/01-table.jpg"];
    for path in files {
        fs::create_dir_all(root.path().join(path).parent().unwrap()).unwrap();
        fs::copy(case.join(path), root.path().join(path)).unwrap();
    }
    (root, fs::read_to_string(case.join("designs/heron/record.toml")).unwrap())
}

#[test]
fn a_record_cut_off_anywhere_is_read_as_far_as_it_goes() {
    let (root, record) = sound_copy();
    for end in (0..record.len()).filter(|end| record.is_char_boundary(*end)) {
        read_with(root.path(), &record[..end]);
    }
}

#[test]
fn any_value_in_place_of_another_is_read_or_reported_with_a_line() {
    let (root, record) = sound_copy();
    let lines: Vec<&str> = record.lines().collect();
    let odd = [
        "0",
        "-1",
        "nan",
        "inf",
        "1e308",
        "0x10",
        "\"\"",
        "\"x\"",
        "[]",
        "[[]]",
        "{}",
        "true",
        "1979-05-27T07:32:00Z",
        "07:32:00",
    ];
    for (number, line) in lines.iter().enumerate().filter(|(_, line)| line.contains(" = ")) {
        let (key, _) = line.split_once(" = ").unwrap();
        for value in odd {
            let mut changed = lines.clone();
            let other = format!("{key} = {value}");
            changed[number] = &other;
            let shop = read_with(root.path(), &changed.join("\n"));
            let blamed = shop.entries[0].mistakes.iter().all(|mistake| mistake.at.line.is_some());
            assert!(blamed, "{other}: {}", shop::render_all(&shop.entries[0].mistakes));
        }
    }
}

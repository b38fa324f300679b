//! One folder under `designs/`: its record and the files that belong to it.

use std::collections::BTreeMap;

use toml::de::DeValue;

use super::settings::{Ground, read_limits};
use super::{files, goes_down, is_slug, layers, offers, text_of, words};
use crate::shop::Entry;
use crate::shop::fields::{Fields, Item};
use crate::shop::folder::{Folder, Inside, Kind, MOST_DRAWING, MOST_TEXT, Refused};
use crate::shop::item::Least;
use crate::shop::mistake::{Mistake, Place};
use crate::shop::nearest::nearest;
use crate::shop::photo::PhotoFile;
use crate::shop::record::{Audience, Board, Design, DrawingFile, Paint, Photo, Source, Status};
use crate::shop::toml_file::TomlFile;
use crate::shop::wood::{FIBRE_SATURATION_PERCENT, Wood};

/// Kerf where the record is silent, mm. Handbook, record.
const KERF_MM: f64 = 0.2;
/// Join where the record is silent, mm. Handbook, record.
const JOIN_MM: f64 = 0.1;
/// Moisture where the record is silent, percent of the dry mass. Handbook, record.
const MOISTURE_PERCENT: f64 = 8.0;

const STATUSES: [(&str, Status); 2] = [("draft", Status::Draft), ("published", Status::Published)];

/// Stock codes with the places to blame if another offer has the same.
type Codes = Vec<(String, Place)>;

/// Reads a design's folder, and the codes of its offers, those of a broken record too.
pub(super) fn read(folder: &Folder, ground: &Ground, inside: &Inside) -> (Entry, Codes) {
    let path = &inside.path;
    let mut mistakes = Vec::new();
    if !is_slug(&inside.name) {
        let message = format!("`{}` cannot be the name of a design.", inside.name);
        let help = super::slug_help(&inside.name, "folder");
        mistakes.push(Mistake::new(Place::whole(path), message, Some(help)));
    }
    let record = format!("{path}/record.toml");
    let bytes = folder.bytes(&record, MOST_TEXT);
    let no_record = matches!(bytes, Err(Refused::Absent));
    let text = match bytes {
        Ok(bytes) => text_of(bytes, &record),
        Err(Refused::Absent) => {
            let help = "Write one, or move the folder out of designs.";
            Err(Box::new(Mistake::new(Place::whole(path), format!("{path} holds no record.toml."), Some(help.into()))))
        }
        Err(refused) => Err(Box::new(refused.mistake(Place::whole(&record), &record))),
    };
    let text = match text {
        Ok(text) => text,
        Err(mistake) => {
            mistakes.push(*mistake);
            return (Entry { slug: inside.name.clone(), status: None, design: None, mistakes, no_record }, Vec::new());
        }
    };
    let mut beside = Vec::new();
    let file = TomlFile::new(record, text);
    let (status, design, codes) = {
        let table = file.parse();
        read_table(folder, ground, inside, file.fields(table.get_ref(), "the record"), &mut beside)
    };
    mistakes.extend(file.into_mistakes());
    mistakes.extend(beside);
    let design = design.filter(|_| mistakes.is_empty());
    (Entry { slug: inside.name.clone(), status, design, mistakes, no_record }, codes)
}

/// Reads a record for nothing but the trace of it.
pub(in crate::shop) fn read_traced(folder: &Folder, ground: &Ground, fields: Fields) {
    let inside = Inside { name: "heron".into(), unicode: true, path: "designs/heron".into(), kind: Ok(Kind::Folder) };
    read_table(folder, ground, &inside, fields, &mut Vec::new());
}

fn read_table(
    folder: &Folder,
    ground: &Ground,
    inside: &Inside,
    fields: Fields,
    beside: &mut Vec<Mistake>,
) -> (Option<Status>, Option<Design>, Codes) {
    let text = |key| fields.get(key).and_then(|item: Item| item.text());
    let title = fields.need("title", "\"The name of the puzzle\"").and_then(|item| item.text());
    let status = fields.need("status", "\"draft\"").and_then(|item| item.word(&STATUSES));
    let summary = text("summary");
    let edition = text("edition");
    let added = fields.get("added").and_then(|item| item.day());
    let subjects = fields.get("subjects").and_then(|item| item.texts()).unwrap_or_default();
    let made_for = fields
        .get("made_for")
        .and_then(|item| item.word(&[("adults", Audience::Adults), ("children", Audience::Children)]));

    let board = board(&fields, ground);
    let drawing = drawing(&fields, folder, &inside.path);
    let paints = paints(fields.tables("paint"));
    let mut codes = Vec::new();
    let mut read_offers = Vec::new();
    for row in fields.tables("offer") {
        let (offer, code) = offers::read(row, &inside.name, ground);
        read_offers.extend(offer);
        codes.extend(code);
    }
    let limits = ground.settings.limits;
    let limits = fields.table("limits", "[limits]").map_or(limits, |table| read_limits(table, limits, Source::Record));

    let numbers: Vec<u32> = paints.iter().map(|paint| paint.number).collect();
    let mut words = words::of_record(&fields, ground, &numbers);
    let within = folder.list(&inside.path).unwrap_or_default();
    let (story, further) = files::stories(folder, ground, &within, beside);
    for (language, story) in further {
        words.entry(language).or_default().story = Some(story);
    }
    let photos = files::photos(folder, &inside.path, beside);
    let photos = with_texts(photos, fields.table("photos", "[photos]"));
    fields.finish();
    let design = || {
        Some(Design {
            slug: inside.name.clone(),
            title: title?,
            summary,
            status: status?,
            added,
            subjects,
            made_for,
            edition,
            story,
            words,
            board: board?,
            drawing: drawing?,
            paints,
            offers: read_offers,
            limits,
            photos,
        })
    };
    (status, design(), codes)
}

fn board(fields: &Fields, ground: &Ground) -> Option<Board> {
    let fields = fields.need("board", "{ wood = \"birch-plywood\", thickness = \"6 mm\" }")?.table("[board]")?;
    let wood = fields.need("wood", "\"birch-plywood\"").and_then(|item| wood(&item, ground));
    let thickness = fields.need("thickness", "\"6 mm\"").and_then(|item| item.length_mm(Least::MoreThanZero));
    let kerf = fields.get("kerf").map_or(Some(KERF_MM), |item| item.length_mm(Least::Zero));
    let density = fields.get("density").and_then(|item| item.density_kg_m3());
    let moisture =
        fields.get("moisture").map_or(Some(MOISTURE_PERCENT), |item| item.number(0.0, FIBRE_SATURATION_PERCENT));
    fields.finish();
    Some(Board {
        wood: wood?,
        thickness_mm: thickness?,
        kerf_mm: kerf?,
        density_kg_m3: density,
        moisture_percent: moisture?,
    })
}

fn wood(item: &Item, ground: &Ground) -> Option<Wood> {
    let id = item.text()?;
    let known = || ground.settings.woods.iter().chain(Wood::table());
    let found = known().find(|wood| wood.id == id);
    if found.is_none() {
        if ground.broken_woods.contains(&id) {
            item.wrong(format!("The wood `{id}` cannot be used."), "Mend its row in shop.toml.");
            return None;
        }
        let ids: Vec<&str> = known().map(|wood| wood.id.as_str()).collect();
        let help = match nearest(&id, ids.iter().copied()) {
            Some(near) => format!("Did you mean `{near}`?"),
            None => format!("Add a `[[wood]]` to shop.toml, or choose one of {}.", ids.join(", ")),
        };
        item.wrong(format!("`{id}` is not a wood of the table or of the shop."), help);
    }
    found.cloned()
}

fn drawing(fields: &Fields, folder: &Folder, design: &str) -> Option<DrawingFile> {
    let (file, record) = (fields.file(), fields);
    let fields = fields.table("drawing", "[drawing]");
    let mut place = fields.as_ref().and_then(Fields::span);
    let stated = fields.as_ref().and_then(|fields| fields.get("file"));
    let svg = match &stated {
        Some(item) => item.text().and_then(|name| {
            if goes_down(&name) {
                return drawing_text(folder, &format!("{design}/{name}"), |_| item.place(), record);
            }
            item.wrong(
                format!("`{name}` leads out of the design's folder."),
                "Name a file inside of it, without `..`.",
            );
            None
        }),
        None => drawing_text(folder, &format!("{design}/drawing.svg"), Place::whole, record),
    };
    let length =
        |key| fields.as_ref().and_then(|fields| fields.get(key)).map(|item| item.length_mm(Least::MoreThanZero));
    let join = length("join").unwrap_or(Some(JOIN_MM));
    let width = length("width").unwrap_or(None);
    let mut found = crate::drawing::Layers::default();
    if let Some(fields) = fields {
        if let Some(table) = fields.table("layers", "[drawing.layers]") {
            place = table.span();
            found = layers::read(table);
        }
        fields.finish();
    }
    let (path, svg) = svg?;
    Some(DrawingFile {
        file: path,
        svg,
        join_mm: join?,
        width_mm: width,
        layers: found,
        layers_at: place.map_or_else(|| file.whole(), |span| file.place(span)),
    })
}

/// The text of a drawing with its path in the shop; a mistake stands where `at` says, given that path.
fn drawing_text(
    folder: &Folder,
    path: &str,
    at: impl Fn(String) -> Place,
    record: &Fields,
) -> Option<(String, String)> {
    let text = match folder.bytes(path, MOST_DRAWING) {
        Ok(bytes) => text_of(bytes, path),
        Err(Refused::Absent) => {
            let help = "Save the drawing under this name, or name another with `file` in `[drawing]`.";
            Err(Box::new(Mistake::new(at(path.to_owned()), format!("There is no drawing {path}."), Some(help.into()))))
        }
        Err(refused) => Err(Box::new(refused.mistake(at(path.to_owned()), path))),
    };
    match text {
        Ok(text) => Some((path.to_owned(), text)),
        Err(mistake) => {
            record.file().note(*mistake);
            None
        }
    }
}

/// Paints by number; a number or a colour that comes twice is a mistake.
fn paints(rows: Vec<Fields>) -> Vec<Paint> {
    let mut paints: BTreeMap<u32, Paint> = BTreeMap::new();
    for fields in rows {
        let number_item = fields.need("number", "1");
        let number = number_item.as_ref().and_then(|item| item.whole(1));
        let name = fields.need("name", "\"Dawn yellow\"").and_then(|item| item.text());
        let colour_item = fields.need("colour", "\"#f2c14e\"");
        let colour = colour_item.as_ref().and_then(|item| item.colour());
        let text = |key| fields.get(key).and_then(|item: Item| item.text());
        let (mix, wash) = (text("mix"), text("wash"));
        fields.finish();
        if let (Some(colour), Some(item)) = (colour, &colour_item)
            && let Some(other) = paints.values().find(|paint| paint.colour == colour && Some(paint.number) != number)
        {
            let message = format!("Paint {} has this colour already.", other.number);
            item.wrong(message, "Give each paint a colour of its own: the drawing's fills tell them apart by it.");
        }
        if let (Some(number), Some(item)) = (number, &number_item)
            && paints.contains_key(&number)
        {
            item.wrong(format!("There is a paint {number} already."), "Give each paint a number of its own.");
        } else if let (Some(number), Some(name), Some(colour)) = (number, name, colour) {
            paints.insert(number, Paint { number, name, colour, mix, wash });
        }
    }
    paints.into_values().collect()
}

/// Photographs with their alternative texts; a text for a file that is not there is a mistake.
fn with_texts(photos: Vec<(String, PhotoFile)>, fields: Option<Fields>) -> Vec<Photo> {
    let mut photos: Vec<Photo> = photos.into_iter().map(|(file, content)| Photo { file, alt: None, content }).collect();
    for (key, item) in fields.iter().flat_map(Fields::open) {
        let alt = match item.value {
            DeValue::Table(_) => {
                item.wrong_kind("text", "Put the file's name between quotation marks as well.");
                continue;
            }
            _ => item.text(),
        };
        match photos.iter_mut().find(|photo| photo.file == item.key) {
            Some(photo) => photo.alt = alt,
            None => {
                let help = match nearest(&item.key, photos.iter().map(|photo| photo.file.as_str())) {
                    Some(near) => format!("Did you mean `{near}`?"),
                    None => "Put the photograph into the folder photos beside the record.".to_owned(),
                };
                item.file.mistake(key, format!("There is no photograph {}.", item.key), Some(help));
            }
        }
    }
    photos
}

//! shop.toml.

use unic_langid::LanguageIdentifier;

use super::{goes_down, words};
use crate::shop::currency;
use crate::shop::fields::{Fields, Item};
use crate::shop::folder::{Folder, MOST_PICTURE};
use crate::shop::item::Least;
use crate::shop::mistake::Mistake;
use crate::shop::record::{LimitSources, Limits, Source};
use crate::shop::settings::{
    Currency, Look, Maker, Market, Pack, Pan, Paper, Postage, Settings, Units, Weights, Workshop,
};
use crate::shop::toml_file::TomlFile;
use crate::shop::wood::{self, Wood};

/// The settings as far as they could be read, and what records need to know of the rest.
pub(in crate::shop) struct Ground {
    pub(super) settings: Settings,
    /// Whether `languages` holds no mistake, so that a language outside of it is one.
    pub(super) languages_known: bool,
    /// Names of packs whose rows hold mistakes.
    pub(super) broken_packs: Vec<String>,
    /// Ids of own woods whose rows hold mistakes.
    pub(super) broken_woods: Vec<String>,
    /// Mistakes of shop.toml.
    pub(super) mistakes: Vec<Mistake>,
}

impl Ground {
    /// The shop's spelling of one of its languages other than the first; `None` for any other.
    pub(super) fn further_language(&self, written: &str) -> Option<String> {
        self.settings.languages.iter().skip(1).find(|language| language.eq_ignore_ascii_case(written)).cloned()
    }
}

/// Stands in for a currency that could not be read (ISO 4217: XXX, no currency), with as many decimals as any has,
/// so that no price is blamed for it.
fn no_currency() -> Currency {
    Currency { code: "XXX".into(), decimals: 4 }
}

/// Reads shop.toml; never fails, see [`Ground`].
pub(in crate::shop) fn read(folder: &Folder, file: TomlFile) -> Ground {
    let mut ground = {
        let table = file.parse();
        read_table(folder, file.fields(table.get_ref(), "shop.toml"))
    };
    ground.mistakes = file.into_mistakes();
    ground
}

pub(in crate::shop) fn read_table(folder: &Folder, fields: Fields) -> Ground {
    let optional = |key| fields.get(key).and_then(|item: Item| item.text());
    let currency =
        fields.need("currency", "\"EUR\"").and_then(|item| currency::read(&item)).unwrap_or_else(no_currency);
    let languages = fields.get("languages").map_or(Some(vec!["en".to_owned()]), |item| languages(&item));
    let languages_known = languages.is_some();
    let (packs, broken_packs) = rows(fields.tables("pack"), "name", |row| pack(row, &currency));
    let (woods, broken_woods) = rows(fields.tables("wood"), "id", wood::read);
    let settings = Settings {
        name: fields.need("name", "\"The name of the shop\"").and_then(|item| item.text()).unwrap_or_default(),
        tagline: optional("tagline"),
        about: optional("about"),
        price_note: optional("price_note"),
        languages: languages.unwrap_or_else(|| vec!["en".to_owned()]),
        words: Default::default(),
        units: fields
            .get("units")
            .and_then(|item| item.word(&[("metric", Units::Metric), ("us", Units::Us), ("both", Units::Both)]))
            .unwrap_or(Units::Metric),
        paper: fields
            .get("paper")
            .and_then(|item| each_once(&item, &[("a4", Paper::A4), ("letter", Paper::Letter)], 1))
            .unwrap_or_else(|| vec![Paper::A4, Paper::Letter]),
        web_address: fields.get("web_address").and_then(|item| web_address(&item)),
        order: fields
            .need("order", "\"mailto:shop@example.org\"")
            .and_then(|item| way_to_order(&item))
            .unwrap_or_default(),
        markets: fields
            .get("markets")
            .and_then(|item| each_once(&item, &[("eu", Market::Eu), ("uk", Market::Uk), ("us", Market::Us)], 0))
            .unwrap_or_default(),
        maker: fields.table("maker", "[maker]").map(maker),
        postage: fields.tables("postage").into_iter().filter_map(|row| postage(row, &currency)).collect(),
        pans: fields.tables("pan").into_iter().filter_map(pan).collect(),
        difficulty: fields.table("difficulty", "[difficulty]").map(weights).unwrap_or_default(),
        limits: fields
            .table("limits", "[limits]")
            .map_or_else(Limits::default, |limits| read_limits(limits, Limits::default(), Source::Shop)),
        look: look(fields.table("look", "[look]"), folder),
        workshop: fields.table("workshop", "[workshop]").map(|table| workshop(table, &currency)).unwrap_or_default(),
        currency,
        packs,
        woods,
    };
    let mut ground = Ground { settings, languages_known, broken_packs, broken_woods, mistakes: Vec::new() };
    ground.settings.words = words::of_shop(&fields, &ground);
    fields.finish();
    ground
}

/// Rows that are named: those without a mistake, and the names of the others. A name that comes twice is a mistake,
/// and so is a wood of the program's own table.
fn rows<T>(rows: Vec<Fields>, key: &'static str, read: impl Fn(Fields) -> Option<T>) -> (Vec<T>, Vec<String>) {
    let (mut sound, mut broken, mut names) = (Vec::new(), Vec::new(), Vec::<String>::new());
    for row in rows {
        let named = row.get(key);
        let name = named.as_ref().and_then(|item| item.value.as_str()).map(str::to_owned);
        if let (Some(item), Some(name)) = (&named, &name) {
            if key == "id" && Wood::table().iter().any(|wood| wood.id == *name) {
                item.wrong(
                    format!("`{name}` is in the program's own table of woods."),
                    "Choose another id for your board.",
                );
            } else if names.contains(name) {
                item.wrong(format!("`{name}` stands here twice."), format!("Give each row its own {key}."));
            }
        }
        names.extend(name.clone());
        match read(row) {
            Some(value) => sound.push(value),
            None => broken.extend(name),
        }
    }
    (sound, broken)
}

/// A list of words, each at most once, at least so many.
fn each_once<T: Copy + PartialEq>(item: &Item, words: &[(&str, T)], least: usize) -> Option<Vec<T>> {
    let items = item.items()?;
    if items.len() < least {
        item.wrong(format!("`{}` is empty.", item.key), "Name at least one, or leave the key out.");
        return None;
    }
    let mut found = Vec::new();
    let mut sound = true;
    for item in &items {
        match item.word(words) {
            Some(word) if !found.contains(&word) => found.push(word),
            Some(_) => {
                item.wrong(format!("{} stands here twice.", item.written()), "Leave one out.");
                sound = false;
            }
            None => sound = false,
        }
    }
    sound.then_some(found)
}

/// Language tags by BCP 47 in their usual spelling, the first that of the shop's root.
fn languages(item: &Item) -> Option<Vec<String>> {
    let items = item.items()?;
    if items.is_empty() {
        item.wrong("`languages` is empty.", "Name at least one, such as `\"en\"`.");
        return None;
    }
    let mut tags = Vec::new();
    let mut sound = true;
    for item in &items {
        match language(item) {
            Some(tag) if !tags.contains(&tag) => tags.push(tag),
            Some(tag) => {
                item.wrong(format!("`{tag}` stands here twice."), "Leave one out.");
                sound = false;
            }
            None => sound = false,
        }
    }
    sound.then_some(tags)
}

fn language(item: &Item) -> Option<String> {
    let text = item.text()?;
    // RFC 5646, 2.2.1: no language is registered whose subtag has more than three letters.
    let tag = text.parse::<LanguageIdentifier>().ok().filter(|tag| (2..=3).contains(&tag.language.as_str().len()));
    let tag = tag.map(|tag| tag.to_string()).filter(|tag| tag.eq_ignore_ascii_case(&text));
    if tag.is_none() {
        item.wrong(
            format!("`{text}` is not a language tag."),
            "Write one of BCP 47, such as `\"en\"`, `\"de\"` or `\"pt-BR\"`.",
        );
    }
    tag
}

/// Whether text can stand in an address as it is: RFC 3986 leaves out blanks, quotation marks and a few more.
fn fits_an_address(text: &str) -> bool {
    !text.is_empty() && !text.chars().any(|c| c.is_whitespace() || c.is_control() || "\"<>\\^`{|}".contains(c))
}

/// The host of an http address, without user and port.
fn host(after_scheme: &str) -> &str {
    let authority = after_scheme.split(['/', '?', '#']).next().unwrap_or_default();
    let host = authority.rsplit('@').next().unwrap_or_default();
    host.split(':').next().unwrap_or_default()
}

/// `order`: an address that a buyer's device opens.
pub(super) fn way_to_order(item: &Item) -> Option<String> {
    let text = item.text()?;
    let (scheme, rest) = text.split_once(':').unwrap_or(("", &text));
    let sound = fits_an_address(rest)
        && match scheme {
            "https" => rest.strip_prefix("//").is_some_and(|rest| !host(rest).is_empty()),
            "mailto" => rest.split_once('@').is_some_and(|(user, host)| !user.is_empty() && !host.is_empty()),
            "tel" => rest.bytes().any(|b| b.is_ascii_digit()) && rest.bytes().all(|b| b.is_ascii_graphic()),
            _ => false,
        };
    if !sound {
        let help = match scheme {
            "http" => "Use https.",
            "" if rest.contains('@') => "Write `mailto:` in front.",
            _ => {
                "Write for instance `\"https://example.org/order\"`, `\"mailto:shop@example.org\"` or `\"tel:+4940123456\"`."
            }
        };
        item.wrong(format!("`{text}` is not a way to order, which is an https, mailto or tel address."), help);
    }
    sound.then_some(text)
}

fn web_address(item: &Item) -> Option<String> {
    let text = item.text()?;
    let rest = text.strip_prefix("https://").or_else(|| text.strip_prefix("http://"));
    let sound = rest.is_some_and(|rest| fits_an_address(rest) && !host(rest).is_empty() && !rest.contains(['?', '#']));
    if !sound {
        item.wrong(
            format!("`{text}` is not the address of a site."),
            "Write for instance `\"https://example.org/puzzles\"`.",
        );
        return None;
    }
    Some(text.trim_end_matches('/').to_owned())
}

fn maker(fields: Fields) -> Maker {
    let text = |key| fields.get(key).and_then(|item: Item| item.text());
    let email = fields.get("email").and_then(|item| {
        let text = item.text()?;
        let sound = text.split_once('@').is_some_and(|(user, host)| !user.is_empty() && !host.is_empty());
        if !sound || !fits_an_address(&text) {
            item.wrong(format!("`{text}` is not an e-mail address."), "Write for instance `\"shop@example.org\"`.");
        }
        Some(text)
    });
    let maker = Maker { name: text("name"), address: text("address"), email, eu_person: text("eu_person") };
    fields.finish();
    maker
}

fn pack(fields: Fields, currency: &Currency) -> Option<Pack> {
    let name = fields.need("name", "\"flat-box\"").and_then(|item| item.text());
    let inner = fields.need("inner", "[\"240 mm\", \"210 mm\", \"30 mm\"]").and_then(|item| item.lengths_mm::<3>());
    let outer_item = fields.need("outer", "[\"250 mm\", \"220 mm\", \"35 mm\"]");
    let outer = outer_item.as_ref().and_then(|item| item.lengths_mm::<3>());
    if let (Some(inner), Some(outer), Some(item)) = (inner, outer, &outer_item)
        && longest_first(inner).iter().zip(longest_first(outer)).any(|(inner, outer)| *inner > outer)
    {
        item.wrong("This pack is larger inside than outside.", "Measure again, or swap `inner` and `outer`.");
    }
    let weight = fields.need("weight", "\"95 g\"").and_then(|item| item.mass_g(Least::Zero));
    let price = fields.get("price").map(|item| item.money(currency));
    fields.finish();
    Some(Pack { name: name?, inner_mm: inner?, outer_mm: outer?, weight_g: weight?, price: price.unwrap_or(None) })
}

fn longest_first(mut sides_mm: [f64; 3]) -> [f64; 3] {
    sides_mm.sort_by(|a, b| b.total_cmp(a));
    sides_mm
}

fn postage(fields: Fields, currency: &Currency) -> Option<Postage> {
    let zone = fields.need("zone", "\"inland\"").and_then(|item| item.text());
    let service = fields.need("service", "\"small parcel\"").and_then(|item| item.text());
    let up_to = fields.need("up_to", "\"1 kg\"").and_then(|item| item.mass_g(Least::MoreThanZero));
    let max = fields.get("max").map(|item| item.lengths_mm::<3>().map(longest_first));
    let max_sum = fields.get("max_sum").map(|item| item.length_mm(Least::MoreThanZero));
    let price = fields.need("price", "\"5.90\"").and_then(|item| item.money(currency));
    fields.finish();
    Some(Postage {
        zone: zone?,
        service: service?,
        up_to_g: up_to?,
        max_mm: max.unwrap_or(None),
        max_sum_mm: max_sum.unwrap_or(None),
        price: price?,
    })
}

fn pan(fields: Fields) -> Option<Pan> {
    let name = fields.need("name", "\"yellow ochre\"").and_then(|item| item.text());
    let colour = fields.need("colour", "\"#cf9a3c\"").and_then(|item| item.colour());
    fields.finish();
    Some(Pan { name: name?, colour: colour? })
}

fn weights(fields: Fields) -> Weights {
    let usual = Weights::default();
    let weight = |key, usual| fields.get(key).and_then(|item: Item| item.number(0.0, 1000.0)).unwrap_or(usual);
    let weights = Weights {
        size: weight("size", usual.size),
        edges: weight("edges", usual.edges),
        novelty: weight("novelty", usual.novelty),
        alike: weight("alike", usual.alike),
    };
    fields.finish();
    weights
}

/// `[limits]` of the shop or of a record (`here`), over what else holds.
pub(super) fn read_limits(fields: Fields, usual: Limits, here: Source) -> Limits {
    let length = |key, usual| fields.get(key).and_then(|item: Item| item.length_mm(Least::Zero)).unwrap_or(usual);
    let area = |key, usual| fields.get(key).and_then(|item: Item| item.area_mm2()).unwrap_or(usual);
    let source = |key, usual| if fields.get(key).is_some() { here } else { usual };
    let limits = Limits {
        neck_mm: length("neck", usual.neck_mm),
        smallest_mm2: area("smallest", usual.smallest_mm2),
        largest_mm2: area("largest", usual.largest_mm2),
        cell_mm2: area("cell", usual.cell_mm2),
        brush_mm: length("brush", usual.brush_mm),
        edge_holds: fields.get("edge_holds").and_then(|item| item.flag()).unwrap_or(usual.edge_holds),
        source: LimitSources {
            neck: source("neck", usual.source.neck),
            smallest: source("smallest", usual.source.smallest),
            largest: source("largest", usual.source.largest),
            cell: source("cell", usual.source.cell),
            brush: source("brush", usual.source.brush),
            edge_holds: source("edge_holds", usual.source.edge_holds),
        },
    };
    if let Some(item) = fields.get("largest").or_else(|| fields.get("smallest"))
        && limits.smallest_mm2 > limits.largest_mm2
    {
        let message = format!(
            "`smallest` ({} mm²) is more than `largest` ({} mm²), so no piece could be right.",
            limits.smallest_mm2, limits.largest_mm2
        );
        item.wrong(message, "Make `largest` larger than `smallest`.");
    }
    fields.finish();
    limits
}

fn look(fields: Option<Fields>, folder: &Folder) -> Look {
    let mut look = Look { ground: None, ink: None, accent: None, logo: None, show_cuts: true };
    let Some(fields) = fields else { return look };
    let colour = |key| fields.get(key).and_then(|item: Item| item.colour());
    look.ground = colour("ground");
    look.ink = colour("ink");
    look.accent = colour("accent");
    look.logo = fields.get("logo").and_then(|item| logo(&item, folder));
    look.show_cuts = fields.get("show_cuts").and_then(|item| item.flag()).unwrap_or(true);
    fields.finish();
    look
}

fn logo(item: &Item, folder: &Folder) -> Option<(String, Vec<u8>)> {
    let name = item.text()?;
    if !goes_down(&name) {
        item.wrong(
            format!("`{name}` leads out of the shop folder."),
            "Put the file into the shop folder and name it alone.",
        );
        return None;
    }
    let ending = name.rsplit_once('.').map(|(_, ending)| ending.to_ascii_lowercase()).unwrap_or_default();
    if !["svg", "png", "jpg", "jpeg", "webp"].contains(&ending.as_str()) {
        item.wrong(format!("`{name}` is not a picture that pages can show."), "Use an .svg, .png, .jpg or .webp file.");
        return None;
    }
    match folder.bytes(&name, MOST_PICTURE) {
        Ok(bytes) => Some((name, bytes)),
        Err(refused) => {
            item.file.note(refused.mistake(item.place(), &name));
            None
        }
    }
}

fn workshop(fields: Fields, currency: &Currency) -> Workshop {
    let speed = |key| fields.get(key).and_then(|item: Item| item.speed_mm_s());
    let money = |key| fields.get(key).and_then(|item: Item| item.money(currency));
    let number = |key, most| fields.get(key).and_then(|item: Item| item.number(0.0, most));
    let workshop = Workshop {
        cut_speed_mm_s: speed("cut_speed"),
        score_speed_mm_s: speed("score_speed"),
        travel_speed_mm_s: speed("travel_speed"),
        sheet_mm: fields.get("sheet").and_then(|item| item.lengths_mm::<2>()),
        sheet_margin_mm: fields.get("sheet_margin").and_then(|item| item.length_mm(Least::Zero)),
        sheet_price: money("sheet_price"),
        // At 100 % nothing would be left to divide by.
        waste_percent: number("waste_percent", 99.0),
        hourly_rate: money("hourly_rate"),
        painting_minutes_per_100_cm2: number("painting_minutes_per_100_cm2", f64::INFINITY),
        handling_minutes: number("handling_minutes", f64::INFINITY),
        extras_price: money("extras_price"),
        fees_percent: number("fees_percent", 99.0),
        low_stock: fields.get("low_stock").and_then(|item| item.whole(0)),
    };
    fields.finish();
    workshop
}

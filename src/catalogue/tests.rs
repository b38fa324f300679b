//! Pages from values made by hand: what a buyer, a search engine and a spreadsheet get to see, and what nobody does.

mod data;
mod hostile;
mod site;

use std::collections::{BTreeMap, BTreeSet};

use super::*;
use crate::drawing::Layers;
use crate::figures::{self, Figures, OfferWeight, PaintColour, PaintFigures, Word};
use crate::shape::{Face, Point, Rgb};
use crate::shop::settings::{Look, ShopWords, Weights};
use crate::shop::{
    Audience, BlankBoard, Board, Currency, Design, DrawingFile, Form, Limits, Maker, Market, Offer, OwnerPage, Pack,
    Paint, Paper, Place, Postage, Settings, Shop, Status, Units, Wood, WoodDensity, WoodGroup, Words, Workshop,
};
use crate::units::Money;

/// Never in any published byte.
const SECRET: &str = "s3cret";

fn money(minor: i64) -> Money {
    Money { minor, decimals: 2 }
}

pub(super) fn wood() -> Wood {
    Wood {
        id: "sugar-maple-plywood".into(),
        name: "Sugar-maple plywood".into(),
        solid: false,
        density: WoodDensity::Weighed(650.0),
        group: WoodGroup::DiffusePorous,
        tones: [Rgb::new(0xe9, 0xd0, 0xa8), Rgb::new(0xb2, 0x84, 0x52)],
        source: SECRET.into(),
    }
}

pub(super) fn settings() -> Settings {
    let postage = |zone: &str, service: &str, price| Postage {
        zone: zone.into(),
        service: service.into(),
        up_to_g: 2000.0,
        max_mm: None,
        max_sum_mm: None,
        price: money(price),
    };
    Settings {
        name: "Tern Hythe Workshop".into(),
        tagline: Some("Wooden jigsaws from the tidal end of the Osk".into()),
        about: Some("One person, a laser and a box of watercolours in an old sail loft.".into()),
        currency: Currency { code: "EUR".into(), decimals: 2 },
        price_note: Some("Prices include tax where tax is due.".into()),
        languages: vec!["en".into()],
        words: BTreeMap::new(),
        units: Units::Both,
        paper: vec![Paper::A4, Paper::Letter],
        web_address: None,
        order: "mailto:bench@ternhythe.example.org".into(),
        markets: vec![Market::Eu, Market::Us],
        maker: Some(Maker {
            name: Some("Maren Oskell".into()),
            address: Some("The Old Sail Loft, 3 Ferry Hard, Tern Hythe".into()),
            email: Some("bench@ternhythe.example.org".into()),
            eu_person: None,
        }),
        packs: vec![Pack {
            name: SECRET.into(),
            inner_mm: [300.0, 230.0, 24.0],
            outer_mm: [308.0, 238.0, 29.0],
            weight_g: 132.0,
            price: Some(money(777_777)),
        }],
        postage: vec![
            postage("Inland", "thick letter", 360),
            postage("Europe", "parcel", 1540),
            postage("Rest of the world", "small packet, tracked", 1870),
        ],
        woods: Vec::new(),
        pans: Vec::new(),
        difficulty: Weights::default(),
        limits: Limits::default(),
        look: Look { ground: None, ink: None, accent: None, logo: None, show_cuts: true },
        workshop: Workshop { hourly_rate: Some(money(777_777)), waste_percent: Some(777_777.0), ..Workshop::default() },
    }
}

pub(super) fn design(slug: &str, title: &str) -> Design {
    let offer = |form, price, stock, code: &str| Offer {
        form,
        price: money(price),
        stock,
        lead_time: None,
        code: code.to_owned(),
        order: None,
        pack: Some(0),
        extras_g: 60.0,
        finish_g: 12.0,
        board: BlankBoard::Scored,
        primed: true,
        contains: vec!["8 half pans".into(), "2 brushes".into()],
    };
    let place = Place { file: SECRET.into(), line: None, column: 1, width: 1, text: SECRET.into() };
    let paint = |number, name: &str, colour| Paint { number, name: name.into(), colour, mix: None, wash: None };
    Design {
        slug: slug.into(),
        title: title.into(),
        summary: Some("The morning ferry loads, and the dog has read the timetable.".into()),
        status: Status::Published,
        added: None,
        subjects: vec!["river".into(), "boats".into()],
        made_for: Some(Audience::Adults),
        edition: Some("40 made, signed on the back".into()),
        story: Some("At half tide the ramp is as *steep* as it will be all day.".into()),
        words: BTreeMap::new(),
        board: Board { wood: wood(), thickness_mm: 6.0, kerf_mm: 0.2, density_kg_m3: None, moisture_percent: 8.0 },
        drawing: DrawingFile {
            file: SECRET.into(),
            svg: SECRET.into(),
            join_mm: 0.1,
            width_mm: None,
            layers: Layers::default(),
            layers_at: place,
        },
        paints: vec![
            paint(1, "Morning blue", Rgb::new(0x45, 0x70, 0x7f)),
            paint(2, "Ferry red", Rgb::new(0xab, 0x4a, 0x33)),
        ],
        offers: vec![
            offer(Form::Painted, 14800, Some(2), &format!("{slug}-P")),
            offer(Form::Blank, 7600, None, &format!("{slug}-B")),
        ],
        limits: Limits::default(),
        photos: Vec::new(),
    }
}

pub(super) fn figures(design: &Design, count: usize, score: f64, word: Word) -> Figures {
    let postage =
        vec![("Inland".to_owned(), Some(0)), ("Europe".to_owned(), Some(1)), ("Rest of the world".to_owned(), None)];
    Figures {
        slug: design.slug.clone(),
        status: design.status,
        mark: SECRET.into(),
        pieces: figures::Pieces {
            count,
            edge: count / 3,
            interior: count - count / 3,
            novelty_shapes: 3,
            ..figures::Pieces::default()
        },
        joints: figures::Joints::default(),
        size: figures::Size { width_mm: 229.8, height_mm: 199.8, thickness_mm: 6.0 },
        lines: figures::Lines { cut_mm: 0.0, score_mm: 0.0 },
        difficulty: figures::Difficulty { score, word, size: 0.0, edges: 0.0, novelty: 0.0, alike: 0.0 },
        weight: figures::Weight {
            density_kg_m3: 650.0,
            board_g: 172.6,
            offers: design
                .offers
                .iter()
                .map(|offer| OfferWeight {
                    form: offer.form,
                    code: offer.code.clone(),
                    packed_g: 337.6,
                    packed_mm: [308.0, 238.0, 29.0],
                    postage: postage.clone(),
                })
                .collect(),
        },
        paint: Some(PaintFigures {
            cells: 112,
            colours: design
                .paints
                .iter()
                .map(|paint| PaintColour { number: paint.number, name: paint.name.clone(), cells: 9, area_mm2: 5120.0 })
                .collect(),
        }),
    }
}

pub(super) fn pictures(slug: &str) -> Vec<PictureSet> {
    let set = |view, name: &str| {
        let source = |width: u32, kind, ending: &str| Source {
            width,
            height: width * 2 / 3,
            address: format!("made/{slug}-{name}-{width}.{ending}"),
            kind,
        };
        PictureSet {
            view,
            alt: None,
            placeholder: Rgb::new(0xe8, 0xe0, 0xd0),
            sources: vec![
                source(960, Encoding::Webp, "webp"),
                source(480, Encoding::Webp, "webp"),
                source(1200, Encoding::Webp, "webp"),
                source(960, Encoding::Jpeg, "jpg"),
            ],
        }
    };
    vec![
        set(View::Painted, "painted"),
        set(View::Blank, "blank"),
        set(View::CloseUp, "close-up"),
        set(View::Loosened, "loosened"),
    ]
}

fn guides(slug: &str) -> Vec<Guide> {
    let guide = |paper| Guide {
        language: "en".into(),
        paper,
        pages: 4,
        bytes: 310_400,
        address: guide_address("en", "en", slug, paper),
    };
    vec![guide(Paper::A4), guide(Paper::Letter)]
}

pub(super) fn card_of(settings: &Settings, design: &Design, count: usize, score: f64, word: Word) -> Card {
    let ring = [(10.0, 10.0), (240.0, 10.0), (240.0, 210.0), (10.0, 210.0)].map(Point::from).to_vec();
    let board = Face { outer: ring, holes: Vec::new() };
    let figures = figures(design, count, score, word);
    Card::from_figures(settings, design, &figures, &[&board], pictures(&design.slug), guides(&design.slug))
}

fn shop_of(settings: Settings, pages: Vec<OwnerPage>) -> Shop {
    Shop { settings, entries: Vec::new(), pages, theme: BTreeMap::new(), mistakes: Vec::new() }
}

fn owner_page(name: &str, markdown: &str) -> OwnerPage {
    OwnerPage { name: name.into(), language: None, markdown: markdown.into() }
}

fn sample() -> (Shop, Vec<Card>) {
    let settings = settings();
    let first = Design { added: Some("2026-03-14".into()), ..design("ferry", "Ferry at half tide") };
    let second = Design { added: Some("2026-05-02".into()), ..design("heron", "Heron and reeds") };
    let third = design("kite", "Kite over the flats");
    let cards = vec![
        card_of(&settings, &first, 84, 53.9, Word::Steady),
        card_of(&settings, &second, 180, 66.0, Word::Testing),
        card_of(&settings, &third, 20, 21.0, Word::Gentle),
    ];
    let about = owner_page(
        "about",
        "# The loft & river\n\nSee [care](care.md), [post](../pages/visit.md#post) and [the tides](https://example.org/tides).",
    );
    let visit = owner_page("visit", "# Post\n\nTuesdays. <script>alert(1)</script>");
    (shop_of(settings, vec![about, visit]), cards)
}

/// What the dear stage would have made for these cards.
fn made_for(cards: &[Card]) -> BTreeSet<String> {
    let pictures = cards.iter().flat_map(|card| &card.pictures).flat_map(|set| &set.sources).map(|s| s.address.clone());
    let guides = cards.iter().flat_map(|card| &card.guides).map(|guide| guide.address.clone());
    let mains = cards.iter().map(|card| main_picture_address(&card.slug));
    pictures.chain(guides).chain(mains).collect()
}

fn text_of<'a>(pages: &'a [Page], address: &str) -> &'a str {
    let page = pages.iter().find(|page| page.address == address).unwrap_or_else(|| panic!("no page {address}"));
    std::str::from_utf8(&page.bytes).expect("UTF-8")
}

/// Values of an attribute, entities of quotes and ampersands resolved.
fn attributes(html: &str, name: &str) -> Vec<String> {
    let mut out = Vec::new();
    let needle = format!(" {name}=\"");
    let mut rest = html;
    while let Some((_, after)) = rest.split_once(&needle) {
        let (value, after) = after.split_once('"').expect("a closing quote");
        out.push(value.replace("&quot;", "\"").replace("&#39;", "'").replace("&amp;", "&"));
        rest = after;
    }
    out
}

fn decoded(address: &str) -> String {
    let mut bytes = Vec::new();
    let mut rest = address.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let pair = [rest.next().expect("digit"), rest.next().expect("digit")];
            bytes.push(u8::from_str_radix(std::str::from_utf8(&pair).expect("ASCII"), 16).expect("hexadecimal"));
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).expect("UTF-8")
}

/// Where a relative address leads from a page of the folder.
fn resolved(from: &str, to: &str) -> String {
    let mut parts: Vec<&str> = from.split('/').collect();
    parts.pop();
    let to = to.split(['#', '?']).next().unwrap_or_default();
    for part in to.split('/') {
        match part {
            ".." => assert!(parts.pop().is_some(), "{to} leads out of the folder from {from}"),
            part => parts.push(part),
        }
    }
    decoded(&parts.join("/"))
}

fn has_scheme(address: &str) -> bool {
    ["https:", "http:", "mailto:", "tel:"].iter().any(|scheme| address.starts_with(scheme))
}

fn check_links(pages: &[Page], cards: &[Card]) -> usize {
    let known: BTreeSet<String> = pages.iter().map(|page| page.address.clone()).chain(made_for(cards)).collect();
    let mut checked = 0;
    for page in pages.iter().filter(|page| page.address.ends_with(".html")) {
        let html = std::str::from_utf8(&page.bytes).expect("UTF-8");
        let srcsets = attributes(html, "srcset").into_iter().flat_map(|set| {
            set.split(", ").map(|one| one.split(' ').next().unwrap_or_default().to_owned()).collect::<Vec<_>>()
        });
        let resources: Vec<String> = attributes(html, "src").into_iter().chain(srcsets).collect();
        assert!(resources.iter().all(|to| !has_scheme(to) && !to.starts_with('/')), "{}: {resources:?}", page.address);
        for to in
            attributes(html, "href").into_iter().filter(|to| !has_scheme(to) && !to.starts_with('#')).chain(resources)
        {
            let target = resolved(&page.address, &to);
            assert!(known.contains(&target), "{}: {to} leads to {target}, which is not there", page.address);
            checked += 1;
        }
    }
    checked
}

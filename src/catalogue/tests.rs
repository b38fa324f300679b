//! Pages from values made by hand: what a buyer, a search engine and a spreadsheet get to see, and what nobody does.

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

#[test]
fn every_link_leads_to_a_page() {
    let (shop, cards) = sample();
    let pages = pages(&shop, &cards).expect("pages");
    assert!(check_links(&pages, &cards) > 200);
    let about = text_of(&pages, "pages/about/index.html");
    assert!(
        about.contains("href=\"../care/index.html\"") && about.contains("href=\"../visit/index.html#post\""),
        "{about}"
    );
    assert!(about.contains("<h1>The loft &amp; river</h1>"));
}

#[test]
fn every_link_leads_to_a_page_in_every_language_and_with_a_web_address() {
    let (mut shop, _) = sample();
    shop.settings.languages = vec!["en".into(), "de".into()];
    shop.settings.web_address = Some("https://ternhythe.example.org/shop".into());
    shop.settings.words.insert("de".into(), ShopWords { tagline: Some("Holzpuzzles".into()), ..ShopWords::default() });
    shop.pages.push(OwnerPage { name: "anfahrt".into(), language: Some("de".into()), markdown: "# Anfahrt".into() });
    shop.pages.push(OwnerPage {
        name: "about".into(),
        language: Some("de".into()),
        markdown: "# Der Dachboden".into(),
    });
    let mut ferry = design("ferry", "Ferry at half tide");
    ferry.added = Some("2026-03-14".into());
    let words = Words { title: Some("Fähre bei halber Tide".into()), ..Words::default() };
    ferry.words.insert("de".into(), words);
    let cards = vec![card_of(&shop.settings, &ferry, 84, 53.9, Word::Steady)];
    let pages = pages(&shop, &cards).expect("pages");
    check_links(&pages, &cards);
    let german = text_of(&pages, "de/designs/ferry/index.html");
    assert!(german.contains("<html lang=\"de\"") && german.contains("<h1>Fähre bei halber Tide</h1>"));
    assert!(german.contains("hreflang=\"en\" href=\"../../../designs/ferry/index.html\""));
    assert!(text_of(&pages, "de/pages/about/index.html").contains("Der Dachboden"));
    assert!(text_of(&pages, "de/index.html").contains("<h1>Holzpuzzles</h1>"));
    assert!(!pages.iter().any(|page| page.address == "pages/anfahrt/index.html"));
    let product = text_of(&pages, "designs/ferry/index.html");
    assert!(product.contains("<link rel=\"canonical\" href=\"https://ternhythe.example.org/shop/designs/ferry/\">"));
}

#[test]
fn the_pages_of_the_contract_are_there() {
    let (mut shop, cards) = sample();
    let addresses = |shop: &Shop| -> BTreeSet<String> {
        pages(shop, &cards).expect("pages").into_iter().map(|page| page.address).collect()
    };
    let all = addresses(&shop);
    for address in [
        "index.html",
        "designs/ferry/index.html",
        "subjects/river/index.html",
        "subjects/boats/index.html",
        "forms/painted/index.html",
        "forms/blank/index.html",
        "pages/about/index.html",
        "pages/difficulty/index.html",
        "pages/care/index.html",
        "pages/cautions/index.html",
        "catalogue.json",
        "catalogue.schema.json",
        "catalogue.csv",
        "404.html",
        "robots.txt",
        "kerfleaf.txt",
    ] {
        assert!(all.contains(address), "{address}");
    }
    assert!(!all.contains("feed.xml") && !all.contains("sitemap.xml") && !all.contains("forms/plain/index.html"));
    shop.settings.web_address = Some("https://ternhythe.example.org".into());
    let all = addresses(&shop);
    assert!(all.contains("feed.xml") && all.contains("sitemap.xml"));
}

#[test]
fn a_shop_without_designs_has_its_pages_too() {
    let shop = shop_of(settings(), Vec::new());
    let pages = pages(&shop, &[]).expect("pages");
    check_links(&pages, &[]);
    assert!(text_of(&pages, "index.html").contains("No puzzles yet"));
    assert_eq!(text_of(&pages, "catalogue.csv").lines().count(), 1);
}

#[test]
fn many_designs_take_several_pages() {
    let settings = settings();
    let cards: Vec<Card> = (0..100)
        .map(|i| card_of(&settings, &design(&format!("d{i:03}"), &format!("Design {i}")), 50 + i, 40.0, Word::Steady))
        .collect();
    let shop = shop_of(settings, Vec::new());
    let pages = pages(&shop, &cards).expect("pages");
    check_links(&pages, &cards);
    let lists = ["index.html", "page/2/index.html", "page/3/index.html"];
    let shown: usize = lists.iter().map(|address| text_of(&pages, address).matches("<li class=\"entry").count()).sum();
    assert_eq!(shown, 100);
    assert!(text_of(&pages, "subjects/river/page/3/index.html").contains("rel=\"prev\" href=\"../2/index.html\""));
    assert!(!pages.iter().any(|page| page.address == "page/4/index.html"));
}

#[test]
fn a_product_page_says_what_a_buyer_asks() {
    let (shop, cards) = sample();
    let pages = pages(&shop, &cards).expect("pages");
    let page = text_of(&pages, "designs/ferry/index.html");
    for wanted in [
        "<b>84</b>",
        "28 on the edge",
        "3 novelty shapes: no peeking",
        "<b>230 × 200</b> <i>mm</i>",
        "9\u{202f}¹⁄₁₆ × 7\u{202f}⁷⁄₈\u{202f}in",
        "<b>steady</b>",
        "x=\"53.9%\"",
        "<b>173</b>",
        "6.1\u{202f}oz",
        "Sugar-maple plywood",
        "€148.00",
        "2 ready to post",
        "Made to order",
        "thick letter",
        "€3.60",
        "please ask",
        "mailto:bench@ternhythe.example.org?subject=Ferry%20at%20half%20tide%20%28ferry-P%29",
        "painting-guide-a4.pdf",
        "4 pages, 310\u{a0}kB",
        "as <em>steep</em> as",
        "40 made, signed on the back",
        "Small pieces: keep away from young children.",
        "Maren Oskell",
        "3 Ferry Hard",
        "Heron and reeds",
        "One board with the picture scored into it. Primed.",
        "8 half pans, 2 brushes",
    ] {
        assert!(page.contains(wanted), "{wanted}\n{page}");
    }
    let (_, cover) = page.split_once("<details").expect("a spoiler cover");
    let (covered, _) = cover.split_once("</details>").expect("its end");
    assert!(
        covered.contains("ferry-loosened-")
            && page.matches("ferry-loosened-").count() == covered.matches("ferry-loosened-").count()
    );
}

#[test]
fn a_view_without_surprises_needs_no_cover() {
    let (shop, mut cards) = sample();
    for card in &mut cards {
        card.novelty_shapes = 0;
    }
    let pages = pages(&shop, &cards).expect("pages");
    let page = text_of(&pages, "designs/ferry/index.html");
    assert!(!page.contains("<details") && page.contains("ferry-loosened-") && !page.contains("novelty"));
}

#[test]
fn statutory_warnings_stand_on_puzzles_for_children_alone() {
    let mut settings = settings();
    let mut warned = |made_for, markets: Vec<Market>| {
        settings.markets = markets;
        let design = Design { made_for, ..design("kite", "Kite") };
        let cards = [card_of(&settings, &design, 20, 21.0, Word::Gentle)];
        text_of(&pages(&shop_of(settings.clone(), Vec::new()), &cards).expect("pages"), "designs/kite/index.html")
            .to_owned()
    };
    let duty = "Testing and marking are the maker&#39;s duty under local law.";
    // 16 CFR 1500.19(b)(1) and Directive 2009/48/EC, Annex V, word for word.
    let us = "<p>WARNING:<br>CHOKING HAZARD - Small parts<br>Not for children under 3 yrs.</p>";
    let eu = "Warning. Not suitable for children under 36 months. Small parts. Choking hazard.";
    let page = warned(Some(Audience::Children), vec![Market::Us]);
    assert!(page.contains(us) && !page.contains(eu) && page.contains(duty) && page.contains("Safety alert"));
    let page = warned(Some(Audience::Children), vec![Market::Uk]);
    assert!(!page.contains(us) && page.contains(eu) && page.contains(duty));
    for made_for in [None, Some(Audience::Adults)] {
        let page = warned(made_for, vec![Market::Us, Market::Eu]);
        assert!(!page.contains("CHOKING") && !page.contains(eu) && !page.contains(duty));
        assert!(page.contains("Small pieces: keep away from young children."));
    }
}

#[test]
fn stock_and_prices_are_told_apart() {
    let settings = settings();
    let mut design = design("ferry", "Ferry");
    design.offers[0].stock = Some(0);
    design.offers[0].lead_time = Some("3 weeks".into());
    design.offers[1].stock = None;
    design.offers[1].lead_time = Some("9 days".into());
    design.offers[1].order = Some("https://shop.example.org/ferry?a=1&b=2".into());
    let card = card_of(&settings, &design, 84, 53.9, Word::Steady);
    let made = pages(&shop_of(settings.clone(), Vec::new()), &[card]).expect("pages");
    let page = text_of(&made, "designs/ferry/index.html");
    assert_eq!(page.matches("class=\"order\"").count(), 1, "what is sold out cannot be ordered");
    assert!(page.contains("href=\"https://shop.example.org/ferry?a=1&amp;b=2\""));
    assert!(page.contains("Sold out</p>") && page.contains("Made to order, 9 days"));
    let index = text_of(&made, "index.html");
    assert!(index.contains("from €76.00") && index.contains("Painted · Blank"), "{index}");
    design.offers[1].stock = Some(0);
    let card = card_of(&settings, &design, 84, 53.9, Word::Steady);
    let made = pages(&shop_of(settings, Vec::new()), &[card]).expect("pages");
    assert!(text_of(&made, "index.html").contains("Sold out"));
}

/// Kinds of strings by OWASP, Cross Site Scripting Prevention Cheat Sheet: element, attribute, script, URL, comment.
const HOSTILE: [&str; 8] = [
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>",
    "' onmouseover='alert(1)",
    "</title><script>alert(1)</script>",
    "</script><script>alert(1)</script>",
    "<!-- <script>",
    "{{ 7*7 }}{% raw %}",
    "]]><svg onload=alert(1)>\u{0}\u{7}",
];

#[test]
fn words_of_an_owner_stay_words() {
    for hostile in HOSTILE {
        let mut settings = settings();
        settings.name = hostile.into();
        settings.tagline = Some(hostile.into());
        settings.about = Some(hostile.into());
        settings.price_note = Some(hostile.into());
        settings.web_address = Some("https://example.org".into());
        settings.order = "tel:+49123".into();
        settings.maker = Some(Maker {
            name: Some(hostile.into()),
            address: Some(hostile.into()),
            email: Some(hostile.into()),
            eu_person: Some(hostile.into()),
        });
        for row in &mut settings.postage {
            (row.zone, row.service) = (hostile.into(), hostile.into());
        }
        let mut design = design("ferry", hostile);
        design.added = Some("2026-03-14".into());
        design.summary = Some(hostile.into());
        design.edition = Some(hostile.into());
        design.story = Some(hostile.into());
        design.subjects = vec![hostile.into()];
        design.paints[0].name = hostile.into();
        design.board.wood.name = hostile.into();
        for offer in &mut design.offers {
            offer.code = hostile.into();
            offer.lead_time = Some(hostile.into());
            offer.contains = vec![hostile.into()];
            offer.order = Some("javascript:alert(1)".into());
        }
        let card = card_of(&settings, &design, 84, 53.9, Word::Steady);
        let shop = shop_of(
            settings,
            vec![owner_page("about", hostile), owner_page("visit", &format!("# {hostile}\n\n{hostile}"))],
        );
        for page in pages(&shop, &[card]).expect("pages") {
            let text = String::from_utf8(page.bytes).expect("UTF-8");
            assert!(!text.contains(['\u{0}', '\u{7}']), "{}", page.address);
            if !page.address.ends_with(".html") && !page.address.ends_with(".xml") {
                continue;
            }
            let scripts = text.matches("<script").count();
            let data = text.matches("<script type=\"application/ld+json\">").count();
            assert_eq!(scripts, data, "{} with {hostile}:\n{text}", page.address);
            assert_eq!(text.matches("</script").count(), data, "{} with {hostile}", page.address);
            assert!(
                !text.contains("<img src=x") && !text.contains("<svg onload") && !text.contains("javascript:"),
                "{}",
                page.address
            );
            // In a script element of data quotes are only text.
            let markup = text.split_once("<script").map_or(text.clone(), |(before, rest)| {
                format!("{before}{}", rest.split_once("</script>").map_or("", |(_, after)| after))
            });
            assert!(!markup.contains(" onmouseover='") && !text.contains("<!-- "), "{} with {hostile}", page.address);
            assert!(!text.contains("49</"), "a template inside a value is not run");
        }
    }
}

#[test]
fn data_in_scripts_is_json_of_schema_org() {
    let (mut shop, cards) = sample();
    shop.settings.web_address = Some("https://ternhythe.example.org".into());
    let pages = pages(&shop, &cards).expect("pages");
    let page = text_of(&pages, "designs/ferry/index.html");
    let (_, rest) = page.split_once("<script type=\"application/ld+json\">").expect("data");
    let (data, _) = rest.split_once("</script>").expect("its end");
    let data: serde_json::Value = serde_json::from_str(data).expect("JSON");
    let product = &data["@graph"][0];
    assert_eq!(product["@type"], "Product");
    assert_eq!(product["width"], serde_json::json!({"@type": "QuantitativeValue", "value": 229.8, "unitCode": "MMT"}));
    assert_eq!(product["weight"]["unitCode"], "GRM");
    assert_eq!(product["image"], "https://ternhythe.example.org/designs/ferry/picture.jpg");
    assert_eq!(product["offers"][0]["sku"], "ferry-P");
    assert_eq!(product["offers"][0]["price"], "148.00");
    assert_eq!(product["offers"][0]["priceCurrency"], "EUR");
    assert_eq!(product["offers"][0]["availability"], "https://schema.org/InStock");
    assert_eq!(product["offers"][1]["availability"], "https://schema.org/MadeToOrder");
    assert_eq!(product["offers"][0]["shippingDetails"][0]["shippingRate"]["value"], "3.60");
    assert_eq!(data["@graph"][1]["@type"], "BreadcrumbList");
}

/// RFC 4287, 4.1: the elements a feed and an entry must have, and where they stand.
#[test]
fn the_feed_is_sound_atom() {
    let (mut shop, cards) = sample();
    shop.settings.web_address = Some("https://ternhythe.example.org".into());
    let pages = pages(&shop, &cards).expect("pages");
    let document = roxmltree::Document::parse(text_of(&pages, "feed.xml")).expect("XML");
    let root = document.root_element();
    let atom = "http://www.w3.org/2005/Atom";
    assert!(root.has_tag_name((atom, "feed")));
    let of = |node: roxmltree::Node<'_, '_>, name: &str| -> Vec<String> {
        node.children()
            .filter(|n| n.has_tag_name((atom, name)))
            .map(|n| n.text().unwrap_or_default().to_owned())
            .collect()
    };
    assert_eq!(of(root, "updated"), ["2026-05-02T00:00:00Z"]);
    assert_eq!(of(root, "id").len(), 1);
    assert_eq!(of(root, "title"), ["Tern Hythe Workshop"]);
    let entries: Vec<_> = root.children().filter(|n| n.has_tag_name((atom, "entry"))).collect();
    assert_eq!(entries.len(), 2, "the design without a date is not in the feed");
    for entry in entries {
        for name in ["id", "title", "updated"] {
            assert_eq!(of(entry, name).len(), 1, "{name}");
        }
    }
    let sitemap = roxmltree::Document::parse(text_of(&pages, "sitemap.xml")).expect("XML");
    let locations = sitemap.descendants().filter(|n| n.has_tag_name("loc"));
    assert!(locations.filter_map(|n| n.text()).any(|loc| loc == "https://ternhythe.example.org/designs/ferry/"));
}

/// RFC 4180 for the form; OWASP, "CSV Injection", for the apostrophe.
#[test]
fn a_spreadsheet_runs_no_formula() {
    for (text, cell) in [
        ("=1+1", "'=1+1"),
        ("+1", "'+1"),
        ("-1", "'-1"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("\t=1", "'\t=1"),
        (" =1", "' =1"),
        ("＝1", "'＝1"),
        ("Ferry = boat", "Ferry = boat"),
    ] {
        assert_eq!(super::data::cell(text), cell);
    }
    let settings = settings();
    let mut design = design("ferry", "=HYPERLINK(\"https://x\",\"y\")");
    design.offers[0].code = "-2+3".into();
    let card = card_of(&settings, &design, 84, 53.9, Word::Steady);
    let made = pages(&shop_of(settings, Vec::new()), &[card]).expect("pages");
    let csv = text_of(&made, "catalogue.csv");
    let rows: Vec<&str> = csv.split("\r\n").collect();
    assert_eq!(rows.len(), 4, "a header, two offers, the last line end");
    assert!(rows[1].starts_with(
        "'-2+3,painted,ferry,\"'=HYPERLINK(\"\"https://x\"\",\"\"y\"\")\",84,28,3,229.8,199.8,6.00,53.9,steady,"
    ));
    assert!(rows[1].ends_with(",148.00,EUR,2,designs/ferry/index.html"), "{}", rows[1]);
}

#[test]
fn nothing_private_is_published() {
    let (mut shop, cards) = sample();
    shop.settings.web_address = Some("https://ternhythe.example.org".into());
    for page in pages(&shop, &cards).expect("pages") {
        let text = String::from_utf8_lossy(&page.bytes);
        for secret in [SECRET, "7777.77", "777777", "777,777"] {
            assert!(!text.contains(secret), "{secret} in {}", page.address);
        }
    }
    let kept = serde_json::to_string(&cards).expect("JSON");
    assert!(!kept.contains(SECRET), "nor kept on a card");
}

#[test]
fn a_card_can_be_kept_and_read_again() {
    let (_, cards) = sample();
    let kept = serde_json::to_string(&cards).expect("JSON");
    assert_eq!(serde_json::from_str::<Vec<Card>>(&kept).expect("read"), cards);
}

#[test]
fn the_same_cards_in_any_order_give_the_same_bytes() {
    let (shop, cards) = sample();
    let mut turned = cards.clone();
    turned.reverse();
    assert_eq!(pages(&shop, &cards).expect("pages"), pages(&shop, &turned).expect("pages"));
}

#[test]
fn an_owners_page_stands_in_for_the_programs() {
    let (mut shop, cards) = sample();
    shop.pages.push(owner_page("care", "# Looking after it\n\nBe kind."));
    let pages = pages(&shop, &cards).expect("pages");
    let care = text_of(&pages, "pages/care/index.html");
    assert!(care.contains("<h1>Looking after it</h1>") && care.contains("Be kind."));
    assert!(text_of(&pages, "index.html").contains(">Looking after it</a>"), "the foot calls it by its name");
}

/// The keywords that catalogue.schema.json uses, after JSON Schema 2020-12.
fn schema_faults(
    schema: &serde_json::Value,
    root: &serde_json::Value,
    value: &serde_json::Value,
    at: &str,
    faults: &mut Vec<String>,
) {
    if let Some(to) = schema["$ref"].as_str() {
        let name = to.strip_prefix("#/$defs/").expect("a local reference");
        return schema_faults(&root["$defs"][name], root, value, at, faults);
    }
    let is = |name: &str| match name {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "number" => value.is_number(),
        "integer" => value.is_u64() || value.is_i64(),
        "boolean" => value.is_boolean(),
        "null" => value.is_null(),
        other => panic!("unknown type {other}"),
    };
    let fits = match &schema["type"] {
        serde_json::Value::String(name) => is(name),
        serde_json::Value::Array(names) => names.iter().filter_map(|n| n.as_str()).any(is),
        _ => true,
    };
    if !fits || schema["enum"].as_array().is_some_and(|all| !all.contains(value)) {
        faults.push(format!("{at}: {value}"));
    }
    if let (Some(map), true) = (value.as_object(), schema["properties"].is_object()) {
        for key in schema["required"].as_array().into_iter().flatten().filter_map(|k| k.as_str()) {
            if !map.contains_key(key) {
                faults.push(format!("{at}: no {key}"));
            }
        }
        for (key, value) in map {
            match schema["properties"].get(key) {
                Some(inner) => schema_faults(inner, root, value, &format!("{at}.{key}"), faults),
                None => faults.push(format!("{at}: {key} is not in the schema")),
            }
        }
    }
    for item in value.as_array().into_iter().flatten() {
        schema_faults(&schema["items"], root, item, &format!("{at}[]"), faults);
    }
}

#[test]
fn the_catalogue_keeps_its_schema() {
    let (shop, mut cards) = sample();
    cards[2].cells = None;
    let pages = pages(&shop, &cards).expect("pages");
    let catalogue: serde_json::Value = serde_json::from_str(text_of(&pages, "catalogue.json")).expect("JSON");
    let schema: serde_json::Value = serde_json::from_str(text_of(&pages, "catalogue.schema.json")).expect("JSON");
    let mut faults = Vec::new();
    schema_faults(&schema, &schema, &catalogue, "", &mut faults);
    assert_eq!(faults, Vec::<String>::new());
    assert_eq!(catalogue["designs"][0]["slug"], "heron", "newest first");
    assert_eq!(catalogue["designs"][1]["offers"][0]["price"], "148.00");
    let mut broken = catalogue.clone();
    broken["designs"][0]["pieces"]["count"] = serde_json::json!("many");
    schema_faults(&schema, &schema, &broken, "", &mut faults);
    assert_eq!(faults.len(), 1, "the check can fail");
}

#[test]
fn subjects_that_are_written_alike_are_kept_apart() {
    let settings = settings();
    let named = |slug: &str, subject: &str| {
        let design = Design { subjects: vec![subject.into()], ..design(slug, slug) };
        card_of(&settings, &design, 20, 21.0, Word::Gentle)
    };
    let cards = [named("a", "Boats!"), named("b", "boats"), named("c", "Flüsse")];
    let pages = pages(&shop_of(settings.clone(), Vec::new()), &cards).expect("pages");
    check_links(&pages, &cards);
    assert!(text_of(&pages, "subjects/boats/index.html").contains("<h1>Boats!</h1>"));
    assert!(text_of(&pages, "subjects/boats-2/index.html").contains("<h1>boats</h1>"));
    assert!(text_of(&pages, "subjects/fluesse/index.html").contains("<h1>Flüsse</h1>"));
}

#[test]
fn names_that_are_no_plain_ascii_are_linked_all_the_same() {
    let (mut shop, cards) = sample();
    shop.pages.push(owner_page("über uns & so", "# Über uns"));
    let pages = pages(&shop, &cards).expect("pages");
    check_links(&pages, &cards);
    assert!(text_of(&pages, "index.html").contains("pages/%C3%BCber%20uns%20%26%20so/index.html"));
}

/// Every `say(key="…")` of the templates, and every key the code forms, has its English line.
#[test]
fn templates_ask_for_lines_that_there_are() {
    let (mut shop, mut cards) = sample();
    shop.settings.languages = vec!["en".into(), "fr".into()];
    shop.settings.units = Units::Us;
    shop.settings.web_address = Some("https://example.org".into());
    shop.settings.markets = vec![Market::Eu, Market::Us];
    for (view, card) in [View::Photo, View::Plain, View::Loosened].into_iter().zip(&mut cards) {
        card.made_for = Some("children".into());
        card.pictures[0].view = view;
        card.offers[0].form = "plain".into();
        (card.offers[1].scored, card.offers[1].primed) = (false, false);
    }
    let pages = pages(&shop, &cards).expect("every line is there");
    for page in pages.iter().filter(|page| page.address.ends_with(".html")) {
        let text = std::str::from_utf8(&page.bytes).expect("UTF-8");
        for prefix in ["alt-", "view-", "form-", "list-", "stock-", "blank-", "guide-", "warning-", "paper-"] {
            assert!(
                !text.contains(&format!(">{prefix}")) && !text.contains(&format!("\"{prefix}")),
                "{prefix} in {}",
                page.address
            );
        }
    }
}

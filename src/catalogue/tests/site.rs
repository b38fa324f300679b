//! What a buyer sees, and that every link leads somewhere.

use super::*;

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
fn a_page_made_alone_is_the_one_among_all() {
    let (mut shop, cards) = sample();
    shop.settings.languages = vec!["en".into(), "de".into()];
    shop.settings.web_address = Some("https://ternhythe.example.org/shop".into());
    let all = pages(&shop, &cards).expect("pages");
    assert!(all.len() > 40, "{}", all.len());
    for wanted in &all {
        let alone = page(&shop, &cards, &wanted.address).expect("a page");
        assert_eq!(alone.as_ref(), Some(wanted), "{}", wanted.address);
    }
    for nowhere in ["designs/nobody/index.html", "fr/index.html", "made/x.css", "catalogue.txt", ""] {
        assert_eq!(page(&shop, &cards, nowhere).expect("no page"), None, "{nowhere}");
    }
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
    assert!(german.contains("hreflang=\"en\" href=\"https://ternhythe.example.org/shop/designs/ferry/\""));
    assert!(german.contains("hreflang=\"x-default\" href=\"https://ternhythe.example.org/shop/designs/ferry/\""));
    assert!(
        german.contains("href=\"../../../designs/ferry/index.html\" lang=\"en\""),
        "the way to the other language is relative"
    );
    for words in ["148,00\u{a0}€", "2 liegen bereit", "Von Hand bemalt", "84</b> <small>davon 28 am Rand"] {
        assert!(german.contains(words), "{words}");
    }
    assert!(text_of(&pages, "de/pages/about/index.html").contains("Der Dachboden"));
    assert!(text_of(&pages, "de/index.html").contains("<h1>Holzpuzzles</h1>"));
    assert!(!pages.iter().any(|page| page.address == "pages/anfahrt/index.html"));
    let product = text_of(&pages, "designs/ferry/index.html");
    assert!(product.contains("<link rel=\"canonical\" href=\"https://ternhythe.example.org/shop/designs/ferry/\">"));
}

#[test]
fn a_missing_translation_is_the_first_language() {
    let (mut shop, _) = sample();
    shop.settings.languages = vec!["en".into(), "de".into(), "tlh".into()];
    shop.settings.words.insert("de".into(), ShopWords { tagline: Some("Holzpuzzles".into()), ..ShopWords::default() });
    let mut ferry = design("ferry", "Ferry at half tide");
    let words = Words { title: Some("Fähre bei halber Tide".into()), ..Words::default() };
    ferry.words.insert("de".into(), words);
    let pages = pages(&shop, &[card_of(&shop.settings, &ferry, 84, 53.9, Word::Steady)]).expect("pages");
    let german = text_of(&pages, "de/designs/ferry/index.html");
    // The owner's words that lack, beside those that are there and the program's own.
    for words in [
        "<h1>Fähre bei halber Tide</h1>",
        "the dog has read the timetable",
        "40 made, signed on the back",
        "as <em>steep</em> as",
        "Ferry red",
        "2 brushes",
        "Zuckerahornsperrholz",
        "Prices include tax where tax is due.",
    ] {
        assert!(german.contains(words), "{words}");
    }
    let about = shop.settings.about.as_deref().expect("words");
    assert!(text_of(&pages, "de/index.html").contains(about));
    // Nor has the program words in every language.
    let other = text_of(&pages, "tlh/designs/ferry/index.html");
    for words in ["<html lang=\"tlh\"", "<h1>Ferry at half tide</h1>", "Painted by hand", "Sugar-maple plywood"] {
        assert!(other.contains(words), "{words}");
    }
}

#[test]
fn the_pages_of_the_handbook_are_there() {
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
    let shown: usize = lists.iter().map(|address| text_of(&pages, address).matches("class=\"entry ").count()).sum();
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
    assert!(index.contains("<span>Made to order</span>"), "nothing lies ready");
    design.offers[1].stock = Some(0);
    let card = card_of(&settings, &design, 84, 53.9, Word::Steady);
    let made = pages(&shop_of(settings, Vec::new()), &[card]).expect("pages");
    assert!(text_of(&made, "index.html").contains("Sold out"));
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
    for card in &mut cards {
        card.made_for = Some("children".into());
        card.offers[0].form = "plain".into();
        (card.offers[1].scored, card.offers[1].primed) = (false, false);
    }
    for (view, set) in [View::Photo, View::Plain, View::Uncut, View::Tray].into_iter().zip(&mut cards[0].pictures) {
        set.view = view;
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

/// A picture's words tell what somebody who cannot see it asks first, from the figures.
#[test]
fn alternative_texts_tell_pieces_wood_size_and_colours() {
    let (shop, cards) = sample();
    let pages = pages(&shop, &cards).expect("pages");
    let text = text_of(&pages, "designs/ferry/index.html");
    let card = &cards[0];
    let painted = format!(
        "Ferry at half tide: the whole puzzle, painted in {} colours; 84 pieces of {}, ",
        card.paints.len(),
        card.wood_name
    );
    assert!(text.contains(&painted), "{painted}");
    assert!(text.contains(&format!("{:.0} × {:.0}", card.width_mm, card.height_mm)));
}

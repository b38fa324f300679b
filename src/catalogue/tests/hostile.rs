//! Words that try to be more than words, and what must not be told at all.

use super::*;

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

/// Every tag without its quoted values, in which an owner's words may stand.
fn tags(html: &str) -> Vec<String> {
    let mut out = Vec::new();
    for piece in html.split('<').skip(1) {
        let (mut tag, mut quoted) = (String::new(), false);
        for c in piece.chars() {
            match c {
                '"' => quoted = !quoted,
                '>' if !quoted => break,
                c if !quoted => tag.push(c),
                _ => {}
            }
        }
        out.push(tag);
    }
    out
}

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
            let own = text.matches("<script src=\"").count();
            assert!(own <= 1 && text.matches(" defer></script>").count() == own, "{}", page.address);
            let data = own + text.matches("<script type=\"application/ld+json\">").count();
            assert_eq!(scripts, data, "{} with {hostile}:\n{text}", page.address);
            assert_eq!(text.matches("</script").count(), data, "{} with {hostile}", page.address);
            assert!(
                !text.contains("<img src=x") && !text.contains("<svg onload") && !text.contains("javascript:"),
                "{}",
                page.address
            );
            assert!(!text.contains("<!-- "), "{} with {hostile}", page.address);
            for tag in tags(&text) {
                assert!(!tag.contains("onmouseover"), "{} with {hostile}: {tag}", page.address);
            }
            assert!(!text.contains("49</"), "a template inside a value is not run");
        }
    }
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
        assert_eq!(crate::catalogue::data::cell(text), cell);
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

use super::*;
use crate::shop;
use crate::units::Money;

#[derive(serde::Deserialize)]
struct Reference {
    limit: Limit,
    parcel: Vec<Parcel>,
}

#[derive(serde::Deserialize)]
struct Limit {
    up_to_g: f64,
    longest_side_mm: f64,
    sum_of_sides_mm: f64,
}

#[derive(serde::Deserialize)]
struct Parcel {
    what: String,
    sides_mm: [f64; 3],
    mass_g: f64,
    goes: bool,
}

fn row(zone: &str, up_to_g: f64, cents: i64) -> Postage {
    Postage {
        zone: zone.into(),
        service: format!("up to {up_to_g} g for {cents}"),
        up_to_g,
        max_mm: None,
        max_sum_mm: None,
        price: Money { minor: cents, decimals: 2 },
    }
}

fn pack(inner_mm: [f64; 3], outer_mm: [f64; 3], weight_g: f64) -> Pack {
    Pack { name: "box".into(), inner_mm, outer_mm, weight_g, price: None }
}

/// The settings of a sound shop, with these packs and rows instead of its own.
fn settings(packs: Vec<Pack>, postage: Vec<Postage>) -> Settings {
    let shop = shop::read("tests/findings/shop".as_ref()).expect("a shop");
    Settings { packs, postage, ..shop.settings }
}

fn offer(pack: Option<usize>, extras_g: f64, finish_g: f64) -> Offer {
    Offer {
        form: Form::Plain,
        price: Money { minor: 0, decimals: 2 },
        stock: None,
        lead_time: None,
        code: "TEST".into(),
        order: None,
        pack,
        extras_g,
        finish_g,
        board: crate::shop::BlankBoard::Cut,
        primed: false,
        contains: Vec::new(),
    }
}

const SIZE: Size = Size { width_mm: 120.0, height_mm: 200.0, thickness_mm: 3.0 };

/// UPU letter-post limits; `tests/reference/postage.toml` names the pages they were read from.
#[test]
fn limits_are_met_when_they_are_reached_and_not_when_they_are_passed() {
    let reference: Reference =
        toml::from_str(include_str!("../../../tests/reference/postage.toml")).expect("the reference file reads");
    let limit = &reference.limit;
    let service = Postage {
        max_mm: Some([limit.longest_side_mm; 3]),
        max_sum_mm: Some(limit.sum_of_sides_mm),
        ..row("abroad", limit.up_to_g, 100)
    };
    assert!(reference.parcel.len() >= 5);
    for parcel in &reference.parcel {
        assert_eq!(takes(&service, parcel.mass_g, parcel.sides_mm), parcel.goes, "{}", parcel.what);
    }
}

#[test]
fn sides_are_compared_longest_with_longest() {
    let service = Postage { max_mm: Some([80.0, 353.0, 250.0]), ..row("inland", 1000.0, 100) };
    assert!(takes(&service, 10.0, [353.0, 250.0, 80.0]));
    assert!(!takes(&service, 10.0, [353.0, 251.0, 10.0]));
    assert!(!takes(&service, 10.0, [200.0, 200.0, 81.0]));
}

/// 30 g board + 5 g finish + 10 g extras + 55 g box = 100 g; postage for 100 g + 3 g.
#[test]
fn a_parcel_is_board_finish_extras_and_pack_and_is_posted_with_a_tenth_of_the_board_more() {
    let packs = vec![pack([300.0, 200.0, 20.0], [35.0, 310.0, 210.0], 55.0)];
    let of = |up_to_g| {
        let shop = settings(packs.clone(), vec![row("inland", up_to_g, 100)]);
        packed(&offer(Some(0), 10.0, 5.0), &shop, 30.0, &SIZE)
    };
    assert!((of(103.0).packed_g - 100.0).abs() < 1e-9);
    assert_eq!(of(103.0).packed_mm, [310.0, 210.0, 35.0]);
    assert_eq!(of(103.0).postage, [("inland".to_owned(), Some(0))]);
    assert_eq!(of(102.9).postage, [("inland".to_owned(), None)]);
}

#[test]
fn without_a_pack_the_board_itself_is_posted() {
    let shop = settings(Vec::new(), vec![row("inland", 1000.0, 100)]);
    let packed = packed(&offer(None, 0.0, 0.0), &shop, 30.0, &SIZE);
    assert_eq!(packed.packed_mm, [200.0, 120.0, 3.0]);
    assert!((packed.packed_g - 30.0).abs() < 1e-9);
}

#[test]
fn the_cheapest_row_that_fits_counts_and_of_equal_ones_the_first() {
    let rows = vec![
        row("inland", 50.0, 90),    // cheapest, but takes too little
        row("inland", 1000.0, 590), // dearer
        row("inland", 1000.0, 290), // the one
        row("abroad", 1000.0, 700), // another zone
        row("inland", 2000.0, 290), // as cheap, but later
    ];
    let packed = packed(&offer(None, 100.0, 0.0), &settings(Vec::new(), rows), 30.0, &SIZE);
    assert_eq!(packed.postage, [("inland".to_owned(), Some(2)), ("abroad".to_owned(), Some(3))]);
}

/// Prices are whole minor units: 9.90 is less than 10.00, though its text is not.
#[test]
fn prices_are_compared_as_numbers() {
    let rows = vec![row("inland", 1000.0, 1000), row("inland", 1000.0, 990)];
    let packed = packed(&offer(None, 0.0, 0.0), &settings(Vec::new(), rows), 30.0, &SIZE);
    assert_eq!(packed.postage, [("inland".to_owned(), Some(1))]);
}

/// 120 + 5 = 125 and 200 + 5 = 205; depth needs nothing to spare.
#[test]
fn a_board_goes_into_its_pack_turned_or_not_with_five_millimetres_to_spare() {
    let goes = |inner_mm| goes_in(&pack(inner_mm, inner_mm, 0.0), &SIZE);
    assert!(goes([125.0, 205.0, 3.0]) && goes([205.0, 125.0, 3.0]));
    assert!(!goes([124.9, 205.0, 3.0]) && !goes([205.0, 124.9, 3.0]));
    assert!(!goes([204.9, 125.0, 3.0]));
    assert!(!goes([300.0, 300.0, 2.9]));
}

#[test]
fn a_shop_without_postage_rows_has_no_postage_to_lack() {
    let shop = shop::read("tests/findings/shop".as_ref()).expect("a shop");
    let design = shop.entries.iter().find(|e| e.slug == "no-postage").and_then(|e| e.design.as_ref()).expect("sound");
    let told = |settings: &Settings| {
        let weight = weight(design, settings, 2380.04, &SIZE);
        findings(design, settings, &weight, &SIZE).iter().filter(|f| f.kind == Kind::NoPostage).count()
    };
    assert_eq!(told(&shop.settings), 1);
    assert_eq!(told(&Settings { postage: Vec::new(), ..shop.settings.clone() }), 0);
}

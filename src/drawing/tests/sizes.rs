//! True size: SVG 2, section 8, CSS lengths, and the record's word.

use super::*;

/// Reads an svg element of these attributes, and a record width; gives width, height, and the box of a square from
/// (10, 10) to (20, 20).
fn sizes(attributes: &str, width_mm: Option<f64>) -> Result<(Vec<f64>, Vec<Kind>), DrawingError> {
    let svg = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' {attributes}><rect id='cuts' x='10' y='10' width='10' height='10'/></svg>"
    );
    let layers = by_name(&[(Layer::Cut, "cuts")]);
    let checked = read(&svg, &Reading { layers: &layers, width_mm, join_mm: 0.1, with_personal: false })?;
    let mut numbers = vec![checked.value.width_mm, checked.value.height_mm];
    numbers.extend(extent(&checked.value));
    let kinds = kinds(&checked);
    Ok((numbers, kinds))
}

/// By hand after SVG 2, section 8.2, and CSS: 96 px are 25.4 mm.
#[test]
fn width_height_and_view_give_the_real_size() {
    let px = 25.4 / 96.0;
    let cases: &[(&str, Option<f64>, [f64; 6])] = &[
        ("width='200mm' height='100mm' viewBox='0 0 100 50'", None, [200.0, 100.0, 20.0, 20.0, 40.0, 40.0]),
        ("width='6in' height='4in' viewBox='0 0 600 400'", None, [152.4, 101.6, 2.54, 2.54, 5.08, 5.08]),
        ("width='20cm' viewBox='0 0 100 50'", None, [200.0, 100.0, 20.0, 20.0, 40.0, 40.0]),
        ("height='100mm' viewBox='0 0 100 50'", None, [200.0, 100.0, 20.0, 20.0, 40.0, 40.0]),
        ("width='100%' height='100mm' viewBox='0 0 100 50'", None, [200.0, 100.0, 20.0, 20.0, 40.0, 40.0]),
        ("style='width:200mm' viewBox='0 0 100 50'", None, [200.0, 100.0, 20.0, 20.0, 40.0, 40.0]),
        ("width='960' height='96px'", None, [254.0, 25.4, 10.0 * px, 10.0 * px, 20.0 * px, 20.0 * px]),
        // The view sits in the middle of a wide page: 200 - 100 = 100 mm are left over.
        ("width='200mm' height='100mm' viewBox='0 0 50 50'", None, [200.0, 100.0, 70.0, 20.0, 90.0, 40.0]),
        (
            "width='200mm' height='100mm' viewBox='0 0 50 50' preserveAspectRatio='none'",
            None,
            [200.0, 100.0, 40.0, 20.0, 80.0, 40.0],
        ),
        (
            "width='200mm' height='100mm' viewBox='0 0 50 50' preserveAspectRatio='xMaxYMin'",
            None,
            [200.0, 100.0, 120.0, 20.0, 140.0, 40.0],
        ),
        (
            "width='200mm' height='100mm' viewBox='0 0 50 50' preserveAspectRatio='xMidYMax slice'",
            None,
            [200.0, 100.0, 40.0, -60.0, 80.0, -20.0],
        ),
        // The record's word scales both sides.
        ("viewBox='0 0 1000 600'", Some(250.0), [250.0, 150.0, 2.5, 2.5, 5.0, 5.0]),
        ("width='200mm' height='100mm' viewBox='0 0 100 50'", Some(100.0), [100.0, 50.0, 10.0, 10.0, 20.0, 20.0]),
        ("width='100' height='50'", Some(200.0), [200.0, 100.0, 20.0, 20.0, 40.0, 40.0]),
        ("width='100%' height='100%' viewBox='0 0 100 50'", Some(300.0), [300.0, 150.0, 30.0, 30.0, 60.0, 60.0]),
    ];
    for (attributes, width_mm, expected) in cases {
        let (got, kinds) = sizes(attributes, *width_mm).unwrap();
        assert_near(&got, expected, 1e-9);
        assert_eq!(kinds, [], "{attributes}");
    }
}

#[test]
fn without_any_size_a_unit_is_a_pixel_and_that_is_told() {
    let px = 25.4 / 96.0;
    for attributes in ["viewBox='0 0 400 300'", "width='100%' height='auto' viewBox='0 0 400 300'"] {
        let (got, kinds) = sizes(attributes, None).unwrap();
        assert_near(&got, &[400.0 * px, 300.0 * px, 10.0 * px, 10.0 * px, 20.0 * px, 20.0 * px], 1e-9);
        assert_eq!(kinds, [Kind::NoTrueSize]);
    }
    assert_eq!(sizes("", None).unwrap().1, [Kind::NoTrueSize]);
}

#[test]
fn sizes_that_mean_nothing_are_mistakes() {
    for attributes in [
        "width='12parsec' height='10'",
        "width='0' height='10'",
        "width='-5mm'",
        "width='10em' height='3'",
        "viewBox='0 0 10'",
        "viewBox='0 0 10 x'",
        "viewBox='0 0 0 10'",
        "viewBox='0 0 -1 10'",
        "viewBox='0 0 1 1 1'",
        "viewBox='0 0 9 9' width='9' preserveAspectRatio='middle'",
    ] {
        assert!(matches!(sizes(attributes, None), Err(DrawingError::BadNumber(_))), "{attributes}");
    }
    assert!(matches!(sizes("", Some(100.0)), Err(DrawingError::NoViewport { .. })));
    assert!(matches!(
        sizes("width='1mm' height='1mm' viewBox='0 0 1e-300 1e-300'", None),
        Err(DrawingError::TooFar { .. })
    ));
}

/// SVG 2, section 8.9: shapes take units and percentages of the nearest viewport, in its own units.
#[test]
fn shapes_take_units_and_percentages() {
    let read = |content: &str| extent(&inside(content).unwrap().value);
    // In a view of 100 for 100 mm, one inch of CSS is 96 units, that is 96 mm.
    assert_near(&read("<rect id='cuts' x='0.5in' y='10%' width='25%' height='9pt'/>"), &[48.0, 10.0, 73.0, 22.0], 1e-9);
    assert_near(&read("<circle id='cuts' cx='50%' cy='50%' r='10%'/>"), &[40.0, 40.0, 60.0, 60.0], 1e-9);
    let nested = "<g id='cuts'><svg x='10%' y='20' width='40' height='40' viewBox='0 0 10 20'>\
                  <rect width='100%' height='50%'/></svg></g>";
    // 40 by 40 for 10 by 20: scale 2, in the middle: 10 + (40 - 20)/2 = 20.
    assert_near(&read(nested), &[20.0, 20.0, 40.0, 40.0], 1e-9);
}

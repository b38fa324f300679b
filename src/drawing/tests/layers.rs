//! Which layer an element belongs to. Handbook, "record.toml", selectors.

use super::*;
use crate::drawing::contents;

fn table(
    id: Option<&str>,
    label: Option<&str>,
    class: Option<&str>,
    stroke: Option<Rgb>,
    fill: Option<Rgb>,
) -> Selector {
    Selector::All { id: id.map(Into::into), label: label.map(Into::into), class: class.map(Into::into), stroke, fill }
}

#[test]
fn a_name_is_an_id_or_a_label_of_any_namespace() {
    let content = "<g own:label='Saw lines'><path d='M0 0h1'/></g><g label='Saw lines'><path d='M0 0h2'/></g>\
                   <path id='Saw lines' d='M0 0h4'/><g class='Saw lines'><path d='M0 0h8'/></g>";
    let checked = read_as(&page(content), &by_name(&[(Layer::Cut, "Saw lines")])).unwrap();
    assert_eq!(length_of(&checked.value, Layer::Cut), 7.0);
    assert_eq!(kinds(&checked), [Kind::OutsideAnyLayer]);
}

#[test]
fn the_nearest_claim_wins() {
    let content = "<g id='all'><path d='M0 0h1'/><g id='hole'><path d='M0 0h2'/></g><path id='line' d='M0 0h4'/>\
                   <g id='ink'><path d='M0 0h8'/><g id='deep'><path d='M0 0h16'/></g></g></g>";
    let mut layers =
        by_name(&[(Layer::Cut, "all"), (Layer::Void, "hole"), (Layer::Score, "ink"), (Layer::Novelty, "line")]);
    layers.0[0].1.push(Selector::Name("deep".into()));
    let drawing = read_as(&page(content), &layers).unwrap().value;
    let lengths = [Layer::Cut, Layer::Void, Layer::Score, Layer::Novelty].map(|l| length_of(&drawing, l));
    assert_eq!(lengths, [17.0, 2.0, 8.0, 4.0]);
}

#[test]
fn a_table_must_hold_in_all() {
    let dark = Rgb::new(0x33, 0x33, 0x33);
    let content = "<path class='deep x' stroke='#333' d='M0 0h1'/><path class='deep' stroke='#666' d='M0 0h2'/>\
                   <path class='deeper' stroke='#333' d='M0 0h4'/>\
                   <g class='deep' stroke='#333'><path d='M0 0h8'/></g><path id='a' label='b' fill='#333' d='M0 0h16'/>";
    for (selector, length) in [
        // A group has no paint: the class of the group and the paint of the line never meet in one element.
        (table(None, None, Some("deep"), Some(dark), None), 1.0),
        (table(None, None, Some("deep"), None, None), 11.0),
        (table(Some("a"), Some("b"), None, None, Some(dark)), 16.0),
        (table(Some("a"), Some("c"), None, None, None), 0.0),
        (table(None, None, None, None, None), 0.0),
        (table(None, None, None, Some(dark), None), 13.0),
    ] {
        let layers = Layers(vec![(Layer::Cut, vec![selector.clone()])]);
        let drawing = read_as(&page(content), &layers).unwrap().value;
        assert_eq!(length_of(&drawing, Layer::Cut), length, "{selector}");
    }
}

#[test]
fn two_layers_at_one_element_are_a_mistake_that_names_both() {
    let layers = by_name(&[(Layer::Cut, "a"), (Layer::Score, "b")]);
    let error = read_as(&page("<g id='a' label='b'><path d='M0 0h1'/></g>"), &layers).unwrap_err();
    let DrawingError::TwoLayers { first, second, .. } = &error else { panic!("{error}") };
    assert_eq!((first.layer, second.layer), (Layer::Cut, Layer::Score));
    assert!(error.to_string().contains("`cut` (by `a`) and `score` (by `b`)"), "{error}");
    // At two levels there is no quarrel.
    assert!(read_as(&page("<g id='a'><path id='b' d='M0 0h1'/></g>"), &layers).is_ok());
}

#[test]
fn what_use_brings_in_has_the_use_for_its_parent() {
    let content = "<defs><g id='outer'><g id='part'><path d='M0 0h1'/><path id='own' d='M0 0h2'/></g></g></defs>\
                   <g id='cuts'><use href='#part'/></g><use id='score' href='#part'/>";
    let layers =
        by_name(&[(Layer::Cut, "cuts"), (Layer::Score, "score"), (Layer::Novelty, "own"), (Layer::Void, "outer")]);
    let drawing = read_as(&page(content), &layers).unwrap().value;
    let lengths = [Layer::Cut, Layer::Score, Layer::Novelty, Layer::Void].map(|l| length_of(&drawing, l));
    assert_eq!(lengths, [1.0, 1.0, 4.0, 0.0]);
}

const FOR_ONE: &str = "<g id='cuts'><path d='M0 0h1'/><g id='gift' stroke='#abcdef'><path d='M0 0h2'/><text>For Nell</text>\
                       <path d='M0 0 broken'/><image/></g></g><g id='names' stroke='#fedcba'><path d='M0 0h4'/></g>";

#[test]
fn lines_of_one_buyer_leave_no_trace() {
    let layers = by_name(&[(Layer::Cut, "cuts"), (Layer::Personal, "gift"), (Layer::PersonalScore, "names")]);
    let checked = read_as(&page(FOR_ONE), &layers).unwrap();
    assert_eq!(checked.value.lines.len(), 1);
    // Nor is the broken one looked at, or the text.
    let told: Vec<&str> = checked.findings.iter().map(|f| f.message.as_str()).collect();
    assert_eq!(told, [] as [&str; 0]);
    let listed = contents(&page(FOR_ONE), &layers).unwrap();
    assert_eq!((listed.groups, listed.strokes), (vec!["cuts".to_owned()], vec![]));
}

#[test]
fn lines_of_one_buyer_are_taken_in_when_asked_for() {
    let layers = by_name(&[(Layer::Cut, "cuts"), (Layer::Personal, "gift"), (Layer::PersonalScore, "names")]);
    let how = Reading { layers: &layers, width_mm: None, join_mm: 0.1, with_personal: true };
    assert!(matches!(read(&page(FOR_ONE), &how), Err(DrawingError::BadPath(_))));
    let mended = page(&FOR_ONE.replace("broken", "1 1"));
    let checked = read(&mended, &how).unwrap();
    assert_near(&[length_of(&checked.value, Layer::Cut)], &[3.0 + 2.0f64.sqrt()], 1e-9);
    assert_eq!(length_of(&checked.value, Layer::Score), 4.0);
    assert_eq!(kinds(&checked), [Kind::NotALine, Kind::TextNotOutlined]);
}

#[test]
fn without_layers_the_groups_and_strokes_are_listed() {
    let content = "<defs><g id='hidden'><path stroke='red' d='M0 0h1'/></g></defs><g id='empty'/>\
                   <g id='outer-line' own:label='Edge' stroke='#111'><path d='M0 0h1'/><path d='M0 0h1'/></g>\
                   <g id='inner-lines'><path stroke='navy' d='M0 0h1'/></g>";
    let error = read_as(&page(content), &Layers::default()).unwrap_err();
    let DrawingError::NoLayers(listed) = &error else { panic!("{error}") };
    assert_eq!(listed.groups, ["Edge", "outer-line", "inner-lines"]);
    assert_eq!(listed.strokes, [Rgb::new(17, 17, 17), Rgb::new(0, 0, 128)]);
    assert!(error.to_string().contains("`outer-line`") && error.to_string().contains("#000080"), "{error}");
}

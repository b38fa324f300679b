//! Boxes of drawings held against those of usvg, a reader that we did not write (it counts in single precision).

use super::*;
use resvg::usvg;

/// Boxes are told by usvg to about seven digits; ours lie inside their curves by the tolerance at most.
const WITHIN_MM: f64 = 0.01;

fn box_by_usvg(svg: &str) -> [f64; 4] {
    let tree = usvg::Tree::from_str(svg, &usvg::Options::default()).expect("usvg reads it");
    let mut all = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    fn add(group: &usvg::Group, all: &mut [f64; 4]) {
        for node in group.children() {
            match node {
                usvg::Node::Group(inner) => add(inner, all),
                usvg::Node::Path(path) => {
                    let b = path.abs_bounding_box();
                    all[0] = all[0].min(f64::from(b.left()));
                    all[1] = all[1].min(f64::from(b.top()));
                    all[2] = all[2].max(f64::from(b.right()));
                    all[3] = all[3].max(f64::from(b.bottom()));
                }
                _ => {}
            }
        }
    }
    add(tree.root(), &mut all);
    all.map(|px| px * crate::drawing::MM_PER_PX)
}

const SHAPE: &str = "<path d='M10 20C30 0 40 40 25 38A9 5 20 1 1 12 30Q0 25 10 20Z'/>";

#[test]
fn boxes_agree_with_another_reader() {
    let contents = [
        "<g transform='translate(20 5) rotate(24)'>SHAPE</g>".to_owned(),
        "<g transform='matrix(1,.2,-.1,1.1,20,5)'><g transform='skewX(12)'><g transform='scale(1.5 .8)'>SHAPE</g></g></g>".into(),
        "<g transform='rotate(-30, 25, 25) skewY(10) scale(.5)'>SHAPE</g>".into(),
        "<svg x='20' y='15' width='60' height='40' viewBox='5 5 40 30'>SHAPE</svg>".into(),
        "<svg x='20' y='15' width='60' height='40' viewBox='5 5 40 30' preserveAspectRatio='xMinYMax slice'>SHAPE</svg>".into(),
        "<svg x='10%' y='5' width='50%' height='50%'><svg viewBox='0 0 50 40'>SHAPE</svg></svg>".into(),
        "<g transform='rotate(10)'><svg x='3' viewBox='0 0 80 80' preserveAspectRatio='none' width='50' height='90'>SHAPE</svg></g>".into(),
        "<defs><g id='p' transform='scale(.5)'>SHAPE</g></defs><use href='#p' x='30' y='10' transform='rotate(15)'/>".into(),
        "<defs><g id='p'>SHAPE</g></defs><g transform='translate(5)'><use xlink:href='#p'/><use href='#p' x='40' y='-3'/></g>".into(),
        "<symbol id='s' viewBox='0 0 50 50'>SHAPE</symbol><use href='#s' x='20' y='30' width='30' height='20'/>".into(),
        "<symbol id='s' viewBox='0 0 50 50' preserveAspectRatio='xMaxYMin meet'>SHAPE</symbol><use href='#s' width='90' height='20'/>".into(),
        "<defs><g id='a'>SHAPE</g><g id='b'><use href='#a' x='9'/></g></defs><use href='#b' y='7' transform='scale(1.2)'/>".into(),
        "<defs><svg id='v' viewBox='0 0 50 50' width='20' height='20'>SHAPE</svg></defs><use href='#v' x='5' width='60' height='30'/>".into(),
        "<rect x='5' y='6' width='30' height='20' rx='6' transform='rotate(40)'/>".into(),
        "<ellipse cx='50' cy='40' rx='20' ry='9' transform='rotate(33 50 40)'/>".into(),
        "<polyline points='5 50,60 45 100,55 155,50' transform='scale(.5,-.5) translate(0 -100)'/>".into(),
        "<a><switch><g requiredExtensions='urn:x'><rect width='90' height='90'/></g><g>SHAPE</g><rect width='99' height='99'/></switch></a>".into(),
        "<path d='M80 50 a30 12 -40 1 0 .1 .1'/>".into(),
        "<path d='M118 75 A12 8 30 1 1 128 80z' transform='scale(.7)'/>".into(),
    ];
    for align in
        ["xMinYMin", "xMidYMin", "xMaxYMin", "xMinYMid", "xMidYMid", "xMaxYMid", "xMinYMax", "xMidYMax", "xMaxYMax"]
    {
        for how in ["meet", "slice"] {
            let tag = format!(
                "<svg x='2' y='3' width='70' height='30' viewBox='0 0 50 50' preserveAspectRatio='{align} {how}'>"
            );
            check(&format!("{tag}{SHAPE}</svg>"));
        }
    }
    for content in &contents {
        check(&content.replace("SHAPE", SHAPE));
    }
}

fn check(content: &str) {
    let svg = page(&format!("<g id='cuts' fill='none' stroke='#111' stroke-width='.2'>{content}</g>"));
    let ours = read_as(&svg, &by_name(&[(Layer::Cut, "cuts")])).unwrap_or_else(|e| panic!("{content}: {e}"));
    let (ours, theirs) = (extent(&ours.value), box_by_usvg(&svg));
    let near = ours.iter().zip(theirs).all(|(a, b)| (a - b).abs() <= WITHIN_MM);
    assert!(near, "{content}: {ours:?}, not {theirs:?}");
}

//! Subjects for trying pictures on: a landscape of wavy bands, cut by a knobbed grid, made here from formulas.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use i_overlay::mesh::float::stroke::offset::StrokeOffset;
use i_overlay::mesh::float::style::{LineCap, LineJoin, StrokeStyle};
use kerfleaf::drawing::{Layer, Line};
use kerfleaf::inmost;
use kerfleaf::paint::{Cell, Plan};
use kerfleaf::pictures::Subject;
use kerfleaf::pieces::{Board, Net, Part, Piece};
use kerfleaf::shape::{Face, Point, Rgb};
use kerfleaf::shop::{Wood, WoodDensity, WoodGroup};

type Contour = Vec<[f64; 2]>;

/// A subject with all that it borrows.
pub struct Scene {
    pub slug: String,
    pub board: Board,
    pub score: Vec<Line>,
    pub plan: Option<Plan>,
    pub paints: Vec<Rgb>,
    pub wood: Wood,
    pub thickness_mm: f64,
}

impl Scene {
    /// Calls with the subject.
    pub fn with<T>(&self, show_cuts: bool, use_it: impl FnOnce(Subject) -> T) -> T {
        let score: Vec<&Line> = self.score.iter().collect();
        use_it(Subject {
            slug: &self.slug,
            board: &self.board,
            score: &score,
            plan: self.plan.as_ref(),
            paints: &self.paints,
            wood: &self.wood,
            thickness_mm: self.thickness_mm,
            show_cuts,
        })
    }
}

/// A wood by name, its tones chosen by eye.
pub fn wood(name: &str) -> Wood {
    let (group, solid, tones) = match name {
        "cherry" => (WoodGroup::DiffusePorous, true, [Rgb::new(0xcf, 0x9c, 0x6e), Rgb::new(0x9a, 0x5c, 0x37)]),
        "walnut" => (WoodGroup::DiffusePorous, true, [Rgb::new(0x8a, 0x66, 0x48), Rgb::new(0x4a, 0x31, 0x21)]),
        "oak" => (WoodGroup::RingPorous, true, [Rgb::new(0xd8, 0xb6, 0x86), Rgb::new(0x9c, 0x74, 0x48)]),
        "pine" => (WoodGroup::Softwood, true, [Rgb::new(0xee, 0xd3, 0xa1), Rgb::new(0xc0, 0x8a, 0x4d)]),
        "basswood" => (WoodGroup::DiffusePorous, false, [Rgb::new(0xec, 0xd9, 0xb4), Rgb::new(0xcf, 0xad, 0x7c)]),
        "maple" => (WoodGroup::DiffusePorous, true, [Rgb::new(0xec, 0xd3, 0xa8), Rgb::new(0xc4, 0x95, 0x62)]),
        "hardboard" => (WoodGroup::Fibreboard, false, [Rgb::new(0xb2, 0x8a, 0x62), Rgb::new(0x84, 0x5e, 0x3e)]),
        _ => (WoodGroup::DiffusePorous, false, [Rgb::new(0xec, 0xd3, 0xa8), Rgb::new(0xc4, 0x95, 0x62)]),
    };
    Wood {
        id: name.into(),
        name: name.into(),
        solid,
        density: WoodDensity::Weighed(650.0),
        group,
        tones,
        source: "own choice".into(),
    }
}

fn face(shape: &[Contour]) -> Face {
    let ring = |c: &Contour| c.iter().map(|p| Point::new(p[0], p[1])).collect();
    Face { outer: shape.first().map(ring).unwrap_or_default(), holes: shape.iter().skip(1).map(ring).collect() }
}

fn difference(a: &[Contour], b: &[Contour]) -> Vec<Vec<Contour>> {
    a.to_vec().overlay(&b.to_vec(), OverlayRule::Difference, FillRule::NonZero)
}

fn intersection(a: &[Contour], b: &[Contour]) -> Vec<Vec<Contour>> {
    a.to_vec().overlay(&b.to_vec(), OverlayRule::Intersect, FillRule::NonZero)
}

fn circle(x: f64, y: f64, r: f64) -> Contour {
    (0..160)
        .map(|k| {
            let a = std::f64::consts::TAU * f64::from(k) / 160.0;
            [x + r * libm::cos(a), y + r * libm::sin(a)]
        })
        .collect()
}

fn holds(face: &Face, p: Point) -> bool {
    let ring = &face.outer;
    let mut odd = false;
    for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) {
            odd = !odd;
        }
    }
    odd
}

/// Rounded rectangle from the origin.
fn rounded(w: f64, h: f64, r: f64) -> Contour {
    let mut out = Vec::new();
    for (cx, cy, from) in [(w - r, r, -0.25), (w - r, h - r, 0.0), (r, h - r, 0.25), (r, r, 0.5)] {
        for k in 0..=16 {
            let a = std::f64::consts::TAU * (from + 0.25 * f64::from(k) / 16.0);
            out.push([cx + r * libm::cos(a), cy + r * libm::sin(a)]);
        }
    }
    out
}

fn random(n: &mut u64) -> f64 {
    *n = n.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
    (*n >> 33) as f64 / (1_u64 << 31) as f64
}

/// A cut from a to b with one knob in its middle, bulging to one side.
fn knobbed(a: [f64; 2], b: [f64; 2], side: f64, size: f64) -> Contour {
    let d = [b[0] - a[0], b[1] - a[1]];
    let length = (d[0] * d[0] + d[1] * d[1]).sqrt();
    let (t, n) = ([d[0] / length, d[1] / length], [-d[1] / length, d[0] / length]);
    let m = 0.5 * length;
    let mut local: Vec<[f64; 2]> = vec![[0.0, 0.0]];
    for k in 1..10 {
        let x = f64::from(k) / 10.0 * (m - 0.62 * size);
        local.push([x, 0.05 * size * libm::sin(x / length * 9.0)]);
    }
    // A neck, then three quarters of a circle.
    for k in 0..=44 {
        let a = std::f64::consts::TAU * (0.625 + 0.06 - (0.75 + 0.12) * f64::from(k) / 44.0) + std::f64::consts::PI;
        local.push([m - size * 0.62 * libm::cos(a), size * (0.80 - 0.62 * libm::sin(a))]);
    }
    for k in (1..10).rev() {
        let x = length - f64::from(k) / 10.0 * (m - 0.62 * size);
        local.push([x, -0.05 * size * libm::sin((length - x) / length * 9.0)]);
    }
    local.push([length, 0.0]);
    local.iter().map(|p| [a[0] + t[0] * p[0] + n[0] * p[1] * side, a[1] + t[1] * p[0] + n[1] * p[1] * side]).collect()
}

/// A landscape `w` by `h` mm in about `columns` × `rows` pieces, with one opening and one novelty shape.
pub fn landscape(slug: &str, wood_name: &str, w: f64, h: f64, columns: usize, rows: usize, painted: bool) -> Scene {
    let kerf = 0.2;
    let outline = rounded(w, h, 6.0);
    let hole = circle(0.885 * w, 0.80 * h, 0.035 * w);
    let board_shape = difference(&[outline], std::slice::from_ref(&hole));
    let mut seed = 7;
    let mut node = vec![vec![[0.0; 2]; columns + 1]; rows + 1];
    for (j, line) in node.iter_mut().enumerate() {
        for (i, p) in line.iter_mut().enumerate() {
            let inner_x = if i > 0 && i < columns { (random(&mut seed) - 0.5) * 0.22 } else { 0.0 };
            let inner_y = if j > 0 && j < rows { (random(&mut seed) - 0.5) * 0.22 } else { 0.0 };
            *p = [w * (i as f64 + inner_x) / columns as f64, h * (j as f64 + inner_y) / rows as f64];
        }
    }
    let size = (w / columns as f64).min(h / rows as f64) * 0.2;
    let mut cuts: Vec<Contour> = Vec::new();
    let across = node[1..rows].iter().flat_map(|line| line.windows(2).map(|w| (w[0], w[1])));
    let down = (1..columns).flat_map(|i| node.windows(2).map(move |w| (w[0][i], w[1][i])));
    for (from, to) in across.chain(down) {
        let side = if random(&mut seed) < 0.5 { 1.0 } else { -1.0 };
        cuts.push(knobbed(from, to, side, size * (0.85 + 0.3 * random(&mut seed))));
    }
    let star: Contour = (0..10)
        .map(|k| {
            let a = std::f64::consts::TAU * (f64::from(k) / 10.0 - 0.25);
            let r = if k % 2 == 0 { 0.062 * w } else { 0.030 * w };
            [0.21 * w + r * libm::cos(a), 0.70 * h + r * libm::sin(a)]
        })
        .collect();
    let star_area = vec![star.clone()];
    let shapes: Vec<Contour> = board_shape.iter().flatten().cloned().collect();
    // Grid lines stop at the star; slots of almost no width give the pieces as drawn, slots of the kerf's width what is left.
    let apart = |width: f64, rim: bool| -> Vec<Face> {
        let style =
            StrokeStyle::new(width).line_join(LineJoin::Round(0.1)).start_cap(LineCap::Butt).end_cap(LineCap::Butt);
        let slots: Vec<Contour> = cuts.stroke(style.clone(), false).into_iter().flatten().collect();
        let mut all: Vec<Contour> = difference(&slots, &star_area).into_iter().flatten().collect();
        all.extend(star_area.stroke(style.clone(), true).into_iter().flatten());
        if rim {
            all.extend(shapes.stroke(style, true).into_iter().flatten());
        }
        difference(&shapes, &all).iter().map(|shape| face(shape)).filter(|f| f.area_mm2() > 0.2).collect()
    };
    let left = apart(kerf, true);
    let pieces: Vec<Piece> = apart(0.002, false)
        .into_iter()
        .enumerate()
        .map(|(n, f)| {
            let cut = left.iter().filter(|c| holds(&f, c.outer[0])).cloned().collect();
            Piece::new(f, cut, n)
        })
        .collect();
    let part = Part { pieces: (0..pieces.len()).collect(), outline: face(&board_shape[0]) };
    let point_ring = |c: &Contour| c.iter().map(|p| Point::new(p[0], p[1])).collect::<Vec<_>>();
    let board = Board {
        net: Net::default(),
        pieces,
        parts: vec![part],
        novelty: vec![point_ring(&star)],
        voids: vec![point_ring(&hole)],
        cut_mm: 0.0,
        neighbours: Vec::new(),
        kerf_mm: kerf,
    };
    let (cells, paints) = picture(&shapes, w, h);
    let score =
        cells.iter().map(|c| Line { layer: Layer::Score, points: c.face.outer.clone(), closed: true }).collect();
    Scene {
        slug: slug.into(),
        board,
        score,
        plan: painted.then_some(Plan { cells }),
        paints,
        wood: wood(wood_name),
        thickness_mm: 6.0,
    }
}

/// Sky, sun, hills, river: later shapes over earlier ones.
fn picture(board: &[Contour], w: f64, h: f64) -> (Vec<Cell>, Vec<Rgb>) {
    let paints: Vec<Rgb> = [
        0x2f4a7c, 0x3f6f9f, 0x6a9fb5, 0xb9d3cf, 0xe9dfbf, 0xf6ecc9, 0x6f6c98, 0x47617a, 0x8f9a4d, 0xb5773f, 0x8c4434,
        0x4a4450, 0x3d7ea6, 0x5c7d4a,
    ]
    .iter()
    .map(|v: &u32| Rgb::new((v >> 16) as u8, (v >> 8) as u8, *v as u8))
    .collect();
    let wave = |base: f64, a: f64, f: f64, p: f64| -> Contour {
        let mut c: Contour = (0..=200)
            .map(|k| {
                let x = w * (f64::from(k) / 200.0 * 1.1 - 0.05);
                [x, h * (base + a * libm::sin(f * x / w + p) + 0.4 * a * libm::sin(2.3 * f * x / w + 1.7 * p))]
            })
            .collect();
        c.push([1.05 * w, 1.2 * h]);
        c.push([-0.05 * w, 1.2 * h]);
        c
    };
    let mut river: Contour = Vec::new();
    let centre = |t: f64| [w * (0.52 + 0.24 * libm::sin(2.6 * t) + 0.1 * t), h * (0.6 + 0.42 * t)];
    for k in 0..=60 {
        let t = f64::from(k) / 60.0;
        river.push([centre(t)[0] - w * (0.006 + 0.10 * t * t), centre(t)[1]]);
    }
    for k in (0..=60).rev() {
        let t = f64::from(k) / 60.0;
        river.push([centre(t)[0] + w * (0.006 + 0.12 * t * t), centre(t)[1]]);
    }
    let mut layers: Vec<(usize, Contour)> = vec![
        (0, vec![[-1.0, -1.0], [w + 1.0, -1.0], [w + 1.0, h + 1.0], [-1.0, h + 1.0]]),
        (1, wave(0.10, 0.045, 5.0, 0.6)),
        (2, wave(0.24, 0.06, 4.2, 2.2)),
        (3, wave(0.40, 0.04, 3.4, 0.2)),
        (4, circle(0.70 * w, 0.33 * h, 0.115 * w)),
        (5, circle(0.70 * w, 0.33 * h, 0.066 * w)),
        (6, wave(0.50, 0.055, 5.2, 1.1)),
        (7, wave(0.58, 0.035, 6.1, 2.9)),
        (13, wave(0.66, 0.03, 4.0, 4.0)),
        (8, wave(0.72, 0.05, 4.6, 5.2)),
        (12, river),
        (9, wave(0.90, 0.07, 3.3, 3.9)),
        (11, wave(1.0, 0.05, 6.3, 0.4)),
    ];
    layers.push((
        10,
        vec![
            [0.33 * w, 0.83 * h],
            [0.40 * w, 0.76 * h],
            [0.47 * w, 0.83 * h],
            [0.47 * w, 0.92 * h],
            [0.33 * w, 0.92 * h],
        ],
    ));
    let mut cells = Vec::new();
    for (n, (paint, shape)) in layers.iter().enumerate() {
        let later: Vec<Contour> = layers[n + 1..].iter().map(|(_, c)| c.clone()).collect();
        let seen: Vec<Contour> = difference(std::slice::from_ref(shape), &later).into_iter().flatten().collect();
        for part in intersection(&seen, board) {
            let face = face(&part);
            if face.area_mm2() < 1.0 {
                continue;
            }
            let (label, area_mm2) = (inmost::place(&face), face.area_mm2());
            cells.push(Cell { paint: Some(*paint), face, area_mm2, label });
        }
    }
    (cells, paints)
}

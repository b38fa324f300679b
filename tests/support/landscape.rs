//! A measured design made by hand: a landscape of wavy bands, a sun, and slivers, on a board of any size.
//!
//! Everything is worked out from one formula, so that neighbouring cells share their points exactly, as the cells of a real plan do.

use std::collections::BTreeMap;

use kerfleaf::drawing::{Drawing, Layers};
use kerfleaf::figures::*;
use kerfleaf::inmost;
use kerfleaf::paint::{Cell, Plan};
use kerfleaf::pieces::{Board, Net, Part};
use kerfleaf::shape::{Face, Point, Rgb, Ring, signed_area_mm2};
use kerfleaf::shop::settings::{Look, Weights};
use kerfleaf::shop::*;
use kerfleaf::units::Money;

pub const PAINTS: [(&str, u32, &str); 14] = [
    ("Mist", 0xc9d6d0, "much water, a touch of slate"),
    ("Far water", 0x8fb0b8, "2 parts slate, 1 part foam"),
    ("Evening blue", 0x5b86a3, ""),
    ("Ink blue", 0x3b5079, ""),
    ("Halo", 0xe3e0c8, "lemon, hardly any"),
    ("Moon", 0xfbf5df, ""),
    ("Heather", 0x717c98, "ink blue, a little brick"),
    ("Slate", 0x586a77, ""),
    ("Reed", 0x94945f, "1 part ochre, 1 part evening blue"),
    ("River", 0x5d8ba3, ""),
    ("Foam", 0xd3dcd0, ""),
    ("Clay", 0xa47446, ""),
    ("Brick", 0x8b5a46, ""),
    ("Mud", 0x413a44, ""),
];

/// How the land lies.
pub struct Land {
    pub width_mm: f64,
    pub height_mm: f64,
    pub columns: usize,
    pub rows: usize,
    /// Every so many rows is a sliver of this height, mm.
    pub sliver_mm: Option<f64>,
    pub planned: bool,
}

impl Default for Land {
    fn default() -> Land {
        Land { width_mm: 190.0, height_mm: 240.0, columns: 3, rows: 12, sliver_mm: Some(1.6), planned: true }
    }
}

impl Land {
    fn warp(&self, x: f64, y: f64) -> Point {
        // Nothing moves on the edge of the board.
        let (u, v) = (x / self.width_mm, y / self.height_mm);
        let hold = (16.0 * u * (1.0 - u) * v * (1.0 - v)).min(1.0);
        let dy = 5.0 * (x / 23.0 + 0.7 * (y / 31.0).sin()).sin() + 2.0 * (x / 9.0 + y / 50.0).sin();
        let dx = 6.0 * (y / 19.0 + (x / 40.0).sin()).sin();
        Point::new(x + hold * dx, y + hold * dy)
    }

    fn lines(count: usize, length: f64, sliver: Option<f64>) -> Vec<f64> {
        let mut at: Vec<f64> = (0..=count).map(|i| length * i as f64 / count as f64).collect();
        if let Some(sliver) = sliver {
            for i in (2..count).step_by(4) {
                at[i + 1] = at[i] + sliver;
            }
        }
        at
    }

    fn cell(&self, x: [f64; 2], y: [f64; 2]) -> Face {
        let mut outer: Ring = Vec::new();
        let corners = [(x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])];
        for i in 0..4 {
            let ((ax, ay), (bx, by)) = (corners[i], corners[(i + 1) % 4]);
            let steps = 24;
            for s in 0..steps {
                // Both neighbours walk the side in steps from its lesser end, so the points are the same numbers.
                let t = s as f64 / steps as f64;
                let (px, py) = if (ax, ay) < (bx, by) {
                    (ax + (bx - ax) * t, ay + (by - ay) * t)
                } else {
                    let t = (steps - s) as f64 / steps as f64;
                    (bx + (ax - bx) * t, by + (ay - by) * t)
                };
                outer.push(self.warp(px, py));
            }
        }
        Face { outer, holes: Vec::new() }
    }

    pub fn measured(&self) -> Measured {
        let xs = Land::lines(self.columns, self.width_mm, None);
        let ys = Land::lines(self.rows, self.height_mm, self.sliver_mm);
        let mut cells = Vec::new();
        for row in 0..self.rows {
            for column in 0..self.columns {
                let face = self.cell([xs[column], xs[column + 1]], [ys[row], ys[row + 1]]);
                let paint = (row * 5 + column * 3 + row * column) % PAINTS.len();
                let label = inmost::place(&face);
                cells.push(Cell { paint: Some(paint), area_mm2: face.area_mm2(), face, label });
            }
        }
        let board = vec![
            Point::new(0.0, 0.0),
            Point::new(self.width_mm, 0.0),
            Point::new(self.width_mm, self.height_mm),
            Point::new(0.0, self.height_mm),
        ];
        let area = signed_area_mm2(&board);
        measured(board, self.planned.then_some(Plan { cells }), [self.width_mm, self.height_mm], area)
    }
}

pub fn measured(board: Ring, plan: Option<Plan>, size_mm: [f64; 2], area_mm2: f64) -> Measured {
    let face = Face { outer: board, holes: Vec::new() };
    Measured {
        drawing: Drawing {
            width_mm: size_mm[0],
            height_mm: size_mm[1],
            lines: Vec::new(),
            fills: Vec::new(),
            marks: Vec::new(),
        },
        board: Board {
            net: Net::default(),
            pieces: Vec::new(),
            parts: vec![Part { pieces: Vec::new(), outline: face }],
            novelty: Vec::new(),
            voids: Vec::new(),
            cut_mm: 0.0,
            neighbours: Vec::new(),
            kerf_mm: 0.2,
        },
        twins: Vec::new(),
        joints: Vec::new(),
        necks: Vec::new(),
        plan,
        figures: Figures {
            slug: "slack-water".to_owned(),
            status: Status::Published,
            mark: "k3v7qd".to_owned(),
            pieces: Pieces { count: 84, board_mm2: area_mm2, ..Pieces::default() },
            joints: Joints::default(),
            size: Size { width_mm: size_mm[0] - 0.2, height_mm: size_mm[1] - 0.2, thickness_mm: 6.0 },
            lines: Lines { cut_mm: 0.0, score_mm: 0.0 },
            difficulty: Difficulty {
                score: 53.9,
                word: Word::Steady,
                size: 63.9,
                edges: 7.1,
                novelty: 2.9,
                alike: 0.0,
            },
            weight: Weight { density_kg_m3: 650.0, board_g: 172.6, offers: Vec::new() },
            paint: None,
        },
        findings: Vec::new(),
    }
}

pub fn design(title: &str, board: BlankBoard, primed: bool) -> Design {
    let place = Place { file: String::new(), line: None, column: 1, width: 1, text: String::new() };
    let (tone, weighed) = (Rgb::new(233, 208, 168), WoodDensity::Weighed(650.0));
    let text = |t: &str| (!t.is_empty()).then(|| t.to_owned());
    Design {
        slug: "slack-water".to_owned(),
        title: title.to_owned(),
        summary: Some("The tide has stopped to look at itself.".to_owned()),
        status: Status::Published,
        added: Some("2026-03-14".to_owned()),
        subjects: Vec::new(),
        made_for: None,
        edition: Some("40 made, signed".to_owned()),
        story: None,
        words: BTreeMap::new(),
        board: kerfleaf::shop::Board {
            wood: Wood {
                id: "sugar-maple-plywood".to_owned(),
                name: "Sugar maple plywood".to_owned(),
                solid: false,
                density: weighed,
                group: WoodGroup::DiffusePorous,
                tones: [tone, tone],
                source: String::new(),
            },
            thickness_mm: 6.0,
            kerf_mm: 0.2,
            density_kg_m3: None,
            moisture_percent: 8.0,
        },
        drawing: DrawingFile {
            file: "drawing.svg".to_owned(),
            svg: String::new(),
            join_mm: 0.1,
            width_mm: None,
            layers: Layers::default(),
            layers_at: place,
        },
        paints: (1..)
            .zip(PAINTS)
            .map(|(number, (name, colour, mix))| Paint {
                number,
                name: name.to_owned(),
                colour: Rgb::new((colour >> 16) as u8, (colour >> 8) as u8, colour as u8),
                mix: text(mix),
                wash: text(if number % 4 == 1 { "pale first wash, lift with a tissue" } else { "" }),
            })
            .collect(),
        offers: vec![Offer {
            form: Form::Blank,
            price: Money { minor: 3600, decimals: 2 },
            stock: None,
            lead_time: None,
            code: "SLACK-B".to_owned(),
            order: None,
            pack: None,
            extras_g: 60.0,
            finish_g: 0.0,
            board,
            primed,
            contains: vec!["8 half pans of watercolour".to_owned(), "2 round brushes".to_owned()],
        }],
        limits: Limits::default(),
        photos: Vec::new(),
    }
}

pub fn settings(units: Units) -> Settings {
    Settings {
        name: "Saltmarsh Fretworks".to_owned(),
        tagline: None,
        about: None,
        currency: Currency { code: "EUR".to_owned(), decimals: 2 },
        price_note: None,
        languages: vec!["en".to_owned()],
        words: BTreeMap::new(),
        units,
        paper: vec![Paper::A4, Paper::Letter],
        web_address: None,
        order: "mailto:workshop@example.org".to_owned(),
        markets: Vec::new(),
        maker: None,
        packs: Vec::new(),
        postage: Vec::new(),
        woods: Vec::new(),
        pans: Vec::new(),
        difficulty: Weights::default(),
        limits: Limits::default(),
        look: Look { ground: None, ink: None, accent: None, logo: None, show_cuts: true },
        workshop: Workshop::default(),
    }
}

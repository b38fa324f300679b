//! Where pieces lie when they are taken apart: moved out from the middle and turned a little, none over another.
//!
//! In: pieces as polygons after the kerf, mm. Out: a [`Place`] for each, proved free of overlaps by exact predicates.
//! Steps: the least factor away from the middle that leaves few pairs too near, then those pairs push each other apart;
//! where that does not end, a wider factor; at last, circles around the pieces, which always ends.

use robust::{Coord, orient2d};

use super::frame::thinned;
use super::noise::Seed;
use crate::shape::{Extent, Face, Point, Ring, ring_sides, signed_area_mm2};

/// Where a piece lies: turned about its own centre, then moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Its centre as drawn, mm.
    pub centre: Point,
    /// Where that centre lies now, mm.
    pub at: Point,
    /// Cosine and sine of the turn.
    pub turn: [f64; 2],
}

impl Place {
    /// Unmoved.
    pub fn home(centre: Point) -> Place {
        Place { centre, at: centre, turn: [1.0, 0.0] }
    }

    /// Where a point of the piece lies now, mm.
    pub fn of(&self, p: Point) -> Point {
        let d = p - self.centre;
        let [c, s] = self.turn;
        Point::new(self.at.x + c * d.x - s * d.y, self.at.y + s * d.x + c * d.y)
    }

    /// Which point of the drawing now lies here, mm.
    pub fn back(&self, p: Point) -> Point {
        let d = p - self.at;
        let [c, s] = self.turn;
        Point::new(self.centre.x + c * d.x + s * d.y, self.centre.y + c * d.y - s * d.x)
    }

    /// The faces where they lie now.
    pub fn faces(&self, faces: &[Face]) -> Vec<Face> {
        let ring = |r: &Ring| r.iter().map(|p| self.of(*p)).collect();
        faces.iter().map(|f| Face { outer: ring(&f.outer), holes: f.holes.iter().map(ring).collect() }).collect()
    }
}

/// Centre of area of some faces, holes not counted; of an empty piece, the origin.
pub fn centre(faces: &[Face]) -> Point {
    let (mut area, mut x, mut y) = (0.0, 0.0, 0.0);
    for face in faces {
        let Some(&o) = face.outer.first() else { continue };
        for (a, b) in ring_sides(&face.outer) {
            let cross = (*a - o).cross(*b - o);
            area += cross;
            x += cross * ((a.x - o.x) + (b.x - o.x)) / 3.0 + cross * o.x;
            y += cross * ((a.y - o.y) + (b.y - o.y)) / 3.0 + cross * o.y;
        }
    }
    if area.abs() < 1e-12 { Point::ZERO } else { Point::new(x / area, y / area) }
}

/// Whether two pieces share any area or touch: sides that cross or meet, or one inside the other.
///
/// Exact: decided by adaptive orientation predicates (Shewchuk 1997) on the coordinates given.
pub fn overlap(a: &[Face], b: &[Face]) -> bool {
    let rings = |faces: &[Face]| faces.iter().flat_map(Face::rings).cloned().collect::<Vec<Ring>>();
    let (ra, rb) = (rings(a), rings(b));
    let (Some(box_a), Some(box_b)) = (Extent::of(ra.iter().flatten()), Extent::of(rb.iter().flatten())) else {
        return false;
    };
    if !near(&box_a, &box_b, 0.0) {
        return false;
    }
    let near_a = sides_near(&ra, &box_b, 0.0);
    let near_b = sides_near(&rb, &box_a, 0.0);
    if near_a.iter().any(|s| near_b.iter().any(|t| meet(*s, *t))) {
        return true;
    }
    // Without a meeting of sides each part lies wholly inside or wholly outside the other piece.
    let inside_any = |parts: &[Face], of: &[Face]| {
        parts.iter().filter_map(|f| f.outer.first()).any(|p| of.iter().any(|g| inside(*p, g)))
    };
    inside_any(a, b) || inside_any(b, a)
}

fn coord(p: Point) -> Coord<f64> {
    Coord { x: p.x, y: p.y }
}

fn side_of(a: Point, b: Point, p: Point) -> f64 {
    orient2d(coord(a), coord(b), coord(p))
}

fn meet([a, b]: [Point; 2], [c, d]: [Point; 2]) -> bool {
    let (s1, s2) = (side_of(a, b, c), side_of(a, b, d));
    let (s3, s4) = (side_of(c, d, a), side_of(c, d, b));
    if s1 == 0.0 && s2 == 0.0 {
        let over = |a: f64, b: f64, c: f64, d: f64| a.min(b) <= c.max(d) && c.min(d) <= a.max(b);
        return over(a.x, b.x, c.x, d.x) && over(a.y, b.y, c.y, d.y);
    }
    !(s1 > 0.0 && s2 > 0.0 || s1 < 0.0 && s2 < 0.0 || s3 > 0.0 && s4 > 0.0 || s3 < 0.0 && s4 < 0.0)
}

/// Whether a point lies inside a face, by the sides that a ray to the right crosses.
pub(super) fn inside(p: Point, face: &Face) -> bool {
    let mut odd = false;
    for ring in face.rings() {
        for (a, b) in ring_sides(ring) {
            if (a.y > p.y) != (b.y > p.y) {
                let (low, high) = if a.y < b.y { (*a, *b) } else { (*b, *a) };
                odd ^= side_of(low, high, p) > 0.0;
            }
        }
    }
    odd
}

fn near(a: &Extent, b: &Extent, gap: f64) -> bool {
    a.min.x <= b.max.x + gap && b.min.x <= a.max.x + gap && a.min.y <= b.max.y + gap && b.min.y <= a.max.y + gap
}

fn sides_near(rings: &[Ring], to: &Extent, gap: f64) -> Vec<[Point; 2]> {
    let mut found = Vec::new();
    for ring in rings {
        for (a, b) in ring_sides(ring) {
            let own =
                Extent { min: Point::new(a.x.min(b.x), a.y.min(b.y)), max: Point::new(a.x.max(b.x), a.y.max(b.y)) };
            if near(&own, to, gap) {
                found.push([*a, *b]);
            }
        }
    }
    found
}

/// A piece's outlines, thinned, about its own centre and already turned.
struct Loose {
    rings: Vec<Ring>,
    face: Face,
    extent: Extent,
    radius: f64,
}

impl Loose {
    fn moved(&self, at: Point) -> (Vec<Ring>, Extent) {
        let by = at.to_vec2();
        let rings = self.rings.iter().map(|r| r.iter().map(|p| *p + by).collect()).collect();
        (rings, Extent { min: self.extent.min + by, max: self.extent.max + by })
    }

    fn extent_at(&self, at: Point) -> Extent {
        Extent { min: self.extent.min + at.to_vec2(), max: self.extent.max + at.to_vec2() }
    }
}

/// Thinning of outlines while pieces are moved, mm; the gap takes it up.
const THIN_MM: f64 = 0.08;
/// Most that a piece is turned, radians (about 5.5°).
const TURN: f64 = 0.096;

/// All pieces at home, each turned by up to `most` radians either way.
pub(super) fn turned_a_little(pieces: &[&[Face]], seed: Seed, most: f64) -> Vec<Place> {
    let turned = |(n, faces): (usize, &&[Face])| {
        let angle = most * f64::from(seed.signed(n));
        Place { turn: [libm::cos(angle), libm::sin(angle)], ..Place::home(centre(faces)) }
    };
    pieces.iter().enumerate().map(turned).collect()
}

/// Places for all pieces, at least `gap_mm` apart (but for pieces that the kerf has eaten, which stay).
pub fn loosen(pieces: &[&[Face]], seed: Seed, gap_mm: f64) -> Vec<Place> {
    let seed = seed.named("loosened");
    let mut places = turned_a_little(pieces, seed, TURN);
    let loose: Vec<Loose> = pieces.iter().zip(&places).map(|(faces, place)| about_centre(faces, place)).collect();
    let all: Vec<Face> = pieces.iter().flat_map(|f| f.iter().cloned()).collect();
    let Some(around) = Extent::of(all.iter().flat_map(|f| &f.outer)) else {
        return places;
    };
    let middle = around.min.midpoint(around.max);
    let home: Vec<Point> = places.iter().map(|p| p.centre).collect();
    let spread = |factor: f64| -> Vec<Point> { home.iter().map(|p| middle + (*p - middle) * factor).collect() };
    let few = pieces.len() / 16 + 1;
    let mut factor = 1.04;
    let mut at = spread(factor);
    while factor < 1.8 && too_near(&loose, &at, gap_mm).len() > few {
        factor += 0.03;
        at = spread(factor);
    }
    for _ in 0..12 {
        if push_apart(&loose, &mut at, gap_mm, seed) {
            break;
        }
        factor *= 1.08;
        at = spread(factor);
    }
    place_all(&mut places, &at);
    if any_overlap(pieces, &places) {
        place_all(&mut places, &by_circles(&loose, &spread(1.2), gap_mm, seed));
    }
    places
}

fn place_all(places: &mut [Place], at: &[Point]) {
    for (place, at) in places.iter_mut().zip(at) {
        place.at = *at;
    }
}

/// Whether any two of the pieces overlap where they lie: exact, all pairs.
pub fn any_overlap(pieces: &[&[Face]], places: &[Place]) -> bool {
    let lying: Vec<Vec<Face>> = pieces.iter().zip(places).map(|(f, p)| p.faces(f)).collect();
    let boxes: Vec<Option<Extent>> = lying.iter().map(|l| Extent::of(l.iter().flat_map(|f| &f.outer))).collect();
    (0..lying.len()).any(|a| {
        (a + 1..lying.len()).any(|b| match (&boxes[a], &boxes[b]) {
            (Some(box_a), Some(box_b)) => near(box_a, box_b, 0.0) && overlap(&lying[a], &lying[b]),
            _ => false,
        })
    })
}

fn about_centre(faces: &[Face], place: &Place) -> Loose {
    let turned = Place { at: Point::ZERO, ..*place };
    let rings: Vec<Ring> = faces
        .iter()
        .flat_map(Face::rings)
        .map(|r| thinned(&r.iter().map(|p| turned.of(*p)).collect::<Vec<_>>(), true, THIN_MM))
        .collect();
    let extent = Extent::of(rings.iter().flatten()).unwrap_or(Extent { min: Point::ZERO, max: Point::ZERO });
    let radius = rings.iter().flatten().map(|p| p.to_vec2().hypot2()).fold(0.0, f64::max).sqrt();
    let mut outer = rings.iter().filter(|r| signed_area_mm2(r) > 0.0);
    let face = Face {
        outer: outer.next().cloned().unwrap_or_default(),
        holes: rings.iter().filter(|r| signed_area_mm2(r) < 0.0).cloned().collect(),
    };
    Loose { rings, face, extent, radius }
}

/// Pairs nearer to each other than the gap.
fn too_near(loose: &[Loose], at: &[Point], gap: f64) -> Vec<(usize, usize)> {
    let boxes: Vec<Extent> = loose.iter().zip(at).map(|(l, p)| l.extent_at(*p)).collect();
    let mut order: Vec<usize> = (0..loose.len()).filter(|n| !loose[*n].rings.is_empty()).collect();
    order.sort_by(|a, b| boxes[*a].min.x.total_cmp(&boxes[*b].min.x).then(a.cmp(b)));
    let mut pairs = Vec::new();
    for (k, &a) in order.iter().enumerate() {
        for &b in order[k + 1..].iter().take_while(|b| boxes[**b].min.x <= boxes[a].max.x + gap) {
            if near(&boxes[a], &boxes[b], gap) && closer(&loose[a], at[a], &loose[b], at[b], gap) {
                pairs.push((a.min(b), a.max(b)));
            }
        }
    }
    pairs.sort_unstable();
    pairs
}

fn closer(a: &Loose, at_a: Point, b: &Loose, at_b: Point, gap: f64) -> bool {
    let (rings_a, box_a) = a.moved(at_a);
    let (rings_b, box_b) = b.moved(at_b);
    let near_a = sides_near(&rings_a, &box_b, gap);
    let near_b = sides_near(&rings_b, &box_a, gap);
    for s in &near_a {
        for t in &near_b {
            if meet(*s, *t) || apart2(*s, *t) < gap * gap {
                return true;
            }
        }
    }
    inside(at_a + a.first_corner(), &b.face_at(at_b)) || inside(at_b + b.first_corner(), &a.face_at(at_a))
}

impl Loose {
    fn first_corner(&self) -> kurbo::Vec2 {
        self.face.outer.first().copied().unwrap_or(Point::ZERO).to_vec2()
    }

    fn face_at(&self, at: Point) -> Face {
        let ring = |r: &Ring| r.iter().map(|p| *p + at.to_vec2()).collect();
        Face { outer: ring(&self.face.outer), holes: self.face.holes.iter().map(ring).collect() }
    }
}

/// Least squared distance of two sides that do not meet: at one of the four ends.
fn apart2(s: [Point; 2], t: [Point; 2]) -> f64 {
    let to = |p: Point, [a, b]: [Point; 2]| {
        let d = b - a;
        let k = ((p - a).dot(d) / d.hypot2().max(1e-18)).clamp(0.0, 1.0);
        (p - (a + d * k)).hypot2()
    };
    to(s[0], t).min(to(s[1], t)).min(to(t[0], s)).min(to(t[1], s))
}

/// Moves near pairs apart a little at a time; true once none is left.
fn push_apart(loose: &[Loose], at: &mut [Point], gap: f64, seed: Seed) -> bool {
    for round in 0..160 {
        let pairs = too_near(loose, at, gap);
        if pairs.is_empty() {
            return true;
        }
        let step = 0.35 + 0.02 * f64::from(round);
        let mut moves = vec![(kurbo::Vec2::ZERO, 0_u32); at.len()];
        for (a, b) in pairs {
            let away = direction(at[a], at[b], seed.numbered(a * 4096 + b));
            moves[a].0 -= away * step;
            moves[b].0 += away * step;
            moves[a].1 += 1;
            moves[b].1 += 1;
        }
        for (p, (by, count)) in at.iter_mut().zip(moves) {
            if count > 0 {
                *p += by / f64::from(count);
            }
        }
    }
    false
}

/// From a to b, of length 1; where they lie on each other, any way.
fn direction(a: Point, b: Point, seed: Seed) -> kurbo::Vec2 {
    let d = b - a;
    let length = d.hypot2().sqrt();
    if length > 1e-3 {
        return d / length;
    }
    let angle = std::f64::consts::TAU * f64::from(seed.unit(0));
    kurbo::Vec2::new(libm::cos(angle), libm::sin(angle))
}

/// Circles around the pieces, pushed apart until none meet.
fn by_circles(loose: &[Loose], start: &[Point], gap: f64, seed: Seed) -> Vec<Point> {
    let mut at = start.to_vec();
    for round in 0..4000 {
        let grow = 1.0 + f64::from(round) * 1e-3;
        let mut moved = false;
        for a in 0..at.len() {
            for b in a + 1..at.len() {
                let want = loose[a].radius + loose[b].radius + gap;
                let d = at[b] - at[a];
                if d.hypot2() < want * want {
                    let away = direction(at[a], at[b], seed.numbered(a * 4096 + b));
                    let push = away * (0.5 * grow * (want - d.hypot2().sqrt()) + 1e-6);
                    at[a] -= push;
                    at[b] += push;
                    moved = true;
                }
            }
        }
        if !moved {
            break;
        }
    }
    at
}

use super::*;
use crate::drawing::{Layer, Line};
use crate::findings::{Checked, Kind};
use crate::shape::Point;

const NEAR: Near = Near { join_mm: 0.1 };

fn points(list: &[(f64, f64)]) -> Vec<Point> {
    list.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

fn open(list: &[(f64, f64)]) -> Line {
    Line { layer: Layer::Cut, points: points(list), closed: false }
}

fn closed(list: &[(f64, f64)]) -> Line {
    Line { layer: Layer::Cut, points: points(list), closed: true }
}

fn in_layer(layer: Layer, line: Line) -> Line {
    Line { layer, ..line }
}

fn frame(x0: f64, y0: f64, x1: f64, y1: f64) -> Line {
    closed(&[(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
}

/// A circle of `n` corners that start at its rightmost place.
fn circle(x: f64, y: f64, r: f64, n: usize) -> Line {
    let corner = |i: usize| {
        let turn = std::f64::consts::TAU * i as f64 / n as f64;
        Point::new(x + r * libm::cos(turn), y + r * libm::sin(turn))
    };
    Line { layer: Layer::Cut, points: (0..n).map(corner).collect(), closed: true }
}

fn cut(lines: &[Line]) -> Checked<Board> {
    let made = board(lines, NEAR, 0.2);
    euler(&made.value.net);
    made
}

/// Euler's formula for plane graphs (any handbook of graph theory): bounded faces = edges − nodes + parts.
fn euler(net: &Net) {
    assert_eq!(net.faces.len() + net.nodes.len(), net.chains.len() + net.parts, "faces + nodes = chains + parts");
}

fn count_edge(board: &Board) -> (usize, usize) {
    (board.pieces.len(), board.pieces.iter().filter(|p| p.edge).count())
}

fn drawn_mm2(board: &Board) -> f64 {
    board.pieces.iter().map(|p| p.drawn_mm2).sum()
}

fn kinds(made: &Checked<Board>) -> Vec<Kind> {
    let mut kinds: Vec<Kind> = made.findings.iter().map(|f| f.kind).collect();
    kinds.sort();
    kinds
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * b.abs().max(1.0)
}

#[test]
fn a_grid_of_three_by_two_squares_has_six_faces() {
    let mut lines = vec![frame(5.0, 5.0, 65.0, 45.0)];
    lines.extend([25.0, 45.0].map(|x| open(&[(x, 5.0), (x, 45.0)])));
    lines.push(open(&[(5.0, 25.0), (65.0, 25.0)]));
    let made = cut(&lines);
    let board = &made.value;
    // The four corners of the frame are no nodes: 8 on the frame, 2 inside; 17 stretches of the grid less 4 at the corners … by hand.
    assert_eq!((board.net.nodes.len(), board.net.chains.len(), board.net.parts), (8, 13, 1));
    assert_eq!(count_edge(board), (6, 6));
    assert!(near(drawn_mm2(board), 2400.0) && near(board.cut_mm, 340.0), "{} {}", drawn_mm2(board), board.cut_mm);
    assert_eq!(board.parts.len(), 1);
    assert!(near(board.parts[0].outline.area_mm2(), 2400.0));
    assert_eq!(board.neighbours.len(), 7);
    assert_eq!(kinds(&made), []);
}

#[test]
fn lines_that_cross_without_a_node_are_split() {
    let made = cut(&[
        frame(0.0, 0.0, 100.0, 70.0),
        open(&[(0.0, 10.0), (100.0, 63.0)]),
        open(&[(0.0, 61.0), (100.0, 7.0)]),
        open(&[(31.0, 0.0), (35.0, 70.0)]),
        open(&[(72.0, 0.0), (60.0, 70.0)]),
    ]);
    // Lines in general position: pieces = 1 + lines + crossings.
    assert_eq!(made.value.pieces.len(), 1 + 4 + 5);
    assert!(near(drawn_mm2(&made.value), 7000.0));
}

#[test]
fn ends_a_hair_short_are_joined() {
    let made = cut(&[
        frame(5.0, 6.0, 125.0, 86.0),
        open(&[(55.0, 6.07), (55.0, 86.0)]),
        open(&[(55.06, 36.0), (125.0, 36.0)]),
    ]);
    assert_eq!(count_edge(&made.value), (3, 3));
    assert!(near(made.value.cut_mm, 550.0));
    assert_eq!(kinds(&made), []);
}

#[test]
fn ends_clearly_short_are_found() {
    let made =
        cut(&[frame(5.0, 6.0, 115.0, 76.0), open(&[(45.0, 6.4), (45.0, 76.0)]), open(&[(45.45, 31.0), (115.0, 31.0)])]);
    assert_eq!(made.value.pieces.len(), 1);
    assert!(near(made.value.cut_mm, 499.15));
    assert_eq!(kinds(&made), [Kind::NearMiss, Kind::NearMiss]);
    let places: Vec<_> = made.findings.iter().filter_map(|f| f.at_mm).collect();
    assert!(places.contains(&Point::new(45.0, 6.4)) && places.contains(&Point::new(45.45, 31.0)));
}

#[test]
fn a_spur_and_an_overshoot_are_loose_ends() {
    let made = cut(&[
        frame(0.0, 0.0, 100.0, 60.0),
        open(&[(50.0, 0.0), (50.0, 60.0)]),
        open(&[(50.0, 40.0), (54.0, 44.0)]),
        // Half a millimetre beyond the edge, and a short spur: what is near lies behind.
        open(&[(20.0, -0.5), (20.0, 60.0)]),
        open(&[(80.0, 60.0), (80.5, 59.5)]),
    ]);
    assert_eq!(made.value.pieces.len(), 3);
    assert_eq!(kinds(&made), [Kind::LooseEnd; 3]);
}

#[test]
fn an_overshoot_within_join_leaves_no_spur() {
    let line = open(&[(20.0, 60.0), (20.3, 0.2), (20.33, 0.02), (20.34, -0.03), (20.36, -0.09)]);
    let made = cut(&[frame(0.0, 0.0, 100.0, 60.0), line]);
    assert_eq!(made.value.pieces.len(), 2);
    assert_eq!(kinds(&made), []);
}

#[test]
fn groups_meet_at_their_mean_also_through_others() {
    let spokes: Vec<Line> = [(50.0, 50.0), (50.09, 50.0), (50.18, 50.0), (50.27, 50.02)]
        .iter()
        .zip([(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)])
        .map(|(&p, q)| open(&[p, q]))
        .chain([frame(0.0, 0.0, 100.0, 100.0)])
        .collect();
    let made = cut(&spokes);
    assert_eq!(count_edge(&made.value), (4, 4));
    assert!(made.value.net.nodes.iter().any(|n| (n.x - 50.135).abs() < 1e-12 && (n.y - 50.005).abs() < 1e-12));
}

#[test]
fn a_curve_drawn_as_many_tiny_lines_keeps_its_shape() {
    let ring = circle(50.0, 40.0, 20.0, 2000).points;
    let mut lines: Vec<Line> = (0..2000)
        .map(|i| Line { layer: Layer::Cut, points: vec![ring[i], ring[(i + 1) % 2000]], closed: false })
        .collect();
    lines.push(frame(0.0, 0.0, 100.0, 80.0));
    let made = cut(&lines);
    assert_eq!(count_edge(&made.value), (2, 1));
    assert!((made.value.pieces[1].drawn_mm2 - std::f64::consts::PI * 400.0).abs() < 0.1);
}

#[test]
fn shared_stretches_count_once() {
    let made =
        cut(&[frame(5.0, 5.0, 115.0, 55.0), open(&[(5.0, 30.0), (80.0, 30.0)]), open(&[(50.0, 30.0), (115.0, 30.0)])]);
    assert_eq!(count_edge(&made.value), (2, 2));
    assert!(near(made.value.cut_mm, 430.0));
    assert_eq!(kinds(&made), [Kind::DoubledLine]);
    assert_eq!(made.findings[0].at_mm, Some(Point::new(65.0, 30.0)));
}

#[test]
fn islands_are_pieces_and_holes_and_belong_to_their_board() {
    let made = cut(&[
        frame(4.0, 4.0, 104.0, 74.0),
        circle(40.0, 38.0, 25.0, 400),
        closed(&[(34.0, 25.0), (52.0, 32.0), (45.0, 50.0), (27.0, 43.0)]),
        circle(40.0, 38.0, 5.0, 100),
        closed(&[(80.0, 15.0), (96.0, 20.0), (88.0, 40.0)]),
    ]);
    assert_eq!(count_edge(&made.value), (5, 1));
    assert!(near(drawn_mm2(&made.value), 7000.0));
    assert_eq!(made.value.parts.len(), 1);
    assert_eq!(kinds(&made), []);
    assert_eq!(made.value.pieces[0].face.holes.len(), 2);
}

#[test]
fn boards_that_meet_in_corners_are_boards_of_their_own() {
    let voids = [(35.0, 5.0), (5.0, 35.0), (65.0, 35.0), (35.0, 65.0)];
    let mut lines: Vec<Line> =
        voids.iter().map(|&(x, y)| in_layer(Layer::Void, frame(x, y, x + 30.0, y + 30.0))).collect();
    lines.push(open(&[(35.0, 5.0), (5.0, 5.0), (5.0, 35.0)]));
    lines.push(open(&[(65.0, 5.0), (95.0, 5.0), (95.0, 35.0)]));
    lines.push(open(&[(95.0, 65.0), (95.0, 95.0), (65.0, 95.0)]));
    lines.push(open(&[(35.0, 95.0), (5.0, 95.0), (5.0, 65.0)]));
    let made = cut(&lines);
    assert_eq!(count_edge(&made.value), (5, 5));
    assert!(near(made.value.cut_mm, 720.0), "{}", made.value.cut_mm);
    assert_eq!(made.value.parts.len(), 5);
    assert_eq!(kinds(&made), [Kind::StrayPart; 4]);
}

#[test]
fn a_lozenge_that_touches_the_frame_in_corners_is_interior() {
    let made = cut(&[
        frame(5.0, 5.0, 105.0, 65.0),
        closed(&[(55.0, 5.0), (105.0, 35.0), (55.0, 65.0), (5.0, 35.0)]),
        in_layer(Layer::Void, circle(55.0, 35.0, 10.0, 200)),
    ]);
    assert_eq!(count_edge(&made.value), (5, 4));
    assert_eq!(kinds(&made), []);
    assert_eq!(made.value.parts[0].outline.holes.len(), 1);
}

#[test]
fn nothing_inside_an_opening_is_a_piece() {
    let made = cut(&[
        frame(5.0, 5.0, 125.0, 85.0),
        open(&[(70.0, 5.0), (70.0, 85.0)]),
        circle(40.0, 35.0, 6.0, 100),
        in_layer(Layer::Void, frame(20.0, 20.0, 60.0, 50.0)),
    ]);
    assert_eq!(count_edge(&made.value), (2, 2));
    assert!(near(drawn_mm2(&made.value), 9600.0 - 1200.0));
    assert_eq!(kinds(&made), []);
}

#[test]
fn novelty_shapes_tell_their_pieces() {
    let made = cut(&[
        frame(5.0, 5.0, 125.0, 85.0),
        open(&[(45.0, 5.0), (45.0, 85.0)]),
        open(&[(85.0, 5.0), (85.0, 85.0)]),
        open(&[(5.0, 45.0), (125.0, 45.0)]),
        in_layer(Layer::Novelty, circle(25.0, 25.0, 9.0, 100)),
        in_layer(Layer::Novelty, closed(&[(85.0, 20.0), (112.0, 35.0), (85.0, 56.0), (70.0, 38.0)])),
    ]);
    assert_eq!(count_edge(&made.value), (11, 6));
    assert_eq!(made.value.novelty.len(), 2);
    assert_eq!(made.value.pieces.iter().filter(|p| p.novelty.is_some()).count(), 5);
    assert_eq!(made.value.pieces.iter().filter(|p| p.novelty == Some(0)).count(), 1);
}

#[test]
fn an_open_figure_is_found_and_only_cuts() {
    let made = cut(&[
        frame(5.0, 5.0, 105.0, 65.0),
        open(&[(65.0, 5.0), (65.0, 65.0)]),
        in_layer(Layer::Novelty, open(&[(20.0, 20.0), (45.0, 22.0), (40.0, 50.0), (18.0, 44.0), (19.0, 23.5)])),
    ]);
    assert_eq!(count_edge(&made.value), (2, 2));
    assert_eq!(made.value.novelty.len(), 0);
    assert_eq!(kinds(&made), [Kind::OpenShape]);
}

#[test]
fn a_figure_whose_ends_nearly_meet_closes() {
    let made = cut(&[
        frame(0.0, 0.0, 60.0, 60.0),
        in_layer(Layer::Novelty, open(&[(20.0, 20.0), (40.0, 20.0), (40.0, 40.0), (20.03, 20.05)])),
    ]);
    assert_eq!(count_edge(&made.value), (2, 1));
    assert_eq!((made.value.novelty.len(), made.value.pieces[1].novelty), (1, Some(0)));
}

#[test]
fn a_strip_that_the_kerf_eats_is_a_piece_without_area() {
    let made =
        cut(&[frame(5.0, 5.0, 85.0, 55.0), open(&[(40.0, 5.0), (40.0, 55.0)]), open(&[(40.15, 5.0), (40.15, 55.0)])]);
    assert_eq!(made.value.pieces.len(), 3);
    assert_eq!(kinds(&made), [Kind::EatenAway]);
}

#[test]
fn many_lines_through_one_point_make_that_many_sectors() {
    let n = 60;
    let spokes = (0..n).map(|i| {
        let turn = std::f64::consts::PI * (i as f64 + 0.3) / n as f64;
        let (c, s) = (400.0 * libm::cos(turn), 400.0 * libm::sin(turn));
        open(&[(33.3 + c, 77.7 + s), (33.3 - c, 77.7 - s)])
    });
    let lines: Vec<Line> = spokes.chain([circle(33.3, 77.7, 300.0, 3600)]).collect();
    let made = cut(&lines);
    assert_eq!(count_edge(&made.value), (2 * n, 2 * n));
    assert_eq!(made.value.pieces.len(), 2 * n);
}

#[test]
fn circles_that_touch_from_inside_in_one_point_are_crescents() {
    let lines: Vec<Line> =
        [10.0, 15.0, 22.0, 30.0].iter().map(|&r| circle(50.0 - r, 40.0, r, (r * 17.0) as usize)).collect();
    let made = cut(&lines);
    assert_eq!(count_edge(&made.value), (4, 1));
    assert_eq!(kinds(&made), []);
}

#[test]
fn a_circle_that_touches_a_straight_edge_is_interior() {
    let circle = |x: f64, y: f64, r: f64| {
        // A quarter at a time, with the four outermost places exact.
        let quarter = 90;
        let ring = (0..4 * quarter).map(|i| {
            let turn = std::f64::consts::FRAC_PI_2 * (i % quarter) as f64 / quarter as f64;
            let (c, s) = (r * libm::cos(turn), r * libm::sin(turn));
            match i / quarter {
                0 => Point::new(x + c, y + s),
                1 => Point::new(x - s, y + c),
                2 => Point::new(x - c, y - s),
                _ => Point::new(x + s, y - c),
            }
        });
        Line { layer: Layer::Cut, points: ring.collect(), closed: true }
    };
    let made = cut(&[frame(5.0, 5.0, 105.0, 65.0), circle(30.0, 25.0, 20.0), circle(70.0, 25.0, 20.0)]);
    // The circles, what lies between them and the frame, and the rest.
    assert_eq!(count_edge(&made.value), (4, 2));
    assert_eq!(kinds(&made), []);
}

#[test]
fn a_stroke_that_crosses_itself_makes_a_face_of_each_loop() {
    let star: Vec<(f64, f64)> = (0..5)
        .map(|i| {
            let turn = std::f64::consts::TAU * (i * 2) as f64 / 5.0;
            (50.0 + 30.0 * libm::cos(turn), 50.0 + 30.0 * libm::sin(turn))
        })
        .collect();
    let made = cut(&[closed(&star)]);
    assert_eq!(count_edge(&made.value), (6, 5));
}

#[test]
fn a_path_that_goes_there_and_back_is_one_line() {
    let made = cut(&[
        frame(0.0, 0.0, 60.0, 40.0),
        open(&[(20.0, 0.0), (20.0, 40.0), (20.0, 0.0)]),
        open(&[(40.0, 0.0), (40.0, 20.0), (40.0, 40.0), (40.0, 25.0), (40.0, 5.0)]),
    ]);
    assert_eq!(count_edge(&made.value), (3, 3));
    assert!(near(made.value.cut_mm, 280.0));
    assert_eq!(kinds(&made), [Kind::DoubledLine; 2]);
}

#[test]
fn one_line_drawn_twice_by_hand_counts_once() {
    let wave = |phase: f64, off: f64, n: usize| {
        let at = |i: usize| {
            let y = 5.0 + 60.0 * i as f64 / n as f64;
            Point::new(45.0 + 6.0 * libm::sin(y / 7.0) + off * libm::sin(y * 1.7 + phase), y)
        };
        Line { layer: Layer::Cut, points: (0..=n).map(at).collect(), closed: false }
    };
    let (one, two) = (wave(0.0, 0.02, 331), wave(1.0, 0.03, 287));
    let length: f64 = one.points.windows(2).map(|w| crate::shape::length_mm(w[0], w[1])).sum();
    let rest = [frame(5.0, 5.0, 101.0, 65.0), open(&[(5.0, 25.0), (101.0, 25.0)])];
    let made = cut(&[&rest[..], &[one.clone(), two.clone()]].concat());
    assert_eq!(count_edge(&made.value), (4, 4));
    assert_eq!(kinds(&made), [Kind::DoubledLine]);
    assert!((made.value.cut_mm - 312.0 - 96.0 - length).abs() < 0.05, "{}", made.value.cut_mm);
    // A line that ends on the one that goes finds the one that stays.
    let onto = Line { points: vec![two.points[200], Point::new(101.0, 48.0)], ..open(&[]) };
    let made = cut(&[&rest[..], &[one, two, onto]].concat());
    assert_eq!(count_edge(&made.value), (5, 5));
    assert_eq!(kinds(&made), [Kind::DoubledLine]);
}

#[test]
fn lines_that_cross_or_touch_at_a_small_angle_are_not_doubled() {
    let made = cut(&[
        frame(5.0, 5.0, 115.0, 65.0),
        open(&[(5.0, 30.0), (115.0, 31.0)]),
        open(&[(5.0, 31.0), (115.0, 30.0)]),
        circle(60.0, 49.95, 15.0, 360),
    ]);
    assert_eq!(kinds(&made), []);
    assert_eq!(made.value.pieces.len(), 5);
}

#[test]
fn a_sharp_corner_beside_a_doubled_stretch_stays_where_it_is() {
    let corner = [(0.0, 30.0), (50.0, 30.0), (0.0, 20.0), (40.0, 30.0)];
    for turn in 0..4 {
        let mut corner = corner;
        corner.rotate_left(turn);
        let made = cut(&[closed(&corner)]);
        let mut nodes = made.value.net.nodes.clone();
        nodes.sort_by(|a, b| a.x.total_cmp(&b.x));
        assert_eq!(nodes, points(&[(0.0, 30.0), (40.0, 30.0)]));
        assert!(kinds(&made).contains(&Kind::DoubledLine));
    }
}

#[test]
fn frames_side_by_side_share_their_sides() {
    let frames = (0..12).map(|i| {
        let (x, y) = (6.0 + 22.0 * f64::from(i % 4), 6.0 + 18.0 * f64::from(i / 4));
        // A hair off, as drawn by eye.
        let off = 0.03 * f64::from(i % 3);
        frame(x + off, y, x + 22.0 + off, y + 18.0 + off)
    });
    let made = cut(&frames.collect::<Vec<_>>());
    assert_eq!(count_edge(&made.value), (12, 10));
    assert!((made.value.cut_mm - 622.0).abs() < 1.0, "{}", made.value.cut_mm);
    assert_eq!(kinds(&made), [Kind::DoubledLine; 17]);
}

#[test]
fn a_bridge_to_an_island_bounds_nothing() {
    let made = cut(&[
        frame(0.0, 0.0, 60.0, 40.0),
        frame(20.0, 10.0, 40.0, 30.0),
        open(&[(0.0, 20.0), (20.0, 20.0)]),
        open(&[(30.0, 30.0), (30.0, 35.0)]),
    ]);
    assert_eq!(count_edge(&made.value), (2, 1));
    assert!(near(made.value.pieces[0].drawn_mm2, 2000.0));
    assert_eq!(made.value.pieces[0].face.holes.len(), 1);
    let bridge = made.value.net.chains.iter().find(|c| made.value.net.lines(c) == [2]).expect("the bridge is a chain");
    assert_eq!((bridge.left, bridge.right), (Some(0), Some(0)));
}

#[test]
fn lines_without_measure_are_left_out() {
    let made = cut(&[
        frame(0.0, 0.0, 60.0, 40.0),
        open(&[(f64::NAN, 0.0), (20.0, 40.0)]),
        open(&[(1e300, 0.0), (20.0, 40.0)]),
        open(&[(f64::INFINITY, 0.0), (20.0, 40.0)]),
        open(&[(3.0, 3.0), (3.0, 3.0)]),
    ]);
    assert_eq!(made.value.pieces.len(), 1);
}

/// Frame, a square inside it, and inside that a strip which the kerf and the play take whole.
#[test]
fn a_piece_inside_another_holds() {
    let board =
        cut(&[frame(0.0, 0.0, 60.0, 60.0), frame(10.0, 10.0, 50.0, 50.0), frame(20.0, 20.0, 40.0, 20.25)]).value;
    assert_eq!(count_edge(&board), (3, 1));
    let joints = joints::joints(&board);
    let holds: Vec<(bool, Option<f64>)> = joints.iter().map(|j| (j.holds, j.escape_deg)).collect();
    assert_eq!(holds.len(), 2, "frame and square, square and strip: {joints:?}");
    assert_eq!(holds.iter().filter(|(holds, _)| *holds).count(), 1, "{joints:?}");
    assert_eq!(holds.iter().filter(|lost| **lost == (false, None)).count(), 1, "{joints:?}");
}

//! Pictures as a whole: sizes and limits, same bytes, pieces that never overlap, photographs.

mod scenes;

use kerfleaf::pictures::{self, Picture, Place, Studio, Subject, View, any_overlap, photo};
use kerfleaf::shape::{Extent, Face};
use scenes::{Scene, landscape};

const VIEWS: [View; 8] = [
    View::Whole,
    View::Uncut,
    View::Plain,
    View::Blank { primed: true, cut: false },
    View::Blank { primed: false, cut: true },
    View::Loosened,
    View::Tray,
    View::CloseUp,
];

fn small() -> Scene {
    landscape("small", "maple-plywood", 90.0, 60.0, 5, 4, true)
}

fn places(subject: &Subject, view: View) -> Vec<Place> {
    let scene = pictures::Scene::of(*subject, view).expect("a scene");
    scene.things.iter().map(|thing| thing.place).collect()
}

/// Handbook, "Privacy": 4 pixels to the millimetre for the whole with its cuts, 12 for the close-up of at most a sixth of the board.
#[test]
fn no_picture_with_cuts_passes_its_scale() {
    for (w, h) in [(60.0, 40.0), (90.0, 140.0), (300.0, 200.0), (620.0, 410.0)] {
        let scene = landscape("scale", "oak", w, h, 4, 3, false);
        scene.with(true, |subject| {
            let mut studio = Studio::new(subject);
            let area: f64 = subject.board.parts.iter().map(|p| p.outline.area_mm2()).sum();
            for view in VIEWS {
                let widths = studio.widths(view);
                let widest = f64::from(*widths.last().expect("a width"));
                assert!(widths.windows(2).all(|w| w[0] < w[1]) && widest <= 1920.0, "{widths:?}");
                match view {
                    // The window is the sixth with some table; the scale follows from the window's own area.
                    View::CloseUp => assert!(widest * widest * 0.75 <= 12.0 * 12.0 * area / 6.0, "{widest}"),
                    View::Uncut | View::Blank { cut: false, .. } => assert_eq!(widest, 1920.0),
                    // Each of these shows at least the board's own width.
                    View::Whole | View::Plain | View::Blank { .. } => {
                        let margin = 2.0 * (0.055 * w.max(h) + scene.thickness_mm);
                        assert!(widest <= 4.0 * (w + margin) + 1e-9, "{view:?} {widest}");
                    }
                    View::Loosened | View::Tray => {}
                }
            }
        });
    }
}

/// A mast of a board: as many pixels as any other at most, so that memory has a bound, and no side that WebP cannot have (RFC 6386, 9.1).
#[test]
fn a_tall_board_takes_no_more_pixels_than_another() {
    let scene = landscape("mast", "oak", 20.0, 1400.0, 2, 40, false);
    scene.with(true, |subject| {
        let mut studio = Studio::new(subject);
        for view in VIEWS {
            let widest = *studio.widths(view).last().expect("a width");
            let high = studio.height(view, widest).expect("a height");
            assert!(high <= 16_383 && f64::from(widest) * f64::from(high) <= 8.1e6, "{view:?}: {widest} × {high}");
        }
        let window = studio.scene(View::Uncut).expect("a scene").window;
        let picture = studio.draw(View::Uncut, &[1280]).pop().expect("a picture");
        let shape = f64::from(picture.width) / f64::from(picture.height);
        assert!((shape / (window.width_mm() / window.height_mm()) - 1.0).abs() < 0.01, "not squeezed: {shape}");
    });
}

/// The same, read off the pixels: a walnut board of 90 mm, dark on the pale table, asked for at any width.
#[test]
fn a_board_in_a_picture_has_at_most_four_pixels_to_the_millimetre() {
    let scene = landscape("walnut", "walnut", 90.0, 60.0, 3, 2, false);
    scene.with(true, |subject| {
        for (view, most) in [(View::Plain, 4.0), (View::Uncut, f64::INFINITY)] {
            let picture = pictures::draw(&subject, view, 10_000).expect("a picture");
            let row = (picture.height / 2 * picture.width * 3) as usize;
            let line = &picture.rgb[row..row + picture.width as usize * 3];
            let dark = |pixel: &&[u8]| u32::from(pixel[0]) + u32::from(pixel[1]) + u32::from(pixel[2]) < 390;
            let seen = line.chunks_exact(3).filter(dark).count() as f64;
            // The right side of the board is seen as well, 0.15 mm for each mm of thickness.
            let scale = seen / (90.0 + 0.15 * scene.thickness_mm);
            assert!(scale <= most * 1.01 && scale > 3.9, "{view:?}: {scale} pixels to the millimetre");
            assert!(most.is_finite() || scale > 10.0, "without its cuts there is no limit: {scale}");
        }
    });
}

#[test]
fn hidden_cuts_leave_no_trace() {
    let scene = small();
    scene.with(false, |subject| {
        let mut studio = Studio::new(subject);
        assert!(studio.draw(View::Loosened, &[300]).is_empty());
        assert!(studio.draw(View::Tray, &[300]).is_empty());
        assert_eq!(studio.widths(View::Loosened), Vec::<u32>::new());
        // The same board without its cuts draws the same pictures.
        let whole = studio.draw(View::Whole, &[300]);
        assert_eq!(whole, studio.draw(View::Uncut, &[300]));
        let cut = studio.draw(View::Blank { primed: true, cut: true }, &[300]);
        assert_eq!(cut, studio.draw(View::Blank { primed: true, cut: false }, &[300]));
    });
    scene.with(true, |subject| {
        let mut studio = Studio::new(subject);
        assert_ne!(studio.draw(View::Whole, &[300]), studio.draw(View::Uncut, &[300]));
    });
}

#[test]
fn pictures_have_the_widths_asked_for() {
    small().with(true, |subject| {
        let mut studio = Studio::new(subject);
        for view in VIEWS {
            let widths = [120, 240, studio.widths(view)[0].min(400)];
            let drawn = studio.draw(view, &widths);
            for (picture, width) in drawn.iter().zip(widths) {
                assert_eq!(picture.width, width, "{view:?}");
                assert_eq!(picture.rgb.len(), (picture.width * picture.height * 3) as usize);
            }
            let ratios: Vec<f64> = drawn.iter().map(|p| f64::from(p.width) / f64::from(p.height)).collect();
            assert!(ratios.iter().all(|r| (r - ratios[0]).abs() < 0.02), "{view:?} {ratios:?}");
        }
    });
}

#[test]
fn one_thread_and_two_give_the_same_bytes() {
    let scene = small();
    let drawn = |threads: usize| -> Vec<Picture> {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("a pool");
        pool.install(|| {
            scene.with(true, |subject| {
                let mut studio = Studio::new(subject);
                VIEWS.iter().flat_map(|view| studio.draw(*view, &[360])).collect()
            })
        })
    };
    let (one, two, again) = (drawn(1), drawn(2), drawn(2));
    assert_eq!(one.len(), VIEWS.len());
    assert!(one == two && two == again, "pictures differ between runs");
    let bytes = |p: &[Picture]| p.iter().map(|p| (pictures::webp(p, 80), pictures::jpeg(p, 84))).collect::<Vec<_>>();
    assert_eq!(bytes(&one), bytes(&two));
}

/// What is drawn first must not show in what is drawn later: the texture kept for loosened pieces is the one drawn anew.
#[test]
fn a_view_is_the_same_whatever_was_drawn_before() {
    small().with(true, |subject| {
        let alone = Studio::new(subject).draw(View::Loosened, &[300]);
        let mut studio = Studio::new(subject);
        let widths = studio.widths(View::Whole);
        studio.draw(View::Whole, &widths);
        studio.draw(View::CloseUp, &[200]);
        assert_eq!(studio.draw(View::Loosened, &[300]), alone);
    });
}

#[test]
fn another_slug_is_another_board() {
    let (mut a, mut b) = (small(), small());
    a.slug = "ferry".into();
    b.slug = "heron".into();
    let draw = |s: &Scene| s.with(true, |subject| pictures::draw(&subject, View::Plain, 200).expect("drawn"));
    assert_ne!(draw(&a), draw(&b));
}

#[test]
fn no_fill_is_flat() {
    let scene = small();
    let picture = scene.with(true, |subject| pictures::draw(&subject, View::Uncut, 900).expect("drawn"));
    // Windows of 40 pixels well inside the board: each holds several tones.
    let mut flat = 0;
    for (x, y) in [(150, 120), (300, 200), (450, 300), (600, 420), (700, 200), (250, 450)] {
        let mut tones: Vec<u8> = Vec::new();
        for row in y..y + 40 {
            for column in x..x + 40 {
                tones.push(picture.rgb[((row * picture.width + column) * 3 + 1) as usize]);
            }
        }
        tones.sort_unstable();
        flat += usize::from(tones[tones.len() * 9 / 10] - tones[tones.len() / 10] < 3);
    }
    assert_eq!(flat, 0, "{flat} of 6 windows are flat");
}

#[test]
fn loosened_pieces_never_overlap() {
    for (columns, rows) in [(3, 2), (6, 5), (14, 10)] {
        let scene = landscape("apart", "cherry", 240.0, 160.0, columns, rows, false);
        let pieces: Vec<&[Face]> = scene.board.pieces.iter().map(|p| p.cut.as_slice()).collect();
        scene.with(true, |subject| {
            for view in [View::Loosened, View::Tray] {
                let places = places(&subject, view);
                assert_eq!(places.len(), pieces.len());
                assert!(!any_overlap(&pieces, &places), "{view:?}, {columns} by {rows}");
            }
            // The check itself can fail: closed up, drawn outlines without a kerf touch.
            let drawn: Vec<&[Face]> = scene.board.pieces.iter().map(|p| std::slice::from_ref(&p.face)).collect();
            let home: Vec<_> = drawn.iter().map(|_| pictures::Place::home(kurbo::Point::ZERO)).collect();
            let turned: Vec<_> = home
                .iter()
                .enumerate()
                .map(|(n, p)| pictures::Place { at: kurbo::Point::new(0.02 * n as f64, 0.0), ..*p })
                .collect();
            assert!(any_overlap(&drawn, &turned));
        });
    }
}

/// A piece that lies wholly inside another must come out of it.
#[test]
fn a_piece_inside_another_comes_out() {
    let mut scene = landscape("ring", "maple", 100.0, 100.0, 1, 1, false);
    // One board, one star within.
    assert_eq!(scene.board.pieces.len(), 2);
    scene.slug = "ring-again".into();
    scene.with(true, |subject| {
        let pieces: Vec<&[Face]> = subject.board.pieces.iter().map(|p| p.cut.as_slice()).collect();
        let places = places(&subject, View::Loosened);
        assert!(!any_overlap(&pieces, &places));
        let boxes: Vec<Extent> = pieces
            .iter()
            .zip(&places)
            .map(|(f, p)| Extent::of(p.faces(f).iter().flat_map(|f| &f.outer)).expect("points"))
            .collect();
        let (a, b) = (&boxes[0], &boxes[1]);
        let inside =
            |a: &Extent, b: &Extent| a.min.x > b.min.x && a.max.x < b.max.x && a.min.y > b.min.y && a.max.y < b.max.y;
        assert!(!inside(a, b) && !inside(b, a), "{boxes:?}");
    });
}

#[test]
fn a_board_of_nothing_gives_no_picture() {
    let mut scene = small();
    scene.board.parts.clear();
    scene.board.pieces.clear();
    scene.with(true, |subject| {
        for view in VIEWS {
            assert_eq!(pictures::widths(&subject, view), Vec::<u32>::new(), "{view:?}");
            assert_eq!(pictures::draw(&subject, view, 480), None);
        }
    });
}

#[test]
fn files_stay_under_their_limit() {
    // Noise is the worst case: no codec makes it small at a good quality.
    let mut state = 1_u32;
    let rgb = (0..1280 * 900 * 3)
        .map(|_| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            96 + (state >> 26) as u8
        })
        .collect();
    let picture = Picture { width: 1280, height: 900, rgb };
    let webp = pictures::webp(&picture, 90).expect("encoded");
    assert!(webp.starts_with(b"RIFF") && webp.len() <= pictures::MAX_BYTES, "{}", webp.len());
    let jpeg = pictures::jpeg(&picture, 90).expect("encoded");
    assert!(jpeg.starts_with(&[0xff, 0xd8]) && jpeg.len() <= pictures::MAX_BYTES, "{}", jpeg.len());
}

/// Exif 2.32, tag 0x0112: which corner of the scene row 0 and column 0 of the file are.
#[test]
fn photographs_are_turned_upright() {
    // Upright, 24 × 16: red left above, green right above, blue left below, white right below.
    let (w, h) = (24_u32, 16_u32);
    let upright = |x: u32, y: u32| match (x < w / 2, y < h / 2) {
        (true, true) => [220, 30, 30],
        (false, true) => [30, 200, 30],
        (true, false) => [30, 30, 220],
        (false, false) => [250, 250, 250],
    };
    for orientation in 1..=8_u8 {
        let swapped = orientation >= 5;
        let (fw, fh) = if swapped { (h, w) } else { (w, h) };
        let mut file = image::RgbImage::new(fw, fh);
        for y in 0..fh {
            for x in 0..fw {
                // From the standard's words: where row 0 and column 0 of the file lie in the scene.
                let (sx, sy) = match orientation {
                    1 => (x, y),                 // top, left
                    2 => (w - 1 - x, y),         // top, right
                    3 => (w - 1 - x, h - 1 - y), // bottom, right
                    4 => (x, h - 1 - y),         // bottom, left
                    5 => (y, x),                 // left, top
                    6 => (w - 1 - y, x),         // right, top
                    7 => (w - 1 - y, h - 1 - x), // right, bottom
                    _ => (y, h - 1 - x),         // left, bottom
                };
                file.put_pixel(x, y, image::Rgb(upright(sx, sy)));
            }
        }
        for bytes in [jpeg_with(&file, orientation), png_with(&file, orientation), webp_with(&file, orientation)] {
            let picture = photo::prepare(&bytes, 4000).expect("a photograph");
            assert_eq!((picture.width, picture.height), (w, h), "orientation {orientation}");
            for (x, y) in [(3, 3), (w - 4, 3), (3, h - 4), (w - 4, h - 4)] {
                let at = ((y * w + x) * 3) as usize;
                let want = upright(x, y);
                let near = picture.rgb[at..at + 3].iter().zip(want).all(|(a, b)| a.abs_diff(b) < 24);
                assert!(near, "orientation {orientation} at {x}, {y}: {:?}, not {want:?}", &picture.rgb[at..at + 3]);
            }
        }
    }
}

/// A TIFF header with the one field, big-endian.
fn exif_block(orientation: u8) -> Vec<u8> {
    let mut tiff = b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
    tiff.extend([orientation, 0, 0, 0, 0, 0, 0]);
    tiff
}

fn jpeg_with(image: &image::RgbImage, orientation: u8) -> Vec<u8> {
    let mut plain = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut plain, 95).encode_image(image).expect("encoded");
    let mut block = b"Exif\0\0".to_vec();
    block.extend(exif_block(orientation));
    let length = (block.len() + 2) as u16;
    let mut bytes = plain[..2].to_vec();
    bytes.extend([0xff, 0xe1]);
    bytes.extend(length.to_be_bytes());
    bytes.extend(block);
    bytes.extend(&plain[2..]);
    bytes
}

fn png_with(image: &image::RgbImage, orientation: u8) -> Vec<u8> {
    let mut plain = std::io::Cursor::new(Vec::new());
    image.write_to(&mut plain, image::ImageFormat::Png).expect("encoded");
    let plain = plain.into_inner();
    let block = exif_block(orientation);
    let mut chunk = b"eXIf".to_vec();
    chunk.extend(&block);
    // After the header chunk: 8 bytes of signature, then 25 of IHDR.
    let mut bytes = plain[..33].to_vec();
    bytes.extend((block.len() as u32).to_be_bytes());
    bytes.extend(&chunk);
    bytes.extend(crc(&chunk).to_be_bytes());
    bytes.extend(&plain[33..]);
    bytes
}

/// WebP container specification (RFC 9649): VP8X with the Exif flag, the image's own chunk, then EXIF.
fn webp_with(image: &image::RgbImage, orientation: u8) -> Vec<u8> {
    let mut plain = std::io::Cursor::new(Vec::new());
    image.write_to(&mut plain, image::ImageFormat::WebP).expect("encoded");
    let plain = plain.into_inner();
    let less_one = |v: u32| (v - 1).to_le_bytes()[..3].to_vec();
    let chunk = |name: &[u8], data: &[u8]| {
        let mut out = name.to_vec();
        out.extend((data.len() as u32).to_le_bytes());
        out.extend(data);
        out.resize(out.len() + data.len() % 2, 0);
        out
    };
    let sizes = [vec![8, 0, 0, 0], less_one(image.width()), less_one(image.height())].concat();
    // RIFF, size and WEBP are 12 bytes; what follows is the chunk of the image.
    let body =
        [b"WEBP".to_vec(), chunk(b"VP8X", &sizes), plain[12..].to_vec(), chunk(b"EXIF", &exif_block(orientation))];
    chunk(b"RIFF", &body.concat())
}

/// CRC-32 of PNG (ISO 3309).
fn crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0_u32, |crc, b| {
        (0..8).fold(crc ^ u32::from(*b), |c, _| if c & 1 == 1 { (c >> 1) ^ 0xedb8_8320 } else { c >> 1 })
    })
}

#[test]
fn nothing_of_a_photographs_metadata_survives() {
    let file = image::RgbImage::from_pixel(64, 48, image::Rgb([120, 90, 60]));
    let bytes = jpeg_with(&file, 6);
    assert!(bytes.windows(4).any(|w| w == b"Exif"));
    let picture = photo::prepare(&bytes, 40).expect("a photograph");
    assert_eq!((picture.width, picture.height), (40, 53));
    for encoded in [pictures::jpeg(&picture, 80), pictures::webp(&picture, 80)] {
        let encoded = encoded.expect("encoded");
        for word in [b"Exif".as_slice(), b"EXIF", b"ICCP", b"ICC_PROFILE", b"XMP "] {
            assert!(!encoded.windows(word.len()).any(|w| w == word), "{}", String::from_utf8_lossy(word));
        }
    }
}

/// A known pair of Display P3 and sRGB: P3 (255, 0, 0) lies outside sRGB, its red is cut off at 255 with no green or blue;
/// P3 (128, 128, 128) is the same grey in sRGB, since both share white and transfer function (CSS Color 4, section 10).
#[test]
fn wide_gamut_profiles_become_srgb() {
    let profile = moxcms::ColorProfile::new_display_p3().encode().expect("a profile");
    let mut bytes = Vec::new();
    let mut encoder = image::codecs::png::PngEncoder::new(&mut bytes);
    image::ImageEncoder::set_icc_profile(&mut encoder, profile).expect("takes a profile");
    // CSS Color 4's transforms give color(display-p3 0.5 0.7 0.3) = about rgb(107, 181, 59): worked out below from the same matrices.
    let colours = [[128, 128, 128], [255, 0, 0], [128, 179, 77]];
    let flat: Vec<u8> = colours.into_iter().flatten().collect();
    image::ImageEncoder::write_image(encoder, &flat, 3, 1, image::ExtendedColorType::Rgb8).expect("encoded");
    let picture = photo::prepare(&bytes, 100).expect("a photograph");
    for (n, colour) in colours.into_iter().enumerate() {
        let want = p3_to_srgb(colour);
        for (a, b) in picture.rgb[3 * n..3 * n + 3].iter().zip(want) {
            assert!(a.abs_diff(b) <= 2, "{colour:?}: {:?}, not {want:?}", &picture.rgb[3 * n..3 * n + 3]);
        }
    }
}

/// CSS Color 4, section 18: linear Display P3 to XYZ, XYZ to linear sRGB.
fn p3_to_srgb(colour: [u8; 3]) -> [u8; 3] {
    let linear = colour.map(|c| {
        let v = f64::from(c) / 255.0;
        if v <= 0.04045 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
    });
    let xyz = apply(
        [
            [0.486_570_948_648_216_2, 0.265_667_693_169_093_06, 0.198_217_285_234_362_5],
            [0.228_974_564_069_748_8, 0.691_738_521_836_506_4, 0.079_286_914_093_745],
            [0.0, 0.045_113_381_858_902_64, 1.043_944_368_900_976],
        ],
        linear,
    );
    xyz_to_srgb(xyz)
}

fn apply(m: [[f64; 3]; 3], v: [f64; 3]) -> [f64; 3] {
    m.map(|r| r[0] * v[0] + r[1] * v[1] + r[2] * v[2])
}

fn xyz_to_srgb(xyz: [f64; 3]) -> [u8; 3] {
    let srgb = apply(
        [
            [3.240_969_941_904_521, -1.537_383_177_570_094, -0.498_610_760_293],
            [-0.969_243_636_280_87, 1.875_967_501_507_72, 0.041_555_057_407_175],
            [0.055_630_079_696_993, -0.203_976_958_888_976, 1.056_971_514_242_878],
        ],
        xyz,
    );
    srgb.map(|v| {
        let v = v.clamp(0.0, 1.0);
        let s = if v <= 0.003_130_8 { 12.92 * v } else { 1.055 * v.powf(1.0 / 2.4) - 0.055 };
        (s * 255.0).round() as u8
    })
}

/// Adobe RGB (1998) colour image encoding, 2005-05: gamma 2.19921875, its matrix to XYZ under D65. Its green is sRGB's only where it is cut off.
#[test]
fn adobe_rgb_becomes_srgb() {
    let profile = moxcms::ColorProfile::new_adobe_rgb().encode().expect("a profile");
    let colours = [[128, 128, 128], [200, 100, 60], [90, 140, 120]];
    let mut bytes = Vec::new();
    let mut encoder = image::codecs::png::PngEncoder::new(&mut bytes);
    image::ImageEncoder::set_icc_profile(&mut encoder, profile).expect("takes a profile");
    let flat: Vec<u8> = colours.into_iter().flatten().collect();
    image::ImageEncoder::write_image(encoder, &flat, 3, 1, image::ExtendedColorType::Rgb8).expect("encoded");
    let picture = photo::prepare(&bytes, 100).expect("a photograph");
    let to_xyz = [[0.576_67, 0.185_56, 0.188_23], [0.297_34, 0.627_36, 0.075_29], [0.027_03, 0.070_69, 0.991_34]];
    for (n, colour) in colours.into_iter().enumerate() {
        let want = xyz_to_srgb(apply(to_xyz, colour.map(|c| (f64::from(c) / 255.0).powf(2.199_218_75))));
        for (a, b) in picture.rgb[3 * n..3 * n + 3].iter().zip(want) {
            assert!(a.abs_diff(b) <= 2, "{colour:?}: {:?}, not {want:?}", &picture.rgb[3 * n..3 * n + 3]);
        }
        assert!(n == 0 || picture.rgb[3 * n..3 * n + 3] != colour, "the profile was used");
    }
}

/// The handbook's order: by file name, whatever the order on disk.
#[test]
fn photographs_come_in_the_order_of_their_names() {
    let folder = tempfile::tempdir().expect("a folder");
    let design = folder.path().join("designs/reed");
    std::fs::create_dir_all(design.join("photos")).expect("folders");
    std::fs::write(
        folder.path().join("shop.toml"),
        "name = \"A\"\ncurrency = \"EUR\"\norder = \"mailto:a@example.org\"\n",
    )
    .expect("written");
    let record = "title = \"Reed\"\nstatus = \"published\"\n[board]\nwood = \"birch-plywood\"\nthickness = \"4 mm\"\n[drawing.layers]\ncut = \"cuts\"\n";
    std::fs::write(design.join("record.toml"), record).expect("written");
    let svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9mm\" height=\"9mm\" viewBox=\"0 0 9 9\"><path id=\"cuts\" d=\"M1 1h6v6h-6z\"/></svg>";
    std::fs::write(design.join("drawing.svg"), svg).expect("written");
    let file = image::RgbImage::from_pixel(8, 8, image::Rgb([120, 90, 60]));
    for name in ["10-back.jpg", "02-side.jpg", "b.png", "01-table.jpg"] {
        let bytes = if name.ends_with("png") { png_with(&file, 1) } else { jpeg_with(&file, 1) };
        std::fs::write(design.join("photos").join(name), bytes).expect("written");
    }
    let shop = kerfleaf::shop::read(folder.path()).expect("a shop");
    assert!(shop.entries[0].mistakes.is_empty(), "{:?}", shop.entries[0].mistakes);
    let design = shop.entries[0].design.as_ref().expect("a design");
    let names: Vec<&str> = design.photos.iter().map(|p| p.file.as_str()).collect();
    assert_eq!(names, ["01-table.jpg", "02-side.jpg", "10-back.jpg", "b.png"]);
}

#[test]
fn transparent_photographs_lie_on_paper() {
    let file = image::RgbaImage::from_pixel(8, 8, image::Rgba([0, 0, 0, 0]));
    let mut bytes = std::io::Cursor::new(Vec::new());
    file.write_to(&mut bytes, image::ImageFormat::Png).expect("encoded");
    let picture = photo::prepare(&bytes.into_inner(), 8).expect("a photograph");
    let ground = pictures::GROUND;
    assert_eq!(&picture.rgb[..3], &[ground.r, ground.g, ground.b]);
}

/// Half black and half white lines are half the light: sRGB 188, not 128 (IEC 61966-2-1).
#[test]
fn photographs_shrink_in_linear_light() {
    let file = image::RgbImage::from_fn(256, 256, |x, _| image::Rgb([if x % 2 == 0 { 0 } else { 255 }; 3]));
    let mut bytes = std::io::Cursor::new(Vec::new());
    file.write_to(&mut bytes, image::ImageFormat::Png).expect("encoded");
    let picture = photo::prepare(&bytes.into_inner(), 32).expect("a photograph");
    let middle = picture.rgb[((16 * 32 + 16) * 3) as usize];
    assert!(middle.abs_diff(188) <= 2, "{middle}");
}

#[test]
fn what_is_no_photograph_is_an_error() {
    assert_eq!(photo::prepare(b"<svg/>", 100), Err(photo::PhotoError::UnknownFormat));
    let file = image::RgbImage::from_pixel(64, 64, image::Rgb([120, 90, 60]));
    let mut bytes = jpeg_with(&file, 1);
    bytes.truncate(60);
    assert!(matches!(photo::prepare(&bytes, 100), Err(photo::PhotoError::Unreadable { .. })));
}

//! The shop as it is just now, measured: read anew at every save, measured anew only where something measured has changed.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, OnceLock, PoisonError};
use std::time::Duration;

use rayon::prelude::*;

use crate::catalogue::{self, Card, PictureSet};
use crate::figures::{self, Measured};
use crate::shop::{self, Design, Form, Mistake, Offer, Settings, Shop};

/// Pictures that are kept drawn.
const MOST_PICTURES: usize = 240;

/// One design that could be read.
#[derive(Debug)]
pub(super) struct Kept {
    pub(super) design: Design,
    pub(super) measured: Result<Arc<Measured>, Box<Mistake>>,
    /// Pictures of the state before, where they show this one as well.
    pictures: Option<Vec<PictureSet>>,
    /// Made when a page first asks for it: how the pieces lie apart takes longer than all figures together.
    card: OnceLock<Option<Card>>,
}

impl Kept {
    /// Its card; `None` where it could not be measured.
    pub(super) fn card(&self, shop: &Shop) -> Option<&Card> {
        let make = || {
            let measured = self.measured.as_ref().ok()?;
            Some(match &self.pictures {
                Some(pictures) => Card::new(&shop.settings, &self.design, measured, pictures.clone(), Vec::new()),
                None => catalogue::sketch(shop, &self.design, measured, &stamp(shop, &self.design)),
            })
        };
        self.card.get_or_init(make).as_ref()
    }

    /// Its card, where a page has asked for it before.
    pub(super) fn known_card(&self) -> Option<&Card> {
        self.card.get()?.as_ref()
    }
}

/// A page, nothing where there is none, or why there are no pages.
type Found = Result<Option<Arc<Vec<u8>>>, String>;

/// The shop at one moment.
pub(super) struct Snapshot {
    pub(super) version: u64,
    /// `None` before the first reading.
    pub(super) shop: Option<Result<Shop, String>>,
    /// By slug.
    pub(super) kept: BTreeMap<String, Arc<Kept>>,
    /// Cards of all designs that could be measured.
    cards: OnceLock<Vec<Card>>,
    /// Pages that were asked for, by address.
    pages: Mutex<BTreeMap<String, Found>>,
}

/// What all requests share.
pub(super) struct StockRoom {
    root: PathBuf,
    now: Mutex<Arc<Snapshot>>,
    news: Condvar,
    pictures: Mutex<BTreeMap<String, Arc<Vec<u8>>>>,
}

fn open<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

impl StockRoom {
    /// An empty room for a shop that is not read yet.
    pub(super) fn new(root: &Path) -> StockRoom {
        let empty = Snapshot::new(0, None, BTreeMap::new());
        StockRoom {
            root: root.to_owned(),
            now: Mutex::new(Arc::new(empty)),
            news: Condvar::new(),
            pictures: Mutex::default(),
        }
    }

    /// The shop as it is.
    pub(super) fn now(&self) -> Arc<Snapshot> {
        Arc::clone(&open(&self.now))
    }

    /// Waits for another version than `since`, but not for long; the version there is then.
    pub(super) fn wait(&self, since: u64, most: Duration) -> u64 {
        let now = open(&self.now);
        let waited = self.news.wait_timeout_while(now, most, |now| now.version == since);
        waited.unwrap_or_else(PoisonError::into_inner).0.version
    }

    /// Reads the shop anew.
    pub(super) fn renew(&self) {
        let before = self.now();
        let shop = shop::read(&self.root).map_err(|e| e.to_string());
        let mut kept = BTreeMap::new();
        if let Ok(shop) = &shop {
            let old_settings = before.shop.as_ref().and_then(|shop| shop.as_ref().ok()).map(|shop| &shop.settings);
            let designs: Vec<&Design> = shop.entries.iter().filter_map(|entry| entry.design.as_ref()).collect();
            let made: Vec<Arc<Kept>> = designs
                .par_iter()
                .map(|design| {
                    let old = before.kept.get(&design.slug).zip(old_settings);
                    keep(shop, design, old)
                })
                .collect();
            kept = designs.iter().map(|design| design.slug.clone()).zip(made).collect();
        }
        let snapshot = Snapshot::new(before.version + 1, Some(shop), kept);
        *open(&self.now) = Arc::new(snapshot);
        self.news.notify_all();
    }

    /// A picture of the catalogue, drawn when it is first asked for.
    pub(super) fn picture(&self, now: &Snapshot, slug: &str, address: &str) -> Option<Arc<Vec<u8>>> {
        let kept = now.kept.get(slug)?;
        let shop = now.shop()?;
        let (measured, card) = (kept.measured.as_ref().ok()?, kept.card(shop)?);
        // The main picture has the same address whatever it shows.
        let stamp = card.pictures.first().and_then(PictureSet::largest).map(|source| source.address.as_str());
        let key = format!("{address} {}", stamp.unwrap_or_default());
        if let Some(known) = open(&self.pictures).get(&key) {
            return Some(Arc::clone(known));
        }
        let made = Arc::new(catalogue::sketched(shop, &kept.design, measured, card, address)?);
        let mut pictures = open(&self.pictures);
        if pictures.len() >= MOST_PICTURES {
            pictures.clear();
        }
        pictures.insert(key, Arc::clone(&made));
        Some(made)
    }
}

impl Snapshot {
    fn new(version: u64, shop: Option<Result<Shop, String>>, kept: BTreeMap<String, Arc<Kept>>) -> Snapshot {
        Snapshot { version, shop, kept, cards: OnceLock::new(), pages: Mutex::default() }
    }

    /// A page of the catalogue, drafts among the rest; made when it is first asked for, and no other with it.
    pub(super) fn page(&self, address: &str) -> Found {
        let shop = match &self.shop {
            Some(Ok(shop)) => shop,
            Some(Err(why)) => return Err(why.clone()),
            None => return Err("The shop is being read.".to_owned()),
        };
        if let Some(known) = open(&self.pages).get(address) {
            return known.clone();
        }
        let made = catalogue::page(shop, self.cards(shop), address);
        let found = made.map(|page| page.map(|page| Arc::new(page.bytes))).map_err(|e| e.to_string());
        if !matches!(found, Ok(None)) {
            open(&self.pages).insert(address.to_owned(), found.clone());
        }
        found
    }

    /// Made one after the other: a thread of the pool that waited here for a card in the making could starve its maker.
    fn cards(&self, shop: &Shop) -> &[Card] {
        self.cards.get_or_init(|| self.kept.values().filter_map(|kept| kept.card(shop).cloned()).collect())
    }

    /// Makes every card, so that the first page need not wait for all of them.
    pub(super) fn lay_out(&self) {
        if let Some(shop) = self.shop() {
            self.cards(shop);
        }
    }

    /// The settings, where the shop could be read.
    pub(super) fn shop(&self) -> Option<&Shop> {
        self.shop.as_ref()?.as_ref().ok()
    }
}

/// The design measured, or as it was kept where nothing that counts has changed.
fn keep(shop: &Shop, design: &Design, old: Option<(&Arc<Kept>, &Settings)>) -> Arc<Kept> {
    let settings = &shop.settings;
    if let Some((kept, before)) = old
        && kept.design == *design
        && before == settings
    {
        return Arc::clone(kept);
    }
    let same = old.filter(|(kept, before)| measures_alike(&kept.design, design, before, settings));
    let measured = match same.map(|(kept, _)| &kept.measured) {
        Some(Ok(measured)) => Ok(Arc::clone(measured)),
        _ => figures::measure(design, settings).map(Arc::new).map_err(|why| Box::new(why.mistake(design))),
    };
    let shown = same.filter(|(kept, before)| looks_alike(&kept.design, design, before, settings));
    let pictures =
        shown.and_then(|(kept, _)| kept.known_card().map(|card| card.pictures.clone()).or(kept.pictures.clone()));
    Arc::new(Kept { design: design.clone(), measured, pictures, card: OnceLock::new() })
}

/// Whether two states of a design have the same figures.
fn measures_alike(old: &Design, new: &Design, before: &Settings, now: &Settings) -> bool {
    let offer = |o: &Offer| (o.form, o.code.clone(), o.pack, o.extras_g, o.finish_g);
    let offers = |d: &Design| d.offers.iter().map(offer).collect::<Vec<_>>();
    old.drawing == new.drawing
        && old.board == new.board
        && old.limits == new.limits
        && old.status == new.status
        && old.paints == new.paints
        && offers(old) == offers(new)
        && before.packs == now.packs
        && before.postage == now.postage
        && before.difficulty == now.difficulty
}

/// Whether two states of a design that measure alike have the same pictures too.
fn looks_alike(old: &Design, new: &Design, before: &Settings, now: &Settings) -> bool {
    let views =
        |d: &Design| d.offers.iter().map(|o| (o.form == Form::Blank, o.form, o.primed, o.board)).collect::<Vec<_>>();
    old.photos == new.photos && views(old) == views(new) && before.look.show_cuts == now.look.show_cuts
}

/// Changes with whatever a picture of the design shows.
fn stamp(shop: &Shop, design: &Design) -> String {
    let mut hash = blake3::Hasher::new();
    hash.update(design.drawing.svg.as_bytes());
    let rest = (&design.drawing.layers, design.drawing.join_mm, design.drawing.width_mm, &design.board, &design.paints);
    hash.update(format!("{rest:?}{}", shop.settings.look.show_cuts).as_bytes());
    for offer in &design.offers {
        hash.update(format!("{:?}{}{:?}", offer.form, offer.primed, offer.board).as_bytes());
    }
    for photo in &design.photos {
        hash.update(photo.content.hash.as_bytes());
    }
    data_encoding::BASE32_NOPAD.encode(&hash.finalize().as_bytes()[..8]).to_ascii_lowercase()
}

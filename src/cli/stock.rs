//! `stock`: what is low, what was sold, what was made.

use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};
use kerfleaf::figures;
use kerfleaf::publish::write_file;
use kerfleaf::shop::stock::{self, OwnFile, Sale};
use kerfleaf::shop::{Design, Offer, Shop, nearest};
use kerfleaf::units::Money;

use super::{Outcome, check};

/// What is low; or one more sold, or some more made
///
/// Changes the one number in the record, and nothing else of that file. A sale also becomes a line of SHOP/sales.csv, which is
/// yours alone and never published: date, code, number, price, currency, and the drawing's mark, by which a lost piece can be cut again.
#[derive(Args)]
pub struct Call {
    /// The shop's folder
    shop: PathBuf,
    #[command(subcommand)]
    what: Option<What>,
}

#[derive(Subcommand)]
enum What {
    /// Sold: takes from the stock and writes a line into sales.csv
    Sold {
        /// Stock code of the offer
        code: String,
        /// How many
        #[arg(default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=1_000_000))]
        number: u32,
        /// The day of the sale, as 2026-03-14; today where it is left out
        #[arg(long, value_name = "DAY")]
        on: Option<String>,
        /// Price of one, where it was another than the record's
        #[arg(long, value_name = "PRICE")]
        price: Option<String>,
    },
    /// Made: adds to the stock
    Made {
        /// Stock code of the offer
        code: String,
        /// How many
        #[arg(default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=1_000_000))]
        number: u32,
    },
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    // Asked before anything else: the one place where the clock is read.
    let today = jiff::Zoned::now().date().to_string();
    let shop = match check::open(&call.shop) {
        Ok(shop) => shop,
        Err(outcome) => return outcome,
    };
    for entry in &shop.entries {
        check::report(&entry.mistakes);
    }
    let done = match &call.what {
        None => return low(&shop),
        Some(What::Sold { code, number, on, price }) => {
            match (day(on.as_deref(), &today), cost(price.as_deref(), &shop)) {
                (Ok(day), Ok(price)) => {
                    find(&shop, code).and_then(|found| sold(call, &shop, found, *number, day, price))
                }
                (Err(outcome), _) | (_, Err(outcome)) => Err(outcome),
            }
        }
        Some(What::Made { code, number }) => find(&shop, code).and_then(|found| made(call, found, *number)),
    };
    match done {
        Err(outcome) => outcome,
        Ok(told) => {
            if !quiet {
                eprintln!("{told}");
            }
            Outcome::Done
        }
    }
}

type Found<'a> = (&'a Design, &'a Offer);

fn find<'a>(shop: &'a Shop, code: &str) -> Result<Found<'a>, Outcome> {
    stock::offer(shop, code).ok_or_else(|| {
        let offers = shop.entries.iter().filter_map(|e| e.design.as_ref()).flat_map(|d| &d.offers);
        let codes: Vec<&str> = offers.map(|offer| offer.code.as_str()).collect();
        eprintln!("kerfleaf: no offer of the shop has the code `{code}`.");
        match nearest(code, codes.iter().copied()) {
            Some(near) => eprintln!("Did you mean `{near}`?"),
            None => eprintln!("The shop has: {}.", codes.join(", ")),
        }
        if shop.entries.iter().any(|entry| entry.design.is_none()) {
            eprintln!("Designs with mistakes, told above, are not looked through.");
        }
        Outcome::WrongCall
    })
}

fn day<'a>(on: Option<&'a str>, today: &'a str) -> Result<&'a str, Outcome> {
    match on {
        Some(day) if !stock::is_day(day) => {
            eprintln!("kerfleaf: `{day}` is not a day. Write year, month and day, for instance --on {today}.");
            Err(Outcome::WrongCall)
        }
        day => Ok(day.unwrap_or(today)),
    }
}

fn cost(price: Option<&str>, shop: &Shop) -> Result<Option<Money>, Outcome> {
    let currency = &shop.settings.currency;
    price.map(|text| Money::read(text, currency.decimals)).transpose().map_err(|e| {
        let example = Money { minor: 12 * 10_i64.pow(currency.decimals), decimals: currency.decimals };
        eprintln!("kerfleaf: --price: {e}. Write it in {}, for instance {example}.", currency.code);
        Outcome::WrongCall
    })
}

fn sold(
    call: &Call,
    shop: &Shop,
    (design, offer): Found,
    number: u32,
    date: &str,
    price: Option<Money>,
) -> Result<String, Outcome> {
    let left = match offer.stock {
        Some(stock) if stock < number => {
            eprintln!(
                "kerfleaf: the record says that {} of {} are left, so {number} cannot be sold. Nothing was changed.",
                stock, offer.code
            );
            eprintln!(
                "Where more lie on the shelf, count them first: kerfleaf stock {} made {} {}",
                super::paths::shown(&call.shop),
                super::paths::quoted(&offer.code),
                number - stock
            );
            return Err(Outcome::Lacking);
        }
        stock => stock.map(|stock| stock - number),
    };
    let measured = figures::measure(design, &shop.settings);
    let mark = measured.as_ref().map(|m| m.figures.mark.clone()).unwrap_or_default();
    let price = price.unwrap_or(offer.price).to_string();
    let sale =
        Sale { date, code: &offer.code, number, price: &price, currency: &shop.settings.currency.code, mark: &mark };
    let sales = own(&call.shop, "sales.csv")?;
    let new_sales = stock::with_sale(sales.text.as_deref(), &sale);
    let record = left.map(|left| changed(&call.shop, design, offer, left)).transpose()?;
    write(&sales.path, &new_sales)?;
    if let Some((path, text)) = record
        && let Err(outcome) = write(&path, &text)
    {
        // Both or neither: a sale that stays in the stock would be sold again.
        match &sales.text {
            Some(old) => write(&sales.path, old)?,
            None => drop(std::fs::remove_file(&sales.path)),
        }
        return Err(outcome);
    }
    if let Err(why) = measured {
        check::report(&[why.mistake(design)]);
        eprintln!("kerfleaf: the sale is written down, but without the drawing's mark: see above.");
        return Err(Outcome::Lacking);
    }
    let currency = &shop.settings.currency.code;
    let left = left.map_or("made to order".to_owned(), |left| format!("{left} left"));
    Ok(format!(
        "{} sold {number} on {date} at {price} {currency}: {left}. In sales.csv with the mark {mark}.",
        offer.code
    ))
}

fn made(call: &Call, (design, offer): Found, number: u32) -> Result<String, Outcome> {
    let Some(stock) = offer.stock else {
        eprintln!("kerfleaf: {} is made to order: its record counts no stock. Nothing was changed.", offer.code);
        eprintln!("To have it counted, add `stock = {number}` to that offer in designs/{}/record.toml.", design.slug);
        return Err(Outcome::Lacking);
    };
    let Some(now) = stock.checked_add(number) else {
        eprintln!("kerfleaf: {stock} and {number} are more than can be counted. Nothing was changed.");
        return Err(Outcome::Lacking);
    };
    let (path, text) = changed(&call.shop, design, offer, now)?;
    write(&path, &text)?;
    Ok(format!("{}: {now} in stock.", offer.code))
}

/// The record with another number in stock, and where it lies.
fn changed(shop: &Path, design: &Design, offer: &Offer, number: u32) -> Result<(PathBuf, String), Outcome> {
    let file = format!("designs/{}/record.toml", design.slug);
    let record = own(shop, &file)?;
    let text = record.text.as_deref().and_then(|text| stock::with_stock(text, &design.slug, &offer.code, number));
    text.map(|text| (record.path, text)).ok_or_else(|| {
        eprintln!(
            "kerfleaf: {file} has changed meanwhile: its number in stock is not found again. Nothing was changed."
        );
        Outcome::Lacking
    })
}

fn own(shop: &Path, file: &str) -> Result<OwnFile, Outcome> {
    stock::own_file(shop, file).map_err(|mistake| {
        check::report(&[*mistake]);
        Outcome::Lacking
    })
}

fn write(path: &Path, text: &str) -> Result<(), Outcome> {
    write_file(path, text.as_bytes()).map_err(|e| {
        eprintln!("kerfleaf: {e}");
        Outcome::Lacking
    })
}

fn low(shop: &Shop) -> Outcome {
    let low = stock::low(shop);
    let widest = low.iter().map(|row| row.offer.code.chars().count()).max().unwrap_or(0);
    for row in &low {
        let left = if row.left == 0 { "sold out".to_owned() } else { format!("{} left", row.left) };
        let code = &row.offer.code;
        let pad = " ".repeat(widest - code.chars().count());
        super::say(&format!("{code}{pad}  {left:>8}  {}, {}", row.design.title, row.offer.form.name()));
    }
    let sound = shop.mistakes.is_empty() && shop.entries.iter().all(|entry| entry.mistakes.is_empty());
    if low.is_empty() && sound {
        super::say("Nothing is low.");
    }
    if sound { Outcome::Done } else { Outcome::Lacking }
}

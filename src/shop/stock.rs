//! Counting what lies ready: one number in a record, one line in sales.csv, and nothing else of either file.
//!
//! In: the text of a record or of sales.csv, and what happened. Out: the text as it is to be.
//! Never here: the disk but to read, the clock, a figure. Rule: handbook, commands, `stock`.

use std::ops::Range;
use std::path::{Path, PathBuf};

use toml_edit::{Document, Item, TableLike};

use super::folder::{Folder, MOST_TEXT, Refused};
use super::mistake::{Mistake, Place};
use super::read::text_of;
use super::{Design, Offer, Shop};

/// A file of the shop that is about to be changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnFile {
    /// Where it really lies, through links within the shop folder.
    pub path: PathBuf,
    /// Its text; `None` where there is no such file yet.
    pub text: Option<String>,
}

/// Reads one file of the shop for a change; `path` is inside the shop folder, with `/`.
///
/// # Errors
/// A file that cannot be read, is no text, or lies outside of the shop folder.
pub fn own_file(root: &Path, path: &str) -> Result<OwnFile, Box<Mistake>> {
    let unreadable = |error| Box::new(Refused::Unreadable(error).mistake(Place::whole(path), path));
    let folder = Folder::open(root).map_err(unreadable)?;
    let joined = root.join(path);
    match folder.bytes(path, MOST_TEXT) {
        Ok(bytes) => {
            let text = text_of(bytes, path)?;
            Ok(OwnFile { path: std::fs::canonicalize(joined).map_err(unreadable)?, text: Some(text) })
        }
        // A link that leads nowhere has a name already, and what it leads to is not known to lie in the shop.
        Err(Refused::Absent) if std::fs::symlink_metadata(&joined).is_err() => Ok(OwnFile { path: joined, text: None }),
        Err(refused) => Err(Box::new(refused.mistake(Place::whole(path), path))),
    }
}

/// The offer with a stock code, and its design.
pub fn offer<'a>(shop: &'a Shop, code: &str) -> Option<(&'a Design, &'a Offer)> {
    let designs = shop.entries.iter().filter_map(|entry| entry.design.as_ref());
    designs.flat_map(|design| design.offers.iter().map(move |offer| (design, offer))).find(|(_, o)| o.code == code)
}

/// A record with another number of one offer in stock; all other bytes stay. `None` where the record has no such offer,
/// or no `stock` in it.
pub fn with_stock(record: &str, slug: &str, code: &str, number: u32) -> Option<String> {
    let (mark, text) = match record.strip_prefix('\u{feff}') {
        Some(text) => (&record[..record.len() - text.len()], text),
        None => ("", record),
    };
    let document = Document::parse(text).ok()?;
    let offers = document.get("offer")?;
    let at = rows(offers).into_iter().find(|row| code_of(*row, slug).as_deref() == Some(code)).and_then(stock_at)?;
    let (before, after) = (text.get(..at.start)?, text.get(at.end..)?);
    Some(format!("{mark}{before}{number}{after}"))
}

fn rows(offers: &Item) -> Vec<&dyn TableLike> {
    match offers {
        Item::ArrayOfTables(tables) => tables.iter().map(|table| table as &dyn TableLike).collect(),
        _ => offers
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(|row| row.as_inline_table())
            .map(|t| t as &dyn TableLike)
            .collect(),
    }
}

fn code_of(row: &dyn TableLike, slug: &str) -> Option<String> {
    let text = |key| row.get(key).and_then(Item::as_str).map(str::to_owned);
    text("code").or_else(|| text("form").map(|form| super::record::usual_code(slug, &form)))
}

fn stock_at(row: &dyn TableLike) -> Option<Range<usize>> {
    row.get("stock")?.as_value().filter(|value| value.is_integer())?.span()
}

/// One sale, for accounts, recalls and lost pieces.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sale<'a> {
    /// `YYYY-MM-DD`.
    pub date: &'a str,
    /// Stock code.
    pub code: &'a str,
    /// How many.
    pub number: u32,
    /// Of one, in the shop's currency.
    pub price: &'a str,
    /// ISO 4217.
    pub currency: &'a str,
    /// Drawing mark; empty where the drawing could not be measured.
    pub mark: &'a str,
}

/// Columns of sales.csv.
pub const SALES_COLUMNS: &str = "date,code,number,price,currency,mark";

/// sales.csv with one more line; what it holds stays byte for byte. A new one has its columns first and, by RFC 4180, CRLF at the
/// ends of its lines; an older one keeps its own.
pub fn with_sale(sales: Option<&str>, sale: &Sale) -> String {
    let mut text = match sales {
        Some(text) if !text.trim().is_empty() => text.to_owned(),
        _ => format!("{SALES_COLUMNS}\r\n"),
    };
    let end = if text.contains("\r\n") { "\r\n" } else { "\n" };
    if !text.ends_with('\n') {
        text.push_str(end);
    }
    let Sale { date, code, number, price, currency, mark } = sale;
    text.push_str(&format!("{date},{},{number},{price},{currency},{mark}{end}", cell(code)));
    text
}

/// RFC 4180, 2.6 and 2.7. Source of the first rule: "CSV Injection" (OWASP): a cell that begins like a formula is run by spreadsheets.
fn cell(text: &str) -> String {
    let text = if text.starts_with(['=', '+', '-', '@']) { format!("'{text}") } else { text.to_owned() };
    if text.contains(['"', ',', '\r', '\n']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
}

/// Whether text is a day that there is, as `YYYY-MM-DD`.
pub fn is_day(text: &str) -> bool {
    let Ok(moment) = text.parse::<toml::value::Datetime>() else { return false };
    moment.date.is_some() && moment.time.is_none() && moment.offset.is_none()
}

/// One offer as `stock` lists it.
#[derive(Clone, Debug)]
pub struct Low<'a> {
    /// Its design.
    pub design: &'a Design,
    /// The offer.
    pub offer: &'a Offer,
    /// How many are left.
    pub left: u32,
}

/// Where shop.toml is silent: the last one counts as low.
pub const LOW_STOCK: u32 = 1;

/// Offers with so few left, drafts left out, the fewest first; then in the order of the shop.
pub fn low(shop: &Shop) -> Vec<Low<'_>> {
    let most = shop.settings.workshop.low_stock.unwrap_or(LOW_STOCK);
    let designs = shop.entries.iter().filter_map(|entry| entry.design.as_ref());
    let designs = designs.filter(|design| design.status == super::Status::Published);
    let counted = designs.flat_map(|design| {
        design.offers.iter().filter_map(move |offer| offer.stock.map(|left| Low { design, offer, left }))
    });
    let mut low: Vec<Low> = counted.filter(|row| row.left <= most).collect();
    low.sort_by_key(|row| row.left);
    low
}

#[cfg(test)]
mod tests {
    use super::*;

    const RECORD: &str = "\u{feff}# mine\r\ntitle = \"Heron\"  # 1\r\n\r\n[[offer]]\r\nform=\"painted\"\r\n  stock  =  0x2 # two, 2\r\nprice = 2\r\n[[offer]]\r\nprice = 1\r\ncode = 'B, \"1\"'\r\nform = \"blank\"\r\nstock = 1_0\t# ten";

    #[test]
    fn all_bytes_but_the_number_stay() {
        let painted = with_stock(RECORD, "heron", "heron-painted", 1).unwrap();
        assert_eq!(painted, RECORD.replace("0x2", "1"));
        let blank = with_stock(RECORD, "heron", "B, \"1\"", 9).unwrap();
        assert_eq!(blank, RECORD.replace("1_0\t", "9\t"));
    }

    #[test]
    fn offers_may_stand_in_one_line() {
        let record = "offer = [{ form = \"plain\", price = 3, stock = 1 }, { form = \"blank\", stock = 1, price = 3 }]";
        let changed = with_stock(record, "eel", "eel-blank", 12).unwrap();
        assert_eq!(changed, record.replace("\"blank\", stock = 1", "\"blank\", stock = 12"));
    }

    #[test]
    fn without_a_number_there_is_nothing_to_change() {
        for record in [
            "",
            "[[offer]]\nform = \"plain\"\n",
            "[[offer]]\nform = \"plain\"\nstock = \"2\"\n",
            "offer = 3",
            "[[offer]\n",
        ] {
            assert_eq!(with_stock(record, "eel", "eel-plain", 1), None, "{record}");
        }
    }

    #[test]
    fn a_line_is_added_and_the_others_stay() {
        let sale =
            Sale { date: "2026-03-14", code: "HERON-P", number: 1, price: "84.00", currency: "EUR", mark: "k3v7qd" };
        let first = with_sale(None, &sale);
        assert_eq!(first, "date,code,number,price,currency,mark\r\n2026-03-14,HERON-P,1,84.00,EUR,k3v7qd\r\n");
        assert_eq!(with_sale(Some(""), &sale), first);
        let kept = "date,code,number,price,currency,mark\n2026-01-02,X,1,3,EUR,abcdef";
        assert_eq!(with_sale(Some(kept), &sale), format!("{kept}\n2026-03-14,HERON-P,1,84.00,EUR,k3v7qd\n"));
    }

    /// RFC 4180, section 2.
    #[test]
    fn a_code_with_a_comma_is_one_cell() {
        let sale = Sale { date: "2026-03-14", code: "B, \"1\"", number: 2, price: "1", currency: "JPY", mark: "" };
        assert!(with_sale(None, &sale).ends_with("\r\n2026-03-14,\"B, \"\"1\"\"\",2,1,JPY,\r\n"));
        assert!(with_sale(None, &Sale { code: "=1+2", ..sale }).contains(",'=1+2,"));
    }

    #[test]
    fn days_are_days_of_the_calendar() {
        for (text, is) in [
            ("2026-03-14", true),
            ("2024-02-29", true),
            ("2026-02-29", false),
            ("2026-13-01", false),
            ("14.3.2026", false),
            ("2026-3-14", false),
            ("2026-03-14T00:00:00Z", false),
            ("", false),
        ] {
            assert_eq!(is_day(text), is, "{text}");
        }
    }
}

//! The catalogue from memory: every page as bytes, handed out by a small server, nothing written to any disk.
//!
//! `cargo run --release --example serve -- SHOP [PORT]`
//!
//! A real server keeps its own routes, and calls the two functions of `pages` below when a record changes.

use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::Path;

use kerfleaf::{catalogue, figures, shop};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let folder = args.first().ok_or("serve SHOP [PORT]")?;
    let port: u16 = args.get(1).map_or(Ok(0), |port| port.parse())?;
    let pages = pages(Path::new(folder))?;
    let listener = TcpListener::bind(("127.0.0.1", port))?;
    println!("{} pages at http://{}/", pages.len(), listener.local_addr()?);
    for stream in listener.incoming() {
        // One visitor who hangs up does not end the shop.
        if let Err(e) = answer(stream?, &pages) {
            eprintln!("{e}");
        }
    }
    Ok(())
}

/// The whole catalogue of a shop, by address.
fn pages(folder: &Path) -> Result<BTreeMap<String, Vec<u8>>, Box<dyn std::error::Error>> {
    let shop = shop::read(folder)?;
    let mut all = BTreeMap::new();
    let mut cards = Vec::new();
    for design in shop.entries.iter().filter_map(|entry| entry.design.as_ref()) {
        if design.status != shop::Status::Published {
            continue;
        }
        let measured = figures::measure(design, &shop.settings).map_err(|why| format!("{}: {why}", design.slug))?;
        let goods = catalogue::goods(&shop, design, &measured)?;
        all.extend(goods.pages.into_iter().map(|page| (page.address, page.bytes)));
        cards.push(goods.card);
    }
    all.extend(catalogue::pages(&shop, &cards)?.into_iter().map(|page| (page.address, page.bytes)));
    Ok(all)
}

fn answer(mut stream: TcpStream, pages: &BTreeMap<String, Vec<u8>>) -> std::io::Result<()> {
    let mut line = String::new();
    BufReader::new(&stream).read_line(&mut line)?;
    let asked = line.split(' ').nth(1).unwrap_or("/").split(['?', '#']).next().unwrap_or("/");
    let mut address = asked.trim_start_matches('/').to_owned();
    if address.is_empty() || address.ends_with('/') {
        address.push_str("index.html");
    }
    let (status, address) =
        if pages.contains_key(&address) { ("200 OK", address.as_str()) } else { ("404 Not Found", "404.html") };
    let bytes = pages.get(address).map(Vec::as_slice).unwrap_or_default();
    let kind = match address.rsplit('.').next().unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css",
        "js" => "text/javascript",
        "json" => "application/json",
        "webp" => "image/webp",
        "jpg" => "image/jpeg",
        "png" => "image/png",
        "svg" => "image/svg+xml",
        "pdf" => "application/pdf",
        "xml" => "application/xml",
        "csv" => "text/csv",
        _ => "text/plain; charset=utf-8",
    };
    let length = bytes.len();
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {length}\r\nConnection: close\r\n\r\n"
    )?;
    stream.write_all(bytes)
}

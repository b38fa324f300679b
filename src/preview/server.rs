//! HTTP/1.1 on the loopback: one request a connection, read with `httparse`, answered by the guard's leave alone.
//!
//! Rule: RFC 9112. Only GET and HEAD; a head of at most 16 kB; a silent connection is dropped after ten seconds.

use std::io::{Read, Write};
use std::net::{TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

use super::bench;
use super::guard::{Guard, Knock};
use super::stock_room::StockRoom;

const MOST_HEAD: usize = 16 << 10;
const MOST_HEADERS: usize = 64;
const SILENCE: Duration = Duration::from_secs(10);
/// More at once than a browser with a dozen windows opens.
const MOST_AT_ONCE: usize = 128;

/// What goes back.
pub(super) struct Answer {
    pub(super) status: &'static str,
    pub(super) kind: &'static str,
    pub(super) body: Arc<Vec<u8>>,
}

impl Answer {
    pub(super) fn ok(kind: &'static str, body: Vec<u8>) -> Answer {
        Answer { status: "200 OK", kind, body: Arc::new(body) }
    }

    pub(super) fn page(html: String) -> Answer {
        Answer::ok("text/html; charset=utf-8", html.into_bytes())
    }

    pub(super) fn nothing(status: &'static str) -> Answer {
        Answer { status, kind: "text/plain", body: Arc::default() }
    }
}

/// Answers until the process ends.
pub(super) fn serve(listener: &TcpListener, guard: Arc<Guard>, room: Arc<StockRoom>) {
    let open = Arc::new(AtomicUsize::new(0));
    for stream in listener.incoming().filter_map(Result::ok) {
        if open.load(Ordering::Relaxed) >= MOST_AT_ONCE {
            continue;
        }
        open.fetch_add(1, Ordering::Relaxed);
        let (guard, room, left) = (Arc::clone(&guard), Arc::clone(&room), Leaves(Arc::clone(&open)));
        std::thread::spawn(move || {
            let _left = left;
            // A browser that goes away in the middle is no fault.
            let _ = answered(stream, &guard, &room);
        });
    }
}

/// Counts a connection off, however its thread ends.
struct Leaves(Arc<AtomicUsize>);

impl Drop for Leaves {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::Relaxed);
    }
}

fn answered(mut stream: TcpStream, guard: &Guard, room: &StockRoom) -> std::io::Result<()> {
    stream.set_read_timeout(Some(SILENCE))?;
    stream.set_write_timeout(Some(SILENCE))?;
    stream.set_nodelay(true)?;
    let mut head = Vec::new();
    let mut part = [0_u8; 4096];
    loop {
        let count = stream.read(&mut part)?;
        if count == 0 {
            return Ok(());
        }
        head.extend_from_slice(&part[..count]);
        let mut headers = [httparse::EMPTY_HEADER; MOST_HEADERS];
        let mut request = httparse::Request::new(&mut headers);
        match request.parse(&head) {
            Ok(httparse::Status::Complete(_)) => {
                let (answer, only_head) = answer(&request, guard, room);
                return send(&mut stream, &answer, only_head);
            }
            Ok(httparse::Status::Partial) if head.len() < MOST_HEAD => {}
            _ => return send(&mut stream, &Answer::nothing("400 Bad Request"), false),
        }
    }
}

fn answer(request: &httparse::Request, guard: &Guard, room: &StockRoom) -> (Answer, bool) {
    let header = |name: &str| {
        let found = request.headers.iter().filter(move |h| h.name.eq_ignore_ascii_case(name));
        found.map(|h| std::str::from_utf8(h.value).unwrap_or("?").trim()).collect::<Vec<_>>()
    };
    let hosts = header("host");
    let knock = Knock {
        path: request.path.unwrap_or_default(),
        hosts: &hosts,
        origin: header("origin").first().copied(),
        site: header("sec-fetch-site").first().copied(),
    };
    let Some(path) = guard.admits(&knock) else { return (Answer::nothing("403 Forbidden"), false) };
    match request.method {
        Some("GET") => (bench::answer(room, path, &format!("/{}/", guard.token)), false),
        Some("HEAD") => (bench::answer(room, path, &format!("/{}/", guard.token)), true),
        _ => (Answer::nothing("405 Method Not Allowed"), false),
    }
}

/// Nothing from elsewhere is loaded, nothing of it is read or framed elsewhere, and no address leaves with a link.
const HEADERS: &str = "Connection: close\r\nCache-Control: no-store\r\nX-Content-Type-Options: nosniff\r\nReferrer-Policy: no-referrer\r\n\
Cross-Origin-Resource-Policy: same-origin\r\nCross-Origin-Opener-Policy: same-origin\r\nX-Frame-Options: SAMEORIGIN\r\n\
Content-Security-Policy: default-src 'none'; img-src 'self' data:; style-src 'self'; script-src 'self'; connect-src 'self'; object-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'self'\r\n";

fn send(stream: &mut TcpStream, answer: &Answer, only_head: bool) -> std::io::Result<()> {
    let Answer { status, kind, body } = answer;
    let head = format!("HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\n{HEADERS}\r\n", body.len());
    stream.write_all(head.as_bytes())?;
    if !only_head {
        stream.write_all(body)?;
    }
    stream.flush()
}

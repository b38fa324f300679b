//! The workbench in a browser: the catalogue with its drafts, and a bench view of each design, on this machine alone.
//!
//! In: a shop's folder. Out: pages over loopback, anew whenever a file of the shop changes. Steps: `watch` notices a save, `stock_room`
//! reads the shop and measures what changed, `server` takes requests that `guard` lets through, `bench` tells of one design.
//! Never here: another way to any figure, page or picture than the rooms that `publish` uses; a file written; a request to anywhere.
//! Rule: handbook, commands, `preview`.

mod bench;
mod guard;
mod server;
mod stock_room;
mod watch;

use std::net::{Ipv4Addr, TcpListener};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use guard::Guard;
use stock_room::StockRoom;

/// What keeps the workbench from opening.
#[derive(Debug, thiserror::Error)]
pub enum PreviewError {
    /// There is no shop.
    #[error("{0}")]
    Shop(#[from] crate::shop::ShopError),
    /// The port is taken, or none may be had.
    #[error("port {port} of this machine cannot be used: {source}")]
    Port {
        /// As asked for; 0 is any.
        port: u16,
        /// The system's words.
        source: std::io::Error,
    },
    /// The system gives no random number for the token.
    #[error("the system gives no random numbers: {0}")]
    NoToken(String),
}

/// A workbench that is open but serves nothing yet.
#[derive(Debug)]
pub struct Preview {
    listener: TcpListener,
    guard: Guard,
    root: PathBuf,
}

impl Preview {
    /// Opens a port of 127.0.0.1; any free one for 0.
    ///
    /// # Errors
    /// No shop there, no port, no random numbers.
    pub fn open(root: &Path, port: u16) -> Result<Preview, PreviewError> {
        crate::shop::read(root)?;
        let failed = |source| PreviewError::Port { port, source };
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(failed)?;
        let port = listener.local_addr().map_err(failed)?.port();
        let mut random = [0_u8; 20];
        getrandom::fill(&mut random).map_err(|e| PreviewError::NoToken(e.to_string()))?;
        let token = data_encoding::BASE32_NOPAD.encode(&random).to_ascii_lowercase();
        Ok(Preview { listener, guard: Guard { port, token }, root: root.to_owned() })
    }

    /// The address of the workbench's first page; whoever knows it may look.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/{}/", self.guard.port, self.guard.token)
    }

    /// Serves until the process ends. Nothing is left behind, however that happens.
    pub fn serve(self) {
        let room = Arc::new(StockRoom::new(&self.root));
        watch::start(&self.root, Arc::clone(&room));
        server::serve(&self.listener, Arc::new(self.guard), room);
    }
}

//! `schema`: JSON Schemas, so that editors complete and check records, and programs the catalogue.

use clap::{Args, ValueEnum};
use kerfleaf::{catalogue, shop};

use super::Outcome;

/// JSON Schema of record.toml, shop.toml or catalogue.json, for editors and programs
///
/// Printed on standard output. An editor that knows TOML takes it from a first line in the file, such as `#:schema ../../record.schema.json`.
#[derive(Args)]
pub struct Call {
    /// Of which file
    #[arg(value_enum)]
    of: File,
}

#[derive(Clone, Copy, ValueEnum)]
enum File {
    /// designs/<slug>/record.toml
    Record,
    /// shop.toml
    Shop,
    /// The published catalogue.json
    Catalogue,
}

pub fn run(call: &Call) -> Outcome {
    let made = match call.of {
        File::Record => serde_json::to_string_pretty(&shop::record_schema()),
        File::Shop => serde_json::to_string_pretty(&shop::shop_schema()),
        File::Catalogue => Ok(catalogue::SCHEMA.trim_end().to_owned()),
    };
    match made {
        Ok(text) => {
            super::say(&text);
            Outcome::Done
        }
        Err(e) => {
            eprintln!("kerfleaf: the schema does not go into JSON: {e}");
            Outcome::Lacking
        }
    }
}

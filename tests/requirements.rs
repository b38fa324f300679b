//! The ledger of requirements tells the truth about its tests: ids once, tests that exist, no case forgotten.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Fewer rows than this means that the table was not read whole.
const LEAST_ROWS: usize = 150;

struct Row {
    id: String,
    /// What stands between backticks in the third cell.
    tests: Vec<String>,
    /// The third cell as written.
    told: String,
    state: String,
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn rows() -> Vec<Row> {
    let table = fs::read_to_string(root().join("tests/requirements.md")).unwrap();
    let rows: Vec<Row> = table.lines().filter_map(row).collect();
    assert!(rows.len() >= LEAST_ROWS, "only {} rows found", rows.len());
    rows
}

/// A line whose first cell begins with a digit; the heads and legends begin with letters.
fn row(line: &str) -> Option<Row> {
    let cells: Vec<&str> = line.strip_prefix('|')?.strip_suffix('|')?.split('|').map(str::trim).collect();
    if !cells.first()?.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let [id, _, told, state] = cells[..] else { panic!("four cells are due: {line}") };
    let tests = told.split('`').skip(1).step_by(2).map(str::to_owned).collect();
    Some(Row { id: id.to_owned(), tests, told: told.to_owned(), state: state.to_owned() })
}

fn folders(within: &str) -> BTreeSet<String> {
    let entries = fs::read_dir(root().join(within)).unwrap().map(|entry| entry.unwrap());
    entries.filter(|e| e.path().is_dir()).map(|e| e.file_name().into_string().unwrap()).collect()
}

fn rust_files(folder: &Path, all: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            rust_files(&path, all);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            all.push(path);
        }
    }
}

/// Names of test functions, each as `room::name`: the room is the first folder or file below `src` or `tests`.
fn test_functions() -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for top in ["src", "tests"] {
        let mut files = Vec::new();
        rust_files(&root().join(top), &mut files);
        for file in files {
            let within = file.strip_prefix(root().join(top)).unwrap();
            let room = Path::new(within.components().next().unwrap().as_os_str()).with_extension("");
            let text = fs::read_to_string(&file).unwrap();
            for after in text.split("#[test]").skip(1) {
                let name = after.split_once("fn ").and_then(|(_, rest)| rest.split('(').next());
                all.insert(format!("{}::{}", room.display(), name.unwrap_or_default()));
            }
        }
    }
    all
}

fn exists(test: &str, functions: &BTreeSet<String>) -> bool {
    match test.split_once('/') {
        _ if test.contains("::") => functions.contains(test),
        Some(("figures", case)) => {
            let answers = fs::read_to_string(root().join("tests/figures/shop/expected.json")).unwrap();
            root().join("tests/figures/shop/designs").join(case).is_dir() && answers.contains(&format!("\"{case}\""))
        }
        Some(("findings", case)) => root().join("tests/findings/shop/designs").join(case).is_dir(),
        Some(("records", case)) => root().join("tests/records").join(case).is_dir(),
        _ => root().join(test).is_file(),
    }
}

#[test]
fn every_id_is_there_once() {
    let mut seen = BTreeMap::new();
    for row in rows() {
        *seen.entry(row.id).or_insert(0) += 1;
    }
    let twice: Vec<_> = seen.into_iter().filter(|(_, times)| *times > 1).collect();
    assert!(twice.is_empty(), "{twice:?}");
}

#[test]
fn what_is_held_names_tests_that_exist() {
    let functions = test_functions();
    let mut wrong = Vec::new();
    for Row { id, tests, told, state } in rows() {
        let (there, missing): (Vec<_>, Vec<_>) = tests.iter().partition(|test| exists(test, &functions));
        match state.as_str() {
            "held" | "partly" if tests.is_empty() => wrong.push(format!("{id} is {state} and names no test")),
            "held" | "partly" => {
                wrong.extend(missing.iter().map(|test| format!("{id} is {state}: there is no {test}")))
            }
            "open" => {
                wrong.extend(there.iter().map(|test| format!("{id} is open, but there is {test}: held or partly?")))
            }
            "by design" | "not ours" if told.is_empty() => wrong.push(format!("{id} is {state} and does not say how")),
            "by design" | "not ours" => {}
            other => wrong.push(format!("{id}: \"{other}\" is no state")),
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_case_folder_is_named() {
    let named: BTreeSet<String> = rows().into_iter().flat_map(|row| row.tests).collect();
    let cases = [
        ("figures", "tests/figures/shop/designs"),
        ("findings", "tests/findings/shop/designs"),
        ("records", "tests/records"),
    ];
    let forgotten: Vec<String> = cases
        .iter()
        .flat_map(|(kind, within)| folders(within).into_iter().map(move |case| format!("{kind}/{case}")))
        .filter(|case| !named.contains(case))
        .collect();
    assert!(forgotten.is_empty(), "{}", forgotten.join("\n"));
}

//! Names that not every file system can have.

/// Device names of Windows, which no file may have, with or without an ending.
/// Source: Microsoft, "Naming Files, Paths, and Namespaces".
const DEVICES: [&str; 22] = [
    "con", "prn", "aux", "nul", "com1", "com2", "com3", "com4", "com5", "com6", "com7", "com8", "com9", "lpt1", "lpt2",
    "lpt3", "lpt4", "lpt5", "lpt6", "lpt7", "lpt8", "lpt9",
];

/// Whether some systems keep the name of a file or folder for a device, whatever its ending.
pub fn is_device(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or(name).to_lowercase();
    DEVICES.contains(&stem.as_str())
}

//! What the system says of a file or folder without opening it, and when that may stand for its content.
//!
//! A stamp tells every change but one made within the clock tick of its own making, so it is trusted only where that tick had
//! passed when it was taken. The clock is that of the file system itself: the stamp of a file just written.

use std::fs::Metadata;

/// Device, inode, size and both times of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stamp {
    device: u64,
    inode: u64,
    /// Bytes.
    pub size: u64,
    /// Of the content: seconds and nanoseconds.
    modified: (i64, i64),
    /// Of content, name, owner or number of links; no ordinary program can set it.
    changed: (i64, i64),
}

/// Ticks of the kernel's file clock are at most 10 ms long (CONFIG_HZ=100); five of them.
const MARGIN_NS: i64 = 50_000_000;

impl Stamp {
    /// The stamp in a file's metadata; `None` on systems without inodes.
    #[cfg(unix)]
    pub fn of(about: &Metadata) -> Option<Stamp> {
        use std::os::unix::fs::MetadataExt;
        Some(Stamp {
            device: about.dev(),
            inode: about.ino(),
            size: about.size(),
            modified: (about.mtime(), about.mtime_nsec()),
            changed: (about.ctime(), about.ctime_nsec()),
        })
    }

    /// The stamp in a file's metadata; `None` on systems without inodes.
    #[cfg(not(unix))]
    pub fn of(_: &Metadata) -> Option<Stamp> {
        None
    }

    /// The stamp of what lies at `path` below an open folder, links followed or not; `None` where nothing can be told.
    #[cfg(unix)]
    pub fn at(folder: &std::fs::File, path: &str, follow: bool) -> Sight {
        use rustix::fs::{AtFlags, statat};
        let flags = if follow { AtFlags::empty() } else { AtFlags::SYMLINK_NOFOLLOW };
        match statat(folder, path, flags) {
            Ok(about) => Sight::There(Stamp {
                device: about.st_dev,
                inode: about.st_ino,
                size: about.st_size.cast_unsigned(),
                modified: (about.st_mtime, about.st_mtime_nsec.cast_signed()),
                changed: (about.st_ctime, about.st_ctime_nsec.cast_signed()),
            }),
            Err(rustix::io::Errno::NOENT | rustix::io::Errno::NOTDIR) => Sight::Absent,
            Err(_) => Sight::Unclear,
        }
    }

    /// The stamp of what lies at `path` below an open folder.
    #[cfg(not(unix))]
    pub fn at(_: &std::fs::File, _: &str, _: bool) -> Sight {
        Sight::Unclear
    }

    /// Whether a later change would be seen, for a stamp taken when the file system's clock stood at `now`.
    /// File systems that count whole seconds are never trusted.
    pub fn settled(&self, now: &Stamp) -> bool {
        let (seconds, ns) = now.changed;
        let limit =
            if ns < MARGIN_NS { (seconds - 1, ns + 1_000_000_000 - MARGIN_NS) } else { (seconds, ns - MARGIN_NS) };
        self.is_fine() && self.changed < limit && self.modified < limit
    }

    /// Whether the file system counts parts of a second, so that changes in quick order can be told.
    pub fn is_fine(&self) -> bool {
        self.changed.1 != 0
    }

    /// Whether the file's clock stands after that of `other`.
    pub fn after(&self, other: &Stamp) -> bool {
        self.changed > other.changed
    }

    /// The same file with the same content, though links to it may have come or gone since.
    pub fn same_content(&self, other: &Stamp) -> bool {
        (self.device, self.inode, self.size, self.modified) == (other.device, other.inode, other.size, other.modified)
    }

    /// The stamp as seven numbers, to be kept.
    pub fn numbers(&self) -> [i64; 7] {
        let Stamp { device, inode, size, modified, changed } = *self;
        [device.cast_signed(), inode.cast_signed(), size.cast_signed(), modified.0, modified.1, changed.0, changed.1]
    }

    /// The stamp of seven kept numbers.
    pub fn of_numbers(numbers: [i64; 7]) -> Stamp {
        let [device, inode, size, modified, modified_ns, changed, changed_ns] = numbers;
        Stamp {
            device: device.cast_unsigned(),
            inode: inode.cast_unsigned(),
            size: size.cast_unsigned(),
            modified: (modified, modified_ns),
            changed: (changed, changed_ns),
        }
    }
}

/// What was found at a path of the shop folder while it was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sight {
    /// Nothing.
    Absent,
    /// A file or folder, through links.
    There(Stamp),
    /// Something that could not be looked at, or whose name is no Unicode.
    Unclear,
}

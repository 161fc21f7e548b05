//! Files: plans read, and files written whole or not at all; window and command line share both.

use std::fmt;
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use plan::Plan;
use plan::count::{BuildUp, BuildUpError, read_build_up};
use plan::file::{self, FileError};
use plan::limits::FILE_BYTES;
use plan::price::{PriceFileError, PriceList, read_price_list};

/// Reads a plan from a file.
///
/// # Errors
/// [`FilesError`] if there is no such file, it is a folder, may not be read, is larger than a plan
/// ever is (told before it is read), or does not hold a plan.
pub fn read_plan(path: &Path) -> Result<Plan, FilesError> {
    let trouble = |what| FilesError::new(path, what);
    let bytes = read(path).map_err(trouble)?;
    file::read(&bytes).map_err(|error| trouble(Trouble::Plan(error)))
}

/// Reads a build-up from a file of its own.
///
/// # Errors
/// As [`read_plan`], for what does not hold a build-up.
pub fn build_up(path: &Path) -> Result<BuildUp, FilesError> {
    let bytes = read(path).map_err(|what| match what {
        Trouble::Plan(FileError::TooLarge { bytes }) => {
            Trouble::BuildUp(BuildUpError::TooLarge { bytes })
        }
        what => what,
    });
    // What is no text shows as such at its place.
    bytes
        .and_then(|bytes| read_build_up(&String::from_utf8_lossy(&bytes)).map_err(Trouble::BuildUp))
        .map_err(|what| FilesError::new(path, what))
}

/// Reads the price list that is kept between jobs.
///
/// # Errors
/// As [`read_plan`], for what does not hold a price list.
pub fn price_list(path: &Path) -> Result<PriceList, FilesError> {
    let bytes = read(path).map_err(|what| match what {
        Trouble::Plan(error) => Trouble::Prices(PriceFileError(error)),
        what => what,
    });
    bytes
        .and_then(|bytes| read_price_list(&bytes).map_err(Trouble::Prices))
        .map_err(|what| FilesError::new(path, what))
}

fn read(path: &Path) -> Result<Vec<u8>, Trouble> {
    let about = fs::metadata(path).map_err(Trouble::reading)?;
    if about.is_dir() {
        return Err(Trouble::Folder);
    }
    if about.len() > MOST_READ {
        let bytes = usize::try_from(about.len()).unwrap_or(usize::MAX);
        return Err(Trouble::Plan(FileError::TooLarge { bytes }));
    }
    let mut bytes = Vec::new();
    // A pipe has no size to look at, and a file may grow: never read more than shows it is too large.
    File::open(path)
        .and_then(|file| file.take(MOST_READ + 1).read_to_end(&mut bytes))
        .map_err(Trouble::reading)?;
    Ok(bytes)
}

/// [`FILE_BYTES`] as files count.
const MOST_READ: u64 = FILE_BYTES as u64;

/// Writes a file whole or not at all: to a new file beside it, flushed to the disk, which then takes
/// its place. If anything goes wrong, what was there before is untouched.
///
/// A link is followed, so that what it points to changes and the link stays; permissions stay.
///
/// # Errors
/// [`FilesError`] if the folder is not there or may not be written in, the file is a folder or
/// protected, or the disk is full.
pub fn write_atomically(path: &Path, bytes: &[u8]) -> Result<(), FilesError> {
    let trouble = |what| FilesError::new(path, what);
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let before = fs::metadata(&target).ok();
    if before.as_ref().is_some_and(fs::Metadata::is_dir) || target.file_name().is_none() {
        return Err(trouble(Trouble::Folder));
    }
    if let Some(before) = &before
        && before.permissions().readonly()
    {
        return Err(trouble(Trouble::Protected));
    }
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if !folder.is_dir() {
        return Err(trouble(Trouble::NoFolder(folder.to_owned())));
    }
    let mut builder = tempfile::Builder::new();
    builder.prefix(".pegbow-").suffix(".part");
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666)); // less the umask
    let written = builder.tempfile_in(folder).and_then(|mut part| {
        part.write_all(bytes)?;
        part.flush()?;
        if let Some(before) = &before {
            part.as_file().set_permissions(before.permissions())?;
        }
        part.as_file().sync_all()?;
        part.persist(&target).map_err(|error| error.error)
    });
    written.map_err(|error| trouble(Trouble::writing(error)))?;
    // The new name is on the disk once the folder is. Where a folder cannot be synced the file is
    // still whole under one name or the other, so this is no error.
    #[cfg(unix)]
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
    Ok(())
}

/// Whether two paths lead to one file that is there.
#[must_use]
pub fn is_same_file(one: &Path, other: &Path) -> bool {
    match (fs::canonicalize(one), fs::canonicalize(other)) {
        (Ok(one), Ok(other)) => one == other,
        _ => false,
    }
}

/// Why a file cannot be read or written: a sentence with the path and the remedy.
#[derive(Debug)]
pub struct FilesError {
    /// Which file.
    pub path: PathBuf,
    /// What is wrong.
    pub what: Trouble,
}

/// What is wrong with a file.
#[derive(Debug)]
pub enum Trouble {
    /// There is none.
    NotFound,
    /// It is a folder.
    Folder,
    /// It may not be read.
    MayNotRead,
    /// It cannot be read for another reason.
    Reading(io::Error),
    /// It does not hold a plan.
    Plan(FileError),
    /// It does not hold a build-up.
    BuildUp(BuildUpError),
    /// It does not hold a price list.
    Prices(PriceFileError),
    /// The folder it should lie in is not there.
    NoFolder(PathBuf),
    /// It is protected against writing.
    Protected,
    /// Its folder may not be written in.
    MayNotWrite,
    /// The disk is full.
    DiskFull,
    /// It cannot be written for another reason.
    Writing(io::Error),
}

impl FilesError {
    fn new(path: &Path, what: Trouble) -> Self {
        Self {
            path: path.to_owned(),
            what,
        }
    }
}

impl Trouble {
    fn reading(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => Self::NotFound,
            io::ErrorKind::PermissionDenied => Self::MayNotRead,
            io::ErrorKind::IsADirectory => Self::Folder,
            _ => Self::Reading(error),
        }
    }

    fn writing(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => {
                Self::MayNotWrite
            }
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Self::DiskFull,
            _ => Self::Writing(error),
        }
    }
}

impl fmt::Display for FilesError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: ", shown(&self.path))?;
        match &self.what {
            Trouble::NotFound => f.write_str("there is no such file: look at the name and the folder"),
            Trouble::Folder => f.write_str("this is a folder: give the name of a file in it"),
            Trouble::MayNotRead => {
                f.write_str("this file may not be read: ask its owner, or change its permissions")
            }
            Trouble::Reading(error) => write!(f, "this file cannot be read: {error}"),
            Trouble::Plan(error) => error.fmt(f),
            Trouble::BuildUp(error) => error.fmt(f),
            Trouble::Prices(error) => error.fmt(f),
            Trouble::NoFolder(folder) => write!(
                f,
                "there is no folder {}: make it first, or write somewhere else",
                shown(folder)
            ),
            Trouble::Protected => f.write_str(
                "this file is protected against writing, nothing was changed: write to another name, or change its permissions",
            ),
            Trouble::MayNotWrite => f.write_str(
                "nothing may be written in this folder, nothing was changed: write somewhere else",
            ),
            Trouble::DiskFull => {
                f.write_str("the disk is full, nothing was changed: make room, or write somewhere else")
            }
            Trouble::Writing(error) => {
                write!(f, "this file cannot be written, nothing was changed: {error}")
            }
        }
    }
}

impl std::error::Error for FilesError {}

/// A path on one line.
#[must_use]
pub fn shown(path: &Path) -> String {
    let text = path.display().to_string();
    text.replace(char::is_control, "\u{fffd}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_refusal_of_the_system_has_its_sentence() {
        let check = |what: Trouble, expected: &str| {
            let said = FilesError::new(Path::new("a\nb.ron"), what).to_string();
            assert!(said.starts_with("a\u{fffd}b.ron: "), "{said}");
            assert!(said.contains(expected), "{said}");
        };
        let io = |kind: io::ErrorKind| io::Error::from(kind);
        check(
            Trouble::reading(io(io::ErrorKind::NotFound)),
            "no such file",
        );
        check(
            Trouble::reading(io(io::ErrorKind::PermissionDenied)),
            "may not be read",
        );
        check(
            Trouble::reading(io(io::ErrorKind::TimedOut)),
            "cannot be read",
        );
        check(
            Trouble::writing(io(io::ErrorKind::PermissionDenied)),
            "nothing was changed",
        );
        check(
            Trouble::writing(io(io::ErrorKind::StorageFull)),
            "disk is full",
        );
        check(
            Trouble::writing(io(io::ErrorKind::TimedOut)),
            "cannot be written",
        );
    }

    #[test]
    fn a_file_is_replaced_whole_and_nothing_is_left_beside_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("plan.ron");
        write_atomically(&path, b"first").unwrap();
        write_atomically(&path, b"second").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"second");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn a_protected_file_stays_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("plan.ron");
        fs::write(&path, "kept").unwrap();
        let mut permissions = fs::metadata(&path).unwrap().permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&path, permissions).unwrap();
        let error = write_atomically(&path, b"lost").unwrap_err();
        assert!(matches!(error.what, Trouble::Protected), "{error}");
        assert_eq!(fs::read(&path).unwrap(), b"kept");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    #[cfg(unix)]
    fn a_link_stays_a_link_and_permissions_stay() {
        use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};
        let folder = tempfile::tempdir().unwrap();
        let (real, link) = (
            folder.path().join("real.ron"),
            folder.path().join("link.ron"),
        );
        fs::write(&real, "before").unwrap();
        fs::set_permissions(&real, PermissionsExt::from_mode(0o640)).unwrap();
        symlink(&real, &link).unwrap();
        write_atomically(&link, b"after").unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read(&real).unwrap(), b"after");
        assert_eq!(fs::metadata(&real).unwrap().mode() & 0o777, 0o640);
    }
}

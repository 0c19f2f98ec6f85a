//! Why the system refuses something with a file, as a kind of its own for each reason.

use std::fmt;
use std::io::{self, ErrorKind};

use baywright_planner::model::fault::Why;

/// Numbers of Unix systems that have no kind of their own: the disk fails, too many files are open (in this program, in
/// all), links lead in a circle (Linux, then the others).
const DISK_FAILS: i32 = 5;
const TOO_MANY_OPEN: [i32; 2] = [24, 23];
const LINKS_IN_CIRCLE: [i32; 2] = [40, 62];

/// Why the system refused.
pub fn why(error: &io::Error) -> Why {
    if let Some(own) = error.get_ref().and_then(|own| own.downcast_ref::<Own>()) {
        return own.0;
    }
    let number = error.raw_os_error();
    let is = |known: &[i32]| cfg!(unix) && number.is_some_and(|number| known.contains(&number));
    match error.kind() {
        ErrorKind::NotFound => Why::NotThere,
        ErrorKind::PermissionDenied => Why::Permission,
        ErrorKind::IsADirectory => Why::IsFolder,
        ErrorKind::NotADirectory => Why::NoFolder,
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Why::DiskFull,
        ErrorKind::FileTooLarge => Why::FileTooLarge,
        ErrorKind::InvalidFilename => Why::NameTooLong,
        // Only the library's own words tell it from others.
        ErrorKind::InvalidInput if error.to_string().contains("NUL") => Why::NulInName,
        ErrorKind::InvalidInput => Why::Invalid,
        ErrorKind::ReadOnlyFilesystem => Why::ReadOnly,
        ErrorKind::AlreadyExists => Why::Exists,
        ErrorKind::ResourceBusy => Why::Busy,
        ErrorKind::ExecutableFileBusy => Why::Running,
        ErrorKind::CrossesDevices => Why::OtherDisk,
        ErrorKind::StaleNetworkFileHandle => Why::Stale,
        ErrorKind::TimedOut => Why::TimedOut,
        ErrorKind::OutOfMemory => Why::Memory,
        ErrorKind::Unsupported => Why::Unsupported,
        ErrorKind::Interrupted => Why::Interrupted,
        ErrorKind::WriteZero => Why::WroteNothing,
        ErrorKind::UnexpectedEof => Why::EndedEarly,
        _ if is(&[DISK_FAILS]) => Why::DiskFails,
        _ if is(&TOO_MANY_OPEN) => Why::TooManyOpen,
        _ if is(&LINKS_IN_CIRCLE) => Why::LinksInCircle,
        _ => Why::Other(number),
    }
}

/// A refusal of the program's own, on its way through what the system refuses.
#[derive(Debug)]
struct Own(Why);

impl fmt::Display for Own {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", self.0)
    }
}

impl std::error::Error for Own {}

/// A refusal of the program's own.
pub fn own(kind: ErrorKind, why: Why) -> io::Error {
    io::Error::new(kind, Own(why))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_reason_has_a_kind() {
        assert_eq!(why(&own(ErrorKind::TimedOut, Why::GateShut)), Why::GateShut);
        assert_eq!(why(&ErrorKind::TimedOut.into()), Why::TimedOut);
        assert_eq!(why(&std::fs::read("a\0b").unwrap_err()), Why::NulInName);
        assert_eq!(why(&io::Error::from_raw_os_error(9_999)), Why::Other(Some(9_999)));
        if cfg!(unix) {
            assert_eq!(why(&io::Error::from_raw_os_error(5)), Why::DiskFails);
            assert_eq!(why(&io::Error::from_raw_os_error(24)), Why::TooManyOpen);
        }
    }
}

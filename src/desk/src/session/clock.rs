//! The one place where the clock on the wall is asked.

use jiff::civil::DateTime;

/// The day and the time in the shop, to a second; in universal time where the system's zone is not plainly said.
pub(crate) fn now() -> DateTime {
    let zone = if baywright_files::zone_is_plain(std::env::var_os("TZ").as_deref()) {
        jiff::tz::TimeZone::system()
    } else {
        jiff::tz::TimeZone::UTC
    };
    let now = jiff::Timestamp::now().to_zoned_datetime(zone).datetime();
    now.with().subsec_nanosecond(0).build().unwrap_or(now)
}

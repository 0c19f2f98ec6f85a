//! Whether the system looks dark, where the window's own library does not tell: asked in a thread of its own, once and then
//! each time somebody comes back to the window.

use crate::session::job::{Job, News, Wake};

/// What the system said last.
#[derive(Debug, Default)]
pub struct SystemLook {
    asking: Job<Option<bool>>,
    was_asked: bool,
    is_dark: Option<bool>,
}

impl SystemLook {
    /// Whether the system looks dark; `None` if it does not say, or has not answered yet. `again` asks anew.
    pub fn is_dark(&mut self, again: bool, wake: &Wake) -> Option<bool> {
        if again || !self.was_asked {
            self.was_asked = true;
            self.asking.start("system look", 1, wake, |_| asked());
        }
        for news in self.asking.news() {
            if let News::Done(told) | News::SoFar(told) = news {
                self.is_dark = told;
            }
        }
        self.is_dark
    }
}

/// The desktop's own setting, by the portal that desktops on Linux share (XDG Desktop Portal, `org.freedesktop.appearance`:
/// 1 prefers dark, 2 light, 0 neither).
#[cfg(target_os = "linux")]
fn asked() -> Option<bool> {
    // No portal is waited for longer: a frame does not wait, but a thread would stay.
    const LONGEST: std::time::Duration = std::time::Duration::from_secs(3);
    let bus = zbus::blocking::connection::Builder::session().ok()?.method_timeout(LONGEST).build().ok()?;
    let ask = |method: &str| {
        let portal = "org.freedesktop.portal.Desktop";
        let settings = Some("org.freedesktop.portal.Settings");
        let of = ("org.freedesktop.appearance", "color-scheme");
        bus.call_method(Some(portal), "/org/freedesktop/portal/desktop", settings, method, &of).ok()
    };
    // An older portal knows only the older question.
    let answer = ask("ReadOne").or_else(|| ask("Read"))?;
    let told: zbus::zvariant::OwnedValue = answer.body().deserialize().ok()?;
    prefers_dark(&told)
}

#[cfg(not(target_os = "linux"))]
const fn asked() -> Option<bool> {
    None
}

#[cfg(target_os = "linux")]
fn prefers_dark(told: &zbus::zvariant::Value<'_>) -> Option<bool> {
    use zbus::zvariant::Value;
    match told {
        Value::U32(1) => Some(true),
        Value::U32(2) => Some(false),
        // The older question is answered with a value in a value.
        Value::Value(within) => prefers_dark(within),
        _ => None,
    }
}

#[cfg(all(test, target_os = "linux"))]
mod tests {
    use zbus::zvariant::Value;

    use super::*;

    #[test]
    fn what_the_portal_says_is_understood() {
        assert_eq!(prefers_dark(&Value::U32(1)), Some(true));
        assert_eq!(prefers_dark(&Value::Value(Box::new(Value::U32(2)))), Some(false));
        for neither in [Value::U32(0), Value::U32(7), Value::from("dark")] {
            assert_eq!(prefers_dark(&neither), None);
        }
    }
}

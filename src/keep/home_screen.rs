//! The app on the home screen: how a cook puts it there, and when that is worth a word.

/// A word is due from the first fish of the cook's own on, and no more after so many: who has not done it then, won't.
const FISH: std::ops::RangeInclusive<usize> = 1..=3;

/// No more than the latest so many fish are read for it.
pub const LOOKED_AT: usize = 8;

/// Whether a word is due with so many fish of the cook's own.
#[must_use]
pub fn is_due(fish: usize) -> bool {
    FISH.contains(&fish)
}

/// How it is done with the browser that calls itself `agent`. A browser that is not known by its name is told of by what
/// most have.
#[must_use]
pub fn how(agent: &str) -> &'static str {
    let is = |name: &str| agent.contains(name);
    let phone_of_apple = is("iPhone") || is("iPad") || is("iPod");
    // A tablet that asks for the pages of a computer says that it is one.
    if phone_of_apple || is("Macintosh") && is("Mobile/") {
        "Tap the share button of the browser (a square with an arrow), then “Add to Home Screen”."
    } else if is("Android") && is("Firefox/") {
        "Open the browser’s menu (three dots), then “Add app to Home screen”."
    } else if is("Android") {
        "Open the browser’s menu (three dots), then “Add to Home screen” or “Install app”."
    } else if is("Macintosh") && is("Safari/") && !is("Chrome/") {
        "In the menu “File”, choose “Add to Dock”."
    } else if is("Firefox/") {
        "This browser puts no page on the home screen: set a bookmark, or open this address in another browser."
    } else {
        "Choose the sign for installing at the end of the address bar, or “Install” in the browser’s menu."
    }
}

#[cfg(test)]
mod tests {
    use super::{how, is_due};

    /// The shapes of the names are those in MDN's "User-Agent header" and "Browser detection using the user agent";
    /// the wording of each browser's menu is from memory.
    #[test]
    fn each_browser_is_told_its_own_way() {
        for (agent, words) in [
            (
                "Mozilla/5.0 (iPhone; CPU iPhone OS 17_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.5 Mobile/15E148 Safari/604.1",
                "share button",
            ),
            (
                "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.5 Mobile/15E148 Safari/604.1",
                "share button",
            ),
            (
                "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0.0.0 Mobile Safari/537.36",
                "Install app",
            ),
            (
                "Mozilla/5.0 (Android 14; Mobile; rv:127.0) Gecko/127.0 Firefox/127.0",
                "Add app to Home screen",
            ),
            (
                "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.5 Safari/605.1.15",
                "Add to Dock",
            ),
            (
                "Mozilla/5.0 (X11; Linux x86_64; rv:127.0) Gecko/20100101 Firefox/127.0",
                "bookmark",
            ),
            (
                "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0.0.0 Safari/537.36",
                "address bar",
            ),
            ("", "address bar"),
        ] {
            assert!(how(agent).contains(words), "{agent}: {}", how(agent));
        }
    }

    #[test]
    fn a_word_is_due_with_the_first_fish_and_goes_by_itself() {
        let due: Vec<usize> = (0..6).filter(|fish| is_due(*fish)).collect();
        assert_eq!(due, [1, 2, 3]);
    }
}

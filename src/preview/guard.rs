//! Who may see the workbench: a page of its own, opened by somebody who knows the token.
//!
//! Another page of the same browser knows no token; a name that is made to lead here (DNS rebinding) stands in `Host` and is refused;
//! what a browser asks for on behalf of another site says so in `Sec-Fetch-Site` (W3C, Fetch Metadata Request Headers) or `Origin`.

/// The port and the token of one run.
#[derive(Debug)]
pub(super) struct Guard {
    pub(super) port: u16,
    pub(super) token: String,
}

/// The parts of a request that decide.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Knock<'a> {
    pub(super) path: &'a str,
    pub(super) hosts: &'a [&'a str],
    pub(super) origin: Option<&'a str>,
    pub(super) site: Option<&'a str>,
}

impl Guard {
    /// The path behind the token, without its slash; `None` for a request that gets nothing.
    pub(super) fn admits<'a>(&self, knock: &Knock<'a>) -> Option<&'a str> {
        let own = [format!("127.0.0.1:{}", self.port), format!("localhost:{}", self.port)];
        let [host] = knock.hosts else { return None };
        if !own.iter().any(|name| name == host) {
            return None;
        }
        if knock.origin.is_some_and(|origin| origin.strip_prefix("http://") != Some(host)) {
            return None;
        }
        if knock.site.is_some_and(|site| !matches!(site, "same-origin" | "none")) {
            return None;
        }
        let rest = knock.path.strip_prefix('/')?;
        let (token, rest) = rest.split_once('/')?;
        same(token, &self.token).then_some(rest)
    }
}

/// Compared to the last byte whatever they are, so that time tells nothing.
fn same(one: &str, other: &str) -> bool {
    one.len() == other.len() && one.bytes().zip(other.bytes()).fold(0, |all, (a, b)| all | (a ^ b)) == 0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_its_own_pages_get_in() {
        let guard = Guard { port: 4711, token: "sesame".into() };
        let own =
            Knock { path: "/sesame/bench/eel?kerf=0.2", hosts: &["127.0.0.1:4711"], origin: None, site: Some("none") };
        assert_eq!(guard.admits(&own), Some("bench/eel?kerf=0.2"));
        assert_eq!(
            guard.admits(&Knock { hosts: &["localhost:4711"], site: Some("same-origin"), ..own }),
            Some("bench/eel?kerf=0.2")
        );
        assert_eq!(
            guard.admits(&Knock { origin: Some("http://127.0.0.1:4711"), site: None, ..own }),
            Some("bench/eel?kerf=0.2")
        );
        for (what, knock) in [
            ("no token", Knock { path: "/", ..own }),
            ("another token", Knock { path: "/sesamf/", ..own }),
            ("half a token", Knock { path: "/sesam/", ..own }),
            ("nothing behind it", Knock { path: "/sesame", ..own }),
            ("a name that leads here", Knock { hosts: &["evil.example:4711"], ..own }),
            ("a name that begins alike", Knock { hosts: &["127.0.0.1:4711.evil.example"], ..own }),
            ("another port", Knock { hosts: &["127.0.0.1:80"], ..own }),
            ("no host", Knock { hosts: &[], ..own }),
            ("two hosts", Knock { hosts: &["127.0.0.1:4711", "evil.example"], ..own }),
            ("another origin", Knock { origin: Some("http://evil.example"), ..own }),
            ("no origin that can be named", Knock { origin: Some("null"), ..own }),
            ("another site", Knock { site: Some("cross-site"), ..own }),
            ("a neighbour", Knock { site: Some("same-site"), ..own }),
        ] {
            assert_eq!(guard.admits(&knock), None, "{what}");
        }
    }
}

//! Who may ask: this machine, or a paired tablet; never a page of another site.
//!
//! - The `Host` must be an address this studio listens on, so that a name that was pointed at this machine gets nothing.
//! - A request that changes something must carry our own header and come from our own pages: browsers of other sites
//!   cannot add the header without asking first, and are refused when they ask.
//! - A request from another machine must carry the cookie of a pairing; only the pairing itself may come without.
//! - Every answer says that nothing from elsewhere may be loaded and nothing may frame it.

use std::net::{IpAddr, SocketAddr};
use std::sync::Arc;

use axum::extract::{ConnectInfo, Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use store::Store as _;

use super::problem::Problems;
use crate::app::App;

/// The header of our own pages.
pub(super) const OWN_HEADER: &str = "x-slackwater";
/// The cookie of a paired device.
pub(super) const COOKIE: &str = "slackwater";

pub(super) async fn guard(State(app): State<Arc<App>>, mut request: Request, next: Next) -> Response {
    // Taken apart first: a request's body must not be held while the store is asked.
    let asked = Asked {
        method: request.method().clone(),
        path: request.uri().path().to_owned(),
        headers: request.headers().clone(),
        is_this_machine: is_this_machine(&request),
    };
    let refused = check(&app, &asked).await.err();
    let is_api = request.uri().path().starts_with("/api/");
    if asked.is_this_machine {
        // Packing costs more than it saves where nothing goes over a wire.
        request.headers_mut().remove(header::ACCEPT_ENCODING);
    }
    let mut response = match refused {
        Some(problems) => problems.into_response(),
        None => next.run(request).await,
    };
    harden(response.headers_mut(), is_api, asked.is_this_machine);
    response
}

struct Asked {
    method: Method,
    path: String,
    headers: HeaderMap,
    is_this_machine: bool,
}

async fn check(app: &App, asked: &Asked) -> Result<(), Problems> {
    let headers = &asked.headers;
    if !host_is_ours(app, headers) {
        return Err(Problems::one(
            StatusCode::MISDIRECTED_REQUEST,
            "not_allowed_here",
            "this studio is not known under that name",
            "Open the address it printed when it started.",
        ));
    }
    let changes = !matches!(asked.method, Method::GET | Method::HEAD);
    if changes && !is_our_page(headers) {
        return Err(Problems::one(
            StatusCode::FORBIDDEN,
            "not_allowed_here",
            "changes are taken from the studio's own pages only",
            "Send the header x-slackwater: 1 from the same origin.",
        ));
    }
    if asked.is_this_machine {
        return Ok(());
    }
    let path = asked.path.as_str();
    let is_way_in = (path == "/api/v1/pairing" && asked.method == Method::POST)
        || (!path.starts_with("/api/") && asked.method == Method::GET);
    if is_way_in || has_session(app, headers).await? {
        return Ok(());
    }
    Err(Problems::one(
        StatusCode::UNAUTHORIZED,
        "not_allowed_here",
        "this device is not paired",
        "Type the code that the studio's own machine shows.",
    ))
}

/// Whether the request came from this machine itself. Without a peer (tests without a socket) it did.
pub(super) fn is_this_machine(request: &Request) -> bool {
    request
        .extensions()
        .get::<ConnectInfo<SocketAddr>>()
        .is_none_or(|ConnectInfo(peer)| peer.ip().to_canonical().is_loopback())
}

fn host_is_ours(app: &App, headers: &HeaderMap) -> bool {
    let Some(host) = headers.get(header::HOST).and_then(|h| h.to_str().ok()) else {
        return false;
    };
    let port = app.options.address.port();
    let (name, given) = match host.rsplit_once(':') {
        // `[::1]` has colons of its own.
        Some((name, digits)) if !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit()) => {
            (name, digits.parse().ok())
        }
        _ => (host, Some(80)),
    };
    if given != Some(port) {
        return false;
    }
    let name = name.trim_start_matches('[').trim_end_matches(']');
    if name.eq_ignore_ascii_case("localhost") {
        return true;
    }
    // An address typed as digits cannot have been pointed here by another's name server.
    name.parse::<IpAddr>()
        .is_ok_and(|ip| ip.is_loopback() || app.options.lan)
}

/// The browser's own word for where a request comes from, and our header, which other sites cannot send.
fn is_our_page(headers: &HeaderMap) -> bool {
    let text = |name: HeaderName| headers.get(name).and_then(|h| h.to_str().ok());
    if text(HeaderName::from_static(OWN_HEADER)) != Some("1") {
        return false;
    }
    if let Some(site) = text(HeaderName::from_static("sec-fetch-site"))
        && site != "same-origin"
    {
        return false;
    }
    match (text(header::ORIGIN), text(header::HOST)) {
        (Some(origin), Some(host)) => origin.split_once("://").is_some_and(|(scheme, from)| {
            matches!(scheme, "http" | "https") && from.eq_ignore_ascii_case(host)
        }),
        _ => true,
    }
}

/// The token of the session cookie.
pub(super) fn token(headers: &HeaderMap) -> Option<&str> {
    headers
        .get_all(header::COOKIE)
        .iter()
        .filter_map(|h| h.to_str().ok())
        .flat_map(|h| h.split(';'))
        .filter_map(|pair| pair.trim().split_once('='))
        .find(|(name, _)| *name == COOKIE)
        .map(|(_, value)| value)
}

async fn has_session(app: &App, headers: &HeaderMap) -> Result<bool, Problems> {
    match token(headers) {
        Some(token) => Ok(app
            .store
            .check_session(&crate::app::token_hash(token))
            .await?
            .is_some()),
        None => Ok(false),
    }
}

fn harden(headers: &mut HeaderMap, is_api: bool, is_this_machine: bool) {
    let mut set = |name: HeaderName, value: &'static str| {
        headers.entry(name).or_insert(HeaderValue::from_static(value));
    };
    set(header::X_CONTENT_TYPE_OPTIONS, "nosniff");
    set(header::X_FRAME_OPTIONS, "DENY");
    set(header::REFERRER_POLICY, "no-referrer");
    if is_this_machine {
        // Over the house's unencrypted line a browser takes no notice of it, and complains.
        set(
            HeaderName::from_static("cross-origin-opener-policy"),
            "same-origin",
        );
    }
    set(
        HeaderName::from_static("cross-origin-resource-policy"),
        "same-origin",
    );
    set(
        HeaderName::from_static("permissions-policy"),
        "camera=(self), microphone=(), geolocation=(), screen-wake-lock=(self)",
    );
    if is_api {
        // Bodies' dimensions do not stay in a tablet's cache.
        set(header::CACHE_CONTROL, "no-store");
    }
    if !headers.contains_key(header::CONTENT_SECURITY_POLICY)
        && let Ok(policy) = HeaderValue::from_str(&pages::content_security_policy())
    {
        headers.insert(header::CONTENT_SECURITY_POLICY, policy);
    }
}

//! Letting a tablet in, with a code that this machine shows.

use std::net::SocketAddr;
use std::sync::Arc;

use axum::Json;
use axum::extract::{ConnectInfo, Path, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use store::Store as _;
use ts_rs::TS;
use utoipa::ToSchema;

use super::guard::COOKIE;
use super::problem::{Answer, Body, Problems};
use crate::app::{App, PairingRefusal, new_token, token_hash};

/// What to show to let a tablet in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct PairingView {
    /// The code; empty without `--lan`.
    pub code: String,
    /// Seconds it still works.
    pub expires_in_s: u64,
    /// The address to open.
    pub address: String,
    /// The address with the code as a QR code: an SVG path of unit squares.
    pub qr: String,
    /// Squares on a side, the quiet zone included.
    pub size: u32,
    /// Devices that are let in.
    pub devices: Vec<DeviceView>,
}

/// A device that is let in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct DeviceView {
    /// What shuts it out.
    pub id: String,
    /// Its name.
    pub name: String,
    /// When it was last seen, ISO 8601.
    pub last_seen: String,
}

/// A device that asks to be let in.
#[derive(Clone, Debug, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct PairRequest {
    /// The code.
    pub code: String,
    /// What to call the device.
    #[serde(default)]
    pub name: String,
}

/// The code to show, for this machine itself only.
#[utoipa::path(get, path = "/api/v1/pairing", tag = "workroom",
    responses((status = 200, body = PairingView), (status = 403, body = Problems)))]
pub(super) async fn show(
    State(app): State<Arc<App>>,
    peer: Option<axum::Extension<ConnectInfo<SocketAddr>>>,
) -> Answer<Json<PairingView>> {
    if peer.is_some_and(|axum::Extension(ConnectInfo(p))| !p.ip().to_canonical().is_loopback()) {
        return Err(Problems::one(
            StatusCode::FORBIDDEN,
            "not_allowed_here",
            "the code is shown on the studio's own machine only",
            "Look there.",
        ));
    }
    let sessions = app.store.sessions().await?;
    let devices = sessions
        .into_iter()
        .map(|s| DeviceView {
            id: s.token_hash,
            name: s.name,
            last_seen: s.last_seen.to_string(),
        })
        .collect();
    let Some(url) = app.options.lan_url.clone() else {
        return Ok(Json(PairingView {
            code: String::new(),
            expires_in_s: 0,
            address: String::new(),
            qr: String::new(),
            size: 0,
            devices,
        }));
    };
    let (code, left) = app.pairing.show().map_err(|says| Problems::refused(says, ""))?;
    let (qr, size) = qr_path(&format!("{url}/pair#{code}")).map_err(|says| Problems::refused(says, ""))?;
    Ok(Json(PairingView {
        code,
        expires_in_s: left.as_secs(),
        address: url,
        qr,
        size,
        devices,
    }))
}

/// Lets a device in. The right code is used up; five wrong tries void it.
#[utoipa::path(post, path = "/api/v1/pairing", tag = "workroom", request_body = PairRequest,
    responses((status = 204), (status = 403, body = Problems), (status = 429, body = Problems)))]
pub(super) async fn pair(State(app): State<Arc<App>>, Body(request): Body<PairRequest>) -> Answer<Response> {
    const SHOW_ANOTHER: &str = "Show a new code on the studio's own machine.";
    match app.pairing.take(&request.code) {
        Ok(()) => {}
        Err(refusal) => {
            let (status, what, next) = match refusal {
                PairingRefusal::NoCode => (StatusCode::FORBIDDEN, "no code is shown any more", SHOW_ANOTHER),
                PairingRefusal::Wrong => (
                    StatusCode::FORBIDDEN,
                    "that is another code",
                    "Type it once more.",
                ),
                PairingRefusal::TooMany => (
                    StatusCode::TOO_MANY_REQUESTS,
                    "too many wrong codes",
                    SHOW_ANOTHER,
                ),
            };
            return Err(Problems::one(status, "not_allowed_here", what, next));
        }
    }
    let token = new_token().map_err(|says| Problems::refused(says, ""))?;
    let name: String = request.name.trim().chars().take(60).collect();
    let name = if name.is_empty() {
        "A tablet".to_owned()
    } else {
        name
    };
    app.store.add_session(&token_hash(&token), &name).await?;
    // A year: a tablet of the workroom is not paired every week. It can be shut out at any time.
    let cookie = format!("{COOKIE}={token}; Path=/; Max-Age=31536000; HttpOnly; SameSite=Strict");
    Ok((StatusCode::NO_CONTENT, [(header::SET_COOKIE, cookie)]).into_response())
}

/// Shuts a device out.
#[utoipa::path(delete, path = "/api/v1/pairing/{id}", tag = "workroom", params(("id" = String, Path)),
    responses((status = 204), (status = 404, body = Problems)))]
pub(super) async fn shut_out(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    _headers: HeaderMap,
) -> Answer<StatusCode> {
    if app.store.remove_session(&id).await? {
        Ok(StatusCode::NO_CONTENT)
    } else {
        Err(Problems::not_found("device"))
    }
}

/// A QR code as one SVG path of unit squares, and its side with a quiet zone of four squares all round, as ISO/IEC 18004
/// asks.
fn qr_path(text: &str) -> Result<(String, u32), String> {
    use std::fmt::Write as _;
    const QUIET: i32 = 4;
    let code = qrcodegen::QrCode::encode_text(text, qrcodegen::QrCodeEcc::Medium)
        .map_err(|e| format!("the address is too long for a code: {e}"))?;
    let mut path = String::new();
    for y in 0..code.size() {
        for x in 0..code.size() {
            if code.get_module(x, y) {
                let _ = write!(path, "M{} {}h1v1h-1z", x + QUIET, y + QUIET);
            }
        }
    }
    Ok((path, u32::try_from(code.size() + 2 * QUIET).unwrap_or(0)))
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_code_has_a_quiet_zone_and_three_corners() {
        let (path, size) = super::qr_path("http://192.0.2.7:8380/pair#123456").unwrap();
        assert!(size >= 21 + 8);
        // The finder pattern's first square.
        assert!(path.starts_with("M4 4h1v1h-1z"));
        assert!(!path.contains("M3 "));
    }
}

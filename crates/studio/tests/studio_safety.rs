//! Who may ask the studio, and what never leaves it.

mod served;

use std::net::SocketAddr;

use axum::body::Body;
use axum::extract::ConnectInfo;
use axum::http::{Method, Request, StatusCode, header};
use serde_json::json;
use served::{example, served};

fn from(peer: &str, method: Method, path: &str, host: &str) -> axum::http::request::Builder {
    let peer: SocketAddr = peer.parse().expect("an address of this file");
    Request::builder()
        .method(method)
        .uri(path)
        .header(header::HOST, host)
        .extension(ConnectInfo(peer))
}

#[tokio::test]
async fn only_the_studios_own_names_are_answered() {
    let studio = served(false).await;
    for (host, status) in [
        ("127.0.0.1:8380", 200),
        ("localhost:8380", 200),
        ("LOCALHOST:8380", 200),
        ("[::1]:8380", 200),
        ("127.0.0.1:9999", 421),
        ("evil.example:8380", 421),
        ("127.0.0.1.evil.example:8380", 421),
        ("192.0.2.7:8380", 421),
        ("", 421),
    ] {
        let request = Request::get("/api/v1/home").header(header::HOST, host);
        let reply = studio.send(request.body(Body::empty()).unwrap()).await;
        assert_eq!(reply.status.as_u16(), status, "{host}");
    }
    let reply = studio
        .send(Request::get("/api/v1/home").body(Body::empty()).unwrap())
        .await;
    assert_eq!(reply.status.as_u16(), 421, "no host at all");
}

#[tokio::test]
async fn changes_come_from_our_own_pages_only() {
    let studio = served(false).await;
    let begin = |headers: &[(&str, &str)]| {
        let mut request = Request::post("/api/v1/suits")
            .header(header::HOST, "127.0.0.1:8380")
            .header(header::CONTENT_TYPE, "application/json");
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        request.body(Body::from("{}")).unwrap()
    };
    for (headers, status) in [
        (&[][..], 403),
        (&[("x-slackwater", "1")], 201),
        (&[("x-slackwater", "1"), ("origin", "http://127.0.0.1:8380")], 201),
        (&[("x-slackwater", "1"), ("origin", "http://evil.example")], 403),
        (&[("x-slackwater", "1"), ("origin", "null")], 403),
        (&[("x-slackwater", "1"), ("sec-fetch-site", "cross-site")], 403),
        (&[("x-slackwater", "1"), ("sec-fetch-site", "same-origin")], 201),
    ] {
        let reply = studio.send(begin(headers)).await;
        assert_eq!(reply.status.as_u16(), status, "{headers:?}: {}", reply.text());
    }
    // A page of another site that asks whether it may is told nothing that would let it.
    let asks = Request::builder()
        .method(Method::OPTIONS)
        .uri("/api/v1/suits")
        .header(header::HOST, "127.0.0.1:8380")
        .header(header::ORIGIN, "http://evil.example")
        .header("access-control-request-method", "POST")
        .header("access-control-request-headers", "x-slackwater");
    let reply = studio.send(asks.body(Body::empty()).unwrap()).await;
    assert!(reply.headers.get("access-control-allow-origin").is_none());
    assert!(reply.headers.get("access-control-allow-headers").is_none());
}

#[tokio::test]
async fn every_answer_forbids_what_comes_from_elsewhere() {
    let studio = example().await;
    for path in [
        "/",
        "/suits/example-14",
        "/api/v1/home",
        "/api/v1/nothing",
        "/pages/main.js",
    ] {
        let reply = studio.get(path).await;
        let policy = reply.headers[header::CONTENT_SECURITY_POLICY].to_str().unwrap();
        assert!(policy.contains("default-src 'self'"), "{path}: {policy}");
        assert!(policy.contains("frame-ancestors 'none'"), "{path}");
        assert!(!policy.contains("unsafe-inline") && !policy.contains("http:") && !policy.contains("https:"));
        assert_eq!(reply.headers[header::X_CONTENT_TYPE_OPTIONS], "nosniff", "{path}");
        assert_eq!(reply.headers[header::REFERRER_POLICY], "no-referrer", "{path}");
    }
    assert_eq!(
        studio.get("/api/v1/home").await.headers[header::CACHE_CONTROL],
        "no-store"
    );
}

#[tokio::test]
async fn another_machine_needs_a_pairing() {
    let studio = served(true).await;
    let tablet = "192.0.2.9:40000";
    let host = "192.0.2.7:8380";
    let home = |cookie: Option<&str>| {
        let mut request = from(tablet, Method::GET, "/api/v1/home", host);
        if let Some(cookie) = cookie {
            request = request.header(header::COOKIE, cookie);
        }
        request.body(Body::empty()).unwrap()
    };
    assert_eq!(studio.send(home(None)).await.status, StatusCode::UNAUTHORIZED);
    assert_eq!(
        studio.send(home(Some("slackwater=0000"))).await.status,
        StatusCode::UNAUTHORIZED
    );
    // The page itself opens, so that the code can be typed.
    let page = from(tablet, Method::GET, "/pair", host)
        .body(Body::empty())
        .unwrap();
    assert_eq!(studio.send(page).await.status, StatusCode::OK);
    // The code is not shown to the tablet, paired or not.
    let peek = from(tablet, Method::GET, "/api/v1/pairing", host)
        .body(Body::empty())
        .unwrap();
    assert_eq!(studio.send(peek).await.status, StatusCode::UNAUTHORIZED);
    let shown = studio
        .send(
            from(
                "127.0.0.1:40000",
                Method::GET,
                "/api/v1/pairing",
                "127.0.0.1:8380",
            )
            .body(Body::empty())
            .unwrap(),
        )
        .await
        .ok();
    let code = shown["code"].as_str().unwrap().to_owned();
    assert!(
        code.len() == 6 && shown["qr"].as_str().unwrap().len() > 1000 && shown["size"].as_u64().unwrap() > 28
    );

    let pair = |code: &str| {
        from(tablet, Method::POST, "/api/v1/pairing", host)
            .header("x-slackwater", "1")
            .header(header::CONTENT_TYPE, "application/json")
            .body(Body::from(
                json!({"code": code, "name": "Cutting table"}).to_string(),
            ))
            .unwrap()
    };
    assert_eq!(studio.send(pair("12")).await.status, StatusCode::FORBIDDEN);
    let reply = studio.send(pair(&code)).await;
    assert_eq!(reply.status, StatusCode::NO_CONTENT, "{}", reply.text());
    let cookie = reply.headers[header::SET_COOKIE].to_str().unwrap().to_owned();
    for part in ["HttpOnly", "SameSite=Strict", "Path=/"] {
        assert!(cookie.contains(part), "{cookie}");
    }
    let token = cookie.split(';').next().unwrap().to_owned();
    assert_eq!(studio.send(home(Some(&token))).await.status, StatusCode::OK);
    assert_eq!(
        studio.send(pair(&code)).await.status,
        StatusCode::FORBIDDEN,
        "a code works once"
    );
    let peek = from(tablet, Method::GET, "/api/v1/pairing", host)
        .header(header::COOKIE, &token)
        .body(Body::empty())
        .unwrap();
    assert_eq!(
        studio.send(peek).await.status,
        StatusCode::FORBIDDEN,
        "a tablet lets nobody else in"
    );

    let devices = studio.get("/api/v1/pairing").await.ok();
    let id = devices["devices"][0]["id"].as_str().unwrap();
    assert_eq!(devices["devices"][0]["name"], "Cutting table");
    let path = format!("/api/v1/pairing/{id}");
    studio.ask(Method::DELETE, &path, None).await.ok();
    assert_eq!(
        studio.send(home(Some(&token))).await.status,
        StatusCode::UNAUTHORIZED
    );
}

#[tokio::test]
async fn five_wrong_codes_end_the_guessing() {
    let studio = served(true).await;
    let code = studio.get("/api/v1/pairing").await.ok()["code"]
        .as_str()
        .unwrap()
        .to_owned();
    let wrong = if code == "111111" { "222222" } else { "111111" };
    for n in 1..=5 {
        let reply = studio.post("/api/v1/pairing", json!({"code": wrong})).await;
        let expected = if n < 5 {
            StatusCode::FORBIDDEN
        } else {
            StatusCode::TOO_MANY_REQUESTS
        };
        assert_eq!(reply.status, expected);
    }
    let reply = studio.post("/api/v1/pairing", json!({"code": code})).await;
    assert_eq!(
        reply.status,
        StatusCode::TOO_MANY_REQUESTS,
        "the right one is void too"
    );
}

#[tokio::test]
async fn without_lan_there_is_no_code() {
    let studio = served(false).await;
    assert_eq!(studio.get("/api/v1/pairing").await.ok()["code"], "");
}

#[tokio::test]
async fn uploads_are_photos_and_no_larger_than_photos() {
    let studio = example().await;
    let put = |owner: &str, bytes: Vec<u8>| {
        Request::post(format!("/api/v1/photos?owner={owner}"))
            .header(header::HOST, "127.0.0.1:8380")
            .header("x-slackwater", "1")
            .header(header::CONTENT_TYPE, "image/jpeg")
            .body(Body::from(bytes))
            .unwrap()
    };
    let png = [b"\x89PNG\r\n\x1a\n".to_vec(), vec![0; 100]].concat();
    let made = studio.send(put("example-slate", png.clone())).await.ok();
    let back = studio
        .get(&format!("/api/v1/photos/{}", made["id"].as_str().unwrap()))
        .await;
    assert_eq!(
        back.headers[header::CONTENT_TYPE],
        "image/png",
        "by its bytes, not by what was said"
    );
    assert_eq!(back.bytes, png);
    let svg = b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>".to_vec();
    assert_eq!(
        studio.send(put("example-slate", svg)).await.status,
        StatusCode::UNPROCESSABLE_ENTITY
    );
    let big = [png.clone(), vec![0; 9 << 20]].concat();
    assert_eq!(
        studio.send(put("example-slate", big)).await.status,
        StatusCode::PAYLOAD_TOO_LARGE
    );
    // Ines is 8: no photos of her try-ons, whatever the page offers.
    assert_eq!(
        studio.send(put("example-18", png.clone())).await.status,
        StatusCode::UNPROCESSABLE_ENTITY
    );
    assert_eq!(
        studio.send(put("example-ines", png.clone())).await.status,
        StatusCode::UNPROCESSABLE_ENTITY
    );
    assert_eq!(
        studio.send(put("example-14", png)).await.status,
        StatusCode::CREATED
    );
    let large = vec![b' '; 4 << 20];
    let request = Request::post("/api/v1/edits")
        .header(header::HOST, "127.0.0.1:8380")
        .header("x-slackwater", "1")
        .header(header::CONTENT_TYPE, "application/json");
    let reply = studio.send(request.body(Body::from(large)).unwrap()).await;
    assert_eq!(reply.status, StatusCode::PAYLOAD_TOO_LARGE);
}

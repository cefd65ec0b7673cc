//! Serves the pages without the studio, and the gallery of components at `/gallery`: for looking and for `web/test`.
//!
//! `cargo run -p slackwater-pages --example serve [PORT]` prints the address it listens on; port 0 or none picks a free
//! one. The gallery is compiled in here and only in builds without optimised pages; the library never holds it.
//! **Limits.** One request at a time, GET only, this machine only.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a development server reads its argument and says where it listens"
)]

use std::io::{self, BufRead as _, BufReader, Write as _};
use std::net::{TcpListener, TcpStream};

include!(concat!(env!("OUT_DIR"), "/gallery.rs"));

const TEXT: &str = "text/plain; charset=utf-8";
const HTML: &str = "text/html; charset=utf-8";

fn main() -> io::Result<()> {
    let port = std::env::args()
        .nth(1)
        .and_then(|port| port.parse().ok())
        .unwrap_or(0);
    let listener = TcpListener::bind(("127.0.0.1", port))?;
    println!("http://{}", listener.local_addr()?);
    for stream in listener.incoming() {
        // A browser that hangs up is not a reason to stop.
        let _ = stream.and_then(|stream| answer(&stream));
    }
    Ok(())
}

fn answer(mut stream: &TcpStream) -> io::Result<()> {
    let mut line = String::new();
    let mut reader = BufReader::new(stream);
    reader.read_line(&mut line)?;
    let mut header = String::new();
    while reader.read_line(&mut header)? > 2 {
        header.clear();
    }
    let target = line.split(' ').nth(1).unwrap_or("/");
    let path = target.split('?').next().unwrap_or("/");
    let (status, mime, body) = find(path);
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {mime}\r\nContent-Length: {}\r\nContent-Security-Policy: {}\r\n\
         Cache-Control: no-store\r\nConnection: close\r\n\r\n",
        body.len(),
        pages::content_security_policy(),
    )?;
    stream.write_all(&body)
}

fn find(path: &str) -> (&'static str, &'static str, Vec<u8>) {
    if let Some(name) = path.strip_prefix(pages::MOUNT) {
        let gallery = GALLERY
            .iter()
            .find(|(asset, ..)| *asset == name)
            .map(|(_, bytes, mime)| (*mime, *bytes));
        return match pages::asset(name)
            .map(|asset| (asset.mime, asset.bytes))
            .or(gallery)
        {
            Some((mime, bytes)) => ("200 OK", mime, bytes.to_vec()),
            None => ("404 Not Found", TEXT, format!("no file {name}\n").into_bytes()),
        };
    }
    let html = match path {
        "/gallery" => pages::index_html().replace("/pages/main.js", "/pages/test/gallery.js"),
        _ => pages::index_html().to_owned(),
    };
    ("200 OK", HTML, html.into_bytes())
}

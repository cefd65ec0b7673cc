//! The program as it is run: it says where it is, keeps its log clean, and ends when told.
#![cfg(unix)]
#![allow(clippy::unwrap_used, reason = "a fixture fails as a test does")]

mod program;

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};

use program::command;

struct Running {
    child: Child,
    port: u16,
}

impl Running {
    fn start(data: &std::path::Path) -> Running {
        let mut child = command()
            .args(["studio", "--port", "0", "--no-open", "--log", "--data"])
            .arg(data)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = String::new();
        let mut out = BufReader::new(child.stdout.take().unwrap());
        out.read_line(&mut line).unwrap();
        // The rest is read too, so that the studio never waits for us.
        std::thread::spawn(move || std::io::copy(&mut out, &mut std::io::sink()));
        let port = line
            .rsplit(':')
            .next()
            .and_then(|p| p.trim().trim_end_matches('/').parse().ok())
            .unwrap_or_else(|| panic!("no address in {line:?}"));
        Running { child, port }
    }

    fn ask(&self, request: &str, body: &str) -> String {
        let mut stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        write!(
            stream,
            "{request} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nx-slackwater: 1\r\nContent-Type: application/json\r\n\
             Content-Length: {}\r\nConnection: close\r\n\r\n{body}",
            self.port,
            body.len()
        )
        .unwrap();
        let mut reply = String::new();
        stream.read_to_string(&mut reply).unwrap();
        reply
    }

    /// Tells it to end, waits, and gives its log.
    fn end(mut self) -> (std::process::ExitStatus, String) {
        let told = Command::new("kill")
            .arg(self.child.id().to_string())
            .status()
            .unwrap();
        assert!(told.success());
        let mut log = String::new();
        self.child
            .stderr
            .take()
            .unwrap()
            .read_to_string(&mut log)
            .unwrap();
        (self.child.wait().unwrap(), log)
    }
}

#[test]
fn the_log_says_what_was_asked_and_nothing_of_a_body() {
    let folder = tempfile::tempdir().unwrap();
    let studio = Running::start(folder.path());
    let made = studio.ask(
        "POST /api/v1/documents",
        r#"{"kind": "wearer", "body": {"name": "Marker-Signe", "form": "woman",
            "dimensions": {"waist_girth": {"readings": ["73.73 cm"]}}}}"#,
    );
    assert!(made.starts_with("HTTP/1.1 201"), "{made}");
    let id = made
        .split("\"id\":\"")
        .nth(1)
        .and_then(|r| r.split('"').next())
        .unwrap()
        .to_owned();
    // A good edit, a refused one, a page and something that is not there.
    let edit = |value: &str| {
        format!(
            r#"{{"parts": [{{"document": "{id}", "base": 1}}], "changes": [{{"document": "{id}",
               "path": "dimensions.hip_girth", "value": {value}}}]}}"#
        )
    };
    studio.ask("POST /api/v1/edits", &edit(r#"{"readings": ["98.98 cm"]}"#));
    studio.ask("POST /api/v1/edits", r#"{"parts": 98.98}"#);
    studio.ask(&format!("GET /api/v1/wearers/{id}/form?waist=73.73"), "");
    studio.ask("GET /suits/98.98cm-not-there", "");
    let (status, log) = studio.end();
    assert!(status.success(), "told to end, it ends well: {status}");
    assert!(log.contains("POST /api/v1/documents 201"), "{log}");
    assert!(log.contains("POST /api/v1/edits 422"), "{log}");
    assert!(log.contains("/form 422"), "{log}");
    for secret in ["73.73", "Signe", "readings"] {
        assert!(!log.contains(secret), "{secret} is in the log:\n{log}");
    }
}

#[test]
fn a_second_studio_on_the_same_workroom_is_refused_with_what_to_do() {
    let folder = tempfile::tempdir().unwrap();
    let studio = Running::start(folder.path());
    let second = command()
        .args(["studio", "--port", "0", "--no-open", "--data"])
        .arg(folder.path())
        .output()
        .unwrap();
    assert_eq!(second.status.code(), Some(2));
    let says = String::from_utf8_lossy(&second.stderr).into_owned();
    assert!(
        says.contains("another slackwater has this workroom open"),
        "{says}"
    );
    let taken = command()
        .args([
            "studio",
            "--port",
            &studio.port.to_string(),
            "--no-open",
            "--data",
        ])
        .arg(folder.path().join("other"))
        .output()
        .unwrap();
    assert_eq!(taken.status.code(), Some(2));
    let says = String::from_utf8_lossy(&taken.stderr).into_owned();
    assert!(
        says.contains("cannot be listened on") && says.contains("--port"),
        "{says}"
    );
    assert!(studio.end().0.success());
}

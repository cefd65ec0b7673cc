//! Runs the studio: opens the workroom, listens, says where, and lets go of everything at the end.
//!
//! Only here are sockets bound. The log says method, path, status and time of a request, never what was in it: bodies'
//! dimensions are nobody's business but the maker's.

use std::future::IntoFuture as _;
use std::io::Write as _;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use axum::extract::{ConnectInfo, Request};
use axum::middleware::{self, Next};
use axum::response::Response;
use store::{SqliteStore, Store as _};
use tokio::net::TcpListener;

use crate::app::{App, RunOptions};
use crate::http::router;

/// Where the studio listens when nothing is said.
pub const USUAL_PORT: u16 = 8380;
/// Ports tried above the usual one when it is taken.
const MORE_PORTS: u16 = 20;
/// How often the backup of the day is looked after.
const BACKUP_EVERY: Duration = Duration::from_secs(3600);

/// How to run.
#[derive(Clone, Debug)]
pub struct ServeOptions {
    /// The port; the usual one, or the next free above it, when not said. 0 for any free one.
    pub port: Option<u16>,
    /// Folder of the workroom.
    pub data: PathBuf,
    /// Whether a browser is opened.
    pub open: bool,
    /// Whether other machines of the house may be paired.
    pub lan: bool,
    /// Whether each request is logged.
    pub log: bool,
}

/// Why the studio could not run.
#[derive(Debug, thiserror::Error)]
pub enum ServeError {
    /// The workroom does not open.
    #[error(transparent)]
    Store(#[from] store::StoreError),
    /// The port is taken or not allowed.
    #[error("port {port} cannot be listened on: {source}")]
    Port {
        /// Which.
        port: u16,
        /// The system's words.
        source: std::io::Error,
    },
    /// The server broke down.
    #[error("the studio stopped: {0}")]
    Io(#[from] std::io::Error),
}

/// One line of the log. To standard error, which a closed terminal may refuse: then there is nobody to read it.
pub(crate) fn log_line(text: &str) {
    let _ = writeln!(std::io::stderr(), "{text}");
}

/// Runs the studio until it is told to end. `say` gets each line for the maker.
///
/// # Errors
/// [`ServeError`] when the workroom or the port cannot be opened, or the server breaks.
pub async fn serve(options: ServeOptions, say: impl Fn(&str)) -> Result<(), ServeError> {
    // The port first: a second start of the same studio should say so before it asks for the workroom's lock.
    let ip = if options.lan {
        IpAddr::V4(Ipv4Addr::UNSPECIFIED)
    } else {
        IpAddr::V4(Ipv4Addr::LOCALHOST)
    };
    let listener = listen(ip, options.port).await?;
    let address = listener.local_addr()?;
    let store_options = store::Options::default();
    let clock = store_options.clock.clone();
    let store = SqliteStore::open(&options.data, store_options).await?;
    let lan_url = options.lan.then(|| {
        format!(
            "http://{}:{}",
            own_address().unwrap_or(Ipv4Addr::LOCALHOST.into()),
            address.port()
        )
    });
    let run = RunOptions {
        address,
        lan: options.lan,
        lan_url: lan_url.clone(),
    };
    let app = App::new(store, run, clock);
    app.example_at_first_start().await?;
    let url = format!("http://127.0.0.1:{}/", address.port());
    // Before the address is told: who has read it may end the studio at once, and it must end well.
    let told_to_end = told_to_end()?;
    say(&format!("The studio is open at {url}"));
    say(&format!("The workroom is kept in {}", options.data.display()));
    if let Some(lan) = &lan_url {
        say(&format!(
            "A tablet pairs at {lan}/pair; the code is on the page Workroom."
        ));
        say("The line to the tablet is not encrypted: use it in your own house only.");
    }
    say("Ctrl+C ends it; everything is kept as you go.");
    if options.open && open::that_detached(&url).is_err() {
        say("No browser could be opened; type the address into one.");
    }
    let backups = tokio::spawn(back_up(Arc::clone(&app)));
    let mut router = router(Arc::clone(&app));
    if options.log {
        router = router.layer(middleware::from_fn(log_request));
    }
    let service = router.into_make_service_with_connect_info::<SocketAddr>();
    // Open event streams never end by themselves, so there is no waiting for them: what was acknowledged is kept already.
    let ended = tokio::select! {
        result = axum::serve(listener, service).into_future() => result.map_err(ServeError::from),
        () = told_to_end => Ok(()),
    };
    backups.abort();
    // Long work on threads of its own ends at its next step; nobody would see what came of it.
    app.jobs.stop_all();
    app.store().close().await;
    ended
}

async fn listen(ip: IpAddr, port: Option<u16>) -> Result<TcpListener, ServeError> {
    let bind = |port: u16| async move {
        TcpListener::bind(SocketAddr::new(ip, port))
            .await
            .map_err(|source| ServeError::Port { port, source })
    };
    if let Some(port) = port {
        return bind(port).await;
    }
    for port in USUAL_PORT..USUAL_PORT + MORE_PORTS {
        if let Ok(listener) = bind(port).await {
            return Ok(listener);
        }
    }
    bind(0).await
}

/// This machine's address in the house. Nothing is sent: a datagram socket only looks up which address it would use.
fn own_address() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    // An address of RFC 5737, which is nobody's.
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    let ip = socket.local_addr().ok()?.ip();
    (!ip.is_unspecified()).then_some(ip)
}

/// Listens for Ctrl+C and, where there are signals, for the request to terminate; from this call on, not from the first await.
#[cfg(unix)]
fn told_to_end() -> std::io::Result<impl Future<Output = ()>> {
    use tokio::signal::unix::{SignalKind, signal};
    let mut interrupt = signal(SignalKind::interrupt())?;
    let mut terminate = signal(SignalKind::terminate())?;
    Ok(async move {
        tokio::select! {
            _ = interrupt.recv() => {}
            _ = terminate.recv() => {}
        }
    })
}

/// Listens for Ctrl+C.
#[cfg(windows)]
fn told_to_end() -> std::io::Result<impl Future<Output = ()>> {
    let mut interrupt = tokio::signal::windows::ctrl_c()?;
    Ok(async move {
        interrupt.recv().await;
    })
}

async fn back_up(app: Arc<App>) {
    loop {
        if let Err(error) = app.store().backup_if_due(store::Timestamp::now()).await {
            log_line(&format!("the backup of the day failed: {error}"));
        }
        tokio::time::sleep(BACKUP_EVERY).await;
    }
}

async fn log_request(request: Request, next: Next) -> Response {
    let start = std::time::Instant::now();
    let method = request.method().clone();
    // The path holds ids; a query may hold what was typed into the search.
    let path = request.uri().path().to_owned();
    let peer = request
        .extensions()
        .get::<ConnectInfo<SocketAddr>>()
        .map(|c| c.0.ip());
    let response = next.run(request).await;
    let peer = peer.map_or_else(String::new, |p| format!(" {p}"));
    log_line(&format!(
        "{method} {path} {} {:.1} ms{peer}",
        response.status().as_u16(),
        start.elapsed().as_secs_f64() * 1e3
    ));
    response
}

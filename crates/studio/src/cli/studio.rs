//! `slackwater studio`: the work order in the browser.

use std::path::PathBuf;

use clap::Args;
use etcetera::BaseStrategy as _;

use super::console::Console;
use super::{Outcome, Trouble};
use crate::server::{ServeError, ServeOptions, serve};
use crate::suit_file::{FaultKind, Faults};

#[derive(Debug, Default, Args)]
pub(super) struct StudioArgs {
    /// The port to listen on; the usual is 8380, or the next free one.
    #[arg(long)]
    port: Option<u16>,
    /// The folder of the workroom; made if it is not there.
    #[arg(long)]
    data: Option<PathBuf>,
    /// Don't open a browser.
    #[arg(long)]
    no_open: bool,
    /// Let a tablet in the house pair with a code. The line is not encrypted.
    #[arg(long)]
    lan: bool,
    /// Log each request: method, path, status, time; never what was in it.
    #[arg(long)]
    log: bool,
    /// Print the description of the API (OpenAPI 3.1) and end.
    #[arg(long)]
    openapi: bool,
}

pub(super) fn run(args: StudioArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    if args.openapi {
        console.print(&crate::http::openapi())?;
        return Ok(Outcome::Done);
    }
    let data = match args.data {
        Some(data) => data,
        None => usual_folder()?,
    };
    let folder = data.display().to_string();
    let options = ServeOptions {
        port: args.port,
        data,
        open: !args.no_open,
        lan: args.lan,
        log: args.log,
    };
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    let said = std::cell::RefCell::new(console);
    let say = |line: &str| {
        let mut console = said.borrow_mut();
        // A closed output is no reason to end the studio.
        let _ = console.print(&format!("{line}\n")).and_then(|()| console.flush());
    };
    match runtime.block_on(serve(options, say)) {
        Ok(()) => Ok(Outcome::Done),
        Err(error) => {
            let help = match &error {
                ServeError::Port { .. } => "choose another with --port, or end what uses it",
                ServeError::Store(_) | ServeError::Io(_) => "",
            };
            Err(Faults::whole(&folder, FaultKind::File, error.to_string(), help).into())
        }
    }
}

/// Where this system keeps a program's data.
fn usual_folder() -> Result<PathBuf, Faults> {
    match etcetera::choose_base_strategy() {
        Ok(base) => Ok(base.data_dir().join("slackwater")),
        Err(_) => Err(Faults::whole(
            "the workroom's folder",
            FaultKind::File,
            "this system does not say where a program keeps its data".into(),
            "name a folder with --data",
        )),
    }
}

//! The `slackwater` program: hands its arguments to the library.

fn main() -> std::process::ExitCode {
    studio::cli::run(std::env::args_os())
}

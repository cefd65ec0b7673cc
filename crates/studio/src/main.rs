//! The `slackwater` program: parses its arguments and hands over to the library.

fn main() {}

#[allow(clippy::unwrap_used)]
fn main() {}

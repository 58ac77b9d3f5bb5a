//! What follows a signal, in few types.
//!
//! Leptos compiles the code that draws and redraws once for each closure it is given. There are hundreds of them, so
//! each is kept behind a pointer here, and the code is made once for text, once for a yes or no, once for a view.

use leptos::prelude::*;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::Arc;

/// A text, or a yes or no, that follows its signals.
pub fn live<T: 'static>(make: impl Fn() -> T + Send + Sync + 'static) -> Arc<dyn Fn() -> T + Send + Sync> {
    Arc::new(make)
}

/// A part of the page that follows its signals.
pub fn shown<V: IntoAny + 'static>(make: impl Fn() -> V + Send + 'static) -> Box<dyn Fn() -> AnyView + Send> {
    Box::new(move || make().into_any())
}

/// One row to come: what it is told by, and how it is made.
type Row = (u64, Box<dyn FnOnce() -> AnyView + Send>);

/// Rows that follow a list; one whose key stays is kept as it is, with what was typed into it.
pub fn rows<T: Send + 'static, K: Hash, V: IntoAny + 'static>(
    list: impl Fn() -> Vec<T> + Send + Sync + 'static,
    key: impl Fn(&T) -> K + Send + Sync + 'static,
    row: impl Fn(T) -> V + Send + Sync + 'static,
) -> AnyView {
    let row = Arc::new(row);
    let rows = move || {
        let one = |item: T| -> Row {
            let row = Arc::clone(&row);
            (hash(key(&item)), Box::new(move || row(item).into_any()))
        };
        list().into_iter().map(one).collect()
    };
    keyed(Arc::new(rows))
}

fn keyed(rows: Arc<dyn Fn() -> Vec<Row> + Send + Sync>) -> AnyView {
    leptos::prelude::view! { <For each=move || rows() key=|row| row.0 children=|row| (row.1)()/> }.into_any()
}

fn hash(key: impl Hash) -> u64 {
    let mut hasher = DefaultHasher::new();
    key.hash(&mut hasher);
    hasher.finish()
}

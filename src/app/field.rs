//! A field: label, text, unit and message, tied together for eyes and ears. What is typed is kept as typed.

use crate::ears;
use crate::live::live;
use leptos::prelude::*;
use markup::view;
use std::sync::atomic::{AtomicU32, Ordering};

/// An id no other element has.
pub fn fresh_id(stem: &str) -> String {
    static NEXT: AtomicU32 = AtomicU32::new(0);
    format!("{stem}-{}", NEXT.fetch_add(1, Ordering::Relaxed))
}

/// A line of text with its label and message.
#[component]
pub fn Field(
    /// The label, with the unit in words.
    #[prop(into)]
    label: Signal<String>,
    /// What is in it.
    value: RwSignal<String>,
    /// Said below in ordinary times.
    #[prop(optional, into)]
    hint: Signal<String>,
    /// Said below in alarm; empty while all is well.
    #[prop(optional, into)]
    alert: Signal<String>,
    /// Shown beside the box.
    #[prop(optional)]
    unit: &'static str,
    /// A number: the number keyboard, digits to the right.
    #[prop(optional)]
    number: bool,
    /// Called at every key.
    #[prop(optional, into)]
    on_type: Option<Callback<String>>,
    /// Called at Enter.
    #[prop(optional, into)]
    on_done: Option<Callback<()>>,
) -> impl IntoView {
    let id = fresh_id("field");
    let message = format!("{id}-says");
    let (for_id, described) = (id.clone(), message.clone());
    let says = move || {
        Some(alert.get())
            .filter(|alert| !alert.is_empty())
            .unwrap_or_else(|| hint.get())
    };
    Effect::new(move |before: Option<String>| {
        let now = says();
        if before.is_some_and(|before| before != now) {
            ears::tell(now.clone());
        }
        now
    });
    view! {
        <div class="field" class:field--alert=live(move || !alert.get().is_empty())>
            <label class="field__label" for=for_id>{label}</label>
            <div class="field__box">
                <input id=id class="field__input" class:field__input--number=number type="text"
                    inputmode=if number { "decimal" } else { "text" }
                    autocomplete="off" autocapitalize="none" spellcheck="false" enterkeyhint="done"
                    aria-describedby=described
                    aria-invalid=live(move || (!alert.get().is_empty()).to_string())
                    prop:value=live(move || value.get())
                    on:input:target=move |event| {
                        let typed = event.target().value();
                        value.set(typed.clone());
                        if let Some(call) = on_type { call.run(typed) }
                    }
                    on:keydown=move |event| { if event.key() == "Enter" && let Some(call) = on_done { call.run(()) } }
                />
                {(!unit.is_empty()).then(|| view! { <span class="field__unit" aria-hidden="true">{unit}</span> })}
            </div>
            <p class="field__message" id=message>{live(says)}</p>
        </div>
    }
}

/// Reads a plain number: comma or point, spaces forgiven, fractions too.
pub fn number(text: &str) -> Option<f64> {
    let quantity = pattywright::measure::read(text.trim()).ok()?;
    matches!(&quantity.measure, pattywright::measure::Measure::Count(word) if word.is_empty())
        .then(|| quantity.middle())
}

/// Reads grams: a plain number, or a weight in any unit.
pub fn weight(text: &str) -> Option<f64> {
    let quantity = pattywright::measure::read(text.trim()).ok()?;
    quantity.grams().or_else(|| number(text))
}

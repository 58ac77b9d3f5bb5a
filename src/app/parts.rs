//! The two signatures, drawn: the bowl strip and the window rule; and the chips.

use crate::evidence::Published;
use leptos::prelude::*;
use pattywright::sheet::formula::StripPart;
use pattywright::sheet::rescue::AddRow;
use pattywright::sheet::rule::{Place, Rule};

/// The bowl strip: one bar as wide as the phone, the bowl's make-up by weight.
#[component]
pub fn Strip(
    /// The parts, left to right.
    #[prop(into)]
    parts: Signal<Vec<StripPart>>,
    /// Called with the key of the first line of a part that is tapped.
    on_part: impl Fn(u32) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let spoken = move || {
        let parts = parts.get();
        let said: Vec<String> = parts
            .iter()
            .map(|p| format!("{} {}", p.role.name(), p.percent))
            .collect();
        format!("In the bowl: {}", said.join(", "))
    };
    view! {
        <div class="strip" role="img" aria-label=spoken>
            {move || parts.get().into_iter().map(|part| view! {
                <div class=format!("strip__part role--{}", part.role.id()) style:flex-grow=share(part.part)></div>
            }).collect_view()}
        </div>
        <div class="key">
            {move || parts.get().into_iter().map(|part| {
                let key = part.first_key;
                view! {
                    <button type="button" class="key__one" on:click=move |_| { if let Some(key) = key { on_part(key) } }>
                        <span class=format!("swatch role--{}", part.role.id())></span>
                        {part.role.short_name()} " " {part.percent}
                    </button>
                }
            }).collect_view()}
        </div>
    }
}

/// A share as CSS wants it.
fn share(part: f64) -> String {
    pattywright::measure::fixed(part, 4)
}

/// Width of the ruler's drawing.
const WIDTH: f64 = 140.0;

/// One reading on its ruler; a tap opens what it means and who says so.
#[component]
pub fn RuleRow(rule: Rule) -> impl IntoView {
    let open = RwSignal::new(false);
    let at = |position: f64| pattywright::measure::fixed(4.0 + position * (WIDTH - 8.0), 1);
    let class = match rule.place {
        Place::Below => "rule rule--below",
        Place::Above => "rule rule--above",
        Place::Inside | Place::Open => "rule",
    };
    let mark = match rule.place {
        Place::Below => "▾ ",
        Place::Above => "▴ ",
        Place::Inside | Place::Open => "",
    };
    let window = rule.window.map(|(low, high)| {
        view! { <rect class="rule__window" x=at(low) width=pattywright::measure::fixed((high - low) * (WIDTH - 8.0), 1) y="7" height="14"></rect> }
    });
    let whisker = rule.whisker.map(|(low, high)| {
        let d = format!("M{l} 14H{h}M{l} 10v8M{h} 10v8", l = at(low), h = at(high));
        view! { <path class="rule__whisker" d=d></path> }
    });
    let tick = rule
        .tick
        .map(|tick| view! { <path class="rule__tick" d=format!("M{} 3v20", at(tick))></path> });
    let unit = rule.figure.unit;
    let spread = rule.figure.spread.clone();
    let value = rule.figure.value.clone();
    view! {
        <button type="button" class=class aria-expanded=move || open.get().to_string() on:click=move |_| open.update(|o| *o = !*o)>
            <span class="rule__name">{rule.name}</span>
            <svg class="rule__scale" viewBox="0 0 140 34" aria-hidden="true">
                {window}
                <path class="rule__line" d="M4 21H136M4 21v6M26 21v4M48 21v4M70 21v6M92 21v4M114 21v4M136 21v6"></path>
                {whisker}
                {tick}
            </svg>
            <span class="rule__figure">{mark}{value}{(!unit.is_empty()).then(|| format!(" {unit}"))}<span class="rule__spread">{spread}</span></span>
        </button>
        <div class="rule__more" hidden=move || !open.get()>
            <p>{rule.reading.meaning()}</p>
            <p>{rule.says}</p>
            <p class="soft">"The range: " {rule.source}</p>
            {move || open.get().then(|| view! { <Published reading=rule.reading own=rule.value/> })}
        </div>
    }
}

/// A choice of one among a few.
#[component]
pub fn Chips<T: Copy + PartialEq + Send + Sync + 'static>(
    /// What is chosen among, in words for ears.
    label: &'static str,
    /// The choices and their words.
    choices: Vec<(T, String)>,
    /// The one chosen.
    #[prop(into)]
    chosen: Signal<Option<T>>,
    /// Called with the one tapped.
    on_choose: impl Fn(T) + Copy + Send + Sync + 'static,
    /// Large ones, two to a row.
    #[prop(optional)]
    large: bool,
) -> impl IntoView {
    view! {
        <div class=if large { "choice" } else { "chips" } role="group" aria-label=label>
            {choices.into_iter().map(|(choice, name)| view! {
                <button type="button" class="chip"
                    aria-pressed=move || (chosen.get() == Some(choice)).to_string()
                    on:click=move |_| on_choose(choice)>
                    {name}
                </button>
            }).collect_view()}
        </div>
    }
}

/// What goes in or comes out, large enough to read from the stove.
pub fn adds(rows: Vec<AddRow>) -> impl IntoView {
    rows.into_iter()
        .map(|row| {
            view! {
                <div class="add">
                    <span>{row.name}</span>
                    <span class="add__grams">{row.grams}</span>
                    <span class="add__spoons small soft">{row.spoons}</span>
                </div>
            }
        })
        .collect_view()
}

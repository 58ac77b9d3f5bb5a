//! The two signatures, drawn: the bowl strip and the window rule; and the chips.

use crate::evidence::Published;
use crate::live::{self, live, shown};
use leptos::prelude::*;
use markup::view;
use pattywright::formula::Reading;
use pattywright::measure::plain;
use pattywright::pantry::Role;
use pattywright::sheet::formula::StripPart;
use pattywright::sheet::rescue::AddRow;
use pattywright::sheet::rule::{Place, Rule};
use pattywright::words::say;
use std::sync::Arc;

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
        say!("In the bowl: {parts}", parts = said.join(", "))
    };
    // Each part stays where it is while its share moves.
    let roles = move || parts.with(|parts| parts.iter().map(|part| part.role).collect::<Vec<_>>());
    let of = move |role: Role| parts.with(|parts| parts.iter().find(|part| part.role == role).cloned());
    let grows = move |role| of(role).map_or(String::new(), |part| plain(part.part, 4));
    let tapped = move |role| of(role).and_then(|part| part.first_key).into_iter().for_each(on_part);
    view! {
        <div class="strip" role="img" aria-label=live(spoken)>
            {live::rows(roles, |role| *role, move |role| view! {
                <div class=format!("strip__part role--{}", role.id()) style:flex-grow=live(move || grows(role))></div>
            })}
        </div>
        <div class="key">
            {live::rows(roles, |role| *role, move |role| view! {
                <button type="button" class="key__one" on:click=move |_| tapped(role)>
                    <span class=format!("swatch role--{}", role.id())></span>
                    {role.short_name()} " " {live(move || of(role).map_or(String::new(), |part| part.percent))}
                </button>
            })}
        </div>
    }
}

/// Readings on their rulers. Each stays where it is, opened or not, while its figure moves.
#[component]
pub fn Rules(
    /// What they are, in words for ears.
    label: &'static str,
    /// The readings, top to bottom.
    #[prop(into)]
    rules: Signal<Vec<Rule>>,
) -> impl IntoView {
    let of = move |reading: Reading| rules.with(|all| all.iter().find(|rule| rule.reading == reading).cloned());
    view! {
        <ul class="rules" aria-label=label>
            {live::rows(move || rules.with(|all| all.iter().map(|rule| rule.reading).collect()), |reading| *reading, move |reading| {
                let rule = Memo::new(move |was: Option<&Option<Rule>>| of(reading).or(was.cloned().flatten()));
                view! { <li><RuleRow reading rule/></li> }
            })}
        </ul>
    }
}

/// One reading on its ruler; a tap opens what it means and who says so.
#[component]
fn RuleRow(reading: Reading, rule: Memo<Option<Rule>>) -> impl IntoView {
    let open = RwSignal::new(false);
    let text =
        move |part: fn(&Rule) -> String| live(move || rule.with(|rule| rule.as_ref().map_or(String::new(), part)));
    view! {
        <button type="button" class=text(class) aria-expanded=live(move || open.get().to_string()) on:click=move |_| open.update(|o| *o = !*o)>
            <span class="rule__name">{reading.name()}</span>
            <svg class="rule__scale" viewBox="0 0 140 34" aria-hidden="true">
                <path class="rule__window" d=text(window)></path>
                <path class="rule__line" d="M4 21H136M4 21v6M26 21v4M48 21v4M70 21v6M92 21v4M114 21v4M136 21v6"></path>
                <path class="rule__whisker" d=text(whisker)></path>
                <path class="rule__tick" d=text(tick)></path>
            </svg>
            <span class="rule__figure">{text(figure)}<span class="rule__spread">{text(|rule| rule.figure.spread.clone())}</span></span>
        </button>
        <div class="rule__more" hidden=live(move || !open.get())>
            <p>{reading.meaning()}</p>
            <p>{text(|rule| rule.says.clone())}</p>
            <p class="soft">{say("The range:")} " " {text(|rule| rule.source.to_owned())}</p>
            {shown(move || open.get().then(|| view! { <Published reading own=rule.with(|rule| rule.as_ref().and_then(|rule| rule.value))/> }))}
        </div>
    }
}

fn class(rule: &Rule) -> String {
    match rule.place {
        Place::Below => "rule rule--below",
        Place::Above => "rule rule--above",
        Place::Inside | Place::Open => "rule",
    }
    .to_owned()
}

fn figure(rule: &Rule) -> String {
    let mark = match rule.place {
        Place::Below => "▾ ",
        Place::Above => "▴ ",
        Place::Inside | Place::Open => "",
    };
    let gap = if rule.figure.unit.is_empty() { "" } else { " " };
    format!("{mark}{}{gap}{}", rule.figure.value, rule.figure.unit)
}

/// Where a position of 0 to 1 lies in the ruler's drawing, 140 wide.
fn at(position: f64) -> String {
    plain(4.0 + position * 132.0, 1)
}

fn window(rule: &Rule) -> String {
    let path = |(low, high)| format!("M{} 7V21H{}V7z", at(low), at(high));
    rule.window.map_or(String::new(), path)
}

fn whisker(rule: &Rule) -> String {
    let path = |(low, high)| {
        format!(
            "M{low} 14H{high}M{low} 10v8M{high} 10v8",
            low = at(low),
            high = at(high)
        )
    };
    rule.whisker.map_or(String::new(), path)
}

fn tick(rule: &Rule) -> String {
    rule.tick.map_or(String::new(), |tick| format!("M{} 3v20", at(tick)))
}

/// Something behind a tap, made when it is first opened.
#[component]
pub fn Fold(
    /// What lies behind it.
    #[prop(into)]
    says: Signal<String>,
    children: ChildrenFn,
) -> impl IntoView {
    let opened = RwSignal::new(false);
    view! {
        <details on:toggle=move |_| opened.set(true)>
            <summary>{says}</summary>
            {shown(move || opened.get().then(|| children()))}
        </details>
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
    chosen: impl Fn() -> Option<T> + Send + Sync + 'static,
    /// Called with the one tapped.
    on_choose: impl Fn(T) + Copy + Send + Sync + 'static,
    /// Large ones, two to a row.
    #[prop(optional)]
    large: bool,
) -> impl IntoView {
    let (choices, names): (Vec<T>, Vec<String>) = choices.into_iter().unzip();
    let choices = Arc::new(choices);
    let among = Arc::clone(&choices);
    let at = live(move || {
        let chosen = chosen()?;
        among.iter().position(|choice| *choice == chosen)
    });
    let choose = Callback::new(move |at: usize| choices.get(at).copied().into_iter().for_each(on_choose));
    chips(label, names, at, choose, large)
}

/// The chips themselves, told by their places.
fn chips(
    label: &'static str,
    names: Vec<String>,
    chosen: Arc<dyn Fn() -> Option<usize> + Send + Sync>,
    choose: Callback<usize>,
    large: bool,
) -> AnyView {
    let chip = |(at, name): (usize, String)| {
        let chosen = Arc::clone(&chosen);
        view! {
            <button type="button" class="chip" aria-pressed=live(move || (chosen() == Some(at)).to_string()) on:click=move |_| choose.run(at)>
                {name}
            </button>
        }
    };
    view! {
        <div class=if large { "choice" } else { "chips" } role="group" aria-label=label>
            {names.into_iter().enumerate().map(chip).collect_view()}
        </div>
    }
    .into_any()
}

/// What goes in or comes out, large enough to read from the stove.
pub fn adds(rows: Vec<AddRow>) -> impl IntoView {
    rows.into_iter()
        .map(|row| {
            view! {
                <div class="add">
                    <span class="add__name">{row.name}</span>
                    <span class="add__grams">{row.grams}</span>
                    <span class="add__spoons small soft">{row.spoons}</span>
                </div>
            }
        })
        .collect_view()
}

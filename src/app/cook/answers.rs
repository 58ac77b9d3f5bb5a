//! The answers, large: when to turn, when to probe, and what follows.

use super::Stove;
use super::drawing::{FieldPicture, ToScale};
use super::timers::Timers;
use crate::ears;
use crate::field::Field;
use crate::live::live;
use leptos::prelude::*;
use markup::view;
use pattywright::sheet::Figure;
use pattywright::sheet::cook::{BuildSheet, CookSheet, HeatSheet, Moment, estimates, strips};
use pattywright::sheet::timer::Call;
use pattywright::words::say;

/// Turn and probe, and the button that starts the clock.
#[component]
pub fn Heated(timers: Timers, heat: HeatSheet, name: String, thickness: Figure, thin: String) -> impl IntoView {
    let place = RwSignal::new(String::new());
    let alert = RwSignal::new(String::new());
    let marks: Vec<(Call, u32)> = heat
        .turn
        .iter()
        .map(|turn| (Call::Turn, turn.seconds))
        .chain([(Call::Probe, heat.done.seconds)])
        .collect();
    let start = move |_| {
        if timers.start(&name, &place.get_untracked(), &marks) {
            alert.set(String::new());
            place.set(String::new());
        } else {
            alert.set(say("That is as many timers as fit: stop one first.").into());
        }
    };
    let (target, time) = (&heat.target, &heat.done.text);
    ears::tell(match &heat.turn {
        Ok(turn) => say!(
            "Turn, earliest {turn}. Probe for {target}, {time}",
            turn = turn.text,
            target,
            time
        ),
        Err(_) => say!("Probe for {target}, {time}", target, time),
    });
    let why = heat.turn.as_ref().err().cloned();
    let time = |label: String, moment: &Moment| answer(label, moment.text.clone(), moment.spread.clone());
    view! {
        <section class="answers" aria-label=say("Times")>
            {thick(thickness)}
            {heat.turn.as_ref().ok().map(|turn| time(say("Turn, earliest").into(), turn))}
            {time(say!("Probe for {target}", target = heat.target), &heat.done)}
        </section>
        {(!thin.is_empty()).then(|| view! { <p class="small alert">{thin}</p> })}
        {why.map(|why| view! { <p class="small">{why}</p> })}
        <div class="start">
            <Field label=say("Place in the pan") value=place alert=alert/>
            <button type="button" class="button button--main" on:click=start>{say("It is in now")}</button>
        </div>
        <p class="small soft">{estimates()}</p>
        <FieldPicture picture=heat.picture/>
        <section class="said" aria-label=say("What follows")>
            <p>{heat.after}</p>
            <p>{heat.holds}</p>
            <p>{heat.loss}</p>
        </section>
        <ul class="caution" aria-label=say("Take care")>{heat.cautions.into_iter().map(|said| view! { <li>{said}</li> }).collect_view()}</ul>
    }
}

/// Thin glazed strips in the oven: the trade's times, and a clock for them.
#[component]
pub fn Strips(stove: Stove) -> impl IntoView {
    let (desk, alert) = (stove.desk, RwSignal::new(""));
    let told = move || strips(desk.document.with(|d| d.settings.degrees));
    let start = move |_| {
        let (_, marks) = untrack(told);
        let started = desk.timers.start(say("Strips"), say("oven"), &marks);
        alert.set(if started {
            ""
        } else {
            say("That is as many timers as fit: stop one first.")
        });
    };
    view! {
        <details>
            <summary>{say("Strips in the oven")}</summary>
            <p class="small">{live(move || told().0)}</p>
            <button type="button" class="button" on:click=start>{say("The strips are in now")}</button>
            <p class="small alert" role="status">{alert}</p>
        </details>
    }
}

/// How thick a raw patty is.
pub fn thick(thickness: Figure) -> impl IntoView {
    answer(
        say!("Thick, {unit}", unit = thickness.unit),
        thickness.value,
        thickness.spread,
    )
}

fn answer(label: String, value: String, spread: String) -> impl IntoView {
    view! {
        <p class="answer">
            <span class="answer__name">{label}</span>
            <span class="answer__figure">{value}</span>
            <span class="small soft">{spread}</span>
        </p>
    }
}

/// How thick, how thin, how big once cooked.
#[component]
pub fn Details(patty: BuildSheet) -> impl IntoView {
    view! {
        <section class="said" aria-label=say("Size of this patty")>
            {(!patty.thin.alert).then(|| view! { <p>{patty.thin.says}</p> })}
            <p>{patty.form}</p>
            <p>{say!("Cooked: {size}.", size = patty.cooked)}</p>
            <ToScale drawing=patty.drawing/>
            <p class="small">{patty.for_bun}</p>
        </section>
    }
}

/// Every patty side by side, where there are several.
#[component]
pub fn Table(stove: Stove, sheet: Memo<Result<CookSheet, String>>) -> impl IntoView {
    let rows = move || {
        let builds = sheet.with(|sheet| sheet.as_ref().map_or(Vec::new(), |sheet| sheet.builds.clone()));
        let names = stove.cooking.with(|cooking| {
            cooking
                .builds
                .iter()
                .map(pattywright::sheet::cook::name)
                .collect::<Vec<_>>()
        });
        names
            .into_iter()
            .zip(builds)
            .map(|(name, build)| row(name, build))
            .collect_view()
    };
    view! {
        <table class="table table--figures" hidden=live(move || stove.cooking.with(|cooking| cooking.builds.len() < 2))>
            <caption class="card__title">{say("All sizes")}</caption>
            <thead><tr><th scope="col">{say("Patty")}</th><th scope="col">{say("Thick")}</th><th scope="col">{say("Turn")}</th><th scope="col">{say("Probe")}</th></tr></thead>
            <tbody>{rows}</tbody>
        </table>
    }
}

fn row(name: String, build: Result<BuildSheet, String>) -> impl IntoView {
    let none = || "–".to_owned();
    let time = |moment: &Moment| moment.text.clone();
    let heat = build.as_ref().ok().and_then(|build| build.heat.as_ref().ok());
    let turn = heat.and_then(|heat| heat.turn.as_ref().ok()).map_or_else(none, time);
    let done = heat.map_or_else(none, |heat| time(&heat.done));
    let thick = build.as_ref().map_or_else(
        |_| none(),
        |build| format!("{} {}", build.thickness.value, build.thickness.unit),
    );
    view! { <tr><th scope="row">{name}</th><td>{thick}</td><td>{turn}</td><td>{done}</td></tr> }
}

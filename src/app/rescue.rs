//! The Rescue room: it crumbles: what do I add, to what is left?

use crate::desk::Desk;
use crate::ears;
use crate::field::{Field, number, weight};
use crate::live::{live, shown};
use crate::parts::{Chips, Rules, adds};
use crate::script;
use leptos::prelude::*;
use markup::view;
use pattywright::balance::{Add, Symptom, apply};
use pattywright::measure::fixed;
use pattywright::sheet::rescue::{CRUMBLES, OTHERS, RescueSheet, left_after, sheet};
use pattywright::sheet::safety;
use pattywright::words::{capital, say};

#[component]
pub fn RescueRoom(desk: Desk) -> impl IntoView {
    let there = Memo::new(move |_| desk.formula().is_some_and(|formula| !formula.lines.is_empty()));
    view! {
        {move || if there.get() { view! { <Asking desk/> }.into_any() } else {
            view! { <section class="card"><p>{say("Write down first what is in the bowl; then this can say what to add.")}</p><a class="button button--main" href="#formula">{say("Go to Formula")}</a></section> }.into_any()
        }}
    }
}

/// Mix in the bowl before any patty was formed, g: the batch on the scale, else the formula.
fn mix_made(desk: Desk) -> f64 {
    let formula = desk.formula().unwrap_or_default();
    desk.document.with(|d| {
        let kitchen = d.kitchen();
        let weighed = kitchen.weigh(&formula);
        let batch = d.weighing.as_ref().filter(|weighing| weighing.formula == formula.id);
        batch
            .and_then(|weighing| {
                weighing
                    .batch
                    .scale(&weighed)
                    .ok()
                    .map(|scaled| scaled.mix_g * weighing.growth)
            })
            .unwrap_or(weighed.total.value)
    })
}

#[component]
fn Asking(desk: Desk) -> impl IntoView {
    let symptom = RwSignal::new(None::<Symptom>);
    let others = RwSignal::new(false);
    let left = RwSignal::new(fixed(untrack(|| mix_made(desk)), 0));
    let advice = Memo::new(move |_| {
        let symptom = symptom.get()?;
        let formula = desk.formula()?;
        let left = weight(&left.get()).unwrap_or(f64::NAN);
        Some(
            desk.document
                .with(|d| sheet(&d.kitchen(), &formula, left, symptom))
                .map_err(|why| why.to_string()),
        )
    });
    let choices = |symptoms: &[Symptom]| symptoms.iter().map(|s| (*s, capital(s.name()))).collect::<Vec<_>>();
    view! {
        <section aria-label=say("What happens")>
            <h2 class="card__title">{say("It crumbles or breaks")}</h2>
            <Chips label=say("When does it break") large=true choices=choices(&CRUMBLES) chosen=move || symptom.get() on_choose=move |s| symptom.set(Some(s))/>
            <details open=live(move || others.get())>
                <summary>{say("Something else is wrong")}</summary>
                <Chips label=say("What is wrong") large=true choices=choices(&OTHERS) chosen=move || symptom.get() on_choose=move |s| { others.set(true); symptom.set(Some(s)) }/>
            </details>
        </section>
        <Left desk left/>
        {shown(move || advice.get().map(|advice| match advice {
            Ok(sheet) => view! { <Advice desk sheet symptom left/> }.into_any(),
            Err(why) => {
                ears::tell(why.clone());
                view! { <p class="alert">{why}</p> }.into_any()
            }
        }))}
    }
}

/// What is left in the bowl: weighed, or worked out from the patties formed.
#[component]
fn Left(desk: Desk, left: RwSignal<String>) -> impl IntoView {
    let formed = RwSignal::new(String::new());
    let each = RwSignal::new(String::new());
    let alert = RwSignal::new(String::new());
    let work_out = move || {
        let (Some(formed), Some(each)) = (number(&formed.get_untracked()), weight(&each.get_untracked())) else {
            return;
        };
        match left_after(untrack(|| mix_made(desk)), formed, each) {
            Some(grams) => {
                alert.set(String::new());
                left.set(fixed(grams, 0));
            }
            None => alert.set(say("That is more than was in the bowl. Weigh what is left.").into()),
        }
    };
    view! {
        <section aria-label=say("What is left")>
            <Field label=say("Left in the bowl, grams") value=left unit="g" number=true/>
            <details>
                <summary>{say("Work it out from the patties formed")}</summary>
                <div class="fields">
                    <Field label=say("Patties formed") value=formed number=true on_type=Callback::new(move |_| work_out())/>
                    <Field label=say("Each, grams") value=each unit="g" number=true alert=alert on_type=Callback::new(move |_| work_out())/>
                </div>
            </details>
        </section>
    }
}

#[component]
fn Advice(desk: Desk, sheet: RescueSheet, symptom: RwSignal<Option<Symptom>>, left: RwSignal<String>) -> impl IntoView {
    let (additions, flavour, left_g) = (sheet.additions.clone(), sheet.flavour.clone(), sheet.left_g);
    let with_flavour: Vec<_> = additions.iter().chain(&flavour).cloned().collect();
    let done = move |additions: &[Add]| {
        let now = script::now();
        let why = symptom.get_untracked().map_or("", Symptom::name);
        let Some(formula) = untrack(|| desk.formula()) else {
            return;
        };
        let changed = desk
            .document
            .with_untracked(|d| apply(&d.kitchen(), &formula, left_g, additions, why, &now));
        match changed {
            Ok(after) => {
                desk.edit("", |document| {
                    if let Some(slot) = document.formulas.iter_mut().find(|f| f.id == after.id) {
                        *slot = after;
                    }
                    document.weighing = None;
                });
                symptom.set(None);
                left.set(fixed(untrack(|| mix_made(desk)), 0));
                desk.say(say("The formula is now what is in the bowl."), true);
            }
            Err(why) => desk.say(why.to_string(), false),
        }
    };
    let amounts: String = sheet
        .add
        .iter()
        .map(|row| format!(", {} {}", row.grams, row.name))
        .collect();
    ears::tell(format!("{}{amounts}", sheet.headline));
    let add_first = !sheet.add.is_empty() && !sheet.small_step;
    let (first, last) = if add_first {
        (sheet.add.clone(), Vec::new())
    } else {
        (Vec::new(), sheet.add.clone())
    };
    view! {
        <section class="card">
            <h2 class="card__title">{sheet.headline}</h2>
            {adds(first)}
            {(!sheet.clash.is_empty()).then(|| view! { <ul class="alert">{sheet.clash.into_iter().map(|c| view! { <li>{c} "."</li> }).collect_view()}</ul> })}
            <ol class="steps">{sheet.steps.into_iter().map(|step| view! { <li>{step}</li> }).collect_view()}</ol>
            {adds(last)}
            <p><strong>{say("Avoid:")}</strong> " " {sheet.avoid}</p>
            <p class="soft small">{sheet.why}</p>
            {(!sheet.top_up.is_empty()).then(|| view! {
                <details>
                    <summary>{say("To keep the flavour, add too")}</summary>
                    {adds(sheet.top_up)}
                    <button type="button" class="button" on:click=move |_| done(&with_flavour)>{say("I have added these and the rest")}</button>
                </details>
            })}
            {(!sheet.after.is_empty()).then(|| view! {
                <Rules label=say("The mix afterwards") rules=Signal::stored(sheet.after)/>
            })}
            {(!sheet.additions.is_empty()).then(|| view! { <button type="button" class="button button--main" on:click=move |_| done(&additions)>{say("I have added it")}</button> })}
        </section>
        <p class="small soft">{safety::wet_mix()[0].says} " " {safety::first()}</p>
    }
}

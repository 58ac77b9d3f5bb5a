//! What the cook sets: size, heat, granules, bun and binder.

use super::Stove;
use crate::field::{Field, weight};
use crate::live::live;
use crate::parts::Chips;
use leptos::prelude::*;
use markup::view;
use pattywright::heat::binder::Grade;
use pattywright::heat::cook::{Rest, Stove as Way};
use pattywright::measure::{Degrees, Length, trimmed};
use pattywright::patty::Shape;
use pattywright::words::say;

/// A field that holds one figure. What is typed stays as typed; a figure that changes elsewhere is shown.
#[component]
fn Gauge(
    stove: Stove,
    /// The label, with the unit in words.
    #[prop(into)]
    label: Signal<String>,
    /// Its name among the fields that are wrong.
    name: &'static str,
    /// The figure now.
    #[prop(into)]
    value: Signal<f64>,
    /// Reads what is typed.
    #[prop(into)]
    read: Callback<String, Option<f64>>,
    /// Writes a figure.
    #[prop(into)]
    write: Callback<f64, String>,
    /// Said where it is not a figure.
    says: &'static str,
    /// Called with a new figure.
    #[prop(into)]
    on_value: Callback<f64>,
) -> impl IntoView {
    let typed = RwSignal::new(write.run(value.get_untracked()));
    let alert = RwSignal::new(String::new());
    Effect::new(move |_| {
        let value = value.get();
        if read.run(typed.get_untracked()) != Some(value) {
            typed.set(write.run(value));
            alert.set(String::new());
            stove.right(name);
        }
    });
    let on_type = Callback::new(move |text: String| match read.run(text) {
        Some(figure) => {
            alert.set(String::new());
            stove.right(name);
            on_value.run(figure);
        }
        None => {
            alert.set(says.into());
            stove.right(name);
            stove.wrong.update(|wrong| wrong.push(name));
        }
    });
    view! { <Field label value=typed alert=alert number=true on_type/> }
}

fn above_zero(figure: Option<f64>) -> Option<f64> {
    figure.filter(|figure| *figure > 0.0)
}

/// Weight, width and outline of the patty looked at.
#[component]
pub fn Size(stove: Stove) -> impl IntoView {
    let length = stove.desk.document.with_untracked(|d| d.settings.length);
    let shape = move || Some(stove.build().shape);
    view! {
        <section class="gauges gauges--size" aria-label=say("Size")>
            <Gauge stove label=say("Weight, g") name="weight" value=Signal::derive(move || stove.build().grams)
                read=|text: String| above_zero(weight(&text)) write=|grams| trimmed(grams, 1) says=say("Type a weight, such as 90")
                on_value=move |grams| stove.change_build("cook weight", |build| build.grams = grams)/>
            <Gauge stove label=say!("Across, {unit}", unit = length.symbol()) name="across" value=Signal::derive(move || stove.build().across_mm)
                read=move |text: String| above_zero(length.read(&text)) write=move |mm| length.write(mm) says=say("Type a width, such as 105 mm or 4 in")
                on_value=move |mm| stove.change_build("cook width", |build| build.across_mm = mm)/>
            <Chips label=say("Outline") chosen=shape choices=vec![(Shape::Round, say("round").into()), (Shape::Square, say("square").into())]
                on_choose=move |shape| stove.change_build("", |build| build.shape = shape)/>
        </section>
    }
}

/// What the second temperature is of.
fn hot(stove: Stove) -> &'static str {
    match stove.cooking.with(|cooking| cooking.stove) {
        Way::Pan => say("Pan"),
        Way::Press => say("Plates"),
        Way::Oven => say("Oven"),
    }
}

/// Start, pan and core.
#[component]
pub fn Heat(stove: Stove) -> impl IntoView {
    let degrees = stove.desk.document.with_untracked(|d| d.settings.degrees);
    let read = Callback::new(move |text: String| degrees.read(&text));
    let write = Callback::new(move |c: f64| degrees.write(c));
    let sign = degrees.symbol();
    let way = move || Some(stove.cooking.with(|c| c.stove));
    view! {
        <Chips label=say("How it is heated") chosen=way choices=Way::ALL.map(|way| (way, way.name().to_owned())).to_vec()
            on_choose=move |way| stove.change("", |cooking| cooking.stove = way)/>
        <section class="gauges" aria-label=say("Heat")>
            <Gauge stove label=say!("Patty, {sign}", sign) name="start" value=Signal::derive(move || stove.cooking.with(|c| c.start_c))
                read write says=say("Type a temperature") on_value=move |c| stove.change("cook start", |cooking| cooking.start_c = c)/>
            <Gauge stove label=Signal::derive(move || format!("{}, {sign}", hot(stove))) name="pan" value=Signal::derive(move || stove.cooking.with(|c| c.pan_c))
                read write says=say("Type a temperature") on_value=move |c| stove.change("cook pan", |cooking| cooking.pan_c = c)/>
            <Gauge stove label=say!("Core, {sign}", sign) name="core" value=Signal::derive(move || stove.cooking.with(|c| c.core_c))
                read write says=say("Type a temperature") on_value=move |c| stove.change("cook core", |cooking| cooking.core_c = c)/>
        </section>
    }
}

/// What is set once: granules, bun, binder, thermometer, ruler.
#[component]
pub fn More(stove: Stove) -> impl IntoView {
    let desk = stove.desk;
    let length = desk.document.with_untracked(|d| d.settings.length);
    let granule = RwSignal::new(
        stove
            .cooking
            .with_untracked(|c| c.granule_mm.map_or(String::new(), |mm| length.write(mm))),
    );
    let rest = move || Some(stove.cooking.with(|c| c.rest));
    let alert = RwSignal::new(String::new());
    let on_granule = Callback::new(move |text: String| {
        let mm = above_zero(length.read(&text));
        if mm.is_none() && !text.trim().is_empty() {
            return alert.set(say("Type a size, such as 4 mm; leave it empty if you have not measured").into());
        }
        alert.set(String::new());
        stove.change("cook granule", |cooking| cooking.granule_mm = mm);
    });
    view! {
        <details>
            <summary>{say("Granules, bun, rest, binder")}</summary>
            <div class="fields">
                <Field label=say!("Large soaked granule, {unit}", unit = length.symbol()) value=granule alert=alert number=true on_type=on_granule/>
                <Gauge stove label=say!("Bun across, {unit}", unit = length.symbol()) name="bun" value=Signal::derive(move || stove.cooking.with(|c| c.bun_mm))
                    read=move |text: String| above_zero(length.read(&text)) write=move |mm| length.write(mm) says=say("Type a width, such as 100 mm or 4 in")
                    on_value=move |mm| stove.change("cook bun", |cooking| cooking.bun_mm = mm)/>
                <Gauge stove label=say!("Over the bun’s edge, {unit}", unit = length.symbol()) name="overhang" value=Signal::derive(move || stove.cooking.with(|c| c.overhang_mm))
                    read=move |text: String| length.read(&text).filter(|mm| *mm >= 0.0) write=move |mm| length.write(mm) says=say("Type a length, such as 5 mm, or 0")
                    on_value=move |mm| stove.change("cook overhang", |cooking| cooking.overhang_mm = mm)/>
                <Chips label=say("Where they rest") chosen=rest choices=vec![(Rest::Bun, say("rest on the bun").into()), (Rest::Rack, say("rest on a rack").into())]
                    on_choose=move |rest| stove.change("", |cooking| cooking.rest = rest)/>
                <div class="field field--wide">
                    <label class="field__label" for="cook-grade">{say("What the binder's packet says")}</label>
                    <select id="cook-grade" class="field__input" on:change:target=move |event| {
                        let grade = Grade::from_id(&event.target().value()).map(|grade| grade.id().to_owned());
                        stove.change("", |cooking| cooking.grade = grade);
                    }>
                        <option value="" selected=live(move || stove.cooking.with(|c| c.grade.is_none()))>{say("I do not know")}</option>
                        {Grade::ALL.into_iter().map(|grade| view! {
                            <option value=grade.id() selected=live(move || stove.cooking.with(|c| c.grade.as_deref() == Some(grade.id())))>{grade.name()}</option>
                        }).collect_view()}
                    </select>
                </div>
            </div>
            <p class="small soft">{say("For °F or inches, look under More.")}</p>
        </details>
    }
}

/// Thermometer and ruler, for the room of settings.
#[component]
pub fn Rulers(desk: crate::desk::Desk) -> impl IntoView {
    let degrees = move || Some(desk.document.with(|d| d.settings.degrees));
    let length = move || Some(desk.document.with(|d| d.settings.length));
    view! {
        <section class="card">
            <h2 class="card__title">{say("Thermometer and ruler")}</h2>
            <Chips label=say("Thermometer") chosen=degrees choices=Degrees::ALL.map(|d| (d, d.symbol().to_owned())).to_vec()
                on_choose=move |degrees| desk.edit("", |document| document.settings.degrees = degrees)/>
            <Chips label=say("Ruler") chosen=length choices=Length::ALL.map(|l| (l, l.name().to_owned())).to_vec()
                on_choose=move |length| desk.edit("", |document| document.settings.length = length)/>
        </section>
    }
}

//! The cook's own ingredient, or the pack's own figures over a published row.

use crate::desk::Desk;
use crate::field::{Field, fresh_id, number};
use crate::live::live;
use crate::over::Sheet;
use crate::route::{self, Room, Route};
use leptos::prelude::*;
use markup::view;
use pattywright::document::Document;
use pattywright::pantry::{Entry, Panel, Role};
use pattywright::words::say;

/// Makes an own ingredient for a line that names nothing in the pantry, and opens it.
pub fn start_own(desk: Desk, key: u32, name: &str) {
    let name = if name.trim().is_empty() {
        say("My ingredient")
    } else {
        name.trim()
    };
    let mut id = String::new();
    desk.edit("", |document| {
        id = fresh(document, name);
        document.pantry.push(Entry {
            id: id.clone(),
            name: name.to_owned(),
            ..Entry::default()
        });
        let current = desk.current.get_untracked();
        let here = document.formulas.iter_mut().filter(|f| f.id == current);
        for line in here.flat_map(|f| &mut f.lines).filter(|line| line.key == key) {
            if line.ingredient.is_none() && line.formula.is_none() && line.name.is_some() {
                line.name = None;
                line.ingredient = Some(id.clone());
            }
        }
    });
    route::go(&Route {
        room: Room::Formula,
        over: route::Over::Own(id),
    });
}

/// An id no row and no entry has.
fn fresh(document: &Document, name: &str) -> String {
    let own = document.pantry.iter().map(|entry| entry.id.as_str());
    let id = Document::free_id(name, own.clone());
    if pattywright::pantry::listed(&id).is_some() {
        return Document::free_id(&format!("my {name}"), own);
    }
    id
}

/// A figure of the panel: its label, and where it goes.
type Figure = (&'static str, fn(&mut Panel) -> &mut Option<f64>);

/// The figures of a panel, in the order of a pack.
fn figures() -> [Figure; 8] {
    [
        (say("Energy, kcal"), |panel| &mut panel.energy_kcal),
        (say("Fat, grams"), |panel| &mut panel.fat_g),
        (say("Saturated fat, grams"), |panel| &mut panel.saturated_g),
        (say("Carbohydrate, grams"), |panel| &mut panel.carbohydrate_g),
        (say("Sugars, grams"), |panel| &mut panel.sugars_g),
        (say("Fibre, grams"), |panel| &mut panel.fibre_g),
        (say("Protein, grams"), |panel| &mut panel.protein_g),
        (say("Salt, grams"), |panel| &mut panel.salt_g),
    ]
}

fn shown(value: Option<f64>) -> String {
    value.map_or(String::new(), |v| pattywright::measure::trimmed(v, 3))
}

/// The number in a field, or none where it is empty; else what to do, in a sentence.
fn figure(text: &str) -> Result<Option<f64>, &'static str> {
    let text = text.trim();
    if text.is_empty() {
        Ok(None)
    } else if text.trim_matches(['0', '.', ',']).is_empty() && text.contains('0') {
        Ok(Some(0.0))
    } else {
        let wrong = || say("Type a number, or leave it empty if the pack does not say.");
        number(text).map(Some).ok_or_else(wrong)
    }
}

/// What is wrong with the number in a field, for below it.
fn wrong(field: RwSignal<String>) -> Signal<String> {
    Signal::derive(move || figure(&field.get()).err().unwrap_or_default().to_owned())
}

#[component]
pub fn Own(desk: Desk, id: String) -> impl IntoView {
    let table = pattywright::pantry::listed(&id);
    let entry = desk
        .document
        .with_untracked(|d| d.pantry.iter().find(|e| e.id == id).cloned())
        .unwrap_or_default();
    let known_name = if entry.name.is_empty() {
        table.map_or(String::new(), |row| say(row.kitchen_name).to_owned())
    } else {
        entry.name.clone()
    };
    let mut panel = entry.panel.clone().unwrap_or(Panel {
        serving_g: 100.0,
        ..Panel::default()
    });
    let role = RwSignal::new(entry.role.or(table.map(|row| row.role)).unwrap_or(Role::Seasoning));
    let name = RwSignal::new(known_name);
    let cup = RwSignal::new(shown(entry.cup_g));
    let density = RwSignal::new(shown(entry.density_g_per_ml));
    let serving = RwSignal::new(shown(Some(panel.serving_g)));
    let with_fibre = RwSignal::new(panel.carbohydrate_with_fibre);
    let figures: Vec<(Figure, RwSignal<String>)> = figures()
        .into_iter()
        .map(|figure| (figure, RwSignal::new(shown(*figure.1(&mut panel)))))
        .collect();
    let alert = RwSignal::new(String::new());
    let fields = figures.clone();
    let save = move |_| {
        let read = |field: RwSignal<String>| {
            figure(&field.get_untracked())
                .map_err(|_| say("Some of these figures are no numbers: look above.").to_owned())
        };
        let build = || -> Result<Entry, String> {
            let mut built = entry.clone();
            built.name = name.get_untracked().trim().to_owned();
            built.role = Some(role.get_untracked());
            built.cup_g = read(cup)?;
            built.density_g_per_ml = read(density)?;
            let mut panel = Panel {
                serving_g: read(serving)?.unwrap_or(0.0),
                carbohydrate_with_fibre: with_fibre.get_untracked(),
                ..Panel::default()
            };
            let mut any = false;
            for ((_, place), field) in &figures {
                let value = read(*field)?;
                any |= value.is_some();
                *place(&mut panel) = value;
            }
            built.panel = any.then_some(panel);
            if built.id.is_empty() {
                built.id = if table.is_some() {
                    id.clone()
                } else {
                    desk.document.with_untracked(|d| fresh(d, &built.name))
                };
            }
            let cup = desk.document.with_untracked(|d| d.settings.cup);
            built.check(cup).map_err(|why| format!("{why}."))?;
            Ok(built)
        };
        match build() {
            Ok(built) => {
                desk.edit("", |document| {
                    match document.pantry.iter_mut().find(|e| e.id == built.id) {
                        Some(slot) => *slot = built,
                        None => document.pantry.push(built),
                    }
                });
                route::close();
                desk.say(say("Kept in your pantry."), true);
            }
            Err(why) => alert.set(why),
        }
    };
    let (role_id, fibre_id) = (fresh_id("role"), fresh_id("fibre"));
    let (for_role, for_fibre) = (role_id.clone(), fibre_id.clone());
    view! {
        <Sheet title=say("Your own figures")>
            <Field label=say("Name") value=name/>
            <div class="field">
                <label class="field__label" for=for_role>{say("What it does in a mix")}</label>
                <select id=role_id class="field__input" on:change:target=move |event| { if let Some(chosen) = Role::from_id(&event.target().value()) { role.set(chosen) } }>
                    {Role::ALL.into_iter().map(|choice| view! { <option value=choice.id() selected=live(move || role.get() == choice)>{choice.name()}</option> }).collect_view()}
                </select>
            </div>
            <div class="fields">
                <Field label=say("1 level cup weighs, grams") value=cup alert=wrong(cup) unit="g" number=true/>
                <Field label=say("Or density, grams per millilitre") value=density alert=wrong(density) unit="g/ml" number=true/>
            </div>
            <section class="card">
                <h3 class="card__title">{say("From the pack")}</h3>
                <p class="small soft">{say("Leave empty what the pack does not say: unknown is not zero.")}</p>
                <Field label=say("Figures are for a serving of, grams") value=serving alert=wrong(serving) unit="g" number=true/>
                <div class="fields">
                    {fields.into_iter().map(|((label, _), field)| view! { <Field label=label value=field alert=wrong(field) number=true/> }).collect_view()}
                </div>
                <label class="field__box" for=for_fibre>
                    <input id=fibre_id type="checkbox" prop:checked=live(move || with_fibre.get()) on:change:target=move |event| with_fibre.set(event.target().checked())/>
                    {say("This pack counts fibre within carbohydrate (as in the US)")}
                </label>
            </section>
            <p class="alert" role="alert">{alert}</p>
            <button type="button" class="button button--main" on:click=save>{say("Keep it")}</button>
        </Sheet>
    }
}

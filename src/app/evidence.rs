//! The published patties behind a window, drawn.

use leptos::prelude::*;
use markup::view;
use pattywright::formula::Reading;
use pattywright::measure::plain;
use pattywright::sheet::evidence::{Plot, evidence};
use pattywright::words::say;

/// The drawing's inner width and height, and where it starts.
const SIZE: (f64, f64) = (220.0, 70.0);
const START: (f64, f64) = (28.0, 8.0);

fn x(part: f64) -> String {
    plain(START.0 + part * SIZE.0, 1)
}

fn y(part: f64) -> String {
    plain(START.1 + (1.0 - part) * SIZE.1, 1)
}

/// What is published about a reading, with the cook's own figure among it.
#[component]
pub fn Published(reading: Reading, own: Option<f64>) -> impl IntoView {
    let found = evidence(reading, own);
    view! {
        <div class="evidence">
            <p class="soft">{found.used}</p>
            {found.plots.iter().map(drawing).collect_view()}
            {(!found.plots.is_empty()).then(|| view! {
                <p class="soft">{say("● commercial textured soy  ■ textured soy isolate. The band is how far one published patty lies from what the others say of it. The tick is your mix.")}</p>
            })}
            {found.sources.into_iter().map(|source| view! { <p class="soft">{source}</p> }).collect_view()}
        </div>
    }
}

fn drawing(plot: &Plot) -> impl IntoView + use<> {
    let band = |sign: f64| {
        plot.line
            .iter()
            .map(move |(at, up)| format!("{} {}", x(*at), y((up + sign * plot.spread).clamp(0.0, 1.0))))
    };
    let lower: Vec<String> = band(-1.0).collect();
    let around: Vec<String> = band(1.0).chain(lower.into_iter().rev()).collect();
    let line: Vec<String> = plot
        .line
        .iter()
        .map(|(at, up)| format!("{} {}", x(*at), y(*up)))
        .collect();
    let dots: String = plot
        .dots
        .iter()
        .map(|dot| {
            let (cx, cy) = (START.0 + dot.x * SIZE.0, START.1 + (1.0 - dot.y) * SIZE.1);
            if dot.square {
                format!("M{} {}h7v7h-7z", plain(cx - 3.5, 1), plain(cy - 3.5, 1))
            } else {
                format!("M{} {}a4 4 0 1 0 8 0a4 4 0 1 0 -8 0z", plain(cx - 4.0, 1), plain(cy, 1))
            }
        })
        .collect();
    let own = plot.own.map(|at| format!("M{} {}V{}", x(at), y(0.0), y(1.0)));
    let expected = plot.own.zip(plot.expected).map(|(at, up)| {
        let (top, bottom) = (y((up + plot.spread).min(1.0)), y((up - plot.spread).max(0.0)));
        format!(
            "M{at} {top}V{bottom}m-4 0h8M{left} {top}h8",
            at = x(at),
            left = plain(START.0 + at * SIZE.0 - 4.0, 1)
        )
    });
    view! {
        <figure class="evidence__plot">
            <figcaption>{plot.title.clone()}</figcaption>
            <svg viewBox="0 0 260 96" aria-hidden="true">
                <path class="evidence__band" d=format!("M{}z", around.join("L"))></path>
                <path class="evidence__axis" d=format!("M{} {}V{}H{}", x(0.0), y(1.0), y(0.0), x(1.0))></path>
                <path class="evidence__line" d=format!("M{}", line.join("L"))></path>
                <path class="evidence__dots" d=dots></path>
                {own.map(|d| view! { <path class="evidence__own" d=d></path> })}
                {expected.map(|d| view! { <path class="evidence__whisker" d=d></path> })}
                <text class="evidence__label" x="24" y="16" text-anchor="end">{plot.up.1.clone()}</text>
                <text class="evidence__label" x="24" y="80" text-anchor="end">{plot.up.0.clone()}</text>
                <text class="evidence__label" x="28" y="93">{plot.across.0.clone()}</text>
                <text class="evidence__label" x="248" y="93" text-anchor="end">{plot.across.1.clone()}</text>
            </svg>
            <p>{plot.says.clone()}</p>
        </figure>
    }
}

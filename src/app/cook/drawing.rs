//! The patty on its bun, drawn to scale; and the temperature through its thickness over time.

use leptos::prelude::*;
use markup::view;
use pattywright::measure::plain;
use pattywright::patty::Shape;
use pattywright::sheet::cook::{Drawing, Picture};
use pattywright::words::say;

/// How high the halves of a bun are drawn, mm: for the eye only.
const BUN_BELOW_MM: f64 = 18.0;
const BUN_ABOVE_MM: f64 = 32.0;

fn at(mm: f64) -> String {
    plain(mm, 1)
}

/// Raw and cooked, from the side and from above.
#[component]
pub fn ToScale(drawing: Drawing) -> impl IntoView {
    let Drawing {
        shape,
        raw_mm: (raw, raw_high),
        cooked_mm: (cooked, cooked_high),
        bun_mm,
    } = drawing;
    let wide = raw.max(cooked).max(bun_mm) + 8.0;
    let middle = wide / 2.0;
    // From the top: the raw patty, a gap, the bun with the cooked one.
    let dome = 4.0 + raw_high + 10.0;
    let patty = dome + BUN_ABOVE_MM;
    let heel = patty + cooked_high;
    let side_high = heel + BUN_BELOW_MM + 4.0;
    let (left, right) = (middle - bun_mm / 2.0, middle + bun_mm / 2.0);
    let crown = format!(
        "M{l} {y}C{l} {t} {r} {t} {r} {y}Z",
        l = at(left),
        r = at(right),
        y = at(patty),
        // A curve with its handles so high rises to three quarters of that.
        t = at(patty - BUN_ABOVE_MM * 4.0 / 3.0)
    );
    let bottom = format!(
        "M{l} {y}H{r}V{k}Q{r} {b} {ri} {b}H{li}Q{l} {b} {l} {k}Z",
        l = at(left),
        r = at(right),
        y = at(heel),
        k = at(heel + BUN_BELOW_MM - 8.0),
        b = at(heel + BUN_BELOW_MM),
        ri = at(right - 8.0),
        li = at(left + 8.0)
    );
    let outline = move |across: f64, class: &'static str| {
        match shape {
        Shape::Round => {
            view! { <circle class=class cx=at(middle) cy=at(middle) r=at(across / 2.0)></circle> }.into_any()
        }
        Shape::Square => view! {
            <rect class=class x=at(middle - across / 2.0) y=at(middle - across / 2.0) width=at(across) height=at(across)></rect>
        }
        .into_any(),
    }
    };
    view! {
        <figure class="scale">
            <svg class="scale__side" viewBox=format!("0 0 {} {}", at(wide), at(side_high)) role="img" aria-label=say("From the side, to scale: the raw patty above, the cooked one in its bun below")>
                <rect class="scale__raw" x=at(middle - raw / 2.0) y="4" width=at(raw) height=at(raw_high) rx="2"></rect>
                <path class="scale__bun" d=crown></path>
                <path class="scale__bun" d=bottom></path>
                <rect class="scale__cooked" x=at(middle - cooked / 2.0) y=at(patty) width=at(cooked) height=at(cooked_high) rx="2"></rect>
            </svg>
            <svg class="scale__above" viewBox=format!("0 0 {w} {w}", w = at(wide)) role="img" aria-label=say("From above, to scale: bun, cooked patty and the outline of the raw one")>
                <circle class="scale__bun" cx=at(middle) cy=at(middle) r=at(bun_mm / 2.0)></circle>
                {outline(cooked, "scale__cooked")}
                {outline(raw, "scale__raw")}
            </svg>
            <figcaption class="small soft">{say("To scale, side and top. Dashed: raw. Filled: cooked, on its bun.")}</figcaption>
        </figure>
    }
}

/// Temperature through the thickness over time.
#[component]
pub fn FieldPicture(picture: Picture) -> impl IntoView {
    let upright = |x: f64| format!("M{x} 0V120", x = at(x));
    let (set_key, hot_key) = picture.key;
    view! {
        <figure class="heat">
            <svg class="heat__field" viewBox="-20 -16 324 160" role="img" aria-label=picture.says>
                <defs>
                    <pattern id="heat-set" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                        <rect class="heat__set-ground" width="6" height="6"></rect>
                        <path class="heat__set-hatch" d="M0 0V6"></path>
                    </pattern>
                    <pattern id="heat-hot" width="5" height="5" patternUnits="userSpaceOnUse">
                        <rect class="heat__hot-ground" width="5" height="5"></rect>
                        <circle class="heat__hot-dot" cx="2.5" cy="2.5" r="0.9"></circle>
                    </pattern>
                </defs>
                <rect class="heat__raw" x="0" y="0" width="300" height="120"></rect>
                <path fill="url(#heat-set)" d=picture.set></path>
                <path fill="url(#heat-hot)" d=picture.hot></path>
                <path class="heat__line" d=picture.set_line></path>
                <path class="heat__line heat__line--hot" d=picture.hot_line></path>
                {picture.turn_x.map(|x| view! {
                    <path class="heat__mark" d=upright(x)></path>
                    <text class="heat__text" x=at(x) y="-4" text-anchor="middle">{say("turn")}</text>
                })}
                <path class="heat__mark" d=upright(picture.done_x)></path>
                <text class="heat__text" x=at(picture.done_x) y="-4" text-anchor="middle">{say("probe")}</text>
                <path class="heat__line" d="M0 0V120H300"></path>
                <text class="heat__text" x="-6" y="120" transform="rotate(-90 -6 120)">{say("first down")}</text>
                {picture.ticks.into_iter().map(|tick| view! {
                    <path class="heat__line" d=format!("M{} 120v4", at(tick.x))></path>
                    <text class="heat__text" x=at(tick.x) y="137" text-anchor="middle">{tick.label}</text>
                }).collect_view()}
                <text class="heat__text" x="300" y="137" text-anchor="end">{say("min")}</text>
            </svg>
            <figcaption class="key">
                {(!set_key.is_empty()).then(|| view! { <span class="key__one"><svg class="heat__swatch" viewBox="0 0 16 12" aria-hidden="true"><rect width="16" height="12" fill="url(#heat-set)"></rect></svg>{set_key}</span> })}
                <span class="key__one"><svg class="heat__swatch" viewBox="0 0 16 12" aria-hidden="true"><rect width="16" height="12" fill="url(#heat-hot)"></rect></svg>{hot_key}</span>
            </figcaption>
        </figure>
        <details>
            <summary>{say("The same in figures")}</summary>
            <table class="table table--figures">
                <caption class="quiet">{say("Temperature over time")}</caption>
                <thead><tr><th scope="col">{say("After")}</th><th scope="col">{say("Side first down")}</th><th scope="col">{say("Middle")}</th><th scope="col">{say("Other side")}</th></tr></thead>
                <tbody>{picture.rows.into_iter().map(|[after, below, middle, above]| view! {
                    <tr><th scope="row">{after}</th><td>{below}</td><td>{middle}</td><td>{above}</td></tr>
                }).collect_view()}</tbody>
            </table>
        </details>
    }
}

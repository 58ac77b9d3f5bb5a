use leptos::prelude::*;

fn main() {
    leptos::mount::mount_to_body(|| {
        let (count, set_count) = signal(0);
        view! { <button on:click=move |_| set_count.update(|n| *n += 1)>"Count: " {count}</button> }
    });
    if let Some(performance) = window().performance() {
        let _ = performance.mark("pw-ready");
    }
}

//! The bell: three short tones, a shake, and a screen that stays awake while a timer runs.
//!
//! A browser lets a page sound only once it has been touched, so the first touch after loading opens the sound.

use js_sys::{Function, Object, Promise, Reflect};
use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::AudioContext;

/// Pitch of a tone, Hz; its length and the pause after it, s; its loudness.
const PITCH: f32 = 880.0;
const TONE_S: f64 = 0.22;
const PAUSE_S: f64 = 0.12;
const LOUD: f32 = 0.5;

/// Shakes and pauses, ms.
const SHAKES_MS: [u32; 5] = [300, 120, 300, 120, 300];

/// Cheap to copy.
#[derive(Clone, Copy)]
pub struct Bell {
    sound: StoredValue<Option<AudioContext>, LocalStorage>,
    /// What keeps the screen awake.
    awake: StoredValue<Option<JsValue>, LocalStorage>,
    /// Whether the page has been touched, so that it may sound.
    pub touched: RwSignal<bool>,
}

impl Bell {
    pub fn new() -> Bell {
        Bell {
            sound: StoredValue::new_local(None),
            awake: StoredValue::new_local(None),
            touched: RwSignal::new(false),
        }
    }

    /// Opens the sound; only of use within a touch.
    pub fn open(self) {
        self.touched.set(true);
        if self.sound.with_value(Option::is_none) {
            self.sound.set_value(AudioContext::new().ok());
        }
        self.sound.with_value(|sound| {
            if let Some(sound) = sound {
                let _ = sound.resume();
            }
        });
    }

    /// Sounds and shakes once.
    pub fn ring(self) {
        self.sound.with_value(|sound| {
            if let Some(sound) = sound {
                for n in 0..3 {
                    let _ = tone(sound, sound.current_time() + f64::from(n) * (TONE_S + PAUSE_S));
                }
            }
        });
        if !self.touched.get_untracked() {
            return;
        }
        let shakes = SHAKES_MS.iter().map(|ms| JsValue::from(*ms)).collect::<js_sys::Array>();
        // Some browsers do not shake.
        let navigator = window().navigator();
        if let Some(shake) = function(&navigator, "vibrate") {
            let _ = shake.call1(&navigator, &shakes);
        }
    }

    /// Keeps the screen awake, where the browser can; it lets go by itself when the page is hidden.
    pub fn stay_awake(self) {
        let navigator = window().navigator();
        let Ok(lock) = Reflect::get(&navigator, &"wakeLock".into()) else {
            return;
        };
        let asked = function(&lock, "request").and_then(|request| request.call1(&lock, &"screen".into()).ok());
        let Some(promise) = asked.and_then(|asked| asked.dyn_into::<Promise>().ok()) else {
            return;
        };
        spawn_local(async move {
            if let Ok(held) = JsFuture::from(promise).await {
                self.let_sleep();
                self.awake.set_value(Some(held));
            }
        });
    }

    /// Lets the screen go to sleep again.
    pub fn let_sleep(self) {
        if let Some(held) = self.awake.try_update_value(Option::take).flatten()
            && let Some(release) = function(&held, "release")
        {
            let _ = release.call0(&held);
        }
    }
}

fn tone(sound: &AudioContext, at_s: f64) -> Result<(), JsValue> {
    let (tone, loudness) = (sound.create_oscillator()?, sound.create_gain()?);
    tone.frequency().set_value(PITCH);
    loudness.gain().set_value_at_time(LOUD, at_s)?;
    loudness
        .gain()
        .exponential_ramp_to_value_at_time(0.001, at_s + TONE_S)?;
    tone.connect_with_audio_node(&loudness)?;
    loudness.connect_with_audio_node(&sound.destination())?;
    tone.start_with_when(at_s)?;
    tone.stop_with_when(at_s + TONE_S)
}

/// A method that a browser may lack.
fn function(of: &JsValue, name: &str) -> Option<Function> {
    of.is_instance_of::<Object>()
        .then(|| Reflect::get(of, &name.into()).ok()?.dyn_into().ok())
        .flatten()
}

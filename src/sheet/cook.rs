//! The Cook room: how thick, how thin, when to turn, when is the core hot?

mod picture;

pub use picture::{Picture, Tick};

use super::Figure;
use super::timer::Call;
use crate::document::{Build, Cooking, Document, Settings};
use crate::formula::{Batch, Formula, Kitchen, on_the_scale};
use crate::heat::HeatError;
use crate::heat::binder::Grade;
use crate::heat::cook::{Answers, Caution, Patty, Plan, Rest, Softening, Stove, Turns};
use crate::heat::strips::TRADE_BAKE;
use crate::measure::{Degrees, Estimate, fixed, grams, with_spread};
use crate::patty::{
    Cooked, Cooking as Losses, HAND_FORMED_SD_MM, Mix, Shape, Texture, Thinness, cooked, raw_across_for_bun_mm,
    thickness_mm, thinnest,
};
use crate::words::say;

/// Temperature of the kitchen, °C: common practice, no source. Ten degrees more or less move no answer by its spread.
const ROOM_C: f64 = 22.0;

/// Said beside every time.
pub fn estimates() -> &'static str {
    say(
        "Estimates; ± is one standard deviation, most of it the pan. Put a probe into the middle, and note what your pan does.",
    )
}

/// Where the times come from, in a sentence or two.
pub fn how() -> &'static str {
    say(
        "Heat is followed through the thickness only, from a pan that touches as published beef patties were touched (100 ± 40 W/m²K, fitted). \
The turn is told when the middle has reached the temperature at which the binder sets. Against published cooking times the model is out by about 25 %. \
Between plates the contact is that of published clamshell grills (450 ± 115 W/m²K); in the oven, still air and radiation. \
Edges, dripping fat, puffing and frozen patties are left out.",
    )
}

/// The whole room.
#[derive(Clone, PartialEq, Debug)]
pub struct CookSheet {
    /// One for each patty, in the cook's order; a sentence where one cannot be worked out.
    pub builds: Vec<Result<BuildSheet, String>>,
}

/// One patty.
#[derive(Clone, PartialEq, Debug)]
pub struct BuildSheet {
    /// `90 g, round`.
    pub name: String,
    /// Raw thickness.
    pub thickness: Figure,
    /// How it stands to the thinnest workable.
    pub thin: Thin,
    /// `Roll balls of 90 g and press them to 10.2 ± 0.5 mm`.
    pub form: String,
    /// `97 ± 3 mm across, 80 g ± 2 g`.
    pub cooked: String,
    /// How wide to form it to meet the bun; empty where that cannot be told.
    pub for_bun: String,
    /// What is drawn to scale.
    pub drawing: Drawing,
    /// What the heat does; a sentence where it cannot be told.
    pub heat: Result<HeatSheet, String>,
}

/// How a thickness stands to the thinnest workable one.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Thin {
    /// `Granules of 3 mm want 9 ± 2 mm or more`, and what to do.
    pub says: String,
    /// True where it may break.
    pub alert: bool,
}

/// Sizes for the drawing, mm.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Drawing {
    /// Seen from above.
    pub shape: Shape,
    /// Raw width and thickness.
    pub raw_mm: (f64, f64),
    /// Cooked width and thickness.
    pub cooked_mm: (f64, f64),
    /// Width of the bun.
    pub bun_mm: f64,
}

/// What the heat does.
#[derive(Clone, PartialEq, Debug)]
pub struct HeatSheet {
    /// Earliest safe turn, or why it is not told.
    pub turn: Result<Moment, String>,
    /// When the core reaches its target.
    pub done: Moment,
    /// The core target: `74 °C`.
    pub target: String,
    /// `Off the heat the core climbs to 76 ± 7 °C`.
    pub after: String,
    /// How long it stays firm on the bun.
    pub holds: String,
    /// What it loses as steam.
    pub loss: String,
    /// What to watch for, the gravest first.
    pub cautions: Vec<String>,
    /// Temperature through the thickness over time.
    pub picture: Picture,
}

/// A time to look at the clock, rounded as far as its spread allows.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Moment {
    /// Seconds from the start, rounded as shown.
    pub seconds: u32,
    /// `2:40`.
    pub text: String,
    /// `± 1:10`.
    pub spread: String,
}

impl Moment {
    /// Rounds to 10 s where the spread is half a minute or more, to 5 s below.
    pub fn of(seconds: Estimate) -> Self {
        let step = if seconds.sd < 30.0 { 5.0 } else { 10.0 };
        let round = |s: f64| ((s / step).round() * step) as u32;
        let at = round(seconds.value);
        Self {
            seconds: at,
            text: clock(at),
            spread: format!("± {}", clock(round(seconds.sd).max(5))),
        }
    }
}

/// Writes seconds as a kitchen timer does: `2:40`, `1:05:00`.
pub fn clock(seconds: u32) -> String {
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}

/// Tonight's patties: what the cook set, or else one for each weight of the batch on the scale.
pub fn tonight(document: &Document, formula: &str) -> Cooking {
    if let Some(cooking) = &document.cooking {
        return cooking.clone();
    }
    let batch = document
        .weighing
        .as_ref()
        .filter(|weighing| weighing.formula == formula);
    let mut cooking = Cooking::default();
    if let Some(Batch::Patties { patties, .. }) = batch.map(|weighing| &weighing.batch)
        && !patties.is_empty()
    {
        let build = |grams| Build {
            grams,
            ..Build::default()
        };
        cooking.builds = patties
            .iter()
            .take(crate::document::MOST_BUILDS)
            .map(|patty| build(patty.grams))
            .collect();
    }
    cooking
}

/// `90 g, round`.
pub fn name(build: &Build) -> String {
    let weight = grams(build.grams);
    match build.shape {
        Shape::Round => say!("{weight}, round", weight),
        Shape::Square => say!("{weight}, square", weight),
    }
}

/// Works the room out.
///
/// - `answer`: works out a plan; the screen hands in one that remembers.
///
/// # Errors
/// A sentence that says what the formula lacks.
pub fn sheet(
    kitchen: &Kitchen,
    settings: &Settings,
    formula: &Formula,
    cooking: &Cooking,
    answer: &dyn Fn(&Plan) -> Result<Answers, HeatError>,
) -> Result<CookSheet, String> {
    let grade = cooking.grade.as_deref().and_then(Grade::from_id);
    let mix = Mix::of(kitchen, formula, grade).map_err(|why| why.to_string())?;
    let room = Working {
        settings,
        cooking,
        mix,
        answer,
    };
    Ok(CookSheet {
        builds: cooking.builds.iter().map(|build| room.build(build)).collect(),
    })
}

/// What is the same for every patty.
struct Working<'a> {
    settings: &'a Settings,
    cooking: &'a Cooking,
    mix: Mix,
    answer: &'a dyn Fn(&Plan) -> Result<Answers, HeatError>,
}

impl Working<'_> {
    fn build(&self, build: &Build) -> Result<BuildSheet, String> {
        let said = |why: crate::patty::PattyError| why.to_string();
        let Cooking {
            start_c,
            bun_mm,
            overhang_mm,
            ..
        } = *self.cooking;
        if !(0.0..100.0).contains(&start_c) {
            return Err(HeatError::Frozen(start_c).in_degrees(self.settings.degrees));
        }
        let weight = on_the_scale(build.grams, self.settings.scale_step_g);
        let across = Estimate::new(build.across_mm, HAND_FORMED_SD_MM);
        let density = self.mix.density_g_per_ml(start_c);
        let thickness = thickness_mm(weight, density, build.shape, across).map_err(said)?;
        let losses = Losses::published(Texture::Flour, self.mix.binder_percent);
        let after = cooked(weight, across, thickness, &losses).map_err(said)?;
        let length = self.settings.length;
        Ok(BuildSheet {
            name: name(build),
            thickness: Figure {
                value: length.figure(thickness).0,
                spread: format!("± {}", length.figure(thickness).1),
                unit: length.symbol(),
            },
            form: say!(
                "Roll balls of {weight} and press them to {thickness}.",
                weight = grams(build.grams),
                thickness = length.text(thickness)
            ),
            thin: self.thin(thickness.value),
            cooked: self.cooked(&after),
            for_bun: raw_across_for_bun_mm(bun_mm, overhang_mm, &losses)
                .map_or(String::new(), |raw_mm| self.for_bun(raw_mm)),
            drawing: Drawing {
                shape: build.shape,
                raw_mm: (build.across_mm, thickness.value),
                cooked_mm: (after.across_mm.value, after.thickness_mm.value),
                bun_mm,
            },
            heat: self.heat(thickness),
        })
    }

    fn for_bun(&self, raw_mm: Estimate) -> String {
        let (bun, wide) = (self.mm(self.cooking.bun_mm), self.settings.length.text(raw_mm));
        if self.cooking.overhang_mm > 0.0 {
            say!(
                "To hang {overhang} over the edge of a bun of {bun} when cooked, form it {wide} wide.",
                overhang = self.mm(self.cooking.overhang_mm),
                bun,
                wide
            )
        } else {
            say!(
                "To reach the edge of a bun of {bun} when cooked, form it {wide} wide.",
                bun,
                wide
            )
        }
    }

    /// A length as the cook reads it: `105 mm`.
    fn mm(&self, mm: f64) -> String {
        let length = self.settings.length;
        format!("{} {}", length.write(mm), length.symbol())
    }

    fn thin(&self, wanted_mm: f64) -> Thin {
        let Some(granule_mm) = self.cooking.granule_mm else {
            return Thin {
                says: say("How thin it may go depends on the granules: measure a large one once it is soaked.").into(),
                alert: false,
            };
        };
        match thinnest(granule_mm, self.mix.binder_percent, wanted_mm) {
            Err(why) => Thin {
                says: format!("{why}."),
                alert: true,
            },
            Ok(found) => {
                let least = say!(
                    "Soaked granules of {size} hold from {least} up.",
                    size = self.mm(granule_mm),
                    least = self.settings.length.text(found.thinnest_mm)
                );
                let advice = match found.thinness {
                    Thinness::Fine => "",
                    Thinness::Risky => say(
                        "This one is close to it: chill the mix, press it between two sheets, and turn it with a wide slice.",
                    ),
                    Thinness::TooThin => say(
                        "This one is thinner: crush a quarter of the granules fine, add a little binder, or make it smaller across.",
                    ),
                };
                Thin {
                    says: format!("{least} {advice}").trim_end().to_owned(),
                    alert: found.thinness != Thinness::Fine,
                }
            }
        }
    }

    fn cooked(&self, cooked: &Cooked) -> String {
        say!(
            "{across} across and {weight} ± {spread} g",
            across = self.settings.length.text(cooked.across_mm),
            weight = fixed(cooked.grams.value, 0),
            spread = fixed(cooked.grams.sd, 0)
        )
    }

    fn heat(&self, thickness_mm: Estimate) -> Result<HeatSheet, String> {
        let Cooking {
            start_c,
            stove,
            rest,
            pan_c,
            core_c,
            ..
        } = *self.cooking;
        let plan = Plan {
            patty: Patty {
                food: self.mix.food,
                thickness_mm,
                start_c,
            },
            way: stove.at(pan_c, Turns::WhenSet),
            room_c: ROOM_C,
            core_c,
            gel: self.mix.gel_to_follow(),
            rest,
        };
        let degrees = self.settings.degrees;
        let answers = (self.answer)(&plan).map_err(|why| format!("{}.", why.in_degrees(degrees)))?;
        let turn = match (&self.mix.gel, answers.first_turn_s) {
            (Err(why), _) => Err(format!("{why}.")),
            (Ok(_), None) if stove == Stove::Pan => Err(say("Its middle does not set from one side.").into()),
            (Ok(_), None) => Err(say("It is not turned: the heat comes from both sides.").into()),
            (Ok(_), Some(turn_s)) => Ok(Moment::of(turn_s)),
        };
        let peak = degrees.of(answers.peak_core_c);
        let (peak, peak_sd) = with_spread(peak.value, peak.sd);
        let set_c = self.mix.gel.ok().map(|gel| gel.sets_c.value);
        Ok(HeatSheet {
            turn,
            done: Moment::of(answers.done_s),
            target: degrees.text(core_c),
            after: say!(
                "Off the heat its core reaches {peak} ± {spread} {unit}.",
                peak,
                spread = peak_sd,
                unit = degrees.symbol()
            ),
            holds: holds(answers.softens, rest),
            loss: say!(
                "About {percent} % of its weight leaves as steam; fat and juice drip besides.",
                percent = fixed(answers.cook_loss_percent.value, 0)
            ),
            cautions: self.cautions(&answers),
            picture: Picture::of(&answers, set_c, core_c, degrees),
        })
    }

    fn cautions(&self, answers: &Answers) -> Vec<String> {
        let degrees = self.settings.degrees;
        let mut said: Vec<String> = answers
            .cautions
            .iter()
            .rev()
            .map(|caution| match caution {
                Caution::Probe { core_c } => say!(
                    "Put a probe into the middle and look for {core}: it decides, not the clock.",
                    core = degrees.text(*core_c)
                ),
                Caution::BelowHotHolding => say!(
                    "Plant food that is held hot reaches {least} first (US Food Code 3-401.13).",
                    least = degrees.text(57.0)
                ),
                Caution::ColdLayer { coldest_c } => say!(
                    "When the middle is hot, a layer beside it has had only {coldest}: turn it once more.",
                    coldest = degrees.text(*coldest_c)
                ),
                Caution::HotFat => say!(
                    "Above {limit} common oils smoke and may catch fire: lower the heat.",
                    limit = degrees.text(230.0)
                ),
                other => format!("{other}."),
            })
            .collect();
        if self.mix.salt_open {
            said.push(
                say("The salt of some lines is not known and is left out: more salt sets the binder sooner than told.")
                    .into(),
            );
        }
        said.push(
            match self.cooking.stove {
                Stove::Oven => {
                    say("The tray is as hot as the oven: use dry cloths, and mind the steam as you open it.")
                }
                _ => say("Hot fat burns: lay the patty in away from you, and keep water out of the pan."),
            }
            .into(),
        );
        said
    }
}

/// How the trade bakes thin glazed strips, and the marks of its clock.
pub fn strips(degrees: Degrees) -> (String, [(Call, u32); 2]) {
    let bake = TRADE_BAKE;
    let minutes = |s: f64| fixed(s / 60.0, 0);
    let says = say!(
        "Thin glazed strips of 2 to 4 mm bake at about {oven} for {least} to {most} minutes; look and turn them after {look}. Trade practice, no source: the glaze decides, so go by its colour, and probe thicker ones.",
        oven = degrees.text(bake.oven_c),
        least = minutes(bake.bake_s.0),
        most = minutes(bake.bake_s.1),
        look = minutes(bake.first_look_s)
    );
    let marks = [
        (Call::Look, bake.first_look_s as u32),
        (Call::Out, bake.bake_s.0 as u32),
    ];
    (says, marks)
}

fn holds(softens: Softening, rest: Rest) -> String {
    let place = match rest {
        Rest::Bun => say("On the bun"),
        Rest::Rack => say("On a rack"),
    };
    match softens {
        Softening::AfterMinutes(minutes) => {
            let (minutes, spread) = with_spread(minutes.value, minutes.sd);
            say!(
                "{place} it stays firm for about {minutes} ± {spread} minutes; then the binder softens.",
                place,
                minutes,
                spread
            )
        }
        Softening::NotWithinMinutes(minutes) => say!(
            "{place} it stays firm for more than {minutes} minutes.",
            place,
            minutes = fixed(minutes, 0)
        ),
        Softening::Unknown => say("When this binder softens again is not known.").into(),
    }
}

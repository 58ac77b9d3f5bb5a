//! What went wrong, why, and what helps: the table behind the rescue.
//!
//! Three different bonds hold a patty at three different moments: cold while it is formed, in the pan before it sets, and after it cools.
//! They need different remedies, so each symptom names its moment.
//!
//! # Source
//! Causes follow published work on methylcellulose gels (Lott and others, Macromolecules 2013;46:9760; Vigouret and others, J Chim Phys 1996;93:858) and on bound soy patties (Food Engineering Progress 2020;24:317; Bakhsh and others, Foods 2021;10:560).
//! The remedies and their step sizes are working advice: common practice, no source.

use super::gelling::Moment;
use crate::formula::{Reading, Style};
use crate::pantry::Role;
use crate::words::say;

/// What the cook sees.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Symptom {
    /// Crumbles while it is formed, cold.
    CrumblesForming,
    /// Breaks in the pan before it sets.
    BreaksInPan,
    /// Breaks when it is turned.
    BreaksWhenTurned,
    /// Only the thin ones break.
    ThinOnesBreak,
    /// Falls apart as it cools.
    FallsApartCooling,
    /// Sticky and wet.
    StickyWet,
    /// Gummy.
    Gummy,
    /// Mushy when hot.
    Mushy,
    /// Dry.
    Dry,
    /// Greasy, fat leaks.
    Greasy,
    /// Too salty.
    TooSalty,
    /// Too dark.
    TooDark,
}

/// What a remedy asks of the mix.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Wish {
    /// Bring the reading up to its window.
    Raise(Reading),
    /// Bring the reading down to its window.
    Lower(Reading),
    /// Bring the reading into its window from either side.
    Within(Reading),
    /// Bring a role's share down by a part of itself, for what has no window.
    Thin(Role, f64),
}

/// A small step beyond a mix that is in its windows: working advice, common practice, no source.
pub(super) struct Step {
    pub reading: Reading,
    /// How far, in the reading's own unit; below zero to lower it.
    pub by: f64,
}

/// Binder that holds more at any moment.
const MORE_BINDER: Step = Step {
    reading: BinderShare,
    by: 0.4,
};
const WETTER: Step = Step {
    reading: Moisture,
    by: 2.0,
};
const DRIER: Step = Step {
    reading: Moisture,
    by: -2.0,
};

/// Everything known about one symptom.
pub(super) struct Remedy {
    pub id: &'static str,
    pub name: &'static str,
    /// Why it happens.
    pub why: &'static str,
    /// What to look at before anything is added.
    pub check_first: &'static str,
    /// What to do beside adding.
    pub action: &'static str,
    /// What makes it worse.
    pub avoid: &'static str,
    /// Rest after adding, minutes.
    pub rest_min: u32,
    /// When it has to hold: decides which binder helps.
    pub moment: Moment,
    /// The windows of this style in place of the formula's own.
    pub style: Option<Style>,
    pub wishes: &'static [Wish],
    /// What may be added.
    pub may_add: &'static [Role],
    /// What the mix is stretched with where it has to grow: more of its own lines that do these.
    pub stretch: &'static [Role],
    /// What to try where nothing is out of its window; none where only the action helps.
    pub small_step: &'static [Step],
    /// What the small step may be made of.
    pub step_with: &'static [Role],
}

use Reading::{BinderInWaterPhase, BinderShare, Fat, Hydration, Moisture, PowderToTextured, Salt};
use Role::{Binder, Liquid, Powder, Textured};
use Wish::{Lower, Raise, Thin, Within};

impl Symptom {
    /// Every symptom, in the order of the evening.
    pub const ALL: [Symptom; 12] = [
        Symptom::CrumblesForming,
        Symptom::BreaksInPan,
        Symptom::BreaksWhenTurned,
        Symptom::ThinOnesBreak,
        Symptom::FallsApartCooling,
        Symptom::StickyWet,
        Symptom::Gummy,
        Symptom::Mushy,
        Symptom::Dry,
        Symptom::Greasy,
        Symptom::TooSalty,
        Symptom::TooDark,
    ];

    /// The name used in documents.
    pub fn id(self) -> &'static str {
        self.remedy().id
    }

    /// The words on the button.
    pub fn name(self) -> &'static str {
        say(self.remedy().name)
    }

    /// Why it happens, in a sentence.
    pub fn why(self) -> &'static str {
        say(self.remedy().why)
    }

    /// What to look at before anything is added.
    pub fn check_first(self) -> &'static str {
        say(self.remedy().check_first)
    }

    /// What makes it worse.
    pub fn avoid(self) -> &'static str {
        say(self.remedy().avoid)
    }

    /// Finds a symptom by its id.
    pub fn from_id(id: &str) -> Option<Symptom> {
        Symptom::ALL.into_iter().find(|symptom| symptom.id() == id)
    }

    pub(super) fn remedy(self) -> &'static Remedy {
        match self {
            Symptom::CrumblesForming => &Remedy {
                id: "crumbles_forming",
                name: "while I form it",
                why: "Cold, only a thick paste of binder holds the granules. There is too little of it, or it has not taken up its water yet.",
                check_first: "Is the mix colder than 5 °C, and has it rested 30 minutes since the binder went in? If not, chill and rest it first.",
                action: "Press one test patty. If hard lumps show, grind a quarter of the granules finer.",
                avoid: "Dry methylcellulose straight into the bowl: it lumps.",
                rest_min: 30,
                moment: Moment::Forming,
                style: None,
                wishes: &[Raise(BinderShare), Within(Moisture), Within(Hydration)],
                may_add: &[Binder, Liquid, Powder, Textured],
                stretch: &[],
                small_step: &[MORE_BINDER, WETTER],
                step_with: &[Binder, Liquid],
            },
            Symptom::BreaksInPan => &Remedy {
                id: "breaks_in_pan",
                name: "in the pan, before it sets",
                why: "On its way to a gel the binder first thins, and the fat melts: for the first minutes nothing holds.",
                check_first: "Was the first side left alone until the edge had set all round? Was the pan hot and the patty's surface dry?",
                action: "Leave the first side longer, under a lid, and do not press.",
                avoid: "Pressing it, or moving it early.",
                rest_min: 30,
                moment: Moment::Pan,
                style: None,
                wishes: &[
                    Raise(BinderShare),
                    Raise(BinderInWaterPhase),
                    Lower(Moisture),
                    Lower(Hydration),
                ],
                may_add: &[Binder, Powder, Textured, Liquid],
                stretch: &[],
                small_step: &[MORE_BINDER],
                step_with: &[Binder, Liquid],
            },
            Symptom::BreaksWhenTurned => &Remedy {
                id: "breaks_when_turned",
                name: "when I turn it",
                why: "It was turned before the gel had set far enough up, or the gel is weak for this much water.",
                check_first: "Wait until the edge is set all round and the patty slides when the pan is shaken. Use a wide, thin turner.",
                action: "Turn once only, and later than before.",
                avoid: "Turning it to look.",
                rest_min: 30,
                moment: Moment::Pan,
                style: None,
                wishes: &[
                    Raise(BinderShare),
                    Raise(BinderInWaterPhase),
                    Lower(Moisture),
                    Lower(Hydration),
                ],
                may_add: &[Binder, Powder, Textured, Liquid],
                stretch: &[],
                small_step: &[MORE_BINDER],
                step_with: &[Binder, Liquid],
            },
            Symptom::ThinOnesBreak => &Remedy {
                id: "thin_ones_break",
                name: "only the thin ones",
                why: "Thin patties need pieces under a third of their thickness, and more paste around each piece.",
                check_first: "Measure the soaked granules: pieces should be under a third of the patty's thickness.",
                action: "Grind a quarter of what is left finer, mix it back in, and press thin ones between paper.",
                avoid: "More water alone.",
                rest_min: 30,
                moment: Moment::Forming,
                style: Some(Style::ThinPatty),
                wishes: &[
                    Raise(BinderShare),
                    Raise(PowderToTextured),
                    Within(Moisture),
                    Within(Hydration),
                ],
                may_add: &[Binder, Powder, Textured, Liquid],
                stretch: &[],
                small_step: &[MORE_BINDER],
                step_with: &[Binder, Liquid],
            },
            Symptom::FallsApartCooling => &Remedy {
                id: "falls_apart_cooling",
                name: "as it cools",
                why: "The methylcellulose gel melts again as it cools. What holds then is protein or starch that has set in the heat.",
                check_first: "Did the core get hot enough for the protein to set? Probe it: 75 °C.",
                action: "Serve it hot, or hold it hot at 57 °C or more. Next time, 0.3–0.5 % carrageenan boiled into part of the water holds it cold (from memory).",
                avoid: "More methylcellulose: it lets go when cool, however much there is.",
                rest_min: 20,
                moment: Moment::Plate,
                style: None,
                wishes: &[Raise(PowderToTextured)],
                may_add: &[Powder, Liquid],
                stretch: &[],
                small_step: &[Step {
                    reading: PowderToTextured,
                    by: 0.05,
                }],
                step_with: &[Powder, Liquid],
            },
            Symptom::StickyWet => &Remedy {
                id: "sticky_wet",
                name: "sticky and wet",
                why: "Stickiness alone is well-soaked binder and no fault. Wetness is more water than the granules hold.",
                check_first: "Oil your hands and chill the mix. If water still stands in the bowl after 20 minutes, there is too much.",
                action: "Pour off any water that stands, and weigh the bowl again.",
                avoid: "Flour on the hands: it makes a gluey skin.",
                rest_min: 20,
                moment: Moment::Forming,
                style: None,
                wishes: &[Lower(Moisture), Lower(Hydration)],
                may_add: &[Textured, Powder],
                stretch: &[],
                small_step: &[DRIER],
                step_with: &[Textured, Powder],
            },
            Symptom::Gummy => &Remedy {
                id: "gummy",
                name: "gummy, bouncy",
                why: "There is too much gelling agent for this mix, or much xanthan or psyllium.",
                check_first: "Is it gummy when cooked? Gummy only while raw is no fault.",
                action: "Stretch the mix with plain soaked granules.",
                avoid: "More kneading.",
                rest_min: 20,
                moment: Moment::Plate,
                style: None,
                wishes: &[Lower(BinderShare), Lower(BinderInWaterPhase)],
                may_add: &[Textured, Powder, Liquid],
                stretch: &[Textured, Powder, Liquid, Role::Fat, Role::Filler],
                small_step: &[Step {
                    reading: BinderShare,
                    by: -0.2,
                }],
                step_with: &[Textured, Liquid],
            },
            Symptom::Mushy => &Remedy {
                id: "mushy",
                name: "hot but mushy",
                why: "There is more water than the mix can hold, or the core stayed below the heat at which protein sets.",
                check_first: "Cook one to a core of 75 °C by probe. If that one is firm, cook longer and add nothing.",
                action: "Next time soak cold, and drain.",
                avoid: "More methylcellulose alone.",
                rest_min: 20,
                moment: Moment::Plate,
                style: None,
                wishes: &[Lower(Moisture), Lower(Hydration), Raise(PowderToTextured)],
                may_add: &[Powder, Textured],
                stretch: &[],
                small_step: &[DRIER],
                step_with: &[Powder, Textured],
            },
            Symptom::Dry => &Remedy {
                id: "dry",
                name: "dry",
                why: "There is too little water or fat, or it was cooked too long.",
                check_first: "Cut one. If pale, hard granules show inside, they want more soaking: rest the mix 20 minutes longer.",
                action: "Cook the next one shorter, and probe it.",
                avoid: "All the water at once.",
                rest_min: 20,
                moment: Moment::Plate,
                style: None,
                wishes: &[Raise(Moisture), Raise(Hydration), Raise(Fat)],
                may_add: &[Liquid, Role::Fat],
                stretch: &[],
                small_step: &[WETTER],
                step_with: &[Liquid],
            },
            Symptom::Greasy => &Remedy {
                id: "greasy",
                name: "greasy, fat runs out",
                why: "There is free liquid oil, or more fat than the binder holds.",
                check_first: "Was the fat solid and cold when it went in? Warm fat leaks.",
                action: "Chill hard before cooking. Next time blend oil with binder and water first.",
                avoid: "A hotter pan: the fat only runs faster.",
                rest_min: 30,
                moment: Moment::Pan,
                style: None,
                wishes: &[Lower(Fat), Raise(BinderShare)],
                may_add: &[Textured, Powder, Binder, Liquid],
                stretch: &[Textured, Powder, Binder, Liquid, Role::Filler],
                small_step: &[MORE_BINDER],
                step_with: &[Binder, Liquid],
            },
            Symptom::TooSalty => &Remedy {
                id: "too_salty",
                name: "too salty",
                why: "Salt cannot be taken out; the mix has to grow around it.",
                check_first: "Taste a cooked piece: raw mix tastes saltier than it will.",
                action: "Leave salt out of the sauces that go with it.",
                avoid: "More seasoning to hide it.",
                rest_min: 20,
                moment: Moment::Plate,
                style: None,
                wishes: &[Lower(Salt)],
                may_add: &[Textured, Powder, Binder, Liquid],
                stretch: &[Textured, Powder, Binder, Liquid, Role::Fat, Role::Filler],
                small_step: &[Step {
                    reading: Salt,
                    by: -0.1,
                }],
                step_with: &[Textured, Liquid],
            },
            Symptom::TooDark => &Remedy {
                id: "too_dark",
                name: "too dark",
                why: "Colour cannot be taken out; the mix has to grow around it.",
                check_first: "Cook one piece first: the colour may change in the heat.",
                action: "Keep some plain soaked granules back next time, to lighten with.",
                avoid: "Vinegar or lemon to lighten it: taste and bind change too.",
                rest_min: 20,
                moment: Moment::Plate,
                style: None,
                wishes: &[Thin(Role::Colour, 0.2)],
                may_add: &[Textured, Powder, Binder, Liquid],
                stretch: &[Textured, Powder, Binder, Liquid, Role::Fat, Role::Filler],
                small_step: &[],
                step_with: &[],
            },
        }
    }
}

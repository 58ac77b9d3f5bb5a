//! A first formula, step by step.

use crate::words::say;

/// One step: what goes in next, and why.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Step {
    /// What goes in.
    pub title: &'static str,
    /// Why, in a sentence or two.
    pub says: &'static str,
    /// A line as a cook would type it.
    pub example: &'static str,
}

/// The steps in English, in the order of the lines. The windows they speak of are those of the readings.
pub const STEPS: [Step; 6] = [
    Step {
        title: "Start with the granules",
        says: "Dry textured soy is the body of the patty. Write it as you measure it, by cup, spoon or scale.",
        example: "1¾ cups soy granules",
    },
    Step {
        title: "A finer protein between them",
        says: "Protein powder fills the gaps between the granules, so that the patty slices and does not crumble.",
        example: "⅓ cup pea protein isolate",
    },
    Step {
        title: "Then the water",
        says: "Granules want two to three times their weight. Watch the ruler “Hydration” when it is in.",
        example: "385 ml water",
    },
    Step {
        title: "Something that binds",
        says: "Methylcellulose sets as it gets hot. One to two parts in a hundred of the mix hold a patty.",
        example: "1 tbsp methylcellulose",
    },
    Step {
        title: "Fat, solid when cold",
        says: "Grated in after a rest, it melts in the pan and keeps the patty from tasting dry.",
        example: "60 g coconut oil",
    },
    Step {
        title: "Salt",
        says: "Weigh it if you can: a teaspoon is a rough measure, and the ± beside each figure says how rough.",
        example: "1¼ tsp salt",
    },
];

/// Said when every step is done.
pub fn done() -> &'static str {
    say(
        "That is a formula. Tap a line and change its amount: the rulers follow. \
        Tap a ruler to see what it means and who says what is good. “Weigh” then makes tonight’s patties of it.",
    )
}

/// The next step after so many lines, in the language spoken; none when all are done.
pub fn next(lines: usize) -> Option<Step> {
    let step = STEPS.get(lines)?;
    Some(Step {
        title: say(step.title),
        says: say(step.says),
        example: say(step.example),
    })
}

/// Where the guide stands: `Step 2 of 5`.
pub fn place(lines: usize) -> String {
    say!("Step {step} of {all}", step = lines + 1, all = STEPS.len())
}

//! One document in, one report out: the maths without the screens.

use super::Asked;
use super::answer::{
    Answer, ChangedAnswer, ConvertAnswer, CookAnswer, PattyAnswer, RescueAnswer, ScaleAnswer, SlabAnswer,
};
use super::question::{Question, Wanted};
use super::report::{FormulaReport, Problem, REPORT_FORMAT, Report};
use crate::balance::{Symptom, Targets, reach, rescue, swap};
use crate::formula::{Batch, Formula, Kitchen, weigh_out};
use crate::measure::Unit;
use crate::words::say;
use serde_json::Value;
use std::collections::BTreeMap;

/// Answers a document's questions, and weighs and reads all its formulas.
///
/// A question that cannot be answered gets an answer with a `why`, and a line in `problems`; the others are answered all the same.
pub fn evaluate(asked: &Asked) -> Report {
    let kitchen = asked.document.kitchen();
    let mut problems = asked.problems.clone();
    let formulas = asked
        .document
        .formulas
        .iter()
        .enumerate()
        .map(|(index, formula)| FormulaReport::of(&kitchen, formula, &format!("formulas[{index}]"), &mut problems))
        .collect();
    let answers = asked
        .questions
        .iter()
        .enumerate()
        .map(|(index, question)| {
            let ask = question.get("ask").and_then(Value::as_str).unwrap_or_default();
            let read = Question::read(question.clone()).map_err(|error| not_read(ask, &error));
            read.and_then(|question| answer(&kitchen, question))
                .unwrap_or_else(|why| {
                    problems.push(Problem::at(format!("questions[{index}]"), why.clone()));
                    Answer::None {
                        ask: ask.to_owned(),
                        value: None,
                        why,
                    }
                })
        })
        .collect();
    Report {
        format: REPORT_FORMAT,
        problems,
        formulas,
        answers,
    }
}

fn not_read(ask: &str, error: &serde_json::Error) -> String {
    say!("The question “{ask}” could not be read: {error}", ask, error)
}

fn answer(kitchen: &Kitchen, question: Question) -> Result<Answer, String> {
    match question {
        Question::Convert {
            ingredient,
            amount,
            to,
            cut,
        } => {
            let pantry = &kitchen.pantry;
            let found = pantry
                .get(&ingredient)
                .ok_or_else(|| say!("“{id}” is not in the pantry", id = ingredient))?;
            let unit = Unit::read(&to).ok_or_else(|| {
                say!(
                    "“{unit}” is not a unit known here; use g, oz, ml, cup, tbsp or tsp",
                    unit = to
                )
            })?;
            let converted = pantry
                .convert(&found, &amount, cut.as_deref(), unit, &kitchen.habits)
                .map_err(|why| why.to_string())?;
            Ok(Answer::Convert(ConvertAnswer::of(&converted)))
        }
        Question::Scale {
            formula,
            patties,
            loss_percent,
            factor,
            total_g,
            limited,
        } => {
            let weighed = kitchen.weigh(named(kitchen, &formula)?);
            let batch = match (factor, total_g, limited) {
                (Some(factor), None, None) if patties.is_empty() => Batch::Factor { factor },
                (None, Some(grams), None) if patties.is_empty() => Batch::Total { grams },
                (None, None, Some(limited)) if patties.is_empty() => Batch::Limited {
                    line: weighed
                        .lines
                        .iter()
                        .find(|line| line.ingredient.as_deref() == Some(&limited.ingredient))
                        .map_or(0, |line| line.key),
                    grams: limited.grams,
                },
                (None, None, None) => Batch::Patties { patties, loss_percent },
                _ => {
                    return Err(say!(
                        "Ask for one of patties, factor, total_g or limited, not for several"
                    ));
                }
            };
            let scaled = batch.scale(&weighed).map_err(|why| why.to_string())?;
            let out = weigh_out(&weighed, &scaled, &BTreeMap::new());
            Ok(Answer::Scale(ScaleAnswer::of(&weighed, &scaled, &out)))
        }
        Question::Rescue {
            formula,
            left_g,
            symptom,
        } => {
            let symptom =
                Symptom::from_id(&symptom).ok_or_else(|| say!("“{id}” is not a symptom known here", id = symptom))?;
            let rescued = rescue(kitchen, named(kitchen, &formula)?, left_g, symptom).map_err(|why| why.to_string())?;
            Ok(Answer::Rescue(Box::new(RescueAnswer::of(&rescued))))
        }
        Question::Reach {
            formula,
            want,
            lock,
            without,
            aim,
        } => {
            let want = want.iter().map(Wanted::read).collect::<Result<_, _>>()?;
            let targets = Targets {
                want,
                lock,
                without,
                aim,
            };
            let changed = reach(kitchen, named(kitchen, &formula)?, &targets).map_err(|why| why.to_string())?;
            Ok(Answer::Reach(Box::new(ChangedAnswer::of(&changed))))
        }
        Question::Swap {
            formula,
            from,
            to,
            crowded,
        } => {
            let (changed, _) =
                swap(kitchen, named(kitchen, &formula)?, &from, &to, crowded).map_err(|why| why.to_string())?;
            Ok(Answer::Swap(Box::new(ChangedAnswer::of(&changed))))
        }
        Question::Patty(asked) => {
            let answer = PattyAnswer::of(kitchen, named(kitchen, &asked.formula)?, &asked)?;
            Ok(Answer::Patty(Box::new(answer)))
        }
        Question::Cook(asked) => {
            let answer = CookAnswer::of(kitchen, named(kitchen, &asked.formula)?, &asked)?;
            Ok(Answer::Cook(Box::new(answer)))
        }
        Question::Slab(asked) => Ok(Answer::Slab(SlabAnswer::of(&asked)?)),
    }
}

fn named<'a>(kitchen: &Kitchen<'a>, id: &str) -> Result<&'a Formula, String> {
    kitchen
        .formula(id)
        .ok_or_else(|| say!("There is no formula “{id}” in the document", id))
}

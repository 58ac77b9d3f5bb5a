//! Times the sums natively, each beside its yardstick, in turns; JSON figures on standard output.

mod heat;

use ironcalc_base::Model;
use pattywright::balance::{Symptom, rescue};
use pattywright::document::{Asked, evaluate, read};
use serde_json::{Value, json};
use std::hint::black_box;
use std::time::Instant;

const LINES: usize = 60;
const ROUNDS: usize = 200;

fn main() {
    let asked = document(LINES);
    let text = asked.document.write();
    let mut sheet = spreadsheet();
    let (mut ours, mut theirs, mut reading, mut rescuing) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    let bowl = document(6);
    for round in 0..ROUNDS {
        ours.push(micros(|| evaluate(&asked)));
        theirs.push(micros(|| recalculate(&mut sheet, round)));
        reading.push(micros(|| read(&text)));
        rescuing.push(micros(|| {
            rescue(
                &bowl.document.kitchen(),
                &bowl.document.formulas[0],
                400.0,
                Symptom::CrumblesForming,
            )
        }));
    }
    let growth = [1, 4].map(|times| {
        let asked = document(LINES * times);
        median(&(0..ROUNDS).map(|_| micros(|| evaluate(&asked))).collect::<Vec<_>>())
    });
    let (mut slab, mut integrator) = (Vec::new(), Vec::new());
    let apart = (heat::ours() - heat::theirs()).abs();
    assert!(apart < 0.1, "the two patties end {apart} K apart");
    for _ in 0..ROUNDS / 10 {
        slab.push(micros(heat::ours));
        integrator.push(micros(heat::theirs));
    }
    let fifth = 0.2 * median(&theirs);
    let figures = [
        figure("spreadsheet engine recalculates 60 lines", &theirs, Value::Null),
        figure("evaluate a 60-line formula", &ours, json!(20.0_f64.min(fifth))),
        figure("read a 60-line document", &reading, Value::Null),
        figure("rescue of a six-line formula", &rescuing, Value::Null),
        figure("general integrator cooks a patty, 10 min", &integrator, Value::Null),
        figure(
            "a patty cooked for 10 min, to 0.1 K of it",
            &slab,
            json!(0.1 * median(&integrator)),
        ),
        json!({ "figure": "evaluate, 240 lines over 60 lines", "unit": "times", "median": growth[1] / growth[0], "reach": 4.4 }),
    ];
    println!("{}", Value::from(figures.to_vec()));
}

/// A formula of this many lines, typed in all the ways cooks type.
fn document(lines: usize) -> Asked {
    let kinds = [
        ("tvp_soy_granules", "1 3/4 cups"),
        ("water", "400 ml"),
        ("methylcellulose", "11 g"),
        ("pea_protein_isolate", "1/3 cup"),
        ("coconut_oil", "4 tbsp"),
        ("table_salt", "1 1/2 tsp"),
    ];
    let line = |n: usize| {
        let (ingredient, amount) = kinds[n % kinds.len()];
        json!({ "ingredient": ingredient, "amount": amount })
    };
    let formula = json!({ "id": "mix", "name": "Mix", "style": "standard_patty", "lines": (0..lines).map(line).collect::<Vec<_>>() });
    let text = json!({ "format": "pattywright/1", "formulas": [formula] }).to_string();
    let asked = read(&text).expect("a document");
    assert_eq!(asked.document.formulas[0].lines.len(), lines);
    asked
}

/// The same arithmetic in cells: quantity × millilitres × density, share, percentage, and nine ratios of sums.
fn spreadsheet() -> Model<'static> {
    let mut model = Model::new_empty("sums", "en", "UTC", "en").expect("an empty sheet");
    let mut put = |row: usize, column: i32, text: String| {
        model.set_user_input(0, row as i32, column, text).expect("a cell");
    };
    for row in 1..=LINES {
        put(row, 1, format!("{}", 1.0 + row as f64 / 7.0));
        put(row, 2, "236.5882365".into());
        put(row, 3, "0.41".into());
        put(row, 4, format!("=A{row}*B{row}*C{row}"));
        put(row, 5, format!("=D{row}/SUM(D$1:D${LINES})"));
        put(row, 6, format!("=100*D{row}/D$1"));
        for column in 7..=15 {
            put(row, column, format!("=D{row}*0.{column}"));
        }
    }
    for column in 0..9u8 {
        let letter = char::from(b'G' + column);
        put(
            LINES + 1,
            7 + i32::from(column),
            format!("=SUM({letter}1:{letter}{LINES})/SUM(D1:D{LINES})"),
        );
    }
    model.evaluate();
    model
}

fn recalculate(model: &mut Model, round: usize) {
    model
        .update_cell_with_number(0, 1, 1, 1.0 + round as f64)
        .expect("a cell");
    model.evaluate();
}

fn micros<T>(job: impl FnOnce() -> T) -> f64 {
    let start = Instant::now();
    black_box(job());
    1e6 * start.elapsed().as_secs_f64()
}

fn median(values: &[f64]) -> f64 {
    quantile(values, 0.5)
}

fn quantile(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted[((share * sorted.len() as f64).ceil() as usize).saturating_sub(1)]
}

fn figure(name: &str, values: &[f64], reach: Value) -> Value {
    json!({ "figure": name, "unit": "µs", "rounds": values.len(), "reach": reach,
        "median": median(values), "least": quantile(values, 0.05), "most": quantile(values, 0.95) })
}

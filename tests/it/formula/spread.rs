//! The spread of a reading against chance: many mixes measured by the same unsteady hand.

use super::weighed;
use pattywright::formula::{Reading, Value, Weighed};

/// Source: D. E. Knuth, MMIX (from memory): a linear congruential generator of 64 bits; its upper 53 are used.
struct Chance(u64);

impl Chance {
    /// Evenly spread between 0 and 1, both excluded.
    fn uniform(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 11) as f64 + 0.5) / (1u64 << 53) as f64
    }

    /// A pair of independent draws from the normal distribution of spread 1, by Box and Muller.
    fn normal_pair(&mut self) -> [f64; 2] {
        let (radius, turn) = (
            (-2.0 * self.uniform().ln()).sqrt(),
            std::f64::consts::TAU * self.uniform(),
        );
        [radius * turn.cos(), radius * turn.sin()]
    }
}

/// A mix of ten lines as a cook types it, every way of measuring in it.
fn ten_lines() -> Weighed {
    weighed(&[
        ("tvp_soy_granules", "180 g"),
        ("water", "400 ml"),
        ("pea_protein_isolate", "40 g"),
        ("methylcellulose", "11 g"),
        ("coconut_oil", "4 tbsp"),
        ("canola_oil", "2 tbsp"),
        ("soy_sauce", "2 tbsp"),
        ("table_salt", "1 tsp"),
        ("beet_juice", "30 ml"),
        ("onion_powder", "2 tsp"),
    ])
}

fn value(mix: &Weighed, reading: Reading) -> f64 {
    match reading.of(mix).value {
        Value::Known(estimate) => estimate.value,
        other => panic!("{reading:?}: {other:?}"),
    }
}

/// Source: the law of large numbers: 40,000 draws know a standard deviation to 0.4 % (1/√2n), so 2 % is five times that.
#[test]
fn first_order_spread_of_all_nine_readings_agrees_with_chance_to_two_per_cent() {
    const DRAWS: usize = 40_000;
    let mix = ten_lines();
    let mut chance = Chance(7);
    let grams: Vec<_> = mix.known().map(|(_, grams)| grams).collect();
    assert_eq!(grams.len(), 10);
    let mut sums = [(0.0, 0.0); 9];
    let centres = Reading::ALL.map(|reading| value(&mix, reading));
    for _ in 0..DRAWS {
        let draws = std::iter::repeat_with(|| chance.normal_pair()).flatten();
        let poured: Vec<f64> = grams
            .iter()
            .zip(draws)
            .map(|(grams, draw)| grams.value + grams.sd * draw)
            .collect();
        let drawn = mix.with_masses(&poured, 1.0);
        for ((sum, reading), centre) in sums.iter_mut().zip(Reading::ALL).zip(centres) {
            let off = value(&drawn, reading) - centre;
            sum.0 += off;
            sum.1 += off * off;
        }
    }
    for ((sum, reading), centre) in sums.into_iter().zip(Reading::ALL).zip(centres) {
        let mean = sum.0 / DRAWS as f64;
        let by_chance = (sum.1 / DRAWS as f64 - mean * mean).sqrt();
        let stated = reading.of(&mix).value.estimate().unwrap().sd;
        assert!(
            (stated / by_chance - 1.0).abs() < 0.02,
            "{reading:?} {centre}: stated {stated}, by chance {by_chance}"
        );
        let middle_off = mean.abs() / stated;
        assert!(
            middle_off < 0.05,
            "{reading:?}: the middle is off by {middle_off} of its spread"
        );
    }
}

#[test]
fn shares_of_the_spread_add_up_and_name_the_roughest_line_first() {
    let mix = ten_lines();
    for reading in Reading::ALL {
        let shares = reading.spread_by_line(&mix);
        let sum: f64 = shares.iter().map(|(_, share)| share).sum();
        // What is left of 1 is the share nobody has a figure for.
        assert!(0.9 < sum && sum < 1.0 + 1e-9, "{reading:?}: {sum}");
        assert!(shares.windows(2).all(|pair| pair[0].1 >= pair[1].1), "{reading:?}");
    }
    let (roughest, _) = Reading::Salt.spread_by_line(&mix)[0];
    assert_eq!(roughest.name, "Salt");
}

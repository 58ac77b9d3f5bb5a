//! The trend through published patties.

use pattywright::formula::Reading::{BinderShare, Fat, Hydration, Salt};
use pattywright::formula::evidence::Property::{CookLoss, Firmness, ReleasedWater, Shrink, Used};
use pattywright::formula::evidence::{Property, Trend, points};
use pattywright::sheet::evidence::evidence;

/// Source: Bakhsh and others, Foods 2021;10:560, table 4. Two patties at 1.5 % are averaged; the others stand alone.
#[test]
fn the_trend_goes_through_what_was_published() {
    let loss = Trend::of(BinderShare, CookLoss).unwrap();
    for (binder, published) in [(1.5, (9.98 + 12.01) / 2.0), (3.0, 7.30), (4.0, 7.12)] {
        let predicted = loss.at(binder).unwrap().value;
        assert!((predicted - published).abs() < 1e-9, "{binder} %: {predicted}");
    }
    let between = loss.at(2.25).unwrap().value;
    assert!((between - (10.995 + 7.30) / 2.0).abs() < 1e-9, "{between}");
}

/// Worked by hand from the four points: each is predicted from the other three.
#[test]
fn the_spread_is_the_leave_one_out_error() {
    let by_hand = |errors: [f64; 4]| (errors.iter().map(|e| e * e).sum::<f64>() / 4.0).sqrt();
    let loss = by_hand([2.03, 2.03, 10.995 + (7.12 - 10.995) * 1.5 / 2.5 - 7.30, 7.30 - 7.12]);
    let firmness = by_hand([0.27, 0.27, 2.275 + (3.2 - 2.275) * 1.5 / 2.5 - 2.41, 3.2 - 2.41]);
    for (property, expected) in [(CookLoss, loss), (Firmness, firmness)] {
        let sd = Trend::of(BinderShare, property).unwrap().sd;
        assert!((sd - expected).abs() < 1e-9, "{property:?}: {sd} against {expected}");
    }
    // The figures the module's documentation prints.
    for (property, printed) in [(CookLoss, 1.6), (Shrink, 2.34), (Firmness, 0.49), (ReleasedWater, 0.65)] {
        let sd = Trend::of(BinderShare, property).unwrap().sd;
        assert!((sd / printed - 1.0).abs() < 0.03, "{property:?}: {sd}");
    }
}

#[test]
fn it_never_turns_back_and_says_nothing_outside() {
    for property in Property::MEASURED {
        let trend = Trend::of(BinderShare, property).unwrap();
        assert_eq!(trend.range(), (1.5, 4.0));
        let figures: Vec<f64> = (0..=100)
            .map(|step| trend.at(1.5 + 2.5 * f64::from(step) / 100.0).unwrap().value)
            .collect();
        let sign = if property == Firmness { 1.0 } else { -1.0 };
        assert!(
            figures.windows(2).all(|pair| sign * (pair[1] - pair[0]) >= -1e-12),
            "{property:?}"
        );
        for outside in [0.0, 1.49, 4.01, f64::NAN, f64::INFINITY] {
            assert_eq!(trend.at(outside), None);
        }
    }
    assert_eq!(Trend::of(Hydration, CookLoss), None);
}

/// Study of the same group that the trend was not fitted to: meat-free patties with 3 % methylcellulose
/// lose less than beef and pork at the same level (Bakhsh and others, Food Sci Anim Resour 2021;41:983: trend only);
/// beef without binder loses 12.06 ± 2.79 % (Food Sci Anim Resour 2018;38(1):1, table 3). The prediction at 3 % must lie below.
#[test]
fn a_patty_with_binder_loses_less_than_beef_without() {
    let predicted = Trend::of(BinderShare, CookLoss).unwrap().at(3.0).unwrap();
    assert!(predicted.value + 2.0 * predicted.sd < 12.06, "{predicted:?}");
}

#[test]
fn published_formulas_are_shown_where_there_are_any() {
    assert_eq!(points(BinderShare, Used).count(), 6);
    assert!(points(Fat, Used).all(|point| (7.0..=8.0).contains(&point.at)));
    assert!(points(Salt, Used).all(|point| (1.1..=1.5).contains(&point.at)));
    assert_eq!(points(Hydration, Used).count(), 0);
}

/// Source of the figures: Bakhsh and others, Foods 2021;10:560, table 4.
#[test]
fn the_plot_says_what_it_shows() {
    let inside = evidence(BinderShare, Some(1.5));
    assert_eq!(inside.plots.len(), 4);
    assert_eq!(
        inside.plots[0].says,
        "About 11 ± 1.6 % at yours. Published: 7.1–12 % at 1.5–4 %."
    );
    let loss = &inside.plots[0];
    assert_eq!(loss.dots.len(), 4);
    assert!(
        loss.dots
            .iter()
            .all(|dot| (0.0..=1.0).contains(&dot.x) && (0.0..=1.0).contains(&dot.y))
    );
    assert!(loss.own.unwrap() > 0.0 && loss.expected.is_some());
    let outside = evidence(BinderShare, Some(0.9));
    assert!(
        outside.used.ends_with("so no figure is given for it."),
        "{}",
        outside.used
    );
    assert!(
        outside
            .plots
            .iter()
            .all(|plot| plot.expected.is_none() && plot.own.unwrap() > 0.0)
    );
    assert!(evidence(Hydration, Some(2.5)).used.starts_with("Nothing is published"));
}

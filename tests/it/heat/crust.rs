//! The dried crust of a wet face: what it lets through, and how far it grows.

use std::ops::ControlFlow;

use pattywright::heat::slab::{Face, Matter, Skin, Slab, turned};
use pattywright::heat::{Composition, Food};

use super::check_within;
use super::slab::{dry, patty};

/// What a boiling face shows of its crust: heat passes contact and crust one after the other, the crust is as thick as
/// the water that has left it, and it conducts as its solids with steam where the water was (Choi and Okos at 100 °C).
#[test]
fn heat_passes_the_crust_on_its_way_in() {
    let (pan_c, h, seconds) = (190.0, 400.0, 120.0);
    let mix = Composition {
        water: 0.5,
        protein: 0.5,
        fat: 0.0,
        carbohydrate: 0.0,
        fibre: 0.0,
        ash: 0.0,
    };
    let food = Food::new(mix, 0.0).unwrap();
    let slab = Slab {
        thickness_mm: 12.0,
        matter: Matter::Food(food),
        start_c: 20.0,
    };
    let pan = Face {
        ambient_c: pan_c,
        h_w_per_m2_k: h,
        skin: Skin::Boils,
    };
    let (mut outside_c, mut front_c, mut gone) = (0.0, 0.0, 0.0);
    slab.run(&turned([pan, dry(0.0, 0.0)], &[], seconds), |moment| {
        (outside_c, front_c, gone) = (
            moment.outside_c[0],
            moment.wet_face_c[0],
            moment.evaporated_kg_per_m2[0],
        );
        ControlFlow::Continue(())
    })
    .unwrap();
    let crust_m = gone / food.water_kg_per_m3(20.0);
    let (through_contact, through_crust) = (h * (pan_c - outside_c), 0.1308 / crust_m * (outside_c - front_c));
    assert!(crust_m > 1e-4, "{crust_m}");
    check_within(through_crust / through_contact, 1.0, 0.01);
}

/// Where 45 % of a slab has dried from one side, no more water is there for that side to lose: both sides together dry no more than all of it.
#[test]
fn no_more_water_leaves_than_there_is() {
    let slab = patty(2.0);
    let pan = Face {
        ambient_c: 250.0,
        h_w_per_m2_k: 1000.0,
        skin: Skin::Boils,
    };
    let ledger = slab
        .run(&turned([pan, pan], &[], 3600.0), |_| ControlFlow::Continue(()))
        .unwrap();
    let Matter::Food(food) = slab.matter else {
        unreachable!()
    };
    let water = food.water_kg_per_m3(5.0) * 2e-3;
    let gone: f64 = ledger.evaporated_kg_per_m2.iter().sum();
    assert!(gone > 0.8 * water && gone <= water, "{gone} of {water} kg/m²");
}

#[test]
fn a_wet_face_never_passes_boiling_and_its_crust_does() {
    let pan = Face {
        ambient_c: 200.0,
        h_w_per_m2_k: 450.0,
        skin: Skin::Boils,
    };
    let (mut wet_c, mut crust_c): (f64, f64) = (0.0, 0.0);
    let ledger = patty(10.0)
        .run(&turned([pan; 2], &[], 180.0), |moment| {
            wet_c = wet_c.max(moment.wet_face_c[0]);
            crust_c = crust_c.max(moment.outside_c[0]);
            ControlFlow::Continue(())
        })
        .unwrap();
    check_within(wet_c, 100.0, 1e-6);
    assert!(crust_c > 140.0, "{crust_c}");
    assert!(ledger.evaporated_kg_per_m2[0] > 0.1);
    let latent: f64 = ledger.latent_j_per_m2.iter().sum();
    let water: f64 = ledger.evaporated_kg_per_m2.iter().sum();
    check_within(latent / water, 2.257e6, 2e3);
}

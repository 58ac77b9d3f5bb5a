//! Pattywright: the sums behind burgers made from dry textured plant protein.
#![deny(missing_docs, rustdoc::broken_intra_doc_links)]

pub mod measure;

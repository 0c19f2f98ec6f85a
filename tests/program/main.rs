//! The whole program: how the house is built, and the commands run as a person runs them.

mod commands;
mod house;
mod scenarios;

//! What the graphs show, what would make a target surer, and the trial by chance, in words.

use super::Words;
use crate::model::Id;
use crate::proof::{Buys, Checked, Helps};

texts! {
    helps: HelpsTexts, "Every fixed text behind the details of the marks.";
    shares, "The graph of each step's share.";
    shares_read, "What it shows, for who listens.";
    tests, "The graph of each reading's test.";
    tests_read, "What it shows, for who listens.";
    limit_line, "Under the graph, of the lines of its limit.";
    course, "The graph of the uncertainty after each reading.";
    course_read, "What it shows, for who listens.";
    course_across, "What lies along it.";
    enough_line, "Beside the line of enough.";
    would_help, "Over what would help.";
    no_base, "Why a longer base is not among it.";
    draw, "Has it tried by chance.";
    draw_why, "What that does.";
    stop, "Stops it.";
    unsettled, "The figures are not steady.";
}

impl HelpsTexts {
    sentences! { helps:
        /// The rest of the steps, in the graph of their shares.
        others(count: usize) -> String;
        /// One bar or point of a graph: what it is of, and its figure.
        figure(name: &str, figure: &str) -> String;
        /// A share of all.
        share(percent: &str) -> String;
        /// What a graph shows, for who listens: what it is, and all its figures.
        graph(what: &str, figures: &[String]) -> String;
        /// A distance between two marks, where there is little room.
        run(from: &Id, to: &Id) -> String;
        /// While it is tried: so many thousand times so far.
        drawing(times: &str) -> String;
    }
}

impl Words<'_> {
    sentences! { about:
        /// What one thing buys.
        buys(helps: &Helps, own: &Buys) -> String;
        /// What it is about, and how surely it is laid now.
        laid_now(helps: &Helps) -> String;
        /// What trying by chance said beside the linear law.
        checked(found: &Checked) -> String;
    }
}

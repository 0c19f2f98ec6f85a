//! No file uses one that uses it, but a module and its own children.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use crate::house::{root, rust_files};

/// A module by the names that lead to it from its crate.
type Module = Vec<String>;

#[test]
fn no_two_files_use_each_other() {
    let mut files = 0;
    for crate_ in ["geometry", "survey", "radar", "planner", "drawing", "files", "desk"] {
        let uses = uses_of(&root().join("src").join(crate_).join("src"));
        files += uses.len();
        assert!(
            uses.values().map(BTreeSet::len).sum::<usize>() > uses.len() / 2,
            "{crate_}: hardly any uses were read"
        );
        let circles = circles(&uses);
        assert!(circles.is_empty(), "in {crate_}: {circles:#?}");
    }
    assert!(files > 250, "{files} files");
}

/// The reader of uses and the search see what they are meant to see.
#[test]
fn a_circle_is_found() {
    let module = |path: &str| path.split("::").map(str::to_owned).collect::<Module>();
    let text = "use super::b::{self, Deep, c::{d, Other as Own}};\nfn f() { crate::x::y::g(); }\n// use crate::not;\n";
    let found: Vec<String> = paths(text).iter().map(|path| path.join("::")).collect();
    for path in ["super::b::self", "super::b::Deep", "super::b::c::d", "super::b::c::Other", "crate::x::y::g"]
    {
        assert!(found.contains(&path.to_owned()), "{path} in {found:?}");
    }
    assert!(!found.contains(&"crate::not".to_owned()));
    let uses = |pairs: &[(&str, &str)]| {
        let mut all: BTreeMap<Module, BTreeSet<Module>> = BTreeMap::new();
        for (a, b) in pairs {
            all.entry(module(a)).or_default().insert(module(b));
        }
        all
    };
    assert_eq!(circles(&uses(&[("a", "b"), ("b", "c"), ("c", "a")])).len(), 1);
    assert!(circles(&uses(&[("a", "b"), ("b", "c"), ("a", "c")])).is_empty());
    assert!(circles(&uses(&[("a", "a::b"), ("a::b", "a")])).is_empty(), "a module and its own child");
}

/// What each module of a crate uses.
fn uses_of(source: &Path) -> BTreeMap<Module, BTreeSet<Module>> {
    let texts: BTreeMap<Module, String> = rust_files(source)
        .into_iter()
        .map(|file| {
            let text = std::fs::read_to_string(&file).expect("a source file");
            let path = file.strip_prefix(source).expect("inside").with_extension("");
            let mut module: Module = path.iter().map(|part| part.to_string_lossy().into_owned()).collect();
            if matches!(module.last().map(String::as_str), Some("lib" | "main" | "mod")) {
                module.pop();
            }
            (module, text)
        })
        .collect();
    let of = |module: &Module, text: &str| {
        let full = paths(text).into_iter().filter_map(|path| from_crate(module, &path));
        let modules = full.filter_map(|path| {
            (0..=path.len()).rev().map(|n| path[..n].to_vec()).find(|m| texts.contains_key(m))
        });
        modules.collect::<BTreeSet<_>>()
    };
    texts.iter().map(|(module, text)| (module.clone(), of(module, text))).collect()
}

/// A path as it leads from the crate; `None` for one into another crate.
fn from_crate(module: &Module, path: &[String]) -> Option<Module> {
    let supers = path.iter().take_while(|part| *part == "super").count();
    let rest = path.iter().skip(1).cloned();
    match path.first()?.as_str() {
        "crate" => Some(rest.collect()),
        "self" => Some(module.iter().cloned().chain(rest).collect()),
        "super" => {
            let up = module.len().checked_sub(supers)?;
            Some(module[..up].iter().chain(&path[supers..]).cloned().collect())
        }
        _ => None,
    }
}

/// The paths from `crate`, `self` or `super` in a file, without its tests and its comments; the trees of `use` taken apart.
fn paths(text: &str) -> Vec<Module> {
    let text = text.split("\n#[cfg(test)]\nmod tests {").next().unwrap_or_default();
    let code: Vec<&str> = text.lines().map(|line| line.split("//").next().unwrap_or_default()).collect();
    let code = code.join(" ");
    let mut found = Vec::new();
    for start in ["crate::", "self::", "super::"] {
        for (at, _) in code.match_indices(start) {
            // Inside of a longer path or name it is no start.
            if !code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_' || c == ':' || c == '$') {
                tree(&mut code[at..].chars().peekable(), &mut Vec::new(), &mut found);
            }
        }
    }
    found
}

/// Reads one path, or the tree of paths after `{`.
fn tree(code: &mut std::iter::Peekable<std::str::Chars<'_>>, before: &mut Module, found: &mut Vec<Module>) {
    let depth = before.len();
    loop {
        while code.next_if(|c| c.is_whitespace()).is_some() {}
        if code.next_if_eq(&'{').is_some() {
            loop {
                tree(code, before, found);
                // An item may be renamed.
                while code.next_if(|c| !matches!(c, ',' | '}')).is_some() {}
                if code.next() != Some(',') {
                    break;
                }
            }
            break;
        }
        let mut name = String::new();
        while let Some(c) = code.next_if(|c| c.is_alphanumeric() || *c == '_') {
            name.push(c);
        }
        if name.is_empty() {
            break;
        }
        before.push(name);
        if code.next_if_eq(&':').is_none() || code.next_if_eq(&':').is_none() {
            found.push(before.clone());
            break;
        }
    }
    before.truncate(depth);
}

/// Sets of modules each of which leads to each other. What a module and its own children use of each other is no matter.
fn circles(uses: &BTreeMap<Module, BTreeSet<Module>>) -> Vec<BTreeSet<&Module>> {
    let reach = |from: &Module| {
        let near = |a: &Module, b: &Module| a.starts_with(b) || b.starts_with(a);
        let of = |module: &Module| -> Vec<&Module> {
            let all = uses.get_key_value(module).into_iter();
            all.flat_map(|(own, used)| used.iter().filter(move |other| !near(own, other))).collect()
        };
        let mut reached: BTreeSet<&Module> = BTreeSet::new();
        let mut open = of(from);
        while let Some(next) = open.pop() {
            if reached.insert(next) {
                open.extend(of(next));
            }
        }
        reached
    };
    let reached: BTreeMap<&Module, BTreeSet<&Module>> = uses.keys().map(|m| (m, reach(m))).collect();
    let mutual = |a: &Module| -> BTreeSet<&Module> {
        let there = |b: &Module| reached.get(b).is_some_and(|of| of.contains(a));
        reached.get(a).into_iter().flatten().copied().filter(|b| there(b)).collect()
    };
    let mut found: Vec<BTreeSet<&Module>> = uses.keys().map(mutual).filter(|set| set.len() > 1).collect();
    found.sort();
    found.dedup();
    found
}

//! The text of a new suit file: every section, commented, with what must be filled in.
//!
//! Nothing is invented for the maker: dimensions she has not given stand there as comments, with how the tape is laid, and
//! `slackwater check` asks for those the draft can't do without.
//!
//! **Limits.** Texts a maker types are quoted as TOML strings; control characters in them are left out.

use std::fmt::Write;

use body::{BodyForm, Dimension, Dimensions, Need};
use units::LengthUnit;

use super::show::trimmed;

/// What is known when a new file is written.
#[derive(Clone, Debug, PartialEq)]
pub struct NewSuit {
    /// The suit's name.
    pub name: String,
    /// The wearer's name.
    pub wearer: String,
    /// Woman, man or child.
    pub form: BodyForm,
    /// Her age, if known.
    pub age_years: Option<f64>,
    /// The unit of the file's bare numbers.
    pub units: LengthUnit,
    /// Dimensions already taken.
    pub taken: Dimensions,
}

/// The text of a new suit file. With every required dimension taken and the cloth filled in it reads without fault.
pub fn new_suit_text(new: &NewSuit) -> String {
    let mut out = String::new();
    let unit = new.units.symbol();
    let (rest, pulled, back) = match new.units {
        LengthUnit::Mm => ("100", "185", "103"),
        LengthUnit::Cm => ("10", "18.5", "10.3"),
        LengthUnit::In => ("4", "\"7 3/8in\"", "\"4 1/8in\""),
    };
    let mut line = |text: &str| {
        out.push_str(text);
        out.push('\n');
    };
    line("# A suit file: one wearer, her cloths and one design. Lines that start with # are not read.");
    line("# `slackwater check FILE` judges it, `slackwater pack FILE -o FOLDER` makes the paper.");
    line("format = 1");
    line(&format!("name = {}", quoted(&new.name)));
    line(&format!(
        "units = \"{unit}\"  # of bare numbers below: cm, mm or in; \"95.6 cm\" or \"37 5/8in\" works anywhere"
    ));
    line("");
    line("[wearer]");
    line(&format!("name = {}", quoted(&new.wearer)));
    line(&format!(
        "form = \"{}\"  # woman, man or child",
        form_key(new.form)
    ));
    match new.age_years {
        Some(age) => line(&format!("age = {}", trimmed(age, 1))),
        None if new.form == BodyForm::Child => line("age = 8  # in years: correct it"),
        None => line("# age = 34"),
    }
    line("# mass_kg = 70  # sharpens estimates and the search for slips of the tape");
    line("# waist_level = \"natural\"  # or \"navel\": where the tape lay for everything called waist");
    line("# front_taken = \"over-bust-point\"  # or \"midline\": how the front waist length was taken");
    line("");
    line("[wearer.dimensions]");
    line(&comment(new.form.before_measuring()));
    for dimension in Dimension::ALL {
        let need = dimension.need(new.form);
        if need == Need::NotUsed {
            continue;
        }
        line("");
        let head = format!(
            "{} ({}): {}",
            dimension.iso_name(new.form),
            need_words(need),
            dimension.how_to_take()
        );
        line(&comment(&head));
        match new.taken.get(dimension) {
            Some(length) => line(&format!(
                "{} = {}",
                dimension.key(),
                number(length.get(), new.units)
            )),
            None => line(&format!("# {} = ", dimension.key())),
        }
    }
    line("");
    line(
        "# The outer cloth. Test: fold an edge, mark two points on the relaxed cloth (rest), pull until it resists",
    );
    line(
        "# sharply (pulled), let go, wait a minute (back_to). Along is parallel to the selvedge, across is across it.",
    );
    line("[shell]");
    line("name = \"my cloth\"");
    line(&format!(
        "along = {{ rest = {rest}, pulled = {pulled}, back_to = {back} }}  # replace by your own test"
    ));
    line(&format!(
        "across = {{ rest = {rest}, pulled = {pulled}, back_to = {back} }}  # or {{ stretch = 85 }}, in per cent"
    ));
    line("# load = \"hand\"  # or { strip = \"5 cm\", kg = 1.5 }");
    line("# width = \"150 cm\"");
    line("# gsm = 190");
    line("# shrinkage = { along = 2, across = 1 }  # per cent, in the first wash");
    line("# washed = true  # washed before it is cut");
    line("# direction = \"one-way\"  # a print or pile that must point one way");
    line("# lay = \"upright\"  # or \"turned\": only to overrule \"greatest stretch around the body\"");
    line("");
    line("[lining]");
    line("name = \"my lining\"");
    line(&format!(
        "along = {{ rest = {rest}, pulled = {pulled}, back_to = {back} }}"
    ));
    line(&format!(
        "across = {{ rest = {rest}, pulled = {pulled}, back_to = {back} }}"
    ));
    line("");
    line(
        "# Shell and lining sewn together at one edge and pulled as one; better than any estimate of the pair.",
    );
    line("# [tested_together]");
    line(&format!("# around = {{ rest = {rest}, pulled = {pulled} }}"));
    line(&format!("# lengthwise = {{ rest = {rest}, pulled = {pulled} }}"));
    line("");
    line("[design]");
    line("style = \"one-piece\"  # or brief");
    line("fit = \"regular\"  # relaxed, regular, firm, race");
    line("neckline = \"scoop\"  # scoop, square, v, high");
    line("# neck_depth = 0.3  # 0.05 high, 0.5 at the bust; or neck_depth_below_pit = \"12 cm\"");
    line("back = \"scoop\"  # scoop, v, racer, crossed-straps");
    line("# back_depth = 0.55  # share of the back waist length; or back_depth_below_nape = \"25 cm\"");
    line("strap_width = \"38 mm\"");
    line("leg = \"mid\"  # low, mid, high, extra-high; or leg_share = 0.74; or side_seam_length = \"34 cm\"");
    line("seat = \"full\"  # full, moderate, cheeky");
    line("lining = \"crotch\"  # none, full, front, crotch");
    line("cups = \"none\"  # none, marks, pocket");
    line("bust_shaping = \"auto\"  # auto, side-dart, princess");
    line("");
    line("# [design.skirt]");
    line("# kind = \"half-circle\"  # full-circle, half-circle, quarter-circle, flared-panel");
    line("# join = \"waist\"  # waist, hip, underbust");
    line("# cover = \"60 mm\"  # how far the hem hangs below the crotch level");
    line("");
    line("# [design.closure]");
    line("# kind = \"zip\"  # zip, clasp; hook, ring on a neck piece");
    line("# place = \"back\"  # back, front, neck");
    line("# length = \"18 cm\"  # from the neckline down; past the waist it opens the waist too");
    line("");
    line("# [allowances]");
    line("# first_fitting = true  # 15 mm at the side seams, to let out");
    line("");
    line("[elastic]");
    line("kind = \"braided-rubber\"");
    line("width = \"8 mm\"");
    line("");
    line("# [printer]");
    line("# paper = \"A4\"  # or Letter; both when left out");
    line(
        "# measured_square = [99.4, 100.2]  # the printed 100 mm square as you measure it, across then down, mm",
    );
    line(
        "# white_edge = \"4 mm\"  # what the printer leaves white on every side; tiles are as large as it allows",
    );
    out
}

/// How much a dimension is needed, in a word or two.
pub fn need_words(need: Need) -> &'static str {
    match need {
        Need::Required => "needed",
        Need::Asked => "please take it",
        Need::Estimable => "estimated if missing",
        Need::CrossCheck => "checks others",
        Need::NotUsed => "not used",
    }
}

/// `woman`, `man`, `child`.
pub fn form_key(form: BodyForm) -> &'static str {
    match form {
        BodyForm::Woman => "woman",
        BodyForm::Man => "man",
        BodyForm::Child => "child",
    }
}

/// A length as it is written in a file of that unit: inches as eighths where they are.
fn number(mm: f64, unit: LengthUnit) -> String {
    let value = mm / unit.in_mm();
    match unit {
        LengthUnit::In => {
            let eighths = value * 8.0;
            if (eighths - eighths.round()).abs() < 1e-6 && eighths.round() as i64 % 8 != 0 {
                format!("\"{}\"", units::Mm::new(mm).to_inch_text())
            } else {
                trimmed(value, 4)
            }
        }
        LengthUnit::Cm | LengthUnit::Mm => trimmed(value, 3),
    }
}

/// A text as comment lines of at most 110 columns.
fn comment(text: &str) -> String {
    const COLUMNS: usize = 108;
    let mut out = String::from("#");
    let mut used = 1;
    for word in text.split_whitespace() {
        if used + 1 + word.chars().count() > COLUMNS {
            out.push_str("\n#");
            used = 1;
        }
        let _ = write!(out, " {word}");
        used += 1 + word.chars().count();
    }
    out
}

/// A TOML basic string.
fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => {
                out.push('\\');
                out.push(c);
            }
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

#[cfg(test)]
mod tests {
    use units::Mm;

    use super::*;
    use crate::suit_file::read_text;

    fn new(form: BodyForm, units: LengthUnit) -> NewSuit {
        NewSuit {
            name: "\"Odd\\name\"\u{7}".into(),
            wearer: "Zoë".into(),
            form,
            age_years: None,
            units,
            taken: Dimensions::default(),
        }
    }

    #[test]
    fn a_new_file_reads_without_fault_in_every_form_and_unit() {
        for form in [BodyForm::Woman, BodyForm::Man, BodyForm::Child] {
            for unit in [LengthUnit::Cm, LengthUnit::Mm, LengthUnit::In] {
                let text = new_suit_text(&new(form, unit));
                let suit = read_text("new.toml", &text).unwrap_or_else(|e| panic!("{e}\n{text}"));
                assert_eq!(suit.wearer.form, form);
                assert_eq!(suit.name, "\"Odd\\name\" ".trim());
            }
        }
    }

    #[test]
    fn dimensions_given_come_back_to_a_hundredth_of_a_millimetre() {
        for unit in [LengthUnit::Cm, LengthUnit::Mm, LengthUnit::In] {
            let mut suit = new(BodyForm::Woman, unit);
            for (i, dimension) in Dimension::ALL.into_iter().enumerate() {
                let (low, high) = dimension.plausible_range(BodyForm::Woman);
                suit.taken.set(
                    dimension,
                    Mm::new(low.get() + (high.get() - low.get()) * (i as f64 + 0.37) / 30.0),
                );
            }
            suit.taken.set(Dimension::BustGirth, Mm::from_inches(37.625));
            let back = read_text("new.toml", &new_suit_text(&suit)).unwrap();
            for (dimension, length) in suit
                .taken
                .iter()
                .filter(|(d, _)| d.need(BodyForm::Woman) != Need::NotUsed)
            {
                let found = back.wearer.taken.get(dimension).unwrap();
                assert!(
                    (found - length).abs().get() < 0.01,
                    "{} {length} came back as {found}",
                    dimension.key()
                );
            }
        }
    }
}

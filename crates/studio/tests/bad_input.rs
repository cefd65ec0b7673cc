//! Exact words and place of every message a maker can get for a bad suit file.
//!
//! Each case changes a good file in one or several places and compares the plain rendering with `snapshots/`, which a
//! person reads when it changes (`INSTA_UPDATE=always cargo test -p slackwater-studio --test bad_input`).

use studio::order::work_out;
use studio::suit_file::{read_bytes, read_text};
use units::Severity;

/// A good file; the cases below spoil it.
const GOOD: &str = r#"format = 1
name = "Try"
units = "cm"

[wearer]
name = "Maren"
form = "woman"

[wearer.dimensions]
stature = 165
bust_girth = 92
underbust_girth = 78
waist_girth = 76
hip_girth = 100
crotch_length = 72
trunk_circumference = 154.5
back_waist_length = 40.8
front_waist_length = 43.8
side_neck_to_bust_point = 26.4
shoulder_length = 12.3
side_length = 21.4
waist_to_hip = 20.4
rise_height = 25.6
neck_base_girth = 36.8

[shell]
name = "Slate tricot"
along = { stretch = 60 }
across = { stretch = 85 }

[lining]
name = "Oat lining"
along = { stretch = 90 }
across = { stretch = 90 }

[design]
strap_width = 3.8
"#;

/// The good file with each `from` replaced by its `to`.
fn spoiled(changes: &[(&str, &str)]) -> String {
    let mut text = GOOD.to_owned();
    for (from, to) in changes {
        assert_eq!(
            text.matches(from).count(),
            1,
            "`{from}` must stand in the file once"
        );
        text = text.replace(from, to);
    }
    text
}

/// What the file's reading or its working out complains of.
fn complaint(text: &str) -> String {
    match read_text("try.toml", text) {
        Err(faults) => faults.to_plain(),
        Ok(suit) => work_out(&suit).expect_err("the file must be refused").to_plain(),
    }
}

macro_rules! refused {
    ($name:ident, $changes:expr) => {
        #[test]
        fn $name() {
            insta::assert_snapshot!(stringify!($name), complaint(&spoiled($changes)));
        }
    };
}

#[test]
fn the_good_file_is_good() {
    let suit = read_text("try.toml", GOOD).unwrap_or_else(|e| panic!("{e}"));
    work_out(&suit).unwrap_or_else(|e| panic!("{e}"));
}

#[test]
fn empty_file() {
    for text in ["", "  \n\t\n", "\u{feff}"] {
        insta::assert_snapshot!("empty_file", complaint(text));
    }
}

#[test]
fn only_a_comment() {
    insta::assert_snapshot!(complaint("# later\n"));
}

#[test]
fn not_utf8() {
    let mut bytes = GOOD.as_bytes().to_vec();
    bytes[30] = 0xff;
    insta::assert_snapshot!(read_bytes("try.toml", &bytes).unwrap_err().to_plain());
}

#[test]
fn far_too_long() {
    let bytes = vec![b'#'; studio::suit_file::LARGEST_FILE + 1];
    insta::assert_snapshot!(read_bytes("try.toml", &bytes).unwrap_err().to_plain());
}

refused!(
    not_toml,
    &[
        ("form = \"woman\"", "form = woman"),
        ("hip_girth = 100", "hip_girth 100")
    ]
);
refused!(
    decimal_comma_in_a_number,
    &[("waist_girth = 76", "waist_girth = 76,5")]
);
refused!(
    same_key_twice,
    &[("waist_girth = 76", "waist_girth = 76\nwaist_girth = 77")]
);
refused!(
    same_section_twice,
    &[("[design]\n", "[shell]\nname = \"x\"\n[design]\n")]
);
refused!(
    missing_everything,
    &[
        ("format = 1\n", ""),
        ("name = \"Try\"\n", ""),
        ("form = \"woman\"\n", ""),
        ("along = { stretch = 60 }\n", "")
    ]
);
refused!(
    missing_dimensions,
    &[("bust_girth = 92\n", ""), ("crotch_length = 72\n", "")]
);
refused!(
    unknown_keys,
    &[
        ("waist_girth = 76", "waste_girth = 76\nwaist_girth = 76\nzzz = 1"),
        ("strap_width = 3.8", "strapwidth = 3.8\nneck = \"scoop\""),
        ("units = \"cm\"", "unit = \"cm\""),
    ]
);
refused!(
    unknown_words,
    &[
        ("form = \"woman\"", "form = \"lady\""),
        ("units = \"cm\"", "units = \"inches\""),
        (
            "strap_width = 3.8",
            "style = \"onepiece\"\nfit = \"tight\"\nback = \"Racer\"\nleg = \"mid\\nhigh\""
        ),
    ]
);
refused!(
    wrong_types,
    &[
        ("format = 1", "format = \"1\""),
        ("name = \"Try\"", "name = 7"),
        ("waist_girth = 76", "waist_girth = true"),
        ("hip_girth = 100", "hip_girth = [100, 101]"),
        ("rise_height = 25.6", "rise_height = 2024-05-01"),
        ("across = { stretch = 85 }", "across = 85"),
        ("strap_width = 3.8", "strap_width = { mm = 38 }\nskirt = true"),
    ]
);
refused!(
    names_that_do_not_fit_a_label,
    &[
        ("name = \"Maren\"", "name = \"Maren\\u001b[31m\""),
        ("name = \"Try\"", &format!("name = \"{}\"", "so long ".repeat(20))),
        ("name = \"Oat lining\"", "name = \" \"")
    ]
);
refused!(another_format, &[("format = 1", "format = 2")]);
refused!(
    centimetres_written_as_millimetres,
    &[
        ("bust_girth = 92", "bust_girth = 920"),
        ("waist_girth = 76", "waist_girth = 7.6")
    ]
);
refused!(
    inches_in_a_centimetre_file,
    &[
        ("bust_girth = 92", "bust_girth = 36.2"),
        ("hip_girth = 100", "hip_girth = 39.4")
    ]
);
refused!(
    negative_and_absurd,
    &[
        ("bust_girth = 92", "bust_girth = -92"),
        ("waist_girth = 76", "waist_girth = 0"),
        ("hip_girth = 100", "hip_girth = 1e308"),
        ("stature = 165", "stature = nan"),
        ("crotch_length = 72", "crotch_length = -inf"),
        ("trunk_circumference = 154.5", "trunk_circumference = 1e999"),
        ("rise_height = 25.6", "rise_height = 99999999999999999999"),
        ("strap_width = 3.8", "strap_width = -3.8"),
    ]
);
refused!(
    not_lengths,
    &[
        ("bust_girth = 92", "bust_girth = \"90 furlong\""),
        ("waist_girth = 76", "waist_girth = \"76,5 cm\""),
        ("hip_girth = 100", "hip_girth = \"39 5/7in\""),
        ("stature = 165", "stature = \"\""),
        ("crotch_length = 72", "crotch_length = '''72 ells'''"),
        ("neck_base_girth = 36.8", "neck_base_girth = \"36½ cm\""),
    ]
);
refused!(
    half_a_second_reading,
    &[
        ("bust_girth = 92", "bust_girth = { second = 92 }"),
        ("waist_girth = 76", "waist_girth = { value = 76, third = 76 }")
    ]
);
refused!(
    a_child_without_an_age,
    &[("form = \"woman\"", "form = \"child\"")]
);
refused!(
    stretch_outside_0_to_200_percent,
    &[
        ("across = { stretch = 85 }", "across = { stretch = 250 }"),
        ("along = { stretch = 60 }", "along = { rest = 10, pulled = 31 }"),
        (
            "name = \"Oat lining\"\nalong = { stretch = 90 }",
            "name = \"Oat lining\"\nalong = { stretch = -5 }"
        ),
    ]
);
refused!(
    stretch_tests_that_contradict_themselves,
    &[
        ("across = { stretch = 85 }", "across = { rest = 10, pulled = 9 }"),
        (
            "along = { stretch = 60 }",
            "along = { rest = 10, pulled = 16, stretch = 60 }"
        ),
        (
            "name = \"Oat lining\"\nalong = { stretch = 90 }",
            "name = \"Oat lining\"\nalong = { pulled = 16 }"
        ),
    ]
);
refused!(
    back_to_more_than_pulled,
    &[
        (
            "across = { stretch = 85 }",
            "across = { rest = 10, pulled = 16, back_to = 17 }"
        ),
        (
            "along = { stretch = 60 }",
            "along = { rest = 10, pulled = 16, back_to = 9 }"
        ),
    ]
);
refused!(
    loads,
    &[
        (
            "across = { stretch = 85 }",
            "across = { stretch = 85 }\nload = { strip = 5, kg = 1, grams = 1000 }"
        ),
        ("name = \"Oat lining\"", "name = \"Oat lining\"\nload = \"foot\""),
    ]
);
refused!(
    cloth_without_stretch,
    &[
        ("across = { stretch = 85 }", "across = { stretch = 4 }"),
        ("along = { stretch = 60 }", "along = { stretch = 2 }")
    ]
);
refused!(
    lined_without_a_lining_cloth,
    &[(
        "[lining]\nname = \"Oat lining\"\nalong = { stretch = 90 }\nacross = { stretch = 90 }\n",
        "[tested_together]\naround = { stretch = 50 }\nlengthwise = { stretch = 40 }\n"
    )]
);
refused!(
    keys_that_exclude_each_other,
    &[(
        "strap_width = 3.8",
        "leg = \"mid\"\nleg_share = 0.5\nneck_depth = 0.3\nneck_depth_below_pit = 10\nrise = \"mid\"\n[design.skirt]\nflare = 10\n\
         [allowances]\nside_seam = 1\nfirst_fitting = true"
    )]
);
refused!(
    one_piece_keys_in_a_brief,
    &[("strap_width = 3.8", "style = \"brief\"\nstrap_width = 3.8")]
);
refused!(
    printer_that_fits_the_page,
    &[(
        "strap_width = 3.8",
        "[printer]\npaper = \"A5\"\nmeasured_square = [85, 100.1]"
    )]
);
refused!(
    strap_wider_than_any,
    &[("strap_width = 3.8", "strap_width = \"30 cm\"")]
);
// The range of straps is met; it is this shoulder that is too short.
refused!(
    strap_wider_than_the_shoulder,
    &[
        ("strap_width = 3.8", "strap_width = 8.5"),
        ("shoulder_length = 12.3", "shoulder_length = 7.5")
    ]
);
refused!(
    neckline_deeper_than_the_waist,
    &[("strap_width = 3.8", "neck_depth_below_pit = \"38 cm\"")]
);
refused!(
    back_deeper_than_the_waist,
    &[("strap_width = 3.8", "back_depth_below_nape = \"45 cm\"")]
);
refused!(
    crossed_straps_over_a_high_back,
    &[("strap_width = 3.8", "back = \"crossed-straps\"\nback_depth = 0.5")]
);
refused!(
    side_seam_longer_than_her_side,
    &[("strap_width = 3.8", "side_seam_length = 60")]
);
refused!(
    cup_pocket_without_a_lining_to_sew_it_to,
    &[("strap_width = 3.8", "cups = \"pocket\"")]
);
refused!(
    waist_far_larger_than_the_hip,
    &[("waist_girth = 76", "waist_girth = 150")]
);
refused!(
    underbust_not_below_the_bust,
    &[("underbust_girth = 78", "underbust_girth = 93")]
);
refused!(
    trunk_and_parts_disagree,
    &[("trunk_circumference = 154.5", "trunk_circumference = 174.5")]
);
refused!(a_mans_one_piece, &[("form = \"woman\"", "form = \"man\"")]);
refused!(
    body_and_cloth_faults_come_together,
    &[
        ("bust_girth = 92\n", ""),
        (
            "across = { stretch = 85 }",
            "across = { rest = 10, pulled = 16, back_to = 17 }"
        )
    ]
);

#[test]
fn limits_are_told_in_the_files_own_unit() {
    let inches = spoiled(&[("units = \"cm\"", "units = \"in\"")]);
    let inches = [
        "92", "78", "76", "100", "72", "154.5", "40.8", "43.8", "26.4", "12.3", "21.4", "20.4", "25.6",
        "36.8", "165",
    ]
    .iter()
    .fold(inches, |text, cm| {
        text.replace(&format!(" = {cm}\n"), &format!(" = \"{cm} cm\"\n"))
    });
    let inches = inches.replace("strap_width = 3.8", "strap_width = 0.25");
    insta::assert_snapshot!(complaint(&inches));
}

/// These are no errors: the suit is drafted, and the finding says what to look at.
#[test]
fn unwise_but_drawable_suits_get_findings() {
    type Case<'a> = (&'a [(&'a str, &'a str)], &'a str, Severity);
    let cases: [Case<'_>; 3] = [
        (
            &[("waist_girth = 76", "waist_girth = 120")],
            "body.hip_waist",
            Severity::Watch,
        ),
        (
            &[
                (
                    "name = \"Oat lining\"\nalong = { stretch = 90 }",
                    "name = \"Oat lining\"\nalong = { stretch = 25 }",
                ),
                ("across = { stretch = 90 }", "across = { stretch = 30 }"),
                ("strap_width = 3.8", "lining = \"full\""),
            ],
            "cloth.lining_stretch",
            Severity::Watch,
        ),
        (
            &[("strap_width = 3.8", "neck_depth = 0.6")],
            "draft.neckline_low",
            Severity::Watch,
        ),
    ];
    for (changes, code, least) in cases {
        let suit = read_text("try.toml", &spoiled(changes)).unwrap_or_else(|e| panic!("{code}: {e}"));
        let order = work_out(&suit).unwrap_or_else(|e| panic!("{code}: {e}"));
        let found = order.findings.iter().find(|f| f.code == code);
        let found = found.unwrap_or_else(|| panic!("{code} is not among {:?}", order.findings));
        assert!(found.severity >= least, "{found:?}");
        assert!(!found.message.is_empty() && !found.remedy.is_empty(), "{found:?}");
    }
}

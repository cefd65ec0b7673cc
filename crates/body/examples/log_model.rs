//! Makes `data/body/ansur2_log_model.json`: mean and covariance of the logarithms of fourteen survey dimensions.
//!
//! The published table of the survey has means and covariances of the lengths themselves; the search for tape slips
//! works on their logarithms, because a slip and a body's spread both grow with the length. Run from anywhere in the
//! workspace:
//!
//! ```text
//! cargo run -p slackwater-body --example log_model
//! ```
//!
//! **Source.** `data/body/ansur2_female.csv` and `ansur2_male.csv`, a random four fifths of ANSUR II (2012, public
//! data).
//! **Limits.** The crate embeds the file this writes, so an empty one must be there to build from scratch.
#![allow(
    clippy::disallowed_methods,
    reason = "a tool that reads and writes data files, not domain code"
)]

use std::error::Error;
use std::path::Path;

use body::{LOG_COLUMNS, Normal, survey};

fn main() -> Result<(), Box<dyn Error>> {
    let data = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/body");
    let mut forms = Vec::new();
    for sex in ["female", "male"] {
        let text = std::fs::read_to_string(data.join(format!("ansur2_{sex}.csv")))?;
        let columns: Vec<&str> = LOG_COLUMNS.iter().map(|(column, _)| *column).collect();
        let labels: Vec<&str> = LOG_COLUMNS.iter().map(|(_, label)| *label).collect();
        let people = survey::numbers(&text, &columns).map_err(|faults| format!("{faults:?}"))?;
        let logs: Vec<Vec<f64>> = people
            .iter()
            .map(|(_, p)| p.iter().map(|x| x.ln()).collect())
            .collect();
        let normal = Normal::from_samples(&labels, &logs)?;
        forms.push(form_json(sex, logs.len(), &normal));
    }
    let json = format!(
        "{{\n\"source\": \"ANSUR II (2012), public per-person data; the random four fifths in ansur2_female.csv and \
         ansur2_male.csv; made by crates/body/examples/log_model.rs\",\n\"units\": \"natural logarithm of millimetres; of \
         hectograms (0.1 kg) for weight_hectogram; covariance with divisor n - 1\",\n{}\n}}\n",
        forms.join(",\n")
    );
    std::fs::write(data.join("ansur2_log_model.json"), json)?;
    Ok(())
}

/// One form: count, labels, means by label, covariance by rows; twelve significant digits, so that a conditional
/// spread of a hundredth of the whole is still good to seven.
fn form_json(sex: &str, count: usize, normal: &Normal) -> String {
    let labels = normal.labels();
    let quoted: Vec<String> = labels.iter().map(|l| format!("\"{l}\"")).collect();
    let means: Vec<String> = labels
        .iter()
        .enumerate()
        .map(|(i, l)| format!("\"{l}\": {:.11e}", normal.mean(i).unwrap_or(f64::NAN)))
        .collect();
    let rows: Vec<String> = (0..labels.len())
        .map(|i| {
            let row: Vec<String> = (0..labels.len())
                .map(|j| format!("{:.11e}", normal.covariance(i, j).unwrap_or(f64::NAN)))
                .collect();
            format!("[{}]", row.join(", "))
        })
        .collect();
    format!(
        "\"{sex}\": {{\n\"n\": {count},\n\"labels\": [{}],\n\"mean\": {{{}}},\n\"cov\": [\n{}\n]}}",
        quoted.join(", "),
        means.join(", "),
        rows.join(",\n")
    )
}

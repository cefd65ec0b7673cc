//! The solved stretch ladder beside the figure, at its height.

use cloth::RESERVE_SHARE;
use units::{Level, Mm};

use super::sheet::{
    GROUND, INK, MARGIN, OAT, Place, RULE, SERIF, SLATE, SMALL, Sheet, WIDTH, escaped, small, width_of,
};
use crate::worn::OnForm;
use crate::worn::report::LevelReport;

/// Width of its rungs, page units.
const LADDER: f64 = 170.0;
/// Rungs stand no closer, page units: two lines of words are beside each.
const APART: f64 = 40.0;

/// Above the first rung: the words of both rails.
const HEAD: f64 = 76.0;

/// The ladder right of `left`, its words below `clear`; where it ends.
pub(super) fn ladder(sheet: &mut Sheet, place: &Place, on: &OnForm, (left, clear): (f64, f64)) -> f64 {
    let rungs: Vec<&LevelReport> = on.report.levels.iter().filter(|l| is_rung(l)).collect();
    let shell = on.shell_stretch_around * 100.0;
    let hold = fit::LEAST_HOLD * 100.0;
    let reserve = RESERVE_SHARE * shell;
    let most = rungs
        .iter()
        .map(|l| l.around_spread_percent[1].max(l.around_percent))
        .fold(0.0, f64::max);
    let least = rungs
        .iter()
        .map(|l| l.around_spread_percent[0])
        .fold(0.0, f64::min);
    let most = (most * 1.08).max(reserve * 1.06);
    let x = |percent: f64| left + 6.0 + (percent - least) / (most - least) * (LADDER - 12.0);
    let heights: Vec<f64> = rungs.iter().map(|r| place.y(r.height_mm)).collect();
    let mut ys = spread(&heights);
    let down = ys
        .first()
        .map_or(0.0, |first| f64::max(clear + HEAD - first, 0.0));
    for y in &mut ys {
        *y += down;
    }
    let (Some(first), Some(last)) = (ys.first(), ys.last()) else {
        return clear;
    };
    let (top, bottom) = (first - 34.0, last + 26.0);
    let style = small(SLATE);
    for (row, (at, words)) in [
        (hold, format!("{hold:.0} % holds")),
        (reserve, format!("{reserve:.0} % keeps reserve")),
    ]
    .into_iter()
    .enumerate()
    {
        let rail = format!("stroke=\"{OAT}\" stroke-width=\"9\" stroke-linecap=\"butt\"");
        sheet.line([x(at), top], [x(at), bottom], &rail);
        // One above the other: they may stand close.
        let y = top - 8.0 - 19.0 * row as f64;
        let from = (x(at) - 5.0)
            .min(WIDTH - MARGIN - width_of(&words, SMALL))
            .max(left);
        sheet.words((from, y), &style, &words);
    }
    for ((rung, &y), &height) in rungs.iter().zip(&ys).zip(&heights) {
        let dots = format!("stroke=\"{RULE}\" stroke-width=\"1.2\" stroke-dasharray=\"0.1 5\"");
        sheet.line([left - 46.0, height], [left - 4.0, y], &dots);
        sheet.line(
            [left, y],
            [left + LADDER, y],
            &format!("stroke=\"{INK}\" stroke-width=\"1\""),
        );
        let [low, high] = rung.around_spread_percent;
        sheet.line(
            [x(low), y],
            [x(high), y],
            &format!("stroke=\"{SLATE}\" stroke-width=\"4\" stroke-linecap=\"butt\""),
        );
        let at = x(rung.around_percent);
        sheet.put(&format!(
            "<path d=\"M{at:.1} {:.1}l-6 -11h12Z\" fill=\"{INK}\"/>",
            y - 2.5
        ));
        if let Some(meant) = rung.meant_percent.filter(|_| rung.closes) {
            sheet.put(&format!(
                "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"4.5\" fill=\"{GROUND}\" stroke=\"{INK}\" stroke-width=\"1.5\"/>",
                x(meant),
                y + 8.0
            ));
        }
        beside(sheet, on, rung, left + LADDER + 12.0, y);
    }
    let mut y = bottom + 24.0;
    sheet.put(&format!(
        "<path d=\"M{:.1} {:.1}l-6 -11h12Z\" fill=\"{INK}\"/>",
        left + 8.0,
        y
    ));
    sheet.words((left + 22.0, y), &style, "worn, solved");
    sheet.put(&format!(
        "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"4.5\" stroke=\"{INK}\" stroke-width=\"1.5\"/>",
        left + 136.0,
        y - 5.0
    ));
    sheet.words((left + 148.0, y), &style, "meant");
    y += 22.0;
    let bar = format!("stroke=\"{SLATE}\" stroke-width=\"4\" stroke-linecap=\"butt\"");
    sheet.line([left, y - 5.0], [left + 16.0, y - 5.0], &bar);
    sheet.words((left + 22.0, y), &style, "nine tenths of the level");
    y
}

/// Heights on the page, top to bottom, pushed apart where they are too close, the whole about where it was.
fn spread(heights: &[f64]) -> Vec<f64> {
    let mut ys: Vec<f64> = Vec::with_capacity(heights.len());
    for &height in heights {
        let y = ys.last().map_or(height, |above| f64::max(height, above + APART));
        ys.push(y);
    }
    let down: f64 = ys.iter().zip(heights).map(|(y, h)| y - h).sum::<f64>() / heights.len().max(1) as f64;
    ys.iter().map(|y| y - down).collect()
}

/// Levels that lie on the trunk: where the suit does not close, what cloth there is.
pub(crate) fn is_rung(level: &LevelReport) -> bool {
    level.closes || matches!(level.level, Level::Bust | Level::HighHip | Level::Hip)
}

/// The words of a rung: its name and the two numbers; the rest for whoever asks.
fn beside(sheet: &mut Sheet, on: &OnForm, rung: &LevelReport, x: f64, y: f64) {
    let mark = if on.report.cloth_weighed { "" } else { "~" };
    let cm = |mm: Option<f64>| mm.map_or_else(|| "not known".to_owned(), |mm| Mm::new(mm).to_cm_text());
    let all = format!(
        "{}: body {}, cut {}, worn {:.0} % around and {:.0} % lengthwise, {mark}{:.2} kPa",
        capital(rung.level),
        cm(rung.body_mm),
        cm(rung.cut_mm),
        rung.around_percent,
        rung.lengthwise_percent,
        rung.pressure_kpa
    );
    sheet.put(&format!("<g><title>{}</title>", escaped(&all)));
    let name = format!("fill=\"{INK}\" font-family=\"{SERIF}\" font-size=\"17\"");
    let open = if rung.closes { "" } else { ", open" };
    sheet.words((x, y - 2.0), &name, &format!("{}{open}", capital(rung.level)));
    let worn = format!("{:.0} %, {mark}{:.2} kPa", rung.around_percent, rung.pressure_kpa);
    sheet.words((x, y + 17.0), &small(SLATE), &worn);
    sheet.put("</g>");
}

const fn capital(level: Level) -> &'static str {
    match level {
        Level::NeckBase => "Neck base",
        Level::Shoulder => "Shoulder",
        Level::UpperChest => "Upper chest",
        Level::Bust => "Bust",
        Level::Underbust => "Under-bust",
        Level::Waist => "Waist",
        Level::Navel => "Navel",
        Level::HighHip => "High hip",
        Level::Hip => "Hip",
        Level::Crotch => "Crotch",
        Level::Thigh => "Thigh",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rungs_stand_apart_and_those_that_did_stay() {
        assert_eq!(spread(&[100.0, 180.0, 260.0]), [100.0, 180.0, 260.0]);
        let close = spread(&[100.0, 110.0, 125.0, 300.0]);
        assert!(close.windows(2).all(|w| w[1] - w[0] >= APART - 1e-9), "{close:?}");
        assert!(spread(&[]).is_empty());
    }
}

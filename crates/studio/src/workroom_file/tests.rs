//! Every fault of a workroom file at its key, with a place and what to do.

use super::*;

/// The faults of a file with these lines under `format = 1`: field and kind.
fn faults(lines: &str) -> Vec<(String, &'static str)> {
    let text = format!("format = 1\n{lines}");
    match read_room_text("room.toml", &text) {
        Ok(_) => Vec::new(),
        Err(faults) => faults
            .list
            .iter()
            .map(|f| {
                assert!(f.at.is_some() || f.field.is_empty(), "{f:?} has no place");
                assert!(!f.help.is_empty(), "{f:?} does not say what to do");
                (f.field.clone(), f.kind.key())
            })
            .collect(),
    }
}

fn one(lines: &str, field: &str, kind: &str) {
    let found = faults(lines);
    let told: Vec<(&str, &str)> = found.iter().map(|(f, k)| (f.as_str(), *k)).collect();
    assert_eq!(told, [(field, kind)], "{lines}");
}

#[test]
fn the_example_reads_and_says_what_it_holds() {
    let text = include_str!("../../../../examples/workrooms/harbour.toml");
    let room = read_room_text("harbour.toml", text).unwrap();
    assert_eq!(
        (room.workroom.machines.len(), room.workroom.threads.len()),
        (2, 2)
    );
    let book = &room.samples;
    assert_eq!(
        (
            book.seams.len(),
            book.irons.len(),
            book.elastics.len(),
            book.wets.len()
        ),
        (1, 1, 1, 1)
    );
    assert_eq!(room.cloths.len(), 2, "stock and price of the slate tricot");
    assert_eq!(room, read_room_text("harbour.toml", text).unwrap());
}

#[test]
fn an_empty_room_is_planned_for_a_zigzag_machine() {
    let room = read_room_text("room.toml", "format = 1").unwrap();
    assert_eq!(room, Room::default());
    assert_eq!(faults("").len(), 0);
    let other = read_room_text("room.toml", "format = 7").unwrap_err();
    assert_eq!(other.list[0].field, "format");
    assert!(read_room_bytes("room.toml", &[0xff, 0xfe]).is_err());
    assert!(read_room_text("room.toml", "machines = [").is_err());
}

#[test]
fn every_fault_of_a_machine_is_at_its_key() {
    let machine = |rest: &str| format!("[[machines]]\nname = \"M\"\n{rest}");
    one("machines = 3", "machines", "wrong_type");
    one("machines = [3]", "machines[1]", "wrong_type");
    one(
        "[[machines]]\nkind = \"overlocker\"",
        "machines[1].name",
        "missing_key",
    );
    one(&machine(""), "machines[1].kind", "missing_key");
    one(&machine("kind = \"loom\""), "machines[1].kind", "not_allowed");
    one(
        &machine("kind = \"overlocker\"\nspeed = 3"),
        "machines[1].speed",
        "unknown_key",
    );
    one(
        &machine("kind = \"overlocker\"\nmost_width = \"6 mm\""),
        "machines[1].most_width",
        "conflict",
    );
    one(
        &machine("kind = \"overlocker\"\nthreads = \"five\""),
        "machines[1].threads",
        "not_allowed",
    );
    one(
        &machine("kind = \"lockstitch\"\nmost_width = 6"),
        "machines[1].most_width",
        "out_of_range",
    );
    one(
        &machine("kind = \"lockstitch\"\nutility = [\"satin\"]"),
        "machines[1].utility",
        "not_allowed",
    );
    one(
        &machine("kind = \"lockstitch\"\nfeet = \"zip\""),
        "machines[1].feet",
        "wrong_type",
    );
    one(
        &machine("kind = \"coverstitch\"\nneedles = 2.5"),
        "machines[1].needles",
        "wrong_type",
    );
    one(
        &machine("kind = \"coverstitch\"\nneedles = 5"),
        "machines[1].needles",
        "out_of_range",
    );
    one(
        &machine("kind = \"coverstitch\"\nchain = \"yes\""),
        "machines[1].chain",
        "wrong_type",
    );
}

#[test]
fn every_fault_of_stock_and_prices_is_at_its_key() {
    one(
        "[[needles]]\npoint = \"stretch\"\nsize = 75",
        "needles[1].count",
        "missing_key",
    );
    one(
        "[[needles]]\npoint = \"stretch\"\nsize = 7\ncount = 1",
        "needles[1].size",
        "out_of_range",
    );
    one("[[threads]]\nmetres = 100", "threads[1].fibre", "missing_key");
    one(
        "[[threads]]\nfibre = \"silk\"\nmetres = 100",
        "threads[1].fibre",
        "not_allowed",
    );
    one("[[stock]]\namount = 3", "stock[1].item", "missing_key");
    one("[[stock]]\nitem = \"ring\"", "stock[1].amount", "missing_key");
    one(
        "[[stock]]\nitem = \"cord\"\namount = 3",
        "stock[1].amount",
        "wrong_type",
    );
    one(
        "[[stock]]\nitem = \"cord\"\namount = \"some\"",
        "stock[1].amount",
        "not_a_length",
    );
    one(
        "[[stock]]\nitem = \"cord\"\namount = \"-2 m\"",
        "stock[1].amount",
        "out_of_range",
    );
    one(
        "[[stock]]\nitem = \"ring\"\nwidth = \"8 mm\"\namount = 3",
        "stock[1].width",
        "conflict",
    );
    one(
        "[[stock]]\nitem = \"elastic\"\nkind = \"knitted\"\namount = \"1 m\"",
        "stock[1].width",
        "missing_key",
    );
    one(
        "[[prices]]\nitem = \"zip\"\npack = 1",
        "prices[1].price",
        "missing_key",
    );
    one(
        "[[prices]]\nitem = \"zip\"\npack = 0\nprice = 2",
        "prices[1].pack",
        "out_of_range",
    );
    one(
        "[[prices]]\nitem = \"cord\"\npack = \"0 m\"\nprice = 2",
        "prices[1].pack",
        "conflict",
    );
    one(
        "[[prices]]\nitem = \"zip\"\npack = 1\nprice = -2",
        "prices[1].price",
        "out_of_range",
    );
    one("[terms]\nhour_rate = \"much\"", "terms.hour_rate", "wrong_type");
    one(
        "[terms]\nhour_rate = 20\nmargin = 9000",
        "terms.margin",
        "out_of_range",
    );
}

#[test]
fn every_fault_of_a_sample_is_at_its_key() {
    let seam = |rest: &str| {
        format!(
            "[[seams]]\ncloth = \"Slate\"\nstitch = \"zigzag\"\nlength = \"2 mm\"\nverdict = \"good\"\nrelaxed = \"10 cm\"\n{rest}"
        )
    };
    one(&seam(""), "seams[1].stretched", "missing_key");
    one(&seam("stretched = \"9 cm\""), "seams[1].stretched", "refused");
    one(
        &seam("stretched = \"15 cm\"\nfirst_pop = \"9 cm\""),
        "seams[1].first_pop",
        "refused",
    );
    one(
        &seam("stretched = \"15 cm\"\nafter = \"9 cm\""),
        "seams[1].after",
        "refused",
    );
    one(
        &seam("stretched = \"15 cm\"\nwidth = \"2 cm\""),
        "seams[1].width",
        "out_of_range",
    );
    one(
        "[[irons]]\ncloth = \"Slate\"\nverdict = \"good\"",
        "irons[1].heat",
        "missing_key",
    );
    one(
        "[[irons]]\ncloth = \"Slate\"\nheat = 10\nverdict = \"good\"",
        "irons[1].heat",
        "out_of_range",
    );
    let elastic = "[[elastics]]\nkind = \"knitted\"\nwidth = \"8 mm\"\nrelaxed = \"10 cm\"\nstretched = ";
    one(&format!("{elastic}\"9 cm\""), "elastics[1].stretched", "refused");
    one(
        &format!("{elastic}\"10.2 cm\""),
        "elastics[1].stretched",
        "refused",
    );
    one(
        "[[wets]]\ncloth = \"Slate\"\nwet = \"damp\"",
        "wets[1].wet",
        "not_allowed",
    );
}

#[test]
fn one_bad_item_takes_nothing_from_the_others() {
    let text = "format = 1\n[[machines]]\nname = \"Good\"\nkind = \"overlocker\"\n[[machines]]\nname = \"Bad\"\nkind = \"loom\"";
    let (room, faults) = read_room_parts("room.toml", text).unwrap();
    assert_eq!(
        (room.workroom.machines.len(), room.is_assumed, faults.len()),
        (1, false, 1)
    );
}

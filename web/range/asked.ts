/** What is asked of a range: suit, table, own sizes, stature, which sizes. Kept in the address as far as it fits there. */
import type { RangesView, SizeTableView } from "../api/types.js";

/** The form as it stands. */
export interface Asked {
  readonly suit: string;
  /** Key of a table; `own` for hers. */
  readonly table: string;
  readonly stature: string;
  /** Sizes left out. */
  readonly without: readonly string[];
  readonly own: Own;
}

/** Her own table. */
export interface Own {
  readonly name: string;
  readonly csv: string;
  readonly form: string;
  readonly unit: string;
}

/** Whose table goes with a body. */
const TABLE_OF: Readonly<Record<string, string>> = { woman: "women", man: "men", child: "children" };

/** The form as the address asks for it. */
export function askedOf(query: URLSearchParams, offered: RangesView): Asked {
  const suit = query.get("suit") ?? "";
  const form = offered.suits.find((one) => one.id === suit)?.form ?? "";
  return {
    suit,
    table: query.get("table") ?? TABLE_OF[form] ?? "",
    stature: query.get("stature") ?? "",
    without: query.getAll("without"),
    own: { name: "", csv: "", form: form === "" ? "woman" : form, unit: "" },
  };
}

/** The address of it; with `range` of what was drafted. */
export function addressOf(asked: Asked, range: string | null): string {
  const query = new URLSearchParams();
  if (asked.suit !== "") query.set("suit", asked.suit);
  if (asked.table !== "") query.set("table", asked.table);
  if (asked.stature !== "") query.set("stature", asked.stature);
  for (const size of asked.without) query.append("without", size);
  if (range !== null) query.set("range", range);
  return `/ranges?${query.toString()}`;
}

/** The sizes as the studio reads them. */
export function sizesOf(asked: Asked, table: SizeTableView | null) {
  const own = asked.table === "own";
  return {
    table: asked.table,
    csv: own ? asked.own.csv : "",
    name: own ? asked.own.name : "",
    form: own ? asked.own.form : "",
    unit: own ? asked.own.unit : "",
    stature: asked.stature,
    only: asked.without.length === 0 || !table ? [] : table.sizes.map((size) => size.name).filter((name) => !asked.without.includes(name)),
  };
}

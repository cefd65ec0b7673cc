/** Lengths and words of a document's body, as lines changed in place; what is written is kept as it was typed. */
import { withUnit } from "../order/field.js";
import { Line } from "../parts/line.js";
import type { Unit } from "../parts/length.js";
import type { Editable } from "./asking.js";
import { numberOr, TextLine } from "./fields.js";

/** Any body: values are looked at before they are shown. */
export type Body = Readonly<Record<string, unknown>>;

/** A value of a body at a dotted path, as text; empty when there is none. */
export function textAt(body: Body, path: string): string {
  let at: unknown = body;
  for (const step of path.split(".")) at = typeof at === "object" && at !== null ? (at as Body)[step] : undefined;
  if (typeof at === "number") return String(at);
  return typeof at === "string" ? at : "";
}

/** A value of a body as a list of texts. */
export function textsAt(body: Body, path: string): readonly string[] {
  let at: unknown = body;
  for (const step of path.split(".")) at = typeof at === "object" && at !== null ? (at as Body)[step] : undefined;
  return Array.isArray(at) ? at.filter((one): one is string => typeof one === "string") : [];
}

/** A length: "2.4 m", "150 cm". A bare number gets the unit chosen beside it. */
export function LengthLine({ doc, path, name, unit = "cm", hint }: {
  readonly doc: Editable<Body>;
  readonly path: string;
  readonly name: string;
  readonly unit?: Unit;
  readonly hint?: string;
}) {
  const value = doc.value ? textAt(doc.value.body, path) : "";
  return (
    <Line
      name={name}
      {...(value !== "" && { says: value })}
      onEdit={{
        unit,
        units: unit === "mm" ? ["mm", "in"] : ["cm", "in"],
        ...(hint !== undefined && { hint }),
        onKeep: (text, meant) => doc.set({ [path]: withUnit(text, meant) }),
      }}
    />
  );
}

/** Words. */
export function WordsLine({ doc, path, name, hint, kind = "text", empty }: {
  readonly doc: Editable<Body>;
  readonly path: string;
  readonly name: string;
  readonly hint?: string;
  readonly kind?: "text" | "long" | "date";
  readonly empty?: string;
}) {
  return (
    <TextLine
      name={name}
      value={doc.value ? textAt(doc.value.body, path) : ""}
      kind={kind}
      {...(hint !== undefined && { hint })}
      {...(empty !== undefined && { empty })}
      onKeep={(text) => doc.set({ [path]: text === "" ? null : text })}
    />
  );
}

/** A plain number with its unit behind it: per cent, g/m², kg. */
export function NumberLine({ doc, path, name, unit, hint }: {
  readonly doc: Editable<Body>;
  readonly path: string;
  readonly name: string;
  readonly unit: string;
  readonly hint?: string;
}) {
  const value = doc.value ? textAt(doc.value.body, path) : "";
  return (
    <TextLine
      name={name}
      value={value}
      kind="number"
      {...(value !== "" && { shown: unit === "" ? value : <>{value} <small>{unit}</small></> })}
      {...(hint !== undefined && { hint })}
      onKeep={(text) => doc.set({ [path]: numberOr(text) })}
    />
  );
}

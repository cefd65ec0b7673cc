/** Between the studio's types and the parts' own: the same things, with absent written as absent. */
import type { Quantity, Why } from "../api/types.js";
import type { Quantity as Shown, Reason } from "../lib/quantity.js";

/** A figure for [Figure], [Second] and [Line]. */
export function shown(quantity: Quantity): Shown {
  const { main, unit, second, spoken, why } = quantity;
  return { main, unit, second, spoken, ...(why !== null && { why }) };
}

/** One line of words: `73.0 cm`. */
export function inWords(quantity: Quantity): string {
  return quantity.unit === "" ? quantity.main : `${quantity.main} ${quantity.unit}`;
}

/** A reason for [Slip]. */
export function asReason(why: Why): Reason {
  return {
    question: why.question,
    says: why.answer,
    ...(why.sum !== "" && { sum: why.sum }),
    inputs: why.inputs,
    source: why.source,
  };
}

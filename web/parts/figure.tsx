/** A figure as the studio worded it: the value in Besley, its unit and the second unit small, the spoken form for ears. */
import type { Quantity } from "../lib/quantity.js";

/** "73.0 cm" with the spoken form; the second unit stands elsewhere on the line, see [Second]. */
export function Figure({ quantity }: { readonly quantity: Quantity }) {
  return (
    <>
      <span aria-hidden="true">
        {quantity.main}
        {quantity.unit !== "" && <small> {quantity.unit}</small>}
      </span>
      <span class="heard">{quantity.spoken}</span>
    </>
  );
}

/** "28¾ in", for eyes only: [Figure] has read it out. */
export function Second({ quantity }: { readonly quantity: Quantity }) {
  return (
    <span class="second" aria-hidden="true">
      {quantity.second}
    </span>
  );
}

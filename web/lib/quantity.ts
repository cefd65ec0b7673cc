/**
 * A length or figure as the studio computed and worded it.
 *
 * Pages do no arithmetic on lengths: both units and the spoken form arrive ready, so that page, paper and command line
 * cannot disagree.
 */
export interface Quantity {
  /** The figure in the maker's first unit: "73.0". */
  readonly main: string;
  /** Its unit: "cm"; empty for a bare figure or a word. */
  readonly unit: string;
  /** The same in the second unit, with it: "28¾ in"; empty when there is none. */
  readonly second: string;
  /** How it is read out: "73 centimetres, 28 and three quarter inches". */
  readonly spoken: string;
  /** Address under which the studio gives the reason; absent when nobody can ask. */
  readonly why?: string;
}

/** The answer to "why?": what a slip shows. */
export interface Reason {
  /** "Why 15 % at the hip?" */
  readonly question: string;
  /** One sentence. */
  readonly says: string;
  /** The sum as it is worked: "99.0 ÷ 85.9 − 1 = 15.3 %". */
  readonly sum?: string;
  /** What went in, with units, worded by the studio. */
  readonly inputs?: readonly { readonly name: string; readonly value: string }[];
  /** Where the rule comes from. */
  readonly source: string;
}

/** What is wrong with something typed or asked, in three parts. */
export interface Problem {
  /** What is wrong: "73,x is not a length". */
  readonly what: string;
  /** Where, when it is not plain from the place the message stands. */
  readonly where?: string;
  /** What to do: "Write 73.0 or 28 3/4 in." */
  readonly next?: string;
}

/** A sentence whose figures stay with their units at the end of a line. */
export function unbroken(says: string): string {
  return says.replaceAll(/(?<=[\d¼½¾⅛⅜⅝⅞]) (?=(?:mm|cm|m|in|yd|kg|kPa|N|%)(?![\p{L}\d]))/gu, "\u00a0");
}

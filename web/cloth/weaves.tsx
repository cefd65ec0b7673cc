/**
 * The five looks of a cloth as patterns to fill with: plain, ribs, leaf, dots, mesh. One set for swatches, for suits on the
 * line and for the strips of a pull, so that a cloth is known again wherever it is drawn.
 */
import type { LookView } from "../api/types.js";

/** Words for the looks, in the order they are offered. */
export const LOOKS = [
  { value: "plain", says: "Plain" },
  { value: "ribs", says: "Ribs" },
  { value: "leaf", says: "Leaf print" },
  { value: "dots", says: "Dots" },
  { value: "mesh", says: "Mesh" },
] as const;

/**
 * A pattern named `id`, for `fill="url(#id)"`. `size` is how many units of the drawing one unit of the weave takes: 1 on a
 * swatch of 170 units, about 3 on a suit drawn in mm.
 */
export function Weave({ id, look, size = 1 }: { readonly id: string; readonly look: LookView; readonly size?: number }) {
  const { width, height, turned, drawn } = weaveOf(look);
  return (
    <pattern
      id={id}
      width={width}
      height={height}
      patternUnits="userSpaceOnUse"
      patternTransform={`scale(${size})${turned ? " rotate(45)" : ""}`}
    >
      <rect width={width} height={height} fill={look.colour} />
      {drawn}
    </pattern>
  );
}

function weaveOf(look: LookView) {
  const mark = markOn(look.colour);
  switch (look.weave) {
    case "ribs":
      return {
        width: 5,
        height: 5,
        turned: false,
        drawn: <path d="M.5 0v5" stroke={mark} stroke-width=".7" opacity=".3" />,
      };
    case "leaf":
      return {
        width: 46,
        height: 64,
        turned: false,
        drawn: (
          <g opacity=".8">
            <path
              d="M12 64C6 50 18 40 12 30M35 32C29 18 41 10 35 0"
              fill="none"
              stroke={mark}
              stroke-width="2"
              stroke-linecap="round"
            />
            <path
              d="M12 50q-11-1-9-12 9 2 9 12M13 42q11-1 9-12-9 2-9 12M12 31q-6-7 0-14 6 7 0 14M35 18q-11-1-9-12 9 2 9 12M36 10q11-1 8-11-8 2-8 11M35 63q-6-7 0-14 6 7 0 14"
              fill={mark}
            />
          </g>
        ),
      };
    case "dots":
      return {
        width: 22,
        height: 22,
        turned: false,
        drawn: (
          <g fill={mark} opacity=".75">
            <circle cx="5.5" cy="5.5" r="3" />
            <circle cx="16.5" cy="16.5" r="3" />
          </g>
        ),
      };
    case "mesh":
      return {
        width: 7,
        height: 7,
        turned: true,
        drawn: <circle cx="3.5" cy="3.5" r="1.7" fill="var(--ground)" />,
      };
    default:
      return { width: 5, height: 5, turned: false, drawn: <path d="M0 .5h5" stroke={mark} stroke-width=".5" opacity=".14" /> };
  }
}

/** Light marks on a dark ground, dark ones on a light ground. */
function markOn(colour: string): string {
  const read = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(colour);
  if (!read) return "#FBFAF4";
  const [red, green, blue] = read.slice(1).map((two) => Number.parseInt(two, 16));
  return (red ?? 0) * 0.3 + (green ?? 0) * 0.59 + (blue ?? 0) * 0.11 > 150 ? "#3A3017" : "#FBFAF4";
}

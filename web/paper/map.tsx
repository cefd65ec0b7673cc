/** The page map: outlines over tiles, letters and numbers at the edge as on a map; blank tiles are left out of the print. */
import { useRef } from "preact/hooks";
import type { PageMap as Map } from "../api/types.js";
import { useMmPerPixel } from "../order/scale.js";

/** Room for letters and numbers at the edge, px. */
const EDGE = 26;

/** The map of the chosen paper. */
export function PageMap({ map }: { readonly map: Map }) {
  const drawing = useRef<SVGSVGElement>(null);
  // The edge is in px and the sheet in mm: the first draw guesses, the next one knows.
  const guess = useMmPerPixel(drawing, map.frame.width, 0, map.frame.width / 360);
  const edge = EDGE * guess * 1.08;
  const { frame } = map;
  const columns = new globalThis.Map(map.tiles.map((tile) => [tile.column, tile.frame.x + tile.frame.width / 2]));
  const rows = new globalThis.Map(map.tiles.map((tile) => [tile.row, tile.frame.y + tile.frame.height / 2]));
  const printed = map.tiles.filter((tile) => tile.is_printed);
  const blank = map.tiles.filter((tile) => !tile.is_printed);
  return (
    <svg
      ref={drawing}
      class="pagemap"
      viewBox={`${frame.x - edge} ${frame.y - edge} ${frame.width + edge * 1.2} ${frame.height + edge * 1.2}`}
      role="img"
      aria-label={`Page map: ${map.pages} pages, ${rows.size} rows and ${columns.size} columns, ${map.blank} blank left out`}
    >
      {blank.map(({ code, frame: tile }) => (
        <rect key={code} class="blanktile" x={tile.x} y={tile.y} width={tile.width} height={tile.height} />
      ))}
      {printed.map(({ code, frame: tile }) => (
        <rect key={code} class="tile" x={tile.x} y={tile.y} width={tile.width} height={tile.height} />
      ))}
      {map.outlines.map((outline, i) => (
        <path key={`${outline.letter}${i}`} class="k-cut" d={outline.path} />
      ))}
      <g aria-hidden="true">
        {map.outlines.map((outline, i) => (
          <text key={`${outline.letter}${i}`} class="outlineletter" x={outline.at.x} y={outline.at.y} font-size={18 * guess}>
            {outline.letter}
          </text>
        ))}
        {[...columns].map(([column, x]) => (
          <text key={column} class="edgeword" x={x} y={frame.y - 8 * guess} font-size={15 * guess}>
            {column}
          </text>
        ))}
        {[...rows].map(([row, y]) => (
          <text key={row} class="edgeword" x={frame.x - 14 * guess} y={y + 5 * guess} font-size={15 * guess}>
            {row}
          </text>
        ))}
      </g>
    </svg>
  );
}

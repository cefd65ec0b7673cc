/**
 * The elastic map: an edge drawn flat as a ruler above its elastic, one stroke a centimetre. Upright strokes are flat,
 * strokes that lean together are ease.
 */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { ArcView, EdgeView, Quantity } from "../api/types.js";
import { AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { inWords, shown } from "../order/quantity.js";
import { Figure } from "../parts/figure.js";

/** Millimetres between two strokes. */
const EVERY_MM = 10;
/** Narrower than this the map takes two lines, px. */
const TWO_LINES_BELOW = 560;
/** In a window lower than this the map at the bench is drawn flatter, so that the settings stay in sight, px. */
const LOW_WINDOW = 820;
/** An arc with less than this of ease is flat to the hand, share of its edge. */
const FLAT = 0.005;

interface Laid {
  readonly arc: ArcView;
  /** Edge from, to; elastic from, to; mm along the line. */
  readonly e0: number;
  readonly e1: number;
  readonly l0: number;
  readonly l1: number;
}

/** Arcs one after another from the start of a line. */
function laid(arcs: readonly ArcView[]): readonly Laid[] {
  let [e, l] = [0, 0];
  return arcs.map((arc) => {
    const one = { arc, e0: e, e1: e + arc.edge_mm, l0: l, l1: l + arc.elastic_mm };
    [e, l] = [one.e1, one.l1];
    return one;
  });
}

/** A line shorter than this share of the edge is not worth parting it for. */
const LEAST_PART = 0.25;

/** Two lines, parted at the mark nearest to the middle; one where that would leave a stub. */
function parted(arcs: readonly ArcView[]): readonly (readonly ArcView[])[] {
  if (arcs.length < 2) return [arcs];
  const half = arcs.reduce((sum, arc) => sum + arc.edge_mm, 0) / 2;
  let [run, cut, best] = [0, 1, Number.POSITIVE_INFINITY];
  arcs.slice(0, -1).forEach((arc, i) => {
    run += arc.edge_mm;
    if (Math.abs(run - half) < best) [best, cut] = [Math.abs(run - half), i + 1];
  });
  if (half - best < 2 * half * LEAST_PART) return [arcs];
  return [arcs.slice(0, cut), arcs.slice(cut)];
}

/**
 * `big` is for the bench: larger words, what to do instead of the ratio. `marks` shows the table of the marks to eyes too; with `tools` its
 * lengths can be asked.
 */
export function ElasticMap({ edge, tools, big = false, marks = false }: {
  readonly edge: EdgeView;
  readonly tools?: OrderTools;
  readonly big?: boolean;
  readonly marks?: boolean;
}) {
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return;
    setWidth(element.clientWidth);
    const watch = new ResizeObserver(() => setWidth(element.clientWidth));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  const lines = width < TWO_LINES_BELOW ? parted(edge.arcs) : [edge.arcs];
  const longest = Math.max(...lines.map((arcs) => arcs.reduce((sum, arc) => sum + Math.max(arc.edge_mm, arc.elastic_mm), 0)), 1);
  return (
    <div ref={box} class={big ? "elasticmap big" : "elasticmap"}>
      {width > 0 &&
        lines.map((arcs, i) => (
          <MapLine
            key={i}
            arcs={arcs}
            pixels={(width - 4) / longest}
            width={width}
            big={big}
            label={`${edge.name}: ${arcs.map(spoken).join("; ")}`}
          />
        ))}
      <MapTable edge={edge} isSeen={marks} {...(tools && { tools })} />
    </div>
  );
}

function spoken(arc: ArcView): string {
  return `${arc.name} ${arc.edge.spoken} of edge, ${arc.elastic.spoken} of elastic, ${arc.ratio.spoken || arc.ratio.main}`;
}

function isFlat(arc: ArcView): boolean {
  return arc.edge_mm <= 0 || Math.abs(arc.edge_mm - arc.elastic_mm) / arc.edge_mm < FLAT;
}

/** One line of the map. `pixels` to a mm. */
function MapLine({ arcs, pixels, width, big, label }: {
  readonly arcs: readonly ArcView[];
  readonly pixels: number;
  readonly width: number;
  readonly big: boolean;
  readonly label: string;
}) {
  const line = laid(arcs);
  const isLow = big && innerHeight < LOW_WINDOW;
  const size = big ? (width < TWO_LINES_BELOW ? 21 : isLow ? 22 : 26) : 15;
  const row = size * 1.35;
  const [strokes, band] = big ? [isLow ? 64 : 92, 18] : [72, 12];
  const x = (mm: number): number => 2 + mm * pixels;
  const named = inRows(
    line.map((one) => ({
      at: (x(one.e0) + x(one.e1)) / 2,
      words: [one.arc.letter === "" || big ? one.arc.name : `${one.arc.letter} ${one.arc.name}`, ...(big ? [] : [one.arc.edge.main])],
    })),
    size,
    width,
  );
  const told = inRows(
    line.map((one) => ({
      at: (x(one.l0) + x(one.l1)) / 2,
      words: big ? [doing(one.arc)] : [one.arc.elastic.main, one.arc.ratio.main],
    })),
    size,
    width,
  );
  const high = (words: readonly Placed[]): number =>
    Math.max(...words.map((one) => one.row * row * one.words.length + row * one.words.length), row);
  const top = high(named) + 10;
  const foot = top + strokes;
  const end = line.at(-1);
  const height = foot + band + 8 + high(told);
  return (
    <svg viewBox={`0 0 ${width} ${height}`} width={width} height={height} role="img" aria-label={label}>
      {line.map((one) => {
        const flat = isFlat(one.arc);
        const strokesAt = Array.from({ length: Math.max(0, Math.ceil(one.arc.edge_mm / EVERY_MM) - 1) }, (_, i) => (i + 1) * EVERY_MM);
        const span = one.arc.edge_mm || 1;
        return (
          <g key={`${one.arc.letter} ${one.e0}`}>
            {!flat && <path class="easepatch" d={`M${x(one.e0)} ${top}L${x(one.e1)} ${top}L${x(one.l1)} ${foot}L${x(one.l0)} ${foot}Z`} />}
            <path
              class="k-fine"
              d={strokesAt
                .map((at) => `M${x(one.e0 + at).toFixed(1)} ${top}L${x(one.l0 + (at * one.arc.elastic_mm) / span).toFixed(1)} ${foot}`)
                .join("")}
            />
            <path class="arcmark" d={`M${x(one.e0)} ${top - 6}L${x(one.e0)} ${top}L${x(one.l0)} ${foot}`} />
          </g>
        );
      })}
      {end && (
        <>
          <path class="arcmark" d={`M${x(end.e1)} ${top - 6}L${x(end.e1)} ${top}L${x(end.l1)} ${foot}`} />
          <path class="edgeline" d={`M${x(0)} ${top}L${x(end.e1)} ${top}`} />
          <rect class="elasticband" x={x(0)} y={foot} width={Math.max(0, end.l1 * pixels)} height={band} />
        </>
      )}
      <g aria-hidden="true" font-size={size}>
        {named.map((one, i) =>
          one.words.map((word, n) => (
            <text
              key={`above ${i} ${n}`}
              class={n === 0 ? "strong" : undefined}
              x={one.x}
              y={top - 12 - (one.row * one.words.length + one.words.length - 1 - n) * row}
              text-anchor={one.anchor}
            >
              {word}
            </text>
          )),
        )}
        {told.map((one, i) =>
          one.words.map((word, n) => (
            <text
              key={`below ${i} ${n}`}
              class={n === one.words.length - 1 && line[i] && !isFlat(line[i].arc) ? "strong" : undefined}
              x={one.x}
              y={foot + band + (one.row * one.words.length + n + 1) * row - 2}
              text-anchor={one.anchor}
            >
              {word}
            </text>
          )),
        )}
      </g>
    </svg>
  );
}

interface Placed {
  readonly words: readonly string[];
  readonly x: number;
  readonly anchor: "start" | "middle" | "end";
  /** 0 next to the drawing, 1 beyond it. */
  readonly row: number;
}

/** Words at their places along a line; those that would touch the ones before them take the next row. */
function inRows(
  wanted: readonly { readonly at: number; readonly words: readonly string[] }[],
  size: number,
  width: number,
): readonly Placed[] {
  const ends: number[] = [];
  return wanted.map(({ at, words }) => {
    // A letter of the sheet's plain type is a little over half as wide as it is high.
    const half = (Math.max(...words.map((word) => word.length)) * size * 0.54) / 2;
    const [left, right] = at - half < 0 ? [0, 2 * half] : at + half > width ? [width - 2 * half, width] : [at - half, at + half];
    let row = 0;
    while ((ends[row] ?? Number.NEGATIVE_INFINITY) + size * 0.3 > left && row < 2) row += 1;
    ends[row] = right;
    return at - half < 0
      ? { words, x: 0, anchor: "start" as const, row }
      : at + half > width
        ? { words, x: width, anchor: "end" as const, row }
        : { words, x: at, anchor: "middle" as const, row };
  });
}

/** What the hand does along an arc. */
function doing(arc: ArcView): string {
  if (isFlat(arc)) return "flat";
  return `stretch ${arc.elastic.main} to ${arc.edge.main}`;
}

/** The same as a table, with where each mark stands; for ears, and for eyes when it is asked for. */
function MapTable({ edge, isSeen, tools }: { readonly edge: EdgeView; readonly isSeen: boolean; readonly tools?: OrderTools }) {
  const figure = (of: Quantity, arc: ArcView) =>
    tools ? <AskedFigure tools={tools} quantity={of} label={`why ${inWords(of)}: ${arc.name}?`} /> : <Figure quantity={shown(of)} />;
  return (
    <div class={isSeen ? "maptable" : "heard"}>
      <table class={isSeen ? "table" : undefined} role="table">
        <caption class={isSeen ? "heard" : undefined}>Elastic of {edge.name}</caption>
        <thead role="rowgroup">
          <tr role="row">
            {["Mark", "Arc", "On the edge", "On the elastic", "Edge", "Elastic", "Ratio"].map((head, i) => (
              <th key={head} role="columnheader" scope="col" class={i > 1 ? "right" : undefined}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody role="rowgroup">
          {edge.arcs.map((arc) => (
            <tr key={arc.letter} role="row">
              <th role="rowheader" scope="row">
                {arc.letter}
              </th>
              <td role="cell">{arc.name}</td>
              {[arc.edge_mark, arc.elastic_mark, arc.edge, arc.elastic].map((value, i) => (
                <td key={i} role="cell" class="right">
                  {isSeen && <span class="onphone">{["on the edge", "on the elastic", "edge", "elastic"][i]} </span>}
                  {isSeen ? figure(value, arc) : value.spoken}
                </td>
              ))}
              <td role="cell" class="right">
                {isSeen ? figure(arc.ratio, arc) : arc.ratio.spoken || inWords(arc.ratio)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

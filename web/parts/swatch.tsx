/**
 * A pinked square of the cloth, or her photo of it, with the stretch cross: two arrows whose lengths are in proportion to
 * the pull the maker measured.
 */
import { useId } from "preact/hooks";

/** How the cloth looks: `weave` draws its surface, `colour` is any CSS colour, as `var(--cloth-slate)`. */
export interface ClothLook {
  readonly colour: string;
  readonly weave: "plain" | "rib" | "course" | "mesh" | "print";
  /** A photo instead; from this origin or a blob. */
  readonly photo?: string;
}

/** Measured stretch as shares: 0.85 is 85 %. */
export interface StretchCross {
  readonly across: number;
  readonly along: number;
}

const SIDE = 170;
const MIDDLE = SIDE / 2;
/** Radius of the paper disc under the cross; an arrow of [FULL_STRETCH] reaches almost to its edge. */
const DISC = 57;
const FULL_STRETCH = 1;
const REACH = 50;

/** `says` names it for ears: "Slate tricot, stretch 85 % across, 60 % along". */
export function Swatch({ cloth, stretch, says, teeth = 13 }: {
  readonly cloth: ClothLook;
  readonly stretch?: StretchCross;
  readonly says: string;
  /** Pinked teeth along a side: 13 for a large swatch, 11 for a small one. */
  readonly teeth?: number;
}) {
  const id = useId();
  return (
    <svg class="swatch" viewBox={`0 0 ${SIDE} ${SIDE}`} role="img" aria-label={says}>
      <defs>
        <clipPath id={`${id}-edge`}>
          <path d={pinked(teeth)} />
        </clipPath>
        <Weave id={`${id}-weave`} cloth={cloth} />
      </defs>
      <g clip-path={`url(#${id}-edge)`}>
        {cloth.photo === undefined ? (
          <rect width={SIDE} height={SIDE} fill={`url(#${id}-weave)`} />
        ) : (
          <image href={cloth.photo} width={SIDE} height={SIDE} preserveAspectRatio="xMidYMid slice" />
        )}
      </g>
      {stretch && (
        <g class="cross">
          <circle cx={MIDDLE} cy={MIDDLE} r={DISC} />
          <path d={arrow(stretch.across, false)} />
          <path d={arrow(stretch.along, true)} />
        </g>
      )}
    </svg>
  );
}

/** A square with `teeth` points along each side, cut as pinking shears leave it: valleys on an inner square, points outside. */
function pinked(teeth: number): string {
  const deep = SIDE / (teeth * 1.35);
  const step = (SIDE - 2 * deep) / teeth;
  const points: string[] = [];
  const side = (at: (along: number, inward: number) => readonly [number, number]): void => {
    for (let i = 0; i < teeth; i += 1) {
      points.push(at(deep + i * step, deep).join(" "), at(deep + (i + 0.5) * step, 0).join(" "));
    }
  };
  side((along, inward) => [along, inward]);
  side((along, inward) => [SIDE - inward, along]);
  side((along, inward) => [SIDE - along, SIDE - inward]);
  side((along, inward) => [inward, SIDE - along]);
  return `M${points.join("L")}Z`;
}

/** A line with an open head at both ends, centred; `share` of 1 fills the disc. */
function arrow(share: number, upright: boolean): string {
  const half = Math.min(Math.max(share / FULL_STRETCH, 0.12), 1.04) * REACH;
  const head = Math.min(7.5, half * 0.6);
  const at = (x: number, y: number): string => (upright ? `${MIDDLE - y} ${MIDDLE + x}` : `${MIDDLE + x} ${MIDDLE + y}`);
  const end = (sign: number): string =>
    `M${at(sign * (half - head), 3)}L${at(sign * half, 0)}L${at(sign * (half - head), -3)}`;
  return `M${at(-half, 0)}L${at(half, 0)}${end(1)}${end(-1)}`;
}

function Weave({ id, cloth }: { readonly id: string; readonly cloth: ClothLook }) {
  const { colour } = cloth;
  switch (cloth.weave) {
    case "rib":
      return (
        <pattern id={id} width="5" height="5" patternUnits="userSpaceOnUse">
          <rect width="5" height="5" fill={colour} />
          <path d="M.5 0v5" stroke="var(--ink)" stroke-width=".7" opacity=".28" />
        </pattern>
      );
    case "course":
      return (
        <pattern id={id} width="5" height="5" patternUnits="userSpaceOnUse">
          <rect width="5" height="5" fill={colour} />
          <path d="M0 .5h5" stroke="var(--ink)" stroke-width=".6" opacity=".16" />
        </pattern>
      );
    case "mesh":
      return (
        <pattern id={id} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="7" height="7" fill={colour} />
          <circle cx="3.5" cy="3.5" r="1.7" fill="var(--ground)" />
        </pattern>
      );
    case "print":
      return (
        <pattern id={id} width="46" height="64" patternUnits="userSpaceOnUse">
          <rect width="46" height="64" fill={colour} />
          <g fill="none" stroke="var(--on-cloth)" stroke-width="2" stroke-linecap="round" opacity=".8">
            <path d="M12 64C6 50 18 40 12 30M35 32C29 18 41 10 35 0" />
          </g>
          <g fill="var(--on-cloth)" opacity=".8">
            <path d="M12 50q-11-1-9-12 9 2 9 12M13 42q11-1 9-12-9 2-9 12M12 31q-6-7 0-14 6 7 0 14M35 18q-11-1-9-12 9 2 9 12M36 10q11-1 8-11-8 2-8 11M35 63q-6-7 0-14 6 7 0 14" />
          </g>
        </pattern>
      );
    case "plain":
      return (
        <pattern id={id} width="5" height="5" patternUnits="userSpaceOnUse">
          <rect width="5" height="5" fill={colour} />
        </pattern>
      );
  }
}

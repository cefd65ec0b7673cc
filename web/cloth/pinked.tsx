/** A pinked square of a cloth, or her photo of it, with the stretch cross: two arrows in proportion to the pull she measured. */
import { useId } from "preact/hooks";
import type { LookView } from "../api/types.js";
import { Weave } from "./weaves.js";

const SIDE = 170;
const MIDDLE = SIDE / 2;
/** Radius of the paper disc under the cross, and of an arrow that stands for 100 %. */
const DISC = 57;
const REACH = 50;

/** `cross` is the stretch across and along as ratios; without it only the cloth is drawn. `says` names it for ears; empty where words beside it do. */
export function Pinked({ look, cross = null, says, teeth = 15 }: {
  readonly look: LookView;
  readonly cross?: readonly [number, number] | null;
  readonly says: string;
  readonly teeth?: number;
}) {
  const id = useId();
  return (
    <svg class="swatch" viewBox={`0 0 ${SIDE} ${SIDE}`} {...(says === "" ? { "aria-hidden": true } : { role: "img", "aria-label": says })}>
      <defs>
        <clipPath id={`${id}-edge`}>
          <path d={pinked(teeth)} />
        </clipPath>
        <Weave id={`${id}-weave`} look={look} />
      </defs>
      <g clip-path={`url(#${id}-edge)`}>
        <rect width={SIDE} height={SIDE} fill={`url(#${id}-weave)`} />
        {look.photo !== null && (
          <image
            href={`/api/v1/photos/${encodeURIComponent(look.photo)}`}
            width={SIDE}
            height={SIDE}
            preserveAspectRatio="xMidYMid slice"
          />
        )}
      </g>
      {cross && (
        <g class="cross">
          <circle cx={MIDDLE} cy={MIDDLE} r={DISC} />
          <path d={arrow(cross[0], false)} />
          <path d={arrow(cross[1], true)} />
        </g>
      )}
    </svg>
  );
}

/** A square as pinking shears leave it. */
function pinked(teeth: number): string {
  const step = SIDE / teeth;
  const deep = step * 0.85;
  const points: string[] = [];
  const side = (at: (along: number, inward: number) => string): void => {
    for (let i = 0; i < teeth; i += 1) points.push(at(i * step, i === 0 ? 0 : deep), at((i + 0.5) * step, 0));
  };
  side((along, inward) => `${along} ${inward}`);
  side((along, inward) => `${SIDE - inward} ${along}`);
  side((along, inward) => `${SIDE - along} ${SIDE - inward}`);
  side((along, inward) => `${inward} ${SIDE - along}`);
  return `M${points.join("L")}Z`;
}

function arrow(share: number, upright: boolean): string {
  const half = Math.min(Math.max(share, 0.12), 1.04) * REACH;
  const head = Math.min(7.5, half * 0.6);
  const at = (x: number, y: number): string => (upright ? `${MIDDLE - y} ${MIDDLE + x}` : `${MIDDLE + x} ${MIDDLE + y}`);
  const end = (sign: number): string =>
    `M${at(sign * (half - head), 3)}L${at(sign * half, 0)}L${at(sign * (half - head), -3)}`;
  return `M${at(-half, 0)}L${at(half, 0)}${end(1)}${end(-1)}`;
}

/**
 * The stretch ladder: the form in section rings and the body's levels as rungs at one height scale. Two oat rails say
 * between what a suit holds and keeps reserve; each layer's mark hangs from the rung or stands under it.
 */
import { useState } from "preact/hooks";
import type { FormView, Quantity, RailView, RungView, UseView, WearView } from "../api/types.js";
import { Asked, AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { inWords } from "../order/quantity.js";
import { StateIcon } from "../parts/icon.js";
import { Icon } from "../parts/icon.js";
import { Rings } from "../wearer/rings.js";
import { evenly, heightsOf } from "./heights.js";
import type { Rung } from "./heights.js";

/** `then` is the wear with a proposal that is being looked at. */
export function Ladder({ tools, wear, then, form, withSqueeze }: {
  readonly tools: OrderTools;
  readonly wear: WearView;
  readonly then: WearView | null;
  readonly form: FormView | null;
  /** Also the pressure in kPa. */
  readonly withSqueeze: boolean;
}) {
  const [turn, setTurn] = useState(18);
  const [chosen, setChosen] = useState<string | null>(null);
  const heights = form && heightsOf(form, wear.rungs, turn);
  const rungs = heights?.rungs ?? evenly(wear.rungs);
  const open = wear.rungs.find((rung) => rung.level === chosen);
  const weights = Object.fromEntries(wear.rungs.filter((rung) => rung.pressure !== null).map((rung) => [rung.level, rung.weight]));
  const share = (of: number): string => `${((100 * of) / (wear.scale || 1)).toFixed(2)}%`;
  const hasLining = wear.rungs.some((rung) => rung.layers.some((one) => one.layer === "lining"));
  return (
    <>
      <p class="small">
        On each rung, the share of its own stretch a layer has in use: <Knot of="shell" /> shell above
        {hasLining && (
          <>
            , <Knot of="lining" /> lining below
          </>
        )}
        .{then && <> Outlined: with the proposal.</>}
      </p>
      <div
        class={heights ? "ladder" : "ladder formless"}
        role="group"
        aria-label="Stretch ladder"
        {...(heights && { style: { "--ratio": String(heights.box.width / heights.box.height) } })}
      >
        <div class="ladderhead" aria-hidden="true">
          {heights && <span class="form">{Object.keys(weights).length > 0 ? "Thicker ring: more squeeze" : "Drag to turn"}</span>}
          <span class="body">body</span>
          <span class="cutw">{then ? "then" : "cut"}</span>
          <span class="worn">worn</span>
        </div>
        <div class="railwords">
          {wear.rails.map((rail) => (
            <RailWords key={rail.words} tools={tools} rail={rail} left={share(rail.share)} />
          ))}
        </div>
        <div class="field">
          {heights && form && (
            <div class="formcolumn">
              <div class="formbox">
                <Rings
                  form={form}
                  turn={turn}
                  onTurn={setTurn}
                  from={heights.from}
                  to={heights.to}
                  {...(Object.keys(weights).length > 0 && { weights })}
                  label="The body in section rings, as heavy as the suit squeezes"
                />
              </div>
            </div>
          )}
          {rungs.map(
            ({ rung, ring }) =>
              ring && (
                <i
                  key={`line ${rung.level}`}
                  class="rungline"
                  style={{ top: `${ring.at * 100}%`, left: `calc(var(--boxleft) + var(--boxed) * ${ring.right.toFixed(4)} + 6px)` }}
                />
              ),
          )}
          <div class="rails" aria-hidden="true">
            {wear.rails.map((rail) => (
              <i key={rail.words} class="rail" style={{ left: share(rail.share) }} />
            ))}
          </div>
          {rungs.map((one, i) => (
            <RungLine
              key={one.rung.level}
              tools={tools}
              place={one}
              isClose={one.at - (rungs[i - 1]?.at ?? 0) < CLOSE}
              wear={wear}
              then={then?.rungs.find((rung) => rung.level === one.rung.level) ?? null}
              share={share}
              withSqueeze={withSqueeze}
              isChosen={chosen === one.rung.level}
              onChoose={() => setChosen(chosen === one.rung.level ? null : one.rung.level)}
            />
          ))}
        </div>
      </div>
      <div class="rungsays" role="status" aria-live="polite">
        {open && <RungSays tools={tools} rung={open} />}
      </div>
      <LadderTable wear={wear} />
    </>
  );
}

/** Rungs nearer than this share of the height to another or to the top leave, on a phone, no room for a name above them. */
const CLOSE = 0.12;

export function RailWords({ tools, rail, left }: { readonly tools: OrderTools; readonly rail: RailView; readonly left: string }) {
  // The figure above, what it means below: two rails stand close together.
  const at = rail.words.indexOf("%") + 1;
  const [figure, rest] = [rail.words.slice(0, at || rail.words.length), at > 0 ? rail.words.slice(at).trim() : ""];
  return (
    <span class="railword" style={{ left }}>
      <Asked tools={tools} why={rail.why === "" ? null : rail.why} label={`why ${rail.words}?`}>
        {figure}
        {rest !== "" && (
          <>
            <br />
            {rest}
          </>
        )}
      </Asked>
    </span>
  );
}

function RungLine({ tools, place, isClose, wear, then, share, withSqueeze, isChosen, onChoose }: {
  readonly tools: OrderTools;
  readonly place: Rung;
  /** So near below another that its name would cover that one's knots on a phone. */
  readonly isClose: boolean;
  readonly wear: WearView;
  readonly then: RungView | null;
  readonly share: (of: number) => string;
  readonly withSqueeze: boolean;
  readonly isChosen: boolean;
  readonly onChoose: () => void;
}) {
  const { rung, at } = place;
  const first = wear.rails[0]?.share ?? 0;
  const last = wear.rails.at(-1)?.share ?? wear.scale;
  const moved = then && then.worn.main !== rung.worn.main;
  return (
    <div class={`rung ${rung.state}${isClose ? " close" : ""}`} style={{ top: `${at * 100}%` }}>
      <div class="bar" aria-hidden="true">
        <i class="between" style={{ left: share(first), right: `calc(100% - ${share(last)})` }} />
        <i class="beyond" style={{ left: share(last) }} />
        {rung.layers.map((layer) => (
          <Mark key={layer.layer} layer={layer} at={share(Math.min(layer.share, wear.scale))} />
        ))}
        {then?.layers.map((layer) => (
          <Mark key={`then ${layer.layer}`} layer={layer} at={share(Math.min(layer.share, wear.scale))} isThen />
        ))}
      </div>
      <button type="button" class="rungname" aria-expanded={isChosen} onClick={onChoose}>
        {rung.state !== "good" && <Icon name={rung.state} />}
        {rung.state !== "good" && <span class="heard">{rung.state}: </span>}
        <span class="edit">{rung.name}</span>
        {withSqueeze && <small> {rung.pressure ? inWords(rung.pressure) : "not known"}</small>}
      </button>
      <span class="body" aria-hidden="true">
        {rung.is_estimate && "est. "}
        {rung.body.main}
      </span>
      <span class="cutw" aria-hidden="true">
        {then ? inWords(then.worn) : rung.cut.main}
      </span>
      <b class="worn">
        <AskedFigure tools={tools} quantity={rung.worn} label={`why ${inWords(rung.worn)} at the ${rung.name.toLowerCase()}?`} />
        {moved && then && <small class="then">then {inWords(then.worn)}</small>}
      </b>
    </div>
  );
}

function Mark({ layer, at, isThen = false }: { readonly layer: UseView; readonly at: string; readonly isThen?: boolean }) {
  return (
    <svg class={`knot ${layer.layer}${isThen ? " then" : ""}`} viewBox="-9 -14 18 28" style={{ left: at }}>
      <path d={layer.layer === "lining" ? "M-8 13.5 8 13.5 0 1Z" : "M-8 -13.5 8 -13.5 0 -1Z"} />
    </svg>
  );
}

function Knot({ of }: { readonly of: string }) {
  return (
    <svg class={`knot sample ${of}`} viewBox="-9 -14 18 14" aria-hidden="true">
      <path d={of === "lining" ? "M-8 -1 8 -1 0 -13.5Z" : "M-8 -13.5 8 -13.5 0 -1Z"} />
    </svg>
  );
}

/** All of one rung in a sentence; on the phone it is where the rest of a rung is read. */
function RungSays({ tools, rung }: { readonly tools: OrderTools; readonly rung: RungView }) {
  const both = (of: { readonly second: string }): string => (of.second === "" ? "" : ` (${of.second})`);
  const asked = (of: Quantity, what: string) => (
    <AskedFigure tools={tools} quantity={of} label={`why ${what} ${inWords(of)} at the ${rung.name.toLowerCase()}?`} />
  );
  return (
    <p>
      <b>{rung.name}.</b> Body {asked(rung.body, "is it")}
      {both(rung.body)}
      {rung.is_estimate && ", estimated"}; cut to {asked(rung.cut, "is it cut to")}
      {both(rung.cut)}; worn {inWords(rung.worn)}.{" "}
      {rung.layers.map((layer) => `${layer.layer.charAt(0).toUpperCase()}${layer.layer.slice(1)}: ${layer.says}.`).join(" ")}{" "}
      {rung.pressure ? <>Squeeze {asked(rung.pressure, "does it press")}.</> : "Squeeze not known."}
    </p>
  );
}

/** The same as a table, for ears. */
function LadderTable({ wear }: { readonly wear: WearView }) {
  return (
    <div class="heard">
      <table>
        <caption>Stretch ladder</caption>
        <thead>
          <tr>
            <th scope="col">Level</th>
            <th scope="col">Body</th>
            <th scope="col">Cut</th>
            <th scope="col">Worn</th>
            <th scope="col">Stretch in use</th>
            <th scope="col">Squeeze</th>
            <th scope="col">State</th>
          </tr>
        </thead>
        <tbody>
          {wear.rungs.map((rung) => (
            <tr key={rung.level}>
              <th scope="row">{rung.name}</th>
              <td>
                {rung.body.spoken}
                {rung.is_estimate && ", estimated"}
              </td>
              <td>{rung.cut.spoken}</td>
              <td>{rung.worn.spoken}</td>
              <td>{rung.layers.map((layer) => `${layer.layer} ${layer.says}`).join(", ")}</td>
              <td>{rung.pressure?.spoken ?? "not known"}</td>
              <td>
                <StateIcon state={rung.state} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

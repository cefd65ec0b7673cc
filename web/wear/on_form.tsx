/**
 * The solved ladder: the form in section rings with the suit on it, the heavier the harder it presses, to be turned; beside it the
 * worn stretch of every level at the same height scale. The quick judgement stands on each rung as a ring in pencil.
 */
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { FitView, RailView, WornFound, WornLevelView } from "../api/types.js";
import { AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { inWords } from "../order/quantity.js";
import { Icon, StateIcon } from "../parts/icon.js";
import { Acts, Word } from "../parts/touch.js";
import { Turner, once } from "../wearer/turner.js";
import { HEAVY, LIGHT, boxOf, heightInDrawing, viewAt } from "../wearer/turning.js";
import { apart, tallEnough } from "./heights.js";
import { RailWords } from "./ladder.js";
import { rightAt, turned, widths } from "./lines.js";
import type { Lines } from "./lines.js";

/** How far the form is shown below and above the cloth, mm. */
const MORE = 70;
/** A place that is shown stands so far right of the middle, degrees: on a phone the left half of the form is out of sight. */
const BESIDE = 25;
/** The ring round a place that is shown, mm. */
const MARK = 20;
/** Rungs nearer than this share of the height to another leave, on a phone, no room for a name above them. */
const CLOSE = 0.12;
const SIDES = [
  { says: "Front", turn: 18 },
  { says: "Her left", turn: 90 },
  { says: "Back", turn: 162 },
  { says: "Her right", turn: -90 },
] as const;

/** The form with its ladder; without its lines, while they are on their way, the ladder alone. */
export function OnForm({ tools, fit, lines, mark }: {
  readonly tools: OrderTools;
  readonly fit: FitView;
  readonly lines: Lines | null;
  /** A finding whose place is marked; the form turns to it. */
  readonly mark: WornFound | null;
}) {
  const [turn, setTurn] = useState<number>(SIDES[0].turn);
  const [chosen, setChosen] = useState<string | null>(null);
  const place = useRef<HTMLDivElement>(null);
  const spot = mark?.at ?? null;
  useEffect(() => {
    if (!spot) return;
    setTurn(once(Math.round((Math.atan2(spot[0], spot[2]) * 180) / Math.PI) - BESIDE));
    place.current?.scrollIntoView({ block: "nearest" });
  }, [mark?.key]);
  const marked = spot && viewAt(turn)(spot[0], spot[1], spot[2]);
  const [low, high, reach] = fit.span;
  const drawn = useMemo(() => (lines ? turned(lines, turn) : null), [lines, turn]);
  const levels = fit.levels;
  const { from, to } = tallEnough({ low, high, reach }, lines ? Math.max(low, lines.low - MORE) : low, lines ? Math.min(high, lines.high + MORE) : high);
  const box = boxOf({ low, high, reach }, from, to);
  const placed = levels.map((level) => (heightInDrawing(level.height) - box.y) / box.height);
  const at = apart(placed, box.width / box.height);
  const open = levels.find((level) => level.level === chosen);
  const share = (of: number): string => `${(100 * of).toFixed(2)}%`;
  return (
    <>
      <p class="small">
        On each rung, how far the suit is stretched around: <Knot /> worn, <i class="quickmark sample" /> by the quick judgement; the bar holds nine
        tenths of the level.
      </p>
      <div
        ref={place}
        class={drawn ? "ladder solved" : "ladder solved formless"}
        role="group"
        aria-label="Solved stretch ladder"
        style={{ "--ratio": String(box.width / box.height) }}
      >
        <div class="ladderhead" aria-hidden="true">
          {drawn && <span class="form">Thicker ring: more squeeze</span>}
          <span class="body">lengthwise</span>
          <span class="cutw">quick</span>
          <span class="worn">worn</span>
        </div>
        <div class="railwords">
          {fit.rails.map((rail) => (
            <RailWords key={rail.words} tools={tools} rail={rail} left={share(rail.share)} />
          ))}
        </div>
        <div class="field">
          {drawn && (
            <div class="formcolumn">
              <div class="formbox">
                <div class="rings worn">
                  <svg
                    viewBox={`${box.x} ${box.y} ${box.width} ${box.height}`}
                    preserveAspectRatio="xMidYMid meet"
                    role="img"
                    aria-label="The suit on the form in section rings, as heavy as it squeezes"
                  >
                    <path class="bare behind" d={drawn.formBehind} />
                    <path class="edge behind" d={drawn.edgeBehind} />
                    <path class="bare" d={drawn.formFacing} />
                    {drawn.cloth.map((path, i) => path !== "" && <path key={i} d={path} style={{ strokeWidth: `${widths[i] ?? LIGHT}px` }} />)}
                    <path class="edge" d={drawn.edgeFacing} />
                    {marked && <circle class="mark" cx={marked.x} cy={marked.y} r={MARK} />}
                  </svg>
                  <Turner turn={turn} onTurn={setTurn} />
                </div>
              </div>
            </div>
          )}
          {lines &&
            levels.map((level, i) => {
              const right = rightAt(lines, level.height, turn);
              return (
                right !== null && (
                  <i
                    key={`line ${level.level}`}
                    class="rungline"
                    style={{
                      top: share(placed[i] ?? 0),
                      left: `calc(var(--boxleft) + var(--boxed) * ${((right - box.x) / box.width).toFixed(4)} + 6px)`,
                    }}
                  />
                )
              );
            })}
          <div class="rails" aria-hidden="true">
            {fit.rails.map((rail) => (
              <i key={rail.words} class="rail" style={{ left: share(rail.share) }} />
            ))}
            <i class="zero" style={{ left: share(fit.zero) }} />
          </div>
          {levels.map((level, i) => (
            <Rung
              key={level.level}
              tools={tools}
              level={level}
              rails={fit.rails}
              top={share(at[i] ?? 0)}
              isClose={(at[i] ?? 0) - (at[i - 1] ?? 0) < CLOSE}
              isChosen={chosen === level.level}
              onChoose={() => setChosen(chosen === level.level ? null : level.level)}
            />
          ))}
        </div>
      </div>
      {drawn && (
        <Acts>
          {SIDES.map((side) => (
            <Word key={side.says} label={`Turn to ${side.says.toLowerCase()}`} onClick={() => setTurn(side.turn)}>
              {side.says}
            </Word>
          ))}
        </Acts>
      )}
      <p class="pencil marksays" role="status" aria-live="polite">
        {mark && spot && `Ringed on the form: ${mark.place.toLowerCase()}.`}
      </p>
      <div class="rungsays" role="status" aria-live="polite">
        {open && <LevelSays tools={tools} level={open} />}
      </div>
      {fit.weights.length > 0 && (
        <ul class="weights" aria-label="The squeeze, by the weight of the ring">
          {fit.weights.map(([part, words]) => (
            <li key={words}>
              <svg viewBox="0 0 28 6" aria-hidden="true">
                <path d="M1 3H27" style={{ strokeWidth: `${LIGHT + (HEAVY - LIGHT) * part}px` }} />
              </svg>
              {words}
            </li>
          ))}
        </ul>
      )}
      <LevelTable fit={fit} />
    </>
  );
}

function Rung({ tools, level, rails, top, isClose, isChosen, onChoose }: {
  readonly tools: OrderTools;
  readonly level: WornLevelView;
  readonly rails: readonly RailView[];
  readonly top: string;
  readonly isClose: boolean;
  readonly isChosen: boolean;
  readonly onChoose: () => void;
}) {
  const share = (of: number): string => `${(100 * of).toFixed(2)}%`;
  const [first, last] = [rails[0]?.share ?? 0, rails.at(-1)?.share ?? 1];
  const [low, high] = level.spread;
  return (
    <div class={`rung ${level.state}${isClose ? " close" : ""}`} style={{ top }}>
      <div class="bar" aria-hidden="true">
        <i class="thin" style={{ left: share(first), right: `calc(100% - ${share(last)})` }} />
        <i class="beyond" style={{ left: share(last) }} />
        <i class="spread" style={{ left: share(low), width: share(Math.max(0, high - low)) }} />
        <svg class="knot shell" viewBox="-9 -14 18 28" style={{ left: share(level.at) }}>
          <path d="M-8 -13.5 8 -13.5 0 -1Z" />
        </svg>
        {level.quick && <i class="quickmark" style={{ left: share(level.quick[1]) }} />}
      </div>
      <button type="button" class="rungname" aria-expanded={isChosen} onClick={onChoose}>
        {level.state !== "good" && <Icon name={level.state} />}
        {level.state !== "good" && <span class="heard">{level.state}: </span>}
        <span class="edit">{level.name}</span>
      </button>
      <span class="body" aria-hidden="true">
        {inWords(level.lengthwise)}
      </span>
      <span class="cutw" aria-hidden="true">
        {level.quick ? inWords(level.quick[0]) : ""}
      </span>
      <b class="worn">
        <AskedFigure tools={tools} quantity={level.around} label={`why ${inWords(level.around)} at the ${level.name.toLowerCase()}?`} />
      </b>
    </div>
  );
}

function Knot() {
  return (
    <svg class="knot sample shell" viewBox="-9 -14 18 14" aria-hidden="true">
      <path d="M-8 -13.5 8 -13.5 0 -1Z" />
    </svg>
  );
}

/** All of one level in a sentence. */
function LevelSays({ tools, level }: { readonly tools: OrderTools; readonly level: WornLevelView }) {
  const at = level.name.toLowerCase();
  return (
    <p>
      <b>{level.name}.</b> {level.closes ? "" : "Open at the side. "}
      {level.body && `Body ${inWords(level.body)}`}
      {level.cut && `, cut to ${inWords(level.cut)}; `}
      {level.body ? "worn" : "Worn"} {inWords(level.around)} around, {level.spread_says} from place to place
      {level.quick && `, by the quick judgement ${inWords(level.quick[0])}`}; lengthwise{" "}
      <AskedFigure tools={tools} quantity={level.lengthwise} label={`why ${inWords(level.lengthwise)} lengthwise at the ${at}?`} />
      {level.front_back !== "" && ` (${level.front_back})`}. Squeeze{" "}
      <AskedFigure tools={tools} quantity={level.squeeze} label={`why ${inWords(level.squeeze)} at the ${at}?`} />.
    </p>
  );
}

/** The same as a table, for ears. */
function LevelTable({ fit }: { readonly fit: FitView }) {
  return (
    <div class="heard">
      <table>
        <caption>Solved stretch ladder</caption>
        <thead>
          <tr>
            <th scope="col">Level</th>
            <th scope="col">Worn around</th>
            <th scope="col">From place to place</th>
            <th scope="col">Quick judgement</th>
            <th scope="col">Lengthwise</th>
            <th scope="col">Squeeze</th>
            <th scope="col">State</th>
          </tr>
        </thead>
        <tbody>
          {fit.levels.map((level) => (
            <tr key={level.level}>
              <th scope="row">{level.name}</th>
              <td>{level.around.spoken}</td>
              <td>{level.spread_says}</td>
              <td>{level.quick?.[0].spoken ?? "none"}</td>
              <td>{level.lengthwise.spoken}</td>
              <td>{level.squeeze.spoken}</td>
              <td>
                <StateIcon state={level.state} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** Cloth at hand: flaws marked on it, and pieces of it, square or odd. All of it is kept with the cloth. */
import { useSignal } from "@preact/signals";
import type { Frame, LaidCloth, Set as Change } from "../api/types.js";
import { get } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import type { OrderTools } from "../order/context.js";
import { withUnit } from "../order/field.js";
import { API } from "../order/studio.js";
import { LengthField } from "../parts/length.js";
import { Trouble } from "../parts/trouble.js";
import { Acts, Word } from "../parts/touch.js";
import { TextField } from "../register/fields.js";

/** Adds to a list of the cloth's document, or takes one out: the list is read first, so that nobody's entry is lost. */
async function changeList(tools: OrderTools, cloth: LaidCloth, path: "flaws" | "at_hand", words: string, change: (list: unknown[]) => unknown[]): Promise<boolean> {
  if (cloth.document === null) return false;
  const { body } = await get<{ readonly body: unknown }>(`${API}/documents/${encodeURIComponent(cloth.document)}`);
  const old: unknown = typeof body === "object" && body !== null ? (body as Record<string, unknown>)[path] : undefined;
  const value = change(Array.isArray(old) ? [...(old as unknown[])] : []);
  const set: Change = { document: cloth.document, path, value: value.length === 0 ? null : value };
  return tools.edit([set], words);
}

/** A box drawn on the cloth, its upper layer if it is folded, as a flaw: what is typed in the form does the same. */
export function markFlaw(tools: OrderTools, cloth: LaidCloth, box: Frame, foldAt: number): Promise<boolean> {
  const mm = (value: number): string => `${Math.round(value)} mm`;
  const flaw = { along: mm(box.y), across: mm(box.x + foldAt), length: mm(box.height), width: mm(box.width) };
  return changeList(tools, cloth, "flaws", `marked a flaw on ${cloth.name}`, (list) => [...list, flaw]);
}

/** What a small form of lengths holds. */
type Texts = Readonly<Record<string, string>>;

function Lengths({ tools, asks, act, onDone, more }: {
  readonly tools: OrderTools;
  readonly asks: readonly { readonly key: string; readonly label: string }[];
  readonly act: string;
  readonly more?: { readonly key: string; readonly label: string };
  readonly onDone: (texts: Texts, ticked: boolean) => Promise<boolean>;
}) {
  const texts = useSignal<Texts>({});
  const ticked = useSignal(false);
  const problem = useSignal<Problem | null>(null);
  const keep = async (): Promise<void> => {
    const missing = asks.find(({ key }) => (texts.value[key] ?? "").trim() === "");
    if (missing) {
      problem.value = { what: `${missing.label} is not written yet.`, next: "Write a length." };
      return;
    }
    problem.value = null;
    const whole = Object.fromEntries(asks.map(({ key }) => [key, withUnit(texts.value[key] ?? "", tools.units) ?? ""]));
    if (await onDone(whole, ticked.value)) texts.value = {};
  };
  return (
    <div class="layform">
      {asks.map(({ key, label }) => (
        <LengthField
          key={key}
          label={label}
          text={texts.value[key] ?? ""}
          unit={tools.units}
          onText={(text) => {
            texts.value = { ...texts.value, [key]: text };
          }}
          onKeep={() => void keep()}
        />
      ))}
      {more && (
        <label class="layslight">
          <input
            type="checkbox"
            checked={ticked.value}
            onChange={(event) => {
              ticked.value = event.currentTarget.checked;
            }}
          />
          {more.label}
        </label>
      )}
      <Word onClick={() => void keep()}>{act}</Word>
      <Trouble problem={problem.value} />
    </div>
  );
}

/** Flaws of the cloth, and a way to mark one without a pointer. */
export function Flaws({ tools, cloth, marking, onMarking }: {
  readonly tools: OrderTools;
  readonly cloth: LaidCloth;
  readonly marking: boolean;
  readonly onMarking: (is: boolean) => void;
}) {
  return (
    <details class="more layflaws">
      <summary>{cloth.flaws.length === 0 ? "Flaws: none marked" : `Flaws: ${cloth.flaws.length} marked`}</summary>
      <p class="small">A hole, a stain, a pulled thread: pieces keep clear of it. It is kept with the cloth, for every suit.</p>
      <ul>
        {cloth.flaws.map((flaw, i) => (
          <li key={i}>
            {flaw.words}{" "}
            <Word
              label={`Take out the flaw ${flaw.words}`}
              onClick={() => void changeList(tools, cloth, "flaws", `took a flaw of ${cloth.name} out`, (list) => list.filter((_, k) => k !== i))}
            >
              Take out
            </Word>
          </li>
        ))}
      </ul>
      <Word onClick={() => onMarking(!marking)}>{marking ? "Leave marking" : "Draw it on the cloth"}</Word>
      {marking && <p class="small">Draw a box round the flaw on the cloth above.</p>}
      <Lengths
        tools={tools}
        act="Mark it"
        asks={[
          { key: "along", label: "From the cut end" },
          { key: "across", label: "From the selvedge" },
          { key: "length", label: "Length along" },
          { key: "width", label: "Width across" },
        ]}
        more={{ key: "slight", label: "Slight: lining may lie on it" }}
        onDone={(texts, slight) =>
          changeList(tools, cloth, "flaws", `marked a flaw on ${cloth.name}`, (list) => [...list, slight ? { ...texts, slight } : texts])
        }
      />
    </details>
  );
}

/** Pieces of this cloth at hand, and what is left of the lay. */
export function AtHand({ tools, cloth }: { readonly tools: OrderTools; readonly cloth: LaidCloth }) {
  const { suit } = tools.order.value;
  const path = `lay.on.${cloth.layer}`;
  const rest = cloth.lay?.rest ?? [];
  return (
    <div class="athand">
      <h4>Of this cloth at hand</h4>
      {cloth.at_hand.length === 0 && <p class="small">No piece is written down.</p>}
      <ul>
        {cloth.at_hand.map((piece, i) => (
          <li key={i}>
            <b>{piece.words}</b> {piece.from !== "" && <span class="small">{piece.from}</span>}{" "}
            {piece.is_chosen ? (
              <span class="small">laid on this one</span>
            ) : (
              <Word
                label={`Lay on it: ${piece.words}`}
                onClick={() => void tools.edit([{ document: suit.id, path, value: piece.value }], `laid the ${cloth.layer} on ${piece.words}`)}
              >
                Lay on it
              </Word>
            )}{" "}
            <Word
              label={`Take out ${piece.words}`}
              onClick={() => void changeList(tools, cloth, "at_hand", `took ${piece.words} of ${cloth.name} out`, (list) => list.filter((_, k) => k !== i))}
            >
              Take out
            </Word>
          </li>
        ))}
      </ul>
      <Acts>
        {cloth.on !== null && (
          <Word onClick={() => void tools.edit([{ document: suit.id, path, value: null }], `laid the ${cloth.layer} on cloth by the length`)}>
            Lay on cloth by the length
          </Word>
        )}
        {rest.length > 0 && (
          <Word
            label={`Keep the rest: ${rest.map((one) => one.words).join(", ")}`}
            onClick={() =>
              void changeList(tools, cloth, "at_hand", `kept the rest of ${cloth.name}: ${rest.map((one) => one.words).join(", ")}`, (list) => [
                ...list,
                ...rest.map((one) => one.value),
              ])
            }
          >
            Keep the rest
          </Word>
        )}
      </Acts>
      {rest.length > 0 && <p class="small">Left whole: {rest.map((one) => one.words).join(", ")}.</p>}
      <details class="more">
        <summary>Write down a piece</summary>
        <Lengths
          tools={tools}
          act="Keep it"
          asks={[
            { key: "width", label: "Width, selvedge to selvedge" },
            { key: "length", label: "Length along" },
          ]}
          onDone={(texts) => changeList(tools, cloth, "at_hand", `a piece of ${cloth.name} at hand`, (list) => [...list, texts])}
        />
        <OddPiece tools={tools} cloth={cloth} />
      </details>
    </div>
  );
}

/** An odd piece by its corners: `0 x 0, 90 x 0, 90 x 40, 60 x 60, 0 x 60`, along and across. */
function OddPiece({ tools, cloth }: { readonly tools: OrderTools; readonly cloth: LaidCloth }) {
  const text = useSignal("");
  const problem = useSignal<Problem | null>(null);
  const keep = async (): Promise<void> => {
    const pairs = text.value.split(/[,;\n]/).filter((pair) => pair.trim() !== "");
    const corners = pairs.map((pair) => pair.split(/[x×]/i).map((length) => withUnit(length, tools.units)));
    if (corners.length < 3 || corners.some((pair) => pair.length !== 2 || pair.includes(null))) {
      problem.value = { what: "These are no corners yet.", next: "Write three or more, along x across each, with commas between: 0 x 0, 90 x 0, 60 x 45." };
      return;
    }
    problem.value = null;
    if (await changeList(tools, cloth, "at_hand", `an odd piece of ${cloth.name} at hand`, (list) => [...list, { corners }])) text.value = "";
  };
  return (
    <div class="layform oddform">
      <TextField
        label={`An odd piece: its corners in order round it, along x across, in ${tools.units}`}
        text={text.value}
        problem={problem.value}
        onText={(typed) => {
          text.value = typed;
        }}
        onKeep={() => void keep()}
        onLeave={() => {
          text.value = "";
        }}
      />
      <Word onClick={() => void keep()}>Keep the odd piece</Word>
    </div>
  );
}

/**
 * Section 1, Wearer: who it is for, how she was measured, then one dimension at a time beside the list of all.
 *
 * The studio says which dimension comes now; a line of the list, a note's link or "Next" picks another until it is kept.
 */
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { ResidualView } from "../api/types.js";
import type { OrderTools } from "../order/context.js";
import { Acts } from "../parts/touch.js";
import { ChooseWearer, Who } from "./choose.js";
import { DimensionInHand, wantsAnother } from "./dimension.js";
import { useForm, useMiddling } from "./form.js";
import { DimensionList } from "./list.js";
import { Protocol } from "./protocol.js";
import { Sides } from "./sides.js";

/** The body of the section. */
export function WearerSection({ tools }: { readonly tools: OrderTools }) {
  const view = tools.order.value.wearer;
  const [picked, setPicked] = useState<string | null>(null);
  const { form, problem } = useForm(view.id, view.form_key);
  const sort = view.choices.find((choice) => choice.path === "form")?.value ?? "woman";
  const middling = useMiddling(view.id !== null && view.form_key === null ? sort : null);
  const wanted = tools.wanted.value;
  useEffect(() => {
    const key = wanted?.startsWith("dimensions.") ? wanted.split(".")[1] : undefined;
    if (key !== undefined) setPicked(key);
  }, [wanted]);
  useEffect(() => setPicked(null), [view.id]);
  // The dimension whose reading was just kept stays in hand while a second one is wanted; then the studio's next is taken.
  const held = useRef<string | null>(null);
  useEffect(() => {
    const one = view.dimensions.find(({ key }) => key === held.current);
    if (!one || one.readings.length === 0 || wantsAnother(one)) return;
    held.current = null;
    setPicked((at) => (at === one.key ? null : at));
  }, [view.dimensions]);
  const order = useMemo(() => view.dimensions.filter((one) => one.need !== "not used"), [view.dimensions]);
  if (view.id === null) return <ChooseWearer tools={tools} />;
  const now = picked ?? view.now;
  const inHand = view.dimensions.find((one) => one.key === now) ?? null;
  const next = (): void => {
    // What the studio would take next, unless that is the one in hand; then the line after it.
    if (view.now !== null && view.now !== now) {
      setPicked(null);
      return;
    }
    const at = order.findIndex((one) => one.key === now);
    setPicked(order[(at + 1) % order.length]?.key ?? null);
  };
  return (
    <>
      <Who tools={tools} />
      <Protocol tools={tools} />
      <div class="two measuring">
        <div class="inhand">
          <DimensionInHand
            key={view.id}
            tools={tools}
            dimension={inHand}
            form={form ?? middling}
            isHers={form !== null}
            problem={problem}
            isPicked={picked !== null}
            onNext={next}
            onKeeping={(key) => {
              held.current = key;
              setPicked(key);
            }}
          />
        </div>
        <div>
          <DimensionList tools={tools} dimensions={view.dimensions} now={now} onPick={setPicked} />
          <Sides tools={tools} />
          {form && <Agrees residuals={form.residuals} />}
        </div>
      </div>
    </>
  );
}

function Agrees({ residuals }: { readonly residuals: readonly ResidualView[] }) {
  if (residuals.length === 0) return null;
  return (
    <details class="agrees">
      <summary>How well the form agrees</summary>
      <ul>
        {residuals.map((one) => (
          <li key={one.name}>
            <span>{one.name}</span>
            <span aria-hidden="true">
              {one.left.main} {one.left.unit}
            </span>
            <span class="heard">{one.left.spoken}</span>
          </li>
        ))}
      </ul>
      <Acts>
        <span class="small">Where it is far off, take that one again.</span>
      </Acts>
    </details>
  );
}

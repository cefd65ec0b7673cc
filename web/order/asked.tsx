/** Numbers of a work order that can be asked "why?", and the places their slip is drawn in. */
import { useLayoutEffect, useRef } from "preact/hooks";
import type { ComponentChildren } from "preact";
import type { Quantity } from "../api/types.js";
import { Figure } from "../parts/figure.js";
import { Slip } from "../parts/slip.js";
import { Trouble } from "../parts/trouble.js";
import type { OrderTools } from "./context.js";
import { shown } from "./quantity.js";

/** A number underlined in dots; pressing it opens its slip. Without a key it is only written. `label` is for ears. */
export function Asked({ tools, why, label, children }: {
  readonly tools: OrderTools;
  readonly why: string | null;
  /** "why 15 % at the hip?" */
  readonly label: string;
  readonly children: ComponentChildren;
}) {
  if (why === null) return <>{children}</>;
  return (
    <button
      type="button"
      class="why"
      aria-expanded={tools.why.value?.key === why}
      onClick={(event) => tools.openWhy(why, event.currentTarget)}
      onKeyDown={(event) => {
        if (event.key === "Escape" && tools.why.value?.key === why) tools.closeWhy();
      }}
    >
      {children}
      <span class="heard">, {label}</span>
    </button>
  );
}

/** A figure that can be asked. */
export function AskedFigure({ tools, quantity, label }: {
  readonly tools: OrderTools;
  readonly quantity: Quantity;
  readonly label: string;
}) {
  return (
    <Asked tools={tools} why={quantity.why} label={label}>
      <Figure quantity={shown(quantity)} />
    </Asked>
  );
}

/**
 * Where a slip is drawn on small screens: below its children. A number's slip goes to the nearest place around it; the
 * order page makes one of every section's body, so a section needs its own only for a slip closer to what was asked.
 */
export function WhyPlace({ tools, name, children }: {
  readonly tools: OrderTools;
  readonly name: string;
  readonly children: ComponentChildren;
}) {
  const open = tools.why.value;
  const place = useRef<HTMLDivElement>(null);
  const isShown = open?.place === name && open.reason !== null;
  // Below its children a slip may lie out of sight.
  useLayoutEffect(() => {
    if (isShown) place.current?.querySelector(":scope > .slip")?.scrollIntoView({ block: "nearest" });
  }, [isShown, open?.key]);
  return (
    <div ref={place} data-why-place={name}>
      {children}
      {open?.place === name && open.reason && <Slip why={open.reason} asked={open.anchor} onClose={() => tools.closeWhy()} />}
      {open?.place === name && open.problem && <Trouble problem={open.problem} />}
    </div>
  );
}

/** Which style: the one chosen, and all others this wearer can have, each drawn as her own draft in the suit's cloths. */
import { useEffect, useState } from "preact/hooks";
import type { Choice, StyleCard, StylesView } from "../api/types.js";
import { Failed, get } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { suitAt } from "../order/studio.js";
import { HungSuit } from "../parts/hung.js";
import { Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";

/** The line of the style; unfolds the drawings of all. */
export function StyleLine({ tools, choice }: { readonly tools: OrderTools; readonly choice: Choice }) {
  const waits = tools.waiting(choice.document, choice.path);
  const value = typeof waits === "string" ? waits : choice.value;
  const name = (key: string): string => choice.options.find((option) => option.value === key)?.label ?? key;
  const [open, setOpen] = useState(false);
  const id = fieldId(choice.path);
  const take = (card: StyleCard): void => {
    setOpen(false);
    if (card.key === value) return;
    void tools.edit(
      [{ document: choice.document, path: choice.path, value: card.key }],
      `style ${name(value).toLowerCase()} to ${card.name.toLowerCase()}`,
    );
  };
  return (
    <div id={id} class="styleline">
      <p>
        <b>{name(value)}</b>{" "}
        <Word onClick={() => setOpen(!open)} expanded={open} controls={`${id}-all`}>
          {open ? "Put the styles away" : "Other styles"}
        </Word>
      </p>
      <div id={`${id}-all`}>{open && <Styles tools={tools} onTake={take} />}</div>
      <Trouble problem={tools.troubles.value.get(id) ?? null} />
    </div>
  );
}

function Styles({ tools, onTake }: { readonly tools: OrderTools; readonly onTake: (card: StyleCard) => void }) {
  const [view, setView] = useState<StylesView | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const suit = tools.order.value.suit.id;
  const revision = tools.order.value.documents.map((paper) => paper.revision).join(".");
  useEffect(() => {
    const leave = new AbortController();
    get<StylesView>(suitAt(suit, "/styles"), { signal: leave.signal }).then(
      (found) => {
        setView(found);
        setProblem(null);
      },
      (error: unknown) => {
        if (error instanceof Failed && !leave.signal.aborted) setProblem(error.first);
      },
    );
    return () => leave.abort();
  }, [suit, revision]);
  if (!view) {
    return problem ? <Trouble problem={problem} /> : <p class="lead" role="status">Drawing every style on this wearer.</p>;
  }
  const cards = view.families.flatMap((family) => family.styles);
  const widest = Math.max(320, ...cards.map((card) => card.silhouette?.frame.width ?? 0));
  return (
    <div class="styles">
      {view.waits === "" ? (
        <p class="reading">
          Each is drawn from her own dimensions in the suit’s cloth. Press one to make the suit so: what you set of the shape is kept where the
          style has it, and “Back one” brings the old one back.
        </p>
      ) : (
        <p class="lead">{view.waits}</p>
      )}
      {view.families.map((family) => (
        <section key={family.name} aria-label={family.name}>
          <h3>{family.name}</h3>
          <ul>
            {family.styles.map((card) => (
              <li key={card.key}>
                <button
                  type="button"
                  aria-pressed={card.is_chosen}
                  aria-describedby={`style-${card.key}-says`}
                  disabled={card.refused !== ""}
                  onClick={() => onTake(card)}
                >
                  <HungSuit
                    silhouette={card.silhouette}
                    width={widest}
                    height={tallest(family.styles)}
                  />
                  <b>{card.name}</b>
                </button>
                <p id={`style-${card.key}-says`} class="small">
                  {card.refused === "" ? card.says : card.refused}
                </p>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}

/** The tallest of a family: they hang at one scale, and no family leaves an empty strip below. */
function tallest(cards: readonly StyleCard[]): number {
  return Math.max(160, ...cards.map((card) => card.silhouette?.frame.height ?? 0));
}

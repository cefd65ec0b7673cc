/** The head of a page: its one h1, when it was last kept, and the facts of the order or a leading sentence. */
import type { ComponentChildren } from "preact";
import { kept } from "../lib/store.js";

/** One fact of an order sheet. */
export interface Fact {
  readonly name: string;
  readonly says: string;
}

/**
 * `beside` stands at the right end of the title's line (a field to find by). `wide` lets the head take the margin too.
 * The pencil word under the title says what the store's `kept` says, aloud when it changes.
 */
export function Head({ title, lead, facts, beside, wide = false }: {
  readonly title: string;
  readonly lead?: ComponentChildren;
  readonly facts?: readonly Fact[];
  readonly beside?: ComponentChildren;
  readonly wide?: boolean;
}) {
  return (
    <header class={wide ? "head wide" : "head"}>
      <a class="textlink homeword" href="/">
        Slackwater
      </a>
      <div class="title">
        <h1>{title}</h1>
        {beside}
      </div>
      {lead !== undefined && <p class="lead">{lead}</p>}
      <p class="pencil kept" role="status" aria-live="polite">
        {kept.value}
      </p>
      {facts && facts.length > 0 && (
        <dl class="facts">
          {facts.map((fact) => (
            <div key={fact.name}>
              <dt>{fact.name}</dt>
              <dd>{fact.says}</dd>
            </div>
          ))}
        </dl>
      )}
    </header>
  );
}

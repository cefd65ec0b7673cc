/** The head of a page: its one h1, when it was last kept, and the facts of the order or a leading sentence. */
import type { ComponentChildren } from "preact";
import { kept } from "../lib/store.js";

/** One fact of an order sheet. */
export interface Fact {
  readonly name: string;
  readonly says: string;
}

/**
 * `beside` stands in the margin at the title's height (a field to find by), on the phone below it. `wide` lets lead and
 * facts take the margin too.
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
      <h1>{title}</h1>
      {beside !== undefined && <div class="beside">{beside}</div>}
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

/** One session as bars: machines down, hours across; or people down. A table of the same stands beside it for ears. */
import { useState } from "preact/hooks";
import type { ClassBarView, ClassHourView, ClassRowView, ClassSessionView } from "../api/types.js";
import { Choice } from "../parts/choice.js";

type By = "machines" | "people";

/** A session, by machine or by person. */
export function Session({ session }: { readonly session: ClassSessionView }) {
  const [by, setBy] = useState<By>("machines");
  const rows = session[by];
  return (
    <section class="classsession" aria-label={session.name}>
      <div class="sessionhead">
        <h5>{session.name}</h5>
        <Choice
          name={`${session.name} by`}
          hideName
          tight
          options={[
            { value: "machines", says: "by machine" },
            { value: "people", says: "by person" },
          ]}
          value={by}
          onChange={setBy}
        />
      </div>
      <Bars hours={session.hours} rows={rows} name={`${session.name}, ${by === "machines" ? "by machine" : "by person"}`} />
    </section>
  );
}

function Bars({ hours, rows, name }: { readonly hours: readonly ClassHourView[]; readonly rows: readonly ClassRowView[]; readonly name: string }) {
  return (
    <div class="barscroll" role="region" aria-label={name} tabIndex={0}>
      <div class="bars">
        <div class="barhours" aria-hidden="true">
          {hours.map((hour) => (
            <span key={hour.says} style={{ left: percent(hour.at) }}>
              {hour.says}
            </span>
          ))}
        </div>
        <ul class="barrows">
          {rows.map((row) => (
            <li key={row.name} class="barrow">
              <span class="barname">{row.name}</span>
              <ol class="bartrack">
                {hours.map((hour) => (
                  <li key={hour.says} class="hourline" aria-hidden="true" style={{ left: percent(hour.at) }} />
                ))}
                {row.bars.map((bar) => (
                  <Bar key={bar.says} bar={bar} />
                ))}
              </ol>
            </li>
          ))}
        </ul>
      </div>
    </div>
  );
}

/** From this share of a session on the long label fits, also on the narrowest sheet. */
const LABELLED = 0.054;

/** Cloths of the demo tell people apart for the eye; the letter does it for everyone. */
const CLOTHS = 6;

function Bar({ bar }: { readonly bar: ClassBarView }) {
  const room = bar.wide > LABELLED ? bar.label : bar.short;
  return (
    <li
      class={`bar ${bar.is_sewn ? "sewn" : "byhand"} of${bar.person % CLOTHS}`}
      style={{ left: percent(bar.at), width: percent(bar.wide) }}
      title={bar.says}
    >
      <span aria-hidden="true">{room}</span>
      <span class="heard">{bar.says}</span>
    </li>
  );
}

function percent(share: number): string {
  return `${share * 100}%`;
}

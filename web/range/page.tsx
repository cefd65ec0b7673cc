/** Ranges: a suit's cloth and design in every size of a table, nested, judged, and asked whom they fit. */
import { useMemo, useState } from "preact/hooks";
import type { RangeView, RangesView } from "../api/types.js";
import { Note } from "../frame/margin.js";
import { Section } from "../frame/section.js";
import { place } from "../lib/router.js";
import type { State } from "../lib/state.js";
import { sectionState } from "../order/context.js";
import { Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, useLoaded } from "../register/asking.js";
import { Page, Waiting } from "../register/shell.js";
import { askedOf } from "./asked.js";
import type { Asked } from "./asked.js";
import { Chart } from "./chart.js";
import { Choose } from "./choose.js";
import { Nest } from "./nest.js";
import { ForOne, ForSeveral } from "./whom.js";

/** `/ranges`. */
export function RangesPage() {
  const loaded = useLoaded<RangesView>(`${API}/ranges`, { follow: true });
  if (!loaded.value) return <Waiting title="Ranges" loaded={loaded} />;
  return <Ranges offered={loaded.value} />;
}

function Ranges({ offered }: { readonly offered: RangesView }) {
  const { query } = place.value;
  const id = query.get("range");
  const [asked, setAsked] = useState<Asked>(() => askedOf(query, offered));
  const loaded = useLoaded<RangeView>(id === null ? null : `${API}/ranges/${encodeURIComponent(id)}`);
  const range = loaded.value;
  const state: State = range ? sectionState(range.head.state) : "good";
  const uneven: State = range && range.growth.length > 0 ? "doubtful" : "good";
  const has = range !== null && range.sizes.length > 0;
  const marks = useMemo(
    () => [
      { id: "sizes", name: "Sizes", state },
      ...(has
        ? [
            { id: "chart", name: "Chart", state: "good" as const },
            { id: "nest", name: "Nest", state: "good" as const },
            { id: "growth", name: "Growth", state: uneven },
            { id: "one", name: "For one", state: "good" as const },
            { id: "several", name: "For several", state: "good" as const },
          ]
        : []),
    ],
    [state, uneven, has],
  );
  return (
    <Page title="Ranges" lead="One cloth and design in many sizes, each drafted from its own body." marks={marks}>
      <Section
        open
        id="sizes"
        name="Sizes"
        state={state}
        summary={range ? range.head.summary : "A suit, and a table of sizes."}
        notes={range?.head.notes.map((note) => (
          <Note
            key={note.place + note.says}
            state={sectionState(note.state)}
            says={note.place === "" ? note.says : `${note.place}: ${note.says}`}
            {...(note.next !== "" && { next: note.next })}
          />
        ))}
      >
        <Choose offered={offered} asked={asked} onAsked={setAsked} />
        {id !== null && <Trouble problem={loaded.problem} />}
        {range && <Drafted range={range} />}
      </Section>
      {range && has && (
        <>
          <Section open id="chart" name="Size chart" state="good" summary={range.subtitle}>
            <Chart range={range} />
          </Section>
          <Section open id="nest" name="Nest" state="good" summary="Cut lines of all sizes laid over each other; a line of its own for each.">
            <Nest range={range} />
          </Section>
          <Section
            open
            id="growth"
            name="Growth"
            state={uneven}
            summary={
              range.growth.length === 0
                ? "Every length and area grows with the size, by even steps."
                : range.growth.length === 1
                  ? "Even but in one place."
                  : `Even but in ${range.growth.length} places.`
            }
          >
            {range.growth.length > 0 && <Sentences says={range.growth} />}
            <h3 class="apart">Where the draft goes another way</h3>
            {range.branches.length === 0 ? <p class="reading">Nowhere: all sizes are drafted alike.</p> : <Sentences says={range.branches} />}
          </Section>
          <Section open id="one" name="For one" state="good" summary="Which size a wearer takes, and when a draft of her own is wiser.">
            <ForOne key={range.id} offered={offered} range={range} />
          </Section>
          <Section open id="several" name="For several" state="good" summary="The fewest sizes that cover some people.">
            <ForSeveral key={range.id} offered={offered} range={range} />
          </Section>
        </>
      )}
    </Page>
  );
}

/** What came of it: refusals with their reason, and what can be taken away. */
function Drafted({ range }: { readonly range: RangeView }) {
  return (
    <div class="drafted">
      <h3>{range.title}</h3>
      {range.refused.length > 0 && (
        <>
          <p class="small label">Not drafted</p>
          <ul class="sentences">
            {range.refused.map((one) => (
              <li key={one.size}>
                <b>{one.size}</b>: {one.says}
              </li>
            ))}
          </ul>
        </>
      )}
      {range.files.length > 0 && (
        <ul class="files" aria-label="To take away">
          {range.files.map((file) => (
            <li key={file.name}>
              <Word href={file.href} save={file.name}>
                {file.name}
              </Word>
              <p class="small">{file.says}</p>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

function Sentences({ says }: { readonly says: readonly string[] }) {
  return (
    <ul class="sentences">
      {says.map((one) => (
        <li key={one}>{one}</li>
      ))}
    </ul>
  );
}

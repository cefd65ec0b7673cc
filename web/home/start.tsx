/** Starting a suit: its name, whom it is for, and which suit it begins like. Then its work order opens. */
import { useState } from "preact/hooks";
import type { HomeView } from "../api/types.js";
import { post, remove } from "../lib/api.js";
import { go } from "../lib/router.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, useTrying } from "../register/asking.js";
import { Pick, TextField } from "../register/fields.js";
import { useOpenedForm } from "../register/new.js";

/** The form; `onLeave` puts it away. A wearer and a pattern suit may both be left open. */
export function Start({ home, onLeave }: { readonly home: HomeView; readonly onLeave: () => void }) {
  const [name, setName] = useState("");
  const [wearer, setWearer] = useState("");
  const [like, setLike] = useState("");
  const trying = useTrying();
  const start = (): void =>
    void trying.run(async () => {
      const body = {
        name: name.trim(),
        ...(wearer !== "" && { wearer }),
        ...(like !== "" && { like }),
      };
      const made = await post<{ readonly id: string }>(`${API}/suits`, body);
      go(`/suits/${encodeURIComponent(made.id)}`);
    });
  const form = useOpenedForm<HTMLFormElement>();
  return (
    <form
      ref={form}
      class="startform"
      aria-label="Start a suit"
      onSubmit={(event) => {
        event.preventDefault();
        start();
      }}
    >
      <TextField label="Name of the suit" text={name} problem={trying.problem} onText={setName} onKeep={start} onLeave={onLeave} />
      {home.wearers.length > 0 && (
        <Pick
          name="For"
          options={[
            ...home.wearers.map((one) => ({ value: one.id, says: one.name })),
            { value: "", says: "Say later" },
          ]}
          value={wearer}
          onPick={setWearer}
        />
      )}
      {home.suits.length > 0 && (
        <Pick
          name="Begin like"
          options={[
            { value: "", says: "Nothing yet" },
            ...home.suits.map((one) => ({ value: one.id, says: `${one.number} ${one.name}` })),
          ]}
          value={like}
          onPick={setLike}
        />
      )}
      <Acts>
        <Ticket type="submit">Open its work order</Ticket>
        <Word onClick={onLeave}>Leave it</Word>
      </Acts>
    </form>
  );
}

/** The example workroom in or out: one action, which says what comes and what goes. */
export function Example({ home, again, ticket = false }: {
  readonly home: HomeView;
  readonly again: () => Promise<void>;
  /** As the one thing to do, on an empty line. */
  readonly ticket?: boolean;
}) {
  const [asking, setAsking] = useState(false);
  const [said, setSaid] = useState("");
  const trying = useTrying();
  const act = (): void =>
    void trying.run(async () => {
      const answer = home.has_example
        ? await remove<{ readonly says?: string } | undefined>(`${API}/example`)
        : await post<{ readonly says?: string } | undefined>(`${API}/example`, {});
      setSaid(answer?.says ?? "");
      setAsking(false);
      await again();
    });
  if (!home.has_example) {
    return (
      <div>
        <Acts>
          {ticket ? <Ticket onClick={act}>Put the example workroom in</Ticket> : <Word onClick={act}>Put the example workroom in</Word>}
          <span class="small">{said === "" ? "Invented suits, wearers and cloths to try things on. It goes out again in one step." : said}</span>
        </Acts>
        <Trouble problem={trying.problem} />
      </div>
    );
  }
  return (
    <div>
      {asking ? (
        <Acts>
          <span class="reading">
            The example suits, wearers, cloths and samples go, with what you changed in them. Everything you added yourself stays.
          </span>
          <Word onClick={act}>Yes, remove them</Word>
          <Word onClick={() => setAsking(false)}>Leave them</Word>
        </Acts>
      ) : (
        <Acts>
          <Word onClick={() => setAsking(true)}>Remove the example workroom</Word>
          <span class="small">Invented suits, wearers and cloths to try things on. It goes out in one step.</span>
        </Acts>
      )}
      <Trouble problem={trying.problem} />
    </div>
  );
}

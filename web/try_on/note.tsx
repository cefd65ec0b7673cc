/**
 * Writing a try-on down: what she said, what is changed for the next version, who was there. What is written stays in this
 * tab until it is kept.
 */
import { useId, useState } from "preact/hooks";
import type { ComplaintView, RemedyView, Set as Change } from "../api/types.js";
import { recall, remember } from "../lib/tab.js";
import type { OrderTools } from "../order/context.js";
import { inWords } from "../order/quantity.js";
import { Choice } from "../parts/choice.js";
import { Acts, Ticket, Word } from "../parts/touch.js";

interface Draft {
  readonly on: string;
  readonly version: number;
  readonly said: string;
  readonly carer: string;
  /** Words of the chosen proposal, per correction. */
  readonly chosen: Readonly<Record<string, string>>;
  /** What she said in the trade's words. */
  readonly complaints: readonly string[];
  /** What is done about each: the remedy's words, by the complaint's. */
  readonly remedies: Readonly<Record<string, string>>;
}

const NONE = "";

/** The form; `onClose` when it is kept or left. */
export function TryOnNote({ tools, onClose }: { readonly tools: OrderTools; readonly onClose: () => void }) {
  const { suit, try_on } = tools.order.value;
  const store = `tryon.${suit.id}`;
  const worn = try_on.versions[0]?.number ?? try_on.version;
  const [draft, show] = useState<Draft>(() => ({
    on: today(),
    version: worn,
    said: "",
    carer: try_on.carer,
    chosen: {},
    complaints: [],
    remedies: {},
    ...read(store),
  }));
  const [busy, setBusy] = useState(false);
  const id = useId();
  /** Held with the keystroke itself: a page that is loaded anew the next moment loses nothing. */
  const setDraft = (next: Draft): void => {
    show(next);
    remember(store, next);
  };
  const close = (): void => {
    remember(store, null);
    onClose();
  };
  const lines = draft.said.split("\n").flatMap((line) => line.trim() || []);
  const versions = [...new globalThis.Set([try_on.version, ...try_on.versions.map((version) => version.number)])].sort((a, b) => a - b);
  const picked = try_on.corrections.flatMap((correction) => {
    const proposal = correction.proposals.find((one) => one.words === draft.chosen[correction.key]);
    return proposal ? [{ correction, proposal }] : [];
  });
  const told = try_on.complaints.filter((complaint) => draft.complaints.includes(complaint.says));
  const answered = told.flatMap((complaint) => {
    const remedy = complaint.remedies.find((one) => one.says === draft.remedies[complaint.says]);
    return remedy ? [{ complaint, remedy }] : [];
  });
  const isEmpty = lines.length === 0 && picked.length === 0 && told.length === 0;
  const keep = async (): Promise<void> => {
    if (busy || isEmpty) return;
    setBusy(true);
    const entry = {
      version: draft.version,
      on: draft.on,
      said: [...told.map((complaint) => complaint.says), ...lines],
      did: [
        ...answered.map(({ remedy }) => remedy.says),
        ...picked.map(({ correction, proposal }) => `${correction.label} ${proposal.words}`),
      ],
      photos: [],
      ...(draft.carer !== "" && { carer: draft.carer }),
    };
    const changes: Change[] = [
      { document: suit.id, path: `try_ons.${newId()}`, value: entry },
      ...once([...answered.flatMap(({ remedy }) => remedy.changes), ...picked.flatMap(({ proposal }) => proposal.changes)]),
    ];
    const done = await tools.edit(changes, `try-on of version ${draft.version} written down`);
    setBusy(false);
    if (done) close();
  };
  return (
    <form
      class="tryonnote"
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      <p class="reading">{try_on.how}</p>
      <div class="typed">
        <label for={`${id}-on`}>Tried on</label>
        <input id={`${id}-on`} type="date" value={draft.on} onInput={(event) => setDraft({ ...draft, on: event.currentTarget.value })} />
      </div>
      {versions.length > 1 && (
        <Choice
          name="Version worn"
          options={versions.map((version) => ({ value: String(version), says: String(version), spoken: `version ${version}` }))}
          value={String(draft.version)}
          onChange={(version) => setDraft({ ...draft, version: Number(version) })}
        />
      )}
      {try_on.complaints.length > 0 && (
        <Complaints
          all={try_on.complaints}
          told={draft.complaints}
          remedies={draft.remedies}
          onTold={(complaints) => setDraft({ ...draft, complaints })}
          onRemedy={(of, remedy) => setDraft({ ...draft, remedies: { ...draft.remedies, [of]: remedy } })}
        />
      )}
      <div class="typed">
        <label for={`${id}-said`}>In her own words, a line for each thing</label>
        <textarea
          id={`${id}-said`}
          rows={4}
          value={draft.said}
          onInput={(event) => setDraft({ ...draft, said: event.currentTarget.value })}
        />
      </div>
      {!try_on.photos_allowed && (
        <div class="typed">
          <label for={`${id}-carer`}>Carer who was there</label>
          <input
            id={`${id}-carer`}
            type="text"
            value={draft.carer}
            onInput={(event) => setDraft({ ...draft, carer: event.currentTarget.value })}
          />
        </div>
      )}
      {try_on.corrections.length > 0 && (
        <fieldset class="corrections">
          <legend>What to change for the next version</legend>
          {try_on.corrections.map((correction) => (
            <div key={correction.key} class="correction">
              <Choice
                name={`${correction.label}, now ${inWords(correction.now)}`}
                options={[
                  { value: NONE, says: "as it is" },
                  ...correction.proposals.map((proposal) => ({ value: proposal.words, says: proposal.words })),
                ]}
                value={draft.chosen[correction.key] ?? NONE}
                onChange={(words) => setDraft({ ...draft, chosen: { ...draft.chosen, [correction.key]: words } })}
              />
            </div>
          ))}
        </fieldset>
      )}
      <Acts>
        <Ticket type="submit" off={isEmpty || busy} describedBy={`${id}-off`}>
          Keep the note
        </Ticket>
        <Word onClick={close}>Leave it</Word>
        <span id={`${id}-off`} class="small">
          {isEmpty ? "Write what she said, or choose a change." : "What you chose to change is drawn at once."}
        </span>
      </Acts>
    </form>
  );
}

/** What she may say, as words to press; under each that is pressed what to change for it, with the reason. */
function Complaints({ all, told, remedies, onTold, onRemedy }: {
  readonly all: readonly ComplaintView[];
  readonly told: readonly string[];
  readonly remedies: Readonly<Record<string, string>>;
  readonly onTold: (told: readonly string[]) => void;
  readonly onRemedy: (complaint: string, remedy: string) => void;
}) {
  const id = useId();
  return (
    <fieldset class="complaints">
      <legend>What she said</legend>
      <ul class="complaintwords">
        {all.map((complaint) => {
          const isTold = told.includes(complaint.says);
          return (
            <li key={complaint.says}>
              <button
                type="button"
                aria-pressed={isTold}
                onClick={() => onTold(isTold ? told.filter((one) => one !== complaint.says) : [...told, complaint.says])}
              >
                {complaint.says}
              </button>
            </li>
          );
        })}
      </ul>
      {all
        .filter((complaint) => told.includes(complaint.says))
        .map((complaint, i) => (
          <fieldset key={complaint.says} class="remedies">
            <legend>{complaint.says}</legend>
            {[NOTHING, ...complaint.remedies].map((remedy, j) => (
              <label key={remedy.says} for={`${id}-${i}-${j}`}>
                <input
                  id={`${id}-${i}-${j}`}
                  type="radio"
                  name={`${id}-${i}`}
                  checked={(remedies[complaint.says] ?? NONE) === (remedy === NOTHING ? NONE : remedy.says)}
                  onChange={() => onRemedy(complaint.says, remedy === NOTHING ? NONE : remedy.says)}
                />
                <span>
                  {remedy.says}
                  {remedy !== NOTHING && remedy.changes.length === 0 && <small> by hand</small>}
                </span>
                {remedy.because !== "" && <span class="small">{remedy.because}</span>}
              </label>
            ))}
          </fieldset>
        ))}
    </fieldset>
  );
}

const NOTHING: RemedyView = { says: "Nothing for now", because: "", changes: [] };

/** Of several changes of one value the last: two remedies may move the same thing. */
function once(changes: readonly Change[]): readonly Change[] {
  return changes.filter((change, i) => !changes.slice(i + 1).some((later) => later.document === change.document && later.path === change.path));
}

/** Whether a note was begun in this tab and neither kept nor left. */
export function hasDraft(suit: string): boolean {
  return read(`tryon.${suit}`) !== null;
}

function read(store: string): Partial<Draft> | null {
  const held = recall(store);
  return typeof held === "object" ? (held as Partial<Draft> | null) : null;
}

/** `2026-11-19`, as her clock has it. */
function today(): string {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, "0")}-${String(now.getDate()).padStart(2, "0")}`;
}

/** Part of a path, so letters and figures only; new with every note. */
function newId(): string {
  return `t${Date.now().toString(36)}`;
}

/** What every page of the register shares: its sheet, the way there while it loads, and taking a thing out with a way back. */
import { useEffect, useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { Head } from "../frame/head.js";
import type { SectionMark } from "../frame/marks.js";
import { Nowhere } from "../frame/nowhere.js";
import { Sheet } from "../frame/sheet.js";
import { post, remove } from "../lib/api.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, useTrying } from "./asking.js";
import type { Loaded } from "./asking.js";

const noMarks: readonly [] = [];

/** The sheet of a page. `lead` is a sentence under the title. */
export function Page({ title, lead, marks, children }: {
  readonly title: string;
  readonly lead?: ComponentChildren;
  readonly marks: readonly SectionMark[];
  readonly children: ComponentChildren;
}) {
  return (
    <Sheet title={title} marks={marks}>
      <Head title={title} {...(lead !== undefined && { lead })} />
      {children}
    </Sheet>
  );
}

/** While a page's document is on its way, or is not there. */
export function Waiting({ title, loaded }: { readonly title: string; readonly loaded: Loaded<unknown> }) {
  const { problem, isGone, isOutside, again } = loaded;
  if (problem && isGone) return <Nowhere says={problem.what} />;
  return (
    <Sheet title={title} marks={noMarks}>
      <Head title={title} />
      <Trouble problem={problem} />
      {problem && (
        <Acts>
          {isOutside ? <Ticket href="/pair">Come in with a code</Ticket> : <Word onClick={() => void again()}>Ask again</Word>}
        </Acts>
      )}
    </Sheet>
  );
}

/** Stands in the place of something that was put into the bin, with the way back. */
export function Binned({ name, says, id, onBack }: {
  readonly name: string;
  readonly says: string;
  readonly id: string;
  readonly onBack: () => void;
}) {
  const trying = useTrying();
  return (
    <div class="binned">
      <p class="reading" role="status">
        {says === "" ? `${name} is in the bin.` : says}
      </p>
      <Trouble problem={trying.problem} />
      <Acts>
        <Word
          onClick={() =>
            void trying.run(async () => {
              await post(`${API}/documents/${encodeURIComponent(id)}/restore`, {});
              onBack();
            })
          }
        >
          Back one: {name} out
        </Word>
        <Word href="/">To the first page</Word>
      </Acts>
    </div>
  );
}

/** "Take it out", soft: the bin keeps it. `onGone` gets what the studio says went along. */
export function TakeOut({ id, name, says = `Take ${name} out`, onGone }: {
  readonly id: string;
  readonly name: string;
  readonly says?: string;
  readonly onGone: (says: string) => void;
}) {
  const trying = useTrying();
  return (
    <>
      <Acts>
        <Word
          onClick={() =>
            void trying.run(async () => {
              const gone = await remove<{ readonly says?: string } | undefined>(`${API}/documents/${encodeURIComponent(id)}`);
              onGone(gone?.says ?? "");
            })
          }
        >
          {says}
        </Word>
      </Acts>
      <Trouble problem={trying.problem} />
    </>
  );
}

/** One thing of a shelf that can be unfolded, changed and taken out, all in its place. */
export function ShelfItem({ id, name, about, start = false, children }: {
  readonly id: string;
  /** Unfolded at first: it was just made. */
  readonly start?: boolean;
  readonly name: string;
  readonly about: ComponentChildren;
  readonly children: ComponentChildren;
}) {
  const [open, setOpen] = useState(start);
  // It may be on the shelf before the page knows that it is the new one.
  useEffect(() => {
    if (start) setOpen(true);
  }, [start]);
  const [gone, setGone] = useState<string | null>(null);
  if (gone !== null) {
    return (
      <li>
        <Binned id={id} name={name} says={gone} onBack={() => setGone(null)} />
      </li>
    );
  }
  return (
    <li class="shelfitem">
      <div class="folded">
        <h3>{name}</h3>
        <span class="small">{about}</span>
        <Word expanded={open} onClick={() => setOpen(!open)}>
          {open ? "Fold it away" : "Unfold"}
          <span class="heard"> {name}</span>
        </Word>
      </div>
      {open && (
        <>
          {children}
          <TakeOut id={id} name={name} onGone={setGone} />
        </>
      )}
    </li>
  );
}

/** A ticket that asks once more, with what goes along, before it really deletes. */
export function ReallyDelete({ name, goes, onDelete, onLeave }: {
  readonly name: string;
  readonly goes: readonly string[];
  readonly onDelete: () => Promise<void>;
  readonly onLeave: () => void;
}) {
  const trying = useTrying();
  return (
    <div class="really" role="group" aria-label={`Delete ${name}`}>
      <p class="reading">
        <b>{name} would be deleted for good.</b> This goes along:
      </p>
      {goes.length > 0 && (
        <ul class="goes">
          {goes.map((says) => (
            <li key={says}>{says}</li>
          ))}
        </ul>
      )}
      <Trouble problem={trying.problem} />
      <Acts>
        <Ticket off={trying.busy} onClick={() => void trying.run(onDelete)}>
          Delete {name} for good
        </Ticket>
        <Word onClick={onLeave}>Leave it</Word>
      </Acts>
    </div>
  );
}

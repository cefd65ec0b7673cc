/** One thing of the drawer, step by step: what it is, its measures, its cloths, what comes of it. */
import { useEffect, useState } from "preact/hooks";
import type { DrawerView, Head as HeadView, Note as Found } from "../api/types.js";
import { Head } from "../frame/head.js";
import { Note } from "../frame/margin.js";
import { Section } from "../frame/section.js";
import { Sheet } from "../frame/sheet.js";
import { sectionState } from "../order/context.js";
import type { State } from "../lib/state.js";
import { Trouble } from "../parts/trouble.js";
import { BackOne } from "../parts/undo.js";
import { Binned, TakeOut, Waiting } from "../register/shell.js";
import { useTrying } from "../register/asking.js";
import { Cloths } from "./cloths.js";
import { CopySection } from "./copy.js";
import { Known } from "./known.js";
import { Measures } from "./measures.js";
import { SheetSection } from "./sheet.js";
import { Sizes } from "./sizes.js";
import { useDrawer } from "./tools.js";
import type { DrawerTools } from "./tools.js";
import { What } from "./what.js";

/** `/drawer/:id`. */
export function ItemPage({ id }: { readonly id: string }) {
  const { loaded, tools } = useDrawer(id);
  const [gone, setGone] = useState<string | null>(null);
  const name = tools?.view.name ?? "";
  const title = name === "" ? "Of the drawer" : name;
  useEffect(() => {
    document.title = `${title} · Slackwater`;
  }, [title]);
  if (gone !== null) {
    return (
      <Sheet title={title} marks={[]}>
        <Head title={title} />
        <Binned id={id} name={title} says={gone} onBack={() => setGone(null)} />
      </Sheet>
    );
  }
  if (!tools) return <Waiting title="Drawer" loaded={loaded} />;
  return <Item tools={tools} title={title} onGone={setGone} />;
}

function Item({ tools, title, onGone }: { readonly tools: DrawerTools; readonly title: string; readonly onGone: (says: string) => void }) {
  const { view } = tools;
  const isPattern = view.of === "pattern";
  const trying = useTrying();
  const [picked, setPicked] = useState<string | null>(null);
  const pick = (key: string | null): void => {
    setPicked(key);
    if (key !== null) document.getElementById("measures")?.scrollIntoView({ block: "start" });
  };
  const result: State = view.waits_for.length > 0 ? "missing" : "good";
  const states = [sectionState(view.what.state), sectionState(view.measuring.state), sectionState(view.cloth.state)] as const;
  const marks = [
    { id: "what", name: isPattern ? "The pattern" : "The suit", state: states[0] },
    { id: "measures", name: "Measures", state: states[1] },
    { id: "cloth", name: "Cloth", state: states[2] },
    ...(isPattern ? [{ id: "sizes", name: "Sizes", state: "good" as const }] : []),
    { id: "result", name: isPattern ? "Change sheet" : "The copy", state: result },
    { id: "known", name: "Notes", state: "good" as const },
  ];
  let n = 0;
  const next = (): number => (n += 1);
  return (
    <Sheet title={title} marks={marks}>
      <Head
        title={title}
        lead={isPattern ? "A bought pattern, to be made to fit." : "A suit that fits, to be copied in another cloth."}
        facts={[{ name: isPattern ? "For" : "Fits", says: view.wearers.find((one) => one.id === view.wearer)?.name ?? "nobody chosen" }]}
      />
      <div class="backone">
        <BackOne
          back={view.back}
          forward={view.forward}
          onBack={() => void trying.run(tools.back)}
          onForward={() => void trying.run(tools.forward)}
        />
        <Trouble problem={trying.problem} />
      </div>
      <Section open id="what" n={next()} name={isPattern ? "The pattern" : "The suit"} state={states[0]} summary={view.what.summary} {...notes(view.what)}>
        <What tools={tools} />
      </Section>
      <Section open id="measures" n={next()} name="Measures" state={states[1]} summary={view.measuring.summary} {...notes(view.measuring)}>
        <Measures tools={tools} picked={picked} onPick={setPicked} />
      </Section>
      <Section open id="cloth" n={next()} name="Cloth" state={states[2]} summary={view.cloth.summary} {...notes(view.cloth)}>
        <Cloths tools={tools} />
      </Section>
      {isPattern && (
        <Section open id="sizes" n={next()} name="Sizes" state="good" summary={sizesSay(view)}>
          <Sizes tools={tools} />
        </Section>
      )}
      {isPattern ? <SheetSection tools={tools} n={next()} /> : <CopySection tools={tools} n={next()} onMeasure={pick} />}
      <Section open id="known" n={next()} name="Notes" state="good" summary="What else is known of it.">
        <Known id={view.item.id} />
        <TakeOut id={view.item.id} name={title} onGone={onGone} />
      </Section>
    </Sheet>
  );
}

function sizesSay(view: DrawerView): string {
  return view.sizes.length === 0 ? "Only one is measured." : `${view.sizes.length} other ${view.sizes.length === 1 ? "size" : "sizes"}.`;
}

/** Notes of a head for the margin. */
export function notes(head: HeadView): { readonly notes?: ReturnType<typeof Notes> } {
  return head.notes.length === 0 ? {} : { notes: <Notes of={head.notes} /> };
}

function Notes({ of }: { readonly of: readonly Found[] }) {
  return (
    <>
      {of.map((note) => (
        <Note
          key={`${note.field ?? ""} ${note.place} ${note.says}`}
          state={note.state}
          says={note.says}
          {...(note.next !== "" && { next: note.next })}
        />
      ))}
    </>
  );
}

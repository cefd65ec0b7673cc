/**
 * The work order of one suit: read from top to bottom, filled in where it is asked, kept current while it is looked at.
 *
 * A section is open when it is missing, doubtful or at a stop, when she opened it, or when the address names it; she may fold
 * any, and it opens again when it comes to a worse state.
 */
import { useComputed, useSignal } from "@preact/signals";
import type { Signal } from "@preact/signals";
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { VNode } from "preact";
import type { Head, OrderView } from "../api/types.js";
import { ClothSection } from "../cloth/section.js";
import type { SectionMark } from "../frame/marks.js";
import { Nowhere } from "../frame/nowhere.js";
import { Head as PageHead } from "../frame/head.js";
import { Section } from "../frame/section.js";
import { Sheet } from "../frame/sheet.js";
import { LaySection } from "../lay/section.js";
import { Failed, isAbort } from "../lib/api.js";
import { addKeys } from "../lib/keys.js";
import type { Problem } from "../lib/quantity.js";
import { place } from "../lib/router.js";
import { opensItself } from "../lib/state.js";
import { PaperSection } from "../paper/section.js";
import { Trouble } from "../parts/trouble.js";
import { API, useLoaded } from "../register/asking.js";
import type { Document } from "../register/asking.js";
import { textAt } from "../register/lengths.js";
import type { Body } from "../register/lengths.js";
import { Binned, TakeOut } from "../register/shell.js";
import { SewSection } from "../sew/section.js";
import { ShapeSection } from "../shape/section.js";
import { TryOnSection } from "../try_on/section.js";
import { WearSection } from "../wear/section.js";
import { WearerSection } from "../wearer/section.js";
import { WhyPlace } from "./asked.js";
import { sectionIds, sectionState } from "./context.js";
import type { OrderTools, SectionId } from "./context.js";
import { OrderHead } from "./head.js";
import { SectionNotes, home } from "./notes.js";
import { followReading, holdPlace, readDepth, readOpened, sectionIn, writeOpened } from "./place.js";
import type { Opened } from "./place.js";
import { openOrder, readOrder } from "./tools.js";
import type { Order } from "./tools.js";

/** A studio that does not answer is asked again after this. */
const AGAIN_AFTER_MS = 2000;

const noMarks: readonly [] = [];

interface Part {
  readonly name: string;
  readonly head: (view: OrderView) => Head;
  readonly body: (tools: OrderTools) => VNode;
}

const parts: Readonly<Record<SectionId, Part>> = {
  wearer: { name: "Wearer", head: (view) => view.wearer.head, body: (tools) => <WearerSection tools={tools} /> },
  cloth: { name: "Cloth", head: (view) => view.cloth.head, body: (tools) => <ClothSection tools={tools} /> },
  shape: { name: "Shape", head: (view) => view.shape.head, body: (tools) => <ShapeSection tools={tools} /> },
  wear: { name: "Wear", head: (view) => view.wear.head, body: (tools) => <WearSection tools={tools} /> },
  lay: { name: "Lay", head: (view) => view.lay.head, body: (tools) => <LaySection tools={tools} /> },
  sew: { name: "Sew", head: (view) => view.sew.head, body: (tools) => <SewSection tools={tools} /> },
  paper: { name: "Paper", head: (view) => view.paper.head, body: (tools) => <PaperSection tools={tools} /> },
  "try-on": { name: "Try-on", head: (view) => view.try_on.head, body: (tools) => <TryOnSection tools={tools} /> },
};

/** The order, or why there is none. */
export function OrderPage({ suit }: { readonly suit: string }) {
  const held = useOrder(suit);
  if (held.order) return <OrderSheet key={suit} order={held.order} />;
  if (held.problem && held.isGone) return <Gone suit={suit} says={held.problem.what} />;
  return (
    <Sheet title="Work order" marks={noMarks}>
      <header class="head">
        <a class="textlink homeword" href="/">
          Slackwater
        </a>
        <h1>Work order</h1>
        <Trouble problem={held.problem} />
      </header>
    </Sheet>
  );
}

/** There is no such order: it lies in the bin, with the way back, or nowhere. */
function Gone({ suit, says }: { readonly suit: string; readonly says: string }) {
  const { value, problem } = useLoaded<Document<Body>>(`${API}/documents/${encodeURIComponent(suit)}`);
  if (!value && !problem) return null;
  if (!value?.in_bin) return <Nowhere says={says} />;
  const name = textAt(value.body, "name") || "Work order";
  return (
    <Sheet title={name} marks={noMarks}>
      <PageHead title={name} />
      <Binned id={suit} name={name} says="" onBack={() => location.reload()} />
    </Sheet>
  );
}

/** An order that is kept current, or what keeps it from being shown. */
interface Held {
  readonly order: Order | null;
  readonly problem: Problem | null;
  /** There is no such suit. */
  readonly isGone: boolean;
}

const NOTHING: Held = { order: null, problem: null, isGone: false };

/** Reads an order and keeps it current while the page is shown; asks again while the studio is silent. */
export function useOrder(suit: string): Held {
  const [held, setHeld] = useState<Held>(NOTHING);
  useEffect(() => {
    const asked = new AbortController();
    let order: Order | null = null;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const read = (): void => {
      readOrder(suit, asked.signal).then(
        (view) => {
          if (asked.signal.aborted) return;
          order = openOrder(suit, view);
          setHeld({ order, problem: null, isGone: false });
        },
        (error: unknown) => {
          if (isAbort(error) || asked.signal.aborted) return;
          const failed = error instanceof Failed ? error : null;
          setHeld({ order: null, problem: failed?.first ?? { what: "The order could not be read." }, isGone: failed?.kind === "gone" });
          if (failed?.kind === "unreached") timer = setTimeout(read, AGAIN_AFTER_MS);
        },
      );
    };
    setHeld(NOTHING);
    read();
    return () => {
      asked.abort();
      clearTimeout(timer);
      order?.stop();
    };
  }, [suit]);
  return held;
}

function OrderSheet({ order }: { readonly order: Order }) {
  const { tools } = order;
  const view = tools.order.value;
  const suit = view.suit.id;
  const opened = useSignal<Opened>(useMemo(() => startOpened(suit), [suit]));
  order.openSection = (id) => setOpened(suit, opened, id, true);
  const states = sectionIds.map((id) => sectionState(parts[id].head(view).state));
  const marks = useMemo<readonly SectionMark[]>(
    () => sectionIds.map((id, i) => ({ id, n: i + 1, name: parts[id].name, state: states[i] ?? "good" })),
    [states.join(" ")],
  );
  useReading(suit, (id) => setOpened(suit, opened, id, true));
  useEffect(
    () =>
      addKeys([
        { key: "Ctrl+Z", says: "Back one", act: () => void tools.undo("back") },
        { key: "Ctrl+Shift+Z", says: "Forward", act: () => void tools.undo("forward") },
      ]),
    [tools],
  );
  const [gone, setGone] = useState<string | null>(null);
  const name = view.suit.name === "" ? `No. ${view.suit.number}` : view.suit.name;
  if (gone !== null) {
    const back = (): void => {
      setGone(null);
      void tools.reload().catch(() => undefined);
    };
    return (
      <Sheet title={name} marks={noMarks}>
        <PageHead title={name} />
        <Binned id={suit} name={name} says={gone} onBack={back} />
      </Sheet>
    );
  }
  return (
    <Sheet title={view.suit.name === "" ? "Work order" : view.suit.name} marks={marks}>
      <OrderHead order={order} />
      {sectionIds.map((id, i) => (
        <OrderSection key={id} id={id} n={i + 1} tools={tools} opened={opened} suit={suit} />
      ))}
      {view.suit.cautions.length > 0 && (
        <div class="cautions">
          <h3>Know before you cut and swim</h3>
          <dl>
            {view.suit.cautions.map((caution) => (
              <div key={caution.topic}>
                <dt>{caution.topic}</dt>
                <dd>{caution.says}</dd>
              </div>
            ))}
          </dl>
        </div>
      )}
      <div class="takeout">
        <TakeOut id={suit} name={name} says="Put this order into the bin" onGone={setGone} />
      </div>
    </Sheet>
  );
}

function OrderSection({ id, n, tools, opened, suit }: {
  readonly id: SectionId;
  readonly n: number;
  readonly tools: OrderTools;
  readonly opened: Signal<Opened>;
  readonly suit: string;
}) {
  const part = parts[id];
  const head = useComputed(() => part.head(tools.order.value)).value;
  const state = sectionState(head.state);
  const hasClash = tools.clashes.value.some((clash) => home(tools, clash) === id);
  const must = opensItself(state);
  const was = useRef(must);
  // What was drawn open stays so when its state turns good: nothing folds under the hand.
  const stood = useRef(must);
  if (must) stood.current = true;
  useEffect(() => {
    if (must && !was.current) setOpened(suit, opened, id, true);
    was.current = must;
  }, [must]);
  const hasNotes = head.notes.length > 0 || hasClash;
  return (
    <Section
      id={id}
      n={n}
      name={part.name}
      state={state}
      summary={head.summary}
      open={hasClash || (opened.value[id] ?? stood.current)}
      onOpen={(open) => setOpened(suit, opened, id, open)}
      {...(hasNotes && { notes: <SectionNotes tools={tools} section={id} notes={head.notes} /> })}
    >
      <WhyPlace tools={tools} name={id}>
        {part.body(tools)}
      </WhyPlace>
    </Section>
  );
}

function startOpened(suit: string): Opened {
  const named = sectionIn(place.peek().hash);
  return named ? { ...readOpened(suit), [named]: true } : readOpened(suit);
}

function setOpened(suit: string, opened: Signal<Opened>, id: SectionId, open: boolean): void {
  if (opened.peek()[id] === open) return;
  opened.value = { ...opened.peek(), [id]: open };
  writeOpened(suit, opened.value);
}

/**
 * Keeps address and place together: a section that is jumped to opens, a reload finds the line one was reading, back and
 * forward go to the section the address names.
 */
function useReading(suit: string, open: (id: SectionId) => void): void {
  useLayoutEffect(() => {
    let stopFollowing = (): void => undefined;
    const follow = (): void => {
      stopFollowing = followReading(suit);
    };
    const named = sectionIn(location.hash.slice(1));
    let stopHolding = named || location.hash === "" ? holdPlace(named, readDepth(suit, named), follow) : (follow(), () => undefined);
    // Back and forward go to the section the address names, wherever it lies by now; the browser knows only pixels.
    const restoration = history.scrollRestoration;
    history.scrollRestoration = "manual";
    const back = (): void => {
      const to = sectionIn(location.hash.slice(1));
      if (!to && location.hash !== "") return;
      stopHolding();
      stopFollowing();
      stopHolding = holdPlace(to, 0, follow);
    };
    addEventListener("popstate", back);
    return () => {
      removeEventListener("popstate", back);
      history.scrollRestoration = restoration;
      stopHolding();
      stopFollowing();
    };
  }, [suit]);
  useEffect(() => {
    const jumped = (event: FocusEvent): void => {
      const heading = event.target instanceof HTMLElement && event.target.tagName === "H2" ? event.target.closest("section") : null;
      const id = heading && sectionIn(heading.id);
      if (id) open(id);
    };
    const moved = (): void => {
      const id = sectionIn(location.hash.slice(1));
      if (id) open(id);
    };
    document.addEventListener("focusin", jumped);
    addEventListener("hashchange", moved);
    return () => {
      document.removeEventListener("focusin", jumped);
      removeEventListener("hashchange", moved);
    };
  }, [suit]);
}

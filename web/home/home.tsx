/** The first page, "On the line": suits hung up, wearers, cloths, and what lies on the shelf; one field finds them all. */
import { useMemo, useState } from "preact/hooks";
import type { ClothCard, HomeView, ShelfLine, State } from "../api/types.js";
import { Head } from "../frame/head.js";
import { Section } from "../frame/section.js";
import { Sheet } from "../frame/sheet.js";
import { Pinked } from "../cloth/pinked.js";
import { unbroken } from "../lib/quantity.js";
import { worst } from "../lib/state.js";
import { Find } from "../parts/find.js";
import { StateIcon } from "../parts/icon.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { sectionState } from "../order/context.js";
import { headed } from "../register/adapt.js";
import { API, useLoaded } from "../register/asking.js";
import { NewCloth, NewElastic, NewWearer } from "../register/new.js";
import { Waiting } from "../register/shell.js";
import { Hang } from "./hang.js";
import { Example, Start } from "./start.js";

/** Reads what there is and follows changes made on another screen. */
export function HomePage() {
  const loaded = useLoaded<HomeView>(`${API}/home`, { follow: true });
  if (!loaded.value) return <Waiting title="On the line" loaded={loaded} />;
  return <OnTheLine home={loaded.value} again={loaded.again} />;
}

type Adding = "suit" | "wearer" | "cloth" | "elastic" | null;

function OnTheLine({ home, again }: { readonly home: HomeView; readonly again: () => Promise<void> }) {
  const [text, setText] = useState("");
  const [adding, setAdding] = useState<Adding>(null);
  const wanted = text.trim().toLowerCase().split(/\s+/);
  const fits = (one: { readonly words: string }): boolean => wanted.every((word) => one.words.includes(word));
  const suits = home.suits.filter(fits);
  const wearers = home.wearers.filter(fits);
  const cloths = home.cloths.filter(fits);
  const elastics = home.elastics.filter(fits);
  const shelf = home.shelf.filter(fits);
  const marks = useMemo(
    () => [
      { id: "suits", name: "Suits", state: worstOf(home.suits) },
      { id: "wearers", name: "Wearers", state: worstOf(home.wearers) },
      { id: "cloths", name: "Cloths", state: worstOf([...home.cloths, ...home.elastics]) },
      { id: "shelf", name: "Shelf", state: worstOf(home.shelf) },
    ],
    [home],
  );
  const searching = text.trim() !== "";
  const found = suits.length + wearers.length + cloths.length + elastics.length + shelf.length;
  const leave = (): void => setAdding(null);
  return (
    <Sheet title="On the line" marks={marks}>
      <Head
        wide
        title="On the line"
        lead={home.lead}
        beside={<Find label="Find a suit, wearer or cloth" text={text} onText={setText} />}
      />
      <p class="heard" role="status" aria-live="polite">
        {searching ? (found === 0 ? "Nothing found" : `${found} found`) : ""}
      </p>
      <section id="suits" class="section line wideline" aria-label="Suits">
        <h2 class="heard">Suits</h2>
        {home.suits.length === 0 ? (
          <div class="hang empty">
            <p class="lead">Nothing hangs on the line yet.</p>
          </div>
        ) : suits.length === 0 ? (
          <p class="small">No suit goes by “{text.trim()}”.</p>
        ) : (
          <Hang suits={suits} />
        )}
        {adding === "suit" ? (
          <Start home={home} onLeave={leave} />
        ) : (
          <div class="suitacts">
            <Acts>
              <Ticket onClick={() => setAdding("suit")}>Start a suit</Ticket>
            </Acts>
            <Example home={home} again={again} />
          </div>
        )}
      </section>
      <Section wide open id="wearers" name="Wearers" state={worstOf(home.wearers)} summary="All readings stay on this machine.">
        {home.wearers.length === 0 && adding !== "wearer" ? (
          <Empty says="Nobody has been measured yet." ticket="Add a wearer" onAdd={() => setAdding("wearer")} />
        ) : (
          <>
            <Register lines={wearers} at="/wearers/" searched={searching ? text.trim() : ""} name="Wearers" />
            {adding === "wearer" ? (
              <NewWearer onLeave={leave} />
            ) : (
              <Acts>
                <Word onClick={() => setAdding("wearer")}>Add a wearer</Word>
              </Acts>
            )}
          </>
        )}
      </Section>
      <Section
        wide
        open
        id="cloths"
        name="Cloths"
        state={worstOf([...home.cloths, ...home.elastics])}
        summary="Cross arms show the stretch you measured."
      >
        {home.cloths.length === 0 && adding !== "cloth" ? (
          <Empty says="No cloth has been tested yet." ticket="Add a cloth" onAdd={() => setAdding("cloth")} />
        ) : (
          <>
            {cloths.length === 0 && searching ? <p class="small">No cloth goes by “{text.trim()}”.</p> : <Cloths cloths={cloths} />}
            {adding === "cloth" ? (
              <NewCloth onLeave={leave} />
            ) : (
              <Acts>
                <Word onClick={() => setAdding("cloth")}>Add a cloth</Word>
              </Acts>
            )}
          </>
        )}
        <h3 class="apart">Elastics</h3>
        {home.elastics.length === 0 ? (
          <p class="small">None written down. A suit can also do with a kind of elastic alone.</p>
        ) : (
          <Register lines={elastics} at="/elastics/" searched={searching ? text.trim() : ""} name="Elastics" />
        )}
        {adding === "elastic" ? (
          <NewElastic onLeave={leave} />
        ) : (
          <Acts>
            <Word onClick={() => setAdding("elastic")}>Add an elastic</Word>
          </Acts>
        )}
      </Section>
      <Section wide open id="shelf" name="On the shelf" state={worstOf(home.shelf)} summary="What the workroom has and remembers.">
        <Register lines={shelf} at="/" searched={searching ? text.trim() : ""} name="On the shelf" />
      </Section>
    </Sheet>
  );
}

/** Lines of the register: name, one line about it, its state in pencil. Each leads to its page. */
export function Register({ lines, at, searched = "", name }: {
  readonly lines: readonly ShelfLine[];
  /** Where their pages are. */
  readonly at: string;
  readonly searched?: string;
  readonly name: string;
}) {
  if (lines.length === 0) return searched === "" ? null : <p class="small">Nothing here goes by “{searched}”.</p>;
  return (
    <ul class="register" aria-label={name}>
      {lines.map((line) => (
        <li key={line.id}>
          <a href={at + encodeURIComponent(line.id)}>
            <b>{line.name}</b>
            <span>{line.about}</span>
            <StateIcon pencil state={line.state} says={line.says === "" ? headed(line.state) : line.says} />
          </a>
        </li>
      ))}
    </ul>
  );
}

function Cloths({ cloths }: { readonly cloths: readonly ClothCard[] }) {
  return (
    <ul class="cloths">
      {cloths.map((cloth) => (
        <li key={cloth.id}>
          <a href={`/cloths/${encodeURIComponent(cloth.id)}`}>
            <Pinked look={cloth.look} cross={cloth.cross} says="" />
            <div>
              <b>{cloth.name}</b>
              <span>{unbroken(cloth.about)}</span>
              {cloth.state !== "good" && <StateIcon pencil state={cloth.state} />}
            </div>
          </a>
        </li>
      ))}
    </ul>
  );
}

function Empty({ says, ticket, onAdd }: { readonly says: string; readonly ticket: string; readonly onAdd: () => void }) {
  return (
    <>
      <p class="lead">{says}</p>
      <Acts>
        <Ticket onClick={onAdd}>{ticket}</Ticket>
      </Acts>
    </>
  );
}

function worstOf(lines: readonly { readonly state: State }[]) {
  return worst(lines.map((line) => sectionState(line.state)));
}

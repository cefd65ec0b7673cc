/** The workroom: machines, needles and thread, the printer, this screen, the tablet, and keeping it all safe. */
import { useMemo, useState } from "preact/hooks";
import type { RoomView, SettingsView } from "../api/types.js";
import { Calibrate, isTrue } from "../cloth/calibrate.js";
import { KeysChoice, LightChoice } from "../frame/screen.js";
import { Section } from "../frame/section.js";
import { patch } from "../lib/api.js";
import { withUnit } from "../order/field.js";
import { Lines } from "../parts/line.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, useDocument, useLoaded, useTrying } from "./asking.js";
import type { Editable } from "./asking.js";
import { Pick, TextLine } from "./fields.js";
import { NeedlesAndThreads, Prices, SmallParts } from "./goods.js";
import { textAt } from "./lengths.js";
import type { Body } from "./lengths.js";
import { Machines, RoomFile } from "./machines.js";
import { Pairing } from "./pairing.js";
import { Keeping } from "./keeping.js";
import { Page, Waiting } from "./shell.js";

const NOTHING: Body = {};

/** `/workroom`. */
export function WorkroomPage() {
  const doc = useDocument<Body>("workroom", NOTHING);
  const isMeasured = squareOf(doc.value?.body ?? NOTHING).every((side) => side !== "");
  const settings = useLoaded<SettingsView>(`${API}/settings`);
  const { value: room } = useLoaded<RoomView>(`${API}/room`, { follow: true });
  const isAssumed = room?.is_assumed ?? false;
  const marks = useMemo(
    () => [
      { id: "machines", name: "Sewing", state: isAssumed ? ("missing" as const) : ("good" as const) },
      { id: "stock", name: "Stock", state: "good" as const },
      { id: "prices", name: "Prices", state: "good" as const },
      { id: "printer", name: "Printer", state: isMeasured ? ("good" as const) : ("missing" as const) },
      { id: "screen", name: "Screen", state: "good" as const },
      { id: "tablet", name: "Tablet", state: "good" as const },
      { id: "keeping", name: "Keeping", state: "good" as const },
    ],
    [isMeasured, isAssumed],
  );
  if (!doc.value) return <Waiting title="Workroom" loaded={doc} />;
  return (
    <Page title="Workroom" lead="Machines, printer, this screen; and how it all is kept." marks={marks}>
      <Section
        open
        id="machines"
        name="Machines"
        state={isAssumed ? "missing" : "good"}
        summary={isAssumed ? "No machine is written down yet." : "What you sew with."}
      >
        <Machines doc={doc} room={room} />
      </Section>
      <Section open id="stock" name="Stock" state="good" summary="What is in the drawers; taken off the shopping lists.">
        <NeedlesAndThreads doc={doc} room={room} />
        <SmallParts doc={doc} room={room} />
      </Section>
      <Section open id="prices" name="Prices" state="good" summary="For shopping lists and quotes.">
        <Prices doc={doc} room={room} />
      </Section>
      <Section
        open
        id="printer"
        name="Printer"
        state={isMeasured ? "good" : "missing"}
        summary={isMeasured ? "So that paper comes out true." : "The test square is not measured yet."}
      >
        <Printer doc={doc} />
      </Section>
      <Section open id="screen" name="Screen" state="good" summary={isTrue() ? "Its centimetres are true." : "Not held against a bank card yet."}>
        {settings.value ? <ThisScreen settings={settings.value} again={settings.again} /> : <Trouble problem={settings.problem} />}
      </Section>
      <Section open id="tablet" name="Tablet" state="good" summary="The same pages on the cutting table.">
        <Pairing settings={settings.value} />
      </Section>
      <Section open id="keeping" name="Keeping" state="good" summary="Backups, the archive, suit files, the bin.">
        <Keeping />
        <RoomFile />
        {settings.value && <p class="small">Slackwater {settings.value.version}.</p>}
      </Section>
    </Page>
  );
}

/** Both sides of the printed square in mm, as they were typed; empty where one is not measured. */
function squareOf(body: Body): readonly [string, string] {
  const before: unknown = body["measured_square"];
  const list: readonly unknown[] = Array.isArray(before) && typeof body["square"] !== "object" ? before : [];
  const side = (key: string, at: number): string => (textAt(body, `square.${key}`) || String(list[at] ?? "")).replace(/\s*mm$/, "");
  return [side("across", 0), side("down", 1)];
}

function inMm(side: string) {
  return (
    <>
      {side} <small>mm</small>
    </>
  );
}

function Printer({ doc }: { readonly doc: Editable<Body> }) {
  const trying = useTrying();
  const body = doc.value?.body ?? NOTHING;
  const square = squareOf(body);
  const edge = textAt(body, "white_edge");
  /** A side as the order writes it too; a list of both from before is put in its place. */
  const keep = (at: number) => (text: string): Promise<void> => {
    const typed = withUnit(text, "mm");
    const [across, down] = square.map((side) => (side === "" ? null : `${side} mm`));
    return doc.set({
      "square.across": at === 0 ? typed : (across ?? null),
      "square.down": at === 1 ? typed : (down ?? null),
      measured_square: null,
    });
  };
  return (
    <>
      <Pick
        name="Paper"
        options={[
          { value: "A4", says: "A4" },
          { value: "Letter", says: "Letter" },
        ]}
        value={textAt(body, "paper") || null}
        onPick={(paper) => void trying.run(() => doc.set({ paper }))}
      />
      <Trouble problem={trying.problem} />
      <p class="reading">
        Print the test page at full size and measure its 100 mm square. If it is not 100, write what it is: the next paper makes up for
        it.
      </p>
      <Lines>
        {(["Square, across", "Square, down"] as const).map((name, at) => (
          <TextLine
            key={name}
            name={name}
            value={square[at] ?? ""}
            {...(square[at] && { shown: inMm(square[at]) })}
            kind="number"
            empty="not measured"
            hint="Millimetres, as the ruler reads; 100 when it prints true."
            onKeep={keep(at)}
          />
        ))}
        <TextLine
          name="White edge"
          value={edge.replace(/\s*mm$/, "")}
          {...(edge !== "" && { shown: inMm(edge.replace(/\s*mm$/, "")) })}
          kind="number"
          empty="as most leave it"
          hint="What the printer leaves white along the edge of a page, 2 to 12 mm. Known, the tiles are as large as it allows."
          onKeep={(text) => doc.set({ white_edge: withUnit(text, "mm") })}
        />
      </Lines>
    </>
  );
}

function ThisScreen({ settings, again }: { readonly settings: SettingsView; readonly again: () => Promise<void> }) {
  const trying = useTrying();
  const [calibrating, setCalibrating] = useState(false);
  const setUnits = (units: string): void =>
    void trying.run(async () => {
      await patch(`${API}/settings`, { units });
      await again();
    });
  return (
    <>
      <div class="choices">
        <Pick
          name="Units of new suits"
          options={[
            { value: "cm", says: "Centimetres first" },
            { value: "in", says: "Inches and eighths first" },
          ]}
          value={settings.units}
          onPick={setUnits}
        />
        <LightChoice />
        <KeysChoice />
      </div>
      <Trouble problem={trying.problem} />
      {calibrating ? (
        <Calibrate onDone={() => setCalibrating(false)} />
      ) : (
        <Acts>
          <Word onClick={() => setCalibrating(true)}>{isTrue() ? "Lay the bank card again" : "Make its centimetres true"}</Word>
          <span class="small">{isTrue() ? "The tape of these pages is true on this screen." : "With a bank card, in half a minute."}</span>
        </Acts>
      )}
    </>
  );
}

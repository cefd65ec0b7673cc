/** Section 8, Try-on: the versions over one another, what she said, what was changed, and the note of the next one. */
import { useId, useRef, useState } from "preact/hooks";
import type { DifferenceView, OverlayView, TryOnEntry } from "../api/types.js";
import { Failed, post, remove } from "../lib/api.js";
import { dateInWords } from "../lib/dates.js";
import type { Problem } from "../lib/quantity.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { inWords } from "../order/quantity.js";
import { useMmPerPixel } from "../order/scale.js";
import { suitAt } from "../order/studio.js";
import { Written } from "../order/written.js";
import { Choice } from "../parts/choice.js";
import { Table } from "../parts/table.js";
import { Trouble } from "../parts/trouble.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { viewBox } from "../shape/piece.js";
import { TryOnNote, hasDraft } from "./note.js";
import { PHOTO_KINDS, photoAt, sendPhoto } from "./photos.js";

/** The body of the section. */
export function TryOnSection({ tools }: { readonly tools: OrderTools }) {
  const { try_on, suit } = tools.order.value;
  const [writing, setWriting] = useState(() => hasDraft(suit.id));
  const latest = try_on.try_ons[0];
  return (
    <>
      <div class="two tryonbody">
        {try_on.overlay.length > 0 ? (
          <div>
            <Overlay overlay={try_on.overlay} />
            <Differences all={try_on.differences} />
          </div>
        ) : <p class="lead">{try_on.how}</p>}
        <div id={fieldId("try_ons")}>
          {try_on.try_ons.map((entry) => (
            <Entry key={entry.id} tools={tools} entry={entry} isLatest={entry === latest} />
          ))}
          {try_on.try_ons.length === 0 && !writing && <p class="reading">{try_on.overlay.length > 0 ? try_on.how : "Nothing was tried on yet."}</p>}
          {!writing && (
            <Acts>
              <Ticket onClick={() => setWriting(true)}>Write a try-on note</Ticket>
            </Acts>
          )}
        </div>
      </div>
      {writing && <TryOnNote tools={tools} onClose={() => setWriting(false)} />}
      <Versions tools={tools} />
    </>
  );
}

/** What the finished suit measures otherwise than the version kept last. */
function Differences({ all }: { readonly all: readonly DifferenceView[] }) {
  if (all.length === 0) return null;
  return (
    <Table
      caption="What measures otherwise than the version kept last"
      rows={all}
      rowKey={(one) => one.name}
      columns={[
        { key: "measure", head: "Finished", cell: (one) => one.name },
        { key: "was", head: "was", right: true, phone: "was", cell: (one) => inWords(one.was) },
        { key: "is", head: "is", right: true, phone: "is", cell: (one) => inWords(one.now) },
        { key: "difference", head: "", right: true, cell: (one) => one.by },
      ]}
    />
  );
}

/** One piece at a time: kept versions in pencil dots, the one in work in ink. */
function Overlay({ overlay }: { readonly overlay: readonly OverlayView[] }) {
  const [name, setName] = useState<string | null>(null);
  const shown = overlay.find((one) => one.piece === name) ?? overlay[0];
  const drawing = useRef<SVGSVGElement>(null);
  const px = useMmPerPixel(drawing, (shown?.frame.width ?? 1) + 24, (shown?.frame.height ?? 1) + 24);
  if (!shown) return null;
  const now = shown.lines.find((line) => line.is_now);
  const old = shown.lines.filter((line) => !line.is_now);
  const dotted = old.map((line) => line.version).join(", ");
  const drawn = `version ${now?.version ?? ""}${old.length === 0 ? "" : ` in ink, ${dotted} in dots`}`;
  const middle = shown.frame.x + shown.frame.width / 2;
  const low = shown.frame.y + shown.frame.height * (shown.frame.height < shown.frame.width ? 0.34 : 0.56);
  return (
    <div class="overlay">
      {overlay.length > 1 && (
        <Choice
          hideName
          name="Piece"
          options={overlay.map((one) => ({ value: one.piece, says: one.piece }))}
          value={shown.piece}
          onChange={setName}
        />
      )}
      <svg
        ref={drawing}
        class="piecedrawing"
        viewBox={viewBox(shown.frame, 12)}
        role="img"
        aria-label={`${shown.piece}: ${drawn}`}
      >
        {now && <path class="piece cut" d={now.path} />}
        {now && <path class="k-cut" d={now.path} />}
        {old.map((line) => (
          <path key={line.version} class="k-old" d={line.path} />
        ))}
        <g aria-hidden="true" class="piecewords">
          <text class="piecename" x={middle} y={low} font-size={20 * px}>
            {shown.piece}
          </text>
          {now && (
            <text class="piececut" x={middle} y={low + 20 * px} font-size={14 * px}>
              {drawn}
            </text>
          )}
        </g>
      </svg>
    </div>
  );
}

/** One try-on: her words, what was done, photos where they may be kept. */
function Entry({ tools, entry, isLatest }: { readonly tools: OrderTools; readonly entry: TryOnEntry; readonly isLatest: boolean }) {
  const { suit, try_on } = tools.order.value;
  const waits = tools.waiting(suit.id, `try_ons.${entry.id}.said`);
  const said = Array.isArray(waits) ? waits.map(String) : entry.said;
  return (
    <div class="tryon" id={fieldId(`try_ons.${entry.id}`)}>
      <h3>What she said</h3>
      <p class="small">
        Version {entry.version}
        {entry.on !== "" && `, ${dateInWords(entry.on)}`}
      </p>
      <ul class="saidlines">
        {said.map((line, i) => (
          <li key={i}>{`“${line}”`}</li>
        ))}
        {isLatest && (
          <li class="addline">
            <Written
              label="a line she said"
              value=""
              empty="Add a line"
              onKeep={(text) =>
                text === ""
                  ? Promise.resolve()
                  : tools.keep([{ document: suit.id, path: `try_ons.${entry.id}.said`, value: [...said, text] }], `try-on: “${text}”`)
              }
            />
          </li>
        )}
      </ul>
      {entry.did.length > 0 && (
        <>
          <h3>What we did</h3>
          <ul class="saidlines">
            {entry.did.map((line, i) => (
              <li key={i}>{line}</li>
            ))}
          </ul>
        </>
      )}
      {try_on.photos_allowed ? (
        <Photos tools={tools} entry={entry} canAdd={isLatest} />
      ) : (
        try_on.carer !== "" && <p class="small">With {try_on.carer}. No photos are kept of a wearer under 18.</p>
      )}
    </div>
  );
}

function Photos({ tools, entry, canAdd }: { readonly tools: OrderTools; readonly entry: TryOnEntry; readonly canAdd: boolean }) {
  const { suit } = tools.order.value;
  const [problem, setProblem] = useState<Problem | null>(null);
  const [busy, setBusy] = useState(false);
  const id = useId();
  const path = `try_ons.${entry.id}.photos`;
  const add = async (file: File): Promise<void> => {
    setBusy(true);
    setProblem(null);
    try {
      const photo = await sendPhoto(file, suit.id, path);
      await tools.keep([{ document: suit.id, path, value: [...entry.photos, photo] }], "photo of the try-on");
    } catch (error) {
      setProblem(error instanceof Failed ? error.first : { what: "The photo was not kept." });
    } finally {
      setBusy(false);
    }
  };
  const takeOut = async (photo: string): Promise<void> => {
    setProblem(null);
    try {
      await tools.keep([{ document: suit.id, path, value: entry.photos.filter((one) => one !== photo) }], "photo taken out");
      await remove(photoAt(photo));
    } catch (error) {
      setProblem(error instanceof Failed ? error.first : { what: "The photo was not taken out." });
    }
  };
  if (entry.photos.length === 0 && !canAdd) return null;
  return (
    <div class="photos">
      {entry.photos.map((photo, i) => (
        <figure key={photo}>
          <img src={photoAt(photo)} alt={`Photo ${i + 1} of the try-on${entry.on === "" ? "" : ` on ${dateInWords(entry.on)}`}`} />
          <Word onClick={() => void takeOut(photo)}>
            Take it out<span class="heard"> (photo {i + 1})</span>
          </Word>
        </figure>
      ))}
      {canAdd && (
        <div class="addphoto">
          <label for={id} class="textlink">
            {busy ? "Being kept" : "Add a photo"}
          </label>
          <input
            id={id}
            class="heard"
            type="file"
            accept={PHOTO_KINDS.join(",")}
            disabled={busy}
            onChange={(event) => {
              const file = event.currentTarget.files?.[0];
              event.currentTarget.value = "";
              if (file) void add(file);
            }}
          />
          <p class="small">Photos stay on this machine. One you take out is still in the backups made before, until those make room for newer ones.</p>
        </div>
      )}
      <Trouble problem={problem} />
    </div>
  );
}

/** Versions that were cut, and cutting the next one. */
function Versions({ tools }: { readonly tools: OrderTools }) {
  const { try_on, suit, shape } = tools.order.value;
  const [problem, setProblem] = useState<Problem | null>(null);
  const [busy, setBusy] = useState(false);
  const make = async (): Promise<void> => {
    if (busy) return;
    setBusy(true);
    setProblem(null);
    try {
      await post(suitAt(suit.id, "/versions"), { words: "" });
      await tools.reload();
    } catch (error) {
      setProblem(error instanceof Failed ? error.first : { what: "The version was not made." });
    } finally {
      setBusy(false);
    }
  };
  return (
    <div class="versions" id={fieldId("version")}>
      {try_on.versions.length > 0 && (
        <>
          <h3>Versions that were cut</h3>
          <ol>
            {try_on.versions.map((version) => (
              <li key={version.number}>
                <b>Version {version.number}</b>
                <span class="small">
                  {dateInWords(version.kept_on)}
                  {version.version_id !== "" && `, ${version.version_id} on its paper`}
                </span>
                {version.changed.length > 0 && <p>{version.changed.join(" ")}</p>}
              </li>
            ))}
          </ol>
        </>
      )}
      {shape.pieces.length > 0 && <Acts>
        <Word off={busy} onClick={() => void make()}>
          Make version {try_on.version + 1}
        </Word>
        <span class="small">Keeps version {try_on.version} as it was cut; the work goes on as the next.</span>
      </Acts>}
      <Trouble problem={problem} />
    </div>
  );
}

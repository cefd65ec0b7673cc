/**
 * Section 5, Lay: every cloth with its pieces as they are cut, packed while she watches or moved by hand, what to buy, and what
 * is left. Everything said here is worked out by the studio.
 */
import { useEffect, useMemo } from "preact/hooks";
import { useSignal } from "@preact/signals";
import type { LaidCloth, LaidPiece, LayInForce } from "../api/types.js";
import { AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { ChoiceWords, FieldLine } from "../order/field.js";
import { inWords, shown } from "../order/quantity.js";
import { suitAt } from "../order/studio.js";
import { Figure, Second } from "../parts/figure.js";
import { Progress } from "../parts/progress.js";
import { Table } from "../parts/table.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { Tick } from "../register/fields.js";
import { Cloths } from "./cloths.js";
import { Drawing, idOf } from "./drawing.js";
import { openPacker } from "./job.js";
import type { Packing } from "./job.js";
import { openMover } from "./moving.js";
import type { Mover } from "./moving.js";
import { AtHand, Flaws, markFlaw } from "./stock.js";

/** The body of the section. */
export function LaySection({ tools }: { readonly tools: OrderTools }) {
  const { lay } = tools.order.value;
  return (
    <>
      {lay.lead !== "" && <p class="lead">{lay.lead}</p>}
      {lay.cloths.map((cloth, i) => (
        <Cloth key={cloth.layer} tools={tools} cloth={cloth} isFirst={i === 0} />
      ))}
      {lay.cloths.length > 0 && (
        <details class="more layrules">
          <summary>How it is laid</summary>
          {lay.choices.map((choice) => (
            <ChoiceWords key={choice.path} tools={tools} choice={choice} />
          ))}
          <div class="fieldlines">
            {lay.fields.map((field) => (
              <FieldLine key={field.path} tools={tools} field={field} nothing="none" />
            ))}
          </div>
        </details>
      )}
      {lay.with.length > 0 && (
        <details class="more laywith" open={lay.with.some((one) => one.is_in)}>
          <summary>Lay other suits with it</summary>
          <p class="small">What they cut from the same cloth is laid on the same length; small pieces fill gaps.</p>
          <ul class="ticks">
            {lay.with.map((one) => (
              <li key={one.name + String(one.set.document)}>
                <Tick
                  done={one.is_in}
                  says={
                    <>
                      {one.name} {one.says !== "" && <small>{one.says}</small>}
                    </>
                  }
                  onTick={(is) => void tools.edit([one.set], is ? `laid ${one.name} with it` : `laid ${one.name} apart`)}
                />
              </li>
            ))}
          </ul>
        </details>
      )}
      {lay.cloths.length > 0 && (
        <Acts>
          <Word href={`/suits/${encodeURIComponent(tools.order.value.suit.id)}/shopping`}>What to buy, and what it costs</Word>
        </Acts>
      )}
    </>
  );
}

/** One cloth. The ticket is the first one's: a section has one. */
function Cloth({ tools, cloth, isFirst }: { readonly tools: OrderTools; readonly cloth: LaidCloth; readonly isFirst: boolean }) {
  const suit = tools.order.value.suit.id;
  const packer = useMemo(() => openPacker(`${suit}.${cloth.layer}`, () => tools.reload()), [suit, cloth.layer, tools]);
  useEffect(() => () => packer.leave(), [packer]);
  const mover = useMemo(() => openMover(tools, cloth.layer), [tools, cloth.layer]);
  const marking = useSignal(false);
  const now = packer.now.value;
  const title = `${cloth.layer.charAt(0).toUpperCase()}${cloth.layer.slice(1)}: ${cloth.name}`;
  const { lay } = cloth;
  const drawing = now?.lay?.drawing ?? lay?.drawing ?? null;
  const start = (afresh: boolean): void => {
    mover.back();
    void packer.start(suitAt(suit, `/lay/${cloth.layer}/pack`), { seconds: null, afresh });
  };
  const hand = lay?.by_hand ?? 0;
  const isShortest = lay !== null && hand === 0 && lay.length.main === lay.bound.main && lay.standing !== "old" && lay.standing !== "spoilt";
  const verb = hand > 0 ? "Pack around what I placed" : lay?.standing === "old" || lay?.standing === "spoilt" ? "Pack it again" : "Pack it closer";
  return (
    <div class="laid" id={`lay-${cloth.layer}`}>
      <h3>{title}</h3>
      {cloth.lies !== "" && <p>{cloth.lies}</p>}
      {cloth.not_laid !== null && <p class="pencil">{cloth.not_laid}</p>}
      {drawing && (
        <figure class="clothrow">
          <figcaption>
            <span>{drawing.remnant !== "" ? "odd piece" : drawing.fold === "single" ? "selvedge" : "fold"}</span>
            <span class="clothwords">
              {cloth.width ? inWords(cloth.width) : "width not known"}, greater stretch {drawing.stretch_is_across ? "this way" : "along"}
              <svg class={drawing.stretch_is_across ? "stretchway" : "stretchway down"} viewBox="0 0 60 10" aria-hidden="true">
                <path d="M1 5H59M52 1.5 59 5 52 8.5M8 1.5 1 5 8 8.5M27 2v6M30 2v6M33 2v6" />
              </svg>
            </span>
            <span>{drawing.remnant === "" && "selvedge"}</span>
            {drawing.fold === "partial" && <span class="foldwords small">Two layers as far as the thin line, one beyond it.</span>}
          </figcaption>
          <Drawing
            cloth={cloth}
            drawing={drawing}
            mover={now ? null : mover}
            marks={
              marking.value
                ? (box) => {
                    marking.value = false;
                    void markFlaw(tools, cloth, box, drawing.fold_at);
                  }
                : null
            }
          />
        </figure>
      )}
      <HeldSays mover={mover} />
      {lay && <Figures tools={tools} cloth={cloth} lay={lay} now={now} />}
      {lay && !now && !isShortest && (
        <Acts>
          {isFirst ? <Ticket onClick={() => start(false)}>{verb}</Ticket> : <Word onClick={() => start(false)}>{verb}</Word>}
          {hand > 0 && <Word onClick={() => void mover.letGo()}>Let them go</Word>}
          {hand > 0 && <Word onClick={() => start(true)}>Pack all afresh</Word>}
        </Acts>
      )}
      {now && <Progress says={now.says} share={now.share} onStop={() => void packer.stop()} />}
      <p class="pencil laysaid" role="status" aria-live="polite">
        {!now && (packer.said.value || (isShortest ? "No lay of these pieces can be shorter. Move them by hand if you like." : lay?.says) || "")}
      </p>
      <Trouble problem={packer.problem.value} />
      {lay && <BuyLine tools={tools} cloth={cloth} lay={lay} />}
      {cloth.document !== null && <AtHand tools={tools} cloth={cloth} />}
      {cloth.pieces.length > 0 && <Cloths tools={tools} cloth={cloth} />}
      {cloth.document !== null && lay && (
        <Flaws
          tools={tools}
          cloth={cloth}
          marking={marking.value}
          onMarking={(is) => {
            marking.value = is;
          }}
        />
      )}
      {drawing && <ChalkTable cloth={cloth} pieces={drawing.pieces} />}
      <details class="more">
        <summary>What is cut</summary>
        <Table
          caption={`To cut from ${cloth.name}`}
          rowKey={(row) => row.letter}
          rows={cloth.pieces}
          columns={[
            { key: "piece", head: "Piece", cell: (row) => `${row.letter} ${row.piece}` },
            { key: "cut", head: "Cut", cell: (row) => row.count },
            {
              key: "along",
              head: "Along the selvedge",
              right: true,
              phone: "along",
              cell: (row) => <AskedFigure tools={tools} quantity={row.size[0]} label={`why ${inWords(row.size[0])} along?`} />,
            },
            { key: "across", head: "Across", right: true, phone: "across", cell: (row) => <Figure quantity={shown(row.size[1])} /> },
          ]}
        />
      </details>
    </div>
  );
}

/** What is said of the piece under the hand. */
function HeldSays({ mover }: { readonly mover: Mover }) {
  const held = mover.held.value;
  const isBad = held !== null && held.faults.length > 0;
  return (
    <div class="heldsays">
      <p role="status" aria-live="polite" class={isBad ? "refusedsays" : "pencil"}>
        {held && isBad && `${held.name} can’t lie there: ${held.faults.join("; ")}.`}
        {held && !isBad && held.length !== "" && `${held.name} lies well there. The lay is ${held.length} long.`}
      </p>
      {held && !held.isKept && (
        <Acts>
          {!isBad && <Word onClick={() => void mover.keep()}>Keep it there</Word>}
          <Word onClick={() => mover.back()}>Put it back</Word>
        </Acts>
      )}
      <Trouble problem={mover.problem.value} />
    </div>
  );
}

/** Length, usage and the least, of the lay shown. */
function Figures({ tools, cloth, lay, now }: {
  readonly tools: OrderTools;
  readonly cloth: LaidCloth;
  readonly lay: LayInForce;
  readonly now: Packing | null;
}) {
  const shownNow = now?.lay ?? lay;
  return (
    <dl class="buyline">
      <div>
        <dt>Cut end to cut end</dt>
        <dd class="laylength">
          <Figure quantity={shown(shownNow.length)} /> <Second quantity={shown(shownNow.length)} />
        </dd>
      </div>
      <div>
        <dt>Used</dt>
        <dd class="layusage">
          <Figure quantity={shown(shownNow.usage)} />
        </dd>
      </div>
      <div>
        <dt>No lay is shorter than</dt>
        <dd>
          <Figure quantity={shown(shownNow.bound)} />
        </dd>
      </div>
      {cloth.width && (
        <div>
          <dt>{cloth.on === null ? "Usable width" : "Laid on"}</dt>
          <dd>{cloth.on === null ? <AskedFigure tools={tools} quantity={cloth.width} label="why this width?" /> : cloth.on}</dd>
        </div>
      )}
    </dl>
  );
}

/** What to ask for in the shop. */
function BuyLine({ tools, cloth, lay }: { readonly tools: OrderTools; readonly cloth: LaidCloth; readonly lay: LayInForce }) {
  return (
    <div class="tobuy">
      {cloth.on === null && (
        <p>
          To buy: <b><Figure quantity={shown(lay.buy)} /></b> <Second quantity={shown(lay.buy)} />
          {lay.price !== "" && <>, {lay.price} in all</>}
        </p>
      )}
      {cloth.on === null && <p class="small">{lay.buy_says}</p>}
      <p class="small">
        On the shelf: {cloth.stock ? <Figure quantity={shown(cloth.stock)} /> : "not written"}.
        {cloth.at_least && (
          <>
            {" "}
            Pieces alone need <AskedFigure tools={tools} quantity={cloth.at_least} label={`why at least ${inWords(cloth.at_least)}?`} />.
          </>
        )}
      </p>
    </div>
  );
}

/** Where each piece is chalked: both ends of its grain arrow. */
function ChalkTable({ cloth, pieces }: { readonly cloth: LaidCloth; readonly pieces: readonly LaidPiece[] }) {
  return (
    <details class="more">
      <summary>Chalk marks</summary>
      <p class="small">Chalk both ends of the grain arrow, lay the paper on the two marks and draw round it. A piece face down is turned over.</p>
      <Table
        caption={`Chalk marks on ${cloth.name}, in the order of cutting`}
        rowKey={(row) => idOf(row)}
        rows={pieces}
        columns={[
          { key: "piece", head: "Piece", cell: (row) => `${row.letter} ${row.name}${row.note === "" ? "" : `, ${row.note}`}` },
          { key: "foot", head: "Foot from the cut end", right: true, phone: "foot down", cell: (row) => <Figure quantity={shown(row.chalk[0])} /> },
          { key: "foot in", head: "in", right: true, phone: "in", cell: (row) => <Figure quantity={shown(row.chalk[1])} /> },
          { key: "head", head: "Head from the cut end", right: true, phone: "head down", cell: (row) => <Figure quantity={shown(row.chalk[2])} /> },
          { key: "head in", head: "in", right: true, phone: "in", cell: (row) => <Figure quantity={shown(row.chalk[3])} /> },
        ]}
      />
    </details>
  );
}

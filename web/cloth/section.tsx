/**
 * Section 2, Cloth: one cloth per layer with its pull in both directions, which way it must lie, shell and lining as one,
 * the wet test, and the elastic of the edges.
 */
import { useEffect, useState } from "preact/hooks";
import type { LayerView, PullView, TogetherView } from "../api/types.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, useLoaded } from "../register/asking.js";
import type { Document } from "../register/asking.js";
import { Pick } from "../register/fields.js";
import { textAt } from "../register/lengths.js";
import type { Body } from "../register/lengths.js";
import { NewCloth } from "../register/new.js";
import { ElasticBlock } from "./elastic.js";
import { ClothField } from "./field.js";
import { Layer } from "./layer.js";
import { Pinked } from "./pinked.js";
import { Pull } from "./pull.js";
import { SwatchTest } from "./test.js";

/** The body of the section. */
export function ClothSection({ tools }: { readonly tools: OrderTools }) {
  const { cloth } = tools.order.value;
  const [testing, setTesting] = useState<string | null>(null);
  const leave = (): void => setTesting(null);
  // The one ticket goes to the first thing that is still open.
  const open = cloth.layers.find((layer) => (layer.swatch === null ? layer.is_needed : lacksPull(layer)))?.layer;
  const ticket = testing !== null ? null : (open ?? null);
  return (
    <div class="cloth">
      {cloth.layers.map((layer) => (
        <LayerBlock
          key={layer.layer}
          tools={tools}
          layer={layer}
          hasTicket={ticket === layer.layer}
          isTesting={testing === layer.layer}
          onTest={() => setTesting(layer.layer)}
          onLeave={leave}
        />
      ))}
      {cloth.together && (
        <Together
          tools={tools}
          together={cloth.together}
          isTesting={testing === "together"}
          onTest={() => setTesting("together")}
          onLeave={leave}
        />
      )}
      {cloth.verdict.length > 0 && <p class="lead verdict">{cloth.verdict.join(" ")}</p>}
      <MoreLayers tools={tools} />
      <ElasticBlock tools={tools} />
    </div>
  );
}

function lacksPull(layer: LayerView): boolean {
  return layer.swatch !== null && (layer.swatch.across.drawn === null || layer.swatch.along.drawn === null);
}

function LayerBlock({ tools, layer, hasTicket, isTesting, onTest, onLeave }: {
  readonly tools: OrderTools;
  readonly layer: LayerView;
  readonly hasTicket: boolean;
  readonly isTesting: boolean;
  readonly onTest: () => void;
  readonly onLeave: () => void;
}) {
  const [choosing, setChoosing] = useState(false);
  const { swatch } = layer;
  const id = fieldId(layer.path);
  useEffect(() => setChoosing(false), [swatch?.id]);
  if (!swatch || choosing) {
    return (
      <div id={id} class="layer">
        <h3>{layer.label}</h3>
        {!swatch && (
          <p class="reading">
            {layer.is_needed ? lacking(layer) : layer.does_without !== "" ? layer.does_without : "None; the design can do without."}
          </p>
        )}
        <ChooseCloth tools={tools} layer={layer} hasTicket={hasTicket} {...(choosing && { onLeave: () => setChoosing(false) })} />
      </div>
    );
  }
  return (
    <div id={id} class="layer">
      <div class="swatchhead">
        <Pinked look={swatch.look} says={swatch.look.photo === null ? `${swatch.name}, drawn` : `Photo of ${swatch.name}`} teeth={11} />
        <div>
          <h3>{swatch.name}</h3>
          <p class="small">{swatch.about}</p>
          <span class="whoacts">
            <Word onClick={() => setChoosing(true)}>
              Another<span class="heard"> cloth as {layer.label}</span>
            </Word>
            <Word href={`/cloths/${encodeURIComponent(swatch.id)}`}>
              Its own page<span class="heard">: {swatch.name}</span>
            </Word>
          </span>
        </div>
      </div>
      {isTesting ? (
        <SwatchTest
          tools={tools}
          name={swatch.name}
          load={swatch.id}
          directions={[
            { name: "across", hold: "the fold running from selvedge to selvedge.", pull: swatch.across },
            { name: "along", hold: "the fold running along the selvedge.", pull: swatch.along },
          ]}
          onDone={onLeave}
        />
      ) : (
        <>
          <div class="two pulls">
            <div id={fieldId(`${layer.layer}.across`)}>
              <Pull tools={tools} pull={swatch.across} look={swatch.look} name="Across" />
            </div>
            <div id={fieldId(`${layer.layer}.along`)}>
              <Pull tools={tools} pull={swatch.along} look={swatch.look} name="Along" />
            </div>
          </div>
          {swatch.lies !== "" && <p class="reading lies">{swatch.lies}</p>}
          <Acts>
            {hasTicket ? (
              <Ticket onClick={onTest}>Test the cloth</Ticket>
            ) : (
              <Word onClick={onTest}>
                {lacksPull(layer) ? "Test it" : "Test it again"}
                <span class="heard">: {swatch.name}</span>
              </Word>
            )}
          </Acts>
          <Layer tools={tools} swatch={swatch} layer={layer.layer} />
        </>
      )}
    </div>
  );
}

/** What to do about a layer that is asked for and not there. */
function lacking(layer: LayerView): string {
  if (layer.layer !== "lining") {
    return layer.choose.length > 0 ? "Choose the cloth you cut from, or add another." : "Write down the cloth you cut from.";
  }
  return layer.choose.length > 0
    ? "The design is lined: choose what it is lined with, or sew a toile without."
    : "The design is lined: add the cloth it is lined with, or sew a toile without.";
}

function ChooseCloth({ tools, layer, hasTicket, onLeave }: {
  readonly tools: OrderTools;
  readonly layer: LayerView;
  readonly hasTicket: boolean;
  readonly onLeave?: () => void;
}) {
  const [adding, setAdding] = useState(false);
  const suit = tools.order.value.suit.id;
  const choose = async (id: string | null): Promise<void> => {
    const name = layer.choose.find((one) => one.id === id)?.name;
    await tools.edit(
      [{ document: suit, path: layer.path, value: id }],
      id === null ? `no ${layer.layer}` : name === undefined ? "" : `${layer.layer}: ${name}`,
    );
    onLeave?.();
  };
  const unlined = async (): Promise<void> => {
    // Both: a lining cloth that stays chosen would still be waited for.
    await tools.edit(
      [
        { document: suit, path: "design.lining", value: "none" },
        { document: suit, path: layer.path, value: null },
      ],
      "lining none",
    );
    onLeave?.();
  };
  if (adding) return <NewCloth role={layer.layer} onLeave={() => setAdding(false)} onMade={choose} />;
  return (
    <>
      {layer.choose.length > 0 && (
        <Pick
          hideName
          name={`Cloth for the ${layer.label}`}
          options={layer.choose.map((one) => ({ value: one.id, says: one.name }))}
          value={layer.swatch?.id ?? null}
          onPick={(id) => void choose(id)}
        />
      )}
      <Trouble problem={tools.troubles.value.get(fieldId(layer.path)) ?? null} />
      <Acts>
        {hasTicket ? <Ticket onClick={() => setAdding(true)}>Add a cloth</Ticket> : <Word onClick={() => setAdding(true)}>Add a cloth</Word>}
        {layer.layer === "lining" && layer.is_needed && (
          <Word onClick={() => void unlined()}>No lining, for a toile</Word>
        )}
        {layer.swatch && !layer.is_needed && <Word onClick={() => void choose(null)}>None</Word>}
        {onLeave && <Word onClick={onLeave}>Leave it</Word>}
      </Acts>
    </>
  );
}

const OTHER_LAYERS = [
  { layer: "lining", says: "Add a lining" },
  { layer: "mesh", says: "Add a mesh" },
  { layer: "contrast", says: "Add a second outer cloth" },
] as const;

/** Layers the design does not ask for, which she may want all the same. */
function MoreLayers({ tools }: { readonly tools: OrderTools }) {
  const { cloth, suit } = tools.order.value;
  const [adding, setAdding] = useState<string | null>(null);
  const cloths = useLoaded<readonly Document<Body>[]>(adding === null ? null : `${API}/documents?kind=cloth`);
  const hasBlocks = tools.order.value.shape.besides.some((group) => group.key === "blocks");
  const absent = OTHER_LAYERS.filter(
    (one) => !cloth.layers.some((layer) => layer.layer === one.layer) && (one.layer !== "contrast" || hasBlocks),
  );
  if (absent.length === 0) return null;
  if (adding === null) {
    return (
      <Acts>
        {absent.map((one) => (
          <Word key={one.layer} onClick={() => setAdding(one.layer)}>
            {one.says}
          </Word>
        ))}
      </Acts>
    );
  }
  const layer: LayerView = {
    layer: adding,
    label: adding === "mesh" ? "Mesh" : adding === "contrast" ? "Second outer cloth" : "Lining",
    path: adding,
    choose: (cloths.value ?? [])
      .filter((one) => textAt(one.body, "role") === (adding === "contrast" ? "shell" : adding))
      .map((one) => ({ id: one.id, name: textAt(one.body, "name") })),
    swatch: null,
    is_needed: false,
    does_without: "",
  };
  return (
    <div id={fieldId(adding)} class="layer">
      <h3>{layer.label}</h3>
      <Trouble problem={cloths.problem} />
      <ChooseCloth key={suit.id} tools={tools} layer={layer} hasTicket={false} onLeave={() => setAdding(null)} />
    </div>
  );
}

const PAIR = { colour: "#77828A", weave: "ribs", photo: null } as const;

function Together({ tools, together, isTesting, onTest, onLeave }: {
  readonly tools: OrderTools;
  readonly together: TogetherView;
  readonly isTesting: boolean;
  readonly onTest: () => void;
  readonly onLeave: () => void;
}) {
  const { cloth } = tools.order.value;
  const look = cloth.layers.find((layer) => layer.layer === "shell")?.swatch?.look ?? PAIR;
  const pulls: readonly (readonly [string, PullView])[] = [
    ["Around", together.around],
    ["Lengthwise", together.lengthwise],
  ];
  return (
    <div id={fieldId("tested_together")} class="layer">
      <h3>Shell and lining as one</h3>
      <p class="reading">{together.says}</p>
      {isTesting ? (
        <SwatchTest
          tools={tools}
          name="shell and lining"
          load={null}
          directions={[
            { name: "around", hold: "both layers one on the other as they will be worn, the fold running round the body.", pull: together.around },
            { name: "lengthwise", hold: "both layers one on the other as they will be worn, the fold running up and down.", pull: together.lengthwise },
          ]}
          onDone={onLeave}
        />
      ) : (
        <>
          <div class="two pulls">
            {pulls.map(([name, pull]) => (
              <Pull key={name} tools={tools} pull={pull} look={look} name={name} />
            ))}
          </div>
          <Acts>
            <Word onClick={onTest}>Test them together</Word>
          </Acts>
          <details class="more">
            <summary>The readings</summary>
            <div class="two fieldlines">
              {pulls.map(([name, pull]) => (
                <div key={name}>
                  <p class="small">{name}</p>
                  {pull.fields.map((field) => (
                    <ClothField key={field.path} tools={tools} field={field} id={field.path} />
                  ))}
                </div>
              ))}
            </div>
          </details>
        </>
      )}
    </div>
  );
}

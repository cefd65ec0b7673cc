/** One edge of the elastic map with what is said of it: what to cut, how it is joined, worn, and whether its ring passes. */
import { useState } from "preact/hooks";
import type { EdgeView } from "../api/types.js";
import { unbroken } from "../lib/quantity.js";
import { AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { inWords, shown } from "../order/quantity.js";
import { Second } from "../parts/figure.js";
import { StateIcon } from "../parts/icon.js";
import { Word } from "../parts/touch.js";
import { ElasticMap } from "./elastic.js";

export function Edge({ tools, edge }: { readonly tools: OrderTools; readonly edge: EdgeView }) {
  const [marks, setMarks] = useState(false);
  return (
    <div class="edge" id={`edge-${edge.key}`}>
      <h4>
        <span>{edge.name}</span> {edge.state !== "good" && <StateIcon state={edge.state} />}
      </h4>
      <ElasticMap edge={edge} tools={tools} marks={marks} />
      <p class="cutsays">
        <span>
          {unbroken(edge.says)} {unbroken(edge.join)}
        </span>
        <span class="cutwhy">
          <AskedFigure tools={tools} quantity={edge.cut} label={`why cut the ${edge.name.toLowerCase()} so long?`} />{" "}
          <Second quantity={shown(edge.cut)} />
        </span>
      </p>
      <dl class="wornfacts">
        {edge.worn.map((fact) => (
          <div key={fact.name}>
            <dt>{fact.name}</dt>
            <dd>
              <AskedFigure tools={tools} quantity={fact.value} label={`why ${inWords(fact.value)}: ${edge.name.toLowerCase()}, ${fact.name.toLowerCase()}?`} />
              {fact.note !== "" && <small>{unbroken(fact.note)}</small>}
            </dd>
          </div>
        ))}
      </dl>
      {edge.relative !== "" && <p class="small">{edge.relative}</p>}
      {edge.ring && (
        <p class="heed">
          <StateIcon state={edge.ring.state} /> <span>{unbroken(edge.ring.says)}</span>
        </p>
      )}
      {edge.notes.map((note) => (
        <p key={note.says} class="heed">
          <StateIcon state={note.state} />{" "}
          <span>
            {unbroken(note.says)} {unbroken(note.next)}
          </span>
        </p>
      ))}
      <p class="small about">
        <span>{unbroken(edge.about.join(" "))}</span>{" "}
        {edge.arcs.length > 0 && (
          <Word expanded={marks} onClick={() => setMarks(!marks)}>
            {marks ? "Marks away" : "Marks in figures"}
            <span class="heard">: {edge.name}</span>
          </Word>
        )}
      </p>
    </div>
  );
}

/** Suits hung from a line by pegs: the silhouette of each suit's own drafted pieces, all to one scale, a child's smaller. */
import type { SuitCard } from "../api/types.js";
import { HungSuit } from "../parts/hung.js";
import { StateIcon } from "../parts/icon.js";
import { headed } from "../register/adapt.js";

/** The suits, in the order given; each leads to its work order. */
export function Hang({ suits }: { readonly suits: readonly SuitCard[] }) {
  const widest = Math.max(320, ...suits.map((suit) => suit.silhouette?.frame.width ?? 0));
  const longest = Math.max(500, ...suits.map((suit) => suit.silhouette?.frame.height ?? 0));
  return (
    <div class="hang">
      <ul>
        {suits.map((suit) => (
          <li key={suit.id}>
            <a href={`/suits/${encodeURIComponent(suit.id)}`}>
              <HungSuit silhouette={suit.silhouette} width={widest} height={longest} />
              <b>
                {suit.number} {suit.wearer === "" ? suit.name : suit.wearer}
              </b>
              <span class="about">{suit.about === "" ? suit.name : suit.about}</span>
              <StateIcon pencil state={suit.state} says={suit.says === "" ? headed(suit.state) : suit.says} />
            </a>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** A body that is not alike left and right: what was taken on the right, beside the left. Folded away for everybody else. */
import { useEffect, useState } from "preact/hooks";
import type { OrderTools } from "../order/context.js";
import { FieldLine } from "../order/field.js";
import { inWords } from "../order/quantity.js";
import { headed } from "../register/adapt.js";

export function Sides({ tools }: { readonly tools: OrderTools }) {
  const { sided } = tools.order.value.wearer;
  const [open, setOpen] = useState(false);
  const isWanted = tools.wanted.value?.startsWith("right.") ?? false;
  useEffect(() => {
    if (isWanted) setOpen(true);
  }, [isWanted]);
  if (sided.length === 0) return null;
  const differ = sided.filter((one) => one.right.typed !== null);
  const isOpen = open || isWanted;
  return (
    <details class="more group" open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span class="groupname">Left and right differ</span>
        <span class="small">{differ.length === 0 ? "taken as alike" : `${headed(differ.map((one) => one.name).join(", "))}.`}</span>
      </summary>
      {isOpen && (
        <div class="groupbody">
          <p class="reading">
            Write the right side where it is more than a finger’s width off the left. The line in the list is then her left. Pieces on the
            fold come out whole, pairs as a left and a right; what lies at the centre follows the left.
          </p>
          <div class="fieldlines sidelines">
            {sided.map((one) => (
              <FieldLine
                key={one.right.path}
                tools={tools}
                field={{
                  ...one.right,
                  says: one.left === null ? one.right.says : `Left ${inWords(one.left)}. ${one.right.says}`,
                }}
                nothing={one.left === null ? "as the left" : `as the left, ${inWords(one.left)}`}
              />
            ))}
          </div>
        </div>
      )}
    </details>
  );
}

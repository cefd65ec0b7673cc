/** A change of the draft before it is taken: what would be set, the numbers and levels before and after, and "Take it" or "Leave it". */
import type { ChangedView, ComparedLevelView, ProposedView } from "../api/types.js";
import type { OrderTools } from "../order/context.js";
import { inWords, shown } from "../order/quantity.js";
import { Figure } from "../parts/figure.js";
import { Table } from "../parts/table.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import type { Fitting } from "./fitting.js";

/** Taking it is an edit like any other: the draft is drawn anew and "Back one" takes it back. */
export function Compared({ tools, fitting, proposed }: {
  readonly tools: OrderTools;
  readonly fitting: Fitting;
  readonly proposed: ProposedView;
}) {
  const take = async (): Promise<void> => {
    if (await tools.edit(proposed.sets, proposed.words)) await fitting.leaveProposed();
  };
  return (
    <div class="compared" role="group" aria-label="Before and after">
      <p>{proposed.lead}</p>
      {proposed.changes.length > 0 && <Changes changes={proposed.changes} />}
      {proposed.numbers.length > 0 && (
        <Table
          caption="Numbers before and after"
          look="numbers"
          rowKey={(row) => row.name}
          rows={proposed.numbers}
          columns={[
            { key: "what", head: "", cell: (row) => row.name },
            { key: "before", head: "Now", right: true, phone: "now", cell: (row) => <Figure quantity={shown(row.before)} /> },
            { key: "after", head: "Then", right: true, phone: "then", cell: (row) => <Figure quantity={shown(row.after)} /> },
          ]}
        />
      )}
      {proposed.levels.length > 0 && <Pairs proposed={proposed} />}
      {proposed.notes.map((note) => (
        <p key={note} class="small">
          {note}
        </p>
      ))}
      <Acts>
        {proposed.why_not === null && proposed.is_current && <Ticket onClick={() => void take()}>Take it</Ticket>}
        <Word onClick={() => void fitting.leaveProposed()}>Leave it</Word>
        {proposed.why_not === null && <span class="small">Nothing is kept until you take it.</span>}
      </Acts>
    </div>
  );
}

/** Parameters that would be set. */
export function Changes({ changes }: { readonly changes: readonly ChangedView[] }) {
  return (
    <ul class="changes">
      {changes.map((change) => (
        <li key={change.name}>
          {change.name}: {change.from} to <b>{change.to}</b>
        </li>
      ))}
    </ul>
  );
}

/** Every level as a bar with its two marks: outlined below it as it is, filled above it as it would be; a tick where the draft means it. */
function Pairs({ proposed }: { readonly proposed: ProposedView }) {
  const share = (of: number): string => `${(100 * of).toFixed(2)}%`;
  const hasMeant = proposed.levels.some((level) => level.meant !== null);
  const bar = (level: ComparedLevelView) => (
    <span class="pairbar" aria-hidden="true">
      {proposed.rails.map((rail) => (
        <i key={rail.words} class="rail" style={{ left: share(rail.share) }} />
      ))}
      <i class="thin" />
      <i class="spread" style={{ left: share(Math.min(...level.at)), width: share(Math.abs(level.at[1] - level.at[0])) }} />
      {level.meant && <i class="meant" style={{ left: share(level.meant[1]) }} />}
      <svg class="knot then" viewBox="-9 -14 18 28" style={{ left: share(level.at[0]) }}>
        <path d="M-8 13.5 8 13.5 0 1Z" />
      </svg>
      <svg class="knot shell" viewBox="-9 -14 18 28" style={{ left: share(level.at[1]) }}>
        <path d="M-8 -13.5 8 -13.5 0 -1Z" />
      </svg>
    </span>
  );
  return (
    <>
      <p class="small">
        Worn around: outlined below as it is now, filled above as it would be{hasMeant ? "; the tick is what the draft means" : ""}. The oat rails as on the ladder
        above.
      </p>
      <Table
        caption="Levels before and after"
        look="pairs"
        rowKey={(row) => row.level}
        rows={proposed.levels}
        columns={[
          { key: "level", head: "Level", cell: (row) => row.name },
          { key: "picture", head: "", cell: bar },
          ...(hasMeant
            ? [{ key: "meant", head: "Meant", right: true, phone: "meant", cell: (row: ComparedLevelView) => row.meant && <Figure quantity={shown(row.meant[0])} /> }]
            : []),
          { key: "now", head: "Now", right: true, phone: "now", cell: (row) => <Figure quantity={shown(row.around[0])} /> },
          { key: "then", head: "Then", right: true, phone: "then", cell: (row) => <Figure quantity={shown(row.around[1])} /> },
          {
            key: "lengthwise",
            head: "Lengthwise",
            right: true,
            phone: "lengthwise",
            cell: (row) => `${inWords(row.lengthwise[0])} to ${inWords(row.lengthwise[1])}`,
          },
        ]}
      />
    </>
  );
}

/** The cloth of a class: all kits of each cloth laid together while she watches, what that takes, and the lay plans to take away. */
import { useEffect } from "preact/hooks";
import type { ClassClothView, ClassLayView } from "../api/types.js";
import { Table } from "../parts/table.js";
import type { Column } from "../parts/table.js";
import { Acts, Word } from "../parts/touch.js";
import { API } from "../register/asking.js";
import { JobLine, useJob } from "../register/jobs.js";

/** `onLaid` when lays were made that the plan does not know of yet. */
export function ClassCloth({ id, cloth, onLaid }: { readonly id: string; readonly cloth: ClassClothView; readonly onLaid: () => Promise<void> }) {
  const laying = useJob(`${API}/classes/${encodeURIComponent(id)}/lay`);
  const state = laying.job?.state;
  useEffect(() => {
    if (state === "done") void onLaid();
  }, [state, onLaid]);
  return (
    <div class="classcloth">
      <h4>Cloth</h4>
      <p class="small">{cloth.says}</p>
      {cloth.lays.length > 0 && <Table caption="All kits of each cloth laid together" columns={columns} rows={cloth.lays} rowKey={(one) => one.cloth} />}
      {cloth.not_laid.length > 0 && (
        <ul class="sentences" aria-label="Cloth that cannot be laid">
          {cloth.not_laid.map((why) => (
            <li key={why}>{why}</li>
          ))}
        </ul>
      )}
      <Acts>
        <Word off={laying.isRunning} onClick={laying.start}>
          {cloth.is_laid ? "Make the lay plans" : "Lay all kits together"}
        </Word>
      </Acts>
      <JobLine working={laying} file="Take the lay plans" />
    </div>
  );
}

const columns: readonly Column<ClassLayView>[] = [
  {
    key: "cloth",
    head: "Cloth",
    cell: (one) => (
      <>
        {one.cloth}
        <small class="below">{one.holds}</small>
      </>
    ),
  },
  { key: "lay", head: "Lay", right: true, phone: "lay", cell: (one) => one.lay },
  { key: "used", head: "Used", right: true, phone: "used", cell: (one) => one.used },
  { key: "least", head: "No lay is shorter than", right: true, phone: "at least", cell: (one) => one.least },
  { key: "buy", head: "Buy", right: true, phone: "buy", cell: (one) => one.buy },
];

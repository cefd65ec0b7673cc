/** The change sheet alone, for one page of paper. */
import { useEffect } from "preact/hooks";
import type { SheetView } from "../api/types.js";
import { Head } from "../frame/head.js";
import { Sheet } from "../frame/sheet.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { useLoaded } from "../register/asking.js";
import { Waiting } from "../register/shell.js";
import { Waits } from "./copy.js";
import { ChangeSheet } from "./sheet.js";
import { at } from "./tools.js";

const noMarks: readonly [] = [];

/** `/drawer/:id/sheet`. */
export function PrintPage({ id }: { readonly id: string }) {
  const loaded = useLoaded<SheetView>(`${at(id)}/sheet`, { follow: true });
  const found = loaded.value;
  useEffect(() => {
    document.body.classList.add("onepage");
    return () => document.body.classList.remove("onepage");
  }, []);
  if (!found) return <Waiting title="Change sheet" loaded={loaded} />;
  const { sheet } = found;
  return (
    <Sheet title="Change sheet" marks={noMarks}>
      <Head
        title="Change sheet"
        {...(sheet && {
          facts: [
            { name: "Pattern", says: sheet.pattern },
            { name: "For", says: sheet.wearer },
            { name: "Cloth", says: sheet.cloth },
          ],
        })}
      />
      <div class="changesheet">
        <Acts>
          {sheet && <Ticket onClick={() => globalThis.print()}>Print it</Ticket>}
          <Word href={`/drawer/${encodeURIComponent(id)}`}>Back to the pattern</Word>
        </Acts>
        {!sheet && <p class="lead">There is nothing to print yet.</p>}
        {sheet ? <ChangeSheet sheet={sheet} canAsk={false} /> : <Waits of={found.head.notes.map((note) => `${note.says} ${note.next}`.trim())} />}
        {sheet && <p class="small">Net measures, without allowance. A quarter is half of a front or back. Sew a toile first.</p>}
      </div>
    </Sheet>
  );
}

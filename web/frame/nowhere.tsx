/** An address that shows nothing: says so, and leads back. */
import { Acts, Ticket } from "../parts/touch.js";
import { Head } from "./head.js";
import { Sheet } from "./sheet.js";

const noMarks: readonly [] = [];

/** For addresses no route fits, and for things that are gone. */
export function Nowhere({ says = "There is no page at this address." }: { readonly says?: string }) {
  return (
    <Sheet title="Nothing here" marks={noMarks}>
      <Head title="Nothing here" lead={says} />
      <Acts>
        <Ticket href="/">Go to the first page</Ticket>
      </Acts>
    </Sheet>
  );
}

/**
 * The booklet of a suit to read, to print and to take away: for its maker or for a class, in a language, on a paper.
 *
 * It stands here as the page it is, with its own style and no scripts; this page only makes room for its whole height.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import { Head } from "../frame/head.js";
import { Sheet } from "../frame/sheet.js";
import { light } from "../lib/store.js";
import { Choice } from "../parts/choice.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { API, useLoaded } from "../register/asking.js";
import { Waiting } from "../register/shell.js";

const noMarks: readonly [] = [];

/** `GET /api/v1/suits/{id}/booklet`. */
interface Offered {
  readonly name: string;
  readonly waits: string;
  readonly can_set_pdf: boolean;
  readonly paper: string;
  readonly languages: readonly (readonly [string, string])[];
  readonly machines: string;
  readonly is_assumed: boolean;
}

type Edition = "maker" | "class";
type Paper = "a4" | "letter";

const editions = [
  { value: "maker", says: "Yours, filled in" },
  { value: "class", says: "For a class, with lines" },
] as const;
const papers = [
  { value: "a4", says: "A4" },
  { value: "letter", says: "Letter" },
] as const;

/** `/suits/:suit/booklet`. */
export function BookletPage({ suit }: { readonly suit: string }) {
  const loaded = useLoaded<Offered>(`${API}/suits/${encodeURIComponent(suit)}/booklet`, { follow: true });
  if (!loaded.value) return <Waiting title="Booklet" loaded={loaded} />;
  return <BookletSheet suit={suit} offered={loaded.value} />;
}

function BookletSheet({ suit, offered }: { readonly suit: string; readonly offered: Offered }) {
  const [edition, setEdition] = useState<Edition>("maker");
  const [language, setLanguage] = useState(offered.languages[0]?.[0] ?? "en");
  const [paper, setPaper] = useState<Paper>(offered.paper === "Letter" ? "letter" : "a4");
  const query = `?edition=${edition}&language=${encodeURIComponent(language)}`;
  const at = (file: string): string => `${API}/suits/${encodeURIComponent(suit)}/booklet/${file}${query}`;
  const order = `/suits/${encodeURIComponent(suit)}#paper`;
  const name = offered.name === "" ? "this suit" : offered.name;
  return (
    <Sheet title={`Booklet: ${name}`} marks={noMarks}>
      <Head title="Booklet" lead={`How to cut, prove, sew, try on and care for ${name}.`} />
      <div class="booklet">
        {offered.waits !== "" ? (
          <>
            <p class="reading">{offered.waits}</p>
            <Acts>
              <Ticket href={`/suits/${encodeURIComponent(suit)}`}>To the order</Ticket>
            </Acts>
          </>
        ) : (
          <>
            <Choice name="Edition" options={editions} value={edition} onChange={setEdition} />
            <Choice
              name="Language"
              options={offered.languages.map(([value, says]) => ({ value, says }))}
              value={language}
              onChange={setLanguage}
            />
            {offered.can_set_pdf && <Choice name="Paper" options={papers} value={paper} onChange={setPaper} />}
            <p class="small">
              Stitches are chosen for: {offered.machines}.
              {offered.is_assumed && " No machine is written down in the workroom: this one is assumed."}
            </p>
            {!offered.can_set_pdf && (
              <p class="reading">
                This program was built without its typesetter, so there is no PDF. Print the page below, or build it without
                --no-default-features.
              </p>
            )}
            <Acts>
              {offered.can_set_pdf ? (
                <Ticket
                  href={at(`${paper}.pdf`)}
                  onClick={beside(at(`${paper}.pdf`))}
                >
                  Open the PDF to print
                </Ticket>
              ) : (
                <Ticket href={at("index.html")} onClick={beside(at("index.html"))}>
                  Open the pages alone
                </Ticket>
              )}
              {offered.can_set_pdf && (
                <Word href={at("index.html")} onClick={beside(at("index.html"))}>
                  Open the pages alone
                </Word>
              )}
              <Word href={order}>Back to the order</Word>
            </Acts>
            <Pages key={query} href={at("index.html")} title={`Booklet of ${name}`} />
          </>
        )}
      </div>
    </Sheet>
  );
}

/** Opens beside the page, which stays as it is. */
function beside(href: string): (event: MouseEvent) => void {
  return (event) => {
    event.preventDefault();
    window.open(href, "_blank", "noopener");
  };
}

/** The pages as they are, as high as they are. */
function Pages({ href, title }: { readonly href: string; readonly title: string }) {
  const frame = useRef<HTMLIFrameElement>(null);
  const night = light.value;
  const fit = (): void => {
    const inside = frame.current?.contentDocument?.documentElement;
    if (!frame.current || !inside) return;
    if (night === "system") delete inside.dataset["light"];
    else inside.dataset["light"] = night;
    frame.current.style.height = "0";
    frame.current.style.height = `${inside.scrollHeight + 2}px`;
  };
  useEffect(() => {
    addEventListener("resize", fit);
    return () => removeEventListener("resize", fit);
  });
  useEffect(fit, [night]);
  return <iframe ref={frame} class="bookletpages" src={href} title={title} sandbox="allow-same-origin" onLoad={fit} />;
}

/**
 * Every component of the frame with sample content, for the eye, for axe, and for the checks in `run.mjs`. The content is
 * the invented one-piece of the examples. Served by `cargo run -p slackwater-pages --example serve`, never shipped.
 */
import { render } from "preact";
import { useState } from "preact/hooks";
import { Head } from "../frame/head.js";
import { Note } from "../frame/margin.js";
import type { SectionMark } from "../frame/marks.js";
import { Section } from "../frame/section.js";
import { Sheet } from "../frame/sheet.js";
import { Failed } from "../lib/api.js";
import { startKeys } from "../lib/keys.js";
import type { Quantity, Reason } from "../lib/quantity.js";
import { startRouter } from "../lib/router.js";
import { kept, startStore } from "../lib/store.js";
import { Choice } from "../parts/choice.js";
import { Find } from "../parts/find.js";
import { StateIcon } from "../parts/icon.js";
import { LengthField } from "../parts/length.js";
import { Line, Lines } from "../parts/line.js";
import { Progress } from "../parts/progress.js";
import { Ask } from "../parts/slip.js";
import { Steps } from "../parts/steps.js";
import type { StepLine } from "../parts/steps.js";
import { Swatch } from "../parts/swatch.js";
import { Table } from "../parts/table.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { BackOne } from "../parts/undo.js";

function cm(main: string, second: string, spoken: string): Quantity {
  return { main, unit: "cm", second, spoken };
}

const marks: readonly SectionMark[] = [
  { id: "wearer", n: 1, name: "Wearer", state: "doubtful" },
  { id: "cloth", n: 2, name: "Cloth", state: "good" },
  { id: "shape", n: 3, name: "Shape", state: "good" },
  { id: "wear", n: 4, name: "Wear", state: "doubtful" },
  { id: "lay", n: 5, name: "Lay", state: "good" },
  { id: "sew", n: 6, name: "Sew", state: "stop" },
  { id: "paper", n: 7, name: "Paper", state: "missing" },
  { id: "try-on", n: 8, name: "Try-on", state: "missing" },
];

const whyHip: Reason = {
  question: "Why 15 % at the hip?",
  says: "The suit is cut smaller than Maren, so it stretches when worn.",
  sum: "99.0 ÷ 85.9 − 1 = 15.3 %",
  inputs: [
    { name: "Hip, 14 November", value: "99.0 cm" },
    { name: "Cut width there", value: "85.9 cm" },
    { name: "Cloth, both layers", value: "85 %" },
  ],
  source: "Rule: share × cloth stretch, at most 45 % of it. Our own reasoning, tuned by trying on.",
};

const stitches = [
  { where: "Side and crotch seams", stitch: "overlock, 4 threads", set: "6 × 2.5", needs: "35 %", gives: "92 %, sewn", state: "good" },
  { where: "Elastic to edge", stitch: "three-step zigzag", set: "5 × 1.3", needs: "45 %", gives: "78 %", state: "good" },
  { where: "Topstitch, leg", stitch: "straight stitch", set: "0 × 2.5", needs: "45 %", gives: "27 %", state: "stop" },
] as const;

function Gallery() {
  const [style, setStyle] = useState<"one" | "two" | "skirted" | "trunks" | "rash">("one");
  const [text, setText] = useState("70.2");
  const [unit, setUnit] = useState<"cm" | "in" | "mm">("cm");
  const [find, setFind] = useState("");
  const [waist, setWaist] = useState("73.0");
  const [steps, setSteps] = useState<readonly StepLine[]>([
    { n: 7, says: "Side seams, shell", machine: "overlocker", done: true },
    { n: 8, says: "Side seams, lining; baste lining to shell", machine: "overlocker", done: true },
    { n: 9, says: "Leg elastic, left and right", machine: "zigzag", done: false },
    { n: 10, says: "Turn and topstitch legs", machine: "zigzag", done: false },
  ]);
  const keep = async (typed: string): Promise<void> => {
    if (!/^\d+(\.\d+)?$/.test(typed)) {
      throw new Failed("refused", 422, [{ what: `“${typed}” is not a length.`, next: "Write 73.0 or 28 3/4." }]);
    }
    setWaist(typed);
    kept.value = "kept 14:02";
  };
  return (
    <Sheet title="Maren’s one-piece" marks={marks}>
      <Head
        title="Maren’s one-piece"
        beside={<Find label="Find a suit, wearer or cloth" text={find} onText={setFind} />}
        facts={[
          { name: "Work order", says: "No. 14, version 2" },
          { name: "For", says: "Maren" },
          { name: "To wear from", says: "5 December" },
          { name: "Units", says: "cm, with inches" },
        ]}
      />
      <Section
        id="wearer"
        n={1}
        name="Wearer"
        state="doubtful"
        summary="Maren. 21 taken, one estimated, one in doubt."
        notes={
          <>
            <Note
              state="doubtful"
              says="Waist: 2.8 cm between readings. A tape rarely differs by more than 1.5."
              next="Take it a third time; the nearer two are kept."
              action={{ says: "Why 1.5?", href: "#wearer" }}
            />
            <Note state="estimate" by="ten-more" says="Neck base follows from height and bust." next="Take it before a high neckline." />
          </>
        }
      >
        <div class="two">
          <div>
            <p class="small">Now</p>
            <h3>Waist</h3>
            <p class="reading">
              Tie a string round the waist and bend to one side: it settles at the crease. Tape on the string, level, breath let
              out.
            </p>
            <LengthField label="Second" text={text} unit={unit} units={["cm", "in"]} onText={setText} onUnit={setUnit} />
            <Acts>
              <Ticket onClick={() => setText("")}>Take it again</Ticket>
              <Word onClick={() => setText("73.0")}>Keep 73.0</Word>
            </Acts>
          </div>
          <div>
            <Lines name="Dimensions">
              <Line name="Bust" quantity={cm("90.0", "35⅜ in", "90 centimetres, 35 and three eighths inches")} />
              <Line
                name="Waist"
                hint="2nd 70.2"
                state="doubtful"
                quantity={cm(waist, "28¾ in", "73 centimetres, 28 and three quarter inches")}
                onEdit={{ unit: "cm", units: ["cm", "in"], hint: "Usually 60 to 110.", onKeep: keep }}
              />
              <Line
                name="Hip"
                quantity={cm("99.0", "39 in", "99 centimetres, 39 inches")}
                onEdit={{ unit: "cm", onKeep: keep }}
              />
              <Line name="Trunk loop" quantity={cm("164.0", "64⅝ in", "164 centimetres, 64 and five eighths inches")} why={whyHip} />
              <Line name="Neck base" state="estimate" quantity={cm("36.6", "14⅜ in", "36 point 6 centimetres, 14 and three eighths inches")} />
              <Line name="Rise" state="missing" onEdit={{ unit: "cm", onKeep: keep }} />
              <Line name="Seat cover" says="full" />
            </Lines>
            <Word id="ten-more" href="/elsewhere">
              Ten more, all good
            </Word>
          </div>
        </div>
      </Section>
      <Section
        id="cloth"
        n={2}
        name="Cloth"
        state="good"
        open
        summary="Shell and lining, tested together."
        notes={<Note state="good" says="Across, 8.5 cm of pull leaves 0.3: 96 % back. It will not bag at the seat." />}
      >
        <div class="two" id="swatches">
          <Swatch
            cloth={{ colour: "var(--cloth-slate)", weave: "rib" }}
            stretch={{ across: 0.95, along: 0.7 }}
            says="Slate tricot, stretch 95 % across, 70 % along"
          />
          <Swatch cloth={{ colour: "var(--cloth-kelp)", weave: "print" }} stretch={{ across: 0.82, along: 0.64 }} says="Kelp print" />
          <Swatch cloth={{ colour: "var(--cloth-oat)", weave: "course" }} says="Oat lining" teeth={11} />
          <Swatch cloth={{ colour: "var(--cloth-mesh)", weave: "mesh" }} stretch={{ across: 0.6, along: 0.55 }} says="Power mesh" />
        </div>
        <p class="lead">Lay it with the width round the body. The greater stretch runs from selvedge to selvedge.</p>
      </Section>
      <Section id="shape" n={3} name="Shape" state="good" summary="One-piece, low back, full seat." notes={<Note state="how" says="Drag the ring." />}>
        <Choice
          name="Style"
          options={[
            { value: "one", says: "One-piece" },
            { value: "two", says: "Two-piece" },
            { value: "skirted", says: "Skirted" },
            { value: "trunks", says: "Trunks" },
            { value: "rash", says: "Rash top" },
          ]}
          value={style}
          onChange={setStyle}
        />
        <BackOne back="strap 4.2 to 3.8" forward={null} onBack={() => setStyle("one")} onForward={() => setStyle("two")} />
      </Section>
      <Section
        id="wear"
        n={4}
        name="Wear"
        state="doubtful"
        summary="Seven levels hold. One edge in doubt."
        notes={
          <Note
            state="doubtful"
            says="Low back, 9 cm above the waist: the edge may stand away between the shoulder blades."
            next="Elastic there is cut 0.90 of the edge. Try 0.85."
            action={{ says: "Show it on the form", onClick: () => undefined }}
          />
        }
      >
        <p class="lead">Every knot between the two rails: the suit holds, and keeps stretch for reaching.</p>
        <p>
          At the hip the suit is stretched by{" "}
          <Ask label="why 15 % at the hip?" why={whyHip}>
            15 %
          </Ask>{" "}
          when worn.
        </p>
        <Acts>
          <Ticket>Try 0.85 at the back neck</Ticket>
          <span class="small">Draws it in pencil first. Nothing is kept until you say so.</span>
        </Acts>
        <Progress says="Fit: step 6 of about 9, 40 %" share={0.4} onStop={() => undefined} />
      </Section>
      <Section id="lay" n={5} name="Lay" state="good" summary="86 cm of Slate tricot, 86 cm of Oat lining.">
        <p>One layer, right side up.</p>
      </Section>
      <Section
        id="sew"
        n={6}
        name="Sew"
        state="stop"
        summary="Step 9 of 17. Leg elastic."
        notes={
          <>
            <Note
              state="stop"
              says="Topstitch, leg: a straight stitch cracks here. It gives 27 %, the edge asks 45."
              next="Use the three-step zigzag."
              action={{ says: "Change it", onClick: () => undefined }}
            />
            <Note state="missing" says="8 mm elastic: 2.1 m needed, 1.4 on the shelf." next="Buy 0.7 m." action={{ says: "Add to the list", onClick: () => undefined }} />
          </>
        }
      >
        <h3>Stitches, for the machines you have</h3>
        <Table
          caption="Stitches by place"
          rowKey={(row) => row.where}
          rows={stitches}
          columns={[
            { key: "where", head: "Where", cell: (row) => row.where },
            { key: "stitch", head: "Stitch", cell: (row) => row.stitch },
            { key: "set", head: "Width, length", wideOnly: true, cell: (row) => row.set },
            { key: "needs", head: "Needs", right: true, phone: "needs", cell: (row) => row.needs },
            { key: "gives", head: "Gives", right: true, phone: "gives", cell: (row) => row.gives },
            { key: "state", head: "", right: true, cell: (row) => <StateIcon state={row.state} /> },
          ]}
        />
        <h3>Order of work</h3>
        <Steps
          name="Order of work"
          steps={steps}
          now={9}
          onTick={(n, done) => setSteps(steps.map((step) => (step.n === n ? { ...step, done } : step)))}
        />
        <Acts>
          <Ticket>Take it to the bench</Ticket>
          <Word href="/elsewhere">All 17 steps</Word>
        </Acts>
      </Section>
      <Section
        id="paper"
        n={7}
        name="Paper"
        state="missing"
        summary="17 pages of A4, one test page."
        notes={<Note state="missing" says="Test square not measured on this printer yet." next="Write down both sides, in mm." />}
      >
        <Acts>
          <Ticket off describedBy="why-off">
            Print the test page
          </Ticket>
          <span id="why-off" class="small">
            No paper chosen yet.
          </span>
        </Acts>
      </Section>
      <Section id="try-on" n={8} name="Try-on" state="missing" summary="Version 1 was basted and worn on 19 November.">
        <Ticket big>Sewn</Ticket>
        <p>
          <StateIcon state="doubtful" pencil says="doubtful: waist" />
        </p>
      </Section>
    </Sheet>
  );
}

startStore();
startKeys();
startRouter();
const root = document.getElementById("page");
if (root) render(<Gallery />, root);

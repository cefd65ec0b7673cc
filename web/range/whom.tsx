/** Whom the sizes fit: a size for one wearer, level by level, and the fewest sizes for several. */
import { useState } from "preact/hooks";
import type { CoverView, LevelChoiceView, RangeView, RangesView, SizeChoiceView } from "../api/types.js";
import { post } from "../lib/api.js";
import type { Mark } from "../lib/state.js";
import { shown } from "../order/quantity.js";
import { Choice } from "../parts/choice.js";
import { Figure } from "../parts/figure.js";
import { Icon } from "../parts/icon.js";
import { LengthField } from "../parts/length.js";
import { Table } from "../parts/table.js";
import type { Column } from "../parts/table.js";
import { Acts, Ticket } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, useTrying } from "../register/asking.js";
import { Pick, Tick } from "../register/fields.js";

const ICON: Readonly<Record<string, Mark>> = { take: "good", look: "doubtful", own: "stop" };

/** Wearers whose bodies the range is made for, and how many others there are. */
function fitting(offered: RangesView, range: RangeView) {
  const wearers = offered.wearers.filter((one) => one.form === range.form);
  return { wearers, others: offered.wearers.length - wearers.length };
}

function Others({ count }: { readonly count: number }) {
  if (count === 0) return null;
  return <p class="small">{count === 1 ? "One wearer is" : `${count} wearers are`} of another form of body than these sizes.</p>;
}

/** Choosing a size for one wearer. */
export function ForOne({ offered, range }: { readonly offered: RangesView; readonly range: RangeView }) {
  const [wearer, setWearer] = useState<string | null>(null);
  const [choice, setChoice] = useState<SizeChoiceView | null>(null);
  const { wearers, others } = fitting(offered, range);
  const trying = useTrying();
  const pick = (id: string): void => {
    setWearer(id);
    setChoice(null);
    void trying.run(async () => setChoice(await post<SizeChoiceView>(`${API}/ranges/${range.id}/size`, { wearer: id })));
  };
  const columns: readonly Column<LevelChoiceView>[] = [
    { key: "level", head: "Level", cell: (level) => level.name },
    { key: "hers", head: "Hers", right: true, phone: "hers", cell: (level) => <Figure quantity={shown(level.hers)} /> },
    { key: "nearest", head: "Nearest size", right: true, phone: "nearest", cell: (level) => level.size },
    { key: "off", head: "Off there", right: true, phone: "off by", cell: (level) => <Figure quantity={shown(level.off)} /> },
    {
      key: "taken",
      head: `Off in ${choice?.size ?? ""}`,
      right: true,
      phone: `in ${choice?.size ?? ""}`,
      cell: (level) => (level.off_taken ? <Figure quantity={shown(level.off_taken)} /> : "not judged"),
    },
  ];
  return (
    <>
      {wearers.length === 0 ? (
        <p class="lead">Nobody of this form has been measured yet.</p>
      ) : (
        <Pick name="Wearer" options={wearers.map((one) => ({ value: one.id, says: one.name }))} value={wearer} onPick={pick} />
      )}
      <Others count={others} />
      <Trouble problem={trying.problem} />
      <div role="status" aria-live="polite">
        {choice && (
          <p class="lead advice">
            <Icon name={ICON[choice.advice] ?? "doubtful"} />
            <span>{choice.says}</span>
          </p>
        )}
      </div>
      {choice && (
        <>
          {choice.reasons.length > 0 && (
            <ul class="sentences">
              {choice.reasons.map((says) => (
                <li key={says}>{says}</li>
              ))}
            </ul>
          )}
          <Table caption={`Sizes at each level of ${choice.wearer}`} columns={columns} rows={choice.levels} rowKey={(level) => level.name} />
          {choice.not_judged.length > 0 && (
            <p class="small">Not judged, not taken or not on this style: {choice.not_judged.join(", ")}.</p>
          )}
        </>
      )}
    </>
  );
}

type From = "table" | "people";

/** The fewest sizes for several. */
export function ForSeveral({ offered, range }: { readonly offered: RangesView; readonly range: RangeView }) {
  const [people, setPeople] = useState<readonly string[]>([]);
  const unit = offered.unit === "in" ? "in" : "cm";
  const [girth, setGirth] = useState(unit === "in" ? "1 1/2" : "4");
  const [length, setLength] = useState(unit === "in" ? "2" : "5");
  const [from, setFrom] = useState<From>("table");
  const [cover, setCover] = useState<CoverView | null>(null);
  const { wearers, others } = fitting(offered, range);
  const trying = useTrying();
  const find = (): void => {
    setCover(null);
    void trying.run(async () =>
      setCover(await post<CoverView>(`${API}/ranges/${range.id}/cover`, { wearers: people, girth, length, from })),
    );
  };
  const lacks = people.length === 0;
  return (
    <>
      <fieldset class="sizeticks">
        <legend class="small label">Who is to be covered</legend>
        <ul class="ticks">
          {wearers.map((one) => (
            <li key={one.id}>
              <Tick
                done={people.includes(one.id)}
                says={one.name}
                onTick={(done) => setPeople(done ? [...people, one.id] : people.filter((other) => other !== one.id))}
              />
            </li>
          ))}
        </ul>
      </fieldset>
      <Others count={others} />
      <div class="tolerances">
        <LengthField label="A girth may be off by" text={girth} unit={unit} onText={setGirth} onKeep={find} />
        <LengthField label="Trunk and stature by" text={length} unit={unit} onText={setLength} onKeep={find} />
      </div>
      <Choice
        name="Sizes to choose from"
        options={[
          { value: "table", says: "those of this range" },
          { value: "people", says: "new ones, after these people" },
        ]}
        value={from}
        onChange={setFrom}
      />
      <Acts>
        <Ticket off={lacks || trying.busy} describedBy="cover-lacks" onClick={find}>
          Find the fewest sizes
        </Ticket>
        <span id="cover-lacks" class="small">
          {lacks ? "Tick who is to be covered first." : ""}
        </span>
      </Acts>
      <Trouble problem={trying.problem} />
      <div role="status" aria-live="polite">
        {cover && <p class="lead">{cover.says}</p>}
      </div>
      {cover && (
        <>
          <ul class="sentences">
            {cover.sizes.map((size) => (
              <li key={size.size}>
                <b>{size.size}</b>: {size.people.join(", ")}
              </li>
            ))}
          </ul>
          {cover.left_out.length > 0 && (
            <>
              <h3 class="apart">Left out</h3>
              <ul class="sentences">
                {cover.left_out.map((one) => (
                  <li key={one.name}>
                    <b>{one.name}</b>: {one.says}
                  </li>
                ))}
              </ul>
            </>
          )}
        </>
      )}
    </>
  );
}

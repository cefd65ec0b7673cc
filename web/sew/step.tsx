/** One step of the order of work, opened: its drawing, how it is done, what to set, what to mind. */
import type { StepView } from "../api/types.js";
import { unbroken } from "../lib/quantity.js";
import { AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { Icon, StateIcon } from "../parts/icon.js";
import { Word } from "../parts/touch.js";
import { Hands } from "./hands.js";

/** Pieces drawn side by side. */
const MOST = 4;

/** `n` is the step's number in the order of work. */
export function StepDetail({ tools, step, n }: {
  readonly tools: OrderTools;
  readonly step: StepView;
  readonly n: number;
}) {
  const { suit, shape } = tools.order.value;
  const about = [step.side, step.seam_class === "" ? "" : `${step.seam_class}.`, `${step.minutes}.`].filter((one) => one !== "");
  return (
    <div class="stepdetail" role="group" aria-label={`Step ${n}: ${step.title}`}>
      {step.hands.length > 0 ? <Hands step={step} pieces={shape.pieces} most={MOST} /> : <p class="small bare">{step.drawing}</p>}
      <div>
        <p class="reading">{unbroken(step.says)}</p>
        {step.notes.length > 0 && (
          <ul class="mind">
            {step.notes.map((note) => (
              <li key={note}>{unbroken(note)}</li>
            ))}
          </ul>
        )}
        {step.stop.length > 0 && (
          <div class="heed">
            <StateIcon state="stop" />
            <p>{step.stop.join(" ")}</p>
          </div>
        )}
        {step.cautions.map((caution) => (
          <div key={caution} class="heed">
            <Icon name="doubtful" />
            <p>{caution}</p>
          </div>
        ))}
      </div>
      {step.settings.length > 0 && (
        <dl class="stepset">
          {step.settings.map((setting, i) => (
            <div key={`${setting.name} ${i}`} class={setting.value.unit === "" && setting.value.main.length > 12 ? "long" : ""}>
              <dt>{setting.name}</dt>
              <dd>
                <AskedFigure tools={tools} quantity={setting.value} label={`why ${setting.name.toLowerCase()}?`} />
                {setting.value.second !== "" && <small class="second"> {setting.value.second}</small>}
                {setting.note !== "" && <small class="more">{unbroken(setting.note)}</small>}
              </dd>
            </div>
          ))}
        </dl>
      )}
      <p class="small about">
        <span>{about.map(unbroken).join(" ")}</span>{" "}
        <Word href={`/suits/${encodeURIComponent(suit.id)}/bench#${encodeURIComponent(step.id)}`}>
          At the bench<span class="heard">: {step.title}</span>
        </Word>
      </p>
    </div>
  );
}

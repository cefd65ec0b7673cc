/** What belongs to this screen and to no suit: day or night, and whether the number keys act. */
import { setLight, setNumberKeys } from "../lib/settings.js";
import { light, numberKeys } from "../lib/store.js";
import { Choice } from "../parts/choice.js";
import { Trouble } from "../parts/trouble.js";
import { useTrying } from "../register/asking.js";

/** Day, night, or as the machine says. */
export function LightChoice() {
  const trying = useTrying();
  return (
    <div>
      <Choice
        name="Light"
        options={[
          { value: "system", says: "As this machine" },
          { value: "day", says: "Day" },
          { value: "night", says: "Night" },
        ]}
        value={light.value}
        onChange={(to) => void trying.run(() => setLight(to))}
      />
      <Trouble problem={trying.problem} />
    </div>
  );
}

/** Whether 1 to 8 and `?` act. */
export function KeysChoice() {
  const trying = useTrying();
  return (
    <div>
      <Choice
        name="Keys 1 to 8 and ?"
        options={[
          { value: "on", says: "On" },
          { value: "off", says: "Off" },
        ]}
        value={numberKeys.value ? "on" : "off"}
        onChange={(to) => void trying.run(() => setNumberKeys(to === "on"))}
      />
      <Trouble problem={trying.problem} />
    </div>
  );
}

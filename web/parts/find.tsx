/** One line to find things by: a suit, a wearer, a cloth. */
import { useId } from "preact/hooks";
import { Icon } from "./icon.js";

/** `label` is shown in the empty field and always read out. */
export function Find({ label, text, onText }: {
  readonly label: string;
  readonly text: string;
  readonly onText: (text: string) => void;
}) {
  const id = useId();
  return (
    <div class="find" role="search">
      <label for={id}>
        <Icon name="search" />
        <span class={text === "" ? "said" : "heard"}>{label}</span>
      </label>
      <input
        id={id}
        type="search"
        autocomplete="off"
        spellcheck={false}
        value={text}
        onInput={(event) => onText(event.currentTarget.value)}
      />
    </div>
  );
}

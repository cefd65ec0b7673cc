/** Adding a wearer, a cloth or an elastic: the least there must be, then its own page takes the rest. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { RefObject } from "preact";
import { focusFirst } from "../lib/focus.js";
import { go } from "../lib/router.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import type { ComponentChildren } from "preact";
import { make, useTrying } from "./asking.js";
import type { Trying } from "./asking.js";
import { Pick, TextField } from "./fields.js";

interface Adding {
  readonly onLeave: () => void;
  /** What happens once it is there; its own page opens when this is left out. */
  readonly onMade?: (id: string) => Promise<void>;
}

/** A wearer: name, and whether the statistics of a woman, a man or a child apply. */
export function NewWearer({ onLeave, onMade }: Adding) {
  const [name, setName] = useState("");
  const [form, setForm] = useState<"woman" | "man" | "child">("woman");
  const [age, setAge] = useState("");
  const trying = useTrying();
  const add = (): void =>
    void trying.run(async () => {
      const years = age.trim();
      const body = { name: name.trim(), form, ...(form === "child" && years !== "" && { age: /^\d+$/.test(years) ? Number(years) : years }) };
      const id = await make("wearer", body, `${name.trim()} added`);
      if (onMade) await onMade(id);
      else go(`/wearers/${encodeURIComponent(id)}`);
    });
  return (
    <Form name="Add a wearer" ticket="Add the wearer" trying={trying} onAdd={add} onLeave={onLeave}>
      <TextField label="Name" text={name} problem={trying.problem} onText={setName} onKeep={add} onLeave={onLeave} />
      <Pick
        name="Body"
        options={[
          { value: "woman", says: "Woman" },
          { value: "man", says: "Man" },
          { value: "child", says: "Child" },
        ]}
        value={form}
        onPick={setForm}
      />
      {form === "child" && <TextField label="Age in years" kind="number" text={age} onText={setAge} onKeep={add} onLeave={onLeave} />}
    </Form>
  );
}

type Role = "shell" | "lining" | "mesh";

/** A cloth: name and what it is for; the pull test comes on its page or in the suit. */
export function NewCloth({ onLeave, onMade, role = "shell" }: Adding & { readonly role?: string }) {
  const [name, setName] = useState("");
  const [what, setWhat] = useState<Role>(role === "lining" || role === "mesh" ? role : "shell");
  const trying = useTrying();
  const add = (): void =>
    void trying.run(async () => {
      const id = await make("cloth", { name: name.trim(), role: what }, `${name.trim()} added`);
      if (onMade) await onMade(id);
      else go(`/cloths/${encodeURIComponent(id)}`);
    });
  return (
    <Form name="Add a cloth" ticket="Add the cloth" trying={trying} onAdd={add} onLeave={onLeave}>
      <TextField label="What you call it" text={name} problem={trying.problem} onText={setName} onKeep={add} onLeave={onLeave} />
      <Pick
        name="For"
        options={[
          { value: "shell", says: "Shell" },
          { value: "lining", says: "Lining" },
          { value: "mesh", says: "Mesh" },
        ]}
        value={what}
        onPick={setWhat}
      />
    </Form>
  );
}

/** An elastic in stock. */
export function NewElastic({ onLeave, onMade }: Adding) {
  const [name, setName] = useState("");
  const trying = useTrying();
  const add = (): void =>
    void trying.run(async () => {
      const id = await make("elastic", { name: name.trim() }, `${name.trim()} added`);
      if (onMade) await onMade(id);
      else go(`/elastics/${encodeURIComponent(id)}`);
    });
  return (
    <Form name="Add an elastic" ticket="Add the elastic" trying={trying} onAdd={add} onLeave={onLeave}>
      <TextField label="What you call it" text={name} problem={trying.problem} onText={setName} onKeep={add} onLeave={onLeave} />
    </Form>
  );
}

/**
 * A form that opens where its word stood: its first field takes the focus, and the words beside it get it back when the form
 * goes.
 */
export function useOpenedForm<E extends HTMLElement>(): RefObject<E | null> {
  const form = useRef<E>(null);
  useLayoutEffect(() => {
    const parent = form.current?.parentElement;
    if (form.current) focusFirst(form.current);
    return () => {
      const had = form.current?.contains(document.activeElement) ?? false;
      if (!had || !parent) return;
      requestAnimationFrame(() => {
        if (document.activeElement !== document.body) return;
        parent.querySelector<HTMLElement>(":scope > .acts .ticket, :scope > .acts .textlink, .suitacts .ticket")?.focus();
      });
    };
  }, []);
  return form;
}

/** The frame of a small form: fields, its ticket, and leaving it. */
export function Form({ name, ticket, trying, onAdd, onLeave, children }: {
  readonly name: string;
  readonly ticket: string;
  readonly trying: Trying;
  readonly onAdd: () => void;
  readonly onLeave: () => void;
  readonly children: ComponentChildren;
}) {
  const form = useOpenedForm<HTMLFormElement>();
  return (
    <form
      ref={form}
      class="startform"
      aria-label={name}
      onSubmit={(event) => {
        event.preventDefault();
        onAdd();
      }}
    >
      {children}
      <Acts>
        <Ticket type="submit" off={trying.busy}>
          {ticket}
        </Ticket>
        <Word onClick={onLeave}>Leave it</Word>
      </Acts>
    </form>
  );
}

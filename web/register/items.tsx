/** Lists of the workroom: machines, needles, threads, stock, prices. A list is kept whole; what was taken out can be put back. */
import { useEffect, useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import type { RoomFaultView, RoomView } from "../api/types.js";
import { withUnit } from "../order/field.js";
import { Icon } from "../parts/icon.js";
import { Line } from "../parts/line.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { useTrying } from "./asking.js";
import type { Editable, Trying } from "./asking.js";
import { numberOr, Pick, TextLine, Tick } from "./fields.js";
import { textAt, textsAt } from "./lengths.js";
import type { Body } from "./lengths.js";

/** A list of the workroom's document, and what can be done with it. */
export interface Items {
  readonly list: readonly Body[];
  readonly trying: Trying;
  /** Sets values of one; null takes a value out. A rejection stays with the field. */
  readonly set: (at: number, values: Body, words?: string) => Promise<void>;
  readonly add: (item: Body, words: string, more?: Body) => Promise<void>;
  readonly takeOut: (at: number, name: string) => void;
  /** What was taken out last, to be put back; null for nothing. */
  readonly back: { readonly name: string; readonly undo: () => void } | null;
}

/** The list at `key`; what is there but is no list (a remark of old) is an empty one. */
export function useItems(doc: Editable<Body>, key: string): Items {
  const trying = useTrying();
  const [gone, setGone] = useState<{ readonly name: string; readonly at: number; readonly item: Body } | null>(null);
  const value = doc.value?.body[key];
  const list: readonly Body[] = Array.isArray(value) ? value.filter((one): one is Body => typeof one === "object" && one !== null) : [];
  const keep = (to: readonly Body[], words: string, more: Body = {}): Promise<void> => doc.set({ ...more, [key]: to }, words);
  return {
    list,
    trying,
    set: (at, values, words = `${key} changed`) =>
      keep(
        list.map((item, i) => (i === at ? without({ ...item, ...values }) : item)),
        words,
      ),
    add: async (item, words, more) => {
      await keep([...list, item], words, more);
      setGone(null);
    },
    takeOut: (at, name) => {
      const item = list[at];
      if (!item) return;
      void trying.run(async () => {
        await keep(
          list.filter((_, i) => i !== at),
          `${name} taken out`,
        );
        setGone({ name, at, item });
      });
    },
    back: gone && {
      name: gone.name,
      undo: () =>
        void trying.run(async () => {
          await keep([...list.slice(0, gone.at), gone.item, ...list.slice(gone.at)], `${gone.name} put back`);
          setGone(null);
        }),
    },
  };
}

function without(item: Body): Body {
  return Object.fromEntries(Object.entries(item).filter(([, value]) => value !== null));
}

/** One of a list, folded to its name and a few words; unfolds in its place. Opens by itself when something of it is wrong. */
export function ListItem({ items, at, name, about, faults, start = false, children }: {
  readonly items: Items;
  readonly at: number;
  readonly name: string;
  readonly about: ComponentChildren;
  readonly faults: readonly RoomFaultView[];
  /** Unfolded at first: it was just added. */
  readonly start?: boolean;
  readonly children: ComponentChildren;
}) {
  const [open, setOpen] = useState(start);
  // It may be in the list before the page knows that it is the new one.
  useEffect(() => {
    if (start) setOpen(true);
  }, [start]);
  const own = faults.filter((fault) => fault.index === at);
  const isOpen = open || own.length > 0;
  return (
    <li class="shelfitem">
      <div class="folded">
        <h3>{name}</h3>
        <span class="small">{about}</span>
        {own.length === 0 && (
          <Word expanded={isOpen} onClick={() => setOpen(!open)}>
            {isOpen ? "Fold it away" : "Unfold"}
            <span class="heard"> {name}</span>
          </Word>
        )}
      </div>
      <Faulty faults={own} />
      {isOpen && (
        <>
          {children}
          <Acts>
            <Word onClick={() => items.takeOut(at, name)}>
              Take out<span class="heard"> {name}</span>
            </Word>
          </Acts>
        </>
      )}
    </li>
  );
}

/** What cannot be read, where it stands. */
export function Faulty({ faults }: { readonly faults: readonly RoomFaultView[] }) {
  if (faults.length === 0) return null;
  return (
    <ul class="found">
      {faults.map((fault) => (
        <li key={fault.says} class={`inline ${fault.is_missing ? "missing" : "doubtful"}`}>
          <Icon name={fault.is_missing ? "missing" : "doubtful"} />
          <span>
            {fault.says} {fault.next}
          </span>
        </li>
      ))}
    </ul>
  );
}

/** "Back one" after something was taken out of a list, and what went wrong. */
export function ListFoot({ items }: { readonly items: Items }) {
  return (
    <>
      {items.back && (
        <Acts>
          <Word onClick={items.back.undo}>Back one: {items.back.name} out</Word>
        </Acts>
      )}
      <Trouble problem={items.trying.problem} />
    </>
  );
}

/** Faults of one list of the workroom. */
export function faultsOf(room: RoomView | null, list: string): readonly RoomFaultView[] {
  return (room?.faults ?? []).filter((fault) => fault.document === "workroom" && fault.path === list);
}

interface ItemField {
  readonly items: Items;
  readonly at: number;
  readonly path: string;
  readonly name: string;
  readonly hint?: string;
}

/** A length of one of a list: "6 mm", "500 m". */
export function ItemLength({ items, at, path, name, hint, unit = "mm" }: ItemField & { readonly unit?: "mm" | "cm" }) {
  const value = textAt(items.list[at] ?? {}, path);
  return (
    <Line
      name={name}
      empty="not written"
      {...(value !== "" && { says: value })}
      onEdit={{
        unit,
        units: unit === "mm" ? ["mm", "in"] : ["cm", "in"],
        ...(hint !== undefined && { hint }),
        onKeep: (text, meant) => items.set(at, { [path]: text.trim() === "" ? null : withUnit(text, meant) }, `${name} ${text}`),
      }}
    />
  );
}

/** A plain number of one of a list. */
export function ItemNumber({ items, at, path, name, hint, unit = "" }: ItemField & { readonly unit?: string }) {
  const value = textAt(items.list[at] ?? {}, path);
  return (
    <TextLine
      name={name}
      value={value}
      kind="number"
      {...(value !== "" && unit !== "" && { shown: <>{value} <small>{unit}</small></> })}
      {...(hint !== undefined && { hint })}
      onKeep={(text) => items.set(at, { [path]: numberOr(text) }, `${name} ${text}`)}
    />
  );
}

/** Words of one of a list. */
export function ItemWords({ items, at, path, name, hint }: ItemField) {
  return (
    <TextLine
      name={name}
      value={textAt(items.list[at] ?? {}, path)}
      {...(hint !== undefined && { hint })}
      onKeep={(text) => items.set(at, { [path]: text === "" ? null : text }, `${name} ${text}`)}
    />
  );
}

/** A choice of one of a list. */
export function ItemPick({ items, at, path, name, options, usual }: ItemField & {
  readonly options: readonly { readonly value: string; readonly says: string }[];
  /** In force while nothing is written. */
  readonly usual?: string;
}) {
  const value = textAt(items.list[at] ?? {}, path) || (usual ?? "");
  return (
    <Pick
      name={name}
      options={options}
      value={value === "" ? null : value}
      onPick={(to) => void items.trying.run(() => items.set(at, { [path]: to }, `${name}: ${options.find((one) => one.value === to)?.says ?? to}`))}
    />
  );
}

/** Something it has or has not. */
export function ItemTick({ items, at, path, name, usual = false }: ItemField & { readonly usual?: boolean }) {
  const value = (items.list[at] ?? {})[path];
  return (
    <Tick
      says={name}
      done={value === undefined ? usual : value === true || value === "true"}
      onTick={(done) => void items.trying.run(() => items.set(at, { [path]: done }, `${name}: ${done ? "yes" : "no"}`))}
    />
  );
}

/** Several words of which it has some. */
export function ItemTicks({ items, at, path, name, options }: ItemField & {
  readonly options: readonly { readonly value: string; readonly says: string }[];
}) {
  const has = textsAt(items.list[at] ?? {}, path);
  return (
    <fieldset class="ownticks">
      <legend class="small label">{name}</legend>
      <ul class="ticks">
        {options.map((option) => (
          <li key={option.value}>
            <Tick
              says={option.says}
              done={has.includes(option.value)}
              onTick={(done) =>
                void items.trying.run(() =>
                  items.set(
                    at,
                    { [path]: done ? [...has, option.value] : has.filter((one) => one !== option.value) },
                    `${option.says}: ${done ? "yes" : "no"}`,
                  ),
                )
              }
            />
          </li>
        ))}
      </ul>
    </fieldset>
  );
}

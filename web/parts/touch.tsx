/** The things one presses: the ticket (at most one in a section), the underlined word, and a row of them. */
import type { ComponentChildren } from "preact";

/** What a press can be: a link to an address, or something done here. */
interface Press {
  readonly children: ComponentChildren;
  /** Goes there; without it a button. */
  readonly href?: string;
  readonly onClick?: (event: MouseEvent) => void;
  /** Pressing does nothing now; it stays focusable and says why in `why`. */
  readonly off?: boolean;
  /** id of the sentence that says why it is off, or more about it. */
  readonly describedBy?: string;
  readonly label?: string;
  readonly id?: string;
}

/**
 * The ink ticket: the one thing to do in a section, verb first ("Take it again"). `type="submit"` inside a form; `big` at
 * the bench, 88 px high.
 */
export function Ticket({ type = "button", big = false, ...press }: Press & {
  readonly type?: "button" | "submit";
  readonly big?: boolean;
}) {
  return pressed(big ? "ticket big" : "ticket", type, press);
}

/** Every other action: an underlined word, 44 px high. Says what it does: "Keep 73.0", "Why 1.5?". */
export function Word({ save, expanded, controls, ...press }: Press & {
  /** A file to save under this name. */
  readonly save?: string;
  readonly expanded?: boolean;
  readonly controls?: string;
}) {
  return pressed("textlink", "button", press, {
    ...(save !== undefined && { download: save }),
    ...(expanded !== undefined && { "aria-expanded": expanded }),
    ...(controls !== undefined && { "aria-controls": controls }),
  });
}

/** A row of a ticket and words; wraps, 8 px apart at least. */
export function Acts({ children }: { readonly children: ComponentChildren }) {
  return <div class="acts">{children}</div>;
}

function pressed(
  look: string,
  type: "button" | "submit",
  { children, href, onClick, off = false, describedBy, label, id }: Press,
  more: Readonly<Record<string, string | boolean>> = {},
) {
  const shared = {
    class: look,
    ...more,
    ...(id !== undefined && { id }),
    ...(label !== undefined && { "aria-label": label }),
    ...(describedBy !== undefined && { "aria-describedby": describedBy }),
  };
  if (href !== undefined && !off) {
    return (
      <a href={href} {...(onClick && { onClick })} {...shared}>
        {children}
      </a>
    );
  }
  return (
    <button
      type={type}
      aria-disabled={off || undefined}
      onClick={(event) => {
        if (off) event.preventDefault();
        else onClick?.(event);
      }}
      {...shared}
    >
      {children}
    </button>
  );
}

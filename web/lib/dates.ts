/** Dates as people read them. The studio keeps them as `2026-12-05`, moments in UTC; a screen shows its own time. */

const DAY = { day: "numeric", month: "long", year: "numeric" } as const;
const CLOCK = { hour: "2-digit", minute: "2-digit", hourCycle: "h23" } as const;

/** `2026-12-05`, with or without a time, as `5 December 2026`; anything else as it was written. */
export function dateInWords(written: string): string {
  const found = /^(\d{4})-(\d{2})-(\d{2})(T.*)?$/.exec(written);
  if (!found) return written;
  const date = new Date(Date.UTC(Number(found[1]), Number(found[2]) - 1, Number(found[3])));
  return new Intl.DateTimeFormat("en-GB", { ...DAY, timeZone: "UTC" }).format(date);
}

/** A moment as `26 November 2026, 14:05`; anything else as it was written. */
export function momentInWords(at: string): string {
  const date = new Date(at);
  if (Number.isNaN(date.getTime())) return at;
  return `${new Intl.DateTimeFormat("en-GB", DAY).format(date)}, ${new Intl.DateTimeFormat("en-GB", CLOCK).format(date)}`;
}

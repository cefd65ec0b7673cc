/**
 * Which address shows which page. Each section's folder exports its pages; they are named here and nowhere else.
 */
import type { VNode } from "preact";

/** One kind of address. The parts named in the pattern (`/suits/:suit`) arrive as `parts`. */
export interface Route {
  readonly pattern: string;
  readonly page: (parts: Readonly<Record<string, string>>) => VNode;
}

/** First that fits wins. */
export const routes: readonly Route[] = [];

/**
 * Which address shows which page. Each section's folder exports its pages; they are named here and nowhere else.
 */
import type { VNode } from "preact";
import { BenchPage } from "./bench/page.js";
import { BookletPage } from "./booklet/page.js";
import { drawerRoutes } from "./drawer/routes.js";
import { OrderPage } from "./order/page.js";
import { ProjectorPage } from "./projector/page.js";
import { rangeRoutes } from "./range/routes.js";
import { registerRoutes } from "./register/routes.js";
import { ShoppingPage } from "./shopping/page.js";

/** One kind of address. The parts named in the pattern (`/suits/:suit`) arrive as `parts`. */
export interface Route {
  readonly pattern: string;
  readonly page: (parts: Readonly<Record<string, string>>) => VNode;
}

/** First that fits wins. */
export const routes: readonly Route[] = [
  ...registerRoutes,
  ...drawerRoutes,
  ...rangeRoutes,
  { pattern: "/suits/:suit", page: ({ suit }) => <OrderPage suit={suit ?? ""} /> },
  { pattern: "/suits/:suit/bench", page: ({ suit }) => <BenchPage suit={suit ?? ""} /> },
  { pattern: "/suits/:suit/booklet", page: ({ suit }) => <BookletPage suit={suit ?? ""} /> },
  { pattern: "/suits/:suit/shopping", page: ({ suit }) => <ShoppingPage suit={suit ?? ""} /> },
  { pattern: "/suits/:suit/projector", page: ({ suit }) => <ProjectorPage suit={suit ?? ""} /> },
];

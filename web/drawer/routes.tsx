/** Addresses of the drawer. */
import type { Route } from "../routes.js";
import { ItemPage } from "./page.js";
import { PrintPage } from "./print.js";
import { DrawerPage } from "./shelf.js";

/** Goes into the list of all routes. */
export const drawerRoutes: readonly Route[] = [
  { pattern: "/drawer", page: () => <DrawerPage /> },
  { pattern: "/drawer/:id", page: ({ id = "" }) => <ItemPage key={id} id={id} /> },
  { pattern: "/drawer/:id/sheet", page: ({ id = "" }) => <PrintPage key={id} id={id} /> },
];

/** The address of ranges. */
import type { Route } from "../routes.js";
import { RangesPage } from "./page.js";

/** Goes into the list of all routes. */
export const rangeRoutes: readonly Route[] = [{ pattern: "/ranges", page: () => <RangesPage /> }];

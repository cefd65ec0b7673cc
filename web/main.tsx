/** Starts the pages: what this screen remembers, keys, history, then the page the address names. */
import { render } from "preact";
import { startKeys } from "./lib/keys.js";
import { match, place, startRouter } from "./lib/router.js";
import { readSettings } from "./lib/settings.js";
import { startStore } from "./lib/store.js";
import { Nowhere } from "./frame/nowhere.js";
import { routes } from "./routes.js";

function Page() {
  const { path } = place.value;
  for (const route of routes) {
    const parts = match(route.pattern, path);
    if (parts) return route.page(parts);
  }
  return <Nowhere />;
}

startStore();
void readSettings();
startKeys();
startRouter();
const root = document.getElementById("page");
if (root) render(<Page />, root);

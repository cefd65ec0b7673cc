/**
 * Light, keys and the true millimetre, kept twice: by this browser, since each screen differs, and by the studio, for a
 * browser that was never here before.
 */
import { get, isAbort, patch } from "./api.js";
import { adopt, light, numberKeys, pixelsPerMm } from "./store.js";
import type { KeptForAll, Light } from "./store.js";

/** Where the studio keeps them. */
const SETTINGS = "/api/v1/settings";

/** Reads what the studio keeps; once, from main. A studio that does not answer leaves this browser's own words. */
export async function readSettings(): Promise<void> {
  try {
    adopt(await get<KeptForAll>(SETTINGS));
  } catch (error) {
    if (!isAbort(error)) console.info("The studio's settings were not read; this browser's own stand.");
  }
}

/** Day or night, from now on. Rejects with [Failed] when the studio does not keep it; this browser has it all the same. */
export async function setLight(to: Light): Promise<void> {
  light.value = to;
  await patch(SETTINGS, { light: to });
}

/** Whether 1 to 8 and `?` act. As [setLight]. */
export async function setNumberKeys(to: boolean): Promise<void> {
  numberKeys.value = to;
  await patch(SETTINGS, { keys: to });
}

/** CSS pixels in a true millimetre of this screen. As [setLight]. */
export async function setPixelsPerMm(to: number): Promise<void> {
  pixelsPerMm.value = to;
  await patch(SETTINGS, { screen: { px_per_mm: to } });
}

/** Keeps the screen awake while a page is looked at, where the browser can. */
import { useEffect } from "preact/hooks";

/** Asks for it now and whenever the page comes back into view; lets go with the page. */
export function useAwake(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | null = null;
    let over = false;
    const ask = (): void => {
      if (document.visibilityState !== "visible" || !("wakeLock" in navigator)) return;
      navigator.wakeLock.request("screen").then(
        (got) => {
          if (over) void got.release();
          else lock = got;
        },
        () => {
          // A browser may refuse, on a low battery for one; the page works all the same.
        },
      );
    };
    ask();
    document.addEventListener("visibilitychange", ask);
    return () => {
      over = true;
      document.removeEventListener("visibilitychange", ask);
      void lock?.release();
    };
  }, []);
}

/** How large a drawing is on the screen: texts and handles keep their size in pixels whatever the scale of the piece. */
import type { RefObject } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";

/** Millimetres of a drawing `width` mm wide that one CSS pixel covers; `first` until it is measured. */
export function useMmPerPixel(drawing: RefObject<SVGSVGElement | null>, width: number, first = 1): number {
  const [pixels, setPixels] = useState(0);
  useLayoutEffect(() => {
    const element = drawing.current;
    if (!element) return;
    const measure = (): void => setPixels(element.getBoundingClientRect().width);
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return pixels > 0 ? width / pixels : first;
}

/** How large a drawing is on the screen: texts and handles keep their size in pixels whatever the scale of the piece. */
import type { RefObject } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";

/**
 * Millimetres one CSS pixel covers in a drawing whose box is `width` by `height` mm; the drawing is fitted into its element
 * whole, so the tighter side decides. `first` stands until it is measured.
 */
export function useMmPerPixel(drawing: RefObject<SVGSVGElement | null>, width: number, height = 0, first = 1): number {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = drawing.current;
    if (!element) return;
    const measure = (): void => {
      const box = element.getBoundingClientRect();
      setSize((old) => (old.width === box.width && old.height === box.height ? old : { width: box.width, height: box.height }));
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  if (size.width === 0 || size.height === 0) return first;
  return Math.max(width / size.width, height / size.height);
}

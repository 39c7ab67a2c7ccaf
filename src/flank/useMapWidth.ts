import { type RefObject, useEffect, useRef, useState } from 'react';

/** Width before the first measurement and outside a browser, px. */
const UNMEASURED = 640;

/**
 * Inner width of an element, px: the drawing is laid out one to one in screen pixels, so that strokes and texts
 * keep their size while the tooth fills what there is.
 */
export function useMapWidth(): readonly [RefObject<HTMLDivElement | null>, number] {
  const ref = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(UNMEASURED);
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const observer = new ResizeObserver(([entry]) => {
      const measured = Math.round(entry.contentRect.width);
      if (measured > 0) setWidth(measured);
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, width];
}

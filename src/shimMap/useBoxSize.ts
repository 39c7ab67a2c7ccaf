import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

export interface BoxSize {
  /** CSS px */
  readonly width: number;
  readonly height: number;
  /** px of the page's text size, which the theme and the screen decide */
  readonly em: number;
  /** device pixels in a CSS px */
  readonly pixelRatio: number;
}

/** Inner size of an element: the map is laid out one to one in screen pixels, so that strokes and texts keep their size. */
export function useBoxSize(): readonly [RefObject<HTMLDivElement | null>, BoxSize | null] {
  const ref = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState<BoxSize | null>(null);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const measure = () => {
      const { clientWidth: width, clientHeight: height } = element;
      if (width === 0 || height === 0) return;
      const em = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
      const measured: BoxSize = { width, height, em, pixelRatio: window.devicePixelRatio };
      setSize((last) => (last !== null && same(last, measured) ? last : measured));
    };
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    const unfollow = followPixelRatio(measure);
    measure();
    return () => {
      observer.disconnect();
      unfollow();
    };
  }, []);
  return [ref, size];
}

const same = (a: BoxSize, b: BoxSize): boolean =>
  a.width === b.width && a.height === b.height && a.em === b.em && a.pixelRatio === b.pixelRatio;

/** Calls back when the window comes to a screen with other pixels, or is magnified. Returns a function that ends it. */
function followPixelRatio(changed: () => void): () => void {
  const abort = new AbortController();
  const follow = () => {
    matchMedia(`(resolution: ${window.devicePixelRatio}dppx)`).addEventListener(
      'change',
      () => {
        changed();
        follow();
      },
      { once: true, signal: abort.signal },
    );
  };
  follow();
  return () => abort.abort();
}

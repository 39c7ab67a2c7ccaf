import { type KeyboardEvent, type RefObject, useCallback, useEffect } from 'react';

/** What hands and keys move: a camera. Angles in rad, shifts as shares of the picture's height. */
export interface Handled {
  turnBy(sideways: number, over: number): void;
  zoomBy(factor: number): void;
  panBy(right: number, up: number): void;
}

/** rad of turn for a drag over the picture's height */
const TURN_PER_HEIGHT = Math.PI;
const KEY_TURN = Math.PI / 36;
const KEY_ZOOM = 1.15;
const KEY_PAN = 0.06;
/** share of distance per wheel pixel */
const WHEEL_ZOOM = 0.0012;

/**
 * Moves the camera by mouse, pen and fingers: one turns, two pinch and shift, a drag with Shift or the right button
 * shifts, the wheel zooms.
 */
export function useHands(surface: RefObject<HTMLElement | null>, driver: Handled): void {
  useEffect(() => {
    const element = surface.current;
    if (element === null) return;
    const fingers = new Map<number, { x: number; y: number }>();
    let spread = 0;

    const measure = () => {
      const [a, b] = fingers.values();
      return a !== undefined && b !== undefined ? Math.hypot(a.x - b.x, a.y - b.y) : 0;
    };

    const down = (event: PointerEvent) => {
      if (event.pointerType === 'mouse' && event.button !== 0 && event.button !== 2) return;
      element.setPointerCapture(event.pointerId);
      fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
      spread = measure();
    };

    const move = (event: PointerEvent) => {
      const finger = fingers.get(event.pointerId);
      if (finger === undefined) return;
      const height = Math.max(element.clientHeight, 1);
      const dx = (event.clientX - finger.x) / height;
      const dy = (event.clientY - finger.y) / height;
      finger.x = event.clientX;
      finger.y = event.clientY;
      if (fingers.size === 1) {
        if (event.shiftKey || (event.buttons & 2) !== 0) driver.panBy(-dx, dy);
        else driver.turnBy(-dx * TURN_PER_HEIGHT, dy * TURN_PER_HEIGHT);
      } else if (fingers.size === 2) {
        const now = measure();
        if (spread > 0 && now > 0) driver.zoomBy(spread / now);
        spread = now;
        // each of the two fingers reports its own half of a common shift
        driver.panBy(-dx / 2, dy / 2);
      }
    };

    const up = (event: PointerEvent) => {
      fingers.delete(event.pointerId);
      spread = measure();
    };

    const wheel = (event: WheelEvent) => {
      event.preventDefault();
      const pixels = event.deltaMode === 1 ? event.deltaY * 24 : event.deltaY;
      driver.zoomBy(Math.exp(pixels * WHEEL_ZOOM));
    };

    const menu = (event: Event) => event.preventDefault();

    element.addEventListener('pointerdown', down);
    element.addEventListener('pointermove', move);
    element.addEventListener('pointerup', up);
    element.addEventListener('pointercancel', up);
    element.addEventListener('wheel', wheel, { passive: false });
    element.addEventListener('contextmenu', menu);
    return () => {
      element.removeEventListener('pointerdown', down);
      element.removeEventListener('pointermove', move);
      element.removeEventListener('pointerup', up);
      element.removeEventListener('pointercancel', up);
      element.removeEventListener('wheel', wheel);
      element.removeEventListener('contextmenu', menu);
    };
  }, [surface, driver]);
}

/** The same by keyboard; `onRoll` starts and stops what moves, `onHome` goes back. */
export function useKeys(driver: Handled, onRoll: () => void, onHome: () => void) {
  return useCallback(
    (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const shift = event.shiftKey;
      switch (event.key) {
        case 'ArrowLeft':
          if (shift) driver.panBy(-KEY_PAN, 0);
          else driver.turnBy(-KEY_TURN, 0);
          break;
        case 'ArrowRight':
          if (shift) driver.panBy(KEY_PAN, 0);
          else driver.turnBy(KEY_TURN, 0);
          break;
        case 'ArrowUp':
          if (shift) driver.panBy(0, KEY_PAN);
          else driver.turnBy(0, KEY_TURN);
          break;
        case 'ArrowDown':
          if (shift) driver.panBy(0, -KEY_PAN);
          else driver.turnBy(0, -KEY_TURN);
          break;
        case '+':
        case '=':
          driver.zoomBy(1 / KEY_ZOOM);
          break;
        case '-':
          driver.zoomBy(KEY_ZOOM);
          break;
        case 'Home':
          onHome();
          break;
        case ' ':
          onRoll();
          break;
        default:
          return;
      }
      event.preventDefault();
    },
    [driver, onRoll, onHome],
  );
}

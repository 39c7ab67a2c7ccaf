import { useEffect } from 'react';
import { rock } from '../../../state/rock.ts';

const REDUCED = '(prefers-reduced-motion: reduce)';

/** Advances the rock with the frames of the page while it rocks; `free` is whether there is play to rock within. */
export function useRocking(free: boolean): void {
  useEffect(() => rock.setFree(free), [free]);
  useEffect(() => {
    const wish = window.matchMedia(REDUCED);
    const obey = () => {
      rock.reducedMotion = wish.matches;
    };
    obey();
    wish.addEventListener('change', obey);
    let frame = 0;
    let before = 0;
    const step = (now: number) => {
      // a page that was hidden does not leap
      const seconds = before === 0 ? 0 : Math.min((now - before) / 1000, 0.1);
      before = now;
      frame = rock.advance(seconds) ? requestAnimationFrame(step) : 0;
    };
    const end = rock.subscribe(() => {
      if (!rock.rocking || frame !== 0) return;
      before = 0;
      frame = requestAnimationFrame(step);
    });
    return () => {
      end();
      cancelAnimationFrame(frame);
      frame = 0;
      rock.hold(0);
      wish.removeEventListener('change', obey);
    };
  }, []);
}

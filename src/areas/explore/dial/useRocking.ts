import { useEffect, useState } from 'react';
import { Rock } from '../../../state/rock.ts';

const REDUCED = '(prefers-reduced-motion: reduce)';

/** One rock for all that shows it, advanced with the frames of the page while it rocks. */
export function useRocking(): Rock {
  const [rock] = useState(() => new Rock());
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
      rock.stop();
      wish.removeEventListener('change', obey);
    };
  }, [rock]);
  return rock;
}

import { useEffect } from 'react';
import { tinykeys } from 'tinykeys';
import { useArea } from '../state/area.ts';
import { useBacklashLock } from '../state/backlashLock.ts';
import { goAsFound, goToDesign, stepFree, stepPinionShim, stepRing } from '../state/moves.ts';
import { switchBacklashLock } from '../state/pinionShim.ts';
import { usePreferences } from '../state/preferences.ts';
import { rock } from '../state/rock.ts';
import { useTraces } from '../state/traces.ts';
import { CAMERA_HOMES, PICTURES, useView } from '../state/view.ts';
import type { PlainTextKey } from '../text/catalogue.ts';
import { undoHere } from './undoHere.ts';

export interface Shortcut {
  /** as tinykeys spells it */
  readonly keys: string;
  /** as it is printed on the keys */
  readonly shown: readonly string[];
  readonly text: PlainTextKey;
  /** only in Explore: elsewhere it would move what is not in sight */
  readonly exploreOnly?: boolean;
  readonly act: () => void;
}

export interface ShortcutActions {
  readonly toggleTheme: () => void;
  readonly openHelp: () => void;
  readonly openShare: () => void;
}

const toggleUnits = () => {
  const { units, change } = usePreferences.getState();
  change({ units: units === 'mm' ? 'in' : 'mm' });
};
const toggleFine = () => {
  const { fine, change } = usePreferences.getState();
  change({ fine: !fine });
};
const toggleContours = () => {
  const { contours, setContours } = useView.getState();
  setContours(!contours);
};

const toggleArrows = () => {
  const { arrows, setArrows } = useView.getState();
  setArrows(!arrows);
};
const toggleBacklashLock = () => switchBacklashLock(!useBacklashLock.getState().on);

const rockDial = () => {
  if (useView.getState().picture === 'dial') rock.toggle();
};

const turnPicture = (by: 1 | -1) => {
  const { picture, showPicture } = useView.getState();
  showPicture(PICTURES[(PICTURES.indexOf(picture) + by + PICTURES.length) % PICTURES.length]);
};

/** Every shortcut with what it does; the help lists exactly these. */
export function shortcutsOf({ toggleTheme, openHelp, openShare }: ShortcutActions): readonly Shortcut[] {
  const single = (keys: string, shown: string, text: PlainTextKey, act: () => void): Shortcut => ({
    keys,
    shown: [shown],
    text,
    exploreOnly: true,
    act,
  });
  const anywhere = (shortcut: Shortcut): Shortcut => ({ ...shortcut, exploreOnly: false });
  return [
    {
      keys: '$mod+z',
      shown: ['Ctrl', 'Z'],
      text: 'app.keys.undo',
      exploreOnly: false,
      act: () => undoHere(-1),
    },
    {
      keys: '$mod+Shift+z',
      shown: ['Ctrl', 'Shift', 'Z'],
      text: 'app.keys.redo',
      exploreOnly: false,
      act: () => undoHere(1),
    },
    {
      keys: '$mod+y',
      shown: ['Ctrl', 'Y'],
      text: 'app.keys.redo',
      exploreOnly: false,
      act: () => undoHere(1),
    },
    single('q', 'Q', 'app.keys.pinionThinner', () => stepPinionShim(-1)),
    single('w', 'W', 'app.keys.pinionThicker', () => stepPinionShim(1)),
    single('a', 'A', 'app.keys.ringOut', () => stepRing(-1)),
    single('s', 'S', 'app.keys.ringIn', () => stepRing(1)),
    single('z', 'Z', 'app.keys.filmThinner', () => stepFree('film', -1)),
    single('x', 'X', 'app.keys.filmThicker', () => stepFree('film', 1)),
    single('o', 'O', 'app.keys.offsetLess', () => stepFree('offsetError', -1)),
    single('p', 'P', 'app.keys.offsetMore', () => stepFree('offsetError', 1)),
    single('k', 'K', 'app.keys.angleLess', () => stepFree('shaftAngleError', -1)),
    single('l', 'L', 'app.keys.angleMore', () => stepFree('shaftAngleError', 1)),
    single('f', 'F', 'app.keys.fine', toggleFine),
    single('g', 'G', 'app.keys.found', goAsFound),
    single('d', 'D', 'app.keys.design', goToDesign),
    single('c', 'C', 'app.keys.contours', toggleContours),
    single('v', 'V', 'app.keys.arrows', toggleArrows),
    single('r', 'R', 'app.keys.dismissTraces', () => useTraces.getState().dismiss()),
    single('h', 'H', 'app.keys.keepBacklash', toggleBacklashLock),
    ...CAMERA_HOMES.map((camera, index) =>
      single(String(index + 1), String(index + 1), `app.keys.camera.${camera}`, () =>
        useView.getState().goHome(camera),
      ),
    ),
    single('n', 'N', 'app.keys.pictureNext', () => turnPicture(1)),
    single('b', 'B', 'app.keys.pictureBefore', () => turnPicture(-1)),
    single('j', 'J', 'app.keys.rock', rockDial),
    anywhere(single('u', 'U', 'app.keys.units', toggleUnits)),
    anywhere(single('t', 'T', 'app.keys.theme', toggleTheme)),
    anywhere(single('e', 'E', 'app.keys.share', openShare)),
    { keys: 'Shift+?', shown: ['?'], text: 'app.keys.help', exploreOnly: false, act: openHelp },
  ];
}

const withCtrl = (shortcut: Shortcut): boolean => shortcut.keys.startsWith('$mod');

/** Listens on the whole page, except while somebody types or a dialog or menu is open. */
export function useShortcuts(shortcuts: readonly Shortcut[]): void {
  const singleKeys = usePreferences((state) => state.singleKeys);
  useEffect(() => {
    const inForce = shortcuts.filter((shortcut) => singleKeys || withCtrl(shortcut));
    const handlers = inForce.map((shortcut) => {
      const handle = (event: KeyboardEvent) => {
        if (isBusyElsewhere(event.target)) return;
        if (shortcut.exploreOnly && useArea.getState().area !== 'explore') return;
        event.preventDefault();
        shortcut.act();
      };
      return [shortcut.keys, handle] as const;
    });
    return tinykeys(window, Object.fromEntries(handlers));
  }, [shortcuts, singleKeys]);
}

function isBusyElsewhere(target: EventTarget | null): boolean {
  if (document.querySelector('[role="dialog"], [role="listbox"]') !== null) return true;
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target instanceof HTMLTextAreaElement) return true;
  return target instanceof HTMLInputElement && target.type === 'text';
}

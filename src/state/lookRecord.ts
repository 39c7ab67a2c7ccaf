import type { Fitment } from '../../sim/assembly/hardware.ts';
import { MOST_EARLIER } from '../../sim/worker/diagnoseProtocol.ts';
import { deviceStorage } from '../storage/device.ts';
import { loadRecord, type RecordKind, saveRecord } from '../storage/record.ts';
import { isKnownAxle } from './axles.ts';
import {
  blankLook,
  CUTS,
  DIAL_MANNERS,
  type EarlierLook,
  GEARS,
  type Look,
  type LookStore,
  MOST_READINGS,
  type RecordedLook,
  SURENESSES,
  useLook,
} from './look.ts';
import { useNotices } from './notices.ts';
import type { PaintedMark } from './paintedMark.ts';
import { rested } from './rested.ts';

type Looks = LookStore['looks'];

interface KeptLooks {
  readonly looks: Looks;
  /** looks at axles that are not known here any more: carried along as they were written */
  readonly strangers: Readonly<Record<string, unknown>>;
}

/** Eight squares a character code: a mark of 120 × 40 takes 800 characters. */
interface WrittenMark {
  readonly columns: number;
  readonly rows: number;
  /** base64 of the bits, row by row */
  readonly bits: string;
}

const MOST_SQUARES = 400 * 400;

export function writeMark({ columns, rows, data }: PaintedMark): WrittenMark {
  let bytes = '';
  for (let at = 0; at < data.length; at += 8) {
    let byte = 0;
    for (let k = 0; k < 8; k += 1) byte |= (data[at + k] ?? 0) << k;
    bytes += String.fromCharCode(byte);
  }
  return { columns, rows, bits: btoa(bytes) };
}

/** Undefined when it is not one. */
export function readMark(written: unknown): PaintedMark | undefined {
  if (typeof written !== 'object' || written === null) return undefined;
  const { columns, rows, bits } = written as Record<string, unknown>;
  if (!isCount(columns) || !isCount(rows) || columns * rows > MOST_SQUARES || typeof bits !== 'string')
    return undefined;
  let bytes: string;
  try {
    bytes = atob(bits);
  } catch {
    return undefined;
  }
  if (bytes.length !== Math.ceil((columns * rows) / 8)) return undefined;
  const data = new Uint8Array(columns * rows);
  for (let at = 0; at < data.length; at += 1) data[at] = (bytes.charCodeAt(at >> 3) >> (at & 7)) & 1;
  return { columns, rows, data };
}

const isCount = (value: unknown): value is number =>
  typeof value === 'number' && Number.isInteger(value) && value > 0;
const isReading = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value) && value >= -10 && value <= 10;

/** Undefined when a part of it cannot be read. */
function readLook(axleId: string, written: unknown): Look | undefined {
  if (typeof written !== 'object' || written === null) return undefined;
  const found = written as Record<keyof Look, unknown>;
  const blank = blankLook(axleId);
  const drive = found.drive === null ? null : readMark(found.drive);
  const coast = found.coast === null ? null : readMark(found.coast);
  if (drive === undefined || coast === undefined) return undefined;
  const fitment = readFitment(found.fitment);
  if (fitment === undefined) return undefined;
  if (!Array.isArray(found.readings) || !found.readings.every(isReading)) return undefined;
  const recorded = readRecorded(found.recorded);
  if (recorded === undefined) return undefined;
  const earlier = readEarlier(found.earlier);
  if (earlier === undefined) return undefined;
  return {
    axleId,
    recorded,
    earlier,
    fitment,
    drive,
    coast,
    readings: found.readings.slice(0, MOST_READINGS),
    manner: DIAL_MANNERS.find((one) => one === found.manner) ?? blank.manner,
    gears: GEARS.find((one) => one === found.gears) ?? blank.gears,
    sureness: SURENESSES.find((one) => one === found.sureness) ?? blank.sureness,
    cut: CUTS.find((one) => one === found.cut) ?? blank.cut,
  };
}

/** Null where nothing was recorded, undefined when it cannot be read. */
function readRecorded(written: unknown): Look['recorded'] | undefined {
  if (written === null || written === undefined) return null;
  if (typeof written !== 'object') return undefined;
  const found = written as Record<keyof RecordedLook, unknown>;
  const drive = found.drive === null ? null : readMark(found.drive);
  const coast = found.coast === null ? null : readMark(found.coast);
  if (drive === undefined || coast === undefined) return undefined;
  if (!Array.isArray(found.readings) || !found.readings.every(isReading)) return undefined;
  return {
    drive,
    coast,
    readings: found.readings.slice(0, MOST_READINGS),
    sureness: SURENESSES.find((one) => one === found.sureness) ?? 'careful',
  };
}

/** A look kept before there were earlier ones has none. */
function readEarlier(written: unknown): Look['earlier'] | undefined {
  if (written === undefined) return [];
  if (!Array.isArray(written)) return undefined;
  const earlier: EarlierLook[] = [];
  for (const one of written.slice(-MOST_EARLIER)) {
    const seen = readRecorded(one);
    const fitment = readFitment((one as { readonly fitment?: unknown } | null)?.fitment);
    if (!seen || !fitment) return undefined;
    earlier.push({ ...seen, fitment });
  }
  return earlier;
}

function readFitment(written: unknown): Fitment | undefined {
  if (typeof written !== 'object' || written === null) return undefined;
  const { pinionShim, ringSide, oppositeSide } = written as Record<string, unknown>;
  if (!isFiniteNumber(pinionShim) || !isFiniteNumber(ringSide) || !isFiniteNumber(oppositeSide))
    return undefined;
  return { pinionShim, ringSide, oppositeSide };
}

const isFiniteNumber = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value);

export const LOOKS_RECORD: RecordKind<KeptLooks> = {
  key: 'meshwitness.looks',
  version: 1,
  read: (content) => {
    if (typeof content !== 'object' || content === null || Array.isArray(content)) return undefined;
    const looks: Record<string, Look> = {};
    const strangers: Record<string, unknown> = {};
    for (const [axleId, written] of Object.entries(content)) {
      if (!isKnownAxle(axleId)) {
        strangers[axleId] = written;
        continue;
      }
      const look = readLook(axleId, written);
      if (look === undefined) return undefined;
      looks[axleId] = look;
    }
    return { looks, strangers };
  },
};

const writtenMarks = ({ drive, coast }: Pick<Look, 'drive' | 'coast'>) => ({
  drive: drive && writeMark(drive),
  coast: coast && writeMark(coast),
});

const written = (looks: Looks): Readonly<Record<string, unknown>> =>
  Object.fromEntries(
    Object.entries(looks).map(([axleId, look]) => [
      axleId,
      {
        ...look,
        ...writtenMarks(look),
        recorded: look.recorded && { ...look.recorded, ...writtenMarks(look.recorded) },
        earlier: look.earlier.map((one) => ({ ...one, ...writtenMarks(one) })),
      },
    ]),
  );

/** ms without a change before the looks are kept. */
const REST_MS = 500;
let keeping = false;

/** Brings back the looks of this device, and keeps every change from now on. Later calls do nothing. */
export function keepLooks(): void {
  if (keeping) return;
  keeping = true;
  const loaded = loadRecord(deviceStorage, LOOKS_RECORD);
  if (loaded.found === 'value') useLook.setState({ looks: loaded.value.looks });
  else if (loaded.found === 'unreadable') {
    useNotices.getState().show({ id: 'looks', kind: 'plain', text: 'app.looks.unreadable' });
  }
  const strangers = loaded.found === 'value' ? loaded.value.strangers : {};
  useLook.temporal.getState().clear();
  const keep = rested<Looks>(
    (looks) =>
      saveRecord(deviceStorage, LOOKS_RECORD, { ...strangers, ...written(looks) } as unknown as KeptLooks),
    REST_MS,
    { now: () => performance.now(), later: (callback, ms) => window.setTimeout(callback, ms) },
  );
  useLook.subscribe(({ looks }, before) => {
    if (looks !== before.looks) keep.put(looks);
  });
  window.addEventListener('pagehide', keep.flush);
  document.addEventListener('visibilitychange', keep.flush);
}

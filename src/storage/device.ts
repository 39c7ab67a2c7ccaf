/**
 * The browser's own storage on this device, or memory where the browser refuses it (private windows, full disks):
 * the app then still runs, it only forgets on reload.
 */
export interface DeviceStorage {
  get(key: string): string | null;
  /** False: kept until the page is closed only. */
  set(key: string, value: string): boolean;
  remove(key: string): void;
}

export function createDeviceStorage(storage: () => Storage | undefined): DeviceStorage {
  const memory = new Map<string, string>();
  const attempt = <T>(use: (storage: Storage) => T): T | undefined => {
    try {
      const found = storage();
      return found === undefined ? undefined : use(found);
    } catch {
      return undefined;
    }
  };
  return {
    get: (key) => memory.get(key) ?? attempt((kept) => kept.getItem(key)) ?? null,
    set: (key, value) => {
      const kept = attempt((target) => {
        target.setItem(key, value);
        return true;
      });
      if (kept === true) memory.delete(key);
      else memory.set(key, value);
      return kept === true;
    },
    remove: (key) => {
      memory.delete(key);
      attempt((kept) => kept.removeItem(key));
    },
  };
}

export const deviceStorage: DeviceStorage = createDeviceStorage(() => globalThis.localStorage);

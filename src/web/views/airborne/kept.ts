/**
 * A flight in the browser's own database. Each change is on the disk before it is told to be kept (durability 'strict'), so that a
 * browser that is killed, or a machine that goes down, loses nothing that was shown as kept.
 */
import type { Entry } from '../../../core/airborne/reading.ts';
import type { Plan } from '../../../core/plan/plan.ts';

/** The text of a sortie at its path; empty where the plan was opened without it. */
export interface SortieText {
  readonly path: string;
  readonly text: string;
}

export interface KeptFlight {
  readonly plan: Plan;
  readonly sortie: SortieText;
  /** As they came. */
  readonly readings: readonly Entry[];
}

const database = 'ramrise-airborne';
const flights = 'flight';
const readings = 'readings';
const only = 'flown';

/** null where no flight was begun. */
export async function readKept(): Promise<KeptFlight | null> {
  const found = await work('readonly', async (store) => {
    const flight = await done<Pick<KeptFlight, 'plan' | 'sortie'> | undefined>(store(flights).get(only));
    return flight && { ...flight, readings: await done<Entry[]>(store(readings).getAll()) };
  });
  return found ?? null;
}

/** In the place of any flight before. */
export function keepFlight(plan: Plan, sortie: SortieText): Promise<void> {
  return work('readwrite', async (store) => {
    await done(store(readings).clear());
    await done(store(flights).put({ plan, sortie }, only));
  });
}

export function keepReading(entry: Entry): Promise<void> {
  return work('readwrite', async (store) => {
    await done(store(readings).add(entry));
  });
}

/** Takes the newest out. */
export function forgetReading(): Promise<void> {
  return work('readwrite', async (store) => {
    const cursor = await done(store(readings).openCursor(null, 'prev'));
    if (cursor) await done(cursor.delete());
  });
}

export function forgetFlight(): Promise<void> {
  return work('readwrite', async (store) => {
    await done(store(readings).clear());
    await done(store(flights).clear());
  });
}

/** One change after the other: what is asked for later finds what was asked for before. */
let last: Promise<unknown> = Promise.resolve();

function work<T>(
  mode: IDBTransactionMode,
  change: (store: (name: string) => IDBObjectStore) => Promise<T>,
): Promise<T> {
  const mine = last.then(async () => {
    const opened = await open();
    try {
      const transaction = opened.transaction([flights, readings], mode, { durability: 'strict' });
      const ended = new Promise<void>((resolve, reject) => {
        transaction.oncomplete = () => resolve();
        transaction.onerror = () => reject(transaction.error);
        transaction.onabort = () => reject(transaction.error);
      });
      const result = await change((name) => transaction.objectStore(name));
      await ended;
      return result;
    } finally {
      opened.close();
    }
  });
  last = mine.catch(() => undefined);
  return mine;
}

async function open(): Promise<IDBDatabase> {
  const request = indexedDB.open(database, 1);
  request.onupgradeneeded = () => {
    request.result.createObjectStore(flights);
    request.result.createObjectStore(readings, { autoIncrement: true });
  };
  return done(request);
}

function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

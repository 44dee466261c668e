/**
 * Readings of the crew, in the order in which they were taken whatever the order in which they came. SI units, seconds since the
 * take-off that was flown.
 */

/** What can be read, by its key; each reading has one value. */
const READ = [
  /** Sum of the tank gauges. */
  'fuelKg',
  /** What the flow meters have added up since take-off. */
  'fuelUsedKg',
  'fuelFlowKgS',
  'fuelFlowLeftKgS',
  'fuelFlowRightKgS',
  'inletTemperatureK',
  'mach',
  'pressureAltitudeM',
  'groundSpeedMS',
  /** Along the planned track since take-off. */
  'distanceM',
  /** The moment at which a tanker was left; its value says nothing. */
  'disconnect',
] as const;

export type ReadKey = (typeof READ)[number];

/** One value as it stands in the log; a line of the crew may hold several. */
export interface Entry {
  readonly timeS: number;
  readonly key: ReadKey;
  readonly value: number;
  /** 'read' as it came, 'confirmed' where the crew was asked and stands by it, 'corrected' in place of an earlier value, 'withdrawn' takes it away. */
  readonly status: 'read' | 'confirmed' | 'corrected' | 'withdrawn';
}

/** No gauge of an aircraft shows more, in the SI unit of its quantity. */
export const MOST_READ = 1e8;

const rank: Readonly<Record<Entry['status'], number>> = { read: 0, confirmed: 1, corrected: 2, withdrawn: 3 };

/**
 * Readings by time, one for each time and key. Of two for the same the one of the higher status counts, of equal status the later
 * one in the log: so a doubled reading changes nothing, and a correction holds even if it comes before what it corrects.
 */
export class ReadingLog {
  readonly entries: Entry[] = [];

  /** Puts an entry in its place; the index from which on the log has changed, null where it has not. */
  add(entry: Entry): number | null {
    const at = this.placeOf(entry);
    const there = this.entries.at(at);
    if (there !== undefined && at < this.entries.length && sameMoment(there, entry)) {
      if (rank[entry.status] < rank[there.status]) return null;
      if (there.status === entry.status && there.value === entry.value) return null;
      this.entries[at] = entry;
      return at;
    }
    this.entries.splice(at, 0, entry);
    return at;
  }

  /** First index whose entry is not before this one. */
  private placeOf(entry: Entry): number {
    let at = this.entries.length;
    while (at > 0 && compare(this.entries[at - 1], entry) >= 0) at--;
    return at;
  }
}

/** Mach and altitude come first at a moment: what is read beside them is judged by them. */
const first: readonly ReadKey[] = ['mach', 'pressureAltitudeM'];

function orderOf(key: ReadKey): number {
  return first.includes(key) ? first.indexOf(key) : first.length + READ.indexOf(key);
}

function compare(a: Entry, b: Entry): number {
  return a.timeS - b.timeS || orderOf(a.key) - orderOf(b.key);
}

function sameMoment(a: Entry, b: Entry): boolean {
  return a.timeS === b.timeS && a.key === b.key;
}

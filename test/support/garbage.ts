import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Rounds of one measurement: so few that the young generation does not fill and is not collected meanwhile. */
const ROUNDS = 20_000;

/** Bytes that a round of `work` leaves on the heap, after a warm-up long enough for everything to be compiled. */
export function bytesPerRound(work: (count: number) => void): number {
  for (let run = 0; run < 10; run++) work(ROUNDS);
  let least = Number.POSITIVE_INFINITY;
  for (let run = 0; run < 5; run++) {
    collect();
    const before = process.memoryUsage().heapUsed;
    work(ROUNDS);
    least = Math.min(least, (process.memoryUsage().heapUsed - before) / ROUNDS);
  }
  return least;
}

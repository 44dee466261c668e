import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Rounds of one measurement: so few that the young generation does not fill and is not collected meanwhile. */
const ROUNDS = 20_000;

/**
 * Bytes that a round of `work` leaves on the heap after a warm-up: the least of several measurements, since on a busy
 * machine the compiler may finish late.
 */
export function bytesPerRound(work: (count: number) => void): number {
  for (let run = 0; run < 20; run++) work(ROUNDS);
  let least = Number.POSITIVE_INFINITY;
  // On a busy machine the engine's better code comes late: as long as it gets better it is not there yet.
  for (let run = 0, since = 0; since < 40 && run < 300; run++, since++) {
    collect();
    const before = process.memoryUsage().heapUsed;
    work(ROUNDS);
    const bytes = (process.memoryUsage().heapUsed - before) / ROUNDS;
    if (bytes < 0.98 * least) since = 0;
    least = Math.min(least, bytes);
  }
  return least;
}

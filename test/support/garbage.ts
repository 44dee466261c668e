import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Bytes that each of `count` rounds of `work` leaves on the heap, after a warm-up; compiled code counts too. */
export function bytesPerRound(count: number, work: (count: number) => void): number {
  work(count);
  let least = Number.POSITIVE_INFINITY;
  for (let run = 0; run < 5; run++) {
    collect();
    const before = process.memoryUsage().heapUsed;
    work(count);
    least = Math.min(least, (process.memoryUsage().heapUsed - before) / count);
  }
  return least;
}

/** Times by the best of several runs, and a loop of fixed work beside which they can be read on any machine. */

/** Nanoseconds of one call of `work` with `count` calls a run: the least of `runs`, after one that is not counted. */
export function nanoseconds(count: number, work: (count: number) => void, runs = 7): number {
  work(count);
  let least = Number.POSITIVE_INFINITY;
  for (let run = 0; run < runs; run++) {
    const start = process.hrtime.bigint();
    work(count);
    least = Math.min(least, Number(process.hrtime.bigint() - start) / count);
  }
  return least;
}

let sink = 0;

/** Keeps a result alive, so that the work is not left out. */
export function keep(value: number): void {
  sink += value;
}

/** A fixed loop of dependent multiplications and additions and a square root: nanoseconds of one round. */
export function calibration(): number {
  return nanoseconds(2_000_000, (count) => {
    let x = 1.1;
    for (let i = 0; i < count; i++) x = Math.sqrt(x * 1.0000001 + 0.3) + 1e-9 * i;
    keep(x);
  });
}

export function line(name: string, value: string, note = ''): void {
  process.stdout.write(`${name.padEnd(58)} ${value.padStart(12)}  ${note}\n`);
}

/** What has been kept, so that nothing can be found to be of no use. */
export function kept(): number {
  return sink;
}

/** `npm run bench [-- NAME ...]`: all benchmarks, or those named, one after the other; run in the project's folder. */
import { bench as air } from './air.ts';
import { bench as airborne } from './airborne.ts';
import { bench as derivative } from './derivative.ts';
import { bench as odex } from './odex.ts';
import { bench as plan } from './plan.ts';
import { bench as rules } from './rules.ts';
import { calibration, kept, line } from './support/clock.ts';

const benches: Readonly<Record<string, () => void | Promise<void>>> = {
  air,
  airborne,
  derivative,
  odex,
  plan,
  rules,
};
const wanted = process.argv.slice(2);

line(
  'calibration loop, one round',
  `${calibration().toFixed(2)} ns`,
  'times below are to be read beside this',
);
for (const [name, bench] of Object.entries(benches)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  process.stdout.write(`\n${name}\n`);
  await bench();
}
if (!Number.isFinite(kept())) process.exitCode = 1;

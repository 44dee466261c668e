/**
 * `npm run trials:threshold [-- SEEDS]`: the evidence that a sortie of 90 min as planned exceeds once in 20, for each noise of the
 * fuel gauge and with all sensors. The threshold of the alert is the greatest of them. Its seeds are none of those that are judged.
 */
import { chance } from '../support/random.ts';
import { cruise, type Flown, steady } from './flight.ts';
import { type GaugeError, greatestEvidence, kinds, type Sensor } from './gauges.ts';

const seeds = Number(process.argv[2] ?? 8000);
const first = 1_000_000;

function tell(name: string, flown: Flown, sensors: readonly Sensor[], error: GaugeError): void {
  const greatest = Array.from({ length: seeds }, (_, seed) =>
    greatestEvidence(flown, sensors, chance(first + seed), error),
  ).sort((a, b) => a - b);
  const at = (part: number): string => greatest[Math.ceil(part * seeds) - 1].toFixed(2);
  process.stdout.write(`${name.padEnd(12)} 4 %: ${at(0.96)}   5 %: ${at(0.95)}   6 %: ${at(0.94)}\n`);
}

const quiet = steady(90);
for (const [name, error] of Object.entries(kinds)) tell(name, quiet, ['fuel'], error);
tell('all sensors', cruise(90), ['fuel', 'flow', 'inlet', 'ground'], kinds.white);

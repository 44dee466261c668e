/** Worked examples of textbooks. Inputs stand as text in the file; each kind of example has its rule here. */
import {
  impactRatio,
  machFromImpactRatio,
  pressureWhereCalibratedMeets,
  pressureWhereEquivalentMeets,
} from '../../../src/core/air/airdata.ts';
import {
  pressureAltitudeOf,
  speedOfSound,
  standardPressure,
  standardTemperature,
} from '../../../src/core/air/standard.ts';
import { PublishedTable, type Row } from './csv.ts';
import { type CheckResult, printedTo, Tally } from './tally.ts';

const foot = 0.3048;
const knot = 1852 / 3600;
type Inputs = ReadonlyMap<string, number>;

/** SI values by name from "free stream 804.7 km/h; p 101300 Pa; R 287". */
function inputsOf(text: string): Inputs {
  const factors: Record<string, number> = { 'km/h': 1 / 3.6, ft: foot, km: 1000, kt: knot };
  const inputs = new Map<string, number>();
  for (const part of text.split(';')) {
    const match = /^\s*(\D.*?) (-?[\d.]+)(?: (\S+))?\s*$/.exec(part);
    if (match) inputs.set(match[1], Number(match[2]) * (factors[match[3] ?? ''] ?? 1));
  }
  return inputs;
}

function input(inputs: Inputs, name: string): number {
  const value = inputs.get(name);
  if (value === undefined) throw new Error(`the example gives no ${name}`);
  return value;
}

/** Mach and pitot pressure of a stream of given speed, pressure and temperature. */
function stream(inputs: Inputs): { mach: number; pitotPressure: number } {
  const mach =
    input(inputs, 'V') / Math.sqrt(input(inputs, 'gamma') * input(inputs, 'R') * input(inputs, 'T'));
  return { mach, pitotPressure: input(inputs, 'p') * (impactRatio(mach) + 1) };
}

/** Mach and speed at a point of an airfoil from its pressure, flow isentropic. */
function airfoil(inputs: Inputs): { machAtPoint: number; speedAtPoint: number } {
  const gas = 1.4 * input(inputs, 'R');
  const temperature = input(inputs, 'p') / (input(inputs, 'rho') * input(inputs, 'R'));
  const mach = input(inputs, 'free stream') / Math.sqrt(gas * temperature);
  const total = input(inputs, 'p') * (impactRatio(mach) + 1);
  const machAtPoint = machFromImpactRatio(total / input(inputs, 'point pressure') - 1);
  const atPoint = (temperature * (1 + 0.2 * mach * mach)) / (1 + 0.2 * machAtPoint * machAtPoint);
  return { machAtPoint, speedAtPoint: machAtPoint * Math.sqrt(gas * atPoint) };
}

function pitot(inputs: Inputs): { mach: number; tas: number } {
  const altitude = input(inputs, 'pressure altitude');
  const mach = machFromImpactRatio(input(inputs, 'pitot') / standardPressure(altitude) - 1);
  return { mach, tas: (mach * speedOfSound(standardTemperature(altitude))) / foot };
}

function boom(inputs: Inputs): { mach: number } {
  return { mach: 1 / Math.sin(Math.atan2(input(inputs, 'height'), input(inputs, 'distance'))) };
}

/** "300 kt CAS equals Mach 0.78": the pressure altitude in feet. */
function crossover(what: string): { pressureAltitude: number } {
  const match = /^([\d.]+) kt (CAS|EAS) equals Mach ([\d.]+)$/.exec(what);
  if (!match) throw new Error(`"${what}" is not a crossover`);
  const meets = match[2] === 'CAS' ? pressureWhereCalibratedMeets : pressureWhereEquivalentMeets;
  return { pressureAltitude: pressureAltitudeOf(meets(Number(match[1]) * knot, Number(match[3]))) / foot };
}

function rule(example: string, what: string, inputs: Inputs): Readonly<Record<string, number>> {
  if (example === 'crossover') return crossover(what);
  if (inputs.has('pitot')) return pitot(inputs);
  if (inputs.has('point pressure')) return airfoil(inputs);
  if (inputs.has('distance')) return boom(inputs);
  return stream(inputs);
}

export function checkTextbook(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'textbook-air-data');
  const tally = new Tally(table.name);
  table.column('note');
  let held = { example: '', what: '', inputs: new Map() as Inputs };
  for (const row of table.rows) {
    held = statementOf(row, held);
    const { example, what, inputs } = held;
    const quantity = row.text('quantity').replace(/ \[.*\]$/, '');
    const compute = () => rule(example, what, inputs)[quantity] ?? Number.NaN;
    tally.relative('result', row.raw('value'), compute, `${example}: ${what} ${quantity}`);
  }
  return tally.results({ result: printedTo(8) }, table);
}

/** Further quantities of one example leave its statement blank. */
function statementOf(row: Row, held: { example: string; what: string; inputs: Inputs }) {
  const example = row.text('example');
  const what = row.text('what');
  const inputs = row.text('inputs');
  if (example === held.example && what === '' && inputs === '') return held;
  return { example, what, inputs: inputsOf(inputs) };
}

/** The rules of the day in sentences that a pilot would say, and in rows. */
import type { DriverRule, RuleEdge, Rules } from '../core/plan/plan.ts';
import { lowerFirst } from './names.ts';
import type { Table } from './table.ts';
import { figures, type Gauges, NOT_COMPUTED, shown } from './units.ts';

/** Less is the arithmetic of the flight, not a cost. */
const unfeltKg = 2;

/** "Each degree warmer", "Each 10 kt of headwind": what one step of a driver is. */
export function stepWords({ key, of, quantity, step }: DriverRule, gauges: Gauges): string {
  const amount = shown(gauges(quantity), step);
  switch (key) {
    case 'temperature':
      return step === 1 ? 'Each degree warmer' : `Each ${amount} warmer`;
    case 'headwind':
      return `Each ${amount} of headwind`;
    case 'drag':
      return `Each ${percent(step)} of drag`;
    case 'fuelFlow':
      return `Each ${percent(step)} of fuel flow`;
    case 'mass':
      return `Each ${figures(gauges('fuelKg'), gauges('fuelKg').differenceFromSi(step))}\u00a0${gauges('fuelKg').shortUnit} of load`;
    case 'cruiseAltitude':
      return `Each ${figures(gauges(quantity), gauges(quantity).differenceFromSi(step))}\u00a0${gauges(quantity).shortUnit} above the best altitude`;
    case 'takeOffSlip':
      return `Each ${minutes(step)} of later take-off`;
    case 'lateTanker':
      return `Each ${minutes(step)} that ${of} is late`;
  }
}

function percent(part: number): string {
  return `${Number((part * 100).toFixed(1))}\u00a0%`;
}

function minutes(seconds: number): string {
  return `${Number((seconds / 60).toFixed(1))}\u00a0min`;
}

/** A value of a driver, with its sign; towards none, so that what is named still passes. */
export function valueWords({ key, quantity }: DriverRule, value: number, gauges: Gauges): string {
  const gauge = gauges(quantity);
  const size = Math.abs(value);
  const sign = value < 0 ? '\u2212' : '+';
  if (key === 'drag' || key === 'fuelFlow')
    return `${sign}${(Math.floor(size * 1000) / 10).toFixed(1)}\u00a0%`;
  if (key === 'lateTanker' || key === 'takeOffSlip') return `${sign}${Math.floor(size / 60)}\u00a0min`;
  const figure = figures(gauge, gauge.differenceFromSi(size), 'available');
  return `${sign}${figure}\u00a0${gauge.differenceUnit}`;
}

/** Fuel that a step costs, up; what it saves, down. */
export function costWords(kg: number | null, gauges: Gauges): string {
  if (kg === null) return NOT_COMPUTED;
  const fuel = gauges('fuelKg');
  if (Math.abs(kg) < unfeltKg) return '0';
  const value = fuel.differenceFromSi(kg);
  const text = figures(fuel, Math.abs(value), kg < 0 ? 'available' : 'required');
  return kg < 0 && text !== '0' ? `\u2212${text}` : text;
}

/** One for each driver: what it costs where it is felt, and where the sortie fails. */
export function ruleSentences({ drivers, gates }: Rules, gauges: Gauges): readonly string[] {
  const unit = gauges('fuelKg').shortUnit;
  return drivers.map((driver) => {
    const costs = driver.costs.flatMap(({ perStepKg, standardPerStepKg, moreKg, lessKg }, gate) => {
      if (!(Math.abs(perStepKg ?? 0) >= unfeltKg)) return [];
      const { name } = gates[gate];
      if (driver.key === 'cruiseAltitude') return [bothWays(name, moreKg, lessKg, gauges)];
      const standard =
        standardPerStepKg === null ? '' : ` (standard day ${costWords(standardPerStepKg, gauges)})`;
      return [`${costWords(perStepKg, gauges)}\u00a0${unit} at ${name}${standard}`];
    });
    const what = costs.length === 0 ? 'costs nothing that is felt' : `costs ${costs.join(' and ')}`;
    const said = driver.edges.map((edge) => edgeWords(driver, edge, gauges));
    return `${[`${stepWords(driver, gauges)} ${what}`, ...said].join('; ')}.`;
  });
}

/** Near a best altitude there is no straight rule: what a step each way costs is said instead. */
function bothWays(name: string, moreKg: number | null, lessKg: number | null, gauges: Gauges): string {
  const words = (kg: number | null) => (kg === null ? 'not flown' : costWords(kg, gauges));
  return `${words(moreKg)}, below it ${words(lessKg)}\u00a0${gauges('fuelKg').shortUnit} at ${name}`;
}

/** "at +15 K the manoeuvre (Turn at Alder) stops the sortie". */
export function edgeWords(driver: DriverRule, edge: RuleEdge, gauges: Gauges): string {
  if (edge.passes === null) return `no limit up to ${valueWords(driver, edge.lookedTo, gauges)}`;
  const where = edge.phase === null ? '' : ` (${lowerFirst(edge.phase)})`;
  return `beyond ${valueWords(driver, edge.passes, gauges)} ${lowerFirst(edge.name ?? 'nothing known')}${where} stops the sortie`;
}

/** A row for each driver, a column for each gate. */
export function rulesTable({ drivers, gates }: Rules, gauges: Gauges): Table {
  const { shortUnit } = gauges('fuelKg');
  return {
    title: '',
    columns: [
      { name: 'Rule', unit: '', align: 'left' },
      ...gates.map(({ name }) => ({ name, unit: shortUnit, align: 'right' as const })),
      { name: 'Straight within 5 %', unit: '', align: 'right' },
      { name: 'Passes to', unit: '', align: 'right' },
    ],
    rows: drivers.map((driver) => [
      stepWords(driver, gauges),
      ...driver.costs.map(({ perStepKg }) => costWords(perStepKg, gauges)),
      straightWords(driver, gauges),
      driver.edges
        .map(({ passes, lookedTo }) =>
          passes === null
            ? `${valueWords(driver, lookedTo, gauges)} or more`
            : valueWords(driver, passes, gauges),
        )
        .join(', '),
    ]),
  };
}

/** The narrowest of the ranges at its gates. */
export function straightWords(driver: DriverRule, gauges: Gauges): string {
  const ranges = driver.costs.flatMap(({ straight }) => (straight === null ? [] : [straight]));
  if (ranges.length === 0) return '\u2013';
  const from = Math.max(...ranges.map((range) => range.from));
  const to = Math.min(...ranges.map((range) => range.to));
  if (Math.max(-from, to) < driver.step / 2) return 'not straight';
  return `${from === 0 ? '0' : valueWords(driver, from, gauges)} to ${valueWords(driver, to, gauges)}`;
}

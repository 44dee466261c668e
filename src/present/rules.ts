/** The rules of the day in sentences that a pilot would say, and in rows. */
import type { DriverRule, RuleCost, RuleEdge, Rules } from '../core/plan/plan.ts';
import { lowerFirst, phaseNameOn, upperFirst } from './names.ts';
import type { Table } from './table.ts';
import { hoursMinutes } from './time.ts';
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
    case 'inlet':
      return `${upperFirst(of ?? 'inlet')} ${amount} above its schedule`;
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
  return `${sign}${figure}${gauge.differenceUnit === '°' ? '' : '\u00a0'}${gauge.differenceUnit}`;
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
export function ruleSentences(rules: Rules, gauges: Gauges): readonly string[] {
  return rules.drivers.map((driver) => {
    const cost = isBothWays(driver) ? bothWays(driver, rules, gauges) : oneWay(driver, rules, gauges);
    const edges = driver.edges.map((edge) => edgeWords(driver, edge, gauges));
    return `${[`${stepWords(driver, gauges)} ${cost}`, ...edges].join('; ')}.`;
  });
}

/** Near a best altitude and a schedule there is no straight rule: what a step each way costs is said instead. */
export function isBothWays({ key }: DriverRule): boolean {
  return key === 'cruiseAltitude' || key === 'inlet';
}

/** Whether it costs anything anywhere. */
export function isFelt({ costs }: DriverRule): boolean {
  return costs.some(
    ({ moreKg, lessKg }) => Math.max(Math.abs(moreKg ?? 0), Math.abs(lessKg ?? 0)) >= unfeltKg,
  );
}

function oneWay({ costs }: DriverRule, { gates }: Rules, gauges: Gauges): string {
  const unit = gauges('fuelKg').shortUnit;
  const felt = costs.flatMap(({ perStepKg, standardPerStepKg }, gate) => {
    if (!(Math.abs(perStepKg ?? 0) >= unfeltKg)) return [];
    const standard =
      standardPerStepKg === null ? '' : ` (standard day ${costWords(standardPerStepKg, gauges)})`;
    return [`${costWords(perStepKg, gauges)}\u00a0${unit} at ${gates[gate].name}${standard}`];
  });
  return felt.length === 0 ? 'costs nothing that is felt' : `costs ${listed(felt)}`;
}

/** "saves 100 kg at Ewer Two, below it costs 420 kg at Ewer Two". */
function bothWays({ costs }: DriverRule, { gates }: Rules, gauges: Gauges): string {
  const way = (kgOf: (cost: RuleCost) => number | null): string => {
    const felt = costs.flatMap((cost, gate) => {
      const kg = kgOf(cost);
      if (kg === null) return [`is not flown to ${gates[gate].name}`];
      if (Math.abs(kg) < unfeltKg) return [];
      return [`${verbAndCost(kg, gauges)} at ${gates[gate].name}`];
    });
    return felt.length === 0 ? 'costs nothing that is felt' : listed(felt);
  };
  return `${way(({ moreKg }) => moreKg)}, below it ${way(({ lessKg }) => lessKg)}`;
}

/** "one, two and three". */
function listed(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

/** "costs 420 kg", "saves 100 kg". */
function verbAndCost(kg: number, gauges: Gauges): string {
  const unit = gauges('fuelKg').shortUnit;
  return `${kg < 0 ? 'saves' : 'costs'} ${costWords(kg, gauges).replace('\u2212', '')}\u00a0${unit}`;
}

/** "beyond +10.1 % the fuel required is not on board (turn at disconnect)". */
export function edgeWords(driver: DriverRule, edge: RuleEdge, gauges: Gauges): string {
  if (edge.passes === null) return `no limit up to ${valueWords(driver, edge.lookedTo, gauges)}`;
  return `beyond ${valueWords(driver, edge.passes, gauges)} ${stopWords(edge, gauges)}`;
}

/** What stops the sortie beyond an edge, by its key; `name` is that of a limit of the deck or of an area. */
function stopWords({ limit, name, phase }: RuleEdge, gauges: Gauges): string {
  const where = phase === null ? '' : lowerFirst(phaseNameOn(gauges, phase));
  const at = where === '' ? '' : ` (${where})`;
  switch (limit) {
    case 'fuelRequired':
      return `the fuel required is not on board${at}`;
    case 'fuel':
      return `the fuel is gone${at}`;
    case 'thrust':
      return `the thrust is not enough${at}`;
    case 'manoeuvre':
      return where === '' ? 'a manoeuvre cannot be flown' : `the ${where} cannot be flown`;
    case 'inletShock':
      return `the inlets expel the shock${at}`;
    case 'area':
      return `the track enters ${name}${at}`;
    case 'runway':
      return 'the runway is too short';
    case 'route':
      return `the leg is too short for what is flown on it${at}`;
    case 'duty':
      return "the crew's duty gets too long";
    case 'oxygen':
      return 'the oxygen does not last with its reserve';
    case 'tankerFuel':
      return `${name} lands below its reserve`;
    default:
      if (limit?.startsWith('outside')) return `the data of the deck or the day end${at}`;
      return `${lowerFirst(name ?? 'a limit')} stops it${at}`;
  }
}

/** What a step costs at a gate, and what one the other way does where there is no straight rule. */
export function costFigures(driver: DriverRule, cost: RuleCost, gauges: Gauges): readonly string[] {
  if (!isBothWays(driver)) return [costWords(cost.perStepKg, gauges)];
  const [more, less] = [cost.moreKg, cost.lessKg].map((kg) => costWords(kg, gauges));
  return more === less ? [more] : [more, `below ${less}`];
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
      ...driver.costs.map((cost) => costFigures(driver, cost, gauges).join(', ')),
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

/** What one driver does at one gate: what a step costs, the same on the standard day, and from where to where that is straight. */
export interface RuleAtGate {
  readonly cost: string;
  readonly standard: string;
  readonly straight: string;
}

export interface RuleRow {
  readonly step: string;
  readonly gates: readonly RuleAtGate[];
  /** One for each way looked at: the value, and what stops the sortie beyond it; empty where nothing does. */
  readonly edges: readonly { readonly upTo: string; readonly beyond: string }[];
}

/** All that is known of each driver, for a page. */
export function ruleRows({ drivers }: Rules, gauges: Gauges): readonly RuleRow[] {
  return drivers.map((driver) => ({
    step: stepWords(driver, gauges),
    gates: driver.costs.map((cost): RuleAtGate => {
      const { standardPerStepKg: standardKg, straight } = cost;
      const bothWays = isBothWays(driver);
      return {
        cost: costFigures(driver, cost, gauges).join(', '),
        standard: standardKg === null || bothWays ? '' : costWords(standardKg, gauges),
        straight: straight === null || bothWays ? '' : rangeWords(driver, straight, gauges),
      };
    }),
    edges: driver.edges.map((edge) => ({
      upTo: valueWords(driver, edge.passes ?? edge.lookedTo, gauges),
      beyond: edge.passes === null ? 'no limit so far' : stopWords(edge, gauges),
    })),
  }));
}

/** What a step of each driver costs at each moment that a crew marks. */
export function ruleMarksTable({ drivers }: Rules, gauges: Gauges): Table {
  const [first] = drivers;
  const { shortUnit } = gauges('fuelKg');
  return {
    title: 'What a step costs at each moment',
    columns: [
      { name: 'moment', unit: '', align: 'left' },
      { name: 'time', unit: 'h:min', align: 'right' },
      ...drivers.map((driver) => ({
        name: lowerFirst(stepWords(driver, gauges).replace(/^Each /, '')),
        unit: shortUnit,
        align: 'right' as const,
      })),
    ],
    rows: (first?.marks ?? []).map(({ name, kind, timeS }, i) => [
      kind === 'contact' || kind === 'disconnect' ? `${kind} ${name}` : name,
      hoursMinutes(timeS),
      ...drivers.map(({ marks }) => costWords(marks[i]?.perStepKg ?? null, gauges)),
    ]),
  };
}

/** The narrowest of the ranges at its gates. */
export function straightWords(driver: DriverRule, gauges: Gauges): string {
  const ranges = driver.costs.flatMap(({ straight }) => (straight === null ? [] : [straight]));
  if (ranges.length === 0) return '\u2013';
  const from = Math.max(...ranges.map((range) => range.from));
  const to = Math.min(...ranges.map((range) => range.to));
  return rangeWords(driver, { from, to }, gauges);
}

function rangeWords(driver: DriverRule, { from, to }: { from: number; to: number }, gauges: Gauges): string {
  if (Math.max(-from, to) < driver.step / 2) return 'not straight';
  return `${from === 0 ? '0' : valueWords(driver, from, gauges)} to ${valueWords(driver, to, gauges)}`;
}

/**
 * The check cards: is everything on schedule. One for each moment before the run, at which there is time to act on it, and one
 * with a row for each moment of the climb; the crew's own steps stand at their moments.
 */
import type { CheckMoment, CheckReading, Plan } from '../../core/plan/plan.ts';
import { lowerFirst, powerWords, upperFirst } from '../names.ts';
import { clock, hoursMinutes } from '../time.ts';
import { type Gauge, gaugesOf, margin, NOT_COMPUTED, read, shown } from '../units.ts';
import {
  BLANK,
  type Card,
  type CardColumn,
  type Cell,
  cell,
  MOST_COLUMNS,
  MOST_ROWS,
  part,
  split,
  words,
} from './card.ts';

const NAMES: Readonly<Record<CheckMoment['kind'], string>> = {
  disconnect: 'disconnect',
  burner: 'burner lit',
  dragRise: 'before the drag rise',
  inletStart: 'inlet starts',
  gate: '',
  levelOff: 'level',
};
/** Heads of narrow columns, where they are not the name. */
const HEADS: Readonly<Record<string, string>> = { inletTemperature: 'Inlet temp.', fuel: 'Fuel' };
/** What has a card of its own; the rest is passed in the climb. */
const BEFORE: readonly CheckMoment['kind'][] = ['disconnect', 'burner', 'dragRise'];
const QUESTION = 'Is everything on schedule?';

export function checkCards(plan: Plan, leg: number): readonly Card[] {
  const moments = plan.checks.filter((moment) => moment.leg === leg);
  const before = moments.filter(({ kind }) => BEFORE.includes(kind));
  const climb = moments.filter((moment) => !BEFORE.includes(moment.kind) && !isTold(moment, moments));
  return [
    ...before.flatMap((moment) => momentCards(plan, moment)),
    ...(climb.length === 0 ? [] : climbingCards(plan, climb)),
  ];
}

/** A gate without steps of its own at the Mach at which the inlet starts. */
function isTold(
  { kind, mach, stepsBefore, stepsAfter }: CheckMoment,
  moments: readonly CheckMoment[],
): boolean {
  if (kind !== 'gate' || stepsBefore.length + stepsAfter.length > 0) return false;
  return moments.some((other) => other.kind === 'inletStart' && Math.abs(other.mach - mach) < 1e-6);
}

/** The readings of one kind at one moment, each side once; one where all sides read the same. */
interface Item {
  readonly name: string;
  readonly gauge: Gauge;
  readonly reading: CheckReading;
}

function itemsOf(plan: Plan, { readings }: CheckMoment): readonly Item[] {
  const gauges = gaugesOf(plan);
  return [...new Set(readings.map(({ of }) => of))].flatMap((of) => {
    const sides = readings.filter((reading) => reading.of === of);
    const gauge = gauges(sides[0].quantity);
    const texts = new Set(sides.map((reading) => expected(gauge, reading)));
    const name = (side: string | null) => (side === null ? sides[0].name : `${sides[0].name}, ${side}`);
    if (texts.size > 1) return sides.map((reading) => ({ name: name(reading.side), gauge, reading }));
    const side = sides.length > 1 ? sides.map((reading) => reading.side).join(' and ') : sides[0].side;
    return [{ name: name(side), gauge, reading: sides[0] }];
  });
}

/** Fuel on board is what is available; all else is read as it is. */
function expected(gauge: Gauge, { of, expected: si }: CheckReading): string {
  return read(gauge, si, of === 'fuel' ? 'available' : 'nearest');
}

/** The standard day's figure where it is further off than half of what is allowed, or than a step of the gauge. */
function standardText(gauge: Gauge, { expected: today, standard, tolerance }: CheckReading): string {
  if (today === null || standard === null) return '';
  const allowed = tolerance === null ? gauge.step : gauge.differenceFromSi(tolerance) / 2;
  const off = Math.abs(gauge.differenceFromSi(standard - today));
  return off > allowed ? `ISA ${read(gauge, standard)}` : '';
}

/** A degree sign alone behind a large figure would be lost. */
function unitWord(unit: string): string {
  return unit === '°' ? 'deg' : unit;
}

function itemRow({ name, gauge, reading }: Item): readonly Cell[] {
  const { tolerance, action, reason } = reading;
  const within = margin(gauge, tolerance);
  return [
    words(name),
    reason === null
      ? cell(expected(gauge, reading), standardText(gauge, reading), unitWord(gauge.shortUnit))
      : words(NOT_COMPUTED, reason),
    tolerance === null ? words('not stated') : cell(within.figure, '', unitWord(within.unit)),
    words(action ?? 'not stated'),
  ];
}

function momentCards(plan: Plan, moment: CheckMoment): readonly Card[] {
  const step = (text: string): readonly Cell[] => [words(text), BLANK, BLANK, BLANK];
  const rows = [
    ...moment.stepsBefore.map(step),
    ...itemsOf(plan, moment).map(itemRow),
    ...moment.stepsAfter.map(step),
  ];
  const pieces = split(rows, MOST_ROWS);
  return pieces.map((piece, i) => ({
    title: `Check, leg ${moment.leg + 1}: ${NAMES[moment.kind]}${part(i, pieces.length)}`,
    question: QUESTION,
    answer: [whereAndWhen(plan, moment), enginesAt(plan, moment)],
    table: {
      columns: [
        { name: 'Check', unit: 'or step', holds: 'words' },
        { name: 'Expect', unit: 'today', holds: 'figures' },
        { name: 'Within', unit: 'to each side', holds: 'figures' },
        { name: 'If not', unit: '', holds: 'words' },
      ],
      rows: piece,
    },
    notes: [
      'Small, the standard day at the same Mach, height and power, where it differs by more than half of what is allowed. What is allowed is rounded down.',
    ],
  }));
}

function whereAndWhen(plan: Plan, moment: CheckMoment): string {
  const gauges = gaugesOf(plan);
  const offset = margin(gauges('temperatureOffsetK'), moment.temperatureOffsetK).text;
  const isa = offset.startsWith('−') ? offset : `+${offset}`;
  const when = `${hoursMinutes(moment.timeS)} (${clock(plan.takeOff, moment.timeS)})`;
  const height = shown(gauges('pressureAltitudeM'), moment.pressureAltitudeM);
  return `${when}, ${shown(gauges('mach'), moment.mach)} at ${height}, ISA ${isa}.`;
}

function enginesAt(plan: Plan, { engines }: CheckMoment): string {
  const powers = engines.map(({ name, power }) => ({ name, power: powerWords(plan, power) }));
  if (powers.every(({ power }) => power === powers[0].power)) {
    return `${powers.length === 1 ? 'Engine' : 'Every engine'} at ${powers[0].power}.`;
  }
  return `${upperFirst(powers.map(({ name, power }) => `${name} engine at ${power}`).join(', '))}.`;
}

/** Two kinds of readings in one column, the second below the first. */
type Pair = readonly [string, string | undefined];

/** Engines and inlet in the deck's order, then temperatures, then fuel and its balance. */
function pairsOf({ readings }: CheckMoment): readonly Pair[] {
  const last: readonly Pair[] = [
    ['inletTemperature', 'staticTemperature'],
    ['fuel', 'centreOfGravity'],
  ];
  const named = new Set(last.flat());
  const first = [...new Set(readings.map(({ of }) => of))].filter((of) => !named.has(of));
  const pairs = first.flatMap((of, i): readonly Pair[] => (i % 2 === 0 ? [[of, first[i + 1]]] : []));
  return [...pairs, ...last];
}

function climbingCards(plan: Plan, climb: readonly CheckMoment[]): readonly Card[] {
  const groups = split(pairsOf(climb[0]), MOST_COLUMNS - 1);
  const cards = groups.flatMap((pairs) => {
    const step = (text: string): readonly Cell[] => [words(text), ...pairs.map(() => BLANK)];
    const rows = climb.flatMap((moment) => [
      ...moment.stepsBefore.map(step),
      climbingRow(plan, moment, pairs),
      ...moment.stepsAfter.map(step),
    ]);
    const columns: readonly CardColumn[] = [
      { name: 'Mach', unit: 'h:min below, or step', holds: 'figures' },
      ...pairs.map((pair) => pairColumn(plan, climb, pair)),
    ];
    return split(rows, MOST_ROWS).map((piece) => ({ pairs, table: { columns, rows: piece } }));
  });
  return cards.map(({ pairs, table }, i) => ({
    title: `Check, leg ${climb[0].leg + 1}: in the climb${part(i, cards.length)}`,
    question: QUESTION,
    answer: [enginesIn(plan, climb)],
    table,
    notes: actions(climb, pairs),
  }));
}

function climbingRow(plan: Plan, moment: CheckMoment, pairs: readonly Pair[]): readonly Cell[] {
  const items = itemsOf(plan, moment);
  const text = (of: string | undefined): string =>
    items
      .filter(({ reading }) => reading.of === of)
      .map(({ gauge, reading }) => expected(gauge, reading))
      .join(' / ');
  const below = [hoursMinutes(moment.timeS), NAMES[moment.kind]].filter((part) => part !== '').join(' ');
  return [
    cell(read(gaugesOf(plan)('mach'), moment.mach), below),
    ...pairs.map(([above, below]) => cell(text(above), text(below))),
  ];
}

/** The power of the climb, and that of its last moment where it is another. */
function enginesIn(plan: Plan, climb: readonly CheckMoment[]): string {
  const [first, last] = [climb[0], climb[climb.length - 1]].map((moment) => enginesAt(plan, moment));
  return first === last ? first : `${first} In the last row: ${lowerFirst(last)}`;
}

/** Both readings with their unit and the least that is allowed at any moment of the climb. */
function pairColumn(plan: Plan, climb: readonly CheckMoment[], [above, below]: Pair): CardColumn {
  const first = climb[0].readings.find(({ of }) => of === above);
  const second = climb[0].readings.find(({ of }) => of === below);
  return {
    name: first === undefined ? '' : (HEADS[first.of] ?? first.name),
    unit: [
      ...(first === undefined ? [] : [unitWithin(plan, climb, first)]),
      ...(second === undefined
        ? []
        : [`${lowerFirst(second.name)} below, ${unitWithin(plan, climb, second)}`]),
    ].join('; '),
    holds: 'figures',
  };
}

/** "kg/min ± 6". */
function unitWithin(plan: Plan, climb: readonly CheckMoment[], { of, quantity }: CheckReading): string {
  const gauge = gaugesOf(plan)(quantity);
  const all = readingsOf(climb, of).flatMap(({ tolerance }) => tolerance ?? []);
  const unit = unitWord(gauge.shortUnit);
  return all.length === 0 ? unit : `${unit} ±\u00a0${margin(gauge, Math.min(...all)).figure}`;
}

function actions(climb: readonly CheckMoment[], pairs: readonly Pair[]): readonly string[] {
  const texts = shownIn(climb[0], pairs).flatMap(({ of, name }) => {
    const all = [...new Set(readingsOf(climb, of).flatMap(({ action }) => action ?? []))];
    return all.length === 0 ? [] : [`${name}: ${lowerFirst(all.join(' '))}`];
  });
  return [
    ...(texts.length === 0 ? [] : [`If not: ${texts.join(' ')}`]),
    'Of each engine and each side of the inlet. Fuel on board is rounded down, what is allowed likewise.',
  ];
}

function readingsOf(climb: readonly CheckMoment[], of: string): readonly CheckReading[] {
  return climb.flatMap(({ readings }) => readings.filter((reading) => reading.of === of));
}

/** The readings of the columns, one for all sides. */
function shownIn({ readings }: CheckMoment, pairs: readonly Pair[]): readonly CheckReading[] {
  return pairs.flat().flatMap((of) => readings.find((reading) => reading.of === of) ?? []);
}

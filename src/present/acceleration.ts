/** How to go through the drag rise, in words and rows: the pushover, what it saves, and the heading. */
import type { AccelerationWay, HeadingRow, LegAcceleration } from '../core/plan/acceleration.ts';
import type { Plan } from '../core/plan/plan.ts';
import { courseWords, threeFigures } from './course.ts';
import { limitName, lowerFirst } from './names.ts';
import { type Column, type Table, tableText } from './table.ts';
import { minutesSeconds } from './time.ts';
import { figures, gaugesOf, NOT_COMPUTED, plainSpaces, read, shown } from './units.ts';
import { wrap } from './wrap.ts';

const WIDTH = 96;

export function accelerationText(legs: readonly LegAcceleration[], plan: Plan): string {
  const paragraphs = legs.flatMap((leg) => [
    `${leg.name}, leg ${leg.leg + 1}.`,
    ...accelerationSentences(leg, plan),
    tableText(wayTable(leg, plan), WIDTH),
    tableText(headingTable(leg, plan), WIDTH),
  ]);
  const all = paragraphs.length > 0 ? paragraphs : ['No leg has a supersonic climb.'];
  const text = [...all, plan.caution].map((paragraph) =>
    paragraph.includes('\n') ? paragraph : wrap(paragraph, (part) => part.length, WIDTH).join('\n'),
  );
  return `${plainSpaces(text.join('\n\n'))}\n`;
}

/** The answers: the heading, then the pushover and why the search stopped. */
export function accelerationSentences(leg: LegAcceleration, plan: Plan): readonly string[] {
  return [...headingSentences(leg, plan), ...waySentences(leg, plan), searchSentence(leg, plan)];
}

/** "Accelerate on 227° magnetic (225° true): 130 kg less to M 1.60 than on the planned course ...". */
export function headingSentences(leg: LegAcceleration, plan: Plan): readonly string[] {
  const { headings, bestHeading, bestHeadingWithWay, plannedHeading } = leg;
  if (bestHeading === null) return ['The acceleration can be flown on no heading.'];
  const best = headings[bestHeading];
  const gauges = gaugesOf(plan);
  const mach = shown(gauges('mach'), leg.toMach);
  if (best.fuelKg === null || plannedHeading.fuelKg === null) {
    return [`Least fuel to ${mach}: on ${courseWords(best)}. On the planned course it cannot be flown.`];
  }
  const lessKg = plannedHeading.fuelKg - best.fuelKg;
  const planned = `the planned course, ${courseWords(plannedHeading)}`;
  const first =
    lessKg < gauges('fuelKg').step
      ? `No heading burns less to ${mach} than ${planned}, by as much as ${gauges('fuelKg').step} ${gauges('fuelKg').unit}.`
      : `Accelerate on ${courseWords(best)}: ${shown(gauges('fuelKg'), lessKg, 'available')} less to ${mach} than on ${planned}${farther(leg, best, plan)}.`;
  const way = bestHeadingWithWay === null ? null : headings[bestHeadingWithWay];
  if (way === null || way.fuelWithWayKg === null || plannedHeading.fuelWithWayKg === null) return [first];
  const savedKg = plannedHeading.fuelWithWayKg - way.fuelWithWayKg;
  const second =
    savedKg < gauges('fuelKg').step
      ? `With the way to ${leg.next} as the cruise burns it, no heading is better than the planned course.`
      : `With the way to ${leg.next} as the cruise burns it, ${courseWords(way)} is best: ${shown(gauges('fuelKg'), savedKg, 'available')} less, without the turn.`;
  return [first, second];
}

function farther({ plannedHeading, next }: LegAcceleration, best: HeadingRow, plan: Plan): string {
  if (best.toNextM === null || plannedHeading.toNextM === null) return '';
  const moreM = best.toNextM - plannedHeading.toNextM;
  const distance = shown(gaugesOf(plan)('distanceM'), Math.abs(moreM));
  return `, and ends ${distance} ${moreM > 0 ? 'farther from' : 'nearer to'} ${next}`;
}

function waySentences(leg: LegAcceleration, plan: Plan): readonly string[] {
  const { bestPushover, bestLevel, planned } = leg;
  const gauges = gaugesOf(plan);
  const [fuel, altitude, mach] = ['fuelKg', 'pressureAltitudeM', 'mach'].map(gauges);
  const less = (kg: number) => {
    if (Math.abs(fuel.differenceFromSi(kg)) < fuel.step) return 'as much as';
    return kg < 0 ? `${shown(fuel, -kg)} more than` : `${shown(fuel, kg, 'available')} less than`;
  };
  if (bestPushover === null || bestPushover.fuelKg === null) {
    const why = leg.search.refusals[0];
    return [`No pushover can be flown${why === undefined ? '' : `: ${heldWords(plan, why)}`}.`];
  }
  const start = `Pushover from ${shown(altitude, leg.from.pressureAltitudeM)}: push at ${shown(mach, bestPushover.mach ?? leg.from.mach)} with ${shown(gauges('loadFactor'), leg.pushLoadFactor)} to ${shown(gauges('pathAngleDeg'), bestPushover.pathAngleDeg ?? Number.NaN)}`;
  const pull = `pull ${shown(gauges('loadFactor'), leg.pullLoadFactor)} at ${altitudeWords(plan, bestPushover.pullPressureAltitudeM)}, level at ${shown(altitude, bestPushover.pressureAltitudeM)} with ${shown(mach, bestPushover.bottomMach ?? Number.NaN)}`;
  const beside = [
    ...(planned.fuelKg === null ? [] : [`${less(planned.fuelKg - bestPushover.fuelKg)} the planned one`]),
    ...(bestLevel === null || bestLevel.fuelKg === null
      ? ['and no level acceleration can be flown']
      : [
          `${less(bestLevel.fuelKg - bestPushover.fuelKg)} going level at ${shown(altitude, bestLevel.pressureAltitudeM)}, the best of all heights`,
        ]),
  ];
  return [`${start}, ${pull}. To ${shown(mach, leg.toMach)} that burns ${beside.join(', ')}.`];
}

function altitudeWords(plan: Plan, metres: number | null): string {
  return metres === null ? NOT_COMPUTED : shown(gaugesOf(plan)('pressureAltitudeM'), metres);
}

const SIDES = {
  mach: ['a slower push', 'a faster push'],
  pathAngleDeg: ['a steeper path', 'a flatter path'],
  bottomPressureAltitudeM: ['a lower bottom', 'a higher bottom'],
} as const;

/** Why the search stopped: what each step would do. */
function searchSentence({ search }: LegAcceleration, plan: Plan): string {
  const gauges = gaugesOf(plan);
  const steps = [
    `${search.stepMach} Mach`,
    `${search.stepDeg} deg`,
    `${figures(gauges('pressureAltitudeM'), gauges('pressureAltitudeM').differenceFromSi(search.stepM), 'nearest', 10)} ${gauges('pressureAltitudeM').shortUnit}`,
  ];
  const around = search.neighbours.map(({ variable, by, moreKg, heldBy }) => {
    const side = SIDES[variable][by < 0 ? 0 : 1];
    if (heldBy !== null) return `${side} is refused by ${heldWords(plan, heldBy)}`;
    const kg = gauges('fuelKg').differenceFromSi(moreKg ?? Number.NaN);
    return `${side} burns ${figures(gauges('fuelKg'), kg, 'nearest', 0.1)} ${gauges('fuelKg').unit} more`;
  });
  const tried = `The search flew ${search.flights} pushovers`;
  if (around.length === 0) return `${tried}.`;
  return `${tried} and stopped where none that differs by ${steps.join(', ')} in any of the three burns less: ${around.join('; ')}.`;
}

const HELD: Readonly<Record<string, string>> = {
  range: 'the start of the push or the range of the search',
  manoeuvre: 'the room for the manoeuvre',
  thrust: 'thrust',
  fuel: 'fuel',
};

function heldWords(plan: Plan, reason: string): string {
  const [kind, key] = reason.split(':');
  if (kind === 'limit') return `the limit of ${lowerFirst(limitName(plan, key))}`;
  if (kind === 'outside') return `the end of the data (${key})`;
  return HELD[reason] ?? lowerFirst(reason);
}

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });
const word = (name: string): Column => ({ name, unit: '', align: 'left' });

/** The planned way, the best level one and the best pushover, to one Mach on the climb's schedule. */
export function wayTable(leg: LegAcceleration, plan: Plan): Table {
  const gauges = gaugesOf(plan);
  const [fuel, altitude, mach, angle, distance] = [
    'fuelKg',
    'pressureAltitudeM',
    'mach',
    'pathAngleDeg',
    'distanceM',
  ].map(gauges);
  const ways: readonly [string, AccelerationWay | null][] = [
    ['as planned', leg.planned],
    ['best level', leg.bestLevel],
    ['best pushover', leg.bestPushover],
  ];
  return {
    title: `From ${plainSpaces(`${shown(mach, leg.from.mach)}, ${shown(altitude, leg.from.pressureAltitudeM)}`)} to ${plainSpaces(shown(mach, leg.toMach))} on the climb`,
    columns: [
      word('way'),
      number('push', 'Mach'),
      number('path', angle.shortUnit),
      number('pull at', altitude.shortUnit),
      number('level at', altitude.shortUnit),
      number('there', 'Mach'),
      number('fuel', fuel.unit),
      number('time', 'min:s'),
      number('distance', distance.unit),
    ],
    rows: ways.flatMap(([name, way]) => {
      if (way === null) return [];
      const maybe = (gauge: typeof fuel, si: number | null) => (si === null ? '' : read(gauge, si));
      return [
        [
          way.refused === null ? name : `${name}: refused by ${heldWords(plan, way.refused.reason)}`,
          maybe(mach, way.mach),
          maybe(angle, way.pathAngleDeg),
          maybe(altitude, way.pullPressureAltitudeM),
          read(altitude, way.pressureAltitudeM),
          maybe(mach, way.bottomMach),
          way.fuelKg === null ? '' : figures(fuel, fuel.fromSi(way.fuelKg), 'required', 1),
          way.durationS === null ? '' : minutesSeconds(way.durationS),
          maybe(distance, way.distanceM),
        ],
      ];
    }),
  };
}

/** Every heading: fuel to the Mach, what the wind gave on the way, and how far it then is. */
export function headingTable(leg: LegAcceleration, plan: Plan): Table {
  const gauges = gaugesOf(plan);
  const [fuel, energy, distance] = ['fuelKg', 'energyHeightM', 'distanceM'].map(gauges);
  const rowOf = (row: HeadingRow, name: string): string[] => [
    name,
    threeFigures(row.courseDeg),
    row.magneticDeg === null ? '' : threeFigures(row.magneticDeg),
    row.fuelKg === null ? '' : figures(fuel, fuel.fromSi(row.fuelKg), 'required', 1),
    row.windEnergyM === null ? '' : figures(energy, energy.fromSi(row.windEnergyM), 'nearest', 10),
    row.toNextM === null ? '' : read(distance, row.toNextM),
    row.fuelWithWayKg === null ? '' : figures(fuel, fuel.fromSi(row.fuelWithWayKg), 'required', 1),
  ];
  const marked = (row: HeadingRow, i: number): string =>
    row.refused === null ? (i === leg.bestHeading ? 'least' : '') : row.refused.text;
  return {
    title: `Fuel to ${plainSpaces(shown(gauges('mach'), leg.toMach))} by heading, straight from the start of the leg`,
    columns: [
      word('heading'),
      number('true', 'deg'),
      number('magnetic', 'deg'),
      number('fuel', fuel.unit),
      number('from the wind', energy.shortUnit),
      number(`to ${leg.next}`, distance.unit),
      number('fuel with that way', fuel.unit),
    ],
    rows: [
      ...leg.headings.map((row, i) => rowOf(row, marked(row, i))),
      rowOf(leg.plannedHeading, 'as planned'),
    ],
  };
}

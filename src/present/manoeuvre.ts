/** A manoeuvre that was judged, and manoeuvres by fuel on board, in words and as tables. */
import type { BoundKey, JudgedManoeuvre, ManoeuvreBound } from '../core/plan/manoeuvre-judge.ts';
import type {
  GaugeSpeeds,
  LeastSpeeds,
  LoadFactorBounds,
  ManoeuvreEnvelope,
  ManoeuvreTable,
  Plan,
} from '../core/plan/plan.ts';
import { lowerFirst } from './names.ts';
import type { Column, Table } from './table.ts';
import { figures, type Gauge, type Gauges, margin, read, shown } from './units.ts';

/** Speeds below Mach 1 are asked for in calibrated airspeed. */
const AIRSPEED = 'calibratedAirspeedMS';

const BOUND_WORDS: Readonly<Record<BoundKey, string>> = {
  entry: 'Stall warning while entered',
  warning: 'Stall warning, steady',
  push: 'Pusher',
  rolling: 'Structure, rolling',
  symmetric: 'Structure, wings level',
  held: 'Held to by the sortie',
};

/** "1.40 g", "40°", "Level": how a manoeuvre is named. */
export function namedWords(gauges: Gauges, { named, loadFactor, bankDeg }: LeastSpeeds): string {
  if (named === 'level') return '1 g';
  return named === 'bank'
    ? `${read(gauges('bankDeg'), bankDeg)}°`
    : `${figures(gauges('loadFactor'), loadFactor, 'nearest', 0.1)}\u00a0g`;
}

/** Speed as required: rounded up; "none" where the tables have none. */
export function leastSpeed(gauges: Gauges, speeds: GaugeSpeeds | null): string {
  return speeds === null ? 'none' : read(gauges(AIRSPEED), speeds.calibratedAirspeedMS, 'required');
}

/** A height as required, in steps of 100 ft. */
export function heightLost(gauge: Gauge, lostM: number | null): string {
  return lostM === null ? 'not level' : read(gauge, lostM, 'required');
}

export function limitText(gauges: Gauges, loadFactor: number | null): string {
  return loadFactor === null ? 'not computed' : read(gauges('loadFactor'), loadFactor, 'available');
}

/** The greatest bank of a level turn, down to a degree; a dash where even level flight is beyond. */
export function bankText(gauges: Gauges, loadFactor: number | null): string {
  if (loadFactor === null) return 'not computed';
  if (loadFactor < 1) return '–';
  return `${read(gauges('bankDeg'), (Math.acos(1 / loadFactor) * 180) / Math.PI, 'available')}°`;
}

/** What ends an envelope at its fast end. */
export function endWords({ endedBy }: ManoeuvreEnvelope): string {
  return endedBy === null ? 'the end of the tables of the deck' : lowerFirst(endedBy);
}

/** How a push is flown, for those who read its height. */
export const PUSH_NOTE =
  'A push comes in the slowest level turn at that bank; the pusher lowers the load factor as the deck or the sortie says, then the wings are levelled and the pull goes to the stall warning, not into it. Power stays as before the push, none of it afterburner.';

/** The answer first, then each bound, thrust and height in a sentence of its own. */
export function judgedSentences(judged: JudgedManoeuvre, gauges: Gauges): string[] {
  return [
    verdict(judged),
    asked(judged, gauges),
    ...thrust(judged, gauges),
    ...height(judged, gauges),
    ...roll(judged),
  ];
}

function verdict({ allowed, passed, first, bounds, limits }: JudgedManoeuvre): string {
  const name = (key: string) => {
    if (key === 'height') return 'height above the ground';
    const bound = bounds.find((candidate) => candidate.key === key);
    if (bound) return lowerFirst(BOUND_WORDS[bound.key]);
    return lowerFirst(limits.find((limit) => limit.key === key)?.name ?? key);
  };
  const next = first === null ? '' : ` First is ${name(first)}.`;
  if (allowed) return `Allowed.${next}`;
  return passed.length === 0
    ? 'Not allowed: it is beyond the tables of the deck.'
    : `Not allowed: ${passed.map(name).join(', ')}.${next}`;
}

function asked({ at, bankDeg, loadFactor }: JudgedManoeuvre, gauges: Gauges): string {
  const fuel = shown(gauges('fuelKg'), at.fuelKg);
  const cg = Number.isNaN(at.cgFraction) ? '' : `, CG ${shown(gauges('cgFraction'), at.cgFraction)}`;
  const speed = `${shown(gauges(AIRSPEED), at.calibratedAirspeedMS)}, ${shown(gauges('mach'), at.mach)}`;
  return `${shown(gauges('loadFactor'), loadFactor)} at ${shown(gauges('bankDeg'), bankDeg)} of bank, ${speed}, ${shown(gauges('pressureAltitudeM'), at.pressureAltitudeM)}, fuel ${fuel}${cg}.`;
}

function thrust({ thrust: there, loadFactor }: JudgedManoeuvre, gauges: Gauges): string[] {
  if (there === null) return ['Thrust: not computed, beyond the tables of the deck.'];
  const { sustained, accelerationMS2 } = there;
  const most = `${limitText(gauges, sustained)}\u00a0g`;
  if (sustained >= loadFactor) return [`Thrust sustains up to ${most}: speed can be held.`];
  const gauge = gauges(AIRSPEED);
  const perS = figures(gauge, gauge.differenceFromSi(-accelerationMS2), 'required', 0.1);
  return [
    `Thrust sustains no more than ${most}: at all the thrust there is, speed is lost at ${perS}\u00a0kt each second.`,
  ];
}

function height({ height: there }: JudgedManoeuvre, gauges: Gauges): string[] {
  if (there === null) return [];
  const gauge = gauges('geometricHeightM');
  const from = shown(gauges(AIRSPEED), there.from.calibratedAirspeedMS);
  const above =
    there.aboveGroundM === null ? '' : `; there are ${shown(gauge, there.aboveGroundM, 'available')}`;
  if (there.lostM === null)
    return [`A push at this bank, at ${from}, is not level again in the tables of the deck${above}.`];
  const kept = shown(gauge, there.clearanceM, 'required');
  return [
    `A push at this bank comes at ${from} and loses ${shown(gauge, there.lostM, 'required')} until level; with ${kept} kept clear the least height is ${shown(gauge, there.leastHeightM, 'required')}${above}.`,
  ];
}

function roll({ silentRollDegS }: JudgedManoeuvre): string[] {
  if (silentRollDegS === null) return [];
  return [
    `Rolled in at no more than ${(Math.floor(silentRollDegS * 10) / 10).toFixed(1)}°/s the warning stays silent.`,
  ];
}

/** Every bound of load factor with its margin, never merged. */
export function boundsTable({ bounds }: JudgedManoeuvre, gauges: Gauges): Table {
  const angle = gauges('angleOfAttackDeg');
  return {
    title: 'Load factor',
    columns: [
      words('Bound'),
      number('At', 'g'),
      number('Bank', 'level turn'),
      number('Margin', 'g'),
      number('Margin', '° of angle'),
      words('From'),
    ],
    rows: bounds.map((bound) => [
      BOUND_WORDS[bound.key],
      limitText(gauges, bound.loadFactor),
      bankText(gauges, bound.loadFactor),
      margin(gauges('loadFactor'), bound.margin).figure,
      angleMargin(angle, bound),
      bound.source,
    ]),
  };
}

function angleMargin(gauge: Gauge, { angleMarginDeg }: ManoeuvreBound): string {
  return angleMarginDeg === null ? '' : margin(gauge, angleMarginDeg).figure;
}

/** The other limits of the deck, in their gauges' units. */
export function limitsThereTable({ limits }: JudgedManoeuvre, gauges: Gauges): Table {
  return {
    title: 'Other limits',
    columns: [words('Limit'), number('Is', ''), number('Bound', ''), number('Margin', '')],
    rows: limits.map(({ name, quantity, value, bound, margin: left }) => {
      const gauge = gauges(quantity);
      return [name, shown(gauge, value), shown(gauge, bound), margin(gauge, left).text];
    }),
  };
}

/** Load factors at the speed of a table, by fuel on board. */
export function pullTable(table: ManoeuvreTable, gauges: Gauges): Table {
  const speed = shown(gauges(AIRSPEED), table.at.calibratedAirspeedMS);
  return {
    title: `What may be pulled at ${speed}: g / bank of a level turn`,
    columns: [
      number('Fuel', gauges('fuelKg').shortUnit),
      ...['Warning', 'Push', 'Structure', 'rolling', 'Held to', 'Sustained'].map((name) => number(name, '')),
    ],
    rows: table.rows.map(({ fuelKg, bounds }) => [
      read(gauges('fuelKg'), fuelKg, 'required'),
      ...ORDER.map((key) =>
        bounds[key] === null ? '–' : `${limitText(gauges, bounds[key])} / ${bankText(gauges, bounds[key])}`,
      ),
    ]),
  };
}

/** Least speeds by fuel: warning steady, while entered, push. */
export function speedTable(table: ManoeuvreTable, gauges: Gauges): Table {
  const named = table.rows[0]?.speeds ?? [];
  return {
    title: `How slow: warning / warning while entered / push, ${gauges(AIRSPEED).unit}`,
    columns: [
      number('Fuel', gauges('fuelKg').shortUnit),
      ...named.map((speeds) => number(namedWords(gauges, speeds), '')),
    ],
    rows: table.rows.map(({ fuelKg, speeds }) => [
      read(gauges('fuelKg'), fuelKg, 'required'),
      ...speeds.map(({ warning, entered, push }) =>
        [warning, entered, push].map((speed) => leastSpeed(gauges, speed)).join(' / '),
      ),
    ]),
  };
}

/** What a push costs by fuel and bank. */
export function pushTable(table: ManoeuvreTable, gauges: Gauges): Table {
  const gauge = gauges('geometricHeightM');
  const banks = table.rows[0]?.pushes ?? [];
  return {
    title: `A push until level again: height lost / least height above the ground, ${gauge.shortUnit}`,
    columns: [
      number('Fuel', gauges('fuelKg').shortUnit),
      ...banks.map(({ bankDeg }) =>
        number(bankDeg === 0 ? 'Wings level' : `${read(gauges('bankDeg'), bankDeg)}° of bank`, ''),
      ),
    ],
    rows: table.rows.map(({ fuelKg, pushes }) => [
      read(gauges('fuelKg'), fuelKg, 'required'),
      ...banks.map(({ bankDeg }) => {
        const push = pushes.find((candidate) => candidate.bankDeg === bankDeg);
        if (push === undefined) return 'none';
        return `${heightLost(gauge, push.lostM)} / ${heightLost(gauge, push.leastHeightM)}`;
      }),
    ]),
  };
}

/** The turns of a plan where each comes nearest to the warning, every bound by itself. */
export function turnMarginsTable(plan: Plan, gauges: Gauges): Table {
  return {
    title: 'Turns where they come nearest to the warning, in g',
    columns: [
      words('Turn'),
      ...['Flown', 'Warning', 'Push', 'Structure', 'rolling', 'Held to', 'Sustained'].map((name) =>
        number(name, ''),
      ),
    ],
    rows: plan.turns.map(({ name, nearest: { loadFactor, bounds } }) => [
      name,
      read(gauges('loadFactor'), loadFactor, 'required'),
      ...boundFigures(bounds, gauges),
    ]),
  };
}

const ORDER: readonly (keyof LoadFactorBounds)[] = [
  'warning',
  'push',
  'symmetric',
  'rolling',
  'held',
  'sustained',
];

function boundFigures(bounds: LoadFactorBounds, gauges: Gauges): string[] {
  return ORDER.map((key) => (bounds[key] === null ? '–' : limitText(gauges, bounds[key])));
}

function number(name: string, unit: string): Column {
  return { name, unit, align: 'right' };
}

function words(name: string): Column {
  return { name, unit: '', align: 'left' };
}

/** In contact: whether the receiver can stay on as weight comes, in sentences and as a table. */
import type { ContactLight, ContactRow, ContactStudy, LightCase, Plan } from '../core/plan/plan.ts';
import { powerWords } from './names.ts';
import type { Column, Table } from './table.ts';
import { figures, gaugesOf, NOT_COMPUTED, numeral, read, rounded, type Side, shown } from './units.ts';

/** What a row stands at, where it has a name. */
export const MARKS: Readonly<Record<NonNullable<ContactRow['mark']>, string>> = {
  contact: 'contact',
  dryEnds: 'dry thrust ends',
  lit: 'one lit there',
  othersEnd: 'the other at military',
  litFollows: 'the lit one follows',
  disconnect: 'disconnect',
  marginEnds: 'thrust ends',
  full: 'full tanks',
};

/** A part of one in whole per cent, a margin down. */
export function percent(part: number): string {
  return numeral(rounded(part * 100, 1, 'available'), 1);
}

/** What counts first: how far it goes, the engine to light, what would do instead, where it ends. */
export function contactSentences(plan: Plan, study: ContactStudy): readonly string[] {
  const { dryEndsKg, marginEndsKg, rows } = study;
  const fuel = gaugesOf(plan)('fuelKg');
  const last = rows[rows.length - 1];
  const end =
    marginEndsKg === null
      ? `Full tanks with ${percent(last.margin)}\u00a0% thrust left.`
      : `The offload stops at ${shown(fuel, marginEndsKg, 'available')} taken: there the thrust margin ends.`;
  if (dryEndsKg === null) return [`Dry thrust lasts. ${end}`];
  return [
    `Dry thrust ends at ${shown(fuel, dryEndsKg, 'available')} taken. ${end}`,
    ...lightSentences(plan, study),
    ...followsSentences(plan, study),
    ...descentSentences(plan, study),
  ];
}

function followsSentences(plan: Plan, { litFollowsKg }: ContactStudy): readonly string[] {
  if (litFollowsKg === null) return [];
  const from = shown(gaugesOf(plan)('fuelKg'), litFollowsKg, 'available');
  return [`From ${from} on the dry one stands at military power: more comes from the lit one alone.`];
}

function lightSentences(plan: Plan, { light }: ContactStudy): readonly string[] {
  if (light === null) return [];
  const fuel = gaugesOf(plan)('fuelKg');
  if (light.latestKg === null) return ['No moment to light one burner keeps inside the envelope.'];
  const first = powerWords(plan, light.firstPower);
  return [
    `Light the ${light.engine} one by ${shown(fuel, light.latestKg, 'available')}: the other first to ${first}, when it lights to ${powerWords(plan, light.afterPower)}.`,
  ];
}

function descentSentences(plan: Plan, { descent }: ContactStudy): readonly string[] {
  if (descent === null || !(descent.rateMS < 0)) return [];
  const gauges = gaugesOf(plan);
  const rate = gauges('climbRateMS');
  const altitude = gauges('pressureAltitudeM');
  const down = figures(rate, rate.fromSi(-descent.rateMS), 'required', 10);
  return [
    `Or dry, going down: up to ${down}\u00a0${rate.shortUnit} at the end, ${shown(altitude, descent.lostM, 'required')} in all.`,
  ];
}

/** The rudder that holds one lit engine, beside what there is of it; none where no engine is lit alone or the deck has no rudder. */
export function rudderSentences(plan: Plan, { rows }: ContactStudy): readonly string[] {
  const angle = gaugesOf(plan)('angleDeg');
  const held = rows.flatMap(({ rudderDeg, rudderLimitDeg }) =>
    rudderDeg === null || rudderLimitDeg === null
      ? []
      : [{ asked: Math.abs(rudderDeg), limit: rudderLimitDeg }],
  );
  const worst = held.reduce((a, b) => (b.asked / b.limit > a.asked / a.limit ? b : a), {
    asked: 0,
    limit: 1,
  });
  if (worst.asked === 0) return [];
  const [asked, limit] = [
    figures(angle, angle.differenceFromSi(worst.asked), 'required', 0.1),
    figures(angle, angle.differenceFromSi(worst.limit), 'available', 0.1),
  ];
  return [
    worst.asked > worst.limit
      ? `One lit asks for ${asked}° of rudder, more than the ${limit}° that there are.`
      : `One lit, the rudder holds it with ${asked}° of ${limit}°.`,
  ];
}

/** The step of a light, from when on it can be made, and when a light that fails is seen. */
export function lightNotes(plan: Plan, light: ContactLight): readonly string[] {
  const [thrust, fuel] = ['thrustN', 'fuelKg'].map(gaugesOf(plan));
  return [
    `The step is ${figures(thrust, thrust.fromSi(light.stepN), 'required', 0.1)}\u00a0${thrust.unit}, from military power to the least in afterburner. Not before ${shown(fuel, light.earliestKg, 'required')} taken: the dry one would stand at idle.`,
    `A light that fails is seen after ${numeral(light.failureSeenS, 0.1)} s; then all engines go back to military power.`,
  ];
}

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });

/** Every row, for a terminal and for readers of screens. */
export function contactTable(plan: Plan, study: ContactStudy): Table {
  const gauges = gaugesOf(plan);
  const [fuel, mass, rate] = ['fuelKg', 'massKg', 'climbRateMS'].map(gauges);
  const thrust = gauges('thrustN');
  const force = (newton: number, side: 'required' | 'available') =>
    figures(thrust, thrust.fromSi(newton), side, 0.1);
  const rudder = study.rows.some(({ rudderDeg }) => rudderDeg !== null);
  return {
    title: `${study.tanker}: thrust against mass taken`,
    columns: [
      number('Taken', fuel.unit),
      number('Mass', mass.unit),
      number('Needed', thrust.unit),
      number('All dry', thrust.unit),
      number('One lit', thrust.unit),
      number('Left', '%'),
      number('±', '%'),
      number('More', `${thrust.unit} on the free`),
      number('Less', `${thrust.unit} on the free`),
      number('Rudder', 'deg, + right'),
      number('Descent', rate.unit),
      number('Bank', 'deg at most'),
      { name: 'Where', unit: '', align: 'left' },
    ],
    rows: study.rows.map((row) => [
      read(fuel, row.takenKg, 'available'),
      read(mass, row.massKg),
      force(row.requiredN, 'required'),
      force(row.dryN, 'available'),
      force(row.availableN, 'available'),
      percent(row.margin),
      numeral(rounded(row.marginSpread * 100, 1, 'required'), 1),
      force(row.moreN, 'available'),
      force(row.lessN, 'available'),
      rudder && row.rudderDeg !== null ? numeral(row.rudderDeg, 0.1) : NOT_COMPUTED,
      figures(rate, rate.fromSi(row.descentMS), 'nearest', 10),
      numeral(rounded(row.greatestBankDeg, 1, 'available'), 1),
      row.mark === null ? '' : MARKS[row.mark],
    ]),
  };
}

/** What a light does. */
export const CASES: Readonly<Record<LightCase['name'], string>> = {
  soon: 'lights soon',
  expected: 'lights as expected',
  late: 'lights late',
  fails: 'does not light',
};

/** What one burner lit at the latest does to the place behind the tanker; null where that is not computed. */
export function lightTable(plan: Plan, { light, tanker }: ContactStudy): Table | null {
  if (light === null) return null;
  const gauges = gaugesOf(plan);
  const [length, speed] = [gauges('pressureAltitudeM'), gauges('windSpeedMS')];
  const far = (metres: number | null, side: Side = 'required') =>
    metres === null ? 'lost' : figures(length, length.differenceFromSi(metres), side, 1);
  const fast = (si: number, side: Side = 'required') => figures(speed, speed.differenceFromSi(si), side, 0.1);
  return {
    title: `${tanker}: lighting the ${light.engine} one at the latest`,
    columns: [
      { name: 'It', unit: '', align: 'left' },
      number('After', 's'),
      number('Forward', length.shortUnit),
      number('Aft', length.shortUnit),
      number('Closure', speed.shortUnit),
    ],
    rows: [
      ...light.cases.map(({ name, afterS, foreM, aftM, closureMS }) => [
        CASES[name],
        afterS === null ? `seen ${numeral(light.failureSeenS, 0.1)}` : numeral(afterS, 0.1),
        far(foreM),
        far(aftM),
        fast(closureMS),
      ]),
      [
        'room',
        '',
        far(light.foreLimitM, 'available'),
        far(light.aftLimitM, 'available'),
        fast(light.closureLimitMS, 'available'),
      ],
    ],
  };
}

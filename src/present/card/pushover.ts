/** The pushover card: from where, to which path, with how much, and what ends it early. */
import type { Plan, PushoverPoint, PushoverTable } from '../../core/plan/plan.ts';
import { hoursMinutes, minutesSeconds } from '../time.ts';
import { figures, gaugesOf, read, shown } from '../units.ts';
import { BLANK, type Card, type Cell, cell, words } from './card.ts';

export function pushoverCards(plan: Plan, leg: number): readonly Card[] {
  return plan.pushovers.filter((pushover) => pushover.leg === leg).map((pushover) => cardOf(plan, pushover));
}

function cardOf(plan: Plan, pushover: PushoverTable): Card {
  const gauges = gaugesOf(plan);
  const [altitude, speed, load] = ['pressureAltitudeM', 'equivalentAirspeedMS', 'loadFactor'].map(gauges);
  const angle = gauges('pathAngleDeg');
  const { push, pull, bottom } = pushover;
  return {
    title: `Pushover: ${pushover.name}`,
    question: 'From where, to which path, and when do I pull?',
    answer: stopRule(plan, pushover),
    table: {
      columns: [
        { name: 'Step', unit: '', holds: 'words' },
        { name: 'Altitude', unit: altitude.unit, holds: 'figures' },
        { name: 'Mach', unit: '', holds: 'figures' },
        { name: 'Speed', unit: speed.unit, holds: 'figures' },
        { name: 'With', unit: `${load.unit}, path ${angle.shortUnit}`, holds: 'figures' },
      ],
      rows: [
        pointRow(plan, 'Push', push, cell(read(load, pushover.pushLoadFactor))),
        [words('Hold the path'), BLANK, BLANK, BLANK, cell(read(angle, pushover.pathAngleDeg))],
        pointRow(plan, 'Pull', pull, cell(read(load, pushover.pullLoadFactor))),
        pointRow(plan, 'Level', bottom, BLANK),
      ],
    },
    notes: [
      `Begins ${hoursMinutes(pushover.timeS)} after take-off and lasts ${minutesSeconds(pushover.durationS)}; the load factor builds up by ${figures(load, pushover.onsetPerS, 'nearest', 0.01)} ${load.unit} each second.`,
      ...instead(plan, pushover),
      'The speed for the pull is rounded down, the least speed for its load factor up; altitudes and speeds are those of the plan.',
    ],
  };
}

function pointRow(plan: Plan, name: string, point: PushoverPoint, how: Cell): readonly Cell[] {
  const gauges = gaugesOf(plan);
  return [
    words(name),
    cell(read(gauges('pressureAltitudeM'), point.pressureAltitudeM)),
    cell(read(gauges('mach'), point.mach)),
    cell(read(gauges('equivalentAirspeedMS'), point.equivalentAirspeedMS)),
    how,
  ];
}

/** Pull at the height or at the speed, whichever comes first, and not while the aircraft is too slow for it. */
function stopRule(plan: Plan, { pull, latestPullMS, slowestPullMS, pullLoadFactor }: PushoverTable) {
  const gauges = gaugesOf(plan);
  const speed = gauges('equivalentAirspeedMS');
  const height = shown(gauges('pressureAltitudeM'), pull.pressureAltitudeM);
  const g = shown(gauges('loadFactor'), pullLoadFactor);
  return [
    latestPullMS === null
      ? `Pull at ${height}.`
      : `Pull at ${height} or ${shown(speed, latestPullMS, 'available')}, whichever is first.`,
    ...(slowestPullMS === null
      ? []
      : [`Slower than ${shown(speed, slowestPullMS, 'required')}, pull less than ${g}.`]),
  ];
}

/** What it saves against going level, where both are known. */
function instead(plan: Plan, { instead: by, push }: PushoverTable): readonly string[] {
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const to = `To ${shown(gauges('mach'), by.mach)} on the climb`;
  const at = shown(gauges('pressureAltitudeM'), push.pressureAltitudeM);
  if (by.fuelKg === null) return [];
  const burns = `${to} the pushover burns ${shown(fuel, by.fuelKg, 'required')}`;
  if (by.levelFuelKg === null) return [`${burns}; level at ${at} it cannot be flown: ${by.levelRefused}.`];
  return [`${burns}, level at ${at} ${shown(fuel, by.levelFuelKg, 'required')}.`];
}

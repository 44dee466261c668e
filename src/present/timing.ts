/** Whether a place can be reached on time: seconds that speed and path give each way, in sentences and rows. */
import type { Plan, Timing } from '../core/plan/plan.ts';
import { limitName, lowerFirst } from './names.ts';
import type { Column, Table } from './table.ts';
import { hoursMinutes } from './time.ts';
import { figures, gaugesOf, read } from './units.ts';

/** Seconds are what there is: down. */
export function timingSentence({ to, earlierS, laterBySpeedS, laterByPathS }: Timing): string {
  return `${to}: ${Math.floor(earlierS)} s earlier; later by ${Math.floor(laterBySpeedS)} s of speed or ${Math.floor(laterByPathS)} s of path.`;
}

/** Which limit holds the speed, and from when to when the choice is open. */
export function timingNotes(plan: Plan, { to, heldBy, fromS, toS }: Timing): readonly string[] {
  const open = `To ${to} the choice is open from ${hoursMinutes(fromS)} to ${hoursMinutes(toS)}; what is left goes down to nothing on the way.`;
  return heldBy === null
    ? [open]
    : [open, `To ${to}, ${lowerFirst(limitName(plan, heldBy))} holds the speed.`];
}

/** Fuel burnt in a minute there: what each second more costs is a sixtieth. */
export function perMinute(plan: Plan, { fuelFlowKgS }: Timing): string {
  const fuel = gaugesOf(plan)('fuelKg');
  return `${figures(fuel, fuel.differenceFromSi(fuelFlowKgS * 60), 'required')} ${fuel.shortUnit}/min`;
}

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });

export function timingTable(plan: Plan): Table {
  const [mach, distance] = ['mach', 'distanceM'].map(gaugesOf(plan));
  return {
    title: 'Seconds that speed and path give',
    columns: [
      { name: 'to', unit: '', align: 'left' },
      number('straight stretch', distance.shortUnit),
      number('from', 'h:min'),
      number('to start down', 'h:min'),
      number('earlier', 's'),
      number('by Mach', ''),
      number('later by speed', 's'),
      number('by Mach', ''),
      number('later by dogleg', 's'),
      number('each side', '°'),
      number('burns', 'a minute'),
    ],
    rows: plan.timings.map((row) => [
      row.to,
      read(distance, row.distanceM, 'available'),
      hoursMinutes(row.fromS),
      hoursMinutes(row.toS),
      `${Math.floor(row.earlierS)}`,
      `+${figures(mach, row.fasterMach, 'available')}`,
      `${Math.floor(row.laterBySpeedS)}`,
      `\u2212${figures(mach, row.slowerMach)}`,
      `${Math.floor(row.laterByPathS)}`,
      `${row.doglegDeg}`,
      perMinute(plan, row),
    ]),
  };
}

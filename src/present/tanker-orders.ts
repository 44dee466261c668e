/** What a tanker's crew has to know of a contact, line by line: what, how much, and what belongs to it. */
import type { Plan, TankerOrder } from '../core/plan/plan.ts';
import { courseWords, placeWords } from './course.ts';
import type { Table } from './table.ts';
import { clock, clockSeconds, hoursMinutesSeconds, minutesSeconds } from './time.ts';
import { gaugesOf, margin, shown } from './units.ts';

export type OrderLine = readonly [what: string, value: string, more: string];

/** Where, when, how much. */
export function orderSentences(plan: Plan, order: TankerOrder): readonly string[] {
  const [fuel, altitude] = ['fuelKg', 'pressureAltitudeM'].map(gaugesOf(plan));
  return [
    `Contact ${clock(plan.takeOff, order.timeS)} at ${placeWords(order)}, ${shown(altitude, order.pressureAltitudeM)} pressure altitude.`,
    `Give ${shown(fuel, order.givesKg, 'required')} in ${minutesSeconds(order.durationS)}.`,
  ];
}

export function orderLines(plan: Plan, order: TankerOrder): readonly OrderLine[] {
  const gauges = gaugesOf(plan);
  const [distance, fuel, airspeed] = ['distanceM', 'fuelKg', 'trueAirspeedMS'].map(gauges);
  return [
    ['Track', courseWords(order.track), `over ${shown(distance, order.trackM, 'required')}`],
    [
      'Speed',
      shown(gauges('calibratedAirspeedMS'), order.calibratedAirspeedMS),
      `${shown(airspeed, order.trueAirspeedMS)}; at most ${shown(gauges('mach'), order.maximumMach, 'available')}`,
    ],
    ['Before the turn', 'the other way', `${shown(distance, order.offsetM)} beside the track`],
    [
      'Turn',
      clockSeconds(plan.takeOff, order.turnS),
      `${hoursMinutesSeconds(order.turnS)} after take-off of the receiver; ${minutesSeconds(order.turnTimeS)} at ${shown(gauges('bankDeg'), order.bankDeg)} of bank`,
    ],
    [
      'Range at the turn',
      shown(distance, order.turnRangeM),
      `nose to nose, closing at ${shown(airspeed, order.closureMS)}`,
    ],
    ...ownLines(plan, order),
    ['Left to give', shown(fuel, order.leftKg, 'available'), 'after this contact'],
  ];
}

/** Its own fuel and its way home, with its last contact; where the sortie tells how it flies. */
function ownLines(plan: Plan, order: TankerOrder): readonly OrderLine[] {
  const own = plan.tankerOwn.find(({ tanker }) => tanker === order.tanker);
  const last = plan.tankerOrders.findLast(({ tanker }) => tanker === order.tanker);
  if (own === undefined || last?.leg !== order.leg) return [];
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const { home, overReserveKg, canWaitS } = own;
  const wait: OrderLine = [
    'On station',
    `from ${clock(plan.takeOff, own.onStationS)}`,
    `${shown(fuel, own.waitedKg, 'required')} burnt waiting, ${shown(fuel, own.contactKg, 'required')} in contact`,
  ];
  if (home === null || overReserveKg === null || canWaitS === null) return [wait];
  const latestS = Math.floor((own.leavesS + canWaitS) / 60) * 60;
  return [
    wait,
    [
      `Home to ${home.base}`,
      `leave ${clock(plan.takeOff, own.leavesS)}, land ${clock(plan.takeOff, home.landsS)}`,
      `${shown(gauges('distanceM'), home.distanceM, 'required')}, ${shown(fuel, home.burntKg, 'required')}; ${margin(fuel, overReserveKg).text} over the reserve; leave by ${clock(plan.takeOff, latestS)} at the latest`,
    ],
  ];
}

export function orderTable(plan: Plan, order: TankerOrder): Table {
  return {
    title: `For the crew of ${order.tanker}`,
    columns: ['what', 'as planned', ''].map((name) => ({ name, unit: '', align: 'left' })),
    rows: orderLines(plan, order),
  };
}

/** A card to hand to a tanker's crew: where to be, when to turn, what to give. */
import type { Plan, TankerOrder } from '../../core/plan/plan.ts';
import { courseWords, magneticNotes, placeWords } from '../course.ts';
import { clock, clockSeconds, hoursMinutesSeconds, minutesSeconds } from '../time.ts';
import { gaugesOf, margin, shown } from '../units.ts';
import { type Card, type Cell, words } from './card.ts';

export function tankerCrewCards(plan: Plan, leg: number): readonly Card[] {
  return plan.tankerOrders.filter((order) => order.leg === leg).map((order) => cardOf(plan, order));
}

function row(what: string, value: string, more = ''): readonly Cell[] {
  return [words(what), words(value, more)];
}

/** Its own fuel and its way home, on the card of its last contact; where the sortie tells how it flies. */
function ownRows(plan: Plan, order: TankerOrder): readonly (readonly Cell[])[] {
  const own = plan.tankerOwn.find(({ tanker }) => tanker === order.tanker);
  const last = plan.tankerOrders.findLast(({ tanker }) => tanker === order.tanker);
  if (own === undefined || last !== order) return [];
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const { home, overReserveKg, canWaitS } = own;
  const wait = row(
    'On station',
    `from ${clock(plan.takeOff, own.onStationS)}`,
    `${shown(fuel, own.waitedKg, 'required')} burnt waiting, ${shown(fuel, own.contactKg, 'required')} in contact`,
  );
  if (home === null || overReserveKg === null || canWaitS === null) return [wait];
  const latestS = Math.floor((own.leavesS + canWaitS) / 60) * 60;
  return [
    wait,
    row(
      `Home to ${home.base}`,
      `leave ${clock(plan.takeOff, own.leavesS)}, land ${clock(plan.takeOff, home.landsS)}`,
      `${shown(gauges('distanceM'), home.distanceM, 'required')}, ${shown(fuel, home.burntKg, 'required')}; ${margin(fuel, overReserveKg).text} over the reserve; leave by ${clock(plan.takeOff, latestS)} at the latest`,
    ),
  ];
}

function cardOf(plan: Plan, order: TankerOrder): Card {
  const gauges = gaugesOf(plan);
  const [distance, fuel, altitude] = ['distanceM', 'fuelKg', 'pressureAltitudeM'].map(gauges);
  return {
    title: `For the crew of ${order.tanker}`,
    question: 'Where do we have to be, when do we turn, what do we give?',
    answer: [
      `Contact ${clock(plan.takeOff, order.timeS)} at ${placeWords(order)}, ${shown(altitude, order.pressureAltitudeM)} pressure altitude.`,
      `Give ${shown(fuel, order.givesKg, 'required')} in ${minutesSeconds(order.durationS)}.`,
    ],
    table: {
      columns: [
        { name: 'What', unit: '', holds: 'words' },
        { name: 'As planned', unit: '', holds: 'words' },
      ],
      rows: [
        row('Track', courseWords(order.track), `over ${shown(distance, order.trackM, 'required')}`),
        row(
          'Speed',
          shown(gauges('calibratedAirspeedMS'), order.calibratedAirspeedMS),
          `${shown(gauges('trueAirspeedMS'), order.trueAirspeedMS)}; at most ${shown(gauges('mach'), order.maximumMach, 'available')}`,
        ),
        row('Before the turn', 'the other way', `${shown(distance, order.offsetM)} beside the track`),
        row(
          'Turn',
          clockSeconds(plan.takeOff, order.turnS),
          `${hoursMinutesSeconds(order.turnS)} after take-off of the receiver; ${minutesSeconds(order.turnTimeS)} at ${shown(gauges('bankDeg'), order.bankDeg)} of bank`,
        ),
        row(
          'Range at the turn',
          shown(distance, order.turnRangeM),
          `nose to nose, closing at ${shown(gauges('trueAirspeedMS'), order.closureMS)}`,
        ),
        ...ownRows(plan, order),
        row('Left to give', shown(fuel, order.leftKg, 'available'), 'after this contact'),
      ],
    },
    notes: [
      'The turn is half a circle in still air or in a wind that moves both alike, bank at once; it ends on the track as the receiver arrives, both at the speed of the contact (common practice).',
      ...magneticNotes(plan, [{ name: order.tanker, compass: order.track.compass }]),
    ],
  };
}

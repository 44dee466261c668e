/** A card to hand to a tanker's crew: where to be, when to turn, what to give. */
import type { Plan, TankerOrder } from '../../core/plan/plan.ts';
import { courseWords, magneticNotes, placeWords } from '../course.ts';
import { clock, hoursMinutesSeconds, minutesSeconds } from '../time.ts';
import { gaugesOf, shown } from '../units.ts';
import { type Card, type Cell, words } from './card.ts';

export function tankerCrewCards(plan: Plan, leg: number): readonly Card[] {
  return plan.tankerOrders.filter((order) => order.leg === leg).map((order) => cardOf(plan, order));
}

function cardOf(plan: Plan, order: TankerOrder): Card {
  const gauges = gaugesOf(plan);
  const [distance, fuel, altitude] = ['distanceM', 'fuelKg', 'pressureAltitudeM'].map(gauges);
  const row = (what: string, value: string, more = ''): readonly Cell[] => [words(what), words(value, more)];
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
          hoursMinutesSeconds(order.turnS),
          `after take-off of the receiver; ${minutesSeconds(order.turnTimeS)} at ${shown(gauges('bankDeg'), order.bankDeg)} of bank`,
        ),
        row(
          'Range at the turn',
          shown(distance, order.turnRangeM),
          `nose to nose, closing at ${shown(gauges('trueAirspeedMS'), order.closureMS)}`,
        ),
        row('Left afterwards', shown(fuel, order.leftKg, 'available'), 'of what there is to give'),
      ],
    },
    notes: [
      'The turn is half a circle in still air or in a wind that moves both alike, bank at once; it ends on the track as the receiver arrives, both at the speed of the contact (common practice).',
      ...magneticNotes(plan, [{ name: order.tanker, compass: order.track.compass }]),
    ],
  };
}

/** The inlet card of a leg: what its moving part beside the schedule costs, and where it has to stop. */
import type { Plan } from '../../core/plan/plan.ts';
import { fuelOrWhy, inletSentences, percent, signed } from '../inlet.ts';
import { figures, gaugesOf } from '../units.ts';
import { type Card, type Cell, cell, words } from './card.ts';

export function inletCards(plan: Plan, leg: number): readonly Card[] {
  const { inlet } = plan;
  const flown = inlet?.legs.find((entry) => entry.leg === leg);
  if (!inlet || flown === undefined || flown.rows.length === 0) return [];
  const gauges = gaugesOf(plan);
  const [fuel, angle] = ['fuelKg', 'angleDeg'].map(gauges);
  const [first, ...edges] = inletSentences(inlet, flown, gauges);
  return [
    {
      title: `${inlet.name}: leg ${leg + 1}`,
      question: 'What does an inlet off its schedule cost, and how far?',
      answer: edges,
      table: {
        columns: [
          { name: 'Off by', unit: `${angle.unit}, all sides`, holds: 'figures' },
          { name: 'Thrust', unit: '%, drag below', holds: 'figures' },
          { name: 'Left', unit: `${angle.unit} to expelling`, holds: 'figures' },
          { name: 'Fuel', unit: `${fuel.unit} more, one side below`, holds: 'figures' },
        ],
        rows: flown.rows.map(
          ({ errorDeg, thrustChange, dragChange, shockMarginDeg, ...row }): readonly Cell[] => [
            cell(signed(angle.differenceFromSi(errorDeg))),
            cell(percent(thrustChange), percent(dragChange)),
            cell(figures(angle, angle.differenceFromSi(shockMarginDeg), 'available', 0.1)),
            row.fuelKg === null
              ? words(fuelOrWhy(fuel, row.fuelKg, row.stopped))
              : cell(fuelOrWhy(fuel, row.fuelKg, null), fuelOrWhy(fuel, row.oneInletFuelKg, row.stopped)),
          ],
        ),
      },
      notes: [
        first,
        `Off by: position less schedule, held from the start of the leg to ${flown.to}; flown again with the turns, the altitudes and the start-down of the plan. Thrust at the same power and drag at the greatest Mach; fuel over all of the leg, also where they are nothing there.`,
        'Beyond expelling nothing is flown: that is an inlet not started. Fuel and losses are rounded up, what is left down.',
      ],
    },
  ];
}

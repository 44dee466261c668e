/** The fuel of the day: one number, what full tanks hold, and what it stands on. */
import type { Plan } from '../../core/plan/plan.ts';
import { fuelWords, fullWords, rangeWords } from '../fuel-today.ts';
import { upperFirst } from '../names.ts';
import { gaugesOf, read } from '../units.ts';
import { type Card, type Cell, cell, words } from './card.ts';

export function fuelTodayCards(plan: Plan): readonly Card[] {
  const today = plan.fuelToday;
  if (today === null) return [];
  const [fuel, volume] = ['fuelKg', 'volumeM3'].map(gaugesOf(plan));
  const row = (name: string, below: string, kg: number, volumeM3: number): readonly Cell[] => [
    words(name, below),
    cell(read(fuel, kg, 'available')),
    cell(read(volume, volumeM3)),
  ];
  const range = rangeWords(plan, today);
  return [
    {
      title: 'Fuel today',
      question: 'How much is full?',
      answer: [`Full is ${fullWords(plan, today)}.`, `${upperFirst(fuelWords(plan, today))}.`],
      table: {
        columns: [
          { name: 'What', unit: '', holds: 'words' },
          { name: 'Mass', unit: fuel.unit, holds: 'figures' },
          { name: 'Volume', unit: volume.unit, holds: 'figures' },
        ],
        rows: [
          row('Full today', 'the less of both, tank by tank', today.fullKg, today.fullVolumeM3),
          row('The tanks', 'by mass, and to where they are filled', today.capacityKg, today.tankVolumeM3),
          row('At take-off', 'as planned', today.takeOffKg, today.takeOffVolumeM3),
        ],
      },
      notes: [
        ...(range === '' ? [] : [`Not measured, full is ${range}.`]),
        'One temperature for the fuel on board and in the tankers; room to expand is left as the deck says. Density by ASTM D1250, table 54B, to 90\u00a0°C. Masses are rounded down.',
      ],
    },
  ];
}

/** The card of the balance over the whole flight: the centre of gravity against Mach between its limits. */
import type { Plan } from '../../core/plan/plan.ts';
import { pumpSentences, transferSentences } from '../balance.ts';
import { balanceEnvelope } from '../balance-envelope.ts';
import { lowerFirst } from '../names.ts';
import { clock, hoursMinutes } from '../time.ts';
import { gaugesOf, margin, shown } from '../units.ts';
import type { Card } from './card.ts';
import { plotted } from './plotted.ts';

/** No drawing is made in less than this [mm]. */
const LEAST = 70;

/** None where the deck knows no centre of gravity or has no limits of it. */
export function balanceFlightCards(plan: Plan): readonly Card[] {
  const envelope = balanceEnvelope(plan);
  if (envelope === null || envelope.limits.length === 0) return [];
  const gauges = gaugesOf(plan);
  const [mach, cg] = ['mach', 'cgFraction'].map(gauges);
  const toGauge = (values: readonly number[]) => values.map((value) => cg.fromSi(value));
  return [
    {
      title: 'Balance of the flight',
      question: 'Does the centre of gravity stay inside at every Mach?',
      answer: nearest(plan),
      table: null,
      drawing: {
        least: LEAST,
        says: 'Centre of gravity against Mach along the flight, between its limits; its figures stand on the contact and check cards.',
        marks: (room, measure) =>
          plotted(
            {
              across: 'Mach',
              up: `Centre of gravity [${cg.unit} of the mean chord]`,
              curves: [
                ...envelope.limits.map((limit) => ({
                  name: shortName(limit.name),
                  x: limit.mach.map((value) => mach.fromSi(value)),
                  y: toGauge(limit.bound),
                  weight: 0.35,
                  dash: [2, 1],
                })),
                {
                  name: '',
                  x: envelope.mach.map((value) => mach.fromSi(value)),
                  y: toGauge(envelope.cgFraction),
                  weight: 0.5,
                  dash: [],
                },
              ],
            },
            room,
            measure,
          ),
      },
      notes: [
        'Strong: as flown, from take-off to landing, with what the pumps transfer. Dashed: limits at the Mach and mass flown.',
        ...transferSentences(plan.balance?.transfers ?? [], gauges),
        ...pumpSentences(plan),
      ],
    },
  ];
}

/** "Forward centre of gravity" beside a chart of it is "forward". */
function shortName(name: string): string {
  return lowerFirst(name.replace(/\s*(limit of the )?centre of gravity/i, ''));
}

/** Where the room to each limit is least. */
function nearest(plan: Plan): string[] {
  const gauges = gaugesOf(plan);
  return plan.limits
    .filter(({ quantity }) => quantity === 'cgFraction')
    .map(({ name, leastMargin, timeS, value, phase }) => {
      const left = margin(gauges('cgFraction'), leastMargin);
      const when = `${hoursMinutes(timeS)}, ${clock(plan.takeOff, timeS)}`;
      return `${name}: ${left.text} left at ${when}, ${phase}, at ${shown(gauges('cgFraction'), value)}.`;
    });
}

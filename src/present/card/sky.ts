/** The body and sky card: what light there is, where the sun stands, how far the horizon dips, how long a body needs its suit. */
import type { Plan } from '../../core/plan/plan.ts';
import { threeFigures } from '../course.ts';
import {
  bodySentences,
  changeWords,
  horizonSentence,
  type LitEvent,
  litEventName,
  litEvents,
} from '../light.ts';
import { upperFirst } from '../names.ts';
import { clock, hoursMinutes } from '../time.ts';
import { type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';

export function skyCards(plan: Plan): readonly Card[] {
  const { light } = plan;
  if (light === null) return [];
  const pieces = split(litEvents(plan), MOST_ROWS);
  const changes = light.changes.map((change) => `${upperFirst(changeWords(plan, change))}.`);
  return pieces.map((events, i) => ({
    title: `Body and sky${part(i, pieces.length)}`,
    question: 'What light is there, and where is the sun?',
    answer: [
      changes.length === 0
        ? `${upperFirst(light.start)} from take-off to landing.`
        : `${upperFirst(light.start)} at take-off.`,
      ...changes,
      horizonSentence(plan),
      ...bodySentences(plan),
    ],
    table: {
      columns: [
        { name: 'Where', unit: 'and the light there', holds: 'words' },
        { name: 'Time', unit: 'h:min, UTC below', holds: 'figures' },
        { name: 'Sun', unit: '° above horizontal', holds: 'figures' },
        { name: 'Bearing', unit: '° true', holds: 'figures' },
      ],
      rows: events.map((event) => skyRow(plan, event)),
    },
    notes: [
      'The sun without refraction, which lifts it by half a degree at the horizon and less above. Twilights are counted from the horizon that is seen: at height the sun sets later. Clouds and moon are not in it.',
    ],
  }));
}

function skyRow(plan: Plan, event: LitEvent): readonly Cell[] {
  const { sunElevationDeg: up, sunBearingDeg: bearing, light, timeS } = event;
  return [
    words(`${upperFirst(litEventName(plan, event))}${light === null ? '' : `: ${light}`}`),
    cell(hoursMinutes(timeS), clock(plan.takeOff, timeS)),
    cell(up === null ? 'not computed' : String(Math.round(up)).replace('-', '−')),
    cell(bearing === null ? 'not computed' : threeFigures(bearing)),
  ];
}

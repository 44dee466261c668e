/** The cards of reach: after each failure where to go, with how much, and until when; and what an unstart costs. */
import type { Plan, Reach, ReachLadder } from '../../core/plan/plan.ts';
import { upperFirst } from '../names.ts';
import {
  arrivalWords,
  minuteAt,
  nowhereWords,
  openWords,
  reachAfter,
  rudderWords,
  whyNone,
} from '../reach.ts';
import { clock, hoursMinutes } from '../time.ts';
import { figures, type Gauges, gaugesOf, read, shown } from '../units.ts';
import { type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';

/** Columns of fuel on arrival. */
const MOST_MOMENTS = 2;

export function reachCards(plan: Plan): readonly Card[] {
  const { reach } = plan;
  if (!reach) return [];
  return [
    ...reach.ladders.flatMap((ladder) => ladderCards(plan, reach, ladder)),
    ...unstartCards(plan, reach),
  ];
}

function ladderCards(plan: Plan, reach: Reach, ladder: ReachLadder): readonly Card[] {
  const gauges = gaugesOf(plan);
  const { shortUnit } = gauges('fuelKg');
  const moments = momentsOf(plan, reach);
  const pieces = split([...reach.ends.keys()], MOST_ROWS);
  return pieces.map((ends, i) => ({
    title: `Reach: ${ladder.name}${part(i, pieces.length)}`,
    question: 'Where to now, with what, and until when?',
    answer: [`${nowhereWords(reach, ladder, gauges) ?? 'Always somewhere to go'}.`, bestWords(reach, ladder)],
    table: {
      columns: [
        { name: 'To', unit: `has to arrive ${shortUnit}`, holds: 'words' },
        { name: 'Open', unit: 'h:min from take-off', holds: 'words' },
        ...moments.map((minute) => ({
          name: `At ${hoursMinutes(reach.timeS[minute])}`,
          unit: `${clock(plan.takeOff, reach.timeS[minute])}, ${shortUnit}`,
          holds: 'figures' as const,
        })),
      ],
      rows: ends.map((end) => [
        words(reach.ends[end].name, requiredWords(ladder, end, gauges)),
        words(openWords(reach, ladder.choices[end], gauges)),
        ...moments.map((minute) => arrivalCell(reach, ladder, end, minute, gauges)),
      ]),
    },
    notes: [
      `${upperFirst(ladder.source)}. Fuel that arrives if turned away at once, after the approach at a base, at the contact at a tanker; a tanker counts where a base is still in reach if no fuel comes.`,
      'Openings are rounded up to the minute, closings and fuel down. One failure at a time.',
    ],
  }));
}

/** Minutes before each contact, where least is left, and half way through what is flown after them; the last ones. */
function momentsOf({ refuellings }: Plan, reach: Reach): readonly number[] {
  const last = reach.timeS[reach.timeS.length - 1];
  const contacts = refuellings.map(({ contactS }) => contactS);
  const after = refuellings.at(-1)?.disconnectS ?? 0;
  const minutes = [...contacts, (after + last) / 2].map((timeS) => minuteAt(reach, timeS));
  return [...new Set(minutes)].slice(-MOST_MOMENTS);
}

function requiredWords({ choices }: ReachLadder, end: number, gauges: Gauges): string {
  const { requiredKg } = choices[end];
  return requiredKg === null ? '' : read(gauges('fuelKg'), requiredKg, 'required');
}

function arrivalCell(reach: Reach, ladder: ReachLadder, end: number, i: number, gauges: Gauges): Cell {
  const why = whyNone(reach, ladder, end, i, gauges);
  const figure = arrivalWords(ladder.choices[end], i, gauges);
  if (figure === 'none') return words('none', why);
  return cell(
    figure.replace(' low', ''),
    why === '' ? (ladder.best[i] === end ? 'best' : '') : `low: ${why}`,
  );
}

/** "Most in hand: Harrow Flat, from 0:16 Otter Bluff, from 1:15 none." */
function bestWords({ ends, timeS }: Reach, { best }: ReachLadder): string {
  const changes = [...best.keys()].filter((i) => i === 0 || best[i] !== best[i - 1]);
  const name = (i: number) => (best[i] === null ? 'NONE' : ends[best[i] ?? 0].name);
  const spans = changes.map((i) => (i === 0 ? name(i) : `from ${hoursMinutes(timeS[i])} ${name(i)}`));
  return `Most in hand: ${spans.join(', ')}.`;
}

function unstartCards(plan: Plan, reach: Reach): readonly Card[] {
  if (reach.unstarts.length === 0) return [];
  const gauges = gaugesOf(plan);
  const altitude = gauges('pressureAltitudeM');
  // What changes little from row to row is told at as many moments as one card holds.
  const every = Math.ceil(reach.unstarts.length / MOST_ROWS);
  const rows = reach.unstarts.filter((_, i) => i % every === 0);
  return [
    {
      title: 'Unstart',
      question: 'An inlet unstarts: what is lost, and where to then?',
      answer: [],
      table: {
        columns: [
          { name: 'At', unit: 'h:min, UTC below', holds: 'figures' },
          { name: 'Mach lost', unit: 'of Mach below', holds: 'figures' },
          { name: 'Height lost', unit: `${altitude.shortUnit}, restart after below`, holds: 'figures' },
          { name: 'Then in reach', unit: 'yaw and rudder below', holds: 'words' },
        ],
        rows: rows.map((row) => [
          cell(hoursMinutes(row.timeS), clock(plan.takeOff, row.timeS)),
          row.restart === null
            ? words('no restart', `of M ${row.mach.toFixed(2)}`)
            : cell(row.restart.machLost.toFixed(2), `of M ${row.mach.toFixed(2)}`),
          row.restart === null
            ? words('none')
            : cell(
                figures(
                  altitude,
                  altitude.differenceFromSi(Math.max(row.restart.heightLostM, 0)),
                  'required',
                ),
                `${Math.ceil(row.restart.afterS)}\u00a0s, ${shown(gauges('fuelKg'), row.restart.fuelKg, 'required')}`,
              ),
          words(
            reachAfter(reach, row, gauges),
            `${Math.round(Math.abs(row.yawNm) / 1000)}\u00a0kNm, rudder ${rudderWords(row)}°`,
          ),
        ]),
      },
      notes: [
        'The equivalent airspeed of the moment is held at the setting of a descent, straight ahead, until the inlet starts again; then the whole aircraft is turned to each place. Fuel on arrival is rounded down.',
      ],
    },
  ];
}

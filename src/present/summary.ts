/** The plan as text for a terminal, at most 96 columns: the answer first, then what it stands on, last the caution. */
import type { Plan } from '../core/plan/plan.ts';
import { areaSentences } from './areas.ts';
import { crewSentences } from './crew.ts';
import { identityLine, magneticLine, validityLine, weatherLine } from './foot.ts';
import { fuelTodaySentences } from './fuel-today.ts';
import { bodySentences, lightSentences } from './light.ts';
import { phaseName } from './names.ts';
import { stretches } from './phases.ts';
import {
  fuelDifference,
  heldWeatherSentences,
  limitMargin,
  padWords,
  recoverySentences,
  refuellingSentences,
  sentences,
} from './sentences.ts';
import { type Column, type Table, tableText } from './table.ts';
import { hoursMinutes } from './time.ts';
import { gaugesOf, plainSpaces, read, shown } from './units.ts';
import { wrap } from './wrap.ts';

const WIDTH = 96;

export function summary(plan: Plan): string {
  const paragraphs = [
    ...sentences(plan),
    ...recoverySentences(plan),
    ...refuellingSentences(plan),
    ...areaSentences(plan),
    ...lightSentences(plan),
    ...bodySentences(plan),
    ...crewSentences(plan),
    ...fuelTodaySentences(plan),
    `${plan.fingerprint} · ${identityLine(plan)}`,
    tableText(phasesTable(plan), WIDTH),
    ...(plan.limits.length === 0 ? [] : [tableText(limitsTable(plan), WIDTH)]),
    ...heldWeatherSentences(plan),
    ...plan.notComputed.map((text) => `${text}.`),
    `${validityLine(plan)}. ${weatherLine(plan)} ${magneticLine(plan)}`.trimEnd(),
    ...plan.weather.attribution,
    plan.caution,
  ];
  const text = paragraphs.map((paragraph) =>
    paragraph.includes('\n') ? paragraph : wrap(paragraph, (part) => part.length, WIDTH).join('\n'),
  );
  return `${plainSpaces(text.join('\n\n'))}\n`;
}

function number(name: string, unit: string): Column {
  return { name, unit, align: 'right' };
}

function word(name: string): Column {
  return { name, unit: '', align: 'left' };
}

/** Every phase with what it leads to: height, Mach, fuel on board and required at its end. */
function phasesTable(plan: Plan): Table {
  const gauges = gaugesOf(plan);
  const [altitude, mach, fuel, distance] = ['pressureAltitudeM', 'mach', 'fuelKg', 'distanceM'].map(gauges);
  const { timeS, pressureAltitudeM, mach: machs, fuelKg, fuelRequiredKg } = plan.trace.columns;
  const rows = stretches(plan, 'name').map(({ name, distanceM, last }) => {
    const end = lastNode(plan, last);
    return [
      hoursMinutes(timeS[end]),
      name,
      read(altitude, pressureAltitudeM[end]),
      read(mach, machs[end]),
      read(distance, distanceM),
      read(fuel, fuelKg[end], 'available'),
      read(fuel, fuelRequiredKg[end], 'required'),
      fuelDifference(fuel, fuelKg[end], fuelRequiredKg[end]).figure,
    ];
  });
  const columns = [
    number('until', 'h:min'),
    word('phase'),
    number('height', altitude.shortUnit),
    number('Mach', ''),
    number('flown', distance.shortUnit),
    ...['on board', 'required', 'in hand'].map((name) => number(name, fuel.shortUnit)),
  ];
  return { title: 'At the end of each phase (height is pressure altitude)', columns, rows };
}

/** Last node of a phase; the node before it where the phase has none of its own. */
function lastNode(plan: Plan, phase: number): number {
  return Math.max(
    0,
    plan.trace.phase.findLastIndex((of) => of <= phase),
  );
}

function limitsTable(plan: Plan): Table {
  const gauges = gaugesOf(plan);
  const rows = plan.limits.map((limit) => [
    limit.name,
    limitMargin(plan, limit).text,
    `${limit.side === 'upper' ? '≤' : '≥'} ${shown(gauges(limit.quantity), limit.bound)}`,
    padWords(plan, limit),
    hoursMinutes(limit.timeS),
    phaseName(plan, limit.phase),
  ]);
  const columns = [
    word('limit'),
    number('least margin', ''),
    number('limit there', ''),
    word('kept'),
    number('time', ''),
    word('phase'),
  ];
  return { title: 'Limits, the closest first', columns, rows };
}

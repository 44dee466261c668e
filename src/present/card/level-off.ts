/** The level-off card: when to begin to level, and with how much. */
import type { LevelOff, Plan } from '../../core/plan/plan.ts';
import { phaseName } from '../names.ts';
import { hoursMinutes } from '../time.ts';
import { figures, gaugesOf, read } from '../units.ts';
import { type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';

/** A lead is given to a tenth of the altitude's step, up. */
const FINER = 10;

export function levelOffCards(plan: Plan): readonly Card[] {
  if (plan.levelOffs.length === 0) return [];
  const gauges = gaugesOf(plan);
  const [altitude, rate] = ['pressureAltitudeM', 'climbRateMS'].map(gauges);
  const pieces = split(plan.levelOffs, MOST_ROWS);
  return pieces.map((levelOffs, i) => ({
    title: `Level-off${part(i, pieces.length)}`,
    question: 'When do I begin to level, and with how much?',
    answer: [],
    table: {
      columns: [
        { name: 'Out of', unit: 'leg, time', holds: 'words' },
        { name: 'Level at', unit: altitude.unit, holds: 'figures' },
        { name: 'Lead', unit: `${altitude.shortUnit}, ${rate.shortUnit} below`, holds: 'figures' },
        { name: 'Load', unit: gauges('loadFactor').unit, holds: 'figures' },
        { name: 'Mach', unit: 'level', holds: 'figures' },
      ],
      rows: levelOffs.map((levelOff) => levelOffRow(plan, levelOff)),
    },
    notes: [
      'The lead is the height before the altitude at which the load factor begins to change, at the rate of climb or descent below it; twice the rate needs up to four times the lead.',
      `Leads are rounded up to ${altitude.step / FINER} ${altitude.shortUnit}.`,
    ],
  }));
}

function levelOffRow(plan: Plan, levelOff: LevelOff): readonly Cell[] {
  const gauges = gaugesOf(plan);
  const [altitude, rate] = ['pressureAltitudeM', 'climbRateMS'].map(gauges);
  const lead = figures(
    altitude,
    altitude.differenceFromSi(levelOff.leadM),
    'required',
    altitude.step / FINER,
  );
  return [
    words(
      phaseName(plan, levelOff.phase).split(' less ')[0],
      `leg ${levelOff.leg + 1}, ${hoursMinutes(levelOff.timeS)}`,
    ),
    cell(read(altitude, levelOff.pressureAltitudeM)),
    cell(lead, figures(rate, rate.fromSi(levelOff.climbRateMS), 'nearest', 100)),
    cell(read(gauges('loadFactor'), levelOff.loadFactor)),
    cell(read(gauges('mach'), levelOff.mach)),
  ];
}

/** The turn cards: when to roll in, how much bank, and where the wings have to be level. */
import type { JudgedTurn, Plan, TurnFlown } from '../../core/plan/plan.ts';
import { magneticNotes, threeFigures } from '../course.ts';
import { limitText } from '../manoeuvre.ts';
import { upperFirst } from '../names.ts';
import { clock, hoursMinutes, minutesSeconds } from '../time.ts';
import { gaugesOf, margin, read, shown } from '../units.ts';
import { type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';

export function turnCards(plan: Plan, leg: number): readonly Card[] {
  const turns = plan.turns.filter((turn) => turn.leg === leg);
  if (turns.length === 0) return [];
  const pieces = split(turns, MOST_ROWS);
  const gauges = gaugesOf(plan);
  const distance = gauges('radiusM').shortUnit;
  const magnetic = turns.every(({ magneticToDeg }) => magneticToDeg !== null);
  return pieces.map((rows, i) => ({
    title: `Turns, leg ${leg + 1}${part(i, pieces.length)}`,
    question: 'Where do I roll in, and where are the wings level?',
    answer: losses(plan, rows),
    table: {
      columns: [
        { name: 'Turn', unit: 'time, fuel', holds: 'words' },
        { name: 'Roll in', unit: `${distance} before, s below`, holds: 'figures' },
        { name: 'Bank', unit: `°, radius ${distance} below`, holds: 'figures' },
        { name: 'Course', unit: magnetic ? '° magnetic, true below' : '° true', holds: 'figures' },
        { name: 'Roll out', unit: `${distance} beyond, min:s below`, holds: 'figures' },
      ],
      rows: rows.map((turn) => turnRow(plan, turn, magnetic)),
    },
    notes: [
      ...limitedBank(rows),
      worked(plan, rows),
      ...magneticNotes(plan, rows),
      'Roll in lies on the old track before the waypoint, roll out, with the wings level, on the new one beyond it, with the wind of the day; min:s and fuel are from the one to the other.',
    ],
  }));
}

/** What each turn leaves to stall and structure, where it comes nearest to the warning; none without a stall table. */
export function turnMarginCards(plan: Plan, leg: number): readonly Card[] {
  const turns = plan.turns.filter((turn) => turn.leg === leg && turn.nearest.bounds.warning !== null);
  if (turns.length === 0) return [];
  const gauges = gaugesOf(plan);
  const pieces = split(turns, MOST_ROWS);
  const nearest = turns.reduce((least, turn) => (toWarning(turn) < toWarning(least) ? turn : least));
  return pieces.map((rows, i) => ({
    title: `Turns, leg ${leg + 1}: margins${part(i, pieces.length)}`,
    question: 'What may still be pulled in the turn?',
    answer: [
      `${upperFirst(nearest.name)} comes nearest to the warning: ${margin(gauges('loadFactor'), toWarning(nearest)).text} are left.`,
    ],
    table: {
      columns: [
        { name: 'Turn', unit: 'nearest at', holds: 'words' },
        { name: 'Flown', unit: 'g', holds: 'figures' },
        { name: 'Warning', unit: 'g, push below', holds: 'figures' },
        { name: 'Structure', unit: 'g, rolling below', holds: 'figures' },
        { name: 'Thrust', unit: 'g, held to below', holds: 'figures' },
      ],
      rows: rows.map(({ name, nearest: { timeS, loadFactor, bounds } }): readonly Cell[] => [
        words(upperFirst(name), `${hoursMinutes(timeS)}, ${clock(plan.takeOff, timeS)}`),
        cell(read(gauges('loadFactor'), loadFactor, 'required')),
        cell(limitText(gauges, bounds.warning), limitText(gauges, bounds.push)),
        cell(limitText(gauges, bounds.symmetric), limitText(gauges, bounds.rolling)),
        cell(limitText(gauges, bounds.sustained), bounds.held === null ? '' : limitText(gauges, bounds.held)),
      ]),
    },
    notes: [
      'Each bound stands by itself, at the fuel, Mach and height of that moment; thrust is the load factor at which all of it is drag.',
      'Flown is rounded up, what may be pulled down.',
    ],
  }));
}

function toWarning({ nearest: { loadFactor, bounds } }: JudgedTurn): number {
  return (bounds.warning ?? Number.POSITIVE_INFINITY) - loadFactor;
}

function turnRow(plan: Plan, turn: TurnFlown, magnetic: boolean): readonly Cell[] {
  const gauges = gaugesOf(plan);
  const distance = gauges('radiusM');
  const { magneticFromDeg, magneticToDeg, courseFromDeg, courseToDeg } = turn;
  const from = threeFigures(magnetic ? (magneticFromDeg ?? courseFromDeg) : courseFromDeg);
  const to = threeFigures(courseToDeg);
  const time = `${hoursMinutes(turn.rollInS)}, ${clock(plan.takeOff, turn.rollInS)}`;
  const fuel = shown(gauges('fuelKg'), turn.fuelKg, 'required');
  const limited = turn.bankLimitedBy === null ? '' : (LIMITED[turn.bankLimitedBy]?.letter ?? '');
  return [
    words(`${upperFirst(turn.name)}, from ${from}°`, `${time}, ${fuel}`),
    cell(read(distance, turn.leadM), String(Math.round(turn.leadS))),
    cell(read(gauges('bankDeg'), turn.bankDeg), read(distance, turn.radiusM), limited),
    magnetic && magneticToDeg !== null ? cell(threeFigures(magneticToDeg), to) : cell(to),
    cell(read(distance, turn.rollOutM), minutesSeconds(turn.endS - turn.rollInS)),
  ];
}

/** Why a bank is less than the sortie asks for. */
const LIMITED: Readonly<Record<string, { readonly letter: string; readonly words: string }>> = {
  thrust: { letter: 'a', words: 'all the bank that the thrust allows there' },
  'course change': { letter: 'b', words: 'all the bank that so small a change of course needs' },
};

function limitedBank(turns: readonly TurnFlown[]): readonly string[] {
  const reasons = Object.keys(LIMITED).filter((key) => turns.some((turn) => turn.bankLimitedBy === key));
  return reasons.map((key) => `${LIMITED[key].letter}  ${LIMITED[key].words}.`);
}

/** What the turns cost in Mach and altitude; most are flown at a held Mach, level. */
function losses(plan: Plan, turns: readonly TurnFlown[]): readonly string[] {
  const [mach, altitude] = ['mach', 'pressureAltitudeM'].map(gaugesOf(plan));
  const lost = turns.flatMap((turn) => {
    const changes = [
      { gauge: mach, by: turn.machChange },
      { gauge: altitude, by: turn.pressureAltitudeChangeM },
    ].filter(({ gauge, by }) => Math.abs(gauge.differenceFromSi(by)) >= gauge.step / 2);
    if (changes.length === 0) return [];
    return [
      `${upperFirst(turn.name)}: ${changes.map(({ gauge, by }) => margin(gauge, by).text).join(', ')}.`,
    ];
  });
  return lost.length === 0 ? ['Mach and altitude are held through every turn.'] : lost;
}

/** The lead of the largest turn read aloud, with the ground speed that ties its distance to its time. */
function worked(plan: Plan, turns: readonly TurnFlown[]): string {
  const gauges = gaugesOf(plan);
  const turn = turns.reduce((most, other) => (other.leadM > most.leadM ? other : most));
  const lead = shown(gauges('radiusM'), turn.leadM);
  const speed = shown(gauges('groundSpeedMS'), turn.groundSpeedMS);
  const load = shown(gauges('loadFactor'), turn.loadFactor);
  return `Read, ${turn.name}: at ${shown(gauges('mach'), turn.mach)} and ${shown(gauges('pressureAltitudeM'), turn.pressureAltitudeM)} roll in ${lead} before it, which at ${speed} are ${Math.round(turn.leadS)} s; ${load} in the turn.`;
}

/** The take-off card: stop or go, with which speeds, and does the runway hold it. */
import type { Plan, TakeOffData, TakeOffRun } from '../../core/plan/plan.ts';
import { firstCourse } from '../course.ts';
import { type Gauge, gaugesOf, margin, NOT_COMPUTED, type Side, shown } from '../units.ts';
import { BLANK, type Card, type Cell, cell, words } from './card.ts';
import {
  conditionWords,
  distanceCells,
  figureCell,
  leftCell,
  limited,
  RUNWAY_COLUMNS,
  shortRunway,
  speed,
} from './runway.ts';

export function takeOffCards(plan: Plan): readonly Card[] {
  const { takeOffData: data } = plan;
  const { run, runway, base } = data;
  return [
    {
      title: `Take-off: ${base}${runway === null ? '' : ` ${runway.name}`}`,
      question: 'Stop or go, and with one engine?',
      answer: run === null ? [withoutRun(plan, data)] : answers(plan, data, run),
      table: {
        columns: RUNWAY_COLUMNS,
        rows: [...speedRows(plan, data), ...distanceRows(plan, data), ...otherRows(plan, data)],
      },
      notes: notes(plan, data),
    },
  ];
}

function withoutRun(plan: Plan, { liftOff }: TakeOffData): string {
  return `Decision speed ${NOT_COMPUTED}; lift off at ${speed(plan, liftOff, 'required')}.`;
}

/** The one action, why another speed does not do, and what is beyond a limit. */
function answers(plan: Plan, data: TakeOffData, run: TakeOffRun): readonly string[] {
  const decision = speed(plan, run.decision);
  const off = `lift off at ${speed(plan, data.liftOff, 'required')}, climb out at ${speed(plan, run.climbOut, 'required')}`;
  const action = run.decisionFits
    ? `Engine lost below ${decision}: stop. From ${decision}: go, ${off}.`
    : `No decision speed fits: with an engine lost the take-off goes on only from ${bound(plan, run, 'least')} and stops only below ${bound(plan, run, 'greatest')}.`;
  return [action, ...beyond(plan, data, run)];
}

/** "112 KCAS (least control speed)". */
function bound(plan: Plan, run: TakeOffRun, which: 'least' | 'greatest'): string {
  const [at, by] = which === 'least' ? [run.least, run.leastBy] : [run.greatest, run.greatestBy];
  const reason = REASONS[by];
  const text = speed(plan, at, which === 'least' ? 'required' : 'available');
  return reason === undefined ? text : `${text} (${reason})`;
}

const REASONS: Readonly<Record<string, string>> = {
  runway: 'runway',
  minimumControlSpeed: 'least control speed',
  brakeEnergy: 'brake energy',
  liftOff: 'lift-off',
};

/** What is past a limit, in a sentence each. */
function beyond(plan: Plan, { runway, liftOff }: TakeOffData, run: TakeOffRun): readonly string[] {
  const stop = 'a stop with all engines running until then';
  const lines = [
    ...shortRunway(plan, runway, 'the ground run', run.groundRunM),
    ...(run.decisionFits ? shortRunway(plan, runway, stop, run.allEnginesStopM) : []),
  ];
  const { gearDown } = run.climbGradient;
  if (gearDown === null || gearDown <= 0)
    lines.push('With an engine lost and the gear down it does not climb.');
  if (run.tyreSpeedMS !== null && liftOff.groundSpeedMS > run.tyreSpeedMS)
    lines.push('Lift-off is faster than the tyres allow.');
  return lines;
}

function speedRows(plan: Plan, data: TakeOffData): readonly (readonly Cell[])[] {
  const { run } = data;
  const gauge = gaugesOf(plan)('calibratedAirspeedMS');
  const figure = (at: { readonly calibratedAirspeedMS: number } | undefined, side: Side) =>
    figureCell(gauge, at?.calibratedAirspeedMS ?? null, side);
  const fits = run?.decisionFits ?? true;
  const range =
    run === null || !fits ? '' : `${bound(plan, run, 'least')} to ${bound(plan, run, 'greatest')} will do`;
  return [
    [words('Decision speed', range), fits ? figure(run?.decision, 'nearest') : words('none fits'), BLANK],
    liftOffRow(plan, data),
    [words('Climb-out', 'engine lost'), figure(run?.climbOut, 'required'), BLANK],
  ];
}

/** Lift-off, with what its ground speed leaves to that of the tyres. */
function liftOffRow(plan: Plan, { liftOff, run }: TakeOffData): readonly Cell[] {
  const gauges = gaugesOf(plan);
  const ground = gauges('groundSpeedMS');
  const rolling = shown(ground, liftOff.groundSpeedMS, 'required');
  const tyres = run?.tyreSpeedMS ?? null;
  const below =
    tyres === null ? 'no limit of the tyres in the deck' : `tyres ${shown(ground, tyres, 'available')}`;
  return [
    words('Lift-off', `over the ground ${rolling}; ${below}`),
    figureCell(gauges('calibratedAirspeedMS'), liftOff.calibratedAirspeedMS, 'required'),
    tyres === null ? BLANK : leftCell(ground, tyres, liftOff.groundSpeedMS),
  ];
}

/** What the runway has to hold. */
function distanceRows(plan: Plan, data: TakeOffData): readonly (readonly Cell[])[] {
  const { run, runway } = data;
  const gauge = gaugesOf(plan)('lengthM');
  const row = (name: string, below: string, neededM: number | null): readonly Cell[] => [
    words(name, below),
    ...distanceCells(plan, runway, neededM, run !== null),
  ];
  const { tableGroundRunM } = data;
  if (run === null) {
    const table = row('Ground run', "deck's table: level, no wind", tableGroundRunM);
    return [table, row('Stop', 'engine lost', null), row('Go', 'engine lost', null)];
  }
  const lost = `engine lost at ${speed(plan, run.decision)}`;
  return [
    row(
      'Ground run',
      `deck's table, level and no wind: ${shown(gauge, tableGroundRunM, 'required')}`,
      run.groundRunM,
    ),
    row(
      'Stop',
      `${lost}; all engines: ${shown(gauge, run.allEnginesStopM, 'required')}`,
      run.accelerateStopM,
    ),
    row('Go', `${lost}, to lift-off`, run.accelerateGoM),
  ];
}

/** Climb and brakes. */
function otherRows(plan: Plan, { run }: TakeOffData): readonly (readonly Cell[])[] {
  const gauges = gaugesOf(plan);
  const percent = gauges('fraction');
  const { gearDown = null, gearUp = null } = run?.climbGradient ?? {};
  const up = gradientFigure(percent, gearUp);
  return [
    [
      words('Climb gradient', `engine lost, gear down; gear up ${up === NOT_COMPUTED ? up : `${up}\u00a0%`}`),
      cell(gradientFigure(percent, gearDown), '', percent.shortUnit),
      BLANK,
    ],
    [
      words(
        'Brake energy',
        run === null ? '' : `stop from ${speed(plan, run.decision)}, all engines until then`,
      ),
      ...limited(
        gauges('brakeEnergyJ'),
        run?.brakeEnergyJ ?? null,
        run?.brakeEnergyLimitJ ?? null,
        'no limit in the deck',
      ),
    ],
  ];
}

function gradientFigure(percent: Gauge, gradient: number | null): string {
  return gradient === null ? NOT_COMPUTED : margin(percent, gradient).figure;
}

function notes(plan: Plan, data: TakeOffData): readonly string[] {
  const { run } = data;
  const length = gaugesOf(plan)('lengthM');
  return [
    conditionWords(plan, data),
    ...firstCourse(plan),
    ...(run === null
      ? []
      : [
          `Critical field length ${shown(length, run.criticalFieldM, 'required')} at ${speed(plan, run.critical)}. Stop and go after MIL-STD-3013, to lift-off and not to a height. Required is rounded up, what is left down.`,
        ]),
  ];
}

/** The take-off card: stop or go, with which speeds, and does the runway hold it. */
import type { Plan, RunwayToday, TakeOffData, TakeOffRun } from '../../core/plan/plan.ts';
import { courseWords } from '../course.ts';
import { fuelDifference as left } from '../sentences.ts';
import { figures, type Gauge, gaugesOf, margin, NOT_COMPUTED, read, type Side, shown } from '../units.ts';
import { BLANK, type Card, type Cell, cell, words } from './card.ts';

export function takeOffCards(plan: Plan): readonly Card[] {
  const { takeOffData: data } = plan;
  const { run, runway, base } = data;
  return [
    {
      title: `Take-off: ${base}${runway === null ? '' : ` ${runway.name}`}`,
      question: 'Stop or go, and with one engine?',
      answer: run === null ? [withoutRun(plan, data)] : answers(plan, data, run),
      table: {
        columns: [
          { name: 'What', unit: '', holds: 'words' },
          { name: 'Today', unit: 'limit below', holds: 'figures' },
          { name: 'Left', unit: 'to the limit', holds: 'figures' },
        ],
        rows: [...speedRows(plan, data), ...distanceRows(plan, data), ...otherRows(plan, data)],
      },
      notes: notes(plan, data),
    },
  ];
}

function speed(plan: Plan, at: { readonly calibratedAirspeedMS: number }, side: Side = 'nearest'): string {
  return shown(gaugesOf(plan)('calibratedAirspeedMS'), at.calibratedAirspeedMS, side);
}

function withoutRun(plan: Plan, { liftOff }: TakeOffData): string {
  return `Decision speed ${NOT_COMPUTED}; lift off at ${speed(plan, liftOff, 'required')}.`;
}

/** The one action, why another speed does not do, and what is beyond a limit. */
function answers(plan: Plan, data: TakeOffData, run: TakeOffRun): readonly string[] {
  const off = `lift off at ${speed(plan, data.liftOff, 'required')}, climb out at ${speed(plan, run.climbOut, 'required')}`;
  const decision = speed(plan, run.decision);
  const action = run.decisionFits
    ? `Engine lost below ${decision}: stop. From ${decision}: go, ${off}.`
    : `No decision speed fits: the take-off goes on only from ${bound(plan, run, 'least')} and stops only below ${bound(plan, run, 'greatest')}. With all engines ${off}.`;
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
  const length = gaugesOf(plan)('lengthM');
  const lines: string[] = [];
  const short = (what: string, neededM: number): void => {
    if (runway === null || neededM <= runway.lengthM) return;
    lines.push(`The runway is ${shown(length, neededM - runway.lengthM, 'required')} shorter than ${what}.`);
  };
  short('the ground run', run.groundRunM);
  if (run.decisionFits) short('a stop with all engines running until then', run.allEnginesStopM);
  const { gearDown } = run.climbGradient;
  if (gearDown === null || gearDown <= 0)
    lines.push('With an engine lost and the gear down it does not climb.');
  if (run.tyreSpeedMS !== null && liftOff.groundSpeedMS > run.tyreSpeedMS)
    lines.push('Lift-off is faster than the tyres allow.');
  return lines;
}

function speedRows(plan: Plan, { liftOff, run }: TakeOffData): readonly (readonly Cell[])[] {
  const gauge = gaugesOf(plan)('calibratedAirspeedMS');
  const figure = (at: { readonly calibratedAirspeedMS: number } | undefined, side: Side) =>
    figureCell(gauge, at?.calibratedAirspeedMS ?? null, side);
  const fits = run?.decisionFits ?? true;
  const range =
    run === null || !fits ? '' : `${bound(plan, run, 'least')} to ${bound(plan, run, 'greatest')} will do`;
  return [
    [words('Decision speed', range), fits ? figure(run?.decision, 'nearest') : words('none fits'), BLANK],
    [words('Lift-off', 'with all engines or one lost'), figure(liftOff, 'required'), BLANK],
    [words('Climb-out', 'engine lost'), figure(run?.climbOut, 'required'), BLANK],
  ];
}

/** What the runway has to hold. */
function distanceRows(plan: Plan, data: TakeOffData): readonly (readonly Cell[])[] {
  const { run, runway } = data;
  const gauge = gaugesOf(plan)('lengthM');
  const size = (si: number) => shown(gauge, si, 'required');
  const row = (name: string, below: string, neededM: number | null): readonly Cell[] => [
    words(name, below),
    ...limited(gauge, neededM, runway?.lengthM ?? null, 'no runway stated'),
  ];
  const { tableGroundRunM } = data;
  if (run === null) {
    const table = row('Ground run', "deck's table: level, no wind", tableGroundRunM);
    return [table, row('Stop', 'engine lost', null), row('Go', 'engine lost', null)];
  }
  const lost = `engine lost at ${speed(plan, run.decision)}`;
  return [
    row('Ground run', `deck's table, level and no wind: ${size(tableGroundRunM)}`, run.groundRunM),
    row('Stop', `${lost}; all engines: ${size(run.allEnginesStopM)}`, run.accelerateStopM),
    row('Go', `${lost}, to lift-off`, run.accelerateGoM),
  ];
}

/** Climb, tyres, brakes. */
function otherRows(plan: Plan, { run, liftOff }: TakeOffData): readonly (readonly Cell[])[] {
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
      words('Tyre speed', 'over the ground at lift-off'),
      ...limited(
        gauges('groundSpeedMS'),
        liftOff.groundSpeedMS,
        run?.tyreSpeedMS ?? null,
        'no limit in the deck',
      ),
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

/** A figure with its limit below it, and what is left; `open` says why there is no limit. */
function limited(gauge: Gauge, value: number | null, limit: number | null, open: string): readonly Cell[] {
  if (limit === null) return [figureCell(gauge, value, 'required'), words(open)];
  return [
    figureCell(gauge, value, 'required', `of ${read(gauge, limit, 'available')}`),
    value === null ? BLANK : cell(left(gauge, limit, value).figure, '', gauge.differenceUnit),
  ];
}

function figureCell(gauge: Gauge, si: number | null, side: Side, below = ''): Cell {
  return cell(read(gauge, si, side), below, gauge.shortUnit);
}

function gradientFigure(percent: Gauge, gradient: number | null): string {
  return gradient === null ? NOT_COMPUTED : margin(percent, gradient).figure;
}

function notes(plan: Plan, data: TakeOffData): readonly string[] {
  const gauges = gaugesOf(plan);
  const { run, runway } = data;
  const offset = margin(gauges('temperatureOffsetK'), data.temperatureOffsetK).text;
  const air = `${shown(gauges('massKg'), data.massKg, 'required')} at ${shown(gauges('pressureAltitudeM'), data.pressureAltitudeM, 'required')}, ${shown(gauges('temperatureK'), data.temperatureK)}, ISA ${offset.startsWith('−') ? '' : '+'}${offset}.`;
  return [
    `${air} ${runway === null ? 'No runway is stated: level, dry, no wind.' : runwayWords(plan, runway)}`,
    ...(run === null
      ? []
      : [
          `Critical field length ${shown(gauges('lengthM'), run.criticalFieldM, 'required')} at ${speed(plan, run.critical)}. Stop and go after the definitions of MIL-STD-3013, from brake release, the engine lost at the decision speed; braking begins after the deck's reaction time; distances end at lift-off, not at a height. Required is rounded up, what is left down.`,
        ]),
  ];
}

/** The runway, and the wind along and across it with the part that counts. */
function runwayWords(plan: Plan, runway: RunwayToday): string {
  const gauges = gaugesOf(plan);
  const wind = gauges('windSpeedMS');
  const size = (ms: number) => shown(wind, Math.abs(ms));
  const along = `${size(runway.headwindMS)} ${runway.headwindMS >= 0 ? 'head' : 'tail'}wind`;
  const across = `${size(runway.crosswindMS)} from the ${runway.crosswindMS >= 0 ? 'left' : 'right'}`;
  const slope = gauges('fraction');
  const steep = figures(slope, slope.fromSi(Math.abs(runway.slopeFraction)));
  const upDown =
    runway.slopeFraction === 0 ? 'level' : `${steep}\u00a0% ${runway.slopeFraction > 0 ? 'up' : 'down'}`;
  return `Runway ${runway.name}, ${courseWords(runway)}, ${shown(gauges('lengthM'), runway.lengthM, 'available')}, ${upDown}, ${runway.condition}. Wind ${runway.windStated ? 'as stated' : 'of the weather'}: ${along}, ${across}; counted: half of a headwind, one and a half of a tailwind.`;
}

/** `ramrise manoeuvre`: a manoeuvre judged before it is flown, what may be pulled by fuel on board, or the turns of the plan. */
import packageFile from '../../package.json' with { type: 'json' };
import type { SpeedKey } from '../core/air/airdata-record.ts';
import type { PlanRequest } from '../core/plan/draft.ts';
import { makePlan } from '../core/plan/make-plan.ts';
import { answerManoeuvre, type ManoeuvreQuestion } from '../core/plan/manoeuvre-question.ts';
import { manoeuvresMissing } from '../core/plan/manoeuvre-table.ts';
import { CAUTION } from '../core/plan/plan.ts';
import { CannotPlan } from '../core/plan/sortie-flyer.ts';
import { readPosition } from '../core/quantities/place.ts';
import { readTime } from '../core/quantities/time.ts';
import { readOneOf, readQuantity, speedKeys } from '../core/quantities/values.ts';
import { readPlanRequest } from '../files/plan-request.ts';
import {
  boundsTable,
  judgedSentences,
  limitsThereTable,
  PUSH_NOTE,
  pullTable,
  pushTable,
  speedTable,
  turnMarginsTable,
} from '../present/manoeuvre.ts';
import { tableText } from '../present/table.ts';
import { gaugesIn, gaugesOf, plainSpaces } from '../present/units.ts';
import { EXIT, Refusal, WrongUsage } from './outcome.ts';
import { say, sayJson } from './text.ts';

export interface ManoeuvreOptions {
  readonly altitude?: string;
  readonly speed?: string;
  readonly fuel?: string;
  readonly bank?: string;
  readonly loadFactor?: string;
  readonly at?: string;
  readonly time?: string;
  readonly elevation?: string;
  readonly json?: boolean;
}

export async function manoeuvre(sortie: string, options: ManoeuvreOptions): Promise<void> {
  const question = questionOf(options);
  const request = await readPlanRequest(sortie, `${packageFile.name} ${packageFile.version}`);
  if (question === null) return turnsOfPlan(request, options);
  const answer = orRefuse(() => answerManoeuvre(request, question));
  const gauges = gaugesIn(request.aircraft.gauges.units);
  const missing = manoeuvresMissing(request.aircraft, request.sortie.manoeuvres);
  if ('judged' in answer) {
    const { judged } = answer;
    if (!judged.allowed) process.exitCode = EXIT.cannotBeFlown;
    if (options.json) {
      sayJson({ ...judged, caution: CAUTION });
      return;
    }
    print([
      ...judgedSentences(judged, gauges),
      '',
      tableText(boundsTable(judged, gauges)),
      '',
      tableText(limitsThereTable(judged, gauges)),
      ...judged.notComputed.map((text) => `\nNot computed: ${text}.`),
    ]);
    return;
  }
  const { table } = answer;
  if (options.json) {
    sayJson({ ...table, notComputed: missing, caution: CAUTION });
    return;
  }
  const tables = [pullTable(table, gauges), speedTable(table, gauges), pushTable(table, gauges)];
  print([
    ...tables.map((part) => `${tableText(part)}\n`),
    PUSH_NOTE,
    ...missing.map((text) => `Not computed: ${text}.`),
  ]);
}

/** Every turn of the plan where it comes nearest to the warning. */
function turnsOfPlan(request: PlanRequest, { json }: ManoeuvreOptions): void {
  const plan = orRefuse(() => makePlan(request));
  if (!plan.flyable) process.exitCode = EXIT.cannotBeFlown;
  const missing = manoeuvresMissing(request.aircraft, request.sortie.manoeuvres);
  if (json) {
    const { title, fingerprint, flyable } = plan;
    const turns = plan.turns.map(({ name, leg, bankDeg, nearest }) => ({ name, leg, bankDeg, ...nearest }));
    sayJson({ title, fingerprint, flyable, turns, notComputed: missing, caution: CAUTION });
    return;
  }
  print([
    tableText(turnMarginsTable(plan, gaugesOf(plan))),
    ...missing.map((text) => `Not computed: ${text}.`),
  ]);
}

function print(lines: readonly string[]): void {
  for (const line of lines) say(plainSpaces(line));
  say(`\n${CAUTION}`);
}

function orRefuse<T>(answer: () => T): T {
  try {
    return answer();
  } catch (error) {
    if (error instanceof CannotPlan) throw new Refusal(error.message);
    throw error;
  }
}

/** null where nothing is asked but the plan. */
function questionOf({
  altitude,
  speed,
  fuel,
  bank,
  loadFactor,
  at,
  time,
  elevation,
}: ManoeuvreOptions): ManoeuvreQuestion | null {
  if (altitude === undefined || speed === undefined) {
    const others = [altitude, speed, fuel, bank, loadFactor, at, time, elevation];
    if (others.every((text) => text === undefined)) return null;
    throw new WrongUsage(
      'manoeuvre needs --altitude and --speed, or neither of them nor anything that goes with them, for the turns of the plan; see ramrise manoeuvre --help',
    );
  }
  const given = readOneOf(speed, 'speed', speedKeys);
  const optional = (text: string | undefined, key: string) =>
    text === undefined ? null : readQuantity(text, key);
  return {
    pressureAltitudeM: readQuantity(altitude, 'pressureAltitudeM'),
    speed: { key: given.key as SpeedKey, si: given.si },
    fuelKg: optional(fuel, 'fuelKg'),
    bankRad: optional(bank, 'bankDeg'),
    loadFactor: optional(loadFactor, 'loadFactor'),
    place: at === undefined ? null : readPosition(at, '--at'),
    timeS: time === undefined ? null : readTime(time, '--time'),
    groundM: optional(elevation, 'geometricHeightM'),
  };
}

/** `ramrise manoeuvre`: a manoeuvre judged before it is flown, or what may be pulled by fuel on board. */
import packageFile from '../../package.json' with { type: 'json' };
import type { SpeedKey } from '../core/air/airdata-record.ts';
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
} from '../present/manoeuvre.ts';
import { tableText } from '../present/table.ts';
import { gaugesIn, plainSpaces } from '../present/units.ts';
import { EXIT, Refusal } from './outcome.ts';
import { say, sayJson } from './text.ts';

export interface ManoeuvreOptions {
  readonly altitude: string;
  readonly speed: string;
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
  const answer = answerOrRefuse(request, question);
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

function print(lines: readonly string[]): void {
  for (const line of lines) say(plainSpaces(line));
  say(`\n${CAUTION}`);
}

function answerOrRefuse(...asked: Parameters<typeof answerManoeuvre>): ReturnType<typeof answerManoeuvre> {
  try {
    return answerManoeuvre(...asked);
  } catch (error) {
    if (error instanceof CannotPlan) throw new Refusal(error.message);
    throw error;
  }
}

function questionOf({
  altitude,
  speed,
  fuel,
  bank,
  loadFactor,
  at,
  time,
  elevation,
}: ManoeuvreOptions): ManoeuvreQuestion {
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

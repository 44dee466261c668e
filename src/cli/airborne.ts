/**
 * `ramrise airborne`: readings against a plan as they come. Every reading is written to a log beside the plan before it is
 * answered; the log is read again at the next start, so that nothing is lost when the program ends.
 */
import {
  appendFileSync,
  closeSync,
  createReadStream,
  existsSync,
  fsyncSync,
  openSync,
  statSync,
  writeSync,
} from 'node:fs';
import { connect } from 'node:net';
import { createInterface } from 'node:readline';
import type { Readable } from 'node:stream';
import { dirname, join } from 'pathe';
import { deckSlopes } from '../core/airborne/deck-slopes.ts';
import { Estimator } from '../core/airborne/estimator.ts';
import { Expectation } from '../core/airborne/expectation.ts';
import type { Entry } from '../core/airborne/reading.ts';
import type { Plan } from '../core/plan/plan.ts';
import { QuantityError } from '../core/quantities/errors.ts';
import { readTime } from '../core/quantities/time.ts';
import { findAircraft } from '../files/compare-inputs.ts';
import { readText } from '../files/disk.ts';
import { readPlan } from '../files/plan.ts';
import { logHeader, logLine, ReadingLines, readLogHeader, typedUnits } from '../files/readings.ts';
import { airborneText } from '../present/airborne-text.ts';
import { Refusal } from './outcome.ts';
import { say } from './text.ts';

export interface AirborneOptions {
  /** A file, "-" for standard input, or the path of a local socket. */
  readonly readings: string;
  /** As flown, where it was not that of the plan. */
  readonly takeOff?: string;
  readonly log?: string;
  readonly json?: boolean;
}

export async function airborne(path: string, options: AirborneOptions): Promise<void> {
  const plan = readPlan(path);
  if (plan.trace.columns.timeS.length < 2) throw new Refusal(`${path}: nothing of the plan was flown`);
  const logPath = options.log ?? join(dirname(path), 'airborne.log');
  const takeOff = takeOffOf(plan, logPath, options.takeOff);
  const { slopes, words } = slopesOf(plan, path);
  const expectation = new Expectation(plan, slopes);
  const estimator = new Estimator(expectation, { typedUnits: typedUnits(plan.aircraft.gaugeUnits) });
  const log = openLog(logPath, plan, takeOff, estimator);
  const lines = new ReadingLines(readTime(takeOff));
  const { source, live } = sourceOf(options.readings);
  const answer = (): void => print(estimator, plan, words, options.json === true);
  let number = 0;
  try {
    for await (const line of createInterface({ input: source, crlfDelay: Number.POSITIVE_INFINITY })) {
      number++;
      const entries = readOrSay(lines, line, number, options.readings, live);
      for (const entry of entries) {
        write(log, entry);
        estimator.add(entry);
      }
      if (live && entries.length > 0) answer();
    }
  } finally {
    closeSync(log);
  }
  if (!live) answer();
}

/** Where someone types, a fault is told and the next line read; in a file it ends the command. */
function readOrSay(lines: ReadingLines, line: string, number: number, name: string, live: boolean): Entry[] {
  try {
    return lines.read(line);
  } catch (error) {
    if (!(error instanceof QuantityError)) throw error;
    const sentence = `${name === '-' ? 'standard input' : name}:${number}: ${error.message}`;
    if (!live) throw new Refusal(sentence);
    process.stderr.write(`${sentence}\n`);
    return [];
  }
}

function print(estimator: Estimator, plan: Plan, slopes: string, json: boolean): void {
  const answer = estimator.answer();
  const { state: _, ...told } = answer;
  if (json) say(JSON.stringify({ ...told, slopes, fingerprint: plan.fingerprint, caution: plan.caution }));
  else process.stdout.write(`${airborneText(answer, plan, slopes)}\n`);
}

function sourceOf(readings: string): { readonly source: Readable; readonly live: boolean } {
  if (readings === '-') return { source: process.stdin, live: true };
  if (statSync(readings).isSocket()) return { source: connect(readings), live: true };
  return { source: createReadStream(readings), live: false };
}

/** The deck's own slopes where the deck that made the plan is found, else those of the trace. */
function slopesOf(plan: Plan, path: string) {
  const aircraft = findAircraft({ side: 'new', path, plan });
  if (typeof aircraft === 'string') {
    return {
      slopes: undefined,
      words: "Slopes from the plan's trace alone: the deck that made it is not found, or has changed since.",
    };
  }
  return { slopes: deckSlopes(aircraft, plan.trace), words: 'Slopes from the deck that made the plan.' };
}

function takeOffOf(plan: Plan, logPath: string, asked: string | undefined): string {
  const kept = existsSync(logPath) ? readLogHeader(readText(logPath).split('\n')[0]) : null;
  if (asked !== undefined) readTime(asked, 'take-off');
  if (kept !== null && asked !== undefined && kept.takeOff !== asked) {
    throw new Refusal(`${logPath}: the readings count from a take-off at ${kept.takeOff}, not ${asked}`);
  }
  return kept?.takeOff ?? asked ?? plan.takeOff;
}

/** Opens the log for more, after all that it holds went in; a last line that was cut off is left out. */
function openLog(path: string, plan: Plan, takeOff: string, estimator: Estimator): number {
  if (!existsSync(path)) appendFileSync(path, logHeader(plan.fingerprint, takeOff));
  const [first, ...rest] = readText(path).split('\n');
  const header = readLogHeader(first);
  if (header === null) throw new Refusal(`${path}: is no log of readings of version 1`);
  if (header.fingerprint !== plan.fingerprint) {
    throw new Refusal(`${path}: holds readings of plan ${header.fingerprint}, not of ${plan.fingerprint}`);
  }
  const lines = new ReadingLines(readTime(takeOff));
  const whole = rest.slice(0, -1);
  const cut = rest.at(-1) ?? '';
  for (const line of whole) for (const entry of lines.read(line)) estimator.add(entry);
  const log = openSync(path, 'a');
  if (cut !== '') writeSync(log, '\n');
  return log;
}

/** On the disk before it is answered. */
function write(log: number, entry: Entry): void {
  writeSync(log, logLine(entry));
  fsyncSync(log);
}

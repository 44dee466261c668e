/**
 * `ramrise airborne`: readings against a plan as they come. Every reading is in a log beside the plan before it is answered; the log
 * is read again at the next start, so that nothing is lost when the program ends.
 */
import {
  closeSync,
  createReadStream,
  existsSync,
  fsyncSync,
  openSync,
  statSync,
  truncateSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { connect } from 'node:net';
import { createInterface } from 'node:readline';
import type { Readable } from 'node:stream';
import { dirname, join } from 'pathe';
import { deckSlopes } from '../core/airborne/deck-slopes.ts';
import { Estimator } from '../core/airborne/estimator.ts';
import { Expectation } from '../core/airborne/expectation.ts';
import { type Follows, following } from '../core/airborne/follow.ts';
import type { Entry } from '../core/airborne/reading.ts';
import { FlyingOn } from '../core/airborne/refly.ts';
import type { Aircraft } from '../core/aircraft/aircraft.ts';
import type { PlanRequest } from '../core/plan/draft.ts';
import { toTheEnd } from '../core/plan/explain.ts';
import type { Plan } from '../core/plan/plan.ts';
import { QuantityError } from '../core/quantities/errors.ts';
import { readTime } from '../core/quantities/time.ts';
import { findAircraft, findRequest, type PlanFile } from '../files/compare-inputs.ts';
import { readText } from '../files/disk.ts';
import { readPlan } from '../files/plan.ts';
import { logHeader, logLine, ReadingLines, readLogHeader, typedUnits } from '../files/readings.ts';
import { airborneText } from '../present/airborne-text.ts';
import { Refusal } from './outcome.ts';
import { say } from './text.ts';

export interface AirborneOptions {
  /** A file, "-" for standard input, or the path of a local socket or pipe. */
  readonly readings: string;
  /** As flown, where it was not that of the plan. */
  readonly takeOff?: string;
  readonly log?: string;
  readonly json?: boolean;
}

const HOW_TO_TYPE =
  'Readings, such as "0:50 fuel 26900 kg, mach 2.2"; "corrected" or "withdrawn" at the end where that is meant. Ctrl-D ends.\n';

export async function airborne(path: string, options: AirborneOptions): Promise<void> {
  const plan = readPlan(path);
  if (plan.trace.columns.timeS.length < 2) throw new Refusal(`${path}: nothing of the plan was flown`);
  const logPath = options.log ?? join(dirname(path), 'airborne.log');
  const takeOff = takeOffOf(plan, logPath, options.takeOff);
  const file: PlanFile = { side: null, path, plan };
  const flight = new Flight(plan, takeOff, await findRequest(file), options.json === true, () =>
    findAircraft(file),
  );
  const log = openLog(logPath, plan, takeOff, flight.estimator);
  const { source, live } = sourceOf(options.readings);
  const lines = new ReadingLines(readTime(takeOff));
  let number = 0;
  // What comes at once is answered once, all of it on the disk.
  let waiting: NodeJS.Immediate | null = null;
  const answer = (): void => {
    waiting = null;
    fsyncSync(log);
    flight.print();
  };
  // What the log holds is answered before anything new comes.
  if (live && flight.estimator.entries.length > 0) waiting = setImmediate(answer);
  if (options.readings === '-' && process.stdin.isTTY) process.stderr.write(HOW_TO_TYPE);
  const input = createInterface({ input: source, crlfDelay: Number.POSITIVE_INFINITY });
  let broken: Error | null = null;
  source.once('error', (error) => {
    broken = error;
    input.close();
  });
  try {
    for await (const line of input) {
      number++;
      const entries = readOrSay(lines, line, number, options.readings, live).filter(
        (entry) => !flight.holds(entry),
      );
      for (const entry of entries) {
        writeSync(log, logLine(entry));
        flight.estimator.add(entry);
      }
      if (live && entries.length > 0) waiting ??= setImmediate(answer);
    }
    if (waiting !== null) clearImmediate(waiting);
    if (waiting !== null || (!live && broken === null)) answer();
    if (broken !== null) throw broken;
  } finally {
    closeSync(log);
  }
}

/** The estimate of one flight and what follows from it. */
class Flight {
  readonly estimator: Estimator;
  private readonly plan: Plan;
  private readonly takeOffS: number;
  private readonly json: boolean;
  private readonly expectation: Expectation;
  private readonly slopes: string;
  private readonly on: FlyingOn | null;
  /** Why the rest is not flown; null where it is. */
  private readonly why: string | null;

  /** `request` is what the plan was made from, or a reason; of it the deck alone may be found. */
  constructor(
    plan: Plan,
    takeOff: string,
    request: PlanRequest | string,
    json: boolean,
    deck: () => Aircraft | string,
  ) {
    const found = typeof request !== 'string';
    const aircraft = found ? request.aircraft : deck();
    const slopes = typeof aircraft === 'string' ? undefined : deckSlopes(aircraft, plan.trace);
    this.plan = plan;
    this.takeOffS = readTime(takeOff);
    this.json = json;
    this.expectation = new Expectation(plan, slopes);
    this.slopes =
      slopes === undefined
        ? "Slopes from the plan's trace alone: the deck that made it is not found, or has changed since."
        : 'Slopes from the deck that made the plan.';
    this.estimator = new Estimator(this.expectation, { typedUnits: typedUnits(plan.aircraft.gaugeUnits) });
    this.on = found ? new FlyingOn(request, plan) : null;
    this.why = found ? null : request;
  }

  /** Whether a reading is in the log as it is. */
  holds({ timeS, key, value, status }: Entry): boolean {
    const there = this.estimator.entries.findLast((entry) => entry.timeS === timeS && entry.key === key);
    return there?.value === value && there.status === status;
  }

  print(): void {
    const { estimator, plan, slopes, expectation, takeOffS } = this;
    const answer = estimator.answer();
    const told = { plan, answer, readings: estimator.entries, expectation, takeOffS };
    const follows: Follows = toTheEnd(following(told, this.on, this.why));
    const { state: _, ...shown } = answer;
    const { fingerprint, caution } = plan;
    if (this.json) say(JSON.stringify({ ...shown, follows, slopes, fingerprint, caution }));
    else process.stdout.write(`${airborneText(answer, follows, plan, slopes)}\n`);
  }
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

function sourceOf(readings: string): { readonly source: Readable; readonly live: boolean } {
  if (readings === '-') return { source: process.stdin, live: true };
  const kind = statSync(readings);
  if (kind.isSocket()) return { source: connect(readings), live: true };
  return { source: createReadStream(readings), live: !kind.isFile() };
}

function takeOffOf(plan: Plan, logPath: string, asked: string | undefined): string {
  const kept = existsSync(logPath) ? readLogHeader(readText(logPath).split('\n')[0]) : null;
  if (asked !== undefined) readTime(asked, 'take-off');
  if (kept !== null && asked !== undefined && kept.takeOff !== asked) {
    throw new Refusal(`${logPath}: the readings count from a take-off at ${kept.takeOff}, not ${asked}`);
  }
  return kept?.takeOff ?? asked ?? plan.takeOff;
}

/** Opens the log for more, after all that it holds went in; a last line that was cut off is taken out. */
function openLog(path: string, plan: Plan, takeOff: string, estimator: Estimator): number {
  if (!existsSync(path) || !readText(path).includes('\n')) {
    writeFileSync(path, logHeader(plan.fingerprint, takeOff));
  }
  const text = readText(path);
  const [first, ...rest] = text.split('\n');
  const header = readLogHeader(first);
  if (header === null) throw new Refusal(`${path}: is no log of readings of version 1`);
  if (header.fingerprint !== plan.fingerprint) {
    throw new Refusal(`${path}: holds readings of plan ${header.fingerprint}, not of ${plan.fingerprint}`);
  }
  const lines = new ReadingLines(readTime(takeOff));
  for (const line of rest.slice(0, -1)) for (const entry of lines.read(line)) estimator.add(entry);
  const whole = text.slice(0, text.lastIndexOf('\n') + 1);
  if (whole !== text) truncateSync(path, Buffer.byteLength(whole));
  return openSync(path, 'a');
}

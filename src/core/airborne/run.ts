/** Readings in their order of time through one filter for each kind of noise: what is expected, what is asked about, what is alerted. */
import { Cusum } from '../numerics/cusum.ts';
import { causes, groupOf } from './causes.ts';
import { type Expectation, type Expected, newExpected } from './expectation.ts';
import { type Flown, gaugeNoises, measure, newMeasurement, ORDER, STATE, Transition } from './model.ts';
import { oddsOf, type Weighed, weigh } from './odds.ts';
import { type Question, suspect } from './plausible.ts';
import type { Entry, ReadKey } from './reading.ts';
import type { Settings } from './settings.ts';
import { Watch } from './watch.ts';

/**
 * Evidence at which an alert is raised, and at which it ends. A sortie of 90 min as planned passes the first once in 20, with the noise of
 * the gauge for which that is most often (docs/airborne.md).
 */
const raisedAt = 2.4;
const endedAt = 0.7;
/** A cause is taken as known when the evidence and its part of it are so great, and this long after the alert. */
const learnedEvidence = 100;
const learnedAt = 0.97;
const learnedAfterS = 480;

/** Readings further than so many standard deviations, and what may happen unseen meanwhile, are asked about. */
const plausibleSd = 5;
const unseenShare = 0.15;
/** A speed or height that was read counts for so long [s]. */
const flownForS = 600;
/** A first reading of fuel so soon [s], and so many standard deviations off the plan, tells what was loaded. */
const loadedS = 600;
const loadedSd = 2;
/** What a tanker gave may differ from the plan by this share, beside the gauge. */
const takenShare = 0.02;

/** Shift and bound of the watch over what no cause explains, in standard deviations; average run length in the thousands. */
const leftOver = { k: 0.5, h: 8 };

export interface Known {
  readonly cause: number;
  readonly sinceS: number;
  readonly sinceSdS: number;
  readonly amplitude: number;
  readonly learnedS: number;
  readonly raisedS: number;
}

/** A speed or height that was read: how much more than planned it was. */
interface Off {
  readonly timeS: number;
  readonly more: number;
}

/** The alert that stands. */
export interface Raised {
  readonly raisedS: number;
}

export class Run {
  /** Entries of the log that went in. */
  taken = 0;
  timeS: number;
  /** Of the last entry that went in. */
  entryS = Number.NEGATIVE_INFINITY;
  watches: Watch[];
  known: Known[] = [];
  raised: Raised | null = null;
  weighed: Weighed;
  questions: Question[] = [];
  /** Keys whose readings have drifted from all that is explained, since when. */
  unexplained = new Map<ReadKey, number>();
  private flown: Record<'mach' | 'pressureAltitudeM', Off | null> = { mach: null, pressureAltitudeM: null };
  private lastTaken = new Map<ReadKey, number>();
  private held = new Map<ReadKey, Entry>();
  private sums = new Map<ReadKey, Cusum>();
  private shiftS = 0;
  private disconnects = 0;
  /** No new moments while a known cause is gone through again. */
  private silent = false;
  private toOpen: Known[] = [];
  private readonly expectation: Expectation;
  private readonly settings: Settings;

  constructor(expectation: Expectation, settings: Settings) {
    this.expectation = expectation;
    this.settings = settings;
    this.timeS = expectation.startS;
    this.watches = gaugeNoises.map((noise) => new Watch(settings.scatter, noise));
    this.weighed = weigh(this.watches);
  }

  copy(): Run {
    const other: Run = Object.assign(Object.create(Run.prototype), this);
    other.watches = this.watches.map((watch) => watch.copy());
    other.known = [...this.known];
    other.questions = [...this.questions];
    other.unexplained = new Map(this.unexplained);
    other.flown = { ...this.flown };
    other.lastTaken = new Map(this.lastTaken);
    other.held = new Map(this.held);
    other.sums = new Map([...this.sums].map(([key, sum]) => [key, sum.copy()]));
    other.toOpen = [...this.toOpen];
    return other;
  }

  /** The moment of the plan that stands for a moment of the flight, whose contacts may have ended earlier or later. */
  planTime(timeS: number): number {
    return timeS - this.shiftS;
  }

  take(entry: Entry): void {
    this.taken++;
    this.entryS = entry.timeS;
    if (entry.status === 'withdrawn') return;
    if (entry.key === 'disconnect') {
      this.disconnect(entry.timeS);
      return;
    }
    if (entry.key === 'mach' || entry.key === 'pressureAltitudeM') {
      const { key, timeS, value } = entry;
      if (this.airPlausible(entry)) this.flown[key] = { timeS, more: value - after[key] };
      return;
    }
    this.advance(entry.timeS);
    this.measured(entry);
  }

  /** Once all readings of a moment are in: whether an alert stands. */
  judge(): void {
    if (this.silent) return;
    this.weighed = weigh(this.watches);
    const { evidence } = this.weighed;
    if (this.raised === null && evidence >= raisedAt) this.raised = { raisedS: this.timeS };
    else if (this.raised !== null && evidence < endedAt) this.raised = null;
  }

  /** The cause of the standing alert where it is sure enough to be taken as known. */
  toLearn(): Known | null {
    if (this.silent || this.raised === null) return null;
    const { raisedS } = this.raised;
    if (this.weighed.evidence < learnedEvidence) return null;
    if (this.timeS - raisedS < learnedAfterS) return null;
    const odds = oddsOf(this.watches, this.weighed);
    const [best] = odds;
    const group = groupOf(best.key);
    const sure = odds.filter(({ key }) => groupOf(key) === group);
    if (sure.reduce((sum, { probability }) => sum + probability, 0) < learnedAt) return null;
    const cause = causes.findIndex(({ key }) => key === best.key);
    const { sinceS, sinceSdS, amplitude } = best;
    return { cause, sinceS, sinceSdS, amplitude, learnedS: this.timeS, raisedS };
  }

  /** From before the first of the known causes: they open the filters when they begin, and nothing else is looked for. */
  relearn(known: readonly Known[]): void {
    this.known = [...known];
    this.toOpen = [...known].sort((a, b) => a.sinceS - b.sinceS);
    this.silent = true;
    this.raised = null;
    for (const { bank } of this.watches) bank.clear();
  }

  /** The past is gone through: from here on what is left is watched. */
  settle(last: Run): void {
    this.silent = false;
    this.raised = null;
    this.unexplained = new Map(last.unexplained);
    this.sums.clear();
    this.weighed = weigh(this.watches);
  }

  private advance(timeS: number): void {
    if (timeS <= this.timeS) return;
    while (this.toOpen.length > 0 && this.toOpen[0].sinceS < timeS) {
      const known = this.toOpen.shift() as Known;
      if (known.sinceS > this.timeS) this.moveTo(known.sinceS);
      this.open(known);
    }
    if (!this.silent) {
      const whole = Math.max(this.expectation.endS - this.expectation.startS, 1);
      for (const { bank } of this.watches) bank.begin(this.timeS, (timeS - this.timeS) / whole);
    }
    this.moveTo(timeS);
  }

  /** The filters open for a cause, and for what it does in the time by which its beginning is unsure. */
  private open({ cause, sinceS, sinceSdS, amplitude }: Known): void {
    this.expectation.at(this.planTime(sinceS), before);
    this.expectation.at(this.planTime(sinceS + sinceSdS), after);
    lookedUp = null;
    transition.between(before, after, 0);
    const { direction } = causes[cause];
    const moved = direction.slice();
    transition.apply(moved, ORDER, 1);
    const meanwhile = moved.map((value, i) => value - direction[i]);
    for (const watch of this.watches) {
      watch.open(cause);
      watch.widenAlong(meanwhile, amplitude);
    }
  }

  private moveTo(timeS: number): void {
    const [from, to] = [this.planTime(this.timeS), this.planTime(timeS)];
    this.expectation.at(from, before);
    this.lookUp(timeS);
    const mach = this.flownAt(timeS).mach;
    transition.between(before, after, mach === null ? 0 : mach - after.mach);
    for (const watch of this.watches) watch.move(transition);
    for (const { endS, takenKg } of this.expectation.contacts) {
      if (from < endS && to >= endS) this.fuelled(takenKg);
    }
    this.timeS = timeS;
  }

  /** The plan at a moment of the flight, into `after`. */
  private lookUp(timeS: number): void {
    const planTimeS = this.planTime(timeS);
    if (lookedUp === this.expectation && after.timeS === planTimeS) return;
    this.expectation.at(planTimeS, after);
    lookedUp = this.expectation;
  }

  private fuelled(takenKg: number): void {
    for (const watch of this.watches) watch.widen(STATE.fuel, (takenShare * takenKg) ** 2);
  }

  /** Fuel that was loaded is what is first read, where that is not what was planned: no gauge has stepped before it was read. */
  private loaded(value: number): void {
    if (this.timeS - this.expectation.startS > loadedS) return;
    const { innovation, sd } = this.expectedOf(true);
    const off = value - innovation;
    if (Math.abs(off) < loadedSd * sd) return;
    for (const watch of this.watches) watch.widen(STATE.fuel, off * off);
  }

  /** The plan goes on from the end of its next contact, whenever that came. */
  private disconnect(timeS: number): void {
    const contact = this.expectation.contacts.at(this.disconnects);
    if (contact === undefined) return;
    this.disconnects++;
    if (this.planTime(timeS) < contact.endS) {
      this.advance(timeS);
      this.fuelled(contact.takenKg);
    }
    this.shiftS = timeS - contact.endS;
    this.timeS = Math.max(this.timeS, timeS);
  }

  /** Of the moment that is looked up: what was read last, changed since as the plan changes. */
  private flownAt(timeS: number): Flown {
    const fresh = (key: 'mach' | 'pressureAltitudeM'): number | null => {
      const off = this.flown[key];
      return off !== null && timeS >= off.timeS && timeS - off.timeS <= flownForS
        ? after[key] + off.more
        : null;
    };
    return { mach: fresh('mach'), pressureAltitudeM: fresh('pressureAltitudeM') };
  }

  private inContact(timeS: number): boolean {
    const at = this.planTime(timeS);
    return this.expectation.contacts.some(({ startS, endS }) => at > startS && at < endS);
  }

  private measured(entry: Entry): void {
    const { key, timeS, value } = entry;
    if (this.inContact(timeS) && key !== 'inletTemperatureK') return;
    this.lookUp(timeS);
    if (!measure(key, after, this.flownAt(timeS), this.settings.scatter, measurement)) return;
    const isFuel = key === 'fuelKg';
    if (!this.plausible(entry, isFuel)) return;
    if (isFuel && !this.lastTaken.has(key)) this.loaded(value);
    this.lastTaken.set(key, after.burntKg);
    let strange = 0;
    this.watches.forEach((watch, i) => {
      const surprise = watch.take(measurement, value, isFuel);
      strange += this.weighed.noises[i] * surprise;
    });
    this.leftOver(key, strange, timeS);
  }

  /** What neither the plan nor a cause that is looked at explains; silent while an alert stands, which explains it. */
  private leftOver(key: ReadKey, surprise: number, timeS: number): void {
    if (this.silent || this.raised !== null) {
      this.sums.get(key)?.restart();
      return;
    }
    const sum = this.sums.get(key) ?? new Cusum(leftOver.k, leftOver.h);
    this.sums.set(key, sum);
    if (sum.add(surprise)) this.unexplained.set(key, timeS);
  }

  /** What cannot be is held back and asked about; it is taken with the next reading that bears it out. */
  private plausible(entry: Entry, isFuel: boolean): boolean {
    const { key, value, status } = entry;
    const { innovation, sd } = this.expectedOf(isFuel);
    const off = value - innovation;
    const burnt = after.burntKg - (this.lastTaken.get(key) ?? 0);
    const unseen =
      key === 'fuelKg' || key === 'fuelUsedKg' ? unseenShare * Math.max(0, burnt) : allowance(key, after);
    const within = plausibleSd * sd + unseen;
    const before = this.held.get(key);
    this.held.delete(key);
    if (status !== 'read' || Math.abs(off) <= within) return true;
    const borneOut = before !== undefined && this.agrees(before, entry, sd);
    if (borneOut) {
      this.questions = this.questions.filter((question) => question.entry !== before);
      return true;
    }
    this.held.set(key, entry);
    this.ask(entry, innovation, within, 3 * sd + unseen / 3);
    return false;
  }

  /** Two that lie alike off the plan. */
  private agrees(before: Entry, now: Entry, sd: number): boolean {
    const question = this.questions.find(({ entry }) => entry === before);
    if (question === undefined) return false;
    const [was, is] = [
      before.value - question.expected,
      now.value - this.expectedOf(now.key === 'fuelKg').innovation,
    ];
    return Math.abs(was - is) < 3 * sd;
  }

  private ask(entry: Entry, expected: number, within: number, near: number): void {
    const written = this.settings.typedUnits[entry.key] ?? { scale: 1, zero: 0 };
    const suspicion = suspect(entry, { expected, near, ...written }, after);
    this.questions.push({ entry, expected, within, ...suspicion });
  }

  /** What the likeliest filter expects of the measurement that stands, and within what. */
  private expectedOf(isFuel: boolean): { readonly innovation: number; readonly sd: number } {
    const watch = this.watches[this.weighed.likeliest];
    const variance = watch.varianceOf(measurement, isFuel);
    return {
      innovation: -watch.innovationOf(measurement, 0),
      sd: Math.sqrt(watch.kalman.innovationVariance(measurement.row, variance)),
    };
  }

  private airPlausible(entry: Entry): boolean {
    this.lookUp(entry.timeS);
    const expected = after[entry.key as 'mach' | 'pressureAltitudeM'];
    const within = entry.key === 'mach' ? 0.25 : 2000;
    if (entry.status !== 'read' || Math.abs(entry.value - expected) <= within) return true;
    this.ask(entry, expected, within, within / 2);
    return false;
  }
}

/** By how much a reading may differ beside its scatter when something has happened. */
function allowance(key: ReadKey, at: Expected): number {
  if (key === 'inletTemperatureK') return 30;
  if (key === 'groundSpeedMS') return 40;
  if (key === 'distanceM') return 30_000;
  return 0.15 * at.fuelFlowKgS * (key === 'fuelFlowKgS' ? 1 : 0.5);
}

const before = newExpected();
const after = newExpected();
let lookedUp: Expectation | null = null;
const transition = new Transition();
const measurement = newMeasurement();

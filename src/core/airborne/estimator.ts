/**
 * Readings against a plan: each is put in its place in the log, and what follows it in time is worked out again from the last
 * moment that was kept. What is answered depends on the log alone, never on the order in which it came.
 */
import { type Answer, answerOf } from './answer.ts';
import type { Expectation } from './expectation.ts';
import { type Entry, ReadingLog } from './reading.ts';
import { type Known, Run } from './run.ts';
import { type Settings, usualSettings } from './settings.ts';

/** A run is kept after the last whole moment and at about so many readings before, and goes on from there when an earlier reading comes late. */
const keptEvery = 30;

export class Estimator {
  private readonly expectation: Expectation;
  private readonly settings: Settings;
  private readonly log = new ReadingLog();
  /** Each with its last moment judged, the earliest first. */
  private kept: Run[];
  /** All readings taken, the last moment not yet judged: more may come to it. */
  private run: Run;
  /** The same with the last moment judged; null until it is asked for. */
  private judged: Run | null = null;

  constructor(expectation: Expectation, settings: Partial<Settings> = {}) {
    this.expectation = expectation;
    this.settings = { ...usualSettings, ...settings };
    this.run = new Run(expectation, this.settings);
    this.kept = [this.run.copy()];
  }

  get entries(): readonly Entry[] {
    return this.log.entries;
  }

  /** Whether an alert stands, or a cause that one led to. */
  get alerting(): boolean {
    const { raised, known } = this.now;
    return raised !== null || known.length > 0;
  }

  get evidence(): number {
    return this.now.weighed.evidence;
  }

  /** Digests one reading, wherever in time it belongs. */
  add(entry: Entry): void {
    const from = this.log.add(entry);
    if (from === null) return;
    if (from < this.run.taken) {
      this.kept = this.kept.filter(({ entryS }) => entryS < entry.timeS);
      this.run = this.kept[this.kept.length - 1].copy();
      this.judged = null;
    }
    while (this.run.taken < this.log.entries.length) this.step(this.log.entries[this.run.taken]);
  }

  answer(): Answer {
    return answerOf(this.now, this.expectation);
  }

  private get now(): Run {
    this.judged ??= this.judge(this.run.copy());
    return this.judged;
  }

  private step(entry: Entry): void {
    if (entry.timeS > this.run.entryS && this.run.taken > 0) {
      this.run = this.judged ?? this.judge(this.run);
      this.keep(entry.timeS);
    }
    this.judged = null;
    this.run.take(entry);
  }

  /** Keeps the run as it is before a moment: the last one in place of the one that was last, where it lies close behind those before. */
  private keep(momentS: number): void {
    const { kept, run, log } = this;
    const [before, last] = kept.slice(-2);
    const isLast = momentS === log.entries[log.entries.length - 1].timeS;
    if (!isLast && run.taken - kept[kept.length - 1].taken < keptEvery) return;
    if (last !== undefined && last.taken - before.taken < keptEvery) kept.pop();
    kept.push(run.copy());
  }

  private judge(run: Run): Run {
    run.judge();
    const known = run.toLearn();
    return known === null ? run : this.learn(run, known);
  }

  /** A cause is sure: all that came since it began is gone through again with it, and what is left is watched from here. */
  private learn(run: Run, known: Known): Run {
    const all = [...run.known, known];
    const firstS = Math.min(...all.map(({ sinceS }) => sinceS));
    const again = (this.kept.findLast(({ timeS }) => timeS <= firstS) ?? this.kept[0]).copy();
    again.relearn(all);
    while (again.taken < run.taken) again.take(this.log.entries[again.taken]);
    again.settle(run);
    return again;
  }
}

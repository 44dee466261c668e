/**
 * Readings against a plan: each is put in its place in the log, and what follows it in time is worked out again from the last
 * moment that was kept. What is answered depends on the log alone, never on the order in which it came.
 */
import { type Answer, answerOf } from './answer.ts';
import type { Expectation } from './expectation.ts';
import { type Entry, ReadingLog } from './reading.ts';
import { Run } from './run.ts';
import { type Settings, usualSettings } from './settings.ts';

/** A run is kept after each so many readings, and goes on from there when an earlier reading comes late. */
const keptEvery = 6;

export class Estimator {
  private readonly expectation: Expectation;
  private readonly settings: Settings;
  private readonly log = new ReadingLog();
  private kept: Run[];
  private run: Run;

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
    return this.run.raised !== null || this.run.known.length > 0;
  }

  get evidence(): number {
    return this.run.weighed.evidence;
  }

  /** Digests one reading, wherever in time it belongs. */
  add(entry: Entry): void {
    const from = this.log.add(entry);
    if (from === null) return;
    if (from < this.run.taken) {
      this.kept = this.kept.filter(({ taken }) => taken <= from);
      this.run = this.kept[this.kept.length - 1].copy();
    }
    while (this.run.taken < this.log.entries.length) this.step();
  }

  answer(): Answer {
    return answerOf(this.run, this.expectation);
  }

  private step(): void {
    this.run.take(this.log.entries[this.run.taken]);
    const learned = this.run.toLearn();
    if (learned !== null) this.learn(learned);
    if (this.run.taken % keptEvery === 0) this.kept.push(this.run.copy());
  }

  /** A cause is sure: all that came since it began is gone through again with it, and what is left is watched from here. */
  private learn(known: Run['known'][number]): void {
    const { run } = this;
    const all = [...run.known, known];
    const firstS = Math.min(...all.map(({ sinceS }) => sinceS));
    const before = this.kept.filter(({ timeS }) => timeS <= firstS);
    const again = before[before.length - 1].copy();
    again.relearn(all);
    while (again.taken < run.taken) again.take(this.log.entries[again.taken]);
    again.settle(run);
    this.run = again;
  }
}

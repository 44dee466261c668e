/**
 * The flight that readings are compared with: its plan, its sortie and every reading, kept in the browser after each one, so that
 * closing the page or a kill loses nothing. What is shown is worked out from that log alone; what follows is flown in the worker.
 */
import type { Answer } from '../../../core/airborne/answer.ts';
import { Estimator } from '../../../core/airborne/estimator.ts';
import { Expectation } from '../../../core/airborne/expectation.ts';
import type { Entry } from '../../../core/airborne/reading.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { typedUnits } from '../../../files/readings.ts';
import type { Planner } from '../../planner.ts';
import type { FollowedOn, SlopesAt } from './flying.ts';
import { forgetFlight, forgetReading, keepFlight, keepReading, readKept, type SortieText } from './kept.ts';

/** A worker that was replaced meanwhile never answers. */
const patienceMs = 20_000;

export class Flight {
  plan = $state.raw<Plan | null>(null);
  answer = $state.raw<Answer | null>(null);
  /** Of the answer named in it; null until the first is flown. */
  followed = $state.raw<(FollowedOn & { readonly answer: Answer }) | null>(null);
  /** As they came, the newest last. */
  log = $state.raw<readonly Entry[]>([]);
  /** Whether a flight that was kept is being looked for. */
  opening = $state(true);
  /** Changes that are not on the disk yet. */
  keeping = $state(0);
  /** Why the browser could not keep it; empty where it did. */
  unkept = $state('');
  private estimator: Estimator | null = null;
  private sortie: SortieText = { path: '', text: '' };
  private readonly planner: Planner;
  /** Whether the worker has the plan ready, and whether it flies. */
  private ready = false;
  private flies = false;

  constructor(planner: Planner) {
    this.planner = planner;
    void this.open();
  }

  private async open(): Promise<void> {
    try {
      const kept = await readKept();
      if (kept === null) return;
      this.sortie = kept.sortie;
      this.start(kept.plan, null);
      this.read(kept.readings);
      void this.follow();
    } catch (error) {
      this.unkept = notKept(error);
    } finally {
      this.opening = false;
    }
  }

  /** In order of time, one for each time and key. */
  get readings(): readonly Entry[] {
    return this.estimator?.entries ?? [];
  }

  /** Begins with a plan; readings of a flight before are put away. */
  begin(plan: Plan, sortie: SortieText): void {
    this.sortie = sortie;
    this.ready = false;
    this.followed = null;
    this.start(plan, null);
    void this.keep(keepFlight(plan, sortie));
    void this.follow();
  }

  add(entry: Entry): void {
    this.read([entry]);
    void this.keep(keepReading(entry));
    void this.follow();
  }

  /** Takes the newest reading back, or its correction. */
  undo(): void {
    const last = this.log.at(-1);
    if (last === undefined || this.plan === null) return;
    const log = this.log.slice(0, -1);
    this.start(this.plan, this.slopes);
    this.read(log);
    void this.keep(forgetReading());
    void this.follow();
  }

  end(): void {
    void this.keep(forgetFlight());
    this.plan = null;
    this.answer = null;
    this.followed = null;
    this.log = [];
  }

  private slopes: SlopesAt | null = null;

  private start(plan: Plan, slopes: SlopesAt | null): void {
    this.slopes = slopes;
    const expectation = new Expectation(plan, slopes === null ? undefined : (node) => slopes[node]);
    this.estimator = new Estimator(expectation, { typedUnits: typedUnits(plan.aircraft.gaugeUnits) });
    this.plan = plan;
    this.log = [];
    this.answer = this.estimator.answer();
  }

  private read(entries: readonly Entry[]): void {
    for (const entry of entries) this.estimator?.add(entry);
    this.log = [...this.log, ...entries];
    this.answer = this.estimator?.answer() ?? null;
  }

  /** Flies the newest answer on, one at a time; the first time the plan is made ready, with the slopes of its deck. */
  private async follow(): Promise<void> {
    if (this.flies) return;
    this.flies = true;
    try {
      while (this.plan !== null && this.answer !== null && this.followed?.answer !== this.answer) {
        const { plan, answer, readings } = this;
        if (!this.ready) await this.makeReady(plan);
        else {
          const flown = this.planner.ask((desk) => desk.follow(plan.fingerprint, answer, [...readings]));
          const followed = await Promise.race([flown, later(patienceMs)]);
          this.ready = followed !== null;
          if (followed !== null && plan === this.plan) this.followed = { ...followed, answer };
        }
      }
    } finally {
      this.flies = false;
    }
  }

  private async makeReady(plan: Plan): Promise<void> {
    const { path, text } = this.sortie;
    const begun = this.planner.ask(async (desk) => ({ slopes: await desk.beginFlight(path, text, plan) }));
    const made = await Promise.race([begun, later(patienceMs)]);
    this.ready = made !== null;
    if (!made?.slopes || plan !== this.plan || this.slopes !== null) return;
    const { log } = this;
    this.start(plan, made.slopes);
    this.read(log);
  }

  private async keep(change: Promise<void>): Promise<void> {
    this.keeping++;
    try {
      await change;
      this.unkept = '';
    } catch (error) {
      this.unkept = notKept(error);
    }
    this.keeping--;
  }
}

function notKept(error: unknown): string {
  return `This browser does not keep the flight (${(error as Error).message}): readings are lost when the page is closed.`;
}

function later(ms: number): Promise<null> {
  return new Promise((done) => {
    setTimeout(() => done(null), ms);
  });
}

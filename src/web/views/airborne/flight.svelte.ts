/**
 * The flight that readings are compared with: its plan and every reading, kept in the browser after each one, so that closing the
 * page or a crash loses nothing. What is shown is worked out from that log alone.
 */
import type { Answer } from '../../../core/airborne/answer.ts';
import { Estimator } from '../../../core/airborne/estimator.ts';
import { Expectation } from '../../../core/airborne/expectation.ts';
import type { Entry } from '../../../core/airborne/reading.ts';
import type { Plan } from '../../../core/plan/plan.ts';

const planKey = 'airborne-plan';
const readingsKey = 'airborne-readings';

export class Flight {
  plan = $state.raw<Plan | null>(null);
  answer = $state.raw<Answer | null>(null);
  /** As they came, the newest last. */
  log = $state.raw<readonly Entry[]>([]);
  /** Why the browser could not keep it; empty where it did. */
  unkept = $state('');
  private estimator: Estimator | null = null;

  constructor() {
    const kept = localStorage.getItem(planKey);
    if (kept === null) return;
    this.start(JSON.parse(kept));
    const lines = (localStorage.getItem(readingsKey) ?? '').split('\n').filter((line) => line !== '');
    for (const line of lines) this.take(JSON.parse(line));
  }

  /** Begins with a plan; readings of a flight before are put away. */
  begin(plan: Plan): void {
    this.start(plan);
    this.keep(planKey, JSON.stringify(plan));
    this.keep(readingsKey, '');
  }

  add(entry: Entry): void {
    this.take(entry);
    this.keep(readingsKey, this.log.map((each) => JSON.stringify(each)).join('\n'));
  }

  end(): void {
    localStorage.removeItem(planKey);
    localStorage.removeItem(readingsKey);
    this.plan = null;
    this.answer = null;
    this.log = [];
  }

  private start(plan: Plan): void {
    this.estimator = new Estimator(new Expectation(plan));
    this.plan = plan;
    this.log = [];
    this.answer = this.estimator.answer();
  }

  private take(entry: Entry): void {
    this.estimator?.add(entry);
    this.log = [...this.log, entry];
    this.answer = this.estimator?.answer() ?? null;
  }

  private keep(key: string, text: string): void {
    try {
      localStorage.setItem(key, text);
      this.unkept = '';
    } catch (error) {
      this.unkept = `This browser does not keep the flight (${(error as Error).message}): readings are lost when the page is closed.`;
    }
  }
}

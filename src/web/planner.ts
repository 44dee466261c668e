/**
 * The planner as the page sees it: a worker that is given files and texts and reports plans. One plan is made at a time; of
 * those asked for meanwhile only the last is made. A worker that fails is replaced, with the files it had.
 */
import * as Comlink from 'comlink';
import type { Stage } from '../core/plan/make-plan.ts';
import type { Plan, PlanSurprises, Surprise } from '../core/plan/plan.ts';
import type { Fault } from '../files/faults.ts';
import { type Changes, withChanges } from './changes.ts';
import type { Desk, Refused } from './worker.ts';
import PlannerWorker from './worker.ts?worker';

export interface Listener {
  /** A plan, or a part of one: what is pending is not in it yet. */
  stage(stage: Stage): void;
  refused(faults: readonly Fault[], ask: Ask): void;
  /** The next part to be flown after the last plan; null where the page shows no other. */
  missing(): Surprise | null;
  /** Parts of the last plan that were flown after it. */
  surprise(parts: Partial<PlanSurprises>): void;
  /** The planner is at work, or idle. */
  busy(busy: boolean): void;
  /** Paths of all files that are there, after some were given. */
  given(paths: readonly string[]): void;
  /** The worker failed and was replaced. */
  restarted(reason: string): void;
}

/** What is planned: a sortie's text at its path. */
export interface Ask {
  readonly path: string;
  readonly text: string;
}

const pauseMs = 400;

export class Planner {
  private readonly listener: Listener;
  private readonly files = new Map<string, Uint8Array<ArrayBuffer>>();
  private worker!: Worker;
  private desk!: Comlink.Remote<Desk>;
  private running: Ask | null = null;
  private waiting: Ask | null = null;
  /** During which the worker failed last. */
  private failed: Ask | null = null;
  private pause: ReturnType<typeof setTimeout> | undefined;
  private flying = false;
  /** Nothing is planned before the first files are there. */
  private ready: Promise<unknown>;
  private given!: (files: Promise<unknown>) => void;

  constructor(listener: Listener) {
    this.listener = listener;
    this.ready = new Promise((given) => {
      this.given = given;
    });
  }

  /** Gives files to the planner; those of the same path take the place of the old. */
  put(files: ReadonlyMap<string, Uint8Array<ArrayBuffer>>): void {
    if (!this.started) this.start();
    for (const [path, bytes] of files) this.files.set(path, bytes);
    this.ready = this.desk.put(files as Map<string, Uint8Array<ArrayBuffer>>);
    this.given(this.ready);
    this.listener.given([...this.files.keys()].sort());
  }

  /** The text of a file that was given; null where there is none. */
  text(path: string): string | null {
    const bytes = this.files.get(path);
    return bytes ? new TextDecoder().decode(bytes) : null;
  }

  plan(ask: Ask): void {
    clearTimeout(this.pause);
    if (this.running) {
      this.waiting = ask;
      if (this.started) void this.desk.giveUp();
      return;
    }
    void this.run(ask);
  }

  /** Ends what is going on; the last plan stays. */
  cancel(): void {
    this.waiting = null;
    if (this.running && this.started) this.replace();
  }

  /** Other work of the desk, after the files are there. */
  async ask<T>(work: (desk: Comlink.Remote<Desk>) => Promise<T>): Promise<T> {
    await this.ready;
    return work(this.desk);
  }

  /** The worker begins with the first files. */
  private get started(): boolean {
    return this.files.size > 0;
  }

  private async run(ask: Ask): Promise<void> {
    this.running = ask;
    this.listener.busy(true);
    await this.ready;
    const { worker } = this;
    let plan: Plan | null = null;
    const report = Comlink.proxy((changes: Changes) => {
      if (worker !== this.worker) return;
      const stage = withChanges(plan, changes);
      plan = stage.plan;
      this.listener.stage(stage);
    });
    let refused: Refused | null;
    try {
      refused = await this.desk.plan(ask.path, ask.text, report);
    } catch (error) {
      this.failIn(worker, error as Error);
      return;
    }
    if (worker !== this.worker) return;
    if (refused) this.listener.refused(refused.faults, ask);
    this.running = null;
    const next = this.waiting;
    this.waiting = null;
    if (next) {
      void this.run(next);
      return;
    }
    this.listener.busy(false);
    // What takes longer than a plan is flown when nothing was asked for in a while.
    if (!refused) this.pause = setTimeout(() => this.fly(), pauseMs);
  }

  /** Flies what the page misses of the parts that are flown after a plan, one by one; another plan ends it. */
  fly(): void {
    if (this.running || this.flying) return;
    clearTimeout(this.pause);
    void this.flyOn(this.worker);
  }

  private async flyOn(worker: Worker): Promise<void> {
    this.flying = true;
    try {
      for (;;) {
        const part = this.listener.missing();
        if (part === null) break;
        const parts = await this.desk.surprise(part);
        if (worker !== this.worker) return;
        if (this.running) break;
        if (parts) this.listener.surprise(parts);
      }
    } catch (error) {
      this.failIn(worker, error as Error);
      return;
    }
    this.flying = false;
  }

  private start(): void {
    this.worker = new PlannerWorker();
    this.desk = Comlink.wrap<Desk>(this.worker);
    const { worker } = this;
    worker.onerror = (event) => {
      event.preventDefault();
      this.failIn(worker, event);
    };
  }

  /** A worker that was replaced meanwhile has nothing more to say. */
  private failIn(worker: Worker, { message }: { readonly message: string }): void {
    if (worker === this.worker) this.fail(message);
  }

  /** What failed is planned once more; what fails again waits for another text. */
  private fail(reason: string): void {
    const { running } = this;
    const again = this.waiting ?? (running?.text === this.failed?.text ? null : running);
    this.failed = running;
    this.replace();
    this.listener.restarted(reason);
    if (again) this.plan(again);
  }

  private replace(): void {
    clearTimeout(this.pause);
    this.worker.terminate();
    this.flying = false;
    this.running = null;
    this.waiting = null;
    this.start();
    this.ready = this.desk.put(this.files);
    this.listener.busy(false);
  }
}

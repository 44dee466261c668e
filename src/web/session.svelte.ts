/**
 * What the page shows and what was done to it. The text of the sortie is the one truth: a touch on the map, a slider and the
 * form all change it, and undo goes back along the texts.
 */
import type { PlanPart, Stage } from '../core/plan/make-plan.ts';
import type { Plan } from '../core/plan/plan.ts';
import { type PlanSurprises, type Surprise, surprisesFor } from '../core/plan/plan-surprises.ts';
import type { Fault } from '../files/faults.ts';
import type { Along, Part } from '../present/chart/frame.ts';
import { Planner } from './planner.ts';

export type ThemeName = 'paper' | 'night';

const mostUndo = 1000;

export class Session {
  path = $state('');
  text = $state('');
  /** The newest plan; what `pending` names is still of the one before. */
  plan = $state.raw<Plan | null>(null);
  pending = $state.raw<readonly PlanPart[]>([]);
  /** Parts of the plan that are flown after it, for the case that something goes otherwise, and are not yet; null in it until then. */
  toCome = $state.raw<readonly Surprise[]>([]);
  /** Of those parts, what the open view shows. */
  private shown = $state.raw<readonly Surprise[]>([]);
  /** Who waits for the whole plan. */
  private waiting = $state.raw<readonly ((plan: Plan | null) => void)[]>([]);
  /** The newest plan with nothing pending. */
  last = $state.raw<Plan | null>(null);
  /** The plan that differences are taken against. */
  kept = $state.raw<Plan | null>(null);
  faults = $state.raw<readonly Fault[]>([]);
  busy = $state(false);
  /** Paths of the files that a sortie can name. */
  atHand = $state.raw<readonly string[]>([]);
  /** A plan without its sortie, which can be looked at only. */
  looking = $state(false);
  /** Text as it was opened or saved last. */
  saved = $state('');
  /** One sentence about the program itself, such as that the planner was restarted. */
  notice = $state('');
  /** Of the cursor, since take-off. */
  cursorS = $state(0);
  along = $state<Along>('time');
  part = $state.raw<Part | null>(null);
  theme = $state<ThemeName>(document.documentElement.dataset.theme === 'night' ? 'night' : 'paper');
  view = $state('strip');
  private past = $state.raw<readonly string[]>([]);
  private future = $state.raw<readonly string[]>([]);
  /** Text at the beginning of a gesture that is one step of undo. */
  private before: string | null = null;

  readonly planner = new Planner({
    stage: (stage) => this.receive(stage),
    refused: (faults, ask) => {
      if (ask.text === this.text) this.faults = faults;
    },
    missing: () => this.flying[0] ?? null,
    surprise: (parts) => this.add(parts),
    busy: (busy) => {
      this.busy = busy;
    },
    given: (paths) => {
      this.atHand = paths;
    },
    restarted: (reason) => {
      this.toCome = [];
      this.answer(null);
      this.notice = `The planner failed (${reason}) and was started again; nothing is lost.`;
    },
  });

  /** Whether the plan has all that the command line would give it. */
  get whole(): boolean {
    return this.pending.length === 0 && this.toCome.length === 0;
  }

  /** Parts that are being flown: those that somebody looks at or waits for. */
  get flying(): readonly Surprise[] {
    return this.waiting.length > 0 ? this.toCome : this.toCome.filter((part) => this.shown.includes(part));
  }

  get canUndo(): boolean {
    return this.past.length > 0;
  }

  get canRedo(): boolean {
    return this.future.length > 0;
  }

  /** Opens a sortie; undo begins anew. A plan that is at hand is shown until the first edit. */
  open(path: string, text: string, plan: Plan | null = null): void {
    this.path = path;
    this.text = text;
    this.saved = text;
    this.looking = false;
    this.past = [];
    this.future = [];
    this.faults = [];
    this.part = null;
    this.kept = plan;
    this.plan = plan;
    this.last = plan;
    this.pending = [];
    this.toCome = [];
    if (!plan) this.replan();
  }

  /** Puts a plan in the place of that of which only a part was shown, unless another is shown by now. */
  complete(plan: Plan): void {
    if (this.plan !== this.kept || this.plan?.fingerprint !== plan.fingerprint) return;
    this.plan = plan;
    this.kept = plan;
    this.last = plan;
  }

  /** Shows a plan whose sortie is not here. */
  look(path: string, plan: Plan): void {
    this.open(path, '', plan);
    this.looking = true;
  }

  /** Puts another text in the place of the sortie's. */
  edit(text: string): void {
    if (text === this.text) return;
    if (this.looking) {
      this.notice = 'This plan was opened to look at: open its sortie to change it.';
      return;
    }
    this.notice = '';
    if (this.before === null) this.remember(this.text);
    this.text = text;
    this.replan();
  }

  /** What is edited until `release` is one step of undo. */
  hold(): void {
    this.before ??= this.text;
  }

  release(): void {
    const { before } = this;
    this.before = null;
    if (before !== null && before !== this.text) this.remember(before);
  }

  undo(): void {
    const text = this.past.at(-1);
    if (text === undefined) return;
    this.past = this.past.slice(0, -1);
    this.future = [...this.future, this.text];
    this.text = text;
    this.replan();
  }

  redo(): void {
    const text = this.future.at(-1);
    if (text === undefined) return;
    this.future = this.future.slice(0, -1);
    this.past = [...this.past, this.text];
    this.text = text;
    this.replan();
  }

  /** Has the parts flown that a view shows. */
  show(parts: readonly Surprise[]): void {
    this.shown = parts;
    this.planner.fly();
  }

  /** The plan shown, when it has all that the command line would give it; null where another comes meanwhile. */
  wholePlan(): Promise<Plan | null> {
    const { plan } = this;
    if (this.whole) return Promise.resolve(plan);
    return new Promise((answer) => {
      this.waiting = [...this.waiting, answer];
      this.planner.fly();
    });
  }

  /** Differences are taken from here on. */
  keep(): void {
    this.kept = this.plan;
  }

  replan(): void {
    this.planner.plan({ path: this.path, text: this.text });
  }

  private remember(text: string): void {
    this.past = [...this.past, text].slice(-mostUndo);
    this.future = [];
  }

  private answer(plan: Plan | null): void {
    for (const answer of this.waiting) answer(plan);
    this.waiting = [];
  }

  private receive({ plan, pending }: Stage): void {
    this.answer(null);
    this.faults = [];
    this.plan = plan;
    this.pending = pending;
    this.toCome = surprisesFor(plan);
    if (pending.length === 0) this.last = plan;
    this.kept ??= pending.length === 0 ? plan : null;
  }

  private add(parts: Partial<PlanSurprises>): void {
    if (!this.plan) return;
    const plan = { ...this.plan, ...parts };
    if (this.kept === this.plan) this.kept = plan;
    this.plan = plan;
    this.last = plan;
    this.toCome = this.toCome.filter((part) => !(part in parts));
    if (this.whole) this.answer(plan);
  }
}

export const session = new Session();

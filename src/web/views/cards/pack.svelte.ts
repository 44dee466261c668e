/** The pack on the screen: which cards there are, the one that is looked at, and the printing of all. */
import * as Comlink from 'comlink';
import type { Plan } from '../../../core/plan/plan.ts';
import { loadOutlines } from '../../map-data.ts';
import type { DrawnCard, Listed, Press } from './press.worker.ts';
import PressWorker from './press.worker.ts?worker';

export class Pack {
  cards = $state.raw<readonly Listed[]>([]);
  /** From 1. */
  number = $state(1);
  shown = $state.raw<DrawnCard | null>(null);
  /** How far a print has come; null where none is made. */
  printing = $state.raw<{ readonly drawn: number; readonly count: number } | null>(null);
  /** Why the pack cannot be shown or printed; empty where it can. */
  failure = $state('');
  /** The plan whose cards are shown. */
  plan = $state.raw<Plan | null>(null);
  private wanted: Plan | null = null;
  private opening = false;
  private worker!: Worker;
  private press!: Comlink.Remote<Press>;

  constructor() {
    this.start();
  }

  /** Shows the pack of a plan, at the card of the same number where there is one; of plans that come meanwhile, the last. */
  async open(plan: Plan): Promise<void> {
    this.wanted = plan;
    if (this.opening) return;
    this.opening = true;
    while (this.wanted !== this.plan) await this.attempt(() => this.take(this.wanted));
    this.opening = false;
  }

  async show(number: number): Promise<void> {
    if (number < 1 || number > this.cards.length) return;
    this.number = number;
    await this.attempt(async () => {
      const drawn = await this.press.draw(number);
      if (number === this.number) this.shown = drawn;
    });
  }

  /** Makes the pack as a PDF and hands it over, unless it is cancelled meanwhile. */
  async print(done: (pdf: Blob) => void): Promise<void> {
    this.printing = { drawn: 0, count: this.cards.length };
    await this.attempt(async () => {
      const bytes = await this.press.print(
        Comlink.proxy((drawn: number, count: number) => {
          if (this.printing) this.printing = { drawn, count };
        }),
      );
      done(new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/pdf' }));
    });
    this.printing = null;
  }

  /** Ends the printing; what is shown stays. An answer of the press that is awaited never comes. */
  cancel(): void {
    this.restart();
  }

  close(): void {
    this.worker.terminate();
  }

  private async take(plan: Plan | null): Promise<void> {
    if (!plan) return;
    const cards = await this.press.open(plan, await loadOutlines());
    const number = Math.min(this.number, cards.length);
    const shown = await this.press.draw(number);
    Object.assign(this, { plan, cards, number, shown, failure: '' });
  }

  private async attempt(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.failure = `The cards could not be made: ${(error as Error).message}`;
      this.plan = this.wanted;
    }
  }

  private start(): void {
    const worker = new PressWorker();
    this.worker = worker;
    this.press = Comlink.wrap<Press>(worker);
    worker.onerror = (event) => {
      event.preventDefault();
      if (worker !== this.worker) return;
      this.restart();
      this.failure = `The printer failed (${event.message}) and was started again.`;
    };
  }

  private restart(): void {
    this.worker.terminate();
    this.printing = null;
    this.opening = false;
    this.plan = null;
    this.start();
    if (this.wanted) void this.open(this.wanted);
  }
}

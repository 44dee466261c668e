/** Lays out and prints the pack of a plan, away from the page: its letters are shaped by the library of the PDF. */

import regularUrl from '@expo-google-fonts/atkinson-hyperlegible-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf?url';
import boldUrl from '@expo-google-fonts/atkinson-hyperlegible-next/700Bold/AtkinsonHyperlegibleNext_700Bold.ttf?url';
import * as Comlink from 'comlink';
import type { Plan } from '../../../core/plan/plan.ts';
import { asWritten } from '../../../files/plan.ts';
import { type Card, type Foot, footOf } from '../../../present/card/card.ts';
import { layOut } from '../../../present/card/layout.ts';
import { cardsOf } from '../../../present/card/pack.ts';
import type { Mark, Measure } from '../../../present/card/page.ts';
import { type CardFonts, cardMeasure, cardsPdf } from '../../../present/card/pdf.ts';
import { cardText } from '../../../present/card/text.ts';
import type { Outlines } from '../../../present/map/outlines.ts';

/** What the list of contents says of a card. */
export interface Listed {
  readonly title: string;
  readonly question: string;
}

export interface DrawnCard {
  readonly marks: readonly Mark[];
  /** What it says, with its foot. */
  readonly text: string;
}

interface Pack {
  readonly plan: Plan;
  readonly outlines: Outlines;
  readonly cards: readonly Card[];
  readonly foot: Foot;
  readonly fonts: CardFonts;
  readonly measure: Measure;
}

let loading: Promise<CardFonts> | null = null;

export class Press {
  private pack: Pack | null = null;

  /** Takes a plan and lists its cards, which are drawn from what the plan's file says. */
  async open(given: Plan, outlines: Outlines): Promise<readonly Listed[]> {
    loading ??= loadFonts();
    const fonts = await loading;
    const plan = asWritten(given);
    const measure = cardMeasure(plan, fonts);
    const cards = cardsOf(plan, outlines, measure);
    const foot = footOf(plan, cards.length);
    this.pack = { plan, outlines, cards, foot, fonts, measure };
    return cards.map(({ title, question }) => ({ title, question }));
  }

  /** Card `number`, from 1. */
  draw(number: number): DrawnCard {
    const { cards, foot, measure } = this.opened();
    const card = cards[number - 1];
    return {
      marks: layOut(card, foot, number, cards.length, measure),
      text: cardText(card, foot, number, cards.length),
    };
  }

  /** The whole pack as `ramrise plan` writes it. */
  async print(report: (drawn: number, count: number) => void): Promise<Uint8Array> {
    const { plan, outlines, fonts } = this.opened();
    const bytes = await cardsPdf(plan, fonts, outlines, report);
    return Comlink.transfer(bytes, [bytes.buffer]);
  }

  private opened(): Pack {
    if (!this.pack) throw new Error('no plan was given to the press');
    return this.pack;
  }
}

async function loadFonts(): Promise<CardFonts> {
  const [regular, bold] = await Promise.all(
    [regularUrl, boldUrl].map(async (url) => new Uint8Array(await (await fetch(url)).arrayBuffer())),
  );
  return { regular, bold };
}

Comlink.expose(new Press());

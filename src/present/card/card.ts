/**
 * A card as data: one question, its answer, a table of at most nine rows and five columns. The printed page and the text of it
 * are both made from this.
 */
import type { Plan } from '../../core/plan/plan.ts';
import { validityLine, weatherLine } from '../foot.ts';
import { NOT_COMPUTED } from '../units.ts';
import type { Mark, Measure, Room } from './page.ts';

export const MOST_ROWS = 9;
export const MOST_COLUMNS = 5;

export interface Card {
  readonly title: string;
  readonly question: string;
  readonly answer: readonly string[];
  readonly table: CardTable | null;
  /** Below the table, or instead of one. */
  readonly drawing?: Drawing;
  /** Small print under the table: footnotes, the worked line, how figures are rounded. */
  readonly notes: readonly string[];
}

/** A drawing on a card, in the room that the rest of it leaves. */
export interface Drawing {
  /** Least height [mm]. */
  readonly least: number;
  /** What it shows, for a reader who does not see it. */
  readonly says: string;
  marks(room: Room, measure: Measure): readonly Mark[];
}

export interface CardTable {
  readonly columns: readonly CardColumn[];
  readonly rows: readonly (readonly Cell[])[];
}

export interface CardColumn {
  readonly name: string;
  /** Unit with its kind, or what stands below the figure. */
  readonly unit: string;
  /** 'figures' decide and are set large; 'words' take what room is left; 'pencil' is written in by hand. */
  readonly holds: 'figures' | 'words' | 'pencil';
}

export interface Cell {
  /** Set large; empty in a cell of words or a blank one. */
  readonly figure: string;
  /** Behind the figure: a unit, or the letter of a footnote; below words: what belongs to them, in small print. */
  readonly after: string;
  /** Below the figure, or the words of a cell without one. */
  readonly below: string;
}

export interface Foot {
  /** Stands on every card of a sortie that cannot be flown; empty where it can. */
  readonly warning: string;
  readonly fingerprint: string;
  readonly validity: string;
  readonly weather: string;
  readonly attribution: readonly string[];
  readonly caution: string;
}

/** Longest attribution that every card carries whole, in characters: three or four lines. */
const LONGEST_ATTRIBUTION = 420;

/** The foot of every card of a pack of `count`; a long attribution stands whole on the last before the proof of print. */
export function footOf(plan: Plan, count: number): Foot {
  const { attribution } = plan.weather;
  const long = attribution.join(' ').length > LONGEST_ATTRIBUTION;
  return {
    warning: plan.flyable ? '' : 'This sortie cannot be flown as it stands: see card 1.',
    fingerprint: plan.fingerprint,
    validity: validityLine(plan),
    weather: weatherLine(plan),
    attribution: long
      ? [`${attribution.map(beginning).join('; ')}; in full on card ${count - 1}.`]
      : attribution,
    caution: plan.caution,
  };
}

/** An attribution up to its first bracket or comma. */
function beginning(text: string): string {
  return text.split(/ \(|, /, 1)[0];
}

/** A cell of figures; what was not computed is said in words, not set large. */
export function cell(figure: string, below = '', after = ''): Cell {
  return figure === NOT_COMPUTED ? words(NOT_COMPUTED) : { figure, after, below };
}

export function words(text: string, after = ''): Cell {
  return { figure: '', after, below: text };
}

export const BLANK: Cell = { figure: '', after: '', below: '' };

/** Pieces of at most `most`, as equal as they go. */
export function split<T>(items: readonly T[], most: number): readonly (readonly T[])[] {
  const pieces = Math.max(1, Math.ceil(items.length / most));
  const size = Math.ceil(items.length / pieces);
  return Array.from({ length: pieces }, (_, i) => items.slice(i * size, (i + 1) * size)).filter(
    (piece) => piece.length > 0,
  );
}

/** "1 of 2" behind a title that goes on over several cards; nothing where it does not. */
export function part(index: number, count: number): string {
  return count > 1 ? `, ${index + 1} of ${count}` : '';
}

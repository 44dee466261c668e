/**
 * The page of a card: A5, millimetres from the top left corner; text stands by its baseline; sizes are the heights of figures
 * and capitals, because that is what is read.
 *
 * The top 15 mm lie under the clip and stay empty. Deciding figures are 4.9 mm high: 24 minutes of arc at 700 mm
 * (MIL-STD-1472, from memory: 16 to 24).
 */

export const PAGE = { width: 148, height: 210 } as const;
export const CLIP = 15;
export const LEFT = 9;
export const RIGHT = 138.5;
export const BOTTOM = 204;
/** Heights of figures: what decides, what explains, small print. */
export const HEIGHT = { large: 4.9, medium: 2.7, small: 1.9 } as const;

export type TextHeight = (typeof HEIGHT)[keyof typeof HEIGHT];
export type Weight = 'regular' | 'bold';
export type Measure = (text: string, height: TextHeight, weight: Weight) => number;

export type Mark =
  | {
      readonly is: 'text';
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly height: TextHeight;
      readonly weight: Weight;
      readonly ink: 'black' | 'white';
    }
  | {
      readonly is: 'rule';
      readonly x1: number;
      readonly x2: number;
      readonly y: number;
      readonly weight: number;
    }
  | {
      readonly is: 'box';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly filled: boolean;
    }
  | { readonly is: 'ring'; readonly x: number; readonly y: number; readonly radius: number }
  | {
      readonly is: 'path';
      /** In the syntax of SVG, from the place that it stands at. */
      readonly d: string;
      readonly at: readonly [number, number];
      /** From 0 for black to 1 for white. */
      readonly grey: number;
      /** Of the line; null fills the path instead. */
      readonly weight: number | null;
      readonly dash: readonly number[];
    };

/** Height of figures and capitals over the type size: 668 units of 1000 in the face. */
const FIGURE_HEIGHT = 0.668;

/** Type size [mm] of a height. */
export function typeSize(height: number): number {
  return height / FIGURE_HEIGHT;
}

/**
 * Figures of one width where they stand below each other or in thousands, whose thin space is lost otherwise; the rest of the
 * small print does without, so that its words are shaped only once.
 */
export function isTabular(text: string, height: number): boolean {
  return height > HEIGHT.small || text.includes('\u2009');
}

/** A part of the page. */
export interface Room {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export function text(
  marks: Mark[],
  x: number,
  y: number,
  content: string,
  height: TextHeight,
  weight: Weight,
  ink: 'black' | 'white' = 'black',
): void {
  marks.push({ is: 'text', x, y, text: content, height, weight, ink });
}

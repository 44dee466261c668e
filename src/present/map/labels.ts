/** Labels beside their marks, so that none covers another and few cover the track. */
import { bisector } from 'd3-array';
import { textWidth } from '../theme.ts';
import type { Point } from './view.ts';

export interface Label {
  readonly text: string;
  /** Left end of the text on its base line. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly weight: 'normal' | 'bold';
}

export interface WantedLabel {
  readonly text: string;
  readonly at: Point;
  /** From the mark's middle to its rim; 0 for a label that stands on its place. */
  readonly radius: number;
  readonly size: number;
  readonly weight: 'normal' | 'bold';
  /** One that must be read is placed even where it covers something. */
  readonly must: boolean;
}

/** The room of a text, from its upper left corner. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Directions in which a label is tried, the best first: right, left, above, below, then the corners. */
const DIRECTIONS: readonly Point[] = [
  [1, 0], [-1, 0], [0, -1], [0, 1], [1, -1], [1, 1], [-1, -1], [-1, 1],
]; // biome-ignore format: a table
const DISTANCES = [1, 2.2, 3.4];
/** Height of the letters and depth below the base line, and what is kept free around them, in text sizes. */
const RISE = 0.74;
const DROP = 0.22;
const FREE = 0.15;

const byX = bisector(([x]: Point) => x);

/** A label for each that finds room in the frame, in the order given; `null` for one that finds none. */
export class Labels {
  private readonly taken: Box[] = [];
  /** From left to right. */
  private readonly crowd: readonly Point[];
  private readonly width: number;
  private readonly height: number;

  /** `crowd` are points that labels had better not cover. */
  constructor(width: number, height: number, crowd: readonly Point[]) {
    this.width = width;
    this.height = height;
    this.crowd = [...crowd].sort(([a], [b]) => a - b);
  }

  /** Keeps a square around a point free of labels. */
  reserve([x, y]: Point, radius: number): void {
    this.taken.push({ x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius });
  }

  place(wanted: WantedLabel): Label | null {
    const { text, size, weight, must } = wanted;
    let best: Box | null = null;
    let least = Number.POSITIVE_INFINITY;
    DISTANCES.forEach((distance, far) => {
      const directions = wanted.radius === 0 ? [[0, 0] as const, ...DIRECTIONS] : DIRECTIONS;
      directions.forEach((direction, turn) => {
        const box = boxBeside(wanted, direction, distance);
        if (!this.holds(box)) return;
        const roomy = widened(box, FREE * size);
        const covered = this.taken.filter((other) => overlap(other, roomy)).length;
        if (covered > 0 && !must) return;
        const cost = 100 * covered + 3 * this.crossed(box) + 2 * far + 0.2 * turn;
        if (cost >= least) return;
        least = cost;
        best = box;
      });
    });
    if (best === null) return null;
    const { x, y }: Box = best;
    this.taken.push(best);
    return { text, size, weight, x, y: y + RISE * size };
  }

  /** How many points of the crowd a box covers. */
  private crossed({ x, y, width, height }: Box): number {
    let count = 0;
    for (let i = byX.right(this.crowd, x); i < this.crowd.length && this.crowd[i][0] < x + width; i++) {
      const down = this.crowd[i][1];
      if (down > y && down < y + height) count++;
    }
    return count;
  }

  private holds({ x, y, width, height }: Box): boolean {
    return x >= 0 && y >= 0 && x + width <= this.width && y + height <= this.height;
  }
}

function boxBeside({ text, at, radius, size, weight }: WantedLabel, [dx, dy]: Point, distance: number): Box {
  const { width, height } = roomOf(text, size, weight);
  const gap = radius + 0.35 * size * distance;
  const x = at[0] + dx * gap + (dx > 0 ? 0 : dx < 0 ? -width : -width / 2);
  const y = at[1] + dy * gap + (dy > 0 ? 0 : dy < 0 ? -height : -height / 2);
  return { x, y, width, height };
}

/** The room that a placed label takes. */
export function boxOf({ text, x, y, size, weight }: Label): Box {
  return { ...roomOf(text, size, weight), x, y: y - RISE * size };
}

function roomOf(text: string, size: number, weight: Label['weight']): Pick<Box, 'width' | 'height'> {
  return { width: textWidth(text, size) * (weight === 'bold' ? 1.06 : 1), height: (RISE + DROP) * size };
}

/** A label in the middle of a point. */
export function labelOn(text: string, [x, y]: Point, size: number): Label {
  const { width, height } = roomOf(text, size, 'normal');
  return { text, x: x - width / 2, y: y - height / 2 + RISE * size, size, weight: 'normal' };
}

export function widened({ x, y, width, height }: Box, by: number): Box {
  return { x: x - by, y: y - by, width: width + 2 * by, height: height + 2 * by };
}

export function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

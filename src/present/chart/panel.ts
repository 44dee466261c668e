/** What every panel on the shared axis has: a heading with unit and kind, marks at round values, a frame. */
import { hundredth } from '../svg.ts';
import { SIZE } from '../theme.ts';
import { type Frame, LEFT, line, RIGHT, rule } from './frame.ts';

/** Height of the heading above the plot. */
export const HEAD = 24;

/** The heading of a panel: what is drawn, in which unit and kind. */
export function heading(frame: Frame, text: string): string {
  return line(frame, 8, HEAD - 8, text, SIZE.medium, 'bold');
}

/** Rules and figures at round values; `y` places a value below the heading. */
export function marks(
  frame: Frame,
  ticks: readonly number[],
  y: (value: number) => number,
  text: (value: number) => string,
): string {
  const right = frame.width - RIGHT;
  return ticks
    .map(
      (tick) =>
        rule(LEFT, y(tick), right, y(tick), frame.theme.rule, 0.8) +
        line(frame, LEFT - 8, y(tick) + 4, text(tick), SIZE.small, 'normal', frame.theme.ink, 'end'),
    )
    .join('');
}

export interface EndLabel {
  readonly text: string;
  readonly y: number;
  readonly strong: boolean;
}

/** Texts right of the plot at the ends of their lines, moved apart where they would overlap. */
export function endLabels(frame: Frame, labels: readonly EndLabel[]): string {
  const sorted = labels.filter((label) => Number.isFinite(label.y)).sort((a, b) => a.y - b.y);
  const places = spread(
    sorted.map((label) => label.y),
    SIZE.medium + 2,
  );
  return sorted
    .map(({ text, strong }, i) =>
      line(frame, frame.width - RIGHT + 10, places[i] + 5, text, SIZE.medium, strong ? 'bold' : 'normal'),
    )
    .join('');
}

/** Places in rising order moved to stand at least `apart`, each group about the middle of where its members were. */
export function spread(wanted: readonly number[], apart: number): readonly number[] {
  const groups: { sum: number; count: number }[] = [];
  const top = (group: { sum: number; count: number }) =>
    group.sum / group.count - ((group.count - 1) * apart) / 2;
  for (const y of wanted) {
    let group = { sum: y, count: 1 };
    for (let last = groups.at(-1); last !== undefined; last = groups.at(-1)) {
      if (top(last) + last.count * apart <= top(group)) break;
      group = { sum: last.sum + group.sum, count: last.count + group.count };
      groups.pop();
    }
    groups.push(group);
  }
  return groups.flatMap((group) => Array.from({ length: group.count }, (_, i) => top(group) + i * apart));
}

/** A dot that stands out of the lines around it. */
export function dot(frame: Frame, x: number, y: number): string {
  return `<circle cx="${hundredth(x)}" cy="${hundredth(y)}" r="3.4" fill="${frame.theme.ink}" stroke="${frame.theme.ground}" stroke-width="1.2"/>`;
}

/** Why two plans differ: for each number that decides, its causes as bars from a line of no change, the greatest first. */
import type { Measure, Split } from '../../core/plan/causes.ts';
import type { Comparison } from '../../core/plan/compare.ts';
import type { Plan } from '../../core/plan/plan.ts';
import {
  changeText,
  headlines,
  interacts,
  measureName,
  measureSpan,
  measureUnit,
  orderSentences,
  ranked,
} from '../causes.ts';
import { verdict } from '../compare.ts';
import { element, translate } from '../svg.ts';
import { SIZE } from '../theme.ts';
import { plainSpaces } from '../units.ts';
import { type Frame, LEFT, line, rule } from './frame.ts';
import { type Body, type ChartOptions, sheet } from './sheet.ts';

const NAME = 30;
const ROW = 24;
const GAP = 26;
const LABELS = 190;
const FIGURES = 240;

/** `plan` is the new one; nothing is drawn where the difference was not split. */
export function compareChart(
  comparison: Comparison,
  split: Split,
  plan: Plan,
  options: ChartOptions,
): string {
  const measures = headlines(comparison, split, plan);
  const title = `What changed: ${comparison.from.fingerprint} to ${comparison.to.fingerprint}`;
  const words = measures.map(
    (measure) => `${measureName(comparison, plan, measure)} ${measureSpan(comparison, plan, measure)}`,
  );
  const body = (frame: Frame): Body => {
    let y = 0;
    const parts = measures.map((measure) => {
      const block = drawMeasure(frame, comparison, split, measure);
      const markup = element('g', { transform: translate(0, y) }, block.markup);
      y += block.height;
      return markup;
    });
    return { markup: parts.join(''), height: y };
  };
  const sentences = [...verdict(comparison, plan), ...orderSentences(split, measures)];
  return sheet(plan, title, sentences, plainSpaces(`${words.join('; ')}.`), body, options);
}

function drawMeasure(frame: Frame, comparison: Comparison, split: Split, measure: Measure): Body {
  const { plan, theme, width } = frame;
  const rows = ranked(split, measure, plan);
  const most = Math.max(...rows.map(({ change }) => Math.abs(change)), Number.MIN_VALUE);
  const [left, right] = [LEFT + LABELS, width - FIGURES];
  const middle = (left + right) / 2;
  const reach = (right - left) / 2;
  const unit = measureUnit(plan, measure);
  const title = `${measureName(comparison, plan, measure)}: ${measureSpan(comparison, plan, measure)}`;
  const bottom = NAME + rows.length * ROW;
  const parts = [line(frame, LEFT, 14, title, SIZE.medium, 'bold')];
  rows.forEach(({ name, change, changeText: figure, aloneText }, i) => {
    const y = NAME + i * ROW;
    const length = (Math.abs(change) / most) * reach;
    const bar = { x: change < 0 ? middle - length : middle, y: y + 4, width: length, height: ROW - 8 };
    parts.push(
      line(frame, LEFT, y + 16, name, SIZE.medium),
      element('rect', { ...bar, fill: change < 0 ? 'url(#short)' : theme.quiet, stroke: theme.ink }),
      line(frame, right + 12, y + 16, `${figure} ${unit}`, SIZE.medium, 'bold'),
      line(frame, right + 110, y + 16, `alone ${aloneText}`, SIZE.small),
    );
  });
  parts.push(rule(middle, NAME, middle, bottom, theme.ink, 1.2));
  if (!interacts(measure)) return { markup: parts.join(''), height: bottom + GAP };
  const interaction = `Interaction of the causes, left over when each is moved alone: ${changeText(plan, measure, measure.interaction)} ${unit}`;
  parts.push(line(frame, LEFT, bottom + 16, interaction, SIZE.small));
  return { markup: parts.join(''), height: bottom + ROW + GAP };
}

/** Cards on a screen: the marks of the page, in the colours of the theme. */
import { DOMParser } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import type { Mark } from '../../src/present/card/page.ts';
import { cardSvg } from '../../src/present/card/svg.ts';
import { NIGHT, PAPER } from '../../src/present/theme.ts';

const marks: readonly Mark[] = [
  { is: 'text', x: 19, y: 30, text: 'Fuel < 9 t & in hand', height: 4.9, weight: 'bold', ink: 'black' },
  { is: 'text', x: 140, y: 40, text: '7', height: 2.7, weight: 'bold', ink: 'white' },
  { is: 'text', x: 9, y: 50, text: 'small print', height: 1.9, weight: 'regular', ink: 'black' },
  { is: 'rule', x1: 9, x2: 138.5, y: 60, weight: 0.35 },
  { is: 'box', x: 141, y: 33, width: 7, height: 12, filled: true },
  { is: 'box', x: 20, y: 70, width: 100, height: 50, filled: false },
  { is: 'ring', x: 11.5, y: 23, radius: 2.75 },
  { is: 'path', d: 'M0 0L5 5', at: [9, 80], grey: 0.5, weight: 0.3, dash: [1, 0.5] },
  { is: 'path', d: 'M0 0L5 5L0 5Z', at: [9, 90], grey: 1, weight: null, dash: [] },
];

function drawn(theme: typeof PAPER) {
  const root = new DOMParser().parseFromString(cardSvg(marks, theme, 'A card'), 'image/svg+xml');
  return Array.from(root.getElementsByTagName('*')).filter(({ tagName }) => tagName !== 'svg');
}

describe('a card on a screen', () => {
  it('[CARD-60] has every mark at its place, on an A5 page in millimetres', () => {
    const [paper, title, , , rule, , , ring] = drawn(PAPER);
    expect([paper.getAttribute('width'), paper.getAttribute('height')]).toEqual(['148', '210']);
    expect([title.getAttribute('x'), title.getAttribute('y')]).toEqual(['19', '30']);
    expect(title.textContent).toBe('Fuel < 9 t & in hand');
    expect(rule.getAttribute('d')).toBe('M9 60H138.5');
    expect(ring.getAttribute('r')).toBe('2.75');
    expect(drawn(PAPER)).toHaveLength(marks.length + 1);
  });

  it('[CARD-61] sets figures of one width where the print does', () => {
    const [, large, , small] = drawn(PAPER);
    expect(large.getAttribute('style')).toContain('tabular-nums');
    expect(small.hasAttribute('style')).toBe(false);
  });

  it('[CARD-62] is ink on the ground of its theme, and grey is between the two', () => {
    const colours = (theme: typeof PAPER) =>
      drawn(theme).flatMap((one) => ['fill', 'stroke'].map((name) => one.getAttribute(name) ?? 'none'));
    expect(new Set(colours(PAPER))).toEqual(new Set(['none', '#ffffff', '#000000', '#808080']));
    // Half way from e8dccb to 14100c, channel by channel.
    expect(new Set(colours(NIGHT))).toEqual(new Set(['none', NIGHT.ground, NIGHT.ink, '#7e766c']));
  });
});

/** Cards as SVG: the marks of the printed page on a screen, in millimetres and in the colours of a theme. */
import { type Attributes, element, escapeXml, translate } from '../svg.ts';
import type { Theme } from '../theme.ts';
import { isTabular, type Mark, PAGE, typeSize } from './page.ts';

/** The face of print, for which the page has a font of this name. */
const CARD_FACE = 'Card face';

/** One card; `says` is what a reader who does not see it hears. */
export function cardSvg(marks: readonly Mark[], theme: Theme, says: string): string {
  const root: Attributes = {
    viewBox: `0 0 ${PAGE.width} ${PAGE.height}`,
    role: 'img',
    'aria-label': says,
    'font-family': `'${CARD_FACE}'`,
    style: 'font-variant-numeric:normal',
  };
  const paper = element('rect', { width: PAGE.width, height: PAGE.height, fill: theme.ground });
  return element('svg', root, paper, ...marks.map((mark) => drawn(mark, theme)));
}

function drawn(mark: Mark, theme: Theme): string {
  switch (mark.is) {
    case 'text':
      return element(
        'text',
        {
          x: mark.x,
          y: mark.y,
          'font-size': typeSize(mark.height),
          'font-weight': mark.weight === 'bold' ? 700 : 400,
          fill: mark.ink === 'white' ? theme.ground : theme.ink,
          style: isTabular(mark.text, mark.height) ? 'font-variant-numeric:tabular-nums' : undefined,
        },
        escapeXml(mark.text),
      );
    case 'rule':
      return element('path', {
        d: `M${mark.x1} ${mark.y}H${mark.x2}`,
        stroke: theme.ink,
        'stroke-width': mark.weight,
      });
    case 'box':
      return element('rect', {
        x: mark.x,
        y: mark.y,
        width: mark.width,
        height: mark.height,
        ...(mark.filled ? { fill: theme.ink } : outline(theme.ink, 0.2)),
      });
    case 'ring':
      return element('circle', { cx: mark.x, cy: mark.y, r: mark.radius, ...outline(theme.ink, 0.2) });
    case 'path': {
      const colour = shade(theme, mark.grey);
      return element('path', {
        d: mark.d,
        transform: translate(...mark.at),
        ...(mark.weight === null ? { fill: colour } : outline(colour, mark.weight)),
        'stroke-linejoin': 'round',
        'stroke-dasharray': mark.dash.length > 0 ? mark.dash.join(' ') : undefined,
      });
    }
  }
}

function outline(stroke: string, width: number): Attributes {
  return { fill: 'none', stroke, 'stroke-width': width };
}

/** Between the ink for 0 and the ground for 1. */
function shade({ ink, ground }: Theme, lightness: number): string {
  const part = (colour: string, i: number) => Number.parseInt(colour.slice(1 + 2 * i, 3 + 2 * i), 16);
  const mixed = [0, 1, 2].map((i) =>
    Math.round(part(ink, i) + lightness * (part(ground, i) - part(ink, i)))
      .toString(16)
      .padStart(2, '0'),
  );
  return `#${mixed.join('')}`;
}

/** The light below the band of phases: the darker, the closer the strokes; day is left white, night is filled. */
import type { Light } from '../../core/earth/light.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { element } from '../svg.ts';
import { SIZE, textWidth } from '../theme.ts';
import { type Frame, LEFT, line, rule } from './frame.ts';

const HEIGHT = 7;
/** Below the strip, where its stretches are named. */
const NAMES = 14;

/** Strokes of the strip, as a pattern of dashes: none by day, one without gaps by night. */
const STROKES: Readonly<Record<Light, string | null>> = {
  day: null,
  'civil twilight': '1 7',
  'nautical twilight': '1 3.5',
  'astronomical twilight': '1 1.5',
  night: 'none',
};

interface Lit {
  readonly light: Light;
  readonly startS: number;
  readonly endS: number;
}

/** A strip at `y` with the name of each light that has room; nothing where the plan knows no light. */
export function lightStrip(frame: Frame, y: number): { markup: string; height: number } {
  const stretches = litStretches(frame);
  if (stretches.length === 0) return { markup: '', height: 0 };
  const { x, theme, startS, endS } = frame;
  const middle = y + HEIGHT / 2;
  const strokes = stretches.flatMap(({ light, startS: from, endS: to }) => {
    const dashes = STROKES[light];
    return dashes === null ? [] : [rule(x(from), middle, x(to), middle, theme.ink, HEIGHT, dashes)];
  });
  const outline = element('rect', {
    x: x(startS),
    y,
    width: x(endS) - x(startS),
    height: HEIGHT,
    fill: 'none',
    stroke: theme.ink,
    'stroke-width': 0.6,
  });
  const names = stretches.map((stretch) => nameOf(frame, stretch, y + HEIGHT + NAMES - 4));
  const head = line(frame, LEFT - 8, y + HEIGHT + 1, 'Light', SIZE.small, 'normal', theme.ink, 'end');
  return { markup: [...strokes, outline, ...names, head].join(''), height: HEIGHT + NAMES };
}

/** The whole name where it has room, else its first word; a stretch of a few units goes without. */
function nameOf(frame: Frame, { light, startS, endS }: Lit, baseline: number): string {
  const { x, theme } = frame;
  const room = x(endS) - x(startS);
  const text = [light, light.split(' ')[0]].find((name) => textWidth(name, SIZE.small) < room);
  if (text === undefined) return '';
  return line(frame, (x(startS) + x(endS)) / 2, baseline, text, SIZE.small, 'normal', theme.ink, 'middle');
}

/** The lights of the part shown, in order. */
function litStretches({ plan, startS, endS }: Frame): readonly Lit[] {
  return lightsOf(plan)
    .map(({ light, startS: from, endS: to }) => ({
      light,
      startS: Math.max(from, startS),
      endS: Math.min(to, endS),
    }))
    .filter(({ startS: from, endS: to }) => to > from);
}

function lightsOf({ light }: Plan): readonly Lit[] {
  if (light === null) return [];
  const begins = [{ timeS: Number.NEGATIVE_INFINITY, to: light.start }, ...light.changes];
  return begins.map(({ timeS, to }, i) => ({
    light: to,
    startS: timeS,
    endS: begins[i + 1]?.timeS ?? Number.POSITIVE_INFINITY,
  }));
}

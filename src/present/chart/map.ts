/** The route on a map: the track as flown, what it goes by and keeps out of, and the wind that it meets. */
import type { Plan } from '../../core/plan/plan.ts';
import { type MapMark, mapOf, type RouteMap } from '../map/map.ts';
import { OUTLINES_SOURCE, type Outlines } from '../map/outlines.ts';
import type { PieceKind } from '../map/track.ts';
import { element, hundredth, translate } from '../svg.ts';
import { SIZE } from '../theme.ts';
import { hoursMinutes } from '../time.ts';
import { plainSpaces } from '../units.ts';
import { type Frame, line, rule, stroke } from './frame.ts';
import { type Body, type ChartOptions, sheet } from './sheet.ts';

const SIDE = 46;
const HEIGHT = 680;
/** Room above the frame for degrees of meridians. */
const ABOVE = 10;

export function mapChart(plan: Plan, outlines: Outlines, options: ChartOptions): string {
  const title = `Route as flown: ${plan.title}`;
  return sheet(plan, title, [], description(plan), (frame) => body(frame, outlines), options);
}

function description(plan: Plan): string {
  const places = plan.places.map(({ kind, name }) => `${kind} ${name}`).join(', ');
  const contacts = plan.refuellings.map(({ tanker, contactS }) => `${tanker} at ${hoursMinutes(contactS)}`);
  const fuel = contacts.length === 0 ? 'without refuelling' : `in contact with ${contacts.join(' and ')}`;
  return plainSpaces(`Map of the track as flown past ${places}, ${fuel}; the track stands in track.geojson.`);
}

/** Each kind of piece by weight and dash: the dashes of a descent say that power is off. */
const PIECES: Readonly<Record<PieceKind, { width: number; dash?: string }>> = {
  climb: { width: 1.5 },
  cruise: { width: 2.8 },
  descent: { width: 2.2, dash: '7 3.5' },
  contact: { width: 5.5, dash: '1.6 1.6' },
};

const FAILED = 'Cross: where the sortie cannot be flown, and why.';

/** How the drawing is read, below it. */
const READING = [
  'Squares are bases, diamonds tankers, triangles waypoints, dots the gates of the climb, black arrows starts down; hatched areas are kept out of when they hold.',
  'Track: strong in level flight, thin in climb and acceleration, dashed going down, barred in contact. Strokes across it: time since take-off · distance to the next contact or the end.',
  'Barbs and figures between them: wind (half 5 kt, whole 10 kt, pennant 50 kt, the staff points to where it comes from) and temperature less standard [K] at the height flown.',
];

function body(frame: Frame, outlines: Outlines): Body {
  const { theme } = frame;
  const width = frame.width - 2 * SIDE;
  const map = mapOf(frame.plan, outlines, { width, height: HEIGHT, textSize: SIZE.small });
  const clip = element('clipPath', { id: 'map' }, element('rect', { width, height: HEIGHT }));
  const drawn = element('g', { 'clip-path': 'url(#map)' }, mapMarkup(frame, map));
  const border = element('rect', {
    width,
    height: HEIGHT,
    fill: 'none',
    stroke: theme.ink,
    'stroke-width': 1,
  });
  const failed = frame.plan.failure === null ? [] : [FAILED];
  const below = [...failed, ...READING, OUTLINES_SOURCE].map((text, i) =>
    line(frame, SIDE, ABOVE + HEIGHT + 36 + 15 * i, text, SIZE.small),
  );
  return {
    markup:
      element('g', { transform: translate(SIDE, ABOVE) }, clip, drawn, border, ...edges(frame, map)) +
      below.join(''),
    height: ABOVE + HEIGHT + 36 + 15 * below.length + 12,
  };
}

/** All that lies inside the frame of a map; its hatches are those of `patterns`. */
function mapMarkup(frame: Frame, map: RouteMap): string {
  return groundMarkup(frame, map) + routeMarkup(frame, map);
}

/** What stays the same while the route changes under a view that stands still. */
export function groundMarkup({ theme }: Frame, map: RouteMap): string {
  return [
    stroke(map.graticule.path, theme.rule, 0.7),
    ...map.areas.flatMap(({ path }) =>
      path === ''
        ? []
        : [
            element('path', {
              d: path,
              fill: 'url(#land)',
              'fill-opacity': 0.4,
              stroke: theme.ink,
              'stroke-width': 1,
            }),
          ],
    ),
    stroke(map.coasts, theme.quiet, 0.7),
    stroke(map.borders, theme.quiet, 0.7, '5 2 1 2'),
  ].join('');
}

export function routeMarkup(frame: Frame, map: RouteMap): string {
  const { theme } = frame;
  return [
    ...map.track.map(({ kind, path }) => stroke(path, theme.ink, PIECES[kind].width, PIECES[kind].dash)),
    ...map.ticks.map(({ from, to }) => rule(from[0], from[1], to[0], to[1], theme.ink, 1.4)),
    stroke(map.wind.strokes, theme.helpA, 1.3),
    element('path', { d: map.wind.pennants, fill: theme.helpA }),
    ...map.marks.map((mark) => symbol(frame, mark)),
    ...map.labels.map(({ text, x, y, size, weight }) => line(frame, x, y, text, size, weight)),
    scaleBar(frame, map),
  ].join('');
}

/** A base a square, a tanker a diamond, a waypoint a triangle, a gate a dot, the start down an arrow, a failure a cross. */
function symbol({ theme }: Frame, { kind, x, y }: MapMark): string {
  const at = (points: readonly (readonly [number, number])[]): string =>
    points.map(([dx, dy], i) => `${i === 0 ? 'M' : 'L'}${hundredth(x + dx)} ${hundredth(y + dy)}`).join('');
  const outlined = { fill: theme.ground, stroke: theme.ink, 'stroke-width': 1.6, 'stroke-linejoin': 'round' };
  const solid = { fill: theme.ink, stroke: theme.ground, 'stroke-width': 1 };
  switch (kind) {
    case 'base':
      return element('path', {
        d: `${at([
          [-4, -4],
          [4, -4],
          [4, 4],
          [-4, 4],
        ])}Z`,
        ...outlined,
      });
    case 'tanker':
      return element('path', {
        d: `${at([
          [0, -6],
          [6, 0],
          [0, 6],
          [-6, 0],
        ])}Z`,
        ...outlined,
      });
    case 'waypoint':
      return element('path', {
        d: `${at([
          [0, -6],
          [5.5, 4],
          [-5.5, 4],
        ])}Z`,
        ...outlined,
      });
    case 'start-down':
      return element('path', {
        d: `${at([
          [-5, -4.5],
          [5, -4.5],
          [0, 5.5],
        ])}Z`,
        ...solid,
      });
    case 'failure':
      return stroke(
        at([
          [-6, -6],
          [6, 6],
        ]) +
          at([
            [-6, 6],
            [6, -6],
          ]),
        theme.helpB,
        3,
      );
    default:
      return element('circle', { cx: x, cy: y, r: 3, ...solid });
  }
}

function scaleBar(frame: Frame, { scale, north }: RouteMap): string {
  const { x, y, length, text } = scale;
  const { theme } = frame;
  const [tip, foot] = [north.to, north.from];
  const [ux, uy] = [(tip[0] - foot[0]) / 8, (tip[1] - foot[1]) / 8];
  return (
    rule(x, y, x + length, y, theme.ink, 2) +
    [x, x + length / 2, x + length].map((at) => rule(at, y - 4, at, y + 4, theme.ink, 1.4)).join('') +
    line(frame, x + length / 2, y - 8, text, SIZE.small, 'bold', theme.ink, 'middle') +
    rule(foot[0], foot[1], tip[0], tip[1], theme.ink, 1.4) +
    element('path', {
      d: `M${hundredth(tip[0])} ${hundredth(tip[1])}L${hundredth(tip[0] - 3 * ux - 2 * uy)} ${hundredth(tip[1] - 3 * uy + 2 * ux)}L${hundredth(tip[0] - 3 * ux + 2 * uy)} ${hundredth(tip[1] - 3 * uy - 2 * ux)}Z`,
      fill: theme.ink,
    }) +
    line(frame, tip[0], tip[1] - 4, 'N', SIZE.small, 'bold', theme.ink, 'middle')
  );
}

/** Degrees of meridians and parallels outside the frame. */
function edges(frame: Frame, { graticule, size }: RouteMap): readonly string[] {
  const { theme } = frame;
  return graticule.labels.map(({ text, x, y, edge }) => {
    if (edge === 'left') return line(frame, -6, y + 4, text, SIZE.small, 'normal', theme.quiet, 'end');
    if (edge === 'right') return line(frame, size.width + 6, y + 4, text, SIZE.small, 'normal', theme.quiet);
    return line(
      frame,
      x,
      edge === 'top' ? -5 : size.height + 14,
      text,
      SIZE.small,
      'normal',
      theme.quiet,
      'middle',
    );
  });
}

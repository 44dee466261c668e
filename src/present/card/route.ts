/** The route card: the sortie as flown on a map. */
import type { Plan } from '../../core/plan/plan.ts';
import type { Label } from '../map/labels.ts';
import { type MapMark, mapOf, type RouteMap } from '../map/map.ts';
import { OUTLINES_SOURCE, type Outlines } from '../map/outlines.ts';
import type { PieceKind } from '../map/track.ts';
import { hoursMinutes } from '../time.ts';
import type { Card } from './card.ts';
import { HEIGHT, type Mark, type Measure, type Room, text, typeSize } from './page.ts';

/** No map is drawn in less than this [mm]. */
const LEAST = 80;
/** Room for the degrees beside the frame. */
const SIDE = 7;
const ABOVE = 3.5;
/** Labels are placed as if they were larger by this, since figures of one width are wider than the mean letter. */
const ROOMY = 1.06;

export function routeCard(plan: Plan, outlines: Outlines): Card {
  const contacts = plan.refuellings.map(({ tanker, contactS }) => `${tanker} at ${hoursMinutes(contactS)}`);
  return {
    title: 'Route as flown',
    question: 'Where does it go, and where is it when?',
    answer: [],
    table: null,
    drawing: {
      least: LEAST,
      says: `Map of the track as flown${contacts.length === 0 ? '' : `, in contact with ${contacts.join(' and ')}`}; turns and positions stand on their cards and in track.geojson.`,
      marks: (room, measure) => drawn(mapIn(plan, outlines, room), room, measure),
    },
    notes: [
      'Track: strong in level flight, thin in climb and acceleration, dashed going down, barred in contact. Strokes across: time since take-off · distance to the next contact or the end.',
      `Squares are bases, diamonds tankers, triangles waypoints, the black arrow the start down${plan.failure === null ? '' : ', the cross where it cannot be flown'}. Barbs: wind at the height flown, and temperature less standard.`,
      OUTLINES_SOURCE,
    ],
  };
}

function frameOf({ left, top, width, height }: Room): Room {
  return { left: left + SIDE, top: top + ABOVE, width: width - 2 * SIDE, height: height - 2 * ABOVE };
}

function mapIn(plan: Plan, outlines: Outlines, room: Room): RouteMap {
  const { width, height } = frameOf(room);
  // On so small a map the gates of the climb would cover its track; they stand on the climb card.
  const events = plan.events.filter(({ kind }) => kind !== 'gate');
  return mapOf({ ...plan, events }, outlines, { width, height, textSize: ROOMY * typeSize(HEIGHT.small) });
}

/** Each kind of piece by weight and dash. */
const PIECES: Readonly<Record<PieceKind, { readonly weight: number; readonly dash: readonly number[] }>> = {
  climb: { weight: 0.35, dash: [] },
  cruise: { weight: 0.8, dash: [] },
  descent: { weight: 0.6, dash: [2, 1] },
  contact: { weight: 1.6, dash: [0.5, 0.5] },
};

const GRATICULE = { grey: 0.8, weight: 0.1, dash: [] };
const COAST = { grey: 0.45, weight: 0.18, dash: [] };
const BORDER = { grey: 0.45, weight: 0.18, dash: [1.5, 0.6, 0.3, 0.6] };
const AREA = { grey: 0, weight: 0.25, dash: [0.8, 0.5] };
const AREA_GROUND = 0.87;
/** White ground behind a label, and how far it reaches beyond its letters [mm]. */
const GROUND = { grey: 1, weight: null, dash: [] };
const HALO = 0.3;

type Stroke = Pick<Extract<Mark, { is: 'path' }>, 'grey' | 'weight' | 'dash'>;

/** Draws a path from a point of the map; from its upper left corner where none is given. */
type Draw = (d: string, stroke: Stroke, x?: number, y?: number) => void;

function drawn(map: RouteMap, room: Room, measure: Measure): readonly Mark[] {
  const { left, top, width, height } = frameOf(room);
  const marks: Mark[] = [];
  const path: Draw = (d, stroke, x = 0, y = 0) => {
    if (d !== '') marks.push({ is: 'path', d, at: [left + x, top + y], ...stroke });
  };
  const line = (from: readonly number[], to: readonly number[], weight: number): void =>
    path(`M${from[0]} ${from[1]}L${to[0]} ${to[1]}`, { grey: 0, weight, dash: [] });
  for (const area of map.areas) path(area.path, { grey: AREA_GROUND, weight: null, dash: [] });
  path(map.graticule.path, GRATICULE);
  path(map.coasts, COAST);
  path(map.borders, BORDER);
  for (const area of map.areas) path(area.path, AREA);
  for (const piece of map.track) path(piece.path, { grey: 0, ...PIECES[piece.kind] });
  for (const { from, to } of map.ticks) line(from, to, 0.3);
  path(map.wind.strokes, { grey: 0.25, weight: 0.25, dash: [] });
  path(map.wind.pennants, { grey: 0.25, weight: null, dash: [] });
  const weightOf = ({ weight }: Label) => (weight === 'bold' ? 'bold' : 'regular');
  for (const label of map.labels) {
    const wide = measure(label.text, HEIGHT.small, weightOf(label)) + 2 * HALO;
    const high = HEIGHT.small + 2 * HALO;
    path(`M0 0h${wide}v${-high}h${-wide}z`, GROUND, label.x - HALO, label.y + HALO);
  }
  for (const mark of map.marks) symbol(mark, path);
  for (const label of map.labels) {
    text(marks, left + label.x, top + label.y, label.text, HEIGHT.small, weightOf(label));
  }
  const { scale, north } = map;
  line([scale.x, scale.y], [scale.x + scale.length, scale.y], 0.5);
  for (const x of [scale.x, scale.x + scale.length / 2, scale.x + scale.length])
    line([x, scale.y - 1], [x, scale.y + 1], 0.3);
  const middle = left + scale.x + (scale.length - measure(scale.text, HEIGHT.small, 'bold')) / 2;
  text(marks, middle, top + scale.y - 2, scale.text, HEIGHT.small, 'bold');
  line(north.from, north.to, 0.35);
  const [dx, dy] = [(north.to[0] - north.from[0]) / 5, (north.to[1] - north.from[1]) / 5];
  for (const side of [-0.5, 0.5])
    line([north.to[0] - dx - side * dy, north.to[1] - dy + side * dx], north.to, 0.35);
  text(marks, left + north.to[0] + 1.3, top + (north.from[1] + north.to[1]) / 2, 'N', HEIGHT.small, 'bold');
  marks.push({ is: 'box', x: left, y: top, width, height, filled: false });
  degreesBeside(map, { left, top, width, height }, marks, measure);
  return marks;
}

/** Half size of a symbol [mm]. */
const HALF = 1.3;

/** Its outline, and whether it is black. */
const SYMBOLS: Readonly<Record<MapMark['kind'], { readonly d: string; readonly solid: boolean }>> = {
  base: { d: around([[-1, -1], [1, -1], [1, 1], [-1, 1]]), solid: false },
  tanker: { d: around([[0, -1.3], [1.3, 0], [0, 1.3], [-1.3, 0]]), solid: false },
  waypoint: { d: around([[0, -1.2], [1.1, 0.8], [-1.1, 0.8]]), solid: false },
  'start-down': { d: around([[-1, -0.9], [1, -0.9], [0, 1.1]]), solid: true },
  gate: { d: around([[0, -0.5], [0.5, 0], [0, 0.5], [-0.5, 0]]), solid: true },
  failure: {
    d: around([[-1, -0.7], [-0.7, -1], [0, -0.3], [0.7, -1], [1, -0.7], [0.3, 0], [1, 0.7], [0.7, 1], [0, 0.3], [-0.7, 1], [-1, 0.7], [-0.3, 0]]),
    solid: true,
  },
}; // biome-ignore format: a table

/** A closed outline around 0 0. */
function around(points: readonly (readonly [number, number])[]): string {
  const steps = points
    .slice(1)
    .map(([x, y], i) => `l${(x - points[i][0]) * HALF} ${(y - points[i][1]) * HALF}`);
  return `M${points[0][0] * HALF} ${points[0][1] * HALF}${steps.join('')}z`;
}

function symbol({ kind, x, y }: MapMark, path: Draw): void {
  const { d, solid } = SYMBOLS[kind];
  path(d, { grey: solid ? 0 : 1, weight: null, dash: [] }, x, y);
  path(d, { grey: solid ? 1 : 0, weight: solid ? 0.15 : 0.4, dash: [] }, x, y);
}

/** Degrees of meridians and parallels outside the frame. */
function degreesBeside(map: RouteMap, frame: Room, marks: Mark[], measure: Measure): void {
  const { left, top, width, height } = frame;
  for (const { text: degrees, x, y, edge } of map.graticule.labels) {
    const wide = measure(degrees, HEIGHT.small, 'regular');
    const places = {
      left: [-wide - 1, y + HEIGHT.small / 2],
      right: [width + 1, y + HEIGHT.small / 2],
      top: [x - wide / 2, -1],
      bottom: [x - wide / 2, height + HEIGHT.small + 1],
    };
    const [dx, dy] = places[edge];
    text(marks, left + dx, top + dy, degrees, HEIGHT.small, 'regular');
  }
}

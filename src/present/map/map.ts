/**
 * The sortie on a map, as data that a chart or a card draws: paths in the syntax of SVG, marks and labels with their places.
 * Everything lies in a frame from 0 0 to width height, in the unit of the size asked for; north is up in the middle.
 */
import type { Plan, PlanArea, PlanPlace } from '../../core/plan/plan.ts';
import { eventName } from '../names.ts';
import { dateAndClock, hoursMinutes } from '../time.ts';
import { gaugesOf, shown } from '../units.ts';
import { type Graticule, graticuleOf } from './graticule.ts';
import { type Label, Labels } from './labels.ts';
import type { Band, Line, Outlines } from './outlines.ts';
import { FlownTrack, PIECE_KINDS, type PieceKind } from './track.ts';
import { type LonLat, type MapSize, type Point, serves, type View, viewOf } from './view.ts';
import { barbAt } from './wind.ts';

export interface RouteMap {
  readonly size: MapSize;
  /** Between places and points of the drawing. */
  readonly view: View;
  readonly coasts: string;
  readonly borders: string;
  readonly graticule: Graticule;
  readonly areas: readonly MapArea[];
  /** Pieces of the track as flown, one path for each kind that occurs. */
  readonly track: readonly { readonly kind: PieceKind; readonly path: string }[];
  readonly marks: readonly MapMark[];
  readonly ticks: readonly MapTick[];
  /** Strokes and filled pennants of all wind barbs; none where the map is too small for them. */
  readonly wind: { readonly strokes: string; readonly pennants: string };
  /** Of places, marks and ticks; a tick that finds no room has none. */
  readonly labels: readonly Label[];
  readonly scale: MapScale;
  /** An arrow to true north beside the scale bar. */
  readonly north: { readonly from: Point; readonly to: Point };
}

export interface MapArea {
  readonly name: string;
  readonly path: string;
}

export interface MapMark {
  readonly kind: PlanPlace['kind'] | 'gate' | 'start-down' | 'failure';
  readonly x: number;
  readonly y: number;
}

/** A stroke across the track each ten minutes. */
export interface MapTick {
  readonly timeS: number;
  readonly from: Point;
  readonly to: Point;
}

export interface MapScale {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  /** "200 nm". */
  readonly text: string;
}

const tickEveryS = 600;

/** Where the parts of a map are worked out. */
interface Drawing {
  readonly plan: Plan;
  readonly view: View;
  readonly track: FlownTrack;
  readonly labels: Labels;
  readonly done: Label[];
}

/** Latitudes that a map of a plan may show, whether it is upright or wide. */
export function bandOf(plan: Plan): Band {
  const square = { width: 1, height: 1, textSize: 1 };
  const { centre, radiusDeg } = viewOf(shownPlaces(plan, new FlownTrack(plan)), square);
  // A map twice as wide as high reaches 1.6 times as far to its corner as a square one.
  const reach = 1.6 * radiusDeg;
  return { southDeg: centre[1] - reach, northDeg: centre[1] + reach };
}

/** The view of a plan: the last one while that serves, so that a map stands still under a hand, else a new one. */
export function viewFor(plan: Plan, size: MapSize, last: View | null): View {
  const places = shownPlaces(plan, new FlownTrack(plan));
  const same = last !== null && last.size.width === size.width && last.size.height === size.height;
  return same && serves(last, places) ? last : viewOf(places, size);
}

/** The map of a plan, fitted to its track where no view is given; `textSize` of `size` is that of the smallest labels. */
export function mapOf(plan: Plan, outlines: Outlines, size: MapSize, given?: View): RouteMap {
  const track = new FlownTrack(plan);
  const view = given ?? viewOf(shownPlaces(plan, track), size);
  const crowd = crowdOf(view, track, size.textSize);
  const drawing = { plan, view, track, labels: new Labels(size.width, size.height, crowd), done: [] };
  const { scale, north } = scaleOf(drawing);
  const ticks = ticksOf(drawing);
  const marks = marksOf(drawing);
  const wind = windOf(drawing);
  const areas = areasOf(drawing);
  labelTicks(drawing, ticks);
  const graticule = graticuleOf(view);
  for (const { text, at } of graticule.inner) label(drawing, at, text, 0, false, false);
  return {
    size,
    view,
    ...landIn(view, outlines),
    graticule,
    areas,
    track: PIECE_KINDS.map((kind) => ({ kind, path: view.lines(track.pieces(kind)) })).filter(
      ({ path }) => path !== '',
    ),
    marks,
    ticks,
    wind,
    labels: drawing.done,
    scale,
    north,
  };
}

type Land = Pick<RouteMap, 'coasts' | 'borders'>;

/** Coasts and borders as they were drawn last in a view: they are by far the longest lines of a map, and stand still with it. */
const drawnLand = new WeakMap<View, { readonly outlines: Outlines; readonly land: Land }>();

function landIn(view: View, outlines: Outlines): Land {
  const drawn = drawnLand.get(view);
  if (drawn?.outlines === outlines) return drawn.land;
  const land = { coasts: view.lines(outlines.coasts), borders: view.lines(outlines.borders) };
  drawnLand.set(view, { outlines, land });
  return land;
}

/** What has to be in the frame: the track and the places that it goes by or would turn to. */
function shownPlaces(plan: Plan, track: FlownTrack): LonLat[] {
  const asked = new Set(plan.recoveries.map((recovery) => recovery.base));
  const places = plan.places.filter(({ kind, name }) => kind !== 'base' || asked.has(name));
  return [...track.nodes(), ...places.map(lonLat)];
}

function lonLat({ longitudeDeg, latitudeDeg }: { longitudeDeg: number; latitudeDeg: number }): LonLat {
  return [longitudeDeg, latitudeDeg];
}

/** Points along the track about a letter apart, which labels had better not cover. */
function crowdOf(view: View, track: FlownTrack, textSize: number): Point[] {
  const points: Point[] = [];
  let last: Point | null = null;
  for (const node of track.nodes()) {
    const at = view.place(node);
    const steps =
      last === null ? 1 : Math.ceil(Math.hypot(at[0] - last[0], at[1] - last[1]) / (textSize / 2));
    const from = last ?? at;
    for (let i = 1; i <= steps; i++) {
      points.push([from[0] + ((at[0] - from[0]) * i) / steps, from[1] + ((at[1] - from[1]) * i) / steps]);
    }
    last = at;
  }
  return points;
}

/** A round length of about a quarter of the frame, at its lower left corner, and the arrow to north beside it. */
function scaleOf({ plan, view, labels }: Drawing): Pick<RouteMap, 'scale' | 'north'> {
  const { width, height, textSize } = view.size;
  const gauge = gaugesOf(plan)('distanceM');
  const longest = gauge.fromSi(0.24 * width * view.metresPerUnit);
  const power = 10 ** Math.floor(Math.log10(longest));
  const round = [5, 2, 1].find((digit) => digit * power <= longest) ?? 1;
  const length = (round * power) / gauge.fromSi(view.metresPerUnit);
  const [x, y] = [2.2 * textSize, height - 2.4 * textSize];
  const middle = x + length + 2 * textSize;
  labels.reserve([middle, y], 1.6 * textSize);
  for (let along = 0; along <= length; along += textSize)
    labels.reserve([x + along, y - textSize / 2], textSize);
  return {
    scale: { x, y, length, text: `${round * power} ${gauge.shortUnit}` },
    north: northAt(view, [middle, y], 1.4 * textSize),
  };
}

/** The way to the pole from a point of the drawing, found by what a step north does there. */
function northAt(view: View, [x, y]: Point, length: number): { from: Point; to: Point } {
  const at = view.at([x, y]);
  const further = view.place([at[0], Math.min(90, at[1] + 0.1)]);
  const [dx, dy] = [further[0] - x, further[1] - y];
  const part = length / Math.max(1e-9, Math.hypot(dx, dy));
  return { from: [x - dx * part, y - dy * part], to: [x + dx * part, y + dy * part] };
}

function marksOf(drawing: Drawing): MapMark[] {
  const { plan, view, track } = drawing;
  const { textSize } = view.size;
  const marks: MapMark[] = [];
  const add = (kind: MapMark['kind'], at: Point, text: string, bold: boolean): void => {
    if (!view.inside(at)) return;
    marks.push({ kind, x: at[0], y: at[1] });
    drawing.labels.reserve(at, 0.7 * textSize);
    label(drawing, at, text, 0.5 * textSize, bold, kind !== 'gate');
  };
  for (const place of onePerName(plan.places)) add(place.kind, view.place(lonLat(place)), place.name, true);
  if (plan.failure !== null) add('failure', view.place(lonLat(plan.failure)), plan.failure.name, true);
  for (const event of plan.events) {
    if (event.kind !== 'start-down' && event.kind !== 'gate') continue;
    add(event.kind, view.place(track.placeAt(event.timeS)), eventName(plan, event), false);
  }
  return marks;
}

function onePerName(places: readonly PlanPlace[]): PlanPlace[] {
  return places.filter(
    (place, i) => places.findIndex(({ name, kind }) => name === place.name && kind === place.kind) === i,
  );
}

function label(
  drawing: Drawing,
  at: Point,
  text: string,
  radius: number,
  bold: boolean,
  must: boolean,
): void {
  const { textSize } = drawing.view.size;
  const placed = drawing.labels.place({
    text,
    at,
    radius,
    must,
    size: bold ? textSize * 1.15 : textSize,
    weight: bold ? 'bold' : 'normal',
  });
  if (placed !== null) drawing.done.push(placed);
}

function ticksOf({ view, track }: Drawing): MapTick[] {
  const ticks: MapTick[] = [];
  const half = 0.45 * view.size.textSize;
  const first = Math.ceil(track.startS / tickEveryS) * tickEveryS;
  for (let timeS = Math.max(first, tickEveryS); timeS <= track.endS; timeS += tickEveryS) {
    const [x, y] = view.place(track.placeAt(timeS));
    const [ux, uy] = directionAt(view, track.placeAt(timeS), track.courseAt(timeS));
    ticks.push({ timeS, from: [x - uy * half, y + ux * half], to: [x + uy * half, y - ux * half] });
  }
  return ticks;
}

/** Unit vector on the drawing of a true course at a place. */
function directionAt(view: View, [longitude, latitude]: LonLat, courseDeg: number): Point {
  const course = (courseDeg * Math.PI) / 180;
  const step = 0.01;
  const level = Math.max(1e-6, Math.cos((latitude * Math.PI) / 180));
  const from = view.place([longitude, latitude]);
  const to = view.place([longitude + (step * Math.sin(course)) / level, latitude + step * Math.cos(course)]);
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
}

/** Time since take-off and distance to the next contact or the end, at every tick where there is room. */
function labelTicks(drawing: Drawing, ticks: readonly MapTick[]): void {
  const { plan, track } = drawing;
  const gauge = gaugesOf(plan)('distanceM');
  for (const { timeS, from, to } of ticks) {
    const contact = plan.refuellings.find(({ contactS }) => contactS >= timeS);
    const toGoM = track.at('distanceM', contact?.contactS ?? track.endS) - track.at('distanceM', timeS);
    const at: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
    const text = `${hoursMinutes(timeS)} · ${shown(gauge, toGoM, 'required')}`;
    label(drawing, at, text, Math.hypot(to[0] - at[0], to[1] - at[1]), false, false);
  }
}

/** Wind and temperature halfway between the ticks of level flight, as they were met at its height. */
function windOf(drawing: Drawing): RouteMap['wind'] {
  const { plan, view, track, labels } = drawing;
  const length = 2.1 * view.size.textSize;
  const gauge = gaugesOf(plan)('temperatureOffsetK');
  let [strokes, pennants] = ['', ''];
  for (let timeS = 1.5 * tickEveryS; timeS <= track.endS; timeS += tickEveryS) {
    const kind = track.kindAt(track.nodeAfter(timeS));
    if (kind !== 'cruise' && kind !== 'contact') continue;
    const place = track.placeAt(timeS);
    const [along, fromLeft] = [track.at('windAlongMS', timeS), track.at('windAcrossMS', timeS)];
    const towards = track.courseAt(timeS) + (Math.atan2(fromLeft, along) * 180) / Math.PI;
    const direction = directionAt(view, place, towards);
    const at = view.place(place);
    const barb = barbAt(at, direction, Math.hypot(along, fromLeft), place[1] >= 0, length);
    strokes += barb.strokes;
    pennants += barb.pennants;
    labels.reserve([at[0] - (direction[0] * length) / 2, at[1] - (direction[1] * length) / 2], length / 2);
    const offset = shown(gauge, track.at('temperatureOffsetK', timeS));
    label(drawing, at, /^[1-9]/.test(offset) ? `+${offset}` : offset, length * 0.6, false, false);
  }
  return { strokes, pennants };
}

function areasOf(drawing: Drawing): MapArea[] {
  const { plan, view } = drawing;
  return plan.areas.map((area) => {
    const polygons = area.polygonsDeg as unknown as readonly (readonly Line[])[];
    const middle = view.middle(polygons);
    const holds = whenItHolds(plan, area);
    if (middle !== null) label(drawing, middle, [area.name, ...holds].join(' · '), 0, false, true);
    return { name: area.name, path: view.areas(polygons) };
  });
}

/** Heights and hours of an area that does not hold always, since a track may cross it otherwise. */
function whenItHolds(
  plan: Plan,
  { floorPressureAltitudeM: floor, ceilingPressureAltitudeM: ceiling, hours }: PlanArea,
): string[] {
  const altitude = gaugesOf(plan)('pressureAltitudeM');
  const holds: string[] = [];
  if (floor !== null) holds.push(`above ${shown(altitude, floor)}`);
  if (ceiling !== null) holds.push(`below ${shown(altitude, ceiling)}`);
  if (hours !== null)
    holds.push(
      hours.kind === 'daily'
        ? `${hours.from} to ${hours.to}`
        : `${dateAndClock(hours.from)} to ${dateAndClock(hours.to)}`,
    );
  return holds;
}

/** Meridians and parallels at round degrees, named where they leave the frame. */
import type { Line } from './outlines.ts';
import type { LonLat, Point, View } from './view.ts';

export interface EdgeLabel {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly edge: 'left' | 'right' | 'top' | 'bottom';
}

export interface Graticule {
  readonly path: string;
  readonly labels: readonly EdgeLabel[];
  /** Names of lines that cross no edge, such as parallels around a pole, at a point of theirs. */
  readonly inner: readonly { readonly text: string; readonly at: Point }[];
}

const steps = [0.5, 1, 2, 5, 10, 15, 30, 45];
/** Lines of a kind across the map. */
const mostLines = 8;
/** Points of a line for each step of the crossing lines. */
const finer = 10;
const degree = Math.PI / 180;

export function graticuleOf(view: View): Graticule {
  const { centre, radiusDeg } = view;
  const step = stepFor(2 * radiusDeg);
  const south = Math.max(-90, centre[1] - radiusDeg);
  const north = Math.min(90, centre[1] + radiusDeg);
  const overPole = south === -90 || north === 90;
  const reach = overPole
    ? 180
    : Math.asin(Math.min(1, Math.sin(radiusDeg * degree) / Math.cos(centre[1] * degree))) / degree;
  const stepEast = overPole ? 30 : stepFor(2 * reach);
  const parallels = multiples(south, north, step)
    .filter((latitude) => Math.abs(latitude) < 90)
    .map((latitude) => parallel(latitude, centre[0] - reach, centre[0] + reach, stepEast / finer));
  const meridians = multiples(centre[0] - reach, centre[0] + reach, stepEast)
    .filter((longitude) => !overPole || longitude < centre[0] + 180)
    .map((longitude) => meridian(longitude, south, north, step));
  const names = [
    ...parallels.map((line) =>
      named(view, line, latitudeText(line[0][1]), ['left', 'right', 'bottom', 'top']),
    ),
    ...meridians.map((line) =>
      named(view, line, longitudeText(line[0][0]), ['bottom', 'top', 'left', 'right']),
    ),
  ];
  return {
    path: view.lines([...parallels, ...meridians]),
    labels: names.filter((name) => name !== null && 'edge' in name),
    inner: names.filter((name) => name !== null && 'at' in name),
  };
}

function stepFor(span: number): number {
  return steps.find((step) => span / step <= mostLines) ?? steps[steps.length - 1];
}

function multiples(from: number, to: number, step: number): number[] {
  const first = Math.ceil(from / step);
  const count = Math.floor(to / step) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => (first + i) * step);
}

function parallel(latitude: number, west: number, east: number, step: number): Line {
  const count = Math.ceil((east - west) / step);
  return Array.from({ length: count + 1 }, (_, i) => [west + ((east - west) * i) / count, latitude] as const);
}

/** Near a pole only every third meridian goes on, so that they do not run together. */
function meridian(longitude: number, south: number, north: number, step: number): Line {
  const most = Math.round(longitude) % 90 === 0 ? 90 : 90 - step;
  const [from, to] = [Math.max(south, -most), Math.min(north, most)];
  const count = Math.max(1, Math.ceil(((to - from) / step) * finer));
  return Array.from({ length: count + 1 }, (_, i) => [longitude, from + ((to - from) * i) / count] as const);
}

type Name = EdgeLabel | Graticule['inner'][number];

/** The name of a line where it crosses the first of the edges that it crosses, or at its lowest point; null for one outside. */
function named(view: View, line: Line, text: string, edges: readonly EdgeLabel['edge'][]): Name | null {
  const points = line.map((at) => view.place(at as LonLat));
  for (const edge of edges) {
    for (let i = 1; i < points.length; i++) {
      const at = crossing(view, points[i - 1], points[i], edge);
      if (at !== null) return { text, x: at[0], y: at[1], edge };
    }
  }
  const inside = points.filter(view.inside);
  if (inside.length === 0) return null;
  return { text, at: inside.reduce((a, b) => (b[1] > a[1] ? b : a)) };
}

/** Where the line between two points crosses an edge of the frame. */
function crossing(view: View, a: Point, b: Point, edge: EdgeLabel['edge']): Point | null {
  const { width, height } = view.size;
  const axis = edge === 'left' || edge === 'right' ? 0 : 1;
  const at = edge === 'right' ? width : edge === 'bottom' ? height : 0;
  if (a[axis] === b[axis] || (a[axis] - at) * (b[axis] - at) > 0) return null;
  const part = (at - a[axis]) / (b[axis] - a[axis]);
  const point: Point = [a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])];
  const along = point[1 - axis];
  return along >= 0 && along <= (axis === 0 ? height : width) ? point : null;
}

function latitudeText(latitude: number): string {
  return `${degrees(latitude)}${latitude < 0 ? 'S' : latitude > 0 ? 'N' : ''}`;
}

function longitudeText(longitude: number): string {
  const east = longitude - 360 * Math.round(longitude / 360);
  if (Math.abs(Math.abs(east) - 180) < 1e-9) return '180°';
  return `${degrees(east)}${east < 0 ? 'W' : east > 0 ? 'E' : ''}`;
}

function degrees(value: number): string {
  return `${Math.abs(Math.round(value * 10) / 10)}°`;
}

/** What is in reach on a map: an outline for each failure, its name on it, and words where it ends with the data and not with the fuel. */
import type { ReachArea } from '../../core/plan/plan.ts';
import { type Box, boxOf, type Label, labelOn, overlap, widened } from './labels.ts';
import type { Point, View } from './view.ts';

export interface AreasOnMap {
  readonly areas: readonly AreaOnMap[];
  /** Where areas go on, "the weather ends here"; null where none does on the map. */
  readonly end: Label | null;
  /** What has no line on the map: "Nowhere: One engine stopped", "Beyond the map: Nothing failed". */
  readonly notes: readonly string[];
}

export interface AreaOnMap {
  readonly key: string;
  readonly name: string;
  /** Closed; of the outline the parts where the fuel ends, and those where the area goes on. */
  readonly inside: string;
  readonly edge: string;
  readonly goesOn: string;
  /** null where the outline leaves the map or finds no room. */
  readonly label: Label | null;
}

const SIZE = 10.5;
/** Between points of an outline at which a name is tried. */
const STEP = 8;
/** Kept free around a name. */
const FREE = 3;

const END_WORDS = {
  weather: 'the weather ends here, not the fuel',
  data: 'the data ends here, not the fuel',
};

interface Outline {
  readonly area: ReachArea;
  readonly points: readonly Point[];
  /** Close points in the frame of where the fuel ends, and of where the area goes on. */
  readonly edge: readonly Point[];
  readonly goesOn: readonly Point[];
}

/** `taken` are labels that stand on the map already. */
export function areasOnMap(areas: readonly ReachArea[], view: View, taken: readonly Label[]): AreasOnMap {
  const outlines = areas.flatMap((area) => (area.ringDeg === null ? [] : [outlineOf(area, view)]));
  const boxes = taken.map(boxOf);
  const named = new Map<Outline, Label | null>();
  outlines.forEach((outline, i) => {
    const { edge, goesOn, area } = outline;
    const tried = edge.length > 0 ? edge : goesOn;
    // Each begins elsewhere on its outline, so that names spread where the outlines run side by side.
    const from = Math.floor((i * tried.length) / outlines.length);
    const others = outlines.filter((other) => other !== outline).flatMap((other) => [...other.edge]);
    const label = freest(area.name, [...tried.slice(from), ...tried.slice(0, from)], others, view, boxes);
    named.set(outline, label);
    if (label !== null) boxes.push(boxOf(label));
  });
  const ends = outlines.map(({ goesOn }) => goesOn).reduce((a, b) => (b.length > a.length ? b : a), []);
  const data = areas.some(({ endsBy }) => endsBy.includes('data'));
  const weather = areas.some(({ endsBy }) => endsBy.includes('weather'));
  const middle = [...ends.slice(ends.length >> 1), ...ends.slice(0, ends.length >> 1)];
  const words = END_WORDS[weather || !data ? 'weather' : 'data'];
  return {
    areas: outlines.map((outline) => drawn(outline, named.get(outline) ?? null)),
    end: freest(words, middle, [], view, boxes),
    notes: [
      ...note(
        'Nowhere in reach',
        areas.filter(({ ringDeg }) => ringDeg === null),
      ),
      ...note(
        'Beyond the map',
        outlines.filter(({ edge, goesOn }) => edge.length + goesOn.length === 0).map(({ area }) => area),
      ),
    ],
  };
}

function note(words: string, areas: readonly ReachArea[]): string[] {
  return areas.length === 0 ? [] : [`${words}: ${areas.map(({ name }) => name).join(', ')}`];
}

function outlineOf(area: ReachArea, view: View): Outline {
  const points = (area.ringDeg ?? []).map((place) => view.place(place));
  const edge: Point[] = [];
  const goesOn: Point[] = [];
  for (let i = 1; i < points.length; i++) {
    const [from, to] = [points[i - 1], points[i]];
    const parts = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / STEP));
    for (let part = 0; part < parts; part++) {
      const at = part / parts;
      const point: Point = [from[0] + at * (to[0] - from[0]), from[1] + at * (to[1] - from[1])];
      if (view.inside(point)) (isOpen(area, i) ? goesOn : edge).push(point);
    }
  }
  return { area, points, edge, goesOn };
}

/** Whether the part of an outline before a place lies where the data ends. */
function isOpen({ endsBy }: ReachArea, i: number): boolean {
  return endsBy[i - 1] !== 'fuel' && endsBy[i] !== 'fuel';
}

function drawn({ area, points }: Outline, label: Label | null): AreaOnMap {
  const text = ([x, y]: Point) => `${x.toFixed(1)} ${y.toFixed(1)}`;
  const parts = (open: boolean): string => {
    let path = '';
    let last = -1;
    for (let i = 1; i < points.length; i++) {
      if (isOpen(area, i) !== open) continue;
      path += last === i - 1 ? `L${text(points[i])}` : `M${text(points[i - 1])}L${text(points[i])}`;
      last = i;
    }
    return path;
  };
  return {
    key: area.key,
    name: area.name,
    inside: `M${points.map(text).join('L')}Z`,
    edge: parts(false),
    goesOn: parts(true),
    label,
  };
}

/** The words at the point where they cover no other label and the fewest of some points; null where there is no such place. */
function freest(
  words: string,
  tried: readonly Point[],
  others: readonly Point[],
  { size, inside }: View,
  taken: readonly Box[],
): Label | null {
  let best: Label | null = null;
  let fewest = Number.POSITIVE_INFINITY;
  for (const at of tried) {
    const label = labelOn(words, at, SIZE);
    const box = widened(boxOf(label), FREE);
    const corner: Point = [box.x + box.width, box.y + box.height];
    if (!inside([box.x, box.y]) || !inside(corner) || corner[1] > size.height) continue;
    if (taken.some((other) => overlap(other, box))) continue;
    const covered = others.filter(
      ([x, y]) => x > box.x && x < corner[0] && y > box.y && y < corner[1],
    ).length;
    if (covered >= fewest) continue;
    fewest = covered;
    best = label;
    if (covered === 0) break;
  }
  return best;
}

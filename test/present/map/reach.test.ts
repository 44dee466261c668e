/** Areas in reach on a map: names apart, where the weather ends, and what has no line there. */
import { describe, expect, it } from 'vitest';
import type { ReachArea } from '../../../src/core/plan/plan.ts';
import { boxOf, type Label, overlap } from '../../../src/present/map/labels.ts';
import { areasOnMap } from '../../../src/present/map/reach.ts';
import { viewOf } from '../../../src/present/map/view.ts';

const size = { width: 600, height: 450, textSize: 11 };
const view = viewOf(
  [
    [-95, 33],
    [-80, 50],
  ],
  size,
);
const [east, north] = view.centre;

/** A ring of 24 places, so many degrees around the middle of the map; `open` are those where the weather ends. */
function area(name: string, radiusDeg: number, open: (i: number) => boolean = () => false): ReachArea {
  const ring = Array.from({ length: 24 }, (_, i): [number, number] => {
    const angle = (-2 * Math.PI * i) / 24;
    const level = Math.cos((north * Math.PI) / 180);
    return [east + (radiusDeg * Math.sin(angle)) / level, north + radiusDeg * Math.cos(angle)];
  });
  const endsBy = ring.map((_, i) => (open(i) ? 'weather' : 'fuel'));
  return {
    key: 'none',
    name,
    timeS: 0,
    ringDeg: [...ring, ring[0]],
    endsBy: [...endsBy, endsBy[0]],
  };
}

const labelsOf = (made: ReturnType<typeof areasOnMap>): Label[] =>
  [...made.areas.map(({ label }) => label), made.end].filter((label) => label !== null);

describe('areas in reach on a map', () => {
  it('[MAP-30] stand with their names apart, also where the outlines are one, clear of what is there', () => {
    const there: Label = { text: 'Otter Bluff', x: 300, y: 120, size: 11, weight: 'bold' };
    const areas = [5, 5, 5, 4.8, 3].map((radius, i) => area(`After failure ${i}`, radius));
    const labels = labelsOf(areasOnMap(areas, view, [there]));
    expect(labels).toHaveLength(5);
    const boxes = [there, ...labels].map(boxOf);
    boxes.forEach((box, i) => {
      expect(box.x).toBeGreaterThanOrEqual(0);
      expect(box.x + box.width).toBeLessThanOrEqual(size.width);
      for (const other of boxes.slice(0, i)) expect(overlap(box, other)).toBe(false);
    });
  });

  it('[MAP-31] say where the weather ends before the fuel, on that part of the outline', () => {
    // The western half: places 1 to 11 of a ring that begins in the north and goes round by the west.
    const west = (i: number) => i > 0 && i < 12;
    const { areas, end } = areasOnMap([area('Nothing failed', 5, west)], view, []);
    expect(end?.text).toBe('the weather ends here, not the fuel');
    const [middle] = view.place(view.centre);
    const xs = (path: string) => [...path.matchAll(/[ML]([\d.-]+) /g)].map(([, x]) => Number(x));
    expect(xs(areas[0].goesOn)).toHaveLength(11);
    expect(Math.max(...xs(areas[0].goesOn))).toBeLessThan(middle);
    // What is named stands where the fuel ends.
    expect(areas[0].label?.x).toBeGreaterThan(middle - 100);
    expect(areasOnMap([area('Nothing failed', 5)], view, []).end).toBeNull();
  });

  it('[MAP-32] say what has no line on the map', () => {
    const nowhere: ReachArea = { ...area('One engine stopped', 5), ringDeg: null, endsBy: [] };
    const { areas, notes } = areasOnMap([area('Nothing failed', 40), nowhere], view, []);
    expect(areas).toHaveLength(1);
    expect(areas[0].label).toBeNull();
    expect(notes).toEqual(['Nowhere in reach: One engine stopped', 'Beyond the map: Nothing failed']);
  });
});

import fc from 'fast-check';
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { graticuleOf } from '../../../src/present/map/graticule.ts';
import { Labels } from '../../../src/present/map/labels.ts';
import { mapOf } from '../../../src/present/map/map.ts';
import { type OutlineFile, outlinesOf } from '../../../src/present/map/outlines.ts';
import { isClockwise, type LonLat, viewOf } from '../../../src/present/map/view.ts';
import { barbAt } from '../../../src/present/map/wind.ts';
import { textWidth } from '../../../src/present/theme.ts';
import { testPlan } from '../../support/plan.ts';

const size = { width: 900, height: 600, textSize: 11 };
const none = { coasts: [], borders: [] };
const wgs84 = geographiclib.Geodesic.WGS84;

function numbers(path: string): number[] {
  return (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
}

/** Points of each piece of a path of straight lines. */
function pieces(path: string): (readonly [number, number])[][] {
  return path
    .split('M')
    .slice(1)
    .map((piece) => {
      const flat = numbers(piece);
      return Array.from({ length: flat.length / 2 }, (_, i) => [flat[2 * i], flat[2 * i + 1]] as const);
    });
}

/** A plan whose track is the geodesic from a place on a course at 500 m/s, a node each 20 s. */
function along(from: LonLat, courseDeg: number, nodes = 400): Plan {
  const plan = testPlan();
  const line = wgs84.DirectLine(from[1], from[0], courseDeg, 1);
  const points = Array.from({ length: nodes }, (_, i) => line.Position(i * 10_000));
  const columns = Object.fromEntries(
    Object.entries(plan.trace.columns).map(([key, values]) => [key, values.slice(0, nodes)]),
  ) as unknown as Record<keyof Plan['trace']['columns'], number[]>;
  columns.latitudeDeg = points.map((point) => point.lat2 as number);
  columns.longitudeDeg = points.map((point) => point.lon2 as number);
  columns.courseDeg = points.map((point) => ((point.azi2 as number) + 360) % 360);
  columns.distanceM = points.map((_, i) => i * 10_000);
  const phase = plan.trace.phase.slice(0, nodes);
  return { ...plan, places: [], areas: [], recoveries: [], trace: { ...plan.trace, columns, phase } };
}

describe('the view', () => {
  // Snyder, Map Projections, USGS Professional Paper 1395 (1987), appendix A, oblique stereographic of the sphere: R 1, centre
  // 40 N 100 W, place 30 N 75 W: x 0.3807224, y -0.1263802 (from memory; the formulas 21-2 to 21-4 give the same).
  test('[MAP-1] is the oblique stereographic projection', () => {
    const around: LonLat[] = [
      [-100, 25],
      [-100, 55],
    ];
    const view = viewOf(around, size);
    const [x0, y0] = view.place([-100, 40]);
    const [x, y] = view.place([-75, 30]);
    expect(view.centre[1]).toBeCloseTo(40, 1);
    const radius = 6_371_008.8 / view.metresPerUnit;
    expect((x - x0) / radius).toBeCloseTo(0.3807224, 2);
    expect((y0 - y) / radius).toBeCloseTo(-0.1263802, 2);
    expect((x - x0) / (y0 - y)).toBeCloseTo(0.3807224 / -0.1263802, 1);
  });

  test('[MAP-2] shows all places with room around, wherever they lie', () => {
    const spot = fc.tuple(
      fc.double({ min: -179, max: 179, noNaN: true }),
      fc.double({ min: -89, max: 89, noNaN: true }),
    );
    fc.assert(
      fc.property(
        spot,
        fc.array(
          fc.tuple(
            fc.double({ min: 0, max: 360, noNaN: true }),
            fc.double({ min: 1e3, max: 3e6, noNaN: true }),
          ),
          { minLength: 1, maxLength: 8 },
        ),
        (from, ways) => {
          const places = ways.map(([course, distance]): LonLat => {
            const end = wgs84.Direct(from[1], from[0], course, distance);
            return [end.lon2 as number, end.lat2 as number];
          });
          const view = viewOf(places, size);
          for (const place of places) {
            const [x, y] = view.place(place);
            expect(x).toBeGreaterThan(40);
            expect(x).toBeLessThan(860);
            expect(y).toBeGreaterThan(40);
            expect(y).toBeLessThan(560);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  test('[MAP-3] lengths in the middle are those of the geodesic within half a percent', () => {
    const view = viewOf(
      [
        [-95, 33],
        [-80, 50],
      ],
      size,
    );
    const [longitude, latitude] = view.centre;
    for (const course of [0, 45, 90, 200]) {
      const end = wgs84.Direct(latitude, longitude, course, 100_000);
      const [from, to] = [
        view.place([longitude, latitude]),
        view.place([end.lon2 as number, end.lat2 as number]),
      ];
      const length = Math.hypot(to[0] - from[0], to[1] - from[1]) * view.metresPerUnit;
      expect(Math.abs(length / 100_000 - 1)).toBeLessThan(0.005);
    }
  });

  test('[MAP-4] an area is the same whichever way its ring runs, closed or not, and also across 180 degrees', () => {
    const view = viewOf(
      [
        [175, 60],
        [-175, 65],
      ],
      size,
    );
    const ring: LonLat[] = [
      [179, 61],
      [182, 61],
      [182, 63],
      [179, 63],
    ];
    const path = view.areas([[ring]]);
    const extent = pieces(path).flat();
    const across = Math.max(...extent.map(([x]) => x)) - Math.min(...extent.map(([x]) => x));
    const east = view.place([182, 61])[0] - view.place([179, 61])[0];
    expect(across).toBeLessThan(1.3 * east);
    const shape = (other: string) => new Set(pieces(other).flat().map(String));
    expect(shape(view.areas([[[...ring].reverse()]]))).toEqual(shape(path));
    expect(shape(view.areas([[[...ring, ring[0]]]]))).toEqual(shape(path));
    expect(isClockwise(ring)).toBe(false);
    expect(isClockwise([...ring].reverse())).toBe(true);
  });
});

describe('outlines', () => {
  test('[MAP-5] what one country has alone is coast, what two share is border', () => {
    const file: OutlineFile = {
      type: 'Topology',
      arcs: [
        [
          [0, 0],
          [0, 1],
        ],
        [
          [0, 1],
          [1, 1],
          [1, 0],
          [0, 0],
        ],
        [
          [0, 0],
          [-1, 0],
          [-1, 1],
          [0, 1],
        ],
      ],
      objects: {
        countries: {
          type: 'GeometryCollection',
          geometries: [
            { type: 'Polygon', arcs: [[0, 1]] },
            { type: 'MultiPolygon', arcs: [[[2, -1]]] },
          ],
        },
      },
    };
    const { coasts, borders } = outlinesOf(file);
    expect(coasts).toHaveLength(2);
    expect(borders).toEqual([
      [
        [0, 0],
        [0, 1],
      ],
    ]);
  });
});

describe('the map of a plan', () => {
  test.each([
    ['over the date line', 170, 62, 80],
    ['over the north pole', -100, 75, 8],
    ['over the south pole', 20, -75, 170],
  ])(
    '[MAP-6] a track %s is one line without jumps, the same as anywhere else',
    (_, longitude, latitude, course) => {
      const here = mapOf(along([longitude, latitude], course), none, size);
      const points = here.track.flatMap(({ path }) => pieces(path));
      const steps = points.flatMap((piece) =>
        piece.slice(1).map(([x, y], i) => Math.hypot(x - piece[i][0], y - piece[i][1])),
      );
      expect(steps.length).toBeGreaterThan(50);
      expect(Math.max(...steps)).toBeLessThan(60);
      const there = mapOf(along([longitude - 140, latitude], course), none, size);
      here.track.forEach(({ path }, i) => {
        const [a, b] = [numbers(path), numbers(there.track[i].path)];
        expect(b).toHaveLength(a.length);
        for (let k = 0; k < a.length; k++) expect(Math.abs(a[k] - b[k])).toBeLessThan(0.31);
      });
    },
  );

  test('[MAP-7] a tick stands each ten minutes at the place flown then, square to the track', () => {
    const plan = along([-80, 45], 60);
    const { ticks } = mapOf(plan, none, size);
    const times = plan.trace.columns.timeS;
    expect(ticks.map(({ timeS }) => timeS)).toEqual(
      Array.from({ length: Math.floor((times.at(-1) ?? 0) / 600) }, (_, i) => 600 * (i + 1)),
    );
    const lengths = ticks.slice(1).map(({ from, to }, i) => {
      const before = ticks[i];
      const [dx, dy] = [
        from[0] + to[0] - before.from[0] - before.to[0],
        from[1] + to[1] - before.from[1] - before.to[1],
      ];
      const [tx, ty] = [to[0] - from[0], to[1] - from[1]];
      expect(Math.abs(dx * tx + dy * ty) / (Math.hypot(dx, dy) * Math.hypot(tx, ty))).toBeLessThan(0.05);
      return Math.hypot(dx, dy);
    });
    expect(Math.max(...lengths) / Math.min(...lengths)).toBeLessThan(1.1);
  });

  test('[MAP-8] the scale bar is as long as it says', () => {
    const plan = along([-80, 45], 60);
    const { scale } = mapOf(plan, none, size);
    const track = plan.trace.columns;
    const view = viewOf(
      track.longitudeDeg.map((longitude, i) => [longitude, track.latitudeDeg[i]] as const),
      size,
    );
    const miles = Number.parseFloat(scale.text);
    expect(scale.text).toMatch(/^[125]0* nm$/);
    expect((scale.length * view.metresPerUnit) / 1852).toBeCloseTo(miles, 6);
  });

  test.each([
    [20, 60, 90],
    [20, 75, 2],
    [150, -40, 20],
  ])(
    '[MAP-9] the arrow at the foot of the map is a piece of the meridian there',
    (longitude, latitude, course) => {
      const plan = along([longitude, latitude], course);
      const { north } = mapOf(plan, none, size);
      const { longitudeDeg, latitudeDeg } = plan.trace.columns;
      const view = viewOf(
        longitudeDeg.map((east, i) => [east, latitudeDeg[i]] as const),
        size,
      );
      const [foot, tip] = [view.at(north.from), view.at(north.to)];
      expect(tip[1]).toBeGreaterThan(foot[1]);
      const way = wgs84.Inverse(foot[1], foot[0], tip[1], tip[0]);
      expect(Math.abs(way.azi1 as number)).toBeLessThan(1);
    },
  );

  test('[MAP-10] names the places, the start down, and the hours and heights of an area', () => {
    const plan = testPlan();
    const here = {
      latitudeDeg: plan.trace.columns.latitudeDeg[60],
      longitudeDeg: plan.trace.columns.longitudeDeg[60],
    };
    const area: Plan['areas'][number] = {
      name: 'Gannet Range',
      hours: { kind: 'daily', from: '19:00Z', to: '23:00Z' },
      floorPressureAltitudeM: null,
      ceilingPressureAltitudeM: 13_716,
      corridorHalfWidthM: 0,
      polygonsDeg: [
        [
          [
            [here.longitudeDeg, here.latitudeDeg],
            [here.longitudeDeg + 1, here.latitudeDeg],
            [here.longitudeDeg, here.latitudeDeg + 1],
          ],
        ],
      ],
      incursions: [],
      nearest: null,
      vertical: null,
    };
    const map = mapOf(
      { ...plan, places: [{ kind: 'waypoint', name: 'Alder', courseDeg: null, ...here }], areas: [area] },
      none,
      size,
    );
    const texts = map.labels.map(({ text }) => text);
    expect(texts).toContain('Alder');
    expect(texts).toContain('Start down');
    expect(texts).toContain('Gannet Range · below 45\u2009000\u00a0ft · 19:00Z to 23:00Z');
    expect(map.areas[0].path).toMatch(/^M.*Z$/);
  });
});

describe('labels', () => {
  test('[MAP-11] that need not be placed cover no other and stay in the frame', () => {
    const wanted = fc.record({
      text: fc.string({ minLength: 1, maxLength: 20 }),
      at: fc.tuple(
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.double({ min: 0, max: 200, noNaN: true }),
      ),
    });
    fc.assert(
      fc.property(fc.array(wanted, { maxLength: 30 }), (all) => {
        const labels = new Labels(300, 200, []);
        const placed = all
          .map(({ text, at }) =>
            labels.place({ text, at, radius: 3, size: 10, weight: 'normal', must: false }),
          )
          .filter((label) => label !== null);
        placed.forEach((a, i) => {
          expect(a.x).toBeGreaterThanOrEqual(0);
          expect(a.y).toBeLessThanOrEqual(200);
          const [right, top, foot] = [a.x + textWidth(a.text, 10), a.y - 7.4, a.y + 2.2];
          for (const b of placed.slice(i + 1)) {
            const beside = b.x >= right || b.x + textWidth(b.text, 10) <= a.x;
            expect(beside || b.y + 2.2 <= top || b.y - 7.4 >= foot).toBe(true);
          }
        });
      }),
    );
  });
});

describe('meridians and parallels', () => {
  test('[MAP-12] are named at the edge that they cross, W and E, N and S', () => {
    const view = viewOf(
      [
        [-95, 33],
        [-80, 50],
      ],
      size,
    );
    const { labels } = graticuleOf(view);
    const [west] = labels.filter(({ text }) => text === '90°W');
    expect(west.edge).toBe('bottom');
    expect(west.y).toBe(600);
    const at = view.at([west.x, west.y]);
    expect(at[0]).toBeCloseTo(-90, 1);
    const north = labels.find(({ text }) => text === '40°N');
    expect(north?.x).toBe(0);
    expect(view.at([0, north?.y ?? Number.NaN])[1]).toBeCloseTo(40, 1);
  });
});

describe('wind barbs', () => {
  // WMO-No. 485, part II, appendix on symbols (from memory): half barb 5 kt, barb 10 kt, pennant 50 kt.
  test.each([
    [65, 1, 1, 1],
    [5, 0, 0, 1],
    [20, 0, 2, 0],
    [105, 2, 0, 1],
  ])('[MAP-13] %d kt is %d pennants, %d barbs and %d half barbs', (knots, pennants, whole, half) => {
    const barb = barbAt([0, 0], [1, 0], (knots * 1852) / 3600, true, 20);
    expect(pieces(barb.pennants)).toHaveLength(pennants);
    const feathers = pieces(barb.strokes).slice(1);
    const lengths = feathers.map(([a, b]) => Math.abs(b[1] - a[1]));
    expect(feathers).toHaveLength(whole + half);
    expect(lengths.filter((length) => length < 5)).toHaveLength(half);
  });

  test('[MAP-14] the staff points to where the wind comes from, barbs clockwise of it in the north and not in the south', () => {
    // From the west: the staff to the left, barbs up, towards the pole and low pressure.
    const [staff, barb] = pieces(barbAt([0, 0], [1, 0], 10 * (1852 / 3600), true, 20).strokes);
    expect(staff[1][0]).toBe(-20);
    expect(barb[1][1]).toBeLessThan(0);
    const south = pieces(barbAt([0, 0], [1, 0], 10 * (1852 / 3600), false, 20).strokes)[1];
    expect(south[1][1]).toBeGreaterThan(0);
  });

  test('[MAP-15] a wind from the left of an easterly course blows south on the map', () => {
    const plan = along([10, 45], 90);
    const { columns } = plan.trace;
    const map = (windAlongMS: number, windAcrossMS: number) =>
      mapOf(
        {
          ...plan,
          trace: {
            ...plan.trace,
            columns: {
              ...columns,
              windAlongMS: columns.timeS.map(() => windAlongMS),
              windAcrossMS: columns.timeS.map(() => windAcrossMS),
            },
          },
        },
        none,
        size,
      );
    const [staff] = pieces(map(0, 20).wind.strokes);
    expect(staff[1][1] - staff[0][1]).toBeLessThan(-15);
    const [tail] = pieces(map(20, 0).wind.strokes);
    expect(tail[1][0] - tail[0][0]).toBeLessThan(-15);
  });
});

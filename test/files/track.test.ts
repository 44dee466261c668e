import { describe, expect, it } from 'vitest';
import { trackGeoJson } from '../../src/files/geojson.ts';
import { trackGpx } from '../../src/files/gpx.ts';
import { partsAt180, trackOfPlan, type WrittenTrack } from '../../src/files/track.ts';

const start = Date.UTC(2026, 2, 4, 16) / 1000;

function track(nodes: readonly (readonly [latitude: number, longitude: number])[]): WrittenTrack {
  const points = nodes.map(([latitudeDeg, longitudeDeg], i) => ({
    latitudeDeg,
    longitudeDeg,
    heightM: 20_000 + 100 * i,
    timeS: start + 60 * i,
  }));
  return { name: 'Loop', note: 'ABC234. A planning aid.', points, named: [] };
}

describe('tracks for other programs', () => {
  it('[TRACK-1] is cut where it crosses 180 degrees, at the latitude of the great circle', () => {
    const parts = partsAt180(track([[0, 179], [0, -179], [0, -178], [0, 178]]).points); // biome-ignore format: a table
    expect(parts.map((part) => part.map(({ longitudeDeg }) => longitudeDeg))).toEqual([
      [179, 180],
      [-180, -179, -178, -180],
      [180, 178],
    ]);
    const [meeting] = parts[1];
    expect(meeting.timeS).toBeCloseTo(start + 30, 6);
    expect(meeting.heightM).toBeCloseTo(20_050, 6);
    // Half way between 60 N 170 E and 60 N 170 W: tan of latitude is tan 60 over cos 10.
    const [[, high]] = partsAt180(track([[60, 170], [60, -170]]).points); // biome-ignore format: a table
    const expected = (Math.atan(Math.tan(Math.PI / 3) / Math.cos(Math.PI / 18)) * 180) / Math.PI;
    expect(high.latitudeDeg).toBeCloseTo(expected, 9);
  });

  it('[TRACK-2] a node on 180 degrees itself is not doubled', () => {
    const parts = partsAt180(track([[0, 178], [0, 180], [0, -179]]).points); // biome-ignore format: a table
    expect(parts.map((part) => part.map(({ longitudeDeg }) => longitudeDeg))).toEqual([
      [178, 180],
      [-180, -179],
    ]);
    expect(
      partsAt180(
        track([
          [0, 180],
          [0, -179],
        ]).points,
      ).length,
    ).toBe(1);
  });

  it('[TRACK-3] goes over a pole without a cut', () => {
    expect(
      partsAt180(
        track([
          [89, 0],
          [90, 0],
          [89, 180],
        ]).points,
      ).length,
    ).toBe(1);
  });

  it('[TRACK-4] a plan gives its nodes and, at the great circle between them, its events', () => {
    const sky = { light: 'day', sunElevationDeg: 30, sunBearingDeg: 180 } as const;
    const written = trackOfPlan({
      title: 'Loop',
      caution: 'Planning aid.',
      fingerprint: 'ABC234',
      takeOff: '2026-03-04T16:00Z',
      events: [
        { timeS: 30, kind: 'gate', name: 'M 1.5', fuelKg: 1, ...sky },
        { timeS: 120, kind: 'landing', name: 'Fenmoor', fuelKg: 1, ...sky },
      ],
      trace: {
        columns: {
          timeS: [0, 60, 120],
          latitudeDeg: [0, 0, 0],
          longitudeDeg: [179.5, -179.5, -178.5],
          geometricHeightM: [100, 200, 300],
        },
      },
    });
    const [gate, landing] = written.named;
    expect(Math.abs(gate.longitudeDeg)).toBeCloseTo(180, 9);
    expect([gate.heightM, gate.timeS, gate.kind]).toEqual([150, start + 30, 'gate']);
    expect(landing.longitudeDeg).toBeCloseTo(-178.5, 12);
    expect(written.note).toBe('ABC234. Planning aid.');
    expect(written.points[1]).toEqual({
      latitudeDeg: 0,
      longitudeDeg: -179.5,
      heightM: 200,
      timeS: start + 60,
    });
  });

  it('[TRACK-5] a track of one place is no line', () => {
    expect(() => trackGeoJson(track([[1, 2]]))).toThrow('Loop: a track of fewer than two places is no line');
  });

  it('[TRACK-6] GPX keeps longitudes below 180, as its schema asks', () => {
    const text = trackGpx(track([[0, 179], [0, -179]]), 'Ramrise 0.1.0'); // biome-ignore format: a table
    const longitudes = [...text.matchAll(/ lon="([^"]+)"/g)].map(([, value]) => Number(value));
    expect(longitudes).toEqual([179, 179.9999999, -180, -179]);
  });
});

/** Tracks read back by independent general-purpose readers: xmldom and togeojson. */
import { gpx } from '@tmcw/togeojson';
import { DOMParser } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import { trackGeoJson } from '../../src/files/geojson.ts';
import { trackGpx } from '../../src/files/gpx.ts';
import { trackOfPlan, type WrittenTrack } from '../../src/files/track.ts';
import { longLoopText, requestOf } from '../support/demo.ts';

const start = Date.UTC(2026, 2, 4, 16) / 1000;

function point(latitudeDeg: number, longitudeDeg: number, i: number) {
  return { latitudeDeg, longitudeDeg, heightM: 20_000.5 + 100 * i, timeS: start + 61.5 * i };
}

const track: WrittenTrack = {
  name: 'Loop & "return" <north>',
  note: "ABC234. It's a planning aid \u2014 5 \u00b0C\u0007\ud800.",
  points: [point(51.1234567, 178.5, 0), point(52, 179.75, 1), point(53, -179, 2), point(54.25, -177.125, 3)],
  named: [{ ...point(52, 179.75, 1), name: 'W1 & W2', kind: 'waypoint' }],
};

/** What togeojson gives, as far as it is compared. */
interface ReadFeature {
  readonly geometry: { readonly type: string; readonly coordinates: number[][][] };
  readonly properties: Readonly<Record<string, unknown>>;
}

function read(text: string) {
  // Warnings and errors of the parser end the test.
  const onError = (level: string, message: string) => {
    throw new Error(`${level}: ${message}`);
  };
  const document = new DOMParser({ onError }).parseFromString(text, 'text/xml');
  // togeojson asks for the browser's kind of document, which xmldom's is like.
  const features = gpx(document as never).features as unknown as readonly ReadFeature[];
  const [line] = features.filter((one) => one.geometry.type === 'MultiLineString');
  const [waypoint] = features.filter((one) => one.geometry.type === 'Point');
  return { document, line, waypoint };
}

describe('tracks read by others', () => {
  it('[TRACK-7] GPX is XML of the schema, names and times whole', () => {
    const { document, line, waypoint } = read(trackGpx(track, 'Ramrise "0.1.0"'));
    const root = document.documentElement;
    expect(root?.namespaceURI).toBe('http://www.topografix.com/GPX/1/1');
    expect([root?.getAttribute('version'), root?.getAttribute('creator')]).toEqual([
      '1.1',
      'Ramrise "0.1.0"',
    ]);
    expect(document.getElementsByTagName('desc')[0].textContent).toBe(
      "ABC234. It's a planning aid \u2014 5 \u00b0C.",
    );
    expect(line.properties.name).toBe(track.name);
    expect(waypoint.properties.name).toBe('W1 & W2');
    expect(waypoint.geometry).toEqual({ type: 'Point', coordinates: [179.75, 52, 20_100.5] });
  });

  it('[TRACK-8] the same line, heights and times from GPX and from GeoJSON', () => {
    const fromGpx = read(trackGpx(track, 'Ramrise')).line;
    const [written, waypoint] = JSON.parse(trackGeoJson(track)).features;
    expect(written.geometry.type).toBe('MultiLineString');
    expect(written.properties.coordinateProperties).toEqual(fromGpx.properties.coordinateProperties);
    const lines = fromGpx.geometry.coordinates;
    expect(lines.map((part) => part.length)).toEqual([3, 3]);
    written.geometry.coordinates.flat().forEach((position: number[], i: number) => {
      lines.flat()[i].forEach((number, axis) => {
        expect(Math.abs(number - position[axis])).toBeLessThan(1.5e-7);
      });
    });
    expect(waypoint.properties).toEqual({
      name: 'W1 & W2',
      kind: 'waypoint',
      time: '2026-03-04T16:01:01.500Z',
    });
    expect(written.properties.name).toBe(track.name);
  });

  it('[TRACK-9] the demonstration as flown: every node of its trace, and its events as named points', () => {
    const plan = makePlan(requestOf(longLoopText));
    const flown = trackOfPlan(plan);
    const { line, document } = read(trackGpx(flown, 'Ramrise'));
    const [written, ...points] = JSON.parse(trackGeoJson(flown)).features;
    expect(written.geometry.type).toBe('LineString');
    // A single segment comes back as a line of its own.
    expect(line).toBe(undefined);
    const track = Array.from(document.getElementsByTagName('trkpt'), (point) => [
      Number(point.getAttribute('lon')),
      Number(point.getAttribute('lat')),
    ]);
    const { longitudeDeg, latitudeDeg } = plan.trace.columns;
    const places = longitudeDeg.flatMap((east, i) =>
      east === longitudeDeg[i - 1] && latitudeDeg[i] === latitudeDeg[i - 1] ? [] : [[east, latitudeDeg[i]]],
    );
    expect(track.length).toBe(places.length);
    track.forEach(([east, north], i) => {
      expect(Math.abs(east - places[i][0]) + Math.abs(north - places[i][1])).toBeLessThan(2e-7);
      expect(written.geometry.coordinates[i].slice(0, 2)).toEqual([east, north]);
    });
    expect(points.map(({ properties }: ReadFeature) => properties.name)).toEqual(
      plan.events.map(({ name }) => name),
    );
    expect(document.getElementsByTagName('wpt').length).toBe(plan.events.length);
  });
});

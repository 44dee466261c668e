/**
 * A track as GeoJSON (RFC 7946): a line, cut at 180 degrees, and its named points. Heights are metres; the times of the line's
 * positions stand in `coordinateProperties.times`, nested as the coordinates are.
 */
import { isoTime, partsAt180, type TrackPoint, type WrittenTrack } from './track.ts';

/** 1e-7 degrees is 1 cm. */
function positionOf({ longitudeDeg, latitudeDeg, heightM }: TrackPoint): number[] {
  return [Number(longitudeDeg.toFixed(7)), Number(latitudeDeg.toFixed(7)), Number(heightM.toFixed(1))];
}

/** The text of a GeoJSON file; throws where the track has no line. */
export function trackGeoJson(track: WrittenTrack): string {
  const parts = partsAt180(track.points);
  if (parts.length === 0) throw new Error(`${track.name}: a track of fewer than two places is no line`);
  const coordinates = parts.map((part) => part.map(positionOf));
  const times = parts.map((part) => part.map((point) => isoTime(point.timeS)));
  const one = parts.length === 1;
  const line = {
    type: 'Feature',
    properties: {
      name: track.name,
      note: track.note,
      coordinateProperties: { times: one ? times[0] : times },
    },
    geometry: one
      ? { type: 'LineString', coordinates: coordinates[0] }
      : { type: 'MultiLineString', coordinates },
  };
  const named = track.named.map((point) => ({
    type: 'Feature',
    properties: { name: point.name, kind: point.kind, time: isoTime(point.timeS) },
    geometry: { type: 'Point', coordinates: positionOf(point) },
  }));
  return `${JSON.stringify({ type: 'FeatureCollection', features: [line, ...named] })}\n`;
}

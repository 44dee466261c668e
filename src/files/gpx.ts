/**
 * A track as GPX 1.1: a track whose segments end at 180 degrees, and its named points as waypoints. Elevations are metres, times
 * UTC. Elements stand in the order that the schema asks for (topografix.com/GPX/1/1/gpx.xsd).
 */
import { isoTime, partsAt180, type TrackPoint, type WrittenTrack } from './track.ts';

/** The text of a GPX file. */
export function trackGpx(track: WrittenTrack, program: string): string {
  const waypoints = track.named.map(
    (point) =>
      `<wpt ${at(point)}>${heightAndTime(point)}<name>${escaped(point.name)}</name><type>${escaped(point.kind)}</type></wpt>`,
  );
  const segments = partsAt180(track.points).map((part) => {
    const points = part.map((point) => `<trkpt ${at(point)}>${heightAndTime(point)}</trkpt>`);
    return `<trkseg>\n${points.join('\n')}\n</trkseg>`;
  });
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<gpx version="1.1" creator="${escaped(program)}" xmlns="http://www.topografix.com/GPX/1/1">`,
    `<metadata><name>${escaped(track.name)}</name><desc>${escaped(track.note)}</desc></metadata>`,
    ...waypoints,
    `<trk><name>${escaped(track.name)}</name>`,
    ...segments,
    '</trk>',
    '</gpx>',
    '',
  ].join('\n');
}

/** The schema wants longitudes below 180. */
function at({ latitudeDeg, longitudeDeg }: TrackPoint): string {
  const longitude = longitudeDeg >= 179.9999999 ? 179.9999999 : longitudeDeg;
  return `lat="${latitudeDeg.toFixed(7)}" lon="${longitude.toFixed(7)}"`;
}

function heightAndTime({ heightM, timeS }: TrackPoint): string {
  return `<ele>${heightM.toFixed(1)}</ele><time>${isoTime(timeS)}</time>`;
}

const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** A text for XML 1.0: its signs as entities, without the characters that XML cannot hold. */
function escaped(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '')
    .replace(/[&<>"]/g, (sign) => entities[sign]);
}

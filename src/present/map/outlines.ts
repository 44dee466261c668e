/**
 * Coasts and borders of the world, from the outlines packaged with the program (Natural Earth 1:50 million, public domain, as
 * TopoJSON). The caller loads the file in its own way, so that Node and a browser share everything here.
 */
import { feature } from 'topojson-client';
import type { GeometryCollection, GeometryObject, Topology } from 'topojson-specification';

/** The file of outlines: what `world-atlas` calls countries. */
export type OutlineFile = Topology<{ countries: GeometryCollection }>;

/** A line of [longitude, latitude] in degrees. */
export type Line = readonly (readonly [number, number])[];

export interface Outlines {
  readonly coasts: readonly Line[];
  readonly borders: readonly Line[];
}

export const OUTLINES_SOURCE = 'Coasts and borders: Natural Earth 1:50 million; lakes are not drawn.';

/** Latitudes, degrees; what lies outside is left out. */
export interface Band {
  readonly southDeg: number;
  readonly northDeg: number;
}

const world: Band = { southDeg: -90, northDeg: 90 };

/** Arcs that one country has alone are coasts, those that two share are borders. They are not stitched: it takes 50 ms. */
export function outlinesOf(file: OutlineFile, band: Band = world): Outlines {
  const countries = new Uint8Array(file.arcs.length);
  for (const country of file.objects.countries.geometries) {
    for (const arc of new Set(arcsOf(country))) countries[arc]++;
  }
  const all = Array.from(countries, (_, arc) => arc).filter((arc) => reaches(file, arc, band));
  return {
    coasts: decoded(
      file,
      all.filter((arc) => countries[arc] === 1),
    ),
    borders: decoded(
      file,
      all.filter((arc) => countries[arc] > 1),
    ),
  };
}

/** Arcs of a geometry, whichever way it runs along them. */
function arcsOf(geometry: GeometryObject): number[] {
  if (!('arcs' in geometry)) return [];
  const arcs = geometry.arcs.flat(2) as number[];
  return arcs.map((arc) => (arc < 0 ? ~arc : arc));
}

/** Whether an arc comes into a band; its points are steps of a grid from the point before. */
function reaches({ arcs, transform }: OutlineFile, arc: number, { southDeg, northDeg }: Band): boolean {
  if (!transform) return true;
  const [scale, shift] = [transform.scale[1], transform.translate[1]];
  let y = 0;
  return arcs[arc].some(([, step]) => {
    y += step;
    const latitude = y * scale + shift;
    return latitude >= southDeg && latitude <= northDeg;
  });
}

function decoded(file: OutlineFile, arcs: readonly number[]): Line[] {
  const lines = feature(file, { type: 'MultiLineString', arcs: arcs.map((arc) => [arc]) });
  return lines.geometry.coordinates as unknown as Line[];
}

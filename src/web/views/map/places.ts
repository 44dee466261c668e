/** The places of a sortie that a touch may move, as they stand in its text. */
import { readPosition } from '../../../core/quantities/place.ts';

export interface Movable {
  /** Path of the position in the text, such as "legs.1.through.0.at". */
  readonly path: string;
  readonly kind: 'waypoint' | 'tanker';
  readonly name: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

interface Named {
  readonly name?: unknown;
  readonly at?: unknown;
}

/** Waypoints and contact points of a sortie's data; what cannot be read is left out, since the planner says why. */
export function movables(data: unknown): readonly Movable[] {
  const sortie = data as { tankers?: Named[]; legs?: { through?: Named[] }[] } | null;
  const tankers = list(sortie?.tankers).map((one, i) => movable(one, 'tanker', `tankers.${i}.at`));
  const waypoints = list(sortie?.legs).flatMap((leg, i) =>
    list(leg.through).map((one, j) => movable(one, 'waypoint', `legs.${i}.through.${j}.at`)),
  );
  return [...tankers, ...waypoints].filter((one) => one !== null);
}

function list<T>(value: T[] | undefined): readonly T[] {
  return Array.isArray(value) ? value : [];
}

function movable({ name, at }: Named, kind: Movable['kind'], path: string): Movable | null {
  try {
    const { latitudeRad, longitudeRad } = readPosition(String(at));
    const degrees = (angle: number) => (angle * 180) / Math.PI;
    return {
      path,
      kind,
      name: String(name),
      latitudeDeg: degrees(latitudeRad),
      longitudeDeg: degrees(longitudeRad),
    };
  } catch {
    return null;
  }
}

/** A position as a sortie file writes it: "46.80N 96.00W", to a hundredth of a degree. */
export function written(latitudeDeg: number, longitudeDeg: number): string {
  const latitude = Math.min(Math.max(latitudeDeg, -90), 90);
  const longitude = longitudeDeg - 360 * Math.round(longitudeDeg / 360);
  const part = (value: number, positive: string, negative: string) =>
    `${Math.abs(value).toFixed(2)}${value < 0 ? negative : positive}`;
  return `${part(latitude, 'N', 'S')} ${part(longitude, 'E', 'W')}`;
}

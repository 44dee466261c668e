/**
 * The pushover that burns least to a reference state inside all limits, and the best level acceleration to the same state.
 *
 * A compass search (Kolda, Lewis, Torczon, SIAM Review 45(3), 2003, from memory) over the Mach of the push, its path angle and
 * its bottom: from the best of a coarse grid to the best neighbour in any combination of the three until none burns less,
 * then with steps half as long. What a limit forbids is never taken. A local optimum, right to the last steps.
 */
import { minimise } from '../numerics/optimum.ts';
import {
  type AccelerationQuestion,
  type LevelFlown,
  levelPath,
  type PushoverFlown,
  type PushoverShape,
  pushoverPath,
} from './acceleration-path.ts';

const degree = Math.PI / 180;
/** Mach, path angle [rad] and bottom [m] differ by so many of these. */
const FIRST = { mach: 0.02, pathAngleRad: 2 * degree, bottomPressureAltitudeM: 400 };
const HALVINGS = 3;
/** The last steps: 0.0025 Mach, 0.25 degrees, 50 m. */
export const LAST_STEPS: PushoverShape = scaled(FIRST, 2 ** -HALVINGS);
/** Ranges searched beyond the start. */
const STEEPEST_RAD = -15 * degree;
const SHALLOWEST_RAD = -1 * degree;
const DEEPEST_M = 4500;
const FASTEST_MACH = 0.2;
/** Less than this is the integration's tolerance. */
const SAME_KG = 0.05;
/** Heights of level acceleration that are tried, from below the start to above it. */
const LEVELS_M = { from: -4000, to: 2000, step: 500 };
const LEVEL_TOLERANCE_M = 20;

type Variable = keyof PushoverShape;
const VARIABLES: readonly Variable[] = ['mach', 'pathAngleRad', 'bottomPressureAltitudeM'];

/** What one step of one variable from the best would do. */
export interface Neighbour {
  readonly variable: Variable;
  readonly by: number;
  /** More than the best burns; NaN where it is refused. */
  readonly moreKg: number;
  /** Key of what refuses it, as a phase ends, or 'range' at the end of the search; null where it can be flown. */
  readonly heldBy: string | null;
}

export interface BestPushover {
  /** null where none of the coarse grid can be flown. */
  readonly best: PushoverFlown | null;
  /** One step of each variable down and up. */
  readonly neighbours: readonly Neighbour[];
  readonly flights: number;
  /** Where there is no best: what refused the ways of the grid, most often first. */
  readonly refusals: readonly string[];
}

/** The pushover of least fuel; `near` are shapes to be tried beside those of the grid. */
export function bestPushover(
  question: AccelerationQuestion,
  near: readonly PushoverShape[] = [],
): BestPushover {
  return new Search(question).run(near);
}

/** The height of least fuel at which to accelerate level, with the way there; null where none can be flown. */
export function bestLevel(question: AccelerationQuestion): LevelFlown | null {
  const startM = question.from.pressureAltitudeM;
  const tried: LevelFlown[] = [];
  const fuel = (heightM: number): number => {
    const flown = levelPath(question, heightM);
    tried.push(flown);
    return flown.refused === null ? flown.fuelKg : Number.POSITIVE_INFINITY;
  };
  for (let byM = LEVELS_M.from; byM <= LEVELS_M.to; byM += LEVELS_M.step) fuel(startM + byM);
  const first = least(tried);
  if (first === null) return null;
  const { pressureAltitudeM } = first;
  minimise(fuel, pressureAltitudeM - LEVELS_M.step, pressureAltitudeM + LEVELS_M.step, LEVEL_TOLERANCE_M);
  return least(tried);
}

class Search {
  private readonly question: AccelerationQuestion;
  private readonly startMach: number;
  private readonly flown = new Map<string, PushoverFlown>();

  constructor(question: AccelerationQuestion) {
    const { flight, track, from } = question;
    this.question = question;
    flight.placeOnTrack(track, from.distanceM, from.pressureAltitudeM, from.timeS);
    this.startMach = from.trueAirspeedMS / flight.frame.air.speedOfSoundMS;
  }

  run(near: readonly PushoverShape[]): BestPushover {
    for (const shape of [...near, ...this.grid()]) if (this.isInside(shape)) this.fly(shape);
    const first = least([...this.flown.values()]);
    if (first === null) {
      return { best: null, neighbours: [], flights: this.flown.size, refusals: this.refusals() };
    }
    let best = first;
    for (let halved = 0; halved <= HALVINGS; halved++) best = this.descend(best, 2 ** -halved);
    const neighbours = VARIABLES.flatMap((variable) => [
      this.neighbour(best, variable, -1),
      this.neighbour(best, variable, 1),
    ]);
    return { best, neighbours, flights: this.flown.size, refusals: [] };
  }

  private grid(): PushoverShape[] {
    const { pressureAltitudeM } = this.question.from;
    const shapes: PushoverShape[] = [];
    for (const faster of [0, FIRST.mach]) {
      for (const steep of [-4, -7, -10, -13]) {
        for (let belowM = 600; belowM <= 3000; belowM += 600) {
          shapes.push({
            mach: this.startMach + faster,
            pathAngleRad: steep * degree,
            bottomPressureAltitudeM: pressureAltitudeM - belowM,
          });
        }
      }
    }
    return shapes;
  }

  private isInside({ mach, pathAngleRad, bottomPressureAltitudeM }: PushoverShape): boolean {
    const belowM = this.question.from.pressureAltitudeM - bottomPressureAltitudeM;
    return (
      mach >= this.startMach - 1e-9 &&
      mach <= this.startMach + FASTEST_MACH &&
      pathAngleRad >= STEEPEST_RAD - 1e-9 &&
      pathAngleRad <= SHALLOWEST_RAD + 1e-9 &&
      belowM > 0 &&
      belowM <= DEEPEST_M
    );
  }

  private fly(shape: PushoverShape): PushoverFlown {
    const { mach, pathAngleRad, bottomPressureAltitudeM } = shape;
    const key = `${mach.toFixed(6)} ${pathAngleRad.toFixed(6)} ${bottomPressureAltitudeM.toFixed(2)}`;
    const known = this.flown.get(key);
    if (known) return known;
    const flown = pushoverPath(this.question, shape);
    this.flown.set(key, flown);
    return flown;
  }

  /** From neighbour to neighbour with steps of one length. */
  private descend(from: PushoverFlown, length: number): PushoverFlown {
    const steps = scaled(FIRST, length);
    let best = from;
    for (;;) {
      const around = DIRECTIONS.map((direction) => moved(best.shape, steps, direction))
        .filter((shape) => this.isInside(shape))
        .map((shape) => this.fly(shape));
      const next = least(around);
      if (next === null || next.fuelKg >= best.fuelKg - SAME_KG) return best;
      best = next;
    }
  }

  private neighbour(best: PushoverFlown, variable: Variable, way: number): Neighbour {
    const by = way * LAST_STEPS[variable];
    const shape = { ...best.shape, [variable]: best.shape[variable] + by };
    if (!this.isInside(shape)) return { variable, by, moreKg: Number.NaN, heldBy: 'range' };
    const { fuelKg, refused } = this.fly(shape);
    return { variable, by, moreKg: fuelKg - best.fuelKg, heldBy: refused?.reason ?? null };
  }

  private refusals(): string[] {
    const counts = new Map<string, number>();
    for (const { refused } of this.flown.values()) {
      if (refused) counts.set(refused.reason, (counts.get(refused.reason) ?? 0) + 1);
    }
    return [...counts].sort(([, a], [, b]) => b - a).map(([reason]) => reason);
  }
}

/** Every combination of a step down, none and a step up, but for none of all. */
const DIRECTIONS: readonly PushoverShape[] = [-1, 0, 1].flatMap((mach) =>
  [-1, 0, 1].flatMap((pathAngleRad) =>
    [-1, 0, 1]
      .map((bottomPressureAltitudeM) => ({ mach, pathAngleRad, bottomPressureAltitudeM }))
      .filter((way) => VARIABLES.some((variable) => way[variable] !== 0)),
  ),
);

function moved(from: PushoverShape, steps: PushoverShape, direction: PushoverShape): PushoverShape {
  return {
    mach: from.mach + direction.mach * steps.mach,
    pathAngleRad: from.pathAngleRad + direction.pathAngleRad * steps.pathAngleRad,
    bottomPressureAltitudeM:
      from.bottomPressureAltitudeM + direction.bottomPressureAltitudeM * steps.bottomPressureAltitudeM,
  };
}

function scaled(steps: PushoverShape, by: number): PushoverShape {
  return {
    mach: steps.mach * by,
    pathAngleRad: steps.pathAngleRad * by,
    bottomPressureAltitudeM: steps.bottomPressureAltitudeM * by,
  };
}

/** The one of least fuel that was not refused. */
function least<P extends { readonly fuelKg: number }>(paths: readonly P[]): P | null {
  return paths.reduce<P | null>((best, path) => {
    if (Number.isNaN(path.fuelKg)) return best;
    return best === null || path.fuelKg < best.fuelKg ? path : best;
  }, null);
}

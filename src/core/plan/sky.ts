/** The light along a flight: its changes, the sun at every event, the dip of the horizon; and what height means to a body. */
import { bodyBoilingAltitudeM, bodyVapourPressurePa, timeAbove } from '../air/body.ts';
import { standardPressure } from '../air/standard.ts';
import { horizonDip } from '../earth/horizon.ts';
import { type Light, lightAlong, lightAt } from '../earth/light.ts';
import { sunOver } from '../earth/sun.ts';
import { OutsideRange } from '../quantities/errors.ts';
import type { Draft } from './draft.ts';
import type { Log } from './log.ts';
import { type PlaceAt, placeAt } from './place-at.ts';
import type { EventLight, PlanBody, PlanEvent, PlanLight } from './plan.ts';

const degrees = 180 / Math.PI;

/** Time above the altitude at which water boils at the temperature of the body. */
export function bodyOf({ log, crew }: Draft): PlanBody {
  const { timeS, pressureAltitudeM } = log.columns;
  const highestM = Math.max(crew.sortie.takeOff.base.elevationM, ...pressureAltitudeM);
  return {
    boilingPressurePa: bodyVapourPressurePa,
    boilingAltitudeM: bodyBoilingAltitudeM,
    aboveS: timeAbove(bodyBoilingAltitudeM, timeS, pressureAltitudeM),
    leastPressurePa: standardPressure(highestM),
  };
}

/** The sky along a flight; without light, and why, where the almanac does not reach. */
export interface Sky {
  readonly light: PlanLight | null;
  /** Times since take-off. */
  readonly events: readonly (PlanEvent & EventLight)[];
  readonly missing: readonly string[];
}

export function skyOf(drafted: Draft): Sky {
  const { log, crew } = drafted;
  const takeOffS = crew.sortie.takeOff.timeS;
  const events = (sky: (event: PlanEvent) => EventLight) =>
    log.events.map((event) => ({ ...event, ...sky(event), timeS: event.timeS - takeOffS }));
  try {
    const light = log.nodes > 1 ? lightOf(log, takeOffS) : null;
    return { light, events: events((event) => skyAt(event, drafted)), missing: [] };
  } catch (error) {
    if (!(error instanceof OutsideRange)) throw error;
    const unknown = { light: null, sunElevationDeg: null, sunBearingDeg: null };
    return { light: null, events: events(() => unknown), missing: [`light: ${error.message}`] };
  }
}

function lightOf(log: Log, takeOffS: number): PlanLight {
  const { start, changes } = lightAlong(log.columns);
  return {
    start,
    changes: changes.map(({ timeS, latitudeRad, longitudeRad, ...rest }) => ({
      timeS: timeS - takeOffS,
      latitudeDeg: latitudeRad * degrees,
      longitudeDeg: longitudeRad * degrees,
      ...rest,
    })),
    horizon: horizonOf(log, takeOffS),
  };
}

function horizonOf({ columns }: Log, takeOffS: number): PlanLight['horizon'] {
  const { geometricHeightM: heights, timeS } = columns;
  const top = heights.reduce((highest, height, node) => (height > heights[highest] ? node : highest), 0);
  const dipDeg = horizonDip(Math.max(0, heights[top])) * degrees;
  return { timeS: timeS[top] - takeOffS, geometricHeightM: heights[top], dipDeg };
}

/** The light at an event, whose time counts from 1970, and the sun. */
function skyAt(event: PlanEvent, drafted: Draft): EventLight {
  const at = placeOfEvent(event, drafted);
  const { elevationRad, azimuthRad } = sunOver(at, event.timeS);
  return {
    light: lightAt(elevationRad, Math.max(0, at.geometricHeightM)),
    sunElevationDeg: elevationRad * degrees,
    sunBearingDeg: azimuthRad * degrees,
  };
}

const lightStepS = 600;
const lightFarS = 12 * 3600;

/** How much later the take-off may be with the light of an event as it is, to a minute; null where half a day is not enough. */
export function lightLater(event: PlanEvent, light: Light, drafted: Draft): number | null {
  const timeS = event.timeS + drafted.crew.sortie.takeOff.timeS;
  const at = placeOfEvent({ ...event, timeS }, drafted);
  const same = (laterS: number): boolean => {
    const { elevationRad } = sunOver(at, timeS + laterS);
    return lightAt(elevationRad, Math.max(0, at.geometricHeightM)) === light;
  };
  let holdsS = 0;
  while (same(holdsS + lightStepS)) {
    holdsS += lightStepS;
    if (holdsS >= lightFarS) return null;
  }
  let changedS = holdsS + lightStepS;
  while (changedS - holdsS > 30) {
    const middle = 0.5 * (holdsS + changedS);
    if (same(middle)) holdsS = middle;
    else changedS = middle;
  }
  return holdsS;
}

/** On the ground the horizon is that of the land around: nothing is seen from a height. */
function placeOfEvent({ kind, timeS }: PlanEvent, { log, crew }: Draft): PlaceAt {
  const { takeOff, legs } = crew.sortie;
  if (kind === 'take-off') return { ...takeOff.base, geometricHeightM: 0 };
  const { end } = legs[legs.length - 1];
  if (kind === 'landing' && end.kind === 'landing') return { ...end.base, geometricHeightM: 0 };
  return placeAt(log, timeS);
}

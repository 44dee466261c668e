/** The light along a flight in words: at the start, at its changes, the sun at the events that a crew cares for. */
import type { EventLight, Plan, PlanEvent, PlanLightChange } from '../core/plan/plan.ts';
import { placeWords, threeFigures } from './course.ts';
import { eventName } from './names.ts';
import { clock, hoursMinutes } from './time.ts';
import { gaugesOf, shown } from './units.ts';

/** Events at which light matters: on the ground and behind a tanker. */
const OUTSIDE_LOOKED = ['take-off', 'contact', 'disconnect', 'landing'];

export type LitEvent = PlanEvent & EventLight;

export function litEvents(plan: Plan): readonly LitEvent[] {
  return plan.events.filter(({ kind }) => OUTSIDE_LOOKED.includes(kind));
}

/** "take-off from Harrow Flat", "contact with Ewer One". */
export function litEventName(plan: Plan, event: LitEvent): string {
  if (event.kind === 'take-off') return `take-off from ${event.name}`;
  return event.kind === 'landing' ? `landing at ${event.name}` : eventName(plan, event);
}

/** "day", and from when it is another light. */
export function lightSentences(plan: Plan): readonly string[] {
  const { light } = plan;
  if (light === null) return [];
  const changes = light.changes.map((change) => changeWords(plan, change));
  const along =
    changes.length === 0
      ? `Light: ${light.start} from take-off to landing.`
      : `Light: ${light.start} at take-off; ${changes.join('; ')}.`;
  const suns = litEvents(plan).flatMap((event) => sunAt(plan, event));
  return [along, ...(suns.length === 0 ? [] : [`Sun: ${suns.join('; ')}.`]), horizonSentence(plan)];
}

/** "civil twilight from 1:42 (22:07Z), darker, at 45.20N 93.10W". */
export function changeWords(plan: Plan, change: PlanLightChange): string {
  const { timeS, to, brighter } = change;
  const when = `${hoursMinutes(timeS)} (${clock(plan.takeOff, timeS)})`;
  return `${to} from ${when}, ${brighter ? 'brighter' : 'darker'}, at ${placeWords(change)}`;
}

function sunAt(plan: Plan, event: LitEvent): readonly string[] {
  const { sunElevationDeg: up, sunBearingDeg: bearing, light } = event;
  if (up === null || bearing === null || light === null) return [];
  const dark = light === 'day' ? '' : `${light}, `;
  return [
    `${litEventName(plan, event)} ${hoursMinutes(event.timeS)}: ${dark}${sunHeight(up)} on ${threeFigures(bearing)}° true`,
  ];
}

/** "30° up", "4° down", to the nearest degree; "level" for none. */
export function sunHeight(elevationDeg: number): string {
  const whole = Math.round(elevationDeg);
  if (whole === 0) return 'level';
  return whole > 0 ? `${whole}° up` : `${-whole}° down`;
}

/** "Above 62 800 ft for 1:11: below 6.3 kPa, at which water boils at 37 °C; 3.6 kPa at the top."; nothing where the flight stays below. */
export function bodySentences(plan: Plan): readonly string[] {
  const { boilingPressurePa, boilingAltitudeM, aboveS, leastPressurePa } = plan.body;
  if (aboveS <= 0) return [];
  const height = shown(gaugesOf(plan)('pressureAltitudeM'), boilingAltitudeM);
  const kPa = (pressurePa: number) => (pressurePa / 1000).toFixed(1);
  return [
    `Above ${height} for ${hoursMinutes(aboveS)}: outside below ${kPa(boilingPressurePa)}\u00a0kPa, at which water boils at 37\u00a0°C; least ${kPa(leastPressurePa)}\u00a0kPa.`,
  ];
}

/** "At 73 400 ft (2:51) the horizon dips 4.6°." */
export function horizonSentence(plan: Plan): string {
  if (plan.light === null) return '';
  const { timeS, geometricHeightM, dipDeg } = plan.light.horizon;
  const height = shown(gaugesOf(plan)('geometricHeightM'), geometricHeightM);
  return `From ${height} (${hoursMinutes(timeS)}) the horizon is seen ${dipDeg.toFixed(1)}° below the horizontal.`;
}

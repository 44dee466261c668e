/** The air of a day at one point, or a refusal that says what the day covers. */
import {
  type Air,
  type Day,
  newAir,
  OUTSIDE_ABOVE,
  OUTSIDE_AREA,
  OUTSIDE_BELOW,
  OUTSIDE_MISSING,
  OUTSIDE_TIME,
} from '../core/air/day.ts';
import type { PressureAltitude } from '../core/quantities/kinds.ts';
import { type Position, showPosition } from '../core/quantities/place.ts';
import { showTime } from '../core/quantities/time.ts';
import { show } from '../core/quantities/values.ts';
import { Refusal } from './outcome.ts';

/** `covers` says for the message what the day covers; throws `Refusal` where the day has no data. */
export function airOf(
  day: Day,
  place: Position,
  altitudeM: PressureAltitude,
  timeS: number,
  covers = day.covers,
): Air {
  const { latitudeRad, longitudeRad } = place;
  const air = newAir();
  day.sample(latitudeRad, longitudeRad, altitudeM, timeS, air);
  if (air.outside === 0) return air;
  const beyond: [number, string, string][] = [
    [OUTSIDE_BELOW | OUTSIDE_ABOVE, 'pressure altitude', show('pressureAltitudeM', altitudeM)],
    [OUTSIDE_AREA, 'position', showPosition(place)],
    [OUTSIDE_TIME, 'time', showTime(timeS)],
    [OUTSIDE_MISSING, 'position', `${showPosition(place)} (values are missing there)`],
  ];
  const faults = beyond
    .filter(([mark]) => air.outside & mark)
    .map(([, quantity, value]) => ({ quantity, value, covers }));
  const parts = faults.map(({ quantity, value }) => `${quantity} ${value}`);
  throw new Refusal(
    `${day.description.title}: no data at ${parts.join(' and ')}; it covers ${covers}`,
    faults,
  );
}

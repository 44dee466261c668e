/** A tanker of a sortie file beside its fuel: waivers, envelope, its own flight. Faults are told by their path within the tanker. */
import type { Base, Tanker } from '../core/plan/sortie.ts';
import { readQuantity } from '../core/quantities/values.ts';
import type { SortieFile } from './sortie-schema.ts';
import type { Path } from './yaml.ts';

type Written = SortieFile['tankers'][number];
type Tell = (path: Path, message: string) => void;

export function waiversOf({ waivers, ...tanker }: Written, tell: Tell): Tanker['waivers'] {
  return waivers.flatMap(({ of, value, by, for: reason, until }, i) => {
    const path = ['waivers', i];
    if (of === 'maximumCalibratedAirspeed' && tanker.maximumCalibratedAirspeed === undefined) {
      tell([...path, 'of'], 'there is no "maximumCalibratedAirspeed" to waive');
      return [];
    }
    const key = of === 'maximumMach' ? 'maximumMach' : 'maximumCalibratedAirspeedMS';
    try {
      const si = readQuantity(value, key === 'maximumMach' ? 'mach' : 'calibratedAirspeedMS');
      return [{ of: key, value: si, by, for: reason, untilS: until } as const];
    } catch (error) {
      tell([...path, 'value'], (error as Error).message);
      return [];
    }
  });
}

export function envelopeOf({ envelope }: Written, tell: Tell): Tanker['envelope'] {
  if (envelope === undefined) return null;
  const { fore, aft, closure } = envelope;
  for (const key of ['fore', 'aft', 'closure'] as const) {
    if (!(envelope[key] > 0)) tell(['envelope', key], 'must be above 0');
  }
  return { foreM: fore, aftM: aft, closureMS: closure };
}

/** `base` finds a base by its name and tells where there is none. */
export function flightOf(
  { flight, ownFuel }: Written,
  base: (name: string, path: Path) => Base,
  tell: Tell,
): Tanker['flight'] {
  if (flight === undefined) return null;
  const { from, burn, home, trueAirspeed, homeBurn, reserve } = flight;
  if (ownFuel === undefined) tell(['flight'], 'the flight of a tanker needs "ownFuel" beside it');
  else if (!(reserve <= ownFuel)) tell(['flight', 'reserve'], `is more than its own fuel, ${ownFuel} kg`);
  for (const key of ['burn', 'trueAirspeed', 'homeBurn'] as const) {
    if (!(flight[key] > 0)) tell(['flight', key], 'must be above 0');
  }
  return {
    fromS: from,
    burnKgS: burn,
    base: base(home, ['flight', 'home']),
    trueAirspeedMS: trueAirspeed,
    homeBurnKgS: homeBurn,
    reserveKg: reserve,
  };
}

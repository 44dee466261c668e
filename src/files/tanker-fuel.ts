/** What a tanker of a sortie carries: fuel by grade, of which a receiver is offered only what it may burn, and its own. */
import type { Aircraft } from '../core/aircraft/aircraft.ts';
import type { TankerFuel, TankerLoad } from '../core/plan/sortie.ts';
import type { SortieFile } from './sortie-schema.ts';
import type { Path } from './yaml.ts';

type Written = SortieFile['tankers'][number];

interface Fault {
  readonly key: Path;
  readonly message: string;
}

export interface TankerCarries {
  readonly fuels: readonly TankerFuel[];
  readonly load: TankerLoad;
  readonly faults: readonly Fault[];
}

export function tankerFuel(tanker: Written, aircraft: Pick<Aircraft, 'fuel' | 'identity'>): TankerCarries {
  const faults: Fault[] = [];
  if ((tanker.offload === undefined) === (tanker.fuels === undefined)) {
    faults.push({ key: [], message: 'a tanker has either "offload" or "fuels"' });
  }
  const fuels = (tanker.fuels ?? []).map(
    ({ grade, offload }): TankerFuel => ({ grade, offloadKg: offload, burnable: mayBurn(aircraft, grade) }),
  );
  if (tanker.offload !== undefined) {
    fuels.unshift({ grade: aircraft.fuel?.name ?? null, offloadKg: tanker.offload, burnable: true });
  }
  faults.push(...gradeFaults(tanker, aircraft, fuels), ...massFaults(tanker));
  const { emptyMass = null, payload, ownFuel = null, maximumMass = null } = tanker;
  const load = {
    emptyMassKg: emptyMass,
    payloadKg: payload,
    ownFuelKg: ownFuel,
    maximumMassKg: maximumMass,
  };
  return { fuels, load, faults };
}

/** The deck's grade and those it names beside it, letter for letter but for capitals and spaces at the ends. */
function mayBurn({ fuel }: Pick<Aircraft, 'fuel'>, grade: string): boolean {
  if (fuel === null) return false;
  const same = (name: string): boolean => name.trim().toLowerCase() === grade.trim().toLowerCase();
  return [fuel.name, ...fuel.alsoBurns].some(same);
}

function gradeFaults(
  { name, fuels: written }: Written,
  { fuel, identity }: Pick<Aircraft, 'fuel' | 'identity'>,
  fuels: readonly TankerFuel[],
): Fault[] {
  if (written === undefined) return [];
  if (fuel === null) {
    return [
      { key: ['fuels'], message: `the deck of ${identity.name} names no grade; write "offload" instead` },
    ];
  }
  if (fuels.some(({ burnable }) => burnable)) return [];
  const has = fuels.map(({ grade }) => grade).join(', ');
  const burns = [fuel.name, ...fuel.alsoBurns].join(', ');
  const message = `${name} has no fuel that ${identity.name} may burn: it has ${has}; the deck names ${burns}`;
  return [{ key: ['fuels'], message }];
}

/** All that a tanker carries against its greatest mass, where both are stated. */
function massFaults({ offload = 0, fuels = [], ownFuel, emptyMass, payload, maximumMass }: Written): Fault[] {
  if (maximumMass === undefined) return [];
  if (emptyMass === undefined || ownFuel === undefined) {
    return [{ key: ['maximumMass'], message: 'a greatest mass needs "emptyMass" and "ownFuel" beside it' }];
  }
  const mass = emptyMass + payload + ownFuel + offload + fuels.reduce((sum, fuel) => sum + fuel.offload, 0);
  if (mass <= maximumMass) return [];
  return [
    {
      key: ['maximumMass'],
      message: `with all that it carries the tanker has ${mass} kg, more than ${maximumMass} kg`,
    },
  ];
}

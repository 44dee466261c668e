/** What cannot be of an aircraft on its wheels. */
import type { Ground } from './aircraft.ts';
import type { Deck, FaultSink } from './deck.ts';

export function checkGround(deck: Deck, faults: FaultSink): void {
  const { ground } = deck;
  if (ground === null) return;
  const fault = (key: string, message: string): void => {
    faults.add(deck.place(['ground', ...key.split('.')]), `ground.${key}`, message);
  };
  checkFriction(ground, fault);
  for (const key of ['gearDrag', 'brakingDrag', 'engineOutDrag'] as const) {
    if (!(ground[key] >= 0)) fault(key, `${ground[key]} cannot be: drag is not below 0`);
  }
  if (!(ground.climbOutRatio >= 1)) {
    fault(
      'climbOut',
      `${ground.climbOutRatio} of the lift-off speed: the climb-out is not slower than lift-off`,
    );
  }
  const above0 = [
    ['tyreSpeed', ground.tyreSpeedMS],
    ['brakeEnergy', ground.brakeEnergyJ],
  ] as const;
  for (const [key, value] of above0) if (value === 0) fault(key, 'must be above 0');
}

function checkFriction(ground: Ground, fault: (key: string, message: string) => void): void {
  const { rollingFriction, brakingFriction } = ground;
  if (!(brakingFriction.wet <= brakingFriction.dry)) {
    fault(
      'brakingFriction.wet',
      `${brakingFriction.wet} is more than the ${brakingFriction.dry} of a dry runway`,
    );
  }
  if (!(rollingFriction < brakingFriction.wet)) {
    fault(
      'rollingFriction',
      `${rollingFriction} is not less than the ${brakingFriction.wet} of braking on a wet runway`,
    );
  }
}

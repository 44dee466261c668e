/** What cannot be of a deck's failures. */
import type { Aircraft } from './aircraft.ts';
import type { Deck, FaultSink } from './deck.ts';

export function checkFailures(deck: Deck, { propulsion }: Aircraft, faults: FaultSink): void {
  const engines = propulsion.engines.length;
  const seen = new Set<string>();
  deck.failures.forEach((failure, index) => {
    const fault = (key: string, message: string): void =>
      faults.add(deck.place(['failures', index, key]), `failures.${index}.${key}`, message);
    if (seen.has(failure.key)) fault('key', `${failure.key} stands here twice`);
    seen.add(failure.key);
    if (!(failure.dragIncrement >= 0)) fault('dragIncrement', 'a failure does not lower the drag');
    if (failure.enginesLeft !== null && !(failure.enginesLeft <= engines))
      fault('enginesLeft', `${failure.enginesLeft} of ${engines} engines cannot be left`);
    if (!(failure.thrustFactor > 0 && failure.thrustFactor <= 1))
      fault('thrustFactor', `${failure.thrustFactor} is outside 0 to 1`);
    if (!(failure.fuelFlowFactor >= 1)) fault('fuelFlowFactor', 'a failure does not lower the fuel flow');
    if (failure.greatestPower !== null && !propulsion.names.includes(failure.greatestPower))
      fault('greatestPower', `"${failure.greatestPower}" is none of ${propulsion.names.join(', ')}`);
    if (!(failure.mach > 0 && failure.mach < 1))
      fault('mach', `Mach ${failure.mach} is outside 0 to 1: the flight after a failure is subsonic`);
    const { pressureAltitudesM: heights } = failure;
    if (heights.some((height, i) => i > 0 && !(height < heights[i - 1])))
      fault('altitudes', 'write the altitudes falling: the highest that can be held is flown');
  });
  checkUnstart(deck, faults);
}

function checkUnstart({ unstart, place }: Deck, faults: FaultSink): void {
  if (unstart === null) return;
  const fault = (key: string, message: string): void =>
    faults.add(place(['unstart', key]), `unstart.${key}`, message);
  if (!(unstart.thrustLeft >= 0 && unstart.thrustLeft < 1))
    fault('thrustLeft', `${unstart.thrustLeft} is outside 0 to 1`);
  if (!(unstart.dragIncrement >= 0)) fault('dragIncrement', 'an unstart does not lower the drag');
  if (!(unstart.restartMach >= 1)) fault('restartMach', 'an inlet starts above Mach 1');
}

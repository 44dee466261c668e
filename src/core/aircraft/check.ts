/**
 * Whether a deck is sane: what cannot be is a fault, what is unlikely a doubt, each with file and line.
 *
 * Faults: lift slope, drag or fuel flow not positive; drag that falls with lift; recovery outside 0 to 1; thrust or flow that
 * falls with the setting; thrust without flow; a warning at or above the push; limits that leave no room between them;
 * tables that do not reach as far as the limits they serve; a centre of gravity that no loading reaches; names that name
 * nothing. Doubts: L/D above Kuechemann's ceiling, recovery above MIL-E-5007, an unlikely specific fuel flow, design points
 * that the tables do not meet, loadings outside the CG limits, a deck that is superseded.
 */
import {
  checkDrag,
  checkInlet,
  checkLift,
  checkLiftToDrag,
  checkStall,
  checkTrim,
  checkWash,
} from './check-air.ts';
import { checkBalance, checkMasses } from './check-balance.ts';
import { checkDescent } from './check-descent.ts';
import { checkDesignPoints } from './check-design-points.ts';
import { checkFailures } from './check-failures.ts';
import { checkGround } from './check-ground.ts';
import { checkInletError } from './check-inlet-error.ts';
import { checkLimits } from './check-limits.ts';
import { checkField, checkPropulsion, checkSettings } from './check-power.ts';
import type { CompiledDeck, DeckGrids } from './compile.ts';
import type { Deck, FaultSink } from './deck.ts';
import { checkLightUp, checkRudder } from './rudder.ts';

/** Tells the faults and doubts of each part by itself; parts that could not be read are passed over. */
export function checkParts(deck: Deck, grids: DeckGrids, faults: FaultSink): void {
  checkIdentity(deck, faults);
  checkLift(grids.lift, faults);
  checkDrag(grids.drag, faults);
  checkStall(grids.stall, faults);
  checkWash(deck, faults);
  checkInlet(grids.inlet, faults);
  checkInletError(deck, grids.inletError, faults);
  checkSettings(deck, faults);
  checkPropulsion(deck, grids.propulsion, faults);
  checkLightUp(deck, faults);
  checkRudder(deck, grids.rudder, faults);
  checkField(grids, faults);
  checkGround(deck, faults);
  checkMasses(deck, faults);
}

/** Tells the faults and doubts that lie between the parts of a deck that is whole. */
export function checkWhole(deck: Deck, compiled: CompiledDeck, faults: FaultSink): void {
  checkTrim(compiled.grids.lift, compiled.grids.trim, faults);
  checkLiftToDrag(compiled.grids, faults);
  checkBalance(deck, compiled, faults);
  checkLimits(deck, compiled, faults);
  checkFailures(deck, compiled.aircraft, faults);
  checkDescent(deck, faults);
  checkDesignPoints(deck, compiled, faults);
}

function checkIdentity(deck: Deck, faults: FaultSink): void {
  if (deck.supersededBy !== null) {
    const message = `this edition is superseded by ${deck.supersededBy}`;
    faults.doubt(deck.place(['supersededBy']), 'supersededBy', message);
  }
  const { rates, gauges, wing, pusher } = deck;
  if (!(wing.areaM2 > 0))
    faults.add(deck.place(['wing', 'area']), 'wing.area', 'the wing area must be above 0');
  const positive = [
    ['onset', rates.onsetPerS],
    ['roll', rates.rollRadPerS],
  ] as const;
  for (const [key, value] of positive) {
    if (!(value > 0)) faults.add(deck.place(['rates', key]), `rates.${key}`, 'must be above 0');
  }
  if (pusher !== null && !(pusher.loadFactor < 1 && pusher.holdS >= 0)) {
    const message = 'a pusher lowers the load factor below 1 g, for a time not below 0';
    faults.add(deck.place(['pusher']), 'pusher', message);
  }
  if (gauges.inletTemperatureLagS < 0) {
    const path = 'gauges.inletTemperatureLag';
    faults.add(deck.place(['gauges', 'inletTemperatureLag']), path, 'cannot be negative');
  }
  if (gauges.inletTemperatureRecovery < 0.9) {
    const message = `a probe recovery of ${gauges.inletTemperatureRecovery} is unlikely: 0.95 to 1 is usual`;
    faults.doubt(
      deck.place(['gauges', 'inletTemperatureRecovery']),
      'gauges.inletTemperatureRecovery',
      message,
    );
  }
}

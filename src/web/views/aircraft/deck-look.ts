/** What the view of the aircraft asks of the planner's worker: a deck, its check, and its curves at one point. */

import type { Aircraft } from '../../../core/aircraft/aircraft.ts';
import { type Curves, type CurvesAt, curvesOf } from '../../../core/aircraft/curves.ts';
import type { Deck } from '../../../core/aircraft/deck.ts';
import { OutsideRange } from '../../../core/quantities/errors.ts';
import { type DeckReport, inspectDeck } from '../../../files/deck.ts';
import { deckFolder } from '../../../files/deck-folder.ts';
import type { Fault } from '../../../files/faults.ts';
import type { DeckFacts } from '../../../present/deck.ts';

export interface DeckLook {
  /** Faults and doubts, in the order of the files. */
  readonly check: readonly Fault[];
  /** null where there are faults. */
  readonly facts: DeckFacts | null;
  readonly curves: Curves | null;
  /** Why there are no curves of a deck that is sound; empty where there are. */
  readonly refused: string;
}

/** Height at which a deck is first looked at: 50 000 ft. */
const usualAltitudeM = 15_240;

/** Looks at a deck; what `at` leaves out, or what the deck has not, is the most there is. `kept` holds decks that were read before. */
export function lookAtDeck(
  folder: string,
  name: string,
  at: Partial<CurvesAt>,
  kept: Map<string, DeckReport>,
): DeckLook {
  const report = kept.get(folder) ?? inspectDeck(deckFolder(folder, name));
  kept.set(folder, report);
  const { loaded, faults } = report;
  if (loaded === null) return { check: faults.list, facts: null, curves: null, refused: '' };
  const { deck, aircraft } = loaded;
  const facts = factsOf(deck, aircraft);
  const most = { power: aircraft.propulsion.maximum, fuelKg: aircraft.balance.fuelCapacityKg };
  const point: CurvesAt = {
    pressureAltitudeM: at.pressureAltitudeM ?? usualAltitudeM,
    temperatureOffsetK: at.temperatureOffsetK ?? 0,
    power: Math.min(at.power ?? most.power, most.power),
    fuelKg: Math.min(at.fuelKg ?? most.fuelKg, most.fuelKg),
  };
  try {
    return { check: faults.list, facts, curves: curvesOf(deck, aircraft, point), refused: '' };
  } catch (error) {
    if (!(error instanceof OutsideRange)) throw error;
    return { check: faults.list, facts, curves: null, refused: error.message };
  }
}

function factsOf(deck: Deck, aircraft: Aircraft): DeckFacts {
  const { identity, crew, supersededBy, wing, masses, tanks, fuel, gauges, references } = deck;
  return {
    identity,
    crew,
    supersededBy,
    wing,
    masses,
    tanks,
    fuel,
    gauges,
    references,
    engines: aircraft.propulsion.engines.map((engine) => engine.name),
    settings: aircraft.propulsion.names,
    covers: aircraft.covers,
    fuelCapacityKg: aircraft.balance.fuelCapacityKg,
  };
}

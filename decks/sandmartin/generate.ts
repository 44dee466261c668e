/** Writes the generated tables of Sandmartin beside this script and prints its design points: `npx tsx decks/sandmartin/generate.ts`. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Aircraft } from '../../src/core/aircraft/aircraft.ts';
import { designPointForces } from '../../src/core/aircraft/check-design-points.ts';
import type { DesignPoint } from '../../src/core/aircraft/deck.ts';
import { loadDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';
import { faultText } from '../../src/files/faults.ts';
import { sandmartinTables } from './generator/tables.ts';

const foot = 0.3048;
const degree = Math.PI / 180;

for (const [name, text] of sandmartinTables()) {
  writeFileSync(join(import.meta.dirname, name), text);
  console.log(`${name}: ${text.length} bytes`);
}

/** Lift, drag, thrust, L/D against 4(M+3)/M, and specific fuel flow with thrust = drag where the engines can. */
function describe(aircraft: Aircraft, point: DesignPoint): string {
  const found = designPointForces(aircraft, point);
  const engines = aircraft.propulsion.engines.length;
  const engine = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
  const { mach, pressureAltitudeM: altitude, temperatureOffsetK: offset } = point;
  aircraft.propulsion.powerFor(found.dragN / engines, mach, altitude, altitude, offset, engine);
  const lift = found.liftCoefficient * found.dynamicPressurePa * aircraft.aerodynamics.wingAreaM2;
  const atSettings = (1e6 * found.fuelFlowKgS) / found.thrustN;
  const level = Number.isNaN(engine.power)
    ? 'level: not with equal power'
    : `level: power ${engine.power.toFixed(2)}, ${((1e6 * engine.fuelFlowKgS) / engine.thrustN).toFixed(1)} g/(kN s)`;
  return [
    point.name,
    `  Mach ${mach}, ${(altitude / foot).toFixed(0)} ft, ${point.massKg} kg, ${point.settings.join(' + ')}${point.inWash ? ', in the wash' : ''}`,
    `  lift ${(lift / 1e3).toFixed(1)} kN, drag ${(found.dragN / 1e3).toFixed(1)} kN, thrust ${(found.thrustN / 1e3).toFixed(1)} kN, excess ${(100 * found.excess).toFixed(2)} % of weight`,
    `  CL ${found.liftCoefficient.toFixed(4)}, alpha ${(found.angleOfAttackRad / degree).toFixed(2)} deg, L/D ${(lift / found.dragN).toFixed(2)} (4(M+3)/M ${((4 * (mach + 3)) / mach).toFixed(2)})`,
    `  specific fuel flow ${atSettings.toFixed(1)} g/(kN s); ${level}`,
  ].join('\n');
}

const { aircraft, deck, doubts } = loadDeck(deckFolder(import.meta.dirname, 'decks/sandmartin'));
for (const point of deck.designPoints) console.log(describe(aircraft, point));
for (const doubt of doubts) console.log(faultText(doubt));

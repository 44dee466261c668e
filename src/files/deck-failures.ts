/** Failures and the unstart as deck.yaml has them. */
import { z } from 'zod';
import type { FailureData } from '../core/aircraft/deck.ts';
import { FAILURE_KEYS, type Unstart } from '../core/aircraft/failures.ts';
import { quantityText } from './yaml.ts';

const words = z.string({ error: 'write words here' }).min(1, { error: 'must not be empty' });

export const failureSchema = z.strictObject({
  key: z
    .enum(FAILURE_KEYS, { error: `write one of ${FAILURE_KEYS.join(', ')}` })
    .describe('The failure; none is the whole aircraft, turned away from its plan.'),
  name: words.max(24, { error: 'has more than 24 characters: it heads a card' }),
  dragIncrement: quantityText('dragCoefficient').default(0).describe('Added to the drag coefficient.'),
  dragSpread: quantityText('dragCoefficient').default(0).describe('One standard deviation of it.'),
  enginesLeft: z.int().positive().optional().describe('Engines that still run; left out: all.'),
  greatestPower: words.optional().describe('Greatest setting; left out: all of them.'),
  thrustFactor: quantityText('fraction').default(1),
  fuelFlowFactor: quantityText('fraction').default(1),
  mach: quantityText('mach').describe('Mach flown to where the aircraft can still go.'),
  altitudes: z
    .array(quantityText('pressureAltitudeM'))
    .min(1, { error: 'write an altitude' })
    .describe('Falling; the highest that can be held is flown.'),
  bank: quantityText('bankDeg').describe('Of the turn away.'),
  climb: quantityText('calibratedAirspeedMS'),
  descent: quantityText('equivalentAirspeedMS'),
  refuels: z.boolean().default(true).describe('Whether it can still take fuel.'),
  source: words,
});

export const unstartSchema = z.strictObject({
  from: quantityText('mach').describe('It happens above this Mach.'),
  thrustLeft: quantityText('fraction').describe('Of thrust and fuel flow of the engine on that side.'),
  dragIncrement: quantityText('dragCoefficient').describe('Of the spilling inlet.'),
  dragSpread: quantityText('dragCoefficient').default(0).describe('One standard deviation of it.'),
  arm: quantityText('armM').describe('Of that drag, from the centre line.'),
  restart: z.strictObject({
    mach: quantityText('mach').describe('The inlet starts again at this Mach or below,'),
    altitude: quantityText('pressureAltitudeM').describe('at this altitude or below,'),
    time: quantityText('durationS').describe('after this time there.'),
  }),
  source: words,
});

export function failureOf(data: z.output<typeof failureSchema>): FailureData {
  return {
    key: data.key,
    name: data.name,
    dragIncrement: data.dragIncrement,
    dragSpread: data.dragSpread,
    enginesLeft: data.enginesLeft ?? null,
    greatestPower: data.greatestPower ?? null,
    thrustFactor: data.thrustFactor,
    fuelFlowFactor: data.fuelFlowFactor,
    mach: data.mach,
    pressureAltitudesM: data.altitudes,
    bankRad: data.bank,
    climbCalibratedAirspeedMS: data.climb,
    descentEquivalentAirspeedMS: data.descent,
    refuels: data.refuels,
    source: data.source,
  };
}

export function unstartOf({ restart, ...data }: z.output<typeof unstartSchema>): Unstart {
  return {
    fromMach: data.from,
    thrustLeft: data.thrustLeft,
    dragIncrement: data.dragIncrement,
    dragSpread: data.dragSpread,
    armM: data.arm,
    restartMach: restart.mach,
    restartPressureAltitudeM: restart.altitude,
    restartS: restart.time,
    source: data.source,
  };
}

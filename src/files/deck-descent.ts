/** Rules of descent and the cabin as deck.yaml has them. */
import { z } from 'zod';
import { type Cabin, DESCENT_SYSTEMS, type DescentRule } from '../core/aircraft/descent.ts';
import { quantityText } from './yaml.ts';

const words = z.string({ error: 'write words here' }).min(1, { error: 'must not be empty' });

export const descentRuleSchema = z.strictObject({
  of: z
    .enum(DESCENT_SYSTEMS, { error: `write one of ${DESCENT_SYSTEMS.join(', ')}` })
    .describe('The system for the sake of which the rule is there.'),
  aboveMach: quantityText('mach').optional().describe('It holds above this Mach,'),
  aboveAltitude: quantityText('pressureAltitudeM').optional().describe('or above this altitude.'),
  setting: words.describe('The power in a descent is at this setting or above it.'),
  source: words,
});

export const cabinSchema = z.strictObject({
  outside: z.array(quantityText('pressureAltitudeM')).min(2, { error: 'write two altitudes or more' }),
  inside: z.array(quantityText('pressureAltitudeM')).describe('The altitude of the cabin at each of them.'),
  rate: quantityText('climbRateMS').optional().describe('The fastest that the cabin may come down.'),
});

export function descentRuleOf(data: z.output<typeof descentRuleSchema>): DescentRule<string> {
  const { of, aboveMach, aboveAltitude, setting, source } = data;
  return { of, aboveMach: aboveMach ?? null, abovePressureAltitudeM: aboveAltitude ?? null, setting, source };
}

export function cabinOf({ outside, inside, rate }: z.output<typeof cabinSchema>): Cabin {
  return { outsideM: outside, insideM: inside, greatestRateMS: rate ?? null };
}

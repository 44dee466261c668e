/** The schema of deck.yaml: what it may say, in which units, and the JSON Schema that editors complete it from. */
import { z } from 'zod';
import { boundedQuantities, spreadQuantity } from '../core/aircraft/limits.ts';
import { quantities, quantity } from '../core/quantities/quantities.ts';
import { readQuantity, unitNames } from '../core/quantities/values.ts';
import { checkRule } from './check-rules.ts';
import { cabinSchema, descentRuleSchema } from './deck-descent.ts';
import { failureSchema, unstartSchema } from './deck-failures.ts';
import { columnsOfFlight } from './deck-tables.ts';
import { quantityText } from './yaml.ts';

const words = z.string({ error: 'write words here' }).min(1, { error: 'must not be empty' });
const tableFile = words.regex(/^[\w-]+(?:\/[\w-]+)*\.csv$/, {
  error: 'write the name of a CSV table inside the deck, such as lift.csv',
});

const bound = z.union([
  words,
  z.number(),
  z.strictObject({
    table: tableFile.describe('A table whose axes are what the bound depends on.'),
    column: words
      .optional()
      .describe('The column of the bound; the name of the quantity where it is left out.'),
  }),
]);

const limit = z
  .strictObject({
    key: words.regex(/^[a-z][A-Za-z0-9]*$/, { error: 'a key is a name such as inletTemperature' }),
    name: words,
    of: z
      .enum(Object.keys(boundedQuantities) as [string, ...string[]])
      .describe('The quantity that is bounded.'),
    upper: bound.optional(),
    lower: bound.optional(),
    rolling: bound.optional().describe('The bound while rolling, where it differs.'),
    spread: words.optional().describe('One standard deviation of the bound.'),
  })
  .superRefine((value, context) => {
    if ((value.upper === undefined) === (value.lower === undefined)) {
      context.addIssue({ code: 'custom', message: 'a limit has either "upper" or "lower"' });
    }
    const key = boundedQuantities[value.of].quantity;
    for (const field of ['upper', 'lower', 'rolling', 'spread'] as const) {
      const text = value[field];
      if (text === undefined || typeof text === 'object') continue;
      try {
        readQuantity(String(text), field === 'spread' ? spreadQuantity(value.of) : key);
      } catch (error) {
        context.addIssue({ code: 'custom', path: [field], message: (error as Error).message });
      }
    }
  });

const key = words.regex(/^[a-z][A-Za-z0-9]*$/, { error: 'a key is a name such as nozzle' });

const schedule = z
  .strictObject({
    key,
    name: words.max(20, { error: 'has more than 20 characters: it heads a column of a card' }),
    of: z
      .enum(['engine', 'side'], { error: 'write engine or side' })
      .describe('Of each engine, in the table of propulsion, or of the inlet on each side, in its table.'),
    column: key.describe('The column of that table.'),
    quantity: z
      .enum([...quantities.keys()] as [string, ...string[]], { error: 'unknown quantity' })
      .describe('What the column holds, such as fraction or angleDeg; its unit stands in its header.'),
    starts: quantityText('mach')
      .optional()
      .describe(
        "Mach at which the inlet's part begins to move. Left out: where the column leaves its first value.",
      ),
  })
  .superRefine(({ of, column, starts }, context) => {
    if (columnsOfFlight(of).includes(column)) {
      const message = `column ${column} is no scheduled position`;
      context.addIssue({ code: 'custom', path: ['column'], message });
    }
    if (of === 'engine' && starts !== undefined) {
      context.addIssue({ code: 'custom', path: ['starts'], message: '"starts" goes with "of: side"' });
    }
  });

/** Units of the aircraft's own gauges, by quantity. */
const gaugeUnits = z
  .partialRecord(
    z.enum([...quantities.keys()] as [string, ...string[]], { error: 'unknown quantity' }),
    z.string({ error: 'write the name of a unit' }),
  )
  .superRefine((units, context) => {
    for (const [key, unit] of Object.entries(units)) {
      const allowed = unitNames(quantity(key));
      if (unit === undefined || allowed.includes(unit)) continue;
      context.addIssue({
        code: 'custom',
        path: [key],
        message: `"${unit}" is none of ${allowed.join(', ')}`,
      });
    }
  })
  .transform((units) => units as Readonly<Record<string, string>>);

/** deck.yaml as written; values come out in SI. */
export const deckSchema = z.strictObject({
  format: z.literal('ramrise-deck', { error: 'format must be ramrise-deck' }),
  version: z.literal(1, { error: 'version must be 1: this program reads no other' }),
  name: words,
  edition: words,
  basis: z.enum(['notional', 'measured'], { error: 'basis is notional or measured' }),
  source: words.describe('Where the numbers come from.'),
  tails: z.array(words).describe('The aircraft for which the deck is valid; none named is all.'),
  supersededBy: words.optional().describe('The edition that replaces this one.'),
  crew: z.int().positive().optional(),
  wing: z.strictObject({
    area: quantityText('areaM2'),
    meanChord: quantityText('lengthM').optional(),
    leadingEdgeArm: quantityText('armM').optional().describe('Arm of the leading edge of the mean chord.'),
  }),
  masses: z.array(z.strictObject({ item: words, mass: quantityText('massKg'), arm: quantityText('armM') })),
  tanks: z.array(
    z.strictObject({
      name: words,
      capacity: quantityText('massKg'),
      unusable: quantityText('massKg'),
      volume: quantityText('volumeM3')
        .optional()
        .describe('Of the whole tank; what warm fuel fills before the capacity by mass is reached.'),
      arm: quantityText('armM'),
      order: z.int().positive().describe('Order of use: 1 is emptied first and filled last.'),
    }),
  ),
  transfers: z
    .array(
      z.strictObject({
        from: words.describe('Name of a tank.'),
        to: words.describe('Name of a tank.'),
        mass: quantityText('fuelKg').describe('What has been moved at the Mach where it ends.'),
        begins: quantityText('mach').describe('Mach above which fuel is moved, in proportion up to the end.'),
        ends: quantityText('mach'),
        rate: quantityText('fuelRateKgS').optional().describe('Of the pump.'),
      }),
    )
    .default([])
    .describe('Fuel moved from tank to tank as Mach rises, and back as it falls; the first goes first.'),
  dump: z
    .strictObject({
      rate: quantityText('fuelRateKgS'),
      least: quantityText('fuelKg').describe('What cannot be dumped.'),
    })
    .optional()
    .describe('Left out: fuel cannot be dumped.'),
  fuel: z
    .strictObject({
      grade: words.describe('The fuel that the aircraft is made for.'),
      density: quantityText('fuelDensityKgM3').describe('Usual density at 15 degC.'),
      lightest: quantityText('fuelDensityKgM3').describe('Least density at 15 degC that the grade allows.'),
      heaviest: quantityText('fuelDensityKgM3').describe(
        'Greatest density at 15 degC that the grade allows.',
      ),
      expansionSpace: quantityText('fraction')
        .default(0)
        .describe('Part of the volume of each tank that is left empty for the fuel to expand.'),
      alsoBurns: z
        .array(words)
        .default([])
        .describe('Other grades that the aircraft may burn, as tankers name them.'),
    })
    .optional()
    .describe('Left out, the density of the day is not worked out and tanks are full by mass.'),
  aerodynamics: z.strictObject({
    lift: tableFile,
    drag: tableFile,
    trim: tableFile.optional(),
    stall: tableFile.optional(),
    wash: z
      .strictObject({
        dragIncrement: quantityText('dragCoefficient'),
        spread: quantityText('dragCoefficient'),
      })
      .optional(),
  }),
  propulsion: z.strictObject({
    table: tableFile,
    settings: z
      .array(z.strictObject({ name: words, continuousAbove: z.boolean() }))
      .min(2, { error: 'an engine needs two settings' }),
    military: words,
    minimumAfterburner: words.optional(),
    descent: words.describe('Lowest setting allowed in a supersonic descent.'),
    lightUp: z
      .strictObject({
        lag: quantityText('durationS').describe('From an afterburner selected to its least thrust.'),
        spread: quantityText('durationS').describe('One standard deviation of the lag.'),
        spool: quantityText('durationS').describe('Time constant of a dry engine whose throttle is moved.'),
        reaction: quantityText('durationS').describe('From what the crew feels to a throttle moved.'),
      })
      .optional()
      .describe('How an afterburner lights; left out, lighting one in contact is not computed.'),
    engines: z
      .array(z.strictObject({ name: words, arm: quantityText('armM') }))
      .min(1, { error: 'an aircraft needs an engine' }),
  }),
  rudder: z
    .strictObject({
      table: tableFile.describe('Mach; momentSlope, yawing moment by angle; limit, how far it goes.'),
      span: quantityText('lengthM').describe('On which, with the wing area, the moments are reckoned.'),
    })
    .optional()
    .describe('Left out: the rudder against unlike thrust is not computed.'),
  inlet: tableFile.optional(),
  inletError: z
    .strictObject({
      schedule: words.describe('Key of the schedule of a side from which the error counts.'),
      table: tableFile,
    })
    .optional()
    .describe("What an inlet's moving part beside its schedule costs; left out, that is not computed."),
  schedules: z
    .array(schedule)
    .default([])
    .describe('Positions that the aircraft sets by itself, to be checked.'),
  checks: z.array(checkRule).default([]).describe('Tolerances and actions of the checks.'),
  limits: z.array(limit),
  rates: z
    .strictObject({
      onset: quantityText('onsetPerS').describe('Build-up of load factor.'),
      roll: quantityText('rollRateDegS'),
      angleOfAttackLag: quantityText('durationS'),
      warningLead: quantityText('durationS'),
    })
    .optional()
    .describe('Left out: load factor, bank and angle of attack change at once.'),
  pusher: z
    .strictObject({
      loadFactor: quantityText('loadFactor').describe('To which the stick pusher lowers the load factor.'),
      hold: quantityText('durationS').describe('How long it holds that before the crew can pull.'),
    })
    .optional()
    .describe(
      'What the pusher does. Left out: the height that a push costs is computed where the sortie says it.',
    ),
  gauges: z
    .strictObject({
      inletTemperatureRecovery: quantityText('recovery'),
      inletTemperatureLag: quantityText('durationS')
        .optional()
        .describe('Time constant of the first-order lag of the same gauge. Left out: none.'),
      units: gaugeUnits,
    })
    .optional()
    .describe('Left out: gauges read true, in the usual units.'),
  takeOff: tableFile.optional(),
  ground: z
    .strictObject({
      angleOfAttack: quantityText('angleOfAttackDeg').describe('Angle of attack of the ground run.'),
      gearDrag: quantityText('dragCoefficient').describe('Drag of the gear, and of flaps for take-off.'),
      brakingDrag: quantityText('dragCoefficient')
        .default(0)
        .describe('Drag of what comes out with the brakes, such as a parachute.'),
      engineOutDrag: quantityText('dragCoefficient').describe(
        'Drag of an engine that has stopped and of holding the nose straight.',
      ),
      rollingFriction: quantityText('frictionCoefficient'),
      brakingFriction: z.strictObject({
        dry: quantityText('frictionCoefficient'),
        wet: quantityText('frictionCoefficient'),
      }),
      reaction: quantityText('durationS').describe('From the failure of an engine to full braking.'),
      climbOut: quantityText('fraction').describe('Speed of the climb-out over that of lift-off.'),
      minimumControlSpeed: quantityText('calibratedAirspeedMS')
        .optional()
        .describe('Least speed at which the rudder holds the aircraft on the runway with an engine lost.'),
      tyreSpeed: quantityText('groundSpeedMS').optional().describe('Greatest ground speed of the tyres.'),
      brakeEnergy: quantityText('brakeEnergyJ')
        .optional()
        .describe('Greatest work of the brakes in one stop.'),
    })
    .optional()
    .describe('Left out: decision speed, stopping and climb-out are not computed.'),
  landing: z
    .strictObject({
      approach: tableFile,
      groundRoll: tableFile,
      maximumMass: quantityText('massKg').optional().describe('Greatest mass on landing.'),
    })
    .optional(),
  failures: z
    .array(failureSchema)
    .default([])
    .describe('How the aircraft flies to where it can still go; left out, that is not computed.'),
  unstart: unstartSchema
    .optional()
    .describe("The loss of an inlet's started state; left out, what it costs is not computed."),
  descentRules: z
    .array(descentRuleSchema)
    .default([])
    .describe('What engines, inlets and cabin ask of the power in a descent, beside `propulsion.descent`.'),
  cabin: cabinSchema
    .optional()
    .describe('How the cabin follows the height; left out, what depends on it is not computed.'),
  designPoints: z
    .array(
      z.strictObject({
        name: words,
        mach: quantityText('mach'),
        altitude: quantityText('pressureAltitudeM'),
        temperatureOffset: quantityText('temperatureOffsetK'),
        mass: quantityText('massKg'),
        settings: z.array(words).min(1).describe('The setting of each engine.'),
        inWash: z.boolean().optional(),
        excess: quantityText('fraction').describe('(Thrust - drag)/weight as the maker states it.'),
        within: quantityText('fraction').describe('How far off the tables may be.'),
      }),
    )
    .optional(),
  references: z.array(words),
});

export type DeckYaml = z.output<typeof deckSchema>;

/** The JSON Schema (draft 2020-12) of deck.yaml. */
export function deckJsonSchema(): object {
  return z.toJSONSchema(deckSchema, { io: 'input' });
}

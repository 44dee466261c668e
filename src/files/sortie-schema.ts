/** The schema of a sortie file: what it may say, in which units, and the JSON Schema that editors complete it from. */
import { z } from 'zod';
import { nonStandardDays } from '../core/air/mil-std-210a.ts';
import { readPosition } from '../core/quantities/place.ts';
import { readTime } from '../core/quantities/time.ts';
import { checkRule, checkStep } from './check-rules.ts';
import { quantityText } from './yaml.ts';

const twoOrMore = { error: 'write two values or more' };
const words = z.string({ error: 'write words here' }).min(1, { error: 'must not be empty' });

/** A text that a function reads; its error is the fault. */
function readWith<T>(read: (text: string) => T, description: string) {
  return z
    .string({ error: `write ${description}` })
    .transform((text, context): T => {
      try {
        return read(text);
      } catch (error) {
        context.addIssue({ code: 'custom', message: (error as Error).message });
        return z.NEVER;
      }
    })
    .meta({ description });
}

const position = readWith((text) => readPosition(text), 'a position such as "45.5N 85.0W" or "45.5,-85"');
const time = readWith((text) => readTime(text), 'a UTC time such as 2026-03-04T16:00Z');
const mach = quantityText('mach');
const altitude = quantityText('pressureAltitudeM');
const eas = quantityText('equivalentAirspeedMS');
const cas = quantityText('calibratedAirspeedMS');
const fuel = quantityText('fuelKg');
const power = words.describe('A setting of the deck, such as military or maximumAfterburner.');
const optimumOr = z.union([z.literal('optimum'), altitude], {
  error: 'write optimum or a pressure altitude such as 72000 ft',
});

const climbStep = z.strictObject({
  power,
  calibratedAirspeed: cas.optional().describe('Speed of a climb at constant calibrated airspeed.'),
  equivalentAirspeed: eas.optional().describe('Speed of a climb at constant equivalent airspeed.'),
  bleed: z
    .strictObject({ above: mach, perMach: eas })
    .optional()
    .describe('Above this Mach the equivalent airspeed falls by so much for each Mach.'),
  mach: mach.describe('Mach at which constant speed gives way to constant Mach.'),
  to: optimumOr.describe("Level-off altitude, or the day's optimum for the cruise."),
  levelOff: quantityText('loadFactor').default(0.9).describe('Load factor of the level-off.'),
});

const pushoverStep = z.strictObject({
  power,
  mach: mach.describe('Mach to which the aircraft accelerates level before it pushes.'),
  push: quantityText('loadFactor').describe('Load factor of the push.'),
  angle: quantityText('pathAngleDeg').describe('Path angle held in the dive, negative.'),
  pull: quantityText('loadFactor').describe('Load factor of the pull-out.'),
  bottom: altitude.describe('Pressure altitude at which the aircraft is level again.'),
});

const cruiseStep = z.strictObject({ mach, altitude: optimumOr });

const descendStep = z.strictObject({
  power: power.optional().describe('Default: the lowest descent setting of the deck.'),
  equivalentAirspeed: eas,
  level: quantityText('distanceM').default(10_000).describe('Level stretch kept before the end of the leg.'),
});

/** A step is a map with one key that names it. */
const step = z.union(
  [
    z.strictObject({ climb: climbStep }),
    z.strictObject({ pushover: pushoverStep }),
    z.strictObject({ cruise: cruiseStep }),
    z.strictObject({ descend: descendStep }),
  ],
  { error: 'a step is climb, pushover, cruise or descend' },
);

const weather = z.union(
  [
    z.strictObject({
      day: z
        .enum(['standard', ...nonStandardDays], { error: 'write standard, hot, cold, tropical or polar' })
        .describe('The standard day, or a day of MIL-STD-210A; on hot and cold no sortie can be planned.'),
    }),
    z.strictObject({
      offset: quantityText('temperatureOffsetK').describe('Constant difference from the standard day.'),
    }),
    z.strictObject({
      file: words.describe('A gridded analysis or forecast, or soundings, beside the sortie.'),
      sounding: time
        .optional()
        .describe('Which sounding of the file; it holds everywhere and always, and that is printed.'),
      title: words
        .optional()
        .describe('What the file is, such as "ERA5 analysis"; its name where it is left out.'),
      time: z.literal('hold').optional().describe('A file with one time stands for the whole sortie.'),
      maximumGap: quantityText('durationS')
        .optional()
        .describe(
          'Between times further apart there is no weather; the step of the file, 3 h to 6 h, if left out.',
        ),
      member: z.int().optional().describe('Number of the member, where the file is an ensemble.'),
      top: z
        .literal('holdOffset')
        .optional()
        .describe('Above the file its highest temperature offset is held.'),
      bottom: z
        .literal('holdOffset')
        .optional()
        .describe('Below the file its lowest temperature offset is held.'),
      temperatureOffset: quantityText('temperatureOffsetK')
        .refine((kelvin) => Math.abs(kelvin) <= 30, { error: 'must be -30 K to 30 K' })
        .default(0)
        .describe('Added to every temperature of the file, to see what a warmer or colder day would cost.'),
      standsFor: words.optional().describe('What the weather stands for where it is not that of the date.'),
    }),
  ],
  { error: 'weather is { day: standard } or another day, { offset: ... } or { file: ... }' },
);

const worstCase = z.strictObject({
  divert: words.describe('Name of a base.'),
  mach,
  altitude,
  climb: cas,
  descent: eas,
});

const leg = z.strictObject({
  name: words,
  through: z
    .array(z.strictObject({ name: words, at: position, bank: quantityText('bankDeg') }))
    .default([])
    .describe('Waypoints, each turned before, with its bank.'),
  fly: z.array(step).min(1, { error: 'a leg flies at least one step' }).describe('What is flown, in order.'),
  refuel: z
    .strictObject({
      tanker: words,
      take: z.union([z.literal('full'), fuel], { error: 'write full or a mass such as 20000 kg' }),
      noContact: worstCase.describe('What fuel required at the contact must cover when no fuel comes.'),
    })
    .optional(),
  land: words.optional().describe('Name of the base where the leg ends.'),
});

const runway = z
  .strictObject({
    name: words,
    course: quantityText('courseDeg').describe('True course in the direction of take-off and landing.'),
    length: quantityText('lengthM'),
    slope: quantityText('fraction').default(0).describe('Rise over run, positive uphill, such as 0.4 %.'),
    condition: z.enum(['dry', 'wet'], { error: 'write dry or wet' }).default('dry'),
  })
  .describe('Left out: distances are not held against a runway.');

const manoeuvres = z.strictObject({
  loadFactors: z
    .array(quantityText('loadFactor'))
    .prefault(['1.2 g', '1.4 g'])
    .describe('Load factors at which the speeds to warning and push are worked out.'),
  banks: z
    .array(quantityText('bankDeg'))
    .prefault(['30 deg', '40 deg'])
    .describe('Banks of level turns for the same.'),
  push: z
    .strictObject({ loadFactor: quantityText('loadFactor'), hold: quantityText('durationS') })
    .optional()
    .describe('What the stick pusher does; as the deck says if left out.'),
  clearance: quantityText('lengthM')
    .default(0)
    .describe('Height kept between the bottom of a recovery from a push and the ground.'),
  heldTo: z
    .array(
      z.strictObject({
        fuelFrom: fuel.describe('Fuel on board from which on it holds.'),
        loadFactor: quantityText('loadFactor'),
        source: words.describe('Who says so; printed with it.'),
      }),
    )
    .default([])
    .describe('Load factors that are not passed, whatever the structure takes.'),
});

const crew = z.strictObject({
  duty: z
    .strictObject({
      reports: time.describe('When duty begins.'),
      most: quantityText('durationS').describe('Longest duty.'),
      afterLanding: quantityText('durationS').default(0).describe('From landing to the end of duty.'),
    })
    .optional(),
  prebreathe: z
    .union(
      [
        quantityText('durationS'),
        z.array(
          z.strictObject({
            above: quantityText('pressureAltitudeM').describe('Above this altitude of the cabin'),
            time: quantityText('durationS').describe('so much before take-off.'),
          }),
        ),
      ],
      { error: 'write a time such as 45 min, or a list of { above, time }' },
    )
    .optional()
    .describe("Oxygen breathed before take-off, by the operator's table."),
  oxygen: z
    .strictObject({
      from: time.optional().describe('When the crew goes on it; as late as prebreathing allows if left out.'),
      lasts: quantityText('durationS').describe('From then on, all of it.'),
      reserve: quantityText('durationS').default(0).describe('Left on landing.'),
    })
    .optional(),
});

/** A sortie file as written; values come out in SI and radians. */
export const sortieSchema = z.strictObject({
  format: z.literal('ramrise-sortie', { error: 'format must be ramrise-sortie' }),
  version: z.literal(1, { error: 'version must be 1: this program reads no other' }),
  title: words,
  invented: z.boolean().default(false).describe('Places and data are invented.'),
  aircraft: z.strictObject({
    deck: words.describe('Folder of the deck, beside the sortie.'),
    tail: words,
    fuel,
    fuelTemperature: quantityText('fuelTemperatureK')
      .optional()
      .describe('Of all fuel, on board and in the tankers: with it the tanks are full by volume as well.'),
    fuelDensity: quantityText('fuelDensityKgM3')
      .optional()
      .describe("Measured at that temperature; the deck's usual density if left out."),
  }),
  weather,
  takeOff: z.strictObject({
    base: words,
    time,
    from: time.describe('Earliest take-off for which the cards hold.'),
    to: time.describe('Latest take-off for which the cards hold.'),
    wind: z
      .strictObject({
        from: quantityText('courseDeg').describe('True direction from which it comes.'),
        speed: quantityText('windSpeedMS'),
      })
      .optional()
      .describe('Wind at the runway; that of the weather if left out.'),
  }),
  bases: z.array(
    z.strictObject({
      name: words,
      at: position,
      elevation: quantityText('geometricHeightM'),
      runway: runway.optional(),
    }),
  ),
  tankers: z.array(
    z.strictObject({
      name: words,
      at: position.describe('Contact point.'),
      course: quantityText('courseDeg').describe('True course of the refuelling track from there.'),
      bank: quantityText('bankDeg').describe('Bank of the turns onto and off the track.'),
      altitude,
      calibratedAirspeed: cas,
      maximumMach: mach,
      maximumCalibratedAirspeed: cas.optional().describe('Left out: the Mach limit alone is checked.'),
      waivers: z
        .array(
          z.strictObject({
            of: z.enum(['maximumMach', 'maximumCalibratedAirspeed'], {
              error: 'write maximumMach or maximumCalibratedAirspeed',
            }),
            value: words.describe('The value in its place, with its unit.'),
            by: words.describe('Who gave it.'),
            for: words.describe('For what.'),
            until: time,
          }),
        )
        .default([])
        .describe('Each moves its own limit and no other.'),
      envelope: z
        .strictObject({
          fore: quantityText('lengthM').describe('From the middle forward.'),
          aft: quantityText('lengthM').describe('From the middle aft.'),
          closure: quantityText('windSpeedMS').describe('Greatest speed forward or aft.'),
        })
        .optional()
        .describe('In which the receiver stays in contact.'),
      offload: fuel
        .optional()
        .describe('What it has to give, of the grade that the deck names; or "fuels" where it has several.'),
      fuels: z
        .array(z.strictObject({ grade: words, offload: fuel }))
        .min(1, { error: 'name one grade at least' })
        .optional()
        .describe('What it has to give by grade, kept apart: a receiver is offered only what it may burn.'),
      ownFuel: fuel.optional().describe('For its own engines: counted, never given.'),
      flight: z
        .strictObject({
          from: time.describe('On station, at the contact point, from then on.'),
          burn: quantityText('fuelRateKgS').describe('Of its own fuel there, waiting and in contact.'),
          home: words.describe('Name of the base to which it goes after its last contact,'),
          trueAirspeed: quantityText('trueAirspeedMS').describe(
            'at this speed and the height of the contact,',
          ),
          homeBurn: quantityText('fuelRateKgS').describe('with this burn.'),
          reserve: fuel.describe('Of its own fuel on landing.'),
        })
        .optional()
        .describe('How the tanker itself flies; left out, its own fuel is not planned.'),
      emptyMass: quantityText('massKg').optional(),
      payload: quantityText('massKg').default(0),
      maximumMass: quantityText('massKg').optional().describe('Of the tanker with all that it carries.'),
      rate: quantityText('fuelRateKgS'),
    }),
  ),
  areas: z
    .strictObject({
      file: words.describe('GeoJSON with the areas to keep out of, beside the sortie.'),
      halfWidth: quantityText('distanceM').default(0).describe('The track counts as so wide to each side.'),
    })
    .optional(),
  legs: z.array(leg).min(1, { error: 'a sortie has at least one leg' }),
  reserves: z.strictObject({
    landing: fuel.describe('Left on landing.'),
    approach: z
      .strictObject({ fuel, time: quantityText('durationS') }, { error: 'write { fuel, time }' })
      .describe('From the end of a descent to the runway.'),
  }),
  checks: z
    .array(checkRule)
    .default([])
    .describe('Tolerances and actions of checks, before those of the deck.'),
  checklist: z.array(checkStep).default([]).describe("The crew's own steps, printed between the checks."),
  manoeuvres: manoeuvres
    .prefault({})
    .describe('What the crew asks of its manoeuvres, beside the limits of the deck.'),
  crew: crew.optional().describe('What keeps the time of the crew: duty, prebreathing, oxygen.'),
  pads: z.record(words, words).default({}).describe('Margin kept below a limit, by the key of the limit.'),
  ladder: z.strictObject({ every: quantityText('durationS') }).default({ every: 600 }),
  altitudeGrid: z.strictObject({
    fuel: z.array(fuel).min(2, twoOrMore),
    temperatureOffset: z.array(quantityText('temperatureOffsetK')).min(2, twoOrMore),
  }),
});

export type SortieFile = z.output<typeof sortieSchema>;

/** The JSON Schema (draft 2020-12) of a sortie file as it is written. */
export function sortieJsonSchema(): object {
  return z.toJSONSchema(sortieSchema, { io: 'input', unrepresentable: 'any' });
}

/** Every fault of a deck at once, each with file and line. */
import { describe, expect, it } from 'vitest';
import { newLimitInputs } from '../../src/core/aircraft/limits.ts';
import { type DeckSource, inspectDeck, loadDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';
import { FileFaults, faultText } from '../../src/files/faults.ts';

/** The benchmark deck with some of its files replaced, or edited by a function. */
function changed(files: Readonly<Record<string, string | null | ((text: string) => string)>>): DeckSource {
  const folder = deckFolder('decks/benchmark-interceptor', 'deck');
  return {
    name: 'deck',
    read(file) {
      const change = files[file];
      if (change === undefined) return folder.read(file);
      return typeof change === 'function' ? change(folder.read(file) ?? '') : change;
    },
  };
}

function faultsOf(source: DeckSource): string[] {
  return inspectDeck(source).faults.faults.map(faultText);
}

describe('a deck with faults', () => {
  it('[DECK-1] tells all faults of its parts at once, by file and line', () => {
    const { loaded, faults } = inspectDeck(deckFolder('test/files/faulty-deck', 'faulty'));
    expect(loaded).toBeNull();
    expect(faults.faults.map(faultText)).toEqual([
      'faulty/lift.csv:3: liftSlope: a lift slope of -3.4 cannot be: it must be above 0',
      'faulty/lift.csv:4: dragDueToLift: drag due to lift of 0 cannot be: it must be above 0',
      'faulty/drag.csv:3: zeroLiftDrag: a drag coefficient of -0.02 cannot be: it must be above 0',
      'faulty/stall.csv:3: pushAngle: the pusher must act at a greater angle than the warning',
      'faulty/deck.yaml:19:26: aerodynamics.wash.dragIncrement: cannot be negative',
      'faulty/inlet.csv:3: recovery: a pressure recovery of 1.02 cannot be: above 0 to 1',
      'faulty/deck.yaml:26:12: propulsion.descent: "slow" is none of idle, military',
      'faulty/propulsion.csv:4: fuelFlow: 3000 N of thrust without fuel flow cannot be',
      'faulty/propulsion.csv:6: thrust: thrust falls from 2000 to 1500 N with a higher setting',
      'faulty/deck.yaml:14:48: tanks.0.unusable: unusable fuel must be 0 to the capacity, 2000 kg',
      'faulty/deck.yaml:37:5: limits.5: no loading has its centre of gravity within the limits at Mach 0: tanks reach 350.0 to 350.0 %',
      'faulty/deck.yaml:33:12: limits.1.key: the key mach is there twice',
      'faulty/deck.yaml:36:5: limits.4: at Mach 0 there is no equivalent airspeed between slow (faulty/deck.yaml:35) and fast',
      'faulty/lift.csv: mach: the table has Mach 0 to 2; the Mach limit needs Mach 0.3 to 2.5',
      'faulty/drag.csv: mach: the table has Mach 0 to 2; the Mach limit needs Mach 0.3 to 2.5',
      'faulty/stall.csv: mach: the table has Mach 0 to 2; the Mach limit needs Mach 0.3 to 2.5',
      'faulty/propulsion.csv: mach: the table has Mach 0 to 2; the Mach limit needs Mach 0.3 to 2.5',
      'faulty/propulsion.csv: pressureAltitude: the table has pressure altitude 0 to 40000 ft; the altitude limit needs pressure altitude 0 to 60000 ft',
      'faulty/deck.yaml:40:5: designPoints.0: "outside the tables" lies outside the tables',
      'faulty/deck.yaml:53:15: designPoints.1.settings: needs one of idle, military for each of 2 engines',
    ]);
  });

  it('[DECK-2] tells what is unlikely as a doubt', () => {
    const { faults } = inspectDeck(deckFolder('test/files/faulty-deck', 'faulty'));
    const doubts = faults.doubts.map(faultText);
    expect(doubts).toContain('faulty/deck.yaml:9:15: supersededBy: this edition is superseded by 2');
    expect(doubts).toContain(
      'faulty/inlet.csv:4: recovery: a recovery of 0.95 at Mach 2 is above MIL-E-5007, 0.925',
    );
    expect(doubts).toContain(
      'faulty/deck.yaml:28:5: propulsion.engines: the arms of the engines add to 0.5 m: thrust is off the centre line',
    );
    expect(
      doubts.some((text) =>
        /propulsion.csv:6: fuelFlow: a specific fuel flow of 666.7 .* so at 2 points/.test(text),
      ),
    ).toBe(true);
    expect(doubts.some((text) => /designPoints.2.excess: "thrust is not drag"/.test(text))).toBe(true);
  });

  it('[DECK-3] doubts an L/D above 4(M+3)/M beyond Mach 1.2', () => {
    // At Mach 1.8, eta 0.93 and CLalpha 2.44: CD0 0.001 makes L/D 25.6; the ceiling is 10.67.
    const { loaded } = inspectDeck(changed({ 'drag.csv': (text) => text.replace('1.8,0.035', '1.8,0.001') }));
    expect(loaded?.doubts.map(faultText)).toEqual([
      'deck/drag.csv:13: zeroLiftDrag: L/D of 25.61 at Mach 1.8 is above 4(M+3)/M = 10.67 (Kuechemann 1978)',
    ]);
  });

  it('[DECK-4] reads tables for their faults also where deck.yaml has faults', () => {
    const source = changed({
      'deck.yaml': (text) =>
        `${text.replace('area: 530 ft2', 'area: 530').replace('version: 1', 'version: 2')}extra: 1\n`,
      'lift.csv': 'mach [1],liftSlope [1/rad],dragDueToLift [1]\n0,3,0.5,9\n0.9,x,0.5\n1.8,3,\n',
      'drag.csv': 'mach [furlong],zeroLiftDrag,cheese [1]\n0,1,1\n',
    });
    const faults = faultsOf(source);
    expect(faults.join('\n')).toMatch(/deck.yaml:3:10: version: version must be 1/);
    expect(faults.join('\n')).toMatch(
      /deck.yaml:\d+:9: wing.area: area "530": has no unit; write m2 or ft2|wing.area/,
    );
    expect(faults.join('\n')).toMatch(/deck.yaml:\d+:1: extra: unknown key "extra"/);
    expect(faults).toContain('deck/lift.csv:2: the row has 4 cells, the header 3');
    expect(faults).toContain('deck/lift.csv:3: liftSlope: "x" is not a number');
    expect(faults).toContain('deck/lift.csv:4: dragDueToLift: the cell is empty');
    expect(faults.join('\n')).toMatch(
      /deck\/drag.csv:1: mach: unit of column mach "furlong": does not measure Mach/,
    );
    expect(faults).toContain('deck/drag.csv:1: zeroLiftDrag: column "zeroLiftDrag" has no unit in brackets');
    expect(faults).toContain(
      'deck/drag.csv:1: cheese: unknown column "cheese"; this table may have mach, pressureAltitude, geometricAltitude, zeroLiftDrag',
    );
  });

  it('[DECK-5] refuses doubled, missing and falling points, and NaN', () => {
    const thrust = (text: string): string =>
      text.replace(/^full,1.8,70000.*\n/m, '').replace(/^(full,1.6,70000.*)$/m, '$1\n$1');
    const source = changed({
      'propulsion.csv': thrust,
      'drag.csv': 'mach [1],zeroLiftDrag [1]\n0,0.01\n0.8,0.01\n0.4,0.01\n1.8,0.02\n',
      'lift.csv': 'mach [1],liftSlope [1/rad],dragDueToLift [1]\n0,NaN,0.5\n1.8,3,Infinity\n',
    });
    const faults = faultsOf(source);
    expect(faults.join('\n')).toMatch(/propulsion.csv:\d+: the same point stands on line \d+/);
    expect(faults).toContain(
      'deck/propulsion.csv: 1 of 200 points of the grid are missing; the first is full, mach 1.8, geometricAltitude 21336 (SI)',
    );
    expect(faults).toContain('deck/drag.csv:4: mach: mach falls from the row before; it has to rise');
    expect(faults).toContain('deck/lift.csv:2: liftSlope: "NaN" is not a number');
    expect(faults).toContain('deck/lift.csv:3: dragDueToLift: "Infinity" is not a number');
  });

  it('[DECK-6] names files that are not there', () => {
    expect(faultsOf(changed({ 'deck.yaml': null }))).toEqual(['deck/deck.yaml: there is no such file']);
    expect(faultsOf(changed({ 'lift.csv': null }))[0]).toMatch(
      /^deck\/deck.yaml:\d+:9: aerodynamics.lift: there is no table deck\/lift.csv$/,
    );
  });

  it('[DECK-7] throws one error with all faults from loadDeck', () => {
    const source = changed({
      'drag.csv': (text) => text.replace('0.0,0.013', '0.0,-1').replace('0.4,0.013', '0.4,-2'),
    });
    let thrown: unknown;
    try {
      loadDeck(source);
    } catch (error) {
      thrown = error;
    }
    expect(thrown).toBeInstanceOf(FileFaults);
    expect((thrown as FileFaults).faults).toHaveLength(2);
    expect((thrown as FileFaults).message).toMatch(
      /^deck: 2 faults\ndeck\/drag.csv:5: .*\ndeck\/drag.csv:6: /,
    );
  });
});

describe('limits of a deck', () => {
  const withLimits = (limits: string): DeckSource =>
    changed({ 'deck.yaml': (text) => text.replace('limits: []', `limits:\n${limits}`) });

  it('[DECK-8] take a spread of temperature as a difference', () => {
    const { aircraft } = loadDeck(
      withLimits('  - { key: hot, name: Hot, of: inletTemperature, upper: 300 degC, spread: 2 degC }'),
    );
    expect(aircraft.limits[0].spread).toBe(2);
    expect(aircraft.limits[0].bound(newLimitInputs())).toBe(573.15);
    expect(aircraft.limits[0].source).toMatch(/^deck\/deck.yaml:\d+$/);
  });

  it('[DECK-9] refuse both bounds, no bound, a unit of another quantity, and a quantity nothing is known of', () => {
    const faults = faultsOf(
      withLimits(
        [
          '  - { key: a, name: A, of: mach, upper: 2 Mach, lower: 1 Mach }',
          '  - { key: b, name: B, of: mach }',
          '  - { key: c, name: C, of: equivalentAirspeed, upper: 400 KCAS }',
          '  - { key: d, name: D, of: cheese, upper: 1 }',
        ].join('\n'),
      ),
    );
    expect(faults).toHaveLength(4);
    expect(faults[0]).toMatch(/limits.0: a limit has either "upper" or "lower"$/);
    expect(faults[1]).toMatch(/limits.1: a limit has either "upper" or "lower"$/);
    expect(faults[2]).toMatch(
      /limits.2.upper: equivalent airspeed "400 KCAS": KCAS is a calibrated airspeed/,
    );
    expect(faults[3]).toMatch(/limits.3.of: /);
  });
});

describe('schedules and checks', () => {
  const vanes = (text: string): string =>
    text
      .split('\n')
      .map((line) =>
        line.startsWith('#') || line === ''
          ? line
          : `${line},${line.startsWith('setting') ? 'vanes [deg]' : 12}`,
      )
      .join('\n');
  const named = (more: string) => (text: string) => `${text}${more}`;

  it('[DECK-20] a deck names columns of its own, with their quantity, and when a part starts to move', () => {
    const { aircraft } = loadDeck(
      changed({
        'propulsion.csv': vanes,
        'inlet.csv': 'mach [1],recovery [1],spike [m]\n0,0.97,0\n2,0.9,0.3\n',
        'deck.yaml': named(`inlet: inlet.csv
schedules:
  - { key: vanes, name: Guide vanes, of: engine, column: vanes, quantity: angleDeg }
  - { key: spike, name: Spike, of: side, column: spike, quantity: lengthM, starts: 1.6 Mach }
checks:
  - { of: spike, within: 0.02 m }
  - { of: vanes, at: burner, within: 2 deg, action: stay dry }
  - { of: staticTemperature, within: 3 degC }
`),
      }),
    );
    const [engine, side] = aircraft.schedules;
    expect(engine.at(1, 0.8, 3000, 3000, 0)).toBeCloseTo((12 * Math.PI) / 180, 12);
    expect([engine.startMach, side.startMach]).toEqual([null, 1.6]);
    expect(side.at(1, 1, 0, 0, 0)).toBeCloseTo(0.15, 12);
    expect(aircraft.checks).toEqual([
      { of: 'spike', at: null, within: { value: 0.02, partOfExpected: false }, action: null },
      {
        of: 'vanes',
        at: 'burner',
        within: { value: (2 * Math.PI) / 180, partOfExpected: false },
        action: 'stay dry',
      },
      { of: 'staticTemperature', at: null, within: { value: 3, partOfExpected: false }, action: null },
    ]);
  });

  it('[DECK-21] tells every schedule that stands nowhere and every check that reads nothing', () => {
    const source = changed({
      'deck.yaml': named(`schedules:
  - { key: nozzle, name: Nozzle, of: engine, column: nozzle, quantity: fraction }
  - { key: fuel, name: Fuel valve, of: engine, column: nozzle, quantity: fraction }
  - { key: ramp, name: Ramp, of: side, column: rampAngle, quantity: angleDeg }
checks:
  - { of: spike, within: 20 mm }
  - { of: fuelFlow, within: 20 m }
  - { of: ramp, within: 0 deg }
`),
    });
    expect(faultsOf(source)).toEqual([
      'deck/deck.yaml:36:11: checks.0.of: "spike" is none of fuelFlow, centreOfGravity, fuel, inletTemperature, staticTemperature, nozzle, fuel, ramp',
      'deck/deck.yaml:37:29: checks.1.within: fuel flow "20 m": "m" does not measure it; write kg/s, kg/min, kg/h, t/h, lb/s, lb/min or lb/h',
      'deck/deck.yaml:38:25: checks.2.within: a tolerance of 0 deg cannot be: it must be above 0',
      'deck/deck.yaml:32:5: schedules.0: deck/propulsion.csv has no column nozzle',
      'deck/deck.yaml:33:5: schedules.1: the key fuel is that of another check',
      'deck/deck.yaml:33:5: schedules.1: deck/propulsion.csv has no column nozzle',
      'deck/deck.yaml:34:5: schedules.2: a position of each side stands in the table of the inlet, and the deck has none',
    ]);
  });

  it('[DECK-22] refuses what flight reads as a scheduled position', () => {
    const source = changed({
      'deck.yaml': named(`schedules:
  - { key: push, name: Push, of: engine, column: thrust, quantity: thrustN }
  - { key: nozzle, name: Nozzle, of: engine, column: nozzle, quantity: fraction, starts: 1.2 Mach }
`),
    });
    expect(faultsOf(source)).toEqual([
      'deck/deck.yaml:32:50: schedules.0.column: column thrust is no scheduled position',
      'deck/deck.yaml:33:90: schedules.1.starts: "starts" goes with "of: side"',
    ]);
  });
});

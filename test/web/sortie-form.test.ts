import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { Faults } from '../../src/files/faults.ts';
import { readSortieFile } from '../../src/files/sortie.ts';
import { sortieJsonSchema } from '../../src/files/sortie-schema.ts';
import { choose, extend, include, write } from '../../src/web/views/sortie/edits.ts';
import { countWithin, faultLine, faultsAt } from '../../src/web/views/sortie/faults.ts';
import {
  type Choice,
  type Field,
  type Group,
  type List,
  nameOf,
  type Part,
  partsOf,
  type Shape,
  summaryOf,
} from '../../src/web/views/sortie/form.ts';
import { suggestionsAt } from '../../src/web/views/sortie/suggest.ts';

const loop = readFileSync('examples/long-loop.yaml', 'utf8');
const schema = sortieJsonSchema() as Shape;

function formOf(text: string): Part[] {
  return partsOf(schema, parse(text), '');
}

function childrenOf(part: Part): readonly Part[] {
  if (part.kind === 'field') return [];
  if (part.kind === 'pairs') return part.fields;
  return part.kind === 'list' ? part.items : part.children;
}

function all(parts: readonly Part[]): Part[] {
  return parts.flatMap((part) => [part, ...all(childrenOf(part))]);
}

function at<T extends Part>(text: string, path: string): T {
  const part = all(formOf(text)).find((one) => one.path === path);
  if (!part) throw new Error(`no part ${path}`);
  return part as T;
}

function faultsOf(text: string): Faults {
  const faults = new Faults();
  readSortieFile(text, 'loop.yaml', faults);
  return faults;
}

describe('the form of a sortie', () => {
  it('[FORM-1] has a field for every value of the file', () => {
    const values: string[] = [];
    const walk = (data: unknown, path: string) => {
      if (typeof data !== 'object' || data === null) values.push(path);
      else for (const [key, value] of Object.entries(data)) walk(value, path === '' ? key : `${path}.${key}`);
    };
    walk(parse(loop), '');
    const fields = all(formOf(loop)).filter(({ kind, present }) => kind === 'field' && present);
    const withKind = [...fields.map(({ path }) => path), 'format', 'version'];
    const ofSteps = (path: string) => path.replace(/\.(climb|pushover|cruise|descend)(?=\.)/, '.$1');
    expect(withKind.map(ofSteps).sort()).toEqual(values.sort());
  });

  it('[FORM-2] shows a value as it is written, with its unit, and says which units there are', () => {
    expect(at<Field>(loop, 'aircraft.fuel')).toMatchObject({
      value: '14000 kg',
      required: true,
      label: 'Fuel',
    });
    expect(at(loop, 'reserves.landing').help).toBe('Left on landing. Units: kg, t, lb, slug.');
  });

  it('[FORM-3] knows what can only be chosen and what can also be written', () => {
    expect(at<Field>(loop, 'bases.0.runway.condition')).toMatchObject({
      choices: ['dry', 'wet'],
      ifLeftOut: 'dry',
    });
    expect(at<Field>(loop, 'legs.1.fly.2.climb.to')).toMatchObject({
      choices: null,
      suggestions: ['optimum'],
    });
    expect(at<Field>(loop, 'altitudeGrid.fuel.0')).toMatchObject({ label: 'Fuel 1', help: '' });
    expect(at(loop, 'altitudeGrid.fuel').help).toBe('Mass of fuel. Units: kg, t, lb, slug.');
    expect(at<Field>(loop, 'invented').type).toBe('yes or no');
  });

  it('[FORM-4] says in a line what is folded away', () => {
    expect(nameOf(at(loop, 'legs.1.through.0'))).toBe('Alder');
    expect(summaryOf(at(loop, 'legs.1.through.0'))).toBe('46.80N 96.00W, 30 deg');
    expect(summaryOf(at(loop, 'bases'))).toBe('Harrow Flat, Curlew Ridge, Otter Bluff');
    expect(nameOf(at(loop, 'legs.1.fly.1'))).toBe('Pushover');
    expect(nameOf(at(loop, 'checklist.2'))).toBe('Visors down, loose items stowed.');
  });

  it('[FORM-5] suggests what the sortie, the deck and the files have', () => {
    const files = [
      '/decks/a/deck.yaml',
      '/decks/a/drag.csv',
      '/examples/weather/w.nc',
      '/examples/x.geojson',
    ];
    const hand = { data: parse(loop), plan: null, folder: '/examples', files };
    expect(suggestionsAt('legs.2.land', hand)).toEqual(['Harrow Flat', 'Curlew Ridge', 'Otter Bluff']);
    expect(suggestionsAt('legs.0.refuel.tanker', hand)).toEqual(['Ewer One', 'Ewer Two']);
    expect(suggestionsAt('aircraft.deck', hand)).toEqual(['../decks/a']);
    expect(suggestionsAt('weather.file', hand)).toEqual(['weather/w.nc']);
    expect(suggestionsAt('areas.file', hand)).toEqual(['x.geojson']);
    expect(suggestionsAt('title', hand)).toEqual([]);
  });
});

describe('faults in the form', () => {
  it('[FORM-6] stand at their field, also where it is missing', () => {
    const text = loop.replace('fuel: 14000 kg', 'fuel: 14000').replace('  time: 2026-02-23T15:30Z\n', '');
    const map = faultsAt(faultsOf(text).faults, 'loop.yaml', formOf(text));
    expect([...map.keys()]).toEqual(['aircraft.fuel', 'takeOff.time']);
    expect(map.get('aircraft.fuel')?.[0]).toContain('14000 has no unit');
    expect(map.get('takeOff.time')?.[0]).toContain('is missing');
  });

  it('[FORM-7] without a field stand at the part around it, with the key', () => {
    const text = loop.replace('maximumMach: 0.80 Mach', 'maximumMach: 0.80 Mach\n    spedd: 3 kt');
    const map = faultsAt(faultsOf(text).faults, 'loop.yaml', formOf(text));
    expect(map.get('tankers.0')).toEqual(['spedd: unknown key "spedd"']);
    expect(countWithin(map, 'tankers')).toBe(1);
    expect(countWithin(map, 'tank')).toBe(0);
  });

  it('[FORM-8] inside a step stand at the value of the step', () => {
    const text = loop.replace('push: 0.6 g', 'push: 0.6 kg');
    const map = faultsAt(faultsOf(text).faults, 'loop.yaml', formOf(text));
    expect([...map.keys()]).toEqual(['legs.1.fly.1.pushover.push']);
  });

  it('[FORM-9] in a list name their line, and their file where it is another', () => {
    const fault = {
      severity: 'fault',
      place: { file: 'loop.yaml', line: 11, column: 9 },
      path: 'aircraft.fuel',
      message: 'has no unit',
    } as const;
    expect(faultLine(fault, 'loop.yaml')).toBe('Line 11, aircraft.fuel: has no unit');
    expect(faultLine(fault, 'other.yaml')).toBe('loop.yaml:11:9: aircraft.fuel: has no unit');
    expect(faultLine({ ...fault, path: '', place: { ...fault.place, line: 0 } }, 'loop.yaml')).toBe(
      'has no unit',
    );
  });
});

describe('the form writes', () => {
  it('[FORM-10] a value; one that may be left out is taken away when it is emptied', () => {
    expect(parse(write(loop, at<Field>(loop, 'aircraft.fuel'), '30000 lb')).aircraft.fuel).toBe('30000 lb');
    expect(parse(write(loop, at<Field>(loop, 'aircraft.fuelTemperature'), '')).aircraft).toEqual({
      deck: '../decks/sandmartin',
      tail: 'SM-2',
      fuel: '14000 kg',
    });
    expect(parse(write(loop, at<Field>(loop, 'invented'), 'false')).invented).toBe(false);
    expect(parse(write(loop, at<Field>(loop, 'weather.member'), '3')).weather.member).toBe(3);
    expect(write(loop, at<Field>(loop, 'weather.member'), '')).toBe(loop);
  });

  it('[FORM-11] a new waypoint as the last one was, its name and place to be written', () => {
    const text = extend(loop, parse(loop), at<List>(loop, 'legs.0.through'));
    expect(parse(text).legs[0].through).toEqual([{ name: '', at: '', bank: '30 deg' }]);
    expect(faultsOf(text).faults.map(({ path }) => path)).toEqual([
      'legs.0.through.0.name',
      'legs.0.through.0.at',
    ]);
  });

  it('[FORM-12] a new step of the kind asked for, which the file can be read with at once', () => {
    const text = extend(loop, parse(loop), at<List>(loop, 'legs.0.fly'), 'descend');
    expect(parse(text).legs[0].fly[2]).toEqual({
      descend: { equivalentAirspeed: '340 KEAS', level: '10 nm' },
    });
    expect(faultsOf(text).faults).toEqual([]);
  });

  it('[FORM-13] a group that was left out, as another of its kind is', () => {
    const text = include(loop, parse(loop), at<Group>(loop, 'legs.2.refuel'));
    expect(parse(text).legs[2].refuel).toEqual(parse(loop).legs[1].refuel);
    expect(parse(include(loop, parse(loop), at<Group>(loop, 'takeOff.wind'))).takeOff.wind).toEqual({
      from: '',
      speed: '',
    });
  });

  it('[FORM-14] weather of another kind in its place', () => {
    const text = choose(loop, parse(loop), at<Choice>(loop, 'weather'), 'day');
    expect(Object.keys(parse(text))).toEqual(Object.keys(parse(loop)));
    expect(parse(text).weather).toEqual({ day: 'standard' });
    expect(text).toContain('weather: { day: standard }\n\ntakeOff:');
    expect(faultsOf(text).faults).toEqual([]);
  });
});

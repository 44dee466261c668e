import { describe, expect, test } from 'vitest';
import { CAUTION, type Plan } from '../../../src/core/plan/plan.ts';
import { mapChart } from '../../../src/present/chart/map.ts';
import { NIGHT, PAPER } from '../../../src/present/theme.ts';
import { plainSpaces } from '../../../src/present/units.ts';
import { FAILURE, testPlan } from '../../support/plan.ts';
import { all, readXml } from '../../support/xml.ts';

const outlines = {
  coasts: [
    [
      [-86, 40],
      [-70, 60],
    ],
  ],
  borders: [],
} as const;

/** The plan with the places by which it goes, one of them named as users may. */
function placed(plan: Plan, name = 'Larkmoor'): Plan {
  const { latitudeDeg, longitudeDeg } = plan.trace.columns;
  const at = { latitudeDeg: latitudeDeg[0], longitudeDeg: longitudeDeg[0], courseDeg: null };
  return { ...plan, areas: [], places: [{ kind: 'base', name, ...at }] };
}

const draw = (plan: Plan, theme = PAPER) => mapChart(plan, outlines, { theme });
const wordsOf = (svg: string) =>
  all(readXml(svg))
    .filter(({ name }) => name === 'text')
    .map(({ text }) => plainSpaces(text));

describe('the map as a chart', () => {
  const plan = placed(testPlan());
  const svg = draw(plan);

  test('[MAP-16] is well-formed, described for readers of screens, and carries fingerprint, weather and caution', () => {
    const root = readXml(svg);
    expect(root.children.slice(0, 2).map(({ name }) => name)).toEqual(['title', 'desc']);
    expect(root.children[1].text).toContain('base Larkmoor, in contact with Ewer One at 0:31');
    const text = wordsOf(svg).join(' ');
    for (const part of [plan.fingerprint, 'ERA5', CAUTION, 'Natural Earth']) expect(text).toContain(part);
  });

  test('[MAP-17] is the same text every time and differs by night only in its colours', () => {
    const withoutColours = (text: string) => text.replace(/#[0-9a-f]{6}/g, '#');
    expect(draw(placed(testPlan()))).toBe(svg);
    expect(withoutColours(draw(plan, NIGHT))).toBe(withoutColours(svg));
  });

  test('[MAP-18] tells the pieces of the track apart by weight or dash', () => {
    const kinds = all(readXml(svg))
      .filter(
        ({ name, attributes }) =>
          name === 'path' && attributes.stroke === PAPER.ink && attributes.fill === 'none',
      )
      .map(({ attributes }) => `${attributes['stroke-width']} ${attributes['stroke-dasharray']}`);
    expect(kinds.length).toBe(4);
    expect(new Set(kinds).size).toBe(4);
  });

  test('[MAP-19] says on each tick how far the next contact is', () => {
    const words = wordsOf(svg);
    const { timeS, distanceM } = plan.trace.columns;
    const at = (seconds: number) => distanceM[timeS.indexOf(seconds)];
    const toGo = Math.ceil((at(plan.refuellings[0].contactS) - at(600)) / 1852);
    expect(words).toContain(`0:10 · ${toGo} nm`);
  });

  test('[MAP-20] marks where a sortie cannot be flown, and escapes what users write', () => {
    const failed = placed({ ...testPlan({ failure: FAILURE }) }, 'Bluff & "Bay" <north>');
    const { latitudeDeg, longitudeDeg } = failed.trace.columns;
    const failure = { ...FAILURE, latitudeDeg: latitudeDeg[200], longitudeDeg: longitudeDeg[200] };
    const words = wordsOf(draw({ ...failed, failure }));
    expect(words).toContain('Inlet temperature');
    expect(words).toContain('Bluff & "Bay" <north>');
    expect(words.some((text) => text.startsWith('Cross: where the sortie cannot be flown'))).toBe(true);
    expect(wordsOf(svg).some((text) => text.startsWith('Cross:'))).toBe(false);
  });
});

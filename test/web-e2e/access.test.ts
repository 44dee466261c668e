/** Everybody can use it: by keyboard, by touch, by ear, by day and by night (WCAG 2.2, level AA). */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, openApp, picture, view, viewNames, whole } from './support/app.ts';

const standard = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What is there first in views that draw nothing. */
const undrawn: Readonly<Record<string, string>> = {
  Airborne: 'button',
  Manoeuvre: 'table',
  Reach: 'table',
  Rules: 'table',
  Tankers: 'table',
  Times: 'table',
};

/** Shows a view with what it loads later and what is flown for it. */
async function shown({ page }: App, name: string): Promise<void> {
  await view(page, name);
  await whole(page);
  await page.waitForLoadState('networkidle');
  if (name === 'Sortie file') await page.getByRole('textbox', { name: 'Text of the sortie' }).waitFor();
  else
    await page
      .getByRole('main')
      .locator(undrawn[name] ?? 'svg')
      .nth(name === 'Balance' ? 1 : 0)
      .waitFor();
}

async function violations({ page }: App): Promise<readonly string[]> {
  const { violations: found } = await new AxeBuilder({ page }).withTags(standard).analyze();
  return found.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 200)}`));
}

/** Colours of what decides on the page: text and what lies behind it. */
const decidingColours = `
  (() => {
    const visible = (colour) => !/rgba\\(0, 0, 0, 0\\)|transparent/.test(colour);
    const ground = (node) => {
      for (let at = node; at; at = at.parentElement) {
        const { backgroundColor } = getComputedStyle(at);
        if (visible(backgroundColor)) return backgroundColor;
      }
      return 'rgb(255, 255, 255)';
    };
    const nodes = [...document.querySelectorAll('main p, main td, main th, main output, main h2, main a')];
    return nodes
      .filter((node) => node.textContent.trim() !== '' && !node.classList.contains('small') && !node.closest('svg'))
      .map((node) => [getComputedStyle(node).color, ground(node), node.textContent.trim().slice(0, 40)]);
  })()`;

/** Contrast of two colours "rgb(r, g, b)" (WCAG 2.2, relative luminance and contrast ratio). */
function contrast(one: string, other: string): number {
  const [a, b] = [luminance(one), luminance(other)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

function luminance(colour: string): number {
  const [r, g, b] = (colour.match(/[\d.]+/g) ?? []).slice(0, 3).map((part) => {
    const value = Number(part) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

describe.each(['paper', 'night'] as const)('by day and by night: %s', (theme) => {
  let app: App;

  beforeAll(async () => {
    app = await openApp({ colorScheme: theme === 'night' ? 'dark' : 'light' });
  });

  afterAll(async () => {
    await app.close();
    expect(app.complaints).toEqual([]);
  });

  it('[WEB-50] no view has a fault that axe knows', async () => {
    for (const name of await viewNames(app.page)) {
      await shown(app, name);
      await picture(app.page, `${theme}-${name}`);
      expect(await violations(app), name).toEqual([]);
    }
  });

  it('[WEB-51] deciding words and numbers stand out 7 to 1', async () => {
    for (const name of await viewNames(app.page)) {
      await shown(app, name);
      const colours = await app.page.evaluate<[string, string, string][]>(decidingColours);
      for (const [ink, ground, text] of colours) {
        expect(contrast(ink, ground), `${name}: ${text}`).toBeGreaterThanOrEqual(7);
      }
    }
  });

  it('[WEB-52] the ground is dim by night, and warm, so that it lives behind a red filter', async () => {
    const ground = await app.page.evaluate<string>(
      'getComputedStyle(document.documentElement).backgroundColor',
    );
    const [r, g, b] = (ground.match(/\d+/g) ?? []).map(Number);
    if (theme === 'paper') expect([r, g, b]).toEqual([255, 255, 255]);
    else {
      expect(luminance(ground)).toBeLessThan(0.01);
      expect(r).toBeGreaterThan(b);
      // Through red alone the ink still stands out.
      const ink = await app.page.evaluate<string>('getComputedStyle(document.body).color');
      const red = (colour: string) => `rgb(${(colour.match(/\d+/g) ?? [])[0]}, 0, 0)`;
      expect(contrast(red(ink), red(ground))).toBeGreaterThan(3);
    }
  });
});

/** Everything that takes part by keyboard and is not folded away, in words. */
const controls = `
  [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"], [contenteditable=true]')]
    .filter((node) => !node.disabled && node.tabIndex >= 0 && node.checkVisibility({ checkVisibilityCSS: true }) && !node.closest('fieldset:disabled'))
    .length`;

/** Puts a mark on what has the focus; true where it had one already. */
const marked = `
  (() => {
    const node = document.activeElement;
    if (node === document.body) return null;
    const before = node.dataset.reached === 'yes';
    node.dataset.reached = 'yes';
    return before;
  })()`;

describe('by keyboard', () => {
  let app: App;

  beforeAll(async () => {
    app = await openApp();
  });

  afterAll(() => app.close());

  it('[WEB-53] Tab reaches every control of every view, and leaves it again', async () => {
    const { page } = app;
    for (const name of await viewNames(page)) {
      await shown(app, name);
      await page.evaluate('document.activeElement.blur(); document.body.focus();');
      const count = await settledCount(page);
      for (let i = 0; i < count + 20; i++) {
        await page.keyboard.press('Tab');
        if ((await page.evaluate<boolean | null>(marked)) === true) break;
      }
      const reached = await page.evaluate<number>("document.querySelectorAll('[data-reached=yes]').length");
      // What a view loads while it is walked through is reached too.
      expect(reached, name).toBe(await page.evaluate<number>(controls));
      await page.evaluate(
        "document.querySelectorAll('[data-reached]').forEach((node) => delete node.dataset.reached)",
      );
    }
  });

  it('[WEB-54] what has the focus is seen to have it', async () => {
    const { page } = app;
    await view(page, 'Strip');
    await page.getByRole('button', { name: 'Night' }).focus();
    await page.keyboard.press('Tab');
    const outline = await page.evaluate<string>('getComputedStyle(document.activeElement).outlineStyle');
    expect(outline).toBe('solid');
  });
});

/** Controls of a view once no more of them come. */
async function settledCount(page: Page): Promise<number> {
  for (let before = -1; ; ) {
    const count = await page.evaluate<number>(controls);
    if (count === before) return count;
    before = count;
    await page.waitForTimeout(300);
  }
}

/** Targets smaller than 25 mm in one direction, at 96 px to the inch; words in a running text are exempt. */
const smallTargets = `
  [...document.querySelectorAll('button, select, input, summary, a[href], [role=button], [role=slider]')]
    .filter((node) => node.checkVisibility() && !node.disabled && !node.closest('p'))
    .map((node) => [node.getBoundingClientRect(), node])
    .filter(([box]) => box.width > 0 && Math.round(Math.min(box.width, box.height)) < 94)
    .map(([box, node]) => (node.getAttribute('aria-label') ?? node.textContent).trim().slice(0, 40) + ' ' + Math.round(box.width) + ' x ' + Math.round(box.height))`;

describe('on a tablet in a gloved hand', () => {
  let app: App;

  beforeAll(async () => {
    app = await openApp({ viewport: { width: 820, height: 1180 }, hasTouch: true, isMobile: true });
  });

  afterAll(() => app.close());

  it('[WEB-55] targets are 25 mm, and no view is wider than the screen', async () => {
    const { page } = app;
    for (const name of await viewNames(page)) {
      await shown(app, name);
      expect(await page.evaluate<string[]>(smallTargets), name).toEqual([]);
      const wide = await page.evaluate<number>('document.documentElement.scrollWidth');
      expect(wide, name).toBeLessThanOrEqual(820);
      // A picture of the whole page would be one for a mouse: the browser lets go of the tablet for it.
      await picture(page, `tablet-${name}`, false);
      await page.mouse.wheel(0, 1100);
      await picture(page, `tablet-${name}-below`, false);
    }
  });
});

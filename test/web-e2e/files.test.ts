/** The sortie as a form and as text, what is opened and saved, and the print. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Plan, surprisesFor } from '../../src/core/plan/plan.ts';
import { type App, fingerprint, openApp, replanned, root, settled, view, words } from './support/app.ts';
import { commanded, example, planned } from './support/planned.ts';

const loop = example('long-loop.yaml');
const exactly = { exact: true };
let app: App;
let demo: ReturnType<typeof commanded>;
let folder = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'ramrise-web-'));
  demo = commanded();
  app = await openApp({ acceptDownloads: true });
});

afterAll(async () => {
  rmSync(folder, { recursive: true });
  await app.close();
  expect(app.complaints).toEqual([]);
});

const button = (name: string) => app.page.getByRole('button', { name, exact: true });
const editor = () => app.page.getByRole('textbox', { name: 'Text of the sortie' });

async function saved(name: string): Promise<Buffer> {
  const download = app.page.waitForEvent('download');
  await button(name).click();
  return readFileSync(await (await download).path());
}

/** Puts files on the input behind a button that picks files. */
async function pick(...paths: readonly string[]): Promise<void> {
  const chooser = app.page.waitForEvent('filechooser');
  await button('Open files').click();
  await (await chooser).setFiles([...paths]);
}

async function drop(files: readonly (readonly [name: string, text: string])[]): Promise<void> {
  const put = files.map(([name, text]) => {
    const [file, content] = [name, text].map((part) => JSON.stringify(part));
    return `given.items.add(new File([${content}], ${file}));`;
  });
  await app.page.evaluate(`
    const given = new DataTransfer();
    ${put.join('\n')}
    const event = new DragEvent('drop', { dataTransfer: given, bubbles: true, cancelable: true });
    document.body.dispatchEvent(event);`);
}

const surprises: ReadonlySet<string> = new Set(surprisesFor({ flyable: true }));

type Allowed = (value: number) => number;

/** To one part in a million: browsers and Node may differ in the last bits of a sine or a power. */
const alike: Allowed = (value) => 1e-6 * Math.max(1, Math.abs(value));
/** A search ends a step sooner or later for such a bit: in what is flown after a plan that is worth less than a thousandth, */
const nearly: Allowed = (value) => Math.max(1e-3 * Math.abs(value), alike(value));
/** or than a kilogram of fuel. */
const kilogram: Allowed = (value) => Math.max(1, nearly(value));
/** Where a rule stops being straight follows from small differences of what is flown. */
const roughly: Allowed = (value) => Math.max(0.05 * Math.abs(value), alike(value));

/** What is allowed at a key and below it. */
function allowedAt(key: string, above: Allowed): Allowed {
  if (above === alike) return surprises.has(key) ? nearly : alike;
  if (key === 'straight') return roughly;
  return key.endsWith('Kg') ? kilogram : above;
}

/** Equal, but for the last bits of numbers and for counts of evaluations. */
function expectAlike(one: unknown, other: unknown, path: string, allowed = alike): void {
  if (typeof one === 'number' && typeof other === 'number') {
    expect(Math.abs(one - other), path).toBeLessThanOrEqual(allowed(other));
  } else if (typeof one === 'object' && one !== null && typeof other === 'object' && other !== null) {
    expect(Object.keys(one), path).toEqual(Object.keys(other));
    for (const [key, value] of Object.entries(one)) {
      if (key === 'evaluations') continue;
      const within = allowedAt(key, allowed);
      expectAlike(value, (other as Record<string, unknown>)[key], `${path}.${key}`, within);
    }
  } else expect(one, path).toBe(other);
}

describe('the pack', () => {
  it('[WEB-30] lists every card, and turns them one by one and from the list', async () => {
    const { page } = app;
    await view(page, 'Cards');
    await page.getByRole('img', { name: /^Contents/ }).waitFor();
    const list = page.getByRole('navigation', { name: 'Contents of the pack' }).getByRole('button');
    const count = await list.count();
    await page.getByText(`Card 1 of ${count}`, exactly).waitFor();
    await button('Next').click();
    await page.getByText(`Card 2 of ${count}`, exactly).waitFor();
    await button('Before').click();
    await page.getByText(`Card 1 of ${count}`, exactly).waitFor();
    await list.last().click();
    await page.getByRole('img', { name: /^Proof of print/ }).waitFor();
    expect(await button('Next').isEnabled()).toBe(false);
  });

  it('[WEB-31] prints the bytes that the command line writes', async () => {
    await button('Print the pack').click();
    const link = app.page.getByRole('link', { name: 'Save it as long-loop-cards.pdf' });
    const download = app.page.waitForEvent('download');
    await link.click();
    const bytes = readFileSync(await (await download).path());
    expect(bytes.length).toBe(demo.cards.length);
    expect(bytes.equals(demo.cards)).toBe(true);
  });
});

describe('the sortie as a form and as text', () => {
  it('[WEB-32] a field that is changed is changed in the text, and nothing else is', async () => {
    const { page } = app;
    await view(page, 'Sortie file');
    await editor().waitFor();
    await page
      .getByRole('form')
      .locator('summary')
      .filter({ hasText: /^\s*Aircraft/ })
      .click();
    const old = await fingerprint(page);
    const field = page.getByLabel('Fuel', exactly).first();
    const value = await field.inputValue();
    await field.fill('14 100 kg');
    await field.press('Tab');
    await replanned(page, old);
    const text = (await saved('Save sortie')).toString();
    expect(text.split('\n').filter((line, i) => line !== loop.split('\n')[i])).toEqual([
      expect.stringMatching(/^\s+fuel: ["']?14 100 kg["']?/),
    ]);
    const again = (await planned(text)).plan;
    expect(await fingerprint(page)).toBe(again.fingerprint);
    expect(value).not.toBe('14 100 kg');
    await button('Undo').click();
    await settled(page);
    expect(await fingerprint(page)).toBe(old);
  });

  it('[WEB-33] a fault stands at its field, at its line and in words, and the last plan stays', async () => {
    const { page } = app;
    const old = await fingerprint(page);
    const field = page.getByLabel('Fuel', exactly).first();
    await field.fill('14 parsecs');
    await field.press('Tab');
    const line = loop.split('\n').findIndex((text) => /^\s+fuel:/.test(text)) + 1;
    const fault = page.getByRole('button', { name: new RegExp(`^Line ${line}\\b`) });
    await fault.waitFor();
    expect(await words(fault)).toContain('parsecs');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    const described = page.locator(`[id="${await field.getAttribute('aria-describedby')}"]`);
    expect(await words(described)).toContain('parsecs');
    expect(await fingerprint(page)).toBe(old);
    await fault.click();
    await editor().and(page.locator(':focus')).waitFor();
    await view(page, 'Strip');
    await page.getByText(/1 fault in the sortie/).waitFor();
    await button('Undo').click();
    await page.getByText(/1 fault in the sortie/).waitFor({ state: 'detached' });
    expect(await fingerprint(page)).toBe(old);
  });
});

describe('files', () => {
  it('[WEB-34] a sortie that is picked is opened and planned as the command line plans it', async () => {
    const { page } = app;
    await view(page, 'Sortie file');
    const text = example('warm-day.yaml');
    const path = join(folder, 'mine.yaml');
    writeFileSync(path, text);
    const old = await fingerprint(page);
    await pick(path);
    await replanned(page, old);
    const warm = await planned(text);
    expect(await fingerprint(page)).toBe(warm.plan.fingerprint);
    await view(page, 'Strip');
    const main = page.getByRole('main');
    for (const answer of warm.answers) expect(await words(main)).toContain(answer);
    expect((await words(main)).trim().startsWith(warm.answers[0])).toBe(true);
    expect(warm.plan.flyable).toBe(false);
  });

  it('[WEB-35] a plan that is saved is the plan of the command line, number by number', async () => {
    const { page } = app;
    await view(page, 'Sortie file');
    const old = await fingerprint(page);
    await page.getByLabel('Sortie', exactly).selectOption('/examples/long-loop.yaml');
    await replanned(page, old);
    const plan: Plan = JSON.parse((await saved('Save plan')).toString());
    const named = (inputs: Plan['inputs']) => inputs.map(({ role, sha256 }) => [role, sha256]);
    expect(named(plan.inputs)).toEqual(named(demo.plan.inputs));
    const but = { inputs: [] };
    expectAlike({ ...plan, ...but }, { ...demo.plan, ...but }, 'plan');
  });

  it('[WEB-36] a plan that is dropped is shown, with what can be done with it', async () => {
    const { page } = app;
    const other = { ...demo.plan, title: 'Another loop', inputs: [] };
    await drop([['other.json', JSON.stringify(other)]]);
    await page.getByRole('heading', { level: 1, name: 'Another loop' }).waitFor();
    expect(await words(page.getByRole('status').first())).toContain('other.json');
    await view(page, 'Cards');
    await page.getByRole('img', { name: /^Contents/ }).waitFor();
  });

  it('[WEB-37] a sortie and the weather that it names are dropped one after the other', async () => {
    const { page } = app;
    const text = loop.replace('weather/era5-2020-02-23T16Z-30N54N-100W75W.nc', 'mine.nc');
    await view(page, 'Sortie file');
    await drop([['dropped.yaml', text]]);
    await page
      .getByRole('button', { name: /mine\.nc/ })
      .first()
      .waitFor();
    const weather = join(folder, 'mine.nc');
    writeFileSync(
      weather,
      readFileSync(join(root, 'examples', 'weather', 'era5-2020-02-23T16Z-30N54N-100W75W.nc')),
    );
    await pick(weather);
    await page
      .getByRole('button', { name: /mine\.nc/ })
      .first()
      .waitFor({ state: 'detached' });
    await settled(page);
    await view(page, 'Strip');
    for (const answer of demo.answers) expect(await words(page.getByRole('main'))).toContain(answer);
  });
});

/** `npm run bench:web`: the application in a real browser, served on this machine: first screen, first load, edit to redraw. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { chromium, type Page } from 'playwright-core';
import { browser as browserFile } from '../scripts/browser.mjs';
import { serve } from '../src/service/serve.ts';
import { calibration, line } from './support/clock.ts';

const rounds = 200;
const visits = 7;
const flags = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--no-first-run',
  '--disable-background-networking',
];

/** Puts down when the page was first whole: in the frame after the view was drawn. */
const noteFirstScreen = `
  new MutationObserver((_, observer) => {
    if (document.documentElement.dataset.ready !== 'true') return;
    observer.disconnect();
    const { dataset } = document.documentElement;
    requestAnimationFrame(() => {
      dataset.frameMs = performance.now();
      setTimeout(() => { dataset.firstMs = performance.now(); });
    });
  }).observe(document, { attributes: true, subtree: true });`;

/**
 * Milliseconds from each edit to the frame after its plan was drawn: the foot names the plan, and is drawn together with the rest
 * of the view. Each edit waits until the answers of the one before are whole.
 */
const timeEdits = (edit: string) => `
  (async () => {
    const frame = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
    const button = (name) => [...document.querySelectorAll('button')].find((one) => one.textContent.trim() === name);
    const times = [];
    for (let i = 0; i < ${rounds}; i++) {
      while (document.querySelector('main').ariaBusy === 'true') await frame();
      const drawn = new Promise((done) => {
        const observer = new MutationObserver(() => { observer.disconnect(); done(frame()); });
        observer.observe(document.querySelector('footer'), { subtree: true, childList: true, characterData: true });
      });
      const start = performance.now();
      ${edit}
      await drawn;
      times.push(performance.now() - start);
    }
    return times;
  })()`;

const slide = `
      const slider = document.querySelectorAll('input[type=range]')[1];
      slider.value = String(Number(slider.value) + (i % 2 ? 1 : -1) * Number(slider.step));
      slider.dispatchEvent(new Event('input', { bubbles: true }));`;
const undoAndRedo = "button(i % 2 ? 'Redo' : 'Undo').click();";

const folder = 'dist/web';
const served = await serve(folder, 0);
const browser = await chromium.launch({ executablePath: browserFile(), args: flags });
line(
  'calibration loop, one round',
  `${calibration().toFixed(2)} ns`,
  'times below are to be read beside this',
);
try {
  await firstScreen();
  await edits();
} finally {
  await browser.close();
  await served.close();
}

async function visit(): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: 1500, height: 1000 },
    serviceWorkers: 'block',
  });
  const page = await context.newPage();
  await page.addInitScript(noteFirstScreen);
  return page;
}

/** How soon a first visitor sees the demonstration, and how much came over the line for it. */
async function firstScreen(): Promise<void> {
  const times: number[] = [];
  let frameMs = 0;
  let files: readonly (readonly [path: string, startMs: number])[] = [];
  for (let i = 0; i < visits; i++) {
    const page = await visit();
    await page.goto(served.address, { waitUntil: 'commit' });
    const first = page.locator('html[data-first-ms]');
    await first.waitFor();
    await page.waitForLoadState('networkidle');
    times.push(Number(await first.getAttribute('data-first-ms')));
    frameMs = Number(await first.getAttribute('data-frame-ms'));
    files = await page.evaluate<[string, number][]>(
      "[['', 0], ...performance.getEntriesByType('resource').map(({ name, startTime }) => [new URL(name).pathname.slice(1), startTime])]",
    );
    await page.context().close();
  }
  times.sort((a, b) => a - b);
  line(
    'first screen, nothing kept from before',
    `${times[visits >> 1].toFixed(0)} ms`,
    `Chromium ${browser.version()}`,
  );
  load('first load, gzipped', files, (startMs) => startMs <= frameMs, 'until the first screen');
  load('loaded after it, gzipped', files, (startMs) => startMs > frameMs, 'the planner, its data, outlines');
}

function load(
  name: string,
  files: readonly (readonly [path: string, startMs: number])[],
  counts: (startMs: number) => boolean,
  note: string,
): void {
  const sizes = files
    .filter(([, startMs]) => counts(startMs))
    .map(([path]) => [path || 'index.html', zipped(path || 'index.html')] as const)
    .sort(([, a], [, b]) => b - a);
  const kB = (bytes: number) => `${(bytes / 1000).toFixed(1)} kB`;
  line(name, kB(sizes.reduce((sum, [, size]) => sum + size, 0)), `${sizes.length} files: ${note}`);
  for (const [path, size] of sizes.slice(0, 10)) line(`  ${path}`, kB(size));
}

function zipped(path: string): number {
  return gzipSync(readFileSync(join(folder, path))).length;
}

async function edits(): Promise<void> {
  const page = await visit();
  await page.goto(served.address);
  await page.waitForSelector('html[data-ready=true]');
  const view = (name: string) => page.getByRole('button', { name, exact: true }).click();
  await view('Map');
  await page.getByRole('slider').first().waitFor();
  await page.evaluate(timeEdits(slide));
  report('edit to redraw, map and gates', await page.evaluate<number[]>(timeEdits(slide)));
  await view('Strip');
  report('edit to redraw, strip', await page.evaluate<number[]>(timeEdits(undoAndRedo)));
}

function report(name: string, times: number[]): void {
  times.sort((a, b) => a - b);
  const at = (part: number) => `${times[Math.floor(part * (times.length - 1))].toFixed(0)} ms`;
  line(name, at(0.5), `median of ${times.length}; 95 % within ${at(0.95)}, longest ${at(1)}`);
}

/** The built application in a real browser, as a user has it before him. */
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Locator,
  type Page,
} from 'playwright-core';
import { browser as browserFile } from '../../../scripts/browser.mjs';
import { serve } from '../../../src/service/serve.ts';

export const root = fileURLToPath(new URL('../../../', import.meta.url));

/** An empty profile that asks nothing of any network of its own. */
const flags = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface App {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly browser: Browser;
  readonly address: string;
  /** Every address that was asked for. */
  readonly requests: readonly string[];
  /** What the page complained of. */
  readonly complaints: string[];
  /** Stops the server only. */
  stop(): Promise<void>;
  close(): Promise<void>;
}

export interface Opening extends BrowserContextOptions {
  /** The one file from the disk instead of the server. */
  readonly single?: boolean;
}

/** Opens the application in a window of its own and waits until the demonstration is shown. */
export async function openApp({ single = false, ...options }: Opening = {}): Promise<App> {
  const served = single ? null : await serve(join(root, 'dist', 'web'), 0);
  const address = served?.address ?? pathToFileURL(join(root, 'dist', 'single', 'index.html')).href;
  const browser = await chromium.launch({ executablePath: browserFile(), args: flags });
  const context = await browser.newContext({
    viewport: { width: 1500, height: 1000 },
    serviceWorkers: 'block',
    colorScheme: 'light',
    ...options,
  });
  const page = await context.newPage();
  const requests: string[] = [];
  const complaints: string[] = [];
  context.on('request', (request) => requests.push(request.url()));
  page.on('pageerror', (error) => complaints.push(error.stack ?? error.message));
  page.on('console', (message) => {
    const { url } = message.location();
    // A blocked service worker is the test's own doing.
    if (message.type() === 'error' && !message.text().includes('by Playwright'))
      complaints.push(`${url}: ${message.text()}`);
  });
  await page.goto(address);
  await ready(page);
  return {
    page,
    context,
    browser,
    address,
    requests,
    complaints,
    stop: async () => served?.close(),
    close: async () => {
      await browser.close();
      await served?.close();
    },
  };
}

/** A browser with a profile that stays in a folder. */
export function openProfile(folder: string): Promise<BrowserContext> {
  return chromium.launchPersistentContext(folder, { executablePath: browserFile(), args: flags });
}

/** The demonstration is shown. */
export async function ready(page: Page): Promise<void> {
  await page.waitForSelector('html[data-ready=true]');
}

/** Shows a view by its button. */
export async function view(page: Page, name: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Views' }).getByRole('button', { name, exact: true }).click();
}

/** Names of all views, in order. */
export async function viewNames(page: Page): Promise<readonly string[]> {
  return page.getByRole('navigation', { name: 'Views' }).getByRole('button').allTextContents();
}

/** Waits until the plan shown is whole and of the last edit. */
export async function settled(page: Page): Promise<void> {
  await page.waitForSelector('main[aria-busy=false]');
}

/** Waits until what the view shows of the parts that are flown after a plan is there, too. */
export async function whole(page: Page): Promise<void> {
  await settled(page);
  await page.getByText('Still being flown:').waitFor({ state: 'detached' });
}

/** All words of a part of the page, as they are written, on one line. */
export async function words(part: Locator): Promise<string> {
  return ((await part.textContent()) ?? '').replace(/[ \n\t]+/g, ' ').trim();
}

const foot = (page: Page) => page.getByRole('contentinfo').locator('p').first();

/** Fingerprint in the foot of the page. */
export async function fingerprint(page: Page): Promise<string> {
  return (await words(foot(page))).slice(0, 6);
}

/** Waits until another plan than that of a fingerprint is shown, and is whole; returns the fingerprint of that. */
export async function replanned(page: Page, old: string): Promise<string> {
  await foot(page).filter({ hasNotText: old }).waitFor();
  await settled(page);
  return fingerprint(page);
}

/** Keeps a picture for a person to look at: of the whole page, or of what a screen shows. */
export async function picture(page: Page, name: string, fullPage = true): Promise<void> {
  const path = join(root, 'out', 'web', `${name.toLowerCase().replaceAll(' ', '-')}.png`);
  await page.screenshot({ path, fullPage });
}

/** Opens the page: the demo at once from the plan that came with it, what the planner needs once that is drawn. */
import { mount } from 'svelte';
import './look.css';
import App from './App.svelte';
import { giveRest, openDemo } from './demo.ts';
import { drawn } from './frame.ts';
import { keepOffline } from './offline.ts';
import { session } from './session.svelte.ts';

await openDemo(session);
const target = document.getElementById('app');
if (target) mount(App, { target });
document.documentElement.dataset.ready = 'true';
await drawn();
void giveRest(session);
keepOffline();

/** Opens the page: the demo at once from the plan that came with it, its files for the planner after that. */
import { mount } from 'svelte';
import './look.css';
import App from './App.svelte';
import { openDemo } from './demo.ts';
import { keepOffline } from './offline.ts';
import { session } from './session.svelte.ts';

await openDemo(session);
const target = document.getElementById('app');
if (target) mount(App, { target });
document.documentElement.dataset.ready = 'true';
keepOffline();

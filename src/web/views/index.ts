/** The views, in the order in which they stand in the frame: a new one is one folder and one line here. */
import type { Component } from 'svelte';
import Acceleration from './acceleration/Acceleration.svelte';
import Airborne from './airborne/Airborne.svelte';
import Aircraft from './aircraft/Aircraft.svelte';
import Balance from './balance/Balance.svelte';
import Cards from './cards/Cards.svelte';
import Contact from './contact/Contact.svelte';
import Manoeuvre from './manoeuvre/Manoeuvre.svelte';
import RouteView from './map/Map.svelte';
import Reach from './reach/Reach.svelte';
import Rules from './rules/Rules.svelte';
import Sortie from './sortie/Sortie.svelte';
import Strip from './strip/Strip.svelte';
import Tankers from './tankers/Tankers.svelte';
import Times from './times/Times.svelte';
import Weather from './weather/Weather.svelte';

export interface View {
  readonly key: string;
  readonly name: string;
  readonly component: Component;
}

export const views: readonly View[] = [
  { key: 'strip', name: 'Strip', component: Strip },
  { key: 'map', name: 'Map', component: RouteView },
  { key: 'sortie', name: 'Sortie file', component: Sortie },
  { key: 'cards', name: 'Cards', component: Cards },
  { key: 'airborne', name: 'Airborne', component: Airborne },
  { key: 'contact', name: 'Contact', component: Contact },
  { key: 'balance', name: 'Balance', component: Balance },
  { key: 'reach', name: 'Reach', component: Reach },
  { key: 'rules', name: 'Rules', component: Rules },
  { key: 'tankers', name: 'Tankers', component: Tankers },
  { key: 'times', name: 'Times', component: Times },
  { key: 'manoeuvre', name: 'Manoeuvre', component: Manoeuvre },
  { key: 'acceleration', name: 'Acceleration', component: Acceleration },
  { key: 'aircraft', name: 'Aircraft', component: Aircraft },
  { key: 'weather', name: 'Weather', component: Weather },
];

/** The views, in the order in which they stand in the frame: a new one is one folder and one line here. */
import type { Component } from 'svelte';
import { type Surprise, surprisesFor } from '../../core/plan/plan-surprises.ts';
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
  /** What it shows of the parts that are flown after a plan. */
  readonly flown?: readonly Surprise[];
}

const all = surprisesFor({ flyable: true });

export const views: readonly View[] = [
  { key: 'strip', name: 'Strip', component: Strip },
  { key: 'map', name: 'Map', component: RouteView },
  { key: 'sortie', name: 'Sortie file', component: Sortie },
  { key: 'cards', name: 'Cards', component: Cards, flown: all },
  { key: 'airborne', name: 'Airborne', component: Airborne, flown: all },
  { key: 'contact', name: 'Contact', component: Contact },
  { key: 'balance', name: 'Balance', component: Balance, flown: ['inlet'] },
  { key: 'reach', name: 'Reach', component: Reach, flown: ['reach'] },
  { key: 'rules', name: 'Rules', component: Rules, flown: ['rules'] },
  { key: 'tankers', name: 'Tankers', component: Tankers, flown: ['tankerMatrix'] },
  { key: 'times', name: 'Times', component: Times },
  { key: 'manoeuvre', name: 'Manoeuvre', component: Manoeuvre },
  { key: 'acceleration', name: 'Acceleration', component: Acceleration },
  { key: 'aircraft', name: 'Aircraft', component: Aircraft },
  { key: 'weather', name: 'Weather', component: Weather },
];

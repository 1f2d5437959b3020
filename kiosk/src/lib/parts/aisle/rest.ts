/** What the aisle's first picture does without: sheets, and lines that are seldom there. Fetched soon after it. */
export { default as WeatherLine } from '../care/WeatherLine.svelte';
export { aisleAlerts } from '#core/day/alerts/aisle.ts';
export { default as AlertPlate } from '../alerts/AlertPlate.svelte';
export { default as AisleSheets } from './AisleSheets.svelte';
export { default as EndBand } from './EndBand.svelte';

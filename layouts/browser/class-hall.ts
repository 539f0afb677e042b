/**
 * What the class sheet can do in the hall: it remembers its class for home, times its stations, and
 * lets the equipment be ticked off.
 */

import { keep, LAST_CLASS } from "./hall/device-memory.ts";
import { startStationTimer } from "./hall/station-timer.ts";
import { startTickList } from "./hall/tick-list.ts";

const group = document.querySelector<HTMLElement>("h1[data-class]")?.dataset.class;
if (group !== undefined) keep(LAST_CLASS, group);

for (const timer of document.querySelectorAll<HTMLElement>(".station-timer")) startStationTimer(timer);
for (const region of document.querySelectorAll<HTMLElement>("[data-ticks]")) startTickList(region);

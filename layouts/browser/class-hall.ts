/**
 * What the class sheet can do in the hall: it remembers its class for home, times its stations, lets the
 * equipment be ticked off, and takes down what came of the class.
 */

import { keep, LAST_CLASS } from "./hall/device-memory.ts";
import { startReport } from "./hall/report-class.ts";
import { startStationTimer } from "./hall/station-timer.ts";
import { startTickList } from "./hall/tick-list.ts";

const group = document.querySelector<HTMLElement>("h1[data-class]")?.dataset.class;
if (group !== undefined) keep(LAST_CLASS, group);

for (const timer of document.querySelectorAll<HTMLElement>(".station-timer")) startStationTimer(timer);
for (const region of document.querySelectorAll<HTMLElement>("[data-ticks]")) startTickList(region);

const end = document.querySelector<HTMLElement>("#taught");
const head = document.querySelector("h1")?.textContent?.replace(/\s+/g, " ").trim() ?? "";
if (end !== null && group !== undefined) startReport(end, group, head);

/** A thread that reads a stretch of a PDF, and says what it found. */

import { parentPort, workerData } from "node:worker_threads";
import { readStretch, type Stretch } from "./read-back.ts";

const stretch: Stretch = workerData;
parentPort?.postMessage(await readStretch(stretch));

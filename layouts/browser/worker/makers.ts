/**
 * The part of the worker that makes files of an edition from others. It stands in a file of its own,
 * which does not change with every edition, as the worker does.
 */

import { BodiesMaker } from "../../../scripts/render/offline/bodies-maker.ts";
import { HeadsMaker } from "../../../scripts/render/offline/heads-maker.ts";
import type { MakersScope } from "../../../scripts/render/offline/makers.ts";
import { TablesMaker } from "./tables-maker.ts";

(globalThis as MakersScope).handbookMakers = () => [new HeadsMaker(), new BodiesMaker(), new TablesMaker()];

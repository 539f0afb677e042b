/**
 * The part of the worker that makes pages of their texts, and files of an edition from others. It stands
 * in a file of its own, which does not change with every edition, as the worker does.
 */

import type { MakersScope } from "../../../scripts/render/offline/makers.ts";
import { makePage } from "./page-maker.ts";
import { TablesMaker } from "./tables-maker.ts";

const scope = globalThis as MakersScope;
scope.handbookMakers = () => [new TablesMaker()];
scope.handbookPage = makePage;

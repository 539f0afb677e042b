/**
 * The part of the worker that makes the search's last file. It stands in a file of its own, which does
 * not change with every edition, as the worker does.
 */

import { BodiesMaker } from "../../../scripts/render/offline/bodies-maker.ts";

(globalThis as { handbookBodies?: typeof BodiesMaker }).handbookBodies = BodiesMaker;

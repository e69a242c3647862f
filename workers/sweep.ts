// Worker thread of a sweep: solves a half, or visits some of its king pairs.

export { sweepTask as default } from "../src/tablebase/sweep.js";

// Worker thread of the solver: solves one half of a material and writes its table file.

export { solveTask as default } from "../src/tablebase/build.js";

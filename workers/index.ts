// Worker thread of the page's server: runs the index.

export { indexTask as default } from "../src/server/index-thread.js";

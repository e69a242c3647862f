// Worker thread of the page's server: runs the index.

export { workOnGames as default } from "../src/server/index-thread.js";

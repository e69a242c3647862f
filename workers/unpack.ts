// Worker thread that unpacks one file after another.

export { unpackTask as default } from "../src/pgn/files/unpack.js";

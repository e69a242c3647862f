// Drawings as PNG, in letters that come along with the program, so that they look the same on every machine.

import { createRequire } from "node:module";
import { dirname, join } from "node:path";

import { Resvg } from "@resvg/resvg-js";

/** An SVG as PNG, `width` pixels wide, on white. */
export function pngOf(svg: string, width: number): Uint8Array {
  const fonts = join(dirname(createRequire(import.meta.url).resolve("dejavu-fonts-ttf/package.json")), "ttf");
  const rendered = new Resvg(svg, {
    fitTo: { mode: "width", value: width },
    background: "#fff",
    font: {
      loadSystemFonts: false,
      fontFiles: [join(fonts, "DejaVuSerif.ttf"), join(fonts, "DejaVuSerif-Italic.ttf")],
      defaultFontFamily: "DejaVu Serif",
      serifFamily: "DejaVu Serif",
    },
  }).render();
  return rendered.asPng();
}

// The themes of placements: those that every answer has, so that a hint is true whichever of them is found.

import type { Material } from "../chess/material.js";
import type { BoardPlacement } from "../chess/fen.js";
import { placementFen, readFen } from "../chess/fen.js";
import type { Placement } from "../chess/placement.js";
import { placementReader, type Prober } from "../position/probe.js";
import { solutionAfter } from "../position/variations.js";
import type { ProbedMove } from "../position/valued.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { type Value, unpack } from "../tablebase/tables.js";
import { ThemeFinder } from "./themes/find.js";
import { type Theme, inOrder } from "./themes/theme.js";

export class ThemeReader {
  private readonly finder: ThemeFinder;
  /** Set-ups that are worth a name to a student. */
  private readonly taught: ReadonlySet<string>;
  private readonly read = new Map<string, readonly Theme[]>();

  constructor(
    private readonly material: Material,
    private readonly prober: Prober,
    private readonly catalogue: Catalogue,
  ) {
    this.finder = new ThemeFinder(prober);
    this.taught = new Set(
      catalogue
        .tests(material)
        .filter(({ side, basic }) => side === "defender" && !basic)
        .map(({ name }) => name),
    );
  }

  /** Themes of a placement in its frame, the one that says the most first. */
  of(placement: Placement): readonly Theme[] {
    const fen = placementFen(placement, this.material, "white");
    let themes = this.read.get(fen);
    if (!themes) this.read.set(fen, (themes = this.find(fen)));
    return themes;
  }

  private find(fen: string): readonly Theme[] {
    const position = readFen(fen);
    const valued = this.prober.values(position);
    const { placed, packed, moves } = valued;
    const value = unpack(packed);
    const before = placed.attackerToMove ? [] : this.names(placed, value);
    let common: Set<Theme> | undefined;
    for (const move of moves) {
      if (move.verdict !== value.verdict) continue;
      const { line } = solutionAfter(this.prober, position, move, placed.attacker);
      const after = placed.attackerToMove ? [] : this.namesAfter(placed, move);
      const themes = this.finder.themesOf({ position, valued, move, line, before, after });
      common = common === undefined ? themes : new Set([...common].filter((theme) => themes.has(theme)));
    }
    return inOrder(common ?? new Set());
  }

  private names(placed: BoardPlacement & Placement, value: Value): string[] {
    const read = placementReader(this.prober.geometerFor(placed), placed, value);
    return this.catalogue.naming(read, this.material).filter((name) => this.taught.has(name));
  }

  private namesAfter(placed: BoardPlacement & Placement, move: ProbedMove): string[] {
    if (placed.squares.includes(move.to)) return [];
    const squares = placed.squares.map((square) => (square === move.from ? move.to : square));
    return this.names({ ...placed, squares, attackerToMove: !placed.attackerToMove }, move);
  }
}

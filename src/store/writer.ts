// Writing what a scan found. Some blocks are one transaction, with the journal that says how far their file has been
// read, so that a run killed at any moment leaves whole blocks and goes on behind them.

import type { Material } from "../chess/material.js";
import type { GameRecord, ReadGames } from "../endings/game-reader.js";
import type { FoundCandidates } from "../endings/candidates.js";
import { PROGRAM_CLASSES } from "../pgn/game/programs.js";
import {
  CHUNK,
  type NewEnding,
  addPositions,
  gatherLoose,
  loosenGame,
  loosenSource,
} from "./chunk-writing.js";
import { type WriteLock, lockForWriting } from "./write-lock.js";
import { GameChecksums } from "./checksums.js";
import type { Connection } from "./connection.js";
import { setMeta, targetOf } from "./database.js";
import { Duplicates, copyKeys } from "./duplicates.js";
import { packMoves } from "./packing.js";
import { joinParts } from "./parts.js";
import { type FilePart, type SourceRow, type SourceState, WHOLE, partOf, shownName } from "./sources.js";

/** What is stored of a block: what was counted in it, and what its games hold. */
export type BlockRecord = Pick<FoundCandidates, "games" | "numbers"> & ReadGames;

/** Bytes of a file, and games found in them, after which they are written. */
const UNWRITTEN_BYTES = 32 << 20;
const UNWRITTEN_GAMES = 64;

/** What has been found in a file since it was written last. */
interface Unwritten {
  readonly source: number;
  readonly from: number;
  readonly records: BlockRecord[];
  games: number;
  done: number;
}

const marks = (count: number) => Array.from({ length: count }, () => "?").join(", ");
const bit = (truth: boolean) => (truth ? 1 : 0);

/** Writes to a database, one run at a time. */
export class IndexWriter {
  private readonly insertGame;
  private readonly insertEnding;
  private readonly insertSkipped;
  private readonly setChecksum;
  private readonly checksums;
  private readonly sourceAt;
  private readonly numbersOf;
  private readonly advance;
  private readonly complete;
  private unwritten: Unwritten | undefined;
  /** Positions written loose since positions were gathered last. */
  private loose = 0;

  private readonly target: Material;
  private readonly lock: WriteLock;
  readonly duplicates: Duplicates;

  /** Claims the database at `path` for this run. Throws `database-busy` while another run has it. */
  constructor(
    private readonly db: Connection,
    path: string,
  ) {
    this.lock = lockForWriting(path);
    this.target = targetOf(db);
    this.duplicates = new Duplicates(db);
    this.insertGame = db.prepare(
      `INSERT INTO games (source_id, number, part, byte_start, byte_end, white, black, white_rating, black_rating,
         event, site, date, year, round, time_control, termination, pace, event_type, unread_clocks, engine_game, result, fischer_random, start, moves, plies,
         digest, opening, long, encoding, stopped_at, stop_reason)
       VALUES (@source, @number, @part, @byteStart, @byteEnd, @white, @black, @whiteRating, @blackRating,
         @event, @site, @date, @year, @round, @timeControl, @termination, @pace, @eventType, @unreadClocks, @engineGame, @result, @fischerRandom, @start, @moves,
         @plies, @digest, @opening, @long, @encoding, @stoppedAt, @stopReason)`,
    );
    this.insertEnding = db.prepare(`INSERT INTO endings VALUES (NULL, ${marks(20)})`);
    this.setChecksum = db.prepare("UPDATE games SET checksum = ? WHERE id = ?");
    this.checksums = new GameChecksums(db);
    this.insertSkipped = db.prepare(`INSERT INTO skipped VALUES (${marks(7)})`);
    this.advance = db.prepare(
      "UPDATE sources SET done = ?, numbers = numbers + ?, games = games + ?, replayed = replayed + ? WHERE id = ?",
    );
    this.sourceAt = db.prepare("SELECT * FROM sources WHERE path = ? AND file_part = ? AND file_parts = ?");
    this.numbersOf = db.prepare("SELECT numbers FROM sources WHERE id = ?").pluck();
    this.complete = db.prepare("UPDATE sources SET complete = 1, hash = ? WHERE id = ?");
  }

  private exactly(path: string, { part, of }: FilePart): SourceRow | undefined {
    return this.sourceAt.get(path, part, of) as SourceRow | undefined;
  }

  /** What is stored of a file, or of a part of it: that part, or the whole file. */
  source(path: string, part = WHOLE): SourceRow | undefined {
    return this.exactly(path, part) ?? this.exactly(path, WHOLE);
  }

  /**
   * Begins a file or a part of it, or continues it if `resume` says that what is stored still holds. What was read of the file in
   * other parts goes, since no game is to be there twice.
   */
  begin(state: SourceState, resume: boolean, part: FilePart = WHOLE): SourceRow {
    this.flush();
    const { db } = this;
    return db
      .transaction(() => {
        const { path, size, modified } = state;
        const stored = db.prepare("SELECT * FROM sources WHERE path = ?").all(path) as SourceRow[];
        for (const row of stored) {
          const isThis = row.file_parts === part.of && row.file_part === part.part;
          if (isThis ? !resume : row.file_parts !== part.of) this.forget(row.id);
        }
        if (!this.exactly(path, part))
          db.prepare("INSERT INTO sources VALUES (NULL, ?, ?, ?, ?, NULL, 0, 0, 0, 0, 0, ?, ?)").run(
            path,
            shownName(db, state, part),
            size,
            modified,
            part.part,
            part.of,
          );
        return this.exactly(path, part)!;
      })
      .immediate();
  }

  /** Notes that a run is to read these files, so that a database whose run was stopped can say how far it came. */
  expect(paths: readonly string[]): void {
    setMeta(this.db, "expected", JSON.stringify(paths));
  }

  /** Notes that a run came to its end; `failed` of its files could not be read. */
  allSeen(failed: number): void {
    this.flush();
    setMeta(this.db, "expected", JSON.stringify([]));
    setMeta(this.db, "failed", String(failed));
  }

  /** Notes that a file is what it was, though its time has changed. */
  touch(source: SourceRow, state: SourceState): void {
    this.db.prepare("UPDATE sources SET modified = ? WHERE id = ?").run(state.modified, source.id);
  }

  /** A file that was indexed and has gone from its place is this one, at its new place. */
  rename(source: SourceRow, state: SourceState): void {
    this.db
      .transaction(() => {
        this.db
          .prepare("UPDATE sources SET path = ?, name = ?, modified = ? WHERE id = ?")
          .run(state.path, shownName(this.db, state, WHOLE, source.id), state.modified, source.id);
        this.duplicates.linkFile(source.id);
      })
      .immediate();
  }

  /** Takes a file out with all its games. */
  drop(source: SourceRow): void {
    this.flush();
    this.db.transaction(() => this.forget(source.id)).immediate();
  }

  /** Takes out one game with its endings. */
  takeOut(game: number): void {
    const { db } = this;
    db.transaction(() => {
      loosenGame(db, game);
      const heirs = db.prepare("SELECT id FROM games WHERE duplicate_of = ?").pluck().all(game) as number[];
      db.prepare("UPDATE games SET duplicate_of = NULL WHERE duplicate_of = ?").run(game);
      this.deleteGames("id", game);
      for (const heir of heirs) this.duplicates.link(heir);
    }).immediate();
  }

  /** Deletes the games whose column has a value, with all that is theirs. */
  private deleteGames(column: "id" | "source_id", value: number): void {
    const { db } = this;
    const endings = `SELECT e.id FROM endings e JOIN games g ON g.id = e.game_id WHERE g.${column} = ?`;
    db.prepare(`DELETE FROM loose WHERE ending_id IN (${endings})`).run(value);
    db.prepare(`DELETE FROM endings WHERE id IN (${endings})`).run(value);
    db.prepare(`UPDATE games SET duplicate_of = NULL WHERE ${column} = ?`).run(value);
    db.prepare(`DELETE FROM games WHERE ${column} = ?`).run(value);
  }

  /** Every file the database knows. */
  sources(): SourceRow[] {
    return this.db.prepare("SELECT * FROM sources ORDER BY name").all() as SourceRow[];
  }

  /** Stores one block of a file, and that the file has been read up to `done`; with others, somewhat later. */
  add(source: SourceRow, result: BlockRecord, done: number): void {
    if (this.unwritten?.source !== source.id) this.flush();
    const unwritten = (this.unwritten ??= { source: source.id, from: done, records: [], games: 0, done });
    unwritten.records.push(result);
    unwritten.games += result.found.length + result.skipped.length;
    unwritten.done = done;
    if (unwritten.games >= UNWRITTEN_GAMES || done - unwritten.from >= UNWRITTEN_BYTES) this.flush();
  }

  /** Writes what has not been written yet; if that cannot be, it remains to be written. */
  private flush(): void {
    if (this.unwritten) this.db.transaction(() => this.write(this.unwritten!)).immediate();
    this.unwritten = undefined;
    if (this.loose < CHUNK) return;
    gatherLoose(this.db, this.target, false);
    this.loose = 0;
  }

  private write({ source, records, done }: Unwritten): void {
    let numbered = this.numbersOf.get(source) as number;
    const added: NewEnding[] = [];
    for (const { found, skipped, numbers, games, replayed } of records) {
      for (const game of found) this.game(source, numbered, game, added);
      for (const { game, part, byte, ply, reason, detail } of skipped)
        this.insertSkipped.run(source, numbered + game, part, byte, ply, reason, detail.slice(0, 200));
      this.advance.run(done, numbers, games, replayed, source);
      numbered += numbers;
    }
    this.loose += addPositions(this.db, this.target, added);
  }

  /** Notes that a file has been read to its end, and gives its final state. */
  finish(source: SourceRow, hash: string): SourceRow {
    this.db
      .transaction(() => {
        if (this.unwritten) this.write(this.unwritten);
        this.complete.run(hash, source.id);
      })
      .immediate();
    this.unwritten = undefined;
    return this.exactly(source.path, partOf(source))!;
  }

  /** Gives the database back, as one plain file that can be read where nothing may be written. */
  release(): void {
    try {
      this.flush();
      joinParts(this.db, this.duplicates);
      gatherLoose(this.db, this.target, true);
      this.db.exec("PRAGMA optimize");
      // gives back the room of positions that were loose
      this.db.exec("PRAGMA incremental_vacuum");
      try {
        this.db.exec("PRAGMA journal_mode = DELETE");
      } catch {
        // another process is reading: the journal stays beside the file until the next run
      }
    } finally {
      this.lock.release();
    }
  }

  /** Writes a game; the positions of its endings are put with those that are still to be written. */
  private game(source: number, numbered: number, game: GameRecord, added: NewEnding[]): void {
    const { endings, ...fields } = game;
    const { lastInsertRowid } = this.insertGame.run({
      ...fields,
      source,
      number: numbered + game.game,
      fischerRandom: bit(game.fischerRandom),
      engineGame: PROGRAM_CLASSES.indexOf(game.engineGame),
      moves: packMoves(game.moves),
      digest: Buffer.from(game.digest, "hex"),
      ...copyKeys(game),
    });
    for (const one of endings) {
      const ending = this.insertEnding.run(
        lastInsertRowid,
        one.attacker,
        one.firstPly,
        one.lastPly,
        one.positions,
        one.firstHalfmoves,
        one.firstFullmove,
        bit(one.passing),
        one.entryVerdict,
        one.finalVerdict,
        one.outcome,
        one.endedBy,
        one.captured,
        bit(one.contradicts),
        one.attackerClock,
        one.defenderClock,
        ...one.attackerErrors,
        ...one.defenderErrors,
      ).lastInsertRowid;
      added.push({
        id: Number(ending),
        firstPly: one.firstPly,
        firstHalfmoves: one.firstHalfmoves,
        count: one.positions,
        bytes: one.columns,
      });
    }
    this.seal(lastInsertRowid);
    this.duplicates.link(lastInsertRowid);
  }

  /** Stores the checksum of a game whose endings are all there. */
  private seal(game: number | bigint): void {
    this.setChecksum.run(this.checksums.of(game), game);
  }

  /** Takes a file's games out. Copies of them in other files take their place. */
  private forget(source: number): void {
    const { db } = this;
    const heirs = this.duplicates.heirsOf(source);
    loosenSource(db, source);
    this.deleteGames("source_id", source);
    db.prepare("DELETE FROM skipped WHERE source_id = ?").run(source);
    db.prepare("DELETE FROM sources WHERE id = ?").run(source);
    for (const heir of heirs) this.duplicates.link(heir);
  }
}

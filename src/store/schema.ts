// The database's tables. Games and endings are rows; positions stand in chunks of many endings, column by column
// (see chunks.ts), so that a question reads the columns it asks about and nothing else.

/** Written to every database; a file of another version is refused, never guessed at. */
export const SCHEMA_VERSION = 9;
/** "long" in ASCII, in SQLite's application_id, so that a database of another program is told apart. */
export const APPLICATION_ID = 0x6c6f6e67;

export const GAMES_TABLE = `
  -- games that reach the target
  CREATE TABLE games (
    id INTEGER PRIMARY KEY,
    source_id INTEGER NOT NULL REFERENCES sources (id),
    number INTEGER NOT NULL,         -- in its file, from 1
    part INTEGER NOT NULL,           -- above 1 if recovered from an unclosed comment
    byte_start INTEGER NOT NULL,
    byte_end INTEGER NOT NULL,
    white TEXT, black TEXT, white_rating INTEGER, black_rating INTEGER,
    event TEXT, site TEXT, date TEXT, year INTEGER, round TEXT, time_control TEXT, termination TEXT,
    pace TEXT, event_type TEXT, unread_clocks INTEGER NOT NULL,
    engine_game INTEGER NOT NULL,    -- see PROGRAM_CLASSES: 0 no, 1 doubtful, 2 yes
    result TEXT NOT NULL,
    fischer_random INTEGER NOT NULL,
    start TEXT,                      -- FEN, null for the usual start
    moves BLOB NOT NULL,             -- see packing.ts
    plies INTEGER NOT NULL,
    digest BLOB NOT NULL,            -- of start and moves
    opening BLOB NOT NULL,           -- of the start and the first moves, see duplicates.ts
    long BLOB,                       -- the same of more moves; null for a shorter game
    encoding TEXT NOT NULL,          -- of the names in the file
    duplicate_of INTEGER REFERENCES games (id),
    stopped_at INTEGER, stop_reason TEXT,
    checksum INTEGER,                -- of this row and those of its endings, see checksums.ts
    UNIQUE (source_id, number, part)
  );
  CREATE INDEX short_games_by_opening ON games (opening) WHERE long IS NULL;
  CREATE INDEX originals_by_opening ON games (opening) WHERE duplicate_of IS NULL;
  CREATE INDEX originals_by_moves ON games (long) WHERE duplicate_of IS NULL;
  CREATE INDEX games_by_original ON games (duplicate_of) WHERE duplicate_of IS NOT NULL;
`;

export const CHUNK_TABLES = `
  -- positions of all other endings: each chunk covers every ending from its first to its last
  CREATE TABLE chunks (
    id INTEGER PRIMARY KEY,
    first_ending INTEGER NOT NULL,
    last_ending INTEGER NOT NULL,
    positions INTEGER NOT NULL,
    data BLOB NOT NULL,              -- numbers of the endings and what is needed to find their positions, see chunks.ts
    checksum INTEGER NOT NULL
  );
  CREATE TABLE columns (
    chunk_id INTEGER NOT NULL REFERENCES chunks (id),
    name TEXT NOT NULL,
    least INTEGER,                   -- of its values; null where all are absent
    greatest INTEGER,
    absent INTEGER NOT NULL,         -- how many are
    data BLOB NOT NULL,              -- see packing.ts; empty where all values are the same
    checksum INTEGER NOT NULL,
    PRIMARY KEY (name, chunk_id)
  );
`;

export const SOURCES_TABLE = `
  -- one row per file: the journal that lets a run resume
  CREATE TABLE sources (
    id INTEGER PRIMARY KEY,
    path TEXT NOT NULL,              -- absolute
    name TEXT NOT NULL UNIQUE,       -- as shown: relative to the folder given
    size INTEGER NOT NULL,
    modified INTEGER NOT NULL,       -- milliseconds since 1970
    hash TEXT,                       -- of the bytes (see pgn/files/digest.ts), when complete; of a part the digests of its ranges
    done INTEGER NOT NULL,           -- bytes read, always between two games
    numbers INTEGER NOT NULL,        -- game numbers given so far
    games INTEGER NOT NULL,
    replayed INTEGER NOT NULL,
    complete INTEGER NOT NULL,
    file_part INTEGER NOT NULL,      -- which part of the file this is, and of how many: 1 of 1 is the whole
    file_parts INTEGER NOT NULL,
    UNIQUE (path, file_part, file_parts)
  );
`;

export const SCHEMA = `
  CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;

${SOURCES_TABLE}
${GAMES_TABLE}

  CREATE TABLE endings (
    id INTEGER PRIMARY KEY,
    game_id INTEGER NOT NULL REFERENCES games (id),
    attacker TEXT NOT NULL,          -- 'white' or 'black'
    first_ply INTEGER NOT NULL,
    last_ply INTEGER NOT NULL,
    positions INTEGER NOT NULL,
    first_halfmoves INTEGER NOT NULL,
    first_fullmove INTEGER NOT NULL,
    passing INTEGER NOT NULL,
    entry_verdict INTEGER,           -- for the attacker: 1 won, 0 drawn, -1 lost
    final_verdict INTEGER,
    outcome TEXT NOT NULL,
    ended_by TEXT NOT NULL,
    captured TEXT,
    contradicts INTEGER NOT NULL,
    attacker_clock INTEGER, defender_clock INTEGER, -- milliseconds left when first told
    attacker_half_errors INTEGER NOT NULL, attacker_full_errors INTEGER NOT NULL,
    defender_half_errors INTEGER NOT NULL, defender_full_errors INTEGER NOT NULL
  );
  CREATE INDEX endings_by_game ON endings (game_id);

  -- positions of endings that are in no chunk yet: see endings/position-columns.ts
  CREATE TABLE loose (
    ending_id INTEGER PRIMARY KEY REFERENCES endings (id),
    data BLOB NOT NULL,
    checksum INTEGER NOT NULL
  );

${CHUNK_TABLES}
  CREATE TABLE skipped (
    source_id INTEGER NOT NULL REFERENCES sources (id),
    number INTEGER NOT NULL,
    part INTEGER NOT NULL,
    byte INTEGER NOT NULL,
    ply INTEGER,
    reason TEXT NOT NULL,
    detail TEXT NOT NULL,
    UNIQUE (source_id, number, part)
  );
`;

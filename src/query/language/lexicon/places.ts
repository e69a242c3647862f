// Where pieces stand.

import { LINES } from "./lines.js";
import { type Phrase, say } from "./phrase.js";

/** So many of the five men on the edge of the board: some of them, in every choice. */
function onTheEdge(n: 4 | 5): Phrase {
  const men = ["king", "attacker-king", "rook", "attacker-rook", "bishop"];
  const onEdge = (man: string) =>
    `(${man}-board-file = a or ${man}-board-file = h or ${man}-board-rank = 1 or ${man}-board-rank = 8)`;
  const all = (some: readonly string[]) => some.map(onEdge).join(" and ");
  return n === 5
    ? say(all(men), "(all|five) [five] (piece|men) on [the] edge [of [the] board]")
    : say(
        men.map((left) => `(${all(men.filter((man) => man !== left))})`).join(" or "),
        "[at least] four [or more] (piece|men) on [the] edge [of [the] board]",
      );
}

/** The king in some corner, and later in another. */
const FROM_CORNER_TO_CORNER = ["a1", "a8", "h1", "h8"]
  .map(([file, rank]) => `king-board-file = ${file} and king-board-rank = ${rank}`)
  .map((corner) => `((${corner}) then (corner-steps = 0 and not (${corner})))`)
  .join(" or ");

/** Where a piece of a fact stands, from a square that a pattern found. */
const onSquare = (piece: string, square: string): string =>
  `${piece}-board-rank = {${square}.rank} and ${piece}-board-file = {${square}.file}`;

/** All five men, from the squares that a list of them names. */
const MEN = [
  onSquare("attacker-king", "attacker-king"),
  onSquare("attacker-rook", "attacker-rook"),
  onSquare("bishop", "attacker-bishop"),
  onSquare("king", "defender-king"),
  onSquare("rook", "defender-rook"),
].join(" and ");

/** Two pieces of one kind on two squares, whichever of them is the attacker's. */
const eitherWay = (piece: "king" | "rook"): string => {
  const way = (his: string, its: string) =>
    `(${onSquare(piece, his)} and ${onSquare(`attacker-${piece}`, its)})`;
  return `(${way("first", "second")} or ${way("second", "first")})`;
};

export const PLACES: readonly Phrase[] = [
  {
    say: [
      "[was|were|be|get] (driven|forced|pushed|chased|kicked|dislodged|lured) (off|out of|away from|from) (it|there|that [rank|file|square|place])",
      "(move|go|step|come|run) (off|out of|away from) (it|there|that [rank|file|square|place])",
      "(leave|abandon) (it|that (rank|file|square|place)) [again]",
    ],
    means: "everything",
    leaves: true,
    example: "rook on the third rank, then driven off it",
  },
  {
    say: [
      "(find|reach|get|set up|take up|adopt|have|regain|resume) (it|that (rank|file|square|place)) again",
      "(return|come back|go back|get back) (to|into) (it|there|that (rank|file|square|place))",
      "(regain|resume) it",
    ],
    means: "everything",
    returns: true,
    example: "left the Philidor, then returned to it",
  },
  {
    say: [
      "(leave|abandon|give up) (it|that (rank|file|square|place)) (of [his|its|her|their] own (accord|will|free will)|voluntarily|by choice|without need|needlessly|without being forced)",
      "(voluntarily|needlessly) (leave|abandon|give up) it",
    ],
    means: "everything",
    leaves: "defender",
    example: "second-rank defence, then he left it of his own accord",
  },
  say(
    "held ({spot.piece}) for {n} moves",
    "{piece} (stay|keep|stand|sit|live) {spot} [for] [at least] {n} move [or (more|longer)]",
    "{piece} {spot} for [at least] {n} move [or (more|longer)]",
  ),
  say(
    "held ({spot.piece}) for {n} moves",
    "{piece} (stay|keep|stand|sit|live) {spot} [for] (more than|longer than|over) {successor=n} move",
    "{piece} {spot} for (more than|longer than|over) {successor=n} move",
  ),
  say(
    "throughout ({piece}-board-rank = {rank})",
    "{piece} (never|not) (leave|quit|abandon|stray from|move off|go off|step off|budge from|give up) [its|the] {rank} rank",
  ),
  {
    say: ["{piece} (never|not) (leave|quit|abandon|stray from|move off|budge from|give up) {spot}"],
    means: "throughout ({spot.piece})",
    // of the edge the set-up says it better
    weak: true,
    example: "king never left the centre",
  },
  say(
    "(king-board-file = a..d and attacker-king-board-file = a..d) or (king-board-file = e..h and attacker-king-board-file = e..h)",
    "[both|two] king [both] on [the] @sameside",
  ),
  say(
    "(king-board-file = a..d and attacker-king-board-file = e..h) or (king-board-file = e..h and attacker-king-board-file = a..d)",
    "[both|two] king on @otherside",
  ),
  say(
    "(rook-board-file = a..d and king-board-file = a..d) or (rook-board-file = e..h and king-board-file = e..h)",
    "@rook on [the] @sameside (as|of) @ownking",
    "(@rook and [the] @king|@king and [the] @rook) on [the] @sameside",
  ),
  say(
    "(rook-board-file = a..d and king-board-file = e..h) or (rook-board-file = e..h and king-board-file = a..d)",
    "@rook on [the] @otherside (from|of|to|as|than) @ownking",
    "(@rook and [the] @king|@king and [the] @rook) on @otherside",
    "(@rook and [the] @king|@king and [the] @rook) on (opposite|different) (side|wing|half|flank)",
  ),
  say(
    "king-rank = 1 and rook-rank = 1 and rook-guarded",
    "[passive] @rook on [the] (back|first|last) rank [right] (next to|beside|alongside|adjacent to) @ownking",
    "[passive] @rook (next to|beside|alongside|adjacent to) @ownking on [the] (back|first|last) rank",
  ),
  say(
    "king-rank = 1 and king-cut-off = rank",
    "@king [is] (shut in|shut|boxed in|hemmed in|locked in|walled in|imprisoned|confined|trapped|held|kept|cut off) (on|along|at|to) [the] (edge|back rank|first rank|last rank) by [the] [attacking|attacker] rook",
    "@king [is] (shut in|boxed in|hemmed in|locked in|walled in|imprisoned) (on|along|at) [the] (edge|back rank|first rank|last rank)",
    "rook (shut|box|hem|lock|wall|confine|imprison) [in] [the] @king [in] (on|along|at|to) [the] (edge|back rank|first rank|last rank)",
  ),
  say(
    "bishop-pin != none",
    "bishop [is] pin [by [the] rook] (against|to|on) [its|the] [own] (king|@aking) [by [the] rook]",
  ),
  say(
    "rook-pin = diagonal",
    "@rook [is] pin by [the] bishop (against|to|on) [its|the] [own] king",
    "@rook [is] pin (against|to|on) [its|the] [own] king by [the] bishop",
  ),
  say("rook-pin != none", "@rook [is] pin (against|to|on) [its|the] [own] king"),
  say(
    "side-checks",
    "@rook (defend|check|hold|attack) from [the] (side|flank)",
    "[@rook] (give|deliver) [a|some] check from [the] (side|flank)",
    "(defend|defence) from [the] (side|flank)",
    "(lateral|sideways|flank) (check|defence)",
    "(lateral|sideways|flank|side) check (available|possible|at hand|at [its|his|the] disposal|ready|in hand)",
    "check from [the] (side|flank) (available|possible|at hand|at [its|his|the] disposal|ready|in hand)",
  ),
  onTheEdge(4),
  onTheEdge(5),
  say(
    "{sided}-side = long",
    "{sided} on [the] long side [of [the] [defending|defender] king]",
    "{sided} long side",
    "long side {sided}",
    "long side rook",
  ),
  say(
    "{sided}-side = short",
    "{sided} on [the] short side [of [the] [defending|defender] king]",
    "{sided} short side",
    "short side {sided}",
  ),
  say("{sided}-side != long", "{sided} not on [the] long side"),
  say("{sided}-side != short", "{sided} not on [the] short side"),
  {
    say: ["@rook on [the] (right|good|correct|better) side [of [the] [defending|defender] king]"],
    means: "rook-side = long",
    or: [["rook-place = behind", "behind the attacking king, not in front of it"]],
  },
  {
    say: ["@rook on [the] (wrong|bad|worse) side [of [the] [defending|defender] king]"],
    means: "rook-side = short",
    or: [['rook-place = "in front"', "in front of the attacking king, not behind it"]],
  },
  say("rook-side = long and attacker-rook-side = long", "both rook on [the] long side"),
  say("rook-side = short and attacker-rook-side = short", "both rook on [the] short side"),
  say(
    "rook-line = file and rook-rank > king-rank",
    "@rook [stuck|stand] (in front of|before) (its|his|her|[the] defending|[the] defender) [own] king",
    "@rook [stuck|stand] (in front of|before) own king",
  ),
  say(
    "rook-line = file and rook-rank < king-rank",
    "@rook behind (its|his|her|[the] defending|[the] defender) [own] king",
    "@rook behind own king",
  ),
  say(
    "rook-side = king's file",
    "@rook on [the] (king|its king) [own] file",
    "@rook on [the] [same] file as [its] king",
    "@rook on king file",
  ),
  say(
    "rook-place = behind",
    "@rook behind [the] [attacking|attacker|enemy] king",
    "active rook behind",
    "@rook from behind",
  ),
  say("attacker-rook-place = behind", "@arook behind [the] [defending|defender] king"),
  say('attacker-rook-place = "in front"', "@arook in front of [the] [defending|defender] king"),
  say(
    "attacker-rook-place = beside",
    "@arook (beside|next to|alongside) [the] [defending|defender] king",
    "@arook on [the] same rank as [the] @king",
  ),
  say("rook-place = beside", "@rook (beside|next to|alongside) [the] [attacking|attacker|enemy] king"),
  say(
    'rook-place = "in front"',
    "@rook in front [of [the] [attacking|attacker|enemy] king]",
    "passive rook in front",
  ),
  say(
    "checking-distance {cmp}",
    "@rook with check distance [of] {cmp} [file|square]",
    "check distance {cmp} [file|square]",
    "checking distance [of] {cmp} [file|square]",
    "{cmp} (file|square|rank) between (them|it and [the] [attacking|attacker|enemy] king|rook and king|[the] rook and [the] king)",
    "{cmp} (file|square) away",
  ),
  say(
    "checking-distance >= 3",
    "[@rook] [with|have] (enough|good|sufficient|full|long|plenty of|ample|proper) (check|checking) (distance|room|space)",
    "[@rook] [with|have] (room|space|distance) (for|to) (check|checking)",
    "[with|have] (enough|sufficient|plenty of) (room|space|distance) (for|to) (check|checking)",
    "@rook (far|far away|distant|well away|a long way) from [the] @aking",
  ),
  say(
    "checking-distance < 3",
    "[@rook] [with|have] (short|insufficient|not enough|too little|little|no|not) (check|checking) (distance|room|space)",
    "[with|have] (not|no|too little|not enough) (room|space|distance) (for|to) (check|checking)",
    "@rook [too] (close|near) [to] [the] @aking",
    "@rook too (close|near)",
  ),
  say(
    "rook-files-apart {cmp}",
    "@rook {cmp} file [or more] [away|apart|distant|off] from @ownking",
    "{cmp} file between [the] @rook and @ownking",
  ),
  say("rook-files-apart >= {n}", "@rook {n} file or more [away|apart|distant|off] from @ownking"),
  {
    say: ["@rook (far|far away|distant|well away|a long way|separated) from [its|the] [own] king"],
    means: "rook-files-apart >= 4",
    or: [["not rook-guarded", "not next to it"]],
  },
  say(
    "bishop-from-king >= 3",
    "bishop (far|far away|distant|well away|a long way) from [its|the] [own] (king|@aking)",
  ),
  say("bishop-from-king = 1", "(@aking|king) and bishop (side by side|next to each other|together|adjacent)"),
  say(
    "kings-apart <= 3",
    "king (close|near|close together|near each other|close to each other|close to one another)",
  ),
  say(
    "kings-apart {cmp}",
    "@aking {cmp} (square|step) [away] from [the] (@king|other king|opposite king)",
    "@king {cmp} (square|step) [away] from [the] (@aking|other king)",
  ),
  say(
    "kings-apart {cmp} and king-board-rank = attacker-king-board-rank",
    "@aking {cmp} (square|step) [away] from [the] (@king|other king|opposite king) on [the] same rank",
    "@king {cmp} (square|step) [away] from [the] (@aking|other king) on [the] same rank",
    "king {cmp} (square|step) apart on [the] same rank",
    "{cmp} (square|step) between [the] [two] king on [the] same rank",
  ),
  say(
    "kings-apart {cmp} and kings-files-apart = 0",
    "@aking {cmp} (square|step) [away] from [the] (@king|other king|opposite king) on [the] same file",
    "@king {cmp} (square|step) [away] from [the] (@aking|other king) on [the] same file",
    "king {cmp} (square|step) apart on [the] same file",
    "{cmp} (square|step) between [the] [two] king on [the] same file",
  ),
  say(
    "never (attacker-king-rank < {rank})",
    "@aking (never|not) (get|come|go|be) (closer|nearer) than [the] {rank} rank",
    "@aking (never|not) (get|come|go|be) (past|beyond) [the] {rank} rank",
  ),
  say("kings-apart >= 4", "king (far apart|far from each other|well apart|a long way apart|not close)"),
  say(
    "king-in-the-open",
    "@king (leave|left) [the] edge",
    "@king (has|have) leave [the] edge",
    "@king out in [the] open",
    "@king in [the] open",
    "@king (go|went|come|came|get|escape) into [the] open",
    "@king (draw|drive|pull) (into|out into) [the] open",
  ),
  say(
    "king-in-the-open",
    "[@king] (escape|break out|get out|get away|break free|step off|freed|free) [itself] (from|off|of) [the] (edge|back rank|rim)",
    "@king (got|get|run) (free|out|away)",
    "@king (free|freed|escape) [itself]",
    "@king (get|got|run|break|escape|come|go|walk) away (from|off) [the] (edge|back rank|rim)",
  ),
  say(
    "king-rank > 1",
    "@king (leave|left) [the] (back|first) rank",
    "@king (off|away from|out of) [the] edge",
    "@king not on [the] edge",
  ),
  say("king-rank = {successor}", "@king {successor} rank (off|from|away from) [the] edge"),
  say("{piece}-rank = 1", "{piece} on [the] (back|last|edge) rank"),
  say(
    "king-rank = 1 and rook-rank = 1",
    // "lost the rook and his king was on the edge" speaks of the king alone
    "(king and [the] ^rook|rook and [the] ^king) [both] on [the] (back|first|last) rank",
    "[both] (king and [the] ^rook|rook and [the] ^king) on [the] edge",
  ),
  {
    say: ["in [the|a] corner"],
    means: "corner-steps = 0",
    place: true,
    weak: true,
    example: "drew in the corner",
  },
  {
    say: ["{n} (step|square) (from|away from) [the] corner"],
    means: "corner-steps = {n}",
    place: true,
    weak: true,
    example: "one square from the corner",
  },
  {
    say: ["on [a|the] rook file"],
    means: "king-file = 1",
    place: true,
    weak: true,
    example: "Philidor on the rook's file",
  },
  {
    say: ["on [a|the] knight file"],
    means: "king-file = 2",
    place: true,
    weak: true,
    example: "Philidor on the knight's file",
  },
  {
    say: ["on [a|the] bishop file"],
    means: "king-file = 3",
    place: true,
    weak: true,
    example: "Philidor on the bishop's file",
  },
  say("kings-files-apart = 1", "king on (neighbouring|adjacent|next) file"),
  say(
    "bishop-files-apart = 0",
    "bishop on [the] [same] file [as|of] [the] @king",
    "bishop on [the] king file",
  ),
  say(
    "{guardable}-guarded",
    "{guardable} [is] @guarded",
    "(guarded|protected|defended|covered|supported) {guardable}",
    "(something|another piece) @guards [its|the] {guardable}",
  ),
  say("rook-guarded", "@rook [is] @guarded by [its] [own] king", "@king @guards [its|the] [own] @rook"),
  say("bishop-guarded", "bishop [is] @guarded by [its|the] [own] (side|piece|king or rook)"),
  say(
    "bishop-guarded and bishop-from-king = 1",
    "bishop [is] @guarded by [its|the] [own] (king|@aking)",
    "(king|@aking) @guards [its|the] [own] bishop",
  ),
  say("{guardable}-guarded = no", "(unguarded|unprotected|undefended|unsupported|loose) {guardable}"),
  say(
    "{guardable}-guarded = no",
    "{guardable} [is] @unguarded [by [its|the] [own] (king|piece|side)]",
    "(nothing|nobody|no piece) @guards [its|the] {guardable}",
  ),
  say(
    "{guardable}-attacked",
    "{guardable} [is] (attacked|under attack|under fire|hit)",
    "attacked {guardable}",
  ),
  say(
    "{guardable}-attacked and not {guardable}-guarded",
    "{guardable} [is] (attacked|under attack|under fire|hit) (and|but) @unguarded",
    "{guardable} [is] @unguarded (and|but) (attacked|under attack|under fire|hit)",
    "@unguarded {guardable} [is] (attacked|under attack|under fire|hit)",
  ),
  say(
    "(to-move = defender and free-piece = rook) or (to-move = attacker and loss-threat = rook)",
    "@arook [is] @hanging",
  ),
  {
    say: ["(leave|let) [its|the] rook (hanging|hang|en prise|unprotected|loose|undefended)"],
    means: {
      nobody: "to-move = attacker and free-piece = rook",
      defender: "to-move = attacker and free-piece = rook",
      attacker: "to-move = defender and free-piece = rook",
    },
  },
  say(
    "to-move = defender and free-piece = bishop",
    "[attacker] (leave|let) [its|the] bishop (hanging|hang|en prise)",
  ),
  say(
    "(to-move = defender and free-piece = bishop) or (to-move = attacker and loss-threat = bishop)",
    "bishop [is] @hanging",
  ),
  say(
    "(to-move = attacker and free-piece = rook) or (to-move = defender and loss-threat = rook)",
    "@rook [is] @hanging",
  ),
  {
    say: [
      "(fail to|not|forget to|neglect to) (take|capture|win|grab) [the] [free|hanging|loose] {prize}",
      "[the] {prize} [be] (hang|hanging|en prise) [,] (and|but|yet) (nobody|no one|neither (side|player)) (notice|noticed|see|spot|take|find) [it]",
      "(overlook|miss) [that] [the] {prize} (hang|hanging|en prise|(can|could) be taken)",
    ],
    means: "{mover}free-piece = {prize} and error != none",
    example: "failed to take the bishop",
  },
  ...LINES,
  say(
    "rook-attacks = both",
    "@rook attack [the] (bishop and [the] rook|rook and [the] bishop) [at [the] same time|at once]",
  ),
  say(
    "king-escapes = 0",
    "@king (have|has|had) (no|not a) (square|escape|way out|flight square) [to (move|go|run|flee) [to]]",
    "(no|without a) (square|flight square) for [the] @king",
    "@king cannot move",
  ),
  say(
    "king-escapes = 0",
    "@king [have|with] (no|without) (escape|flight) [square]",
    "(no|without) (escape|flight) square",
  ),
  say(
    "king-escapes {cmp}",
    "@king [have|with] [only|just] {cmp} (escape|flight) [square]",
    "@king [have|with] [only|just] {cmp} square [to (go|move|flee|run) [to]]",
    "[only] {cmp} (escape|flight) square [for [the] @king]",
  ),
  say(
    "rook-safe-squares = 0",
    "@rook [have|with] no safe square",
    "no safe square for [the] @rook",
    "@rook has nowhere [safe] to go",
  ),
  say(
    "rook-safe-squares {cmp}",
    "@rook [have|with] [only|just] {cmp} safe square",
    "[only] {cmp} safe square for [the] @rook",
  ),
  say(
    "bishop-from-king {cmp}",
    "bishop {cmp} (square|step) [away] from [its|the] [own] [attacking|attacker] king",
  ),
  say("king-cut-off = none", "@king not cut off"),
  say("king-cut-off = {line}", "cut off (on|along|by) [the|a] {line}"),
  say(
    "king-rank = 1 and king-cut-off = rank",
    "cut off (on|along|at) [the] (back rank|first rank|last rank|edge)",
  ),
  say(
    "king-rank = 1",
    "@king on [the] edge [of [the] board]",
    "@king (touch|touched) [the] edge",
    "@king (on|at) [the] (back|first|last) rank",
    "@king (stay|stand|keep) (on|at) [the] (back rank|first rank|edge)",
    "@king on [the] (side|rim) [of [the] board]",
    "@king at [the] edge",
  ),
  say(
    "never (king-rank = 1)",
    "@king [could|can|would] (never|not) [be] (drive|push|force|forced) [back] (to|onto) [the] (edge|back rank|rim)",
    "not (drive|push|force) [the] @king [back] (to|onto) [the] (edge|back rank|rim)",
  ),
  {
    say: ["(never|not) (leave|quit|abandon|stray from|budge from|give up) {spot}"],
    means: { defender: "throughout ({spot.king})", attacker: "throughout ({spot.attacker-king})" },
    example: "defender never left the back rank",
  },
  say(
    "king-in-the-open then king-rank = 1",
    "@king (drive|push|force) [from [the] (centre|middle|open)] (to|onto|back to) [the] edge",
    "@king (drive|push|force) back [to [the] edge]",
  ),
  say(
    "corner-steps = 0",
    "@king (trapped|stuck) in [the] corner",
    "@king in [the|a] corner",
    "@king cornered",
    "cornered king",
  ),
  say("corner-steps = {n}", "@king {n} (step|square) (from|away from|off) [the] [nearest] corner"),
  say(
    "corner-steps {rel}",
    "@king {rel} (step|square) (from|away from) [the] [nearest] corner",
    "@king (near|close to) [the] corner {rel}",
  ),
  say(
    "corner-steps <= 1",
    "@king (at most|no more than) (a|one) (step|square) from [the|a] corner",
    "@king (near|close to|by) [the|a] corner",
  ),
  say(
    "corner-steps = 0 and bishop-colour = corner's",
    "(right corner|right coloured corner|right colour corner|corner of [the] bishop [own] colour|bishop corner)",
    "@king [stuck|trapped|caught|driven|forced] (in|into) [the|a] corner of [the] bishop [own] colour",
    "@king in [the|a] [bishop] corner [that|which] [the] bishop (control|cover|guard|attack|can reach|colour)",
    "@king in [the] bishop corner",
    "@king (drive|driven|force|forced|go|run|in) [to|into] [a|the] bishop coloured corner",
    "(in|into) [a|the] bishop coloured corner",
    "@king in [the] right corner [for [the] bishop]",
  ),
  say(
    "corner-steps = 0 and bishop-colour = other",
    "@king in [the] wrong [coloured|colour] corner [for [the] bishop]",
    "wrong [coloured|colour] corner [for [the] bishop]",
    "@king (trapped|stuck|caught) in [the] wrong [coloured|colour] corner",
    "corner of [the] wrong colour",
    "@king in [the] wrong corner bishop not of [the] corner colour",
    "@king in [the|a] corner [of] opposite colour (to|of|from) [the] bishop",
  ),
  say(
    "bishop-colour = corner's",
    "bishop (of|on|has|have) [the] [same] colour [of|as] [the] corner",
    "bishop of [the] corner colour",
    "(right|correct|good) [coloured] bishop",
    "bishop of [the] (right|correct|good|same) colour [for|as] [the] [corner]",
    "bishop [that] (control|cover|guard) [the] corner [square]",
  ),
  say(
    "bishop-colour = other",
    "bishop not (of|on) [the] corner colour",
    "not [the] colour of [the] corner",
    "bishop [that] not (control|cover|guard) [the] corner [square]",
    "wrong [coloured] bishop",
    "bishop of [the] (wrong|other) colour [for [the] corner]",
  ),
  say(
    "opposition = direct",
    "[king] (in|have|with|take) [the] [direct] opposition",
    "[attacking|attacker] king opposite [the|its] [other|enemy|defending|defender] king",
    "king (opposite|facing) each other",
    "direct opposition",
    "opposition",
    "king face each other",
  ),
  say("opposition = diagonal", "[king] [in] diagonal opposition"),
  say("opposition = distant", "[king] [in] distant opposition"),
  say(
    'opposition = "knight\'s move"',
    "@king [a] knight move apart",
    "knight move opposition",
    "king (at|in) [a] knight [move] [distance]",
    "king [a] knight [move] (away|apart)",
  ),
  say("kings-files-apart = {n}", "king {n} file apart"),
  say("kings-files-apart {rel}", "king {rel} file apart"),
  say(
    "king-rank = 1 and attacker-king-rank = 1",
    "[both] =kings on [the] (same|one) edge",
    "king and [the] @aking on [the] (same|one) edge",
  ),
  say(
    "bishop-pin != none",
    "bishop [is] pin",
    "bishop [is] pin [to its king] by [the|a] @rook",
    "pinned bishop",
    "pin bishop",
    "pin on [the] bishop",
    "bishop in [a] pin",
  ),
  say(
    "bishop-pin = {line}",
    "bishop pin (along|on|down|by) [the|a] {line}",
    "pin [on|of] [the] bishop (along|on) [a] {line}",
  ),
  say("rook-pin != none", "@rook [is] pin [to its king]", "pinned rook", "pin on [the] @rook"),
  {
    say: ["pin [the] @rook"],
    means: {
      nobody: "rook-pin != none",
      attacker: "to-move = attacker and kind = pin",
      white: "rook-pin != none and attacker = white",
      black: "rook-pin != none and attacker = black",
    },
  },
  say(
    "rook-pin = diagonal",
    "bishop pin [the] @rook",
    "@rook pin (along|on|by|down) [a|the] (diagonal|bishop)",
    "@rook pin (along|on|down) [a|the] diagonal by [the] bishop",
    "@rook pin against [the|its] king by [the] bishop",
  ),
  say(
    "rook-pin = {line}",
    "pin (by [the] attacker|) on [the] @rook (along|on|down) [a|the] {line}",
    "@rook pin (along|on|down) [a|the] {line}",
  ),
  say("rook-pin = rank and king-rank = 1", "@rook pin (along|on) [the] (back|first|last) rank"),
  say("attacker-rook-pin != none", "@arook [is] pin [to its king]"),
  say("bishop-pin != none and to-move = attacker", "@rook pin [the] bishop"),
  say(
    "king-cut-off != none",
    "@king confined",
    "@king [is] cut off [by [the] (rook|@arook)]",
    "cut off king",
    "(@arook|rook|attacker) cut off [the] @king",
    "(@arook|rook|attacker) cut [the] (@king|defender|him) off",
  ),
  say(
    "king-cut-off = {line}",
    "@king [is] cut off (on|along|by|at) [the|a] {line}",
    "(@arook|rook|attacker) cut off [the] (@king|defender) (on|along|by|with) [the|a] {line}",
    "(@arook|rook|attacker) cut [the] (@king|defender|him) off (on|along|by|with) [the|a] {line}",
  ),
  say(
    "king-rank = 1 and king-cut-off = rank",
    "@king [is] cut off (on|along|at) [the] (back|first|edge|last) rank",
    "@king [is] cut off on [the] edge",
    "@king confined to [the] back rank",
  ),
  {
    say: [
      "@king [is] cut off (on|along|at|by) [the] {rank} rank",
      "(rook|@arook) cut off [the] @king (on|along|at|by) [the] {rank} rank",
    ],
    means: "king-cut-off = rank and attacker-rook-board-rank = {rank}",
  },
  say(
    "attacker-king-barred = {line}",
    "@rook (bar|stop|hold off|keep off|cut off) [the] @aking (along|on|by) [a|the] {line}",
    "@rook (keep|hold|cut|shut) [the] @aking (off|out|away) (along|on|by) [a|the] {line}",
    "@aking [is] (bar|cut off) [by [the] rook] (along|on|by) [a|the] {line}",
  ),
  say(
    "attacker-king-barred != none",
    "@aking [is] bar",
    "@rook bar [the] @aking",
    "@rook (keep|hold) [the] [attacking|attacker] king (off|out|away)",
  ),
  {
    say: [
      "@aking [is] bar on [the] {rank} rank",
      "@aking [is] (bar|cut off|kept off|kept out|held off|held|shut out) [by [the] rook] (on|along|at|from|by|off) [the] {rank} rank",
      "rook (bar|cut off|keep|hold|shut) [off|out] [the] @aking (on|along|at|from|by|off) [the] {rank} rank",
      "@aking (kept|held|keep|hold|barred|bar|stay) off [the] {rank} rank",
    ],
    means: "attacker-king-barred = rank and rook-board-rank = {rank}",
  },
  say("wedge-depth >= 1", "@king (in|inside) [the] [bishop] wedge"),
  say(
    "wedge-depth = {n}",
    "@king (in|inside) [the] [bishop] wedge {n} file (from|deep) [the] [foot]",
    "@king {n} (deep|file deep) in [the] [bishop] wedge",
    "(at depth|depth) {n}",
    "{n} file from [the] foot",
  ),
  say("rook-holds-intersection", "@rook (hold|guard|control) [the] intersection"),
  say(
    "fork = defender and rook-attacks = bishop",
    "[defender] fork [the] king and [the] bishop",
    "fork of king and bishop",
  ),
  say("fork = attacker", "[attacker] fork [the] king and [the] rook", "fork of king and rook"),
  say(
    "rook-attacked and not rook-guarded",
    "(unprotected|unguarded|undefended) @rook [is] (attacked|under attack)",
    "@rook [is] (attacked|under attack) and (unprotected|unguarded|not guard|not protect|undefended|nothing guard it|nothing protect it)",
  ),
  say(
    "bishop-attacked and not bishop-guarded",
    "(unprotected|unguarded|undefended) bishop [is] (attacked|under attack)",
    "bishop [is] (attacked|under attack) and (unprotected|unguarded|not guard|not protect|undefended|nothing guard it|nothing protect it)",
  ),
  say(
    "(rook-board-file = 1 or rook-board-file = 8) and (rook-board-rank = 1 or rook-board-rank = 8)",
    "@rook in [the|a] corner",
  ),
  say(
    "attacker-king-foot = towards",
    "@aking (towards|on [the] side of|near) [the] [nearer] foot",
    "@aking on [the] foot side",
  ),
  say("attacker-king-foot = away", "@aking (away from|on [the] other side from) [the] foot"),
  say(
    "attacker-king-rook = towards",
    "@aking on [the] [same] side (of|as|on) [the|its] [defending|defender] rook",
    "@aking (towards|on [the] rook side)",
  ),
  say("attacker-king-rook = away", "@aking away from [the] [defending|defender] rook"),
  say(
    "edge-check = met",
    "@rook ready to interpose",
    "(interposition|block) [is] (ready|made ready|prepared)",
    "@rook (cover|meet|answer) [every|the] check (along|on) [the] (edge|back rank|first rank|last rank)",
  ),
  say("edge-check = denied", "(blocking|interposing) square [is] denied", "interposition [is] denied"),
  say(
    'edge-check = "not met"',
    "check (along|on) [the] (edge|back rank|first rank|last rank) [that] not (met|answer)",
    "no interposition",
  ),
  say("spare-moves-on-rank {cmp}", "{cmp} (spare|waiting|safe) move on [its|the] rank", "{cmp} spare move"),
  say(
    "side-check {cmp}",
    "[a] check from [the] side [with] {cmp} file between",
    "side check with {cmp} file [between]",
  ),
  say("spare-moves-on-file {cmp}", "{cmp} (spare|waiting|safe) move on [its|the] file"),
  say("equal-edges", "two [equal] edge", "[two] edge (equally|as) near"),
  say('{mover}kind = "edge switch"', "(switch|change) [of|the] edge", "edge switch"),
  say(
    "bishop-from-king = 1",
    "@aking [right] (next to|beside) [its|the] bishop",
    "bishop [right] (next to|beside) [its|the] [own] (king|@aking)",
  ),
  say("rook-attacks = bishop", "@rook attack only [the] bishop"),
  // ranks and files as the board has them, unless the frame is named
  say(
    "king-rank >= 3 and king-file >= 3 and attacker-king-board-rank = 3..6 and attacker-king-board-file = c..f",
    "both king in [the] (centre|middle) [of [the] board]",
  ),
  say(
    "king-rank = 1 and (attacker-king-board-rank = 1 or attacker-king-board-rank = 8 or attacker-king-board-file = a or attacker-king-board-file = h)",
    "both king on [the|an] edge [of [the] board]",
  ),
  {
    say: ["@king in [the] (centre|middle) [of [the] board]"],
    means: "king-rank >= 3 and king-file >= 3",
    or: [
      [
        "(king-board-file = d or king-board-file = e) and (king-board-rank = 4 or king-board-rank = 5)",
        "the four squares in the middle",
      ],
    ],
  },
  say(
    "{spot.piece} then {second.piece}",
    "{piece} (walk|run|go|march|travel|move|come|get|wander|drive|driven|flee|chased) [all the way] from [the] {spot} (to|into|towards|onto) [the] {spot=second}",
  ),
  say(
    FROM_CORNER_TO_CORNER,
    "@king (walk|run|go|march|travel|move|come|get|wander|drive|driven|flee|chased|head) [all the way] (to|into|for|towards) [the] (other|another|next|opposite) corner",
    "@king (walk|run|go|march|travel|move|come|get|wander|drive|driven|flee|chased) [all the way] from (one|a) corner (to|into) [the] (other|another|next)",
  ),
  say(
    "{sided}-side = long then {sided}-side = short",
    "{sided} (move|go|switch|swing|transfer|come|get|cross) [over] from [the] long side to [the] short [side]",
  ),
  say(
    "{sided}-side = short then {sided}-side = long",
    "{sided} (move|go|switch|swing|transfer|come|get|cross) [over] from [the] short side to [the] long [side]",
  ),
  say(
    "(not {sided}-side = long) then {sided}-side = long",
    "{sided} (move|go|switch|swing|transfer|come|get|cross) [over|across] to [the] long side",
  ),
  say(
    "(not {sided}-side = short) then {sided}-side = short",
    "{sided} (move|go|switch|swing|transfer|come|get|cross) [over|across] to [the] short side",
  ),
  say(
    '{mover}kind = "leaves rank" and rook-board-rank = {rank}',
    "@rook (leave|abandon|give up|move off|come off|step off) [its|the] {rank} rank",
  ),
  {
    say: [
      "{piece} on {spot}",
      "{piece} {spot}",
      "{piece} (get|go|come|run|walk|march|head|arrive|land|end up|flee|retreat) {spot}",
      "{piece} (reach|occupy|enter|hit) {spot}",
      "{piece} (trapped|stuck|caught|confined|cornered|locked|shut|driven|drive|forced|force|pushed|push|chased|herded|pinned down) [in|into|back] {spot}",
    ],
    means: "{spot.piece}",
    example: "defender's king on a8 or the h file",
  },
  say(
    "{spot.king} and {spot.attacker-king}",
    "(both|two) king [both|stand] (on|in) {spot}",
    "=kings [both] (on|in) {spot}",
  ),
  say(
    "{spot.rook} and {spot.attacker-rook}",
    "(both|two) rook [both|stand|facing each other|face each other|opposed] [on|in] {spot}",
    "=rooks (both|facing each other|face each other|opposed|oppose each other) [on|in] {spot}",
    "=rooks (on|in) {spot}",
  ),
  say(
    "rook-guarded",
    "@rook (next to|beside|adjacent to) (its|his|her|own|the defending|the defender) [own] king",
  ),
  say(
    "{spot.king} and {second.attacker-king}",
    "@king {spot} [,] [and] attacker [one|king] {spot=second}",
    "@king {spot} [,] [and] @aking {spot=second}",
  ),
  say("{spot.attacker-king} and {second.king}", "@aking {spot} [,] [and] defender [one|king] {spot=second}"),
  {
    say: ["bishop {spot} [,] [and] rook {spot=second}", "rook {spot=second} [,] [and] bishop {spot}"],
    means: "{spot.bishop} and {second.attacker-rook}",
    or: [["{spot.bishop} and {second.rook}", "the defender's rook"]],
  },
  say(
    "(king-board-file = a and king-board-rank = 1) or (king-board-file = h and king-board-rank = 8)",
    "@king in [a|the] dark [squared|coloured] corner",
  ),
  say(
    "(king-board-file = a and king-board-rank = 8) or (king-board-file = h and king-board-rank = 1)",
    "@king in [a|the] light [squared|coloured] corner",
  ),
  say("{spot.piece} and {second.piece}", "{piece} {spot} [,] (on|at|in) {spot=second}"),
  // all men of a position; the bishop tells whose they are
  say(
    MEN,
    "@attackersmen [,] [and|against|with] @defendersmen",
    "@defendersmen [,] [and|against|with] @attackersmen",
  ),
  say(
    `attacker = white and ${MEN}`,
    "white @attackersmen [,] [and|against|with] black @defendersmen",
    "black @defendersmen [,] [and|against|with] white @attackersmen",
  ),
  say(
    `attacker = black and ${MEN}`,
    "black @attackersmen [,] [and|against|with] white @defendersmen",
    "white @defendersmen [,] [and|against|with] black @attackersmen",
  ),
  // one position has two kings and two rooks: whichever of them is whose
  say(
    eitherWay("king"),
    "king [on] {square=first} [,] (and|against) king [on] {square=second}",
    "king [on] {square=first} , king [on] {square=second}",
    "(=kings|both king|two king) [on] {square=first} and {square=second}",
  ),
  say(
    eitherWay("rook"),
    "rook [on] {square=first} [,] (and|against) rook [on] {square=second}",
    "rook [on] {square=first} , rook [on] {square=second}",
    "(=rooks|both rook|two rook) [on] {square=first} and {square=second}",
  ),
  say(
    "not ({spot.piece})",
    "{piece} (not|neither|anywhere but|off|away from|outside|other than) [neither] [on] {spot}",
    "{piece} (not|never) (get|go|come|reach) {spot}",
  ),
  say(
    "throughout ({spot.piece})",
    "{piece} (stay|keep|kept|glued|tied|live) {spot} [throughout|always|all the time|the whole time|to the end]",
  ),
  {
    say: ["(in|on|at|into) [the] {spot}"],
    means: "{spot.king}",
    place: true,
    weak: true,
    example: "Philidor on the d or e file",
  },
  {
    say: ["(not|but not|anywhere but|other than|except) (in|on|at) [the] {spot}", "not {spot}"],
    means: "not ({spot.king})",
    place: true,
    weak: true,
    example: "Philidor but not on the d file",
  },
  say(
    "ended-by = mate and outcome = lost and end ({spot.king})",
    "(mate|mated) {spot}",
    "(mate|mated) [with] @king {spot}",
    "@king (mated|mate) {spot}",
    "mated @king {spot}",
    "mate [against|of] [the] @king {spot}",
  ),
  say("ended-by = stalemate and end ({spot.king})", "stalemate {spot}", "stalemate [with] @king {spot}"),
  say(
    "opposition = direct and king-board-file = {file} and attacker-king-board-file = {file}",
    "[king] [in] [the] [direct] opposition (on|along) [the] {file} file",
    "king (face|facing|oppose|opposite) [each other|one another] (on|along) [the] {file} file",
  ),
  say(
    "king-board-file = {file} and attacker-king-board-file = {file}",
    "both king [be|stand] (on|along) [the] {file} file",
  ),
  say(
    "opposition = direct and {spot.king}",
    "[king] [in] [the] [direct] opposition {spot}",
    "king (oppose|opposed|facing each other|face each other) {spot}",
  ),
  say(
    "king-rank {rel.next}",
    "@king {rel} (square|step|rank) [away] (from|off) [the] [nearest] edge",
    "@king {rel} (square|step|rank) away from [the] [nearest] edge",
  ),
  say(
    "bishop-squares = {tone}",
    "{tone} bishop",
    "[is|be] [a] {tone} one",
    "bishop [is|be] {tone}",
    "bishop (of|on) [the] {tone} [square]",
    "bishop (run|move|travel|work) on {tone} [square]",
  ),
  say("bishop-squares = light", "(light|white) squared"),
  say("bishop-squares = dark", "(dark|black) squared"),
  {
    say: ["white bishop"],
    means: "attacker = white",
    or: [["bishop-squares = light", "the colour of its squares"]],
    weak: true,
  },
  {
    say: ["black bishop"],
    means: "attacker = black",
    or: [["bishop-squares = dark", "the colour of its squares"]],
    weak: true,
  },
  say(
    "rook-board-file = attacker-rook-board-file",
    "rook [both] [facing each other] [on] [the] (same|one) file",
    "(both|two) rook [stand|both] [on] [the] (same|one) file",
    "rook (share|oppose each other on) [a] file",
  ),
  say(
    "rook-board-rank = attacker-rook-board-rank",
    "rook [both] [facing each other] [on] [the] (same|one) rank",
    "(both|two) rook [stand|both] [on] [the] (same|one) rank",
    "rook (share|oppose each other on) [a] rank",
  ),
  say(
    "rook-board-file = attacker-rook-board-file or rook-board-rank = attacker-rook-board-rank",
    "rook (face|facing|oppose|opposing|opposed to) [each other|one another]",
    "rook on [the] (same|one) line",
  ),
  {
    say: [
      "{piece} on [the] {rank} rank",
      "{piece} on rank {n=rank}",
      "{piece} on {rank} rank of [the] board",
      "{piece} on [the] {rank}",
    ],
    means: "{piece}-board-rank = {rank}",
    or: [
      ["{piece}-rank = {rank.own}", "ranks counted from the edge at which the defender's king is held"],
      [
        "(attacker = {piece.white} and {piece}-board-rank = {rank}) or (attacker = {piece.black} and {piece}-board-rank = {rank.mirror})",
        "ranks counted from that side of the board",
      ],
    ],
  },
  say(
    "{piece}-rank = {rank}",
    "{piece} on [the] {rank} rank (of|in) [the] frame",
    "{piece} on [the] {rank} rank from [the] edge",
  ),
  say(
    "{piece}-rank >= {rank}",
    "{piece} on [the] {rank} rank or (higher|above|beyond|farther|further|more|better)",
  ),
  say("{piece}-rank <= {rank}", "{piece} on [the] {rank} rank or (lower|below|nearer|less)"),
  say("attacker-king-rank = {rank.mirror}", "@aking [only] on (its|his|their) [own] {rank} rank"),
  say("attacker-rook-rank = {rank.mirror}", "@arook on (its|his|their) [own] {rank} rank"),
  say("bishop-rank = {rank.mirror}", "bishop on (its|his|their) [own] {rank} rank"),
  say("king-rank = {rank}", "@king on (its|his|their) [own] {rank} rank"),
  say("rook-rank = {rank}", "@rook on (its|his|their) [own] {rank} rank"),
];

// What people say and no fact tells: refused, so that no word of it is taken for something else.

import { FIGURES } from "./figures.js";
import type { Phrase } from "./phrase.js";

export const NO_FACTS: readonly Phrase[] = [
  ...FIGURES,
  {
    say: [
      "had (been (holding|defending|drawing|winning|surviving)|held|defended|survived|held out) [on] for [at least|over|more than] {n} move [when|before|until]",
    ],
    means: "everything",
    refused: [
      "whether something came after so many moves of defence is no fact",
      'ask at which move it came: "defender erred after move 40 of the ending", or how long a set-up lasted: "held the second-rank defence for 40 moves"',
    ],
    example: "had been holding for 40 moves",
  },
  {
    say: [
      "{kind} [,] [and|which|that] (all|every one|each one|each) [of (them|these|those|which)] (hold|win|draw|lose|save|work)",
      "[rook] (side|rear|frontal|long) check [,] [and] (all|every one|each one) [of (them|these|those|which)] (hold|win|draw|lose|save|work)",
      "[rook] check from [the] (side|rear|back|front|behind) [,] [and] (all|every one|each one) [of (them|these|those|which)] (hold|win|draw|lose|save|work)",
      "(every|each) [@rook|@king] (check|capture) (hold|win|draw|save|work)",
    ],
    means: "everything",
    refused: [
      "whether every move of a kind does something is no fact",
      'whether one does is: "no check holds", "only a check holds", or how many moves do: "at least three drawing moves"',
    ],
    example: "every check holds",
  },
  {
    say: [
      "(win|lose|draw|hold|defend|attack|err|blunder|resign) by [a|an|the] [titled|strong] (engine|program|computer)",
      "(engine|program|computer) (win|lose|draw|hold|defend|attack|err|blunder|resign) [as|with|against]",
    ],
    means: "everything",
    refused: [
      "which side a program played is no fact",
      'games of programs are: "engine games, attacker won", "engine games, defender erred"; names are looked up too',
    ],
    example: "lost by an engine",
  },
  {
    say: ["(last|final|penultimate|decisive|opening) round"],
    means: "everything",
    refused: [
      "which round was the last is not in the games",
      'a round by its number is: "round 9", "round 9, attacker won"',
    ],
    example: "last round",
  },
  {
    say: [
      "(took|take|spend|spent|use|used) {time} [time] (in all|in total|all told|altogether|together|overall|on [the] [whole] ending) [for [the] ending]",
      "total (time|thinking time)",
      "(time|clock) (used|spent) (in total|altogether|in all|overall)",
    ],
    means: "everything",
    refused: [
      "how much time the whole ending took is no fact",
      'the time of a move and what was left are facts: "spent more than two minutes on a move", "defender had under a minute left"',
    ],
    example: "took over an hour in all",
  },
  {
    say: [
      "[@king] (move|step) (away from|off|from|onto|along) [the] (edge|rim|back rank|side of [the] board)",
    ],
    means: "everything",
    refused: [
      "whether a king's move leaves the edge is no kind of move",
      'what comes one after the other is a question: "king on the edge, then king off the edge"; kinds of move near it are "king move out of the corner", "king move out of the wedge"',
    ],
    example: "king move away from the edge",
  },
  {
    say: [
      "(all|every|any|everything|each) (but|except|save) (one|a single one|a single) [of [the]] [legal|possible] move [would|will|do|does] [have] (@hold|held|drawn|win|won|keep)",
      "(one|a single) [legal|possible] move (lose|fail|spoil) [,] [while] (everything|all) [the] (else|others|rest)",
    ],
    means: "everything",
    refused: [
      "that all moves but one do something is no fact",
      'ask by share or number: "blunder potential under 10%, defender erred", "at least ten drawing moves, defender erred"',
    ],
    example: "all but one move draws",
  },
  {
    say: [
      "(draw agree|agree [a] draw|agreed drawn|agreed) (early|immediately|at once|too early|too soon|prematurely|quickly)",
      "(premature|early) (=draw|agreement)",
    ],
    means: "everything",
    refused: [
      "how early is early has to be told",
      'ask "draw agreed in less than 10 moves" or "draw agreed in a won position"',
    ],
  },
  {
    say: ["double check"],
    means: "everything",
    refused: [
      "a double check is no fact",
      'near it are "discovered check given", "battery", "discovered check that wins the rook"',
    ],
  },
  {
    say: ["(dead position|insufficient material)"],
    means: "everything",
    refused: [
      "a draw for want of material is not told apart",
      'near it are "rooks exchanged", "bishop lost", "draw by stalemate"',
    ],
  },
  {
    say: ["(early|late) (ending|game|endgame)", "(arise|begin|start) (early|late)"],
    means: "everything",
    refused: [
      "what is early or late has to be told",
      'ask by the move at which the ending arose: "ending arose before move 50", "ending arose after move 70"',
    ],
  },
  {
    say: ["comedy of error"],
    means: "everything",
    refused: [
      "how many mistakes make a comedy has to be told",
      'ask "at least four mistakes" or "most mistakes first"',
    ],
  },
  {
    say: [
      "same position (come|occur|arise|appear|stand|happen) [up|about|back] [on [the] board] [at least|more than] [{n}|{tallied}] [time]",
      "repeat [the] (position|move) [at least|more than] [{n}|{tallied}] [time]",
      "[at least|more than] {n} repetition",
    ],
    means: "everything",
    weak: true,
    refused: [
      "how often a position came back is no fact",
      'how the game ended is one: "draw by repetition", "draw by the fifty-move rule"',
    ],
    example: "repeated the position three times",
  },
  {
    say: ["@arook (behind|in front of|beside|next to) (his|its|her|their) [own] king"],
    means: "everything",
    refused: [
      "where the attacker's rook stands beside its own king is no fact",
      "beside the defender's king it is one: \"attacker's rook behind the defender's king\"",
    ],
    example: "attacker's rook behind its king",
  },
  {
    say: ["@rook cut off from [its|the] [own] [defending|defender] king"],
    means: "everything",
    refused: [
      "whether a rook is cut off from its own king is no fact",
      'where it stands is one: "rook on the long side", "rook on the opposite wing from its king", "unprotected rook"',
    ],
  },
  {
    say: [
      "(woman|women|female|girl|lady|ladies|junior|boy|youth) (game|player|chess)",
      "between (women|juniors)",
    ],
    means: "everything",
    refused: [
      "who is a woman or a junior is not in the games",
      'the name of the event often tells it: event ~ "Women", event ~ "U20"',
    ],
  },
  {
    say: ["world champion", "[by] [the] world champion", "titled [player|engine|opponent]"],
    means: "everything",
    refused: [
      "titles are not in the games",
      'names and ratings are: "Carlsen defended", "attacker rated over 2750", event ~ "World Championship"',
    ],
  },
  {
    say: [
      "(bishop|rook) [was|is|be] [@gone|exchange|swap|trade|swapped|traded] [off|away|up] for [the|a|an] [enemy|other] (bishop|rook|piece)",
      "(@giveup|@taking|exchange|swap|trade|give|swapped|traded) [off|away|up] [the|a|its|his] (bishop|rook) for [the|a|an|its|his] [enemy|other] (bishop|rook|piece)",
      "(exchange|swap|trade|loss|sacrifice) of [the|a] (bishop|rook) for [the|a] (bishop|rook|piece)",
    ],
    means: "everything",
    refused: [
      "the first capture ends the ending, so that what was taken back for it is no fact",
      'which piece was captured is: "bishop given up", "rook lost", "rooks exchanged"',
    ],
    example: "bishop given up for the rook",
  },
  {
    say: ["(winner|loser|winning side|losing side|winning player|losing player) [own] (@king|@rook)"],
    means: "everything",
    refused: [
      "a piece of whoever won or lost has to be told by its side",
      'ask "attacker won with his king on the edge", "defender lost with his king in the corner"',
    ],
    example: "winner's king on the edge",
  },
  {
    say: [
      "@onlyone move (stop|stops|prevent|parry|parries|avert|averts|meet) (it|this|that|[the] mate|[the] threat)",
    ],
    means: "everything",
    refused: [
      "which moves stop a threat is no fact",
      'which keep the result is: "mate threatened, only move for the defender"',
    ],
    example: "only one move stops it",
  },
  {
    say: [
      "[defender|attacker|king|rook|it|he|she] (can|could) [simply|just] (take|capture|grab) [the] (bishop|rook) !for",
    ],
    means: "everything",
    refused: [
      "which piece can be taken by which is no fact, other than for nothing",
      'near it are "rook attacks the bishop", "bishop can be taken for free", "capture possible"',
    ],
    example: "the rook can take the bishop",
  },
  {
    say: ["(winner|loser|winning side|losing side) (have|had|with|having|be|was|rated|under|over|in)"],
    means: "everything",
    weak: true,
    refused: [
      "what whoever won or lost had has to be told by the side",
      'ask "attacker won, attacker with under a minute left", "attacker won, attacker rated over 2500"',
    ],
    example: "the winner had a minute left",
  },
  {
    say: ["triangulate", "triangulation", "lose a tempo", "lose a move"],
    means: "everything",
    refused: [
      "a manoeuvre of several moves to lose a move is no fact",
      'near it are "waiting move", "zugzwang", "the only winning move is a waiting move"',
    ],
  },
  {
    say: ["(easy|hard|tough|comfortable|effortless) (=draw|=save|=defence)"],
    means: "everything",
    refused: [
      "how easy a draw was has to be told",
      'ask "drawn in fewer than 20 moves", "drawn without a mistake", "defender found ten only moves", "blunder potential under 10%"',
    ],
    example: "easy draws",
  },
  {
    say: ["[the] (last|final) move (is|was|be|of [the] (game|ending) (is|was|be)) [a]"],
    means: "everything",
    refused: [
      "which move was the last of a game is no fact",
      'the move that decided is one: "decisive mistake by the defender"; and so is how it stood at the end: "drawn in the final position, attacker won"',
    ],
    example: "last move was a blunder",
  },
  {
    say: ["[@king] [stand|sit|be|stuck] (in|to|into|at) [the] (other|opposite) corner"],
    means: "everything",
    refused: [
      "which corner is the other one has to be told",
      'ask "king in the wrong corner", "king in the right corner", "king on a8 or h1", "king ran to the other corner"',
    ],
    example: "king stands in the other corner",
  },
  {
    say: [
      "(=offer|offered|offers|decline|declined|refuse|refused|reject|rejected|accept) [a|the] draw [offer]",
      "draw offer",
    ],
    means: "everything",
    refused: [
      "offers of a draw are not in the games",
      'what came of them is: "draw agreed", "draw agreed in a won position"',
    ],
    example: "defender offered a draw",
  },
  {
    say: ["[a|one|any] [single] (inaccuracy|inaccuracies|imprecision)", "(inaccurate|imprecise) move"],
    means: "everything",
    refused: [
      "a move that leaves the result as it is counts as no mistake here, however slow it is",
      'ask "without a mistake", "mistake by the attacker", or by the way to mate: "mate in more than 30"',
    ],
    example: "not a single inaccuracy",
  },
  {
    say: ["(monday|tuesday|wednesday|thursday|friday|saturday|sunday|weekend)"],
    means: "everything",
    refused: [
      "the day of the week is not in the games",
      'dates are: "in March 2014", "on 12 March 2014", "in 2014"',
    ],
    example: "played on a Sunday",
  },
  {
    say: ["(since|after|before|until|till|from) [the] {day}", "between [the] {day} and [the] {day}"],
    means: "everything",
    refused: [
      "games are not compared by the day, but by month and year",
      'ask "since March 2014", "from March to June 2014", "after 2014"; or for one day: "on 12 March 2014"',
    ],
    example: "since 12 March 2014",
  },
  {
    say: [
      "(play|find|miss|overlook|choose|try|see|after|answer|reply|prefer|consider|refute|need|with the move|the move|blunder|err|go wrong|only move|only draw|only win|only defence|only save|mistake|slip) [was|be|by|with] [move] {man}",
      "{man} [?|!] (lose|win|draw|hold|throw|spoil|give|keep|save|was|be|is|would|could|should|miss|only move|mistake|blunder|play|played|instead|first|next)",
    ],
    means: "everything",
    refused: [
      "where a move goes is asked for by its notation",
      'ask move ~ "Rh8", or where a piece stands: "king on f8, rook on d7"',
    ],
    example: "played Rd7",
  },
  {
    say: ["(plenty of|enough|lot of|lots of|sufficient|a lot of) time [@clock]"],
    means: "everything",
    refused: [
      "how much time is plenty has to be told",
      'ask "with more than five minutes on the clock", "defender had more time", or for the contrary: "in time trouble"',
    ],
    example: "with plenty of time",
  },
  {
    say: ["[@king|@rook|bishop] [stand|be] on [the] (wrong|right|bad|good) side of [the] board"],
    means: "everything",
    refused: [
      "which side of the board is the wrong one has to be told",
      'ask "rook on the short side", "king and rook on the same side", "king in the wrong corner"',
    ],
    example: "king on the wrong side of the board",
  },
];

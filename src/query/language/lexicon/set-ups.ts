// Set-ups: being in one, and what becomes of it.

import { type Phrase, say } from "./phrase.js";

export const SET_UPS: readonly Phrase[] = [
  say(
    "{setup}",
    "{setup}",
    "(reach|get|enter|obtain|have|had|adopt|use|choose|set up|arrive at) [into|to] [the|a] {setup}",
    "(run|fall|walk|stumble|slip) into [the|a] {setup}",
    "{setup} (reach|arise|occur|on [the] board|appear|come about|was reached)",
    "(go|come|get|drift|steer|head|make|move) (into|for|to) [the|a] {setup}",
    "with {setup} (reach|on [the] board)",
  ),
  say(
    "{setup}",
    "(against|facing) [the] {setup}",
    "(defend|sit|stand) (on|from|along) [the] {rankOfSetUp=setup}",
  ),
  say("never ({setup})", "never (on|in) [the] {rankOfSetUp=setup}"),
  say(
    "never ({setup})",
    "{setup} never (show up|showed up|appear|arise|occur|happen|come about|came about|reach)",
  ),
  say("never (verdict = won)", "attacker never (have|had) [a] (won|winning) position"),
  {
    say: [
      "never =winning [at any (point|time|stage|moment)]",
      "never (have|had) [a] (won|winning) position [at any (point|time|stage|moment)]",
    ],
    means: {
      nobody: "never (verdict = won)",
      attacker: "never (verdict = won)",
      defender: "never (verdict = lost)",
    },
  },
  {
    say: ["(defend|play|answer|respond) (with|by|in) [the] {setup}", "(play|use|choose|adopt) [the] {setup}"],
    means: {
      nobody: "{setup}",
      side: "{setup}",
      white: "{setup} and attacker = black",
      black: "{setup} and attacker = white",
      name: "defender-name ~ {name} and {setup}",
    },
    of: "defender",
  },
  { say: ["see [the] {setup} hold"], means: "{setup} and outcome = held", of: "defender", result: true },
  say("end ({setup})", "end (in|with) [the] {setup}", "(final|last) position (was|is) [a|the] {setup}"),
  say(
    "somewhere ({a}) and somewhere ({b})",
    "{setup=a} and {setup=b} [,] [both] [in] [the] (same|one) (game|ending)",
  ),
  say(
    "reached {setup} by (to-move = attacker and error != none)",
    "[attacker] @mistake (let|allow) [the] defender [get|come] (into|reach) [the] {setup}",
  ),
  say(
    "stays {setup} {tallied}",
    "(come|go|get|step) back (to|into) [the] {setup} {tallied}",
    "return (to|into) [the] {setup} {tallied}",
    "{setup} (arise|occur|recur|appear|happen) {tallied}",
  ),
  say(
    "stays {setup} >= 2",
    "(come|go|get|step|switch) back (to|into) [the] {setup}",
    "(return|retreat) (to|into) [the] {setup}",
    "(come|go|get|step|switch) back (to|into) [the] {setup} after (leaving|giving up|abandoning) it",
    "(return|retreat) (to|into) [the] {setup} after (leaving|giving up|abandoning) it",
    "(regain|restore|rebuild) [the] {setup}",
    "{setup} (again|once more|restored|regained|rebuilt)",
  ),
  say(
    "throughout ({setup})",
    "(stay|keep|remain|hold on|stick|sit) (in|to|with|on) [the] {setup} (throughout|all the time|the whole time|always|(to|until|till) [the] [very] end)",
    "(keep|keep up|hold|maintain) [up] [the] {setup} [up] (throughout|all the time|the whole time|always)",
  ),
  {
    say: [
      "(keep|keep up|hold|maintain|stay in|stick to) [up] [the] {setup} [up] (to|until|till) [the] [very|bitter] (end|last [move|position])",
      "{setup} (to|until|till) [the] [very|bitter] (end|last [move|position])",
    ],
    means: "end ({setup})",
    or: [["throughout ({setup})", "from the start to the end"]],
  },
  say("{setup} and moves-left <= {n}", "{setup} @inlast"),
  say(
    "held {setup} for {n} moves",
    "(hold|keep|keep up|maintain|stay in|stand in|sit in|keep to|stick to|stay with|last in|defend) [up] [the] {setup} [up] (for|over) [at least] {n} move",
    "{setup} (hold|keep|keep up|maintain|last) [up] [for] [at least] {n} move",
    "(hold|keep|keep up|maintain|stay in|stick to) [the] {setup} [for] {n} move or (more|longer)",
    "{setup} for [at least] {n} move [or more|or longer|and more|and longer]",
    "{n} move (in|of) [the] {setup}",
    "{setup} [that] last {n} move",
    "(@hold|defend|last|survive|hold out) [for] [at least] {n} move (with|in|using|by|thanks to) [the] {setup}",
  ),
  say(
    "held {setup} for {n} moves",
    "(@hold|defend|last|survive|hold out) [for] (more than|over) {successor=n} move (with|in|using|by|thanks to) [the] {setup}",
  ),
  say(
    "held {setup} for {n} moves",
    "(hold|keep|keep up|maintain|stay in|stick to) [up] [the] {setup} [up] [for] (more than|longer than|over) {successor=n} move",
    "{setup} (hold|keep|last|maintain) [up] [for] (more than|longer than|over) {successor=n} move",
    "{setup} for (more than|longer than|over) {successor=n} move",
  ),
  say(
    "{a} then within {n} moves {b}",
    "(reach|enter|get) [the] {setup=b} from [the] {setup=a} (within|in) {n} move",
    "(switch|go|change|turn|move|get) [over] [from] [the] {setup=a} (to|into) [the] {setup=b} (within|in) {n} move",
  ),
  say(
    "{setup} then (not {setup} and {mover}error != none)",
    "(first|next) @mistake after (leaving|giving up|abandoning|having left|stepping out of) [the] {setup}",
    "@err (after|once|when) [having] (leaving|left|given up|giving up|abandoned|abandoning|out of) [the] {setup}",
  ),
  say(
    "reached {b} from {a}",
    "(switch|go|change|turn|move|get|transpose|cross|pass|slip|slide) [over] [from] [the] {setup=a} (to|into) [the] {setup=b}",
    "(reach|enter|get|come to) [the] {setup=b} from [the] {setup=a}",
    "[from] [the] {setup=a} (to|into) [the] {setup=b}",
    "[the] {setup=a} (become|became|turn into|slip into|change into|transpose to|transpose into|lead to|switch to) [the] {setup=b}",
    "{setup=b} (reach|arise|come) from [the] {setup=a}",
    "[switch|go|change|turn|move|get|transpose] from [the] {rankOfSetUp=a} (to|into) [the] {setup=b}",
    "(reach|enter|get) [the] {setup=b} from [the] {rankOfSetUp=a}",
    "[switch|go|change|turn|move|get|transpose] from [the] {setup=a} to [the] {rankOfSetUp=b}",
  ),
  say(
    "{a} then {b}",
    "(switch|go|change|turn|move|get|transpose|pass) [over] [from] [the] {setup=a} (to|into) [the] {setup=b} in [the] (same|one|single) (game|ending)",
    "[from] [the] {setup=a} (to|into) [the] {setup=b} in [the] (same|one|single) (game|ending)",
    "{setup=a} (then|followed by|and then|and later|and afterwards|later|before) [the] {setup=b}",
    "{setup=b} after [the] {setup=a}",
    "{setup=b} (preceded by) [the] {setup=a}",
    "first [the] {setup=a} [,] (then|later|afterwards|after that) [the] {setup=b}",
    "{setup=a} [,] [but] later [come to|reach] [the] {setup=b}",
    "{setup=a} first [,] {setup=b} (later|afterwards|after that)",
    "{setup=a} first [,] [and] then [the] {setup=b}",
    "from [the] {rankOfSetUp=a} (to|into) [the] {setup=b} [,] (any number of move later|at some point|sooner or later|eventually|some time later|later)",
  ),
  say(
    "{a} then within {n} moves {b}",
    "{setup=a} (and|then) within {n} move [the] {setup=b}",
    "{setup=a} then within {n} move [the] {setup=b}",
    "{setup=a} [and] {n} move later [the] {setup=b}",
    "{setup=b} within {n} move (of|after) [the] {setup=a}",
  ),
  say(
    "first ({setup}) within {n} moves of entry",
    "{setup} [on [the] board|reach|arise] (within|in) [the] [first] {n} move [@ofending]",
    "(reach|get|enter) [the] {setup} (within|in) [the] [first] {n} move [@ofending]",
  ),
  say(
    "left {setup} by ({mover}kind = {kind})",
    "(leave|give up|abandon|step out of|break|break up) [the] {setup} (with|by) [a] {kind}",
  ),
  say(
    "left {setup} by ({mover}kind = {kind} and error != none)",
    "(leave|give up|abandon|break) [the] {setup} (with|by) [a] (lose|bad|wrong) {kind}",
    "(leave|give up|abandon|break) [the] {setup} (with|by) [a] {kind} (that|which) (lose|was [a] @mistake)",
  ),
  say(
    "left {setup} by ({mover}error != none)",
    "(leave|give up|abandon|break) [the] {setup} (with|by|through) [a] @mistake",
    "(leave|give up|abandon|break) [the] {setup} (too early|too soon|prematurely|wrongly)",
    "{setup} [was] (leave|left|give up|abandon|broken) (too early|too soon|prematurely|wrongly)",
  ),
  {
    say: [
      "[be] (save|rescue) [itself|himself|herself|themselves|[the] (draw|game|day|half point)] (by|with|through|thanks to) [a] stalemate (trick|resource|idea|trap)",
    ],
    means: "outcome = held and somewhere (stalemate-resource)",
    of: "defender",
    result: true,
  },
  say(
    "{setup} and not left {setup}",
    "never (leave|left|give up|abandon|break|step out of|get out of) [the] {setup}",
    "{setup} never (left|given up|abandoned|broken)",
  ),
  {
    say: ["{setup} [was] (broken|break|break down|breached)"],
    means: "left {setup}",
    or: [["{setup} and outcome = lost", "the game: it was lost"]],
    example: "Szén broken",
  },
  say(
    "left {setup}",
    "(leave|give up|abandon|step out of|get out of|come out of|go out of|escape from|escape|get away from|break|break up|dissolve|drop) [the|a] {setup}",
    "{setup} [was] (break up|give up|abandon|left|leave|dissolved)",
  ),
  say(
    "{a} then {b}",
    "{setup=a} [was] (broken|break|break down|break up|collapse|give up|abandon|left|leave) [,] [and] (then|later|afterwards) [the] {setup=b}",
    "(leave|give up|abandon) [the] {setup=a} [,] [and] (then|for|in favour of) [the] {setup=b}",
  ),
  {
    say: [
      "(misplay|mishandle|mishandled|botch|bungle|spoil|play badly) [the|a] {setup}",
      "let [the] {setup} (slip|go) [away]",
      "{setup} (misplay|mishandled|botched|bungled|spoil)",
    ],
    means: "{setup} and {mover}error != none",
  },
  {
    say: [
      "(save|rescue|hold) (itself|himself|herself|themselves|[the] draw|[the] game|[the] day|[the] half point) (with|by|through|thanks to) [the|a] {setup}",
    ],
    means: "{setup} and outcome = held",
    of: "defender",
    result: true,
  },
  {
    say: [
      "{setup} reach (by|through|with|after) [a] @mistake [by|of|from] [{who}]",
      "reach [the] {setup} (by|through|after) [a] @mistake [by|of|from] [{who}]",
    ],
    means: "reached {setup} by ({mover}error != none)",
  },
  {
    say: ["@err [straight|right] into [the|a] {setup}"],
    means: {
      nobody: "reached {setup} by (to-move = defender and error != none)",
      side: "reached {setup} by ({mover}error != none)",
      white: "reached {setup} by ({mover}error != none)",
      black: "reached {setup} by ({mover}error != none)",
      name: "reached {setup} by ({mover}error != none)",
    },
    example: "blundered into the Philidor",
  },
  say("reached {setup} by (kind = {kind})", "(reach|enter) [the] {setup} (by|with) [a] {kind}"),
];

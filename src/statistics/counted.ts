// How many endings a study counts, how many it leaves out, and what a reader should know of them.

import { factNamed } from "../query/language/vocabulary.js";
import { EXCLUSIONS } from "../store/exclusions.js";
import { type LeftOut, exclusionsOf, nothingLeftOut } from "./exclusions.js";
import type { Gathering, Study } from "./moves-made.js";

export interface Counted {
  readonly endings: number;
  readonly leftOut: LeftOut;
  /** Of the endings counted, those in games that programs may have played, and all clock times that could not be read. */
  readonly doubtful: number;
  readonly unread: number;
  /** Copies, counted or not, that have another result than the game that counts. */
  readonly differing: number;
}

/** What a study counts. */
export function countedIn(study: Study): Gathering<Counted> {
  const facts = ["doubtful-engine-game", "unread-clocks", "duplicate-differs"].map((name) =>
    factNamed(name)!,
  );
  const excluded = exclusionsOf(study.db, study.leaveOut);
  const leftOut = nothingLeftOut(study.leaveOut);
  let [endings, doubtful, unread, differing] = [0, 0, 0, 0];
  return {
    facts,
    look({ evaluation, answers, from, endings: counted }) {
      const [programs, clocks, differs] = facts.map((fact) => evaluation.endingValues(fact));
      for (const n of counted) {
        ++endings;
        if (programs[n] === 1) ++doubtful;
        unread += Number(clocks[n]);
      }
      answers.forEach((answer, n) => {
        if (!answer) return;
        const reason = excluded[from + n];
        if (reason >= 0) ++leftOut[EXCLUSIONS[reason].name];
        if (differs[n] === 1) ++differing;
      });
    },
    result: () => ({ endings, leftOut, doubtful, unread, differing }),
  };
}

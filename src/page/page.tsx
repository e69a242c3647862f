// The page: its head, the links to its places, and the place that the address says.

import { render } from "preact";
import { useEffect, useRef } from "preact/hooks";

import { Link, currentAddress, useAddressPart } from "./address.js";
import { useStored } from "./browser-storage.js";
import { useAnswer } from "./call-hooks.js";
import { callEarly } from "./calls.js";
import { keepFocus } from "./keep-focus.js";
import { counted } from "./parts.js";
import { AskPlace, beginAsking } from "./places/ask.js";
import { BoardPlace } from "./places/board.js";
import { CollectionPlace } from "./places/collection.js";
import { EndingPlace } from "./places/ending.js";
import { GamesPlace } from "./places/games.js";
import { LessonPlace } from "./places/lesson.js";
import { PlayPlace } from "./places/play.js";
import { PractisePlace } from "./places/practise.js";
import { TheoryPlace } from "./places/theory.js";
import { isWorking, listenToServer, useServerState } from "./server-state.js";
import { UndoButtons } from "./undo-buttons.js";

const LINKS = {
  "/ask": "Ask",
  "/board": "Board",
  "/practise": "Practise",
  "/theory": "Theory",
  "/tray": "Tray",
  "/lesson": "Lesson",
  "/games": "Games",
} as const;

const Head = ({ here }: { here: string }) => {
  const working = useServerState(isWorking);
  const { collection } = useStored();
  const { answer } = useAnswer("holds", {});
  return (
    <header class="top">
      <p class="name">
        <Link to="/ask">longside</Link>
      </p>
      <nav aria-label="Places">
        {Object.entries(LINKS).map(([to, name]) => (
          <Link key={to} to={to} aria-current={to === here ? "page" : undefined}>
            {name}
            {to === "/tray" && collection.length > 0 && ` (${collection.length})`}
            {to === "/games" && working && " …"}
          </Link>
        ))}
      </nav>
      <UndoButtons />
      <p class="held">
        {answer?.held &&
          `${counted(answer.held.gamesWithEndings, "game")} · ${counted(answer.held.positions, "position")}`}
      </p>
    </header>
  );
};

const Place = ({ path, ending }: { path: string; ending: string | undefined }) => {
  if (ending !== undefined) return <EndingPlace key={ending} id={Number(ending)} />;
  if (path === "/board") return <BoardPlace />;
  if (path === "/play") return <PlayPlace />;
  if (path === "/practise") return <PractisePlace />;
  if (path === "/theory") return <TheoryPlace />;
  if (path === "/tray") return <CollectionPlace />;
  if (path === "/lesson") return <LessonPlace />;
  if (path === "/games") return <GamesPlace />;
  if (path === "/ask" || path === "/") return <AskPlace />;
  return (
    <p class="note">
      There is nothing at this address. <Link to="/ask">Begin by asking</Link>.
    </p>
  );
};

const Page = () => {
  const path = useAddressPart((address) => address.path);
  const lost = useServerState((server) => server.lost);
  const main = useRef<HTMLElement>(null);
  const first = useRef(true);
  const ending = /^\/ending\/(\d+)$/.exec(path)?.[1];
  // the keyboard and screen readers begin at the top of what is shown now
  useEffect(() => {
    if (!first.current) main.current?.focus();
    first.current = false;
  }, [path]);
  return (
    <>
      <a class="skip" href="#main">
        To the content
      </a>
      <Head here={path === "/" || ending !== undefined ? "/ask" : path === "/play" ? "/practise" : path} />
      {lost && (
        <p class="error-message" role="alert">
          The server does not answer. Start longside again; this page then goes on by itself.
        </p>
      )}
      <main id="main" tabIndex={-1} ref={main}>
        <Place path={path} ending={ending} />
      </main>
    </>
  );
};

// what is asked for is on its way while what is there already is painted: the head of the document, with its style
beginAsking(currentAddress());
callEarly("holds", {});
requestAnimationFrame(() =>
  setTimeout(() => {
    listenToServer();
    keepFocus();
    render(<Page />, document.getElementById("page")!);
  }),
);

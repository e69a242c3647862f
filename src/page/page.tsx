// The page: its head, the ways to its places, and the place that the address says.

import { render } from "preact";
import { useEffect, useRef } from "preact/hooks";

import { Link, useAddress } from "./address.js";
import { useNews } from "./calls.js";
import { useKept } from "./browser-storage.js";
import { Ask } from "./places/ask.js";
import { BoardPlace } from "./places/board.js";
import { EndingPlace } from "./places/ending.js";
import { GamesPlace } from "./places/games.js";
import { PlayPlace } from "./places/play.js";
import { PractisePlace } from "./places/practise.js";
import { TrayPlace } from "./places/tray.js";

const WAYS = [
  ["/ask", "Ask"],
  ["/board", "Board"],
  ["/practise", "Practise"],
  ["/tray", "Tray"],
  ["/games", "Games"],
] as const;

const Page = () => {
  const { path } = useAddress();
  const going = useNews();
  const { tray } = useKept();
  const main = useRef<HTMLElement>(null);
  const first = useRef(true);
  const ending = /^\/ending\/(\d+)$/.exec(path)?.[1];
  // who does not see that another place is shown is taken to its beginning
  useEffect(() => {
    if (!first.current) main.current?.focus();
    first.current = false;
  }, [path]);
  const place = () => {
    if (ending !== undefined) return <EndingPlace key={ending} id={Number(ending)} going={going} />;
    if (path === "/board") return <BoardPlace going={going} />;
    if (path === "/play") return <PlayPlace going={going} />;
    if (path === "/practise") return <PractisePlace going={going} />;
    if (path === "/tray") return <TrayPlace going={going} />;
    if (path === "/games") return <GamesPlace going={going} />;
    if (path === "/ask" || path === "/") return <Ask going={going} />;
    return (
      <p class="note">
        There is nothing at this address. <Link to="/ask">Begin by asking</Link>.
      </p>
    );
  };
  const here = path === "/" || ending !== undefined ? "/ask" : path === "/play" ? "/practise" : path;
  return (
    <>
      <a class="skip" href="#main">
        To the content
      </a>
      <header class="top">
        <p class="name">
          <Link to="/ask">longside</Link>
        </p>
        <nav aria-label="Places">
          {WAYS.map(([to, said]) => (
            <Link key={to} to={to} aria-current={to === here ? "page" : undefined}>
              {said}
              {to === "/tray" && tray.length > 0 && ` (${tray.length})`}
              {to === "/games" && going.work?.what && " …"}
            </Link>
          ))}
        </nav>
      </header>
      {going.lost && (
        <p class="fault" role="alert">
          The server does not answer. Start longside serve again; this page then goes on by itself.
        </p>
      )}
      <main id="main" tabIndex={-1} ref={main}>
        {place()}
      </main>
    </>
  );
};

render(<Page />, document.getElementById("page")!);

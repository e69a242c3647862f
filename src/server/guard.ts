// Who may speak to the server: requests are answered only under its own names, from its own page, and, where it listens
// beyond this machine, with its token.

import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import { hostname, networkInterfaces } from "node:os";

import { parseCookie, stringifySetCookie } from "cookie";

import { LongsideError } from "../errors.js";

const LOOPBACK = ["127.0.0.1", "::1", "localhost"];

export const isLoopback = (host: string): boolean => LOOPBACK.includes(host);

/** A new token: 144 random bits. */
export const newToken = (): string => randomBytes(18).toString("base64url");

/** What every answer says of itself: nothing from elsewhere, nothing framed, nothing guessed. */
export const HEADERS: Readonly<Record<string, string>> = {
  "content-security-policy":
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data: blob:; connect-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  "x-content-type-options": "nosniff",
  "x-frame-options": "DENY",
  "referrer-policy": "no-referrer",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "permissions-policy": "camera=(), microphone=(), geolocation=()",
  "cache-control": "no-store",
};

/** Of what was made to be read or printed: its own style, no script, no address of its own; framed by the page alone. */
export const MADE_POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'self'; sandbox allow-modals allow-popups";

/** Names and addresses under which this machine can be reached. */
function ownNames(host: string): string[] {
  if (isLoopback(host)) return LOOPBACK;
  const addresses = Object.values(networkInterfaces()).flatMap(
    (all) => all?.map(({ address }) => address) ?? [],
  );
  return [...LOOPBACK, host, hostname(), `${hostname()}.local`, ...addresses];
}

export interface Asked {
  readonly host: string | undefined;
  readonly origin: string | undefined;
  readonly site: string | undefined;
  readonly cookie: string | undefined;
  /** Whether a document is asked for to be shown in a tab of its own, as by a link; it holds no data. */
  readonly opens: boolean;
  /** Address of the one who asks, and the one of this machine that was asked. */
  readonly from: string | undefined;
  readonly to: string | undefined;
}

export class Guard {
  private readonly names: ReadonlySet<string>;

  /** `token` is asked of everybody; of nobody where it is undefined. */
  constructor(
    listening: string,
    readonly token: string | undefined,
  ) {
    this.names = new Set(ownNames(listening).map((name) => name.toLowerCase()));
  }

  /** The name of the cookie: another for each token, since cookies know no ports. */
  private get cookieName(): string {
    return `longside-${createHash("sha256").update(this.token!).digest("hex").slice(0, 12)}`;
  }

  /** The cookie that carries the token. Lax, so that a link in a mail opens; what changes anything is a POST. */
  cookie(): string {
    return stringifySetCookie({
      name: this.cookieName,
      value: this.token,
      httpOnly: true,
      sameSite: "lax",
      path: "/",
    });
  }

  /** Whether some text is the token, told without giving away how much of it is right. */
  fits(text: string): boolean {
    if (this.token === undefined) return true;
    const [given, own] = [Buffer.from(text), Buffer.from(this.token)];
    return given.length === own.length && timingSafeEqual(given, own);
  }

  /** Whether a request comes from this machine. */
  isHere({ from = "", to }: Asked): boolean {
    return from === "::1" || /^(?:::ffff:)?127\./.test(from) || (from !== "" && from === to);
  }

  /** Throws `not-allowed`. */
  check(asked: Asked): void {
    const { host = "", origin, site, opens, cookie = "" } = asked;
    const refuse = (cause: string, hint: string) => new LongsideError("not-allowed", { cause, hint });
    // another name that leads here belongs to a page elsewhere whose address was changed to this one (DNS rebinding)
    const name = /^(?:\[([0-9a-f:]+)\]|([^:[\]]+))(?::\d+)?$/i.exec(host);
    if (!name || !this.names.has((name[1] ?? name[2]).toLowerCase()))
      throw refuse(
        `this server is not called ${host.slice(0, 100)}`,
        "use the address that longside serve printed",
      );
    if (origin !== undefined && origin !== `http://${host}`)
      throw refuse("the request comes from another page", "use the page that longside serve opens");
    if (site !== undefined && site !== "same-origin" && site !== "none" && !opens)
      throw refuse("the request comes from another site", "use the page that longside serve opens");
    if (this.token === undefined) return;
    const given = parseCookie(cookie)[this.cookieName];
    if (given === undefined || !this.fits(given))
      throw refuse(
        "the token is missing or wrong",
        "open the whole address again that longside gave when it started",
      );
  }
}

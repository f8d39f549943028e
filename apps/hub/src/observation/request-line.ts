/** What is written down of one request: nothing that says whose it was, or about which herd. */
export interface RequestLine {
  readonly method: string;
  /** The route as it stands in the table of routes, never the address itself. */
  readonly route: string;
  readonly status: number;
  /** Until the answer was ready to be sent, ms. */
  readonly ms: number;
  /** Length of the answer; `undefined` for one that goes on. */
  readonly bytes: number | undefined;
}

const METHODS: ReadonlySet<string> = new Set(["GET", "HEAD", "POST", "PUT", "DELETE", "OPTIONS", "PATCH"]);

/** The line of an answered request. A method that nobody knows is `OTHER`, since a caller may write anything there. */
export function requestLine(method: string, route: string, response: Response, ms: number): RequestLine {
  const length = response.headers.get("content-length");
  return {
    method: METHODS.has(method) ? method : "OTHER",
    route,
    status: response.status,
    ms: Math.round(ms * 10) / 10,
    bytes: length === null ? undefined : Number(length),
  };
}

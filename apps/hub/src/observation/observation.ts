import { createHash, timingSafeEqual } from "node:crypto";
import { answer, refuse } from "../reply.ts";
import type { Journal } from "./journal.ts";
import { type Gauge, METRICS_TYPE, type Metrics } from "./metrics.ts";

/** What a hub tells of itself to whoever runs it. */
export interface Observation {
  readonly journal: Journal;
  readonly metrics: Metrics;
  /** Figures as they stand now; those of a database that is away are left out. */
  readonly gauges: () => Promise<readonly Gauge[]>;
  /** Whoever shows it may fetch the metrics from anywhere; without one, only programs on this computer may. */
  readonly token: string | undefined;
}

/** The answer to whoever fetches the metrics. `isHere` says that the request comes from this computer. */
export async function metricsReply(
  observation: Observation | undefined,
  request: Request,
  isHere: boolean,
): Promise<Response> {
  if (observation === undefined) return refuse("no-such-page");
  const { token, metrics, gauges } = observation;
  const shown = /^Bearer (\S+)$/.exec(request.headers.get("authorization") ?? "")?.[1];
  const isKnown = token === undefined ? isHere : shown !== undefined && isSame(shown, token);
  if (!isKnown) return refuse("not-yours");
  const text = metrics.text(await gauges());
  return new Response(text, {
    headers: {
      "content-type": METRICS_TYPE,
      "content-length": String(Buffer.byteLength(text)),
      "cache-control": "no-store",
    },
  });
}

/** The answer to whoever asks whether the hub can do its work: 200, or 503 while its database is away. */
export const healthReply = (about: object, isUp: boolean): Response => (isUp ? answer(about) : refuse("unavailable"));

const digest = (text: string): Buffer => createHash("sha256").update(text).digest();
const isSame = (a: string, b: string): boolean => timingSafeEqual(digest(a), digest(b));

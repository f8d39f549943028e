import { err, ok, type Result } from "@pollard/base";
import { EXCHANGE_VERSION, type ExchangePeer, type HerdId, type PeerFailure, type Verdict } from "@pollard/records";
import { askHub, herdUrl } from "./hub-peer.ts";
import type { ShownVisit } from "./hub-shown.ts";

/** A list that is shown to a vet's phone, and for which day. */
export type VisitOfDay = ShownVisit & { readonly day: string };

/** What was handed over and came back, of one day. */
type DayReply = Result<readonly Verdict[], PeerFailure>;

/**
 * The hub as a vet's phone knows it: nothing of the herd comes from there but the lists that are shown (told to `onVisits`),
 * and what was done goes to the list of its day.
 *
 * A day that is shown no longer refuses what comes for it, entry by entry; the other days are taken all the same.
 */
export function visitPeer(
  herd: HerdId,
  base: string,
  token: string | undefined,
  onVisits: (visits: readonly VisitOfDay[]) => void,
): ExchangePeer {
  let copy = "";
  const handOver = async (day: string, entries: readonly unknown[]): Promise<DayReply> => {
    const json = { exchange: EXCHANGE_VERSION, entries };
    const answer = await askHub(herdUrl(herd, base, `visits/${day}/entries`), { method: "POST", json, token });
    if (answer.ok) return ok((answer.value as { readonly verdicts?: readonly Verdict[] }).verdicts ?? []);
    const { error } = answer;
    if (error.code !== "peer-refused" || error.reason !== "no-such-visit") return err(error);
    return ok(entries.map(() => ({ verdict: "refused", reason: { code: "not-yours-to-write", kind: "disbudding" } })));
  };
  return {
    async pull(after) {
      const answer = await askHub(herdUrl(herd, base, "visits"), { token });
      if (!answer.ok) return answer;
      const told = answer.value as { readonly visits: readonly VisitOfDay[]; readonly copy: string };
      copy = told.copy;
      onVisits(told.visits);
      return ok({ exchange: EXCHANGE_VERSION, copy, entries: [], next: after, more: "no" });
    },
    async push({ entries }) {
      const verdicts: Verdict[] = [];
      for (const [day, places] of placesByDay(entries)) {
        const reply = await handOver(
          day,
          places.map((place) => entries[place]),
        );
        if (!reply.ok) return reply;
        for (const [at, place] of places.entries()) {
          const verdict = reply.value[at];
          if (verdict !== undefined) verdicts[place] = verdict;
        }
      }
      return ok({ exchange: EXCHANGE_VERSION, copy, verdicts });
    },
  };
}

/** Which entries are of which day, by their places. */
function placesByDay(entries: readonly unknown[]): ReadonlyMap<string, readonly number[]> {
  const places = new Map<string, number[]>();
  for (const [place, entry] of entries.entries()) {
    const { on } = entry as { readonly on: string };
    const day = on.slice(0, "2026-01-31".length);
    places.set(day, [...(places.get(day) ?? []), place]);
  }
  return places;
}

import type { SheetDocument } from "@pollard/advice";
import { type Day, ok, type Result } from "@pollard/base";
import type { HerdId, PeerFailure } from "@pollard/records";
import { askHub, herdUrl } from "./hub-peer.ts";

/** A link by which a guest sees one kid's paper. Times are ISO texts. */
export interface GuestLink {
  readonly id: string;
  readonly title: string;
  readonly made: string;
  readonly expires: string;
  readonly revoked?: string;
}

/** A link that has just been made; its address is told this once. */
export interface NewLink {
  readonly path: string;
  readonly expires: string;
  /** The address under which other devices reach the hub, if they do. */
  readonly reach: string | null;
}

/** The kids that a vet is to see on a day, as the keeper's device says them. */
export interface ShownVisit {
  readonly herd: string;
  readonly kids: readonly { readonly kid: string; readonly name: string; readonly lines: readonly string[] }[];
  readonly cautions: readonly string[];
}

/** What a keeper shows outside, on the hub: a kid's paper by a link, a visit's list to the vet. */
export function hubShown(herd: HerdId, base: string, token?: string) {
  return {
    async links(): Promise<Result<readonly GuestLink[], PeerFailure>> {
      const answer = await askHub(herdUrl(herd, base, "papers"), { token });
      return answer.ok ? ok((answer.value as { readonly links: readonly GuestLink[] }).links) : answer;
    },
    async show(kid: string, days: number, paper: SheetDocument): Promise<Result<NewLink, PeerFailure>> {
      const json = { kid, days, paper };
      const answer = await askHub(herdUrl(herd, base, "papers"), { method: "POST", json, token });
      return answer.ok ? ok(answer.value as NewLink) : answer;
    },
    end: (link: string) =>
      askHub(herdUrl(herd, base, `papers/${encodeURIComponent(link)}`), { method: "DELETE", token }),
    showVisit: (day: Day, visit: ShownVisit) =>
      askHub(herdUrl(herd, base, `visits/${day}`), { method: "PUT", json: visit, token }),
    hideVisit: (day: Day) => askHub(herdUrl(herd, base, `visits/${day}`), { method: "DELETE", token }),
  };
}

import type { HerdId } from "@pollard/records";
import type { HubDatabase } from "./store/hub-database.ts";
import { keyOf } from "./store/ledger-store.ts";

/** How often the database is asked what other hubs have taken in, ms; not at all while nobody listens. */
const LOOK_MS = 1000;
/** How often a silent line says that it is alive, ms: less than proxies wait as a rule. */
const BEAT_MS = 20_000;
/** How long a line stays open, ms. Whoever comes again is asked anew who they are, so one shut out hears no more. */
const LINE_MS = 300_000;
/** Most lines at once; whoever comes then goes on asking now and then, and loses nothing. */
const MOST_LINES = 2000;

/** Lines on which devices wait to hear that their herd has something new. Never what. */
export interface News {
  /** A line of a herd, as Server-Sent Events; `undefined` where there are too many. */
  readonly listen: (herd: HerdId) => ReadableStream<Uint8Array> | undefined;
  /** Something new came to this hub. */
  readonly tell: (herd: HerdId) => void;
  /** Ends every line. */
  readonly stop: () => void;
}

/** The times of the lines, for whoever cannot wait for them. */
export interface NewsTimes {
  readonly lookMs?: number;
  readonly beatMs?: number;
  readonly lineMs?: number;
}

/** The two things that are ever said: something is new, and a comment that nobody reads. */
const NEWS = "event: news\ndata:\n\n";
const ALIVE = ":\n\n";

interface Line {
  readonly say: (text: string) => void;
  readonly end: () => void;
}

/**
 * The lines of one hub.
 *
 * What came to this hub is told at once. What came to another hub on the same database is found by looking at the last
 * places and the number of pictures of the herds that are listened to, one question a second for all of them: it works on both
 * engines and through a pool that shares connections, where a connection that waits for notices would not.
 */
export function newsOf({ db }: Pick<HubDatabase, "db">, times: NewsTimes = {}): News {
  const { lookMs = LOOK_MS, beatMs = BEAT_MS, lineMs = LINE_MS } = times;
  const lines = new Map<HerdId, Set<Line>>();
  const seen = new Map<string, string>();
  let count = 0;
  let looking: ReturnType<typeof setTimeout> | undefined;

  const tell = (herd: HerdId): void => {
    for (const line of lines.get(herd) ?? []) line.say(NEWS);
  };

  const look = async (): Promise<void> => {
    const herds = new Map([...lines.keys()].map((herd) => [keyOf(herd), herd]));
    try {
      const rows = await db
        .selectFrom("herd")
        .leftJoin("photo_herd", "photo_herd.herd", "herd.id")
        .select(["id", "last", "photos"])
        .where("id", "in", [...herds.keys()])
        .execute();
      const states = new Map(rows.map(({ id, last, photos }) => [id, `${last} ${photos ?? 0}`]));
      for (const [id, herd] of herds) {
        const state = states.get(id) ?? "0 0";
        // The first look only finds where to count from; what came before it is asked for by whoever is told now.
        if (seen.get(id) !== state) tell(herd);
        seen.set(id, state);
      }
    } catch {
      // The database is away: whoever asks for anything is told so; the lines wait.
    }
    looking = count > 0 ? setTimeout(() => void look(), lookMs).unref() : undefined;
  };

  return {
    tell,
    listen(herd) {
      if (count >= MOST_LINES) return undefined;
      let beat: ReturnType<typeof setInterval> | undefined;
      let over: ReturnType<typeof setTimeout> | undefined;
      let line: Line | undefined;
      const leave = (): void => {
        if (line === undefined) return;
        clearInterval(beat);
        clearTimeout(over);
        const there = lines.get(herd);
        there?.delete(line);
        if (there?.size === 0) {
          lines.delete(herd);
          seen.delete(keyOf(herd));
        }
        line = undefined;
        count -= 1;
      };
      return new ReadableStream<Uint8Array>({
        start(stream) {
          const text = new TextEncoder();
          const own: Line = {
            say: (said) => stream.enqueue(text.encode(said)),
            end: () => {
              leave();
              stream.close();
            },
          };
          line = own;
          count += 1;
          lines.set(herd, (lines.get(herd) ?? new Set()).add(own));
          beat = setInterval(() => own.say(ALIVE), beatMs).unref();
          over = setTimeout(own.end, lineMs).unref();
          own.say(seen.has(keyOf(herd)) ? NEWS : ALIVE);
          if (looking === undefined) looking = setTimeout(() => void look(), 0).unref();
        },
        cancel: leave,
      });
    },
    stop() {
      clearTimeout(looking);
      for (const line of [...lines.values()].flatMap((each) => [...each])) line.end();
    },
  };
}

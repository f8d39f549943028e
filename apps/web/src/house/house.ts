import { err, ok, type Result } from "@pollard/base";
import type { EntryId, StoreFailure } from "@pollard/records";
import { timeOfDay, today } from "../adapters/clock.ts";
import type { Device, KeptHerd } from "../adapters/device.ts";
import { eraseHerdDatabase, herdDatabase } from "../adapters/database/herd-database.ts";
import { type Drafts, idbDrafts } from "../adapters/database/idb-drafts.ts";
import { idbEntries } from "../adapters/database/idb-entries.ts";
import { idbMarks, type Marks } from "../adapters/database/idb-marks.ts";
import { idbPhotos, type KeptPhoto, type Photos } from "../adapters/database/idb-photos.ts";
import { HERD_NAME } from "../adapters/herd-name.ts";
import { newId } from "../adapters/new-id.ts";
import type { AskHerd } from "../worker/herd-answers.ts";
import type { ExchangeOutcome } from "../worker/hub-exchange.ts";
import { entryMaker, type ToRecord } from "./entry-maker.ts";
import { type HeldDeed, heldDeeds } from "./held-deeds.ts";

/** Something kept: at what local time the disk said so. */
export interface Kept {
  readonly time: string;
}

/**
 * One open herd on this phone: where its answers come from, and the one way to add to its ledger.
 *
 * Entries are written here, on the page's own thread, so that a tap is acknowledged without waiting for any computing;
 * the worker then reads what is new by itself. Another tab is told and reads it too, so nothing is written twice.
 */
export interface House {
  /** Its name may become known while it is open. */
  readonly herd: KeptHerd;
  readonly drafts: Drafts;
  readonly marks: Marks;
  readonly photos: Photos;
  readonly answers: AskHerd;
  /** Rises whenever the answers may have changed. */
  readonly version: number;
  /** Rises whenever entries came that the hub may lack: from here, another tab or a file. */
  readonly entered: number;
  /** Called when `version` rose. Gives back how to stop listening. */
  readonly onChange: (listen: () => void) => () => void;
  /** What one tap did and the disk did not take. */
  readonly held: readonly HeldDeed[];
  /**
   * Keeps facts, and ends the draft they came from in the same breath; the draft's picture with them. What one tap did
   * (`said`) is held where the disk does not take it, until it does.
   */
  record(
    facts: readonly ToRecord[],
    options?: { readonly draft?: string; readonly photo?: KeptPhoto; readonly who?: string; readonly said?: string },
  ): Promise<Result<Kept, StoreFailure>>;
  newId(): EntryId;
  /** Is Pollard open in another tab with the same herd? */
  readonly otherTab: boolean;
  /** Reads what other hands have added: another tab, or the hub. */
  refresh(): Promise<void>;
  /** Exchanges with the hub that served this page, once no other exchange of this phone's is under way. */
  exchange(): Promise<ExchangeOutcome["state"]>;
  /** How the last exchange ended, also one that nobody asked for; `undefined` before the first. */
  readonly lastExchange: ExchangeOutcome["state"] | undefined;
  erase(device: Device): Promise<Result<void, StoreFailure>>;
  close(): Promise<void>;
}

/** What tabs say to one another. */
type TabWord = "here" | "here-too" | "added" | "leaving";

/** Opens one herd. Who holds the phone is asked at each entry, since it may change hands. */
export async function openHouse(
  asKept: KeptHerd,
  device: Device,
  answers: AskHerd,
): Promise<Result<House, StoreFailure>> {
  let herd = asKept;
  const db = herdDatabase(herd.id);
  const entries = idbEntries(db);
  const opened = await answers.open(herd.id, device.id);
  if (!opened.ok) return err(opened.error);
  const maker = entryMaker({ herd: herd.id, device: device.id, after: opened.value.latest });
  if (herd.begun === "by-name-only") {
    if (opened.value.latest === undefined) {
      const body = { key: HERD_NAME, value: herd.name };
      const first = maker.make(newId(), { kind: "setting", on: today(), body }, device.who() ?? NOBODY);
      const kept = await entries.append([first]);
      if (!kept.ok) return err(kept.error);
      await answers.catchUp();
    }
    const { begun: _, ...whole } = herd;
    herd = whole;
    await device.keepHerd(herd);
  }
  const listeners = new Set<() => void>();
  const channel = new BroadcastChannel(`pollard-herd-${herd.id}`);
  let version = 1;
  let entered = 0;
  let isOpen = true;
  let otherTab = false;
  let lastExchange: ExchangeOutcome["state"] | undefined;

  const changed = (): void => {
    version++;
    for (const listen of listeners) listen();
  };
  const refresh = async (): Promise<void> => {
    const caughtUp = await answers.catchUp();
    if (caughtUp.ok) maker.sawStamp(caughtUp.value.latest);
    entered++;
    changed();
  };
  channel.addEventListener("message", (event: MessageEvent<TabWord>) => {
    if (event.data === "here") channel.postMessage("here-too" satisfies TabWord);
    if (event.data === "added") void refresh();
    else {
      otherTab = event.data !== "leaving";
      changed();
    }
  });
  channel.postMessage("here" satisfies TabWord);
  const exchange = async (): Promise<ExchangeOutcome["state"]> => {
    const outcome = await inTurn(`pollard-exchange-${herd.id}`, async () =>
      isOpen ? answers.exchange(document.baseURI, herd) : undefined,
    );
    if (outcome === undefined) return "away";
    lastExchange = outcome.state;
    if (outcome.received > 0) channel.postMessage("added" satisfies TabWord);
    const name = outcome.received > 0 ? await answers.herdName() : undefined;
    if (name !== undefined && name !== herd.name) {
      herd = { ...herd, name };
      await device.keepHerd(herd);
    }
    changed();
    if (outcome.more === "yes") return exchange();
    return outcome.state;
  };

  const drafts = idbDrafts(db);
  const deeds = heldDeeds();
  return ok({
    get herd() {
      return herd;
    },
    drafts,
    marks: idbMarks(db),
    photos: idbPhotos(db),
    answers,
    get version() {
      return version;
    },
    get entered() {
      return entered;
    },
    get otherTab() {
      return otherTab;
    },
    get lastExchange() {
      return lastExchange;
    },
    onChange(listen) {
      listeners.add(listen);
      return () => listeners.delete(listen);
    },
    newId,
    get held() {
      return deeds.all();
    },
    async record(facts, options = {}) {
      const who = options.who ?? device.who() ?? NOBODY;
      const after = facts.some(({ fact }) => NEEDS_ORDER.has(fact.kind))
        ? await answers.stampsToFollow(facts.map(({ fact }) => fact))
        : [];
      const made = facts.map(({ id, fact }, at) => maker.make(id, fact, who, after[at]));
      const kept =
        options.draft === undefined
          ? await entries.append(made)
          : await entries.finish(made, options.draft, options.photo);
      if (!kept.ok) {
        if (options.said !== undefined) deeds.hold({ said: options.said, facts, who });
        return kept;
      }
      deeds.letGo(facts);
      if (options.draft !== undefined) drafts.letGo(options.draft);
      const time = timeOfDay();
      channel.postMessage("added" satisfies TabWord);
      await refresh();
      return ok({ time });
    },
    refresh: async () => {
      await refresh();
      channel.postMessage("added" satisfies TabWord);
    },
    exchange,
    async erase(phone) {
      isOpen = false;
      await answers.shut();
      await db.close();
      const gone = await eraseHerdDatabase(herd.id);
      if (gone.ok) await phone.forgetHerd(herd.id);
      return gone;
    },
    async close() {
      isOpen = false;
      channel.postMessage("leaving" satisfies TabWord);
      channel.close();
      listeners.clear();
      await answers.shut();
      await db.close();
    },
  });
}

/** What counts by what came last. */
const NEEDS_ORDER: ReadonlySet<string> = new Set(["replace", "strike", "setting"]);

/** Stands in an entry that was made before anybody said who holds the phone. */
const NOBODY = "?";

/** Does the work once nobody else is at it, in this tab or another: what is under way may be past what was just entered. */
async function inTurn<T>(name: string, work: () => Promise<T>): Promise<T> {
  return "locks" in navigator ? navigator.locks.request(name, work) : work();
}

/** The herd that was open last, if it is still kept here. */
export async function lastHerd(device: Device): Promise<KeptHerd | undefined> {
  const [herds, current] = [await device.herds(), await device.current()];
  return herds.find((herd) => herd.id === current);
}

import { present } from "@pollard/base";
import type { HerdId } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { expect, test } from "vitest";
import { createHub } from "./hub.ts";
import { newsOf, type NewsTimes } from "./news.ts";
import { photosIn } from "./photos/photos.ts";
import { ledgersIn } from "./store/ledger-store.ts";
import { onEachEngine } from "./testing/engines.ts";

const oak = "oak" as HerdId;

/** What is heard on a line, as a browser's event source splits it. */
function heardOn(response: Response) {
  const reader = present(response.body ?? undefined, "a line").getReader();
  const text = new TextDecoder();
  const next = async (): Promise<string | undefined> => {
    const { value, done } = await reader.read();
    return done ? undefined : text.decode(value);
  };
  return {
    /** The next that is said, heartbeats included; `undefined` at the end. */
    next,
    /** Waits for news, as long as the test may last. */
    async news() {
      for (let said = await next(); ; said = await next()) {
        if (said === undefined) throw new Error("the line ended");
        if (said.includes("event: news")) return said;
      }
    },
    leave: () => reader.cancel(),
  };
}

onEachEngine("news", ({ newPlace }) => {
  const openNew = async (times: NewsTimes = { lookMs: 20 }) => {
    const place = await newPlace();
    const database = await place.open();
    const parts = { ledgers: ledgersIn(database), webRoot: "/nowhere", log: () => undefined };
    const news = newsOf(database, times);
    const hub = createHub({ ...parts, news });
    const line = async (herd: HerdId = oak) => {
      const response = await hub(new Request(`http://localhost/api/herds/${herd}/news`));
      expect(response.headers.get("content-type")).toBe("text/event-stream; charset=utf-8");
      return heardOn(response);
    };
    const push = (entry: unknown, herd: HerdId = oak) =>
      hub(
        new Request(`http://localhost/api/herds/${herd}/entries`, {
          method: "POST",
          headers: { "content-type": "application/json" },
          body: JSON.stringify({ exchange: 1, entries: [entry] }),
        }),
      );
    return { place, database, news, line, push };
  };

  test("[HU-64] whoever listens is told once counting has begun, and then of each thing that is new, but not what", async () => {
    const { line, push, news } = await openNew();
    const phone = await line();
    await phone.news();
    const note = anEntry("note", { text: "Moth limps" }, { herd: oak });
    await push(note);
    expect(await phone.news()).toBe("event: news\ndata:\n\n");
    news.stop();
  });

  test("[HU-64] what another hub on the same database took in is heard as well", async () => {
    const { place, line, news } = await openNew();
    const other = await place.open();
    const phone = await line();
    await phone.news();
    await ledgersIn(other)
      .of(oak)
      .store.append([anEntry("note", { text: "x" }, { herd: oak })]);
    expect(await phone.news()).toContain("event: news");
    news.stop();
  });

  test("[HU-96] a picture that another hub on the same database took in is heard as well", async () => {
    const { place, line, news, push } = await openNew();
    await push(anEntry("note", { text: "x" }, { herd: oak }));
    const other = await place.open();
    const phone = await line();
    await phone.news();
    await photosIn(other).keep(oak, "01890a5d-ac96-774b-bcce-b302099a8057", Uint8Array.from([0xff, 0xd8, 0xff, 1]));
    expect(await phone.news()).toContain("event: news");
    news.stop();
  });

  test("[HU-65] another herd's news is not heard, and a push of what is known is no news", async () => {
    const { line, push, news } = await openNew({ lookMs: 10, beatMs: 80 });
    const phone = await line();
    await phone.news();
    const note = anEntry("note", { text: "x" }, { herd: oak });
    await push(note);
    await phone.news();
    await push(anEntry("note", { text: "y" }, { herd: "elm" }), "elm" as HerdId);
    await push(note);
    const said: (string | undefined)[] = [];
    while (said.filter((each) => each === ":\n\n").length < 2) said.push(await phone.next());
    // What came to this hub is told at once, and its looking finds it once more at most.
    expect(said.filter((each) => each?.includes("news")).length).toBeLessThanOrEqual(1);
    news.stop();
  });

  test("[HU-65] a line ends by itself, when the hub stops, and costs nothing once its listener has gone", async () => {
    const { line, push, news } = await openNew({ lookMs: 10, lineMs: 60 });
    const short = await line();
    for (let said = await short.next(); said !== undefined; said = await short.next());
    const left = await line();
    await left.leave();
    await push(anEntry("note", { text: "x" }, { herd: oak }));
    const last = await line();
    news.stop();
    for (let said = await last.next(); said !== undefined; said = await last.next());
    expect(await last.next()).toBeUndefined();
  });
});

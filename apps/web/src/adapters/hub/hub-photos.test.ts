import "fake-indexeddb/auto";
import { createHash } from "node:crypto";
import { ok } from "@pollard/base";
import type { HerdId } from "@pollard/records";
import { afterEach, describe, expect, test, vi } from "vitest";
import { herdDatabase } from "../database/herd-database.ts";
import { hear } from "./hub-news.ts";
import { hubPhotos } from "./hub-photos.ts";
import { photoShelf } from "../database/idb-photos.ts";
import { photoDigest } from "../files/photo-digest.ts";

const herd = "herd" as HerdId;
const jpeg = Uint8Array.from([0xff, 0xd8, 0xff, 1]);
const answering = (answer: () => Promise<Response>) => vi.stubGlobal("fetch", vi.fn(answer));

afterEach(() => vi.unstubAllGlobals());

describe("pictures and the hub", () => {
  test("[UI-132] a picture's name is the SHA-256 of its bytes", async () => {
    expect(await photoDigest(jpeg)).toBe(createHash("sha256").update(jpeg).digest("hex"));
    // FIPS 180-4, example of one block: the message "abc".
    expect(await photoDigest(new TextEncoder().encode("abc"))).toBe(
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
    );
  });

  test("[UI-132] the phone tells which pictures it lacks, and one that came is there as it came", async () => {
    const shelf = photoShelf(herdDatabase("shelf-herd" as HerdId));
    expect(await shelf.lacking(["a", "b"])).toEqual(ok(["a", "b"]));
    await shelf.keep("a", jpeg);
    await shelf.keep("a", Uint8Array.from([1]));
    expect(await shelf.lacking(["a", "b"])).toEqual(ok(["b"]));
    expect(await shelf.find("a")).toEqual(ok(jpeg));
  });

  test("[UI-132] what the hub refuses comes back by its code, and no signal is no refusal", async () => {
    const peer = hubPhotos(herd, "http://localhost:4180/", "token");
    answering(() => Promise.resolve(Response.json({ code: "not-a-picture", detail: {} }, { status: 415 })));
    expect(await peer.give("x", jpeg)).toMatchObject({ ok: false, error: { status: 415, reason: "not-a-picture" } });
    answering(() => Promise.resolve(new Response("<html>", { status: 404 })));
    expect(await peer.ask("x")).toMatchObject({ ok: false, error: { status: 404, reason: "no-hub" } });
    answering(() => Promise.reject(new TypeError("failed")));
    expect(await peer.ask("x")).toMatchObject({ ok: false, error: { code: "unreachable" } });
  });

  test("[UI-132] a picture that says it is too long is not read", async () => {
    answering(() => Promise.resolve(new Response(jpeg, { headers: { "content-length": "9000000000" } })));
    const answer = await hubPhotos(herd, "http://localhost:4180/").ask("x");
    expect(answer.ok && answer.value.length).toBe(300_001);
  });
});

describe("news of the hub", () => {
  const line = (...parts: readonly string[]) =>
    new ReadableStream<Uint8Array>({
      start(stream) {
        for (const part of parts) stream.enqueue(new TextEncoder().encode(part));
        stream.close();
      },
    });

  test("[UI-133] an event is heard however it is cut into pieces; a comment is none", async () => {
    const heard = vi.fn();
    await hear(line(":\n\n", ":\n", "\nevent: ne", "ws\nda", "ta:\n\n:\n\n", "event: other\ndata:\n\n"), heard);
    expect(heard).toHaveBeenCalledTimes(1);
    await hear(line("event: news\ndata:"), heard);
    expect(heard).toHaveBeenCalledTimes(1);
  });
});

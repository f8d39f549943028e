import { createHash } from "node:crypto";
import type { HerdId } from "@pollard/records";
import fc from "fast-check";
import { sql } from "kysely";
import { describe, expect, test } from "vitest";
import { createHub } from "../hub.ts";
import { ledgersIn } from "../store/ledger-store.ts";
import { onEachEngine } from "../testing/engines.ts";
import { photosIn } from "./photos.ts";

const [oak, elm] = ["oak" as HerdId, "elm" as HerdId];
const digest = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");
const jpeg = (...rest: readonly number[]) => Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, ...rest]);
const ID = "01890a5d-ac96-774b-bcce-b302099a8057";

onEachEngine("photos", ({ newPlace }) => {
  const openNew = async () => {
    const place = await newPlace();
    const database = await place.open();
    const photos = photosIn(database);
    const hub = createHub({ ledgers: ledgersIn(database), photos, webRoot: "/nowhere", log: () => undefined });
    const send = (method: string, path: string, body?: Uint8Array<ArrayBuffer> | string, type = "image/jpeg") =>
      hub(
        new Request(`http://localhost${path}`, {
          method,
          ...(body === undefined ? {} : { body, headers: { "content-type": type } }),
        }),
      );
    return { place, database, photos, send };
  };

  test("[HU-60] a picture is there byte for byte, also after the hub was started again", async () => {
    const { place, database, photos } = await openNew();
    const picture = jpeg(...Array.from({ length: 256 }, (_, n) => n));
    expect(await photos.keep(oak, digest(picture), picture)).toEqual({ ok: true, value: "kept" });
    await database.close();
    const again = photosIn(await place.open());
    expect(await again.find(oak, digest(picture))).toEqual({ ok: true, value: picture });
    expect(await again.keep(oak, digest(picture), picture)).toEqual({ ok: true, value: "known" });
  });

  test("[HU-60] another picture under a name that is taken changes nothing", async () => {
    const { photos } = await openNew();
    await photos.keep(oak, ID, jpeg(1));
    expect(await photos.keep(oak, ID, jpeg(2))).toEqual({ ok: false, error: { code: "other-photo" } });
    expect(await photos.find(oak, ID)).toEqual({ ok: true, value: jpeg(1) });
  });

  test("[HU-61] of two herds with the same picture, each has its own; one that has it not does not see it", async () => {
    const { photos, send } = await openNew();
    const name = digest(jpeg(7));
    await photos.keep(oak, name, jpeg(7));
    expect(await photos.lacking(elm, [name])).toEqual({ ok: true, value: [name] });
    expect((await send("GET", `/api/herds/elm/photos/${name}`)).status).toBe(404);
    expect(await photos.lacking(oak, [ID, name])).toEqual({ ok: true, value: [ID] });
  });

  test("[HU-60] two hands at once keep it once", async () => {
    const { photos } = await openNew();
    const verdicts = await Promise.all([1, 2, 3].map(() => photos.keep(oak, digest(jpeg(3)), jpeg(3))));
    const said = verdicts.map((verdict) => verdict.ok && verdict.value);
    expect(said.filter((verdict) => verdict === "kept")).toHaveLength(1);
    expect(said.filter((verdict) => verdict === "known")).toHaveLength(2);
  });

  test("[HU-95] a herd has so much room for pictures; one more is refused, those that are there are known, another herd's go on", async () => {
    const { database } = await openNew();
    const photos = photosIn(database, 10);
    const [five, six, four] = [jpeg(1), jpeg(2, 2), jpeg()];
    const keep = (herd: HerdId, bytes: Uint8Array) => photos.keep(herd, digest(bytes), bytes);
    expect(await keep(oak, five)).toEqual({ ok: true, value: "kept" });
    expect(await keep(oak, six)).toEqual({ ok: false, error: { code: "no-room-for-photos" } });
    expect(await photos.lacking(oak, [digest(six)])).toEqual({ ok: true, value: [digest(six)] });
    expect(await keep(oak, jpeg(3))).toEqual({ ok: true, value: "kept" });
    expect(await keep(oak, five)).toEqual({ ok: true, value: "known" });
    expect(await keep(elm, six)).toEqual({ ok: true, value: "kept" });
    expect(await keep(elm, four)).toEqual({ ok: true, value: "kept" });
    const hub = createHub({ ledgers: ledgersIn(database), photos, webRoot: "/nowhere", log: () => undefined });
    const over = await hub(
      new Request(`http://localhost/api/herds/oak/photos/${digest(six)}`, { method: "PUT", body: six }),
    );
    expect([over.status, await over.json()]).toEqual([507, { code: "no-room-for-photos", detail: {} }]);
  });

  test("[HU-95] what was kept before there was a limit is counted when the hub is brought up to date", async () => {
    const { place, database, photos } = await openNew();
    for (const [herd, bytes] of [
      [oak, jpeg(1)],
      [oak, jpeg(2, 2)],
      [elm, jpeg()],
    ] as const)
      await photos.keep(herd, digest(bytes), bytes);
    await database.db.schema.dropTable("photo_herd").execute();
    await sql`delete from kysely_migration where name = '0032-photo-herd'`.execute(database.db);
    await database.close();
    const { db } = await place.open();
    const rows = await db.selectFrom("photo_herd").selectAll().orderBy("herd").execute();
    expect(rows.map((row) => ({ ...row, bytes: Number(row.bytes) }))).toEqual([
      { herd: "elm", photos: 1, bytes: 4 },
      { herd: "oak", photos: 2, bytes: 11 },
    ]);
  });

  test("[HU-95] of several pictures at once no more are kept than there is room for", async () => {
    const { database } = await openNew();
    const photos = photosIn(database, 12);
    const many = Array.from({ length: 6 }, (_, n) => jpeg(n));
    const kept = await Promise.all(many.map((bytes) => photos.keep(oak, digest(bytes), bytes)));
    expect(kept.filter(({ ok }) => ok)).toHaveLength(2);
  });

  describe("over the wire", () => {
    test("[HU-62] what is lacking is told, given, and then there with its true type", async () => {
      const { send } = await openNew();
      const png = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1]);
      const name = digest(png);
      const lacking = async () =>
        (await send("POST", "/api/herds/oak/photos", JSON.stringify({ photos: [name] }), "application/json")).json();
      expect(await lacking()).toEqual({ lacking: [name] });
      expect((await send("PUT", `/api/herds/oak/photos/${name}`, png)).status).toBe(200);
      expect(await lacking()).toEqual({ lacking: [] });
      const got = await send("GET", `/api/herds/oak/photos/${name}`);
      expect([got.headers.get("content-type"), got.headers.get("x-content-type-options")]).toEqual([
        "image/png",
        "nosniff",
      ]);
      expect(new Uint8Array(await got.arrayBuffer())).toEqual(png);
    });

    test("[HU-62] what is no picture, too large, or not what its name says is refused with a reason", async () => {
      const { send } = await openNew();
      const refused = async (body: Uint8Array<ArrayBuffer>, name = digest(body)) => {
        const response = await send("PUT", `/api/herds/oak/photos/${name}`, body);
        return [response.status, ((await response.json()) as { readonly code: string }).code];
      };
      expect(await refused(new TextEncoder().encode("<svg onload=alert(1)>"))).toEqual([415, "not-a-picture"]);
      expect(await refused(new Uint8Array())).toEqual([415, "not-a-picture"]);
      const large = new Uint8Array(300_001);
      large.set(jpeg());
      expect(await refused(large)).toEqual([413, "too-large"]);
      expect(await refused(jpeg(1), digest(jpeg(2)))).toEqual([400, "not-its-digest"]);
      const largest = large.slice(0, 300_000);
      expect((await send("PUT", `/api/herds/oak/photos/${digest(largest)}`, largest)).status).toBe(200);
    });

    test("[HU-63] no name is a path, whatever is tried", async () => {
      const { send } = await openNew();
      const tried = [
        "..%2f..%2fledger.db",
        "%2e%2e",
        "%00",
        `${ID}.jpg`,
        ID.toUpperCase(),
        `${"a".repeat(63)}%61`,
        "a".repeat(65),
        "__proto__",
        "constructor",
      ];
      for (const name of tried)
        for (const method of ["GET", "PUT"]) {
          const response = await send(method, `/api/herds/oak/photos/${name}`, method === "PUT" ? jpeg() : undefined);
          expect([name, await response.json()]).toEqual([
            name,
            expect.objectContaining({ code: expect.stringMatching(/not-a-photo-name|no-such-page/) as unknown }),
          ]);
        }
      const asking = [null, [], { photos: "x" }, { photos: [1] }, { photos: ["../x"] }];
      for (const body of [...asking, { photos: Array.from({ length: 501 }, () => ID) }])
        expect((await send("POST", "/api/herds/oak/photos", JSON.stringify(body), "application/json")).status).toBe(
          400,
        );
    });

    test("[HU-63] any text as a name, and any bytes as a picture, are answered and never break anything", async () => {
      const { send } = await openNew();
      await fc.assert(
        fc.asyncProperty(fc.string({ minLength: 1 }), fc.uint8Array({ maxLength: 40 }), async (name, bytes) => {
          const path = `/api/herds/oak/photos/${encodeURIComponent(name)}`;
          const { status } = await send("PUT", path, Uint8Array.from(bytes));
          expect(status).toBeGreaterThanOrEqual(400);
          expect(status).toBeLessThan(500);
        }),
        { numRuns: 60 },
      );
    });
  });
});

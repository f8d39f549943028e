import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  appendFileSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { err, type Result } from "@pollard/base";
import {
  type EntryStore,
  exchangeOnce,
  givePull,
  type HerdId,
  NO_MARKS,
  type PushRequest,
  readHerdFile,
  takePush,
} from "@pollard/records";
import { anEntry, memoryStore } from "@pollard/records/testing";
import Database from "libsql";
import { afterAll, describe, expect, test } from "vitest";
import { photosIn } from "../photos/photos.ts";
import type { HubDatabase } from "../store/hub-database.ts";
import { ledgersIn } from "../store/ledger-store.ts";
import { openLibsql } from "../store/libsql.ts";
import { onEachEngine } from "../testing/engines.ts";
import { makeBackup } from "./backup.ts";
import { type RestoreWish, restoreInto } from "./restore.ts";

const folder = mkdtempSync(join(tmpdir(), "pollard-backup-"));
afterAll(() => rmSync(folder, { recursive: true }));
let folders = 0;
const newFolder = () => {
  const made = join(folder, String(++folders));
  mkdirSync(made);
  return made;
};

const NOON = new Date("2026-03-01T12:00:00Z");
const ODD_HERD = "Oak / Höhe\u0000" as HerdId;
const note = (text: string, herd: string = "oak") => anEntry("note", { text }, { herd });
const tooNew = (id: string) => ({
  id: id as ReturnType<typeof note>["id"],
  tooNew: { ...note("x"), id, v: 9, kind: "milk" },
});

/** Two herds with a handful of entries, one of them too new to be understood here. */
async function fill(database: HubDatabase): Promise<void> {
  const ledgers = ledgersIn(database);
  await ledgers.of("oak" as HerdId).store.append([note("a"), note("b 山羊"), tooNew("later")]);
  await ledgers.of(ODD_HERD).store.append([note("c", ODD_HERD)]);
}

/** As much of a JPEG as its signature, and a number. */
function aPicture(n: number) {
  const bytes = new Uint8Array([0xff, 0xd8, 0xff, 0xe0, n]);
  return { name: createHash("sha256").update(bytes).digest("hex"), bytes };
}

async function everything(database: HubDatabase) {
  const ledgers = ledgersIn(database);
  const herds = await ledgers.herds();
  const kept: [HerdId, unknown][] = [];
  for (const { id } of herds.ok ? herds.value : []) {
    const read = await ledgers.of(id).store.read(0, 10_000);
    kept.push([id, read.ok ? read.value.map(({ entry }) => entry) : read.error]);
  }
  return kept;
}

const into = (file: string, from: string, over: Partial<RestoreWish> = {}) =>
  restoreInto(() => openLibsql(file), { from, evenDamaged: false, file, ...over });

const idsOf = async (store: EntryStore) => {
  const read = await store.read(0, 10_000);
  return read.ok ? read.value.map(({ entry }) => entry.id).sort() : [];
};

onEachEngine("backups", ({ engine, newPlace }) => {
  test("[HU-18] backed up, lost, restored: every herd is as it was, under another name of the copy", async () => {
    const [live, to] = [await (await newPlace()).open(), newFolder()];
    await fill(live);
    const before = await everything(live);
    const name = await ledgersIn(live).of(ODD_HERD).copyFor(0);
    const made = await makeBackup(live, to, NOON);
    expect(made).toMatchObject({ herds: 2, entries: 4, removed: 0 });
    await live.close();

    const place = await newPlace();
    const file = engine === "libsql" ? join(place.folder, "ledger.db") : undefined;
    const done = await restoreInto(place.open, { from: made.folder, evenDamaged: false, file });
    const said = engine === "libsql" ? "all are back" : "not here before: 4";
    expect(done.exitCode).toBe(0);
    expect(done.sentence).toContain(`Herds in the backup: 2. Entries: 4; ${said}.`);
    expect(done.sentence.includes("locked out since then")).toBe(engine === "libsql");
    const restored = await place.open();
    expect(await everything(restored)).toEqual(before);
    expect(await ledgersIn(restored).of(ODD_HERD).copyFor(0)).not.toEqual(name);

    // The herd files alone are enough, also for the other engine.
    const elsewhere = join(newFolder(), "ledger.db");
    expect(await into(elsewhere, made.folder, { file: undefined })).toMatchObject({ exitCode: 0 });
    const other = await openLibsql(elsewhere);
    expect(await everything(other)).toEqual(before);
    await other.close();
  });

  test("[HU-18] pictures lie beside the herd files, each under its name, and come back whole", async () => {
    const live = await (await newPlace()).open();
    await fill(live);
    const herds = ["oak" as HerdId, ODD_HERD, "only-pictures" as HerdId];
    for (const [n, herd] of herds.entries())
      for (const picture of [aPicture(n), aPicture(9)]) await photosIn(live).keep(herd, picture.name, picture.bytes);
    const made = await makeBackup(live, newFolder(), NOON);
    expect(made).toMatchObject({ herds: 3, entries: 4, photos: 6 });
    expect(readdirSync(join(made.folder, "photos", "oak")).sort()).toEqual(
      [`${aPicture(0).name}.jpg`, `${aPicture(9).name}.jpg`].sort(),
    );

    const place = await newPlace();
    const file = engine === "libsql" ? join(place.folder, "ledger.db") : undefined;
    const done = await restoreInto(place.open, { from: made.folder, evenDamaged: false, file });
    expect(done).toMatchObject({ exitCode: 0 });
    expect(done.sentence).toContain("Pictures in the backup: 6.");
    const photos = photosIn(await place.open());
    for (const [n, herd] of herds.entries()) {
      expect(await photos.find(herd, aPicture(n).name)).toEqual({ ok: true, value: aPicture(n).bytes });
      expect(await photos.find(herd, aPicture(n + 1).name)).toEqual({ ok: true, value: undefined });
    }
  });

  test("[HU-18] restored over what is there, it adds what is missing and takes nothing away; twice is once", async () => {
    const place = await newPlace();
    const live = await place.open();
    await fill(live);
    const { folder: made } = await makeBackup(live, newFolder(), NOON);
    const later = note("later than the backup");
    await ledgersIn(live)
      .of("oak" as HerdId)
      .store.append([later]);
    const before = await everything(live);
    const name = await ledgersIn(live).of(ODD_HERD).copyFor(0);
    await live.close();
    for (let time = 0; time < 2; time++)
      expect(await restoreInto(place.open, { from: made, evenDamaged: false, file: undefined })).toMatchObject({
        sentence: "Herds in the backup: 2. Entries: 4; not here before: 0.",
      });
    const again = await place.open();
    expect(await everything(again)).toEqual(before);
    expect(await ledgersIn(again).of(ODD_HERD).copyFor(0)).not.toEqual(name);
  });

  test("[HU-12] put back from a backup, with others' entries in the gap: who had more hands it over all the same", async () => {
    const place = await newPlace();
    const live = await place.open();
    const herd = "oak" as HerdId;
    const phone = { store: memoryStore(), marks: NO_MARKS };
    const exchange = async (database: HubDatabase) => {
      const ledger = ledgersIn(database).of(herd);
      const lost = { code: "unreachable", cause: undefined } as const;
      const told = <T>(answer: Result<T, unknown>) => (answer.ok ? answer : err(lost));
      const peer = {
        push: async (request: PushRequest) => told(await takePush(ledger, request)),
        pull: async (after: number, limit: number) => told(await givePull(ledger, after, limit)),
      };
      phone.marks = (await exchangeOnce({ herd, store: phone.store, peer }, phone.marks)).marks;
    };
    await phone.store.append([note("1"), note("2")]);
    await exchange(live);
    const { folder: made } = await makeBackup(live, newFolder(), NOON);
    await phone.store.append([note("3"), note("4")]);
    await exchange(live);
    await exchange(live); // the phone learns the places of what it handed over
    await live.close();

    const again = await newPlace();
    await restoreInto(again.open, { from: made, evenDamaged: false, file: undefined });
    const restored = await again.open();
    const { store } = ledgersIn(restored).of(herd);
    await store.append([note("5, from another phone"), note("6"), note("7")]);
    await exchange(restored);
    expect((await idsOf(store)).length).toBe(7);
    expect(await idsOf(phone.store)).toEqual(await idsOf(store));
  });

  test("[HU-18] made while entries arrive, each herd's file is whole and is a beginning of what came", async () => {
    const live = await (await newPlace()).open();
    const { store } = ledgersIn(live).of("oak" as HerdId);
    await store.append([note("first")]);
    let isOver = false;
    const writer = (async () => {
      while (!isOver) {
        await store.append([note("more"), note("and more")]);
        await pause(1);
      }
    })();
    const { folder: made } = await makeBackup(live, newFolder(), NOON);
    isOver = true;
    await writer;
    const all = await store.read(0, 100_000);
    const file = readHerdFile(readFileSync(join(made, "herds", "oak.jsonl"), "utf8"));
    expect(file.problems).toEqual([]);
    expect(file.entries).toEqual(all.ok && all.value.slice(0, file.entries.length).map(({ entry }) => entry));
    if (engine === "libsql") {
      const copy = new Database(join(made, "ledger.db"), { readonly: true });
      expect(copy.prepare("pragma integrity_check").all()).toEqual([{ integrity_check: "ok" }]);
      copy.close();
    }
  });
});

describe("a backup on the disk", () => {
  async function aBackup() {
    const database = await openLibsql(join(newFolder(), "ledger.db"));
    await fill(database);
    const { folder: made } = await makeBackup(database, newFolder(), NOON);
    const before = await everything(database);
    await database.close();
    return { made, before };
  }

  test("[HU-18] herd files are named so that every file system keeps them apart, and say whose they are", async () => {
    const { made } = await aBackup();
    const names = readdirSync(join(made, "herds"));
    expect(names.sort()).toEqual([expect.stringMatching(/^[0-9a-f]{64}\.jsonl$/), "oak.jsonl"]);
    const herds = names.map((name) => readHerdFile(readFileSync(join(made, "herds", name), "utf8")).header?.herd);
    expect(new Set(herds)).toEqual(new Set([ODD_HERD, "oak"]));
  });

  test("[HU-18] a backup that is not whole is not read in, and says what is damaged; asked to, what is whole is read", async () => {
    const { made } = await aBackup();
    appendFileSync(join(made, "herds", "oak.jsonl"), "x");
    rmSync(join(made, "ledger.db"));
    const file = join(newFolder(), "ledger.db");
    const refused = await into(file, made);
    expect(refused.exitCode).toBe(1);
    expect(refused.sentence).toContain("Nothing was changed: the backup is not whole (herds/oak.jsonl, ledger.db)");
    expect(readdirSync(join(file, ".."))).toEqual([]);
    const read = await into(file, made, { evenDamaged: true });
    expect(read.exitCode).toBe(1);
    expect(read.sentence).toContain("Herds in the backup: 2. Entries: 4; not here before: 4.");
  });

  test("[HU-18] a picture that is another than its name says is named, and not taken in", async () => {
    const database = await openLibsql(join(newFolder(), "ledger.db"));
    await fill(database);
    const { name, bytes } = aPicture(1);
    await photosIn(database).keep("oak" as HerdId, name, bytes);
    const { folder: made } = await makeBackup(database, newFolder(), NOON);
    await database.close();
    const copy = new Database(join(made, "ledger.db"), { readonly: true });
    expect(copy.prepare("select count(*) as pictures from photo").all()).toEqual([{ pictures: 0 }]); // a file each is enough
    copy.close();
    const picture = join(made, "photos", "oak", `${name}.jpg`);
    writeFileSync(picture, aPicture(2).bytes);
    const sums = join(made, "SHA256SUMS");
    writeFileSync(sums, readFileSync(sums, "utf8").replace(`${name}  photos`, `${aPicture(2).name}  photos`));
    const file = join(newFolder(), "ledger.db");
    const done = await into(file, made);
    expect(done.exitCode).toBe(1);
    expect(done.sentence).toContain(`Not whole: ${picture}`);
  });

  test("[HU-18] the file of one herd, as a device writes it, is read in too", async () => {
    const { made, before } = await aBackup();
    const file = join(newFolder(), "ledger.db");
    expect(await into(file, join(made, "herds", "oak.jsonl"))).toMatchObject({ exitCode: 0 });
    const database = await openLibsql(file);
    expect(await everything(database)).toEqual(before.filter(([herd]) => herd === "oak"));
    await database.close();
  });

  test("[HU-12] the copy of the file, put back by hand, has another name already", async () => {
    const source = join(newFolder(), "ledger.db");
    const live = await openLibsql(source);
    await fill(live);
    const name = await ledgersIn(live).of(ODD_HERD).copyFor(0);
    const { folder: made } = await makeBackup(live, newFolder(), NOON);
    await live.close();
    for (const ending of ["", "-wal", "-shm"]) rmSync(`${source}${ending}`, { force: true });
    copyFileSync(join(made, "ledger.db"), source);
    const again = await openLibsql(source);
    expect(await ledgersIn(again).of(ODD_HERD).copyFor(0)).not.toEqual(name);
    await again.close();
  });

  test("[HU-18] what was cut short is no backup, and is cleared away by the next; what fails leaves the others", async () => {
    const database = await openLibsql(join(newFolder(), "ledger.db"));
    await fill(database);
    const to = newFolder();
    mkdirSync(join(to, "pollard-20260228T120000Z.part", "herds"), { recursive: true });
    writeFileSync(join(to, "mine.txt"), "kept");
    await makeBackup(database, to, NOON);
    await expect(makeBackup(database, join(to, "mine.txt"), NOON)).rejects.toThrow("file already exists");
    expect(readdirSync(to).sort()).toEqual(["mine.txt", "pollard-20260301T120000Z"]);
    await database.close();
  });

  test("[HU-19] a new one takes the place of what is outdated, and of nothing else", async () => {
    const database = await openLibsql(join(newFolder(), "ledger.db"));
    const to = newFolder();
    for (const hour of ["06", "07", "08"]) mkdirSync(join(to, `pollard-20260301T${hour}0000Z`));
    mkdirSync(join(to, "photographs"));
    expect(await makeBackup(database, to, NOON)).toMatchObject({ removed: 3 });
    expect(readdirSync(to).sort()).toEqual(["photographs", "pollard-20260301T120000Z"]);
    await database.close();
  });

  const hasTool = spawnSync("sha256sum", ["--version"]).status === 0;
  test.skipIf(!hasTool)(
    "[HU-18] published: the list of files is checked by the general program sha256sum (GNU coreutils)",
    async () => {
      const { made } = await aBackup();
      const check = () =>
        spawnSync("sha256sum", ["--check", "--strict", "--quiet", "SHA256SUMS"], { cwd: made }).status;
      expect(check()).toBe(0);
      appendFileSync(join(made, "ledger.db"), "x");
      expect(check()).toBe(1);
    },
  );
});

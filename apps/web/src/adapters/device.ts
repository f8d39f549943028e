import type { DeviceId, HerdId } from "@pollard/records";
import { type DBSchema, type IDBPDatabase, openDB } from "idb";

/** A herd whose ledger is kept on this phone. */
export interface KeptHerd {
  readonly id: HerdId;
  readonly name: string;
  readonly sort: "own" | "demo";
  /** By what the hub knows this phone, where it joined one with a code. */
  readonly token?: string;
  /** What the hub lets this phone do there; nothing said means everything. */
  readonly role?: "keeper" | "helper" | "vet";
  /** What this phone is called on the hub's list. */
  readonly phone?: string;
  /** Its name stands here only, and in no ledger, until it is opened by somebody who can have entered it. */
  readonly begun?: "by-name-only";
}

interface DeviceSchema extends DBSchema {
  readonly facts: { readonly key: string; readonly value: string };
  readonly herds: { readonly key: string; readonly value: KeptHerd };
}

/** What this phone knows of itself: its own id, whose hand holds it, and which herds it keeps. Nothing of the goats. */
export interface Device {
  readonly id: DeviceId;
  /** Who is holding the phone; `undefined` before anybody said. */
  who(): string | undefined;
  setWho(name: string): Promise<void>;
  herds(): Promise<readonly KeptHerd[]>;
  keepHerd(herd: KeptHerd): Promise<void>;
  forgetHerd(id: HerdId): Promise<void>;
  /** The herd that was open last. */
  current(): Promise<HerdId | undefined>;
  setCurrent(id: HerdId | undefined): Promise<void>;
}

/** This phone. `newId` names it if it has no name yet. */
export async function openDevice(newId: () => string): Promise<Device> {
  const db: IDBPDatabase<DeviceSchema> = await openDB<DeviceSchema>("pollard-device", 1, {
    upgrade(fresh) {
      fresh.createObjectStore("facts");
      fresh.createObjectStore("herds", { keyPath: "id" });
    },
  });
  const put = async (key: string, value: string): Promise<void> => {
    const t = db.transaction("facts", "readwrite", { durability: "strict" });
    await t.store.put(value, key);
    await t.done;
  };
  const known = await db.get("facts", "device");
  const id = known ?? newId();
  let holder = await db.get("facts", "who");
  if (known === undefined) await put("device", id);
  return {
    id: id as DeviceId,
    who: () => holder,
    async setWho(name) {
      await put("who", name);
      holder = name;
    },
    herds: () => db.getAll("herds"),
    async keepHerd(herd) {
      const t = db.transaction("herds", "readwrite", { durability: "strict" });
      await t.store.put(herd);
      await t.done;
    },
    forgetHerd: (herd) => db.delete("herds", herd),
    current: async () => (await db.get("facts", "current")) as HerdId | undefined,
    setCurrent: (herd) => (herd === undefined ? db.delete("facts", "current") : put("current", herd)),
  };
}

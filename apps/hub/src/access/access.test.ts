import { present } from "@pollard/base";
import type { HerdId } from "@pollard/records";
import { describe, expect, test } from "vitest";
import { onEachEngine } from "../testing/engines.ts";
import { accessIn } from "./access.ts";
import { MOST_WRONG, networkOf } from "./guesses.ts";
import { CODE_DIGITS, newCode, newToken } from "./secrets.ts";

const [oak, elm] = ["oak" as HerdId, "elm" as HerdId];
const MINUTE = 60_000;

function value<T>(
  result: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: unknown },
): T {
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  return result.value;
}

onEachEngine("access", ({ newPlace }) => {
  const opened = async () => {
    const database = await (await newPlace()).open();
    let at = Date.parse("2026-03-01T08:00:00Z");
    const access = accessIn(database, () => new Date(at));
    return { database, access, pass: (ms: number) => (at += ms) };
  };
  const joinedTo = async (access: ReturnType<typeof accessIn>, herd: HerdId, role: "keeper" | "helper" = "keeper") => {
    const { code } = value(await access.invite(herd, role));
    const joined = value(await access.join(code, "Ines's phone"));
    if (typeof joined === "string") throw new Error(joined);
    return joined;
  };

  test("[HU-40] a code lets one device in, once; its token says which herd and what it may", async () => {
    const { access } = await opened();
    const { code } = value(await access.invite(oak, "helper"));
    const joined = value(await access.join(code, "Tobias's phone"));
    expect(joined).toMatchObject({ herd: oak, role: "helper" });
    expect(value(await access.join(code, "another"))).toBe("no-such-code");
    const token = present(typeof joined === "string" ? undefined : joined.token, "a token");
    expect(value(await access.holder(token))).toMatchObject({ herd: oak, role: "helper" });
    expect(value(await access.holder(newToken()))).toBeUndefined();
  });

  test("[HU-40] of many who come with one code at once, one gets in", async () => {
    const { access } = await opened();
    const { code } = value(await access.invite(oak, "keeper"));
    const all = await Promise.all(Array.from({ length: 8 }, (_, n) => access.join(code, `phone ${n}`)));
    expect(all.map(value).filter((joined) => typeof joined !== "string")).toHaveLength(1);
  });

  test("[HU-40] a code lasts ten minutes", async () => {
    const { access, pass } = await opened();
    const { code } = value(await access.invite(oak, "keeper"));
    pass(10 * MINUTE + 1);
    expect(value(await access.join(code, "late"))).toBe("no-such-code");
  });

  test("[HU-41] after 232 wrong codes nobody joins until ten minutes are over", async () => {
    const { access, pass } = await opened();
    const { code } = value(await access.invite(oak, "keeper"));
    for (let n = 0; n < 232; n++) expect(value(await access.join(newCode(), "guesser"))).toBe("no-such-code");
    expect(value(await access.join(code, "the right one"))).toBe("too-many-guesses");
    pass(10 * MINUTE + 1);
    expect(value(await access.join(code, "too late now"))).toBe("no-such-code");
    await expect(joinedTo(access, oak)).resolves.toMatchObject({ herd: oak });
  });

  test("[HU-104] of many guesses at once no more are looked at than of as many in turn, and right codes are no guesses", async () => {
    const { access } = await opened();
    const many = async (count: number, from?: string) => {
      const said = await Promise.all(Array.from({ length: count }, () => access.join(newCode(), "guesser", { from })));
      return said.filter((each) => value(each) === "no-such-code").length;
    };
    expect(await many(40, "203.0.113.9")).toBe(5);
    for (let n = 0; n < 8; n++) {
      const { code } = value(await access.invite(oak, "helper"));
      expect(value(await access.join(code, `phone ${n}`, { from: "203.0.113.8" }))).toMatchObject({ herd: oak });
    }
    expect(await many(300)).toBe(232 - 5);
  });

  test("[HU-93] after five wrong codes from one address who comes from there waits, and nobody else", async () => {
    const { access, pass } = await opened();
    const from = (n: number) => `2001:db8:0:7:${n}::1`;
    for (let n = 0; n < 5; n++)
      expect(value(await access.join(newCode(), "guesser", { from: from(n) }))).toBe("no-such-code");
    const { code } = value(await access.invite(oak, "keeper"));
    expect(value(await access.join(code, "from the same network", { from: from(9) }))).toBe("too-many-guesses");
    expect(value(await access.join(code, "from elsewhere", { from: "2001:db8:0:8::1" }))).toMatchObject({ herd: oak });
    pass(10 * MINUTE + 1);
    const later = value(await access.invite(oak, "keeper"));
    expect(value(await access.join(later.code, "later", { from: from(9) }))).toMatchObject({ herd: oak });
  });

  test("[HU-42] a device that is no longer let in has no say at once, and stays on the list", async () => {
    const { access } = await opened();
    const joined = await joinedTo(access, oak);
    expect(value(await access.revoke(elm, joined.device))).toBe(false);
    expect(value(await access.holder(joined.token))).toBeDefined();
    expect(value(await access.revoke(oak, joined.device))).toBe(true);
    expect(value(await access.holder(joined.token))).toBeUndefined();
    expect(value(await access.devices(oak))).toMatchObject([
      { id: joined.device, revoked: "2026-03-01T08:00:00.000Z" },
    ]);
    expect(value(await access.devices(elm))).toEqual([]);
  });

  test("[HU-102] a device that joins its herd anew is the same device under its new token; the one it had ends", async () => {
    const { access, pass } = await opened();
    const [first, other, elms] = [
      await joinedTo(access, oak, "helper"),
      await joinedTo(access, oak),
      await joinedTo(access, elm),
    ];
    const again = async (herd: HerdId, role: "keeper" | "helper", had: readonly string[]) => {
      pass(MINUTE);
      const { code } = value(await access.invite(herd, role));
      const joined = value(await access.join(code, "Ines's phone", { had }));
      return present(typeof joined === "string" ? undefined : joined, "joined");
    };
    const second = await again(oak, "keeper", [newToken(), elms.token, first.token]);
    expect(second.device).toBe(first.device);
    expect(value(await access.holder(first.token))).toBeUndefined();
    expect(value(await access.holder(second.token))).toMatchObject({ device: first.device, role: "keeper" });
    // Nobody else's ends with it, in this herd or another, and no other herd's device comes in by that.
    for (const { token } of [other, elms]) expect(value(await access.holder(token))).toBeDefined();
    expect(value(await access.devices(oak)).map(({ id }) => id)).toEqual([first.device, other.device]);
    // Shut out, it comes in again by a code, and by that alone.
    await access.revoke(oak, second.device);
    const third = await again(oak, "helper", [second.token]);
    expect([third.device, value(await access.holder(second.token))]).toEqual([first.device, undefined]);
    expect(value(await access.devices(oak))[0]).toMatchObject({ id: first.device, role: "helper", revoked: undefined });
    const stranger = await again(oak, "helper", []);
    expect(stranger.device).not.toBe(first.device);
    expect(value(await access.holder(third.token))).toBeDefined();
    expect(value(await access.join(newCode(), "no code", { had: [third.token] }))).toBe("no-such-code");
    expect(value(await access.holder(third.token))).toBeDefined();
  });

  test("[HU-42] the list says when each was last seen, to the minute", async () => {
    const { access, pass } = await opened();
    const joined = await joinedTo(access, oak);
    expect(value(await access.devices(oak))[0]?.seen).toBeUndefined();
    await access.holder(joined.token);
    pass(30_000);
    await access.holder(joined.token);
    expect(value(await access.devices(oak))[0]?.seen).toBe("2026-03-01T08:00:00.000Z");
    pass(MINUTE);
    await access.holder(joined.token);
    expect(value(await access.devices(oak))[0]?.seen).toBe("2026-03-01T08:01:30.000Z");
  });

  test("[HU-43] neither codes nor tokens stand in the database", async () => {
    const { access, database } = await opened();
    const waiting = value(await access.invite(oak, "keeper"));
    const joined = await joinedTo(access, oak);
    const rows = JSON.stringify([
      await database.db.selectFrom("device").selectAll().execute(),
      await database.db.selectFrom("invite").selectAll().execute(),
    ]);
    expect(rows).toContain(joined.device);
    for (const secret of [waiting.code, joined.token]) expect(rows).not.toContain(secret);
  });
});

describe("how many guesses are answered", () => {
  // RFC 8628 5.1: eight characters of twenty, and five attempts, have "the same 2^-32 probability of success by random guessing".
  test("[HU-41] published: as many as leave the chance that RFC 8628 holds to be good enough, and not one more", () => {
    const chance = (guesses: number, codes: number) => guesses / codes;
    expect(chance(MOST_WRONG, 10 ** CODE_DIGITS)).toBeLessThanOrEqual(2 ** -32);
    expect(chance(MOST_WRONG + 1, 10 ** CODE_DIGITS)).toBeGreaterThan(2 ** -32);
    expect(chance(5, 20 ** 8)).toBeLessThan(2 ** -32);
    expect(chance(MOST_WRONG, 10 ** CODE_DIGITS) / chance(5, 20 ** 8)).toBeLessThan(1.3);
  });
});

describe("addresses", () => {
  test.each([
    ["203.0.113.9", "203.0.113.9"],
    ["::ffff:203.0.113.9", "203.0.113.9"],
    // Examples of RFC 4291 section 2.2 and RFC 5952 section 1: the same address written in several ways.
    ["2001:DB8:0:0:8:800:200C:417A", "2001:db8:0:0"],
    ["2001:db8::8:800:200c:417a", "2001:db8:0:0"],
    ["2001:0db8:0000:0000:0001:0000:0000:0001", "2001:db8:0:0"],
    ["2001:db8::1:0:0:1", "2001:db8:0:0"],
    ["::1", "0:0:0:0"],
    ["fe80::1%eth0", "fe80:0:0:0"],
    ["", ""],
  ])("[HU-93] %s counts as %s", (address, network) => {
    expect(networkOf(address)).toBe(network);
  });
});

describe("secrets", () => {
  test("[HU-43] a code has twelve digits, zeros in front kept; a token 256 bits", () => {
    const codes = Array.from({ length: 300 }, newCode);
    expect(codes.every((code) => /^\d+$/.test(code) && code.length === CODE_DIGITS)).toBe(true);
    expect(codes.some((code) => code.startsWith("0"))).toBe(true);
    expect(new Set(codes).size).toBe(codes.length);
    expect(Buffer.from(newToken(), "base64url")).toHaveLength(32);
  });
});

import { err, ok, present, seededRandom } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkedPhoto, type Digest, isPhotoName, pictureType } from "./photo.ts";
import { exchangePhotos, type PhotoPeer, type PhotoShelf } from "./photo-exchange.ts";

/** Stands for SHA-256: 64 digits, other ones for other short pictures. The hub's tests use the true one. */
const nameOf = (bytes: Uint8Array) => hexOf(bytes).padEnd(64, "0");
const hexOf = (bytes: Uint8Array) => [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
const digest: Digest = (bytes) => Promise.resolve(nameOf(bytes));
const bytesOf = (text: string) => Uint8Array.from(text, (sign) => sign.charCodeAt(0));
const picture = (...rest: readonly number[]) => Uint8Array.from([0xff, 0xd8, 0xff, ...rest]);
const lost = () => err({ code: "unreachable", cause: "no signal" } as const);

interface Shelf extends PhotoShelf {
  readonly held: Map<string, Uint8Array>;
}

function shelfWith(...pictures: readonly Uint8Array[]): Shelf {
  const held = new Map(pictures.map((bytes) => [nameOf(bytes), bytes]));
  return {
    held,
    lacking: (names) => Promise.resolve(ok(names.filter((name) => !held.has(name)))),
    find: (name) => Promise.resolve(ok(held.get(name))),
    keep: (name, bytes) => Promise.resolve(ok(held.set(name, bytes))),
  };
}

/** A hub with these pictures, as its peers see it; it checks what it is given, as the real one does. */
const peerOf = ({ held }: Shelf): PhotoPeer => ({
  lacking: (names) => Promise.resolve(ok({ lacking: names.filter((name) => !held.has(name)) })),
  async give(name, bytes) {
    const checked = await checkedPhoto(name, bytes, digest);
    if (!checked.ok) return err({ code: "peer-refused", status: 400, reason: checked.error });
    held.set(name, bytes);
    return ok({});
  },
  ask(name) {
    const bytes = held.get(name);
    return Promise.resolve(
      bytes === undefined ? err({ code: "peer-refused", status: 404, reason: "no-such-photo" } as const) : ok(bytes),
    );
  },
});

describe("exchangePhotos", () => {
  test("[SY-30] the report names what the peer is known to have: what it had, and what it took", async () => {
    const pictures = [picture(1), picture(2), picture(3)];
    const [had, taken, nowhere] = pictures.map(nameOf) as [string, string, string];
    const [shelf, hub] = [shelfWith(picture(1), picture(2)), shelfWith(picture(1))];
    const report = await exchangePhotos({ shelf, peer: peerOf(hub), digest }, [had, taken, nowhere]);
    expect([...report.there].toSorted()).toEqual([had, taken].toSorted());
  });

  test("[SY-20] each side gets the pictures it lacked, the newest first, and what nobody has is told", async () => {
    const [ours, theirs, both] = [picture(1), picture(2), picture(3)];
    const [shelf, hub] = [shelfWith(ours, both), shelfWith(theirs, both)];
    const gone = nameOf(picture(4));
    const names = [ours, both, theirs].map(nameOf);
    const report = await exchangePhotos({ shelf, peer: peerOf(hub), digest }, [...names, gone]);
    expect(report).toMatchObject({
      given: 1,
      received: 1,
      nowhere: [gone],
      refused: [],
      more: "no",
      failure: undefined,
    });
    expect([...hub.held.keys()].sort()).toEqual([...shelf.held.keys()].sort());
  });

  test("[SY-20] again, it moves no picture", async () => {
    const [shelf, hub] = [shelfWith(picture(1)), shelfWith(picture(2))];
    const names = [picture(1), picture(2)].map(nameOf);
    await exchangePhotos({ shelf, peer: peerOf(hub), digest }, names);
    const again = await exchangePhotos({ shelf, peer: peerOf(hub), digest }, [...names, ...names]);
    expect(again).toMatchObject({ given: 0, received: 0, failure: undefined });
  });

  test("[SY-20] no more go at once than was asked for, and the next time goes on", async () => {
    const pictures = [1, 2, 3, 4, 5].map((n) => picture(n));
    const [shelf, hub] = [shelfWith(...pictures.slice(0, 3)), shelfWith(...pictures.slice(3))];
    const sides = { shelf, peer: peerOf(hub), digest };
    const moved: unknown[] = [];
    for (let more = "yes"; more === "yes"; ) {
      const report = await exchangePhotos(sides, pictures.map(nameOf), 2);
      moved.push(report.given + report.received);
      more = report.more;
    }
    expect([moved, hub.held.size, shelf.held.size]).toEqual([[2, 2, 1], 5, 5]);
  });

  test("[SY-21] a picture that is none, or not what its name says, is kept by neither side and stops no other", async () => {
    const [shelf, hub] = [shelfWith(picture(1)), shelfWith(picture(2))];
    const [forged, page] = [nameOf(picture(8)), nameOf(picture(9))];
    hub.held.set(forged, picture(7));
    shelf.held.set(page, bytesOf("<html>"));
    const names = [forged, page, nameOf(picture(1)), nameOf(picture(2))];
    const report = await exchangePhotos({ shelf, peer: peerOf(hub), digest }, names);
    expect(report.refused).toEqual([
      { photo: forged, by: "us", reason: "not-its-digest" },
      { photo: page, by: "us", reason: "not-a-picture" },
    ]);
    expect([report.given, report.received, shelf.held.has(forged), hub.held.has(page)]).toEqual([1, 1, false, false]);
  });

  test("[SY-21] a picture that the hub refuses for good stops no other; a full hub stops the exchange", async () => {
    const shelf = shelfWith(picture(1), picture(2));
    const names = [picture(1), picture(2)].map(nameOf);
    const withReason = async (reason: string) => {
      const peer: PhotoPeer = {
        ...peerOf(shelfWith()),
        give: (name) =>
          Promise.resolve(name === names[0] ? err({ code: "peer-refused", status: 507, reason } as const) : ok({})),
      };
      return exchangePhotos({ shelf, peer, digest }, names);
    };
    expect(await withReason("other-photo")).toMatchObject({ given: 1, failure: undefined });
    expect(await withReason("full")).toMatchObject({ given: 0, failure: { code: "peer-refused", reason: "full" } });
  });

  test("[SY-22] what is no name of a picture is never asked for", async () => {
    const asked: string[] = [];
    const peer: PhotoPeer = {
      ...peerOf(shelfWith()),
      lacking: (names) => (asked.push(...names), Promise.resolve(ok({ lacking: [] }))),
    };
    const id = "01890a5d-ac96-774b-bcce-b302099a8057";
    await exchangePhotos({ shelf: shelfWith(), peer, digest }, ["../ledger.db", "", "x".repeat(64), id]);
    expect(asked).toEqual([id]);
    expect(isPhotoName(`${id}\n`)).toBe(false);
  });

  test("[SY-22] an answer that is none moves nothing", async () => {
    for (const answer of [undefined, null, [], { lacking: "x" }, { lacking: [1] }]) {
      const peer: PhotoPeer = { ...peerOf(shelfWith()), lacking: () => Promise.resolve(ok(answer)) };
      const report = await exchangePhotos({ shelf: shelfWith(picture(1)), peer, digest }, [nameOf(picture(1))]);
      expect(report).toMatchObject({ given: 0, failure: { code: "not-understood" } });
    }
  });

  test("[SY-42] a peer without room is not offered the rest, gives what it has, and takes them when it has room", async () => {
    const pictures = [1, 2, 3, 4].map((n) => Uint8Array.from([0xff, 0xd8, 0xff, n]));
    const [a, b, c, d] = pictures.map(nameOf) as [string, string, string, string];
    const [ours, hub] = [shelfWith(...pictures.slice(0, 3)), shelfWith(...pictures.slice(3))];
    let offered = 0;
    let hasRoom = false;
    const free = peerOf(hub);
    const peer: PhotoPeer = {
      ...free,
      give: (name, bytes) => {
        offered += 1;
        return hasRoom
          ? free.give(name, bytes)
          : Promise.resolve(err({ code: "peer-refused", status: 507, reason: "no-room-for-photos" }));
      },
    };
    const exchange = () => exchangePhotos({ shelf: ours, peer, digest }, [a, b, c, d]);
    const full = await exchange();
    const refused = [a, b, c].map((photo) => ({ photo, by: "peer", reason: "no-room-for-photos" }));
    expect(full).toMatchObject({ given: 0, received: 1, refused, more: "no", failure: undefined });
    expect(offered).toBe(1);
    hasRoom = true;
    expect(await exchange()).toMatchObject({ given: 3, refused: [], failure: undefined });
    expect([...hub.held.keys()].sort()).toEqual([a, b, c, d].sort());
  });

  describe("laws", () => {
    const steps = fc.array(
      fc.record({
        what: fc.constantFrom("take", "take", "meet", "meet", "meet", "hub-lost", "phone-lost"),
        device: fc.nat(2),
        hub: fc.nat(1),
        seed: fc.nat(1_000_000),
      }),
      { minLength: 5, maxLength: 40 },
    );
    let cut = 0;

    test("[SY-23] phones and hubs that meet in any order, with a bad signal, end with the same pictures", async () => {
      await fc.assert(
        fc.asyncProperty(steps, async (story) => {
          const phones = [0, 1, 2].map(() => shelfWith());
          const hubs = [0, 1].map(() => shelfWith());
          const names: string[] = [];
          const meet = async (device: number, hub: number, wrapped: (peer: PhotoPeer) => PhotoPeer) => {
            const shelf = present(phones[device], "a phone");
            const peer = wrapped(peerOf(present(hubs[hub], "a hub")));
            const { failure } = await exchangePhotos({ shelf, peer, digest }, names);
            cut += failure === undefined ? 0 : 1;
          };
          for (const { what, device, hub, seed } of story) {
            const phone = present(phones[device], "a phone");
            if (what === "take") {
              const taken = picture(device, seed % 256, (seed >> 8) % 256, names.length);
              names.unshift(nameOf(taken));
              phone.held.set(nameOf(taken), taken);
            } else if (what === "meet") await meet(device, hub, (peer) => shaky(peer, seed));
            else if (what === "hub-lost") present(hubs[hub], "a hub").held.clear();
            // A phone is lost with what it alone had; what others have comes back to it.
            else for (const name of phone.held.keys()) if (everybodyElse(phone, name)) phone.held.delete(name);
          }
          function everybodyElse(phone: Shelf, name: string) {
            return phones.some((other) => other !== phone && other.held.has(name));
          }
          for (let round = 0; round < 2; round++)
            for (const device of [0, 1, 2]) for (const hub of [0, 1]) await meet(device, hub, (peer) => peer);
          const want = [...names].sort();
          for (const shelf of [...phones, ...hubs]) {
            expect([...shelf.held.keys()].sort()).toEqual(want);
            for (const [name, bytes] of shelf.held) expect(nameOf(bytes)).toBe(name);
          }
        }),
        { numRuns: 80 },
      );
      expect(cut).toBeGreaterThan(50);
    });

    test("[SY-22] only the three kinds of picture are told, by how they begin", () => {
      fc.assert(
        fc.property(fc.uint8Array({ maxLength: 20 }), (bytes) => {
          const text = String.fromCharCode(...bytes);
          const slow = text.startsWith("\xff\xd8\xff")
            ? "image/jpeg"
            : text.startsWith("\x89PNG\r\n\x1a\n")
              ? "image/png"
              : /^RIFF[^]{4}WEBP/.test(text)
                ? "image/webp"
                : undefined;
          expect(pictureType(bytes)).toBe(slow);
        }),
      );
      expect(pictureType(bytesOf("RIFF\x10\x00\x00\x00WEBPVP8 "))).toBe("image/webp");
      expect(pictureType(bytesOf("RIFF\x10\x00\x00\x00WAVEfmt "))).toBeUndefined();
    });
  });

  describe("published", () => {
    test("[SY-22] pictures are told by the signatures of their descriptions", () => {
      // PNG, third edition, 5.2 and RFC 9649, 2.4 (a RIFF header with the form type WEBP); JPEG: ITU T.81 B.1.1.3, SOI.
      expect(pictureType(bytesOf("\x89PNG\r\n\x1a\n"))).toBe("image/png");
      expect(pictureType(bytesOf("RIFF\x1a\x00\x00\x00WEBP"))).toBe("image/webp");
      expect(pictureType(bytesOf("\xff\xd8\xff\xe0\x00\x10JFIF\x00"))).toBe("image/jpeg");
    });
  });
});

/** A bad line: questions and pictures that never arrive, answers that get lost. */
function shaky(peer: PhotoPeer, seed: number): PhotoPeer {
  const random = seededRandom(seed);
  const chance = (p: number) => random.next() < p;
  return {
    lacking: (names) => (chance(0.15) ? Promise.resolve(lost()) : peer.lacking(names)),
    give: async (name, bytes) => {
      if (chance(0.2)) return lost();
      const answer = await peer.give(name, bytes);
      return chance(0.2) ? lost() : answer;
    },
    ask: async (name) => (chance(0.3) ? lost() : peer.ask(name)),
  };
}

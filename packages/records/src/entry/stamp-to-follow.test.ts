import { addDays, day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fold } from "../fold/ledger.ts";
import type { Entry } from "./entry.ts";
import { anEntry, aReplacement, aStrike } from "./entry-builders.ts";
import type { Correction, Fact } from "./entry-kinds.ts";
import type { DeviceId, Stamp } from "./ids.ts";
import { nextStamp, receiveStamp } from "./stamp.ts";
import { stampToFollow } from "./stamp-to-follow.ts";

const TODAY = day("2026-03-05");
const barn = "barn" as DeviceId;
/** A clock that is a year ahead, and the right one. */
const [WRONG, NOW] = ["2027-03-05T09:00:00.000Z", "2026-03-05T09:00:00.000Z"];
const wrongly = { at: nextStamp(undefined, WRONG, barn), on: "2026-03-04" };

/** The stamp that a device whose clock is right gives, having seen these entries. */
function stampNow(seen: readonly Entry[], fact: Fact | Correction, now = NOW): Stamp {
  const own = seen.reduce<Stamp | undefined>((last, { at }) => {
    const received = receiveStamp(last, at, now);
    return received.ok ? received.value : last;
  }, undefined);
  const after = stampToFollow(seen, fact);
  return nextStamp(after === undefined || (own !== undefined && own > after) ? own : after, now, barn);
}

const rook = animalId("rook");
const goat = (name: string, over = {}) =>
  anEntry("animal", { animal: rook, name, sex: "buck" }, { on: "2026-03-04", ...over });
const setting = (value: string, over = {}) => anEntry("setting", { key: "vet", value }, { on: "2026-03-04", ...over });

describe("what is said after a clock was set right", () => {
  test("[RE-66] a setting counts, although the one before it bears a time that has not come", () => {
    const before = setting("Dr Alba", wrongly);
    const said = setting("Dr Brook");
    const at = stampNow([before], said);
    expect(at > before.at).toBe(true);
    expect(fold([before, { ...said, at }], TODAY).herd.settings.get("vet")).toBe("Dr Brook");
  });

  test("[RE-66] a second correction counts, and settles the first", () => {
    const written = goat("Rok", { at: nextStamp(undefined, NOW, barn) });
    const first = aReplacement(written.id, goat("Roock"), [], wrongly);
    const second = aReplacement(written.id, goat("Rook"), [first.id]);
    const { herd, problems } = fold([written, first, { ...second, at: stampNow([written, first], second) }], TODAY);
    expect(herd.animals.get(rook)?.name).toBe("Rook");
    expect(problems).toEqual([]);
  });

  test("[RE-66] what corrects nothing and what is a fact of its own keeps the device's own time", () => {
    const ahead = goat("Rook", wrongly);
    expect(stampToFollow([ahead], anEntry("note", { animal: rook, text: "limps" }) as Fact)).toBeUndefined();
    expect(stampToFollow([ahead], aStrike("not-here") as Correction)).toBeUndefined();
    expect(stampToFollow([ahead], setting("Dr Alba") as Fact)).toBeUndefined();
  });

  test("[RE-66] corrections in a ring come to an end", () => {
    const ring = [aStrike("b", { id: "a", ...wrongly }), aStrike("a", { id: "b" })];
    expect(stampToFollow(ring, aStrike("a") as Correction)).toBe(wrongly.at);
  });

  test("[RE-66] whatever the clocks were, the correction that is made last counts", () => {
    const clocks = fc.array(fc.integer({ min: -400, max: 400 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(clocks, fc.boolean(), (daysWrong, onTheLast) => {
        const written: Entry[] = [goat("Rook 0", { at: nextStamp(undefined, NOW, barn) })];
        for (const [k, days] of daysWrong.entries()) {
          const above = (onTheLast ? written.at(-1) : written[0]) as Entry;
          const others = onTheLast ? [] : written.slice(1).map(({ id }) => id);
          const correction = aReplacement(above.id, goat(`Rook ${k + 1}`), others);
          const now = `${addDays(TODAY, days)}T09:00:00.000Z`;
          written.push({ ...correction, at: stampNow(written, correction, now) });
        }
        const { herd } = fold(written, TODAY);
        expect(herd.animals.get(rook)?.name).toBe(`Rook ${daysWrong.length}`);
      }),
    );
  });
});

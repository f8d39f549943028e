import { addDays, type Day, present, type Random, seededRandom } from "@pollard/base";
import { animalId, type AnimalId } from "@pollard/genetics";
import type { Growth, HeadSigns } from "@pollard/husbandry";
import {
  type BodyOf,
  type DeviceId,
  type Entry,
  entryId,
  type FactKind,
  type HerdId,
  nextStamp,
  type Stamp,
} from "@pollard/records";

/** The herd's name, for whoever asks which herd is open. */
export const NAME = "Ten Years";

interface Goat {
  readonly id: AnimalId;
  readonly sex: "doe" | "buck";
  readonly genotype: "PP" | "Pp" | "pp";
}

const DOES = 30;
const BUCKS = ["pp", "Pp", "pp", "Pp"] as const;
const YEARS = 10;
/** One founder doe in three is polled. Invented, as everything here. */
const POLLED_DOES = 1 / 3;
/** From the first service of a season to the middle of its kidding, days. */
const RUT_TO_KIDDING = 165;
/** Age at which it is looked up what grew, days. */
const GROWN_DAYS = 95;

/**
 * An invented herd of some 500 goats in its tenth kidding season, as two phones wrote it down: services, kiddings, two
 * looks at every head, choices, the vet, what grew, weights.
 *
 * @param today the day on which the last entry was made, in the middle of the tenth kidding.
 */
export function tenYears(today: Day): readonly Entry[] {
  const random = seededRandom(11);
  const herd = "bench-ten-years" as HerdId;
  const phones = ["bench-phone-a" as DeviceId, "bench-phone-b" as DeviceId] as const;
  const entries: Entry[] = [];
  const due: { readonly on: Day; readonly write: () => void }[] = [];
  let stamp: Stamp | undefined;
  const write = <K extends FactKind>(kind: K, on: Day, body: BodyOf<K>): void => {
    const device = phones[random.next() < 0.5 ? 0 : 1];
    stamp = nextStamp(stamp, `${on}T12:00:00.000Z`, device);
    const chance = Uint8Array.from({ length: 10 }, () => Math.floor(random.next() * 256));
    const id = entryId(Date.parse(`${on}T12:00:00.000Z`) + entries.length, chance);
    entries.push({ v: 1, id, herd, kind, on, by: "Ines", at: stamp, device, body } as unknown as Entry);
  };
  const later = <K extends FactKind>(kind: K, on: Day, body: BodyOf<K>): void => {
    if (on <= today) due.push({ on, write: () => write(kind, on, body) });
  };

  // The tenth season's kids are being born today, whatever day it is.
  const firstRut = addDays(today, -(YEARS - 1) * 365 - RUT_TO_KIDDING);
  later("setting", firstRut, { key: "herd-name", value: NAME });
  let does: Goat[] = Array.from({ length: DOES }, (_, n) => ({
    id: animalId(`founder-doe-${n}`),
    sex: "doe",
    genotype: random.next() < POLLED_DOES ? "Pp" : "pp",
  }));
  const bucks: readonly Goat[] = BUCKS.map((genotype, n) => ({
    id: animalId(`founder-buck-${n}`),
    sex: "buck",
    genotype,
  }));
  for (const [n, { id, sex, genotype }] of [...does, ...bucks].entries()) {
    later("animal", firstRut, {
      animal: id,
      sex,
      name: `${sex === "doe" ? "Doe" : "Buck"} ${n}`,
      tag: `F${String(n).padStart(3, "0")}`,
      born: addDays(firstRut, -700),
    });
    const grew: Growth = genotype === "pp" ? "horn" : "knob";
    later("outcome", firstRut, { animal: id, left: grew, right: grew });
  }

  for (let year = 0; year < YEARS; year++) {
    const rut = addDays(firstRut, year * 365);
    const kept: Goat[] = [];
    for (const [at, doe] of does.entries()) {
      const fitting = bucks.filter((buck) => (doe.genotype === "pp") !== (buck.genotype === "pp"));
      const buck = pick(fitting, random);
      const served = addDays(rut, Math.floor(random.next() * 30));
      later("service", served, { doe: doe.id, bucks: [buck.id], way: "hand" });
      const born = addDays(served, 147 + Math.floor(random.next() * 7));
      if (born > today) continue;
      const kids = Array.from({ length: random.next() < 0.7 ? 2 : 1 }, (_, n) =>
        kidOf(`${year}-${at}-${n}`, doe, buck),
      );
      later("kidding", born, {
        dam: doe.id,
        bucks: [buck.id],
        kids: kids.map(({ id, sex }, n) => ({
          kid: id,
          sex,
          born: "alive",
          name: `Kid ${year} ${at} ${n}`,
          tag: `${String(year).padStart(2, "0")}${String(at).padStart(2, "0")}${n}`,
          weightKg: 3.2,
        })),
      });
      const keep = random.next() < 0.2 ? kids.find(({ sex }) => sex === "doe") : undefined;
      if (keep) kept.push(keep);
      for (const kid of kids) live(kid, born, kid === keep);
    }
    does = [...kept, ...does].slice(0, DOES);
  }
  for (const { write: now } of due.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))) now();
  return entries;

  function kidOf(name: string, dam: Goat, sire: Goat): Goat {
    const genes = [gene(dam), gene(sire)].sort().join("");
    return {
      id: animalId(`kid-${name}`),
      sex: random.next() < 0.5 ? "doe" : "buck",
      genotype: genes === "PP" ? "PP" : genes === "pp" ? "pp" : "Pp",
    };
  }

  function gene({ genotype }: Goat): "P" | "p" {
    return genotype === "Pp" ? (random.next() < 0.5 ? "P" : "p") : genotype === "PP" ? "P" : "p";
  }

  function live(kid: Goat, born: Day, stays: boolean): void {
    const horned = kid.genotype === "pp";
    const plain = random.next() < 0.85 ? horned : !horned;
    const signs: HeadSigns = {
      feel: { both: plain ? "pointed" : "rounded" },
      skin: { both: plain ? "held-fast" : "slides" },
      whorls: { both: horned ? "clear" : "none" },
      crown: horned ? "flat" : "rounded-cap",
    };
    later("head-reading", addDays(born, 1), { kid: kid.id, signs });
    later("weight", addDays(born, 2), { animal: kid.id, kg: 3.6, how: "weighed" });
    later("head-reading", addDays(born, 4), {
      kid: kid.id,
      signs: { feel: { both: horned ? "tip-through" : "rounded" } },
    });
    later("choice", addDays(born, 4), { kid: kid.id, choice: horned ? "vet-list" : "leave" });
    if (horned)
      later("disbudding", addDays(born, 6), {
        kid: kid.id,
        done: "both-sides",
        operator: "the vet",
        found: { left: "bud", right: "bud" },
      });
    later("weight", addDays(born, 30), { animal: kid.id, kg: 8, how: "weighed" });
    const grew: Growth = horned ? "nothing" : "knob";
    later("outcome", addDays(born, GROWN_DAYS), { animal: kid.id, left: grew, right: grew });
    if (!stays) later("departure", addDays(born, 120), { animal: kid.id, why: "sold" });
  }
}

const pick = <T>(from: readonly T[], random: Random): T =>
  present(from[Math.floor(random.next() * from.length)], "a choice");

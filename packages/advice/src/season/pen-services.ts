import { addDays, type Day, daysFrom, type Sourced } from "@pollard/base";
import type { Animal, Herd, Provenance, Service } from "@pollard/records";

/** Age in days from which a goat in a pen may breed: bucklings are parted from does at three to four months. */
const MAY_BREED: Sourced<number> = { value: 90, source: "unh-goats", checked: "read-in-source" };

/** A goat's days in one pen, both ends included. */
interface Stay {
  readonly animal: Animal;
  readonly pen: string;
  readonly from: Day;
  readonly to: Day;
  /** The move that began it. */
  readonly began: Provenance;
}

/**
 * The herd with the services that shared pens make, beside those that were entered.
 *
 * A doe and a buck in one pen on the same days is a pen service over those days, whether anybody saw a mating or not; bucks
 * that shared exactly the same days with her stand in one service. It takes the entry of whichever came in last.
 *
 * Shape:   services by day, then stamp, as before. The same herd where nobody was moved.
 * Assumes: an open stay goes on until today; kids below three months do not breed.
 * Source:  rule AD-50.
 */
export function withPenServices(herd: Herd, today: Day): Herd {
  const stays = [...herd.animals.values()].flatMap((animal) => staysOf(animal, today));
  const bucks = stays.filter(({ animal }) => animal.sex === "buck");
  if (bucks.length === 0) return herd;
  const made = stays.filter(({ animal }) => animal.sex === "doe").flatMap((doe) => servicesIn(doe, bucks));
  if (made.length === 0) return herd;
  const services = [...herd.services, ...made].sort((a, b) => compare(a.on, b.on) || compare(a.at, b.at));
  return { ...herd, services };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Where an animal was and when: each move ends the stay before it, and so does leaving the herd. */
function staysOf(animal: Animal, today: Day): readonly Stay[] {
  return animal.moves.flatMap((move, i): readonly Stay[] => {
    if (move.pen === undefined) return [];
    const ends = [animal.moves[i + 1]?.on, animal.departure?.on, today].filter((day) => day !== undefined);
    const to = ends.reduce((a, b) => (b < a ? b : a));
    const grown = animal.born === undefined ? move.on : addDays(animal.born, MAY_BREED.value);
    const from = grown > move.on ? grown : move.on;
    return from > to ? [] : [{ animal, pen: move.pen, from, to, began: move }];
  });
}

function servicesIn(doe: Stay, bucks: readonly Stay[]): readonly Service[] {
  const together = new Map<string, Service>();
  for (const buck of bucks) {
    if (buck.pen !== doe.pen) continue;
    const on = doe.from > buck.from ? doe.from : buck.from;
    const until = doe.to < buck.to ? doe.to : buck.to;
    if (daysFrom(on, until) < 0) continue;
    const last = compare(doe.began.at, buck.began.at) >= 0 ? doe.began : buck.began;
    const known = together.get(`${on} ${until}`);
    const service: Service = known ?? {
      entry: last.entry,
      by: last.by,
      at: last.at,
      time: undefined,
      on,
      until,
      doe: doe.animal.id,
      bucks: [],
      way: "pen",
    };
    together.set(`${on} ${until}`, { ...service, bucks: [...service.bucks, buck.animal.id] });
  }
  return [...together.values()];
}

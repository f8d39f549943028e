import { type ComparedKid, type Counted, countedOf } from "@pollard/advice";

/** Everything on the page is counted on one denominator (rule UI-11). */
const OF = 20;

/** The chance of horns of one of the two kids, counted as the other's is. */
export const hornsCounted = ({ kid }: ComparedKid): Counted | undefined => {
  const { belief } = kid;
  if (belief === undefined) return undefined;
  return belief.counted.sense === "proven"
    ? { ...belief.counted, of: OF, count: belief.counted.count === 0 ? 0 : OF }
    : countedOf(belief.horns, OF);
};

/** Which kid stands beside this one: the one that was asked for, else the only litter mate; otherwise it is to be chosen. */
export function besideOf(
  kid: string,
  asked: string | undefined,
  litter: readonly { readonly id: string }[],
): { readonly state: "alone" | "choose" } | { readonly state: "two"; readonly other: string } {
  const mates = litter.filter(({ id }) => id !== kid);
  if (asked !== undefined && asked !== kid) return { state: "two", other: asked };
  const [only, ...more] = mates;
  if (only === undefined) return { state: "alone" };
  return more.length === 0 ? { state: "two", other: only.id } : { state: "choose" };
}
